"""From what the caller states to real sizes: every question starts here, and only here.

`resolve(build, catalog)` looks every stock up, settles thickness and width as intervals (the
table's tolerance, the caller's measurement, or a ripped or planed size), works out each part's
solid, and adds up each run.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from functools import cached_property
from typing import Any
from urllib.parse import quote

from service.domain.angles.judging import JudgedShape, judge_shapes
from service.domain.build import Build
from service.domain.catalog import Catalog
from service.domain.deadline import kept_time
from service.domain.errors import Complaint, UnknownName
from service.domain.fastening.joints import JudgedJoint, Wishes, judge_joints
from service.domain.fastening.surroundings import Flaw
from service.domain.fitting import Fit, find_fits
from service.domain.known_names import not_known
from service.domain.mending import JudgedRun, Trial, judge_runs
from service.domain.naming import References
from service.domain.parts import ResolvedPart, resolve_part
from service.domain.sawing import taken_to_slide
from service.domain.stocks import Sizing
from service.domain.yields import NOTHING_KNOWN, Purchasing

NO_WISHES = Wishes()


@dataclass(frozen=True)
class ResolvedBuild:
    """The build with everything that the tables and geometry add to it.

    `shared` holds what one rule works out and another needs too, by the subject's name.
    """

    sizing: Sizing
    parts: tuple[ResolvedPart, ...]
    runs: tuple[JudgedRun, ...]
    fits: tuple[Fit, ...]
    purchasing: Purchasing = NOTHING_KNOWN
    shared: dict[str, Any] = field(default_factory=dict, compare=False, repr=False)
    wishes: Wishes = NO_WISHES

    @property
    def build(self) -> Build:
        return self.sizing.build

    @property
    def catalog(self) -> Catalog:
        return self.sizing.catalog

    @property
    def metric(self) -> bool:
        return self.build.units == "mm"

    @property
    def trial(self) -> Trial:
        """The parts and sums, for trying a mend on them."""
        return Trial(self.sizing, self.parts)

    @cached_property
    def by_id(self) -> Mapping[str, ResolvedPart]:
        """Parts by id; of two with the same id the first counts."""
        return {part.part.id: part for part in reversed(self.parts)}

    @cached_property
    def shapes(self) -> tuple[JudgedShape, ...]:
        """Every shape with its parts held against it."""
        return judge_shapes(self.build.shapes, self.by_id, self.metric)

    @cached_property
    def judged_joints(self) -> tuple[JudgedJoint, ...]:
        """Every joint with what is wrong with its fastening."""
        return judge_joints(self.sizing, self.by_id, self.wishes)

    @cached_property
    def flawed(self) -> Mapping[str, tuple[tuple[JudgedJoint, Flaw], ...]]:
        """What is wrong with the joints, by code: one look through them serves every rule."""
        found: dict[str, tuple[tuple[JudgedJoint, Flaw], ...]] = {}
        for judged in self.judged_joints:
            for flaw in judged.flaws:
                found[flaw.code] = (*found.get(flaw.code, ()), (judged, flaw))
        return found

    @cached_property
    def references(self) -> References:
        """Every place that names a part."""
        return References.of(self.build)

    @cached_property
    def assumed(self) -> tuple[str, ...]:
        """Everything taken for granted, once each, in document order."""
        said = [text for part in self.parts for text in part.assumed]
        saws = self.build.shop.saws
        said += taken_to_slide(self.parts, saws, self.catalog, self.build.region)
        return tuple(dict.fromkeys(said))


def resolve(build: Build, catalog: Catalog, wishes: Wishes = NO_WISHES) -> ResolvedBuild:
    """Real sizes, solids, materials and sums. Raises UnknownName for names outside the tables."""
    complaints = tuple(unknown_names(build, catalog))
    if complaints:
        raise UnknownName(*complaints)
    sizing = Sizing(build, catalog)
    parts = tuple(
        resolve_part(index, part, sizing) for index, part in kept_time(enumerate(build.parts))
    )
    return ResolvedBuild(sizing, parts, judge_runs(sizing, parts), find_fits(parts), wishes=wishes)


def pointed(name: str) -> str:
    """A name as one step of a JSON pointer in its URI form."""
    return quote(name.replace("~", "~0").replace("/", "~1"), safe="~")


def unknown_names(build: Build, catalog: Catalog) -> Iterator[Complaint]:
    """Every wood, saw, tool, glue and use that is not in the tables, with the nearest names."""
    named = [("wood", build.wood, "#/wood")]
    named += [
        ("wood", part.known.wood, f"#/parts/{i}/wood")
        for i, part in enumerate(build.parts)
        if part.known.wood
    ]
    named += [
        ("wood", n.wood, f"#/stocks/{pointed(name)}/wood") for name, n in build.stocks.items()
    ]
    named += [("saw", s.kind, f"#/shop/saws/{i}/kind") for i, s in enumerate(build.shop.saws)]
    named += [("tool", t, f"#/shop/tools/{i}") for i, t in enumerate(build.shop.tools or ())]
    named += [("glue", j.glue, f"#/joints/{i}/glue") for i, j in enumerate(build.joints) if j.glue]
    named += [("finish", s.finish, f"#/steps/{i}/finish") for i, s in enumerate(build.steps)]
    named += [("use", use, f"#/uses/{i}") for i, use in enumerate(build.uses)]
    named += [("use", one.use, f"#/loads/{i}/use") for i, one in enumerate(build.loads)]
    for kind, name, place in named:
        if name is not None and catalog.key(kind, build.region, name) is None:
            yield not_known(catalog, kind, build.region, name, place)
