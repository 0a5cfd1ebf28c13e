"""Mass of cut parts, against meshes that a general solid-geometry library cuts."""

from collections.abc import Callable
from fractions import Fraction
from math import pi
from random import Random
from typing import Any

import manifold3d
import pytest

from service.api.documents.build import BuildForm
from service.domain.catalog import Catalog
from service.domain.resolving import ResolvedBuild, resolve
from service.domain.weight import weigh, whole

PARTS = 200
Resolve = Callable[[dict[str, Any]], ResolvedBuild]


@pytest.fixture(scope="module")
def resolved(catalog: Catalog) -> Resolve:
    form = BuildForm()
    return lambda document: resolve(form.load({"name": "Heavy", **document}), catalog)


def cube(size: tuple[float, ...], at: tuple[float, ...] = (0, 0, 0)) -> manifold3d.Manifold:
    return manifold3d.Manifold.cube(size).translate(at)


def bored_board(random: Random) -> tuple[dict[str, Any], float]:
    """A 1x6 with dadoes across a face, slots in an edge and holes, and its volume by the mesh."""
    length = random.randint(20, 60)
    wide, thick = 5.5, 0.75
    board = cube((length, wide, thick))
    dado_at, dado_deep = random.randint(1, 4), random.choice([0.25, 0.375])
    slot_at, slot_deep = random.randint(6, 9), random.choice([1.0, 1.5])
    holes = [random.randint(11, 15), random.randint(16, 18)]
    cuts = [
        cube((0.75, wide + 2, dado_deep + 1), (dado_at, -1, thick - dado_deep)),
        cube((0.5, slot_deep + 1, thick + 2), (slot_at, wide - slot_deep, -1)),
        *(
            manifold3d.Manifold.cylinder(3, 0.5, 0.5, 720).translate((at, 2, -1))
            for at in holes
        ),
    ]  # fmt: skip
    for cut in cuts:
        board = board - cut
    part = {
        "id": "board", "stock": "1x6", "length": str(length), "wood": "spruce-sitka",
        "cutouts": [
            {"kind": "dado", "on": "face", "at": [str(dado_at)], "width": "3/4",
             "depth": str(dado_deep)},
            {"kind": "slot", "on": "edge", "at": [str(slot_at)], "width": "1/2",
             "depth": str(slot_deep)},
            {"kind": "hole", "on": "face", "at": [str(at) for at in holes], "diameter": "1"},
        ],
    }  # fmt: skip
    return part, board.volume()


def test_a_cut_part_weighs_what_the_mesh_weighs(resolved: Resolve) -> None:
    """Sitka spruce is 0.40 at 12 %: 62.4 x 0.40 x 1.12 lb a cubic foot (handbook, 4-14)."""
    density = 62.4 * 0.40 * 1.12
    for seed in range(PARTS):
        part, volume = bored_board(Random(seed))
        (found,) = weigh(resolved({"parts": [part]}))
        assert found.each is not None
        assert found.each.usual == pytest.approx(volume / 1728 * density, rel=1e-4)


def test_a_mitered_part_weighs_what_is_left_of_it(resolved: Resolve) -> None:
    # A trapezoid 20 by 13 over 3 1/2 wide: 57.75 in2 of 3/4 in.
    part = {
        "id": "rail", "stock": "1x4", "length": "20", "wood": "spruce-sitka",
        "ends": [{"miter": 45}, {"miter": 45}], "ends_lean": "opposite",
        "measured": "long-to-long",
    }  # fmt: skip
    (found,) = weigh(resolved({"parts": [part]}))
    assert found.each is not None
    assert found.each.usual == pytest.approx(57.75 * 0.75 / 1728 * 62.4 * 0.40 * 1.12)


def test_a_round_weighs_as_a_cylinder(resolved: Resolve) -> None:
    part = {"id": "rung", "stock": {"diameter": "1"}, "length": "36", "wood": "spruce-sitka"}
    (found,) = weigh(resolved({"parts": [part]}))
    assert found.each is not None
    assert found.each.usual == pytest.approx(pi / 4 * 36 / 1728 * 62.4 * 0.40 * 1.12)


def test_the_piece_is_its_parts_times_how_many(resolved: Resolve) -> None:
    shelf = {"id": "shelf", "stock": "1x8", "length": "30", "quantity": 3}
    side = {"id": "side", "stock": "1x8", "length": "40", "quantity": 2}
    masses = weigh(resolved({"wood": "oak-white", "parts": [shelf, side]}))
    each = [one.each for one in masses]
    assert each[0] is not None and each[1] is not None
    assert whole(masses).usual == pytest.approx(3 * each[0].usual + 2 * each[1].usual)


def test_a_group_weighs_between_its_lightest_and_heaviest(resolved: Resolve) -> None:
    part = {"id": "board", "stock": "1x6", "length": "72"}
    (group,) = weigh(resolved({"wood": "spf", "parts": [part]}))
    (light,) = weigh(resolved({"wood": "fir-subalpine", "parts": [part]}))
    assert group.each is not None and light.each is not None
    assert group.each.low == pytest.approx(light.each.usual)
    assert group.each.high > group.each.usual > group.each.low


def test_what_has_no_wood_is_named_not_guessed(resolved: Resolve) -> None:
    (found,) = weigh(resolved({"parts": [{"id": "board", "stock": "1x6", "length": "72"}]}))
    assert (found.each, found.why_not) == (None, "its wood is not named")


def test_wetter_wood_weighs_more(resolved: Resolve) -> None:
    def usual(moisture: int) -> float:
        part = {"id": "b", "stock": "1x6", "length": str(Fraction(72)), "moisture": moisture}
        (one,) = weigh(resolved({"wood": "spruce-sitka", "parts": [part]}))
        assert one.each is not None
        return one.each.usual

    assert usual(8) < usual(12) < usual(25)
