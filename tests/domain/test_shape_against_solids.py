"""Parts as solids, against boxes that a general solid-geometry library saws with planes.

The planes are made here, from the convention in words: a blade stands square to the part, is
tilted about its cut line by the bevel, then turned about the upright by the miter. Nothing is
taken from our own corner formulas; the stated length is read off the sawn mesh with a tape.
"""

from collections import Counter
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import product
from random import Random

import manifold3d
import numpy as np
import pytest
import trimesh
from scipy.spatial.transform import Rotation

from service.domain.build import End, Part, Stock
from service.domain.shape import shape_part, shape_round
from service.domain.solid import Crossed, Solid

SEED = 20260611
PARTS = 3000
NEAR = 1e-7
OTHER = {"bottom": "top", "top": "bottom", "front": "back", "back": "front"}
MITERS = (0, 0, 10, 12.5, 22.5, 30, 45, None)
BEVELS = (0, 0, 5, 10, 33.9, 45, None)
EDGE_BEVELS = (0, 0, 0, 5, 15, 22.5, 45)


@dataclass(frozen=True)
class Sawn:
    """A part as stated, and the mesh that the library cut for it, moved into its blank."""

    part: Part
    length: float
    width: Fraction
    thickness: Fraction
    mesh: trimesh.Trimesh


def blade(miter, bevel, long, outward):
    """The outward normal of a cut whose wood reaches farthest at the sides in `long`."""
    tilt = bevel if "front" in long else -bevel
    turn = -miter if "top" in long else miter
    normal = Rotation.from_euler("yz", [tilt, turn], degrees=True).apply([1.0, 0.0, 0.0])
    return normal * [outward, 1, 1]


def edge_blade(bevel, long, outward):
    tilt = -bevel if "front" in long else bevel
    normal = Rotation.from_euler("x", tilt, degrees=True).apply([0.0, 1.0, 0.0])
    return normal * [1, outward, 1]


def saw(box, normal, through_point):
    """The part of a solid behind a plane."""
    return box.trim_by_plane(tuple(-normal), float(np.dot(-normal, through_point)))


def mesh_of(solid):
    mesh = solid.to_mesh64()
    return trimesh.Trimesh(mesh.vert_properties[:, :3], mesh.tri_verts, process=False)


def saw_box(ends, edges, along_bottom, sizes):
    """Cut a large box through the corners of the measured face's outline."""
    width, thickness, measured_at = sizes
    room = 30 * (width + thickness)
    box = manifold3d.Manifold.cube((along_bottom + 2 * room, width + 2 * room, thickness))
    box = box.translate((-room, -room, 0))
    for end, x, outward in zip(ends, (0, along_bottom), (-1, 1), strict=True):
        box = saw(box, blade(end.miter, end.bevel, end.long, outward), (x, 0, measured_at))
    for edge, y, outward in zip(edges, (width, 0), (1, -1), strict=True):
        box = saw(box, edge_blade(edge.bevel, edge.long, outward), (0, y, measured_at))
    return box


def tape(part, mesh, measured_at):
    """Each length by its word, read off the outline in which the cuts show: face, else edge."""
    points = mesh.vertices
    if any(end.miter for end in part.ends):
        seen = points[np.abs(points[:, 2] - measured_at) < NEAR][:, [0, 1]]
    else:
        seen = points[:, [0, 2]]
    lefts, rights = {}, {}
    for side, at in (("near", seen[:, 1].min()), ("far", seen[:, 1].max())):
        along = seen[np.abs(seen[:, 1] - at) < NEAR][:, 0]
        lefts[side], rights[side] = along.min(), along.max()
    words = {
        "long-to-long": max(rights.values()) - min(lefts.values()),
        "short-to-short": min(rights.values()) - max(lefts.values()),
        "center": (sum(rights.values()) - sum(lefts.values())) / 2,
    }
    first_long = min(lefts, key=lefts.get)
    second_long = max(rights, key=rights.get)
    slanted = all(abs(at["near"] - at["far"]) > NEAR for at in (lefts, rights))
    if slanted and first_long != second_long:
        words["long-to-short"] = rights[first_long] - lefts[first_long]
        words["short-to-long"] = rights[second_long] - lefts[second_long]
    return words


