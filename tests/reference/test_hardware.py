"""Rows about fasteners and glues as values: read against the printed tables by hand."""

from fractions import Fraction

import pytest

from service.domain.catalog import Catalog
from service.domain.fasteners import Fasteners, gauge_diameter, gauge_number
from service.quantities import length
from service.reference.fasteners import ConnectionConstant, Nail, PilotHole, Screw, Staple
from service.reference.gluing import Glue
from service.reference.reading import Rows

F = Fraction
MM = F(5, 127)


@pytest.fixture(scope="module")
def fasteners(catalog: Catalog) -> Fasteners:
    return catalog.fasteners


def test_every_row_becomes_a_value(catalog: Catalog, reference_rows: Rows) -> None:
    fasteners = catalog.fasteners
    assert len(fasteners.screws) == len(reference_rows.preferred(Screw))
    assert len(fasteners.nails) == len(reference_rows.preferred(Nail))
    assert len(fasteners.staples) == len(reference_rows.preferred(Staple))
    assert len(fasteners.drills) == len(reference_rows.preferred(PilotHole))
    assert len(catalog.glues) == len(reference_rows.preferred(Glue))
    numbered = [c for c in reference_rows.preferred(ConnectionConstant) if c["value"]]
    assert len(catalog.constants) == len(numbered)


# ASME B18.6.1: major diameter 0.164, flat head 0.292 to 0.332, lengths 1/2 to 3 in; NDS table L3:
# root 0.131.
def test_a_wood_screw_has_its_printed_sizes(fasteners: Fasteners) -> None:
    screw = fasteners.screw("wood-screw", "no-8")
    assert screw is not None and screw.root is not None and screw.head is not None
    assert (screw.diameter.value, screw.root.value) == (F("0.164"), F("0.131"))
    assert (screw.head.low, screw.head.high) == (F("0.292"), F("0.332"))
    assert (screw.lengths.made[0], screw.lengths.made[-1]) == (F(1, 2), 3)
    assert screw.lengths.row == "screw_lengths/wood-screw.no-8"


def test_every_wood_screw_is_as_thick_as_its_gauge_says(fasteners: Fasteners) -> None:
    for screw in fasteners.screws:
        if screw.gauge is not None:
            number = gauge_number(screw.gauge)
            assert 0 <= number <= 24
            # No. 11 is printed in millimeters alone, to two places.
            assert abs(screw.diameter.value - gauge_diameter(number)) < F("0.0002")


def test_a_chipboard_screw_is_as_thick_as_its_name_says(fasteners: Fasteners) -> None:
    for screw in fasteners.screws_of("chipboard-screw"):
        named = screw.key.removeprefix("chipboard-screw.").removesuffix("mm")
        assert screw.diameter.value == F(named) * MM


def test_screws_come_thinnest_first_and_their_lengths_shortest_first(
    fasteners: Fasteners,
) -> None:
    for family in ("wood-screw", "construction-screw", "chipboard-screw"):
        sizes = fasteners.screws_of(family)  # type: ignore[arg-type]  # a word of the family
        assert [s.diameter.value for s in sizes] == sorted(s.diameter.value for s in sizes)
        for size in sizes:
            assert list(size.lengths.made) == sorted(size.lengths.made)
            # The standard has no No. 11, so no lengths of it are listed.
            assert bool(size.lengths.made) == (size.gauge != "no-11")


# NDS table L3 note 3: two thirds of the length, at least four diameters. The rest is from memory:
# a deck screw under 2 in and a chipboard screw up to 40 mm are threaded to the head.
@pytest.mark.parametrize(
    ("family", "gauge", "length", "thread"),
    [
        ("wood-screw", "no-8", "1.5", "1.0005"),
        ("wood-screw", "no-8", "0.75", "0.656"),
        ("wood-screw", "no-8", "0.5", "0.5"),
        ("construction-screw", "no-8", "1.25", "1.25"),
        ("construction-screw", "no-8", "2.5", "1.6675"),
    ],
)
def test_a_thread_is_as_long_as_the_tables_say(
    fasteners: Fasteners, family: str, gauge: str, length: str, thread: str
) -> None:
    screw = fasteners.screw(family, gauge)  # type: ignore[arg-type]  # a word of the family
    assert screw is not None and screw.thread_length(F(length)) == F(thread)


@pytest.mark.parametrize(("long", "threaded"), [(40, 40), (45, 27), (70, 42)])
def test_a_chipboard_screw_is_threaded_in_part_over_40_mm(
    fasteners: Fasteners, long: int, threaded: int
) -> None:
    screw = fasteners.screws_of("chipboard-screw")[3]
    assert screw.key == "chipboard-screw.4.5mm"
    assert screw.thread_length(long * MM) == threaded * MM


# NDS table L4: 8d common 0.131 x 2 1/2 in with a 0.281 in head. A nailer's sheet: 18 gauge brads
# of 1.20 to 1.25 mm.
def test_a_nail_has_one_length_and_a_brad_many(fasteners: Fasteners) -> None:
    nails = {nail.key: nail for nail in fasteners.nails}
    common, brad = nails["common.8d"], nails["brad.18ga"]
    assert (common.diameter.value, common.lengths.made) == (F("0.131"), (F(5, 2),))
    assert common.head is not None and common.head.value == F("0.281")
    assert not common.driven_by_nailer and brad.driven_by_nailer
    assert brad.lengths.made[0] == F(5, 8) and brad.lengths.made[-1] == 2


