"""Where points end up, against rays through the two solids that a general library traces.

The solids are laid out here in space, from the words: the parts meet in the plane z = 0, the one
under the head above it and the receiving one below. Nothing comes from our own formulas; lengths
are read off the ray, and being inside is what the mesh says.
"""

from dataclasses import dataclass
from fractions import Fraction
from math import cos, radians, sin, tan
from random import Random

import numpy as np
import pytest
import trimesh
from trimesh.ray.ray_triangle import ray_triangle_id

from service.domain.fastening.driving import (
    POCKET_ANGLE,
    Line,
    pocket,
    pocket_seat,
    straight,
    toe,
    toe_exit,
)

SEED = 20261125
JOINTS = 2000
BATCHES = 8
NEAR = 5e-6  # in; lengths that come from an angle are given to a millionth
WIDE = 50.0


@dataclass(frozen=True)
class Traced:
    """A straight line through a mesh: where it goes in and comes out, and whether a point on it
    is inside."""

    enters: float
    leaves: float
    holds_tip: bool


def prism(outline: list[tuple[float, float]], wide: float = WIDE) -> trimesh.Trimesh:
    """A solid with an outline in x and z, `wide` along y."""
    points = [(x, y, z) for y in (-wide / 2, wide / 2) for x, z in outline]
    return trimesh.convex.convex_hull(np.array(points))


class EveryTriangle:
    """Stands in for an index of triangles, which the library would want: all are tried."""

    def __init__(self, mesh: trimesh.Trimesh) -> None:
        self.all = list(range(len(mesh.triangles)))
        self.bounds = mesh.bounds.ravel()

    def intersection(self, _bounds: object) -> list[int]:
        return self.all


def trace(mesh: trimesh.Trimesh, start: np.ndarray, way: np.ndarray, length: float) -> Traced:
    """Follow a fastener of that length from its head."""
    every = EveryTriangle(mesh)
    _, _, hits = ray_triangle_id(mesh.triangles, [start], [way], tree=every)
    along = sorted((hits - start) @ way)
    return Traced(along[0], along[-1], holds(mesh, start + length * way))


def holds(mesh: trimesh.Trimesh, point: np.ndarray) -> bool:
    """Whether a point lies behind every face of a convex solid."""
    outward = np.einsum("ij,ij->i", point - mesh.triangles_center, mesh.face_normals)
    return bool((outward < 0).all())


def receiving(depth: float, across: float, lean: float) -> trimesh.Trimesh:
    """A part whose sides lean: `across` is its size square to them, cut level at z = 0."""
    half, drift = across / cos(radians(lean)) / 2, depth * tan(radians(lean))
    return prism([(-half, 0), (half, 0), (half + drift, -depth), (-half + drift, -depth)])


def sixteenths(random: Random, low: int, high: int) -> Fraction:
    return Fraction(random.randint(low, high), 16)


def agree(driven_bite: Fraction, clear: Fraction, traced: Traced, length: float) -> None:
    """The bite is what the ray says, and the point is inside exactly where wood is left."""
    assert float(driven_bite) == pytest.approx(length - traced.enters, abs=NEAR)
    if abs(clear) > NEAR and driven_bite > NEAR:
        assert traced.holds_tip == (clear > 0)


@pytest.mark.parametrize("batch", range(BATCHES))
def test_a_straight_fastener_ends_where_the_ray_says(batch: int) -> None:
    """Square or sloped, flush or sunk, into a face, an edge, an end or a leaning part."""
    random = Random(SEED + batch)
    for _ in range(JOINTS // BATCHES // 2):
        passed, length = sixteenths(random, 3, 40), sixteenths(random, 8, 80)
        depth, across = sixteenths(random, 4, 90), sixteenths(random, 6, 60)
        sunk = random.choice([Fraction(0), Fraction(0), Fraction(1, 16), Fraction(1, 8)])
        lean = random.choice([0, 0, 5, 10, 12, 20])
        slope = random.choice([0, 0, lean, 5, 15, 30])
        above = prism([(-WIDE, 0), (WIDE, 0), (WIDE, float(passed)), (-WIDE, float(passed))])
        way = np.array([sin(radians(slope)), 0.0, -cos(radians(slope))])
        outside = -way * 100  # a point on the line, far above; the line goes through the origin
        head = outside + trace(above, outside, way, 0).enters * way + float(sunk) * way
        mesh = receiving(float(depth), float(across), lean)
        traced = trace(mesh, head, way, float(length))
        room = across / 2 if lean or slope else None
        here = straight(length, passed, depth, Line(sunk, float(slope), float(lean), room))
        agree(here.bite, here.clear, traced, float(length))
        if here.bite > 0:
            inside = traced.leaves - traced.enters
            assert (here.clear > NEAR) <= (float(here.bite) < inside + NEAR)
            assert (here.clear < -NEAR) <= (float(here.bite) > inside - NEAR)


@pytest.mark.parametrize("batch", range(BATCHES))
def test_a_pocket_screw_ends_where_the_ray_says(batch: int) -> None:
    """From the middle of the joint backward to its seat: the ray runs at 15 degrees to the face."""
    random = Random(SEED + 100 + batch)
    for _ in range(JOINTS // BATCHES // 4):
        thickness, depth = sixteenths(random, 6, 32), sixteenths(random, 4, 60)
        length, edge = sixteenths(random, 12, 48), sixteenths(random, 4, 32)
        into_edge = random.random() < 0.5
        mesh = receiving(float(depth), float(edge) if into_edge else WIDE, 0)
        way = np.array([sin(radians(POCKET_ANGLE)), 0.0, -cos(radians(POCKET_ANGLE))])
        head = -way * float(pocket_seat(thickness))
        holder = prism([(-float(thickness) / 2, 0), (float(thickness) / 2, 0),
                        (float(thickness) / 2, 20), (-float(thickness) / 2, 20)])  # fmt: skip
        assert holds(holder, head)  # the seat lies in the wood of the part with the pocket
        traced = trace(mesh, head, way, float(length))
        here = pocket(length, thickness, depth, edge / 2 if into_edge else None)
        agree(here.bite, here.clear, traced, float(length))


@pytest.mark.parametrize("batch", range(BATCHES))
def test_a_toe_driven_nail_ends_where_the_ray_says(batch: int) -> None:
    """It starts on the face of the standing part, a third of its length up from the joint."""
    random = Random(SEED + 200 + batch)
    for _ in range(JOINTS // BATCHES // 4):
        thickness, depth = sixteenths(random, 8, 40), sixteenths(random, 6, 60)
        length, slope = sixteenths(random, 12, 56), random.choice([15, 20, 30, 35])
        up = float(length) / 3
        face = -float(thickness) / 2
        head = np.array([face, 0.0, up])
        way = np.array([sin(radians(slope)), 0.0, -cos(radians(slope))])
        standing = prism([(face, 0), (-face, 0), (-face, 30), (face, 30)])
        inside = trace(standing, head - 0.001 * way, way, 0)
        out = head + (inside.leaves - 0.001) * way
        early = toe_exit(length, slope) > thickness
        assert early == (out[2] > NEAR)  # it comes out of the back before it gets to the end
        if early:
            continue
        traced = trace(receiving(float(depth), WIDE, 0), head, way, float(length))
        here = toe(length, depth, Line(slope=float(slope)))
        agree(here.bite, here.clear, traced, float(length))
