"""Whether one schema of a request, by itself, demands more than an earlier one."""

from collections.abc import Iterator
from typing import Any

from service.api.documents.schemas import Json

AT_LEAST = ("minLength", "minItems", "minProperties")
AT_MOST = ("maxLength", "maxItems", "maxProperties")
AS_IT_WAS = ("pattern", "not", "if", "then", "else", "uniqueItems", "format")
TYPES = frozenset({"null", "boolean", "object", "array", "number", "string", "integer"})
ANY = float("inf")


def demands_more(old: Json, new: Json) -> Iterator[str]:
    """Each demand of the new schema that the old one did not make, but for its parts."""
    if lost := _types(old) - _types(new):
        yield f"no longer takes {', '.join(sorted(lost))}"
    yield from _fewer_words(old, new)
    yield from _tighter(old, new)
    for name in sorted(set(new.get("required", ())) - set(old.get("required", ()))):
        yield f"{name} is now required"
    for word in AS_IT_WAS:
        if word in new and new[word] != old.get(word):
            yield f"its {word} changed"
    if new.get("additionalProperties") is False and old.get("additionalProperties") is not False:
        yield "other names are no longer taken"
    if any(demand not in old.get("allOf", ()) for demand in new.get("allOf", ())):
        yield "its fields must go together in a new way"


def _tighter(old: Json, new: Json) -> Iterator[str]:
    if _floor(new) > _floor(old):
        yield f"starts at {_floor(new)[0]} now"
    if _ceiling(new) < _ceiling(old):
        yield f"ends at {_ceiling(new)[0]} now"
    for bound in AT_LEAST:
        if new.get(bound, 0) > old.get(bound, 0):
            yield f"{bound} is now {new[bound]}"
    for bound in AT_MOST:
        if new.get(bound, ANY) < old.get(bound, ANY):
            yield f"{bound} is now {new[bound]}"


def _floor(schema: Json) -> tuple[float, int]:
    """The least number, and 1 where it is itself left out."""
    return max((schema.get("minimum", -ANY), 0), (schema.get("exclusiveMinimum", -ANY), 1))


def _ceiling(schema: Json) -> tuple[float, int]:
    """The largest number, and -1 where it is itself left out."""
    return min((schema.get("maximum", ANY), 0), (schema.get("exclusiveMaximum", ANY), -1))


def _fewer_words(old: Json, new: Json) -> Iterator[str]:
    was, taken = _words(old), _words(new)
    if taken is None:
        return
    if was is None:
        yield "takes only a few words now"
    for word in was or ():
        if word not in taken:
            yield f"no longer takes {word}"


def _words(schema: Json) -> list[Any] | None:
    words: list[Any] | None = schema.get("enum")
    return [schema["const"]] if "const" in schema else words


def _types(schema: Json) -> frozenset[str]:
    kind = schema.get("type")
    if kind is None:
        return TYPES
    types = frozenset([kind] if isinstance(kind, str) else kind)
    return types | {"integer"} if "number" in types else types


def lists(schema: Json, *words: str) -> list[Any]:
    """The alternatives of a schema."""
    return [one for word in words for one in schema.get(word, ())]
