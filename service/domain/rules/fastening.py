"""Rules about what holds a joint: length, thickness, grain, edges, weather, tools.

What is wrong is found by the same functions that propose fastenings (`flaws`); here it gets its
words, and its mend.
"""

from collections.abc import Iterator

from service.domain.fastening.joints import JudgedJoint
from service.domain.fastening.refastening import mend_for
from service.domain.fastening.surroundings import said
from service.domain.fastening.tooling import wanting, words
from service.domain.findings import Mend, Spot, rule
from service.domain.resolving import ResolvedBuild


def spots(build: ResolvedBuild, code: str, otherwise: str) -> Iterator[Spot]:
    """Every joint with that flaw; `otherwise` is the mend in words where no exact one is known."""
    for judged, flaw in build.flawed.get(code, ()):
        graver = flaw.severity != "note"
        mend = mend_for(judged, code) if graver and code not in IN_WORDS else None
        yield Spot(
            at=f"{judged.at}/{place(judged, flaw.field)}".rstrip("/"),
            detail=flaw.detail,
            numbers=flaw.numbers,
            mend=mend or Mend(otherwise),
            rests_on=flaw.rests_on,
            severity=flaw.severity,
            basis=flaw.basis,
        )


IN_WORDS = frozenset({"mismatch", "end-grain", "near-edge", "into-panel-edge", "corrodes"})


def place(judged: JudgedJoint, field: str) -> str:
    """The field as far as the document has it: its joint, where it is left out."""
    joint = judged.joint
    first = field.partition("/")[0]
    return field if getattr(joint, first, None) is not None else ""


@rule(
    "fastener.pokes-out",
    title="A fastener comes out of the far side, or nearly",
    severity="fault",
    numbers={
        "length": "length",
        "bite": "length",
        "clearance": "length",
        "keep": "length",
        "fails_at": "word",
    },
)
def pokes_out(build: ResolvedBuild) -> Iterator[Spot]:
    """The point must end inside the second part.

    What the fastener passes and how deep the second part is behind the surface that it enters
    decide, never a chart: thickness behind a face, width behind an edge, length behind an end. A
    pocket screw goes in at 15 degrees, and both parts count. An eighth of an inch to spare is
    practice; less is only warned of.
    """
    yield from spots(build, "pokes-out", "Take a shorter fastener, or pass more wood.")


@rule(
    "fastener.too-short",
    title="A fastener bites too little of the second part",
    severity="warn",
    basis="practice",
    numbers={"length": "length", "passed": "length", "bite": "length", "wanted": "length"},
)
def too_short(build: ResolvedBuild) -> Iterator[Spot]:
    """What a fastener holds grows with its length in the second part.

    About two thirds of what it passes is the least that builders use, an inch is enough in thick
    parts, and half where glue carries and the fastener only keeps the parts still. One that does
    not reach the second part at all is a fault.
    """
    yield from spots(
        build, "too-short", "Take a longer fastener, or go through the thinner part instead."
    )


@rule(
    "fastener.too-thick",
    title="A fastener is too thick for the wood that it stands in",
    severity="warn",
    basis="practice",
    numbers={"diameter": "length", "across": "length", "limit": "length"},
)
def too_thick(build: ResolvedBuild) -> Iterator[Spot]:
    """A screw or nail thicker than about a quarter of the wood across it splits it.

    In an edge that wood is the thickness of the board. A dowel takes half of the thickness at
    most: the walls beside it have to hold too.
    """
    yield from spots(build, "too-thick", "Take a thinner fastener, or glue and clamp.")


@rule(
    "fastener.breaks-out",
    title="A fastener driven aslant comes out of the side",
    severity="fault",
    numbers={
        "length": "length",
        "bite": "length",
        "clearance": "length",
        "keep": "length",
        "fails_at": "word",
    },
)
def breaks_out(build: ResolvedBuild) -> Iterator[Spot]:
    """A screw that does not run along a leaning part drifts toward its side as it goes in.

    Square to a seat, it leaves a leg that leans 12 degrees by a fifth of an inch for every inch
    that it bites. Drive it along the lean, or take a shorter one.
    """
    yield from spots(build, "breaks-out", "Drive it along the part, or take a shorter one.")


@rule(
    "fastener.pocket-length",
    title="A pocket screw bites too little",
    severity="warn",
    basis="practice",
    numbers={"length": "length", "passed": "length", "bite": "length", "wanted": "length"},
)
def pocket_length(build: ResolvedBuild) -> Iterator[Spot]:
    """A pocket screw starts most of a thickness before the joint, so much of it never holds.

    What is left must bite three eighths of an inch. The usual length for a thickness is practice;
    both parts decide.
    """
    yield from spots(build, "pocket-length", "Take a longer pocket screw, or another joint.")


@rule(
    "fastener.pocket-thread",
    title="A pocket screw has the wrong thread for the wood",
    severity="warn",
    basis="practice",
    numbers={"thread": "word", "wants": "word"},
)
def pocket_thread(build: ResolvedBuild) -> Iterator[Spot]:
    """Coarse threads hold in softwood, plywood and MDF; fine ones go into hardwood without
    splitting it.

    It is the part that the screw ends in that counts.
    """
    yield from spots(build, "pocket-thread", "Take the other thread.")


