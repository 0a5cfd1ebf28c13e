"""What is said when a text is not a quantity."""


class QuantityError(ValueError):
    """The value given is not a quantity that can be read.

    The message is one plain sentence: the text, what is wrong, and what would be accepted.
    """


def refusal(value: object, what: str, why: str, example: str) -> QuantityError:
    """The error to raise for `value`, which was to be read as `what` ("a length")."""
    return QuantityError(f"“{shown(value)}” can't be read as {what}: {why}; write {example}.")


def shown(value: object) -> str:
    """The value as it may be repeated to the caller: short, on one line, nothing unprintable.

    A control character or half of a surrogate pair would break the answer that carries it.
    """
    if isinstance(value, int) and not isinstance(value, bool) and value.bit_length() > 128:
        return "a very large number"  # Python itself refuses to write out 5,000 digits
    text = " ".join(value.split()) if isinstance(value, str) else _written(value)
    short = text if len(text) <= 40 else text[:39] + "…"
    return "".join(letter if letter.isprintable() else "?" for letter in short)


def _written(value: object) -> str:
    """Numbers as digits, anything else by the kind of value that it is."""
    if value is None or isinstance(value, bool):
        return {None: "null", True: "true", False: "false"}[value]
    if isinstance(value, dict):
        return "an object"
    if isinstance(value, list | tuple | set):
        return "a list"
    return str(value)
