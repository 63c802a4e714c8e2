"""A length, or a range of lengths, as every whole number in it."""

from specs.shapes import Fieldset


def spread(low_high: object) -> tuple[int, ...]:
    """Every whole number of a range, both ends too."""
    assert isinstance(low_high, tuple)
    low, high = low_high
    return tuple(range(low, high + 1))


def between(value: object) -> tuple[int, ...]:
    """A number alone, or every one of ``{between: [low, high]}``."""
    if isinstance(value, int):
        return (value,)
    assert isinstance(value, Fieldset)
    return spread(value["between"])
