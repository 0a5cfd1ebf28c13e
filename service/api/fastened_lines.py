"""The advice for joints in plain lines, the short and useful words first."""

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from service.api import shown
from service.api.valued import value_words
from service.domain.fastening.adjusting import Terms
from service.domain.fastening.advising import Advice
from service.domain.fastening.fastener_words import option_words
from service.domain.fastening.joints import can_propose

Json = Mapping[str, Any]

MOST_OTHERS = 3  # ways besides the best that are worth a line
STATED = "stated"  # a particular that speaks against what the plan says
FROM_MEMORY = " (from memory in part)"
NOTHING = "nothing that is made fits: change the thickness of a part, or turn the joint"


def one_joint(
    answer: Json, advice: Advice, judged: str | None, choosing: bool, terms: Terms | None
) -> Iterator[str]:
    """Few statements: what is asked about, the best way, others, what is out, the rest."""
    if first := " ".join(_judged(answer, judged, choosing)):
        yield first
    yield from _ways(answer, advice)
    yield from value_words(advice, terms)
    yield f"assumed: {'; '.join(answer['assumed'])}"
    yield f"sources: {'; '.join(shown.titles(answer))}; edition: {answer['edition']}"


def _judged(answer: Json, judged: str | None, choosing: bool) -> Iterator[str]:
    """What is said of the fastener asked about, and of the lengths to choose among."""
    doubted = any(one["what"] == STATED for one in answer["particulars"])
    if answer["findings"]:
        details = " ".join(finding["detail"] for finding in answer["findings"])
        yield f"{judged or 'this joint'}: {details}"
    elif judged and not doubted:
        yield f"{judged}: nothing is found against it."
    if choosing:
        told = (f"{one['length']['tape']} {one['verdict']}" for one in answer["lengths"])
        yield f"lengths: {', '.join(told)}"


def every_joint(
    answer: Json, advice: Sequence[Advice], joints: Sequence[Json], terms: Terms | None
) -> Iterator[str]:
    """Each joint of a build under its name, then what holds for all of them."""
    if not joints:
        yield "no joints are in the build"
    for one, told in zip(advice, joints, strict=True):
        joint = one.judged.joint
        many = "" if joint.quantity == 1 else f" ({joint.quantity} of them)"
        yield f"{joint.id}: {joint.through} into {joint.into}{many}: {told['verdict']}"
        for finding in told["findings"]:
            yield f"  {finding['severity']}: {finding['detail']}"
            if finding["mend"]:
                yield f"    mend: {finding['mend']['words']}"
        yield from (f"  {line}" for line in (*_ways(told, one), *value_words(one, terms)))
        yield ""
    cautions = dict.fromkeys(caution for told in joints for caution in told["cautions"])
    if cautions:
        yield from ("mind:", *(f"  {caution}" for caution in cautions), "")
    yield from ("not judged:", *(f"  {text}" for text in answer["not_judged"]), "")
    yield from shown.closing(answer)


def _ways(told: Json, advice: Advice) -> Iterator[str]:
    """The best way, others, what to know of the joint, and what is out."""
    options, metric = advice.suggestions.options, advice.judged.around.metric
    if options:
        why = advice.named(options[0].why)
        yield f"best: {option_words(options[0], metric)}. {why}"
    elif can_propose(advice.judged):
        yield NOTHING
    if others := options[1 : 1 + MOST_OTHERS]:
        yield "or: " + "; ".join(option_words(one, metric) for one in others)
    for one in told["particulars"]:
        yield f"{one['what'].replace('-', ' ')}: {one['words']}{FROM_MEMORY * one['from_memory']}"
    if out := [f"{one['method']} ({one['why']})" for one in told["ruled_out"]]:
        yield "not: " + "; ".join(out)
