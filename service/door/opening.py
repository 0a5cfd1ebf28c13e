"""Everything at the door, put around an app in one order."""

from dataclasses import dataclass
from logging import INFO
from time import perf_counter

from flask import Flask, Response, g, request
from werkzeug.middleware.proxy_fix import ProxyFix

from service.api.request_ids import HEADER, request_id
from service.domain.deadline import begin, end
from service.door import lines, metrics, security_txt
from service.door.headers import set_headers
from service.door.metrics import Metrics
from service.door.origins import Origins, origins_of
from service.door.quotas import Quotas, quotas_of
from service.settings import Settings

METHODS = frozenset({"GET", "HEAD", "POST", "OPTIONS", "PUT", "PATCH", "DELETE"})
NO_ROUTE = "unknown"  # a word of ours where the address is none: callers can't fill the log


@dataclass(frozen=True, slots=True)
class Door:
    """What stands at the door of one app."""

    seconds: float
    origins: Origins
    quotas: Quotas
    metrics: Metrics | None

    def arrive(self) -> Response | None:
        """Before a question is asked: the clock runs, and who may not come in is told so."""
        g.arrived = perf_counter()
        if self.metrics:
            self.metrics.busy.inc()
        begin(self.seconds)
        answer = self.origins.preflight()
        if answer is None:
            self.quotas.admit()
        return answer

    def leave(self, response: Response) -> Response:
        """After it is answered: the fields that every answer has, a count, and a line."""
        set_headers(response)
        id = request_id()
        response.headers.add(HEADER, id)
        self.origins.mark(response)
        self.quotas.mark(response)
        self._note(response, id)
        return response

    def _note(self, response: Response, id: str) -> None:
        seconds = perf_counter() - g.arrived
        method = request.method if request.method in METHODS else "other"
        route = request.url_rule.rule if request.url_rule else NO_ROUTE
        if self.metrics:
            self.metrics.busy.dec()
            self.metrics.count(method, route, response.status_code, seconds)
        if lines.requests.isEnabledFor(INFO):
            lines.note_request({
                "method": method,
                "route": route,
                "status": response.status_code,
                "ms": round(seconds * 1000, 2),
                "bytes": response.calculate_content_length(),
                "id": id,
            })  # fmt: skip


def open_door(app: Flask, settings: Settings) -> None:
    """Put everything at the door of an app. Call it when every question has its address."""
    counted = None if settings.metrics == "off" else metrics.metrics_of_this_process()
    door = Door(
        float(settings.deadline), origins_of(settings.origins), quotas_of(settings), counted
    )
    app.before_request(door.arrive)
    app.after_request(door.leave)
    app.teardown_request(lambda _error: end())
    app.register_blueprint(metrics.page_of(counted, settings.metrics))
    app.register_blueprint(security_txt.page_of(settings.contact))
    if settings.proxies:
        count = settings.proxies
        proxied = ProxyFix(app.wsgi_app, x_for=count, x_proto=count, x_host=count)
        app.wsgi_app = proxied  # type: ignore[method-assign]  # as Flask says to wrap it
