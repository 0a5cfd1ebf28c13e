"""Single joints worked by hand, with the reasoning beside them.

Sizes as printed: a 1x board is 3/4 in thick, a 2x 1 1/2 in; 1x2 1 1/2 in wide, 1x3 2 1/2, 1x4 and
2x4 3 1/2, 1x8 7 1/4, 1x12 11 1/4 (PS 20). Sanded plywood 3/4 is 23/32 in give or take 1/64, 1/2
is 15/32, 1/4 is 1/4. sin 15 = 0.258819, cos 15 = 0.965926; sin 12 = 0.207912. The seat of a pocket
screw lies nine tenths of the thickness before the joint.
"""

from dataclasses import dataclass, field
from typing import Any

Json = dict[str, Any]


@dataclass(frozen=True)
class Worked:
    """A joint and what hand arithmetic gives.

    `bite` and `clear` are inches as fractions or decimals; `found` are the codes of faults (F) and
    warnings (W). `usual` says that the length is the one that people take by habit, and wrong.
    """

    why: str
    through: Json
    into: Json
    joint: Json
    bite: str
    clear: str
    found: tuple[str, ...] = ()
    usual: bool = False
    build: Json = field(default_factory=dict)


def stock(name: str, **more: Any) -> Json:
    return {"stock": name, **more}


def screw(length: str, gauge: int = 8, **more: Any) -> Json:
    fastener = {"gauge": gauge, "length": length}
    return {"method": "screw", "fastener": fastener, "pilot": True, "glue": "pva-interior", **more}


def pocket(length: str, enters: str = "face", **more: Any) -> Json:
    return {
        "method": "pocket-screw", "touches": "end", "enters": enters, "glue": "pva-interior",
        "fastener": {"length": length, "thread": "coarse"}, **more,
    }  # fmt: skip


def nail(method: str, diameter: str, length: str, **more: Any) -> Json:
    return {
        "method": method, "fastener": {"diameter": diameter, "length": length},
        "glue": "pva-interior", **more,
    }  # fmt: skip


ONE, TWO = stock("1x4"), stock("2x4")
STRIP, WIDE = stock("1x2"), stock("1x12")
PLY, HALF_PLY, THIN_PLY = (stock(f"plywood {size}", width="12") for size in ("3/4", "1/2", "1/4"))
THIN_MDF = stock("mdf 1/4", width="12")
HALF = {"stock": {"thickness": "1/2", "width": "3 1/2"}}
BAR = {"stock": {"thickness": "1 1/2", "width": "1 1/2"}}
OUT, SHORT = "F fastener.pokes-out", "F fastener.too-short"
NEARLY, WEAK = "W fastener.pokes-out", "W fastener.too-short"


def leaning(part: Json, degrees: int) -> Json:
    end = {"bevel": degrees}
    return {**part, "ends": [end, end], "ends_lean": "same", "measured": "center"}


