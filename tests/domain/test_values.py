"""Values made quickly are held against those that the standard library makes."""

import copy
import dataclasses
import inspect
import pickle
from typing import Any

import pytest

from service.domain import values

DEFAULT = (1, 2)


def made(dataclass: Any) -> Any:
    """The same class, made by the one `dataclass` or the other."""

    @dataclass(frozen=True, slots=True)
    class Board:
        """A board."""

        name: str
        wide: float = 3.5
        marks: tuple[int, ...] = DEFAULT
        notes: list[str] = dataclasses.field(default_factory=list)
        seen: int = dataclasses.field(default=0, compare=False, repr=False)

        @property
        def double(self) -> float:
            return self.wide * 2

    return Board


QUICK, PLAIN = made(values.dataclass), made(dataclasses.dataclass)
CALLS: tuple[tuple[tuple[Any, ...], dict[str, Any]], ...] = (
    (("shelf",), {}),
    (("shelf", 5.5), {}),
    (("shelf", 5.5, (), ["knot"], 7), {}),
    ((), {"name": "shelf", "notes": ["knot"]}),
    (("shelf",), {"marks": (3,), "seen": 2}),
)


@dataclasses.dataclass(frozen=True)
class Open:
    """A value that is not made quickly."""

    name: str


@values.dataclass(frozen=True, slots=True)
class Kept:
    """A class that pickle finds by its name."""

    name: str
    size: int = 0


def shown(value: Any) -> tuple[Any, ...]:
    return repr(value), dataclasses.asdict(value), value.double, value.seen


@pytest.mark.parametrize(("given", "named"), CALLS)
def test_the_same_call_makes_the_same_value(given: tuple[Any, ...], named: dict[str, Any]) -> None:
    quick, plain = QUICK(*given, **named), PLAIN(*given, **named)
    assert type(quick) is QUICK and isinstance(quick, QUICK)
    assert shown(quick) == shown(plain)
    assert quick == QUICK(*given, **named)
    assert quick != QUICK("another")


@pytest.mark.parametrize(
    ("given", "named"), [((), {}), (("a", 1, 2, [], 3, 4), {}), (("a",), {"name": "b"}),
                         (("a",), {"other": 1})]
)  # fmt: skip
def test_what_the_one_refuses_the_other_does(given: tuple[Any, ...], named: dict[str, Any]) -> None:
    for kind in (QUICK, PLAIN):
        with pytest.raises(TypeError):
            kind(*given, **named)


def test_nothing_of_a_value_can_be_changed() -> None:
    quick = QUICK("shelf")
    for change in (
        lambda: setattr(quick, "wide", 1.0),
        lambda: delattr(quick, "wide"),
        lambda: setattr(quick, "other", 1.0),
    ):
        with pytest.raises((dataclasses.FrozenInstanceError, TypeError)):
            change()
    assert quick.wide == 3.5 and not hasattr(quick, "__dict__")


def test_each_value_has_a_list_of_its_own() -> None:
    assert QUICK("a").notes is not QUICK("a").notes


def test_values_look_up_alike() -> None:
    one, two = Kept("a", 1), Kept("a", 1)
    assert hash(one) == hash(two) == hash(("a", 1))
    assert {one: 1}[two] == 1


def test_the_class_is_described_alike() -> None:
    quick, plain = inspect.signature(QUICK).parameters, inspect.signature(PLAIN).parameters
    assert list(quick) == list(plain)
    assert [one.annotation for one in quick.values()] == [one.annotation for one in plain.values()]
    assert QUICK.__match_args__ == PLAIN.__match_args__
    assert [f.name for f in dataclasses.fields(QUICK)] == [
        f.name for f in dataclasses.fields(PLAIN)
    ]
    assert QUICK.__doc__ == PLAIN.__doc__


@pytest.mark.parametrize("changes", [{}, {"wide": 1.0}, {"name": "b", "notes": ["x"], "seen": 3}])
def test_a_value_is_replaced_alike(changes: dict[str, Any]) -> None:
    quick, plain = QUICK("a", seen=9), PLAIN("a", seen=9)
    other = values.replace(quick, **changes)
    assert shown(other) == shown(dataclasses.replace(plain, **changes))
    assert type(other) is QUICK and shown(quick) == shown(plain)
    assert shown(dataclasses.replace(quick, **changes)) == shown(other)
    with pytest.raises(dataclasses.FrozenInstanceError):
        other.wide = 2.0


def test_replacing_refuses_unknown_fields_and_takes_other_values() -> None:
    with pytest.raises((TypeError, AttributeError)):
        values.replace(QUICK("a"), nothing=1)
    with pytest.raises((TypeError, AttributeError)):
        values.replace(QUICK("a"), double=1)
    assert values.replace(Open("a"), name="b") == Open("b")


def test_values_are_copied_and_sent() -> None:
    kept = Kept("a", 2)
    assert copy.copy(kept) == copy.deepcopy(kept) == pickle.loads(pickle.dumps(kept)) == kept
    assert type(copy.copy(kept)) is Kept


def test_what_goes_on_after_its_fields_is_left_as_it_is() -> None:
    @values.dataclass(frozen=True, slots=True)
    class Checked:
        size: int

        def __post_init__(self) -> None:
            if self.size < 0:
                raise ValueError(self.size)

    @values.dataclass(frozen=True, slots=True)
    class Under(Kept):
        more: int = 0

    assert Checked(1).size == 1
    with pytest.raises(ValueError, match="-1"):
        Checked(-1)
    assert Under("a", 1, 2) == Under("a", 1, 2) and type(Under("a")) is Under
    assert values.replace(Under("a", 1, 2), size=4) == Under("a", 4, 2)
