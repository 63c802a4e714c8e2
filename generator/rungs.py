"""A rung of the ladder as the exact set of its questions.

Questions are numbered from 0; ``unrank`` fetches one by its number and ``rank`` finds a
question's number. The order of addends does not count.
"""

from dataclasses import dataclass
from functools import cache, cached_property

from generator.conditions import Outline, outline_of
from generator.counting.columns import ColumnCount
from generator.numbers import Number
from generator.questions import Operation, Question
from specs.spec import Condition, RungSpec


@dataclass(frozen=True)
class QuestionSet:
    """The questions that an outline leaves, counted and numbered."""

    outline: Outline

    @cached_property
    def _columns(self) -> ColumnCount:
        return ColumnCount(self.outline.form)

    @cached_property
    def count(self) -> int:
        """Exactly how many questions there are."""
        return self._columns.count

    def unrank(self, number: int) -> Question:
        """Question ``number``, 0 ≤ number < count; raises IndexError outside that range.

        Where the rung gives each number a length of its own, they stand in that order.
        """
        return Question(self.outline.operation, self._placed(self._columns.unrank(number)))

    def rank(self, question: Question) -> int:
        """The number of a question; raises ValueError when it is not in the set."""
        found = None
        if question.operation is self.outline.operation:
            found = self._columns.rank(question.operands)
        if found is None:
            raise ValueError(f"{question.text} is not among these questions")
        return found

    def __contains__(self, question: Question) -> bool:
        try:
            self.rank(question)
        except ValueError:
            return False
        return True

    def _placed(self, numbers: tuple[Number, ...]) -> tuple[Number, ...]:
        """The numbers, fetched in role order, in the order of the outline's kinds."""
        if len(set(self.outline.kinds)) == 1 or self.outline.operation is Operation.SUBTRACT:
            return numbers
        waiting = list(numbers)
        placed = []
        for kind in self.outline.kinds:
            number = next(n for n in waiting if kind.matches(n.places, n.whole_digits))
            waiting.remove(number)
            placed.append(number)
        return tuple(placed)


@cache
def question_set(operation: Operation, conditions: tuple[Condition, ...]) -> QuestionSet:
    """The questions that an operation and conditions leave; counted once in a run."""
    return QuestionSet(outline_of(operation, conditions))


def rung_set(rung: RungSpec) -> QuestionSet:
    """The questions on a rung."""
    return question_set(Operation(rung.operation), rung.conditions)
