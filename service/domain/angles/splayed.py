"""Four legs that splay, one way or both, and the rails between them.

Seen from the front the legs lean by f, from the side by s. True lean R: tan(R)^2 = tan(f)^2 +
tan(s)^2, toward the corner. Length along any edge = height / cos(R), both ends level and parallel.
- Stick turned, so that its face looks along the true lean: one plain miter of R.
- Not turned, its front face holding a level line across the front (the legs of one side and a rail
  in line with their faces lie in one plane): miter atan(tan(f) x cos(s)) with bevel s.
A rail in that plane has plain miters atan(tan(f) x cos(s)) and runs short to short, along its top,
outside + 2 x drop x tan(f) - 2 x width / cos(miter). A plumb rail between front and back legs has
miters of s.
Source: solid geometry.
"""

from fractions import Fraction
from math import atan, cos, degrees, hypot, radians, tan

from service.domain.angles.answer import (
    Asked,
    Figure,
    Figured,
    Letter,
    Mark,
    Seen,
    Sketch,
    Stick,
    Wanted,
    impossible,
    inches,
)
from service.domain.angles.leaning import TEST_CUT, TRACE, angled, floor, stick_outline
from service.domain.build import SQUARE, End, Part
from service.domain.values import dataclass, replace

FORMULA = "splayed legs: tan(true lean)^2 = tan(front lean)^2 + tan(side lean)^2"
AXES = (
    "Front lean is seen from the front, side lean from the side, both from vertical; height is "
    "vertical, floor to the under side of the top. Outside and inside are over and between the "
    "legs at the under side of the top, width along their front faces, then depth; a rail's top is "
    "its upper edge on the front face."
)
TRACE_BOTH = (
    "For legs that lean both ways, draw each view full size, take the floor mark from both "
    "drawings, stand the stick on it with its top against the mark of the seat, and scribe both "
    "ends level "
    "with a pencil on a block: the cut needs no angle. " + TRACE
)


@dataclass(frozen=True, slots=True)
class Splay:
    """The leans of a leg, degrees: seen from the front and the side, and how the stick is held."""

    front: float
    side: float
    turned: bool

    @property
    def true(self) -> float:
        """The lean from vertical in the plane that the leg leans in."""
        return degrees(atan(hypot(tan(radians(self.front)), tan(radians(self.side)))))

    @property
    def toward(self) -> float:
        """Degrees from the line of the front to where the foot points, seen from above."""
        if not self.front:
            return 90.0 if self.side else 0.0
        return degrees(atan(tan(radians(self.side)) / tan(radians(self.front))))

    @property
    def miter(self) -> float:
        """Across the face of a stick that is not turned."""
        return degrees(atan(tan(radians(self.front)) * cos(radians(self.side))))

    def end(self, seen: Seen) -> End:
        """The end cut of the leg."""
        if self.turned or not self.side:
            return angled(seen, self.true)
        if not self.front:
            return End(bevel=self.side)
        return End(miter=self.miter, bevel=self.side)


def _splay(asked: Asked) -> Splay:
    turned = asked.fields.get("turned") is True
    if asked.one_of("lean", "lean_front") == "lean":
        if "lean_side" in asked.fields:
            raise impossible("lean_side", "Say lean_front with lean_side; lean is one way only.")
        return Splay(asked.angle("lean"), 0.0, turned)
    return Splay(asked.angle("lean_front"), asked.optional_angle("lean_side") or 0.0, turned)


def _seat(
    asked: Asked, level: tuple[Fraction, Fraction]
) -> tuple[Fraction | None, Fraction | None]:
    """Outside to outside of the legs at the seat, width and depth, where it is given."""
    given = [n for n in ("top_inset", "top_outside", "top_inside") if n in asked.fields]
    if len(given) > 1:
        raise impossible(given[-1], "Say one of top_inset, top_outside and top_inside.")
    if not given or given[0] == "top_inset":
        return None, None
    pair, single = asked.pair(given[0]), asked.length(given[0])
    more = [2 * one if given[0] == "top_inside" else Fraction(0) for one in level]
    width, depth = pair or (single, None)
    return (
        None if width is None else width + more[0],
        None if depth is None else depth + more[1],
    )


