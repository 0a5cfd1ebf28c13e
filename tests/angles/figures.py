"""Shapes asked directly, with measures as a document would hold them."""

from fractions import Fraction

from service.domain.angles.answer import Asked, Stick
from service.domain.angles.figuring import figure
from service.domain.build import Stock


def inches(size):
    """An exact length from a whole number or from text like `3/4`; anything else is left alone."""
    return Fraction(size) if isinstance(size, (str, int)) else size


BOARD = Stick(Fraction(11, 2), Fraction(3, 4), Stock("1x6"))
NARROW = Stick(Fraction(5, 2), Fraction(3, 4), Stock("1x3"))
SQUARE_STICK = Stick(Fraction(3, 2), Fraction(3, 2), Stock("2x2"))


def figured(shape, stick=NARROW, seen=None, **measures):
    """A shape with one stick for all roles; lengths may be given as text or whole numbers."""
    lengths = {
        name: value if name in WORDS or value in SAID else inches(value)
        for name, value in measures.items()
    }
    return figure(shape, Asked(lengths, {"": stick}, seen))


WORDS = {"sides", "slope_from", "corners", "ring", "given", "between", "turned", "seen", "pieces",
         "ends_lean", "measured"}  # fmt: skip

SAID = {"level", "square"}


def part_of(answer, id):
    """The part of a figured shape by its id."""
    return next(wanted for wanted in answer.wanted if wanted.part.id == id)


def value_of(answer, name):
    """A named result of a figured shape, as a float."""
    return float(next(figure.value for figure in answer.figures if figure.name == name))
