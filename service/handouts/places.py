"""Places of the document in words: `part slat, length`, for who has the page and no document."""

from service.domain.build import Build

BY_ID = {"parts": "part", "joints": "joint", "runs": "run", "shapes": "shape"}


def place_in_words(build: Build, pointer: str) -> str:
    """What a JSON pointer points at; entries that have an id by it, others by their number."""
    steps = pointer.removeprefix("#").split("/")[1:]
    if len(steps) > 1 and steps[0] in BY_ID and steps[1].isdigit():
        named = getattr(build, steps[0])[int(steps[1])].id
        steps = [f"{BY_ID[steps[0]]} {named}", *steps[2:]]
    return ", ".join(f"number {int(s) + 1}" if s.isdigit() else s.replace("_", " ") for s in steps)
