"""The log: one line a request, JSON, that nothing a caller sends can break or fill."""

import json
import logging
import logging.config
import sys
from collections.abc import Iterator
from io import StringIO

import pytest

from service.door.lines import JsonLine, logging_to_errors
from tests.door.conftest import Asking


@pytest.fixture
def written() -> Iterator[StringIO]:
    """What the service logs at the level `info`."""
    stream = StringIO()
    handler = logging.StreamHandler(stream)
    handler.setFormatter(JsonLine())
    logger = logging.getLogger("dryfit")
    level = logger.level
    logger.addHandler(handler)
    logger.setLevel(logging.INFO)
    yield stream
    logger.removeHandler(handler)
    logger.setLevel(level)


def test_a_request_is_one_line(asking: Asking, written: StringIO) -> None:
    answer = asking().get("/v1/sizes/1x8?format=text", headers={"X-Request-Id": "mine"})
    (line,) = map(json.loads, written.getvalue().splitlines())
    assert line["method"] == "GET"
    assert line["route"] == "/v1/sizes/<path:stock>"
    assert line["status"] == 200
    assert line["bytes"] == len(answer.data)
    assert line["id"] == "mine"
    assert line["level"] == "info"
    assert line["ms"] > 0


HOSTILE = '/v1/sizes/1x8%0A{"level":"error"}%0D%0A%1b[31m\u2028'


@pytest.mark.parametrize("path", [HOSTILE, "/" + "a" * 5000, '/x"y', "/nowhere%00"])
@pytest.mark.parametrize("method", ["GET", "BREW", 'X"\\'])
def test_nothing_of_what_a_caller_sends_is_in_the_line(
    asking: Asking, written: StringIO, path: str, method: str
) -> None:
    headers = {"X-Request-Id": 'a"b', "User-Agent": "\x1b[31m", "Referer": "secret"}
    asking().open(path, method=method, headers=headers, data=b"secret")
    (line,) = written.getvalue().splitlines()
    assert len(line) < 300
    assert set(json.loads(line)) == {
        "time", "level", "from", "method", "route", "status", "ms", "bytes", "id",
    }  # fmt: skip
    assert not {"secret", "BREW", "aaaa", "[31m", "nowhere"} & set(line.replace('"', " ").split())
    assert "secret" not in line and "\x1b" not in line


def test_an_error_and_its_traceback_are_one_line() -> None:
    try:
        raise ValueError('two\nlines "and" a quote')
    except ValueError:
        record = logging.LogRecord(
            "dryfit", logging.ERROR, __file__, 1, "went\n%s", ("wrong",), sys.exc_info()
        )
    line = JsonLine().format(record)
    assert "\n" not in line
    said = json.loads(line)
    assert said["message"] == "went\nwrong"
    assert 'ValueError: two\nlines "and" a quote' in said["traceback"]


def test_the_level_is_the_one_that_is_set() -> None:
    for level in ("debug", "info", "warning", "error"):
        chosen = logging_to_errors(level)
        assert chosen["loggers"]["dryfit"]["level"] == level.upper()
        logging.config.DictConfigurator(chosen)  # type: ignore[no-untyped-call]
