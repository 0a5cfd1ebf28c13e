"""The schemas of documents and the forms that read them: two judges, one verdict."""

import unicodedata
from collections import Counter
from random import Random
from typing import Any

import jsonschema_rs
import pytest
from marshmallow import ValidationError

from service.api.documents.build import BuildForm
from service.api.documents.fields import Text
from service.api.documents.forms import Form, pointers
from service.api.documents.schemas import BEYOND_SCHEMAS, PRINTABLE, request_schema
from service.api.resize import ResizeForm
from tests.api.mutating import VALUES, Json, mutated, samples

ROUNDS, EACH = 10, 600
RESIZE: Json = {
    "to": {"length": "18"}, "stock": {"1x12": {"thickness": "18 mm", "width": "220 mm"}},
    "region": "us", "units": "mm", "cut": ["end"],
}  # fmt: skip


def said_against(form: Form, document: Any) -> list[str]:
    """What the form refuses; nothing where it reads the document."""
    try:
        form.load(document)
    except ValidationError as refusal:
        return [detail for _, detail in pointers(refusal.messages)]
    return []


def agree(gate: Any, form: Form, document: Any) -> str:
    """How the two judged: alike, or the form alone refused what no schema can say."""
    passes, said = gate.is_valid(document), said_against(form, document)
    if passes and said:
        beyond = [why for why in BEYOND_SCHEMAS if any(why in text for text in said)]
        assert beyond, (said, document)
        return "beyond"
    if not passes:
        assert said, ([error.message for error in gate.iter_errors(document)][:3], document)
    return "valid" if passes else "refused"


@pytest.mark.parametrize("round_", range(ROUNDS))
def test_a_changed_build_is_judged_alike(round_: int) -> None:
    random, form, builds = Random(round_), BuildForm(), samples()
    gate = jsonschema_rs.validator_for(request_schema(form))
    verdicts = Counter(
        agree(gate, form, mutated(random.choice(builds), random)) for _ in range(EACH)
    )
    # Mutants that all fall on one side would test one judge only.
    assert verdicts["valid"] > EACH // 10 and verdicts["refused"] > EACH // 10
    assert verdicts["beyond"] < EACH // 10


def test_a_changed_resize_is_judged_alike() -> None:
    random, form = Random(8), ResizeForm()
    gate = jsonschema_rs.validator_for(request_schema(form))
    verdicts = Counter(agree(gate, form, mutated(RESIZE, random)) for _ in range(3000))
    assert verdicts["valid"] > 300 and verdicts["refused"] > 300


@pytest.mark.parametrize("value", [*VALUES, [], "text", 3])
def test_what_is_no_build_at_all_is_judged_alike(value: Any) -> None:
    gate = jsonschema_rs.validator_for(request_schema(BuildForm()))
    assert not gate.is_valid(value) and said_against(BuildForm(), value)


@pytest.mark.parametrize("build", samples(), ids=lambda build: str(build["name"]))
def test_every_sample_is_of_the_schema(build: Json) -> None:
    gate = jsonschema_rs.validator_for(request_schema(BuildForm()))
    assert [error.message for error in gate.iter_errors(build)] == []


def test_text_is_of_characters_that_can_be_seen() -> None:
    # Code points without a character in the oldest of the tables in use are left to the form.
    gate = jsonschema_rs.validator_for({"type": "string", "pattern": PRINTABLE})
    for point in range(0x10000):
        letter = chr(point)
        if unicodedata.category(letter) in ("Cn", "Cs"):
            continue
        reads = said_against_text(letter) == ""
        assert gate.is_valid(letter) == reads, hex(point)


def said_against_text(text: str) -> str:
    try:
        Text().deserialize(text)
    except ValidationError as refusal:
        return str(refusal.messages)
    return ""


def test_a_gate_of_fewer_parts_follows_the_setting() -> None:
    schema = request_schema(BuildForm(most_parts=3))
    assert schema["properties"]["parts"]["maxItems"] == 3
