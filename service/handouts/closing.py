"""The foot of the page: what changed, what was taken for granted, sources, edition and date."""

from collections.abc import Iterable, Sequence
from datetime import date

from service.domain.checking import Checked
from service.handouts.answers import Answers
from service.handouts.changes import Change
from service.handouts.page import Item, Items, Section, Words
from service.planning.wanted import FULL_KERF, assumed_kerf

SAME = "Nothing: both versions say the same."
FIRST = "No earlier version was given."
MEMORY = "from memory: measure before relying on it"


def changed(since: Sequence[Change] | None, made_over: Sequence[Change]) -> Section:
    """What changed since the earlier version, and what another size or region changed."""
    blocks: list[Words | Items] = []
    if made_over:
        blocks += [Words("For the size, stock or region asked for:"), _items(made_over)]
    if since is None:
        blocks.append(Words(FIRST))
    else:
        blocks += [Words("Since the earlier version:"), _items(since) if since else Words(SAME)]
    return Section("changes", "What changed", tuple(blocks))


def _items(found: Iterable[Change]) -> Items:
    return Items(tuple(Item(one.how, one.what) for one in found))


def closing(answers: Answers, made: date) -> Section:
    """What was taken for granted, what it rests on, and when it was made."""
    catalog = answers.build.catalog
    assumed = taken_for_granted(answers)
    cited = [catalog.cited[row] for row in rows_behind(answers)]
    sources = dict.fromkeys(
        MEMORY
        if one.confidence == "memory"
        else f"{catalog.sources[one.source].title}, {one.locator} ({one.confidence})"
        for one in cited
    )
    return Section(
        "rests-on",
        "What this rests on",
        (
            *((Words("Taken for granted:"), _texts(assumed)) if assumed else ()),
            *((Words("Sources:"), _texts(sources)) if sources else ()),
            Words(f"Edition of the tables: {catalog.edition}. Made {made.isoformat()}."),
        ),
    )


def _texts(texts: Iterable[str]) -> Items:
    return Items(tuple(Item(text) for text in texts))


def taken_for_granted(answers: Answers) -> tuple[str, ...]:
    """Everything that was assumed, once each."""
    own = (text for one in answers.advice for text in one.assumed)
    return tuple(dict.fromkeys([*answers.build.assumed, *assumed_kerf(answers.build), *own]))


def rows_behind(answers: Answers) -> tuple[str, ...]:
    """Rows of the tables behind every number of the page, once each."""
    return tuple(dict.fromkeys(_rows(answers)))


def _rows(answers: Answers) -> Iterable[str]:
    yield from _checked(answers.checked)
    yield from (FULL_KERF,) if assumed_kerf(answers.build) else ()
    yield from answers.mass.rests_on
    yield from (row for line in answers.cost.lines for row in line.rests_on)
    yield from answers.time.hands_on.rests_on
    yield from (row for task in answers.time.tasks for row in task.task.dries.rests_on)
    yield from (row for one in answers.advice for row in one.rests_on)


def _checked(checked: Checked) -> Iterable[str]:
    yield from (row for finding in checked.findings for row in finding.rests_on)
    yield from (row for part in checked.resolved.parts for row in part.rests_on)
