"""Shapes figured again where their measures or their stock have changed."""

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction

from service.domain.angles.answer import Figured, NotFigured, Wanted
from service.domain.angles.figuring import USUAL_WITHIN, figure
from service.domain.angles.judging import asked_of, named_in, offered
from service.domain.build import Shape
from service.domain.errors import Complaint
from service.domain.parts import ResolvedPart
from service.domain.resizing.answer import Changed, NothingGives, tidy
from service.domain.resizing.equations import Sums
from service.domain.resizing.following import Moved, the_one
from service.domain.solid import Solid
from service.domain.tape import exact
from service.domain.values import dataclass

# Measures that don't grow with the piece: depths of joints, and play.
STAY = frozenset({"rabbet", "clearance", "rail_top_at", "top_inset", "piece", "within"})
ANGLE_CHANGED = 0.005  # degrees: what rounding to hundredths can't show


@dataclass(frozen=True, slots=True)
class Refigured:
    """New measures of one shape and angles of its parts, and sizes (pointer, inches, reason)."""

    fields: tuple[Changed, ...]
    sizes: tuple[tuple[str, Fraction, str], ...]


def refigured(
    before: Sums, now: Sums, moved: Sequence[Moved], asked: Mapping[str, Fraction]
) -> Iterator[Refigured]:
    """Every shape that something has changed. One that can't be figured is left as it is.

    `asked` are measures asked for, by their pointers. Raises NothingGives where a shape can't be
    figured with them.
    """
    for index, shape in enumerate(before.build.shapes):
        told_to = {path: size for path, size in asked.items() if path in _paths(index, shape)}
        measures = dict(_measures(index, shape, moved, before.metric))
        measures |= dict(_asked_for(shape, told_to))
        fields = {**shape.fields, **{name: new for name, (new, _) in measures.items()}}
        was = asked_of(named_in(shape, before.parts), shape.fields)
        is_now = asked_of(named_in(shape, now.parts), fields)
        if shape.shape == "row" or was == is_now:
            told = tuple(changed for _, changed in measures.values())
            if told:
                yield Refigured(told, ())
            continue
        try:
            old, new = figure(shape.shape, was), figure(shape.shape, is_now)
        except NotFigured as refusal:
            if told_to:
                raise _not_so(shape, told_to, refusal) from None
            continue
        parts = list(_parts(shape, old, new, before, now))
        angles = tuple(changed for one in parts for changed in one.fields)
        told = tuple(changed for _, changed in measures.values())
        yield Refigured(told + angles, tuple(size for one in parts for size in one.sizes))


def _paths(index: int, shape: Shape) -> frozenset[str]:
    return frozenset(f"/shapes/{index}/{name}" for name in shape.fields)


def _asked_for(
    shape: Shape, asked: Mapping[str, Fraction]
) -> Iterator[tuple[str, tuple[object, Changed]]]:
    for path, size in asked.items():
        name = path.rpartition("/")[2]
        yield name, (size, Changed(path, shape.fields[name], size, "asked for"))


def _not_so(shape: Shape, asked: Mapping[str, Fraction], refusal: NotFigured) -> NothingGives:
    """Why a shape has no such measures."""
    why = refusal.complaints[0]
    return NothingGives(
        *(
            Complaint(
                f"#/to/{shape.id}.{path.rpartition('/')[2]}",
                f"{shape.id} can't be built so: {why.place}: {why.detail}",
            )
            for path in asked
        )
    )


def _measures(
    index: int, shape: Shape, moved: Sequence[Moved], metric: bool
) -> Iterator[tuple[str, tuple[object, Changed]]]:
    for name, value in shape.fields.items():
        sizes = value if isinstance(value, tuple) else (value,)
        if name in STAY or not all(isinstance(size, Fraction) for size in sizes):
            continue
        found = [the_one(size, moved, USUAL_WITHIN) for size in sizes]
        if not any(found):
            continue
        new = [tidy(s + m.by) if m else s for s, m in zip(sizes, found, strict=True)]
        named = next(m.name for m in found if m)
        path, why = f"/shapes/{index}/{name}", f"it was as big as {named}, and still is"
        if isinstance(value, tuple):
            texts = [" x ".join(exact(size, metric) for size in pair) for pair in (value, new)]
            yield name, (tuple(new), Changed(path, texts[0], texts[1], why))
        else:
            yield name, (new[0], Changed(path, value, new[0], why))


def _parts(
    shape: Shape, old: Figured, new: Figured, before: Sums, now: Sums
) -> Iterator[Refigured]:
    for role, part in named_in(shape, before.parts):
        wanted = _match(shape, role, part, old)
        again = next((w for w in new.wanted if wanted and w.part.id == wanted.part.id), None)
        if wanted is None or again is None:
            continue
        why = f"the shape {shape.id} figured again"
        sizes = [
            (f"{part.at[1:]}/{name}", size, why)
            for name, size in _sizes(part, wanted, again)
            if size > 0
        ]
        yield Refigured(tuple(_angles(part, wanted, again, why)), tuple(sizes))


def _match(shape: Shape, role: str, part: ResolvedPart, figured: Figured) -> Wanted | None:
    length = part.part.length or Fraction(0)
    return min(
        offered(shape, role, figured),
        key=lambda w: abs(length - (w.part.length or length)),
        default=None,
    )


def _sizes(part: ResolvedPart, old: Wanted, new: Wanted) -> Iterator[tuple[str, Fraction]]:
    """Length in the part's own words, and the width where the shape decides it.

    A size that was right is figured anew; one that was off stays off by as much, and is found.
    """
    was, is_now = old.solid, new.solid
    stated = part.part
    if isinstance(was, Solid) and isinstance(is_now, Solid) and stated.length is not None:
        word = stated.measured or "long-to-long"
        lengths = was.lengths(stated.measured_on), is_now.lengths(stated.measured_on)
        if word in lengths[0] and word in lengths[1]:
            yield "length", _anew(stated.length, lengths[0][word], lengths[1][word])
    if old.width is not None and new.width is not None and stated.width is not None:
        yield "width", _anew(stated.width, old.width, new.width)


def _anew(stated: Fraction, was: Fraction, is_now: Fraction) -> Fraction:
    if was == is_now:
        return stated
    off = stated - was
    return tidy(is_now if abs(off) <= USUAL_WITHIN else is_now + off)


def _angles(part: ResolvedPart, old: Wanted, new: Wanted, why: str) -> Iterator[Changed]:
    """Cuts whose angle the new measures change, where they stood as the shape wanted them."""
    for index, (end, was, is_now) in enumerate(
        zip(part.part.ends, old.part.ends, new.part.ends, strict=True)
    ):
        for name in ("miter", "bevel"):
            stated, one, other = (getattr(each, name) for each in (end, was, is_now))
            if abs(one - other) > ANGLE_CHANGED and abs(stated - one) <= 0.25:
                path = f"{part.at[1:]}/ends/{index}/{name}"
                yield Changed(path, stated, round(other, 2), why)
