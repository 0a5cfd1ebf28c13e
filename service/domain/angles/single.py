"""One part against the part that its shape wants: at most one problem, the cause of the others."""

from service.domain.angles.answer import Wanted, inches
from service.domain.angles.comparing import AngleOff, LengthOff, angle_off, length_off
from service.domain.angles.problems import Held, Problem
from service.domain.build import End, Part
from service.domain.ends import Slant, read_cuts
from service.domain.findings import Change
from service.domain.parts import ResolvedPart
from service.domain.rounding import finest
from service.domain.solid import Rod, Solid, Unclear
from service.domain.tape import exact, nearest


def judge_part(held: Held, part: ResolvedPart, wanted: Wanted) -> Problem | None:
    """Width first, then angle, then length: each hides those after it."""
    found = _narrow(held, part, wanted) or _blank(held, part)
    if found is None and isinstance(part.solid, Unclear):
        return _only_lean(held, part, wanted)
    if found is not None or not isinstance(part.solid, Solid | Rod):
        return found
    if wanted.role == "board" and all(end.is_square for end in part.part.ends):
        return None
    return _angle(held, part, part.solid, wanted) or _length(held, part, part.solid, wanted)


def _narrow(held: Held, part: ResolvedPart, wanted: Wanted) -> Problem | None:
    sized = part.sized
    if wanted.width is None or sized is None or sized.width is None:
        return None
    by = sized.width.listed - wanted.width
    narrow = by < -held.within
    if not narrow and (by <= held.within or held.shape.shape == "tapered-leg"):
        return None
    stated, needs = held.said(sized.width.listed), held.said(wanted.width)
    return Problem(
        "blank" if narrow else "length",
        f"{part.at}/width" if part.part.width is not None else part.at,
        f"{part.part.id} is {stated} wide; {held.id} needs {needs}.",
        {"wanted": wanted.width, "stated": sized.width.listed, "by": by},
        "Rip it to what the slant needs, which is more than the plumb height.",
        also_at=held.at,
        rests_on=part.rests_on,
    )


def _blank(held: Held, part: ResolvedPart) -> Problem | None:
    """Beveled edges need a blank wider than the face."""
    sized, solid = part.sized, part.solid
    bought = sized.stock_width if sized else None
    if sized is None or bought is None or not isinstance(solid, Solid):
        return None
    face = sized.width.listed if sized.width else bought.listed
    if face > bought.listed or solid.blank_width <= bought.listed:
        return None
    return Problem(
        "blank",
        part.at,
        f"{part.part.id} takes a blank {held.said(solid.blank_width)} wide, because its edges are "
        f"beveled; its stock is {held.said(bought.listed)}.",
        {
            "wanted": solid.blank_width,
            "stated": bought.listed,
            "by": bought.listed - solid.blank_width,
        },
        "Take a wider board, or glue one up.",
        also_at=held.at,
        rests_on=part.rests_on,
    )


def _aims(wanted: Wanted) -> tuple[Slant, Slant]:
    cuts = read_cuts(wanted.part)
    return cuts.first, cuts.second


def _only_lean(held: Held, part: ResolvedPart, wanted: Wanted) -> Problem | None:
    """A part whose length has no meaning as it is cut: whether it only leans the wrong way."""
    cuts = read_cuts(part.part)
    off = angle_off((cuts.first, cuts.second), _aims(wanted))
    if off is None or off.kind not in ("parallel", "opposed"):
        return None
    return _lean(held, part, "same" if off.kind == "parallel" else "opposite")


