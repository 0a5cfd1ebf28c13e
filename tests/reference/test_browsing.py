"""The tables as callers read them: found by value, sorted by value, paged without loss."""

import csv
import io
import json
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.domain.errors import UnknownColumn, UnknownCursor, UnknownKey, UnknownTable
from service.reference.browsing import Tables
from service.reference.building import build
from service.reference.opening import open_for_reading
from service.reference.reading import Rows, read_rows
from service.reference.shelf import Shelf

Row = dict[str, str]


@pytest.fixture(scope="module")
def tables(reference_rows: Rows) -> Tables:
    return Tables(reference_rows)


@pytest.fixture(scope="module")
def lumber(tables: Tables) -> Shelf:
    return tables.table("lumber_sizes")


@pytest.mark.parametrize("asked", ["3/4 in", "0.75", "0.75 in", "3/4", "19.05 mm", "19.05mm"])
def test_lengths_are_found_by_value_however_they_are_written(lumber: Shelf, asked: str) -> None:
    found = lumber.page({"thickness": asked, "stock": "1x12"}).rows
    assert [row["key"] for row in found] == ["us.1x12.dry"]


def test_a_row_has_its_lengths_as_printed_and_in_both_units(lumber: Shelf) -> None:
    row = lumber.row("us.1x12.dry")
    assert row["width"] == {"printed": "11 1/4 in", "in": 11.25, "mm": 285.75}


def test_several_filters_must_all_hold(lumber: Shelf) -> None:
    found = lumber.page({"region": "us", "class": "board", "width": "3 1/2 in"}).rows
    assert {(row["region"], row["class"], row["width"]["in"]) for row in found} == {
        ("us", "board", 3.5)
    }


def test_a_length_in_a_list_is_found(lumber: Shelf) -> None:
    found = lumber.page({"lengths": "20 ft", "region": "us"}).rows
    assert all(240.0 in [length["in"] for length in row["lengths"]] for row in found)


def test_a_source_that_agrees_is_found(lumber: Shelf) -> None:
    found = lumber.page({"agrees": "nds-supplement-2018-table-1a"}).rows
    assert "us.2x4.dry" in [row["key"] for row in found]


def test_what_matches_nothing_finds_nothing(lumber: Shelf) -> None:
    assert lumber.page({"thickness": "wide as a barn"}).rows == ()


def test_numbers_are_found_by_value(tables: Tables) -> None:
    found = tables.table("assigned_gravities").page({"gravity": "0.5"}).rows
    assert [row["combination"] for row in found] == ["Douglas Fir-Larch"]


def test_lengths_are_sorted_by_value_and_empty_cells_come_last(lumber: Shelf) -> None:
    for sort, backwards in (("thickness", False), ("-thickness", True)):
        rows = lumber.page({}, sort=sort).rows
        sizes = [row["thickness"]["in"] for row in rows if row["thickness"]]
        assert sizes == sorted(sizes, reverse=backwards)
        assert [row["thickness"] for row in rows[len(sizes) :]] == [None] * (len(rows) - len(sizes))


@pytest.mark.parametrize("sort", [None, "thickness", "-width", "name"])
@pytest.mark.parametrize("limit", [1, 7, 100])
def test_paging_gives_each_row_once(lumber: Shelf, sort: str | None, limit: int) -> None:
    whole = [row["key"] for row in lumber.page({"region": "us"}, sort=sort).rows]
    seen: list[str] = []
    cursor = None
    while True:
        page = lumber.page({"region": "us"}, sort=sort, limit=limit, cursor=cursor)
        seen += [row["key"] for row in page.rows]
        cursor = page.next
        if cursor is None:
            break
        assert len(page.rows) == limit
    assert seen == whole
    assert len(set(seen)) == len(seen)


@pytest.mark.parametrize(("asked", "given"), [(0, 1), (-5, 1), (10**9, 500), (None, 500)])
def test_a_limit_out_of_reach_is_brought_within(
    tables: Tables, asked: int | None, given: int
) -> None:
    assert len(tables.table("species_values").page({}, limit=asked).rows) == given


def test_a_cursor_of_another_list_is_refused(lumber: Shelf) -> None:
    cursor = lumber.page({}, sort="width", limit=3).next
    with pytest.raises(UnknownCursor, match="cursor"):
        lumber.page({}, sort="thickness", cursor=cursor)
    with pytest.raises(UnknownCursor, match="cursor"):
        lumber.page({}, cursor="not a cursor")


def test_unknown_names_are_refused_with_the_nearest(tables: Tables, lumber: Shelf) -> None:
    with pytest.raises(UnknownTable, match=r"'lumber_size'; the nearest is lumber_sizes"):
        tables.table("lumber_size")
    with pytest.raises(UnknownColumn, match=r"'thicknes'; the nearest is thickness"):
        lumber.page({"thicknes": "1 in"})
    with pytest.raises(UnknownColumn, match=r"'widht'; the nearest is width"):
        lumber.page({}, sort="-widht")
    with pytest.raises(UnknownKey, match=r"'us.1x12.dri'; the nearest is us.1x12.dry"):
        lumber.row("us.1x12.dri")


