"""Compound saw settings against a printed table: pitch of the side from level, 4 to 8 sides.

Read in the owner's manual of a miter saw (a maker's data sheet, its chart of compound angle
settings, printed to a hundredth of a degree and said to be right to 0.005); read through a
typed copy, in two copies that agree. Only cells that are legible in both are typed here.
"""

import pytest

from service.domain.angles.answer import Asked, Stick
from service.domain.angles.figuring import figure
from service.domain.build import Stock
from tests.angles.figures import BOARD, inches

# sides, pitch from level, miter, bevel
PRINTED = [
    (4, 5, 44.89, 3.53), (4, 10, 44.56, 7.05), (4, 15, 44.01, 10.55), (4, 20, 43.22, 14.00),
    (4, 25, 42.19, 17.39), (4, 30, 40.89, 20.70), (4, 35, 39.32, 23.93), (4, 40, 37.45, 27.03),
    (4, 45, 35.26, 30.00), (4, 50, 32.73, 32.80), (4, 60, 26.57, 37.76), (4, 75, 14.51, 43.08),
    (5, 5, 35.90, 2.94), (5, 10, 35.58, 5.86), (5, 15, 35.06, 8.75), (5, 20, 34.32, 11.60),
    (5, 25, 33.36, 14.38), (5, 30, 32.18, 17.09), (5, 35, 30.76, 19.70), (5, 45, 27.19, 24.56),
    (6, 5, 29.91, 2.50), (6, 10, 29.62, 4.98), (6, 15, 29.15, 7.44), (6, 20, 28.48, 9.85),
    (6, 25, 27.62, 12.20), (6, 30, 26.57, 14.48), (6, 35, 25.31, 16.67), (6, 45, 22.21, 20.70),
    (8, 5, 22.42, 1.91), (8, 10, 22.19, 3.81), (8, 20, 21.27, 7.52), (8, 30, 19.73, 11.03),
    (8, 35, 18.74, 12.68), (8, 40, 17.60, 14.24), (8, 45, 16.32, 15.70),
]  # fmt: skip
HALF_A_DIGIT = 0.0051


@pytest.mark.parametrize(("sides", "pitch", "miter", "bevel"), PRINTED)
def test_compound_settings_are_those_printed(sides, pitch, miter, bevel):
    fields = {"sides": sides, "slope": float(pitch), "slope_from": "horizontal",
              "slant": inches(2)}  # fmt: skip
    end = figure("sloped-box", Asked(fields, {"": BOARD})).wanted[0].part.ends[0]
    assert end.miter == pytest.approx(miter, abs=HALF_A_DIGIT)
    assert end.bevel == pytest.approx(bevel, abs=HALF_A_DIGIT)


@pytest.mark.parametrize(("sides", "miter"), [(4, 45), (5, 36), (6, 30), (8, 22.5), (10, 18)])
def test_a_flat_ring_is_mitered_by_half_a_turn_shared_out(sides, miter):
    """Printed in the same chart at pitch 0: half a turn over the number of sides."""
    stick = Stick(inches(1), inches("3/4"), Stock("1x2"))
    fields = {"sides": sides, "side": inches(9), "ring": "flat"}
    assert figure("polygon", Asked(fields, {"": stick})).wanted[0].part.ends[0].miter == miter
