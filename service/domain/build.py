"""The build document as frozen values: what a caller states, nothing worked out.

Lengths are exact `Fraction` inches, angles degrees, money `Decimal`. A field that the caller left
out is None (or empty): the domain decides what that means and lists it under what was assumed.
The order of every tuple is the document's, so that an index is a JSON pointer.

The file is long because the whole document stands in one place, a value an entry: read from top
to bottom it is the document's description.
"""

from collections.abc import Mapping
from dataclasses import field
from decimal import Decimal
from fractions import Fraction
from typing import Literal

from service.domain.values import dataclass

Along = Literal["length", "width", "thickness", "rise", "reach"]
Measured = Literal["long-to-long", "short-to-short", "long-to-short", "short-to-long", "center"]
Lean = Literal["opposite", "same"]
Face = Literal["front", "back"]


@dataclass(frozen=True, slots=True)
class End:
    """One cut end, or one long edge (which has no miter): degrees off square, 0 to 89.

    `long` names the sides that hold the long point: top or bottom, front or back.
    """

    miter: float = 0.0
    bevel: float = 0.0
    long: frozenset[str] = frozenset()

    @property
    def is_square(self) -> bool:
        return self.miter == 0 and self.bevel == 0


SQUARE = End()


@dataclass(frozen=True, slots=True)
class Cutout:
    """Wood taken out of a part: a slot, dado, rabbet, lap, notch or hole.

    `at` are the near sides of slots or the centers of holes, inches from the first end;
    `size` is the width of a slot or the diameter of a hole.
    """

    kind: Literal["slot", "dado", "rabbet", "lap", "notch", "hole"]
    on: Literal["face", "back", "edge", "end"]
    at: tuple[Fraction, ...]
    size: Fraction | None
    depth: Fraction | None
    runs: Literal["across", "along"]
    fits: str | None


@dataclass(frozen=True, slots=True)
class GluedFrom:
    """Boards glued edge to edge into one part; `edge_loss` inches are jointed off at each seam."""

    boards: int
    edge_loss: Fraction


@dataclass(frozen=True, slots=True)
class Stock:
    """What a part is made of: a name as written, or a size stated inline (inches)."""

    name: str | None = None
    thickness: Fraction | None = None
    width: Fraction | None = None
    diameter: Fraction | None = None


@dataclass(frozen=True, slots=True)
class StockNote:
    """What the caller knows about a stock: applies to all parts cut from it."""

    wood: str | None = None
    treated: bool | None = None
    moisture: float | None = None
    measured_thickness: Fraction | None = None
    measured_width: Fraction | None = None
    reclaimed: bool | None = None
    old_paint: bool | None = None


NOTHING_NOTED = StockNote()


@dataclass(frozen=True, slots=True)
class Part:
    """One line of the parts list: `quantity` alike pieces."""

    id: str
    stock: Stock
    length: Fraction | None
    quantity: int = 1
    width: Fraction | None = None
    thickness: Fraction | None = None
    grain: Literal["length", "width", "any"] = "length"
    glued_from: GluedFrom | None = None
    known: StockNote = NOTHING_NOTED
    shows: frozenset[str] = frozenset()
    fit: Literal["to-list", "to-fit"] = "to-list"
    ends: tuple[End, End] = (SQUARE, SQUARE)
    ends_lean: Lean | None = None
    edges: tuple[End, End] = (SQUARE, SQUARE)
    edges_lean: Lean | None = None
    measured: Measured | None = None
    measured_on: Face = "front"
    mirrored: int = 0
    cutouts: tuple[Cutout, ...] = ()


@dataclass(frozen=True, slots=True)
class Fastener:
    """What holds a joint besides glue; lengths and diameters in inches, gauge a number."""

    gauge: int | None = None
    diameter: Fraction | None = None
    length: Fraction | None = None
    thread: Literal["coarse", "fine"] | None = None
    coating: Literal["plain", "zinc", "exterior", "galvanized", "stainless"] | None = None


