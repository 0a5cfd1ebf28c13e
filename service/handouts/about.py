"""The head of the page: what it is, how big, what is hard, how long, how dear, how heavy."""

from collections.abc import Iterator
from fractions import Fraction

from service.domain.build import Piece
from service.domain.finishing import Span
from service.domain.runs import PieceSize, ResolvedRun
from service.handouts.answers import Answers
from service.handouts.fastening import proposed
from service.handouts.hardest import hardest
from service.handouts.money import money, without_price
from service.handouts.page import Item, Items, Section, Words
from service.handouts.sizes import counted, listed, weight

PLURALS = {
    "brad": "brads", "finish-nail": "finish nails", "nail": "nails", "staple": "staples",
    "screw": "screws", "pocket-screw": "pocket screws", "dowel": "dowels", "bolt": "bolts",
    "clip": "clips", "hinge": "hinges", "lap": "laps", "loose": "their fit alone",
}  # fmt: skip
DRYING = ("glue and finish dry meanwhile",)
NO_SIZE = "The build says neither how it stands nor what adds up to its overall sizes."


def summary(answers: Answers) -> str:
    """What it is, in a sentence or two."""
    document = answers.document
    pieces = sum(part.quantity for part in document.parts)
    stocks = dict.fromkeys(answers.stock_of(part) for part in answers.build.parts)
    words = f"{counted(pieces, 'piece')} of {counted(len(document.parts), 'kind')}"
    words += f", cut from {listed(list(stocks))}{_wood(answers)}."
    joints = sum(joint.quantity for joint in document.joints)
    if joints:
        words += f" {counted(joints, 'joint')} held{_by(answers)}."
    if document.uses:
        words += f" Made for: {listed(list(document.uses))}."
    if document.place.where:
        where = {"covered": "outdoors under a roof", "damp": "in damp rooms"}
        words += f" Its place: {where.get(document.place.where, document.place.where)}."
    return words


def _by(answers: Answers) -> str:
    """What holds the joints, in their order; what the build leaves open is as proposed here."""
    ways: dict[str, None] = {}
    for one in answers.advice:
        proposal = proposed(answers, one)
        method = one.judged.joint.method or (proposal.option.method if proposal else None)
        if method:
            ways.setdefault(PLURALS.get(method, method))
    return f" by {listed(list(ways))}" if ways else ""


def _wood(answers: Answers) -> str:
    woods = dict.fromkeys(p.wood.name for p in answers.build.parts if p.wood)
    return f" ({listed(list(woods))})" if woods else ""


def about(answers: Answers) -> Section:
    """What it is."""
    return Section("about", "What it is", (Words(summary(answers)),))


def overall(answers: Answers) -> Section:
    """Overall sizes: how it stands, and every run with what adds up to it."""
    items = (*_standing(answers), *(_run(answers, one.run) for one in answers.build.runs))
    blocks = (Items(items),) if items else (Words(f"{NO_SIZE} {_largest(answers)}".strip()),)
    return Section("sizes", "Overall sizes", blocks)


def _standing(answers: Answers) -> Iterator[Item]:
    stands = answers.document.stands
    if stands is None:
        return
    for name in ("height", "width", "depth"):
        size: Fraction | None = getattr(stands, name)
        if size is not None:
            yield Item(answers.sizes.one(size), f"{name} as it stands")


def _run(answers: Answers, run: ResolvedRun) -> Item:
    if run.total is None:
        return Item("a piece of it has no size", run.run.id)
    words = answers.sizes.one(run.total.listed)
    if run.run.fits is not None:
        words += f", for an opening of {answers.sizes.one(run.run.fits)}"
    pieces = "".join(_piece(answers, one) for one in run.pieces).removeprefix(" + ").strip()
    return Item(words, run.run.id, (pieces,) if len(run.pieces) > 1 else ())


def _piece(answers: Answers, one: PieceSize) -> str:
    """A piece of a sum with the sign before it."""
    sign = " - " if one.times < 0 else " + "
    times = f"{abs(one.times)} x " if abs(one.times) != 1 else ""
    return f"{sign}{times}{_called(answers, one.piece)} {answers.sizes.one(one.each.listed)}"


def _called(answers: Answers, piece: Piece) -> str:
    if piece.part is not None:
        along = "" if piece.along == "length" else f" {piece.along}"
        return f"{answers.named(piece.part)}{along}"
    return piece.name or ("gap" if piece.gap else "size")


def _largest(answers: Answers) -> str:
    known = [part for part in answers.build.parts if part.part.length is not None]
    if not known:
        return ""
    longest = max(known, key=lambda part: part.part.length or 0)
    size = answers.sizes.one(longest.part.length or Fraction(0))
    return f"The longest part is {answers.named(longest.part.id)}, {size}."


def hard(answers: Answers) -> Section:
    """The hardest thing in it."""
    return Section("hardest", "The hardest part of it", (Words(hardest(answers), strong=True),))


def glance(answers: Answers) -> Section:
    """Time, cost and weight."""
    time = answers.time
    items = [
        Item(hours(time.hands_on), "hands on"),
        Item(hours(time.waiting), "waiting", DRYING if time.waiting.high else ()),
        Item(hours(time.ready_to_use), "from the first cut until it is ready to use"),
        Item(*_cost(answers)),
        _weight(answers),
    ]
    notes = (*time.notes, "Times of work by hand are common practice; every shop differs.")
    return Section("glance", "Time, cost and weight", (Items(tuple(items)), *map(Words, notes)))


def hours(span: Span) -> str:
    """A range of time: minutes when short, hours, and days besides when long."""
    low, high = float(span.low), float(span.high)
    if high < 1:
        words = _range(low * 60, high * 60, "min", 0)
    else:
        words = _range(low, high, "hours", 0 if low >= 10 else 1)
    if low >= 48:
        words += f" ({_range(low / 24, high / 24, 'days', 1)})"
    return f"{words} or more" if span.at_least else words


def _range(low: float, high: float, unit: str, places: int) -> str:
    ends = [f"{end:.{places}f}".removesuffix(".0") for end in (low, high)]
    if ends[0] != ends[1]:
        return f"{ends[0]} to {ends[1]} {unit}"
    return f"{ends[0]} {unit.removesuffix('s') if ends[0] == '1' else unit}"


def _cost(answers: Answers) -> tuple[str, str, tuple[str, ...]]:
    found = answers.cost
    under = []
    if found.tax:
        under.append(f"tax in it: {money(found.tax, answers)}")
    missing = without_price(answers)
    if missing:
        under.append(f"no price for {listed(missing)}")
    if not found.wood_is_planned:
        under.append("some wood is counted by the length of its parts alone")
    if found.budget is not None:
        under.append(f"budget: {money(found.budget, answers)}")
    if not any(line.money for line in found.lines):
        return "no prices are given", "cost", ()
    short = ", as far as prices are given" if missing else ""
    return f"{money(found.total, answers)}{short}", "cost", tuple(under)


def _weight(answers: Answers) -> Item:
    usual = answers.mass.usual
    under = tuple(f"not in it: {text}" for text in answers.not_weighed)
    if not usual:
        return Item("not known", "weight", under)
    spread = f"give or take {answers.mass.spread_percent:.0f} %"
    return Item(f"about {weight(usual, answers.sizes)}, {spread}", "weight", under)