def _angle(held: Held, part: ResolvedPart, solid: Solid | Rod, wanted: Wanted) -> Problem | None:
    off = angle_off(solid.slants, _aims(wanted))
    if off is None:
        return None
    if off.kind in ("parallel", "opposed"):
        return _lean(held, part, "same" if off.kind == "parallel" else "opposite")
    told = (
        f"{part.part.id} is cut {off.is_now:.2f} degrees off square; {held.id} needs "
        f"{off.wanted:.2f}."
    )
    words = f"Set the saw {off.wanted:.2f} degrees off square."
    if off.kind == "complement":
        told += " That is the other scale of the saw: the two add up to 90."
        words += f" On a scale that reads 90 at square that is {90 - off.wanted:.2f}."
    return Problem(
        "angle",
        f"{part.at}/ends/{off.end}" if any(not e.is_square for e in part.part.ends) else part.at,
        told,
        {"wanted": round(off.wanted, 2), "stated": round(off.is_now, 2)},
        words,
        _angle_changes(part, wanted, off),
        also_at=held.at,
    )


def _lean(held: Held, part: ResolvedPart, lean: str) -> Problem:
    way = "parallel" if lean == "same" else "opposed, long points on one side"
    told = f"The two cuts of {part.part.id} must be {way} in {held.id}; as stated they are not."
    words = (
        "Say ends_lean: same; slide the part along between the cuts, don't turn it over."
        if lean == "same"
        else "Say ends_lean: opposite; turn the part over between the cuts."
    )
    at = f"{part.at}/ends_lean" if part.part.ends_lean else part.at
    changes = _lean_changes(part, lean)
    return Problem("lean", at, told, {"wanted": lean}, words, changes, also_at=held.at)


def _lean_changes(part: ResolvedPart, lean: str) -> tuple[Change, ...]:
    """One word, where no end says more and the length keeps its meaning."""
    along_one_edge = part.part.measured in ("long-to-short", "short-to-long")
    if any(end.long for end in part.part.ends) or (lean == "opposite" and along_one_edge):
        return ()
    path = f"/parts/{part.index}/ends_lean"
    return (Change(path, lean, adds=part.part.ends_lean is None),)


def _angle_changes(part: ResolvedPart, wanted: Wanted, off: AngleOff) -> tuple[Change, ...]:
    """The number at one end of a plain cut, or at both where both are alike."""
    ends = part.part.ends
    name = _plain_turn(ends[off.end])
    if name is None:
        return ()
    aims = wanted.part.ends
    both = ends[0] == ends[1] and aims[0] == aims[1]
    value = f"{round(off.wanted, 2):g}"
    return tuple(
        Change(f"/parts/{part.index}/ends/{end}/{name}", value)
        for end in ((0, 1) if both else (off.end,))
    )


def _plain_turn(end: End) -> str | None:
    if bool(end.miter) == bool(end.bevel):
        return None
    return "miter" if end.miter else "bevel"


def _length(held: Held, part: ResolvedPart, solid: Solid | Rod, wanted: Wanted) -> Problem | None:
    off = length_off(part.part, solid, wanted, held.within)
    stated = part.part.length
    if off is None or stated is None:
        return None
    aim = inches(float(stated - off.by))
    way = "too long" if off.by > 0 else "too short"
    told = (
        f"{part.part.id} is {held.said(stated)} {_to(part.part)}where {held.id} needs "
        f"{held.said(aim)}: {held.said(abs(off.by))} {way}."
    )
    numbers = {"wanted": aim, "stated": stated, "by": off.by}
    if off.right_as is not None:
        return Problem(
            "length", f"{part.at}/measured" if part.part.measured else f"{part.at}/length",
            f"{told} It is right if it is measured {off.right_as}.", numbers,
            f"Measure it {off.right_as}, or change the length.",
            _measured_changes(part, off), also_at=held.at,
        )  # fmt: skip
    size = nearest(aim, finest(held.metric), "down" if wanted.rounding == "between" else "nearest")
    change = Change(f"/parts/{part.index}/length", exact(size, held.metric))
    return Problem("length", f"{part.at}/length", told, numbers,
                   f"Make it {held.said(size)}.", (change,), also_at=held.at)  # fmt: skip


def _to(part: Part) -> str:
    return f"{part.measured} " if part.measured else ""


def _measured_changes(part: ResolvedPart, off: LengthOff) -> tuple[Change, ...]:
    path = f"/parts/{part.index}/measured"
    return (Change(path, off.right_as or "", adds=part.part.measured is None),)
