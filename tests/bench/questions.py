"""What is measured: a name, the request, and the goal as a ratio to the bare answer."""

import json
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from tests.checking.sound import sound_build

TOTE = json.loads((Path(__file__).parents[1] / "api" / "tote.json").read_text())


@dataclass(frozen=True)
class Question:
    """A request and the most it should cost (None: only printed).

    `revalidates` sends the ETag of a first answer.
    ``{n}`` in the path becomes four digits that change from request to request, and `fresh` makes
    a body of such a number, so that nothing remembered answers.
    """

    name: str
    path: str
    goal: float | None
    body: Any = None
    revalidates: bool = False
    times: int = 300
    fresh: Callable[[int], Any] | None = None

    def asked(self, n: int) -> str:
        """The path of one request."""
        return self.path.replace("{n}", f"{n % 10_000:04}")


def forty_parts() -> dict[str, Any]:
    """A build of forty parts with the tote's shop, joints and runs, each set of parts renamed."""
    parts, joints, runs = [], [], []
    for copy in range(10):
        named = {part["id"]: f"{part['id']}-{copy}" for part in TOTE["parts"]}
        parts += [{**part, "id": named[part["id"]]} for part in TOTE["parts"]]
        for joint in TOTE["joints"]:
            joints.append({**joint, "id": f"{joint['id']}-{copy}",
                           "through": named[joint["through"]],
                           "into": named[joint["into"]]})  # fmt: skip
        runs += [renamed(run, named, copy) for run in TOTE["runs"]]
    rest = {key: TOTE[key] for key in ("units", "region", "wood", "shop")}
    return {"name": "Ten totes", **rest, "parts": parts[:40], "joints": joints, "runs": runs}


def renamed(run: dict[str, Any], named: dict[str, str], copy: int) -> dict[str, Any]:
    text = json.dumps({**run, "id": f"{run['id']}-{copy}"})
    for old, new in named.items():
        text = text.replace(f'"part": "{old}"', f'"part": "{new}"')
    changed: dict[str, Any] = json.loads(text)
    changed["gives"] = [named[id] for id in run.get("gives", [])]
    return changed


