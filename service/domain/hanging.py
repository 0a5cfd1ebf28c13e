"""Hung on a wall: where the studs are, how deep the screws go, how hard they are pulled."""

from collections.abc import Iterator
from fractions import Fraction
from typing import TYPE_CHECKING

from service.domain.build import Joint
from service.domain.catalog import Catalog, Practice
from service.domain.values import dataclass

if TYPE_CHECKING:
    from service.domain.resolving import ResolvedBuild

ALWAYS = ("walls.cables", "walls.wiring")
USUAL_BOARD = Fraction(1, 2)  # in; wallboard, where none is given; practice


@dataclass(frozen=True, slots=True)
class Studs:
    """How many studs a level rail meets, wherever it is put: at least and at most."""

    least: int
    most: int


@dataclass(frozen=True, slots=True)
class Hung:
    """A rail on a wall, as far as it is known; inches."""

    at: str
    joint: Joint
    rail: Fraction | None
    studs: Fraction | None
    bite: Fraction | None
    wall: str


def studs_met(rail: Fraction, spacing: Fraction) -> Studs:
    """Centers of studs behind a rail, wherever it is put along the wall."""
    least = int(rail // spacing)
    return Studs(least, least + (1 if rail % spacing else 0) if least else 1)


def pull_on_screws(load: float, out: float, arm: float) -> float:
    """Pounds that pull the upper screws straight out of the wall, together.

    The load hangs half of `out` inches in front of the wall; it turns about the lower edge, `arm`
    inches under the screws. Source: the balance of moments.
    """
    return load * (out / 2) / arm


def bite_of(
    screw: Fraction, through: Fraction, board: Fraction, layers: tuple[Fraction, ...] = ()
) -> Fraction:
    """How much of a screw sits in the stud, inches; below 0 it does not reach it."""
    return screw - through - board - sum(layers, Fraction(0))


def bite_wanted(catalog: Catalog) -> Practice:
    """What shops want a screw to sit in a stud: a range."""
    return catalog.standing["hang.bite"]


def hung(build: "ResolvedBuild") -> Iterator[Hung]:
    """Every joint to a wall."""
    wall = build.build.place.wall
    for index, joint in enumerate(build.build.joints):
        if joint.into != "wall":
            continue
        part = build.by_id.get(joint.through)
        rail = part.part.length if part else None
        kind = wall.kind if wall else "unknown"
        studs = wall.studs if wall and kind == "studs" else None
        bite = None
        if part and part.sized and wall and kind == "studs" and wall.board is not None:
            length = joint.fastener.length if joint.fastener else None
            if length is not None:
                through = part.sized.thickness.high
                sunk = joint.sunk or Fraction(0)
                bite = bite_of(length + sunk, through, wall.board, joint.layers)
        yield Hung(f"#/joints/{index}", joint, rail, studs, bite, kind)
