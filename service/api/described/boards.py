"""The shapes of what is answered about boards and sheets: sizes, board feet, weight."""

from service.api.described.carried import (
    FINDINGS_ABOUT,
    LENGTH,
    LENGTH_OR_NULL,
    LIMITS,
    answer,
)
from service.api.described.estimated import SPREAD
from service.api.described.words import (
    MONEY,
    NUMBER,
    TEXT,
    WHOLE,
    YES_NO,
    or_null,
    record,
    several,
    shape,
    told,
)

_STOCK = shape("StockSize", record(
    "One row of the size tables: a board, or a panel (kind panel).",
    {
        "condition": TEXT,
        "width": or_null(LIMITS),
        "nominal_width": LENGTH_OR_NULL,
        "lengths": several(LENGTH),
        "lengths_from_memory": YES_NO,
        "material": TEXT,
        "sheets": several(record("A sheet as sold.", width=LENGTH, length=LENGTH)),
        "sheets_from_memory": YES_NO,
    },
    row=TEXT,
    stock=TEXT,
    name=TEXT,
    sold_by_default=YES_NO,
    thickness=LIMITS,
    nominal_thickness=LENGTH_OR_NULL,
    kind=TEXT,
))  # fmt: skip
SIZES = answer(
    "SizesAnswer",
    "What a stock really measures, and what else goes by its name.",
    asked=TEXT,
    stock=TEXT,
    region=TEXT,
    sold=_STOCK,
    others=several(_STOCK),
    board_feet_per_foot=or_null(NUMBER),
    board_feet=told(or_null(NUMBER), "Of the length given."),
    findings=FINDINGS_ABOUT,
)
STOCKS = answer(
    "StocksAnswer",
    "Stocks that really have a thickness and a width.",
    region=TEXT,
    stocks=several(_STOCK),
    findings=FINDINGS_ABOUT,
)
MEASURE = answer(
    "MeasureAnswer",
    "A length in both units, and rounded to what a tape reads.",
    value=LENGTH,
    exact=TEXT,
    round=TEXT,
    to=TEXT,
    rounded=LENGTH,
    rounded_exact=TEXT,
    off_by=TEXT,
    findings=FINDINGS_ABOUT,
)
BOARD_FEET = answer(
    "BoardFeetAnswer",
    "Board feet by the rule of the trade, and their price.",
    stock=or_null(TEXT),
    counted=record(
        "The sizes that are counted, and why those.",
        sizes=TEXT, why=TEXT, thickness=LENGTH, width=LENGTH, length=LENGTH,
    ),
    count=WHOLE,
    board_feet_each=NUMBER,
    board_feet=NUMBER,
    surface_measure=told(or_null(WHOLE), "Surface measure of one board, as on a tally."),
    cost=or_null(MONEY),
    findings=FINDINGS_ABOUT,
)  # fmt: skip
_MASS = or_null(shape("MassOfBoards", record(
    "A mass with its spread.", lb=SPREAD, kg=SPREAD, spread_percent=NUMBER
)))  # fmt: skip
WEIGHT = answer(
    "WeightAnswer",
    "What boards and sheets weigh.",
    stock=or_null(TEXT),
    count=WHOLE,
    wood=or_null(TEXT),
    each=_MASS,
    total=_MASS,
    why_not=or_null(TEXT),
    lifting=or_null(record(
        "Against the line for a lift with two hands.",
        line_lb=NUMBER, one_is_over=YES_NO, all_are_over=YES_NO,
    )),
    cost=told(or_null(MONEY), "What all of them cost; null without a price."),
    findings=FINDINGS_ABOUT,
)  # fmt: skip
