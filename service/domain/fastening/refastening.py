"""What would put a fastening right: one exact change to the document, where there is one."""

from collections.abc import Iterator, Mapping
from fractions import Fraction
from functools import lru_cache

from service.domain.fastening.candidates import DOWELS, METRIC_POCKET_LENGTHS, POCKET_LENGTHS, Made
from service.domain.fastening.choosing import Choice, bores
from service.domain.fastening.fixing import Fixing, placed
from service.domain.fastening.flaws import is_sound
from service.domain.fastening.joints import JudgedJoint
from service.domain.fastening.ladders import ladders
from service.domain.fastening.proposing import best
from service.domain.fastening.searching import Reachable, Search
from service.domain.fastening.surroundings import said
from service.domain.findings import Change, Mend
from service.domain.keeping import kept
from service.domain.ratio import ratio
from service.domain.tape import MM, exact, is_binary
from service.domain.values import replace

Value = str | int | float | Mapping[str, str | int]

HELD_BY_GLUE = frozenset({"glue", "brad", "dowel"})
OTHER_LENGTH = frozenset({"pokes-out", "too-short", "pocket-length", "breaks-out"})


def mend_for(judged: JudgedJoint, code: str) -> Mend | None:
    """The mend of a flaw: another length, another size, or another way to fasten."""
    meeting, fixing = judged.meeting, judged.fixing
    if meeting is None or fixing is None:
        return None
    if code == "pocket-thread":
        thread = "fine" if fixing.thread == "coarse" else "coarse"
        path = f"{judged.at[1:]}/fastener/thread"
        return Mend(f"Take the {thread} thread.", (Change(path, thread),))
    if code in OTHER_LENGTH:
        length = kept(judged.around.catalog, ("length", judged.key), lambda: other_length(judged))
        if length is not None:
            say = judged.around.say(length)
            text = exact(length, judged.around.metric)
            path = f"{judged.at[1:]}/fastener/length"
            return Mend(f"Take the {say} length.", (Change(path, text, adds=True),))
    choice = kept(
        judged.around.catalog, ("other", code, judged.key), lambda: next(others(judged, code), None)
    )
    return as_mend(judged, choice) if choice else None


def other_length(judged: JudgedJoint) -> Fraction | None:
    """A length in which the same fastener is made that is right here."""
    meeting, fixing, around = judged.meeting, judged.fixing, judged.around
    if meeting is None or fixing is None:
        return None
    made = lengths_of(judged)
    if made is None:
        return None
    want = replace(judged.want, glue=fixing.glue or judged.want.glue)
    sizes = Reachable((made,), ladders(made.method, (made,)))
    found = Search(meeting, want, around).trial(sizes, bores(made.method, want.tools)).sound
    if found is None:
        return None
    right = replace(fixing, length=found[1].length)
    here = placed(meeting, right)
    return right.length if is_sound(meeting, right, here, around) else None


def lengths_of(judged: JudgedJoint) -> Made | None:
    """The lengths that the stated fastener is made in; None where another length is another
    nail."""
    fixing, catalog = judged.fixing, judged.around.catalog
    if fixing is None:
        return None
    lengths: set[Fraction] = set()
    if fixing.method == "pocket-screw":
        lengths.update(METRIC_POCKET_LENGTHS if judged.around.metric else POCKET_LENGTHS)
    elif fixing.method == "dowel":
        lengths.update(n for wide, many in DOWELS if wide == fixing.diameter for n in many)
    elif fixing.method == "screw":
        for screw in catalog.fasteners.screws:
            same_gauge = fixing.gauge is not None and screw.gauge == f"no-{fixing.gauge}"
            same_width = fixing.gauge is None and screw.diameter.value == fixing.diameter
            if same_gauge or same_width:
                lengths.update(screw.lengths.made)
    elif fixing.method == "brad":
        for nail in catalog.fasteners.nails_of("brad"):
            lengths.update(nail.lengths.made)
    if not lengths:
        return None
    diameter = fixing.diameter or Fraction(0)
    return Made(fixing.method, "", diameter, tuple(sorted(lengths)), fixing.gauge)


