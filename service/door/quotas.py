"""How many requests one address may send in a time, and the fields that say so.

Windows follow the clock, so that one count a request is all that a store is asked for, and every
process agrees when a window ends. A store that is lost or slow is left alone for some seconds;
until then this process counts for itself, and nobody is told off or kept waiting for it.
"""

import logging
from collections.abc import Iterable
from dataclasses import dataclass, field
from functools import lru_cache
from ipaddress import IPv6Address, ip_address
from math import ceil
from time import monotonic, time
from typing import TYPE_CHECKING

from flask import Response, g, request

from service.api.refusals import QuotaExceeded
from service.door.tallies import Tally
from service.settings import Settings

if TYPE_CHECKING:  # the library is loaded where rates are set, not on everybody's own machine
    from limits import RateLimitItem
    from limits.storage import Storage

AUTO = {"all": "600/minute", "post": "120/minute"}
EXEMPT = frozenset({"/healthz", "/readyz", "/metrics"})
PATIENCE = 0.1  # seconds to wait for a store
LEFT_ALONE = 5.0  # seconds for which a store that failed is not asked again

log = logging.getLogger("dryfit.quotas")


@dataclass(frozen=True, slots=True)
class Policy:
    """So many requests in so many seconds, for all methods or for POST alone."""

    name: str
    most: int
    seconds: int
    post_only: bool = False

    @property
    def field(self) -> str:
        """As the field RateLimit-Policy says it."""
        return f'"{self.name}";q={self.most};w={self.seconds}'


@dataclass(frozen=True, slots=True)
class Standing:
    """How an address stands with a policy: the requests left, negative when over, and seconds
    until it starts anew."""

    policy: Policy
    left: int
    seconds: int

    @property
    def field(self) -> str:
        """As the field RateLimit says it."""
        return f'"{self.policy.name}";r={max(0, self.left)};t={self.seconds}'


@dataclass(slots=True)
class Counter:
    """Counts in a shared store while it answers, else in this process."""

    store: "Storage | None"
    own: Tally = field(default_factory=Tally)
    left_alone_until: float = 0.0

    def count(self, key: str, seconds: int) -> int:
        """One more for a key; how many it has had."""
        if self.store is not None and monotonic() >= self.left_alone_until:
            from limits.errors import StorageError  # noqa: PLC0415  # only where it is used

            try:
                return self.store.incr(key, seconds)
            except StorageError as lost:
                self.left_alone_until = monotonic() + LEFT_ALONE
                log.warning("requests are counted here: %s", type(lost.storage_error).__name__)
        return self.own.incr(key, seconds)


@dataclass(frozen=True, slots=True)
class Quotas:
    """The policies in force, and the counter that they share."""

    policies: tuple[Policy, ...]
    counter: Counter

    def admit(self) -> None:
        """Count this request. Raises QuotaExceeded when the address has sent too many."""
        if not self.policies or request.path in EXEMPT:
            return
        address = counted_as(request.remote_addr or "")
        g.standing = standing = tuple(self._standings(address))
        over = [one for one in standing if one.left < 0]
        if over:
            raise QuotaExceeded(
                "Wait as long as Retry-After says, in seconds.",
                [one.policy.name for one in over],
                max(one.seconds for one in over),
            )

    def _standings(self, address: str) -> Iterable[Standing]:
        now = time()
        for policy in self.policies:
            if policy.post_only and request.method != "POST":
                continue
            window, into = divmod(now, policy.seconds)
            sent = self.counter.count(f"{policy.name}/{address}/{window:.0f}", policy.seconds)
            yield Standing(policy, policy.most - sent, ceil(policy.seconds - into))

    def mark(self, response: Response) -> None:
        """Say the policies and what is left of them."""
        standing: tuple[Standing, ...] = g.get("standing", ())
        if standing:
            said = response.headers
            said["RateLimit-Policy"] = ", ".join(one.policy.field for one in standing)
            said["RateLimit"] = ", ".join(one.field for one in standing)


@lru_cache(maxsize=4096)
def counted_as(address: str) -> str:
    """The address by which requests are counted: a whole /64 of IPv6 belongs to one place."""
    try:
        known = ip_address(address)
    except ValueError:
        return "unknown"
    if not isinstance(known, IPv6Address):
        return address
    if known.ipv4_mapped is not None:
        return str(known.ipv4_mapped)
    return f"{IPv6Address(int(known) >> 64 << 64)}/64"


def quotas_of(settings: Settings) -> Quotas:
    """The quotas that the settings ask for; none where only this machine can connect."""
    asked = {"all": settings.rate, "post": settings.rate_post}
    automatic = "off" if only_here(settings) else None
    rates = {
        name: (automatic or AUTO[name]) if rate == "auto" else rate for name, rate in asked.items()
    }
    stated = {name: rate for name, rate in rates.items() if rate != "off"}
    if not stated:
        return Quotas((), Counter(None))
    from limits import parse  # noqa: PLC0415  # only where it is used

    policies = tuple(policy_of(name, parse(rate)) for name, rate in stated.items())
    return Quotas(policies, Counter(store_at(settings.counted_in)))


def policy_of(name: str, item: "RateLimitItem") -> Policy:
    """A policy by what the library has read."""
    return Policy(name, item.amount, item.get_expiry(), post_only=name == "post")


def only_here(settings: Settings) -> bool:
    """Whether nobody but this machine itself can connect."""
    loopback = settings.bind == "localhost" or settings.bind.startswith(("127.", "[::1]"))
    return loopback and settings.proxies == 0


def store_at(address: str) -> "Storage | None":
    """The shared store, asked with little patience; None for this process alone."""
    if address == "memory":
        return None
    from limits.storage import RedisStorage  # noqa: PLC0415  # only where it is used

    return RedisStorage(
        address,
        wrap_exceptions=True,
        key_prefix="dryfit",
        socket_timeout=PATIENCE,
        socket_connect_timeout=PATIENCE,
        retry=None,  # type: ignore[arg-type]  # handed on to the client, which takes it
    )
