"""A board that leans back on a prop.

The board leans a from vertical; the prop bears `up` along its back and stands `foot` behind its
heel. The prop's center line goes from (foot, 0) to (up sin(a), up cos(a)); it leans b =
atan((foot - up sin(a)) / (up cos(a))). Its foot is off square by b, its top by 90 - a - b; below
that the long points lie both on the rear, above 90 on different sides.
Source: plane geometry.
"""

from fractions import Fraction
from math import atan2, cos, degrees, hypot, radians, sin

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
from service.domain.angles.leaning import angled, floor
from service.domain.build import SQUARE, Lean, Part

AXES = (
    "Seen from the side, the board leaning to the right: its heel, the lower corner of its back, "
    "is the zero of the floor; up is along its back, foot is along the floor, both to the prop's "
    "center line."
)
APART = "The prop meets the board past square: its long points lie apart."
TRACE = (
    "Lean the board at its angle against anything, hold the prop beside it with its center line on "
    "the two marks, and scribe the floor (a pencil on a block) and the board's back across it."
)
TEST_CUT = (
    "Cut a scrap with both ends, stand it between floor and board and measure the board's lean "
    "with a bevel gauge: light at one end shows which setting is off."
)


def figure_prop(asked: Asked) -> Figured:
    """The prop: length along its center, end cuts. Raises NotFigured."""
    lean, up, foot = asked.angle("lean"), asked.need("up"), asked.need("foot")
    seen, stick = asked.seen_as("edge"), asked.stick("prop")
    across = float(stick.across(seen))
    back, high = float(up) * sin(radians(lean)), float(up) * cos(radians(lean))
    out = float(foot) - back
    if out <= 0:
        raise impossible("foot", "The foot lies under the leaning board: set it farther back.")
    own, length = degrees(atan2(out, high)), inches(hypot(out, high))
    top = 90 - lean - own
    if abs(top) >= 85 or own >= 85:
        raise impossible("foot", "The prop would lie along the board or the floor.")
    part, board = _prop(stick, seen, length, (own, top)), asked.stick("board")
    leaning = Part("board", board.stock, None, ends=(angled("edge", lean), SQUARE))
    half = across / 2 / cos(radians(own))
    return Figured(
        wanted=(
            Wanted("prop", part, stick, "between"),
            *((Wanted("board", leaning, board, "overall"),) if "board" in asked.sticks else ()),
        ),
        figures=(
            Figure("length along the center", length),
            Figure("prop leans from vertical", own),
            Figure("foot off square", own),
            Figure("top off square", abs(top)),
            Figure("heel of the board off square", lean),
        ),
        marks=(
            Mark("board's back", up, "from the heel up to the prop's center line"),
            Mark("floor", foot, "from the board's heel back to the prop's center line"),
            Mark("floor", foot + inches(half), "from the heel back to the prop's rear edge"),
        ),
        trace=TRACE,
        test_cut=TEST_CUT,
        axes=AXES,
        formula="prop: tan(its lean) = (foot - up sin(lean)) / (up cos(lean))",
        drawing=_drawing(asked, half, float(board.thickness), length),
        assumed=(APART,) if top < 0 else (),
    )


def _prop(stick: Stick, seen: Seen, length: Fraction, cuts: tuple[float, float]) -> Part:
    """The prop by the cuts of its foot and its top; below 0 the top's long point is in front."""
    foot, top = cuts
    ends = (angled(seen, foot), angled(seen, abs(top)) if abs(top) > 1e-9 else SQUARE)
    lean: Lean = "same" if top < 0 else "opposite"
    return Part("prop", stick.stock, length, ends=ends, ends_lean=lean, measured="center")


def _drawing(asked: Asked, half: float, thick: float, length: Fraction) -> Sketch:
    """Board and prop from the side; `half` is half of the prop's level width."""
    slope, up, foot = radians(asked.angle("lean")), asked.need("up"), asked.need("foot")
    back, high = float(up) * sin(slope), float(up) * cos(slope)
    far = 1.3 * float(up)
    top = (far * sin(slope), far * cos(slope))
    out = float(foot)
    board = (
        (0.0, 0.0), top, (top[0] - thick * cos(slope), top[1] + thick * sin(slope)),
        (-thick / cos(slope), 0.0),
    )  # fmt: skip
    prop = ((out - half, 0.0), (out + half, 0.0), (back + half, high), (back - half, high))
    return Sketch(
        (board, prop),
        (
            Letter("A", ((0.0, 0.0), (back, high)), "up the back of the board", up),
            Letter("B", ((0.0, 0.0), (out, 0.0)), "foot behind the heel", foot, "below"),
            Letter("C", ((out, 0.0), (back, high)), "prop along its center", length),
        ),
        (floor(-thick, max(out + half, top[0])),),
    )
