"""Loads on parts: which value is taken, what creep adds, and what is refused."""

from collections.abc import Callable
from typing import Any

import pytest

from service.api.documents.build import BuildForm
from service.domain.bending import named_stress, usual_limits
from service.domain.catalog import Catalog
from service.domain.checking import check
from service.domain.errors import UnknownName
from service.domain.loads import Carried, NotJudged, only_load
from service.domain.resolving import resolve

PLANK = {"id": "plank", "stock": "1x8", "length": "36"}
Bend = Callable[..., Carried]


def document(part: dict[str, Any] = PLANK, *more: dict[str, Any], **load: Any) -> dict[str, Any]:
    rest = {name: load.pop(name) for name in ("wood", "uses", "place") if name in load}
    return {
        "name": "One plank", "wood": "spruce-sitka", "parts": [part, *more],
        "loads": [{"part": "plank", "span": "36", **load}], **rest,
    }  # fmt: skip


@pytest.fixture(scope="module")
def found(catalog: Catalog) -> Callable[..., Carried | NotJudged | None]:
    form = BuildForm()
    return lambda *parts, **load: only_load(resolve(form.load(document(*parts, **load)), catalog))


@pytest.fixture(scope="module")
def bent(found: Callable[..., Carried | NotJudged | None]) -> Bend:
    def bend(*parts: dict[str, Any], **load: Any) -> Carried:
        one = found(*parts, **load)
        assert isinstance(one, Carried)
        return one

    return bend


def test_a_plank_sags_by_the_handbook_formula(bent: Bend) -> None:
    """5 W L^3 / (384 E I): Sitka spruce 1.57e6 psi, 7 1/4 by 3/4 in, 60 lb and its own 3.2 lb."""
    inertia = 7.25 * 0.75**3 / 12
    own = 7.25 * 0.75 * 36 / 1728 * 62.4 * 0.40 * 1.12
    expected = 5 * (60 + own) * 36**3 / (384 * 1.57e6 * inertia)
    one = bent(carries="60 lb")
    assert one.now == pytest.approx(expected)
    assert one.stress == pytest.approx((60 + own) * 36 / 8 / (7.25 * 0.75**2 / 6))


def test_creep_adds_half_to_as_much_again_where_it_is_dry(bent: Bend) -> None:
    one = bent(carries="60 lb", stays=True)
    assert one.lasting == (pytest.approx(1.5 * one.now), pytest.approx(2 * one.now))


def test_wet_wood_is_softer_and_creeps_more(bent: Bend) -> None:
    dry, wet = bent(carries="60 lb"), bent(carries="60 lb", place={"where": "outdoors"})
    assert wet.plank.material.condition == "green"
    assert wet.now > dry.now
    assert wet.lasting == (pytest.approx(2 * wet.now), pytest.approx(3 * wet.now))


def test_a_group_has_the_stiffness_of_its_softest_member(bent: Bend, catalog: Catalog) -> None:
    one = bent(carries="60 lb", wood="spf")
    members = [catalog.bending[key].stiffness["12%"].value for key in catalog.woods["spf"].members]
    assert one.plank.material.stiffness.value == min(members)
    assert one.plank.material.kind == "clear wood"


def test_an_ungraded_board_never_has_a_graded_value(found: Any) -> None:
    one = found(carries="60 lb", wood="redwood-eu")
    assert isinstance(one, NotJudged)
    assert "clear European redwood" in one.why


def test_a_stamped_grade_has_its_own_stiffness_and_no_breaking_stress(bent: Bend) -> None:
    # National Design Specification, Supplement, table 4A: Spruce-Pine-Fir No. 1/No. 2, 1.4e6 psi.
    one = bent(carries="60 lb", wood="spf", grade="No. 1/No. 2")
    assert one.plank.material.stiffness.value == pytest.approx(1.4e6)
    assert (one.plank.material.kind, one.plank.material.rupture) == ("graded lumber", None)


def test_a_grade_that_no_table_has_is_named(found: Any) -> None:
    one = found(carries="60 lb", wood="spf", grade="Prime")
    assert isinstance(one, NotJudged)
    assert "Select Structural" in one.why


def test_the_named_stress_is_near_the_least_of_clear_wood_over_2_1(
    bent: Bend, catalog: Catalog
) -> None:
    """Sitka spruce breaks at 10,200 psi: less 1.645 x 16 % it is 7,515, over 1.62 x 1.3, 3,569."""
    named = named_stress(catalog, bent(carries="60 lb").plank.material)
    assert named is not None
    assert named.psi == pytest.approx(3569, abs=2)


def test_the_load_that_reaches_a_stress_does(bent: Bend) -> None:
    one = bent(carries="60 lb")
    load = one.load_at(2000)
    assert bent(carries=f"{load:.6f} lb").stress == pytest.approx(2000, rel=1e-5)


