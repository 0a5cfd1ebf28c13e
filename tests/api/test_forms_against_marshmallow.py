"""A form reads by itself what marshmallow would read with it: same values, same refusals.

marshmallow's own way of loading is the oracle, for thousands of documents with something wrong.
"""

import json
from collections.abc import Iterator
from random import Random
from typing import Any

import pytest
from marshmallow import Schema, ValidationError, fields

from service.api.documents.build import BuildForm
from service.api.documents.forms import Form
from service.api.documents.gathered import Object, Several
from tests.api.mutating import VALUES, mutated, samples
from tests.checking.sound import sound_build

SOUND, CHANGED = 60, 2000


def documents() -> Iterator[Any]:
    """What is right, then what is not a build at all, then builds with something changed."""
    random = Random(20)
    builds = [*samples(), *(sound_build(n) for n in range(SOUND))]
    yield from builds
    yield from VALUES
    yield from (mutated(random.choice(builds), random) for _ in range(CHANGED))


def outcome(form: Form, document: Any) -> tuple[str, Any]:
    """The value, or every message at its place, as text so that order counts too."""
    try:
        return "read", form.load(document)
    except ValidationError as refusal:
        return "refused", json.dumps(refusal.messages)


def by_marshmallow(monkeypatch: pytest.MonkeyPatch) -> None:
    """Let marshmallow load forms, objects and lists; what is kept is the limit on their size."""
    own = Form.load

    def load(self: Form, data: Any, **options: Any) -> Any:
        if isinstance(data, dict) and len(data) > len(self.load_fields) + 20:
            return own(self, data)
        return Schema.load(self, data)

    def several(self: Several, value: Any, attr: Any, data: Any, **options: Any) -> Any:
        if isinstance(value, list) and not self.least <= len(value) <= self.most:
            return listed(self, value, attr, data)
        return tuple(fields.List._deserialize(self, value, attr, data, **options))

    listed = Several._deserialize
    monkeypatch.setattr(Form, "load", load)
    monkeypatch.setattr(Several, "_deserialize", several)
    monkeypatch.setattr(Object, "_deserialize", fields.Nested._deserialize)


def test_forms_read_what_marshmallow_reads(monkeypatch: pytest.MonkeyPatch) -> None:
    form, every = BuildForm(), list(documents())
    ours = [outcome(form, document) for document in every]
    by_marshmallow(monkeypatch)
    for document, found in zip(every, ours, strict=True):
        assert found == outcome(form, document), json.dumps(document)[:2000]
    refused = sum(kind == "refused" for kind, _ in ours[-CHANGED:])
    assert CHANGED // 3 < refused < CHANGED  # what was changed tries both outcomes
