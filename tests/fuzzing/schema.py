"""The published description tried on a live service: thousands of cases.

Schemathesis makes requests that the description allows and requests that it forbids. Nothing may
answer 5xx or in a way that the description does not know. Whether all that the schemas allow is
accepted is not asked here: no schema can say that two sizes contradict each other.
"""

import re
import subprocess
import sys
import tempfile
from collections import Counter
from dataclasses import dataclass
from pathlib import Path

from prometheus_client.parser import text_string_to_metric_families

from tests.serving.live import PROJECT, Live

CHECKS = (
    "not_a_server_error",
    "status_code_conformance",
    "content_type_conformance",
    "response_headers_conformance",
    "response_schema_conformance",
    "negative_data_rejection",
    "unsupported_method",
)
# 414 is a refusal too: the server's own, of an address over 8,190 bytes.
CONFIG = """
[checks.negative_data_rejection]
expected-statuses = [400, 404, 405, 406, 413, 414, 415, 422]
"""
# A question that searches takes as long as it is given: little here.
SETTINGS = {"DRYFIT_DEADLINE": "5", "DRYFIT_RATE": "off", "DRYFIT_METRICS": "loopback"}


@dataclass(frozen=True)
class Tried:
    """What came of a run: its exit status, what it printed, and the answers by status."""

    exit_status: int
    printed: str
    statuses: Counter[str]

    @property
    def cases(self) -> int:
        """Requests that were generated, by the report."""
        found = re.search(r"(\d+) generated", self.printed)
        return int(found[1]) if found else 0


def tried(examples: int, seed: int, phases: str, *more: str) -> Tried:
    """One run with so many examples an operation; `more` are arguments of the command."""
    with tempfile.TemporaryDirectory() as folder, Live(**SETTINGS) as live:
        Path(folder, "schemathesis.toml").write_text(CONFIG, encoding="utf-8")
        done = subprocess.run(
            [
                str(Path(sys.executable).with_name("schemathesis")), "run",
                str(PROJECT / "openapi" / "openapi.json"),
                "--url", f"http://127.0.0.1:{live.port}", "--checks", ",".join(CHECKS),
                "--max-examples", str(examples), "--seed", str(seed), "--phases", phases,
                "--suppress-health-check", "all", "--no-color", "--continue-on-failure",
                "--request-timeout", "120", "--warnings", "off",
                "--generation-database", "none", *more,
            ],
            cwd=folder, capture_output=True, text=True, check=False,
        )  # fmt: skip
        return Tried(done.returncode, done.stdout + done.stderr, statuses_of(live))


def statuses_of(live: Live) -> Counter[str]:
    """How many answers had which status, as the service itself has counted."""
    found: Counter[str] = Counter()
    for family in text_string_to_metric_families(live.ask("/metrics")[2].decode()):
        for sample in family.samples:
            if sample.name == "dryfit_requests_total":
                found[sample.labels["status"]] += int(sample.value)
    return found


def main(asked: list[str]) -> int:
    """Print what came of it; the exit status is that of the run."""
    examples = int(asked[0]) if asked else 50
    seed = int(asked[1]) if len(asked) > 1 else 1
    found = tried(examples, seed, "examples,coverage,fuzzing")
    print(found.printed)
    print(" ".join(f"{status}: {times}" for status, times in sorted(found.statuses.items())))
    print(f"{found.cases} cases; exit status {found.exit_status}")
    return found.exit_status


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
