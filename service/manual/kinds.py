"""What a field takes, in plain words, from its JSON Schema."""

from collections.abc import Iterator, Mapping
from typing import Any

Json = Mapping[str, Any]

# Kinds of values that the description names, as a builder would say them.
WORDS = {
    "AngleTo89": "degrees, 0 to 89",
    "AngleTo90": "degrees, 0 to 90",
    "Area": "an area with its unit, like 20 ft2",
    "Coverage": "a spread with its unit, like 400 ft2/gal",
    "FastenerText": "a fastener by its sizes, like 8x1-1/4in",
    "Hours": "hours, or a time with its unit",
    "Id": "an id",
    "Length": "a length",
    "LengthInList": "a length",
    "LengthOrNone": "a length, 0 too",
    "LoadText": "a load with its unit, like 40 lb or 18 lb/ft",
    "Minutes": "minutes, or a time with its unit",
    "Money": "money, a decimal string",
    "Pair": "two lengths, like 16x20in",
    "Pounds": "a weight with its unit",
    "Stiffness": "a pressure with its unit, like 1200000 psi",
    "Temperature": "a temperature with F or C",
    "Text": "text",
    "Volume": "a volume with its unit, like 6 ft3",
    "Weight": "a weight with its unit, like 90 lb",
    "WeightAt": "a place and a weight, like 10in:90lb",
}


def name_of(reference: Json) -> str:
    """The name at the end of a reference."""
    return str(reference["$ref"]).rpartition("/")[2]


def is_form(schema: Json) -> bool:
    """Whether a named schema is an object with fields of its own, or a choice of such."""
    return "properties" in schema or bool(choices(schema))


def choices(schema: Json) -> tuple[str, ...]:
    """The names that a named schema chooses among, if it is such a choice."""
    found = [*schema.get("oneOf", ()), *schema.get("anyOf", ())]
    refers = found and all("$ref" in one for one in found) and "properties" not in schema
    return tuple(map(name_of, found)) if refers else ()


def in_words(schema: Json, named: Mapping[str, Json]) -> str:
    """What a schema takes: `a whole number, 1 to 1000`."""
    if "$ref" in schema:
        name = name_of(schema)
        return f"an object: {name}" if is_form(named[name]) else _known(name)
    for choice in ("anyOf", "oneOf"):
        if choice in schema:
            return ", or ".join(dict.fromkeys(in_words(one, named) for one in schema[choice]))
    if "enum" in schema:
        words = ", ".join(map(str, schema["enum"]))
        return words if len(schema["enum"]) == 1 else f"one of {words}"
    return _of_type(schema, named)


def _known(name: str) -> str:
    """The words for a kind of value; in an address everything is text, and is named so."""
    return WORDS[name] if name in WORDS else WORDS[name.removesuffix("Text")]


def _of_type(schema: Json, named: Mapping[str, Json]) -> str:
    kind = schema.get("type")
    if kind == "array":
        return f"a list{_bounds(schema, 'Items')}, each {in_words(schema['items'], named)}"
    if kind == "object":
        values = schema.get("additionalProperties")
        told = in_words(values, named) if isinstance(values, Mapping) else "any value"
        return f"an object of names that you choose, each with {told}"
    if kind == "integer":
        return f"a whole number{_bounds(schema, 'imum')}"
    if kind == "number":
        return f"a number{_bounds(schema, 'imum')}"
    return {"boolean": "true or false", "string": "text"}.get(str(kind), "any value")


def _bounds(schema: Json, what: str) -> str:
    least, most = schema.get(f"min{what}"), schema.get(f"max{what}")
    if least is not None and least == most:
        return f" of {least}"
    if not least and most is None:
        return ""
    return f", {least or 0} to {most}" if most is not None else f", {least} or more"


def forms_in(schema: Json, named: Mapping[str, Json]) -> Iterator[str]:
    """Names of the forms that a field can hold, for links."""
    if "$ref" in schema:
        name = name_of(schema)
        if is_form(named[name]):
            yield name
    for inner in [*schema.get("anyOf", ()), *schema.get("oneOf", ())]:
        yield from forms_in(inner, named)
    for place in ("items", "additionalProperties"):
        if isinstance(schema.get(place), Mapping):
            yield from forms_in(schema[place], named)