def figure_splayed(asked: Asked) -> Figured:
    """Legs and, where the seat and the rails' height are given, rails. Raises NotFigured."""
    height, splay, stick = asked.need("height"), _splay(asked), asked.stick("leg")
    seen: Seen = asked.seen_as("face") if splay.turned or not splay.side else "face"
    level = _level_sizes(stick, splay, seen)
    seat = _seat(asked, level)
    length = inches(float(height) / cos(radians(splay.true)))
    end = splay.end(seen)
    compound = bool(end.miter and end.bevel)
    leg = Part(
        "leg", stick.stock, length, quantity=4, ends=(end, end),
        ends_lean=None if end.is_square else "same",
        measured=None if end.is_square else "long-to-short",
        mirrored=2 if compound else 0,
    )  # fmt: skip
    rails = tuple(_rails(asked, splay, height, level, seat))
    return Figured(
        wanted=(Wanted("leg", leg, stick, "overall"), *rails),
        figures=(
            Figure("length of a leg along its edges", length),
            Figure("true lean", splay.true),
            Figure("true lean points this far from the front line", splay.toward),
            *_angle_figures(splay, end),
            *_floor_figures(splay, height, seat),
        ),
        marks=tuple(_marks(asked, splay, height, level)),
        trace=TRACE_BOTH if splay.side else TRACE,
        test_cut=TEST_CUT,
        axes=AXES,
        formula=FORMULA,
        drawing=_drawing(splay, height, stick, seat[0], seen),
        assumed=_assumed(splay, seat),
    )


def _level_sizes(stick: Stick, splay: Splay, seen: Seen) -> tuple[Fraction, Fraction]:
    """How much of a level line a leg takes up, across the front and from front to back."""
    if splay.turned and splay.side:
        level = inches(float(stick.across(seen)) / cos(radians(splay.true)))
        return level, level
    front = inches(float(stick.across(seen)) / cos(radians(splay.miter)))
    other: Seen = "edge" if seen == "face" else "face"
    return front, inches(float(stick.across(other)) / cos(radians(splay.side)))


def _angle_figures(splay: Splay, end: End) -> tuple[Figure, ...]:
    if not splay.side:
        return ()
    turned = Figure("miter with the stick turned to the true lean", splay.true)
    plain = Splay(splay.front, splay.side, False).end("face")
    return (
        turned,
        Figure("miter with the stick not turned", plain.miter),
        Figure("bevel with the stick not turned", plain.bevel),
    )


def _floor_figures(
    splay: Splay, height: Fraction, seat: tuple[Fraction | None, Fraction | None]
) -> tuple[Figure, ...]:
    found = []
    named = (("width", seat[0], splay.front), ("depth", seat[1], splay.side))
    for name, outside, lean in named:
        if outside is not None:
            floor = outside + 2 * inches(float(height) * tan(radians(lean)))
            found += [Figure(f"{name} over the legs at the seat", outside),
                      Figure(f"{name} over the legs on the floor", floor)]  # fmt: skip
    return tuple(found)