def test_nails_of_a_type_come_thinnest_first(fasteners: Fasteners) -> None:
    finish = fasteners.nails_of("finish")
    assert [nail.pennyweight for nail in finish[:2]] == ["2d", "3d"]
    assert {nail.type for nail in fasteners.nails_of("brad", "pin")} == {"brad", "pin"}


def test_a_metric_nail_is_as_thick_and_long_as_its_name_says(fasteners: Fasteners) -> None:
    for nail in fasteners.nails_of("round-head", "lost-head"):
        thick, _, long = nail.key.partition(".")[2].partition("x")
        assert (nail.diameter.value, nail.lengths.made) == (F(thick) * MM, (F(long) * MM,))


def test_a_staple_has_legs_and_a_crown(fasteners: Fasteners) -> None:
    staple = next(s for s in fasteners.staples if s.key == "narrow-crown.18ga")
    assert staple.crown.value == F(1, 4) and staple.lengths.made[-1] == F(3, 2)


# Plate 6B and two more charts: No. 8, softwood 3/32 in, hardwood 7/64 in, shank 11/64 in.
def test_a_hole_is_found_by_wood_or_for_any_wood(fasteners: Fasteners) -> None:
    soft, hard = (fasteners.drill("no-8", "pilot", wood) for wood in ("soft", "hard"))  # type: ignore[arg-type]  # words
    shank = fasteners.drill("no-8", "clearance", "hard")
    assert soft is not None and hard is not None and shank is not None
    assert (soft.usual, hard.usual, shank.usual) == (F(3, 32), F(7, 64), F(11, 64))
    assert fasteners.drill("no-24", "pilot", "soft") is None


def test_drills_come_in_sixty_fourths(fasteners: Fasteners) -> None:
    """But for number drills, which are printed in thousandths: a No. 29 is 0.136 in."""
    for drill in fasteners.drills.values():
        for size in (drill.low, drill.usual, drill.high):
            assert (size * 64).denominator == 1 or size == F("0.136")


def test_pocket_practice_names_the_usual_length_first(fasteners: Fasteners) -> None:
    rows = fasteners.pocket_lengths(F(3, 4))
    assert [row.lengths for row in rows] == [(F(5, 4),), (F(1),)]
    assert fasteners.pocket_lengths(F(11, 16)) == ()


# The book of glues: white glue open 5 min; a guide: 30 to 90 min in clamps, 24 h to full cure.
def test_a_glue_has_its_times_in_minutes(catalog: Catalog) -> None:
    white = catalog.glues["pva-interior"]
    assert white.figure("open-time").usual == 5  # type: ignore[union-attr]  # it has one
    clamp, cure = white.figure("clamp-time"), white.figure("full-cure")
    assert clamp is not None and (clamp.low, clamp.high) == (30, 90)
    assert cure is not None and (cure.high, cure.unit) == (24 * 60, "min")
    assert catalog.glues["cyanoacrylate"].figure("bond-time").high == F(1, 2)  # type: ignore[union-attr]  # 30 s


def test_what_holds_without_a_condition_comes_before_what_has_one(catalog: Catalog) -> None:
    dries = catalog.glues["contact-cement"].figure("drying-time")
    assert dries is not None and (dries.condition, dries.high) == ("", 120)


def test_assigned_gravities_are_those_of_the_code(catalog: Catalog) -> None:
    # NDS 2018, table 12.3.3A.
    assert catalog.gravities["spruce-pine-fir"].gravity == 0.42
    assert catalog.gravities["southern-pine"].gravity == 0.55


# ASME B18.2.2, hex nuts: height, and threads per inch of the coarse series; ISO 4032: m and P.
BOLTS = {
    "bolt.1-4in": ("1/4 in", "7/32 in", "1/20 in"),
    "bolt.5-16in": ("5/16 in", "17/64 in", "1/18 in"),
    "bolt.3-8in": ("3/8 in", "21/64 in", "1/16 in"),
    "bolt.1-2in": ("1/2 in", "7/16 in", "1/13 in"),
    "bolt.5-8in": ("5/8 in", "35/64 in", "1/11 in"),
    "bolt.6mm": ("6 mm", "5.2 mm", "1 mm"),
    "bolt.8mm": ("8 mm", "6.8 mm", "1.25 mm"),
    "bolt.10mm": ("10 mm", "8.4 mm", "1.5 mm"),
    "bolt.12mm": ("12 mm", "10.8 mm", "1.75 mm"),
}


@pytest.mark.parametrize(("key", "sizes"), BOLTS.items())
def test_a_bolt_has_the_printed_nut_and_pitch(
    catalog: Catalog, key: str, sizes: tuple[str, str, str]
) -> None:
    bolt = next(one for one in catalog.fasteners.bolts if one.key == key)
    assert (bolt.diameter, bolt.nut.high, bolt.pitch.high) == tuple(map(length, sizes))


def test_every_bolt_is_held_against_print(catalog: Catalog) -> None:
    assert {bolt.key for bolt in catalog.fasteners.bolts} == set(BOLTS)
