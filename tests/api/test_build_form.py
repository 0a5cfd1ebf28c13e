"""The build document: what is refused, at which pointer, and in which words."""

from collections.abc import Callable
from typing import Any

import pytest
from marshmallow import ValidationError

from service.api.documents.build import BuildForm
from service.api.documents.forms import pointers

FORM = BuildForm()


def refused(document: Any) -> dict[str, str]:
    """The pointers that are refused, with their details."""
    with pytest.raises(ValidationError) as refusal:
        FORM.load(document)
    return dict(pointers(refusal.value.messages))


def put(document: Any, pointer: str, value: Any) -> None:
    *steps, last = pointer.split("/")[1:]
    for step in steps:
        document = document[int(step) if isinstance(document, list) else step]
    document[int(last) if isinstance(document, list) else last] = value


# One wrong value a line; it must be refused at exactly its own place.
WRONG: list[tuple[str, Any]] = [
    ("/name", 5),
    ("/name", ""),
    ("/name", "a\nb"),
    ("/name", "a" * 81),
    ("/name", None),
    ("/units", "inches"),
    ("/region", 1),
    ("/uses", "carrying"),
    ("/parts", {}),
    ("/parts", []),
    ("/parts/0", "bottom"),
    ("/parts/0/id", "-bottom"),
    ("/parts/0/id", "a" * 61),
    ("/parts/0/id", "a/b"),
    ("/parts/0/id", "a\n"),
    ("/parts/0/quantity", 0),
    ("/parts/0/quantity", 1.5),
    ("/parts/0/quantity", True),
    ("/parts/0/quantity", "2"),
    ("/parts/0/quantity", 1001),
    ("/parts/0/length", 0),
    ("/parts/0/length", "-3"),
    ("/parts/0/length", "1,000"),
    ("/parts/0/length", "1001 ft"),
    ("/parts/0/length", "20 zork"),
    ("/parts/0/length", "10**10**10"),
    ("/parts/0/length", []),
    ("/parts/0/length", True),
    ("/parts/0/grain", "along"),
    ("/parts/0/shows", ["inside"]),
    ("/parts/0/treated", "yes"),
    ("/parts/0/moisture", "12"),
    ("/parts/0/moisture", -1),
    ("/parts/0/ends", [{"miter": 1}]),
    ("/parts/0/ends", [{"miter": 90}, {}]),
    ("/parts/0/ends", [{"long": ["top", "bottom"]}, {}]),
    ("/parts/0/edges", [{"miter": 5}, {}]),
    ("/parts/0/measured", "middle"),
    ("/parts/0/mirrored", 2),
    ("/parts/0/stock", {}),
    ("/parts/0/stock", {"width": 3}),
    ("/parts/0/stock", {"diameter": 1, "width": 3}),
    ("/parts/0/glued_from", {"boards": 1, "edge_loss": "1/16"}),
    ("/parts/0/cutouts", [{"kind": "dado"}]),
    ("/parts/0/cutouts", [{"kind": "hole", "on": "face", "width": "1"}]),
    ("/joints/0/into", 3),
    ("/joints/0/enters", "side"),
    ("/joints/0/method", "weld"),
    ("/joints/0/fastener/gauge", "#8"),
    ("/joints/0/slope", 90),
    ("/joints/0/pilot", "7/64"),
    ("/runs/0/pieces", []),
    ("/runs/0/pieces/0", {"count": 2}),
    ("/runs/0/pieces/0", {"part": "end", "gap": "1/8"}),
    ("/runs/0/fits", "20"),
    ("/runs/0/gives", "bottom"),
    ("/loads/0/carries", "40"),
    ("/loads/0/carries", "40 in"),
    ("/loads/0/held", "loosely"),
    ("/loads/0/points", [{"at": 3, "carries": "18 lb/ft"}]),
    ("/steps/0/do", "ponder"),
    ("/shop/kerf", "-1/8"),
    ("/shop/saws/0/miter_to", 91),
    ("/buying/price_list/currency", "dollars"),
    ("/buying/price_list/prices/0/price", 11.4),
    ("/buying/price_list/prices/0/price", "$11.40"),
    ("/buying/price_list/prices/0/per", "yard"),
    ("/buying/offcuts/0/defects", [{"from": 3, "to": 2}]),
    ("/place/where", "mars"),
    ("/place/temperature", 68),
    ("/place/humidity", 101),
    ("/stands", {"encloses": 6}),
    ("/moving", [{"kind": "wheel"}]),
    ("/people", {"youngest": -1}),
    ("/stocks", {"1x8": {"moisture": "wet"}}),
    ("/shapes", [{"id": "a", "shape": "blob"}]),
    ("/shapes", [{"id": "a", "shape": "leaning", "parts": {"wheel": ["a"]}}]),
    ("/shapes", [{"id": "a", "shape": "leaning", "slant": "3"}]),
]
INSIDE = {
    "/parts/0/ends": {"#/parts/0/ends", "#/parts/0/ends/0/miter", "#/parts/0/ends/0/long"},
    "/parts/0/edges": {"#/parts/0/edges/0/miter"},
    "/parts/0/shows": {"#/parts/0/shows/0"},
    "/parts/0/glued_from": {"#/parts/0/glued_from/boards"},
    "/parts/0/cutouts": {"#/parts/0/cutouts/0/on", "#/parts/0/cutouts/0/width"},
    "/loads/0/points": {"#/loads/0/points/0/carries"},
    "/buying/offcuts/0/defects": {"#/buying/offcuts/0/defects/0/to"},
    "/runs/0/pieces/0": {"#/runs/0/pieces/0", "#/runs/0/pieces/0/gap"},
    "/stands": {"#/stands/encloses"},
    "/moving": {"#/moving/0/kind"},
    "/people": {"#/people/youngest"},
    "/stocks": {"#/stocks/1x8/moisture"},
    "/shapes": {"#/shapes/0/shape", "#/shapes/0/parts/wheel", "#/shapes/0/slant"},
}


