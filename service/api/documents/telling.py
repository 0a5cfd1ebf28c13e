"""What a field is for, told once beside the field, for all who describe the document."""

from typing import Any


def told(description: str, *examples: Any, left_out: str = "") -> dict[str, Any]:
    """The metadata of a field.

    `description` is one plain sentence, with units. `examples` are values that the field reads.
    `left_out` says what holds where the field is left out; empty for a field that must be there.
    """
    metadata: dict[str, Any] = {"description": description}
    if examples:
        metadata["examples"] = list(examples)
    if left_out:
        metadata["left_out"] = left_out
    return metadata
