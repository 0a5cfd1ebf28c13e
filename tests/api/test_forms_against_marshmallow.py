"""A form reads by itself what marshmallow would read with it: same values, same refusals.

marshmallow's own way of loading is the oracle, for thousands of documents with something wrong.
"""

import copy
import json
from collections.abc import Iterator
from pathlib import Path
from random import Random
from typing import Any

import pytest
from marshmallow import Schema, ValidationError, fields

from service.api.documents.build import BuildForm
from service.api.documents.forms import Form
from service.api.documents.gathered import Object, Several
from tests.checking.sound import sound_build

TOTE = json.loads((Path(__file__).parent / "tote.json").read_text())
SHAPED = {
    "name": "Shaped", "units": "mm",
    "parts": [{"id": "leg", "stock": {"thickness": 38, "width": 38}, "quantity": 4,
               "length": "400 mm", "wood": "oak", "moisture": 9, "shows": ["front", "ends"],
               "ends": [{"miter": 10, "long": ["top"]}, {"bevel": 5, "long": ["front"]}],
               "ends_lean": "same", "mirrored": 2, "edges": [{"bevel": 5}, {}],
               "glued_from": {"boards": 2, "edge_loss": 1.5},
               "cutouts": [{"kind": "hole", "on": "face", "at": [20, "30 mm"], "diameter": 8},
                           {"kind": "slot", "on": "end", "width": 6, "depth": 5, "for": "leg"}]}],
    "shapes": [{"id": "splay", "shape": "splayed-legs", "parts": {"leg": ["leg"]}, "height": 390,
                "lean": 10, "top_outside": "300x250", "turned": False},
               {"id": "row", "shape": "row", "opening": 900, "pieces": 5, "ends": "half"},
               {"id": "cut", "shape": "ends", "length": 200, "miter": [10, 10]}],
    "loads": [{"part": "leg", "points": [{"at": 10, "carries": "20 kg"}], "limit": "L/240",
               "stiffened_by": [{"part": "leg", "joined": "glued"}], "stiffness": "9.7 GPa"},
              {"part": "leg", "carries": "18 lb/ft", "supports": [0, 100], "limit": "eye"}],
    "place": {"where": "damp", "temperature": "20 C", "humidity": 50,
              "wall": {"kind": "studs", "studs": "16 in"}},
    "stands": {"height": 900, "encloses": "170 L", "kept_square_by": ["back"]},
    "moving": [{"kind": "lid", "held_open": True}], "people": {"youngest": 4},
    "stocks": {"1x4": {"wood": "pine", "treated": True, "measured_width": 88}},
    "buying": {"price_list": {"currency": "EUR", "prices": [{"stock": "1x4", "price": "4.10"}]},
               "offcuts": [{"stock": "1x4", "length": 900, "for": ["leg"],
                            "defects": [{"from": 3, "to": 20}]}],
               "store_cuts": {"free": 2, "each": "0.50"}, "tax_percent": "19"},
}  # fmt: skip
STRAYS: tuple[Any, ...] = (
    None, True, 0, 1, -1, 2.0, 3.5, 1e300, "", " ", "20", "20 3/4", "18 mm", "1/0", "9" * 70, "a",
    "x" * 90, "\u00be in", "face", "length", "screw", "40 lb", "68F", "16x20in", "L/240", "mm",
    [], [None], ["a", 3], {}, {"miter": 45}, {"part": "a", "size": 3}, {"thickness": "3/4"},
    {"diameter": "1", "width": 2}, {"_schema": 1},
)  # fmt: skip
SOUND = 60
NAMES = ("id", "stock", "length", "part", "size", "gap", "fits", "long", "for", "lenght", "_schema")
DOCUMENTS = 2000


def places(value: Any) -> Iterator[tuple[Any, Any]]:
    """Every place in a document, as what holds it and the name or index there."""
    inner = value.items() if isinstance(value, dict) else enumerate(value)
    for name, one in inner:
        yield value, name
        if isinstance(one, dict | list):
            yield from places(one)


def spoiled(document: Any, random: Random) -> Any:
    """The document with one to three things in it left out, put in, or put elsewhere."""
    document = copy.deepcopy(document)
    for _ in range(random.randint(1, 3)):
        spots = list(places(document))
        if not spots:
            break
        holder, name = random.choice(spots)
        stray = copy.deepcopy(random.choice(STRAYS))
        match random.randrange(5):
            case 0:
                del holder[name]
            case 1 | 2:
                holder[name] = stray
            case 3 if isinstance(holder, dict):
                holder[random.choice(NAMES)] = stray
            case _:
                other, there = random.choice(spots)
                has = other.get(there) if isinstance(other, dict) else (*other, None)[there]
                holder[name] = copy.deepcopy(has)
    return document


def documents() -> Iterator[Any]:
    random = Random(20)
    bases = [TOTE, SHAPED, *(sound_build(n) for n in range(SOUND))]
    yield from bases
    for n in range(DOCUMENTS):
        yield spoiled(bases[n % 2 if n % 3 else n % len(bases)], random)
    yield from STRAYS


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
    assert all(kind == "read" for kind, _ in ours[: 2 + SOUND])
    refused = sum(kind == "refused" for kind, _ in ours)
    assert DOCUMENTS // 3 < refused < DOCUMENTS  # the documents try both outcomes