def other_totes(n: int) -> dict[str, Any]:
    """The forty parts, each tote longer than the others and than those of any other number."""
    build = forty_parts()
    for index, part in enumerate(build["parts"]):
        more = (n * 10 + index // 4) % 40_000 / 10_000
        size = {"bottom": 20, "handle": 20, "side": 21.5}.get(part["id"].partition("-")[0])
        if size is not None:
            part["length"] = f"{size + more:.4f}"
    return build


STOCKS = ("1x2", "1x3", "1x4", "1x6", "1x8", "2x2", "2x4")
ONE_JOINT = "through=1x4&into=1x4&enters=edge&fastener=8x1-5/8in&tools=drill,clamps"


def forty_joints() -> dict[str, Any]:
    """Twenty parts of seven stocks and forty joints of four kinds."""
    kinds = (
        {"touches": "face", "enters": "edge", "method": "screw", "count": 2, "pilot": True,
         "fastener": {"gauge": 8, "length": "1 5/8"}, "glue": "pva-interior"},
        {"touches": "end", "enters": "face", "method": "pocket-screw", "count": 2,
         "fastener": {"length": "1 1/4", "thread": "coarse"}, "glue": "pva-interior"},
        {"touches": "face", "enters": "face", "method": "screw", "pilot": True,
         "fastener": {"gauge": 8, "length": "1 1/4"}},
        {"touches": "face", "enters": "face"},
    )  # fmt: skip
    parts = [
        {"id": f"part {n}", "stock": STOCKS[n % len(STOCKS)], "length": str(12 + n)}
        for n in range(20)
    ]
    joints = [
        {"id": f"joint {n}", "through": f"part {n % 20}", "into": f"part {(n * 7 + 3) % 20}",
         **kinds[n % len(kinds)]}
        for n in range(40)
    ]  # fmt: skip
    return {
        "name": "Forty joints", "wood": "spf", "parts": parts, "joints": joints,
        "shop": {"tools": ["drill", "pocket-jig", "clamps"]},
    }  # fmt: skip


def other_joints(n: int) -> dict[str, Any]:
    """The forty joints with parts of another length and thickness."""
    build = forty_joints()
    thicker = f"{0.76 + n % 10_000 / 1_000_000:.6f}"
    parts = [{**part, "stock": {"thickness": thicker, "width": "3 1/2"}} for part in build["parts"]]
    return {**build, "parts": parts}


def twenty_parts(n: int = 0) -> dict[str, Any]:
    """A build of twenty parts, with its boards to buy, another name each time."""
    build = forty_parts()
    parts = build["parts"][:20]
    named = {part["id"] for part in parts}
    joints = [j for j in build["joints"] if {j["through"], j["into"]} <= named]
    runs = [r for r in build["runs"] if {p["part"] for p in r["pieces"]} <= named]
    return {**build, "name": f"Five totes, {n}", "parts": parts, "joints": joints, "runs": runs}


ONE_BY_THREE = "stock=1x3"
SHAPES = (
    "leaning?height=16&lean=12",
    "splayed-legs?height=18&lean_front=10&lean_side=8&top_outside=12x10in",
    "mitered-frame?contents=16x20in&rabbet=3/8&clearance=1/8",
    "butted-frame?outside=24x36in",
    "sloped-box?sides=4&height=2&slope=15&rim=14x10in",
    "polygon?sides=6&across_flats=20",
    "brace?run=10&rise=8",
    "crossed-legs?width=20&height=18",
    "prop?lean=25&up=9&foot=8",
    "tapered-leg?length=28&top=1.5&foot=1",
    "ends?length=20&miter=10,10",
)

FRESH_SHAPES = (
    "leaning?height=16.{n}&lean=12",
    "splayed-legs?height=18.{n}&lean_front=10&lean_side=8&top_outside=12x10in",
    "mitered-frame?contents=16.{n}x20in&rabbet=3/8&clearance=1/8",
    "butted-frame?outside=24.{n}x36in",
    "sloped-box?sides=4&height=2&slope=15&rim=14.{n}x10in",
    "polygon?sides=6&across_flats=20.{n}",
    "brace?run=10.{n}&rise=8",
    "crossed-legs?width=20.{n}&height=18",
    "prop?lean=25&up=9.{n}&foot=8",
    "tapered-leg?length=28.{n}&top=1.5&foot=1",
    "ends?length=20.{n}&miter=10,10",
)

# Questions of which every request has a value that was never asked.
FRESH = (
    Question("first: check of 40 parts", "/v1/check", 14, times=60, fresh=other_totes),
    Question("first: estimate, no cut plan", "/v1/estimate?bought=none", 14, times=60,
             fresh=other_totes),
    Question("first: board feet", "/v1/board-feet?stock=1x8&length=8.{n}ft", 4),
    Question("first: measure", "/v1/measure?value=527.{n}mm", 4),
    Question(
        "first: fasteners of one joint",
        "/v1/fasteners?through=0.7{n}x3.5in&into=1x4&enters=edge&fastener=8x1-5/8in"
        "&tools=drill,clamps",
        4,
    ),
    Question("first: fasteners of 40 joints", "/v1/fasteners", 60, forty_joints(), times=15,
             fresh=other_joints),
    *(
        Question(f"first: angles: {line.partition('?')[0]}", f"/v1/angles/{line}&stock=1x3", 4)
        for line in FRESH_SHAPES
    ),
    Question("first: spacing", "/v1/spacing?within=36.{n}&pieces=5&piece=1.5", 4),
    Question("first: sag", "/v1/sag?stock=1x8&span=36.{n}&load=8lb&wood=spf&stays=yes", 4),
    Question("first: movement", "/v1/movement?wood=spf&width=12.{n}&humidity=30,60", 4),
    Question("first: weight", "/v1/weight?stock=2x4&length=8.{n}ft&wood=spf&count=3", 4),
    Question("first: clamps", "/v1/clamps?length=36.{n}&thickness=3/4&wood=spf", 4),
)  # fmt: skip

QUESTIONS = (
    Question("table of 100 rows", "/v1/tables/lumber_sizes?limit=100", 1.5),
    Question("whole table, not modified", "/v1/tables/lumber_sizes", 1.4, revalidates=True),
    Question("check of 40 parts", "/v1/check", 14, body=forty_parts(), times=60),
    Question("check of a small build", "/v1/check", 14, body=sound_build(7), times=150),
    Question("sizes", "/v1/sizes/1x8", 4),
    Question("board feet", "/v1/board-feet?stock=1x8&length=8ft", 4),
    Question("measure", "/v1/measure?value=527mm", 4),
    Question("fasteners of one joint", f"/v1/fasteners?{ONE_JOINT}", 4),
    Question("fasteners of 40 joints", "/v1/fasteners", 60, body=forty_joints(), times=30),
    Question("pilot holes", "/v1/pilot-holes?gauge=8&wood=pine", 4),
    Question("glue-up", "/v1/glue-up?glue=pva-interior&joints=12&minutes_each=2", 4),
    Question("clamps", "/v1/clamps?length=36&thickness=3/4&wood=spf", 4),
    *(
        Question(f"angles: {line.partition('?')[0]}", f"/v1/angles/{line}&{ONE_BY_THREE}", 4)
        for line in SHAPES
    ),
    Question("spacing", "/v1/spacing?within=36&pieces=5&piece=1.5", 4),
    Question("sag", "/v1/sag?stock=1x8&span=36&load=8lb&wood=spf&stays=yes", 4),
    Question("sag with a lip", "/v1/sag?stock=1x10&load=18lb/ft&wood=red+oak&lip=1x2", 4),
    Question("movement", "/v1/movement?wood=spf&width=12&humidity=30,60", 4),
    Question("moisture", "/v1/moisture?humidity=30,60&temperature=70F", 4),
    Question("tip-over", "/v1/tip-over?height=40&depth=12&weight=60lb&kind=dresser", 4),
    Question(
        "hanging", "/v1/hanging?rail=36&studs=16&through=3/4&screw=3&load=40lb&depth=12&arm=10", 4
    ),
    Question("weight", "/v1/weight?stock=2x4&length=8ft&wood=spf&count=3", 4),
    Question("coverage", "/v1/coverage?finish=water-polyurethane&area=20ft2", 4),
    Question("estimate of 40 parts", "/v1/estimate", 60, body=forty_parts(), times=30),
    Question("estimate, no cut plan", "/v1/estimate?bought=none", 14, forty_parts(), times=60),
    Question("why", "/v1/why/run.tight", 4),
    Question(
        "handout of 20 parts, HTML", "/v1/handout?format=html", None, times=15, fresh=twenty_parts
    ),
    Question(
        "handout of 20 parts, PDF", "/v1/handout?format=pdf", None, times=8, fresh=twenty_parts
    ),
    *FRESH,
)
