"""DEVELOPERS.md, true to the last line that a test can read."""

import re

from service.settings import PROJECT

TEXT = (PROJECT / "DEVELOPERS.md").read_text(encoding="utf-8")


def test_every_file_that_is_named_is_there() -> None:
    named = set(re.findall(r"`((?:service|tests|scripts|reference_data|\.ci)/[\w./-]+)`", TEXT))
    assert named
    assert [name for name in named if not (PROJECT / name).exists()] == []


def test_every_script_is_in_the_table() -> None:
    scripts = {path.name for path in (PROJECT / "scripts").iterdir()} - {"setup"}
    assert scripts == set(re.findall(r"^\| `scripts/([\w-]+)`", TEXT, flags=re.MULTILINE))
