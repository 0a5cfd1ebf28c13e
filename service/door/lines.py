"""The log: one JSON object a line, for machines to read.

A request's line says the method, the route (not the address, which may hold a caller's words), the
status, milliseconds, bytes and its id. Addresses of callers and bodies are never written down.
"""

import logging
from collections.abc import Mapping
from datetime import UTC, datetime
from typing import Any

import orjson

requests = logging.getLogger("dryfit.requests")


def note_request(said: Mapping[str, Any]) -> None:
    """Write the line of a request. The record is made here: `info` would first walk up the calls to
    name the place in the code, which no line says."""
    requests.handle(logging.LogRecord(requests.name, logging.INFO, "", 0, said, None, None))


class JsonLine(logging.Formatter):
    """A record as one line of JSON: whatever stands in it can't begin another."""

    def format(self, record: logging.LogRecord) -> str:
        """Time in UTC, level, logger, and the fields or the message; a traceback in one text."""
        said: dict[str, Any] = {
            "time": datetime.fromtimestamp(record.created, UTC).isoformat(timespec="milliseconds"),
            "level": record.levelname.lower(),
            "from": record.name,
        }
        if isinstance(record.msg, Mapping):
            said |= record.msg
        else:
            said["message"] = record.getMessage()
        if record.exc_info:
            said["traceback"] = self.formatException(record.exc_info)
        return orjson.dumps(said, default=str, option=orjson.OPT_NON_STR_KEYS).decode()


def logging_to_errors(level: str) -> dict[str, Any]:
    """What logging.config takes: every logger writes such lines to the standard error."""
    return {
        "version": 1,
        "disable_existing_loggers": False,
        "formatters": {"json": {"()": JsonLine}},
        "handlers": {
            "lines": {
                "class": "logging.StreamHandler",
                "formatter": "json",
                "stream": "ext://sys.stderr",
            }
        },
        "root": {"level": "WARNING", "handlers": ["lines"]},
        "loggers": {
            "dryfit": {"level": level.upper()},
            "gunicorn.error": {"level": "WARNING", "propagate": True, "handlers": []},
            "gunicorn.access": {"level": "ERROR", "propagate": False, "handlers": []},
        },
    }
