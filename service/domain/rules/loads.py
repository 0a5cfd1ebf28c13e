"""Rules about parts under load: how far they sag, and how hard they are bent."""

from collections.abc import Iterator

from service.domain.bending import SAID, allowed
from service.domain.findings import Mend, Severity, Spot, rule
from service.domain.loads import (
    Carried,
    NotJudged,
    carried,
    carries_people,
    figured,
    inches,
    too_far,
)
from service.domain.resolving import ResolvedBuild
from service.domain.stiffening import counted, loosest, most_counted, ways
from service.domain.tape import plain
from service.domain.weight import said

WRONG_SUMS = frozenset({"nominal", "off", "does-not-fit"})
MEGAPASCAL = 0.00689475729  # of a psi (NIST Special Publication 811)


def judged(build: ResolvedBuild) -> Iterator[Carried]:
    """Every load that can be figured."""
    return (one for one in carried(build) if isinstance(one, Carried))


@rule(
    "load.sags",
    title="A loaded part sags further than its limit",
    severity="warn",
    basis="practice",
    numbers={"sag": "length", "sag_later": "length", "limit": "length", "span": "length"},
)
def sags(build: ResolvedBuild) -> Iterator[Spot]:
    """A board under load sags at once, and under a load that stays it sags further for years.

    The sag is figured from the printed stiffness of the wood and held against the limit that was
    chosen. Limits are practice: what the eye notices on a shelf, or what codes allow in floors.
    Where no limit is chosen it warns only past the loosest of the usual ones.
    """
    for one in judged(build):
        chosen = allowed(build.catalog, one.load.limit, one.reach)
        if one.span_stated and over_named(one):
            continue
        if most_counted(one, chosen) <= chosen.inches:
            continue
        sure = counted(one, chosen) > chosen.inches and one.span_stated
        if sure and one.load.limit is None:
            loose = loosest(build.catalog, one)
            sure = counted(one, loose) > loose.inches
        metric = build.metric
        later = inches(one.lasting[1]) if one.lasting and one.load.stays else inches(one.now)
        creep = one.plank.creep.rests_on if one.plank.creep and one.load.stays else ()
        yield Spot(
            at=one.at,
            detail=(
                f"{one.load.part} sags {figured(one.now, metric)} under "
                f"{said(one.weight, metric)}{_later(one, metric)}; the limit taken "
                f"({chosen.name}) is {figured(chosen.inches, metric)} {_over(one, metric)}. "
                f"Its stiffness is {SAID[one.plank.material.kind]} "
                f"({called(build, one.plank.material.stiffness.of)})."
            ),
            numbers={
                "sag": inches(one.now),
                "sag_later": later,
                "limit": inches(chosen.inches),
                "span": inches(one.span),
            },
            mend=Mend(" ".join(what_would_help(build, one))),
            rests_on=(*one.plank.rests_on, *creep, *chosen.rests_on),
            severity=None if sure else "note",
        )


def _over(one: Carried, metric: bool) -> str:
    """What the limit is a share of, in words."""
    if one.sticks_out is None:
        return f"over {figured(one.reach, metric)}"
    out = figured(one.sticks_out, metric)
    return f"for an end that sticks out {out}, counted as a span of {figured(one.reach, metric)}"


def what_would_help(build: ResolvedBuild, one: Carried) -> tuple[str, ...]:
    """Each way that would meet the limit taken, in words; worked out once."""
    name = f"ways {one.index}"
    if name not in build.shared:
        chosen = allowed(build.catalog, one.load.limit, one.reach)
        people = carries_people(build, one.load)
        build.shared[name] = tuple(ways(one, chosen, build.metric, people))
    found: tuple[str, ...] = build.shared[name]
    return found


def _later(one: Carried, metric: bool) -> str:
    if not one.load.stays:
        return ""
    if one.lasting is None:
        return ", and more in time: panels of fiber and chips creep, by figures nobody prints"
    low, high = (figured(sag, metric) for sag in one.lasting)
    return f", {low} to {high} after years" if low != high else f", {low} after years"