@rule(
    "fastener.pocket-thin",
    title="A part is too thin for any pocket",
    severity="fault",
    numbers={"thickness": "length", "least": "length"},
)
def pocket_thin(build: ResolvedBuild) -> Iterator[Spot]:
    """The common pocket is drilled 3/8 in wide: a part no thicker has no wood around it.

    Half-inch stock is the thinnest in use, by practice. Thin parts are glued and bradded, or
    screwed from the other side.
    """
    yield from spots(build, "pocket-thin", "Glue and brads, or a screw from the other side.")


@rule(
    "fastener.end-grain",
    title="A fastener enters end grain",
    severity="note",
    basis="standard",
    numbers={"method": "word"},
    sources=("nds-2018",),
)
def end_grain(build: ResolvedBuild) -> Iterator[Spot]:
    """Along the grain a thread or a nail cuts fibers instead of gripping between them.

    Connection design gives end grain no value for being pulled out. Builders use longer screws,
    dowels or a block behind the joint. Nails without glue, and pocket screws, are warned of.
    """
    yield from spots(
        build,
        "end-grain",
        "Take a longer screw, a dowel, or put a block of side grain behind the joint.",
    )


@rule(
    "fastener.near-edge",
    title="A fastener stands too near to an end or an edge",
    severity="warn",
    basis="practice",
    numbers={"distance": "length", "least": "length"},
)
def near_edge(build: ResolvedBuild) -> Iterator[Spot]:
    """Wood splits where a fastener stands near an end or an edge, sooner without a pilot.

    The commentary of the code advises more than builders keep with a pilot hole; only a distance
    under theirs is warned of.
    """
    yield from spots(build, "near-edge", "Move it in, drill a pilot, or take a thinner one.")


@rule(
    "fastener.no-pilot",
    title="A screw goes without a pilot where wood splits",
    severity="note",
    basis="practice",
    numbers={"into": "word"},
)
def no_pilot(build: ResolvedBuild) -> Iterator[Spot]:
    """Dense wood, edges and ends split around a screw that has no pilot hole.

    Softwood needs none away from its ends. `/v1/pilot-holes` says which drill.
    """
    yield from spots(build, "no-pilot", "Drill a pilot hole, and say `pilot: true`.")


@rule(
    "fastener.into-panel-edge",
    title="A fastener goes into the edge of a panel",
    severity="warn",
    basis="practice",
    numbers={"thickness": "length"},
)
def into_panel_edge(build: ResolvedBuild) -> Iterator[Spot]:
    """The edge of a panel is made of layers: a screw parts them and holds little.

    With glue, and a pilot in MDF and particleboard, builders do it every day. Without, use
    cleats, dowels, or pockets in the other part.
    """
    yield from spots(build, "into-panel-edge", "Glue it, drill a pilot, or fasten through a cleat.")


@rule(
    "fastener.corrodes",
    title="A fastener rusts where the piece will be",
    severity="warn",
    basis="practice",
    numbers={"coating": "word", "where": "word"},
)
def corrodes(build: ResolvedBuild) -> Iterator[Spot]:
    """Plain steel rusts in the damp; zinc does outdoors and in treated wood.

    Use coated, hot-dip galvanized or stainless fasteners there.
    """
    yield from spots(
        build, "corrodes", "Take exterior-coated, hot-dip galvanized or stainless fasteners."
    )


@rule(
    "fastener.no-tool",
    title="The shop lacks a tool for this joint",
    severity="note",
    basis="practice",
    numbers={"method": "word", "lacks": "words"},
)
def no_tool(build: ResolvedBuild) -> Iterator[Spot]:
    """Another way to fasten the joint may do with the tools at hand.

    Only tools that the build names count, but for a hammer and a screwdriver. Without a list of
    tools nothing is said.
    """
    if build.build.shop.tools is None:
        return
    for judged in build.judged_joints:
        method = judged.joint.method
        lacks = wanting(method, judged.want.tools) if method else None
        if not lacks:
            continue
        tool = words(lacks)
        named, a_tool = ("are", tool) if tool.endswith("s") else ("is", f"a {tool}")  # clamps
        yield Spot(
            at=f"{judged.at}/method",
            detail=f"{judged.joint.id} takes {said(method or '')}, and no {tool} {named} named.",
            numbers={"method": method or "", "lacks": tuple(sorted(lacks))},
            mend=mend_for(judged, "no-tool") or Mend(f"Borrow {a_tool}, or fasten it another way."),
        )


@rule(
    "fastener.mismatch",
    title="The method contradicts the joint",
    severity="warn",
    numbers={"method": "word"},
)
def mismatch(build: ResolvedBuild) -> Iterator[Spot]:
    """A pocket comes out of an edge or an end, a straight screw goes through a face or an edge.

    A screw that would have to pass the whole length of a part, a pocket screw between two faces, a
    glue joint with a fastener: one of the two statements is a slip.
    """
    yield from spots(build, "mismatch", "Change the method, or say how the parts touch.")
