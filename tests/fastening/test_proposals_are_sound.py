"""Whatever is proposed passes the whole check: options, substitutes and mends."""

import json
from collections import Counter
from copy import deepcopy
from typing import Any

import pytest

from service.api.documents.build import BuildForm
from service.domain.catalog import Catalog
from service.domain.checking import check
from service.domain.fastening.advising import BY_HAND, advise
from service.domain.fastening.proposing import Option
from service.domain.fastening.refastening import fields_of
from service.domain.fastening.tooling import CLAMPS, DRILLS, POWERED
from service.domain.resolving import resolve
from tests.fastening.random_joints import TOOLS, joint_build

Json = dict[str, Any]

JOINTS = 2400
BATCHES = 8
FORM = BuildForm()
SIZES = ("surface", "thickness", "depth", "narrow", "wide")
LEFT_OUT = {"clamps": CLAMPS, "drill": DRILLS, BY_HAND: POWERED}


def taken(document: Json, option: Option) -> Json:
    """The build with an option written into its joint, as an author would paste it."""
    written = deepcopy(document)
    metric = document["units"] == "mm"
    joint = written["joints"][0]
    joint |= json.loads(json.dumps(fields_of(option.choice.fixing, metric)))
    if not option.choice.fixing.slope:
        joint.pop("slope", None)
    if not option.choice.fixing.sunk:
        joint.pop("sunk", None)
    return written


def grave(document: Json, catalog: Catalog) -> list[tuple[str, str, str]]:
    found = check(FORM.load(document), catalog).findings
    return [(f.code, f.at, f.detail) for f in found if f.severity != "note"]


@pytest.mark.parametrize("batch", range(BATCHES))
def test_every_option_passes_the_whole_check(catalog: Catalog, batch: int) -> None:
    for seed in range(batch, JOINTS, BATCHES):
        document = joint_build(seed)
        before = grave(document, catalog)
        advice = advise(resolve(FORM.load(document), catalog))[0]
        for option in advice.suggestions.options:
            after = grave(taken(document, option), catalog)
            assert [one for one in after if one not in before] == [], (seed, option)


def test_every_method_is_proposed_often_enough_to_be_tried(catalog: Catalog) -> None:
    seen: Counter[str] = Counter()
    for seed in range(600):
        advice = advise(resolve(FORM.load(joint_build(seed)), catalog))[0]
        seen.update(option.method for option in advice.suggestions.options)
    assert set(seen) == {
        "screw", "pocket-screw", "dowel", "brad", "finish-nail", "nail", "staple", "glue"
    }  # fmt: skip
    assert min(seen.values()) >= 15, seen


@pytest.mark.parametrize("batch", range(4))
def test_every_substitute_passes_without_the_tool(catalog: Catalog, batch: int) -> None:
    tried = 0
    for seed in range(batch, 800, 4):
        document = joint_build(seed)
        before = grave(document, catalog)
        advice = advise(resolve(FORM.load(document), catalog))[0]
        for substitute in advice.suggestions.substitutes:
            if substitute.option is None:
                continue
            tried += 1
            left_out = LEFT_OUT.get(substitute.without, {substitute.without})
            assert not left_out & set(substitute.option.choice.tools)
            written = taken(document, substitute.option)
            written["shop"] = {"tools": sorted({*TOOLS, *DRILLS, *CLAMPS} - left_out)}
            after = check(FORM.load(written), catalog).findings
            worse = [f for f in after if f.severity != "note" or f.code == "fastener.no-tool"]
            new = [f for f in worse if (f.code, f.at, f.detail) not in before]
            assert new == [], (seed, substitute)
    assert tried > 200


def test_a_joint_of_common_boards_always_has_a_way(catalog: Catalog) -> None:
    """Two 3/4 in boards go together in whichever way they meet, with a hammer or with a drill."""
    for touches in ("face", "edge", "end"):
        for enters in ("face", "edge", "end"):
            for tools in (["drill"], ["hammer"], ["clamps", "drill"]):
                document = {
                    "name": "Two boards", "units": "in", "wood": "spf", "shop": {"tools": tools},
                    "parts": [
                        {"id": "first", "stock": "1x2", "length": "20"},
                        {"id": "second", "stock": "1x4", "length": "20"},
                    ],
                    "joints": [{"id": "j", "through": "first", "into": "second",
                                "touches": touches, "enters": enters}],
                }  # fmt: skip
                advice = advise(resolve(FORM.load(document), catalog))[0]
                assert advice.suggestions.options, (touches, enters, tools)


def test_without_a_brad_nailer_the_answer_is_complete(catalog: Catalog) -> None:
    """A back on a case, in a shop with a drill and clamps: nails by hand, screws or glue."""
    document = {
        "name": "Back", "units": "in", "wood": "spf", "shop": {"tools": ["drill", "clamps"]},
        "parts": [
            {"id": "back", "stock": "plywood 1/4", "length": "20", "width": "12"},
            {"id": "side", "stock": "1x8", "length": "20"},
        ],
        "joints": [{"id": "j", "through": "back", "into": "side", "touches": "face",
                    "enters": "edge", "method": "brad",
                    "fastener": {"gauge": 18, "length": "1"}, "glue": "pva-interior"}],
    }  # fmt: skip
    checked = check(FORM.load(document), catalog)
    found = next(f for f in checked.findings if f.code == "fastener.no-tool")
    assert found.severity == "note"
    assert found.mend is not None and found.mend.changes
    told = advise(resolve(FORM.load(document), catalog))[0].suggestions
    assert {"screw", "finish-nail", "glue"} <= {option.method for option in told.options}
    assert "no brad nailer at hand" in {out.why for out in told.ruled_out}


def test_what_is_kept_for_one_joint_is_never_told_of_another(catalog: Catalog) -> None:
    """Joints that share an answer share every size: a width of 3 in is no length of 3 in."""
    keys: dict[tuple[object, ...], Json] = {}
    for seed in range(1500):
        document = joint_build(seed)
        judged = resolve(FORM.load(document), catalog).judged_joints[0]
        assert judged.meeting is not None
        told = {
            side: tuple(getattr(getattr(judged.meeting, side), size) for size in SIZES)
            for side in ("through", "into")
        }
        assert keys.setdefault(judged.key, told) == told


def test_a_missing_width_is_told_from_a_missing_length(catalog: Catalog) -> None:
    keys = set()
    for missing in ("width", "length"):
        panel = {"id": "second", "stock": {"thickness": "3/4"}, "width": "20", "length": "20"}
        del panel[missing]
        document = {
            "name": "Two", "parts": [{"id": "first", "stock": "1x4", "length": "20"}, panel],
            "joints": [{"id": "j", "through": "first", "into": "second", "enters": "face"}],
        }  # fmt: skip
        keys.add(resolve(FORM.load(document), catalog).judged_joints[0].key)
    assert len(keys) == 2
