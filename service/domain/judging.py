"""Runs judged: do they close, do they fit, and if not, why and by how much."""

from fractions import Fraction
from typing import Literal

from service.domain.runs import PieceSize, ResolvedRun
from service.domain.values import dataclass, replace

Verdict = Literal["not-judged", "closes", "nominal", "off", "does-not-fit", "tight"]
AtSize = Literal["every size", "listed size", "thick end"]


@dataclass(frozen=True, slots=True)
class Judgment:
    """What is wrong with a run, if anything.

    `by` is the sum less what it should be, inches, at the size that `fails_at` names.
    `taken_for_nominal` names the stocks whose printed sizes make the run close.
    """

    verdict: Verdict
    by: Fraction = Fraction(0)
    fails_at: AtSize = "every size"
    taken_for_nominal: tuple[str, ...] = ()
    nominal_total: Fraction = Fraction(0)


def judge(run: ResolvedRun) -> Judgment:
    """Whether a run closes or fits, at the listed sizes and at both ends of every tolerance."""
    if run.total is None or run.target is None:
        return Judgment("not-judged")
    found = judge_opening(run) if run.run.fits is not None else judge_sum(run)
    if found.verdict in ("off", "does-not-fit") and (taken := taken_for_nominal(run)):
        names, total = taken
        return replace(found, verdict="nominal", taken_for_nominal=names, nominal_total=total)
    return found


def judge_sum(run: ResolvedRun) -> Judgment:
    """A sum that must equal a size, give or take `within`."""
    assert run.total is not None and run.target is not None
    by, within = run.total.listed - run.target.listed, run.run.within
    if -within <= by <= within:
        return Judgment("closes", by)
    low, high = run.total.low - run.target.high, run.total.high - run.target.low
    some_size_closes = low <= within and high >= -within
    return Judgment("off", by, "listed size" if some_size_closes else "every size")


def judge_opening(run: ResolvedRun) -> Judgment:
    """A sum that must go into an opening: over the opening it does not fit, over it less the
    clearance it is tight. Exact, but for sums with an angle in them, which are held `within`."""
    assert run.total is not None and run.target is not None and run.run.fits is not None
    total, target = run.total, run.target.listed
    play = run.run.within if run.angled else Fraction(0)
    opening = run.run.fits + play
    if total.listed > opening:
        at: AtSize = "every size" if total.low > opening else "listed size"
        return Judgment("does-not-fit", total.listed - target, at)
    if total.listed > target + play:
        return Judgment("tight", total.listed - target, "listed size")
    if total.high > opening:
        return Judgment("tight", total.high - target, "thick end")
    return Judgment("closes", total.listed - target)


def taken_for_nominal(run: ResolvedRun) -> tuple[tuple[str, ...], Fraction] | None:
    """The stocks whose printed sizes, put in place of the real ones, make the run close.

    Tries every size in a name at once, then only thicknesses, then only widths. Gives the stock
    names and the sum that comes out with them.
    """
    assert run.total is not None and run.target is not None
    within = run.run.within if run.run.fits is None else Fraction(0)
    for along in (("thickness", "width"), ("thickness",), ("width",)):
        named = [p for p in run.pieces if p.nominal is not None and p.piece.along in along]
        if not named:
            continue
        total = run.total.listed + sum((nominal_gain(p) for p in named), Fraction(0))
        target = run.target.listed
        if run.equals and run.equals.piece.along in along:
            target += nominal_gain(run.equals)
        if abs(total - target) <= within:
            return tuple(dict.fromkeys(p.stock for p in named)), total
    return None


def nominal_gain(size: PieceSize) -> Fraction:
    """What a piece would add to the sum if its printed size were its real one."""
    if size.nominal is None:
        return Fraction(0)
    return size.times * (size.nominal - size.each.listed)
