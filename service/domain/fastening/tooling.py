"""Which tools a way of fastening needs, and whether a shop has them.

A hammer and a screwdriver are taken to be in every shop; everything else counts only where it is
named. Where a build names no tools at all, every tool counts.
"""

from collections.abc import Collection, Iterable, Iterator
from functools import lru_cache

from service.domain.catalog import Catalog
from service.domain.values import dataclass

Needs = tuple[frozenset[str], ...]  # one tool of each set

EVERY_SHOP = frozenset({"hammer", "driver"})
EVERY_SHOP_SAID = "a hammer and a screwdriver are in the shop"
EVERY_TOOL_SAID = "no tools are named: every tool counts as at hand"
CLAMPS = frozenset({"clamps", "bar-clamps", "pipe-clamps", "strap-clamp"})
DRILLS = frozenset({"drill", "drill-press", "right-angle-drill", "impact-driver"})
DRIVERS = frozenset({"drill", "driver", "impact-driver", "right-angle-drill"})
DRIVING_DRILLS = frozenset({"drill", "impact-driver", "right-angle-drill"})
POWERED = frozenset(
    {
        "brad-nailer", "finish-nailer", "pin-nailer", "stapler", "staple-gun", "drill",
        "drill-press", "impact-driver", "right-angle-drill", "pocket-jig",
    }
)  # fmt: skip

BY_METHOD: dict[str, Needs] = {
    "screw": (DRIVERS,),
    "pocket-screw": (frozenset({"pocket-jig"}), DRIVING_DRILLS),
    "dowel": (frozenset({"doweling-jig"}), DRILLS),
    "brad": (frozenset({"brad-nailer"}),),
    "finish-nail": (frozenset({"finish-nailer", "hammer"}),),
    "nail": (frozenset({"hammer"}),),
    "staple": (frozenset({"stapler", "staple-gun"}),),
    "glue": (CLAMPS,),
    "bolt": (DRILLS,),
    "clip": (DRIVERS,),
    "hinge": (DRIVERS,),
}


@dataclass(frozen=True, slots=True)
class Tools:
    """What a shop has; `named` is None where nothing is said of it. `without` are left out."""

    named: frozenset[str] | None
    without: frozenset[str] = frozenset()

    def has(self, tool: str) -> bool:
        """Whether the tool is at hand."""
        if tool in self.without:
            return False
        return self.named is None or tool in self.named or tool in EVERY_SHOP

    def lacking(self, needs: Needs) -> frozenset[str] | None:
        """The first set of tools of which the shop has none, or None where nothing lacks."""
        return next((any_of for any_of in needs if not any(map(self.has, any_of))), None)

    def chosen(self, needs: Needs) -> tuple[str, ...]:
        """One tool for each need: the simplest at hand, else the simplest that would do."""
        at_hand = ([tool for tool in any_of if self.has(tool)] or any_of for any_of in needs)
        return tuple(dict.fromkeys(min(tools, key=_simplest) for tools in at_hand))

    def less(self, tools: Iterable[str]) -> "Tools":
        """The same shop without some tools."""
        return _less(self, frozenset(tools))


# What a shop can do is looked up by its tools again and again: the very same value is found quicker
# than an equal one.
@lru_cache(maxsize=256)
def _shop(named: frozenset[str]) -> Tools:
    return Tools(named)


@lru_cache(maxsize=256)
def _less(shop: Tools, tools: frozenset[str]) -> Tools:
    return Tools(shop.named, shop.without | tools)


EVERY_TOOL = Tools(None)


def _simplest(tool: str) -> tuple[int, str]:
    return (tool not in ("drill", "clamps"), tool)


def tools_of(named: Iterable[str] | None, region: str, catalog: Catalog) -> Tools:
    """A shop's tools by key; names that the tables do not know are left out."""
    if named is None:
        return EVERY_TOOL
    keys = (catalog.key("tool", region, name) for name in named)
    return _shop(frozenset(key for key in keys if key))


def needs_of(method: str, by_hand: bool, pilot: bool) -> Needs:
    """What a method needs; brads may be driven by hand where a hammer is named for it."""
    needs = BY_METHOD.get(method, ())
    if method == "brad" and by_hand:
        needs = (frozenset({"hammer"}),)
    if pilot and method in ("screw", "nail", "finish-nail"):
        needs = (*needs, DRILLS)
    return needs


def wanting(method: str, tools: Tools) -> frozenset[str] | None:
    """The tools of which a stated method needs one, and the shop has none.

    A hammer drives brads only where it is named: the strips for a nailer can't be driven by hand.
    """
    if method == "brad" and tools.named is not None and "hammer" in tools.named:
        return None
    return tools.lacking(BY_METHOD.get(method, ()))


def words(tools: Collection[str]) -> str:
    """Tools in a sentence: a staple gun or a stapler."""
    if frozenset(tools) >= CLAMPS:
        return "clamps"
    return " or ".join(tool.replace("-", " ") for tool in sorted(tools, key=_simplest))


def said(tools: Tools) -> Iterator[str]:
    """What was taken for granted about the shop."""
    yield EVERY_TOOL_SAID if tools.named is None else EVERY_SHOP_SAID
