"""Joints that are right in form and wild in substance are answered: never an error of ours."""

from collections.abc import Callable
from random import Random
from typing import Any

import pytest
from flask.testing import FlaskClient

from service.api.documents.joints import METHODS

SIZES = ("1/64", "1/16", "1/4", "1/2", "3/4", "1 1/2", "3 1/2", "20", "1000", "11999", "18 mm")
STOCKS = ("1x4", "1x2", "2x4", "plywood 3/4", "mdf 1/2", "plywood 1/4", "5/4x6", "nonsense")
WOODS = ("spf", "red oak", "white oak", "hard maple", "pine")
TOOLS = ("drill", "pocket-jig", "clamps", "brad-nailer", "doweling-jig", "stapler", "hammer")
SURFACES = ("face", "edge", "end")
BUILDS, BATCHES = 1600, 4


def some(random: Random, **makers: Callable[[], Any]) -> dict[str, Any]:
    """About half of the fields."""
    return {name: make() for name, make in makers.items() if random.random() < 0.5}


def wild_part(id: str, other: str, random: Random) -> dict[str, Any]:
    def size() -> str:
        return random.choice(SIZES)

    stock: Any = random.choice(
        [
            random.choice(STOCKS), {"thickness": size(), "width": size()}, {"diameter": size()},
            {"thickness": size()},
        ]
    )  # fmt: skip
    cut = {"kind": "dado", "on": random.choice(["face", "back", "edge", "end"]), "at": ["1"],
           "width": "3/4", "depth": size(), "for": other}  # fmt: skip
    ends = [{"miter": random.choice([0, 45, 89]), "bevel": random.choice([0, 12, 89])}] * 2
    return {"id": id, "stock": stock, "length": size()} | some(
        random, width=size, treated=lambda: True, wood=lambda: random.choice(WOODS),
        ends=lambda: ends, cutouts=lambda: [cut],
    )  # fmt: skip


def wild_build(seed: int) -> dict[str, Any]:
    random = Random(seed)

    def size() -> str:
        return random.choice(SIZES)

    fastener = some(
        random, gauge=lambda: random.randint(0, 30), diameter=size, length=size,
        thread=lambda: random.choice(["coarse", "fine"]),
        coating=lambda: random.choice(["plain", "zinc", "exterior"]),
    )  # fmt: skip
    joint = {"id": "j", "through": random.choice("ab"), "into": random.choice(["a", "b", "wall"])}
    joint |= some(
        random, touches=lambda: random.choice(SURFACES), enters=lambda: random.choice(SURFACES),
        method=lambda: random.choice(METHODS), fastener=lambda: fastener, sunk=size,
        slope=lambda: random.choice([0, 1, 30, 60, 89]), pilot=lambda: random.random() < 0.5,
        end_distance=size, edge_distance=size, glue=lambda: random.choice(["none", "pva-yellow"]),
        layers=lambda: [size()], lets_move=lambda: True, crosses=size,
    )  # fmt: skip
    parts = [wild_part("a", "b", random), wild_part("b", "a", random)]
    return {"name": "Wild", "parts": parts, "joints": [joint]} | some(
        random, units=lambda: random.choice(["in", "mm"]), wood=lambda: random.choice(WOODS),
        place=lambda: {"where": random.choice(["indoors", "damp", "covered", "outdoors"])},
        shop=lambda: {"tools": random.sample(TOOLS, random.randint(0, 5))},
        region=lambda: random.choice(["us", "uk", "au"]),
    )  # fmt: skip


@pytest.mark.parametrize("batch", range(BATCHES))
def test_wild_joints_are_answered(client: FlaskClient, batch: int) -> None:
    answered = 0
    for seed in range(batch, BUILDS, BATCHES):
        response = client.post("/v1/fasteners", json=wild_build(seed))
        assert response.status_code in (200, 422), wild_build(seed)
        answered += response.status_code == 200
    assert answered > BUILDS // BATCHES // 2


def test_a_longer_pocket_screw_is_named_though_the_shop_has_no_drill(client: FlaskClient) -> None:
    """The mend of a length is not a matter of tools."""
    document = {
        "name": "No drill", "shop": {"tools": ["pocket-jig"]},
        "parts": [{"id": id, "stock": "1x4", "length": "20"} for id in ("rail", "post")],
        "joints": [{"id": "j", "through": "rail", "into": "post", "touches": "end",
                    "enters": "face", "method": "pocket-screw", "fastener": {"length": "2"}}],
    }  # fmt: skip
    found = client.post("/v1/check", json=document).get_json()["findings"]
    mends = {one["code"]: one["mend"] for one in found}
    assert mends["fastener.pokes-out"]["patch"][0]["value"] == "1 1/4 in"
