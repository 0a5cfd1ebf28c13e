"""The shapes of what is answered about glue, clamps, finish and holes for screws."""

from service.api.described.carried import FINDINGS_ABOUT, LENGTH, LENGTHS, answer
from service.api.described.estimated import HOURS
from service.api.described.fastened import DISTANCE
from service.api.described.words import (
    NUMBER,
    TEXT,
    WHOLE,
    YES_NO,
    by_name,
    from_to,
    or_null,
    record,
    several,
    shape,
    told,
)

_RANGE = or_null(shape("LimitRange", record(
    "From and to; null where the tables say nothing.",
    low=NUMBER, high=NUMBER, from_label=told(YES_NO, "Whether the label said so."),
)))  # fmt: skip
GLUE_UP = answer(
    "GlueUpAnswer",
    "How many joints go together before the glue sets.",
    glue=TEXT,
    name=TEXT,
    working_time_min=_RANGE,
    drying_time_min=_RANGE,
    clamp_time_min=_RANGE,
    stressed_after_min=_RANGE,
    full_cure_min=_RANGE,
    coldest_f=_RANGE,
    water_classes=several(TEXT),
    end_grain=or_null(TEXT),
    glue_up=or_null(record(
        "The joints against the clock.",
        joints=WHOLE, people=WHOLE, minutes=NUMBER, fits=or_null(YES_NO),
        most_at_once=or_null(WHOLE), groups=or_null(several(WHOLE)),
    )),
    findings=FINDINGS_ABOUT,
    label=TEXT,
)  # fmt: skip
CLAMPS = answer(
    "ClampsAnswer",
    "Clamps along a glued edge, and how hard.",
    clamps=WHOLE,
    apart=LENGTHS,
    from_ends=LENGTHS,
    pressure_psi=from_to(NUMBER),
    glued_area_in2=NUMBER,
    force_lb=from_to(WHOLE),
    force_each_lb=from_to(WHOLE),
    also_said=told(TEXT, "What the other school says."),
    findings=FINDINGS_ABOUT,
)
_AMOUNT = record(
    "An amount in three units.", qt=from_to(NUMBER), fl_oz=from_to(NUMBER), L=from_to(NUMBER)
)
COVERAGE = answer(
    "CoverageAnswer",
    "How much finish a surface takes, and how long its coats take.",
    finish=or_null(TEXT),
    area=record("Of all faces.", ft2=NUMBER, m2=NUMBER),
    coats=from_to(WHOLE),
    amount=or_null(_AMOUNT),
    why_not=or_null(TEXT),
    hours=by_name(or_null(HOURS), "recoat, handle and cure, where a finish is named."),
    label=TEXT,
    findings=FINDINGS_ABOUT,
)
_DRILL = shape("DrillSize", record(
    "A diameter, and the drill nearest to it.",
    in_=NUMBER, mm=NUMBER, tape=TEXT, off_by=TEXT, drill=TEXT,
))  # fmt: skip
_HOLE = or_null(shape("DrillRange", record(
    "Holes from and to.", low=_DRILL, usual=_DRILL, high=_DRILL
)))  # fmt: skip
PILOT_HOLES = answer(
    "PilotHolesAnswer",
    "What to drill for a screw, and how far to stay from end and edge.",
    screw=record("The screw.", key=TEXT, name=TEXT, gauge=or_null(TEXT), diameter=LENGTH),
    wood=or_null(TEXT),
    spot=TEXT,
    need=TEXT,
    why=TEXT,
    pilot=_HOLE,
    clearance_hole=_HOLE,
    countersink=_HOLE,
    pilot_depth=or_null(record(
        "Share of the thread's length.", of_thread_low=NUMBER, of_thread_high=NUMBER
    )),
    end_distance=DISTANCE,
    edge_distance=DISTANCE,
    findings=FINDINGS_ABOUT,
)  # fmt: skip
