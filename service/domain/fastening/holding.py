"""What one fastener resists in a joint, for comparing it with another: pulled out, and sideways.

Reference design values before any factor. None with a reason where connection design has no
value: that is furniture practice, and no number here speaks for it.
"""

from collections.abc import Iterator
from fractions import Fraction
from typing import Literal

from service.domain.catalog import Catalog
from service.domain.fasteners import NailSize, ScrewSize, gauge_number
from service.domain.fastening import strength
from service.domain.fastening.gravity import Gravity
from service.domain.keeping import kept
from service.domain.values import dataclass

CAUTION = (
    "design value of a single fastener in solid wood, for comparing; it says nothing of the piece"
)
END_GRAIN_SIDEWAYS = "end-grain.lateral"
GAUGES = range(6, 25)  # that the equations and tables take in; nds-2018, equation 12.2-2


@dataclass(frozen=True, slots=True)
class Seat:
    """How a fastener sits: `passed` inches of one part, `bite` in the other, tip included.

    `enters` is the surface of the part that holds the point; `thread` the inches of thread in it.
    A gravity of None, and an edge of a panel, have no value.
    """

    passed: Fraction
    bite: Fraction
    thread: Fraction
    enters: Literal["face", "edge", "end"]
    side: Gravity | None
    main: Gravity | None
    into_panel: bool = False


@dataclass(frozen=True, slots=True)
class Hold:
    """Pounds that one fastener resists, straight out and sideways; None where no value exists."""

    pulled: float | None = None
    sheared: float | None = None
    why_not: tuple[str, ...] = ()
    assumed: tuple[str, ...] = ()
    rests_on: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class _Steel:
    """The fastener itself: nominal and bearing diameter, inches that grip, how it is pulled."""

    diameter: Fraction
    bearing_diameter: Fraction
    gripping: Fraction
    pull: strength.Withdrawal | None
    rests_on: tuple[str, ...]
    assumed: tuple[str, ...] = ()


def screw_hold(catalog: Catalog, screw: ScrewSize, seat: Seat) -> Hold:
    """A straight wood screw, or a screw named by the same gauge taken as one."""
    twin = screw
    assumed: tuple[str, ...] = ()
    if screw.family != "wood-screw":
        same = catalog.fasteners.screw("wood-screw", screw.gauge) if screw.gauge else None
        if same is None:
            return Hold(why_not=(f"{screw.name}: connection design has no value for it",))
        twin, assumed = same, (f"{screw.name} is compared as the wood screw of its gauge",)
    if twin.root is None or twin.gauge is None or gauge_number(twin.gauge) not in GAUGES:
        return Hold(why_not=(f"{screw.name}: outside the gauges of connection design",))
    pull = strength.screw_withdrawal if _in_range(seat) else None
    rows = (twin.diameter.row, twin.root.row)
    steel = _Steel(twin.diameter.value, twin.root.value, seat.thread, pull, rows, assumed)
    return _hold(catalog, seat, steel)


def nail_hold(catalog: Catalog, nail: NailSize, seat: Seat) -> Hold:
    """A smooth nail across the grain. Brads and pins are thinner than connection design goes."""
    diameter = nail.diameter.value
    if not strength.THINNEST_NAIL <= diameter <= strength.THICKEST_NAIL:
        return Hold(why_not=(f"{nail.name}: too thin for a value of connection design",))
    rows = (nail.diameter.row,)
    return _hold(
        catalog, seat, _Steel(diameter, diameter, seat.bite, strength.nail_withdrawal, rows)
    )


def _in_range(seat: Seat) -> bool:
    lightest, densest = strength.LIGHTEST_FOR_SCREWS, strength.DENSEST_FOR_SCREWS
    return seat.main is not None and lightest <= seat.main.value <= densest


def _hold(catalog: Catalog, seat: Seat, steel: _Steel) -> Hold:
    refused = tuple(_refusals(seat))
    if refused or seat.main is None or seat.side is None:
        return Hold(why_not=refused)
    woods = (seat.side, seat.main)
    pulled, not_pulled = _straight_out(seat, seat.main, steel)
    sheared, not_sheared = _sideways(catalog, seat, steel)
    assumed = [*steel.assumed, *(told for wood in woods for told in wood.assumed)]
    rows = [*steel.rests_on, *(row for wood in woods for row in wood.rests_on)]
    return Hold(
        pulled=pulled,
        sheared=sheared,
        why_not=tuple(why for why in (not_pulled, not_sheared) if why),
        assumed=tuple(dict.fromkeys(assumed)),
        rests_on=tuple(dict.fromkeys(rows)),
    )


def _refusals(seat: Seat) -> Iterator[str]:
    """Why connection design has nothing to say of the joint at all."""
    if seat.into_panel and seat.enters != "face":
        yield "edge of a panel: connection design has no value"
    if seat.main is None or seat.side is None:
        yield "no specific gravity is assigned to one of the woods"
    if seat.bite <= 0 or seat.passed <= 0:
        yield "nothing is held"


def _straight_out(seat: Seat, main: Gravity, steel: _Steel) -> tuple[float | None, str]:
    """Pounds, or why there is no value."""
    if seat.enters == "end":
        return None, "pulled out of end grain: connection design allows no value"
    if steel.pull is None:
        return None, "pulled out: the wood is lighter or denser than the equation goes"
    return steel.pull(main.value, float(steel.diameter)) * float(steel.gripping), ""


def _sideways(catalog: Catalog, seat: Seat, steel: _Steel) -> tuple[float | None, str]:
    """Pounds, or why there is no value."""
    assert seat.main is not None and seat.side is not None
    wide, bite = float(steel.diameter), float(seat.bite)
    bends = kept(
        catalog,
        ("bending strength", *steel.diameter.as_integer_ratio()),
        lambda: strength.bending_strength(catalog.constants, steel.diameter),
    )
    if bends is None:
        return None, "sideways: no bending strength is listed for a fastener that thin or thick"
    share = strength.penetration_share(bite, wide)
    if not share:
        return None, "sideways: it goes less than six diameters in"
    factor = catalog.constants.get(END_GRAIN_SIDEWAYS) if seat.enters == "end" else None
    if seat.enters == "end" and factor is None:
        return None, "sideways: no factor for end grain is listed"
    dowel = strength.Dowel(wide, float(steel.bearing_diameter), float(bends.value), threaded=True)
    value = strength.lateral(
        dowel,
        strength.Bearing(
            strength.main_bearing_length("nail", bite, wide),
            strength.wood_bearing(seat.main.value, wide),
        ),
        strength.Bearing(float(seat.passed), strength.wood_bearing(seat.side.value, wide)),
    )
    return share * value * (float(factor.value) if factor else 1.0), ""
