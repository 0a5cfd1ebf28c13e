"""What a toe-nail resists: driven at a slope through the face of a part that stands on its end.

Source: nds-2018, 12.5.4: started a third of its length from the end, at about 30 degrees.
"""

from fractions import Fraction
from math import cos, radians

from service.domain.catalog import Catalog
from service.domain.fasteners import NailSize
from service.domain.fastening.driving import TOE_SHARE, exactly
from service.domain.fastening.holding import Hold, Seat, nail_hold
from service.domain.values import replace

SIDEWAYS, PULLED = "toe-nail.lateral", "toe-nail.withdrawal"
NOT_COMPARED = Hold(why_not=("driven at a slope: not compared",))


def toe_nail_hold(
    catalog: Catalog, nail: NailSize, length: Fraction, slope: float, seat: Seat
) -> Hold:
    """Pounds of one toe-nail, its own factors on them; `seat` is that of the nail along its length.

    Pulled out, all of it that sits in the other part counts; sideways a third of its length bears
    in the standing part, and in the other what it goes straight down.
    """
    factors = catalog.constants.get(SIDEWAYS), catalog.constants.get(PULLED)
    aside, out = factors
    if aside is None or out is None:
        return NOT_COMPARED
    passed = TOE_SHARE * length
    deep = exactly(float(seat.bite) * cos(radians(slope)))
    sheared = nail_hold(catalog, nail, replace(seat, passed=passed, bite=deep))
    pulled = nail_hold(catalog, nail, replace(seat, passed=passed))
    return replace(
        pulled,
        pulled=None if pulled.pulled is None else pulled.pulled * float(out.value),
        sheared=None if sheared.sheared is None else sheared.sheared * float(aside.value),
        why_not=tuple(dict.fromkeys((*pulled.why_not, *sheared.why_not))),
        rests_on=(*pulled.rests_on, aside.row, out.row),
    )
