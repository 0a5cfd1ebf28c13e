"""The shapes of what is answered about a piece in use: sag, movement, tipping, hanging."""

from service.api.described.carried import (
    FINDINGS_ABOUT,
    LENGTH,
    LENGTH_OR_NULL,
    LENGTHS,
    NOT_JUDGED,
    WEIGHT,
    WEIGHT_OR_NULL,
    answer,
)
from service.api.described.words import (
    NUMBER,
    TEXT,
    WHOLE,
    YES_NO,
    from_to,
    one_of,
    or_null,
    record,
    several,
    shape,
    told,
)

MOISTURE = answer(
    "MoistureAnswer",
    "The moisture at which wood comes to rest.",
    humidity=several(NUMBER),
    where=or_null(TEXT),
    temperature=record("Of the air.", F=NUMBER, C=NUMBER),
    moisture_percent=several(NUMBER),
    findings=FINDINGS_ABOUT,
)
MOVEMENT = answer(
    "MovementAnswer",
    "Up to how far a width moves across the grain.",
    width=LENGTH,
    moisture=record("Percent.", from_=NUMBER, to=NUMBER),
    moves=record("Up to so far.", least=LENGTH, most=LENGTH),
    each_side=LENGTH,
    direction=one_of("wider", "narrower", "neither"),
    held=one_of("edge", "middle"),
    coefficients=record("Inches an inch and percent.", flat=NUMBER, quarter=NUMBER),
    let_it_move=several(TEXT),
    findings=FINDINGS_ABOUT,
)
_FINE = shape("FineLength", record("A length finer than a tape reads.", in_=NUMBER, mm=NUMBER))
_LIMIT = shape("SagLimitJudged", record(
    "A limit that people use, and how this plank stands to it.",
    name=TEXT, allows=_FINE, counts=TEXT, verdict=one_of("over", "under", "in between"), basis=TEXT,
))  # fmt: skip
SAG = answer(
    "SagAnswer",
    "How far a plank sags and how hard it is bent; with judged false only why it is not judged.",
    {
        "why": TEXT,
        "span": LENGTH,
        "held": TEXT,
        "laid": TEXT,
        "load": WEIGHT,
        "own_weight": WEIGHT,
        "section": record(
            "Of the plank.", width=_FINE, height=_FINE, boards=WHOLE, inertia_in4=NUMBER
        ),
        "stiffness": record("What it is reckoned with.", psi=WHOLE, kind=TEXT, of=TEXT, says=TEXT),
        "sag": record(
            "Now, where, and after years under load.",
            now=_FINE, at=_FINE, after_long_loading=or_null(from_to(_FINE)),
        ),
        "limits": several(_LIMIT),
        "chosen_limit": _LIMIT,
        "longest_span": LENGTH_OR_NULL,
        "stress": record(
            "Against a named value, where the tables have one.",
            psi=WHOLE, against_psi=or_null(WHOLE), breaks_at_psi=or_null(WHOLE), of=or_null(TEXT),
            factor=or_null(NUMBER), compare_load=WEIGHT_OR_NULL,
            why_no_compare_load=or_null(TEXT),
        ),
        "what_would_help": several(TEXT),
    },
    judged=YES_NO,
    findings=FINDINGS_ABOUT,
)  # fmt: skip
TIP_OVER = answer(
    "TipOverAnswer",
    "The pull that tips a piece, and whether one country's rule speaks of it.",
    push_at=LENGTH,
    tips_at_pull=WEIGHT,
    tips_leaning_degrees=NUMBER,
    one_test_leans_degrees=NUMBER,
    tips_with_hung_on_a_drawer=WEIGHT_OR_NULL,
    the_test_hangs=WEIGHT,
    clothing_rule=record(
        "Whether a rule speaks of the piece; nothing about how it stands.",
        applies=or_null(YES_NO),
        stores_clothes=or_null(YES_NO),
        thresholds=several(record(
            "One of its lines.", what=TEXT, at_least=NUMBER, reached=or_null(YES_NO)
        )),
        means=TEXT,
    ),
    fix_it=TEXT,
    findings=FINDINGS_ABOUT,
)  # fmt: skip
HANGING = answer(
    "HangingAnswer",
    "Which studs a rail meets, how deep its screws go, and the pull on them.",
    wall=TEXT,
    judged=told(YES_NO, "False where the wall is not one that can be reckoned with."),
    studs_met=or_null(record("Wherever the rail is put.", least=WHOLE, most=WHOLE)),
    bite=or_null({
        **record("Length in the stud.", in_=NUMBER, mm=NUMBER, tape=TEXT, off_by=TEXT,
                 reaches=YES_NO),
    }),
    wanted=LENGTHS,
    pull_on_upper_screws=WEIGHT_OR_NULL,
    pull_on_each=WEIGHT_OR_NULL,
    always=several(TEXT),
    not_judged=NOT_JUDGED,
    findings=FINDINGS_ABOUT,
)  # fmt: skip
