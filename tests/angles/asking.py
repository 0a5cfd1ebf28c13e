"""Random questions about every shape, within what a shop would build."""

from random import Random
from urllib.parse import urlencode

STOCKS = ("1x2", "1x3", "1x4", "2x2", "2x4")
SIXTEENTHS = 16


def size(random, low, high):
    """A length as text: sixteenths, decimals or millimeters."""
    way = random.random()
    if way < 0.6:
        whole, rest = divmod(random.randint(low * SIXTEENTHS, high * SIXTEENTHS), SIXTEENTHS)
        return f"{whole} {rest}/16" if rest else f"{whole}"
    if way < 0.8:
        return f"{random.randint(low * 254, high * 254) / 10:.1f} mm"
    return f"{random.uniform(low, high):.3f} in"


def pair(random, low, high):
    return f"{random.randint(low, high)}x{random.randint(low, high)}in"


def lean(random, most=30):
    return random.choice([0, 5, 7.5, 10, 12, 15, round(random.uniform(0.5, most), 1)])


def leaning(random):
    asked = {"height": size(random, 10, 40), "lean": lean(random)}
    top = random.choice([None, "level", "square", "3/4"])
    return asked | ({"top": top} if top else {})


def splayed_legs(random):
    asked = {"height": size(random, 12, 30)}
    if random.random() < 0.5:
        asked |= {
            "lean": lean(random, 20),
            "top_outside": random.choice([size(random, 10, 14), pair(random, 10, 16)]),
        }
    else:
        asked |= {
            "lean_front": lean(random, 20),
            "lean_side": lean(random, 20),
            "top_inside": pair(random, 8, 16),
        }
        if random.random() < 0.3:
            asked["turned"] = "true"
    return asked | {"rail_top_at": size(random, 4, 9)}


def frame(random):
    way = random.choice(["opening", "outside", "contents"])
    asked = {way: pair(random, 10, 30)}
    if way == "contents":
        asked |= {"rabbet": "3/8", "clearance": "1/8"}
    return asked


def sloped_box(random):
    butted = random.random() < 0.3
    sides = 4 if butted else random.choice([3, 4, 4, 5, 6, 8])
    asked = {
        "sides": sides,
        "slope": lean(random),
        random.choice(["height", "slant"]): "2 1/2",
        "corners": "butted" if butted else "mitered",
        "stock": "1x6",
    }
    if random.random() < 0.5:
        asked |= {"slope": 90 - asked["slope"], "slope_from": "horizontal"}
    lengths = pair(random, 9, 20) if sides == 4 else size(random, 9, 20)
    return asked | {random.choice(["rim", "foot"]): lengths}


def polygon(random):
    how = random.choice(["across_flats", "across_corners", "side"])
    return {
        "sides": random.randint(3, 12),
        how: size(random, 30, 48),
        "ring": random.choice(["flat", "upright"]),
    }


def brace(random):
    return {
        "run": size(random, 9, 20),
        "rise": size(random, 9, 20),
        "given": random.choice(["long-points", "center", "short-points"]),
        "between": random.choice(["upright,level", "level,level"]),
    }


def crossed_legs(random):
    return {"width": size(random, 14, 30), "height": size(random, 14, 30)}


def prop(random):
    return {"lean": lean(random, 40), "up": size(random, 7, 9), "foot": size(random, 8, 12)}


def tapered_leg(random):
    return {
        "length": size(random, 10, 30),
        "top": "1 1/2",
        "foot": size(random, 1, 1),
        "straight": "3",
        "stock": random.choice(["2x2", "1x2"]),
    }


def ends(random):
    one, other = lean(random), lean(random)
    same = bool(one and other) and random.random() < 0.5
    words = ["long-to-long", "short-to-short", "center"] + (["long-to-short"] if same else [])
    return {
        "length": size(random, 12, 40),
        "miter": f"{one},{other}",
        "ends_lean": "same" if same else "opposite",
        "measured": random.choice(words),
    }


SHAPES = {
    "leaning": leaning, "splayed-legs": splayed_legs, "mitered-frame": frame,
    "butted-frame": frame, "sloped-box": sloped_box, "polygon": polygon, "brace": brace,
    "crossed-legs": crossed_legs, "prop": prop, "tapered-leg": tapered_leg, "ends": ends,
}  # fmt: skip


def question(shape, seed):
    """An address that asks for one shape, the same for the same seed."""
    random = Random(f"{shape} {seed}")
    asked = {"stock": random.choice(STOCKS), **SHAPES[shape](random)}
    if random.random() < 0.25:
        asked["units"] = "mm"
        asked = {k: f"{v} in" if _bare(v) else v for k, v in asked.items()}
    return f"/v1/angles/{shape}?{urlencode(asked)}"


def _bare(value):
    text = str(value)
    return " " in text and text[-1].isdigit()


def row(seed):
    """An address that asks for a row."""
    random = Random(seed)
    asked = {"within": size(random, 30, 60), "pieces": random.randint(2, 9), "piece": "1 1/2",
             "ends": random.choice(["gap", "flush", "half", "2"]), "stock": "1x2"}  # fmt: skip
    return f"/v1/spacing?{urlencode(asked)}"
