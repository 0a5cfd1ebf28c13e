"""Whatever JSON comes, the answer is a check or a refusal, never an error of ours."""

import json
from pathlib import Path
from typing import Any

from flask import Flask
from hypothesis import given, settings
from hypothesis import strategies as st

from service.api.documents.build import BuildForm
from service.api.documents.forms import Form

TOTE = Path(__file__).parent / "tote.json"
SCALARS = (
    st.none()
    | st.booleans()
    | st.integers()
    | st.floats(allow_nan=False, allow_infinity=False)
    | st.text(st.characters(exclude_categories=("Cs",)), max_size=12)
    | st.sampled_from(
        ["1x6", "20", "20 3/4", "18 mm", "a", "b", "face", "screw", "40 lb", "68F", "16x20in",
         "in", "mm", "us", "1e9", "1/0", "\u0000", "9" * 70, "-1", "0", "\u00be in", "cut"]
    )
)  # fmt: skip
JSON = st.recursive(
    SCALARS,
    lambda inner: (
        st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=8), inner, max_size=3)
    ),
    max_leaves=8,
)


def names_of(form: Form) -> list[str]:
    return [field.data_key or name for name, field in form.load_fields.items()]


FIELDS = {
    "": names_of(BuildForm()),
    "parts": ["id", "stock", "length", "quantity", "width", "thickness", "ends", "cutouts", "wood",
              "edges", "ends_lean", "measured", "glued_from", "mirrored", "moisture"],
    "joints": ["id", "through", "into", "touches", "enters", "method", "fastener", "count"],
    "runs": ["id", "pieces", "equals", "fits", "within", "gives", "clearance"],
    "shapes": ["id", "shape", "parts", "within", "height", "lean"],
    "loads": ["part", "carries", "points", "supports", "span"],
    "steps": ["do", "parts", "joints", "minutes"],
    "shop": ["saws", "tools", "kerf"],
    "buying": ["price_list", "offcuts", "planned", "budget"],
}  # fmt: skip
LISTS = {"parts", "joints", "runs", "shapes", "loads", "steps"}


@st.composite
def nearly_builds(draw: st.DrawFn) -> Any:
    """A build with right names in the right places and anything for values."""
    build: dict[str, Any] = {"name": "a", "parts": [{"id": "a", "stock": "1x6", "length": "20"}]}
    for name in draw(st.lists(st.sampled_from(FIELDS[""]), max_size=4, unique=True)):
        if name not in FIELDS or draw(st.integers(0, 4)) == 0:
            build[name] = draw(JSON)
            continue
        item = st.dictionaries(st.sampled_from(FIELDS[name]), JSON, max_size=6)
        build[name] = draw(st.lists(item, max_size=3) if name in LISTS else item)
    return build


def assert_answered(app: Flask, document: Any, query: str = "") -> None:
    body = json.dumps(document).encode()
    response = app.test_client().post(
        f"/v1/check{query}", data=body, content_type="application/json"
    )
    assert response.status_code in (200, 400, 422), response.text
    if response.status_code == 200:
        assert response.json["verdict"] in ("mend-first", "look", "nothing-found")
        assert response.json["not_judged"]
    else:
        assert response.mimetype == "application/problem+json"
        assert response.status_code == 400 or response.json["errors"]


@settings(max_examples=300)
@given(document=JSON)
def test_any_json_is_answered(app: Flask, document: Any) -> None:
    assert_answered(app, document)


@settings(max_examples=1000)
@given(document=nearly_builds())
def test_anything_that_is_nearly_a_build_is_answered(app: Flask, document: Any) -> None:
    assert_answered(app, document, "?mended=true")


