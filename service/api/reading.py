"""A document read by its form."""

from typing import Any

from marshmallow import ValidationError

from service.api.documents.forms import Form, pointers
from service.api.refusals import Fault, InvalidDocument


def read_as(form: Form, document: Any, at: str = "#") -> Any:
    """The frozen value of a document, which stands `at` a place of the body.

    Raises InvalidDocument, each fault at its pointer.
    """
    try:
        return form.load(document)
    except ValidationError as refusal:
        faults = (Fault(detail, pointer=place) for place, detail in pointers(refusal.messages, at))
        raise InvalidDocument(
            "The document is JSON, but not of the form asked for.", *faults
        ) from None
