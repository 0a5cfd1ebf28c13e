"""Frozen values that are made quickly.

A request makes thousands of frozen values. The standard library's dataclass is right but slow in
that: it sets each field of a frozen value by a call past its own guard. A module that makes many
takes `dataclass` and `replace` from here instead. What comes out is the same class in every way,
compared, hashed and shown alike; only `__init__` is another: while it runs, the new value is of a
twin class without the guard, whose fields are set plainly.
"""

import dataclasses
from collections.abc import Callable
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from dataclasses import dataclass, replace
else:

    def dataclass(**options: Any) -> Any:
        """What `dataclasses.dataclass` makes of the options, made quickly where it is frozen."""
        make = dataclasses.dataclass(**options)
        return lambda cls: _quick(make(cls))

    def replace(value: Any, **changes: Any) -> Any:
        """The value with other fields, as `dataclasses.replace` makes it."""
        copied = _COPIES.get(type(value))
        if copied is None:
            return dataclasses.replace(value, **changes)
        made = copied(value)  # still of the twin class
        for name, other in changes.items():
            setattr(made, name, other)
        made.__class__ = type(value)
        return made


__all__ = ["dataclass", "replace"]

_COPIES: dict[type, Callable[[Any], Any]] = {}  # of a quick class: a copy of a value, as a twin


def _quick(cls: Any) -> Any:
    """The class with a quick `__init__`, where its values are frozen and hold slots alone."""
    fields = dataclasses.fields(cls)
    plain = all(one.init and not one.kw_only for one in fields)
    alone = cls.__mro__ == (cls, object) and "__slots__" in vars(cls)
    if alone and plain and cls.__dataclass_params__.frozen and not hasattr(cls, "__post_init__"):
        twin = type(cls.__name__, (), {"__slots__": cls.__slots__})
        init = _init(cls, twin, fields)
        init.__qualname__, init.__module__ = cls.__init__.__qualname__, cls.__module__
        init.__annotations__ = cls.__init__.__annotations__
        cls.__init__ = init
        _COPIES[cls] = _copier(twin, fields)
    return cls


def _init(cls: Any, twin: Any, fields: tuple[dataclasses.Field[Any], ...]) -> Any:
    """An `__init__` that takes the fields with their defaults, written out as dataclass does."""
    turn_into = vars(object)["__class__"].__set__
    none = object()  # what is never handed over
    known: dict[str, Any] = {"__turn_into": turn_into, "__twin": twin, "__own": cls, "__none": none}
    taken, lines = [], ["__turn_into(self, __twin)"]
    for one in fields:
        name, value = one.name, one.name
        if one.default is not dataclasses.MISSING:
            known[f"_{name}"] = one.default
            taken.append(f"{name}=_{name}")
        elif one.default_factory is not dataclasses.MISSING:
            known[f"_{name}"] = one.default_factory
            taken.append(f"{name}=__none")
            value = f"_{name}() if {name} is __none else {name}"
        else:
            taken.append(name)
        lines.append(f"self.{name} = {value}")
    lines.append("self.__class__ = __own")
    body = "\n ".join(lines)
    exec(f"def __init__(self, {', '.join(taken)}):\n {body}", known)
    return known["__init__"]


def _copier(twin: Any, fields: tuple[dataclasses.Field[Any], ...]) -> Any:
    """A function that copies a value field by field into a new one of the twin class."""
    known: dict[str, Any] = {"__new": object.__new__, "__twin": twin}
    body = "\n ".join(f"made.{one.name} = value.{one.name}" for one in fields)
    exec(f"def copied(value):\n made = __new(__twin)\n {body}\n return made", known)
    return known["copied"]