def test_boards_side_by_side_share_a_load(bent: Bend) -> None:
    one, three = bent(carries="60 lb"), bent(carries="180 lb", boards=3)
    assert three.now == pytest.approx(one.now)
    assert three.stress == pytest.approx(one.stress)


def test_on_edge_it_is_stiffer_by_the_square_of_its_sides(bent: Bend) -> None:
    flat, edge = bent(carries="60 lb"), bent(carries="60 lb", laid="edge")
    assert flat.now / edge.now == pytest.approx((7.25 / 0.75) ** 2)


LIP = {"id": "lip", "stock": "1x2", "length": "36"}


def test_a_glued_lip_stiffens_more_than_a_nailed_one(bent: Bend) -> None:
    """Nailed it adds its own 0.2109 in4 to the 0.2549 of the shelf; glued, they are one section.

    From the top: areas 5.4375 and 1.125, middles 0.375 and 0.75: neutral 0.4393 in.
    I = 0.2549 + 5.4375 x 0.0643^2 + 0.2109 + 1.125 x 0.3107^2 = 0.5969.
    """
    plain = bent(carries="60 lb").plank.section.rigidity
    nailed = bent(PLANK, LIP, carries="60 lb", stiffened_by=[{"part": "lip", "joined": "nailed"}])
    glued = bent(PLANK, LIP, carries="60 lb", stiffened_by=[{"part": "lip", "joined": "glued"}])
    assert nailed.plank.section.rigidity / plain == pytest.approx(
        (0.2549 + 0.2109) / 0.2549, rel=1e-3
    )
    assert glued.plank.section.rigidity / plain == pytest.approx(0.5969 / 0.2549, rel=1e-3)


def test_a_panel_takes_the_low_end_and_has_no_named_stress(bent: Bend, catalog: Catalog) -> None:
    panel = {"id": "plank", "stock": "mdf 3/4", "length": "36", "width": "10"}
    one = bent(panel, carries="30 lb")
    assert one.plank.material.kind == "panel"
    assert one.lasting is None
    assert named_stress(catalog, one.plank.material) is None


def test_plywood_across_its_face_grain_is_not_judged(found: Any) -> None:
    panel = {"id": "plank", "stock": "plywood 3/4", "length": "36", "width": "10", "grain": "width"}
    assert isinstance(found(panel, carries="30 lb"), NotJudged)


def test_the_usual_limits_over_three_feet(catalog: Catalog) -> None:
    allows = {limit.name: limit.inches for limit in usual_limits(catalog, 36)}
    assert allows == {
        "shelf": pytest.approx(0.06),
        "eye": pytest.approx(3 / 32),
        "floor": pytest.approx(0.1),
        "L/240": pytest.approx(0.15),
        "L/180": pytest.approx(0.2),
    }


def test_a_free_end_is_held_to_twice_its_length(bent: Bend) -> None:
    assert bent(carries="5 lb", held="one-end").reach == pytest.approx(72)


@pytest.mark.parametrize("use", ["child-seat", "sleep-raised", "crib", "climb", "guard"])
def test_strength_is_refused_in_words_where_standards_of_their_own_apply(
    catalog: Catalog, use: str
) -> None:
    checked = check(BuildForm().load(document(carries="9000 lb", uses=[use])), catalog)
    codes = {f.code for f in checked.findings}
    assert "load.not-judged" in codes
    assert not codes & {"load.sags", "load.overstressed"}
    assert checked.verdict != "nothing-found"


@pytest.mark.parametrize("use", ["seat", "step", "bench", "bed"])
def test_no_weight_is_named_for_what_carries_people(catalog: Catalog, use: str) -> None:
    checked = check(BuildForm().load(document(carries="2500 lb", uses=[use])), catalog)
    (over,) = [f for f in checked.findings if f.code == "load.overstressed"]
    assert over.mend is not None
    assert "lb" not in over.mend.words
    assert "safety.people" in {f.code for f in checked.findings}


def test_a_use_of_a_load_that_no_table_has_is_refused_at_its_place(catalog: Catalog) -> None:
    built = BuildForm().load(document(carries="9 lb", use="frobbing"))
    with pytest.raises(UnknownName) as refused:
        resolve(built, catalog)
    assert [complaint.place for complaint in refused.value.complaints] == ["#/loads/0/use"]


def test_an_omitted_span_makes_at_most_a_note(catalog: Catalog) -> None:
    built = document(carries="3000 lb")
    del built["loads"][0]["span"]
    found = check(BuildForm().load(built), catalog).findings
    assert {f.severity for f in found if f.code.startswith("load.")} == {"note"}
