"""What would break a caller of an earlier description: named place by place.

Inside v1 requests may be taken more freely and answers may say more, never the other way round.
Words may be added to what an answer can say, because answers are open. A pattern of a request that
has changed is named too: whether it still takes all that it took, only a person can tell.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from service.api.documents.schemas import Json
from service.publishing.narrowing import demands_more, lists

METHODS = ("get", "post", "put", "patch", "delete")


@dataclass(frozen=True)
class Descriptions:
    """The earlier description and the later one."""

    old: Json
    new: Json

    def resolved(self, old: Json, new: Json) -> tuple[Json, Json]:
        """Two schemas, each with what its reference stands for."""
        return _resolved(self.old, old), _resolved(self.new, new)


def _resolved(document: Json, schema: Json) -> Json:
    while "$ref" in schema:
        found: Any = document
        for step in schema["$ref"].removeprefix("#/").split("/"):
            found = found[step]
        schema = found | {word: own for word, own in schema.items() if word != "$ref"}
    return schema


def breaks(old: Json, new: Json) -> list[str]:
    """A line for each thing that a caller of the old description could trip over."""
    both = Descriptions(old, new)
    return [*_operations(both), *_findings(both)]


def _findings(both: Descriptions) -> Iterator[str]:
    later = both.new.get("x-findings", {})
    for code, finding in both.old.get("x-findings", {}).items():
        if code not in later:
            yield f"finding {code}: removed"
        else:
            yield from _answered(
                both, finding["numbers"], later[code]["numbers"], f"finding {code}"
            )


def _operations(both: Descriptions) -> Iterator[str]:
    for path, methods in both.old["paths"].items():
        for method in (name for name in METHODS if name in methods):
            operation = both.new["paths"].get(path, {}).get(method)
            place = f"{method.upper()} {path}"
            if operation is None:
                yield f"{place}: removed"
                continue
            if operation.get("operationId") != methods[method].get("operationId"):
                yield f"{place}: its operationId changed"
            yield from _parameters(both, methods[method], operation, place)
            yield from _bodies(both, methods[method], operation, place)
            yield from _responses(both, methods[method], operation, place)


def _parameters(both: Descriptions, old: Json, new: Json, place: str) -> Iterator[str]:
    was = {(one["in"], one["name"]): one for one in old.get("parameters", ())}
    is_now = {(one["in"], one["name"]): one for one in new.get("parameters", ())}
    for key, parameter in was.items():
        there = f"{place}, parameter {key[1]}"
        if key not in is_now:
            yield f"{there}: removed"
            continue
        later = is_now[key]
        if later.get("required") and not parameter.get("required"):
            yield f"{there}: now required"
        if any(later.get(name) != parameter.get(name) for name in ("style", "explode")):
            yield f"{there}: written otherwise"
        yield from _asked(both, parameter["schema"], later["schema"], there)
    for key, later in is_now.items():
        if key not in was and later.get("required"):
            yield f"{place}, parameter {key[1]}: new and required"


def _bodies(both: Descriptions, old: Json, new: Json, place: str) -> Iterator[str]:
    was, is_now = old.get("requestBody", {}), new.get("requestBody", {})
    if is_now.get("required") and not was.get("required"):
        yield f"{place}: a body is now required"
    for kind, content in was.get("content", {}).items():
        later = is_now.get("content", {}).get(kind)
        if later is None:
            yield f"{place}: no longer takes {kind}"
        else:
            yield from _asked(both, content["schema"], later["schema"], f"{place}, body")


def _responses(both: Descriptions, old: Json, new: Json, place: str) -> Iterator[str]:
    for status, response in old["responses"].items():
        there = f"{place}, {status}"
        later = new["responses"].get(status)
        if later is None:
            if status < "400":
                yield f"{there}: removed"
            continue
        for name in response.get("headers", {}):
            if name not in later.get("headers", {}):
                yield f"{there}, header {name}: removed"
        for kind, content in response.get("content", {}).items():
            if kind not in later.get("content", {}):
                yield f"{there}: no longer answers {kind}"
                continue
            told = later["content"][kind]["schema"]
            yield from _answered(both, content["schema"], told, there)


Pairs = frozenset[tuple[int, int]]


def _asked(
    both: Descriptions, old: Json, new: Json, place: str, seen: Pairs = frozenset()
) -> Iterator[str]:
    """What the new schema of a request no longer takes."""
    if (id(old), id(new)) in seen:
        return
    seen |= {(id(old), id(new))}
    old, new = both.resolved(old, new)
    for why in demands_more(old, new):
        yield f"{place}: {why}"
    for name, schema in old.get("properties", {}).items():
        later = new.get("properties", {}).get(name, new.get("additionalProperties", True))
        if later is False:
            yield f"{place}/{name}: removed"
        elif isinstance(later, dict):
            yield from _asked(both, schema, later, f"{place}/{name}", seen)
    for word in ("items", "additionalProperties", "propertyNames"):
        if isinstance(new.get(word), dict):
            yield from _asked(both, _schema(old, word), new[word], f"{place}/{word}", seen)
    for one in lists(old, "anyOf", "oneOf"):
        others = lists(new, "anyOf", "oneOf") or [new]
        if all(any(_asked(both, one, other, place, seen)) for other in others):
            yield f"{place}: one of the ways to write it is gone"


def _answered(
    both: Descriptions, old: Json, new: Json, place: str, seen: Pairs = frozenset()
) -> Iterator[str]:
    """What an answer no longer says, or says in a way that callers do not know.

    A document in an answer is the caller's own, or reads like it: what may stand in it is held to
    what may be asked.
    """
    if (id(old), id(new)) in seen:
        return
    seen |= {(id(old), id(new))}
    old, new = both.resolved(old, new)
    if old.get("additionalProperties") is False:
        return
    if (types := _types(old)) and not (_types(new) and _types(new) <= types):
        yield f"{place}: answers another type"
    yield from _fields_answered(both, old, new, place, seen)
    for word in ("items", "additionalProperties"):
        if isinstance(old.get(word), dict):
            yield from _answered(both, old[word], _schema(new, word), f"{place}/{word}", seen)
    known = lists(old, "anyOf", "oneOf")
    for one in (lists(new, "anyOf", "oneOf") or [new]) if known else ():
        if all(any(_answered(both, other, one, place, seen)) for other in known):
            yield f"{place}: answers in a way that was not known"


def _fields_answered(
    both: Descriptions, old: Json, new: Json, place: str, seen: Pairs
) -> Iterator[str]:
    for name, schema in old.get("properties", {}).items():
        later = new.get("properties", {}).get(name)
        if later is None:
            yield f"{place}/{name}: removed"
            continue
        if name in old.get("required", ()) and name not in new.get("required", ()):
            yield f"{place}/{name}: no longer always there"
        yield from _answered(both, schema, later, f"{place}/{name}", seen)


def _schema(schema: Mapping[str, Any], word: str) -> Json:
    inner = schema.get(word)
    return inner if isinstance(inner, dict) else {}


def _types(schema: Json) -> set[str]:
    kind = schema.get("type", ())
    types = {kind} if isinstance(kind, str) else set(kind)
    return types | {"integer"} if "number" in types else types
