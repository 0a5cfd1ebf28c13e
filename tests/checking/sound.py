"""Sound builds, correct by construction: every size is figured here from the printed dressed sizes.

The dressed sizes are typed from the American Softwood Lumber Standard, PS 20, tables 2 and 3 (dry),
and stand beside the project's own tables on purpose.
"""

from fractions import Fraction as Frac
from random import Random
from typing import Any

Json = dict[str, Any]

THICKNESS = Frac(3, 4)  # every 1x board
WIDTHS = {
    "1x2": Frac(3, 2), "1x3": Frac(5, 2), "1x4": Frac(7, 2), "1x6": Frac(11, 2),
    "1x8": Frac(29, 4), "1x10": Frac(37, 4), "1x12": Frac(45, 4),
}  # fmt: skip
TWO_BY = {"2x2": Frac(3, 2), "2x4": Frac(7, 2)}
SPELLINGS = {"1x4": ("1x4", "1 X 4", '1" x 4"'), "1x8": ("1x8", "1 x 8")}


def text(size: Frac, random: Random) -> str:
    """A size as somebody might write it."""
    whole, rest = divmod(size, 1)
    if not rest:
        return random.choice([f"{whole}", f"{whole} in", f'{whole}"'])
    if not whole:
        return f"{rest}"
    return random.choice([f"{whole} {rest}", f'{whole}-{rest}"', f"{whole} {rest} in"])


def size(random: Random, low: int, high: int) -> Frac:
    """A size on the sixteenths."""
    return Frac(random.randint(low * 16, high * 16), 16)


def named(stock: str, random: Random) -> str:
    return random.choice(SPELLINGS.get(stock, (stock,)))


def case_with_shelves(random: Random) -> Json:
    """Sides and shelves, butted or let into dadoes."""
    stock, inside = random.choice(["1x6", "1x8", "1x10"]), size(random, 10, 40)
    tall, shelves = size(random, 12, 60), random.randint(2, 5)
    let_in = random.choice([Frac(0), Frac(1, 4), Frac(3, 8)])
    shelf: Json = {
        "id": "shelf", "stock": named(stock, random), "quantity": shelves,
        "length": text(inside + 2 * let_in, random),
    }  # fmt: skip
    side: Json = {"id": "side", "stock": stock, "quantity": 2, "length": text(tall, random)}
    if let_in:
        step = tall / (shelves + 1)
        side["cutouts"] = [
            {
                "kind": "dado", "on": "face", "width": "3/4", "depth": text(let_in, random),
                "at": [text(step * n, random) for n in range(1, shelves + 1)], "for": "shelf",
            }
        ]  # fmt: skip
    pieces = [
        {"part": "side", "along": "thickness", "count": 2},
        {"part": "shelf", "along": "length"},
    ]
    if let_in:
        pieces[1]["let_in"] = text(2 * let_in, random)
    whole = inside + 2 * THICKNESS
    return {
        "parts": [side, shelf],
        "joints": [joint("side", "shelf", random, enters="end", **SCREWED[1, 5, 8])],
        "runs": [{"id": "width", "pieces": pieces, "equals": text(whole, random)}],
        "loads": [shelf_load(stock, inside, random)],
        "stands": {
            "height": text(tall, random), "width": text(whole, random),
            "depth": text(WIDTHS[stock], random), "fixed": True, "kept_square_by": ["back"],
        },
        "uses": ["shelf"],
    }  # fmt: skip


def shelf_load(stock: str, span: Frac, random: Random) -> Json:
    """A third of what would sag a shelf of weak softwood by its limit.

    W = 384 E I (0.02/12) / (5 L^2), with 0.9 million psi, under any softwood that is sold.
    """
    inertia = float(WIDTHS[stock]) * float(THICKNESS) ** 3 / 12
    most = 384 * 0.9e6 * inertia * 0.02 / 12 / (5 * float(span) ** 2)
    return {
        "part": "shelf", "carries": f"{min(60, 0.3 * most):.3f} lb", "span": text(span, random),
        "spread": "even", "held": "resting", "stays": random.random() < 0.5,
        "limit": random.choice(["shelf", "eye", "L/240", "floor"]),
    }  # fmt: skip


def shelf_on_a_wall(random: Random) -> Json:
    """A ledge on a rail that is screwed into studs."""
    rail, between = size(random, 24, 48), random.choice([Frac(16), Frac(24)])
    past = THICKNESS + Frac(1, 2) + random.choice([Frac(5, 4), Frac(3, 2), Frac(2)])
    return {
        "parts": [
            {"id": "ledge", "stock": random.choice(["1x4", "1x6"]), "length": text(rail, random)},
            {"id": "hanger", "stock": "1x3", "length": text(rail, random)},
        ],
        "joints": [
            {**joint("ledge", "hanger", random), "touches": "face", "enters": "edge",
             "crosses": "0", "method": "screw", "count": 4, "glue": "pva-water-resistant"},
            {"id": "to-wall", "through": "hanger", "into": "wall", "method": "screw", "count": 3,
             "fastener": {"gauge": 10, "length": text(past, random)}, "glue": "none"},
        ],
        "place": {"where": random.choice(["indoors", "damp"]),
                  "wall": {"kind": "studs", "studs": text(between, random), "board": "1/2"}},
    }  # fmt: skip


