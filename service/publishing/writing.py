"""The description as a file: written, or held against the one that is there or was released."""

import sys
from collections.abc import Sequence
from functools import partial
from pathlib import Path
from typing import Any

import orjson
from flask import Flask

from service.api.documents.schemas import Json
from service.publishing.breaking import breaks
from service.publishing.document import described
from service.publishing.examples import answers_of

USAGE = "usage: publish-openapi [--check | --check-against FILE | --release FILE]"


def document(app: Flask) -> Json:
    """The whole description, with answers to its examples. Raises NotAnswered and LookupError."""
    return described(app, partial(answers_of, app))


def without_examples(value: Any) -> Any:
    """A description, or a part of it, as a release keeps it: what can't break is left out."""
    if isinstance(value, list):
        return [without_examples(each) for each in value]
    if not isinstance(value, dict):
        return value
    return {
        name: without_examples(inner)
        for name, inner in value.items()
        if name not in ("examples", "example") or not isinstance(inner, list | dict)
    }


def content_of(document: Json) -> bytes:
    """The description as its file holds it."""
    return orjson.dumps(document, option=orjson.OPT_INDENT_2 | orjson.OPT_APPEND_NEWLINE)


def run(app: Flask, path: Path, arguments: Sequence[str]) -> int:
    """Write the description, or check it; 0, 1 where a check fails, 2 for other arguments."""
    made = document(app)
    match arguments:
        case []:
            path.parent.mkdir(exist_ok=True)
            path.write_bytes(content_of(made))
            return 0
        case ["--check"]:
            return _told(
                [] if path.read_bytes() == content_of(made) else [f"{path} is not current"]
            )
        case ["--release", file]:
            Path(file).parent.mkdir(exist_ok=True)
            Path(file).write_bytes(orjson.dumps(without_examples(made)) + b"\n")
            return 0
        case ["--check-against", file]:
            return _told(breaks(orjson.loads(Path(file).read_bytes()), made))
        case _:
            return _told([USAGE], 2)


def _told(lines: Sequence[str], status: int = 1) -> int:
    for line in lines:
        print(line, file=sys.stderr)
    return status if lines else 0
