"""How near to ends and edges: the advice of the commentary, and where builders draw the line."""

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.domain.catalog import Catalog
from service.domain.fastening.splitting import (
    Standing,
    distances,
    too_near,
)

F = Fraction
NO_8 = Standing(F("0.164"), piloted=True, thickness=F(3, 4), gauge="no-8")
BRAD = Standing(F("0.0475"), piloted=False, thickness=F(3, 4))
MM = F(5, 127)


# Commentary of the code for a No. 8 screw: end 10 D or 5 D away from the load, edge 2.5 D.
@pytest.mark.parametrize(("piloted", "end"), [(True, "0.82"), (False, "1.64")])
def test_the_advice_for_a_screw_is_that_of_the_commentary(
    catalog: Catalog, piloted: bool, end: str
) -> None:
    kept = distances(catalog, replace(NO_8, piloted=piloted))
    assert (kept.end.advised, kept.edge.advised) == (F(end), F("0.41"))


# Commentary: in a row along the grain 10 D with and 15 D without a pilot, across 5 D and 10 D.
@pytest.mark.parametrize(("piloted", "along", "across"), [(True, 10, 5), (False, 15, 10)])
def test_neighbors_keep_the_distance_of_the_commentary(
    catalog: Catalog, piloted: bool, along: int, across: int
) -> None:
    kept = distances(catalog, replace(NO_8, piloted=piloted))
    assert kept.along.least == along * F("0.164") and kept.across.least == across * F("0.164")


@pytest.mark.parametrize("gauge", [4, 6, 8])
def test_a_piloted_screw_through_a_corner_of_one_by_boards_is_no_alarm(
    catalog: Catalog, gauge: int
) -> None:
    """The side of a box is screwed to its end 3/8 in from the edge: builders do so every day."""
    standing = replace(NO_8, diameter=F("0.06") + gauge * F("0.013"), gauge=f"no-{gauge}")
    assert list(too_near(catalog, standing, F(3, 8), F(3, 8))) == []


def test_both_sides_of_the_least_distance(catalog: Catalog) -> None:
    # Two diameters of a No. 8 are 0.328 in.
    assert list(too_near(catalog, NO_8, F("0.328"), None)) == []
    ((place, given, limit),) = too_near(catalog, NO_8, F("0.327"), None)
    assert (place, given, limit.least) == ("end_distance", F("0.327"), F("0.328"))


def test_a_nail_in_softwood_keeps_its_thickness_from_the_end(catalog: Catalog) -> None:
    """Wood crate manual, nailing rule 7: end at least the thickness, edge at least half of it."""
    nail = Standing(F("0.131"), piloted=False, thickness=F(3, 4))
    assert distances(catalog, nail).end.least == F(3, 4)
    assert distances(catalog, nail).edge.least == F("0.131") * F(5, 2)  # under half of 3/4 in


def test_hardwood_is_not_nailed_like_a_crate(catalog: Catalog) -> None:
    nail = Standing(F("0.131"), piloted=False, thickness=F(3, 4), hard=True)
    assert distances(catalog, nail).end.least == F("1.31")


def test_a_brad_stands_as_near_as_ten_of_its_thin_diameters(catalog: Catalog) -> None:
    assert distances(catalog, BRAD).end.least == F("0.475")


# MDF association, screw position: 25 mm from a corner and 12 mm from the edge in the face, 70 mm
# from a corner in the edge; a page on MDF: No. 6 1/2 in, No. 8 5/8 in, No. 10 1 in from the edge.
def test_mdf_keeps_the_distances_of_its_makers(catalog: Catalog) -> None:
    face = distances(catalog, replace(NO_8, material="mdf"))
    edge = distances(catalog, replace(NO_8, material="mdf", spot="edge"))
    assert (face.end.least, face.edge.least, face.edge.advised) == (25 * MM, 12 * MM, F(5, 8))
    assert edge.end.least == 70 * MM


@pytest.mark.parametrize(("gauge", "edge"), [(6, "1/2"), (8, "5/8"), (10, "1")])
def test_a_thicker_screw_stays_farther_from_the_edge_of_mdf(
    catalog: Catalog, gauge: int, edge: str
) -> None:
    screw = replace(
        NO_8, material="mdf", gauge=f"no-{gauge}", diameter=F("0.06") + gauge * F("0.013")
    )
    assert distances(catalog, screw).edge.advised == F(edge)


def test_staples_and_nails_stay_off_the_corner_of_mdf(catalog: Catalog) -> None:
    brad = replace(BRAD, material="mdf")
    assert distances(catalog, brad).end.least == F(3, 4)  # a page on fastening MDF


def test_plywood_splits_at_its_edge_and_not_at_its_face(catalog: Catalog) -> None:
    plywood = replace(NO_8, material="plywood-softwood")
    assert distances(catalog, plywood) == distances(catalog, NO_8)
    assert distances(catalog, replace(plywood, spot="edge")).end.least == 2


@given(
    diameter=st.fractions(F(1, 32), F(1, 4)),
    thickness=st.fractions(F(1, 4), F(3)),
    hard=st.booleans(),
    material=st.sampled_from([None, "mdf", "plywood-softwood", "edge-glued"]),
)
def test_a_pilot_never_asks_for_more_room_and_least_is_never_over_advised(
    catalog: Catalog, diameter: Fraction, thickness: Fraction, hard: bool, material: str | None
) -> None:
    bare = distances(catalog, Standing(diameter, False, thickness, "face", material, hard))
    bored = distances(catalog, Standing(diameter, True, thickness, "face", material, hard))
    for name in ("end", "edge", "across", "along"):
        with_pilot, without = getattr(bored, name), getattr(bare, name)
        assert 0 < with_pilot.least <= with_pilot.advised
        assert with_pilot.advised <= without.advised


@pytest.mark.parametrize("standing", [NO_8, BRAD, replace(BRAD, diameter=F("0.131"))])
def test_without_the_rules_of_thumb_builders_are_not_alarmed_sooner(
    catalog: Catalog, standing: Standing
) -> None:
    bare = replace(catalog, practice={})
    told, untold = distances(catalog, standing), distances(bare, standing)
    assert (told.end.least, told.edge.least) == (untold.end.least, untold.edge.least)