def slatted_rack(random: Random) -> Json:
    """Slats with equal gaps across two cleats."""
    stock, count = random.choice(["1x2", "1x3", "1x4"]), random.randint(3, 9)
    gap, length = size(random, 1, 3), size(random, 10, 40)
    across = count * WIDTHS[stock] + (count - 1) * gap
    return {
        "parts": [
            {"id": "slat", "stock": stock, "quantity": count, "length": text(length, random)},
            {"id": "cleat", "stock": "1x2", "quantity": 2, "length": text(across, random)},
        ],
        "joints": [joint("slat", "cleat", random, enters="face", **SCREWED[1, 1, 4])],
        "runs": [
            {
                "id": "across",
                "pieces": [
                    {"part": "slat", "along": "width", "count": count},
                    {"gap": text(gap, random), "count": count - 1},
                ],
                "equals": {"part": "cleat", "along": "length"},
            }
        ],
        "shapes": [
            {
                "id": "slats",
                "shape": "row",
                "parts": {"piece": ["slat"]},
                "ends": "flush",
                "opening": text(across, random),
                "pieces": count,
                "piece": text(WIDTHS[stock], random),
            }
        ],
    }


def frame(random: Random) -> Json:
    """Four mitered sides."""
    stock, wide, high = random.choice(["1x2", "1x3"]), size(random, 12, 30), size(random, 12, 30)
    ends = [{"miter": 45}, {"miter": 45}]
    cut = {"ends": ends, "ends_lean": "opposite", "measured": "long-to-long", "quantity": 2}
    return {
        "parts": [
            {"id": "rail", "stock": stock, "length": text(wide, random), **cut},
            {"id": "stile", "stock": stock, "length": text(high, random), **cut},
        ],
        "joints": [joint("rail", "stile", random)],
        "runs": [
            {
                "id": "opening",
                "pieces": [
                    {"part": "rail", "along": "length"},
                    {"part": "stile", "along": "width", "count": 2, "less": True},
                ],
                "equals": text(wide - 2 * WIDTHS[stock], random),
            }
        ],
        "shapes": [
            {
                "id": "frame",
                "shape": "mitered-frame",
                "outside": f"{float(wide)} x {float(high)} in",
                "parts": {"rail": ["rail"], "stile": ["stile"]},
            }
        ],
    }


def leaning_legs(random: Random) -> Json:
    """Legs with parallel ends under a top."""
    lean, length = random.choice([5, 8, 10, 12, 15]), size(random, 10, 30)
    return {
        "parts": [
            {
                "id": "leg", "stock": "2x2", "quantity": 4, "length": text(length, random),
                "ends": [{"miter": lean}, {"miter": lean}], "ends_lean": "same",
                "measured": random.choice(["long-to-short", "short-to-long", "center"]),
            },
            {"id": "top", "stock": "1x12", "length": text(size(random, 12, 40), random)},
        ],
        "joints": [joint("top", "leg", random, enters="end", **SCREWED[2, 1, 2])],
    }  # fmt: skip


def drawer_grid(random: Random) -> Json:
    """Halved strips that go into an opening with clearance."""
    opening, clearance = size(random, 10, 30), Frac(random.randint(1, 4), 32)
    depth = WIDTHS["1x2"] / 2
    strips = [
        {
            "id": id, "stock": "1x2", "length": text(opening - clearance, random), "quantity": 2,
            "cutouts": [{"kind": "slot", "on": "edge", "at": ["4"], "width": "25/32",
                         "depth": text(depth, random), "for": other}],
        }
        for id, other in (("along", "across"), ("across", "along"))
    ]  # fmt: skip
    return {
        "parts": strips,
        "joints": [joint("along", "across", random)],
        "runs": [
            {
                "id": "drawer",
                "pieces": [{"part": "along", "along": "length"}],
                "fits": text(opening, random),
                "clearance": text(clearance, random),
            }
        ],
    }


def stacked_boxes(random: Random) -> Json:
    """Boxes of one board each, a cleat of each inside the one below."""
    stock, count = random.choice(["1x6", "1x8"]), random.randint(2, 4)
    long, cleat = size(random, 12, 24), size(random, 8, 11)
    return {
        "parts": [
            {"id": "long", "stock": stock, "quantity": 2 * count, "length": text(long, random)},
            {"id": "short", "stock": stock, "quantity": 2 * count, "length": text(cleat, random)},
        ],
        "joints": [joint("long", "short", random)],
        "runs": [
            {
                "id": "height",
                "pieces": [{"part": "long", "along": "width", "count": count}],
                "equals": text(count * WIDTHS[stock], random),
            },
            {
                "id": "depth",
                "pieces": [
                    {"part": "long", "along": "thickness", "count": 2},
                    {"part": "short", "along": "length"},
                ],
                "equals": text(cleat + 2 * THICKNESS, random),
            },
        ],
    }


