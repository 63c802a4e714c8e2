"""How many carries, exchanges or remainders a question has: none, some, every, or a count."""

from typing import Final

from specs.shapes import Chosen, OneOf

HOW_MANY: Final = OneOf(
    "none",
    "some",
    "every",
    also={"no": "none", "false": "none", "yes": "some", "true": "some", "all": "every"},
)


def fewest_and_most(value: str | Chosen[tuple[int, int]], greatest: int) -> tuple[int, int] | None:
    """The fewest and the most that a value allows, of at most ``greatest``.

    None for "every", which speaks of the columns and not of a number.
    """
    match value:
        case Chosen():
            return value.value
        case "every":
            return None
        case "none":
            return 0, 0
    return 1, greatest
