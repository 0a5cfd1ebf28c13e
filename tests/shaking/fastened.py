"""What the tests of fastenings and glue hold against print, as answers of one catalog."""

import json
from collections.abc import Iterator
from fractions import Fraction

from service.domain.catalog import Catalog
from service.domain.clamping import clamping
from service.domain.fasteners import ScrewSize, gauge_diameter, gauge_number
from service.domain.fastening.adjusting import Terms, adjusted
from service.domain.fastening.fixing import Fixing
from service.domain.fastening.gravity import Gravity, assigned_gravity
from service.domain.fastening.holding import Hold, Seat, screw_hold
from service.domain.fastening.pilot_holes import drilling, screw_named
from service.domain.fastening.splitting import Standing, distances
from service.domain.fastening.surroundings import Surroundings
from service.domain.fastening.toe_nailing import toe_nail_hold
from service.domain.gluing import Label, coldest, working_time
from tests.domain.test_gluing import COLDEST, OPEN_TIMES
from tests.fastening.test_adjusting import LOADS, WATER, common_8d
from tests.fastening.test_pilot_holes import PILOTS
from tests.fastening.test_special_joints import TWO, advice, bolt, document
from tests.published.test_connections import (
    CONNECTIONS,
    FORMULAS,
    NAMED,
    PENNIES,
    ROOTS,
    sizes_held,
)


def fastened(catalog: Catalog) -> list[object]:
    """Every answer, in the order in which the tests ask."""
    found: list[object] = [sizes_held(catalog, key) for key, _, _ in NAMED]
    for row in CONNECTIONS:
        inputs = json.loads(row["inputs"])
        found.append(FORMULAS[row["what"]](catalog, inputs, row["unit"]))
    for gauge, wood, _ in PILOTS:
        screw = screw_named(catalog, gauge, None)
        drilled = drilling(catalog, screw, catalog.woods[wood])
        found += [drilled.pilot, drilled.clearance]
    drills = catalog.fasteners.drills.values()
    found += [drill for drill in drills if (drill.low + drill.high + drill.usual) * 64 % 1]
    found += [sizes_held(catalog, f"wood-screw.no-{gauge}")[1] for gauge in ROOTS]
    found += [sizes_held(catalog, nail) for nail, _ in PENNIES]
    found += [gauge_off(screw) for screw in catalog.fasteners.screws if screw.gauge]
    found += [working_time(catalog.glues[g], Label(), Fraction(50)) for g, _, _ in OPEN_TIMES]
    found += [coldest(catalog.glues[glue], Label()) for glue, _ in COLDEST]
    light = catalog.woods["whitewood-us"]
    found += [assigned_gravity(catalog, None), assigned_gravity(catalog, light)]
    end = Seat(Fraction(1, 2), Fraction(2), Fraction(2), "end", Gravity(0.5, ()), Gravity(0.5, ()))
    found.append(screw_hold(catalog, screw_named(catalog, "10", None), end))
    for wood in ("spf", "oak-white", "cherry-black"):
        found.append(clamping(catalog, Fraction(36), Fraction(3, 4), wood=catalog.woods[wood]))
    for piloted in (True, False):
        screw = Standing(Fraction("0.164"), piloted, Fraction(3, 4), gauge="no-8")
        found.append(distances(catalog, screw))
    return [*found, *for_load_and_water(catalog), *bolted(catalog)]


def for_load_and_water(catalog: Catalog) -> Iterator[object]:
    """A hundred pounds each way under every term that the tests try, and a toe-nail."""
    around = Surroundings(catalog)
    for duration in LOADS:
        yield adjusted(around, Hold(100.0, 100.0), Fixing("screw"), Terms(duration, "dry"))
    for method, thick, service, _ in WATER:
        fixing = Fixing(method, diameter=Fraction(thick))
        yield adjusted(around, Hold(100.0, 100.0), fixing, Terms("ten-years", service))
    fir, bite = Gravity(0.5, ()), Fraction("1.5378")
    seat = Seat(Fraction(1), bite, bite, "face", fir, fir)
    yield toe_nail_hold(catalog, common_8d(catalog), Fraction(5, 2), 30.0, seat)


def bolted(catalog: Catalog) -> Iterator[object]:
    """The nut and the pitch of every bolt, and the distances of a bolt in softwood and hardwood."""
    yield [(one.key, one.nut.high, one.pitch.high) for one in catalog.fasteners.bolts]
    for wood in ("spf", "red oak"):
        written = document(TWO, TWO, bolt("1/2"), wood=wood)
        told = advice(catalog, written).suggestions.particulars
        yield [(one.words, one.least, one.most) for one in told if one.what != "length"]


def gauge_off(screw: ScrewSize) -> bool:
    """Whether a screw is not as thick as its gauge says."""
    number = gauge_number(screw.gauge or "no-0")
    return abs(screw.diameter.value - gauge_diameter(number)) >= Fraction("0.0002")
