"""The whole handout from the answers about a build, in the order in which it is read."""

from collections.abc import Sequence
from datetime import date

from service.handouts import about
from service.handouts.answers import Answers
from service.handouts.assembling import assembling
from service.handouts.changes import Change
from service.handouts.closing import changed, closing
from service.handouts.cutting import cutting
from service.handouts.joining import joints
from service.handouts.layouts import layouts, leftovers
from service.handouts.minding import findings, minding, not_judged
from service.handouts.page import Handout
from service.handouts.shopping import shopping
from service.handouts.tools import tools


def tell(
    answers: Answers,
    made: date,
    since: Sequence[Change] | None = None,
    made_over: Sequence[Change] = (),
) -> Handout:
    """The page. `since` are changes from an earlier version, None where none is given;
    `made_over` those that another size, stock or region brought."""
    return Handout(
        title=answers.document.name,
        summary=about.summary(answers),
        sections=(
            about.about(answers),
            about.overall(answers),
            about.hard(answers),
            about.glance(answers),
            shopping(answers),
            tools(answers),
            cutting(answers),
            layouts(answers),
            joints(answers),
            assembling(answers),
            minding(answers),
            leftovers(answers),
            findings(answers),
            not_judged(answers),
            changed(since, made_over),
            closing(answers, made),
        ),
        edition=answers.build.catalog.edition,
        made=made,
    )