WORDS = {
    "id": ["a", "b", "c"],
    "stock": ["1x6", "1x4", "2x4", "1x5", "mdf 3/4", "5/4x6", "4/4"],
    "length": ["20", "3", "1/2", "120", "300 mm"],
    "width": ["5 1/2", "6", "3", "1/4"],
    "thickness": ["3/4", "1", "1/2"],
}
ENDS = st.fixed_dictionaries(
    {},
    optional={
        "miter": st.integers(0, 89),
        "bevel": st.integers(0, 89),
        "long": st.lists(st.sampled_from(["top", "bottom", "front", "back"]), max_size=2),
    },
)
CUTOUTS = st.fixed_dictionaries(
    {
        "kind": st.sampled_from(["slot", "dado", "rabbet", "lap", "notch"]),
        "on": st.sampled_from(["face", "back", "edge", "end"]),
    },
    optional={
        "at": st.lists(st.sampled_from(["0", "3", "30"]), max_size=2),
        "width": st.sampled_from(WORDS["width"]),
        "depth": st.sampled_from(WORDS["thickness"]),
        "for": st.sampled_from(WORDS["id"]),
    },
)
PARTS = st.fixed_dictionaries(
    {"id": st.sampled_from(WORDS["id"]), "stock": st.sampled_from(WORDS["stock"])},
    optional={
        "length": st.sampled_from(WORDS["length"]),
        "width": st.sampled_from(WORDS["width"]),
        "thickness": st.sampled_from(WORDS["thickness"]),
        "quantity": st.integers(1, 4),
        "ends": st.lists(ENDS, min_size=2, max_size=2),
        "edges": st.lists(
            st.fixed_dictionaries({"bevel": st.integers(0, 89)}), min_size=2, max_size=2
        ),
        "ends_lean": st.sampled_from(["opposite", "same"]),
        "measured": st.sampled_from(
            ["long-to-long", "short-to-short", "long-to-short", "short-to-long", "center"]
        ),
        "measured_on": st.sampled_from(["front", "back"]),
        "measured_width": st.sampled_from(WORDS["width"]),
        "cutouts": st.lists(CUTOUTS, max_size=2),
        "grain": st.sampled_from(["length", "width", "any"]),
    },
)
PIECES = st.fixed_dictionaries(
    {"part": st.sampled_from(WORDS["id"])},
    optional={
        "along": st.sampled_from(["length", "width", "thickness", "rise", "reach"]),
        "count": st.integers(1, 3),
        "less": st.booleans(),
        "lean": st.integers(0, 89),
        "let_in": st.sampled_from(["0", "1/4", "30"]),
    },
)
RUNS = st.fixed_dictionaries(
    {"id": st.sampled_from(["r", "s"]), "pieces": st.lists(PIECES, min_size=1, max_size=3)}
).flatmap(
    lambda run: st.sampled_from([{"equals": "20"}, {"fits": "20"}, {"equals": {"part": "b"}}]).map(
        lambda end: run | end
    )
)
BUILDS = st.fixed_dictionaries(
    {
        "name": st.just("a"),
        "units": st.sampled_from(["in", "mm"]),
        "parts": st.lists(PARTS, min_size=1, max_size=4),
        "runs": st.lists(RUNS, max_size=3),
    }
)


@settings(max_examples=1000)
@given(document=BUILDS)
def test_a_build_that_is_right_in_form_and_wild_in_substance_is_checked(
    app: Flask, document: Any
) -> None:
    assert_answered(app, document, "?mended=true")


@st.composite
def spoiled_bodies(draw: st.DrawFn) -> bytes:
    """The bytes of a whole build with a few of them changed, dropped or doubled."""
    body = bytearray(TOTE.read_bytes())
    for _ in range(draw(st.integers(1, 4))):
        place = draw(st.integers(0, len(body) - 1))
        piece = draw(st.binary(max_size=4) | st.sampled_from([b'"', b"[", b"{", b",", b"9" * 400]))
        body[place : place + draw(st.integers(0, 3))] = piece
    return bytes(body)


@settings(max_examples=500)
@given(body=spoiled_bodies() | st.binary(max_size=60))
def test_spoiled_bytes_are_answered(app: Flask, body: bytes) -> None:
    response = app.test_client().post("/v1/check", data=body, content_type="application/json")
    assert response.status_code in (200, 400, 422)
    if response.status_code != 200:
        assert response.mimetype == "application/problem+json"
