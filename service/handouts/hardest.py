"""The one thing in a build that asks for the most care, figured from the build itself."""

from collections.abc import Callable, Iterator
from fractions import Fraction

from service.domain.build import End
from service.domain.parts import ResolvedPart
from service.domain.solid import Solid
from service.domain.usual_order import goes
from service.handouts.answers import Answers
from service.handouts.sizes import counted, listed, many

LARGE_PANEL = Fraction(24)  # inches: wider than arms hold level at a saw; own judgment
CLOSE = Fraction(1, 32)
PLAIN = "Nothing in it is hard: measure twice, and keep the cuts square."


def hardest(answers: Answers) -> str:
    """One sentence: the first of the hard things, hardest first, that the build holds."""
    return next((said for look in HARD for said in look(answers)), PLAIN)


def _pieces(parts: list[ResolvedPart]) -> int:
    return sum(part.part.quantity for part in parts)


def _names(answers: Answers, parts: list[ResolvedPart]) -> str:
    return answers.names(part.part.id for part in parts)


def _angled(answers: Answers, kind: Callable[[End], bool]) -> list[ResolvedPart]:
    return [part for part in answers.build.parts if any(kind(end) for end in part.part.ends)]


def _compound(answers: Answers) -> Iterator[str]:
    parts = _angled(answers, lambda end: bool(end.miter and end.bevel))
    if parts:
        yield (
            f"The compound ends of {_names(answers, parts)} "
            f"({counted(_pieces(parts), 'piece')}): table and blade are both off square, so cut "
            "each setting on scrap first."
        )


def _tapered(answers: Answers) -> Iterator[str]:
    parts = [p for p in answers.build.parts if any(edge.bevel for edge in p.part.edges)]
    if parts:
        yield (
            f"The beveled long edges of {_names(answers, parts)}: they are ripped with the blade "
            "tilted, and the width counts at the face that is measured."
        )


def _unlike(answers: Answers) -> Iterator[str]:
    parts = [
        p
        for p in answers.build.parts
        if not all(end.is_square for end in p.part.ends)
        and (p.part.ends_lean == "same" or p.part.mirrored or _two_angles(p.part.ends))
    ]
    if parts:
        yield (
            f"The angled ends of {_names(answers, parts)} ({counted(_pieces(parts), 'piece')}): "
            "which way each end leans decides whether it fits, so mark the long points on every "
            "piece before you cut."
        )


def _two_angles(ends: tuple[End, End]) -> bool:
    first, second = ends
    return (first.miter, first.bevel) != (second.miter, second.bevel)


def _mitered(answers: Answers) -> Iterator[str]:
    parts = _angled(answers, lambda end: not end.is_square)
    if parts:
        degrees = dict.fromkeys(
            f"{max(end.miter, end.bevel):g}" for p in parts for end in p.part.ends if end != End()
        )
        yield (
            f"The angled ends of {_names(answers, parts)} ({counted(_pieces(parts), 'piece')}, "
            f"{listed(list(degrees))} degrees): a small error in the angle shows at every joint, "
            "so try it on two scraps first."
        )


def _tight(answers: Answers) -> Iterator[str]:
    for judged in answers.build.runs:
        run = judged.run.run
        if judged.judgment.verdict == "tight":
            yield f"The run {run.id}: it goes into its opening with less room than is asked for."
        elif run.fits is not None:
            room = answers.sizes.one(run.clearance) if run.clearance else "no room"
            yield (
                f"Fitting the opening of {answers.sizes.one(run.fits)} (run {run.id}) with "
                f"{room} to spare: measure the opening in three places before you cut."
            )
        elif run.within < CLOSE:
            yield (
                f"The run {run.id}: its pieces must add up within {answers.sizes.one(run.within)}."
            )


def _let_in(answers: Answers) -> Iterator[str]:
    fits = answers.build.fits
    if fits:
        owners = dict.fromkeys(answers.named(fit.owner.part.id) for fit in fits)
        others = dict.fromkeys(answers.named(fit.other.part.id) for fit in fits)
        kinds = dict.fromkeys(many(fit.cutout.kind) for fit in fits)
        yield (
            f"The {listed(list(kinds))} in {listed(list(owners), 4)}: "
            f"{listed(list(others), 4)} must slide in by hand and not rattle, so cut them to the "
            "piece that goes in, not to the number alone."
        )


def _glued_up(answers: Answers) -> Iterator[str]:
    parts = [part for part in answers.build.parts if part.part.glued_from]
    if parts:
        yield (
            f"Gluing up {_names(answers, parts)} from several boards: the edges must close "
            "without force before glue is spread, and the panel must stay flat in the clamps."
        )


def _to_fit(answers: Answers) -> Iterator[str]:
    parts = [part for part in answers.build.parts if part.part.fit == "to-fit"]
    if parts:
        yield (
            f"Cutting {_names(answers, parts)} to fit: measured from the piece itself, last, and "
            "not from the list."
        )


def _panels(answers: Answers) -> Iterator[str]:
    parts = [p for p in answers.build.parts if isinstance(p.solid, Solid) and _large(p)]
    if parts:
        yield (
            f"Cutting {_names(answers, parts)} out of sheets: large panels want support on both "
            "sides of the cut, or the store's saw."
        )


def _large(part: ResolvedPart) -> bool:
    solid = part.solid
    panel = part.sized is not None and part.sized.panel is not None
    return panel and isinstance(solid, Solid) and solid.blank_width >= LARGE_PANEL


def _in_a_hurry(answers: Answers) -> Iterator[str]:
    for step in answers.steps:
        joints = [j for j in answers.document.joints if j.id in step.joints]
        if step.do in ("glue", "assemble") and goes(answers.build, joints) > 1:
            yield (
                f"Gluing {listed([j.id for j in joints], 4)}: the glue does not stay open for "
                "all of it, so it is done in turns."
            )


def _alike(answers: Answers) -> Iterator[str]:
    most = max(answers.build.parts, key=lambda part: part.part.quantity)
    if most.part.quantity > 2 and most.part.length is not None:
        yield (
            f"Cutting the {most.part.quantity} pieces of {answers.named(most.part.id)} all to "
            "one length: set a stop, and don't measure each."
        )


HARD = (
    _compound, _tapered, _unlike, _mitered, _tight, _let_in, _glued_up, _to_fit, _panels,
    _in_a_hurry, _alike,
)  # fmt: skip