WORKED = (
    # Face to face: what is passed, and the thickness behind the face.
    Worked("1 1/4 - 3/4 = 1/2; 3/4 - 1/2 = 1/4", ONE, ONE, screw("1 1/4"), "1/2", "1/4"),
    Worked("the deck screw for thin boards: 1 5/8 - 3/4 = 7/8 in 3/4, out by 1/8",
           ONE, ONE, screw("1 5/8"), "7/8", "-1/8", (OUT,), usual=True),
    Worked("twice the part, as the rule of thumb goes: the point just at the far face",
           ONE, ONE, screw("1 1/2"), "3/4", "0", (NEARLY,), usual=True),
    Worked("1 - 3/4 = 1/4, and two thirds of 3/4 are wanted, 1/2", ONE, ONE, screw("1"),
           "1/4", "1/2", (WEAK,)),
    Worked("2 1/2 - 1 1/2 = 1, an inch is enough; 1 1/2 - 1 = 1/2",
           TWO, TWO, screw("2 1/2"), "1", "1/2"),
    Worked("the usual 3 in for two-by: 3 - 1 1/2 = 1 1/2, the point at the far face",
           TWO, TWO, screw("3"), "1 1/2", "0", (NEARLY,), usual=True),
    Worked("3 1/2 - 1 1/2 = 2 in 1 1/2: out by 1/2", TWO, TWO, screw("3 1/2"), "2", "-1/2", (OUT,)),
    Worked("2 - 1 1/2 = 1/2, and an inch is wanted", TWO, TWO, screw("2"), "1/2", "1", (WEAK,)),
    Worked("1x into 2x: 2 1/2 - 3/4 = 1 3/4 in 1 1/2, out by 1/4; the usual deck screw",
           ONE, TWO, screw("2 1/2"), "1 3/4", "-1/4", (OUT,), usual=True),
    Worked("1x into 2x: 2 - 3/4 = 1 1/4; 1 1/2 - 1 1/4 = 1/4",
           ONE, TWO, screw("2"), "1 1/4", "1/4"),
    Worked("a narrow rail over a wider part: width does not matter behind a face",
           STRIP, WIDE, screw("1 1/4"), "1/2", "1/4"),
    Worked("through the edge, 3 1/2 in of width: 4 - 3 1/2 = 1/2 of the inch wanted",
           TWO, TWO, screw("4", 10, touches="edge"), "1/2", "1", (WEAK,)),
    Worked("through the edge: 4 1/2 - 3 1/2 = 1; 1 1/2 - 1 = 1/2",
           TWO, TWO, screw("4 1/2", 10, touches="edge"), "1", "1/2"),
    # Edges and ends: the depth is the width, or the length.
    Worked("into the edge, the 3 1/2 in width lies behind: 1 5/8 - 3/4 = 7/8, 2 5/8 left",
           ONE, ONE, screw("1 5/8", enters="edge"), "7/8", "2 5/8"),
    Worked("a long screw deep in an edge: 3 - 3/4 = 2 1/4 of 11 1/4",
           ONE, WIDE, screw("3", enters="edge"), "2 1/4", "9"),
    Worked("into the edge of a 1x2: 2 - 3/4 = 1 1/4 of 1 1/2", ONE, STRIP,
           screw("2", enters="edge"), "1 1/4", "1/4"),
    Worked("into the edge of a 1x2: 2 1/4 - 3/4 = 1 1/2, at the far edge", ONE, STRIP,
           screw("2 1/4", enters="edge"), "1 1/2", "0", (NEARLY,)),
    Worked("into the edge of a 1x2: 2 1/2 - 3/4 = 1 3/4, out by 1/4", ONE, STRIP,
           screw("2 1/2", enters="edge"), "1 3/4", "-1/4", (OUT,), usual=True),
    Worked("into end grain the length lies behind: 2 1/2 - 3/4 = 1 3/4 of 20", ONE, ONE,
           screw("2 1/2", enters="end"), "1 3/4", "18 1/4"),
    Worked("No. 10 is 0.190 in, a quarter of 3/4 in is 0.1875", ONE, ONE,
           screw("2", 10, enters="edge"), "1 1/4", "2 1/4", ("W fastener.too-thick",)),
    Worked("No. 6 is 0.138 in, a quarter of 1/2 in is 0.125", THIN_MDF, HALF,
           screw("1", 6, enters="edge"), "3/4", "2 3/4", ("W fastener.too-thick",)),
    # Panels have tolerances: the least size of each counts for coming out.
    Worked("plywood over a 1x2: 1 1/4 - 23/32 = 17/32; 3/4 - 17/32 = 7/32", PLY, STRIP,
           screw("1 1/4"), "17/32", "7/32"),
    Worked("into 15/32 plywood the usual screw for 3/4 in comes out: 1/2 - 15/32 = 1/32",
           ONE, HALF_PLY, screw("1 1/4"), "1/2", "-1/32", (OUT,), usual=True),
    Worked("1 - 3/4 = 1/4, all that 15/32 plywood allows with an eighth to spare: 7/32 left",
           ONE, HALF_PLY, screw("1"), "1/4", "7/32"),
    Worked("a 1/4 in back: 3/4 - 1/4 = 1/2 of 3/4", THIN_PLY, STRIP, screw("3/4", 6), "1/2", "1/4"),
    Worked("1 - 1/4 = 3/4: at the face as listed, out by 1/64 where the back is thin",
           THIN_PLY, STRIP, screw("1", 6), "3/4", "0", (NEARLY,), usual=True),
    Worked("panel across panel, glued and piloted: 2 - 23/32 = 1 9/32 of 12",
           PLY, PLY, screw("2", enters="edge"), "1 9/32", "10 23/32"),
    Worked("the same without glue: layers part", PLY, PLY, screw("2", enters="edge", glue="none"),
           "1 9/32", "10 23/32", ("W fastener.into-panel-edge",)),
    # Heads that are sunk, layers, housings.
    Worked("sunk 1/8: 1/8 + 1/2 = 5/8 of 3/4", ONE, ONE, screw("1 1/4", sunk="1/8"), "5/8", "1/8"),
    Worked("sunk 3/16 under a plug: 11/16 of 3/4, 1/16 left, by the usual length",
           ONE, ONE, screw("1 1/4", sunk="3/16"), "11/16", "1/16", (NEARLY,), usual=True),
    Worked("a 1/2 in layer between: 2 1/2 - 1/2 - 3/4 = 1 1/4 of 3 1/2", ONE, TWO,
           screw("2 1/2", enters="edge", layers=["1/2"]), "1 1/4", "2 1/4"),
    Worked("a 1/2 in layer between: the usual 1 1/4 ends just where the wood begins", ONE, TWO,
           screw("1 1/4", enters="edge", layers=["1/2"]), "0", "3 1/2", (SHORT,), usual=True),
    Worked("a dado leaves 1/2 of the side: 1 5/8 - 1/2 = 1 1/8 into the shelf's end",
           stock("1x4", cutouts=[{"kind": "dado", "on": "face", "at": ["10"], "width": "3/4",
                                  "depth": "1/4", "for": "second"}]),
           ONE, screw("1 5/8", enters="end"), "1 1/8", "18 7/8"),
    # Pocket screws: both parts count along the slant.
    Worked("1 1/4 - 0.675 = 0.575; 3/4 - 0.575 cos 15 = 0.1946", ONE, ONE, pocket("1 1/4"),
           "0.575", "0.194593"),
    Worked("into an edge it drifts: 3/8 - 0.575 sin 15 = 0.2262 to the back, before 2.94 ahead",
           ONE, ONE, pocket("1 1/4", "edge"), "0.575", "0.226179"),
    Worked("1 1/2 - 0.675 = 0.825; 3/4 - 0.825 cos 15 = -0.0469", ONE, ONE, pocket("1 1/2"),
           "0.825", "-0.046889", (OUT,)),
    Worked("the usual 1 1/4 into 15/32 plywood: 0.46875 - 0.5554 = -0.0867",
           ONE, HALF_PLY, pocket("1 1/4"), "0.575", "-0.086657", (OUT,), usual=True),
    Worked("the next shorter still bites: 1 - 0.675 = 0.325; 0.46875 - 0.3139 = 0.1548",
           ONE, HALF_PLY, pocket("1"), "0.325", "0.154824"),
    Worked("1 - 0.675 = 0.325 where 3/8 would fit", ONE, ONE, pocket("1"), "0.325", "0.436074",
           ("W fastener.pocket-length",)),
    Worked("two-by: 2 1/2 - 1.35 = 1.15; 1 1/2 - 1.1108 = 0.3892", TWO, TWO, pocket("2 1/2"),
           "1.15", "0.389185"),
    Worked("the usual 2 1/2 for two-by into a 1x: 3/4 - 1.1108 = -0.3608", TWO, ONE,
           pocket("2 1/2"), "1.15", "-0.360815", (OUT,), usual=True),
    Worked("2 - 1.35 = 0.65; 3/4 - 0.6279 = 0.1221", TWO, ONE, pocket("2"), "0.65", "0.122148"),
    Worked("half-inch parts: 1 - 0.45 = 0.55, 1/2 - 0.5313 = -0.0313: the usual inch comes out",
           HALF, HALF, pocket("1"), "0.55", "-0.031259", (OUT,), usual=True),
    Worked("half-inch parts: 3/4 - 0.45 = 0.3; 1/2 - 0.2898 = 0.2102", HALF, HALF, pocket("3/4"),
           "0.3", "0.210222"),
    Worked("a pocket 3/8 in wide in a part 1/4 in thick", THIN_MDF, ONE, pocket("1"),
           "0.775", "0.001407", ("F fastener.pocket-thin",)),
    Worked("plywood to plywood: 1 1/4 - 0.646875 = 0.603125; 0.71875 - 0.582574 = 0.136176",
           PLY, PLY, pocket("1 1/4"), "0.603125", "0.136176"),
    # Leaning parts: the fastener drifts by the sine of the angle between them.
    Worked("square to a seat into a leg that leans 12: 1 3/4 sin 12 = 0.3638 of 3/4",
           ONE, leaning(BAR, 12), screw("2 1/2", enters="end"), "1 3/4", "0.386154"),
    Worked("into a 3/4 in leg that leans 15: 1 3/4 sin 15 = 0.4529 of 3/8, by the usual length",
           ONE, leaning(ONE, 15), screw("2 1/2", enters="end"), "1 3/4", "-0.077933",
           ("F fastener.breaks-out",), usual=True),
    Worked("the same leg, 3/4 in of bite: 3/8 - 0.1941 = 0.1809", ONE, leaning(ONE, 15),
           screw("1 1/2", enters="end"), "3/4", "0.180886"),
    Worked("along the lean it does not drift: 2 1/2 - 3/4 / cos 15 = 1.7235 of 20 in",
           ONE, leaning(ONE, 15), screw("2 1/2", enters="end", slope=15), "1.723543", "18.335186"),
    Worked("15 degrees off square into an edge: 1.7235 sin 15 = 0.4461 of 3/8", ONE, ONE,
           screw("2 1/2", enters="edge", slope=15), "1.723543", "-0.071086",
           ("F fastener.breaks-out",)),
    # Nails, brads, dowels.
    Worked("6d finish: 2 - 3/4 = 1 1/4 of 3 1/2", ONE, ONE,
           nail("finish-nail", "0.0915", "2", enters="edge"), "1 1/4", "2 1/4"),
    Worked("8d, the usual nail: 2 1/2 - 3/4 = 1 3/4 in 1 1/2", ONE, TWO,
           nail("nail", "0.131", "2 1/2"), "1 3/4", "-1/4", (OUT,), usual=True),
    Worked("a brad through a 1/4 in back: 1 - 1/4 = 3/4 of 7 1/4", THIN_MDF, stock("1x8"),
           nail("brad", "0.0475", "1", enters="edge"), "3/4", "6 1/2"),
    Worked("a brad where glue holds: 1 1/4 - 3/4 = 1/2, half of 3/4 is enough", ONE, ONE,
           nail("brad", "0.0475", "1 1/4"), "1/2", "1/4"),
    Worked("a 2 in dowel, an inch in each: 1 1/2 - 1 = 1/2", BAR, BAR,
           nail("dowel", "3/8", "2", touches="end"), "1", "1/2"),
    Worked("a 2 in dowel into 3/4 in: out by 1/4", ONE, ONE,
           nail("dowel", "3/8", "2", touches="end"), "1", "-1/4", (OUT,), usual=True),
    Worked("a toe nail of 1 in at 30: it starts 1/3 up; 1 - 0.3333 / 0.8660 = 0.6151; "
           "0.8660 - 0.3333 = 0.5327 of 3/4", ONE, ONE,
           nail("finish-nail", "0.058", "1", touches="end", slope=30), "0.6151", "0.217308"),
)  # fmt: skip
