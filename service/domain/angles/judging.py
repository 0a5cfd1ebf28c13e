"""The parts of a build held against the shapes that they belong to."""

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction

from service.domain.angles.answer import Asked, Figured, NotFigured, Seen, Sketch, Stick, Wanted
from service.domain.angles.figuring import USUAL_WITHIN, figure
from service.domain.angles.laps import judge_laps, judge_row
from service.domain.angles.problems import Held, Problem, miscounted, unlike
from service.domain.angles.single import judge_part
from service.domain.build import Shape
from service.domain.parts import ResolvedPart
from service.domain.values import dataclass

Parts = Mapping[str, ResolvedPart]
Named = Sequence[tuple[str, ResolvedPart]]  # role and part
Groups = Mapping[str, list[ResolvedPart]]  # by the id of the part that the shape wants

RINGS = frozenset({"mitered-frame", "butted-frame", "sloped-box", "polygon"})
MITERED = frozenset({"mitered-frame", "polygon"})
PAIRED = frozenset({"splayed-legs", "crossed-legs"})


@dataclass(frozen=True, slots=True)
class JudgedShape:
    """A shape with what was found. `why_not` says why it could not be figured.

    `sketch` shows it with its measures, where it could be.
    """

    shape: Shape
    problems: tuple[Problem, ...]
    why_not: str | None = None
    sketch: Sketch | None = None


def judge_shapes(shapes: Sequence[Shape], parts: Parts, metric: bool) -> tuple[JudgedShape, ...]:
    """Every shape of a build, judged."""
    return tuple(_judge(_held(i, shape, metric), parts) for i, shape in enumerate(shapes))


def _held(index: int, shape: Shape, metric: bool) -> Held:
    within = USUAL_WITHIN if shape.within is None else shape.within
    return Held(index, shape, within, metric)


def _judge(held: Held, parts: Parts) -> JudgedShape:
    shape = held.shape
    named = named_in(shape, parts)
    try:
        if shape.shape == "row":
            return JudgedShape(shape, judge_row(held, [part for _, part in named]))
        figured = figure(shape.shape, asked_of(named, shape.fields))
    except NotFigured as refusal:
        return _not_figured(held, named, refusal)
    return JudgedShape(shape, tuple(_problems(held, named, figured)), sketch=figured.drawing)


def named_in(shape: Shape, parts: Parts) -> Named:
    """The parts of a shape that are there, each with its role."""
    return [(role, parts[id]) for role, ids in shape.parts.items() for id in ids if id in parts]


def asked_of(named: Named, fields: Mapping[str, object]) -> Asked:
    """The measures of a shape with the sticks of its parts."""
    return Asked(fields, dict(_sticks(named)), _seen(named))


def offered(shape: Shape, role: str, figured: Figured) -> list[Wanted]:
    """The parts of a figured shape that one of a role may be meant to be."""
    found = [wanted for wanted in figured.wanted if wanted.role == role]
    if not found and role == "side" and shape.shape.endswith("frame"):
        return list(figured.wanted)
    return found


def _sticks(named: Named) -> Iterator[tuple[str, Stick]]:
    """Of several parts of a role the first counts."""
    for role, part in reversed(named):
        sized = part.sized
        if sized is not None and sized.width is not None:
            yield role, Stick(sized.width.listed, sized.thickness.listed, part.part.stock)


def _seen(named: Named) -> Seen | None:
    """Which side of the stick the stated cuts turn: the first part with plain cuts tells."""
    for role, part in named:
        miters, bevels = (
            any(getattr(end, name) for end in part.part.ends) for name in ("miter", "bevel")
        )
        if role != "board" and miters != bevels:
            return "face" if miters else "edge"
    return None


def _not_figured(held: Held, named: Named, refusal: NotFigured) -> JudgedShape:
    complaint = refusal.complaints[0]
    if refusal.missing or not named:
        why = f"{complaint.place}: {complaint.detail}"
        return JudgedShape(held.shape, tuple(_among_themselves(held, named)), why)
    given = held.shape.fields.get(complaint.place)
    stated = given if isinstance(given, Fraction) else Fraction(0)
    told = Problem(
        "length",
        held.place(complaint.place),
        f"{held.id} can't be built so: {complaint.detail}",
        {"wanted": stated - refusal.by, "stated": stated, "by": refusal.by},
        "Change one of its measures.",
    )
    return JudgedShape(held.shape, (told,))


