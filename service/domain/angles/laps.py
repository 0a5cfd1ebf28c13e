"""Laps of crossed legs, and rows: what is marked in the wrong place."""

from collections.abc import Iterator, Sequence
from fractions import Fraction

from service.domain.angles.answer import Figured, NotFigured, inches
from service.domain.angles.bracing import lap_places
from service.domain.angles.problems import Held, Problem, miscounted
from service.domain.angles.rows import read_row
from service.domain.findings import Change
from service.domain.parts import ResolvedPart
from service.domain.solid import Solid
from service.domain.spacing import NoRow, Row, Uneven, judge_positions
from service.domain.tape import exact


def judge_laps(held: Held, legs: Sequence[ResolvedPart], figured: Figured) -> Iterator[Problem]:
    """A lap must lie where the other leg crosses; its near side counts, not its middle."""
    aim = next((w.solid for w in figured.wanted if w.role == "leg"), None)
    along = next((f.value for f in figured.figures if f.name == "lap, length along the leg"), None)
    if not isinstance(aim, Solid) or not isinstance(along, Fraction):
        return
    for leg in legs:
        sized = leg.sized
        for index, cutout in enumerate(leg.part.cutouts):
            if cutout.kind != "lap" or len(cutout.at) != 1 or sized is None or not sized.width:
                continue
            near, middle, far = lap_places(aim.center_length, along)
            square = lap_places(aim.center_length, sized.width.listed)
            at = cutout.at[0]
            low, high = sorted((near, square[0]))
            if low - held.within <= at <= high + held.within:
                continue
            ends = {"middle": (middle,), "far side": (far, square[2])}
            taken = next(
                (n for n, spots in ends.items() if any(abs(at - s) <= held.within for s in spots)),
                None,
            )
            why = f" That is the {taken} of the lap." if taken else ""
            yield Problem(
                "length", f"{leg.at}/cutouts/{index}/at/0",
                f"The lap of {leg.part.id} is marked at {held.said(at)}; the other leg's near edge "
                f"crosses at {held.said(near)}.{why}",
                {"wanted": near, "stated": at, "by": inches(float(at - near))},
                "Mark the near side of the lap, along the leg's center line.", also_at=held.at,
            )  # fmt: skip


def judge_row(held: Held, parts: Sequence[ResolvedPart]) -> tuple[Problem, ...]:
    """Number and size of the pieces, and the positions listed. Raises NotFigured."""
    try:
        row = read_row(held.shape.fields)
    except NoRow as refusal:
        raise NotFigured(*refusal.complaints, missing=refusal.missing) from None
    return tuple(_row_problems(held, parts, row))


def _row_problems(held: Held, parts: Sequence[ResolvedPart], row: Row) -> Iterator[Problem]:
    count = sum(part.part.quantity for part in parts)
    if parts and count != row.pieces:
        told = f"{held.id} spaces {row.pieces} pieces; its parts come to {count}."
        yield miscounted(held, held.place("pieces"), told, row.pieces, count)
    wrong = list(_sizes(held, parts, row.piece))
    yield from wrong
    at = held.shape.fields.get("at")
    if isinstance(at, tuple) and not wrong:
        uneven = judge_positions(row, at, held.within)
        if uneven is not None:
            yield _uneven(held, uneven)


def _sizes(held: Held, parts: Sequence[ResolvedPart], piece: Fraction) -> Iterator[Problem]:
    for part in parts:
        sized = part.sized
        if sized is None:
            continue
        wide = sized.width.listed if sized.width else None
        sizes = [sized.thickness.listed, wide, part.part.length]
        known = [size for size in sizes if size is not None]
        near = min(known, key=lambda size: abs(size - piece))
        if abs(near - piece) > held.within:
            yield Problem(
                "length", held.place("piece"),
                f"{held.id} counts {held.said(piece)} for each piece; {part.part.id} measures "
                f"{held.said(near)}.",
                {"wanted": near, "stated": piece, "by": piece - near},
                "Space the pieces by what they really measure.",
                also_at=part.at, rests_on=part.rests_on,
            )  # fmt: skip
            return


def _uneven(held: Held, uneven: Uneven) -> Problem:
    whole = {
        "near": "",
        "center": " All of them fit if they are the middles of the pieces.",
        "far": " All of them fit if they are the far sides of the pieces.",
    }
    place = f"shapes/{held.index}/at/{uneven.index}"
    told = (
        f"In {held.id} the near side of piece {uneven.index + 1} is listed at "
        f"{held.said(uneven.at)}; equal gaps put it at {held.said(uneven.wanted)}."
    )
    change = Change(f"/{place}", exact(uneven.wanted, held.metric))
    return Problem(
        "uneven", f"#/{place}", told + whole[uneven.taken],
        {"wanted": uneven.wanted, "stated": uneven.at, "by": uneven.at - uneven.wanted},
        f"Mark it at {held.said(uneven.wanted)} from the first end, to the near side.",
        (change,) if uneven.taken == "near" else (),
    )  # fmt: skip
