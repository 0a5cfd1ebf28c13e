"""How the manual speaks of findings: their families, bases and numbers."""

from collections.abc import Mapping

from service.domain.findings import Basis, NumberKind, Rule

FAMILIES = {
    "size": "Sizes and stock",
    "run": "Sums along a line",
    "fit": "Fits",
    "cut": "Cuts",
    "panel": "Panels",
    "shape": "Leaning, mitered and spaced",
    "part": "Parts, joints and steps",
    "joint": "Parts, joints and steps",
    "step": "Parts, joints and steps",
    "buy": "Buying",
    "load": "Loads",
    "stands": "Standing",
    "hang": "Hanging",
    "wood": "Wood",
    "finish": "Finish",
    "fastener": "Fasteners",
    "glue": "Glue",
    "safety": "Cautions",
}
BASES: Mapping[Basis, str] = {
    "geometry": "geometry: arithmetic on your own numbers",
    "standard": "a standard",
    "handbook": "a handbook",
    "practice": "practice, which warns at most",
}
KINDS: Mapping[NumberKind, str] = {
    "length": "a length, as answers give it: in, mm, tape, off_by",
    "angle": "degrees",
    "count": "a number",
    "word": "a word or text",
    "words": "a list of words",
}


def family(rule: Rule) -> str:
    """What a rule is about, in words."""
    return FAMILIES[rule.code.partition(".")[0]]
