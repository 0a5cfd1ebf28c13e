"""The shapes of what is answered about a whole build: the check, and the resize."""

from service.api.described.carried import (
    FINDINGS,
    LENGTH,
    LENGTH_OR_NULL,
    LIMITS,
    NOT_JUDGED,
    VERDICT,
    answer,
)
from service.api.described.words import (
    ANYTHING,
    NUMBER,
    PLACE,
    TEXT,
    WHOLE,
    by_name,
    from_to,
    one_of,
    or_null,
    record,
    several,
    shape,
    told,
)

BUILD = {"$ref": f"{PLACE}Build"}

_CUT = shape("CutPart", record(
    "A part as the saw leaves it.",
    blank_length=LENGTH,
    blank_width=LENGTH,
    center_length=LENGTH,
    lengths=by_name(LENGTH, "Its length by every way to measure it; empty where both ends are "
                            "square."),
    volume_in3=NUMBER,
    surface_in2=NUMBER,
))  # fmt: skip
_PART = shape("ResolvedPart", record(
    "A part with the sizes that the tables and geometry give it.",
    at=TEXT,
    id=TEXT,
    quantity=WHOLE,
    stock=told(or_null(TEXT), "Key of its stock; null where it is not known or stated by size."),
    form=or_null(TEXT),
    thickness=or_null(LIMITS),
    width=or_null(LIMITS),
    length=LENGTH_OR_NULL,
    wood=or_null(TEXT),
    density_lb_ft3=or_null(from_to(NUMBER)),
    rests_on=several(TEXT),
    cut=or_null(_CUT),
))  # fmt: skip

CHECK = answer(
    "CheckAnswer",
    "What was found in a build, worst first, and what was not judged.",
    {"mended": told(BUILD, "With mended=true: the build with every exact mend applied.")},
    verdict=VERDICT,
    findings=FINDINGS,
    not_judged=NOT_JUDGED,
    parts=several(_PART),
)

_CHANGED = shape("ChangedValue", record(
    "One value that the new size changes.",
    at=TEXT,
    was=told(ANYTHING, "A length with its tape reading, or the value as it stood."),
    is_=told(ANYTHING, "A length with its tape reading, or the value as it is now; null: gone."),
    why=TEXT,
))  # fmt: skip
_TURN = shape("CutInTurn", record(
    "When a part is cut.", part=TEXT, fit=one_of("to-list", "to-fit"), why=TEXT
))  # fmt: skip

TURNS = several(_TURN)
RESIZE = answer(
    "ResizeAnswer",
    "The build in another size: what changes, what is kept, and what the new size brings.",
    build=BUILD,
    changed=several(_CHANGED),
    kept=several(record("What stays as it was.", at=TEXT, why=TEXT)),
    order=TURNS,
    verdict=VERDICT,
    findings=FINDINGS,
    not_judged=NOT_JUDGED,
)
