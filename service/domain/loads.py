"""A part under a load: the plank, how it is held, how far it sags and how hard it is bent."""

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise

from service.domain.beams import Beam, Bent, Point, Spread, Support, bend
from service.domain.build import Load
from service.domain.deadline import kept_time
from service.domain.parts import ResolvedPart
from service.domain.planks import Plank, plank_of
from service.domain.ratio import ratio
from service.domain.resolving import ResolvedBuild
from service.domain.solid import Rod, Solid
from service.domain.tape import rounded
from service.domain.values import dataclass, replace

PEOPLE = frozenset({"seat", "bench", "step", "bed"})  # uses that carry a person


@dataclass(frozen=True, slots=True)
class NotJudged:
    """A load of which nothing can be said, and why. `at` is the field to mend."""

    at: str
    why: str
    refused: bool = False


@dataclass(frozen=True, slots=True)
class Carried:
    """A load judged in numbers: inches, pounds, psi.

    `now` is the sag under load and own weight, `reach` the span that limits are taken of (twice
    the length for a free end). `moment_alone` and `moment_own` are those of load and own weight.
    """

    index: int
    load: Load
    part: ResolvedPart
    plank: Plank
    span: float
    reach: float
    weight: float
    now: float
    sag_at: float
    moment: float
    moment_at: float
    moment_load: float
    moment_own: float
    assumed: tuple[str, ...]

    @property
    def at(self) -> str:
        return f"#/loads/{self.index}"

    @property
    def stress(self) -> float:
        """Psi at the outer fiber of the plank."""
        return self.moment * self.plank.section.stress_a_moment

    @property
    def lasting(self) -> tuple[float, float] | None:
        """The sag after long loading, from and to; None where nothing is known of creep."""
        creep = self.plank.creep
        return (self.now * creep.low, self.now * creep.high) if creep else None

    @property
    def sticks_out(self) -> float | None:
        """How far the free end reaches out that sags most; None where supports are on both sides.

        A limit counts it as a span twice as long (`reach_of`).
        """
        if self.load.held == "one-end":
            return self.span
        places = [float(place) for place in self.load.supports]
        free = bool(places) and not min(places) <= self.sag_at <= max(places)
        return self.reach / 2 if self.load.held == "several" and free else None

    @property
    def span_stated(self) -> bool:
        return self.load.span is not None or self.load.held == "several"

    def load_at(self, psi: float) -> float:
        """Pounds, spread as this load is, at which the plank alone reaches a stress."""
        moment = psi / self.plank.alone.stress_a_moment - self.moment_own
        return max(0.0, moment) / self.moment_load * self.weight


def carried(build: ResolvedBuild) -> tuple[Carried | NotJudged, ...]:
    """Every load of a build in order; those on parts that are not there are left out."""
    if "loads" not in build.shared:
        every = (carry(build, index) for index in kept_time(range(len(build.build.loads))))
        build.shared["loads"] = tuple(one for one in every if one is not None)
    found: tuple[Carried | NotJudged, ...] = build.shared["loads"]
    return found


def only_load(build: ResolvedBuild) -> Carried | NotJudged | None:
    """The load of a build that has one; None where other rules say what is wrong."""
    return next(iter(carried(build)), None)


def carry(build: ResolvedBuild, index: int) -> Carried | NotJudged | None:
    """One load. None where its part or the part's stock is unknown, or the span is longer than
    the part, which other rules say."""
    load = build.build.loads[index]
    part, at = build.by_id.get(load.part), f"#/loads/{index}"
    if part is None or part.sized is None or too_far(build, load) is not None:
        return None
    if why := _refusal(build, load):
        return NotJudged(at, why, refused=True)
    if load.carries is None and not load.points:
        return NotJudged(at, f"it is not said how much {load.part} carries")
    span = load.span if load.span is not None else part.part.length
    if span is None:
        return NotJudged(at, f"{load.part} has no length, and no span is given")
    plank = plank_of(build, load, part)
    if isinstance(plank, str):
        return NotJudged(at, f"{load.part}: {plank}")
    return _placed(index, load, part, plank, float(span))


def too_far(build: ResolvedBuild, load: Load) -> Fraction | None:
    """How long the part is, tip to tip, where the span stated is longer; else None."""
    part = build.by_id.get(load.part)
    if part is None or load.span is None or part.part.length is None:
        return None
    solid = part.solid
    tips = solid.blank_length if isinstance(solid, Solid | Rod) else part.part.length
    length = max(part.part.length, tips)
    return length if load.span > length else None


def uses_of(build: ResolvedBuild, load: Load) -> frozenset[str]:
    """Keys of the uses of a load: its own, or those of the whole build."""
    named = [load.use] if load.use is not None else build.build.uses
    keys = [build.catalog.key("use", build.build.region, name) for name in named]
    return frozenset(key for key in keys if key)


def carries_people(build: ResolvedBuild, load: Load) -> bool:
    """Whether a person sits, stands or lies on it."""
    return bool(uses_of(build, load) & PEOPLE)