def test_every_column_of_every_table_says_what_it_means(tables: Tables) -> None:
    for described in tables.descriptions():
        assert described["row"].endswith("."), described["table"]
        for column in described["columns"]:
            assert len(column["meaning"]) > 4, (described["table"], column["name"])
            assert column["kind"]


def test_a_description_says_what_a_column_may_hold_and_points_to(tables: Tables) -> None:
    described = tables.table("species_values").description()
    columns = {column["name"]: column for column in described["columns"]}
    assert columns["species"]["keys_of"] == "species"
    assert columns["source"]["keys_of"] == columns["agrees"]["keys_of"] == "sources"
    assert columns["preferred"]["one_of"] == ["yes", "no"]


def test_whole_tables_are_prepared_in_both_formats(tables: Tables) -> None:
    for name in tables.names():
        answer = json.loads(tables.whole(name, "json").body)
        first = tables.table(name).page({})
        assert answer == json.loads(json.dumps(tables.answer(name, first)))
        lines = list(csv.reader(io.StringIO(tables.whole(name, "csv").body.decode())))
        assert len(lines) - 1 == len(tables.table(name).cells)


def test_csv_has_the_cells_as_printed(tables: Tables) -> None:
    text = tables.whole("lumber_sizes", "csv").body.decode()
    row = next(row for row in csv.DictReader(io.StringIO(text)) if row["key"] == "us.1x12.dry")
    assert (row["thickness"], row["width"]) == ("3/4 in", "11 1/4 in")
    assert text.endswith("\r\n")


def test_etags_are_strong_and_tell_formats_and_tables_apart(tables: Tables) -> None:
    etags = [tables.whole(name, f).etag for name in tables.names() for f in ("json", "csv")]
    assert len(set(etags)) == len(etags)
    assert all(etag.startswith(f'"{tables.edition}-') and etag.endswith('"') for etag in etags)


@pytest.mark.parametrize("start", ["=", "+", "-", "@", "\t"])
def test_no_cell_of_csv_can_be_taken_for_a_formula(
    folder_with: Callable[..., object], board: Row, start: str
) -> None:
    name = f"{start}HYPERLINK(1)".strip()
    folder = folder_with(
        lumber_sizes=[board | {"note": f"{start.strip() or '='}1+1", "name": name}]
    )
    url = f"sqlite:///{folder}/reference.sqlite"
    build(folder, url)  # type: ignore[arg-type]
    text = Tables(read_rows(open_for_reading(url))).whole("lumber_sizes", "csv").body.decode()
    (row,) = csv.DictReader(io.StringIO(text))
    assert row["note"].startswith("'")
    assert row["name"].startswith("'") or name.startswith("H")


def test_negative_numbers_in_csv_stay_numbers(lumber: Shelf) -> None:
    text = lumber.csv([dict(lumber.cells[0]) | {"note": "-12.5", "name": "-1/2"}])
    (row,) = csv.DictReader(io.StringIO(text))
    assert (row["note"], row["name"]) == ("-12.5", "'-1/2")


def test_names_can_be_read_by_their_three_part_key(tables: Tables) -> None:
    row = tables.table("names").row("doug fir.any.wood")
    assert row["means"] == "df-l"


@given(asked=st.text() | st.from_regex(r"[0-9./ -]{0,12}( ?(in|mm|ft|F|x))?", fullmatch=True))
def test_whatever_is_asked_of_any_column_is_answered(tables: Tables, asked: str) -> None:
    for name in ("lumber_sizes", "panels", "abrasives", "wood_groups", "screw_values", "names"):
        shelf = tables.table(name)
        for column in shelf.kinds:
            holds = shelf.kinds[column].sought(asked)
            assert {holds(cells[column]) for cells in shelf.cells[:20]} <= {True, False}


def test_a_very_long_text_is_not_looked_for(lumber: Shelf) -> None:
    assert lumber.page({"thickness": "9" * 5000 + " in"}).rows == ()
    with pytest.raises(UnknownKey, match="has no row"):
        lumber.row("x" * 100_000)
    with pytest.raises(UnknownColumn) as refused:
        lumber.page({"y" * 100_000: "1"})
    assert len(str(refused.value)) < 200


@given(data=st.data())
def test_every_row_is_found_by_any_of_its_own_cells(tables: Tables, data: st.DataObject) -> None:
    shelf = tables.table(data.draw(st.sampled_from(tables.names())))
    cells = data.draw(st.sampled_from(shelf.cells))
    column = data.draw(st.sampled_from([name for name in shelf.kinds if cells[name] is not None]))
    printed = str(shelf.kinds[column].printed(cells[column]))
    assert cells in shelf.found({column: printed})[0]
