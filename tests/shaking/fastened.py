"""What the tests of fastenings and glue hold against print, as answers of one catalog."""

import json
from fractions import Fraction

from service.domain.catalog import Catalog
from service.domain.clamping import clamping
from service.domain.fasteners import ScrewSize, gauge_diameter, gauge_number
from service.domain.gluing import Label, coldest, working_time
from service.domain.gravity import Gravity, assigned_gravity
from service.domain.holding import Seat, screw_hold
from service.domain.pilot_holes import drilling, screw_named
from service.domain.splitting import Standing, distances
from tests.domain.test_gluing import COLDEST, OPEN_TIMES
from tests.domain.test_pilot_holes import PILOTS
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
    return found


def gauge_off(screw: ScrewSize) -> bool:
    """Whether a screw is not as thick as its gauge says."""
    number = gauge_number(screw.gauge or "no-0")
    return abs(screw.diameter.value - gauge_diameter(number)) >= Fraction("0.0002")
