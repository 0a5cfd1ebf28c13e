"""What the kernel tells of a service's processes: who they are, their memory, their time."""

import os
import signal
from pathlib import Path

PLANNER = "dryfit-apart"  # service/planning/apart.py
TICKS = os.sysconf("SC_CLK_TCK")


def children(pid: int) -> list[int]:
    """The processes that it has made."""
    return [int(one) for one in Path(f"/proc/{pid}/task/{pid}/children").read_text().split()]


def name(pid: int) -> str:
    """What `ps` calls it; empty when it is gone."""
    try:
        return Path(f"/proc/{pid}/comm").read_text().strip()
    except OSError:
        return ""


def workers(first: int) -> list[int]:
    """The processes of a service that answer."""
    return [one for one in children(first) if name(one) != PLANNER]


def planners(first: int) -> list[int]:
    """Those that wait behind the door of the planners, and those who plan now or just did."""
    behind = [one for one in children(first) if name(one) == PLANNER]
    return behind + [one for door in behind for one in children(door)]


def resident(pid: int) -> float:
    """Megabytes in memory, pages that others have too counted whole."""
    return _megabytes(Path(f"/proc/{pid}/status"), "VmRSS")


def proportional(pid: int) -> float:
    """Megabytes in memory, pages shared with others divided among them."""
    return _megabytes(Path(f"/proc/{pid}/smaps_rollup"), "\nPss")


def processor_seconds(first: int) -> float:
    """Seconds of processor time of a service's workers and planners so far, the dead included."""
    behind = [one for one in children(first) if name(one) == PLANNER]
    return sum(map(own_seconds, workers(first) + planners(first))) + sum(map(_of_the_dead, behind))


def kill(pid: int) -> None:
    """End it in the way that nobody can mind."""
    os.kill(pid, signal.SIGKILL)


def _megabytes(file: Path, field: str) -> float:
    return int(file.read_text().partition(f"{field}:")[2].split()[0]) / 1024


def own_seconds(pid: int) -> float:
    """Seconds of processor time of one process so far."""
    user, system = _times(pid)[:2]
    return (user + system) / TICKS


def _of_the_dead(pid: int) -> float:
    user, system = _times(pid)[2:]
    return (user + system) / TICKS


def _times(pid: int) -> list[int]:
    """Its own ticks, for itself and for the system, and those of its children that have ended."""
    try:
        fields = Path(f"/proc/{pid}/stat").read_text().rpartition(")")[2].split()
    except OSError:  # it ends just now: its time is counted with the dead
        return [0, 0, 0, 0]
    return [int(one) for one in fields[11:15]]
