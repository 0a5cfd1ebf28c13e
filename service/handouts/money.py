"""Money on the page, and what has no price, by the names that the page gives everything."""

from collections.abc import Iterator
from decimal import Decimal

from service.domain.cost import NOT_PLANNED, Line, fastener_name
from service.domain.fastening.fastener_words import stated_fastener
from service.domain.purchase import Bought
from service.domain.tape import sold
from service.handouts.answers import Answers


def money(amount: Decimal, answers: Answers) -> str:
    """An amount in the currency of the price list."""
    return f"{amount} {answers.document.buying.currency or ''}".strip()


def length_of(answers: Answers, one: Bought) -> str:
    """How long a board is, as shops say it and as a tape shows it; both sizes of a sheet."""
    if one.width is not None:
        return answers.sizes.by(one.length, one.width)
    length = answers.sizes.one(one.length)
    feet = sold(one.length, answers.build.metric)
    return f"{feet}, {length}" if feet.endswith(" ft") else length


def called(answers: Answers, line: Line) -> str:
    """What a line of the cost is called on the page."""
    catalog, key = answers.build.catalog, line.what
    if line.kind == "wood":
        return answers.pen.stock(key)
    if line.kind == "glue" and key in catalog.glues:
        return catalog.glues[key].name
    if line.kind == "finish" and key in catalog.finishes:
        return catalog.finishes[key].name
    return fasteners(answers).get(key, key)


def fasteners(answers: Answers) -> dict[str, str]:
    """What fasteners are called in full, by what they are called in a price list; in order."""
    metric = answers.build.metric
    found: dict[str, str] = {}
    for joint in answers.document.joints:
        if joint.count and joint.fastener is not None:
            found.setdefault(fastener_name(joint, metric), stated_fastener(joint, metric))
    return found


def without_price(answers: Answers) -> list[str]:
    """Everything that is to be had and has no price, once each."""
    return list(dict.fromkeys(_without_price(answers)))


def _without_price(answers: Answers) -> Iterator[str]:
    for one in answers.purchase.boards:
        if one.price is None and one.source == "store":
            size = answers.sizes.by(*(s for s in (one.length, one.width) if s is not None))
            yield f"{answers.pen.stock(one.stock)} of {size}"
    for line in answers.cost.lines:
        if line.money is None and (line.kind != "wood" or line.note == NOT_PLANNED):
            yield called(answers, line)
