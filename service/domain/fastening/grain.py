"""Whether the wood takes a fastener where it stands: threads, grain, edges, and the weather."""

from collections.abc import Iterator
from fractions import Fraction

from service.domain.fastening.fixing import DRIVEN, NAILS, Fixing
from service.domain.fastening.meeting import BOARDLIKE, Meeting
from service.domain.fastening.splitting import Standing, distances
from service.domain.fastening.surroundings import PLACES, WET, Flaw, Surroundings, said
from service.domain.values import replace

THICKEST_BACK = Fraction(3, 8)  # in; practice


def of_wood(meeting: Meeting, fixing: Fixing, around: Surroundings) -> Iterator[Flaw]:
    """Threads, grain, splitting."""
    pocket = fixing.method == "pocket-screw"
    if pocket:
        yield from pocket_thread(meeting, fixing, around)
    elif fixing.method not in DRIVEN:
        return
    into = meeting.into
    if into.panel is not None and into.surface != "face":
        panel_edge = next(into_panel_edge(meeting, fixing, around), None)
        if panel_edge:
            yield panel_edge
            return
    if into.surface == "end":
        yield from end_grain(meeting, fixing)
    if not pocket and (fixing.end_distance or fixing.edge_distance):
        near = next(near_edge(meeting, fixing, around), None)
        if near:
            yield near
            return
    if fixing.method == "screw" and not fixing.pilot:
        yield from no_pilot(meeting, fixing)


def pocket_thread(meeting: Meeting, fixing: Fixing, around: Surroundings) -> Iterator[Flaw]:
    """Coarse threads for softwood and panels, fine ones for hardwood."""
    wood, thread = meeting.into.wood, fixing.thread
    if thread is None or wood is None:
        return
    wants = thread_for(meeting)
    if thread == wants:
        return
    kind = wood.kind if wood.kind in ("hardwood", "panel") else "softwood"
    yield Flaw(
        "pocket-thread",
        "warn",
        "fastener/thread",
        f"{meeting.into.name} is {wood.name}: a {kind} takes a {wants} thread, not a {thread} one.",
        {"thread": thread, "wants": wants},
        "practice",
        pocket_rows(around),
    )


def pocket_rows(around: Surroundings) -> tuple[str, ...]:
    """What the tables say of pocket threads."""
    return tuple(r.row for r in around.catalog.fasteners.pockets if r.item == "thread")


def thread_for(meeting: Meeting) -> str:
    """The thread for the wood that holds it."""
    return "fine" if meeting.into.hard else "coarse"


def into_panel_edge(meeting: Meeting, fixing: Fixing, around: Surroundings) -> Iterator[Flaw]:
    """The edge of a panel holds little and comes apart between its layers.

    Plywood is glued and screwed there every day; MDF and particleboard also want a pilot. Backs
    and bottoms of thin panel are bradded and stapled there, and carry nothing that pulls them off.
    """
    into, through = meeting.into, meeting.through
    back = through.panel is not None and through.thickness.listed <= THICKEST_BACK
    if not into.into_panel_edge or (back and fixing.method in (*NAILS, "staple")):
        return
    board = into.panel in BOARDLIKE
    unglued = fixing.glue == "none" or (board and fixing.glue is None)
    bored = fixing.pilot is True or (fixing.pilot is None and not board)
    needs_pilot = fixing.method == "screw"
    if not unglued and (bored or not needs_pilot):
        return
    lacks = "without glue" if unglued else "without a pilot"
    yield Flaw(
        "into-panel-edge",
        "warn",
        "enters",
        f"The {said(fixing.method)} enters the {into.surface} of {into.name}, a panel "
        f"{around.say(into.thickness.listed)} thick, {lacks}: layers part, and it holds little.",
        {"thickness": into.thickness.listed},
        "practice",
        around.rows("panel-edge.holds-less", "plywood.holds-less"),
    )


