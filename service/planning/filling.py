"""Plans by rules of thumb: longest pieces first, every stock tried as the main one.

They give the first plan at once, and the plain plan that the proven one is compared with.
"""

from collections import Counter
from collections.abc import Iterator, Sequence

from service.domain.deadline import kept_time
from service.planning.problem import Column, Cut, Cuts, Nest, Pattern, Problem, cost_of
from service.planning.ripping import longest_first

MOST_PIECES_BEST_FIT = 400


def fill(problem: Problem, left: Sequence[int], supply: int) -> Pattern:
    """One board filled longest piece first, from what is left to cut."""
    board = problem.supplies[supply]
    if board.single:
        item = next(item for item, count in enumerate(left) if count)
        return ((item, 1),)
    if board.ways:
        return _fill_strips(problem, left, supply)
    if problem.nest is not None:
        return _fill_nested(problem, problem.nest, left, board.capacity)
    room, pattern = board.capacity, []
    for item, count in enumerate(left):
        taken = min(count, room // problem.lengths[item])
        if taken:
            pattern.append((item, taken))
            room -= taken * problem.lengths[item]
    return tuple(pattern)


def _fill_nested(problem: Problem, nest: Nest, left: Sequence[int], capacity: int) -> Pattern:
    pattern: Pattern = ()
    for item, count in enumerate(left):
        taken = min(count, (capacity + nest.relief) // problem.lengths[item])
        while taken and problem.steps((*pattern, (item, taken))) > capacity:
            taken -= 1
        if taken:
            pattern = (*pattern, (item, taken))
    return pattern


def _fill_strips(problem: Problem, left: Sequence[int], supply: int) -> Pattern:
    board, longest = problem.supplies[supply], -1
    best: list[Pattern] = []
    wanted = {item: count for item, count in enumerate(left) if count}
    for way in kept_time(board.ways):
        loads = longest_first(problem, wanted, way, board.capacity)
        total = sum(problem.lengths[item] * count for load in loads for item, count in load)
        if total > longest:
            best, longest = loads, total
    counts = Counter[int]()
    for load in best:
        counts.update(dict(load))
    return tuple(sorted(counts.items()))


def first_fit(problem: Problem, order: Sequence[int]) -> Cuts | None:
    """Fill board after board of the supplies in an order; None when they run out.

    Filling one board with the longest that still fits, then the next, is what first-fit
    decreasing comes to; alike boards are counted, not repeated.
    """
    left, cuts = list(problem.demands), list[Cut]()
    for supply in order:
        stock = problem.supplies[supply].limit
        while any(left) and (stock is None or stock > 0):
            pattern = fill(problem, left, supply)
            if not pattern:
                break
            times = min(left[item] // count for item, count in pattern)
            times = max(1, times if stock is None else min(times, stock))
            for item, count in pattern:
                left[item] -= count * times
            cuts.append(Cut(supply, pattern, times))
            stock = None if stock is None else stock - times
    return None if any(left) else tuple(cuts)


def best_fit(problem: Problem, order: Sequence[int]) -> Cuts | None:
    """Longest piece first, each into the open board that it fills best; None if boards run out."""
    stocks = [supply.limit for supply in problem.supplies]
    rooms: list[int] = []
    boards: list[tuple[int, dict[int, int]]] = []
    for item, demand in enumerate(problem.demands):
        length = problem.lengths[item]
        for _ in range(demand):
            place = min(
                (p for p, room in enumerate(rooms) if room >= length),
                key=rooms.__getitem__, default=None,
            )  # fmt: skip
            if place is None:
                supply = next(
                    (k for k in order
                     if stocks[k] != 0 and problem.supplies[k].capacity >= length), None,
                )  # fmt: skip
                if supply is None:
                    return None
                limit = stocks[supply]
                stocks[supply] = None if limit is None else limit - 1
                place = len(rooms)
                single = problem.supplies[supply].single
                rooms.append(length if single else problem.supplies[supply].capacity)
                boards.append((supply, {}))
            rooms[place] -= length
            counts = boards[place][1]
            counts[item] = counts.get(item, 0) + 1
    return tuple(Cut(supply, tuple(sorted(counts.items())), 1) for supply, counts in boards)


def shrunk(problem: Problem, cuts: Cuts) -> Cuts:
    """Every board exchanged for the cheapest one that still holds its pieces."""
    if any(supply.ways for supply in problem.supplies):
        return cuts
    left = [supply.limit for supply in problem.supplies]
    for cut in cuts:
        limit = left[cut.supply]
        left[cut.supply] = None if limit is None else limit - cut.times
    changed: list[Cut] = []
    for cut in sorted(cuts, key=lambda cut: -problem.steps(cut.pattern)):
        need, pieces = problem.steps(cut.pattern), sum(count for _, count in cut.pattern)
        best = cut.supply
        for place, supply in enumerate(problem.supplies):
            room, stock = supply.capacity >= need, left[place]
            enough = stock is None or stock >= cut.times
            fits = room and (pieces == 1 or not supply.single)
            if fits and enough and supply.price < problem.supplies[best].price:
                best = place
        for place, sign in ((cut.supply, 1), (best, -1)):
            stock = left[place]
            left[place] = None if stock is None else stock + sign * cut.times
        changed.append(Cut(best, cut.pattern, cut.times))
    return tuple(changed)


def orders(problem: Problem) -> Iterator[list[int]]:
    """Orders to open boards in: each endless supply as the main one, offcuts first or last."""
    supplies = problem.supplies
    every = range(len(supplies))
    last = [k for k in every if supplies[k].single]
    main = [k for k in every if supplies[k].limit is None and k not in last]
    few = sorted((k for k in every if k not in main and k not in last),
                 key=lambda k: (supplies[k].price > 0, supplies[k].capacity, k))  # fmt: skip
    for first in main:
        rest = sorted((k for k in main if k != first), key=lambda k: (supplies[k].price, k))
        yield [*few, first, *rest, *last]
        if few:
            yield [first, *few, *rest, *last]
    if not main:
        yield [*few, *last]
        yield [*sorted(few, key=lambda k: (supplies[k].price > 0, -supplies[k].capacity, k)), *last]


def by_rules_of_thumb(problem: Problem) -> Cuts | None:
    """The cheapest plan among all orders, first-fit and best-fit; None if none of them works."""
    best: tuple[int, Cuts] | None = None
    small = problem.plain and problem.pieces <= MOST_PIECES_BEST_FIT
    for order in kept_time(orders(problem)):
        for method in (first_fit, best_fit) if small else (first_fit,):
            cuts = method(problem, order)
            if cuts is not None:
                cuts = shrunk(problem, cuts)
                cost = cost_of(problem, cuts)
                if best is None or cost < best[0]:
                    best = cost, cuts
    return None if best is None else best[1]


def columns_of(cuts: Cuts) -> list[Column]:
    """The columns that some cuts use."""
    return [Column(cut.supply, cut.pattern) for cut in cuts]