def _among_themselves(held: Held, named: Named) -> Iterator[Problem]:
    """Legs that should be alike, where the shape itself can't be figured."""
    legs = [part for role, part in named if role == "leg"]
    for leg in legs[1:]:
        one, other = legs[0].part, leg.part
        if (one.length, one.ends) != (other.length, other.ends):
            yield unlike(held, leg, legs[0], "in length or ends")
            return


def _problems(held: Held, named: Named, figured: Figured) -> Iterator[Problem]:
    groups: dict[str, list[ResolvedPart]] = {}
    for role, part in named:
        wanted = _match(held, role, part, figured)
        if wanted is None:
            continue
        group = groups.setdefault(wanted.part.id, [])
        group.append(part)
        if _differs(group[0], part, wanted):
            yield unlike(held, part, group[0], "in thickness or width")
        elif found := judge_part(held, part, wanted):
            yield found
    if held.shape.shape in MITERED:
        yield from _sections(held, groups)
    yield from _numbers(held, groups, figured)
    if held.shape.shape == "crossed-legs":
        yield from judge_laps(held, groups.get("leg", []), figured)


def _match(held: Held, role: str, part: ResolvedPart, figured: Figured) -> Wanted | None:
    """The part of the shape that this one is meant to be: the first it is, else the nearest."""
    length = part.part.length or Fraction(0)
    nearest = sorted(
        offered(held.shape, role, figured),
        key=lambda wanted: abs(length - (wanted.part.length or length)),
    )
    right = (wanted for wanted in nearest if judge_part(held, part, wanted) is None)
    return next(right, nearest[0]) if len(nearest) > 1 else next(iter(nearest), None)


def _differs(first: ResolvedPart, part: ResolvedPart, wanted: Wanted) -> bool:
    one, other = first.sized, part.sized
    if one is None or other is None or first is part:
        return False
    wide = wanted.width is None and one.width != other.width
    return one.thickness != other.thickness or wide


def _sections(held: Held, groups: Groups) -> Iterator[Problem]:
    """Mitered sides that meet must be alike in section."""
    firsts = [group[0] for group in groups.values()]
    for part in firsts[1:]:
        one, other = firsts[0].sized, part.sized
        if one and other and (one.width, one.thickness) != (other.width, other.thickness):
            yield unlike(held, part, firsts[0], "in section, so that their miters don't meet")


def _numbers(held: Held, groups: Groups, figured: Figured) -> Iterator[Problem]:
    counts = {id: sum(part.part.quantity for part in group) for id, group in groups.items()}
    wants = {wanted.part.id: wanted.part.quantity for wanted in figured.wanted}
    odd = _odd_one(held.shape.shape, counts, wants)
    if odd:
        part = groups[odd][0]
        told = (
            f"{held.id} takes {wants[odd]} of {part.part.id}, or a multiple as the whole has; the "
            f"list has {counts[odd]}."
        )
        yield miscounted(held, f"{part.at}/quantity", told, wants[odd], counts[odd])
        return
    legs = [w for w in figured.wanted if w.part.mirrored and len(groups.get(w.part.id, ())) == 1]
    for leg in legs:
        yield from _mirrored(held, groups[leg.part.id][0])


def _odd_one(shape: str, counts: Mapping[str, int], wants: Mapping[str, int]) -> str:
    """The part whose number does not go with the shape, or nothing."""
    if shape in PAIRED and counts.get("leg", 0) % 2:
        return "leg"
    if shape not in RINGS or not counts:
        return ""
    for id, count in counts.items():
        if count % wants[id]:
            return id
    times = {id: count // wants[id] for id, count in counts.items()}
    return "" if len(set(times.values())) == 1 else min(times, key=times.__getitem__)


def _mirrored(held: Held, part: ResolvedPart) -> Iterator[Problem]:
    """Legs with compound cuts are as many right as left."""
    half = part.part.quantity // 2
    if part.part.mirrored != half:
        told = (
            f"Of the {part.part.quantity} {part.part.id} in {held.id} half are mirror images, "
            f"because they lean both ways; {part.part.mirrored} are listed so."
        )
        yield miscounted(held, f"{part.at}/mirrored", told, half, part.part.mirrored)
