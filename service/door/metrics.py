"""Counts and times for Prometheus, added up over all processes, at GET /metrics.

The client library decides when it is imported whether processes share a folder, so it is imported
only where metrics are wanted, after `service/serving.py` has made that folder.
"""

import os
from collections.abc import Callable
from dataclasses import dataclass
from ipaddress import ip_address
from typing import Any

from flask import Blueprint, Response, request
from werkzeug.exceptions import NotFound

from service.api.described.operations import SERVICE, Operation, described_as

FOLDER = "PROMETHEUS_MULTIPROC_DIR"
SECONDS = (0.001, 0.0025, 0.005, 0.01, 0.025, 0.05, 0.1, 0.25, 1.0, 5.0, 30.0)


@dataclass(frozen=True, slots=True)
class Metrics:
    """What is counted, and a page of it. The children by labels are kept: finding them is dear."""

    requests: Any
    seconds: Any
    busy: Any
    page: Callable[[], tuple[bytes, str]]
    _known: dict[tuple[str, str, int], tuple[Any, Any]]

    def count(self, method: str, route: str, status: int, seconds: float) -> None:
        """One request that has been answered."""
        key = method, route, status
        known = self._known.get(key)
        if known is None:
            labels = self.requests.labels(method, route, str(status))
            known = self._known[key] = labels, self.seconds.labels(route)
        known[0].inc()
        known[1].observe(seconds)


def metrics_of_this_process() -> Metrics:
    """New counts; those of other processes are added where they share a folder."""
    import prometheus_client as prometheus  # noqa: PLC0415  # see above
    from prometheus_client.multiprocess import MultiProcessCollector  # noqa: PLC0415

    registry = prometheus.CollectorRegistry()

    def page() -> tuple[bytes, str]:
        shown = registry
        if os.environ.get(FOLDER):
            shown = prometheus.CollectorRegistry()
            MultiProcessCollector(shown)  # type: ignore[no-untyped-call]
        return prometheus.generate_latest(shown), prometheus.CONTENT_TYPE_LATEST

    return Metrics(
        requests=prometheus.Counter(
            "dryfit_requests", "Requests answered.", ("method", "route", "status"),
            registry=registry,
        ),
        seconds=prometheus.Histogram(
            "dryfit_request_seconds", "Seconds from the first look at a request to its answer.",
            ("route",), registry=registry, buckets=SECONDS,
        ),
        busy=prometheus.Gauge(
            "dryfit_requests_in_progress", "Requests being answered now.",
            registry=registry, multiprocess_mode="livesum",
        ),
        page=page,
        _known={},
    )  # fmt: skip


def page_of(metrics: Metrics | None, readers: str) -> Blueprint:
    """The page, for this machine (`loopback`) or for `all`; to others it is not there."""
    routes = Blueprint("metrics", __name__)

    @routes.get("/metrics")
    @described_as(Operation(
        "showMetrics", "How many requests were answered, and how quickly?",
        "Counts and times of all processes in the text form of Prometheus. Who may read them is a "
        "setting of the service; for anybody else there is nothing here.",
        {"type": "string"}, SERVICE, forms=(), media=("text/plain",), refusals=(NotFound,),
        setting="DRYFIT_METRICS",
    ))  # fmt: skip
    def show_metrics() -> Response:
        """Every count in Prometheus' text form."""
        if metrics is None or (readers != "all" and not from_this_machine()):
            raise NotFound
        content, media_type = metrics.page()
        response = Response(content, content_type=media_type)
        response.headers["Cache-Control"] = "no-store"
        return response

    return routes


def from_this_machine() -> bool:
    """Whether the caller is on this machine, and no proxy stands between that nobody told us of."""
    if "X-Forwarded-For" in request.headers or "Forwarded" in request.headers:
        return False
    try:
        return ip_address(request.remote_addr or "").is_loopback
    except ValueError:
        return False
