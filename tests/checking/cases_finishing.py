"""Cases of the rules about finishes; finish_values prints 2 h to recoat, 3 days to cure."""

from typing import Any

from tests.checking.casework import Case, Json, build

RAIL = {"id": "rail", "stock": "1x4", "length": "20"}


def laid(*steps: Json, **rest: Any) -> Json:
    return build(RAIL, **{"wood": "spf", "steps": list(steps), **rest})


def coat(finish: str) -> Json:
    return {"do": "finish", "finish": finish, "count": 1}


def sanded(grit: int) -> Json:
    return {"do": "sand", "grit": grit}


def water() -> Json:
    return coat("water-polyurethane")


FINISHING_CASES = (
    Case(
        "finish.blotches", "#/steps/0/finish", laid(coat("gel-stain"), water()),
        "/steps/0/finish", ("gel-stain", "shellac"), ("oil-stain", "water-stain"), "note",
    ),
    Case(
        "finish.order", "#/steps/1/finish", laid(water(), water(), water()),
        "/steps/1/finish", ("water-polyurethane", "gel-stain"), ("oil-stain", "water-stain"),
        "warn",
    ),
    Case(
        "finish.order", "#/steps/1/finish", laid(coat("shellac"), water()),
        "/steps/0/finish", ("shellac", "oil-stain"), ("paste-wax",), "warn",
    ),
    Case(
        "finish.unfit", "#/steps/0/finish",
        build(RAIL, wood="cedar-eastern-redcedar", place={"where": "outdoors"}, steps=[water()]),
        "/steps/0/finish", ("water-polyurethane",), ("shellac", "paste-wax", "mineral-oil"),
        "warn",
    ),
    # The table of grits: 220 to 320 between coats.
    Case(
        "finish.order", "#/steps/1/grit", laid(water(), sanded(320), water()),
        "/steps/1/grit", (220, 320), (219, 80), "warn",
    ),
    Case(
        "finish.order", "#/steps/1/do", laid(water(), {"do": "cut"}),
        "/steps/1/do", ("sand",), ("cut",), "warn",
    ),
    Case(
        "finish.unfit", "#/steps/0/finish", laid(coat("shellac"), place={"where": "indoors"}),
        "/place/where", ("indoors",), ("damp",), "note",
    ),
    Case(
        "finish.unfit", "#/steps/0/finish", laid(water(), wood="oak-white"),
        "/steps/0/finish", ("water-polyurethane",), ("gel-stain",), "warn",
    ),
    Case(
        "finish.unfit", "#/steps/0/finish", laid(water(), wood="oak-white"),
        "/steps/0/finish", ("water-polyurethane",), ("oil-stain", "water-stain"), "note",
    ),
    Case(
        "finish.not-cured", "#/steps/2", laid(water(), {"do": "wait", "hours": 2}, water()),
        "/steps/1/hours", (2, 4), (1.9, 1), "warn",
    ),
    Case(
        "finish.not-cured", "#/steps/2", laid(water(), {"do": "wait", "hours": 72}, {"do": "use"}),
        "/steps/1/hours", (72, 168), (71.9, 24), "warn",
    ),
)  # fmt: skip
