"""Small questions about sheets, drawn from a seeded generator."""

from decimal import Decimal
from fractions import Fraction
from random import Random

from service.planning.panels.asking import Cutting, Panel, Sheet


def tiny(seed: int, most: int = 4) -> tuple[list[Panel], list[Sheet], Cutting]:
    """At most `most` panels, one to three sheets, small sizes, so that many sizes fit exactly."""
    chance = Random(seed)
    kerf = Fraction(chance.choice((0, 1, 1, 2)), 2)
    trim = Fraction(chance.choice((0, 0, 0, 1)), 2)
    left, panels = chance.randint(1, most), []
    while left:
        count = chance.randint(1, min(2, left))
        left -= count
        length, width = chance.randint(1, 9), chance.randint(1, 7)
        turns = chance.random() < 0.5
        panels.append(Panel(f"p{len(panels)}", Fraction(length), Fraction(width), count, turns))
    sheets = [sheet(chance, place, chance.random() < 0.7) for place in range(chance.randint(1, 3))]
    turns = chance.choice((None, None, 0, 1, 2, 3))
    return panels, sheets, Cutting(kerf, trim, turns)


def sheet(chance: Random, place: int, grain: bool) -> Sheet:
    length, width = chance.randint(6, 16), chance.randint(4, 12)
    half = Fraction(chance.choice((0, 0, 1)), 2)
    if chance.random() < 0.25:
        return Sheet(
            f"s{place}", length + half, Fraction(width), Decimal(0), 1, on_hand=True, grain=grain
        )
    price = Decimal(length * width * chance.randint(8, 14)) / 10
    limit = chance.choice((None, None, None, 1, 2))
    return Sheet(f"s{place}", length + half, Fraction(width), price, limit, grain=grain)


def workshop(seed: int, least: int = 5, most: int = 20) -> tuple[list[Panel], list[Sheet], Cutting]:
    """Panels of a piece of furniture from full and half sheets, sometimes an offcut."""
    chance = Random(seed)
    step = Fraction(1, chance.choice((1, 2, 4, 8)))
    panels = []
    left = chance.randint(least, most)
    while left:
        count = chance.randint(1, min(4, left))
        left -= count
        length = step * chance.randint(int(6 / step), int(40 / step))
        width = step * chance.randint(int(3 / step), int(23 / step))
        panels.append(Panel(f"p{len(panels)}", length, width, count, chance.random() < 0.5))
    sheets = [
        Sheet("full", Fraction(96), Fraction(48), Decimal(chance.randint(5000, 7500)) / 100),
        Sheet("half", Fraction(48), Fraction(48), Decimal(chance.randint(3000, 4400)) / 100),
        Sheet("project", Fraction(48), Fraction(24), Decimal(chance.randint(1800, 2600)) / 100),
    ]
    if chance.random() < 0.5:
        length, width = Fraction(chance.randint(20, 60)), Fraction(chance.randint(12, 40))
        sheets.append(Sheet("offcut", length, width, Decimal(0), 1, on_hand=True))
    trim = Fraction(chance.choice((0, 0, 1)), 4)
    carry = chance.choice((None, (Fraction(60), Fraction(36))))
    return panels, sheets, Cutting(Fraction(1, 8), trim, None, carry, chance.choice((None, 0, 2)))
