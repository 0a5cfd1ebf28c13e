"""Random joints of two parts: stocks, how they meet, woods, places and shops."""

from random import Random
from typing import Any

Json = dict[str, Any]

BOARDS = ("1x2", "1x3", "1x4", "1x6", "1x8", "1x12", "2x2", "2x4", "2x6", "5/4x6")
PANELS = ("plywood 1/4", "plywood 1/2", "plywood 3/4", "mdf 1/4", "mdf 1/2", "mdf 3/4")
METRIC = ("ex-25x50", "ex-25x75", "ex-50x50")
WOODS = ("spf", "red oak", "hard maple", "yellow-poplar", "douglas-fir", None)
TOOLS = (
    "drill", "pocket-jig", "clamps", "brad-nailer", "finish-nailer", "doweling-jig", "stapler",
    "staple-gun", "hammer",
)  # fmt: skip
SURFACES = ("face", "edge", "end")


def joint_build(seed: int) -> Json:
    """A build with one joint, the same for the same seed."""
    random = Random(seed)
    metric = random.random() < 0.1
    parts = [part("first", random, metric), part("second", random, metric)]
    joint: Json = {
        "id": "joint", "through": "first", "into": "second",
        "touches": random.choice(SURFACES), "enters": random.choice(SURFACES),
    }  # fmt: skip
    if random.random() < 0.3:
        joint["glue"] = random.choice(["none", "pva-yellow", "polyurethane-glue"])
    if random.random() < 0.1:
        joint["sunk"] = "1/16 in"
    if random.random() < 0.1 and joint["touches"] != "end":
        joint["slope"] = random.choice([5, 10, 12, 15])
    made: Json = {"name": f"Joint {seed}", "units": "mm" if metric else "in", "parts": parts}
    # How the grains cross is a matter of the two pieces: no fastening mends it.
    made["joints"] = [{**joint, "crosses": "0"}]
    if metric:
        made["region"] = "uk"
    wood = random.choice(WOODS)
    if wood:
        made["wood"] = wood
    where = random.choice(["indoors", "indoors", "indoors", "damp", "covered", "outdoors", None])
    if where and joint.get("glue") is None:
        made["place"] = {"where": where}
    if random.random() < 0.7:
        made["shop"] = {"tools": random.sample(TOOLS, random.randint(1, len(TOOLS)))}
    return made


def part(id: str, random: Random, metric: bool) -> Json:
    """A board, a panel or a section of any size; some leaning at their ends, some measured."""
    made: Json = {"id": id, "length": str(random.randint(250, 900) if metric else
                                          random.randint(10, 40))}  # fmt: skip
    kind = random.random()
    if metric:
        return {**made, "stock": random.choice(METRIC)}
    if kind < 0.5:
        made["stock"] = random.choice(BOARDS)
        if random.random() < 0.2:
            made["measured_thickness"] = random.choice(["3/4", "25/32", "23/32", "1 1/2"])
    elif kind < 0.8:
        made |= {"stock": random.choice(PANELS), "width": str(random.randint(4, 20))}
        return made
    else:
        thick, wide = random.randint(4, 28), random.randint(10, 96)
        made["stock"] = {"thickness": f"{min(thick, wide)}/16", "width": f"{max(thick, wide)}/16"}
    if random.random() < 0.15:
        end = {random.choice(["miter", "bevel"]): random.choice([5, 10, 12, 20])}
        made |= {"ends": [end, end], "ends_lean": "same", "measured": "center"}
    return made
