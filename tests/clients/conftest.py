"""A service over a socket, and the draft that every client takes through the whole job."""

import json
from collections.abc import Iterator
from pathlib import Path

import pytest

from service.manual.client import a_service
from service.manual.twins import riser


@pytest.fixture(scope="module")
def address(reference_url: str) -> Iterator[str]:
    """Where a service answers."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("DRYFIT_REFERENCE_URL", reference_url)
        patch.delenv("DRYFIT_URL", raising=False)
        with a_service() as client:
            yield client.address


@pytest.fixture(scope="module")
def draft(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The spoiled riser: shelves of 23 1/2 in, as if two ends of 1x6 were 1 in thick each."""
    file = tmp_path_factory.mktemp("draft") / "riser.json"
    file.write_text(json.dumps(riser().with_value(riser().spoiled)), encoding="utf-8")
    return file


@pytest.fixture(scope="session")
def expected() -> list[str]:
    """What a client prints, worked out by hand.

    A 1x6 is 5 1/2 in wide (PS 20, Table 3). Ends of 14 and shelves of 24, two each, and three
    kerfs are 76 3/8 of a board of 96 at 8.40; the rail of 24 comes out of 72 at 3.60. For another
    width the run, shelf, rail and the span of the load change. A build without parts is refused.
    """
    return [
        "size 1x6 5.5",
        "check mend-first size.nominal-for-actual",
        "mended nothing-found 0",
        "fasteners shelf-end pocket-screw 2",
        "fasteners rail-shelf screw",
        "plan optimal 12.00 false 2",
        "estimate 12.00",
        "resize nothing-found 4",
        "handout true true",
        "refused 422",
    ]
