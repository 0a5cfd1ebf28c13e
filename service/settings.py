"""Everything that the surroundings may decide, read from the environment once.

May import: the standard library only.
"""

import sys
from collections.abc import Callable, Mapping
from dataclasses import dataclass, fields
from pathlib import Path

PROJECT = Path(__file__).resolve().parent.parent


class BadSetting(ValueError):
    """A value in the environment makes no sense; the message says which and what would."""


@dataclass(frozen=True, slots=True)
class Settings:
    """What the service runs with. Sizes in bytes."""

    port: int
    bind: str
    reference_url: str
    workers: int
    threads: int
    max_body: int
    max_parts: int


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
        if not (text.isascii() and text.isdigit() and least <= int(text[:12]) <= most):
            raise ValueError(f"must be a whole number from {least} to {most}")
        return int(text)

    return read


def _address(text: str) -> str:
    if not text or not text.isprintable() or " " in text or "/" in text:
        raise ValueError("must be an address or a host name, such as 127.0.0.1")
    return text


def _database(text: str) -> str:
    scheme, separator, _rest = text.partition("://")
    if not separator or scheme.split("+")[0] not in ("sqlite", "postgresql"):
        raise ValueError("must be a sqlite:// or postgresql:// database address")
    return text


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
