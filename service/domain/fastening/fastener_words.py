"""Fastenings in words, as a builder asks for them at the store and reads them at the bench."""

from fractions import Fraction

from service.domain.build import Joint
from service.domain.fastening.proposing import Option
from service.domain.tape import plain, tape

DRILL_STEP = Fraction(1, 64)
KINDS = {
    "pocket-screw": "pocket screw",
    "finish-nail": "finish nail",
    "screw": "wood screw",
    "glue": "glue alone",
}


def option_words(one: Option, metric: bool = False) -> str:
    """A way to fasten a joint: `2 #8 wood screws 1 1/4", pilot 3/32", glue pva-interior`."""
    fixing = one.choice.fixing
    glue = None if fixing.glue == "none" else fixing.glue
    if fixing.length is None:
        return f"{one.method} ({glue}), clamped"
    many = one.row.count
    named = option_name(one, metric, plural=many != 1)
    words = f"{many} {'x ' if named[0].isdigit() else ''}{named}" if many else named
    if fixing.slope:
        words += f" at {fixing.slope:g} degrees"
    if one.drilling and one.drilling.pilot and fixing.pilot:
        words += f", pilot {drill_words(one.drilling.pilot.usual, metric)}"
    return words + (f", glue {glue}" if glue else "")


def option_name(one: Option, metric: bool = False, *, plural: bool = False) -> str:
    """What to ask for at the store: `#8 wood screw 1 1/4"`."""
    fixing = one.choice.fixing
    kind = one.type.partition(",")[0] + ("s" if plural else "")
    thread = f"{fixing.thread}-thread " if fixing.thread else ""
    gauge = f"#{fixing.gauge} " if fixing.gauge and "screw" in one.method else ""
    if one.method == "screw" and not gauge and fixing.diameter is not None:
        gauge = f"{plain(fixing.diameter, metric)} "
    length = "" if fixing.length is None else f" {tape(fixing.length, metric=metric)}"
    return f"{gauge}{thread}{kind}{length}"


def drill_words(diameter: Fraction, metric: bool = False) -> str:
    """A drill as it is sold: to the nearest 1/64 in, or 1 mm in a metric build."""
    return tape(diameter, to=None if metric else DRILL_STEP, metric=metric)


def stated_fastener(joint: Joint, metric: bool = False) -> str:
    """What a joint's own fastener is called: `#8 wood screw 1 3/4", coarse thread`."""
    fastener, method = joint.fastener, joint.method or "screw"
    words = KINDS.get(method, method)
    if fastener is None:
        return words
    if fastener.gauge is not None:
        screw = method in ("screw", "pocket-screw")
        words = f"#{fastener.gauge} {words}" if screw else f"{fastener.gauge} gauge {words}"
    elif fastener.diameter is not None:
        words = f"{plain(fastener.diameter, metric)} {words}"
    if fastener.length is not None:
        words += f" {plain(fastener.length, metric)}"
    if fastener.thread:
        words += f", {fastener.thread} thread"
    if fastener.coating:
        words += f", {fastener.coating}"
    return words