def draw_end(random, sides):
    miter, bevel = (random.choice(choices) for choices in (MITERS, BEVELS))
    miter = random.uniform(0.5, 60) if miter is None else miter
    bevel = random.uniform(0.5, 50) if bevel is None else bevel
    return End(miter, bevel, frozenset(sides))


def draw_sawn(random):
    """One random part with its mesh, or None where its cuts leave no hexahedron."""
    width, thickness = Fraction(random.randint(16, 192), 16), Fraction(random.randint(4, 56), 16)
    along_bottom = random.uniform(2, 60)
    measured_on = random.choice(("front", "back"))
    long = [random.choice(pair) for pair in (("bottom", "top"), ("front", "back"))]
    lean = random.choice(("same", "opposite"))
    by_lean = random.random() < 0.5
    following = [OTHER[side] if lean == "same" else side for side in long]
    if not by_lean:
        following = [random.choice(pair) for pair in (("bottom", "top"), ("front", "back"))]
    first, second = draw_end(random, long), draw_end(random, following)
    edges = tuple(
        End(0, random.choice(EDGE_BEVELS), frozenset([random.choice(("front", "back"))]))
        for _ in range(2)
    )
    measured_at = float(thickness) if measured_on == "front" else 0.0
    sizes = (float(width), float(thickness), measured_at)
    solid = saw_box((first, second), edges, along_bottom, sizes)
    if not keeps_its_arrises(solid, edges, sizes):
        return None
    part = Part(
        "part",
        Stock(),
        None,
        ends=(first, End(second.miter, second.bevel) if by_lean else second),
        ends_lean=lean if by_lean else None,
        edges=edges,
        measured_on=measured_on,
    )
    mesh = mesh_of(solid)
    word, length = random.choice(list(tape(part, mesh, measured_at).items()))
    mesh.apply_translation(-mesh.bounds[0])
    return Sawn(replace(part, measured=word), length, width, thickness, mesh)


def keeps_its_arrises(solid, edges, sizes):
    """Whether each long corner, where an edge meets a face, is still there with two ends."""
    width, thickness, measured_at = sizes
    if solid.num_vert() != 8:
        return False
    points = solid.to_mesh64().vert_properties[:, :3]
    for (edge, y, outward), z in product(((edges[0], width, 1), (edges[1], 0, -1)), (0, thickness)):
        off = (points - [0, y, measured_at]) @ edge_blade(edge.bevel, edge.long, outward)
        on_both = points[(np.abs(off) < NEAR) & (np.abs(points[:, 2] - z) < NEAR)]
        if len(on_both) != 2:
            return False
    return True


@pytest.fixture(scope="module")
def sawn_and_shaped():
    random = Random(SEED)
    pairs = []
    while len(pairs) < PARTS:
        sawn = draw_sawn(random)
        if sawn is not None:
            pairs.append(
                (sawn, shape_part(sawn.part, Fraction(sawn.length), sawn.width, sawn.thickness))
            )
    return pairs


def test_every_part_that_the_saw_leaves_whole_is_a_solid(sawn_and_shaped):
    assert [sawn for sawn, shaped in sawn_and_shaped if not isinstance(shaped, Solid)] == []


def test_the_random_parts_use_every_word_and_every_kind_of_cut(sawn_and_shaped):
    words = Counter(sawn.part.measured for sawn, _ in sawn_and_shaped)
    compound = [s for s, _ in sawn_and_shaped if all(e.miter and e.bevel for e in s.part.ends)]
    beveled_only = [s for s, _ in sawn_and_shaped if not any(e.miter for e in s.part.ends)]
    assert len(words) == 5
    assert min(words.values()) > 100
    assert len(compound) > 500
    assert len(beveled_only) > 50


def test_volumes_agree_with_the_sawn_mesh(sawn_and_shaped):
    for sawn, solid in sawn_and_shaped:
        assert float(solid.volume) == pytest.approx(sawn.mesh.volume, rel=1e-8), sawn


def test_surfaces_agree_with_the_sawn_mesh(sawn_and_shaped):
    for sawn, solid in sawn_and_shaped:
        assert float(solid.surface) == pytest.approx(sawn.mesh.area, rel=1e-8), sawn


def test_blanks_agree_with_the_extents_of_the_sawn_mesh(sawn_and_shaped):
    for sawn, solid in sawn_and_shaped:
        blank = [float(x) for x in (solid.blank_length, solid.blank_width, solid.thickness)]
        assert blank == pytest.approx(list(sawn.mesh.extents), abs=NEAR), sawn


