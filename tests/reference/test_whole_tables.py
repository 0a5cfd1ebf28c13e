"""What must hold of every row of the real tables, checked on the files themselves."""

import csv
import re
from collections import Counter
from fractions import Fraction
from math import gcd
from pathlib import Path

import pytest

from service.domain.catalog import Catalog
from service.domain.spelling import spelled
from service.quantities import amount_in
from service.reference.columns import Cells
from service.reference.lumber import LumberSize
from service.reference.panels import Panel
from service.reference.reading import Rows

DATA = Path(__file__).parents[2] / "reference_data"
FILES = sorted(path.stem for path in DATA.glob("*.csv"))
FRACTION = re.compile(r"(?<![\d.])(\d+)/(\d+) in\b")
MM = Fraction(5, 127)


def rows_of(table: str) -> list[dict[str, str]]:
    with (DATA / f"{table}.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


ALL = [(table, row) for table in FILES for row in rows_of(table)]
SOURCED = [(table, row) for table, row in ALL if "source" in row]
SOURCES = {row["id"]: row for row in rows_of("sources")}


def broken(rule: list[str]) -> str:
    """The rows that break a rule, one a line, to be shown when a test fails."""
    return "\n" + "\n".join(rule)


@pytest.mark.parametrize("table", [table for table in FILES if "key" in rows_of(table)[0]])
def test_every_key_is_unique_and_fit_for_an_address(table: str) -> None:
    counts = Counter(row["key"] for row in rows_of(table))
    assert [key for key, count in counts.items() if count > 1] == []
    assert [key for key in counts if not re.fullmatch(r"[a-z0-9.-]+", key)] == []


def test_every_row_names_a_known_source_and_a_place_in_it() -> None:
    bad = [
        f"{table}/{row['key']}"
        for table, row in SOURCED
        if row["source"] not in SOURCES
        or not set(filter(None, row["agrees"].split(";"))) <= SOURCES.keys()
        or not row["locator"].strip()
    ]
    assert bad == [], broken(bad)


def test_what_is_remembered_says_so_and_nothing_else_does() -> None:
    bad = [
        f"{table}/{row['key']}"
        for table, row in SOURCED
        if (row["source"] == "memory") != (row["confidence"] == "memory")
    ]
    assert bad == [], broken(bad)


def test_what_is_cross_checked_names_a_second_source_or_says_how() -> None:
    bad = [
        f"{table}/{row['key']}"
        for table, row in SOURCED
        if row["confidence"] == "cross-checked" and not (row["agrees"] or row["note"])
    ]
    assert bad == [], broken(bad)


def test_no_row_holds_an_address_or_a_trade_mark() -> None:
    forbidden = re.compile(
        r"https?:|www\.|://|\.(?:com|org|net|io|gov|edu)\b|@|®|™|/(?:work|tmp)/", re.I
    )
    bad = [
        f"{table}: {cell}" for table, row in ALL for cell in row.values() if forbidden.search(cell)
    ]
    assert bad == [], broken(bad)


def test_printed_fractions_are_in_lowest_terms_and_on_a_tape() -> None:
    bad = [
        f"{table}: {cell}"
        for table, row in ALL
        for cell in row.values()
        for over, under in FRACTION.findall(cell)
        if gcd(int(over), int(under)) != 1 or (int(under) & (int(under) - 1) and int(under) > 12)
    ]
    assert bad == [], broken(bad)


def value(cells: Cells, column: str) -> Fraction | None:
    """The exact value of a cell, in inches where it is a length."""
    cell = cells[column]
    return None if cell is None else cell.value


def test_inches_and_millimeters_of_lumber_agree_to_the_whole_millimeter(
    reference_rows: Rows,
) -> None:
    bad = [
        f"{cells['key']}: {cells[side].text} is not {cells[f'metric_{side}'].text}"
        for cells in reference_rows.of(LumberSize)
        for side in ("thickness", "width")
        if cells["preferred"] == "yes"
        and (metric := value(cells, f"metric_{side}")) is not None
        and abs((value(cells, side) or 0) - metric) > MM / 2
    ]
    assert bad == [], broken(bad)


def test_the_decimal_in_a_panel_key_is_its_printed_thickness(reference_rows: Rows) -> None:
    bad = []
    for cells in reference_rows.of(Panel):
        named = re.search(r"-([\d.]+)(?:-(\d+))?(in|mm)$", cells["stock"])
        if named is None or amount_in(named[1], named[3], "in") / int(named[2] or 1) != value(
            cells, "nominal_thickness"
        ):
            bad.append(cells["key"])
    assert bad == [], broken(bad)


def test_the_numbers_in_a_board_key_are_its_nominal_size(reference_rows: Rows) -> None:
    bad = []
    for cells in reference_rows.of(LumberSize):
        named = re.search(r"(\d+)(?:-(\d))?x(\d+)$", cells["stock"] or "")
        if not named:
            continue
        unit = Fraction(1) if cells["region"] == "us" else MM
        sides = sorted([Fraction(int(named[1]), int(named[2] or 1)) * unit, int(named[3]) * unit])
        printed = [value(cells, "nominal_thickness"), value(cells, "nominal_width")]
        if sides != sorted(size or Fraction(0) for size in printed):
            bad.append(cells["key"])
    assert bad == [], broken(bad)


def test_a_named_size_is_what_the_schedule_says_for_its_numbers(reference_rows: Rows) -> None:
    """PS 20 prints the dressed sizes by nominal thickness and width, and named sizes follow."""
    schedule: dict[tuple[str, ...], Fraction | None] = {}
    for cells in reference_rows.preferred(LumberSize):
        if cells["region"] == "us" and cells["row_kind"].startswith("schedule"):
            for side in ("thickness", "width"):
                nominal = value(cells, f"nominal_{side}")
                key = (cells["class"], side, cells["condition"], str(nominal))
                schedule[key] = value(cells, side)
    checked, bad = 0, []
    for cells in reference_rows.preferred(LumberSize):
        if cells["region"] != "us" or cells["row_kind"] != "named-size":
            continue
        for side in ("thickness", "width"):
            nominal = value(cells, f"nominal_{side}")
            wood = cells["class"]
            printed = schedule.get((wood, side, cells["condition"], str(nominal)))
            checked += printed is not None
            if printed is not None and printed != value(cells, side):
                bad.append(f"{cells['key']} {side}")
    assert bad == [], broken(bad)
    assert checked >= 100


def test_a_fraction_in_a_shop_name_is_the_thickness_of_the_panel(reference_rows: Rows) -> None:
    nominal = {
        row["stock"]: row["nominal_thickness"].value for row in reference_rows.tables["panels"]
    }
    size = re.compile(r"(\d+ )?(\d+)/(\d+)(?: in| inch|in)? [a-z]")
    bad = []
    for row in rows_of("names"):
        if row["means"] in nominal and (named := size.match(row["spelling"])):
            thickness = Fraction(int(named[1] or 0)) + Fraction(int(named[2]), int(named[3]))
            # A shop names plywood by the size before it was sanded, up to 1/32 in more.
            if not 0 <= thickness - nominal[row["means"]] <= Fraction(1, 32):
                bad.append(f"{row['spelling']} is not {row['means']}")
    assert bad == [], broken(bad)


def test_dressed_is_never_over_nominal(reference_rows: Rows) -> None:
    bad = [
        cells["key"]
        for cells in reference_rows.of(LumberSize)
        for side in ("thickness", "width")
        if (dressed := value(cells, side)) is not None
        and (nominal := value(cells, f"nominal_{side}")) is not None
        and dressed > nominal
    ]
    assert bad == [], broken(bad)


def test_dry_is_never_over_green(reference_rows: Rows) -> None:
    rows = reference_rows.preferred(LumberSize)
    same = ("region", "name", "class", "row_kind")
    green = {tuple(row[n] for n in same): row for row in rows if row["condition"] == "green"}
    bad = [
        row["key"]
        for row in rows
        if row["condition"] == "dry" and (wet := green.get(tuple(row[n] for n in same)))
        for side in ("thickness", "width")
        if (dry := value(row, side)) is not None
        and (swollen := value(wet, side)) is not None
        and dry > swollen
    ]
    assert bad == [], broken(bad)


def test_specific_gravity_at_12_percent_is_never_under_green(catalog: Catalog) -> None:
    pairs = [
        (wood.key, wood.gravity_green, wood.gravity_12)
        for wood in catalog.woods.values()
        if wood.kind in ("hardwood", "softwood") and wood.gravity_green and wood.gravity_12
    ]
    assert len(pairs) > 80
    assert [key for key, green, dry in pairs if dry.low < green.low] == []


def in_order(cells: Cells) -> bool:
    named = [cells[name] for name in ("low", "usual", "high") if cells.get(name)]
    values = [cell.value for cell in named]
    return values == sorted(values)


def test_low_usual_and_high_stand_in_order(reference_rows: Rows) -> None:
    bad = [
        f"{table}/{cells['key']}"
        for table, rows in reference_rows.tables.items()
        if rows and "low" in rows[0]
        for cells in rows
        if not in_order(cells)
    ]
    assert bad == [], broken(bad)


def test_panel_limits_hold_the_nominal_thickness_or_say_why(reference_rows: Rows) -> None:
    bad = [
        cells["key"]
        for cells in reference_rows.tables["panels"]
        if (least := cells["thickness_min"]) and (most := cells["thickness_max"])
        if not least.value <= cells["nominal_thickness"].value <= most.value and not cells["note"]
    ]
    assert bad == [], broken(bad)


def test_every_name_stands_for_something_sold_in_its_region(catalog: Catalog) -> None:
    bad = []
    for row in rows_of("names"):
        regions = ("us", "uk", "eu", "au", "nz") if row["region"] == "any" else (row["region"],)
        known = catalog.keys[row["kind"]]
        if row["kind"] == "stock":
            known = frozenset().union(*(catalog.stocks_in(region) for region in regions))
        if row["means"] not in known:
            bad.append(f"{row['spelling']} ({row['region']}) -> {row['means']}")
    assert bad == [], broken(bad)


def test_every_name_is_found_as_it_is_spelled(catalog: Catalog) -> None:
    bad = []
    for row in rows_of("names"):
        region = "us" if row["region"] == "any" else row["region"]
        found = catalog.key(row["kind"], region, row["spelling"])
        if found is None or spelled(row["spelling"]) != row["spelling"]:
            bad.append(f"{row['spelling']} ({row['region']}) -> {row['means']}, not {found}")
    assert bad == [], broken(bad)


def test_every_group_spans_its_members(catalog: Catalog) -> None:
    groups = [wood for wood in catalog.woods.values() if wood.members]
    assert len(groups) > 20
    for group in groups:
        members = [catalog.woods[key] for key in group.members]
        dry = [wood.gravity_12 for wood in members if wood.gravity_12]
        if dry and group.gravity_12:
            assert group.gravity_12.low == min(spread.low for spread in dry)
            assert group.gravity_12.high == max(spread.high for spread in dry)
            assert {row for spread in dry for row in spread.rests_on} < set(
                group.gravity_12.rests_on
            )


def test_every_row_that_the_catalog_rests_on_is_cited(catalog: Catalog) -> None:
    rests = {row for size in (*catalog.boards, *catalog.panels) for row in size.rests_on}
    spreads = [
        spread
        for wood in catalog.woods.values()
        for spread in (wood.gravity_green, wood.gravity_12, wood.density)
        if spread
    ]
    rests |= {row for spread in spreads for row in spread.rests_on}
    rests |= {limit.row for limit in catalog.saws}
    rests |= {rule.row for rule in catalog.practice.values()}
    assert len(rests) > 400
    assert rests - catalog.cited.keys() == set()
    assert {cited.source for cited in catalog.cited.values()} <= catalog.sources.keys()


def test_the_readme_of_the_tables_describes_every_column_of_every_file() -> None:
    sections = re.split(r"^### ", (DATA / "README.md").read_text(encoding="utf-8"), flags=re.M)[1:]
    described = {
        section.splitlines()[0]: re.findall(r"^\| `(\w+)` \|", section, flags=re.M)
        for section in sections
    }
    ends = ["source", "agrees", "locator", "confidence", "basis", "preferred", "note"]
    expected = {}
    for table in FILES:
        header = list(rows_of(table)[0])
        sourced = header[0] == "key"
        expected[f"{table}.csv"] = header[1 : -len(ends)] if sourced else header
        assert not sourced or header[-len(ends) :] == ends
    assert described == expected
