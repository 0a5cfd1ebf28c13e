"""Money: decimal strings in, Decimal out. No float ever holds a price."""

import re
from decimal import Decimal

from service.domain.spelling import MINUS
from service.quantities.refusals import refusal

_PRICE = re.compile(r"[0-9]{1,10}(?:\.[0-9]{1,4})?")
_NAME = "an amount of money"
_EXAMPLE = 'it as text with a decimal point, like "11.40"'


def money(value: str | int | float) -> Decimal:
    """An amount in the list's own currency, from `"11.40"` or a whole number.

    At most ten digits before the point and four after it (wood is priced by the foot), never
    negative, no currency sign, no mark for thousands. A JSON number with decimals is refused,
    because it has been a binary fraction on its way here. Raises QuantityError.
    """
    if isinstance(value, float) and value.is_integer():
        value = int(value)  # 11.0 is a whole number, and exact
    if isinstance(value, int) and not isinstance(value, bool):
        if 0 <= value < 10**10:
            return Decimal(value)
        raise refusal(value, _NAME, "it goes from 0 to ten digits", _EXAMPLE)
    if isinstance(value, str):
        if _PRICE.fullmatch(value):
            return Decimal(value)
        raise refusal(value, _NAME, _why_no_price(value), _EXAMPLE)
    why = "a number with decimals is not exact" if isinstance(value, float) else "it is not text"
    raise refusal(value, _NAME, why, _EXAMPLE)


def _why_no_price(text: str) -> str:
    if text.startswith(("-", MINUS)):
        return "it can't be negative"
    if "," in text:
        return "a comma could mean thousands or a decimal"
    return "it takes up to ten digits, a point and up to four decimals, and nothing else"
