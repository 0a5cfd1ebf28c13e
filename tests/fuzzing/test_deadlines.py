"""`scripts/fuzz deadlines` in short: a few of its builds, made smaller, against one second."""

from tests.fuzzing.deadlines import ASKED, OWN, against_the_clock

BUILDS = frozenset({"everything", "hard panels", "deep"})


def test_awkward_builds_are_answered_by_the_deadline() -> None:
    answered = list(against_the_clock(1, 0.5, BUILDS))
    assert {one.name for one in answered} == BUILDS
    assert len(answered) == len(BUILDS) * len(ASKED)
    assert [one for one in answered if one.wrong] == []
    assert {200, 422, 503} <= {one.status for one in answered}
    assert max(one.own for one in answered) <= OWN
