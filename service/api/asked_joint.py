"""One joint in the parameters of an address, as a build of two parts."""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from marshmallow import ValidationError

from service import quantities
from service.api.documents.fields import UNITS, Angle, Length, Quantity, Text, Word
from service.api.documents.joints import COATINGS, METHODS, SURFACES, THREADS
from service.api.documents.place import WHERE
from service.api.documents.schemas import (
    PRINTABLE,
    Book,
    Json,
    in_a_list,
    schema_of,
    text_of,
)
from service.api.parameters import UnitsForm
from service.domain.build import Build, Fastener, Joint, Part, Place, Shop, Stock, StockNote
from service.domain.catalog import Catalog, PanelSize
from service.domain.errors import Complaint, UnknownName
from service.domain.fastening.adjusting import DURATIONS, SERVICES, Terms
from service.domain.fastening.joints import Wishes
from service.domain.fastening.surroundings import MARGIN
from service.domain.known_names import known_region, not_known
from service.quantities import patterns

FIRST, SECOND = "the first part", "the second part"
LONG, BOARD_WIDE, SHEET_WIDE = Fraction(24), Fraction(11, 2), Fraction(24)
MOST_LENGTHS, MOST_TOOLS = 20, 30
LARGEST_GAUGE = 30
_TIMES = re.compile(r" ?[xX\N{MULTIPLICATION SIGN}] ?")
_WHOLE = re.compile(r"(?:#|no\.? ?)?([0-9]{1,2})(?: ?ga)?", re.IGNORECASE)
_UNIT_AT_END = re.compile(r"([a-z]{1,12}|[\"'\u2032\u2033\u2019\u201d])\.? *$", re.IGNORECASE)
_METRIC = ("mm", "cm", "m")


class FastenerText(Quantity[Fastener]):
    """`8x1-5/8in`, `#8 x 1 5/8`, `4x40mm` (a diameter), `0.0915x2in`, or a length alone."""

    def read(self, value: Any) -> Fastener:
        *before, last = _TIMES.split(value, maxsplit=1) if isinstance(value, str) else [value]
        first = before[0] if before else ""
        length = quantities.length(last, UNITS.get())
        if not first:
            return Fastener(length=length)
        metric = (_unit_of(last).lower() or UNITS.get()) in _METRIC
        whole = _WHOLE.fullmatch(first.strip(" "))
        if whole and not metric:
            return Fastener(gauge=_gauge(int(whole[1])), length=length)
        return Fastener(diameter=quantities.length(first, "mm" if metric else "in"), length=length)


def _gauge(number: int) -> int:
    if number > LARGEST_GAUGE:
        raise ValidationError(f"Gauges go to {LARGEST_GAUGE}.")
    return number


class Lengths(Quantity[tuple[Fraction, ...]]):
    """Lengths with commas between them: `1,1-1/4,1-5/8in`; the last unit holds for all."""

    def read(self, value: Any) -> tuple[Fraction, ...]:
        pieces = value.split(",") if isinstance(value, str) else []
        if not 1 <= len(pieces) <= MOST_LENGTHS:
            raise ValidationError(f"These are 1 to {MOST_LENGTHS} lengths with commas between.")
        units, held = UNITS.get(), _unit_of(pieces[-1])
        return tuple(
            quantities.length(piece if _unit_of(piece) else f"{piece}{held}", units)
            for piece in pieces
        )


def _unit_of(length: str) -> str:
    """The unit that ends a length: `mm` of `40 mm`, the mark of inches, or nothing."""
    unit = _UNIT_AT_END.search(length)
    return unit[1] if unit else ""


class Names(Text):
    """Names with commas between them."""

    def _deserialize(self, value: Any, attr: str | None, data: Any, **options: Any) -> Any:
        text = super()._deserialize(value, attr, data, **options)
        names = tuple(name.strip() for name in text.split(","))
        if len(names) > MOST_TOOLS or not all(names):
            raise ValidationError(f"These are 1 to {MOST_TOOLS} names with commas between.")
        return names


@schema_of.register
def _(field: FastenerText, book: Book) -> Json:
    return book.named("FastenerText", text_of(patterns.FASTENER_TEXT))


@schema_of.register
def _(field: Lengths, book: Book) -> Json:
    items = in_a_list(Length(), book)
    return {"type": "array", "items": items, "minItems": 1, "maxItems": MOST_LENGTHS}


@schema_of.register
def _(field: Names, book: Book) -> Json:
    item = {"type": "string", "pattern": PRINTABLE.replace("[^", "[^,")}
    return {"type": "array", "items": item, "minItems": 1, "maxItems": MOST_TOOLS}


@dataclass(frozen=True, slots=True)
class AskedJoint:
    """The joint as asked, with what was taken for granted about its parts."""

    asked: dict[str, Any]
    lengths: tuple[Fraction, ...]
    wishes: Wishes
    terms: Terms | None
    fastener_said: str | None

    @property
    def assumed(self) -> tuple[str, ...]:
        """Sizes that a section alone does not tell."""
        metric = self.asked["units"] == "mm"
        long, board, sheet = (
            quantities.written(size, metric=metric) for size in (LONG, BOARD_WIDE, SHEET_WIDE)
        )
        return (
            f"parts are {long} long; a board given by its thickness alone is {board} wide, a sheet "
            f"{sheet}",
        )