def others(judged: JudgedJoint, code: str) -> Iterator[Choice]:
    """The same method in another size, else the best other way that the shop has tools for."""
    meeting, around, want = judged.meeting, judged.around, judged.want
    if meeting is None or judged.fixing is None:
        return
    method = judged.fixing.method
    search = Search(meeting, want, around)
    if code not in ("no-tool", "pocket-thin", "mismatch"):
        same = search.find(method, want.tools)
        if same is not None:
            yield same
            return
    other = best(search, want.tools)
    if other is not None and other.fixing.method != method:
        yield other


def as_mend(judged: JudgedJoint, choice: Choice) -> Mend:
    """A choice as the change that puts it into the document.

    Glue alone in place of a fastener is said in words: no change takes the fastener out.
    """
    fixing, around = choice.fixing, judged.around
    if choice.made is None and judged.joint.fastener is not None:
        return Mend(f"Use {said(fixing.method)} instead, and leave the fastener out.")
    size = f" {around.say(fixing.length)}" if fixing.length else ""
    words = f"Use {said(fixing.method)}{size} instead"
    if choice.made is not None:
        words += f": {choice.made.type}, {around.say(choice.made.diameter)} thick"
    return Mend(f"{words}.", tuple(changes(judged, fixing)))


def changes(judged: JudgedJoint, fixing: Fixing) -> Iterator[Change]:
    """Every field of the joint that a fixing sets."""
    at, joint = judged.at[1:], judged.joint
    for name, value in fields_of(fixing, judged.around.metric).items():
        if name != "glue" or wants_glue(judged, fixing):
            yield Change(f"{at}/{name}", value, adds=True)
    if joint.slope and not fixing.slope:
        yield Change(f"{at}/slope", 0, adds=True)
    if joint.sunk and not fixing.sunk:
        yield Change(f"{at}/sunk", 0, adds=True)


def wants_glue(judged: JudgedJoint, fixing: Fixing) -> bool:
    """Whether a fixing has to say its glue: where the joint does, or it does not hold without."""
    if judged.joint.glue is not None or fixing.method in HELD_BY_GLUE or judged.meeting is None:
        return True
    meeting, bare = judged.meeting, replace(fixing, glue=None)
    return not is_sound(meeting, bare, placed(meeting, bare), judged.around)


def fields_of(fixing: Fixing, metric: bool) -> dict[str, Value]:
    """A fixing as the fields of a joint in a document."""
    told: dict[str, Value] = {"method": fixing.method}
    if fixing.length is not None:
        fastener: dict[str, str | int] = {}
        if fixing.gauge is not None and fixing.method in ("screw", "pocket-screw"):
            fastener["gauge"] = fixing.gauge
        elif fixing.diameter is not None:
            fastener["diameter"] = exact_size(fixing.diameter, metric)
        fastener["length"] = exact_size(fixing.length, metric)
        if fixing.thread:
            fastener["thread"] = fixing.thread
        if fixing.coating:
            fastener["coating"] = fixing.coating
        told["fastener"] = fastener
    if fixing.pilot:
        told["pilot"] = True
    if fixing.slope:
        told["slope"] = fixing.slope
    if fixing.glue is not None:
        told["glue"] = fixing.glue
    return told


def exact_size(size: Fraction, metric: bool) -> str:
    """A size that reads back exactly, as decimals of an inch where it is no binary fraction."""
    return _exact_size(*size.as_integer_ratio(), metric)


@lru_cache(maxsize=1024)  # the few sizes that are made
def _exact_size(over: int, under: int, metric: bool) -> str:
    size = ratio(over, under)
    if metric or is_binary(size) or (size / MM).denominator == 1:
        return exact(size, metric)
    return f"{float(size):g} in"
