"""Rules about finishes: what blotches, what comes in the wrong order, what has not cured."""

from collections.abc import Iterator
from fractions import Fraction

from service.domain.build import Step
from service.domain.findings import Mend, Spot, rule
from service.domain.finish_values import Finishing
from service.domain.finishing import cured, finish_of, handled, recoat
from service.domain.resolving import ResolvedBuild

SEALS = frozenset({"film", "paint", "wax", "oil"})
OPEN = frozenset({"stain", "conditioner"})  # what must reach bare wood
INDOORS_ONLY = frozenset({"shellac", "paste-wax", "mineral-oil"})
BLOTCHES = ("pine", "fir", "spruce", "hemlock", "birch", "maple", "cherry", "aspen", "poplar")


def coats(build: ResolvedBuild) -> list[tuple[int, Step, Finishing]]:
    """Every step that lays on a finish which the tables have."""
    found = []
    for index, step in enumerate(build.build.steps):
        finish = finish_of(build, step) if step.do in ("finish", "stain") else None
        if finish is not None:
            found.append((index, step, finish))
    return found


def overlap(one: Step, other: Step) -> bool:
    """Whether two steps are about the same parts; a step that names none is about all."""
    return not one.parts or not other.parts or bool(set(one.parts) & set(other.parts))


@rule(
    "finish.blotches", title="Stain may take unevenly", severity="note", basis="practice",
    numbers={"wood": "word", "finish": "word"},
)  # fmt: skip
def blotches(build: ResolvedBuild) -> Iterator[Spot]:
    """Softwoods and some close-grained hardwoods soak up stain in some spots more than in others.

    A conditioner before the stain evens it out, and a gel stain blotches least.
    """
    woods = [p.wood for p in build.parts if p.wood is not None]
    prone = [w for w in woods if w.key == "spf" or any(n in w.key for n in BLOTCHES)]
    conditioned: list[Step] = []
    for index, step, finish in coats(build):
        if finish.kind == "conditioner":
            conditioned.append(step)
        evened = any(overlap(step, one) for one in conditioned)
        if finish.kind != "stain" or finish.key == "gel-stain" or evened or not prone:
            continue
        yield Spot(
            at=f"#/steps/{index}/finish",
            detail=f"{finish.name} on {prone[0].name} often comes out blotchy.",
            numbers={"wood": prone[0].key, "finish": finish.key},
            mend=Mend("Lay on a conditioner first, or take a gel stain; try it on an offcut."),
            rests_on=("finish_values/gel-stain.blotch", "finishes/pre-stain-conditioner"),
        )


@rule(
    "finish.order", title="A coat comes after one that keeps it from the wood", severity="warn",
    basis="practice", numbers={"finish": "word", "after": "word"},
)  # fmt: skip
def order(build: ResolvedBuild) -> Iterator[Spot]:
    """Stain and conditioner must reach bare wood; over varnish, paint, oil or wax they can't.

    Nothing but more wax holds on wax.
    """
    before: list[tuple[Step, Finishing]] = []
    for index, step, finish in coats(build):
        for earlier, under in before:
            sealed = finish.kind in OPEN and finish.key != "gel-stain" and under.kind in SEALS
            waxed = under.kind == "wax" and finish.kind != "wax"
            if overlap(step, earlier) and (sealed or waxed):
                yield Spot(
                    at=f"#/steps/{index}/finish",
                    detail=f"{finish.name} goes on after {under.name}, and does not take there.",
                    numbers={"finish": finish.key, "after": under.key},
                    mend=Mend(f"Lay on {finish.name} before {under.name}."),
                    rests_on=(f"finishes/{finish.key}", f"finishes/{under.key}"),
                )
                break
        before.append((step, finish))


@rule(
    "finish.unfit", title="The finish does not suit the place", severity="warn", basis="practice",
    numbers={"finish": "word", "where": "word"},
)  # fmt: skip
def unfit(build: ResolvedBuild) -> Iterator[Spot]:
    """Wax, shellac and mineral oil give little against water, and weather takes them off soon.

    What counts is the last coat on a part, under open sky or under a roof outdoors.
    """
    where = build.build.place.where
    if where not in ("outdoors", "covered"):
        return
    laid = coats(build)
    for place, (index, step, finish) in enumerate(laid):
        covered = any(overlap(step, later) for _, later, _ in laid[place + 1 :])
        if finish.key in INDOORS_ONLY and not covered:
            yield Spot(
                at=f"#/steps/{index}/finish",
                detail=f"{finish.name} as the last coat does not last where water comes to it.",
                numbers={"finish": finish.key, "where": where},
                mend=Mend("Take a finish whose label says that it is for outdoors."),
                rests_on=(f"finishes/{finish.key}",),
            )


@rule(
    "finish.not-cured", title="The finish has not had its time", severity="warn",
    basis="practice", numbers={"waited": "count", "least": "count"},
)  # fmt: skip
def not_cured(build: ResolvedBuild) -> Iterator[Spot]:
    """A coat takes its time to dry, and far longer to cure.

    Where the steps say how long is waited, that is held against the shortest time that is printed:
    to the next coat, to handling, and to use.
    """
    last: tuple[Step, Finishing] | None = None
    waited, stated = Fraction(0), False
    for index, step in enumerate(build.build.steps):
        if step.do == "wait":
            waited += step.hours or (step.minutes or Fraction(0)) / 60
            stated = True
            continue
        if last is not None and overlap(step, last[0]):
            yield from _early(build, index, last[1], waited, stated)
        finish = finish_of(build, step) if step.do in ("finish", "stain") else None
        if finish is not None:
            last, waited, stated = (step, finish), Fraction(0), False


def _early(
    build: ResolvedBuild, index: int, under: Finishing, waited: Fraction, stated: bool
) -> Iterator[Spot]:
    step = build.build.steps[index]
    times = {
        "use": cured(under),
        "finish": recoat(under, build.build.place.temperature),
        "stain": recoat(under, build.build.place.temperature),
        "assemble": handled(under),
        "glue": handled(under),
    }
    needs = times.get(step.do)
    told = stated or step.do == "use"
    if needs is None or not told or waited >= needs.low or under.kind == "conditioner":
        return
    yield Spot(
        at=f"#/steps/{index}",
        detail=(
            f"{under.name} has had {float(waited):g} h; for that the tables give at least "
            f"{float(needs.low):g} h. The label wins."
        ),
        numbers={"waited": float(waited), "least": float(needs.low)},
        mend=Mend(f"Wait {float(needs.low):g} h or as long as the label says."),
        rests_on=needs.rests_on,
    )