def end_grain(meeting: Meeting, fixing: Fixing) -> Iterator[Flaw]:
    """A fastener along the grain pulls out easily; nails without glue, and pocket screws, most."""
    into = meeting.into
    if into.panel is not None:
        return
    weak = fixing.method == "pocket-screw" or (fixing.method in NAILS and fixing.glue == "none")
    why = "it pulls out of there easily, and glue adds little"
    yield Flaw(
        "end-grain",
        "warn" if weak else "note",
        "enters",
        f"The {said(fixing.method)} enters the end grain of {into.name}: {why}.",
        {"method": fixing.method},
        "practice" if weak else "standard",
    )


def near_edge(meeting: Meeting, fixing: Fixing, around: Surroundings) -> Iterator[Flaw]:
    """A stated distance under the one at which builders too expect a split."""
    side = meeting.through if meeting.through.surface == "face" else meeting.into
    given = {"end_distance": fixing.end_distance, "edge_distance": fixing.edge_distance}
    if fixing.diameter is None:
        return
    spot = standing(meeting, fixing)
    least, bored_least = (
        distances(around.catalog, one) for one in (spot, replace(spot, piloted=True))
    )
    unsaid = fixing.method == "screw" and fixing.pilot is None
    for place, limit, with_pilot in (
        ("end_distance", least.end, bored_least.end.least),
        ("edge_distance", least.edge, bored_least.edge.least),
    ):
        distance = given[place]
        if distance is None or distance >= limit.least:
            continue
        bored = "with" if fixing.pilot else "without"
        yield Flaw(
            "near-edge",
            "note" if unsaid and distance >= with_pilot else "warn",
            place,
            f"{around.say(distance)} from the {place.partition('_')[0]} of {side.name}: {bored} a "
            f"pilot it wants {around.say(limit.least)}.",
            {"distance": distance, "least": limit.least},
            "practice",
            limit.rests_on,
        )


def standing(meeting: Meeting, fixing: Fixing) -> Standing:
    """The fastener in the part that is the likelier to split: the one under the head."""
    side = meeting.through if meeting.through.surface == "face" else meeting.into
    screw = fixing.method in ("screw", "pocket-screw") and fixing.gauge is not None
    return Standing(
        diameter=fixing.diameter or Fraction(0),
        piloted=fixing.pilot is True,
        thickness=side.thickness.listed,
        spot=side.surface,
        material=side.panel,
        hard=side.hard,
        gauge=f"no-{fixing.gauge}" if screw else None,
    )


def no_pilot(meeting: Meeting, fixing: Fixing) -> Iterator[Flaw]:
    """A screw without a pilot where wood splits: dense wood, edges, ends."""
    into = meeting.into
    hard = into.hard or meeting.through.hard or into.panel in BOARDLIKE
    if fixing.pilot is None and not hard and into.surface == "face":
        return
    spot = "dense wood" if hard else f"the {into.surface} of {into.name}"
    yield Flaw(
        "no-pilot",
        "note",
        "pilot",
        f"No pilot hole is stated, and the screw goes into {spot}.",
        {"into": spot},
        "practice",
    )


def of_weather(meeting: Meeting, fixing: Fixing, around: Surroundings) -> Iterator[Flaw]:
    """Plain steel rusts where it gets wet; zinc does outdoors and in treated wood."""
    treated = meeting.through.treated or meeting.into.treated
    outside = around.where == "outdoors" or treated
    if fixing.method not in (*DRIVEN, "pocket-screw") or not (outside or around.where in WET):
        return
    bad = ("plain", "zinc") if outside else ("plain",)
    if fixing.coating is not None and fixing.coating not in bad:
        return
    where = "in treated wood" if treated else around.where or ""
    place = PLACES.get(where, where)
    stated = fixing.coating is not None
    yield Flaw(
        "corrodes",
        "warn" if stated else "note",
        "fastener/coating",
        f"A {fixing.coating} {said(fixing.method)} rusts {place}."
        if stated
        else f"No coating is stated; {place} a plain {said(fixing.method)} rusts.",
        {"coating": fixing.coating or "not stated", "where": where},
        "practice",
        around.rows("material.outdoors"),
    )
