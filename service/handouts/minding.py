"""What to watch out for; the findings still open; and what nobody here has looked at."""

from collections.abc import Iterator

from service.domain.build import Build
from service.domain.catalog import Catalog
from service.domain.fastening.cautioning import NEVER_SUMMED, SEAT_ONLY
from service.domain.fastening.holding import CAUTION
from service.domain.fastening.splitting import BRAD_TURNS
from service.domain.findings import Finding
from service.domain.finishing import LABEL_DECIDES
from service.handouts.answers import Answers
from service.handouts.fastening import fixing_for
from service.handouts.page import Item, Items, Section, Words
from service.handouts.places import place_in_words
from service.handouts.sizes import counted, listed

SAFETY = "safety."
# Cautions of joints that hold for some methods only; those of comparing options are not told.
OF_METHOD = {
    SEAT_ONLY: ("screw", "pocket-screw"),
    BRAD_TURNS: ("brad",),
    CAUTION: (),
    NEVER_SUMMED: (),
}
ALWAYS = ("machines.guards", "machines.eyes-and-ears", "cutting.hold-the-work")
RIPPED, DUST = "ripping.kickback", "dust.extract-and-mask"
DEFER = (
    "Local codes and the instructions of the makers of tools, glue and finish come before "
    "anything said here; ask somebody who knows where you are not sure."
)
VERDICTS = {
    "mend-first": "Mend first: this build has at least one fault.",
    "look": "Look again: something here deserves a second look.",
    "nothing-found": "Nothing was found against it; what was not judged is listed below.",
}
SEVERITIES = {"fault": "Fault", "warn": "Warning", "note": "Note"}


def minding(answers: Answers) -> Section:
    """The usual cautions, tied to what the build asks for."""
    items = [*_always(answers), *_safety(answers), *_joints(answers)]
    blocks = (Items(tuple(items)), Words(LABEL_DECIDES.capitalize() + "."), Words(DEFER))
    return Section("mind", "What to watch out for", blocks)


def _always(answers: Answers) -> Iterator[Item]:
    parts = answers.build.parts
    keys = list(ALWAYS)
    if any(part.is_ripped or (part.sized and part.sized.panel) for part in parts):
        keys.append(RIPPED)
    if any(step.do == "sand" for step in answers.steps):
        keys.append(DUST)
    yield from (Item(text) for text in said(answers.build.catalog, keys))


def said(catalog: Catalog, keys: list[str]) -> list[str]:
    """Cautions in the words of the tables; one that nobody has read in print says so."""
    told = [catalog.cautions[key] for key in keys if key in catalog.cautions]
    return [
        f"{one.words} (from memory)" if catalog.from_memory([one.row]) else one.words
        for one in told
    ]


def _safety(answers: Answers) -> Iterator[Item]:
    for finding in answers.checked.findings:
        if finding.code.startswith(SAFETY):
            yield _finding(answers.document, finding)


def _joints(answers: Answers) -> Iterator[Item]:
    """Cautions of fastenings, each once, with the joints that they belong to."""
    found: dict[str, list[str]] = {}
    for one in answers.advice:
        fixing = fixing_for(answers, one)
        method = fixing.method if fixing else ""
        for text in one.suggestions.cautions:
            if method in OF_METHOD.get(text, (method,)):
                found.setdefault(one.named(text), []).append(one.judged.joint.id)
    for text, ids in found.items():
        yield Item(f"{text[0].upper()}{text[1:]}.", f"Joint {listed(ids, 4)}")


def _finding(build: Build, finding: Finding) -> Item:
    under = [f"at {_place(build, finding)}"]
    if finding.mend is not None:
        under.append(f"Mend: {finding.mend.words}")
    return Item(finding.detail, _title(finding), tuple(under))


def _title(finding: Finding) -> str:
    return f"{SEVERITIES[finding.severity]}: {finding.title}"


def _place(build: Build, finding: Finding) -> str:
    """Where it is; the whole build where it is about nothing less."""
    at = [place_in_words(build, one) for one in (finding.at, finding.also_at) if one]
    return " and ".join(filter(None, at)) or "the whole build"


def _together(build: Build, found: list[Finding]) -> Iterator[Item]:
    """Findings in their order; those with one title and one mend in one item, each at its place."""
    groups: dict[tuple[str, str], list[Finding]] = {}
    for one in found:
        mend = one.mend.words if one.mend else ""
        groups.setdefault((_title(one), mend), []).append(one)
    for (title, mend), alike in groups.items():
        if len(alike) == 1:
            yield _finding(build, alike[0])
        else:
            words = f"in {len(alike)} places." + (f" Mend: {mend}" if mend else "")
            yield Item(words, title, tuple(_details(build, alike)))


def _details(build: Build, alike: list[Finding]) -> Iterator[str]:
    """What is found, each once, with every place where it is."""
    places: dict[str, list[str]] = {}
    for one in alike:
        places.setdefault(one.detail, []).append(_place(build, one))
    for detail, at in places.items():
        yield f"{detail} (at {'; '.join(at)})"


def findings(answers: Answers) -> Section:
    """The verdict, and every finding that is still open; safety stands under the cautions."""
    checked = answers.checked
    open_still = [one for one in checked.findings if not one.code.startswith(SAFETY)]
    safety = len(checked.findings) - len(open_still)
    words = [Words(VERDICTS[checked.verdict], strong=True)]
    if safety:
        words.append(Words(f"{counted(safety, 'caution')} more, above, in what to watch out for."))
    items = tuple(_together(answers.document, open_still))
    blocks = (*words, *((Items(items),) if items else ()))
    return Section("findings", "Still open", blocks)


def not_judged(answers: Answers) -> Section:
    """What was not looked at: never left out."""
    items = tuple(Item(text) for text in answers.checked.not_judged)
    return Section("not-judged", "Not judged", (Items(items),))
