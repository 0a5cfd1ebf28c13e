"""Work that is done in a process of its own, so that a worker's memory does not grow with it.

A planner needs arrays, a solver and room to search, a setter of type its letters; what a process
has once taken for them it hardly gives back. So the first process of a service opens a door before
it makes its workers: behind it waits a process with one thread, which forks another for whoever
comes in. Such a process works for one thread at a time, is kept for the next plan, and ends when it
is idle or has grown. The kernel ends it when the deadline has passed, even in the middle of a
solver that looks at no clock, and a solver that crashes takes nobody with it.

Where no door is open (tests, benchmarks, a door whose process is gone) the work is done in place.
"""

import gc
import os
import resource
import select
import signal
import socket
import traceback
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from threading import Lock
from time import monotonic
from typing import Any, ParamSpec, TypeVar

from service.domain.deadline import begin, end, last_moment
from service.domain.errors import OutOfTime
from service.planning.parcels import put, take

Given = ParamSpec("Given")
Found = TypeVar("Found")

KEPT = 1  # processes that a worker keeps for its next work
IDLE = 20.0  # seconds that one waits for it
GROWN = 110 * 1024  # kilobytes that one has ever taken, after which it is not kept
GRACE = 0.5  # seconds after the deadline until the kernel ends it
NAME = "dryfit-apart"


class Door:
    """The way into the process behind; each thread that comes in gets a process to itself."""

    def __init__(self, front: socket.socket) -> None:
        self._front, self._lock = front, Lock()
        self._kept: list[tuple[float, socket.socket]] = []

    def close(self) -> None:
        """Whoever is behind ends when all who can come in have gone."""
        self._front.close()
        for _, one in self._kept:
            one.close()

    def enter(self) -> socket.socket:
        """One that was kept and still waits, or a new one. Raises OSError when nobody is there."""
        while self._kept:
            with self._lock, suppress(IndexError):
                since, one = self._kept.pop()
                # Not one about to give up waiting, nor one that has ended, which can be read.
                if monotonic() - since < IDLE / 2 and not _can_be_read(one, 0):
                    return one
                one.close()
        here, there = socket.socketpair()
        with there:
            try:
                socket.send_fds(self._front, [b"."], [there.fileno()])
            except OSError:
                here.close()
                raise
        return here

    def leave(self, one: socket.socket) -> None:
        """Keep it for the next, if few are kept."""
        with self._lock:
            if len(self._kept) < KEPT:
                self._kept.append((monotonic(), one))
                return
        one.close()


_door: Door | None = None


def open_door(prepare: Callable[[], object], closed: Iterable[socket.socket] = ()) -> None:
    """Fork the process behind; call it before there are threads and workers.

    `prepare` is called there before the first work, to load what all of it needs. `closed` are
    sockets that only this process keeps. A door that was open is shut: its process ends with the
    last worker that came in through it.
    """
    global _door  # noqa: PLW0603  # one for the process, as its children inherit it
    front, back = socket.socketpair()
    if os.fork() == 0:
        with _ending():
            front.close()
            for one in closed:
                one.close()
            if _door is not None:
                _door.close()
            _stand_behind(back, prepare)
    back.close()
    if _door is not None:
        _door.close()
    _door = Door(front)


def done(task: Callable[Given, Found], *given: Given.args, **more: Given.kwargs) -> Found:
    """What a task comes to, worked out behind the door where there is one.

    The task is a function of a module; what it is given and what it finds are values. Raises
    OutOfTime at the deadline of the question; RuntimeError when the task fails there.
    """
    if _door is None:
        return task(*given, **more)
    try:
        one = _door.enter()
    except OSError:
        return task(*given, **more)
    kind, found = _asked(one, (task, given, more, last_moment()))
    if kind == "found":
        _door.leave(one)
    else:
        one.close()
    if kind in ("found", "found last"):
        answer: Found = found
        return answer
    if kind == "late":
        raise OutOfTime
    raise RuntimeError(found)


def _asked(one: socket.socket, work: tuple[Any, ...]) -> tuple[str, Any]:
    last = work[-1]
    try:
        one.settimeout(None if last is None else max(0.001, last - monotonic()))
        with one.makefile("rwb") as stream:
            put(stream, work)
            answer: tuple[str, Any] = take(stream)
            return answer
    except TimeoutError:
        return "late", None
    except (OSError, EOFError):
        late = last is not None and monotonic() >= last
        return (
            ("late", None) if late else ("failed", "the process apart has ended without an answer")
        )


def _stand_behind(door: socket.socket, prepare: Callable[[], object]) -> None:
    """Fork a process for each who comes in, until nobody can any more."""
    for number in (signal.SIGHUP, signal.SIGINT, signal.SIGUSR1, signal.SIGUSR2, signal.SIGWINCH):
        signal.signal(number, signal.SIG_IGN)  # meant for the first process
    for number in (signal.SIGTERM, signal.SIGQUIT, signal.SIGABRT):
        signal.signal(number, signal.SIG_DFL)
    signal.signal(signal.SIGCHLD, _bury)
    signal.set_wakeup_fd(-1)
    _call_this_process(NAME)
    prepared = False
    while True:
        message, handed, _, _ = socket.recv_fds(door, 1, 1)
        if not message:
            return
        if not prepared:
            prepare()
            gc.collect()
            gc.freeze()  # so that looking for cycles copies none of this in the processes to come
            prepared = True
        for came_in in handed:  # none where this process may open no more: who came sees it closed
            with socket.socket(fileno=came_in) as one:
                if os.fork() == 0:
                    with _ending():
                        door.close()
                        _work(one)


def _work(one: socket.socket) -> None:
    """Do what is asked until nobody asks, or this process has grown."""
    signal.signal(signal.SIGCHLD, signal.SIG_DFL)
    signal.signal(signal.SIGALRM, signal.SIG_DFL)  # ends the process
    with one.makefile("rwb") as stream, suppress(OSError, EOFError):
        while _can_be_read(one, IDLE):
            task, given, more, last = take(stream)
            kind, found = _result(task, given, more, last)
            grown = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss > GROWN
            put(stream, ("found last" if kind == "found" and grown else kind, found))
            if grown or kind != "found":
                return


def _result(
    task: Callable[..., Any], given: tuple[Any, ...], more: dict[str, Any], last: float | None
) -> tuple[str, Any]:
    if last is not None:
        left = max(0.001, last - monotonic())
        begin(left)
        signal.setitimer(signal.ITIMER_REAL, left + GRACE)
    try:
        return "found", task(*given, **more)
    except OutOfTime:
        return "late", None
    except Exception:  # whatever it is, the worker tells it on
        return "failed", traceback.format_exc()
    finally:
        signal.setitimer(signal.ITIMER_REAL, 0)
        end()


def _can_be_read(one: socket.socket, seconds: float) -> bool:
    """Whether something comes, or it ends, within so many seconds."""
    looking = select.poll()
    looking.register(one, select.POLLIN)
    return bool(looking.poll(seconds * 1000))


def _bury(*_: object) -> None:
    with suppress(ChildProcessError):
        while os.waitpid(-1, os.WNOHANG)[0]:
            pass


@contextmanager
def _ending() -> Iterator[None]:
    """Whatever happens inside, the process ends here: nothing of who forked it is run."""
    try:
        yield
    except BaseException:  # the last place where anybody hears of it
        traceback.print_exc()
        os._exit(1)
    os._exit(0)


def _call_this_process(name: str) -> None:
    """The name that `ps` shows, where the system lets a process choose it."""
    with suppress(OSError):
        Path("/proc/self/comm").write_text(name)