class JointQuery(UnitsForm):
    """Two stocks, how they meet, what the shop has, and what is to be judged."""

    region = Text(load_default="us")
    through = Text(required=True)
    into = Text(required=True)
    touches = Word(*SURFACES)
    enters = Word(*SURFACES, load_default="face")
    method = Word(*METHODS)
    wood = Text()
    into_wood = Text()
    where = Word(*WHERE)
    tools = Names(400)
    glue = Text()
    visible = Word("true", "false", load_default="false")
    across = Length()
    fastener = FastenerText()
    thread = Word(*THREADS)
    coating = Word(*COATINGS)
    sunk = Length(zero=True)
    slope = Angle()
    pilot = Word("true", "false")
    end_distance = Length(zero=True)
    edge_distance = Length(zero=True)
    lengths = Lengths()
    keep = Length(zero=True)
    design_values = Word("true", "false")
    duration = Word(*DURATIONS)
    service = Word(*SERVICES)

    def load(self, data: Any, **options: Any) -> Any:
        """The joint, with the fastener as it was written."""
        asked = super().load(data, **options)
        said = data.get("fastener")
        return AskedJoint(
            asked,
            asked.pop("lengths", ()),
            Wishes(asked.pop("keep", MARGIN), asked.pop("across", None)),
            terms_of(asked),
            said if isinstance(said, str) else None,
        )


def terms_of(asked: Mapping[str, Any]) -> Terms | None:
    """The terms of the design values; None where none are wanted.

    To say a duration or a service is to want them.
    """
    duration, service = asked.get("duration"), asked.get("service")
    said = asked.get("design_values")
    wanted = said == "true" or (said is None and (duration or service))
    return Terms(duration, service) if wanted else None


def as_build(asked_joint: AskedJoint, catalog: Catalog) -> Build:
    """A build of two parts and the joint. Raises UnknownName, at the parameters."""
    asked = asked_joint.asked
    region = known_region(catalog, asked["region"])
    _refuse_unknown(asked, catalog, region)
    return Build(
        name="One joint",
        units=asked["units"],
        region=region,
        place=Place(where=asked.get("where")),
        parts=(
            _part(FIRST, "through", asked, catalog),
            _part(SECOND, "into", asked, catalog),
        ),
        joints=(_joint(asked),),
        shop=Shop(tools=asked.get("tools")),
    )


def _joint(asked: dict[str, Any]) -> Joint:
    told = asked.get("fastener")
    if told is None and ("thread" in asked or "coating" in asked):
        told = Fastener()
    fastener = told and Fastener(
        told.gauge, told.diameter, told.length, asked.get("thread"), asked.get("coating")
    )
    return Joint(
        id="joint",
        through=FIRST,
        into=SECOND,
        touches=asked.get("touches"),
        enters=asked["enters"],
        method=asked.get("method") or ("screw" if fastener else None),
        fastener=fastener,
        sunk=asked.get("sunk"),
        slope=asked.get("slope"),
        pilot=None if "pilot" not in asked else asked["pilot"] == "true",
        end_distance=asked.get("end_distance"),
        edge_distance=asked.get("edge_distance"),
        glue=asked.get("glue"),
    )


def _part(id: str, parameter: str, asked: dict[str, Any], catalog: Catalog) -> Part:
    """A part of a stock by name, or of a section; long, and as wide as its stock."""
    first = parameter == "through"
    wood = asked.get("wood") if first else asked.get("into_wood") or asked.get("wood")
    shows = frozenset({"front"} if first and asked["visible"] == "true" else ())
    text, region = asked[parameter], asked["region"]
    key = catalog.stock_key(region, text)
    if key is not None:
        sheet = isinstance(catalog.stocked(region, key)[0], PanelSize)
        stock, width = Stock(name=text), SHEET_WIDE if sheet else None
    else:
        stock, width = _section(text, parameter, asked, catalog), None
    return Part(id, stock, LONG, width=width, known=StockNote(wood=wood), shows=shows)


def _section(text: str, parameter: str, asked: dict[str, Any], catalog: Catalog) -> Stock:
    """Thickness and width as `3/4x3-1/2in`, or a thickness alone. Raises UnknownName."""
    try:
        if _TIMES.search(text):
            thickness, width = sorted(quantities.size_pair(text, asked["units"]))
            return Stock(thickness=thickness, width=width)
        return Stock(thickness=quantities.length(text, asked["units"]), width=BOARD_WIDE)
    except quantities.QuantityError as refusal:
        near = catalog.nearest("stock", asked["region"], text)
        hint = f" Nearest: {', '.join(near)}." if near else ""
        told = (
            f"No stock of region {asked['region']} is called {text!r}.{hint} As a size: {refusal}"
        )
        raise UnknownName(Complaint(parameter, told)) from None


def _refuse_unknown(asked: dict[str, Any], catalog: Catalog, region: str) -> None:
    """Names of woods, glue and tools that the tables do not know."""
    named = [("wood", "wood", asked.get("wood")), ("wood", "into_wood", asked.get("into_wood"))]
    named += [("tool", "tools", tool) for tool in asked.get("tools", ())]
    glue = asked.get("glue")
    named += [("glue", "glue", None if glue == "none" else glue)]
    complaints = [
        not_known(catalog, kind, region, name, parameter)
        for kind, parameter, name in named
        if name is not None and catalog.key(kind, region, name) is None
    ]
    if complaints:
        raise UnknownName(*complaints)
