"""What the build of the tables refuses, each with file, line and reason."""

from collections.abc import Callable
from pathlib import Path

import pytest
from sqlalchemy import insert
from sqlalchemy.exc import IntegrityError

from service.reference.building import Refused, build, run
from service.reference.lumber import LumberSize
from service.reference.opening import open_for_building

Row = dict[str, str]
MakeFolder = Callable[..., Path]


def refusals_of(folder: Path) -> list[str]:
    """What the build says about a folder, line by line."""
    with pytest.raises(Refused) as refused:
        build(folder, f"sqlite:///{folder / 'reference.sqlite'}")
    return str(refused.value).splitlines()


def test_a_sound_folder_is_built(folder_with: MakeFolder, board: Row) -> None:
    folder = folder_with(lumber_sizes=[board])
    assert build(folder, f"sqlite:///{folder / 'reference.sqlite'}")
    assert (folder / "reference.sqlite").exists()


@pytest.mark.parametrize(
    ("change", "why"),
    [
        ({"source": ""}, "source: may not be empty"),
        ({"locator": ""}, "locator: may not be empty"),
        ({"source": "hearsay", "agrees": ""}, "source: 'hearsay' is not in sources"),
        ({"agrees": "hearsay"}, "agrees: 'hearsay' is not a further source"),
        ({"agrees": "size-standard"}, "agrees: 'size-standard' is not a further source"),
        ({"agrees": "memory"}, "agrees: 'memory' is not a further source"),
        ({"key": "US 1x4"}, "key: 'US 1x4' is not a key: only a-z, 0-9, point and hyphen"),
        ({"key": ""}, "key: may not be empty"),
        ({"thickness": "3/4"}, "thickness: '3/4' has no unit"),
        ({"region": "moon"}, "region: 'moon' is none of us, uk, eu, uk-eu, au, nz"),
        ({"preferred": "maybe"}, "preferred: 'maybe' is none of yes, no"),
        (
            {"width": " 3 1/2 in"},
            "width: ' 3 1/2 in' begins or ends with a blank, or has a line break",
        ),
        ({"confidence": "memory"}, "confidence 'memory' does not go with source 'size-standard'"),
        (
            {"source": "memory"},
            "confidence 'cross-checked' does not go with source 'memory'",
        ),
        (
            {"preferred": "no", "note": ""},
            "a row that is not preferred must say why in its note",
        ),
    ],
)
def test_a_row_that_cannot_be_trusted_is_refused_with_file_and_line(
    folder_with: MakeFolder, board: Row, change: Row, why: str
) -> None:
    folder = folder_with(lumber_sizes=[board | change])
    assert refusals_of(folder) == [f"lumber_sizes.csv:2: {why}"]


@pytest.mark.parametrize("size", ["3/4 furlong", "three in", "0 in", "-1 in", "nan in", "1/0 in"])
def test_a_cell_that_is_not_a_length_is_refused(
    folder_with: MakeFolder, board: Row, size: str
) -> None:
    (refusal,) = refusals_of(folder_with(lumber_sizes=[board | {"thickness": size}]))
    assert refusal.startswith("lumber_sizes.csv:2: thickness: ")


def test_two_rows_with_one_key_are_refused(folder_with: MakeFolder, board: Row) -> None:
    folder = folder_with(lumber_sizes=[board, board | {"name": "another"}])
    assert refusals_of(folder) == ["lumber_sizes.csv:3: 'us.1x4.dry' stands on line 2 too"]


def test_rows_out_of_order_are_refused(folder_with: MakeFolder, board: Row) -> None:
    folder = folder_with(lumber_sizes=[board, board | {"key": "us.1x2.dry", "name": "1x2"}])
    assert refusals_of(folder) == [
        "lumber_sizes.csv:3: 'us.1x2.dry' is out of order: sort rows by key"
    ]


def test_two_preferred_rows_about_one_thing_are_refused(
    folder_with: MakeFolder, board: Row
) -> None:
    folder = folder_with(lumber_sizes=[board, board | {"key": "us.1x4.dry.b"}])
    (refusal,) = refusals_of(folder)
    assert refusal.startswith("lumber_sizes.csv:3: 2 rows preferred, not one")


def test_a_rival_row_must_say_why_it_is_not_preferred(folder_with: MakeFolder, board: Row) -> None:
    rival = board | {"key": "us.1x4.dry.b", "thickness": "11/16 in", "preferred": "no"}
    assert refusals_of(folder_with(lumber_sizes=[board, rival])) == [
        "lumber_sizes.csv:3: a row that is not preferred must say why in its note"
    ]


def test_a_rival_row_that_says_why_is_kept(folder_with: MakeFolder, board: Row) -> None:
    rival = board | {"key": "us.1x4.dry.b", "preferred": "no", "note": "an older edition"}
    folder = folder_with(lumber_sizes=[board, rival])
    assert build(folder, f"sqlite:///{folder / 'reference.sqlite'}")


