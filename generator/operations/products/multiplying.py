"""Mistakes in multiplying: the point, the noughts, and what is carried in each row.

Who makes one multiplies in a ``Manner`` of their own, by which the method's own code fills the
squares; the answer is read off the figures that it gives.
"""

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from math import prod
from typing import Final

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Operation, Question
from generator.operations.mistake import NO_SOURCE, AnswerAlone, Mistake, reply
from generator.operations.products.multiplication import multiplication
from generator.operations.products.whole_product import Manner, next_turn, without_noughts
from generator.operations.working import Conventions, Working
from specs.replies import Reply

_MOST_PLACES: Final = 6


@dataclass(frozen=True, slots=True)
class MultipliedBy:
    """A product of two numbers in a manner that nothing but ``sets_off`` brings out.

    Three numbers are multiplied so only where their rows are right: ``of_three``.
    """

    manner: Manner
    sets_off: Callable[[Question], bool]
    of_three: bool = False

    def reply(self, question: Question) -> Reply | None:
        """The product, its digits moved as the manner has it."""
        if question.power_of_ten or not self.sets_off(question):
            return None  # of a power of ten no column is multiplied: the digits are moved
        cores, noughts = _cores(question)
        if len(cores) == 2:
            turn = next_turn(*cores)
            product = self.manner.product(turn.upper, turn.lower)
        elif self.of_three:
            product = prod(self.manner.product(core, 1) for core in cores)
        else:
            return None
        places = [number.places for number in question.operands]
        moved = sum(places) if self.manner.places is None else self.manner.places(places)
        return reply(Number(product * 10**noughts, moved))

    def working(self, question: Question, conventions: Conventions) -> Working | None:
        """The same by the method's own squares."""
        if question.power_of_ten or len(question.operands) > 2:
            return None
        working = multiplication(question, conventions, self.manner)
        return working if working.fits_its_squares else None


def _cores(question: Question) -> tuple[tuple[int, ...], int]:
    """The numbers without their points and the noughts at their ends, and how many those were."""
    apart = [without_noughts(number.units) for number in question.operands]
    return tuple(core for core, _ in apart), sum(noughts for _, noughts in apart)


def two_have_places(question: Question) -> bool:
    """Whether at least two of the numbers are decimals."""
    return sum(number.places > 0 for number in question.operands) > 1


def a_nought_inside(question: Question) -> bool:
    """Whether some number has a nought between other digits."""
    return any("0" in str(core) for core in _cores(question)[0] if core)


def two_rows(question: Question) -> bool:
    """Whether two numbers make a long multiplication."""
    cores, _ = _cores(question)
    return len(cores) == 2 and next_turn(*cores).lower >= 10


def _goes_wrong(manner: Manner) -> Callable[[Question], bool]:
    """Whether a manner gives another product of two numbers than the right one."""

    def sets_off(question: Question) -> bool:
        cores, _ = _cores(question)
        if len(cores) != 2:
            return False
        turn = next_turn(*cores)
        return manner.product(turn.upper, turn.lower) != turn.product

    return sets_off


def last_digits_only(digit: int, by: int, carry: int, last: bool) -> tuple[int, int]:
    """Of each product the ones, of the last all of it, and nothing carried."""
    return (digit * by if last else digit * by % 10), 0


def added_first(digit: int, by: int, carry: int, last: bool) -> tuple[int, int]:
    """What is carried added to the digit before it is multiplied."""
    made = (digit + carry) * by
    return (made, 0) if last else (made % 10, made // 10)


def swapped(digit: int, by: int, carry: int, last: bool) -> tuple[int, int]:
    """The tens of the product written, the ones carried."""
    made = digit * by + carry
    if last:
        return made, 0
    return (made // 10, made % 10) if made >= 10 else (made, 0)


def _by_habit(manner: Manner) -> MultipliedBy:
    return MultipliedBy(manner, _goes_wrong(manner))


def powers_added(question: Question) -> Reply | None:
    """0.6 × 0.7: 42, made 10 + 10 = 20 times smaller: 2.1."""
    powers = [10**number.places for number in question.operands if number.places]
    if len(powers) < 2:
        return None
    exact = Fraction(prod(number.units for number in question.operands), sum(powers))
    for places in range(_MOST_PLACES + 1):
        if (exact * 10**places).denominator == 1:
            return reply(Number(int(exact * 10**places), places))
    return None  # 42 ÷ 110 never ends, and nobody writes it


_MULTIPLY: Final = frozenset({Operation.MULTIPLY})
_COLUMNS: Final = frozenset({"columns"})

# 0.6 × 0.7: 42, and one place as in both numbers: 4.2.
POINT_AS_IN_ADDITION: Final = Mistake(
    "point placed as in addition",
    _MULTIPLY,
    NO_SOURCE,
    MultipliedBy(Manner(places=max), two_have_places, of_three=True),
)
POWERS_ADDED: Final = Mistake(
    "powers of ten added not multiplied", _MULTIPLY, NO_SOURCE, AnswerAlone(powers_added)
)
# 304 × 6 as 34 × 6: 204. A nought between other digits is passed over.
ZEROS_SKIPPED: Final = Mistake(
    "zero digits skipped in multiplying",
    _MULTIPLY,
    NO_SOURCE,
    MultipliedBy(Manner(passes_over_zeros=True), a_nought_inside, of_three=True),
)
# 24 × 6: 24, write 4; 12: 124.
CARRY_NOT_ADDED: Final = Mistake(
    "carry not added in multiplying",
    _MULTIPLY,
    NO_SOURCE,
    _by_habit(Manner(last_digits_only)),
    ways=_COLUMNS,
)
# 24 × 6: 24, write 4, carry 2; 2 + 2 = 4, 4 × 6 = 24: 244.
CARRY_ADDED_FIRST: Final = Mistake(
    "carry added before multiplying",
    _MULTIPLY,
    NO_SOURCE,
    _by_habit(Manner(added_first)),
    ways=_COLUMNS,
)
# 24 × 6: 24, write 2, carry 4; 12 + 4 = 16: 162.
CARRY_SWAPPED: Final = Mistake(
    "carried and kept figures swapped in multiplying",
    _MULTIPLY,
    NO_SOURCE,
    _by_habit(Manner(swapped)),
    ways=_COLUMNS,
)
# 24 × 16: 144 and 24, one under the other: 168.
NOUGHT_LEFT_OUT: Final = Mistake(
    "rows of a long multiplication not moved along",
    _MULTIPLY,
    NO_SOURCE,
    MultipliedBy(Manner(moves_rows=False), two_rows),
    ways=_COLUMNS,
)
