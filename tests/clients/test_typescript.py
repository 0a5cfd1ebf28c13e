"""A TypeScript client, made of the published description, does the whole job."""

import shutil
import subprocess
from pathlib import Path

import pytest

from service.api.description import FILE

SOURCES = Path(__file__).with_name("typescript")


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder that the types are made in, with the locked packages."""
    if not shutil.which("node") or not shutil.which("npm"):
        pytest.skip("no node and npm on this machine")
    folder = tmp_path_factory.mktemp("typescript")
    for source in SOURCES.iterdir():
        if source.is_file():
            shutil.copy(source, folder)
    fetched = subprocess.run(
        ["npm", "ci", "--no-audit", "--no-fund", "--prefer-offline"],
        cwd=folder, capture_output=True, text=True, check=False,
    )  # fmt: skip
    if fetched.returncode and "ENOTFOUND" in fetched.stderr + fetched.stdout:
        pytest.skip("the packages of npm can't be fetched from here")
    assert fetched.returncode == 0, fetched.stderr
    run(folder, "openapi-typescript", str(FILE), "-o", "schema.ts")
    return folder


def run(folder: Path, tool: str, *given: str) -> str:
    """What a tool of the locked packages prints; it must not fail."""
    called = [str(folder / "node_modules" / ".bin" / tool), *given]
    done = subprocess.run(called, cwd=folder, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout + done.stderr
    return done.stdout


def test_what_is_written_with_it_is_typed_and_does_the_whole_job(
    made: Path, address: str, draft: Path, expected: list[str]
) -> None:
    run(made, "tsc", "--project", str(made))
    done = subprocess.run(
        ["node", "job.js", address, str(draft)],
        cwd=made, capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert done.returncode == 0, done.stderr
    told = done.stdout.splitlines()
    assert [line[: len(want)] for line, want in zip(told, expected, strict=True)] == expected


def test_a_field_that_is_not_there_does_not_compile(made: Path) -> None:
    spoiled = (made / "job.ts").read_text(encoding="utf-8").replace("plan.status", "plan.state")
    (made / "spoiled.ts").write_text(spoiled, encoding="utf-8")
    settings = (made / "tsconfig.json").read_text(encoding="utf-8").replace("job.ts", "spoiled.ts")
    (made / "spoiled.json").write_text(settings, encoding="utf-8")
    with pytest.raises(AssertionError, match="'state' does not exist"):
        run(made, "tsc", "--project", "spoiled.json", "--noEmit")
