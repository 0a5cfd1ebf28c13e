"""Names of stocks: sizes that a region calls otherwise, and the nearest of a wrong name."""

import pytest

from service.domain.catalog import Catalog


@pytest.mark.parametrize(
    ("name", "key"),
    [("2x4", "47x100"), ("6x2", "47x150"), ("2 by 8", "47x200"), ("150x47", "47x150")],
)
def test_an_imperial_name_still_means_the_metric_stock(
    catalog: Catalog, name: str, key: str
) -> None:
    """An inch is 25 mm in these names, and 2 in is sawn 47 mm; the US has a stock called so too."""
    assert catalog.stock_key("uk", name) == key


@pytest.mark.parametrize(
    ("region", "name", "nearest"),
    [
        ("us", "2x7", {"2x6", "2x8"}),
        ("us", "1x9", {"1x8", "1x10"}),
        ("us", "5/4x7", {"5-4x6", "5-4x8"}),
        ("uk", "47x160", {"47x150"}),
    ],
)
def test_the_nearest_stock_is_near_in_size(
    catalog: Catalog, region: str, name: str, nearest: set[str]
) -> None:
    """By its letters 2x7 looks as much like 2x2 or 2x10."""
    assert set(catalog.nearest("stock", region, name)[: len(nearest)]) == nearest


def test_a_misspelled_sheet_is_told_by_its_letters(catalog: Catalog) -> None:
    assert catalog.nearest("stock", "us", "plywod 3/4")[0] == "plywood-sanded-0.71875in"
