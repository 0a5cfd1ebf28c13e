"""The shapes of what is answered about angled work, and about pieces in a row."""

from service.api.described.builds import TURNS
from service.api.described.carried import FINDINGS_ABOUT, LENGTH, answer
from service.api.described.words import (
    NUMBER,
    PLACE,
    TEXT,
    YES_NO,
    Json,
    by_name,
    or_null,
    record,
    several,
    shape,
    told,
)

_SCALE = record("Degrees.", table=NUMBER, blade=NUMBER)
_WAY = record(
    "One way to set the saw.",
    how=TEXT,
    off_square=told(_SCALE, "On a scale that reads 0 at square."),
    from_90=told(_SCALE, "On a scale that reads 90 at square."),
    reaches=told(or_null(YES_NO), "Whether the saw goes so far; null where its stops are not "
                                  "known."),
)  # fmt: skip
_SAW = shape("SawCut", record(
    "A cut, and the ways to set a saw for it.",
    part=TEXT, cut=TEXT, ways=several(_WAY), other_way=or_null(TEXT),
))  # fmt: skip
_DRAWN: dict[str, Json] = {
    "parts": told(several({"$ref": f"{PLACE}Part"}), "Ready to paste into a build."),
    "shapes": told(several({"$ref": f"{PLACE}Shape"}), "Ready to paste into a build."),
    "trace": told(TEXT, "How to mark it full size instead of reading angles."),
    "test_cut": told(TEXT, "How to prove the saw's setting on scrap."),
    "axes": told(TEXT, "What each measure is taken along."),
    "formula": TEXT,
    "svg": told(TEXT, "A line drawing, with its letters explained."),
}
ANGLES = answer(
    "AnglesAnswer",
    "A shape figured: parts, saw settings, marks and a drawing.",
    shape=TEXT,
    figures=by_name({"anyOf": [LENGTH, NUMBER]}, "Lengths, and angles in degrees, by name."),
    lengths=by_name(by_name(LENGTH), "For each part its length by every way to measure it."),
    blanks=by_name(
        record("The stick to start from.", length=LENGTH, width=LENGTH, thickness=LENGTH)
    ),
    saw=several(_SAW),
    marks=several(record("A mark on a neighbor.", on=TEXT, at=LENGTH, words=TEXT)),
    rounded=told(several(TEXT), "What was rounded, and which way."),
    order=TURNS,
    findings=FINDINGS_ABOUT,
    **_DRAWN,
)
SPACING = answer(
    "SpacingAnswer",
    "Equal pieces in a row.",
    shape=TEXT,
    gap=LENGTH,
    ends=LENGTH,
    step=LENGTH,
    at=told(several(LENGTH), "Near sides, from the first end."),
    centers=several(LENGTH),
    readings=told(several(TEXT), "What a tape reads at each near side."),
    drift=told(LENGTH, "Where a rounded step laid off again and again would end."),
    findings=FINDINGS_ABOUT,
    **_DRAWN,
)
