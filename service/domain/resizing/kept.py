"""What a resize leaves as it is, and why."""

from collections.abc import Iterator, Mapping

from service.domain.build import Build
from service.domain.parts import ResolvedPart
from service.domain.resizing.answer import Kept, Resizing
from service.domain.resizing.equations import Sums
from service.domain.tape import plain


def kept_sizes(
    before: Sums, now: Sums, asked: Resizing, changed: frozenset[str], why: Mapping[str, str]
) -> tuple[Kept, ...]:
    """Thicknesses, widths, fasteners, parts already cut, and sizes said that were not asked."""
    found = [
        *_parts(before, now, asked, changed),
        *_runs(now, asked, changed),
        *_fasteners(before, now, changed),
        *_whole(now.build, changed),
    ]
    return tuple(found)


def _parts(before: Sums, now: Sums, asked: Resizing, changed: frozenset[str]) -> Iterator[Kept]:
    for id, part in now.parts.items():
        at, old = part.at[1:], before.parts[id]
        if id in asked.cut:
            yield Kept(f"{at}/length", f"{id} is cut already")
        if part.sized is None or old.sized is None:
            continue
        if part.sized.thickness == old.sized.thickness:
            yield Kept(f"{at}/{_thick(part)}", f"{id} stays {_said(part, now)}: {_whence(part)}")
        same = part.sized.width == old.sized.width and f"{at}/width" not in changed
        if part.sized.width is not None and same and part.sized.form != "round":
            wide = plain(part.sized.width.listed, now.metric)
            stated = part.part.width is not None
            told = "no run asks for another width" if stated else "it is as wide as its stock"
            where = f"{at}/{'width' if stated else 'stock'}"
            yield Kept(where, f"{id} stays {wide} wide: {told}")


def _thick(part: ResolvedPart) -> str:
    return "thickness" if part.part.thickness is not None else "stock"


def _said(part: ResolvedPart, sums: Sums) -> str:
    assert part.sized is not None
    return f"{plain(part.sized.thickness.listed, sums.metric)} thick"


def _whence(part: ResolvedPart) -> str:
    if part.part.known.measured_thickness is not None:
        return "measured on the part itself"
    stated = part.part.thickness is not None
    return "stated so" if stated else "another size changes lengths, not the stock"


def _runs(now: Sums, asked: Resizing, changed: frozenset[str]) -> Iterator[Kept]:
    for index, run in enumerate(now.build.runs):
        name = "fits" if run.fits is not None else "equals"
        stated = run.fits if run.fits is not None else run.equals
        path = f"/runs/{index}/{name}"
        if run.id not in asked.to and path not in changed and not hasattr(stated, "part"):
            yield Kept(path, f"it is stated for {run.id} alone: say it in `to` if it changes too")


def _fasteners(before: Sums, now: Sums, changed: frozenset[str]) -> Iterator[Kept]:
    for index, joint in enumerate(now.build.joints):
        at = f"/joints/{index}/fastener"
        if joint.fastener is None or any(path.startswith(f"{at}/") for path in changed):
            continue
        ids = [id for id in (joint.through, joint.into) if id in now.parts]
        same = all(_thickness(before, id) == _thickness(now, id) for id in ids)
        why = "the wood that it holds is as thick as before"
        yield Kept(at, why if same else "it was chosen for the old thickness: ask for it anew")


def _thickness(sums: Sums, id: str) -> object:
    sized = sums.parts[id].sized
    return sized.thickness if sized else None


def _whole(build: Build, changed: frozenset[str]) -> Iterator[Kept]:
    if build.buying.planned and "/buying/planned/0" not in changed:
        yield Kept("/buying/planned", "what to buy is planned anew by a cut plan")
