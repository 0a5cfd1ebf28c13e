"""How the advice for a joint looks in answers."""

from collections.abc import Iterable, Iterator, Mapping
from fractions import Fraction
from functools import lru_cache
from typing import Any

import orjson

from service import quantities
from service.api import found, shown
from service.api.valued import design_value, of_joint
from service.domain.catalog import Catalog
from service.domain.fastening.adjusting import Terms
from service.domain.fastening.advising import FIRST, SECOND, Advice, Substitute
from service.domain.fastening.fastener_words import DRILL_STEP
from service.domain.fastening.judging_lengths import LengthJudged
from service.domain.fastening.particular import Particular
from service.domain.fastening.pilot_holes import Drilling, HoleRange
from service.domain.fastening.proposing import Option
from service.domain.fastening.refastening import fields_of
from service.domain.fastening.splitting import Distance
from service.domain.fastening.surroundings import Surroundings
from service.domain.gluing import clamp_time
from service.domain.keeping import kept
from service.domain.ratio import ratio

Json = dict[str, Any]


def size(inches: Fraction, metric: bool) -> Mapping[str, Any]:
    """A length as every answer shows it; the same few come again and again."""
    return _size_of(inches.numerator, inches.denominator, metric)


@lru_cache(maxsize=1024)
def _size_of(over: int, under: int, metric: bool) -> Mapping[str, Any]:
    return quantities.measured(ratio(over, under), metric=metric)


def drill(inches: Fraction, metric: bool) -> Mapping[str, Any]:
    """A diameter: drills go by sixty-fourths, which a tape does not show."""
    return _drill(inches.numerator, inches.denominator, metric)


@lru_cache(maxsize=1024)
def _drill(over: int, under: int, metric: bool) -> Mapping[str, Any]:
    step = None if metric else DRILL_STEP
    return quantities.measured(ratio(over, under), to=step, metric=metric)


def head(advice: Advice) -> Json:
    """What is said of this very joint."""
    metric = advice.judged.around.metric
    return {
        "joint": advice.judged.joint.id,
        "at": advice.judged.at,
        "method": advice.judged.joint.method,
        "verdict": advice.verdict,
        "findings": [found.finding(finding, metric) for finding in advice.findings],
    }


def joint(advice: Advice, catalog: Catalog, terms: Terms | None) -> Json:
    """The answer for one joint, as a value."""
    told: Json = orjson.loads(b"{" + shared(advice, catalog, terms, 0) + b"}")
    return head(advice) | told


def joint_in_list(advice: Advice, catalog: Catalog, terms: Terms | None) -> orjson.Fragment:
    """The answer for one joint of several, as JSON."""
    own = fields_as_text(head(advice), IN_LIST)
    return orjson.Fragment(b"{" + own + b"," + shared(advice, catalog, terms, IN_LIST) + END)


def shared(advice: Advice, catalog: Catalog, terms: Terms | None, deeper: int) -> bytes:
    """What joints that are alike have in common, with the names of this one's parts: fields of a
    JSON object. They are put into text once, as that takes longer than finding them."""
    terms = of_joint(terms, advice)
    text = kept(
        catalog,
        ("shown", terms, deeper, advice.suggestions.number),
        lambda: fields_as_text(suggestions(advice, terms), deeper),
    )
    joint = advice.judged.joint  # ids hold nothing that JSON would have to escape
    return text.replace(FIRST_TEXT, joint.through.encode()).replace(
        SECOND_TEXT, joint.into.encode()
    )


def fields_as_text(value: Json, deeper: int) -> bytes:
    """The fields of a JSON object, without its braces, so many spaces deeper than by itself."""
    text = orjson.dumps(value, option=orjson.OPT_INDENT_2).removeprefix(b"{").removesuffix(b"\n}")
    return text.replace(b"\n", b"\n" + b" " * deeper) if deeper else text


IN_LIST = 4  # spaces: an object in a list of the answer
END = b"\n    }"
FIRST_TEXT, SECOND_TEXT = FIRST.encode(), SECOND.encode()


def suggestions(advice: Advice, terms: Terms | None) -> Json:
    """What joints that are alike have in common."""
    around, told = advice.judged.around, advice.suggestions
    return {
        "options": [option(one, around, terms) for one in told.options],
        "lengths": [_length(one, around.metric) for one in told.lengths],
        "ruled_out": [{"method": one.method, "why": one.why} for one in told.ruled_out],
        "substitutes": list(_substitutes(told.substitutes, around, terms)),
        "particulars": [_particular(one, around) for one in told.particulars],
        "cautions": list(told.cautions),
    }


def _particular(one: Particular, around: Surroundings) -> Json:
    """One thing to know, with its sizes where it has any."""
    written = drill if one.drilled else size
    least, most = (
        None if inches is None else written(inches, around.metric)
        for inches in (one.least, one.most)
    )
    return {
        "what": one.what,
        "least": least,
        "most": most,
        "words": one.words,
        "from_memory": bool(around.catalog.from_memory(one.rests_on)),
        "rests_on": list(dict.fromkeys(one.rests_on)),
    }


