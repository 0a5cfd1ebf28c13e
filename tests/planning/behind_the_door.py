"""What a process with one thread does through the door of the planners, told line by line as JSON.

A program of its own, because the process that runs the tests has threads and must not fork.
"""

import json
import os
import threading
import time
from collections.abc import Callable, Iterator
from fractions import Fraction
from math import factorial
from pathlib import Path
from typing import Any

from service.domain.deadline import begin, end
from service.domain.errors import OutOfTime
from service.planning import apart


def me() -> int:
    """The process that works."""
    return os.getpid()


def crash() -> None:
    """As a solver that reads where it may not."""
    os.abort()


def out_of_time() -> None:
    raise OutOfTime


def wrong() -> None:
    raise ValueError("of all things")


def large() -> int:
    """Take more memory than a kept process may have."""
    return len(bytearray(200 * 2**20)) and os.getpid()


def busy(seconds: float) -> int:
    """Look at no deadline."""
    until = time.monotonic() + seconds
    while time.monotonic() < until:
        factorial(2000)
    return os.getpid()


def refused(task: Callable[..., Any], *given: Any) -> str:
    """What it raises instead of an answer."""
    try:
        return f"answered {apart.done(task, *given)}"
    except (OutOfTime, RuntimeError) as error:
        return repr(error)


def seconds_to_end(pid: int) -> float:
    """Until a process is gone; 20 when it stays."""
    begun = time.monotonic()
    while Path(f"/proc/{pid}").exists() and time.monotonic() - begun < 20:
        time.sleep(0.02)
    return time.monotonic() - begun


def in_threads(count: int) -> list[int]:
    """Who worked for so many threads at once."""
    found: list[int] = []
    threads = [
        threading.Thread(target=lambda: found.append(apart.done(busy, 1.0))) for _ in range(count)
    ]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    return found


def told() -> Iterator[dict[str, Any]]:
    """One thing after the other."""
    yield {"in place": apart.done(me) == me()}
    apart.open_door(lambda: None)
    first = apart.done(me)
    yield {"apart": first != me(), "kept": apart.done(me) == first}
    yield {"exact": apart.done(Fraction, 1, 3) == Fraction(1, 3)}
    yield {"wrong": refused(wrong), "late": refused(out_of_time), "crashed": refused(crash)}
    large_one = apart.done(large)
    yield {"after a crash": large_one != me(), "let go": seconds_to_end(large_one)}
    yield {"threads": len(set(in_threads(4)))}
    stuck = apart.done(me)
    begin(0.5)
    begun = time.monotonic()
    yield {"stuck": refused(busy, 60.0), "took": time.monotonic() - begun}
    end()
    yield {"ended": seconds_to_end(stuck)}
    before = apart.done(me)
    apart.open_door(lambda: None)
    yield {"anew": apart.done(me) != before, "the old one": seconds_to_end(before)}


if __name__ == "__main__":
    for line in told():
        print(json.dumps(line), flush=True)
