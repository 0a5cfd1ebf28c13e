"""How design values of one fastener look in answers, with the factors on them."""

from collections.abc import Iterator
from dataclasses import replace
from typing import Any

from service.api import shown
from service.domain.fastening.adjusting import Adjusted, Terms, adjusted
from service.domain.fastening.advising import Advice
from service.domain.fastening.holding import CAUTION
from service.domain.fastening.proposing import Option
from service.domain.fastening.surroundings import Surroundings

Json = dict[str, Any]


def valued(one: Option, around: Surroundings, terms: Terms) -> Adjusted | None:
    """The design values of an option under the terms of the question; None where it has none."""
    hold, fixing = one.hold, one.choice.fixing
    if not (hold.pulled or hold.sheared) or fixing.diameter is None:
        return None
    return adjusted(around, hold, fixing, terms)


def design_value(one: Option, around: Surroundings, terms: Terms) -> Json | None:
    """Pounds under the terms, each factor with its row, and the values before any factor."""
    under = valued(one, around, terms)
    if under is None:
        return None
    return {
        "sideways_lb": _pounds(under.sheared),
        "pulled_out_lb": _pounds(under.pulled),
        "reference": {
            "sideways_lb": _pounds(one.hold.sheared),
            "pulled_out_lb": _pounds(one.hold.pulled),
        },
        "factors": [
            {
                "name": factor.name,
                "what": factor.what,
                "of": factor.of,
                "value": shown.number(factor.value),
                "row": factor.row,
            }
            for factor in under.factors
        ],
        "assumed": list(under.assumed),
        "caution": CAUTION,
    }


def _pounds(value: float | None) -> int | None:
    return None if value is None else round(value)


def of_joint(terms: Terms | None, advice: Advice) -> Terms | None:
    """The terms with what the build says of the wood of one joint."""
    return replace(terms, made_wet=True) if terms and advice.judged.made_wet else terms


def factor_rows(advice: Advice, terms: Terms | None) -> Iterator[str]:
    """The rows of the factors on the design values of a joint."""
    terms = of_joint(terms, advice)
    if terms is None:
        return
    around = advice.judged.around
    for one in advice.suggestions.options:
        under = valued(one, around, terms)
        yield from (factor.row for factor in (under.factors if under else ()))


def value_words(advice: Advice, terms: Terms | None) -> Iterator[str]:
    """The design values of the best way that has any, in lines."""
    around, terms = advice.judged.around, of_joint(terms, advice)
    for one in advice.suggestions.options if terms else ():
        under = valued(one, around, terms) if terms else None
        if under is None:
            continue
        told = {"sideways": _pounds(under.sheared), "pulled out": _pounds(under.pulled)}
        pounds = ", ".join(f"{lb} lb {way}" for way, lb in told.items() if lb is not None)
        factors = (
            f"{factor.name} {shown.number(factor.value):g}"
            f"{'' if factor.of == 'both' else f' {factor.of}'} ({factor.what})"
            for factor in under.factors
        )
        yield f"design value of one {one.type.partition(',')[0]}: {pounds}; {', '.join(factors)}"
        yield from under.assumed
        yield CAUTION
        return
