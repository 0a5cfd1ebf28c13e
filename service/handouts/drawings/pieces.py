"""One piece on its board: its outline seen from above, both points of a slanted end, its words."""

from dataclasses import dataclass
from fractions import Fraction

from service.domain.drawing import Spot
from service.domain.ends import Slant
from service.handouts.drawings.pens import Pen
from service.planning.job import SQUARE, Job, Piece
from service.planning.nesting import Wood
from service.planning.scaling import wood_of


@dataclass(frozen=True, slots=True)
class Lying:
    """A piece as it lies, the near edge of the board toward the builder. All inches.

    Points are marks along the board's tape on the upper face: at the near and at the far edge.
    """

    piece: Piece
    wood: Wood
    width: Fraction
    ripped: bool = False

    @property
    def left(self) -> tuple[Fraction, Fraction]:
        """Where the left cut meets the near and the far edge of the upper face."""
        own = self.piece.left
        center = self.piece.start + self.wood.overhang(own)
        return self._ends(center, own, -1)

    @property
    def right(self) -> tuple[Fraction, Fraction]:
        """Where the right cut meets the near and the far edge of the upper face."""
        own = self.piece.right
        center = self.piece.end - self.wood.overhang(own)
        return self._ends(center, own, 1)

    @property
    def under(self) -> tuple[tuple[Fraction, Fraction], tuple[Fraction, Fraction]]:
        """The same points on the face that lies down."""
        left, right = self.piece.left, self.piece.right
        return (
            self._ends(self.piece.start + self.wood.overhang(left), left, -1, -1),
            self._ends(self.piece.end - self.wood.overhang(right), right, 1, -1),
        )

    def _ends(
        self, center: Fraction, slant: Slant, outward: int, up: int = 1
    ) -> tuple[Fraction, Fraction]:
        across, through = slant.across * self.width / 2, slant.through * self.wood.thickness / 2
        return center + outward * (up * through - across), center + outward * (
            up * through + across
        )

    @property
    def slanted(self) -> bool:
        """Whether an end is not square."""
        return self.piece.left != SQUARE or self.piece.right != SQUARE


def lying(piece: Piece, job: Job, width: Fraction) -> Lying:
    """A piece on a board, or on a strip, of this width; narrower where it is ripped once more."""
    own = next((part.width for part in job.parts if part.id == piece.part), None)
    narrow = own is not None and own < width
    return Lying(piece, wood_of(job), own if own is not None and narrow else width, narrow)


def outline(
    left: tuple[Fraction, Fraction], right: tuple[Fraction, Fraction], far: Fraction
) -> tuple[tuple[Fraction, Fraction], ...]:
    """Four corners, inches along and across the board, the near edge at 0."""
    zero = Fraction(0)
    return ((left[0], zero), (right[0], zero), (right[1], far), (left[1], far))


def piece_words(one: Lying, pen: Pen, stop: int | None) -> str:
    """Letter, part, both tape marks and how it lies, in a sentence."""
    piece = one.piece
    long = f"{pen.say(piece.end - piece.start)} {'tip to tip' if one.slanted else 'long'}"
    place = f"{pen.short(piece.start)} to {pen.short(piece.end)}"
    words = [f"{pen.named(piece.part)}: {place}, {long}"]
    words += [
        f"{side} end from {pen.short(near)} (near edge) to {pen.short(far)} (far edge)"
        for side, slant, (near, far) in (
            ("left", piece.left, one.left), ("right", piece.right, one.right)
        )
        if slant.across
    ]  # fmt: skip
    words += [
        f"{side} end beveled, {'longer' if off > 0 else 'shorter'} underneath by "
        f"{pen.short(abs(off))}"
        for side, off in (("left", one.left[0] - one.under[0][0]),
                          ("right", one.under[1][0] - one.right[0]))
        if off
    ]  # fmt: skip
    words += [f"ripped to {pen.say(one.width)} wide"] if one.ripped else []
    words += ["turned end for end"] if piece.turned else []
    words += ["front face down"] if piece.over else []
    words += [f"stop block {stop}"] if stop else []
    return "; ".join(words)


def along(spots: tuple[tuple[Fraction, Fraction], ...], origin: Spot, scale: float,
          start: Fraction) -> tuple[Spot, ...]:  # fmt: skip
    """Inches on the board as points on paper; `origin` is where `start` meets the near edge."""
    x, y = origin
    return tuple((x + float(a - start) * scale, y - float(b) * scale) for a, b in spots)
