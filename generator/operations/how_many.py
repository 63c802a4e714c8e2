"""How many carries, exchanges or remainders a question has: none, some, every, or a count."""

from typing import Final

from specs.shapes import Fieldset, OneOf

HOW_MANY: Final = OneOf("none", "some", "every")


def fewest_and_most(value: object, greatest: int) -> tuple[int, int] | None:
    """The fewest and the most that a value allows, of at most ``greatest``.

    None for "every", which speaks of the columns and not of a number.
    """
    match value:
        case "every":
            return None
        case "none":
            return 0, 0
        case "some":
            return 1, greatest
    assert isinstance(value, Fieldset)
    low, high = value.get("count", (0, greatest))
    return low, high