def option(one: Option, around: Surroundings, terms: Terms | None) -> Json:
    """One way to fasten the joint, complete."""
    fixing, drilled, apart = one.choice.fixing, one.drilling, one.distances
    metric = around.metric
    return {
        "rank": one.rank,
        "method": one.method,
        "type": one.type,
        "gauge": fixing.gauge,
        "diameter": None if fixing.diameter is None else drill(fixing.diameter, metric),
        "length": _size(fixing.length, metric),
        "slope": fixing.slope or None,
        "count": one.row.count or None,
        "spacing": _size(one.row.spacing, metric) if one.row.spacing else None,
        "along": _size(one.row.width, metric),
        "end_distance": _distance(apart.end, metric) if apart else None,
        "edge_distance": _distance(apart.edge, metric) if apart else None,
        **(_holes(drilled, around.catalog, metric) if drilled else NO_HOLES),
        "thread": fixing.thread,
        "coating": fixing.coating,
        "bite": _size(one.here.bite, metric) if one.here else None,
        "tip_clearance": _size(one.thin.clear, metric) if one.thin else None,
        "glue": None if fixing.glue == "none" else fixing.glue,
        "clamp_time": _clamp_time(fixing.glue, around.catalog),
        "tools": list(one.choice.tools),
        "compare_strength": _compared(one, around, terms),
        "usual": [size(length, metric) for length in one.usual[0]],
        "why": one.why,
        "in_a_build": fields_of(fixing, metric),
        "rests_on": list(one.rests_on),
    }


def _size(inches: Fraction | None, metric: bool) -> Mapping[str, Any] | None:
    return None if inches is None else size(inches, metric)


def _distance(distance: Distance, metric: bool) -> Json:
    return {"least": size(distance.least, metric), "advised": size(distance.advised, metric)}


NO_HOLES: Json = dict.fromkeys(("pilot", "pilot_needed", "clearance_hole", "countersink"))


def _holes(drilled: Drilling, catalog: Catalog, metric: bool) -> Json:
    """What to drill. Few screws are drilled in many joints, so it is kept, with the very value
    that it was made of: as long as that is here, no other one has its number."""
    name = ("holes shown", id(drilled), metric)
    return kept(catalog, name, lambda: (drilled, _drilled(drilled, metric)))[1]


def _drilled(drilled: Drilling, metric: bool) -> Json:
    return {
        "pilot": _hole(drilled.pilot, metric),
        "pilot_needed": f"{drilled.need}: {drilled.why}",
        "clearance_hole": _hole(drilled.clearance, metric),
        "countersink": _hole(drilled.countersink, metric),
    }


def _hole(hole: HoleRange | None, metric: bool) -> Json | None:
    if hole is None:
        return None
    return {
        "low": drill(hole.low, metric),
        "usual": drill(hole.usual, metric),
        "high": drill(hole.high, metric),
    }


def _clamp_time(glue: str | None, catalog: Catalog) -> Json | None:
    return kept(catalog, ("clamp time", glue), lambda: _limit_shown(glue, catalog))


def _limit_shown(glue: str | None, catalog: Catalog) -> Json | None:
    kind = catalog.glues.get(glue or "")
    limit = clamp_time(kind) if kind else None
    if limit is None:
        return None
    return {"low": f"{shown.number(limit.low):g} min", "high": f"{shown.number(limit.high):g} min"}


def _compared(one: Option, around: Surroundings, terms: Terms | None) -> Json:
    """Ratios between the options; pounds only where asked for, with what they are not."""
    compared = one.compared
    told: Json = {
        "sideways": _ratio(compared.sideways),
        "pulled_out": _ratio(compared.pulled),
        "why_not": list(compared.why_not),
    }
    value = design_value(one, around, terms) if terms else None
    if value is not None:
        told["design_value_each"] = value
    return told


def _ratio(value: float | None) -> float | None:
    return None if value is None else round(value, 2)


def _length(one: LengthJudged, metric: bool) -> Json:
    return {
        "length": size(one.length, metric),
        "bite": _size(one.bite, metric),
        "tip_clearance": _size(one.clear, metric),
        "verdict": one.verdict,
        "why": one.why,
    }


def _substitutes(
    told: Iterable[Substitute], around: Surroundings, terms: Terms | None
) -> Iterator[Json]:
    """Several are often the very same option, which is shown once."""
    shown: dict[int, Json | None] = {id(None): None}
    for one in told:
        if one.option is not None and id(one.option) not in shown:
            shown[id(one.option)] = option(one.option, around, terms)
        yield {"without": one.without, "option": shown[id(one.option)]}
