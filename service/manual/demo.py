"""The whole job in the terminal: an invented riser, from a board's size to the page to build from.

`scripts/demo` starts a service for it, or asks the one at DRYFIT_URL.
"""

import json
import sys
import tempfile
from collections.abc import Callable, Iterator
from pathlib import Path
from textwrap import fill
from typing import Any

from service.manual.client import Client, Refused, a_service
from service.manual.twins import RISER, WRONG, riser

WIDTH = 80
CLOSING = ("assumed: ", "source: ", "sources: ", "edition: ")

Build = dict[str, Any]


def say(text: str) -> None:
    """Plain words, in 80 columns."""
    print(f"{fill(text, WIDTH)}\n")


def show(client: Client, question: str, body: Any = None) -> None:
    """A question and its answer; the lines about what it rests on are only counted."""
    print(f"{'GET' if body is None else 'POST'} {question}")
    lines = client.ask(question, body).splitlines()
    shown = "\n".join(_told(lines)).rstrip()
    left = sum(map(bool, lines)) - sum(map(bool, shown.splitlines()))
    print(f"{shown}\n({left} more lines: what was assumed, and the sources)\n")


def _told(lines: list[str]) -> Iterator[str]:
    closing = False
    for line in lines:
        closing = line.startswith(CLOSING) or (closing and line.startswith(" "))
        if not closing:
            yield line


def read_a_size(client: Client, _: Build) -> Build:
    """What a board really measures; then the draft, with the slip that many make once."""
    say("A riser for a counter, 25 1/2 in wide, of 1x6. What does a 1x6 really measure?")
    show(client, "/v1/sizes/1x6")
    draft: Build = riser().with_value(WRONG)
    return draft


def check_the_draft(client: Client, build: Build) -> Build:
    """The draft has a slip in it."""
    say(
        "The draft was figured before anybody looked: two ends of 1 in come off 25 1/2, so its "
        f"shelves are {WRONG} in long. Does it go together?"
    )
    print("  " + "\n  ".join(json.dumps(part) for part in build["parts"]) + "\n")
    show(client, "/v1/check", build)
    return build


def mend_it(client: Client, build: Build) -> Build:
    """Every exact mend, applied."""
    say("One change mends it, and the service can make it (mended=true).")
    mended: Build = client.value("/v1/check?mended=true", build)["mended"]
    for was, now in zip(build["parts"], mended["parts"], strict=True):
        if was != now:
            print(f"  - {json.dumps(was)}\n  + {json.dumps(now)}\n")
    show(client, "/v1/check", mended)
    return mended


def fasten_it(client: Client, build: Build) -> Build:
    """A joint is left open; what is best for it goes into the build."""
    say("What holds it? The rail's joint is left open in the build.")
    show(client, "/v1/fasteners", build)
    told = client.value("/v1/fasteners", build)["joints"]
    for joint, advice in zip(build["joints"], told, strict=True):
        if "method" not in joint:
            best = advice["options"][0]
            joint.update(best["in_a_build"], count=best["count"])
            print(f"The best way goes into the build, for {joint['id']}:")
            print(fill(json.dumps(joint), WIDTH, initial_indent="  ", subsequent_indent="    "))
            print()
    return build


def plan_it(client: Client, build: Build) -> Build:
    """What to buy, and how to cut it."""
    say("What do I buy, and how do I cut it? The prices are made up.")
    show(client, "/v1/cut-plan", build)
    return build


def estimate_it(client: Client, build: Build) -> Build:
    """Weight, cost and time."""
    say("What does it weigh and cost, and how long does it take?")
    show(client, "/v1/estimate", build)
    return build


def resize_it(client: Client, build: Build) -> Build:
    """The same piece for another counter."""
    say("What if the other counter leaves 31 1/2 in?")
    show(client, "/v1/resize", {"build": build, "to": {"width": "31 1/2"}})
    return build


STEPS: tuple[Callable[[Client, Build], Build], ...] = (
    read_a_size, check_the_draft, mend_it, fasten_it, plan_it, estimate_it, resize_it,
)  # fmt: skip


def hand_it_out(client: Client, build: Build, file: Path) -> None:
    """The page to buy, cut and build from, as a file."""
    say("The page to buy, cut and build from, for printing or the phone:")
    file.write_text(client.ask("/v1/handout", build, "html"), encoding="utf-8")
    print(f"  {file}")


def run(file: Path) -> None:
    """The whole job. Raises Refused."""
    build: Build = riser().build
    with a_service() as client:
        for number, step in enumerate(STEPS, 1):
            print(f"--- {number} of {len(STEPS) + 1}")
            build = step(client, build)
        print(f"--- {len(STEPS) + 1} of {len(STEPS) + 1}")
        hand_it_out(client, build, file)


def main() -> None:
    """Write the page to the file named, else to one in the folder for temporary files."""
    usual = Path(tempfile.gettempdir()) / f"{RISER}.html"
    try:
        run(Path(sys.argv[1]) if len(sys.argv) > 1 else usual)
    except Refused as refusal:
        sys.exit(f"demo: {refusal}")


if __name__ == "__main__":
    main()
