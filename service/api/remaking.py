"""A build made over: read with what is asked of it, restated, resized, written anew."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from marshmallow import ValidationError, validates_schema

from service.api.documents.fields import UNITS, Id, Length, Text, Units
from service.api.documents.forms import Form
from service.api.documents.gathered import Named, Object, Several
from service.api.documents.telling import told
from service.api.house import house
from service.api.reading import read_as
from service.api.restating import restated
from service.api.rewriting import rewritten
from service.domain.build import Build
from service.domain.resizing.answer import Resized, Resizing
from service.domain.resizing.resize import resize


class RealSizeForm(Form):
    """What a stock really measures."""

    demands = ({"minProperties": 1},)

    thickness = Length(
        metadata=told("What it measures in thickness.", "18 mm", left_out="as before")
    )
    width = Length(metadata=told("What it measures in width.", "220 mm", left_out="as before"))

    @validates_schema
    def _something(self, data: dict[str, Any], **_: Any) -> None:
        if not data:
            raise ValidationError("Say thickness, width or both.")


class MadeOverForm(Form):
    """Another size, stock or region; bare numbers in it are in the units of the build."""

    to = Named(
        Id(),
        Length(),
        200,
        metadata=told(
            "The new size of each run that changes, by its id.", {"width": "18"}, left_out="no run"
        ),
    )
    stock = Named(
        Text(),
        Object(RealSizeForm),
        100,
        metadata=told(
            "What stocks really measure, by their names.",
            {"1x12": {"thickness": "18 mm", "width": "220 mm"}},
            left_out="as the tables have it",
        ),
    )
    region = Text(
        metadata=told(
            "The region to build it in: its stocks and fasteners are taken instead.",
            "eu",
            left_out="the region of the build",
        )
    )
    cut = Several(
        Id(),
        0,
        500,
        metadata=told(
            "Ids of parts that are cut already and must stay.", ["end"], left_out="none is"
        ),
    )


@dataclass(frozen=True, slots=True)
class Remade:
    """The document made over, what the resize did, and the units that it had before."""

    document: Any
    resized: Resized
    was: Units


def read_wanted(form: Form, document: Any, wanted: Mapping[str, Any]) -> dict[str, Any]:
    """What is asked of a build, bare numbers in the build's units."""
    before = UNITS.set("mm" if document.get("units") == "mm" else "in")
    try:
        data: dict[str, Any] = read_as(form, wanted)
    finally:
        UNITS.reset(before)
    return data


def remake(
    document: Any, build: Build, wanted: Mapping[str, Any], units: Units | None, to_tape: bool
) -> Remade:
    """The build in another size, of other stock, in another region or other units.

    `build` is the document as read, `wanted` what is asked, read. Raises CannotResize.
    """
    form = house().build_form
    into: Units = units or build.units
    document = restated(form, document, into)
    stock = {
        name: (size.get("thickness"), size.get("width"))
        for name, size in wanted.get("stock", {}).items()
    }
    resizing = Resizing(
        wanted.get("to", {}), stock, wanted.get("region"), frozenset(wanted.get("cut", ())), to_tape
    )
    resized = resize(read_as(form, document), resizing, house().catalog)
    return Remade(rewritten(document, resized.changed, into == "mm"), resized, build.units)