@rule(
    "load.overstressed",
    title="A loaded part is bent harder than wood of its kind is held to",
    severity="fault",
    basis="handbook",
    numbers={"stress": "count", "named": "count", "breaks": "count"},
)
def overstressed(build: ResolvedBuild) -> Iterator[Spot]:
    """Bending stretches one face of a board; past a stress it breaks.

    A fault: the stress is over the average at which clear, straight-grained wood breaks, or the
    least printed for a panel. A warning: it is over the near-minimum of clear wood lowered for
    years under load. Knots, notches and holes weaken a board further, and are not counted.
    """
    for one in judged(build):
        rupture = one.plank.material.rupture
        if rupture is None or not over_named(one):
            continue
        named = one.plank.named
        breaks = one.stress > rupture.value
        held = rupture.value if breaks or named is None else named.psi
        what = "the stress taken for years"
        if breaks:  # of a panel the tables have the lower end of a range, and name no stress
            what = f"the {'average' if named else 'least printed'} stress at which it breaks"
        yield Spot(
            at=one.at,
            detail=(
                f"{one.load.part} is bent to {psi(one.stress, build.metric)} under "
                f"{said(one.weight, build.metric)}; {what} is {psi(held, build.metric)} for "
                f"{called(build, rupture.of)}."
            ),
            numbers={
                "stress": round(one.stress),
                "named": round(named.psi) if named else 0,
                "breaks": round(rupture.value),
            },
            mend=Mend(_stronger(build, one, named.psi if named else None)),
            rests_on=(*one.plank.rests_on, *(named.rests_on if named else rupture.rests_on)),
            severity=_severity(one, breaks),
            basis="handbook" if breaks else "practice",
        )


def over_named(one: Carried) -> bool:
    """Whether the stress is over the value that it is held against."""
    rupture, named = one.plank.material.rupture, one.plank.named
    return (rupture is not None and one.stress > rupture.value) or (
        named is not None and one.stress > named.psi
    )


def called(build: ResolvedBuild, of: str) -> str:
    """A species by its name; anything else as it is."""
    wood = build.catalog.woods.get(of)
    return wood.name if wood else of


def psi(stress: float, metric: bool) -> str:
    """A stress in psi, or MPa in a metric build."""
    return f"{stress * MEGAPASCAL:.1f} MPa" if metric else f"{stress:,.0f} psi"


def _severity(one: Carried, over: bool) -> Severity | None:
    if not one.span_stated:
        return "note"
    return None if over else "warn"


def _stronger(build: ResolvedBuild, one: Carried, limit: float | None) -> str:
    """What would bring the stress down to a limit; a person's weight is not lowered."""
    if limit is None:
        return "Take much thicker stock, or support it nearer."
    thick = figured(one.plank.high * (one.stress / limit) ** 0.5, build.metric)
    words = f"Take stock at least {thick} thick, or support it nearer."
    if carries_people(build, one.load):
        return (
            f"{words} No load is given for what carries a person: try it with a stack of weights."
        )
    lighter = said(one.weight * limit / one.stress, build.metric)
    return f"{words} At about {lighter} the stress comes down to {psi(limit, build.metric)}."


@rule(
    "load.not-judged",
    title="Nothing can be said of this load",
    severity="note",
    numbers={"why": "word"},
)
def not_judged(build: ResolvedBuild) -> Iterator[Spot]:
    """Sag and stress need a weight, a span, a width and a wood that the tables know.

    For beds off the ground, cribs, seats of children, and what is climbed or keeps people from
    falling, strength is refused: standards of their own apply, and a rule here would mislead.
    """
    for one in carried(build):
        if isinstance(one, NotJudged):
            yield Spot(
                at=one.at,
                detail=f"This load is not judged: {one.why}.",
                numbers={"why": one.why},
                basis="geometry",
            )


@rule(
    "load.span",
    title="A part is shorter than the span that it is to carry over",
    severity="fault",
    numbers={"span": "length", "part": "length"},
)
def span(build: ResolvedBuild) -> Iterator[Spot]:
    """The span is clear between supports, so the part reaches over all of it and rests beyond.

    A part held at one end reaches no further than it is long. Until it is put right, sag and
    stress of that load are not figured. A part whose length is already wanted otherwise, because
    a sum that it is in does not come out, is left to that finding.
    """
    doubted = {
        size.piece.part
        for one in build.runs
        if one.judgment.verdict in WRONG_SUMS
        for size in one.run.pieces
        if size.piece.along == "length"
    }
    for index, load in enumerate(build.build.loads):
        length = too_far(build, load)
        if length is None or load.span is None or load.part in doubted:
            continue
        part = build.by_id[load.part]
        yield Spot(
            at=f"#/loads/{index}/span",
            also_at=f"{part.at}/length",
            detail=(
                f"{load.part} is {plain(length, build.metric)} long and is to span "
                f"{plain(load.span, build.metric)}."
            ),
            numbers={"span": load.span, "part": length},
            mend=Mend("Give the clear span between its supports, or a longer part."),
        )
