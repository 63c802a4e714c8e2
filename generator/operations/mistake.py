"""What a mistake is: a procedure that somebody follows in place of the right one."""

from collections.abc import Callable, Collection
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Final, Protocol

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Ending, Operation, Question
from generator.operations import in_english
from generator.operations.in_english import Said
from generator.operations.working import Conventions, Working
from specs.languages.saying import Saying, say
from specs.replies import Reply

NO_SOURCE: Final = "common practice, no source"


class Procedure(Protocol):
    """A wrong way to go about a question, written once.

    What it writes is gone through in one place; ``reply`` reads the answer off that, and
    ``working`` puts it on squares.
    """

    def reply(self, question: Question) -> Reply | None:
        """What it gives. None where nothing in the question sets it off: whoever follows it
        then works as everyone does, and is right.
        """

    def working(self, question: Question, conventions: Conventions) -> Working | None:
        """Its marks on squares, with exchanges where it subtracts; None where they do not fit
        there, or where nothing of it is written down.
        """


@dataclass(frozen=True, slots=True)
class AnswerAlone:
    """A procedure of which no more is known than what it gives."""

    gives: Callable[[Question], Reply | None]

    def reply(self, question: Question) -> Reply | None:
        """What it gives; None where nothing sets it off."""
        return self.gives(question)

    def working(self, question: Question, conventions: Conventions) -> Working | None:
        """None."""
        return None


@dataclass(frozen=True, slots=True)
class Mistake:
    """A wrong procedure, known by its name: specs, records and marks hold on to it.

    ``source`` says where it is described. ``together`` marks a procedure made of two others,
    ``moving`` one that belongs to digits moved by a power of ten alone. ``ways`` names the written
    methods that it belongs to, empty for any. What is said of it to people stands in
    ``in_english``.
    """

    name: str
    operations: frozenset[Operation] = field(compare=False)
    source: str = field(compare=False)
    procedure: Procedure = field(compare=False)
    together: bool = field(default=False, compare=False)
    moving: bool = field(default=False, compare=False)
    ways: frozenset[str] = field(default=frozenset(), compare=False)

    def is_made_in(self, ways: Collection[str]) -> bool:
        """Whether it is one of those who work by these methods, one for each operation."""
        return not self.ways or not self.ways.isdisjoint(ways)

    @property
    def _said(self) -> Said:
        return in_english.MISTAKES[self.name]

    @property
    def title(self) -> Saying:
        """What pages call it."""
        return in_english.TITLES[self.name]

    @property
    def sentence(self) -> Saying:
        """What the pupil does: ``Writes …``."""
        return self._said.sentence

    @property
    def told(self) -> Saying:
        """The same with its subject, to stand behind a colon: ``the pupil writes …``."""
        return self._said.told

    @property
    def follow_up(self) -> Saying:
        """What to show next."""
        return self._said.follow_up

    @property
    def in_brief(self) -> Saying:
        """The mistake in a few words, to stand beside a wrong answer: ``carry left out``."""
        return in_english.IN_BRIEF[self.name]

    def concerns(self, question: Question) -> bool:
        """Whether the procedure belongs to such questions at all, set off or not."""
        fits = question.operation in self.operations
        return fits and (bool(question.power_of_ten) or not self.moving)

    def works(self, question: Question) -> Reply | None:
        """What the procedure gives where it is set off, which by chance may be right."""
        return self.procedure.reply(question) if question.operation in self.operations else None

    def wrong_answer(self, question: Question) -> Reply | None:
        """The wrong answer that the procedure gives; None where it gives the right one."""
        given = self.works(question)
        return None if given is None or is_right(question, given) else given

    def __str__(self) -> str:
        return self.title


def right_reply(question: Question) -> Reply:
    """The right answer as a reply."""
    match question.operation:
        case Operation.COMPARE:
            return Reply(text=question.answer_text, sign=question.answer_text)
        case Operation.ORDER:
            return in_order(question.in_order)
    left = question.remainder
    if left is None:
        return reply(question.answer)
    if question.ending is Ending.FRACTION:
        first, second = question.operands
        return Reply(first.value / second.value, Fraction(0), question.answer_text)
    return Reply(question.answer.value, left.value, question.answer_text)


def is_right(question: Question, given: Reply) -> bool:
    """Whether an answer is right: equal to the answer asked for, in whatever form.

    86 r 2, 86 2/5 and 86.4 are all right for 432 ÷ 5; where a quotient is to be rounded,
    only the rounded one is. 4 will do for 4.0, as a spreadsheet drops the nought that was typed.
    """
    right = right_reply(question)
    if given == right:
        return True
    if question.operation is not Operation.DIVIDE or question.ending is Ending.ROUNDED:
        return False
    dividend, divisor = (number.value for number in question.operands)
    if given.left:
        # a quotient in other words: 86 r 2 where 86.4 was asked for
        return (
            given.value.denominator == 1
            and 0 < given.left < divisor
            and given.value * divisor + given.left == dividend
        )
    return given.value * divisor == dividend


def agree(question: Question, first: Reply, second: Reply) -> bool:
    """Whether two answers to a question say the same: of a division 9 r 3 and 9 3/5 may."""
    if first == second:
        return True
    if question.operation is not Operation.DIVIDE or bool(first.left) is bool(second.left):
        return False
    divisor = question.operands[1].value
    return first.value + first.left / divisor == second.value + second.left / divisor


def in_order(numbers: tuple[Number, ...]) -> Reply:
    """Numbers put in order, as a reply."""
    sizes = tuple(number.value for number in numbers)
    return Reply(text=", ".join(map(str, numbers)), order=sizes)


def reply(number: Number) -> Reply:
    """A number as a reply, written without noughts at its end."""
    return Reply(number.value, Fraction(0), str(number.trimmed()))


def reply_as_written(number: Number) -> Reply:
    """A number as a reply with the noughts at its end, which somebody wrote there."""
    return Reply(number.value, Fraction(0), str(number))


def reply_with_remainder(quotient: Number, left: Number) -> Reply:
    """A quotient and what is left over, if anything, as a reply."""
    if not left.units:
        return reply(quotient)
    whole, over = quotient.trimmed(), left.trimmed()
    text = say("{quotient} r {left}", quotient=str(whole), left=str(over))
    return Reply(quotient.value, left.value, text)


def read_digits(digits: dict[int, int]) -> Number:
    """The number whose digits stand in those places; an entry may be a total of ten or more
    where nothing stands to its left.
    """
    last = min(0, *digits)
    return Number(sum(digit * 10 ** (place - last) for place, digit in digits.items()), -last)
