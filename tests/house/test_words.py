"""Words that this service never says of a piece, and things that do not belong in the project."""

import re
import subprocess
from pathlib import Path

import pytest

PROJECT = Path(__file__).resolve().parents[2]

# What no answer says of a piece. Where the words are needed to say that nothing of the kind is
# said (README, this list), the file is left out below.
BANNED = re.compile(
    r"\b(is safe|are safe|safe for|safe to (?:sit|stand|use|climb)|rated for|holds up to"
    r"|weight limit|guaranteed?|certified|compliant|child[- ]safe|food[- ]safe"
    r"|no need to anchor|need not be anchored)\b",
    re.IGNORECASE,
)
SPEAKS = ("service/**/*.py", "service/**/*.html", "service/**/*.txt", "openapi/**/*", "*.md")
PATHS = re.compile(r"/(?:work|farm|root|tmp|home)/[a-z]")
ADDRESSES = re.compile(
    r"https?://(?!dryfit\.test|127\.0\.0\.1|localhost|json-schema\.org|www\.w3\.org/2000/svg|\{)"
)
STUBS = re.compile(r"\b(TODO|FIXME|XXX|xfail)\b")


LOCKS = {"requirements.lock", "package-lock.json"}  # they name where packages come from


def tracked() -> list[Path]:
    listed = subprocess.run(
        ["git", "ls-files", "--cached", "--others", "--exclude-standard"],
        cwd=PROJECT, capture_output=True, text=True, check=True,
    ).stdout.split("\n")  # fmt: skip
    return [PROJECT / name for name in listed if name and (PROJECT / name).is_file()]


def spoken() -> list[Path]:
    return sorted({path for pattern in SPEAKS for path in PROJECT.glob(pattern) if path.is_file()})


@pytest.mark.parametrize("path", spoken(), ids=lambda path: str(path.relative_to(PROJECT)))
def test_nothing_is_called_what_no_answer_may_call_it(path: Path) -> None:
    found = [m.group() for m in BANNED.finditer(path.read_text(encoding="utf-8"))]
    assert not found


@pytest.mark.parametrize(
    "sentence",
    [
        "This stool is safe.",
        "It holds up to 90 kg.",
        "A child-safe shelf",
        "certified",
        "compliant",
    ],
)
def test_the_banned_words_are_found_when_they_are_there(sentence: str) -> None:
    assert BANNED.search(sentence)


def test_no_file_names_a_path_of_some_machine() -> None:
    guilty = [str(p) for p in tracked() if p.name not in LOCKS and PATHS.search(text_of(p))]
    assert guilty == []


def test_no_file_points_to_an_address_outside() -> None:
    guilty = [str(p) for p in tracked() if p.name not in LOCKS and ADDRESSES.search(text_of(p))]
    assert guilty == []


def test_nothing_is_left_to_do_later() -> None:
    own = PROJECT / "tests" / "house" / "test_words.py"
    guilty = [str(p) for p in tracked() if p != own and STUBS.search(text_of(p))]
    assert guilty == []


def text_of(path: Path) -> str:
    return path.read_text(encoding="utf-8", errors="replace")
