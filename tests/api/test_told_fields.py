"""Every field of the build says what it is for, with values that it reads."""

from collections.abc import Iterator
from typing import Any

import pytest
from marshmallow import Schema, fields

from service.api.documents.build import BuildForm
from service.api.documents.gathered import Either, EitherForm, Named, Object, Several
from service.api.documents.measures import MEASURES
from service.api.documents.shapes import form_of
from service.api.resize import ResizeForm

Told = tuple[str, fields.Field[Any]]


def forms_in(form: Schema, seen: dict[str, Schema]) -> dict[str, Schema]:
    """A form and every form inside it, by the name of its class."""
    name = type(form).__name__
    if name not in seen:
        seen[name] = form
        for field in form.fields.values():
            for inner in inner_forms(field):
                forms_in(inner, seen)
    return seen


def inner_forms(field: fields.Field[Any]) -> Iterator[Schema]:
    if isinstance(field, Object):
        yield field.schema
    elif isinstance(field, EitherForm):
        yield field.object.schema
    elif isinstance(field, Several | Named):
        yield from inner_forms(field.inner)
    elif isinstance(field, Either):
        for kind in field.kinds:
            yield from inner_forms(kind)


def every_field() -> Iterator[Told]:
    forms = forms_in(BuildForm(), {})
    forms_in(ResizeForm(), forms)
    for shape in MEASURES:
        forms[f"shape {shape}"] = form_of(shape)
    for name, form in forms.items():
        for key, field in form.fields.items():
            yield f"{name}.{field.data_key or key}", field


EVERY = dict(every_field())


def test_the_whole_document_is_walked() -> None:
    named = {name.split(".")[0] for name in EVERY}
    assert {"BuildForm", "PartForm", "CutoutForm", "PointForm", "DefectForm", "WallForm"} <= named
    assert {"ResizeForm", "RealSizeForm"} <= named


@pytest.mark.parametrize("name", EVERY)
def test_a_field_says_in_one_sentence_what_it_is_for(name: str) -> None:
    meant = EVERY[name].metadata
    description = meant["description"]
    assert description.endswith("."), name
    assert description.count(". ") == 0, "one sentence"
    assert 10 <= len(description) <= 100


@pytest.mark.parametrize("name", EVERY)
def test_a_field_shows_values_that_it_reads(name: str) -> None:
    field = EVERY[name]
    examples = field.metadata.get("examples", ())
    assert examples or name.endswith(".shape"), "the kind of shape is one of the words it lists"
    for example in examples:
        field.deserialize(example)


@pytest.mark.parametrize("name", EVERY)
def test_a_field_that_may_be_left_out_says_what_holds_then(name: str) -> None:
    field = EVERY[name]
    shape = name.startswith("shape ")  # a shape's measures are asked for by what it figures
    if field.required:
        assert "left_out" not in field.metadata
    elif not shape:
        assert field.metadata["left_out"]
