"""The whole job by the generated Python client: `python job.py ADDRESS FILE`, a line a question.

It is type-checked with the client that it imports, which is made anew for every run.
"""

import json
import sys
from pathlib import Path
from typing import TypeVar

from dryfit_client import Client
from dryfit_client.api.boards_and_sheets import sizes_of_stock
from dryfit_client.api.whole_builds import (
    check_build,
    estimate_build,
    fasten_build,
    hand_out_build,
    plan_cuts,
    resize_build,
)
from dryfit_client.models import (
    Build,
    CheckAnswer,
    CheckBuildMended,
    CutPlanAnswer,
    EstimateAnswer,
    FastenersAnswer,
    HandOutBuildFormat,
    Problem,
    ResizeAnswer,
    SizesAnswer,
)
from dryfit_client.models.resize import Resize

T = TypeVar("T")


def of(kind: type[T], answer: object) -> T:
    """An answer that is of the kind wanted; a problem ends the run with its words."""
    if isinstance(answer, Problem):
        sys.exit(f"{answer.status} {answer.title} {answer.to_dict()}")
    assert isinstance(answer, kind), answer
    return answer


def main(address: str, file: Path) -> None:
    """Each answer as a line: what was asked, and what a caller would look at first."""
    client = Client(base_url=address)
    build = Build.from_dict(json.loads(file.read_text(encoding="utf-8")))

    sizes = of(SizesAnswer, sizes_of_stock.sync("1x6", client=client))
    print("size", sizes.stock, sizes.sold.to_dict()["width"]["listed"]["in"])

    mend = CheckBuildMended.TRUE
    checked = of(CheckAnswer, check_build.sync(client=client, body=build, mended=mend))
    print("check", checked.verdict, *(finding.code for finding in checked.findings))
    assert isinstance(checked.mended, Build)
    mended = of(CheckAnswer, check_build.sync(client=client, body=checked.mended))
    print("mended", mended.verdict, len(mended.findings))

    fastened = of(FastenersAnswer, fasten_build.sync(client=client, body=checked.mended))
    for joint in fastened.joints:
        best = joint.options[0]
        print("fasteners", joint.joint, best.method, best.count)

    plan = of(CutPlanAnswer, plan_cuts.sync(client=client, body=checked.mended, deadline_s=2.0))
    print("plan", plan.status, plan.cost, plan.over_budget, len(plan.boards))

    estimate = of(EstimateAnswer, estimate_build.sync(client=client, body=checked.mended))
    print("estimate", estimate.cost.to_dict()["total"])

    to = Resize.from_dict({"build": checked.mended.to_dict(), "to": {"width": "31 1/2"}})
    resized = of(ResizeAnswer, resize_build.sync(client=client, body=to))
    print("resize", resized.verdict, len(resized.changed))

    # This client knows one form of an answer: the first that the description names, the page.
    form = HandOutBuildFormat.HTML
    page = of(str, hand_out_build.sync(client=client, body=checked.mended, format_=form))
    print("handout", "Counter riser" in page, page.count("<h2") > 5)

    refused = fasten_build.sync(client=client, body=Build.from_dict({"name": "x", "parts": []}))
    assert isinstance(refused, Problem), refused
    print("refused", refused.status)


if __name__ == "__main__":
    main(sys.argv[1], Path(sys.argv[2]))
