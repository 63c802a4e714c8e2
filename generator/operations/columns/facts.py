"""What a condition can see of one column, and how those facts are added up.

Filling a column of several numbers is counted by convolution, so everything that is
known of a column must add: the digits' total, how many numbers start or end here, how
many noughts. All of it is packed into one whole number, a *tally*, whose fields never
overflow into one another; adding two tallies adds every field at once. From the right:

    bits  0 …  7   the digits' total (of a subtraction: upper + 16 × lower)
    bits  8 … 22   five counts of three bits: present, starts, ends, inside and end noughts
    bits 23 … 52   ten counts of three bits: how often each digit stands in the column
    bits 53 …      counts of three bits: how many bunches of each role, status and size are left

``check_room`` refuses numbers that would not fit.
"""

from enum import Enum
from functools import cache
from typing import Final, NamedTuple


class Fact(Enum):
    """A field of a tally that a condition may ask for (the digits' total is always kept)."""

    PRESENT = 0
    STARTS = 1
    ENDS = 2
    INSIDE_ZEROS = 3
    END_ZEROS = 4

    @property
    def shift(self) -> int:
        """How far the field stands from the right of the tally, in bits."""
        return _TOTAL_BITS + 3 * int(self.value)


_TOTAL_BITS: Final = 8
_COUNT_MASK: Final = 0b111
MOST_NUMBERS: Final = 6
"""In a column: no count of three bits, nor a size of a bunch, is greater."""
_TOTAL_MASK: Final = (1 << _TOTAL_BITS) - 1
DIGITS_SHIFT: Final = 23
FACTS_MASK: Final = (1 << DIGITS_SHIFT) - 1  # the total and the facts above
# Then ten fields of three bits: how often each digit stands in the column; then the bunches.
BUNCHES_SHIFT: Final = DIGITS_SHIFT + 30


def check_room(numbers: int, total: int, presence: int) -> None:
    """Raise ValueError where a tally could overflow.

    ``total`` is the greatest total of a column and ``presence`` the greatest of the counts that
    say which numbers are there, both as weighted.
    """
    if numbers > MOST_NUMBERS or total > _TOTAL_MASK or presence > _COUNT_MASK:
        raise ValueError(f"a tally has no room for {numbers} numbers, {total} and {presence}")


def digit_field(digit: int) -> int:
    """A tally with one occurrence of a digit."""
    return 1 << DIGITS_SHIFT + 3 * digit


def total_of(tally: int) -> int:
    """The (weighted) total of the digits."""
    return tally & _TOTAL_MASK


def without_total(tally: int) -> int:
    """A tally with all but its total."""
    return tally & ~_TOTAL_MASK


def count_of(tally: int, fact: Fact) -> int:
    """The value of one field."""
    return tally >> fact.shift & _COUNT_MASK


class Counts(NamedTuple):
    """The fields of a tally beside its total."""

    present: int
    starts: int
    ends: int
    inside_zeros: int
    end_zeros: int


@cache
def counts_of(facts: int) -> Counts:
    """The values of the fields beside the total."""
    return Counts(
        count_of(facts, Fact.PRESENT),
        count_of(facts, Fact.STARTS),
        count_of(facts, Fact.ENDS),
        count_of(facts, Fact.INSIDE_ZEROS),
        count_of(facts, Fact.END_ZEROS),
    )


_CAPS: Final = {
    Fact.PRESENT: 2,
    Fact.STARTS: 1,
    Fact.ENDS: 1,
    Fact.INSIDE_ZEROS: 1,
    Fact.END_ZEROS: 1,
}


@cache
def capped(facts: int, *, ordered: bool) -> int:
    """The facts of a tally as conditions see them, where more than enough counts as enough.

    Conditions ask whether there is any, or whether there are two: telling five from six
    would only multiply the cases. Where numbers are ``ordered`` (first and second), the
    fields that say which ones are kept as they are.
    """
    seen = facts & _TOTAL_MASK
    for fact, most in _CAPS.items():
        count = count_of(facts, fact)
        which = ordered and fact in (Fact.PRESENT, Fact.STARTS, Fact.ENDS)
        seen |= (count if which else min(count, most)) << fact.shift
    return seen


def repeats_a_digit(tally: int) -> bool:
    """Whether some digit stands twice in the column (only when digits are kept)."""
    digits = tally >> DIGITS_SHIFT & (1 << 30) - 1
    # A field of two or more has a bit above its lowest.
    return bool(digits & 0b110110110110110110110110110110)


class Column(NamedTuple):
    """One column of a question, as the conditions see it.

    ``present`` is how many numbers have a digit here (2: two or more), the nought that is
    written before the point of 0.4 not counted; ``starts`` and
    ``ends`` are 1 when some number has its last or its first digit here. In a subtraction
    the three say which: 1 the first number, 2 the second, 3 both. ``inside_zeros`` and
    ``end_zeros`` are 1 when there is a nought inside or at the end of some number. A field
    that no condition needs is 0.

    ``carry_in`` is what comes from the right: carried in, or, in a subtraction, 1 when the
    column has to lend. ``carry_out`` goes to the left: carried out, or 1 when the column
    receives ten. ``passes_zero`` says that an exchange passes through a nought here.
    """

    place: int
    present: int
    starts: int
    ends: int
    inside_zeros: int
    end_zeros: int
    carry_in: int
    carry_out: int
    digit: int
    passes_zero: bool
