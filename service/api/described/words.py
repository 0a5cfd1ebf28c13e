"""The few words in which the shapes of answers are written: JSON Schema values, kept by name."""

from collections.abc import Mapping
from typing import Any

Json = dict[str, Any]

PLACE = "#/components/schemas/"

TEXT: Json = {"type": "string"}
NUMBER: Json = {"type": "number"}
WHOLE: Json = {"type": "integer"}
YES_NO: Json = {"type": "boolean"}
ANYTHING: Json = {}
MONEY: Json = {"type": "string", "pattern": r"^-?[0-9]+(?:\.[0-9]+)?$"}

# Shapes of answers by name, filled as the files of this room are read.
SHAPES: dict[str, Json] = {}


def record(about: str = "", optional: Mapping[str, Json] | None = None, /, **fields: Json) -> Json:
    """An object with these fields, all there but the optional ones; later versions may add some."""
    told = {"description": about} if about else {}
    # A name that Python keeps for itself is written with a line below behind it.
    named = {name.rstrip("_"): schema for name, schema in fields.items()}
    return {
        "type": "object",
        **told,
        "properties": {**named, **(optional or {})},
        **({"required": list(named)} if named else {}),
    }


def shape(name: str, schema: Json) -> Json:
    """A reference to a shape that is kept under a name."""
    if name in SHAPES:
        raise ValueError(f"two shapes are called {name}")
    SHAPES[name] = schema
    return {"$ref": f"{PLACE}{name}"}


def several(schema: Json) -> Json:
    """A list."""
    return {"type": "array", "items": schema}


def by_name(schema: Json, about: str = "") -> Json:
    """An object whose names are not known beforehand."""
    told = {"description": about} if about else {}
    return {"type": "object", **told, "additionalProperties": schema}


def or_null(schema: Json) -> Json:
    """The shape, or null where there is nothing to say."""
    kind = schema.get("type")
    if kind in ("string", "number", "integer", "boolean") and "enum" not in schema:
        return schema | {"type": [kind, "null"]}
    return {"anyOf": [schema, {"type": "null"}]}


def one_of(*words: str) -> Json:
    """One of a few words."""
    return {"type": "string", "enum": list(words)}


def told(schema: Json, description: str) -> Json:
    """A shape with what it means here."""
    return schema | {"description": description}


def from_to(schema: Json, about: str = "") -> Json:
    """The low and the high end of a range."""
    return record(about, low=schema, high=schema)
