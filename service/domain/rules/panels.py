"""Rules about sheets and the panels cut from them."""

from collections.abc import Iterator
from fractions import Fraction

from service.domain.findings import Mend, Spot, rule
from service.domain.material import GRAINLESS
from service.domain.parts import ResolvedPart
from service.domain.resolving import ResolvedBuild
from service.domain.supply import Sheets, sheets_of
from service.domain.tape import plain
from service.domain.values import dataclass


@dataclass(frozen=True, slots=True)
class OnSheets:
    """A panel part, its listed size, and the sheets that it may come from.

    `upright`: it fits a sheet as its grain wants; `turned`: it fits one with the grain crossed.
    """

    part: ResolvedPart
    length: Fraction
    width: Fraction
    sheets: Sheets
    upright: bool
    turned: bool


def panels_on_sheets(build: ResolvedBuild) -> Iterator[OnSheets]:
    """Every panel part whose size and sheets are known."""
    trims = 2 * build.build.shop.end_trim
    for part in build.parts:
        sized, length = part.sized, part.part.length
        if sized is None or sized.width is None or length is None:
            continue
        sheets = sheets_of(build.sizing, sized)
        if sheets is None:
            continue
        width = sized.width.listed
        along, across = (width, length) if part.part.grain == "width" else (length, width)
        upright = any(fits(along, across, sheet, trims) for sheet in sheets.sizes)
        turned = any(fits(across, along, sheet, trims) for sheet in sheets.sizes)
        yield OnSheets(part, length, width, sheets, upright, turned)


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
    for panel in panels_on_sheets(build):
        if panel.upright or panel.turned:
            continue
        length, width = panel.length, panel.width
        yield Spot(
            at=panel.part.at,
            detail=(
                f"{panel.part.part.id} is {plain(length, build.metric)} by "
                f"{plain(width, build.metric)}; it comes out of none of {panel.sheets.where}."
            ),
            numbers={"length": length, "width": width},
            mend=Mend("Find a bigger sheet, or make it of two panels that meet on a rail."),
            basis=panel.sheets.basis,
            rests_on=panel.sheets.rests_on,
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
    for panel in panels_on_sheets(build):
        if panel.upright or not panel.turned or turns_freely(panel.part):
            continue
        length, width, stated = panel.length, panel.width, panel.part.part
        yield Spot(
            at=f"{panel.part.at}/grain",
            detail=(
                f"{stated.id} ({plain(length, build.metric)} by {plain(width, build.metric)}, "
                f"grain along its {stated.grain}) comes out of {panel.sheets.where} only when "
                "turned across the grain."
            ),
            numbers={"length": length, "width": width},
            mend=Mend("Turn the grain, or find a sheet that is long enough the other way."),
            basis=panel.sheets.basis,
            rests_on=panel.sheets.rests_on,
        )
