"""Beams against an independent structural solver: 500 random ones, with overhangs, two and three
spans, fixed ends, free ends, spread loads anywhere and point loads anywhere."""

from dataclasses import dataclass
from itertools import pairwise
from random import Random

import pytest
from anastruct import SystemElements

from service.domain.beams import Beam, Point, Spread, Support, bend

CASES = 500
BATCHES = 10
GRID = 16  # further places where the other solver is asked


def random_beam(seed: int) -> Beam:
    random = Random(seed)
    length = random.uniform(12, 120)
    way = random.choice(["resting", "overhang", "two", "three", "fixed", "cantilever", "propped"])
    if way == "cantilever":
        supports = (Support(0.0, fixed=True),)
    elif way == "fixed":
        supports = (Support(0.0, fixed=True), Support(length, fixed=True))
    elif way == "propped":
        supports = (Support(0.0, fixed=True), Support(length * random.uniform(0.5, 1.0)))
    elif way == "resting":
        supports = (Support(0.0), Support(length))
    elif way == "overhang":
        left, right = random.uniform(0.05, 0.35), random.uniform(0.6, 0.95)
        supports = (Support(length * left), Support(length * right))
    else:
        count = 3 if way == "two" else 4
        inner = sorted(length * random.uniform(0.1, 0.9) for _ in range(count - 2))
        supports = tuple(Support(at) for at in (0.0, *inner, length * random.uniform(0.92, 1.0)))
    points = tuple(
        Point(length * random.uniform(0.0, 1.0), random.uniform(5, 200))
        for _ in range(random.randint(0, 3))
    )
    spreads = []
    for _ in range(random.randint(0 if points else 1, 2)):
        ends = sorted((random.uniform(0, length), random.uniform(0, length)))
        whole = random.random() < 0.5
        spread = (0.0, length) if whole else (ends[0], ends[1])
        spreads.append(Spread(*spread, random.uniform(0.2, 6)))
    return Beam(length, supports, tuple(spreads), points)


@dataclass(frozen=True)
class Solved:
    """What the other solver finds at its nodes, for a rigidity of 1; down is positive."""

    sags: dict[float, float]
    moments: dict[float, float]
    reactions: tuple[float, ...]

    def near(self, values: dict[float, float], at: float) -> float:
        return values[min(values, key=lambda place: abs(place - at))]


def nodes_of(beam: Beam, more: tuple[float, ...]) -> list[float]:
    """Everything that needs a node, the places asked for, and a grid between."""
    needed = {0.0, beam.length, *(s.at for s in beam.supports), *(p.at for p in beam.points)}
    needed |= {place for s in beam.spreads for place in (s.start, s.end)}
    grid = [beam.length * step / GRID for step in range(GRID)]
    found = sorted(needed)
    for place in (*more, *grid):
        if min(abs(place - other) for other in found) > 1e-4 * beam.length:
            found = sorted([*found, place])
    return found


def solved(beam: Beam, more: tuple[float, ...]) -> Solved:
    rigidity = 1e6
    places = nodes_of(beam, more)
    system = SystemElements(EA=1e7, EI=rigidity, mesh=8)
    for start, end in pairwise(places):
        number = system.add_element([[start, 0.0], [end, 0.0]])
        weight = sum(s.weight for s in beam.spreads if s.start <= (start + end) / 2 <= s.end)
        if weight:
            system.q_load(q=-weight, element_id=number)
    nodes = {place: index + 1 for index, place in enumerate(places)}
    for number, support in enumerate(beam.supports):
        if support.fixed:
            system.add_support_fixed(nodes[support.at])
        elif number == 0:
            system.add_support_hinged(nodes[support.at])
        else:
            system.add_support_roll(nodes[support.at])
    for point in beam.points:
        system.point_load(nodes[point.at], Fy=-point.weight)
    system.solve()
    moved = {each["id"]: each["uy"] for each in system.get_node_displacements(0)}
    forces = {each["id"]: each["Fy"] for each in system.get_node_results_system(0)}
    bends: dict[float, float] = {}
    for place, element in zip(places, system.element_map.values(), strict=False):
        bends[place] = abs(float(element.bending_moment[0]))
    bends[places[-1]] = abs(float(element.bending_moment[-1]))
    return Solved(
        {place: -float(moved[node]) * rigidity for place, node in nodes.items()},
        bends,
        tuple(abs(float(forces[nodes[s.at]])) for s in beam.supports),
    )


@pytest.mark.parametrize("batch", range(BATCHES))
def test_sag_moment_and_reactions_agree_with_another_solver(batch: int) -> None:
    for seed in range(batch, CASES, BATCHES):
        beam = random_beam(seed)
        bent = bend(beam)
        other = solved(beam, (bent.sag_at, bent.moment_at))
        sags = {place: abs(sag) for place, sag in other.sags.items()}
        assert other.near(sags, bent.sag_at) == pytest.approx(abs(bent.sag), rel=1e-3), beam
        assert max(sags.values()) <= abs(bent.sag) * (1 + 1e-3), beam
        assert other.near(other.moments, bent.moment_at) == pytest.approx(
            abs(bent.moment), rel=1e-3
        ), beam
        assert max(other.moments.values()) <= abs(bent.moment) * (1 + 1e-3), beam
        assert sum(bent.reactions) == pytest.approx(
            sum(s.weight * (s.end - s.start) for s in beam.spreads)
            + sum(p.weight for p in beam.points),
            rel=1e-3,
        )
        for mine, theirs in zip(bent.reactions, other.reactions, strict=True):
            assert abs(mine) == pytest.approx(theirs, rel=1e-3, abs=0.01)


def test_every_way_to_hold_a_beam_is_tried() -> None:
    ways = {
        (len(b.supports), tuple(s.fixed for s in b.supports), b.supports[-1].at < b.length)
        for b in map(random_beam, range(CASES))
    }
    assert len(ways) == 7