def test_a_value_of_an_unknown_thing_is_refused(folder_with: MakeFolder, board: Row) -> None:
    sourced = {name: board[name] for name in ("source", "locator", "basis", "preferred")}
    value = sourced | {
        "key": "oak.hardness",
        "species": "oak",
        "property": "side-hardness",
        "unit": "lbf",
        "confidence": "one-source",
    }
    assert refusals_of(folder_with(species_values=[value])) == [
        "species_values.csv:2: species: 'oak' is not in species"
    ]


def test_a_name_of_an_unknown_thing_is_refused(folder_with: MakeFolder, board: Row) -> None:
    name = {"spelling": "1x40", "region": "us", "kind": "stock", "means": "1x40"}
    assert refusals_of(folder_with(lumber_sizes=[board], names=[name])) == [
        "names.csv:2: means: no stock has the key '1x40'"
    ]


def test_a_name_that_no_caller_could_meet_is_refused(folder_with: MakeFolder, board: Row) -> None:
    name = {"spelling": '1 X 4"', "region": "us", "kind": "stock", "means": "1x4"}
    assert refusals_of(folder_with(lumber_sizes=[board], names=[name])) == [
        "names.csv:2: spelling: '1 X 4\"' must be written '1x4'"
    ]


def test_columns_are_refused_by_name(folder_with: MakeFolder, board: Row) -> None:
    folder = folder_with(lumber_sizes=[board])
    file = folder / "lumber_sizes.csv"
    file.write_text(file.read_text().replace("key,region", "key,colour", 1))
    assert refusals_of(folder) == [
        "lumber_sizes.csv:1: column 'region' is missing",
        "lumber_sizes.csv:1: unknown column 'colour'",
    ]


def test_a_row_with_a_cell_too_few_is_refused(folder_with: MakeFolder, board: Row) -> None:
    folder = folder_with(lumber_sizes=[board])
    with (folder / "lumber_sizes.csv").open("a") as file:
        file.write("us.1x5.dry,us\n")
    assert refusals_of(folder) == [
        "lumber_sizes.csv:3: 2 cells where the table has 24 columns",
    ]


@pytest.mark.parametrize(
    ("bytes_", "why"),
    [
        (b"\xff\xfe", "the file is not UTF-8"),
        (b"", "lines must end with a line feed alone, the last one too"),
    ],
)
def test_a_file_that_is_not_plain_csv_is_refused(
    folder_with: MakeFolder, bytes_: bytes, why: str
) -> None:
    folder = folder_with()
    (folder / "species.csv").write_bytes(bytes_)
    assert f"species.csv:1: {why}" in refusals_of(folder)


def test_missing_and_unknown_files_are_refused(folder_with: MakeFolder) -> None:
    folder = folder_with()
    (folder / "species.csv").rename(folder / "specious.csv")
    assert refusals_of(folder) == [
        "species.csv:1: the file is missing",
        "specious.csv:1: no table goes by this name",
    ]


def test_every_refusal_is_listed_at_once(folder_with: MakeFolder, board: Row) -> None:
    folder = folder_with(
        lumber_sizes=[board | {"source": "", "thickness": "3/4"}, board | {"region": "moon"}]
    )
    assert [refusal.split(": ")[:2] for refusal in refusals_of(folder)] == [
        ["lumber_sizes.csv:2", "source"],
        ["lumber_sizes.csv:2", "thickness"],
        ["lumber_sizes.csv:3", "'us.1x4.dry' stands on line 2 too"],
        ["lumber_sizes.csv:3", "region"],
    ]


def test_the_command_prints_refusals_and_answers_1(
    folder_with: MakeFolder, board: Row, capsys: pytest.CaptureFixture[str]
) -> None:
    folder = folder_with(lumber_sizes=[board | {"source": ""}])
    assert run(folder, f"sqlite:///{folder / 'reference.sqlite'}") == 1
    assert capsys.readouterr().err == "lumber_sizes.csv:2: source: may not be empty\n"


@pytest.mark.parametrize(
    "change",
    [
        {"source": None},
        {"source": "hearsay"},
        {"locator": None},
        {"locator": ""},
        {"key": "US 1x4"},
        {"region": "moon"},
        {"confidence": "memory"},
    ],
)
def test_the_database_itself_refuses_an_untrusted_row(
    folder_with: MakeFolder, board: Row, change: dict[str, str | None]
) -> None:
    folder = folder_with()
    url = f"sqlite:///{folder / 'reference.sqlite'}"
    build(folder, url)
    cells = {name: text for name, text in board.items() if name != "agrees"} | change
    sizes = ("nominal_thickness", "nominal_width", "thickness", "width")
    row = {name: cell for name, cell in cells.items() if name not in sizes}
    engine = open_for_building(url)
    with engine.begin() as connection, pytest.raises(IntegrityError):
        connection.execute(insert(LumberSize.__table__), [row])
    engine.dispose()
