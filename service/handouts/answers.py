"""Every question about one build asked once: what all sections of the handout are told from."""

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property

from service.domain.build import Build, Step
from service.domain.catalog import Catalog
from service.domain.checking import Checked, check
from service.domain.cost import Cost, cost
from service.domain.fastening.advising import Advice, advise
from service.domain.naming import letter
from service.domain.parts import ResolvedPart
from service.domain.purchase import Purchase
from service.domain.resolving import ResolvedBuild
from service.domain.timeline import Timeline, timeline
from service.domain.usual_order import usual_order
from service.domain.weight import Mass, unweighed, weigh, whole
from service.handouts.drawings.pens import Pen
from service.handouts.sizes import Sizes, listed
from service.planning.purchasing import purchase_of
from service.planning.whole import CutPlan, plan_build
from service.planning.yielding import purchasing_of


@dataclass(frozen=True)
class Answers:
    """A build with what each question answers, and how the page writes sizes."""

    checked: Checked
    plan: CutPlan
    purchase: Purchase
    cost: Cost
    time: Timeline
    advice: tuple[Advice, ...]
    mass: Mass
    not_weighed: tuple[str, ...]
    sizes: Sizes

    @property
    def build(self) -> ResolvedBuild:
        """The build as resolved for the check: every answer rests on this one."""
        return self.checked.resolved

    @property
    def document(self) -> Build:
        """The build as its maker states it."""
        return self.build.build

    @cached_property
    def letters(self) -> dict[str, str]:
        """The letter of each part on drawings and in lists."""
        return {id: letter(part.index) for id, part in self.build.by_id.items()}

    def named(self, part: str) -> str:
        """A part by letter and name; the wall, and what is not in the list, as it is called."""
        return f"{self.letters[part]} {part}" if part in self.letters else part

    def names(self, parts: Iterable[str], most: int = 4) -> str:
        """Parts by letter and name; what is over `most` is counted."""
        return listed([self.named(part) for part in parts], most)

    def stock_of(self, part: ResolvedPart) -> str:
        """What the store calls the stock of a part; as written, where it knows none."""
        if part.sized and part.sized.key:
            return self.pen.stock(part.sized.key)
        return part.part.stock.name or "a size of its own"

    @cached_property
    def pen(self) -> Pen:
        """How the drawings of this page are written."""
        return Pen(self.build, self.sizes.one)

    @cached_property
    def steps(self) -> tuple[Step, ...]:
        """The steps as stated, or else the usual order."""
        return self.document.steps or usual_order(self.build)


def ask(build: Build, catalog: Catalog, *, both: bool, seconds: float) -> Answers:
    """Check, plan, purchase, cost, time, weight and fastenings of a build.

    `seconds` is the most that the cut plan may take. Raises UnknownName.
    """
    checked = check(build, catalog, purchasing_of)
    resolved = checked.resolved
    plan = plan_build(resolved, seconds=seconds)
    purchase = purchase_of(resolved, plan)
    masses = weigh(resolved)
    return Answers(
        checked=checked,
        plan=plan,
        purchase=purchase,
        cost=cost(resolved, purchase),
        time=timeline(resolved),
        advice=advise(resolved),
        mass=whole(masses),
        not_weighed=tuple(unweighed(masses)),
        sizes=Sizes(resolved.metric, both),
    )