def test_all_corners_agree_with_the_sawn_mesh(sawn_and_shaped):
    for sawn, solid in sawn_and_shaped:
        ours = np.array(solid.points, dtype=float)
        apart = np.linalg.norm(ours[:, None] - sawn.mesh.vertices[None], axis=2)
        assert len(sawn.mesh.vertices) == 8
        assert sorted(apart.argmin(axis=1)) == list(range(8)), sawn
        assert apart.min(axis=1).max() < NEAR, sawn


def test_corner_names_say_where_the_corners_are(sawn_and_shaped):
    for _, solid in sawn_and_shaped:
        for name, (x, y, z) in solid.corners.items():
            end, edge, face = name.split("-")
            opposite = solid.corners[f"{'second' if end == 'first' else 'first'}-{edge}-{face}"]
            across = solid.corners[f"{end}-{OTHER[edge]}-{face}"]
            assert (x < opposite[0]) == (end == "first")
            assert (y < across[1]) == (edge == "bottom")
            assert z == (0 if face == "back" else solid.thickness)


def test_all_lengths_agree_with_a_tape_on_the_sawn_mesh(sawn_and_shaped):
    for sawn, solid in sawn_and_shaped:
        for face, z in (("back", 0), ("front", float(sawn.thickness))):
            ours = {word: float(length) for word, length in solid.lengths(face).items()}
            theirs = tape(sawn.part, sawn.mesh, z)
            if not any(end.miter or end.bevel for end in sawn.part.ends):
                theirs |= dict.fromkeys(("long-to-short", "short-to-long"), theirs["center"])
            assert ours == pytest.approx(theirs, abs=NEAR), sawn


def test_a_part_is_crossed_exactly_when_the_saw_takes_a_long_corner_away():
    random = Random(SEED + 1)
    outcomes = Counter()
    for _ in range(800):
        sides = ("bottom", "front")
        ends = draw_end(random, sides), draw_end(random, sides)
        if random.random() < 0.4:
            ends = tuple(replace(end, miter=0) for end in ends)
        edges = tuple(End(0, random.choice(EDGE_BEVELS), frozenset(["front"])) for _ in range(2))
        width, thickness = Fraction(random.randint(8, 96), 16), Fraction(random.randint(8, 48), 16)
        length = random.uniform(0.2, 6)
        sizes = (float(width), float(thickness), float(thickness))
        whole = keeps_its_arrises(saw_box(ends, edges, length, sizes), edges, sizes)
        mitered = any(end.miter for end in ends)
        part = Part("part", Stock(), None, ends=ends, edges=edges, measured="long-to-long")
        shaped = shape_part(part, Fraction(length), width, thickness)
        assert isinstance(shaped, Solid if whole else Crossed), (part, length, width, thickness)
        outcomes[whole, mitered] += 1
    assert len(outcomes) == 4
    assert min(outcomes.values()) > 10


def test_rounds_agree_with_a_sawn_cylinder():
    random = Random(SEED + 2)
    shaped = 0
    while shaped < 100:
        sides = [(random.choice(("bottom", "top")), random.choice(("front", "back"))) for _ in "ab"]
        ends = tuple(draw_end(random, pair) for pair in sides)
        diameter, center = (
            Fraction(random.randint(4, 32), 16),
            Fraction(random.randint(32, 320), 16),
        )
        part = Part("rod", Stock(), None, ends=ends, measured="center")
        rod = shape_round(part, center, diameter)
        if isinstance(rod, Crossed):
            continue
        shaped += 1
        mesh = mesh_of(saw_cylinder(ends, float(center), float(diameter) / 2))
        assert float(rod.volume) == pytest.approx(mesh.volume, rel=1e-4), part
        assert float(rod.surface) == pytest.approx(mesh.area, rel=1e-4), part
        assert float(rod.blank_length) == pytest.approx(mesh.extents[0], rel=1e-4), part


def saw_cylinder(ends, center, radius):
    room = 30 * radius
    solid = manifold3d.Manifold.cylinder(center + 2 * room, radius, circular_segments=360)
    solid = solid.translate((0, 0, -room)).rotate((0, 90, 0))
    for end, x, outward in zip(ends, (0, center), (-1, 1), strict=True):
        solid = saw(solid, blade(end.miter, end.bevel, end.long, outward), (x, 0, 0))
    return solid
