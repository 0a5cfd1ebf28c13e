"""The shape of an estimate: mass, cost and time of a build."""

from service.api.described.carried import answer
from service.api.described.words import (
    MONEY,
    NUMBER,
    TEXT,
    WHOLE,
    YES_NO,
    by_name,
    or_null,
    record,
    several,
    shape,
    told,
)

SPREAD = record("From, usual and to.", low=NUMBER, usual=NUMBER, high=NUMBER)
_MASS = shape("Mass", record("A mass with its spread.", lb=SPREAD, kg=SPREAD))
HOURS = shape("HoursSpan", record(
    "Hours from and to.", low=NUMBER, high=NUMBER,
    at_least=told(YES_NO, "Whether the time is a least one, with no end given."),
))  # fmt: skip
_MONEY = or_null(MONEY)
_SHARE = or_null({"anyOf": [MONEY, NUMBER]})

_LINE = shape("CostLine", record(
    "One thing that is bought.",
    kind=TEXT, what=TEXT, count={"anyOf": [NUMBER, MONEY]}, each=_MONEY, money=_MONEY,
    need=TEXT, note=or_null(TEXT), in_piece=_MONEY, kept=_MONEY, waste=_MONEY,
))  # fmt: skip
_COST = record(
    "What it costs, and what of that is not known.",
    currency=or_null(TEXT),
    total=MONEY,
    total_is_whole=told(YES_NO, "False where prices are missing or the purchase is not planned."),
    subtotal=MONEY,
    tax=_MONEY,
    purchase_planned=YES_NO,
    lines=several(_LINE),
    missing_prices=several(TEXT),
    budget=_MONEY,
    over_budget=or_null(YES_NO),
    swaps=several(record(
        "Something cheaper.", line=TEXT, to=TEXT, saves=MONEY, meets_budget=or_null(YES_NO)
    )),
    prices=several(record(
        "A price of the document in other units.",
        stock=TEXT, wood=or_null(TEXT), said=TEXT, per=by_name(MONEY),
    )),
)  # fmt: skip
_TIME = record(
    "How long it takes, in hours.",
    hands_on=or_null(HOURS),
    waiting=or_null(HOURS),
    done=or_null(HOURS),
    ready_to_use=or_null(HOURS),
    own_order=told(YES_NO, "Whether the order of work is the service's own."),
    notes=several(TEXT),
    steps=several(record(
        "One step.",
        what=TEXT, starts=or_null(HOURS), hands_on=or_null(HOURS), waits=or_null(HOURS),
        free=or_null(HOURS), critical=YES_NO,
    )),
)  # fmt: skip

ESTIMATE = answer(
    "EstimateAnswer",
    "Mass, cost and time of a build, each with what is not known of it.",
    mass=record(
        "What it weighs.",
        piece=or_null(_MASS),
        carry_home=told(or_null(_MASS), "What is carried home from the store."),
        spread_percent=NUMBER,
        by_part=several(record("One line.", part=TEXT, quantity=WHOLE, each=or_null(_MASS))),
        not_weighed=several(TEXT),
    ),
    cost=_COST,
    time=_TIME,
    label=TEXT,
)
