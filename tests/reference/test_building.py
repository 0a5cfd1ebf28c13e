"""The database: stamped with its edition, swapped in whole, and the same on PostgreSQL."""

import os
import sqlite3
from collections.abc import Callable, Iterator
from pathlib import Path
from uuid import uuid4

import pytest
from sqlalchemy import create_engine, text
from sqlalchemy.engine import make_url
from sqlalchemy.exc import DatabaseError, OperationalError

from service.reference.building import Refused, build
from service.reference.cataloging import catalog_of
from service.reference.loading import edition_of
from service.reference.opening import open_for_reading
from service.reference.reading import Rows, read_rows

Row = dict[str, str]
MakeFolder = Callable[..., Path]
DATA = Path(__file__).parents[2] / "reference_data"
SERVER = os.environ.get("DRYFIT_TEST_POSTGRESQL", "postgresql+psycopg://root@127.0.0.1:5432/test")


def url_in(folder: Path) -> str:
    return f"sqlite:///{folder / 'reference.sqlite'}"


def test_the_edition_is_twelve_hexadecimal_digits(folder_with: MakeFolder) -> None:
    edition = build(folder := folder_with(), url_in(folder))
    assert len(edition) == 12
    assert int(edition, 16) >= 0


def test_the_edition_changes_with_any_byte(folder_with: MakeFolder, board: Row) -> None:
    before = edition_of(folder_with(lumber_sizes=[board]))
    assert edition_of(folder_with(lumber_sizes=[board | {"note": "."}])) != before
    assert edition_of(folder_with(lumber_sizes=[board])) == before


def test_the_edition_tells_which_file_a_byte_is_in(tmp_path: Path) -> None:
    (tmp_path / "a.csv").write_text("key\n")
    before = edition_of(tmp_path)
    (tmp_path / "a.csv").rename(tmp_path / "b.csv")
    assert edition_of(tmp_path) != before


def test_a_database_that_is_up_to_date_is_left_alone(folder_with: MakeFolder) -> None:
    folder = folder_with()
    edition = build(folder, url_in(folder))
    before = (folder / "reference.sqlite").stat()
    assert build(folder, url_in(folder)) == edition
    after = (folder / "reference.sqlite").stat()
    assert (after.st_ino, after.st_mtime_ns) == (before.st_ino, before.st_mtime_ns)


def test_a_change_of_the_tables_is_swapped_in(folder_with: MakeFolder, board: Row) -> None:
    folder = folder_with()
    build(folder, url_in(folder))
    reader = open_for_reading(url_in(folder)).connect()
    count = text("SELECT count(*) FROM lumber_sizes")
    build(folder_with(lumber_sizes=[board]), url_in(folder))
    assert reader.execute(count).scalar_one() == 0, "who had the old file open keeps it"
    reader.close()
    with open_for_reading(url_in(folder)).connect() as fresh:
        assert fresh.execute(count).scalar_one() == 1


def test_refused_tables_leave_the_database_as_it_was(folder_with: MakeFolder, board: Row) -> None:
    folder = folder_with(lumber_sizes=[board])
    edition = build(folder, url_in(folder))
    with pytest.raises(Refused):
        build(folder_with(lumber_sizes=[board | {"source": ""}]), url_in(folder))
    assert read_rows(open_for_reading(url_in(folder))).edition == edition
    assert [path.name for path in folder.glob("reference*")] == ["reference.sqlite"]


@pytest.mark.parametrize("left", [b"", b"not a database, but long enough to look like a file" * 99])
def test_a_broken_file_is_built_anew(folder_with: MakeFolder, left: bytes) -> None:
    folder = folder_with()
    (folder / "reference.sqlite").write_bytes(left)
    build(folder, url_in(folder))
    assert read_rows(open_for_reading(url_in(folder))).edition == edition_of(folder)


def test_the_file_is_read_only_while_serving(reference_url: str) -> None:
    engine = open_for_reading(reference_url)
    with engine.connect() as connection, pytest.raises(OperationalError, match="readonly"):
        connection.execute(text("DELETE FROM lumber_sizes"))


def test_a_folder_with_odd_letters_in_its_name_can_hold_the_file(
    folder_with: MakeFolder, tmp_path: Path
) -> None:
    url = f"sqlite:///{tmp_path / 'a b#c%20d' / 'reference.sqlite'}"
    edition = build(folder_with(), url)
    assert read_rows(open_for_reading(url)).edition == edition


def test_the_file_keeps_its_foreign_keys(reference_url: str) -> None:
    file = sqlite3.connect(str(make_url(reference_url).database))
    try:
        assert file.execute("PRAGMA foreign_key_check").fetchall() == []
        linked = file.execute("SELECT DISTINCT \"table\" FROM pragma_foreign_key_list('panels')")
        assert linked.fetchall() == [("sources",)]
    finally:
        file.close()


@pytest.fixture
def postgresql() -> Iterator[str]:
    """Address of a schema of our own on a local server, dropped afterwards."""
    pytest.importorskip("psycopg", reason="psycopg is not installed")
    schema = f"dryfit_{uuid4().hex}"  # tests run side by side
    engine = create_engine(SERVER, connect_args={"connect_timeout": 2})
    try:
        with engine.begin() as connection:
            connection.execute(text(f"CREATE SCHEMA {schema}"))
    except DatabaseError:
        pytest.skip("no PostgreSQL server answers on this machine")
    yield f"{SERVER}?options=-csearch_path%3D{schema}"
    with engine.begin() as connection:
        connection.execute(text(f"DROP SCHEMA {schema} CASCADE"))
    engine.dispose()


def test_the_same_tables_build_on_postgresql(postgresql: str, reference_rows: Rows) -> None:
    build(DATA, postgresql)
    rows = read_rows(open_for_reading(postgresql))
    assert rows == reference_rows
    assert catalog_of(rows) == catalog_of(reference_rows)


def test_postgresql_keeps_the_old_tables_when_new_ones_are_refused(
    postgresql: str, folder_with: MakeFolder, board: Row
) -> None:
    edition = build(folder_with(lumber_sizes=[board]), postgresql)
    with pytest.raises(Refused):
        build(folder_with(lumber_sizes=[board | {"locator": ""}]), postgresql)
    assert read_rows(open_for_reading(postgresql)).edition == edition


def test_postgresql_is_built_anew_after_a_change(
    postgresql: str, folder_with: MakeFolder, board: Row
) -> None:
    build(folder_with(), postgresql)
    edition = build(folder_with(lumber_sizes=[board]), postgresql)
    rows = read_rows(open_for_reading(postgresql))
    assert (rows.edition, len(rows.tables["lumber_sizes"])) == (edition, 1)
