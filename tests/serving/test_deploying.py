"""The container file and the systemd unit, tried as far as a machine without either allows."""

import json
import os
import re
import shlex
import shutil
import signal
import socket
import subprocess
from collections.abc import Iterator
from configparser import ConfigParser
from pathlib import Path
from urllib.request import Request, urlopen

import pytest

from tests.serving.adversaries import boards
from tests.serving.live import PROJECT, free_port, wait_for_answer

DEPLOY = PROJECT / "scripts" / "deploy"
INSTALLED = "/opt/dryfit"
CONTAINER = DEPLOY / "Containerfile"
UNIT = DEPLOY / "dryfit.service"
MOST_EXPOSED = 25  # tenths of what systemd-analyze counts, of 100


def instructions() -> list[tuple[str, str]]:
    """Each instruction of the container file and what stands after it."""
    text = re.sub(r"\\\n\s*", "", CONTAINER.read_text(encoding="utf-8"))
    lines = [line for line in text.splitlines() if line and not line.startswith("#")]
    return [(line.partition(" ")[0], line.partition(" ")[2]) for line in lines]


def all_of(name: str) -> list[str]:
    return [said for instruction, said in instructions() if instruction == name]


def copied() -> list[tuple[str, str]]:
    """What is copied, and where to."""
    pairs = []
    for said in all_of("COPY"):
        *sources, target = shlex.split(said)
        pairs += [(source, target) for source in sources]
    return pairs


def environment() -> dict[str, str]:
    return dict(pair.split("=", 1) for said in all_of("ENV") for pair in shlex.split(said))


@pytest.fixture(scope="module")
def image(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Path]:
    """The folder that the container file makes: its copies, its commands, no more of the project.

    The packages are those of this environment, which `scripts/setup` finds installed.
    """
    folder = tmp_path_factory.mktemp("image")
    (folder / ".venv").symlink_to((PROJECT / ".venv").resolve())
    without = {k: v for k, v in os.environ.items() if not k.startswith("DRYFIT_")}
    for instruction, said in instructions():
        if instruction == "RUN":
            subprocess.run(shlex.split(said), cwd=folder, env=without, check=True, timeout=300)
        elif instruction == "COPY":
            *sources, target = shlex.split(said)
            for source in sources:
                place(PROJECT / source, folder / target)
    yield folder
    shutil.rmtree(folder)


def place(source: Path, target: Path) -> None:
    """As COPY does: what is in a folder, or a file into a folder."""
    if source.is_dir():
        shutil.copytree(source, target, ignore=shutil.ignore_patterns("__pycache__"))
    else:
        target.mkdir(exist_ok=True)
        shutil.copy(source, target)


def test_what_the_container_copies_and_runs_is_in_the_project() -> None:
    listed = subprocess.run(
        ["git", "ls-files"],
        cwd=PROJECT,
        capture_output=True,
        text=True,
        check=True,
        timeout=60,
    ).stdout.splitlines()
    for source, target in copied():
        assert any(name == source or name.startswith(f"{source}/") for name in listed), source
        assert target.endswith("/"), "a file is copied into a folder"
    for said in all_of("RUN"):
        command = shlex.split(said)[0]
        assert command == ".venv/bin/python" or os.access(PROJECT / command, os.X_OK), command


def test_the_container_installs_by_hash_and_runs_as_nobody_in_particular() -> None:
    assert all_of("FROM") == ["python:3.11-slim"]
    assert "scripts/setup" in all_of("RUN")
    assert "--require-hashes" in (PROJECT / "scripts" / "setup").read_text(encoding="utf-8")
    assert int(all_of("USER")[0].split(":")[0]) > 0
    names = [name for name, _ in instructions()]
    assert names.index("USER") > len(names) - 1 - names[::-1].index("RUN")
    assert environment()["DRYFIT_BIND"] == "0.0.0.0"


def test_what_the_container_holds_serves_and_is_found_healthy(image: Path) -> None:
    healthy = json.loads(all_of("HEALTHCHECK")[0].partition("CMD ")[2])
    asked = {**environment(), "PORT": str(free_port()), "DRYFIT_BIND": "127.0.0.1"}
    variables = {**os.environ, **asked, "TMPDIR": str(image)}
    assert subprocess.run(healthy, cwd=image, env=variables, check=False, timeout=60,
                          stderr=subprocess.DEVNULL).returncode != 0  # fmt: skip
    process = subprocess.Popen(
        json.loads(all_of("CMD")[0]), cwd=image, env=variables,
        stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
    )  # fmt: skip
    try:
        for path in ("/readyz", "/openapi.json", "/docs", "/v1/tables"):
            wait_for_answer(int(asked["PORT"]), path, process)
        assert subprocess.run(healthy, cwd=image, env=variables, check=False,
                              timeout=60).returncode == 0  # fmt: skip
    finally:
        process.send_signal(signal.SIGTERM)
        assert process.wait(timeout=60) == 0


READ_ONLY = (
    "mount -o remount,bind,ro / && ! touch here 2>/dev/null && "
    'exec setpriv --bounding-set=-all --inh-caps=-all --no-new-privs "$@"'
)


