"""Everything that the surroundings may decide, read from the environment once.

May import: the standard library only.
"""

import re
import sys
from collections.abc import Callable, Mapping
from dataclasses import dataclass, fields
from ipaddress import ip_address
from pathlib import Path

PROJECT = Path(__file__).resolve().parent.parent
LONGEST_WHOLE = 12  # digits


class BadSetting(ValueError):
    """A value in the environment makes no sense; the message says which and what would."""


@dataclass(frozen=True, slots=True)
class Settings:
    """What the service runs with. Sizes in bytes, times in seconds.

    Texts are as given: a rate (`600/minute`, `auto`, `off`), where requests are counted (`memory`
    or a redis address), and the origins, parted by commas, or `none`.
    """

    port: int
    bind: str
    reference_url: str
    workers: int
    threads: int
    max_body: int
    max_parts: int
    deadline: int
    proxies: int
    rate: str
    rate_post: str
    counted_in: str
    origins: str
    log: str
    metrics: str
    contact: str


@dataclass(frozen=True, slots=True)
class Setting:
    """One line of the table in the README: variable, field of Settings, default, meaning."""

    name: str
    field: str
    default: str
    meaning: str
    read: Callable[[str], int | str]


def _whole(least: int, most: int) -> Callable[[str], int]:
    def read(text: str) -> int:
        digits = text.isascii() and text.isdigit() and len(text) <= LONGEST_WHOLE
        if not digits or not least <= int(text) <= most:
            raise ValueError(f"must be a whole number from {least} to {most}")
        return int(text)

    return read


def _address(text: str) -> str:
    """An address or a host name as it stands before `:port`: one of IPv6 in brackets."""
    try:
        return (
            f"[{ip_address(text.removeprefix('[').removesuffix(']'))}]"
            if ":" in text
            else _host(text)
        )
    except ValueError:
        raise ValueError("must be an address or a host name, such as 127.0.0.1") from None


def _host(text: str) -> str:
    if not text.isprintable() or " " in text or "/" in text:
        raise ValueError
    return text


def _database(text: str) -> str:
    scheme, separator, _rest = text.partition("://")
    if not separator or scheme.split("+")[0] not in ("sqlite", "postgresql"):
        raise ValueError("must be a sqlite:// or postgresql:// database address")
    return text


def _one_of(*words: str) -> Callable[[str], str]:
    def read(text: str) -> str:
        if text not in words:
            raise ValueError(f"must be one of {', '.join(words)}")
        return text

    return read


def _matching(pattern: str, otherwise: str) -> Callable[[str], str]:
    def read(text: str) -> str:
        if len(text) > 2000 or not re.fullmatch(pattern, text):
            raise ValueError(f"must be {otherwise}")
        return text

    return read


ORIGIN = r"https?://[a-z0-9.-]{1,253}(?::[1-9][0-9]{0,4})?"
_rate = _matching(
    "auto|off|[1-9][0-9]{0,8}/(?:second|minute|hour|day)", "auto, off, or like 600/minute"
)
_store = _matching("memory|(?:rediss?|redis\\+unix)://[!-~]{1,500}", "memory or a redis:// address")
_origins = _matching(
    f"none|{ORIGIN}(?:,{ORIGIN}){{0,19}}", "none, or origins such as https://dryfit.test"
)
_contact = _matching(
    r"none|(?:mailto:|https:/{2})[!-~]{3,200}", "none, or a mailto: or https: address"
)

TABLE = (
    Setting("PORT", "port", "8000", "port to listen on", _whole(1, 65_535)),
    Setting("DRYFIT_BIND", "bind", "127.0.0.1", "address to listen on", _address),
    Setting(
        "DRYFIT_REFERENCE_URL",
        "reference_url",
        f"sqlite:///{PROJECT / '.dryfit' / 'reference.sqlite'}",
        "database that holds the reference tables; by default a file in the project",
        _database,
    ),
    Setting("DRYFIT_WORKERS", "workers", "2", "processes that answer", _whole(1, 64)),
    Setting("DRYFIT_THREADS", "threads", "4", "threads in each process", _whole(1, 64)),
    Setting(
        "DRYFIT_MAX_BODY",
        "max_body",
        "1048576",
        "largest request body in bytes; a longer one is refused with 413",
        _whole(1_024, 64 * 1_048_576),
    ),
    Setting(
        "DRYFIT_MAX_PARTS",
        "max_parts",
        "500",
        "most lines of a parts list; a longer one is refused with 422",
        _whole(1, 10_000),
    ),
    Setting(
        "DRYFIT_DEADLINE",
        "deadline",
        "30",
        "most seconds to work on one answer; over it comes 503, or the best cut plan so far",
        _whole(1, 600),
    ),
    Setting(
        "DRYFIT_PROXIES",
        "proxies",
        "0",
        "proxies in front whose `X-Forwarded-` headers are believed",
        _whole(0, 9),
    ),
    Setting(
        "DRYFIT_RATE",
        "rate",
        "auto",
        "requests that one address may send, such as `600/minute`, or `off`; "
        "`auto` is that, and off where only this machine can connect",
        _rate,
    ),
    Setting(
        "DRYFIT_RATE_POST",
        "rate_post",
        "auto",
        "the same for POST alone; `auto` is `120/minute`, or off as above",
        _rate,
    ),
    Setting(
        "DRYFIT_RATE_STORE",
        "counted_in",
        "memory",
        "where requests are counted: `memory`, each process for itself, or a `redis://` address",
        _store,
    ),
    Setting(
        "DRYFIT_ORIGINS",
        "origins",
        "none",
        "origins whose pages may call this service from a browser, parted by commas",
        _origins,
    ),
    Setting(
        "DRYFIT_LOG",
        "log",
        "info",
        "least level that is logged: `debug`, `info` (a line a request), `warning` or `error`",
        _one_of("debug", "info", "warning", "error"),
    ),
    Setting(
        "DRYFIT_METRICS",
        "metrics",
        "off",
        "who may read `/metrics`: nobody (`off`), this machine (`loopback`), anybody (`all`)",
        _one_of("off", "loopback", "all"),
    ),
    Setting(
        "DRYFIT_SECURITY_CONTACT",
        "contact",
        "none",
        "`mailto:` or `https:` address named in `/.well-known/security.txt`",
        _contact,
    ),
)


def read_settings(environment: Mapping[str, str]) -> Settings:
    """Settings from environment variables; what is unset or empty takes its default.

    Raises BadSetting, naming the variable and what it may be.
    """
    values: dict[str, int | str] = {}
    for setting in TABLE:
        text = environment.get(setting.name) or setting.default
        try:
            values[setting.field] = setting.read(text)
        except ValueError as refusal:
            raise BadSetting(f"{setting.name} {refusal}, not {text[:80]!r}") from None
    assert set(values) == {field.name for field in fields(Settings)}
    return Settings(**values)  # type: ignore[arg-type]  # the table pairs each field with its reader


def settings_or_exit(environment: Mapping[str, str]) -> Settings:
    """Settings for a command: what is wrong is said in one line, and the command ends with 2."""
    try:
        return read_settings(environment)
    except BadSetting as refusal:
        print(refusal, file=sys.stderr)
        sys.exit(2)
