"""nginx in front of a live service, as `scripts/deploy/nginx.conf` has it, on a free port."""

import re
import shutil
import subprocess
import tempfile
from pathlib import Path

from tests.serving.live import PROJECT, free_port, wait_for_answer

CONFIGURATION = PROJECT / "scripts" / "deploy" / "nginx.conf"


def configuration(port: int, service: int, **changed: str) -> str:
    """The file with two ports changed, and other settings that are named, and nothing else."""
    text = CONFIGURATION.read_text(encoding="utf-8")
    others = (
        (printed, f"{name} {changed[name]};")
        for name in changed
        for printed in re.findall(rf"\b{name} [^;]+;", text)
    )
    for printed, wanted in (
        ("listen 8080;", f"listen 127.0.0.1:{port};"),
        ("http://127.0.0.1:8000;", f"http://127.0.0.1:{service};"),
        *others,
    ):
        assert text.count(printed) == 1
        text = text.replace(printed, wanted)
    return text


class Proxied:
    """The proxy, for `with`; `service` is the port behind it, `changed` settings of its own."""

    def __init__(self, service: int, **changed: str) -> None:
        self.port, self.service, self.changed = free_port(), service, changed

    def __enter__(self) -> "Proxied":
        # Not in pytest's own folder: started by root, the workers are somebody else.
        self.folder = Path(tempfile.mkdtemp(prefix="dryfit-proxy-"))
        self.folder.chmod(0o755)
        file = self.folder / "nginx.conf"
        file.write_text(configuration(self.port, self.service, **self.changed), encoding="utf-8")
        self.process = subprocess.Popen(
            [shutil.which("nginx") or "nginx", "-c", str(file), "-p", str(self.folder),
             "-e", "stderr", "-g", "daemon off;"],
            stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
        )  # fmt: skip
        try:
            wait_for_answer(self.port, "/healthz", self.process)
        except BaseException:
            self.stop()
            raise
        return self

    def __exit__(self, *_: object) -> None:
        self.stop()

    def stop(self) -> None:
        """End it and clear up."""
        self.process.terminate()
        try:
            self.process.wait(timeout=30)
        finally:
            self.process.kill()
            self.process.wait(timeout=30)
            shutil.rmtree(self.folder, ignore_errors=True)
