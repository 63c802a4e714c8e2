"""A question worked the wrong way, on squares: what a page shows to be found and put right."""

from fractions import Fraction

from generator.arithmetic.questions import Question
from generator.operations.mistake import Mistake
from generator.operations.working import Conventions, Working


def wrong_working(
    question: Question, mistake: Mistake, conventions: Conventions | None = None
) -> Working | None:
    """The question worked by a mistake's procedure; None where that cannot be shown.

    It cannot where the procedure gives no wrong answer, where nothing of it stands on paper, or
    where its marks do not fit the squares of the right working. The answer that stands on the
    squares is always the mistake's own.
    """
    wrong = mistake.wrong_answer(question)
    if wrong is None:
        return None
    agreed = (conventions or Conventions()).in_columns
    working = mistake.procedure.working(question, agreed)
    if working is None or working.answer.value != wrong.value:
        return None
    left = working.remainder.value if working.remainder else Fraction(0)
    return working if left == wrong.left else None
