"""Formula constants, changed by 2 % in a copy of the project, one at a time."""

import ast
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

PROJECT = Path(__file__).resolve().parents[2]
MODULES = (
    "service/domain/beams.py",
    "service/domain/bending.py",
    "service/domain/board_feet.py",
    "service/domain/build.py",
    "service/domain/clamping.py",
    "service/domain/crossing.py",
    "service/domain/fasteners.py",
    "service/domain/gluing.py",
    "service/domain/hanging.py",
    "service/domain/fastening/holding.py",
    "service/domain/loads.py",
    "service/domain/material.py",
    "service/domain/moisture.py",
    "service/domain/fastening/pilot_holes.py",
    "service/domain/planks.py",
    "service/domain/rules/fits.py",
    "service/domain/sawing.py",
    "service/domain/sections.py",
    "service/domain/fastening/splitting.py",
    "service/domain/standing.py",
    "service/domain/stiffening.py",
    "service/domain/fastening/strength.py",
    "service/domain/tape.py",
    "service/domain/weight.py",
    "service/quantities/units.py",
)
TESTS = ("tests/published", "tests/checking", "tests/domain", "tests/quantities")
# Counts, exponents and limits of patience: changing them by 2 % means nothing.
NOT_FORMULAS = {0, 1, 2, -1, 3, 10, 100, 128, 64, 63, 4, 5}


@dataclass(frozen=True)
class Constant:
    """A number in a module, and where it stands."""

    path: str
    line: int
    column: int
    end: int
    value: float

    def __str__(self) -> str:
        return f"{self.path}:{self.line} {self.value:g}"


def constants() -> Iterator[Constant]:
    """Every number of the formula modules that is part of a formula."""
    for path in MODULES:
        for node in ast.walk(ast.parse((PROJECT / path).read_text(encoding="utf-8"))):
            if not isinstance(node, ast.Constant) or isinstance(node.value, bool):
                continue
            if isinstance(node.value, int | float) and node.value not in NOT_FORMULAS:
                end = node.end_col_offset or 0
                yield Constant(path, node.lineno, node.col_offset, end, node.value)


def changed(source: str, constant: Constant) -> str:
    """The module with one number 2 % larger; a whole number grows by at least one."""
    lines = source.splitlines(keepends=True)
    line = lines[constant.line - 1].encode()
    whole = isinstance(constant.value, int)
    larger = (
        max(constant.value + 1, round(constant.value * 1.02)) if whole else constant.value * 1.02
    )
    text = line[: constant.column] + repr(larger).encode() + line[constant.end :]
    lines[constant.line - 1] = text.decode()
    return "".join(lines)


def survivors() -> list[str]:
    """Constants that no test notices."""
    found = []
    with tempfile.TemporaryDirectory() as folder:
        copy = Path(folder) / "project"
        shutil.copytree(
            PROJECT, copy, ignore=shutil.ignore_patterns(".git", ".venv", ".dryfit", "__pycache__")
        )
        for constant in list(constants()):
            module = copy / constant.path
            source = module.read_text(encoding="utf-8")
            module.write_text(changed(source, constant), encoding="utf-8")
            noticed = subprocess.run(
                [sys.executable, "-m", "pytest", "-x", "-q", "-p", "no:cacheprovider",
                 "--deselect", "tests/checking/test_sound_builds.py", *TESTS],
                cwd=copy, capture_output=True, check=False,
            ).returncode  # fmt: skip
            module.write_text(source, encoding="utf-8")
            print("." if noticed else f"\nnot noticed: {constant}", end="", flush=True)
            if not noticed:
                found.append(str(constant))
    print()
    return found
