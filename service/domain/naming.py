"""Who names whom: every place in a build that refers to a part or a joint by its id."""

from collections.abc import Iterator

from service.domain.build import Build, Piece
from service.domain.values import dataclass

Reference = tuple[str, str]  # the pointer where the id stands, and the id


@dataclass(frozen=True, slots=True)
class References:
    """Every place of a build that names a part: its joints, and all else."""

    by_joints: tuple[Reference, ...]
    by_others: tuple[Reference, ...]

    @classmethod
    def of(cls, build: Build) -> "References":
        others = (*run_references(build), *other_references(build))
        return cls(tuple(joint_references(build)), others)


def joint_references(build: Build) -> Iterator[Reference]:
    """Parts named by joints; ``wall`` is not a part."""
    for index, joint in enumerate(build.joints):
        yield f"#/joints/{index}/through", joint.through
        if joint.into != "wall":
            yield f"#/joints/{index}/into", joint.into


def run_references(build: Build) -> Iterator[Reference]:
    """Parts named by runs, as pieces, as what they must equal, or as what gives."""
    for index, run in enumerate(build.runs):
        for place, piece in enumerate(run.pieces):
            if piece.part is not None:
                yield f"#/runs/{index}/pieces/{place}/part", piece.part
        if isinstance(run.equals, Piece) and run.equals.part is not None:
            yield f"#/runs/{index}/equals/part", run.equals.part
        for place, id in enumerate(run.gives):
            yield f"#/runs/{index}/gives/{place}", id


def other_references(build: Build) -> Iterator[Reference]:
    """Parts named by shapes, loads, steps, moving parts and cutouts."""
    for index, shape in enumerate(build.shapes):
        for role, ids in shape.parts.items():
            yield from numbered(f"#/shapes/{index}/parts/{role}", ids)
    for index, load in enumerate(build.loads):
        yield f"#/loads/{index}/part", load.part
        for place, (id, _) in enumerate(load.stiffened_by):
            yield f"#/loads/{index}/stiffened_by/{place}/part", id
    for index, step in enumerate(build.steps):
        yield from numbered(f"#/steps/{index}/parts", step.parts)
    for index, moving in enumerate(build.moving):
        if moving.part is not None:
            yield f"#/moving/{index}/part", moving.part
    yield from cutout_references(build)
    for index, planned in enumerate(build.buying.planned):
        yield from numbered(f"#/buying/planned/{index}/for", planned.reserved)
    for index, offcut in enumerate(build.buying.offcuts):
        yield from numbered(f"#/buying/offcuts/{index}/for", offcut.reserved)


def cutout_references(build: Build) -> Iterator[Reference]:
    """Parts that cutouts are made for."""
    for index, part in enumerate(build.parts):
        for place, cutout in enumerate(part.cutouts):
            if cutout.fits is not None:
                yield f"#/parts/{index}/cutouts/{place}/for", cutout.fits


def step_joint_references(build: Build) -> Iterator[Reference]:
    """Joints named by steps."""
    for index, step in enumerate(build.steps):
        yield from numbered(f"#/steps/{index}/joints", step.joints)


def numbered(at: str, ids: tuple[str, ...]) -> Iterator[Reference]:
    """Each id of a list with its pointer."""
    return ((f"{at}/{place}", id) for place, id in enumerate(ids))


def part_references(build: Build) -> Iterator[Reference]:
    """Every place that names a part."""
    yield from joint_references(build)
    yield from run_references(build)
    yield from other_references(build)


def repeats(build: Build) -> dict[int, int]:
    """Parts whose id an earlier part has: their index, and the earlier one's."""
    first: dict[str, int] = {}
    found: dict[int, int] = {}
    for index, part in enumerate(build.parts):
        earlier = first.setdefault(part.id, index)
        if earlier != index:
            found[index] = earlier
    return found


def called_by_others(build: Build) -> dict[int, str]:
    """The id that a part with a repeated id should have had, by its index.

    Known when one id is repeated and one id is named that no part has: one slip, not two.
    """
    repeated = list(repeats(build))
    if len(repeated) != 1:
        return {}
    ids = {part.id for part in build.parts}
    missing = {id for _, id in part_references(build) if id not in ids}
    return {repeated[0]: missing.pop()} if len(missing) == 1 else {}


def letter(index: int) -> str:
    """The letter of a part by its place in the list: A to Z, then AA, AB ..."""
    rest, place = divmod(index, 26)
    return (letter(rest - 1) if rest else "") + chr(ord("A") + place)
