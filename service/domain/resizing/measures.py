"""Measures of shapes that a resize asks for, as `legs.height`: a piece may have no run at all."""

from collections.abc import Iterator, Mapping
from fractions import Fraction

from service.domain.build import Build


def measures_of(build: Build) -> Iterator[tuple[str, str]]:
    """Every length that a shape states: what it is called in a resize, and its pointer."""
    for index, shape in enumerate(build.shapes):
        for name, value in shape.fields.items():
            if isinstance(value, Fraction):
                yield f"{shape.id}.{name}", f"/shapes/{index}/{name}"


def measures_asked(build: Build, to: Mapping[str, Fraction]) -> dict[str, Fraction]:
    """The new size of each measure asked for, by its pointer. A run of that name goes first."""
    runs = {run.id for run in build.runs}
    places = dict(measures_of(build))
    return {places[id]: size for id, size in to.items() if id in places and id not in runs}


def sizes_named(build: Build) -> str:
    """What may be asked for, in a sentence."""
    runs = ", ".join(sorted(run.id for run in build.runs)) or "none"
    told = ", ".join(sorted(name for name, _ in measures_of(build)))
    return f"runs: {runs}" + (f"; measures of shapes: {told}" if told else "")