def _refusal(build: ResolvedBuild, load: Load) -> str | None:
    every = uses_of(build, load) | uses_of(build, replace(load, use=None))
    refused = sorted(every & build.catalog.unjudged_uses)
    if not refused:
        return None
    return f"strength is not judged for {' and '.join(refused)}: separate standards apply"


def _placed(
    index: int, load: Load, part: ResolvedPart, plank: Plank, span: float
) -> Carried | NotJudged:
    """The plank on its supports, under its load and its own weight.

    What its own weight does is added at its greatest, wherever along the plank that is.
    Source of the usual cases: wood-handbook-2010-table-9-1.
    """
    at = f"#/loads/{index}"
    supports, length, start = supports_of(load, part, span)
    if not supports or any(not 0 <= s.at <= length for s in supports):
        return NotJudged(at, f"{load.part}: a support lies past its end")
    spreads, points, weight = weights_of(load, plank, supports, length, start)
    if any(not 0 <= point.at <= length for point in points):
        return NotJudged(at, f"{load.part}: a load lies past its end")
    bent = bend(Beam(length, supports, spreads, points))
    sag_idle, moment_idle = _idle(plank, supports, length)
    sag, moments = abs(bent.sag) + sag_idle, (abs(bent.moment), moment_idle)
    return Carried(
        index, load, part, plank, span, reach_of(supports, length, bent),
        weight, sag / plank.section.rigidity, bent.sag_at,
        sum(moments), bent.moment_at, *moments, tuple(_assumed(load)),
    )  # fmt: skip


def _idle(plank: Plank, supports: tuple[Support, ...], length: float) -> tuple[float, float]:
    """What its own weight does to the plank: sag for a rigidity of 1, and moment."""
    weight = plank.own * length
    if len(supports) == 2 and supports[0].at == 0 and supports[1].at == length:
        kb, km = (1 / 384, 1 / 12) if supports[0].fixed else (5 / 384, 1 / 8)
    elif len(supports) == 1:
        kb, km = 1 / 8, 1 / 2
    else:
        idle = bend(Beam(length, supports, (Spread(0.0, length, plank.own),)))
        return abs(idle.sag), abs(idle.moment)
    return kb * weight * length**3, km * weight * length


def supports_of(
    load: Load, part: ResolvedPart, span: float
) -> tuple[tuple[Support, ...], float, float]:
    """Supports, the length that bends, and where the left support is."""
    if load.held == "several" and load.supports:
        places = sorted(float(place) for place in load.supports)
        stated = float(part.part.length) if part.part.length is not None else places[-1]
        if len(places) < 2:
            return (), stated, 0.0
        return tuple(Support(place) for place in places), max(stated, 1e-6), places[0]
    if load.held == "one-end":
        return (Support(0.0, fixed=True),), span, 0.0
    fixed = load.held == "both-ends"
    return (Support(0.0, fixed), Support(span, fixed)), span, 0.0


def weights_of(
    load: Load, plank: Plank, supports: tuple[Support, ...], length: float, start: float
) -> tuple[tuple[Spread, ...], tuple[Point, ...], float]:
    """The load in pounds an inch and pounds at places, and in all."""
    points = tuple(Point(start + float(p.at), float(p.carries)) for p in load.points)
    weight = sum(point.weight for point in points)
    if load.carries is None:
        return (), points, weight
    total = float(load.carries)
    if load.per == "inch":
        total *= length
    elif load.per == "square-inch":
        total *= length * plank.wide
    if load.spread == "middle":
        left, right = _longest(supports, length)
        return (), (*points, Point((left + right) / 2, total)), weight + total
    return (Spread(0.0, length, total / length),), points, weight + total


def reach_of(supports: tuple[Support, ...], length: float, bent: Bent) -> float:
    """The span that limits are a share of: between two supports, or twice a free end.

    Source: ibc-1604.3, note i, for the free end.
    """
    places = [support.at for support in supports]
    if bent.sag_at < places[0]:
        return 2 * places[0]
    if bent.sag_at > places[-1]:
        return 2 * (length - places[-1])
    for left, right in pairwise(places):
        if left <= bent.sag_at <= right:
            return right - left
    return 2 * length


def _longest(supports: tuple[Support, ...], length: float) -> tuple[float, float]:
    places = [support.at for support in supports]
    if len(places) == 1:
        return 0.0, length
    return max(pairwise(places), key=lambda pair: pair[1] - pair[0])


def _assumed(load: Load) -> Iterator[str]:
    if load.span is None and load.held != "several":
        yield f"{load.part}: no span is given, so its whole length is taken"
    if load.held is None:
        yield f"{load.part}: it is taken to rest on both ends"
    if load.held == "both-ends":
        yield (
            f"{load.part}: both ends are taken as fixed, as stated; screwed or glued into a case "
            "it is nearer to resting"
        )
    if load.limit is None:
        yield f"{load.part}: no limit is stated, so what the eye notices is taken"


def figured(number: float, metric: bool) -> str:
    """A worked-out length in a sentence: to 0.001 in or 0.1 mm."""
    return f"{rounded(number * 25.4, 1)} mm" if metric else f'{rounded(number, 3)}"'


def inches(number: float) -> Fraction:
    """A worked-out length as a fraction, to a millionth of an inch."""
    return ratio(round(number * 10**6), 10**6)
