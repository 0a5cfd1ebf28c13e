"""What to cut: parts by letter, points of angled parts, saw settings, and what is cut last."""

from collections.abc import Iterator

from service.domain.angles.settings import SawCut, Stops, Way, cuts_of
from service.domain.naming import letter
from service.domain.parts import ResolvedPart
from service.domain.rounding import CUT_WHY
from service.domain.solid import Rod, Solid
from service.handouts.answers import Answers
from service.handouts.drawings.cutouts import cutout_words
from service.handouts.drawings.parts import is_drawn, part_drawings
from service.handouts.page import Block, Column, Item, Items, Picture, Section, Table, Words
from service.handouts.sizes import listed, many

PARTS = (
    Column("letter", "Letter"),
    Column("part", "Part"),
    Column("count", "How many", figures=True),
    Column("stock", "Cut from"),
    Column("section", "Thickness x width"),
    Column("length", "Length"),
    Column("ends", "Ends"),
    Column("cut", "When"),
    Column("note", "Note"),
)
POINTS = (
    Column("part", "Part"),
    Column("long-to-long", "Long point to long point"),
    Column("short-to-short", "Short to short"),
    Column("long-to-short", "Long to short, along one edge"),
    Column("short-to-long", "Short to long, along the other"),
    Column("center", "Along the center line"),
    Column("blank", "Blank to cut it from"),
)
SETTINGS = (
    Column("part", "Part"),
    Column("cut", "Which cut"),
    Column("how", "How it lies, and what is set"),
    Column("table", "Table, off square", figures=True),
    Column("blade", "Blade, off square", figures=True),
    Column("table_90", "Table, scale with 90 at square", figures=True),
    Column("blade_90", "Blade, scale with 90 at square", figures=True),
)
TO_LIST, TO_FIT = "to list", "to fit, last"
SCALES = (
    "Both scales say the same: some saws read 0 at a square cut, others 90. Set the saw, cut two "
    "scraps, and hold them together before you cut a part."
)


def cutting(answers: Answers) -> Section:
    """Parts by letter, with everything needed to mark and cut them."""
    parts = answers.build.parts
    rows = tuple(_row(answers, part) for part in parts)
    blocks: list[Block] = [Table("parts", "Parts by letter", PARTS, rows)]
    points = tuple(row for part in parts for row in _points(answers, part))
    if points:
        blocks.append(Table("points", "Angled parts: every length, point to point", POINTS, points))
    settings = tuple(row for part in parts for row in _settings(answers, part))
    if settings:
        blocks.append(
            Table("settings", "Saw settings on both scales, in degrees", SETTINGS, settings)
        )
        blocks.append(Words(SCALES))
    blocks += [Picture(*drawn) for drawn in part_drawings(answers.pen)]
    undrawn = (part for part in parts if not is_drawn(part))
    cutouts = tuple(item for part in undrawn for item in _cutouts(answers, part))
    if cutouts:
        blocks += [Words("Slots, holes and laps:"), Items(cutouts)]
    blocks += _last(answers)
    return Section("cut", "What to cut", tuple(blocks))


def _row(answers: Answers, part: ResolvedPart) -> tuple[str, ...]:
    stated, sized = part.part, part.sized
    length = answers.sizes.one(stated.length) if stated.length is not None else "not given"
    if stated.length is not None and stated.measured and not _square(part):
        length += f", {stated.measured.replace('-', ' ')}"
    section = "unknown"
    if sized is not None:
        wide = sized.width.listed if sized.width else None
        section = answers.sizes.by(
            *((wide,) if sized.form == "round" else (sized.thickness.listed, wide))
        )
    return (
        letter(part.index),
        stated.id,
        str(stated.quantity),
        answers.stock_of(part),
        section,
        length,
        _ends(part),
        TO_FIT if stated.fit == "to-fit" else TO_LIST,
        "; ".join(_notes(answers, part)),
    )


def _square(part: ResolvedPart) -> bool:
    return all(end.is_square for end in (*part.part.ends, *part.part.edges))


def _ends(part: ResolvedPart) -> str:
    first, second = part.part.ends
    if first.is_square and second.is_square:
        return "square"
    told = [
        " and ".join(
            f"{kind} {angle:g}"
            for kind, angle in (("miter", end.miter), ("bevel", end.bevel))
            if angle
        )
        or "square"
        for end in (first, second)
    ]
    if told[0] == told[1]:
        lean = {"same": ", leaning the same way", "opposite": ", leaning to each other"}
        return f"both {told[0]}{lean.get(part.part.ends_lean or '', '')}"
    return f"{told[0]}; other end {told[1]}"


def _notes(answers: Answers, part: ResolvedPart) -> Iterator[str]:
    stated = part.part
    if stated.glued_from is not None:
        yield f"glued up from {stated.glued_from.boards} boards"
    if stated.mirrored:
        yield f"{stated.mirrored} of them mirrored"
    if stated.grain != "length":
        yield "grain either way" if stated.grain == "any" else "grain across its length"
    if stated.known.treated:
        yield "treated wood"
    if part.is_ripped and part.sized is not None and part.sized.stock_width is not None:
        yield f"ripped from {answers.sizes.one(part.sized.stock_width.listed)}"
    if stated.cutouts:
        kinds = dict.fromkeys(cutout.kind for cutout in stated.cutouts)
        yield f"has {listed([many(kind) for kind in kinds])}, see below"


def _points(answers: Answers, part: ResolvedPart) -> Iterator[tuple[str, ...]]:
    solid = part.solid
    if not isinstance(solid, Solid | Rod) or solid.is_square:
        return
    lengths = {str(word): size for word, size in solid.lengths(part.part.measured_on).items()}
    lengths["blank"] = solid.blank_length
    told = (lengths.get(column.key) for column in POINTS[1:])
    yield (
        answers.named(part.part.id),
        *("" if size is None else answers.sizes.one(size) for size in told),
    )


def _settings(answers: Answers, part: ResolvedPart) -> Iterator[tuple[str, ...]]:
    for cut in cuts_of(part.part, Stops()):
        for way in cut.ways:
            yield _setting(answers, cut, way)


def _setting(answers: Answers, cut: SawCut, way: Way) -> tuple[str, ...]:
    figures = (way.turned, way.tilted, way.turned_scale, way.tilted_scale)
    return answers.named(cut.part), cut.cut, way.how, *(f"{figure:.1f}" for figure in figures)


def _cutouts(answers: Answers, part: ResolvedPart) -> Iterator[Item]:
    for cutout in part.part.cutouts:
        words = cutout_words(cutout, answers.sizes.one, answers.named)
        yield Item(words, answers.named(part.part.id))


def _last(answers: Answers) -> Iterator[Block]:
    last = [part.part.id for part in answers.build.parts if part.part.fit == "to-fit"]
    if last:
        yield Words(
            f"Cut last, to fit: {answers.names(last, 12)}. {CUT_WHY['between'].capitalize()}."
        )
    openings = [one.run for one in answers.build.runs if one.run.run.fits is not None]
    for run in openings:
        size = answers.sizes.one(run.run.fits or run.run.clearance)
        yield Words(
            f"Measure the opening of run {run.run.id} before you cut: the list counts on {size}."
        )
