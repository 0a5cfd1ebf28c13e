"""Rules about glue: is there any, does it stand the place, and does it get a hold."""

from collections.abc import Iterator

from service.domain.fastening.surroundings import PLACES
from service.domain.findings import Change, Mend, Spot, rule
from service.domain.glued import end_grain_part, glued, is_housed, is_none, is_panel
from service.domain.gluing import (
    CLASS_WANTED,
    NEEDED_LEVEL,
    Label,
    glue_for,
    stands_weather,
    too_cold,
    water_class,
)
from service.domain.resolving import ResolvedBuild

NEEDS_GLUE = frozenset({"glue", "brad", "dowel", "lap"})
IN_THE_COLD = ("pva-yellow", "pva-waterproof")  # common glues that set at a lower temperature
GLUE_CARRIES = frozenset({"glue", "brad", "finish-nail", "staple"})
ALONE = {
    "glue": "nothing else holds it",
    "brad": "brads only hold it until glue sets",
    "dowel": "dowels turn and work loose without it",
    "lap": "the faces of a lap slide apart without it",
}


@rule(
    "glue.missing",
    title="Nothing is said of glue where glue does the holding",
    severity="note",
    basis="practice",
    numbers={"method": "word"},
)
def missing(build: ResolvedBuild) -> Iterator[Spot]:
    """Brads, dowels and laps keep parts in place while glue sets; the glue is what holds after.

    A joint that must let wood move, and a back of panel that is only bradded on, want none. A
    glue that is left out is taken as not yet chosen, so this is a note and no more.
    """
    for index, joint in enumerate(build.build.joints):
        method = joint.method
        if method not in NEEDS_GLUE or joint.lets_move:
            continue
        if joint.glue is not None and not is_none(build, joint):
            continue
        if method == "brad" and any(is_panel(build, id) for id in (joint.through, joint.into)):
            continue
        kind = usual_glue(build)
        yield Spot(
            at=f"#/joints/{index}" + ("/glue" if joint.glue is not None else ""),
            detail=f"{joint.id} has no glue; {ALONE[method]}.",
            numbers={"method": method},
            mend=Mend(
                f"Glue it, with {build.catalog.glues[kind].name} for one.",
                (Change(f"/joints/{index}/glue", kind, adds=joint.glue is None),),
            ),
        )


def usual_glue(build: ResolvedBuild) -> str:
    """The common glue that suits the place and is not too cold there, where there is one."""
    place, usual = build.build.place, glue_for(build.build.place.where)
    for key in (usual, *IN_THE_COLD):
        glue = build.catalog.glues[key]
        warm = place.temperature is None or not too_cold(glue, Label(), place.temperature)
        if warm and stands_weather(glue, place.where or "indoors"):
            return key
    return usual


@rule(
    "glue.outdoors",
    title="The glue doesn't stand the water of the place",
    severity="warn",
    basis="practice",
    numbers={"glue": "word", "where": "word", "classes": "words", "wanted": "word"},
)
def outdoors(build: ResolvedBuild) -> Iterator[Spot]:
    """Indoor glue softens in damp and lets go in rain, however well the joint was made.

    In the open a glue of class Type I or D4 is wanted, with a coating over it; under a roof or
    where it is damp, Type II or D3. Glues without a class in the tables are not judged.
    """
    where = build.build.place.where
    if where is None:
        return
    for one in glued(build):
        if stands_weather(one.glue, where):
            continue
        told, wanted = water_class(one.glue), CLASS_WANTED[NEEDED_LEVEL[where]]
        better = glue_for(where)
        yield Spot(
            at=f"{one.at}/glue",
            detail=(
                f"{one.glue.name} ({', '.join(told.names)}) is for indoors; the piece is "
                f"{PLACES[where]}, which wants {wanted}."
            ),
            numbers={
                "glue": one.glue.key,
                "where": where,
                "classes": told.names,
                "wanted": wanted,
            },
            mend=Mend(
                f"Take {build.catalog.glues[better].name}.",
                (Change(f"{one.at[1:]}/glue", better),),
            ),
            rests_on=told.rests_on,
        )


@rule(
    "glue.end-grain",
    title="Glue on end grain holds little",
    severity="note",
    basis="practice",
    numbers={"part": "word"},
)
def end_grain(build: ResolvedBuild) -> Iterator[Spot]:
    """End grain drinks the glue and has few fibers to hold on to.

    It is said only where glue has to carry the joint: a screw or dowel brings its own hold, and
    a part housed in a dado, lap or hole has long grain beside its end.
    """
    for one in glued(build):
        if one.joint.method not in GLUE_CARRIES or is_housed(build, one.joint):
            continue
        part = end_grain_part(build, one.joint)
        if part is None:
            continue
        said = one.glue.said("end-grain")
        told = f" For {one.glue.name}: {said.words}." if said else ""
        yield Spot(
            at=one.at,
            detail=f"{one.joint.id} is held by glue on the end grain of {part}.{told}",
            numbers={"part": part},
            mend=Mend("Add screws, dowels or a glue block, or let the part into a dado."),
            rests_on=(said.row,) if said else (),
        )
