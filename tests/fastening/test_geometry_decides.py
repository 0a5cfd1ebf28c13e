"""Rules of thumb may go: with every row of practice deleted the same is proposed and found."""

from collections.abc import Iterator
from dataclasses import replace

import pytest

from service.api.documents.build import BuildForm
from service.domain.catalog import Catalog
from service.domain.checking import check
from service.domain.fastening.advising import advise
from service.domain.resolving import resolve
from tests.checking.cases import CASES
from tests.fastening.joints import WORKED
from tests.fastening.random_joints import joint_build
from tests.fastening.test_joints_by_hand import document

FORM = BuildForm()
FASTENING = [case for case in CASES if case.code.startswith("fastener.")]


@pytest.fixture(scope="module")
def bare(catalog: Catalog) -> Catalog:
    """The tables without rules of thumb and without usual lengths for pockets."""
    fasteners = replace(catalog.fasteners, pockets=())
    return replace(catalog, practice={}, fasteners=fasteners)


def test_the_usual_lengths_are_shown_beside_and_gone_with_their_rows(
    catalog: Catalog, bare: Catalog
) -> None:
    pocketed = next(one for one in WORKED if one.joint["method"] == "pocket-screw")
    build = FORM.load(document(pocketed))
    with_rows = advise(resolve(build, catalog))[0].suggestions.options[0]
    without = advise(resolve(build, bare))[0].suggestions.options[0]
    assert [float(length) for length in with_rows.usual[0]] == [1.25, 1.0]
    assert without.usual == ((), ())
    assert without.choice.fixing == with_rows.choice.fixing


def test_every_joint_worked_by_hand_is_judged_alike(catalog: Catalog, bare: Catalog) -> None:
    for worked in WORKED:
        build = FORM.load(document(worked))
        assert list(told(check(build, bare))) == list(told(check(build, catalog))), worked.why


@pytest.mark.parametrize("case", FASTENING, ids=lambda case: case.code)
def test_every_case_fires_and_is_silent_alike(catalog: Catalog, bare: Catalog, case) -> None:
    for value in (*case.fires, *case.silent):
        build = FORM.load(case.with_value(value))
        assert list(told(check(build, bare))) == list(told(check(build, catalog)))


def test_the_same_is_proposed_for_random_joints(catalog: Catalog, bare: Catalog) -> None:
    for seed in range(300):
        build = FORM.load(joint_build(seed))
        ours, theirs = (advise(resolve(build, one))[0].suggestions for one in (catalog, bare))
        assert [o.choice.fixing for o in ours.options] == [o.choice.fixing for o in theirs.options]


def told(checked) -> Iterator[tuple[str, str, str]]:
    for finding in checked.findings:
        if finding.code.startswith("fastener."):
            yield finding.code, finding.severity, finding.at
