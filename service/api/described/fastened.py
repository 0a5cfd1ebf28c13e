"""The shapes of what is answered about joints: ways to fasten them, and what is ruled out."""

from service.api.described.carried import (
    FINDINGS,
    FINDINGS_ABOUT,
    LENGTH,
    LENGTH_OR_NULL,
    NOT_JUDGED,
    VERDICT,
    answer,
)
from service.api.described.words import (
    ANYTHING,
    NUMBER,
    TEXT,
    WHOLE,
    YES_NO,
    Json,
    by_name,
    from_to,
    or_null,
    record,
    several,
    shape,
    told,
)

HOLE = shape("HoleRange", record(
    "Diameters to drill.", low=LENGTH, usual=LENGTH, high=LENGTH
))  # fmt: skip
DISTANCE = shape("Distance", record("How far to stay away.", least=LENGTH, advised=LENGTH))

_COMPARED = record(
    "Strength as a ratio to the strongest option, 1 at most.",
    {"design_value_each": record(
        "Design values of one fastener, the factors on them, and what they are not.",
        sideways_lb=or_null(WHOLE),
        pulled_out_lb=or_null(WHOLE),
        reference=record(
            "Before any factor.", sideways_lb=or_null(WHOLE), pulled_out_lb=or_null(WHOLE)
        ),
        factors=several(record(
            "A factor of the code.",
            name=told(TEXT, "CD for the load, CM for wet wood."),
            what=TEXT,
            of=told(TEXT, "Which value it multiplies: both, sideways or pulled out."),
            value=NUMBER,
            row=told(TEXT, "Its row, table and key."),
        )),
        assumed=several(TEXT),
        caution=TEXT,
    )},
    sideways=or_null(NUMBER), pulled_out=or_null(NUMBER), why_not=several(TEXT),
)  # fmt: skip
OPTION = shape("Fastening", record(
    "One complete way to fasten a joint. What does not belong to its method is null.",
    rank=WHOLE,
    method=TEXT,
    type=TEXT,
    gauge=or_null(WHOLE),
    diameter=LENGTH_OR_NULL,
    length=LENGTH_OR_NULL,
    slope=told(or_null(NUMBER), "Degrees off square."),
    count=or_null(WHOLE),
    spacing=LENGTH_OR_NULL,
    along=LENGTH_OR_NULL,
    end_distance=or_null(DISTANCE),
    edge_distance=or_null(DISTANCE),
    pilot=or_null(HOLE),
    pilot_needed=or_null(TEXT),
    clearance_hole=or_null(HOLE),
    countersink=or_null(HOLE),
    thread=or_null(TEXT),
    coating=or_null(TEXT),
    bite=LENGTH_OR_NULL,
    tip_clearance=LENGTH_OR_NULL,
    glue=or_null(TEXT),
    clamp_time=or_null(from_to(TEXT)),
    tools=several(TEXT),
    compare_strength=_COMPARED,
    usual=several(LENGTH),
    why=TEXT,
    in_a_build=told(by_name(ANYTHING), "Fields of a joint, ready to put into a build."),
    rests_on=several(TEXT),
))  # fmt: skip
_LENGTH = shape("LengthJudged", record(
    "One of the lengths to choose among.",
    length=LENGTH, bite=LENGTH_OR_NULL, tip_clearance=LENGTH_OR_NULL, verdict=TEXT, why=TEXT,
))  # fmt: skip
_PARTICULAR = shape("Particular", record(
    "One thing to know for making a joint; with a size, or the least and the most.",
    what=told(TEXT, "What it is about: hole, length, depth and the like. More may come."),
    least=LENGTH_OR_NULL,
    most=LENGTH_OR_NULL,
    words=TEXT,
    from_memory=told(YES_NO, "Whether a value in it was recalled, and not read in print."),
    rests_on=several(TEXT),
))  # fmt: skip
SUGGESTED: dict[str, Json] = {
    "options": told(several(OPTION), "Best first."),
    "lengths": several(_LENGTH),
    "ruled_out": several(record("A method that does not do here.", method=TEXT, why=TEXT)),
    "substitutes": several(record(
        "What to use instead of the best way, without a tool.",
        without=TEXT, option=or_null(OPTION),
    )),
    "particulars": told(several(_PARTICULAR), "For bolts, hinges, clips, laps and walls."),
    "cautions": several(TEXT),
}  # fmt: skip

FASTEN_JOINT = answer(
    "JointAnswer",
    "One joint: ways to fasten it, best first, or whether the one stated is right.",
    method=or_null(TEXT),
    verdict=VERDICT,
    findings=FINDINGS_ABOUT,
    not_judged=NOT_JUDGED,
    **SUGGESTED,
)
FASTEN_BUILD = answer(
    "FastenersAnswer",
    "Every joint of a build: what it has, judged, and ways to fasten it.",
    joints=several(shape("JointFastened", record(
        "One joint of the build.",
        joint=TEXT, at=TEXT, method=or_null(TEXT), verdict=VERDICT, findings=FINDINGS, **SUGGESTED,
    ))),
    not_judged=NOT_JUDGED,
)  # fmt: skip
