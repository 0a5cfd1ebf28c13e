"""What bends, moves and rots, as values, against the printed tables."""

import pytest

from service.domain.catalog import Catalog


@pytest.mark.parametrize(
    ("wood", "stiffness", "rupture"),
    [
        # Wood Handbook 2021, Table 5-3b, at 12 %.
        ("alder-red", 1.38e6, 9_800),
        ("ash-black", 1.60e6, 12_600),
        ("spruce-sitka", 1.57e6, 10_200),
    ],
)
def test_clear_wood_has_its_handbook_values(
    catalog: Catalog, wood: str, stiffness: float, rupture: float
) -> None:
    values = catalog.bending[wood]
    assert values.stiffness["12%"].value == pytest.approx(stiffness)
    assert values.rupture["12%"].value == pytest.approx(rupture)


def test_green_wood_is_softer_and_weaker_than_dry(catalog: Catalog) -> None:
    both = [v for key, v in catalog.bending.items() if len(v.stiffness) == 2 and "-" in key]
    assert len(both) > 80
    assert all(v.stiffness["green"].value < v.stiffness["12%"].value for v in both)
    assert all(v.rupture["green"].value < v.rupture["12%"].value for v in both)


def test_a_group_takes_its_weakest_member_and_names_it(catalog: Catalog) -> None:
    for wood in catalog.woods.values():
        members = [catalog.bending[key] for key in wood.members if key in catalog.bending]
        if not members:
            continue
        group = catalog.bending[wood.key]
        for condition, least in group.rupture.items():
            of = [m.rupture[condition].value for m in members if condition in m.rupture]
            assert least.value == min(of)
            assert least.of in wood.members


def test_graded_values_stay_apart_from_clear_wood(catalog: Catalog) -> None:
    spf = catalog.bending["spf"]
    clear = {known.value for known in spf.stiffness.values()}
    assert spf.graded["no. 1/no. 2"].value == pytest.approx(1.4e6)
    assert not clear & {known.value for known in spf.graded.values()}


def test_heartwood_resists_decay_as_the_list_says(catalog: Catalog) -> None:
    # MO-312, Table 2-1.
    listed = {"oak-white": "resistant", "larch-western": "moderate", "maple-sugar": "slight"}
    assert {key: catalog.decay[key].resistance for key in listed} == listed


def test_a_group_resists_decay_as_its_worst_member(catalog: Catalog) -> None:
    assert catalog.decay["southern-pine"].resistance == "slight"
    assert catalog.decay["western-cedars"].resistance == "resistant"


def test_every_row_behind_these_values_is_cited(catalog: Catalog) -> None:
    known = [
        one
        for values in catalog.bending.values()
        for kind in (values.stiffness, values.rupture, values.graded)
        for one in kind.values()
    ]
    rows = {row for one in known for row in one.rests_on}
    rows |= {
        row for m in catalog.moving.values() for row in (*m.flat.rests_on, *m.quarter.rests_on)
    }
    rows |= {row for resists in catalog.decay.values() for row in resists.rests_on}
    rows |= {practice.row for practice in catalog.standing.values()}
    rows |= {caution.row for caution in catalog.cautions.values()}
    assert len(rows) > 500
    assert rows <= catalog.cited.keys()
