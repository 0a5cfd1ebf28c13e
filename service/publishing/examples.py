"""The examples asked of the application itself, for the answers that the description shows."""

from collections.abc import Mapping
from typing import Any
from urllib.parse import quote, urlencode

from flask import Flask
from werkzeug.test import TestResponse

from service.api.described.operations import Example
from service.api.documents.schemas import Json
from service.publishing.document import Place

EDITION = "0123456789ab"  # stands for the edition of the day, which changes with any table


class NotAnswered(Exception):
    """An example of the description is refused by the application."""


def target_of(place: Place, example: Example) -> str:
    """Path and query of an example."""
    path, query = place.path, dict(example.given)
    for name in place.variables:
        path = path.replace(f"{{{name}}}", quote(query.pop(name), safe=""))
    if place.variant:
        query = {name: value for name, value in query.items() if value != place.variant}
    return f"{path}?{urlencode(query)}" if query else path


def ask(app: Flask, place: Place, example: Example) -> TestResponse:
    """The example asked of the application."""
    return app.test_client().open(
        target_of(place, example), method=place.method.upper(), json=example.body
    )


def shown(answer: Any) -> Any:
    """An answer as the description shows it: without the edition of the day."""
    if isinstance(answer, dict) and "edition" in answer:
        return answer | {"edition": EDITION}
    return answer


def answers_of(app: Flask, place: Place) -> Mapping[str, Json]:
    """The JSON answers to the examples of a place, by name. Raises NotAnswered."""
    answers: dict[str, Json] = {}
    for name, example in place.examples.items():
        response = ask(app, place, example)
        if response.status_code != 200:
            raise NotAnswered(f"{place.id}, {name}: {response.get_data(as_text=True)}")
        if response.mimetype == "application/json" and not example.long:
            answers[name] = shown(response.get_json())
    return answers