def _rails(
    asked: Asked,
    splay: Splay,
    height: Fraction,
    level: tuple[Fraction, Fraction],
    seat: tuple[Fraction | None, Fraction | None],
) -> list[Wanted]:
    """The rails across the front and, where the legs lean that way too, from front to back."""
    top_at = asked.length("rail_top_at")
    if top_at is None or (splay.turned and splay.side):
        return []
    if not 0 < top_at < height:
        raise impossible("rail_top_at", "The rail's top lies between the floor and the seat.")
    stick, drop = asked.stick("rail"), height - top_at
    rails = []
    sides = (
        ("rail", seat[0], splay.front, splay.miter, level[0]),
        ("side-rail", seat[1], splay.side, splay.side, level[1]),
    )
    for name, outside, lean, miter, leg in sides:
        if outside is None:
            continue
        between = outside + 2 * inches(float(drop) * tan(radians(lean))) - 2 * leg
        if between <= 0:
            raise impossible("rail_top_at", f"The legs leave no room for the {name} there.")
        part = Part(name, stick.stock, between, quantity=2, ends=(End(miter), End(miter)))
        if miter:
            part = replace(part, ends_lean="opposite", measured="short-to-short")
        else:
            part = replace(part, ends=(SQUARE, SQUARE))
        rails.append(Wanted("rail", part, stick, "between"))
    return rails


def _marks(
    asked: Asked, splay: Splay, height: Fraction, level: tuple[Fraction, Fraction]
) -> list[Mark]:
    """Where the legs land, to named edges."""
    marks = []
    inset = asked.pair("top_inset") or (asked.length("top_inset"), asked.length("top_inset"))
    named = (("front", splay.front, level[0], inset[0]), ("side", splay.side, level[1], inset[1]))
    for view, lean, leg, seat_edge in named:
        out = inches(float(height) * tan(radians(lean)))
        if lean:
            marks.append(
                Mark(
                    "floor",
                    out,
                    f"seen from the {view}: from plumb under the leg's "
                    "outer edge at the seat, out to its outer edge",
                )
            )
        marks.append(Mark("seat", leg, f"seen from the {view}: from the leg's outer edge to its "
                                       "inner edge, along the under side"))  # fmt: skip
        if seat_edge is not None:
            marks.append(Mark("seat", seat_edge, f"seen from the {view}: from the seat's edge in "
                                                 "to the leg's outer edge"))  # fmt: skip
            past = out - seat_edge
            way = "past" if past >= 0 else "short of"
            marks.append(
                Mark(
                    "floor",
                    abs(past),
                    f"seen from the {view}: the foot's outer edge "
                    f"lands {way} plumb under the seat's edge",
                )
            )
    top_at = asked.length("rail_top_at")
    if top_at is not None:
        up = inches(float(top_at) / cos(radians(splay.true)))
        marks.append(Mark("leg", up, "from the foot up along any edge to the rail's top"))
    return marks  # fmt: skip


def _drawing(
    splay: Splay, height: Fraction, stick: Stick, outside: Fraction | None, seen: Seen
) -> Sketch:
    across, high = float(stick.across(seen)), float(height)
    out = high * tan(radians(splay.front))
    wide = float(outside) if outside is not None else high * 0.8 + 2 * across
    left = stick_outline(0, splay.front, high, across)
    right = tuple((2 * out + wide - x, y) for x, y in left)
    name = "outside of the legs at the top"
    top = () if outside is None else (
        Letter("D", ((out, high), (out + wide, high)), name, outside, "above"),
    )  # fmt: skip
    return Sketch(
        (left, right),
        (
            Letter("A", ((0.0, 0.0), (out, high)), "lean seen from the front", splay.front, "turn"),
            Letter("B", ((0.0, 0.0), (out, high)), "height", height, "left"),
            Letter("C", ((0.0, 0.0), (out, high)), "foot out of plumb", inches(out), "below"),
            *top,
        ),
        (floor(0.0, 2 * out + wide),),
    )


def _assumed(splay: Splay, seat: tuple[Fraction | None, Fraction | None]) -> tuple[str, ...]:
    said = []
    if splay.side and not splay.turned:
        said.append(
            "The legs' front faces hold a level line across the front; the front rail lies "
            "in line with those faces, the side rail stands plumb between the legs."
        )
    if splay.side and splay.turned:
        said.append("With the stick turned to the true lean rails meet it at a corner: no rail is "
                    "figured; scribe it to the legs.")  # fmt: skip
    if seat == (None, None):
        said.append("No top_outside or top_inside is given, so rails can't be figured.")
    return tuple(said)
