"""The schemas of documents and the forms that read them: two judges, one verdict."""

import itertools
import unicodedata
from collections import Counter
from collections.abc import Iterator
from random import Random
from typing import Any

import jsonschema_rs
import pytest
from marshmallow import ValidationError

from service.api.documents.build import BuildForm
from service.api.documents.fields import Text
from service.api.documents.forms import Form, pointers
from service.api.documents.gathered import Named, Object, Several, WordSet
from service.api.documents.measures import MEASURES
from service.api.documents.schemas import BEYOND_SCHEMAS, PRINTABLE, Book
from service.api.documents.shapes import AnyShape, form_of
from service.api.resize import ResizeForm
from tests.api.mutating import VALUES, Json, mutated, samples

ROUNDS, EACH = 6, 500
RESIZE: Json = {
    "to": {"length": "18"}, "stock": {"1x12": {"thickness": "18 mm", "width": "220 mm"}},
    "region": "us", "units": "mm", "cut": ["end"],
}  # fmt: skip


def request_schema(form: Form) -> Json:
    """The schema of one whole document, standing alone."""
    book = Book()
    return book.whole(book.object_of(form))


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


def forms_in(field: Any) -> Iterator[Form]:
    """The forms that a field holds, however deep."""
    if isinstance(field, AnyShape):
        yield from (form_of(shape) for shape in MEASURES)
    if isinstance(field, Object):
        yield field.schema  # type: ignore[misc]  # every schema here is a form
        for inner in field.schema.load_fields.values():
            yield from forms_in(inner)
    for inner in (getattr(field, "inner", None), getattr(field, "object", None)):
        if inner is not None:
            yield from forms_in(inner)


def every_form() -> list[Form]:
    top: list[Form] = [BuildForm(), ResizeForm()]
    held = [f for form in top for field in form.load_fields.values() for f in forms_in(field)]
    return list({type(form): form for form in [*top, *held]}.values())


ITEMS = (
    *VALUES, {"at": 1, "carries": "9 lb"}, {"part": "a", "joined": "glued"}, {"kind": "saw"},
    {"stock": "1x4", "length": 9}, {"stock": "1x4", "price": "1"}, {"do": "cut"}, {"kind": "lid"},
    {"id": "a", "stock": "1x4"}, {"id": "a", "through": "a", "into": "b"}, {"part": "a"},
    {"id": "a", "pieces": [{"size": 1}], "fits": 3}, {"from": 0, "to": 1}, {"size": 1},
    {"id": "p", "shape": "prop"}, {"boards": 2, "edge_loss": 0}, {"currency": "EUR", "prices": []},
)  # fmt: skip


def tried(schema: Json, field: Any) -> Iterator[Any]:
    """Values to try on a field: the common ones, and those to both sides of its own limits."""
    yield from ITEMS
    for bound in ("minimum", "maximum", "exclusiveMinimum", "exclusiveMaximum"):
        if bound in schema:
            yield from (schema[bound] + step for step in (-1, -0.5, 0, 0.5, 1))
    yield from schema.get("enum", ())
    if isinstance(field, WordSet):
        yield from (list(words) for words in itertools.permutations(field.inner.words, 2))
        yield [field.inner.words[0]] * (field.most + 1)
    elif isinstance(field, Several):
        item = next((v for v in ITEMS if reads(field.inner, v)), None)
        for count in (field.least - 1, field.least, field.most, field.most + 1):
            yield [item] * max(count, 0)
    elif isinstance(field, Named):
        item = next(v for v in ITEMS if reads(field.inner, v))
        names = getattr(field.names, "words", None) or [f"n{i}" for i in range(field.most + 1)]
        yield from (dict.fromkeys(names[:n], item) for n in (0, 1, field.most, field.most + 1))
        yield from ({name: item} for name in ("", "a\nb", "leg", "x" * 81))
        yield {names[0]: {"nonsense": 1}}


def reads(field: Any, value: Any) -> bool:
    try:
        field.deserialize(value)
    except ValidationError:
        return False
    return True


@pytest.mark.parametrize("form", every_form(), ids=lambda form: type(form).__name__)
def test_each_field_is_judged_alike(form: Form) -> None:
    for name, field in form.load_fields.items():
        book = Book()
        schema = book.whole(book.field(field))
        gate = jsonschema_rs.validator_for(schema)
        resolved = book.schemas.get(schema.get("$ref", "").rpartition("/")[2], schema)
        verdicts = set()
        for value in tried(resolved, field):
            passes, read = gate.is_valid(value), reads(field, value)
            if passes and not read:
                assert beyond_schemas(field, value), (name, value)
            else:
                assert passes == read, (name, value)
            verdicts.add(passes)
        assert verdicts == {True, False}, f"{name}: {verdicts}"


def beyond_schemas(field: Any, value: Any) -> bool:
    with pytest.raises(ValidationError) as refused:
        field.deserialize(value)
    said = str(refused.value.messages)
    return any(why in said for why in BEYOND_SCHEMAS)


@pytest.mark.parametrize("form", every_form(), ids=lambda form: type(form).__name__)
def test_fields_that_go_together_are_judged_alike(form: Form) -> None:
    gate = jsonschema_rs.validator_for(request_schema(form))
    held = {field.data_key or name: field for name, field in form.load_fields.items()}
    valid = {name: [v for v in ITEMS if reads(field, v)][:6] for name, field in held.items()}
    required = [name for name, field in held.items() if field.required]
    random = Random(type(form).__name__)
    for size in (0, 1, 2, 3):
        for names in itertools.islice(itertools.combinations(held, size), 800):
            chosen = {*required, *names} - {random.choice([*held, ""])}
            document = {name: random.choice(valid[name] or [None]) for name in chosen}
            agree(gate, form, document)
    assert not gate.is_valid({"nonsense": 1}) and said_against(form, {"nonsense": 1})
