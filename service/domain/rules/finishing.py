"""Rules about finishes: what blotches, what comes in the wrong order, what has not cured."""

from collections.abc import Iterator
from fractions import Fraction

from service.domain.build import Step
from service.domain.catalog import Wood
from service.domain.findings import Mend, Spot, rule
from service.domain.finish_values import Finishing
from service.domain.finishing import (
    cured,
    finish_of,
    handled,
    little_against_water,
    recoat,
    wants_top_coat,
)
from service.domain.resolving import ResolvedBuild

SEALS = frozenset({"film", "paint", "wax", "oil"})
OPEN = frozenset({"stain", "conditioner"})  # what must reach bare wood
PAINTED = frozenset({"paint", "primer"})  # sanded coarser between coats than the table tells
WEATHER = frozenset({"outdoors", "covered"})
WET = WEATHER | {"damp"}


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
    conditioned: list[Step] = []
    for index, step, finish in coats(build):
        if finish.kind == "conditioner":
            conditioned.append(step)
        found = prone(build, step, finish)
        if found is None or any(overlap(step, one) for one in conditioned):
            continue
        wood, row = found
        yield Spot(
            at=f"#/steps/{index}/finish",
            detail=f"{finish.name} on {wood.name} often comes out blotchy.",
            numbers={"wood": wood.key, "finish": finish.key},
            mend=Mend("Lay on a conditioner first, or take a gel stain; try it on an offcut."),
            rests_on=(row, "finish_values/gel-stain.blotch", "finishes/pre-stain-conditioner"),
        )


def prone(build: ResolvedBuild, step: Step, finish: Finishing) -> tuple[Wood, str] | None:
    """The first wood under a coat that a row says it blotches on, and that row."""
    told = [
        (named.removeprefix("blotches-on "), figure.row)
        for named, figure in finish.figures.items()
        if named.startswith("blotches-on ") and figure.words == "yes"
    ]
    for part in build.parts if told else ():
        if part.wood is not None and (not step.parts or part.part.id in step.parts):
            for name, row in told:
                if name in part.wood.key:
                    return part.wood, row
    return None


@rule(
    "finish.order", title="Work comes after a coat that it spoils, or that keeps it off",
    severity="warn", basis="practice", numbers={"work": "word", "after": "word"},
)  # fmt: skip
def order(build: ResolvedBuild) -> Iterator[Spot]:
    """Stain and conditioner must reach bare wood; over varnish, paint, oil or wax they can't.

    Nothing but more wax holds on wax. Paper coarser than what is usual between coats goes through
    a coat, paint left aside; a cut lays bare wood, unless a later coat covers it.
    """
    before: list[tuple[Step, Finishing]] = []
    for index, step in enumerate(build.build.steps):
        finish = finish_of(build, step) if step.do in ("finish", "stain") else None
        under = [coat for earlier, coat in before if overlap(step, earlier)]
        if finish is not None:
            yield from _held_off(index, finish, under)
            before.append((step, finish))
        elif step.do == "sand":
            yield from _sanded(build, index, under)
        elif step.do == "cut":
            yield from _laid_bare(build, index, under)


def _held_off(index: int, finish: Finishing, under: list[Finishing]) -> Iterator[Spot]:
    for coat in under:
        sealed = finish.kind in OPEN and finish.key != "gel-stain" and coat.kind in SEALS
        if sealed or (coat.kind == "wax" and finish.kind != "wax"):
            yield Spot(
                at=f"#/steps/{index}/finish",
                detail=f"{finish.name} goes on after {coat.name}, and does not take there.",
                numbers={"work": finish.key, "after": coat.key},
                mend=Mend(f"Lay on {finish.name} before {coat.name}."),
                rests_on=(f"finishes/{finish.key}", f"finishes/{coat.key}"),
            )
            return


def _sanded(build: ResolvedBuild, index: int, under: list[Finishing]) -> Iterator[Spot]:
    grit, usual = build.build.steps[index].grit, build.catalog.grits.get("between-coats")
    coats = [coat for coat in under if coat.kind not in PAINTED]
    if grit is None or usual is None or not coats or grit >= usual.least:
        return
    yield Spot(
        at=f"#/steps/{index}/grit",
        detail=(
            f"Grit {grit} after {coats[-1].name} goes through the coat; between coats "
            f"{float(usual.least):g} or finer is usual."
        ),
        numbers={"work": "sand", "after": coats[-1].key},
        mend=Mend(f"Sand before {coats[-1].name}, or take grit {float(usual.least):g} or finer."),
        rests_on=(usual.row, f"finishes/{coats[-1].key}"),
    )


def _laid_bare(build: ResolvedBuild, index: int, under: list[Finishing]) -> Iterator[Spot]:
    step = build.build.steps[index]
    later = any(at > index and overlap(step, one) for at, one, _ in coats(build))
    if under and not later:
        yield Spot(
            at=f"#/steps/{index}/do",
            detail=f"A cut after {under[-1].name} leaves bare wood that no coat covers.",
            numbers={"work": "cut", "after": under[-1].key},
            mend=Mend(f"Cut before {under[-1].name}, or coat the cut again."),
            rests_on=(f"finishes/{under[-1].key}",),
        )


@rule(
    "finish.unfit", title="The last coat does not suit the place", severity="warn",
    basis="practice", numbers={"finish": "word", "where": "word"},
)  # fmt: skip
def unfit(build: ResolvedBuild) -> Iterator[Spot]:
    """Wax, shellac and mineral oil give little against water; a stain wants a top coat over it.

    What counts is the last coat on a part: in the weather it is a warning, in a damp room a note.
    A stain left bare warns where a maker prints that it needs a top coat, and is a note where
    that is common practice alone.
    """
    where, laid = build.build.place.where, coats(build)
    late = {spot.at for spot in order.find(build)}
    for place, (index, step, finish) in enumerate(laid):
        at = f"#/steps/{index}/finish"
        if at in late or any(overlap(step, later) for _, later, _ in laid[place + 1 :]):
            continue
        numbers = {"finish": finish.key, "where": where or "indoors"}
        bare, weak = wants_top_coat(finish), little_against_water(finish)
        if bare is not None:
            yield Spot(
                at=at,
                detail=f"{finish.name} is left without a top coat.",
                numbers=numbers,
                mend=Mend("Lay a clear coat over it once it is dry."),
                rests_on=(bare.row,),
                severity="note" if _remembered(build, bare.row) else None,
            )
        elif weak is not None and where in WET:
            yield Spot(
                at=at,
                detail=f"{finish.name} as the last coat does not last where water comes to it.",
                numbers=numbers,
                mend=Mend("Take a finish whose label says that it is for such a place."),
                rests_on=(weak.row, f"finishes/{finish.key}"),
                severity=None if where in WEATHER else "note",
            )


def _remembered(build: ResolvedBuild, row: str) -> bool:
    cited = build.catalog.cited.get(row)
    return cited is not None and cited.confidence == "memory"


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