def may_unshare() -> bool:
    """Whether a process here may have mounts of its own."""
    if shutil.which("unshare") is None or shutil.which("setpriv") is None:
        return False
    tried = ["unshare", "--mount", "mount", "-o", "remount,bind,ro", "/"]
    return subprocess.run(tried, capture_output=True, check=False, timeout=60).returncode == 0


@pytest.mark.skipif(not may_unshare(), reason="no mounts of one's own without privileges")
def test_what_the_container_holds_runs_on_a_read_only_root_without_capabilities(
    image: Path,
) -> None:
    port = free_port()
    asked = {**environment(), "PORT": str(port), "DRYFIT_BIND": "127.0.0.1"}
    process = subprocess.Popen(
        ["unshare", "--mount", "sh", "-c", READ_ONLY, "sh", *json.loads(all_of("CMD")[0])],
        cwd=image, env={**os.environ, **asked, "DRYFIT_METRICS": "loopback"},
        stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
    )  # fmt: skip
    try:
        wait_for_answer(port, "/readyz", process)
        capabilities = Path(f"/proc/{process.pid}/status").read_text().partition("CapBnd:")[2]
        assert int(capabilities.split()[0], 16) == 0
        build = json.dumps(boards(4, 2, 2)).encode()
        url, kind = f"http://127.0.0.1:{port}", {"Content-Type": "application/json"}
        for wanted in (
            Request(f"{url}/metrics"),
            Request(f"{url}/v1/cut-plan?deadline_s=5", build, kind),
            Request(f"{url}/v1/handout?format=pdf", build, kind),
        ):
            with urlopen(wanted, timeout=60) as answer:
                assert answer.status == 200
    finally:
        process.send_signal(signal.SIGTERM)
        assert process.wait(timeout=60) == 0


def unit() -> dict[str, list[str]]:
    """What the section Service of the unit says."""

    class Several(dict[str, list[str]]):
        def __setitem__(self, key: str, value: list[str]) -> None:
            if isinstance(value, list) and key in self:
                value = self[key] + value
            super().__setitem__(key, value)

    reader = ConfigParser(
        interpolation=None, strict=False, comment_prefixes=("#",), dict_type=Several
    )
    reader.optionxform = str  # type: ignore[assignment,method-assign]
    reader.read_string(UNIT.read_text(encoding="utf-8"))
    return {key: value.split("\n") for key, value in reader["Service"].items()}


def test_the_unit_starts_what_is_there_and_reloads() -> None:
    said = unit()
    command, option, file = said["ExecStart"][0].split()
    assert command.removeprefix(f"{INSTALLED}/") == json.loads(all_of("CMD")[0])[0]
    assert (option, (PROJECT / file).is_file()) == ("--config", True)
    assert said["WorkingDirectory"] == [INSTALLED]
    assert said["ExecReload"] == ["/bin/kill -HUP $MAINPID"]
    assert said["Restart"] == ["on-failure"]
    assert said["DynamicUser"] == said["NoNewPrivileges"] == ["yes"]
    assert said["ProtectSystem"] == ["strict"]
    assert "MALLOC_ARENA_MAX=1" in said["Environment"]


@pytest.mark.skipif(shutil.which("systemd-analyze") is None, reason="systemd is not installed")
def test_systemd_finds_nothing_wrong_with_the_unit(tmp_path: Path) -> None:
    file = tmp_path / UNIT.name
    file.write_text(UNIT.read_text(encoding="utf-8").replace(INSTALLED, str(PROJECT)))
    checked = subprocess.run(
        ["systemd-analyze", "verify", str(file)],
        capture_output=True,
        text=True,
        check=False,
        timeout=60,
    )
    assert (checked.returncode, UNIT.name in checked.stderr) == (0, False), checked.stderr
    weighed = subprocess.run(
        ["systemd-analyze", "security", "--offline=true", f"--threshold={MOST_EXPOSED}", str(file)],
        capture_output=True, text=True, check=False, timeout=60,
    )  # fmt: skip
    print(weighed.stdout.strip().splitlines()[-1])
    assert weighed.returncode == 0, weighed.stdout


def test_systemd_is_told_when_the_service_is_ready(tmp_path: Path) -> None:
    """The unit waits for that word (Type=notify), sent to a socket that systemd listens on."""
    assert unit()["Type"] == ["notify"]
    settings = dict(line.split("=", 1) for line in unit()["Environment"])
    with socket.socket(socket.AF_UNIX, socket.SOCK_DGRAM) as systemd:
        systemd.bind(str(tmp_path / "notify"))
        systemd.settimeout(60)
        process = subprocess.Popen(
            shlex.split(unit()["ExecStart"][0].replace(INSTALLED, str(PROJECT))), cwd=PROJECT,
            env={**os.environ, **settings, "PORT": str(free_port()),
                 "NOTIFY_SOCKET": str(tmp_path / "notify")},
            stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
        )  # fmt: skip
        try:
            assert b"READY=1" in systemd.recv(4096).split(b"\n")
        finally:
            process.send_signal(signal.SIGTERM)
            process.wait(timeout=60)
