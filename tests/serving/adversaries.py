"""Builds as large and as awkward as the forms let through: what takes longest to answer."""

from collections.abc import Callable
from dataclasses import dataclass
from random import Random
from typing import Any

STOCKS = ("1x2", "1x3", "1x4", "1x6", "1x8", "1x10", "2x2", "2x4", "2x6", "5/4x6")
SHEETS = ("plywood 3/4", "plywood 1/2", "mdf 1/2", "plywood 1/4")
WOODS = ("spf", "red oak", "pine", "hard maple")
TOOLS = ["drill", "pocket-jig", "clamps", "brad-nailer", "doweling-jig", "stapler", "hammer"]
METHODS = ("screw", "pocket-screw", "nail", "brad", "dowel", "glue", "staple", None)
SURFACES = ("face", "edge", "end")


@dataclass(frozen=True)
class Adversary:
    """A request: where it goes, and its body."""

    name: str
    path: str
    body: Any


def part(n: int, random: Random) -> dict[str, Any]:
    """A board of a length and width of its own, cut at an angle."""
    made = {
        "id": f"p{n}",
        "stock": {"thickness": f"{1 + n % 97}/97", "width": f"{100 + n}/41"},
        "length": f"{12 + n}/{1 + n % 7}",
        "wood": random.choice(WOODS),
    }
    if n % 3 == 0:
        made["ends"] = [{"miter": n % 80, "bevel": (n * 7) % 80}] * 2
    if n % 5 == 0:
        made["cutouts"] = [
            {"kind": "dado", "on": "face", "at": [f"{1 + k}/3" for k in range(5)],
             "width": "3/4", "depth": "1/4", "for": f"p{n - 1}"}
        ]  # fmt: skip
    return made


