"""The most that a sheet can be worth when it is cut edge to edge, panels repeated at will.

Exact on the normal points (the sums of panel sizes) of a grid. Where the grid is coarser than a
step, sizes are floored to it, and by induction over the cuts the values are no lower than the
true ones: an upper bound. Cells on one diagonal don't depend on each other and are done at once.
Method: Gilmore and Gomory 1966 with Herz's normal points (1972), from memory.
"""

from collections.abc import Iterable, Sequence

import numpy as np
from numpy.typing import NDArray

from service.planning.panels.lots import Lot

Reals = NDArray[np.float64]
Places = NDArray[np.int64]

FINEST = 3_000_000
"""Pairs of pieces that one table may weigh; a finer grid than that is floored."""

LONGEST = 1 << 16
"""Points of the grid along a sheet, at most."""


class Guillotine:
    """Tables of cuts for the sheets with grain, or for those without."""

    def __init__(self, lot: Lot, grained: bool, most: int = FINEST) -> None:
        stocks = [stock for stock in lot.stocks if stock.grained == grained]
        self._width = max(stock.width for stock in stocks)
        self._height = max(stock.height for stock in stocks)
        self._all = [
            pose
            for pose in lot.poses(grained)
            if pose.width <= self._width and pose.height <= self._height
        ]
        self.grid = 1
        while max(self._width, self._height) // self.grid > LONGEST or not self._lay(lot, most):
            self.grid *= 2
        self._pair()
        self._kinds = np.array([pose.kind for pose in self.poses], dtype=np.int64)
        widths = np.array([pose.width for pose in self.poses], dtype=np.int64)
        heights = np.array([pose.height for pose in self.poses], dtype=np.int64)
        self._corner_x = self._x_of[widths // self.grid]
        self._corner_y = self._y_of[heights // self.grid]

    @property
    def thin(self) -> set[int]:
        """Kinds thinner than the grid: they are left out, as if they were worth nothing."""
        return self._thin

    def _lay(self, lot: Lot, most: int) -> bool:
        """Lay out the normal points; False where they are too many."""
        g = self.grid
        self.poses = [pose for pose in self._all if min(pose.width, pose.height) >= g]
        self._thin = {pose.kind for pose in self._all} - {pose.kind for pose in self.poses}
        across = [(pose.width // g, lot.kinds[pose.kind].count) for pose in self.poses]
        along = [(pose.height // g, lot.kinds[pose.kind].count) for pose in self.poses]
        self.xs = _points(across, self._width // g)
        self.ys = _points(along, self._height // g)
        self._x_of = np.searchsorted(self.xs, np.arange(self._width // g + 1), side="right") - 1
        self._y_of = np.searchsorted(self.ys, np.arange(self._height // g + 1), side="right") - 1
        nx, ny = len(self.xs), len(self.ys)
        return nx * ny * (nx + ny) // 4 <= most or max(nx, ny) <= 8

    def _pair(self) -> None:
        """List, diagonal by diagonal, the two pieces of every cut of every cell."""
        nx, ny = len(self.xs), len(self.ys)
        x_cuts = [_halves(self.xs, self._x_of, a) for a in range(nx)]
        y_cuts = [_halves(self.ys, self._y_of, b) for b in range(ny)]
        many_x = np.array([len(one) for one, _ in x_cuts])
        many_y = np.array([len(one) for one, _ in y_cuts])
        a, b = np.divmod(np.arange(nx * ny), ny)
        self._cells = np.argsort(a + b, kind="stable")
        lengths = (many_x[a] + many_y[b])[self._cells]
        ends = np.cumsum(lengths)
        flat = np.empty(nx * ny, dtype=np.int64)
        flat[self._cells] = ends - lengths
        starts = flat.reshape(nx, ny)
        self._one = np.empty(int(ends[-1]), dtype=np.int32)
        self._two = np.empty(int(ends[-1]), dtype=np.int32)
        for place, (one, two) in enumerate(x_cuts):
            where = starts[place][:, None] + np.arange(len(one))
            self._one[where] = one * ny + np.arange(ny)[:, None]
            self._two[where] = two * ny + np.arange(ny)[:, None]
        for place, (one, two) in enumerate(y_cuts):
            where = (starts[:, place] + many_x)[:, None] + np.arange(len(one))
            self._one[where] = one + (np.arange(nx) * ny)[:, None]
            self._two[where] = two + (np.arange(nx) * ny)[:, None]
        self._starts = ends - lengths
        self._lengths = lengths
        self._diagonals = np.searchsorted((a + b)[self._cells], np.arange(nx + ny))

    @property
    def pairs(self) -> int:
        """Pairs of pieces that one table weighs."""
        return len(self._one)

    def values(self, worth: Sequence[float] | Reals) -> Reals:
        """The most that every cell can be worth, at the worth of each kind."""
        table = self._single(worth)
        flat, ny = table.reshape(-1), table.shape[1]
        for low, high in zip(self._diagonals[:-1], self._diagonals[1:], strict=True):
            cells = self._cells[low:high]
            best = flat[cells]
            left, below = cells >= ny, cells % ny > 0
            best[left] = np.maximum(best[left], flat[cells[left] - ny])
            best[below] = np.maximum(best[below], flat[cells[below] - 1])
            cuttable = np.nonzero(self._lengths[low:high])[0]
            if len(cuttable):
                begin = self._starts[low]
                end = self._starts[high - 1] + self._lengths[high - 1]
                both = flat[self._one[begin:end]] + flat[self._two[begin:end]]
                sums = np.maximum.reduceat(both, self._starts[low:high][cuttable] - begin)
                best[cuttable] = np.maximum(best[cuttable], sums)
            flat[cells] = best
        return table

    def _single(self, worth: Sequence[float] | Reals) -> Reals:
        table = np.zeros((len(self.xs), len(self.ys)))
        own = np.asarray(worth, dtype=np.float64)[self._kinds]
        np.maximum.at(table, (self._corner_x, self._corner_y), own)
        return table

    def worth_of(self, table: Reals, width: int, height: int) -> float:
        """The most that a sheet of a size can be worth."""
        return float(table[self._x_of[width // self.grid], self._y_of[height // self.grid]])

    def pattern(
        self, table: Reals, worth: Sequence[float] | Reals, width: int, height: int
    ) -> dict[int, int]:
        """How many of each kind come out of a sheet that is worth the most."""
        found: dict[int, int] = {}
        waiting = [(int(self._x_of[width // self.grid]), int(self._y_of[height // self.grid]))]
        while waiting:
            x, y = waiting.pop()
            if table[x, y] <= 0:
                continue
            kind = self._lone(table, worth, x, y)
            if kind is None:
                waiting.extend(self._cut_of(table, x, y))
            else:
                found[kind] = found.get(kind, 0) + 1
        return found

    def _lone(self, table: Reals, worth: Sequence[float] | Reals, x: int, y: int) -> int | None:
        """A kind that alone is worth as much as the cell, if there is one."""
        own = np.asarray(worth, dtype=np.float64)[self._kinds]
        does = (self._corner_x <= x) & (self._corner_y <= y) & (own >= table[x, y])
        return int(self._kinds[int(does.argmax())]) if does.any() else None

    def _cut_of(self, table: Reals, x: int, y: int) -> Iterable[tuple[int, int]]:
        value = table[x, y]
        if x > 0 and table[x - 1, y] >= value:
            return [(x - 1, y)]
        if y > 0 and table[x, y - 1] >= value:
            return [(x, y - 1)]
        one, two = _halves(self.xs, self._x_of, x)
        if len(one):
            sums = table[one, y] + table[two, y]
            best = int(sums.argmax())
            if sums[best] >= value:
                return [(int(one[best]), y), (int(two[best]), y)]
        one, two = _halves(self.ys, self._y_of, y)
        best = int((table[x, one] + table[x, two]).argmax())
        return [(x, int(one[best])), (x, int(two[best]))]


def _halves(points: Places, place_of: Places, place: int) -> tuple[Places, Places]:
    """The two parts of every cut of a size at a normal point, the smaller first."""
    size = points[place]
    one = np.arange(1, int(np.searchsorted(points, size // 2, side="right")))
    return one, place_of[size - points[one]]


def _points(sizes: Iterable[tuple[int, int]], most: int) -> Places:
    """The sums of sizes, each used at most as often as it is wanted, up to a largest."""
    reached, mask = 1, (1 << (most + 1)) - 1
    for size, count in sizes:
        if size <= 0:
            return np.arange(most + 1)
        left, step = min(count, most // size), 1
        while left > 0:
            take = min(step, left)
            reached |= (reached << (size * take)) & mask
            left -= take
            step *= 2
    raw = np.frombuffer(reached.to_bytes(most // 8 + 1, "little"), dtype=np.uint8)
    return np.nonzero(np.unpackbits(raw, bitorder="little")[: most + 1])[0]
