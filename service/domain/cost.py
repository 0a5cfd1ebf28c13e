"""What a build costs, line by line, by the caller's own prices: none is ever made up."""

import math
import re
from collections.abc import Iterator
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction

from service.domain.build import Joint, Step
from service.domain.finishing import (
    Span,
    coats_of,
    finish_loss,
    finish_of,
    needed,
    span,
    surface,
)
from service.domain.glued import glue_in
from service.domain.purchase import FOOT, Bought, Purchase, price_of, times
from service.domain.resolving import ResolvedBuild
from service.domain.spelling import spelled
from service.domain.tape import MM, mixed, plain
from service.domain.values import dataclass, replace

CENT = Decimal("0.01")
METER = 1000 * MM
GALLON = {"gal": Fraction(1), "qt": Fraction(1, 4), "pt": Fraction(1, 8), "oz": Fraction(1, 128)}
LITER = Fraction(1000000, 3785412)  # of a US gallon of 231 cubic inches, to a millionth
PACK = re.compile(r"(.+?),? (\d+(?:\.\d+)?) ?(gal|qt|pt|oz|l|ml)", re.IGNORECASE)
NOT_PLANNED = "the purchase is not planned: the length of the parts alone, no kerf, no waste"
NO_NAME = "its stock has no name that could be bought"
BOX = re.compile(r"(.+?),? box of (\d{1,6})", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Line:
    """One line. `money` is None where a price is missing; `in_piece`, `kept` and `waste` are the
    shares of the money by where the wood ends up, None where nobody has planned the cuts."""

    kind: str
    what: str
    count: int
    each: Decimal | None
    money: Decimal | None
    need: str = ""
    note: str = ""
    in_piece: Decimal | None = None
    kept: Decimal | None = None
    waste: Decimal | None = None
    rests_on: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Cost:
    """Lines, their sum, tax, and the total; what no price is known for; the budget."""

    lines: tuple[Line, ...]
    subtotal: Decimal
    tax: Decimal
    missing: tuple[str, ...]
    budget: Decimal | None

    @property
    def total(self) -> Decimal:
        """Everything that has a price, with tax."""
        return self.subtotal + self.tax

    @property
    def wood_is_planned(self) -> bool:
        """Whether every stock is counted as bought, and none by the length of its parts."""
        return all(line.note != NOT_PLANNED for line in self.lines)


def cost(build: ResolvedBuild, purchase: Purchase, extra: tuple[Step, ...] = ()) -> Cost:
    """The whole cost by the prices of the document; `extra` are coats that no step names."""
    lines = [
        *_wood(build, purchase),
        *_fasteners(build),
        *_glues(build),
        *finish_lines(build, (*build.build.steps, *extra)),
        *_paper(build),
        *_store(build, purchase),
    ]
    subtotal = sum((line.money for line in lines if line.money is not None), Decimal("0.00"))
    tax = tax_on(build, subtotal)
    missing = tuple(dict.fromkeys(line.what for line in lines if line.money is None))
    return Cost(tuple(lines), subtotal, tax, missing, build.build.buying.budget)


def tax_on(build: ResolvedBuild, subtotal: Decimal) -> Decimal:
    """The tax on a sum, to the cent."""
    return cents(subtotal * (build.build.buying.tax_percent or Decimal(0)) / 100)


def cents(money: Decimal) -> Decimal:
    """To the cent, half up."""
    return money.quantize(CENT, ROUND_HALF_UP)


def _wood(build: ResolvedBuild, purchase: Purchase) -> Iterator[Line]:
    if purchase.planned:
        for one in purchase.boards:
            yield wood_line(one, build.metric)
    bought = {one.stock for one in purchase.boards}
    stocks = dict.fromkeys(p.sized.key for p in build.parts if p.sized and p.sized.key)
    for stock in stocks:
        if stock in bought:
            continue
        parts = [p for p in build.parts if p.sized and p.sized.key == stock]
        long = sum(((p.part.length or Fraction(0)) * p.part.quantity for p in parts), Fraction(0))
        money = None
        if parts[0].sized is not None and parts[0].sized.panel is None:
            by_foot = [p for p in build.build.buying.prices if p.per in ("foot", "board-foot")]
            has = any((build.sizing.key(p.stock) or p.stock) == stock for p in by_foot)
            money = price_of(build, stock, long, None) if has else None
        yield Line(
            "wood", stock, 1, money and cents(money), money and cents(money),
            need=f"{float(long / METER):.2f} m" if build.metric else f"{float(long / FOOT):.2f} ft",
            note=NOT_PLANNED,
        )  # fmt: skip
    yield from _wood_without_price(build, purchase, bought)


def _wood_without_price(
    build: ResolvedBuild, purchase: Purchase, bought: set[str]
) -> Iterator[Line]:
    """Wood that no line above counts: of a stock without a name, or that the plan can't make."""
    why = {one.part: (one.quantity, one.why) for one in purchase.lacking}
    for part in build.parts:
        id, stock = part.part.id, part.sized.key if part.sized else None
        if stock is None or (stock in bought and id in why):
            count, told = why.get(id, (part.part.quantity, NO_NAME))
            yield Line("wood", f"wood of {id}", count, None, None, note=told)


def wood_line(one: Bought, metric: bool = False) -> Line:
    """Boards or sheets as bought, and the money by where their wood ends up."""
    sizes = [size for size in (one.length, one.width) if size is not None]
    said = [plain(size, metric) if metric else f"{float(size):g} in" for size in sizes]
    what = f"{one.stock}, {' x '.join(said)}"
    if one.source == "on-hand":
        return Line("wood", what, one.count, Decimal(0), Decimal("0.00"), note="on hand")
    if one.price is None:
        return Line("wood", what, one.count, None, None)
    money = cents(one.price * one.count)
    line = Line("wood", what, one.count, cents(one.price), money)
    if not one.volume or one.in_parts is None:
        return replace(line, note="how it is cut is not planned")
    in_piece = cents(times(money, one.in_parts / one.volume))
    if one.kept is None:
        return replace(line, in_piece=in_piece, note="kept and waste are not told apart")
    kept = cents(times(money, one.kept / one.volume))
    return replace(line, in_piece=in_piece, kept=kept, waste=money - in_piece - kept)


def _fasteners(build: ResolvedBuild) -> Iterator[Line]:
    counts: dict[tuple[str, str], int] = {}  # by its name, and by its length alone
    for joint in build.build.joints:
        if joint.count and joint.fastener is not None:
            long = replace(joint, fastener=replace(joint.fastener, diameter=None))
            names = fastener_name(joint, build.metric), fastener_name(long, build.metric)
            counts[names] = counts.get(names, 0) + joint.count * joint.quantity
    for names, count in counts.items():
        yield _cheapest(build, "fasteners", names, count)


def fastener_name(joint: Joint, metric: bool = False) -> str:
    """What a fastener is called in a price list: `screw 6x1 5/8`, `dowel 3/8x2`, `screw 4x50` in
    a metric build."""
    fastener, sizes = joint.fastener, list[str]()
    if fastener is not None:
        thick = None if fastener.gauge else fastener.diameter
        sizes += [str(fastener.gauge)] if fastener.gauge else []
        sizes += [_bare(size, metric) for size in (thick, fastener.length) if size is not None]
    return f"{joint.method or 'fastener'} {'x'.join(sizes)}".strip()


def _bare(size: Fraction, metric: bool) -> str:
    """A size without its unit, as it stands on a box."""
    return plain(size, metric).removesuffix(" mm") if metric else mixed(size)


def _cheapest(build: ResolvedBuild, kind: str, names: tuple[str, ...], count: int) -> Line:
    """By the piece or by the box, whichever costs less in all; under any of the names."""
    found: list[Line] = []
    for price in build.build.buying.prices:
        box = BOX.fullmatch(price.stock)
        if spelled(box[1] if box else price.stock).removesuffix(" mm") not in map(spelled, names):
            continue
        boxes = math.ceil(count / int(box[2])) if box else count
        found.append(
            Line(kind, price.stock, boxes, price.price, cents(price.price * boxes), f"{count}")
        )
    nothing = Line(kind, names[0], count, None, None, need=f"{count}")
    return min(found, key=lambda line: line.money or Decimal(0), default=nothing)


def _glues(build: ResolvedBuild) -> Iterator[Line]:
    areas: dict[str, Fraction] = {}
    for joint in build.build.joints:
        glue = glue_in(build, joint)
        if glue is not None:
            areas[glue.key] = areas.get(glue.key, Fraction(0)) + joint_area(build, joint)
    for key, area in areas.items():
        spread = span(build.catalog.glues[key].figure("coverage"))
        if spread is None:
            yield Line("glue", key, 1, None, None, note="no coverage of it is in the tables")
            continue
        one = Span(Fraction(1), Fraction(1))
        yield _packed(build, "glue", key, needed(area, one, spread, finish_loss(build.catalog)))


def joint_area(build: ResolvedBuild, joint: Joint) -> Fraction:
    """Square feet of a joint: the smaller of the two surfaces that meet, so many times."""
    faces = []
    for part_id, side in ((joint.through, joint.touches or "face"), (joint.into, joint.enters)):
        part = build.by_id.get(part_id)
        if part is None or part.sized is None or part.sized.width is None:
            continue
        thick, wide = part.sized.thickness.listed, part.sized.width.listed
        long = part.part.length or Fraction(0)
        faces.append({"end": thick * wide, "edge": thick * long}.get(side or "face", wide * long))
    return min(faces, default=Fraction(0)) * joint.quantity / 144


def finish_lines(build: ResolvedBuild, steps: tuple[Step, ...]) -> Iterator[Line]:
    """What the coats of these steps take, a line for each finish."""
    wanted: dict[str, Span] = {}
    for step in steps:
        finish = finish_of(build, step) if step.do in ("finish", "stain") else None
        spread = span(finish.figure("coverage")) if finish else None
        if finish is None:
            continue
        if spread is None:
            yield Line("finish", finish.key, 1, None, None, note="no coverage is in the tables")
            continue
        coats, area = coats_of(step, finish), surface(build, step.parts)
        gallons = needed(area, coats, spread, finish_loss(build.catalog))
        wanted[finish.key] = wanted[finish.key].plus(gallons) if finish.key in wanted else gallons
    for key, gallons in wanted.items():
        yield _packed(build, "finish", key, gallons)


def _packed(build: ResolvedBuild, kind: str, key: str, gallons: Span) -> Line:
    """Cans or bottles, enough for the high end: `water-polyurethane 1 qt` in the price list."""
    need = liquid(gallons, build.metric)
    found: list[Line] = []
    for price in build.build.buying.prices:
        pack = PACK.fullmatch(price.stock)
        if pack is None or build.catalog.key(kind, build.build.region, pack[1]) != key:
            continue
        unit = pack[3].lower()
        size = Fraction(pack[2]) * {**GALLON, "l": LITER, "ml": LITER / 1000}[unit]
        count = max(1, math.ceil(gallons.high / size)) if size else 1
        found.append(Line(
            kind, price.stock, count, price.price, cents(price.price * count), need,
            rests_on=gallons.rests_on,
        ))  # fmt: skip
    nothing = Line(kind, key, 1, None, None, need, rests_on=gallons.rests_on)
    return min(found, key=lambda line: line.money or Decimal(0), default=nothing)


def liquid(gallons: Span, metric: bool) -> str:
    """An amount to buy: `2.2 to 4.8 fl oz`, `65 to 142 ml` in a metric build."""
    each, unit, places = (1000 / LITER, "ml", 0) if metric else (Fraction(128), "fl oz", 1)
    low, high = (f"{float(end * each):.{places}f}" for end in (gallons.low, gallons.high))
    if not float(high):
        return f"under {0.1**places:g} {unit}"
    return f"{low} {unit}" if low == high else f"{low} to {high} {unit}"


def _paper(build: ResolvedBuild) -> Iterator[Line]:
    figure = build.catalog.work_times["sandpaper"]
    for step in build.build.steps:
        if step.do != "sand":
            continue
        sheets = max(1, math.ceil(surface(build, step.parts) / figure.least))
        named = f"sandpaper {step.grit}" if step.grit else "sandpaper"
        yield replace(_cheapest(build, "abrasives", (named,), sheets), rests_on=(figure.row,))


def _store(build: ResolvedBuild, purchase: Purchase) -> Iterator[Line]:
    store, cuts = build.build.buying.store_cuts, purchase.store_cuts
    paid = max(0, cuts - store.free) if store else 0
    if store is not None and paid:
        money = cents(store.each * paid) if store.each is not None else None
        yield Line("store-cuts", "store cuts", paid, store.each, money, f"{cuts}")
