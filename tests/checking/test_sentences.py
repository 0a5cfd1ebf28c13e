"""Sentences of findings: one joint is not several, and no number is beyond what there is."""

from collections.abc import Callable
from typing import Any

import pytest

from service.domain.checking import Checked
from tests.checking.casework import Json, build

Check = Callable[[Json], Checked]

SIDE = {"id": "side", "stock": "1x8", "length": "30", "quantity": 2}
SHELF = {"id": "shelf", "stock": "1x8", "length": "20"}


def told(checked: Checked, code: str) -> str:
    return next(finding.detail for finding in checked.findings if finding.code == code)


def joined(**joint: Any) -> list[Json]:
    return [{"id": "j", "through": "shelf", "into": "side", "enters": "face", **joint}]


@pytest.mark.parametrize(("joints", "said"), [(1, "1 joint takes 30"), (2, "2 joints take 30")])
def test_one_joint_takes_and_two_take(check_json: Check, joints: int, said: str) -> None:
    glued = joined(method="glue", glue="pva-interior", quantity=joints)
    steps = [{"do": "glue", "joints": ["j"], "minutes": 30}]
    checked = check_json(build(SIDE, SHELF, joints=glued, steps=steps))
    assert told(checked, "glue.too-slow").startswith(said)


def test_a_part_that_is_joined_to_its_like_is_finished_once(check_json: Check) -> None:
    glued = [{"id": "j", "through": "side", "into": "side", "method": "glue", "glue": "pva-yellow"}]
    steps = [{"do": "finish", "finish": "shellac"}, {"do": "glue", "joints": ["j"]}]
    checked = check_json(build(SIDE, joints=glued, steps=steps))
    assert told(checked, "glue.over-finish") == "side is finished before j is glued."


def test_clamps_are_several(check_json: Check) -> None:
    glued = joined(method="glue", glue="pva-interior")
    checked = check_json(build(SIDE, SHELF, joints=glued, shop={"tools": ["drill"]}))
    assert told(checked, "fastener.no-tool") == "j takes glue, and no clamps are named."


@pytest.mark.parametrize(
    ("where", "said"), [("damp", "in a damp place"), ("covered", "outdoors under cover")]
)
def test_a_screw_rusts_in_a_place(check_json: Check, where: str, said: str) -> None:
    screw = {"gauge": 8, "length": "1 1/4", "coating": "plain"}
    held = joined(method="screw", fastener=screw)
    checked = check_json(build(SIDE, SHELF, joints=held, place={"where": where}))
    assert told(checked, "fastener.corrodes") == f"A plain screw rusts {said}."


def test_a_screw_is_not_said_to_be_longer_than_it_is(check_json: Check) -> None:
    """Through the edge of a board 7 1/4 in wide an inch and a half does not get far."""
    held = joined(method="screw", touches="edge", fastener={"gauge": 8, "length": "1 1/2"})
    checked = check_json(build(SIDE, SHELF, joints=held))
    assert told(checked, "fastener.too-short") == (
        'The 1 1/2" screw has 7 1/4" to pass before side: it does not get there.'
    )


def test_no_board_is_held_over_more_than_its_width(check_json: Check) -> None:
    held = joined(method="screw", count=3, crosses="12")
    checked = check_json(build(SIDE, SHELF, joints=held, wood="spf"))
    assert 'fast over 7 1/4" across' in told(checked, "wood.crossed-grain")


def test_a_panel_has_no_average_at_which_it_breaks(check_json: Check) -> None:
    """The tables have the lower end of a range for panels, and averages of clear wood."""
    loads = [{"part": "shelf", "carries": "2000 lb", "span": "30", "held": "resting"}]
    panel = {"id": "shelf", "stock": "mdf 1/2", "length": "30", "width": "8"}
    checked = check_json(build(panel, loads=loads))
    assert "the least printed stress at which it breaks is" in told(checked, "load.overstressed")
    board = {"id": "shelf", "stock": "1x4", "length": "30"}
    checked = check_json(build(board, loads=loads, wood="spf"))
    assert "the average stress at which it breaks is" in told(checked, "load.overstressed")