@dataclass(frozen=True, slots=True)
class Joint:
    """Two pieces and what fastens them. `into` is a part id or ``wall``."""

    id: str
    through: str
    into: str
    touches: Literal["face", "edge", "end"] | None = None
    enters: Literal["face", "edge", "end"] | None = None
    layers: tuple[Fraction, ...] = ()
    quantity: int = 1
    count: int | None = None
    method: str | None = None
    fastener: Fastener | None = None
    sunk: Fraction | None = None
    slope: float | None = None
    pilot: bool | None = None
    end_distance: Fraction | None = None
    edge_distance: Fraction | None = None
    glue: str | None = None
    crosses: Fraction | None = None
    lets_move: bool = False


@dataclass(frozen=True, slots=True)
class Piece:
    """One length along a run: a part's extent, a stated size, or a gap; `count` times.

    `lean` is degrees from vertical, for the rise and reach of a leaning part. `let_in` and
    `overlap` (inches each piece) come off where it sits in a rabbet, a dado or a lap.
    """

    part: str | None = None
    along: Along = "length"
    size: Fraction | None = None
    name: str | None = None
    gap: bool = False
    count: int = 1
    less: bool = False
    lean: float | None = None
    let_in: Fraction = Fraction(0)
    overlap: Fraction = Fraction(0)


@dataclass(frozen=True, slots=True)
class Run:
    """A line along which sizes add up to `equals`, or must go into the opening `fits`."""

    id: str
    pieces: tuple[Piece, ...]
    equals: Fraction | Piece | None = None
    within: Fraction = Fraction(1, 32)
    fits: Fraction | None = None
    clearance: Fraction = Fraction(0)
    gives: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Shape:
    """What parts form together: anything leaning, mitered or evenly spaced.

    `parts` maps a role to part ids; `fields` holds the shape's own measures as read.
    """

    id: str
    shape: str
    parts: Mapping[str, tuple[str, ...]]
    fields: Mapping[str, object]
    within: Fraction | None = None


@dataclass(frozen=True, slots=True)
class PointLoad:
    """Pounds at a distance (inches) from the left support."""

    at: Fraction
    carries: Fraction


@dataclass(frozen=True, slots=True)
class Limit:
    """How far a part may sag: by a name of the tables, as a share of the span, or in inches."""

    name: Literal["eye", "shelf", "floor"] | None = None
    share: Fraction | None = None
    size: Fraction | None = None


@dataclass(frozen=True, slots=True)
class Load:
    """What a part carries. `carries` is pounds in all, or pounds an inch, or a square inch.

    `boards` of the part lie side by side and share it. `stiffness` (psi) is the caller's own;
    `grade` is what is stamped on the lumber.
    """

    part: str
    carries: Fraction | None = None
    per: Literal["total", "inch", "square-inch"] = "total"
    points: tuple[PointLoad, ...] = ()
    spread: Literal["even", "middle", "points"] = "even"
    span: Fraction | None = None
    held: Literal["resting", "both-ends", "one-end", "several"] | None = None
    supports: tuple[Fraction, ...] = ()
    laid: Literal["flat", "edge"] = "flat"
    stiffened_by: tuple[tuple[str, str], ...] = ()
    stays: bool | None = None
    use: str | None = None
    limit: Limit | None = None
    boards: int = 1
    grade: str | None = None
    stiffness: Fraction | None = None


@dataclass(frozen=True, slots=True)
class Step:
    """One thing to do, in order; times in minutes and hours."""

    do: Literal["cut", "sand", "dry-fit", "glue", "assemble", "stain", "finish", "wait", "use"]
    parts: tuple[str, ...] = ()
    joints: tuple[str, ...] = ()
    finish: str | None = None
    grit: int | None = None
    count: int | None = None
    minutes: Fraction | None = None
    people: int | None = None
    hours: Fraction | None = None
    bare_at_joints: bool | None = None


@dataclass(frozen=True, slots=True)
class Saw:
    """A saw that the caller owns; its own figures win over the tables. Inches and degrees."""

    kind: str
    blade: Fraction | None = None
    crosscut: Fraction | None = None
    crosscut_at_45: Fraction | None = None
    depth: Fraction | None = None
    miter_to: float | None = None
    bevel_to: float | None = None
    slides: bool | None = None
    rips: bool | None = None