@pytest.mark.parametrize(("pointer", "value"), WRONG, ids=[f"{p}={v!r}" for p, v in WRONG])
def test_a_wrong_value_is_refused_at_its_own_place(tote: Any, pointer: str, value: Any) -> None:
    put(tote, pointer, value)
    found = refused(tote)
    assert len(found) == 1
    assert set(found) <= INSIDE.get(pointer, set()) | {f"#{pointer}"}


OBJECTS = [
    "", "/place", "/parts/0", "/joints/0", "/joints/0/fastener", "/runs/0", "/runs/0/pieces/0",
    "/runs/0/equals", "/loads/0", "/steps/0", "/shop", "/shop/saws/0", "/buying",
    "/buying/price_list", "/buying/price_list/prices/0", "/buying/offcuts/0", "/buying/planned/0",
]  # fmt: skip


@pytest.mark.parametrize("pointer", OBJECTS)
def test_an_unknown_field_is_refused_by_name_in_every_object(tote: Any, pointer: str) -> None:
    _add(tote, pointer, "colour")
    assert set(refused(tote)) == {f"#{pointer}/colour"}


def _add(document: Any, pointer: str, name: str) -> None:
    for step in pointer.split("/")[1:]:
        document = document[int(step) if isinstance(document, list) else step]
    document[name] = 1


@pytest.mark.parametrize(
    ("pointer", "typed", "meant"),
    [
        ("/parts/0", "lenght", "length"),
        ("/joints/0", "throught", "through"),
        ("/runs/0", "equal", "equals"),
        ("", "part", "parts"),
    ],
)
def test_an_unknown_field_is_answered_with_the_nearest_one(
    tote: Any, pointer: str, typed: str, meant: str
) -> None:
    _add(tote, pointer, typed)
    assert refused(tote)[f"#{pointer}/{typed}"].endswith(f'did you mean "{meant}"?')


def test_a_word_that_is_not_known_is_answered_with_all_and_the_nearest(tote: Any) -> None:
    tote["joints"][0]["method"] = "screws"
    detail = refused(tote)["#/joints/0/method"]
    assert 'did you mean "screw"?' in detail and "pocket-screw" in detail


def test_every_fault_is_told_at_once_in_the_order_of_the_document(tote: Any) -> None:
    tote["units"], tote["parts"][2]["length"], tote["runs"][0]["within"] = "ft", 0, "x"
    assert list(refused(tote)) == ["#/units", "#/parts/2/length", "#/runs/0/within"]


def test_a_pointer_escapes_what_a_fragment_can_not_hold(tote: Any) -> None:
    tote["a/b~c d\u00e9"] = 1
    assert list(refused(tote)) == ["#/a~1b~0c%20d%C3%A9"]


REQUIRED = ["#/name", "#/parts"]


def test_what_is_required_is_named() -> None:
    assert list(refused({})) == REQUIRED


def test_an_object_of_junk_is_refused_as_a_whole(tote: Any) -> None:
    tote["parts"][0].update({f"x{n}": n for n in range(1000)})
    assert list(refused(tote)) == ["#/parts/0"]


@pytest.mark.parametrize(
    "break_it",
    [
        lambda run: run.pop("equals"),
        lambda run: run.update(fits="21 1/2"),
    ],
    ids=["neither", "both"],
)
def test_a_run_says_either_equals_or_fits(tote: Any, break_it: Callable[[Any], Any]) -> None:
    break_it(tote["runs"][0])
    (pointer,) = refused(tote)
    assert pointer.startswith("#/runs/0")
