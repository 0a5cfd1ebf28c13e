"""A job in whole numbers: the common unit of its exact lengths, kerf and trims folded in.

Square parts are exact: the unit divides every length, and a supply that is no multiple of the
items' common step loses what no sum of items could use. Slanted parts are rounded up to the unit,
which is a 256th of an inch or finer for them (`nesting`).
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from fractions import Fraction
from math import gcd, lcm

from service.planning.job import SQUARE, Job, Part, Unplaced, WhyNot
from service.planning.nesting import MOST_GROUPS, Group, Wood, group_of, setups, tip_to_tip
from service.planning.problem import Nest, Problem, Supply
from service.planning.ripping import ways_to_rip

SLANTED_UNIT = 256
MOST_CELLS = 60_000_000
COARSE_STEPS = 30_000
SQUARE_AND_ONE = 2  # groups that one run each serves best: square ends and one kind of slanted ones


@dataclass(frozen=True, slots=True)
class Source:
    """Where a supply comes from: an entry of `for_sale` or `on_hand`, and the wood between
    (from, to) of the board that may be used.
    """

    on_hand: bool
    entry: int
    usable: tuple[Fraction, Fraction]


@dataclass(frozen=True, slots=True)
class Scaled:
    """A problem in whole numbers and how to read its answer.

    `unit`: inches a step. `parts`: for every item, the parts (by place) that it stands for.
    `money`: prices are whole multiples of 1/money. `unplaced`: parts that fit nothing. `widths`:
    what strips of ripped boards measure, by width class. `rounded`: lengths are not exact, but
    rounded to fewer steps. `narrowed`: a better plan may be none of those that are looked at.
    """

    job: Job
    problem: Problem
    unit: Fraction
    parts: tuple[tuple[int, ...], ...]
    sources: tuple[Source, ...]
    groups: tuple[Group, ...]
    money: int
    unplaced: tuple[Unplaced, ...]
    widths: tuple[Fraction, ...]
    rounded: bool
    narrowed: bool

    @property
    def exact(self) -> bool:
        """Whether what is proved of the whole numbers is proved of the job."""
        return not (self.rounded or self.narrowed)

    @property
    def hidden(self) -> list[Fraction]:
        """What the flooring of each supply to whole steps hides, inches."""
        return [
            _room(self.job, source) - supply.capacity * self.unit
            for source, supply in zip(self.sources, self.problem.supplies, strict=True)
        ]


def wood_of(job: Job) -> Wood:
    """The board and the saw of a job."""
    return Wood(job.width, job.thickness, job.kerf)


def _room(job: Job, source: Source) -> Fraction:
    return source.usable[1] - source.usable[0] + job.kerf


def sources_of(job: Job) -> list[Source]:
    """Everything that may be cut: of the store what can be carried, and clear wood on hand.

    A board on hand that is ripped is ripped from end to end, so that of one that defects part only
    the longest clear length is used.
    """
    found, most = [], 1 if is_ripped(job) else None
    for entry, board in enumerate(job.for_sale):
        carried = job.longest is None or board.length <= job.longest
        usable = job.end_trim, board.length - job.end_trim
        if carried and board.at_most != 0 and usable[1] > usable[0]:
            found.append(Source(False, entry, usable))
    for entry, own in enumerate(job.on_hand):
        if own.quantity > 0:
            clear = _clear_wood(job, own.length, own.defects)
            longest = sorted(clear, key=lambda part: part[0] - part[1])[:most]
            found.extend(Source(True, entry, part) for part in sorted(longest))
    return found


def _clear_wood(
    job: Job, length: Fraction, defects: Iterable[tuple[Fraction, Fraction]]
) -> list[tuple[Fraction, Fraction]]:
    """The wood between defects; one narrower than the kerf is cut out with a kerf of its own."""
    start, end = job.end_trim, length - job.end_trim
    clear = []
    for first, last in sorted(defects):
        if first > start:
            clear.append((start, min(first, end)))
            start = first + job.kerf
        start = max(start, last)
    clear.append((start, end))
    return [(a, b) for a, b in clear if b > a]


def scaled(job: Job, *, nested: bool = True, rosy: bool = False) -> Scaled:
    """A job in whole numbers. Without `nested` every slanted part takes a square blank.

    Where exact lengths would take too many steps, pieces are rounded up and boards down to fewer;
    `rosy` rounds the other way, for a bound. `Scaled.rounded` says so. Boards that are ripped give
    square blanks only: a strip's pieces don't nest. Of slanted ends only some kinds nest, each in
    a run of its own. `Scaled.narrowed` says where a plan may be better than what that allows.
    """
    wood, nested = wood_of(job), nested and not is_ripped(job)
    sources = sources_of(job)
    blanks = [tip_to_tip(part, wood) for part in job.parts]
    unplaced = [_why_not(job, part, blank, sources) for part, blank in
                zip(job.parts, blanks, strict=True)]  # fmt: skip
    good = [place for place, why in enumerate(unplaced) if why is None]
    wanted = _groups([job.parts[place] for place in good])
    groups = tuple(wanted[:MOST_GROUPS]) if nested else ()
    parted = is_ripped(job) and any(own.defects for own in job.on_hand)
    narrowed = parted or len(wanted) > (SQUARE_AND_ONE if nested else 0)
    lengths = {}
    for place in good:
        part = job.parts[place]
        group = group_of(part)
        inside = group in groups
        own = part.length + group.each(wood) if inside else blanks[place] + job.kerf
        lengths[place] = own, groups.index(group) if inside else 0
    named = tuple(
        Unplaced(part.id, part.quantity, why)
        for part, why in zip(job.parts, unplaced, strict=True)
        if why is not None
    )
    return _whole(_Sizes(job, sources, groups, lengths, rosy), narrowed, named)


@dataclass(frozen=True, slots=True)
class _Sizes:
    """Exact sizes, before they become whole: for each part its length with a kerf, its group."""

    job: Job
    sources: list[Source]
    groups: tuple[Group, ...]
    lengths: dict[int, tuple[Fraction, int]]
    rosy: bool

    def rooms(self) -> list[Fraction]:
        return [_room(self.job, source) for source in self.sources]

    def whole(self, length: Fraction, down: bool) -> int:
        return int(length // 1) if down is not self.rosy else int(-(-length // 1))


def in_easier_wood(whole: Scaled) -> Job:
    """A job that is never dearer: every piece takes no more than its share of the board.

    Pieces and the kerfs between them don't overlap, so that on a board their sections add up to
    no more than the board's, slanted and side by side as they may lie. A slanted piece counts by
    its center length, and a ripped one by its width as well.
    """
    job, named = whole.job, {part.part for part in whole.unplaced}
    ripped = is_ripped(job)

    def eased(part: Part) -> Part:
        wide = part.width if ripped and part.width else job.width
        share = (wide + job.kerf) / (job.width + job.kerf) if ripped else Fraction(1)
        length = (part.length + job.kerf) * share - job.kerf
        return replace(part, length=length, first=SQUARE, second=SQUARE, width=None)

    parts = tuple(eased(part) for part in job.parts if part.id not in named)
    return replace(job, parts=parts, rips=False)


def _groups(parts: Sequence[Part]) -> list[Group]:
    """The groups of angles, square ones too, where any part is slanted: the most wanted first."""
    if all(part.square for part in parts):
        return []
    wanted: dict[Group, int] = {}
    for part in parts:
        group = group_of(part)
        wanted[group] = wanted.get(group, 0) + part.quantity
    square = Group(((SQUARE, SQUARE),), over=False)
    return [square, *sorted(wanted.keys() - {square}, key=lambda g: (-wanted[g], g.ways))]


def _why_not(job: Job, part: Part, blank: Fraction, sources: Sequence[Source]) -> WhyNot | None:
    if part.width is not None and part.width > job.width > 0:
        return "wider-than-the-board"
    if any(blank <= source.usable[1] - source.usable[0] for source in sources):
        return None
    if not job.for_sale and not job.on_hand:
        return "no-boards"
    sold = any(blank <= board.length - 2 * job.end_trim for board in job.for_sale
               if board.at_most != 0)  # fmt: skip
    return "too-long-to-carry" if sold else "longer-than-any-board"


def _whole(sizes: _Sizes, narrowed: bool, unplaced: tuple[Unplaced, ...]) -> Scaled:
    """Items, supplies and prices as whole numbers."""
    job, groups = sizes.job, sizes.groups
    per_inch, rounded = _per_inch(sizes)
    widths = _widths(job, sizes.lengths)
    items: dict[tuple[int, int, int], list[int]] = {}
    for place, (own, group) in sizes.lengths.items():
        steps = max(1, sizes.whole(own * per_inch, down=False))
        wide = job.parts[place].width or job.width
        key = steps, group, widths.index(wide) if widths else 0
        items.setdefault(key, []).append(place)
    keys = sorted(items, key=lambda key: (-key[0], key[1], key[2]))
    step = 1 if groups else max(1, gcd(*(key[0] for key in keys)))
    ways, all_ways = ways_to_rip(widths, job.width, job.kerf) if widths else ((), True)
    money = _per_money(board.price for board in job.for_sale)
    states, extra = setups(groups, wood_of(job)) if groups else ((), ())
    nest = Nest(
        tuple(key[1] for key in keys),
        states,
        tuple(sizes.whole(one * per_inch, down=False) for one in extra),
    )
    problem = Problem(
        lengths=tuple(key[0] // step for key in keys),
        demands=tuple(sum(job.parts[place].quantity for place in items[key]) for key in keys),
        supplies=tuple(_supplies(sizes, per_inch, step, money, ways)),
        nest=nest if groups else None,
        widths=tuple(key[2] for key in keys) if ways else (),
    )
    return Scaled(
        job, problem, Fraction(step, per_inch), tuple(tuple(items[key]) for key in keys),
        tuple(sizes.sources), groups, money, unplaced, tuple(widths), rounded,
        narrowed or not all_ways,
    )  # fmt: skip


def _supplies(
    sizes: _Sizes, per_inch: int, step: int, money: int, ways: tuple[tuple[int, ...], ...]
) -> Iterator[Supply]:
    job = sizes.job
    for source, room in zip(sizes.sources, sizes.rooms(), strict=True):
        capacity = sizes.whole(room * per_inch, down=True) // step
        if source.on_hand:
            yield Supply(capacity, 0, job.on_hand[source.entry].quantity, ways=ways)
        else:
            board = job.for_sale[source.entry]
            yield Supply(capacity, int(board.price * money), board.at_most, ways=ways)


def _per_inch(sizes: _Sizes) -> tuple[int, bool]:
    """Units an inch: the least that makes every exact length whole; fine for slanted ends.

    Fewer where that would take too long; True says so.
    """
    job, slanted = sizes.job, bool(sizes.groups)
    exact = [own for place, (own, _) in sizes.lengths.items() if job.parts[place].square]
    unit = lcm(*(value.denominator for value in exact))
    if slanted or len(exact) < len(sizes.lengths):
        unit *= -(-SLANTED_UNIT // unit)
    longest = max(sizes.rooms(), default=Fraction(1))
    measure = Fraction(gcd(*(int(own * unit) for own in exact)), unit) if not slanted else 0
    steps = longest / measure if measure else longest * unit
    lots = sum(
        min(job.parts[place].quantity, int(longest // own) + 1).bit_length()
        for place, (own, _) in sizes.lengths.items()
    )
    if steps * lots * 3 ** len(sizes.groups) <= MOST_CELLS:
        return unit, False
    return max(1, int(COARSE_STEPS / longest)), True


def is_ripped(job: Job) -> bool:
    """Whether any part is narrower than the boards, and there is a saw to rip them."""
    return job.rips and any(part.width is not None and part.width < job.width for part in job.parts)


def _widths(job: Job, places: Iterable[int]) -> list[Fraction]:
    """The widths that these parts need, narrowest first; none where no board is ripped."""
    if not is_ripped(job):
        return []
    return sorted({job.parts[place].width or job.width for place in places})


def _per_money(prices: Iterable[Decimal]) -> int:
    return lcm(*(Fraction(price).denominator for price in prices))
