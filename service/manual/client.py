"""A small client: asks a running service in plain text and in JSON, with nothing but the library.

Every refusal ends the run with the service's own words.
"""

import json
import os
import socket
import subprocess
import sys
import time
import urllib.error
import urllib.request
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any

PROJECT = Path(__file__).resolve().parents[2]
PATIENCE = 30.0  # seconds for a service to start
TYPES = {"text": "text/plain", "json": "application/json", "html": "text/html"}


class Refused(Exception):
    """The service refused, or nobody answered: what it said."""


@dataclass(frozen=True, slots=True)
class Client:
    """Asks the service at an address."""

    address: str

    def ask(self, question: str, body: Any = None, form: str = "text") -> str:
        """The answer to a question in one of the forms text, json and html. Raises Refused."""
        data = None if body is None else json.dumps(body).encode()
        headers = {"Accept": TYPES[form], "Content-Type": "application/json"}
        asked = urllib.request.Request(f"{self.address}{question}", data, headers)  # http
        try:
            with urllib.request.urlopen(asked, timeout=60) as answer:  # http
                return str(answer.read().decode())
        except urllib.error.HTTPError as refusal:
            raise Refused(_said(refusal.read())) from None
        except OSError as error:
            raise Refused(f"nobody answers at {self.address}: {error}") from None

    def value(self, question: str, body: Any = None) -> Any:
        """The answer as a value."""
        return json.loads(self.ask(question, body, "json"))


def _said(body: bytes) -> str:
    """What a problem says, or the body as it came."""
    try:
        told = json.loads(body)
        return str(told.get("detail") or told["title"])
    except (ValueError, KeyError, AttributeError):
        return body.decode(errors="replace")


@contextmanager
def a_service() -> Iterator[Client]:
    """A client of the service at DRYFIT_URL, or of one started here on a free port for a while."""
    stated = os.environ.get("DRYFIT_URL")
    if stated:
        yield Client(stated.rstrip("/"))
        return
    port = _free_port()
    quiet = {"DRYFIT_LOG": "warning", **os.environ, "PORT": str(port)}  # no line a request here
    process = subprocess.Popen(
        [sys.executable, "-m", "gunicorn", "--config", "service/serving.py", "--workers", "1"],
        cwd=PROJECT, env=quiet, stdout=subprocess.DEVNULL,
    )  # fmt: skip
    try:
        client = Client(f"http://127.0.0.1:{port}")
        _wait_for(client, process)
        yield client
    finally:
        process.terminate()
        process.wait()


def _free_port() -> int:
    with socket.socket() as listener:
        listener.bind(("127.0.0.1", 0))
        return int(listener.getsockname()[1])


def _wait_for(client: Client, process: "subprocess.Popen[bytes]") -> None:
    late = time.monotonic() + PATIENCE
    while True:
        try:
            client.ask("/healthz", form="json")
            return
        except Refused:
            if process.poll() is not None or time.monotonic() > late:
                raise
            time.sleep(0.05)
