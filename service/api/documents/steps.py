"""What is done, in order."""

from typing import Any, ClassVar

from service.api.documents.fields import Duration, Id, Text, Whole, Word, YesNo
from service.api.documents.forms import Form
from service.api.documents.gathered import Several
from service.domain.build import Step


class StepForm(Form):
    """One thing to do."""

    makes: ClassVar[Any] = Step

    do = Word(
        "cut", "sand", "dry-fit", "glue", "assemble", "stain", "finish", "wait", "use",
        required=True,
    )  # fmt: skip
    parts = Several(Id(), 0, 500)
    joints = Several(Id(), 0, 500)
    finish = Text()
    grit = Whole(1, 10_000)
    count = Whole(1, 100)
    minutes = Duration("min")
    people = Whole(1, 100)
    hours = Duration("h")
    bare_at_joints = YesNo()
