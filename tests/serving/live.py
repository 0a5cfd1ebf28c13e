"""The service as it is served: gunicorn with `service/serving.py`, on a free port."""

import http.client
import os
import signal
import socket
import subprocess
import sys
import time
from pathlib import Path

from tests.serving import processes

PROJECT = Path(__file__).resolve().parents[2]
PATIENCE = 60.0  # seconds for a start on a busy machine


def free_port() -> int:
    """A port that nobody listens on just now."""
    with socket.socket() as listener:
        listener.bind(("127.0.0.1", 0))
        port: int = listener.getsockname()[1]
        return port


class Live:
    """A service of its own, for `with`. Settings are given as in the environment."""

    def __init__(self, log: Path | None = None, **settings: str) -> None:
        self.port = free_port()
        self.log, self.settings = log, {"DRYFIT_LOG": "warning", **settings}
        self.seconds_to_answer = 0.0

    def __enter__(self) -> "Live":
        started = time.monotonic()
        with (self.log or Path(os.devnull)).open("ab") as output:
            self.process = subprocess.Popen(
                [sys.executable, "-m", "gunicorn", "--config", "service/serving.py"],
                cwd=PROJECT, env={**os.environ, **self.settings, "PORT": str(self.port)},
                stdout=output, stderr=output,
            )  # fmt: skip
        try:
            wait_for_answer(self.port, "/healthz", self.process)
        except BaseException:
            self.stop()
            raise
        self.seconds_to_answer = time.monotonic() - started
        return self

    def __exit__(self, *_: object) -> None:
        self.stop()

    def stop(self) -> None:
        """Ask it to end, and end it if it does not."""
        self.process.send_signal(signal.SIGTERM)
        try:
            self.process.wait(timeout=60)
        except subprocess.TimeoutExpired:
            self.process.kill()
            self.process.wait()

    def reload(self) -> None:
        """Ask for new workers, as `systemctl reload` does."""
        self.process.send_signal(signal.SIGHUP)

    @property
    def workers(self) -> list[int]:
        """The processes that answer."""
        return processes.workers(self.process.pid)

    @property
    def planners(self) -> list[int]:
        """The processes that plan for them."""
        return processes.planners(self.process.pid)

    def ask(
        self, path: str, body: bytes | None = None, timeout: float = 60.0
    ) -> tuple[int, dict[str, str], bytes]:
        """Status, headers and content, on a connection of its own."""
        connection = http.client.HTTPConnection("127.0.0.1", self.port, timeout=timeout)
        try:
            headers = {"Content-Type": "application/json"} if body is not None else {}
            connection.request("GET" if body is None else "POST", path, body, headers)
            answer = connection.getresponse()
            return answer.status, dict(answer.getheaders()), answer.read()
        finally:
            connection.close()


def wait_for_answer(port: int, path: str, process: subprocess.Popen[bytes]) -> None:
    """Until it answers. Raises RuntimeError when it ends before, or takes too long."""
    until = time.monotonic() + PATIENCE
    while time.monotonic() < until:
        if process.poll() is not None:
            raise RuntimeError(f"it ended with {process.returncode}")
        connection = http.client.HTTPConnection("127.0.0.1", port, timeout=5)
        try:
            connection.request("GET", path)
            if connection.getresponse().status < 500:
                return
        except (OSError, http.client.HTTPException):
            pass
        finally:
            connection.close()
        time.sleep(0.02)
    raise RuntimeError("it does not answer")
