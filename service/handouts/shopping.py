"""What to buy: boards, sheets, fasteners, glue, finish and paper, counted and priced."""

from collections.abc import Iterator
from fractions import Fraction

from service.domain.catalog import BoardSize
from service.domain.cost import NOT_PLANNED, Line, wood_line
from service.domain.glued import glue_in
from service.domain.purchase import Bought
from service.handouts.answers import Answers
from service.handouts.fastening import proposed
from service.handouts.money import called, fasteners, length_of, money, without_price
from service.handouts.page import Column, Item, Items, Section, Table, Words
from service.handouts.sizes import listed
from service.planning.shortfall import missing_from

COLUMNS = (
    Column("what", "What to ask for"),
    Column("kind", "Kind"),
    Column("actual", "Actual size"),
    Column("length", "Length"),
    Column("count", "How many", figures=True),
    Column("each", "Each", figures=True),
    Column("money", "Together", figures=True),
    Column("note", "Note"),
)
STRAIGHT = (
    "Sight along every board from one end, first the edge, then the face: put it back if it "
    "bends, bows or twists more than you can pull flat by hand.",
    "Lay two boards face to face: a gap that shows is a bend, and a rock is a twist.",
    "Look at both ends for splits, and leave out loose knots where a part has to be. Knots that "
    "hold fast are no fault.",
    "A board with the center of the tree in its end grain moves the most as it dries.",
    "Measure one of them: the printed size is a name, and the list here counts on the actual size.",
)
PRICED = "Prices are those given with the build; nothing is made up."
PROPOSED = "proposed here, as the build does not say; not in the cost"
NO_GLUE = "no glue is named"
Row = tuple[str, str, str, str, str, str, str, str]


def shopping(answers: Answers) -> Section:
    """What to buy, what to carry home, and how to choose it."""
    rows = tuple(_rows(answers))
    table = Table("purchases", "What to buy, and what is on hand", COLUMNS, rows)
    extra = tuple(_extra(answers))
    return Section(
        "buy",
        "What to buy",
        (
            table,
            *((Items(extra),) if extra else ()),
            Words("How to choose a straight board:"),
            Items(tuple(Item(text) for text in STRAIGHT)),
        ),
    )


def _rows(answers: Answers) -> Iterator[Row]:
    for one in answers.purchase.boards:
        yield _wood(answers, one)
    lines = answers.cost.lines
    for line in lines:
        if line.kind == "wood" and line.note == NOT_PLANNED:
            note = f"{line.need}; {line.note}"
            yield _row(answers, line, what=called(answers, line), note=note)
    held = [line for line in lines if line.kind == "fasteners"]
    for line, name in zip(held, fasteners(answers).values(), strict=True):
        note = f"price for {line.what}" if line.money is not None else ""
        yield _row(answers, line, what=name, count=line.need, note=note)
    for line in lines:
        if line.kind not in ("wood", "fasteners"):
            what, count = called(answers, line), str(line.count)
            yield _row(answers, line, what=what, count=count, note=_needs(line))
    yield from proposals(answers)


def _wood(answers: Answers, one: Bought) -> Row:
    line = wood_line(one, answers.build.metric)
    name, actual = answers.pen.stock(one.stock), _actual(answers, one.stock)
    note = "on hand" if one.source == "on-hand" else ""
    count, length = str(one.count), length_of(answers, one)
    return _row(answers, line, what=name, actual=actual, length=length, count=count, note=note)


def _actual(answers: Answers, key: str) -> str:
    """What a stock really measures."""
    found = next(iter(answers.build.catalog.stocked(answers.document.region, key)), None)
    if found is None:
        return ""
    sized = next((p.sized for p in answers.build.parts if p.sized and p.sized.key == key), None)
    thick = sized.stock_thickness.listed if sized else found.thickness.listed
    if isinstance(found, BoardSize):
        wide = found.width.listed if found.width else None
        return answers.sizes.by(thick, wide)
    return f"{answers.sizes.one(thick)} thick"


def _row(
    answers: Answers, line: Line, *, what: str, actual: str = "", length: str = "",
    count: str = "", note: str = "",
) -> Row:  # fmt: skip
    known = line.money is not None
    each = money(line.each, answers) if line.each and known else ""
    paid = (
        money(line.money, answers) if line.money and known else "nothing" if known else "no price"
    )
    return (what, line.kind, actual, length, count, each, paid, note)


def _needs(line: Line) -> str:
    parts = [f"needs {line.need}" if line.kind in ("glue", "finish") and line.need else line.note]
    return "; ".join(part for part in parts if part)


def proposals(answers: Answers) -> Iterator[Row]:
    """Fasteners and glue that no joint states in full: counted as proposed, not in the cost."""
    counts: dict[str, int] = {}
    glues: dict[str, None] = {}
    stated = [glue_in(answers.build, joint) for joint in answers.document.joints]
    had = {glue.name for glue in stated if glue}
    for one in answers.advice:
        proposal = proposed(answers, one)
        if proposal is not None and proposal.count:
            counts[proposal.name] = counts.get(proposal.name, 0) + proposal.count
        if proposal is not None and proposal.glue and proposal.glue not in had:
            glues[proposal.glue] = None
    for name, count in counts.items():
        yield (name, "fasteners", "", "", str(count), "", "no price", PROPOSED)
    for name in glues:
        yield (name, "glue", "", "", "1", "", "no price", PROPOSED)


def _extra(answers: Answers) -> Iterator[Item]:
    found = answers.cost
    if any(line.money for line in found.lines):
        yield Item(f"{money(found.total, answers)}. {PRICED}", "in all")
    missing = without_price(answers)
    if missing:
        yield Item(listed(missing, 12), "no price is given for")
    longest = max((b.length for b in answers.purchase.boards if b.source == "store"), default=None)
    if longest is not None:
        yield Item(_for_the_car(answers, longest), "longest piece for the car")
    for one in missing_from(answers.plan):
        yield Item(
            f"{one.quantity} of {answers.named(one.part)}: {one.why}", "not to be had so far"
        )
    cuts = answers.purchase.store_cuts
    if cuts:
        yield Item(f"{cuts}, numbered on the drawing of the sheet", "cuts that the store can make")
    yield from _not_named(answers)


def _for_the_car(answers: Answers, longest: Fraction) -> str:
    sheets = [b for b in answers.purchase.boards if b.width is not None and b.source == "store"]
    words = answers.sizes.one(longest)
    if sheets:
        widest = max(sheets, key=lambda sheet: sheet.width or 0)
        words += f"; the widest is {answers.sizes.by(widest.length, widest.width)}"
    return words


def _not_named(answers: Answers) -> Iterator[Item]:
    document = answers.document
    glued = any(joint.glue for joint in document.joints)
    if document.joints and not glued and not any(row[1] == "glue" for row in proposals(answers)):
        yield Item(NO_GLUE, "glue")
    if not any(step.finish for step in document.steps):
        yield Item("the build names none", "finish")
    if not any(step.do == "sand" for step in document.steps):
        yield Item("no step of the build says which grits", "sandpaper")