def ripped_and_glued(random: Random) -> Json:
    """A top of boards glued edge to edge, and a strip ripped from a wider board."""
    boards, loss = random.randint(2, 4), Frac(1, 16)
    yields = boards * WIDTHS["1x4"] - (boards - 1) * loss
    width = yields - Frac(random.randint(0, 16), 16)
    strip = WIDTHS["1x6"] - Frac(random.randint(1, 48), 16)
    return {
        "parts": [
            {
                "id": "top", "stock": "1x4", "length": text(size(random, 12, 40), random),
                "width": text(width, random),
                "glued_from": {"boards": boards, "edge_loss": "1/16"},
            },
            {"id": "strip", "stock": "1x6", "length": text(size(random, 12, 40), random),
             "width": text(strip, random)},
        ],
        "joints": [joint("strip", "top", random)],
        "runs": [
            {
                "id": "depth",
                "pieces": [
                    {"part": "top", "along": "width"}, {"part": "strip", "along": "width"}
                ],
                "equals": text(width + strip, random),
            }
        ],
    }  # fmt: skip


# No. 8 screws by their length in inches: whole, and parts of one. Through 3/4 in boards (1/2 in or
# 3/8 in where a dado is cut) they end inside an end, a leaning leg, or 1/4 in short of a face.
SCREWED = {
    size: {
        "touches": "face", "method": "screw", "count": 2, "pilot": True,
        "fastener": {"gauge": 8, "length": f"{size[0]} {size[1]}/{size[2]}"},
    }
    for size in ((1, 1, 4), (1, 5, 8), (2, 1, 2))
}  # fmt: skip


def joint(through: str, into: str, random: Random, **stated: Any) -> Json:
    """A joint; of its fastening three times in four what is stated, else nothing."""
    told = stated if random.random() < 0.75 else {}
    return {
        "id": f"{through}-{into}", "through": through, "into": into, "quantity": 2,
        "glue": random.choice(["pva-interior", "none"]), **told,
    }  # fmt: skip


TEMPLATES = (
    case_with_shelves, slatted_rack, frame, leaning_legs, drawer_grid, stacked_boxes,
    ripped_and_glued, shelf_on_a_wall,
)  # fmt: skip


# What labels of these ask for at most: a day between coats, thirty days until they have cured.
COATS = ("water-polyurethane", "oil-polyurethane", "gel-polyurethane", "latex-paint")
STAINS = (("gel-stain",), ("pre-stain-conditioner", "oil-stain"),
          ("pre-stain-conditioner", "water-stain"))  # fmt: skip


def steps_for(document: Json, random: Random) -> list[Json]:
    """Cut, sand, join and finish, or finish with the glue faces bare and then join."""
    finish = random.choice(COATS)
    coats: list[Json] = []
    if random.random() < 0.5:
        for stain in random.choice(STAINS):
            coats += [{"do": "stain", "finish": stain, "count": 1}]
        coats += [{"do": "wait", "hours": 24}]
    for _ in range(random.randint(1, 3)):
        coats += [{"do": "finish", "finish": finish, "count": 1}, {"do": "wait", "hours": 24}]
        coats += [{"do": "sand", "grit": random.choice([220, 240, 320])}]
    coats.pop()  # nothing is sanded after the last coat
    joining: list[Json] = [
        {"do": "assemble" if joint["glue"] == "none" else "glue", "joints": [joint["id"]],
         "people": random.randint(1, 3)}
        for joint in document["joints"]
    ]  # fmt: skip
    start: list[Json] = [{"do": "cut"}, {"do": "sand", "grit": 120}, {"do": "sand", "grit": 180}]
    end: list[Json] = [{"do": "wait", "hours": 30 * 24}, {"do": "use"}]
    if random.random() < 0.5:
        for coat in coats:
            if coat["do"] != "wait":
                coat["bare_at_joints"] = True
        return [*start, *coats, *joining, *end]
    return [*start, {"do": "dry-fit"}, *joining, *coats, *end]


def sound_build_with_steps(seed: int) -> Json:
    """A sound build with the work in order, in a shop as warm as any glue here asks for."""
    random, document = Random(f"steps {seed}"), sound_build(seed)
    place = {**document.get("place", {}), "temperature": f"{random.randint(60, 85)}F"}
    return {**document, "place": place, "steps": steps_for(document, random)}


def sound_build(seed: int) -> Json:
    """A build with nothing wrong in it, the same for the same seed."""
    random = Random(seed)
    pieces = random.choice(TEMPLATES)(random)
    shop: Json = {"tools": ["drill"], "kerf": "1/8"}
    if random.random() < 0.5:
        shop["saws"] = [{"kind": "miter-saw", "blade": "10", "slides": True}]
    return {"name": f"Sound piece {seed}", "wood": random.choice(["spf", "pine"]), "shop": shop,
            **pieces}  # fmt: skip