def joint(n: int, parts: int, random: Random) -> dict[str, Any]:
    """A joint that no other is like."""
    made = {
        "id": f"j{n}", "through": f"p{n % parts}", "into": f"p{(n * 7 + 3) % parts}",
        "touches": SURFACES[n % 3], "enters": SURFACES[n // 3 % 3], "count": 1 + n % 9,
        "crosses": f"{20 + n}/13",
    }  # fmt: skip
    method = METHODS[n % len(METHODS)]
    if method:
        made["method"] = method
    if method in ("screw", "nail"):
        made["fastener"] = {"gauge": 4 + n % 10, "length": f"{8 + n}/{11 + n % 40}"}
    return made


def run(n: int, pieces: int, parts: int) -> dict[str, Any]:
    """A sum over many parts that does not come out."""
    along = ("length", "width", "thickness")
    return {
        "id": f"r{n}",
        "pieces": [
            {"part": f"p{(n + k) % parts}", "along": along[k % 3], "count": 1 + k % 4,
             "lean": (n + k) % 50}
            for k in range(pieces)
        ],
        "equals": f"{1000 + n}/7",
        "gives": [f"p{(n + k) % parts}" for k in range(min(pieces, 20))],
    }  # fmt: skip


def build(parts: int, joints: int, runs: int, pieces: int, **more: Any) -> dict[str, Any]:
    """So many of each."""
    random = Random(parts + joints + runs)
    return {
        "name": "Much", "wood": "spf", "shop": {"tools": TOOLS},
        "parts": [part(n, random) for n in range(parts)],
        "joints": [joint(n, parts, random) for n in range(joints)],
        "runs": [run(n, pieces, parts) for n in range(runs)],
    } | more  # fmt: skip


def boards(parts: int, quantity: int, lengths: int, slant: int = 0) -> dict[str, Any]:
    """Many lengths of few stocks, and boards of many lengths for sale."""
    cut = [
        {"id": f"p{n}", "stock": STOCKS[n % 3], "length": f"{97 + 7 * n % 900}/10",
         "quantity": quantity}
        | ({"ends": [{"miter": 10 + n % 40}, {"miter": 10 + n * 3 % 40}]} if slant else {})
        for n in range(parts)
    ]  # fmt: skip
    prices = [
        {"stock": stock, "length": str(96 + 3 * n), "price": f"{5 + n * 0.37:.2f}"}
        for stock in STOCKS[:3] for n in range(lengths)
    ]  # fmt: skip
    return {
        "name": "Boards", "wood": "spf", "parts": cut,
        "buying": {"price_list": {"currency": "USD", "prices": prices}},
    }  # fmt: skip


def panels(parts: int, quantity: int) -> dict[str, Any]:
    """Many panels of few sheets."""
    cut = [
        {"id": f"p{n}", "stock": SHEETS[n % 2], "length": f"{100 + 7 * n % 300}/10",
         "width": f"{60 + 11 * n % 200}/10", "quantity": quantity, "grain": "any"}
        for n in range(parts)
    ]  # fmt: skip
    prices = [
        {"stock": stock, "length": length, "width": "48", "price": price}
        for stock in SHEETS[:2] for length, price in (("96", "60"), ("48", "33.10"))
    ]  # fmt: skip
    return {
        "name": "Panels", "parts": cut,
        "buying": {"price_list": {"currency": "USD", "prices": prices}},
    }  # fmt: skip


def offcuts() -> dict[str, Any]:
    """Many pieces on hand, each with many bad places."""
    whole = boards(100, 3, 3)
    whole["buying"]["offcuts"] = [
        {"stock": STOCKS[n % 3], "length": str(30 + n),
         "defects": [{"from": f"{4 * k + 1}/2", "to": f"{4 * k + 2}/2"} for k in range(10)]}
        for n in range(300)
    ]  # fmt: skip
    return whole


def cut_up() -> dict[str, Any]:
    """Parts that are nothing but cutouts."""
    whole = build(50, 0, 0, 0)
    for n, one in enumerate(whole["parts"]):
        one |= {"stock": "1x6", "length": "400"}
        one["cutouts"] = [
            {"kind": "slot", "on": "face", "at": [str(k * 2 + n % 2) for k in range(100)],
             "width": "1/2", "depth": "1/4", "for": f"p{(n + c) % 50}"}
            for c in range(4)
        ]  # fmt: skip
    return whole


def worked(steps: int) -> dict[str, Any]:
    """Many steps over every part and joint."""
    whole = build(60, 60, 0, 0)
    every = [one["id"] for one in whole["parts"]]
    joints = [one["id"] for one in whole["joints"]]
    kinds = ("glue", "assemble", "sand", "finish", "stain", "wait", "dry-fit")
    whole["steps"] = [
        {"do": kinds[n % len(kinds)], "parts": every, "joints": joints, "people": 1 + n % 3}
        for n in range(steps)
    ]
    return whole


def loaded(loads: int) -> dict[str, Any]:
    """Many loads with many points and supports."""
    whole = build(loads, 0, 0, 0)
    whole["loads"] = [
        {"part": f"p{n}", "points": [{"at": f"{k}/9", "carries": "3 lb"} for k in range(50)],
         "spread": "points", "held": "several", "supports": [f"{k}/5" for k in range(50)],
         "stiffened_by": [{"part": f"p{(n + k) % loads}", "joined": "glue"} for k in range(10)]}
        for n in range(loads)
    ]  # fmt: skip
    return whole


def resized(runs: int, pieces: int) -> dict[str, Any]:
    """Runs that hang together, all in a new size."""
    whole = build(200, 0, 0, 0)
    for one in whole["parts"]:
        one.pop("cutouts", None)
    whole["runs"] = [
        {"id": f"r{n}", "equals": str(20 + n),
         "pieces": [{"part": f"p{n + k}", "along": "length"} for k in range(pieces)],
         "gives": [f"p{n}"]}
        for n in range(runs)
    ]  # fmt: skip
    return {"build": whole, "to": {f"r{n}": str(21 + n * 2) for n in range(runs)}}


def adversaries(scale: float = 1.0) -> list[Adversary]:
    """Every one, in full or on a smaller scale."""

    def n(count: int) -> int:
        return max(1, int(count * scale))

    seconds = f"deadline_s={30 * scale:g}"
    every: tuple[tuple[str, str, Callable[[], Any]], ...] = (
        ("parts and joints", "/v1/check", lambda: build(n(500), n(500), 0, 0)),
        ("runs", "/v1/check", lambda: build(n(300), 0, n(200), n(25))),
        ("one long run", "/v1/check", lambda: build(n(500), 0, n(15), n(200))),
        ("everything", "/v1/check?mended=true", lambda: build(n(300), n(300), n(60), n(20))),
        ("cutouts", "/v1/check?mended=true", cut_up),
        ("steps", "/v1/check", lambda: worked(n(200))),
        ("loads", "/v1/check", lambda: loaded(n(60))),
        ("joints to fasten", "/v1/fasteners", lambda: build(n(500), n(500), 0, 0)),
        ("design values", "/v1/fasteners?design_values=true", lambda: build(n(500), n(600), 0, 0)),
        ("estimate", "/v1/estimate", lambda: boards(n(400), 9, n(20)) | {"steps": [{"do": "cut"}]}),
        ("estimate of steps", "/v1/estimate?bought=none", lambda: worked(n(200))),
        ("chained runs", "/v1/resize", lambda: resized(n(150), n(5))),
        ("long chains", "/v1/resize", lambda: resized(n(100), n(60))),
        ("boards", f"/v1/cut-plan?{seconds}", lambda: boards(n(500), 20, n(30))),
        ("slanted boards", f"/v1/cut-plan?{seconds}", lambda: boards(n(200), 9, n(9), 1)),
        ("compared", f"/v1/cut-plan?compare=true&{seconds}", lambda: boards(n(200), 9, n(30), 1)),
        ("panels", f"/v1/cut-plan?{seconds}", lambda: panels(n(200), 9)),
        ("offcuts", f"/v1/cut-plan?{seconds}", offcuts),
    )
    return [Adversary(name, path, make()) for name, path, make in every]
