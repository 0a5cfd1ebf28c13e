"""The house: which room may use what, what stands at the top, how long a module may be."""

import ast
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

PROJECT = Path(__file__).resolve().parents[2]
SERVICE = PROJECT / "service"

MAY_IMPORT = {
    "domain": {"service.domain"},
    "quantities": {"service.quantities", "service.domain", "pint"},
    "planning": {"service.planning", "service.domain", "numpy", "highspy"},
    "reference": {"service.reference", "service.domain", "service.quantities", "sqlalchemy"},
    "publishing": {
        "service.publishing",
        "service.api",
        "service.domain",
        "apispec",
        "flask",
        "marshmallow",
        "orjson",
        "werkzeug",
    },
    "handouts": {
        "service.handouts",
        "service.planning",
        "service.domain",
        "jinja2",
        "markupsafe",
        "reportlab",
    },
    "pages": set(),  # files for a browser, no Python
    "manual": {"service.manual", "service.domain", "jinja2", "markupsafe"},
    "api": {
        "service.api",
        "service.handouts",
        "service.manual",
        "service.reference",
        "service.planning",
        "service.domain",
        "service.quantities",
        "service.settings",
        "flask",
        "marshmallow",
        "orjson",
        "werkzeug",
    },
    "door": {
        "service.door",
        "service.api",
        "service.domain.deadline",
        "service.settings",
        "gunicorn",
        "flask",
        "limits",
        "orjson",
        "prometheus_client",
        "werkzeug",
    },
}
TOP = {
    ".ci", ".gitignore", "DEVELOPERS.md", "LICENSE", "README.md", "openapi", "pyproject.toml",
    "reference_data", "requirements.lock", "scripts", "service", "tests",
}  # fmt: skip
FORBIDDEN_NAMES = {"utils", "helpers", "common", "base", "managers", "services"}
LONG_BY_REASON: dict[str, str] = {
    "service/domain/build.py": "the whole document in one place, a value an entry",
}
MOST_LINES, MOST_LINES_OF_A_FUNCTION = 300, 40

MODULES = sorted(SERVICE.rglob("*.py"))


def tree(path: Path) -> ast.Module:
    return ast.parse(path.read_text(encoding="utf-8"))


def imported(path: Path) -> Iterator[str]:
    for node in ast.walk(tree(path)):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path}: relative import"
            if node.module == "service":
                yield from (f"service.{alias.name}" for alias in node.names)
            else:
                yield node.module or ""


def short(path: Path) -> str:
    return str(path.relative_to(PROJECT))


def test_every_room_has_its_arrows_drawn() -> None:
    rooms = {path.name for path in SERVICE.iterdir() if path.is_dir() and path.name[0] != "_"}
    assert rooms == set(MAY_IMPORT)


@pytest.mark.parametrize("room", MAY_IMPORT)
def test_a_room_imports_only_inward(room: str) -> None:
    for path in (SERVICE / room).rglob("*.py"):
        for name in imported(path):
            inward = any(name == a or name.startswith(f"{a}.") for a in MAY_IMPORT[room])
            known = name.split(".")[0] in sys.stdlib_module_names
            assert inward or known, f"{short(path)} imports {name}"


def test_only_the_unit_table_imports_pint() -> None:
    users = [short(path) for path in MODULES if "pint" in set(imported(path))]
    assert users == ["service/quantities/units.py"]


def test_the_top_level_is_as_drawn() -> None:
    listed = subprocess.run(
        ["git", "ls-files", "--cached", "--others", "--exclude-standard"],
        cwd=PROJECT, capture_output=True, text=True, check=True,
    ).stdout.split()  # fmt: skip
    assert {name.split("/")[0] for name in listed} <= TOP


@pytest.mark.parametrize("path", MODULES, ids=short)
def test_a_module_says_what_it_is(path: Path) -> None:
    words = (ast.get_docstring(tree(path)) or "").split()
    assert len(words) >= 5, f"{short(path)} has no docstring that says what lives here"
    assert path.stem not in FORBIDDEN_NAMES


@pytest.mark.parametrize("path", MODULES, ids=short)
def test_a_module_and_its_functions_stay_short(path: Path) -> None:
    lines = len(path.read_text(encoding="utf-8").splitlines())
    assert lines <= MOST_LINES or short(path) in LONG_BY_REASON, f"{lines} lines"
    for node in ast.walk(tree(path)):
        if isinstance(node, ast.FunctionDef):
            length = (node.end_lineno or 0) - node.lineno + 1
            assert length <= MOST_LINES_OF_A_FUNCTION, f"{node.name}: {length} lines"


@pytest.mark.parametrize("path", MODULES, ids=short)
def test_what_others_use_is_explained(path: Path) -> None:
    for node in tree(path).body:
        public = isinstance(node, ast.FunctionDef | ast.ClassDef) and node.name[0] != "_"
        if public and not ast.get_docstring(node):  # type: ignore[arg-type]  # narrowed by public
            pytest.fail(f"{short(path)}: {node.name} has no docstring")  # type: ignore[attr-defined]
