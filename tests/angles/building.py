"""Figured parts stood up with a general solid-geometry library.

Each part becomes a mesh from its corners (which are held against sawn boxes elsewhere), and is put
in its place by turns and shifts that come from the words of the shape, not from its formulas.
"""

import manifold3d
import numpy as np
from scipy.spatial.transform import Rotation

NEAR = 1e-6


def corners(wanted):
    """The eight corners of a part lying on its back face."""
    return np.array(wanted.solid.points, dtype=float)


def hull(points):
    """The solid of some corners."""
    return manifold3d.Manifold.hull_points(np.asarray(points, dtype=float))


def volume(solid):
    return float(solid.volume())


def moved(points, x=0.0, y=0.0, z=0.0):
    return np.asarray(points) + np.array([x, y, z], dtype=float)


def turned(points, axis, degrees):
    return Rotation.from_euler(axis, degrees, degrees=True).apply(points)


def flipped(points, *axes):
    """Mirror images along the axes named, moved back so that the blank starts at 0."""
    points = np.array(points)
    for axis in axes:
        points[:, axis] = points[:, axis].max() - points[:, axis]
    return points


def framed(points, *directions):
    """Corners with the part's length, width and thickness laid along three directions."""
    return points @ np.array(directions, dtype=float)


def on_plane(points, normal, through):
    """How many corners lie on a plane."""
    off = (points - np.asarray(through, dtype=float)) @ np.asarray(normal, dtype=float)
    return int((np.abs(off) < NEAR).sum())


def overlap(solids):
    """Cubic inches that any two of some solids share."""
    return sum(volume(one ^ other) for i, one in enumerate(solids) for other in solids[i + 1 :])


def union(solids):
    whole = solids[0]
    for solid in solids[1:]:
        whole += solid
    return whole


def shell(planes, height, room=200.0):
    """What some half-spaces (normal, offset) leave of the slab from the floor to a height."""
    solid = manifold3d.Manifold.cube((2 * room, 2 * room, height)).translate((-room, -room, 0))
    for normal, offset in planes:
        length = float(np.linalg.norm(normal))
        inward = tuple(-np.asarray(normal, dtype=float) / length)
        solid = solid.trim_by_plane(inward, -offset / length)
    return solid