@dataclass(frozen=True, slots=True)
class Shop:
    """What the caller cuts and drives with, and can carry. `end_trim` comes off each end."""

    saws: tuple[Saw, ...] = ()
    tools: tuple[str, ...] | None = None
    kerf: Fraction | None = None
    end_trim: Fraction = Fraction(0)
    longest_board: Fraction | None = None


@dataclass(frozen=True, slots=True)
class Price:
    """A board or sheet for sale."""

    stock: str
    price: Decimal
    length: Fraction | None = None
    width: Fraction | None = None
    per: Literal["piece", "foot", "board-foot", "sheet"] = "piece"
    at_most: int | None = None
    wood: str | None = None


@dataclass(frozen=True, slots=True)
class Offcut:
    """A piece on hand; `defects` are (from, to) inches that no part may span.

    `reserved` names the parts that it is kept for; empty where any part may have it.
    """

    stock: str
    length: Fraction
    width: Fraction | None = None
    quantity: int = 1
    defects: tuple[tuple[Fraction, Fraction], ...] = ()
    reserved: tuple[str, ...] = ()
    reclaimed: bool | None = None
    old_paint: bool | None = None


@dataclass(frozen=True, slots=True)
class Planned:
    """A board or sheet that the plan says to buy, perhaps `reserved` for named parts."""

    stock: str
    length: Fraction
    width: Fraction | None = None
    quantity: int = 1
    reserved: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class StoreCuts:
    """Cuts the store makes: how many are free, what each further one costs, how many at most."""

    free: int = 0
    each: Decimal | None = None
    at_most: int | None = None


@dataclass(frozen=True, slots=True)
class Buying:
    """Prices, wood on hand, and what the plan says to buy. Money in `currency`."""

    currency: str | None = None
    prices: tuple[Price, ...] = ()
    offcuts: tuple[Offcut, ...] = ()
    planned: tuple[Planned, ...] = ()
    budget: Decimal | None = None
    keep_at_least: Fraction | None = None
    spare: int = 0
    store_cuts: StoreCuts | None = None
    tax_percent: Decimal | None = None


@dataclass(frozen=True, slots=True)
class Wall:
    """What a piece hangs on: stud spacing and wallboard thickness in inches."""

    kind: Literal["studs", "masonry", "unknown"] = "unknown"
    studs: Fraction | None = None
    board: Fraction | None = None


@dataclass(frozen=True, slots=True)
class Place:
    """Where the piece will be: degrees Fahrenheit, relative humidity in percent."""

    where: Literal["indoors", "damp", "covered", "outdoors"] | None = None
    temperature: Fraction | None = None
    humidity: float | None = None
    wall: Wall | None = None


@dataclass(frozen=True, slots=True)
class Stands:
    """The piece on its feet: overall inches; `encloses` is cubic feet, `fixed` to a wall."""

    height: Fraction | None = None
    width: Fraction | None = None
    depth: Fraction | None = None
    fixed: bool | None = None
    kept_square_by: tuple[str, ...] | None = None
    encloses: Fraction | None = None


@dataclass(frozen=True, slots=True)
class Moving:
    """A lid, drawer or door; `held_open` says whether a stay holds it."""

    kind: Literal["lid", "drawer", "door"]
    part: str | None = None
    held_open: bool | None = None


@dataclass(frozen=True, slots=True)
class Build:
    """The whole document."""

    name: str
    units: Literal["in", "mm"] = "in"
    region: str = "us"
    wood: str | None = None
    place: Place = Place()
    uses: tuple[str, ...] = ()
    youngest: int | None = None
    parts: tuple[Part, ...] = ()
    joints: tuple[Joint, ...] = ()
    runs: tuple[Run, ...] = ()
    shapes: tuple[Shape, ...] = ()
    loads: tuple[Load, ...] = ()
    steps: tuple[Step, ...] = ()
    shop: Shop = Shop()
    buying: Buying = Buying()
    stands: Stands | None = None
    moving: tuple[Moving, ...] = ()
    stocks: Mapping[str, StockNote] = field(default_factory=dict)
