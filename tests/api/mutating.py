"""Documents with something changed in them: for the tests that ask two judges about the same."""

import copy
import json
from collections.abc import Iterator
from pathlib import Path
from random import Random
from typing import Any

Json = dict[str, Any]

BUILDS = Path(__file__).parents[1] / "builds" / "whole"
TOTE = Path(__file__).parent / "tote.json"

VALUES: tuple[Any, ...] = (
    *(0, 1, 2, 3.0, -1, -0.0, 0.5, 11.4, 89, 90, 360, 361, 12_000, 12_001, 304_800, 10**10, 1e-30),
    *(True, False, None, "", " ", "a", "1x4", "in", "mm", "true", "a\nb", "\u00a0", "x" * 81),
    *("24", "20 3/4", "20¾ in", "1' 8\"", "1/0", "5/4", "3 7/4", "52,7 cm", "1,500", "-3", "0"),
    *("2000 ft", "527 mm", "16x20in", "16x20", "40 lb", "18 lb/ft", "35 psf", "1200000 psi"),
    *("30 min", "2 h", "68F", "-20 C", "-500 F", "6 ft3", "170 L", "20000 ft3", "11.40", "1.23456"),
    *("USD", "usd", "100", "100.0", "100.5", "12.5", "12°", "10,10", "10,10,10", "L/240", "L/0"),
    *("eye", "face", "edge", "end", "level", "square", "gap", "hole", "dado", "leaning", "polygon"),
    *("top", "bottom", "front", "length", "even", "studs", "cut", "screw", "lid", "upright,level"),
    *([], {}, ["1"], [10, 10], ["10", 10.5], ["top", "bottom"], ["top", "front"], ["front"] * 9),
    *({"thickness": "3/4"}, {"diameter": 1}, {"diameter": 1, "width": 2}, {"part": "end"}),
    *({"at": 3, "carries": "90 lb"}, {"from": 1, "to": 2}, {"from": 2, "to": 1}, {"bevel": 3}),
    *({"size": 3, "gap": 1}, {"gap": "1/2", "count": 2}, {"wood": "oak", "moisture": 8}),
    {"kind": "hole", "on": "face", "width": 1},
    {"kind": "slot", "on": "face", "width": 1, "depth": "1/4", "for": "shelf"},
    {"id": "s", "shape": "polygon", "sides": 6, "side": "4", "parts": {"side": ["end"]}},
    {"id": "s", "shape": "ends", "miter": "10,10", "bevel": [0, 5], "length": 20},
    {"id": "s", "shape": "row", "opening": 30, "at": [0, "1/2"], "ends": "flush"},
    {"id": "s", "shape": "splayed-legs", "top_inset": "0", "top_inside": "3x4", "turned": True},
)

# One of everything that a document may hold and the samples leave out.
RICH: Json = {
    "shapes": [value for value in VALUES if isinstance(value, dict) and "shape" in value],
    "stands": {"height": 30, "fixed": True, "encloses": "6 ft3", "kept_square_by": ["back"]},
    "moving": [{"kind": "lid", "part": "end", "held_open": False}],
    "people": {"youngest": 4},
    "stocks": {"1x8": {"measured_width": "7 1/4", "treated": False, "moisture": 9.5}},
    "place": {"temperature": "20 C", "humidity": 40.5, "wall": {"kind": "studs", "studs": 16}},
    "loads": [
        {"part": "end", "points": [{"at": 0, "carries": "9 kg"}], "limit": "L/360", "grade": "No.2",
         "stiffened_by": [{"part": "end", "joined": "glued"}], "stiffness": "9.7 GPa",
         "supports": [0, 10]},
        {"part": "end", "carries": "18 lb/ft", "limit": "1/8", "boards": 2},
    ],
    "steps": [{"do": "glue", "minutes": 12.5, "people": 2}, {"do": "wait", "hours": "2 d"}],
    "buying": {
        "price_list": {"currency": "EUR", "prices": [{"stock": "1x4", "price": 3, "per": "foot"}]},
        "offcuts": [{"stock": "1x4", "length": 31, "defects": [{"from": 0, "to": 2}]}],
        "planned": [{"stock": "1x4", "length": "8 ft", "for": ["end"]}],
        "store_cuts": {"free": 2, "each": "0.50"}, "tax_percent": "7.25", "budget": "40",
    },
}  # fmt: skip


def samples() -> list[Json]:
    """Whole builds, sound and spoiled."""
    files = [path for path in sorted(BUILDS.glob("*.json")) if path.name != "expected.json"]
    builds = [json.loads(path.read_text(encoding="utf-8")) for path in (TOTE, *files)]
    return [*builds, *({**build, **RICH} for build in builds[:3])]


def places(value: Any) -> Iterator[tuple[Any, Any]]:
    """Every container in a document, with a name or number in it."""
    if isinstance(value, dict | list):
        for name, inner in value.items() if isinstance(value, dict) else enumerate(value):
            yield value, name
            yield from places(inner)


def mutated(document: Json, random: Random) -> Json:
    """A copy with one to three changes: another value, one taken out, one put in."""
    changed = copy.deepcopy(document)
    for _ in range(random.choice((1, 1, 1, 2, 3))):
        holder, name = random.choice(list(places(changed)))
        others = [(h, n) for h, n in places(changed) if n == name] or [(holder, name)]
        other, at = random.choice(others)
        match random.randrange(6):
            case 0:
                del holder[name]
            case 1:
                holder[name] = copy.deepcopy(other[at])
            case 2 if isinstance(holder, dict):
                holder[random.choice(("width", "kind", "long", "at", "nonsense", "id", "gap"))] = (
                    copy.deepcopy(random.choice(VALUES))
                )
            case 3 if isinstance(holder, list):
                holder.append(copy.deepcopy(random.choice(VALUES)))
            case _:
                holder[name] = copy.deepcopy(random.choice(VALUES))
        if not changed:
            break
    return changed
