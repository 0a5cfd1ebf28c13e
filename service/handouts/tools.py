"""Tools, and what to do for want of each of them."""

from collections.abc import Iterator
from dataclasses import dataclass

from service.domain.angles.settings import HAND_SAW
from service.domain.fastening.advising import BY_HAND, Advice
from service.domain.fastening.fastener_words import option_words
from service.domain.fastening.tooling import BY_METHOD, words
from service.domain.parts import ResolvedPart
from service.handouts.answers import Answers
from service.handouts.fastening import proposed
from service.handouts.page import Column, Section, Table
from service.handouts.sizes import counted, listed, many

COLUMNS = (
    Column("tool", "Tool"),
    Column("for", "For"),
    Column("without", "Without it"),
)
MARKING = "a hook made of scrap and a story stick: one stick with every length marked on it once"
SQUARE = "the factory corner of a sheet of plywood or of stiff card"
CROSSCUT = (
    "a hand saw: square the line around all four sides, clamp the board, and saw on the waste side"
)
RIP = (
    "a circular saw along a straight board clamped on, the store's saw, or a hand saw and a plane "
    "to the line"
)
SHEETS = (
    "a circular saw with the sheet flat on scrap boards and a straight board clamped on as a "
    "fence; or let the store cut it"
)
HOLES = "a brace or a hand drill; drill from both sides so that it does not splinter"
CHISEL = "a coping saw for what it reaches, then a file or sandpaper on a stick"
HOUSED = "a hand saw for the two sides, down to a line, and a chisel for the floor"
SANDER = "paper on a flat block, along the grain"
CLAMPS = "wedges against a stop, weights, or cord twisted tight with a stick"
BRUSH = "a lint-free rag, where the label of the finish allows it"
MOST_WAYS = 3  # fastenings in place of one tool; more are no page to read


@dataclass(frozen=True, slots=True)
class Need:
    """A tool, what it is for, and what to do without it."""

    tool: str
    use: str
    without: str


def tools(answers: Answers) -> Section:
    """Every tool that the build asks for, and for each what to use without it."""
    needs = [*_marking(), *_sawing(answers), *_cutouts(answers), *_fastening(answers)]
    needs += _rest(answers)
    rows = tuple((need.tool, need.use, need.without) for need in needs)
    table = Table("tools", "Tools, and what to use without them", COLUMNS, rows)
    return Section("tools", "Tools", (table,))


def _marking() -> Iterator[Need]:
    yield Need("tape measure and a sharp pencil", "marking lengths", MARKING)
    yield Need("square", "square lines, and checking corners", SQUARE)


def _sawing(answers: Answers) -> Iterator[Need]:
    owned = [saw.kind.replace("-", " ") for saw in answers.document.shop.saws]
    saw = f"saw ({listed(owned)})" if owned else "saw that cuts square"
    yield Need(saw, "cutting parts to length", CROSSCUT)
    angled = _names(answers, [p for p in answers.build.parts if _angled(p)])
    if angled:
        yield Need("saw that turns or tilts", f"the angled ends of {angled}", HAND_SAW)
    ripped = _names(answers, [p for p in answers.build.parts if p.is_ripped])
    if ripped:
        yield Need("saw that rips", f"the width of {ripped}", RIP)
    sheets = _names(answers, [p for p in answers.build.parts if p.sized and p.sized.panel])
    if sheets:
        yield Need("saw for sheets", f"cutting {sheets}", SHEETS)


def _names(answers: Answers, parts: list[ResolvedPart]) -> str:
    return answers.names(part.part.id for part in parts)


def _angled(part: ResolvedPart) -> bool:
    return any(not end.is_square for end in (*part.part.ends, *part.part.edges))


def _cutouts(answers: Answers) -> Iterator[Need]:
    kinds = {cutout.kind for part in answers.build.parts for cutout in part.part.cutouts}
    if "hole" in kinds:
        yield Need("drill and a bit of the size", "holes", HOLES)
    housed = sorted(kinds & {"dado", "rabbet", "lap", "slot"})
    if housed:
        yield Need("router, or a saw set shallow", listed([many(kind) for kind in housed]), HOUSED)
    if "notch" in kinds:
        yield Need("jigsaw", "notches", CHISEL)


def _fastening(answers: Answers) -> Iterator[Need]:
    """What drives and holds each kind of joint, with whole fastenings in place of each tool."""
    used: dict[str, list[str]] = {}
    instead: dict[str, dict[str, list[str]]] = {}
    for one in answers.advice:
        joint = one.judged.joint
        for tool in _tools_of(answers, one):
            used.setdefault(tool, []).append(joint.id)
            said = _without(answers, one, tool)
            if said:
                instead.setdefault(tool, {}).setdefault(said, []).append(joint.id)
    for tool, ids in used.items():
        found = instead.get(tool, {})
        ways = [f"{said} (at {listed(at, 3)})" for said, at in list(found.items())[:MOST_WAYS]]
        if len(found) > MOST_WAYS:
            ways.append(f"{counted(len(found) - MOST_WAYS, 'other fastening')} at the rest")
        if tool == "clamps":
            ways.append(CLAMPS)
        without = "; or ".join(ways) or "nothing found here that holds as well"
        yield Need(words({tool}), f"joints: {listed(ids, 4)}", without)


def _tools_of(answers: Answers, one: Advice) -> tuple[str, ...]:
    """The tools of a joint as it will be made, and clamps where it is glued."""
    proposal = proposed(answers, one)
    joint = one.judged.joint
    if proposal is not None:
        found = proposal.option.choice.tools
    else:
        method = one.judged.fixing.method if one.judged.fixing else joint.method or ""
        found = one.judged.want.tools.chosen(BY_METHOD.get(method, ()))
    glued = joint.glue not in (None, "none")
    return tuple(dict.fromkeys([*found, *(["clamps"] if glued else [])]))


def _without(answers: Answers, one: Advice, tool: str) -> str:
    """The fastening that the advice gives in place of a tool; by hand where none is given."""
    told = {sub.without: sub.option for sub in one.suggestions.substitutes}
    ways = (told.get(tool), told.get(BY_HAND) if tool != "clamps" else None)
    option = next((way for way in ways if way and tool not in way.choice.tools), None)
    if option is None:
        return ""
    with_ = listed([words({one}) for one in option.choice.tools])
    return option_words(option, answers.build.metric) + (f", with {with_}" if with_ else "")


def _rest(answers: Answers) -> Iterator[Need]:
    done = {step.do for step in answers.steps}
    if "sand" in done:
        yield Need("sander", "smoothing before finish", SANDER)
    if done & {"finish", "stain"}:
        yield Need("brush", "putting on the finish", BRUSH)
