"""Rules about sheets and the panels cut from them."""

from collections.abc import Iterator
from fractions import Fraction

from service.domain.findings import Mend, Spot, rule
from service.domain.parts import ResolvedPart
from service.domain.resolving import ResolvedBuild
from service.domain.supply import Sheets, sheets_of
from service.domain.tape import plain

GRAINLESS = frozenset({"mdf", "particleboard", "hardboard", "osb", "foam"})


def panels_and_sheets(build: ResolvedBuild) -> Iterator[tuple[ResolvedPart, Sheets, bool, bool]]:
    """Each panel part with its sheets, and whether it fits as its grain wants, or only turned."""
    trims = 2 * build.build.shop.end_trim
    for part in build.parts:
        sized, stated = part.sized, part.part
        if sized is None or sized.width is None or stated.length is None:
            continue
        sheets = sheets_of(build.sizing, sized)
        if sheets is None:
            continue
        along, across = stated.length, sized.width.listed
        if stated.grain == "width":
            along, across = across, along
        upright = any(fits(along, across, sheet, trims) for sheet in sheets.sizes)
        turned = any(fits(across, along, sheet, trims) for sheet in sheets.sizes)
        yield part, sheets, upright, turned


def fits(
    along: Fraction, across: Fraction, sheet: tuple[Fraction, Fraction], trims: Fraction
) -> bool:
    """Whether a piece comes out of a sheet (width, length) with its grain along the length."""
    width, length = sheet
    return along <= length - trims and across <= width - trims


def turns_freely(part: ResolvedPart) -> bool:
    """Whether the panel has no grain, or the part does not mind it."""
    panel = part.sized.panel if part.sized else None
    return part.part.grain == "any" or (panel is not None and panel.material in GRAINLESS)


@rule(
    "panel.too-big",
    title="A panel is bigger than any sheet there is to cut it from",
    severity="fault",
    numbers={"length": "length", "width": "length"},
)
def too_big(build: ResolvedBuild) -> Iterator[Spot]:
    """A panel has to come out of one sheet, whichever way it is turned.

    The caller's own sheets decide; without a list, the sizes that shops usually carry are taken,
    as practice. Bigger panels are joined over a frame member or laid out as two.
    """
    for part, sheets, upright, turned in panels_and_sheets(build):
        if upright or turned or part.part.length is None:
            continue
        length, width = part.part.length, part.sized.width.listed  # type: ignore[union-attr]
        yield Spot(
            at=part.at,
            detail=(
                f"{part.part.id} is {plain(length, build.metric)} by {plain(width, build.metric)}; "
                f"it comes out of none of {sheets.where}."
            ),
            numbers={"length": length, "width": width},
            mend=Mend("Find a bigger sheet, or make it of two panels that meet on a rail."),
            basis=sheets.basis,
            rests_on=sheets.rests_on,
        )


@rule(
    "panel.against-grain",
    title="A panel fits the sheet only against its grain",
    severity="warn",
    numbers={"length": "length", "width": "length"},
)
def against_grain(build: ResolvedBuild) -> Iterator[Spot]:
    """The face grain of plywood runs along the sheet, and bends and looks different across it.

    A panel that comes out of the sheet only when turned has its grain the other way than the
    part states. Say `grain: any` where that does not matter.
    """
    for part, sheets, upright, turned in panels_and_sheets(build):
        if upright or not turned or turns_freely(part) or part.part.length is None:
            continue
        length, width = part.part.length, part.sized.width.listed  # type: ignore[union-attr]
        yield Spot(
            at=f"{part.at}/grain",
            detail=(
                f"{part.part.id} ({plain(length, build.metric)} by {plain(width, build.metric)}, "
                f"grain along its {part.part.grain}) comes out of {sheets.where} only when turned "
                "across the grain."
            ),
            numbers={"length": length, "width": width},
            mend=Mend("Turn the grain, or find a sheet that is long enough the other way."),
            basis=sheets.basis,
            rests_on=sheets.rests_on,
        )
