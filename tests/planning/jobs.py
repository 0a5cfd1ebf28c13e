"""Jobs for the tests of boards: written down, drawn at random, and hard ones."""

from decimal import Decimal
from fractions import Fraction
from random import Random

from service.planning.job import ForSale, Job, OnHand, Part

EIGHTH = Fraction(1, 8)


def inches(*lengths: str | int) -> tuple[Part, ...]:
    """Parts of these lengths, one each, named a, b, c and so on."""
    return tuple(Part(chr(97 + i), Fraction(length)) for i, length in enumerate(lengths))


def sold(length: str | int, price: str, at_most: int | None = None) -> ForSale:
    """A board for sale."""
    return ForSale(Fraction(length), Decimal(price), at_most)


def tiny_job(seed: int) -> Job:
    """At most seven square pieces, one to three lengths for sale, sometimes few; offcuts."""
    r = Random(seed)
    grid = r.choice([1, 2, 8])
    kerf = r.choice([Fraction(0), EIGHTH, Fraction(1, 4)])

    def length(low: int, high: int) -> Fraction:
        return Fraction(r.randint(low * grid, high * grid), grid)

    lengths = [length(4, 40) for _ in range(r.randint(1, 4))]
    parts = tuple(Part(f"p{i}", own, r.randint(1, 2)) for i, own in enumerate(lengths))
    while sum(part.quantity for part in parts) > 6:
        parts = parts[:-1]
    few = r.random() < 0.3
    for_sale = tuple(
        ForSale(length(24, 70), Decimal(r.randint(100, 900)) / 100,
                r.randint(0, 2) if few else None)
        for _ in range(r.randint(0 if few else 1, 3))
    )  # fmt: skip
    on_hand = []
    for _ in range(r.choice([0, 0, 1, 2])):
        own = length(6, 45)
        start = own * r.randint(1, 7) / 8
        bad = (start, start + r.choice([Fraction(1, 16), Fraction(2)]))
        on_hand.append(OnHand(own, 1, (bad,) if r.random() < 0.3 else ()))
    return Job(parts, for_sale, tuple(on_hand), kerf, r.choice([Fraction(0), Fraction(1, 2)]),
               r.choice([None, None, Fraction(50)]))  # fmt: skip


def hobby_job(seed: int) -> Job:
    """10 to 60 pieces in 3 to 10 sizes, 2 to 4 lengths at prices out of proportion, offcuts."""
    r = Random(seed)
    grid = r.choice([1, 2, 4, 8, 16])
    count, kinds = r.randint(10, 60), r.randint(3, 10)
    lengths: set[Fraction] = set()
    while len(lengths) < kinds:
        low, high = r.choice([(4, 20), (10, 40), (20, 80)])
        lengths.add(Fraction(r.randint(low * grid, high * grid), grid))
    wanted = dict.fromkeys(sorted(lengths), 1)
    for _ in range(count - kinds):
        wanted[r.choice(sorted(lengths))] += 1
    usual = {96: 398, 120: 598, 144: 748, 192: 1098}
    chosen = sorted(r.sample(sorted(usual), r.randint(2, 4)))
    for_sale = tuple(
        ForSale(Fraction(n), Decimal(int(usual[n] * r.uniform(0.88, 1.15))) / 100) for n in chosen
    )
    on_hand = tuple(OnHand(Fraction(r.randint(96, 640), 8)) for _ in range(r.randint(0, 4)))
    parts = tuple(Part(f"p{i}", n, c) for i, (n, c) in enumerate(wanted.items()))
    trim = r.choice([Fraction(0), EIGHTH, Fraction(1, 4)])
    return Job(parts, for_sale, on_hand, EIGHTH, trim)


def hard_job(seed: int, pieces: int = 90) -> Job:
    """Nearly every piece another length, one board a little over three mean pieces."""
    r = Random(seed)
    parts = tuple(Part(f"p{i}", Fraction(r.randint(16000, 33000), 1000)) for i in range(pieces))
    return Job(parts, (sold(96, "9.00"), sold(72, "6.75"), sold(144, "13.49")), kerf=EIGHTH)


def any_job(seed: int) -> Job:
    """Few pieces with everything at once: narrow parts, few boards, defects, trims, spare ones."""
    r = Random(seed)
    ripped = r.random() < 0.5
    widths = [None, Fraction(5), Fraction(7, 2), Fraction(2), Fraction(1)] if ripped else [None]
    parts = tuple(
        Part(f"p{i}", Fraction(r.randint(20, 400), 8), r.randint(1, 6), width=r.choice(widths))
        for i in range(r.randint(1, 6))
    )
    for_sale = tuple(
        ForSale(Fraction(r.choice([48, 60, 72, 96, 120])), Decimal(r.randint(100, 900)) / 100,
                r.choice([None, 0, 1, 2, 5]))
        for _ in range(r.randint(0, 3))
    )  # fmt: skip
    on_hand = []
    for _ in range(r.randint(0, 3)):
        length, at = Fraction(r.randint(20, 100)), Fraction(r.randint(1, 19))
        bad = (at, at + Fraction(r.randint(1, 8), 16)), (at / 2, at / 2 + 1)
        on_hand.append(OnHand(length, r.randint(1, 3), bad if r.random() < 0.5 else ()))
    return Job(
        parts, for_sale, tuple(on_hand), EIGHTH, r.choice([Fraction(0), Fraction(1, 4)]),
        r.choice([None, Fraction(80)]), Fraction(12), r.choice([0, 0, 2]), Fraction(45, 4),
        Fraction(3, 4), ripped,
    )  # fmt: skip
