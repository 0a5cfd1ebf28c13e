"""What is done, in order."""

from typing import Any, ClassVar

from service.api.documents.fields import Duration, Id, Text, Whole, Word, YesNo
from service.api.documents.forms import Form
from service.api.documents.gathered import Several
from service.api.documents.telling import told
from service.domain.build import Step


class StepForm(Form):
    """One thing to do."""

    makes: ClassVar[Any] = Step

    do = Word(
        "cut",
        "sand",
        "dry-fit",
        "glue",
        "assemble",
        "stain",
        "finish",
        "wait",
        "use",
        required=True,
        metadata=told("What is done.", "sand"),
    )
    parts = Several(
        Id(),
        0,
        500,
        metadata=told(
            "Ids of the parts that it is done to.",
            ["shelf"],
            left_out="those of its joints, or every part",
        ),
    )
    joints = Several(
        Id(),
        0,
        500,
        metadata=told(
            "Ids of the joints that are made.",
            ["shelf-end"],
            left_out="none",
        ),
    )
    finish = Text(
        metadata=told(
            "The finish or stain, as a shop calls it.",
            "water-polyurethane",
            left_out="none is known",
        )
    )
    grit = Whole(
        1, 10_000, metadata=told("Grit of the abrasive, 1 to 10000.", 150, left_out="not judged")
    )
    count = Whole(
        1,
        100,
        metadata=told("How many times or coats, 1 to 100.", 2, left_out="as many as is usual"),
    )
    minutes = Duration(
        "min",
        metadata=told(
            "Minutes of work each time, a number or text with its unit.",
            20,
            "1 h",
            left_out="from the table of work times",
        ),
    )
    people = Whole(1, 100, metadata=told("How many people do it, 1 to 100.", 2, left_out="1"))
    hours = Duration(
        "h",
        metadata=told(
            "Hours of waiting, a number or text with its unit.",
            24,
            "90 min",
            left_out="as long as the glue or finish takes",
        ),
    )
    bare_at_joints = YesNo(
        metadata=told(
            "Whether the faces to be glued later are kept free of finish.",
            True,
            left_out="not known",
        )
    )
