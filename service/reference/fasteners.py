"""Screws, nails, staples, the holes drilled for them, and the constants of their strength."""

from sqlalchemy.orm import Mapped

from service.reference.columns import Row, Sourced, Valued, column
from service.reference.kinds import Amount, Choice, Key, Keys, Length, Lengths, Words
from service.reference.printed import KeyList, Size, Sizes


class Screw(Sourced, Row):
    """A kind of screw in one gauge or diameter."""

    __tablename__ = "screws"
    heading = "Screws"
    about = ("family", "size")

    family: Mapped[str] = column(
        Choice("wood-screw", "construction-screw", "chipboard-screw"), "Family of screws"
    )
    gauge: Mapped[str | None] = column(Key(), "Gauge, where the family is sold by gauge")
    size: Mapped[str] = column(Words(), "Size as the shop writes it")
    name: Mapped[str] = column(Words(), "What it is called")
    thread: Mapped[str | None] = column(Words(), "Kind of thread")
    point: Mapped[str | None] = column(Words(), "Kind of point")
    head: Mapped[str | None] = column(Words(), "Kind of head")
    use: Mapped[str | None] = column(Words(), "What it is used for")


class ScrewValue(Valued, Sourced, Row):
    """One value of one property of a screw, such as its root diameter."""

    __tablename__ = "screw_values"
    heading = "Properties of screws"
    about = ("screw", "property", "condition")

    screw: Mapped[str] = column(Key(), "The screw", of="screws.key")


class ScrewLengths(Sourced, Row):
    """The lengths that a screw is sold in."""

    __tablename__ = "screw_lengths"
    heading = "Lengths of screws"
    about = ("screw",)

    screw: Mapped[str] = column(Key(), "The screw", of="screws.key")
    lengths: Mapped[Sizes] = column(Lengths(), "Lengths sold")


class PilotHole(Sourced, Row):
    """A hole to drill for a screw in soft or hard wood."""

    __tablename__ = "pilot_holes"
    heading = "Pilot holes"
    about = ("screw", "wood", "hole")

    screw: Mapped[str] = column(Key(), "The screw", of="screws.key")
    wood: Mapped[str] = column(Choice("any", "soft", "hard"), "Wood that is drilled")
    hole: Mapped[str] = column(Choice("pilot", "clearance"), "For the thread, or for the shank")
    low: Mapped[Size] = column(Length(), "Least diameter")
    high: Mapped[Size] = column(Length(), "Greatest diameter")
    usual: Mapped[Size] = column(Length(), "Usual diameter")
    condition: Mapped[str | None] = column(Words(), "What the value holds under")


class Nail(Sourced, Row):
    """A kind of nail or brad in one size."""

    __tablename__ = "nails"
    heading = "Nails"
    about = ("type", "size")

    type: Mapped[str] = column(Key(), "Type of nail")
    size: Mapped[str] = column(Words(), "Size as the shop writes it")
    pennyweight: Mapped[str | None] = column(Words(), "Pennyweight")
    gauge: Mapped[str | None] = column(Words(), "Wire gauge as printed")
    name: Mapped[str] = column(Words(), "What it is called")
    head: Mapped[str | None] = column(Words(), "Kind of head")


class NailValue(Valued, Sourced, Row):
    """One value of one property of a nail, such as its diameter."""

    __tablename__ = "nail_values"
    heading = "Properties of nails"
    about = ("nail", "property", "condition")

    nail: Mapped[str] = column(Key(), "The nail", of="nails.key")


class NailLengths(Sourced, Row):
    """The lengths that a nail or brad is sold in."""

    __tablename__ = "nail_lengths"
    heading = "Lengths of nails"
    about = ("nail",)

    nail: Mapped[str] = column(Key(), "The nail", of="nails.key")
    lengths: Mapped[Sizes] = column(Lengths(), "Lengths sold")


class Staple(Sourced, Row):
    """A kind of staple."""

    __tablename__ = "staples"
    heading = "Staples"
    about = ("name",)

    name: Mapped[str] = column(Words(), "What it is called")
    gauge: Mapped[str | None] = column(Words(), "Wire gauge as printed")
    legs: Mapped[Sizes] = column(Lengths(), "Lengths of leg sold")
    use: Mapped[str | None] = column(Words(), "What it is used for")


class StapleValue(Valued, Sourced, Row):
    """One value of one property of a staple, such as its crown."""

    __tablename__ = "staple_values"
    heading = "Properties of staples"
    about = ("staple", "property", "condition")

    staple: Mapped[str] = column(Key(), "The staple", of="staples.key")


class Bolt(Sourced, Row):
    """A bolt in one diameter, with the nut and the washers that go with it."""

    __tablename__ = "bolts"
    heading = "Bolts"
    about = ("size",)

    size: Mapped[str] = column(Words(), "Size as the shop writes it")
    diameter: Mapped[Size] = column(Length(), "Diameter by its name")


class BoltValue(Valued, Sourced, Row):
    """One value of one property of a bolt, such as the height of its nut."""

    __tablename__ = "bolt_values"
    heading = "Properties of bolts"
    about = ("bolt", "property", "condition")

    bolt: Mapped[str] = column(Key(), "The bolt", of="bolts.key")


class Method(Sourced, Row):
    """A way to hold two parts together."""

    __tablename__ = "methods"
    heading = "Ways to join"
    about = ("name",)

    name: Mapped[str] = column(Words(), "What it is called")
    fastener: Mapped[str | None] = column(Key(), "Kind of fastener that it takes")
    with_: Mapped[KeyList | None] = column(Keys("tools"), "Tools that do it", named="with")


class PocketPractice(Sourced, Row):
    """What shops use for pocket screws in stock of one thickness: practice, not a rule."""

    __tablename__ = "pocket_practice"
    heading = "Pocket screws in practice"
    about = ("thickness", "property", "condition")

    thickness: Mapped[str] = column(Words(), "Thickness of the stock that holds the pocket")
    property: Mapped[str] = column(Key(), "What is told")
    condition: Mapped[str | None] = column(Words(), "What it holds under")
    value: Mapped[str] = column(Words(), "The value, or several with semicolons between them")
    unit: Mapped[str | None] = column(Words(), "Unit of the value")


class ConnectionConstant(Sourced, Row):
    """A formula, a factor or a strength for comparing fastened joints."""

    __tablename__ = "connection_constants"
    heading = "Constants of connections"
    about = ("item", "condition", "of", "from", "to")

    item: Mapped[str] = column(Words(), "What the constant is")
    condition: Mapped[str | None] = column(Words(), "What it holds under")
    expression: Mapped[str | None] = column(Words(), "Formula, where it is no single number")
    value: Mapped[Size | None] = column(Amount(), "The number, where it is one")
    unit: Mapped[str] = column(Words(), "Unit of the result")
    of: Mapped[str | None] = column(Words(), "Quantity that the range is a range of")
    from_: Mapped[Size | None] = column(Amount(), "Where the range begins", named="from")
    to: Mapped[Size | None] = column(Amount(), "Where the range ends")
    reference: Mapped[str] = column(Words(), "Clause or table of the publication")
