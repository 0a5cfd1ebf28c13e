"""A reload under load: new workers take over, and no caller notices."""

import threading
import time
from collections import Counter

from tests.serving.live import PATIENCE, Live

THREADS, RELOADS, WORKERS = 4, 5, 2
PATHS = ("/healthz", "/v1/sizes/1x8", "/v1/sag?stock=1x8&span=30&load=20lb", "/v1/why/run.tight")


class Load:
    """Callers who ask one thing after the other until they are told to stop, for `with`."""

    def __init__(self, live: Live) -> None:
        self.live, self.enough = live, threading.Event()
        self.answered = Counter[str]()
        self.lock = threading.Lock()
        self.threads = [threading.Thread(target=self._ask, args=(n,)) for n in range(THREADS)]

    def _ask(self, number: int) -> None:
        while not self.enough.is_set():
            number += 1
            try:
                outcome = str(self.live.ask(PATHS[number % len(PATHS)])[0])
            except Exception as failure:  # whatever a caller may run into is counted
                outcome = repr(failure)
            with self.lock:
                self.answered[outcome] += 1

    def __enter__(self) -> "Load":
        for thread in self.threads:
            thread.start()
        return self

    def __exit__(self, *_: object) -> None:
        self.enough.set()
        for thread in self.threads:
            thread.join()

    def more(self, count: int) -> None:
        """Wait until so many more have been answered."""
        until, goal = time.monotonic() + PATIENCE, self.answered.total() + count
        while self.answered.total() < goal and time.monotonic() < until:
            time.sleep(0.01)


def wait_for_others(live: Live, old: set[int]) -> None:
    """Until none of the old workers is left and as many new ones are there as there should be.

    `old` may have one more: who plans for them, in the moment before it has its own name.
    """
    until = time.monotonic() + PATIENCE
    while len(set(live.workers) - old) < WORKERS or old & set(live.workers):
        assert time.monotonic() < until, "the old workers are still there"
        time.sleep(0.02)


def test_a_reload_under_load_fails_no_request() -> None:
    with Live(DRYFIT_WORKERS=f"{WORKERS}") as live:
        with Load(live) as load:
            for _ in range(RELOADS):
                load.more(20)
                old = set(live.workers)
                live.reload()
                wait_for_others(live, old)
            load.more(20)
        answered = load.answered
    print(f"{answered.total()} asked over {RELOADS} reloads: {dict(answered)}")
    assert set(answered) == {"200"}
    assert answered.total() > RELOADS * 20
