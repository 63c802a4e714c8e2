"""Laws that mutants of the written methods once survived without (see survivors.md)."""

import pytest

from generator.arithmetic.questions import Ending, Question
from generator.operations.methods import written_working
from tests.asked import question

QUESTIONS = (
    question("9.5 + 3.75"),
    question("0.6 + 0.7"),
    question("1.2 + 3.45 + 0.678"),
    question("12 − 3.75"),
    question("100 − 99.5"),
    question("6.1 × 3.8"),
    question("304 × 7"),
    question("408 ÷ 2"),
    question("18.27 ÷ 7"),
    question("432 ÷ 5", Ending.REMAINDER),
)


@pytest.mark.parametrize("asked", QUESTIONS, ids=lambda asked: asked.text)
def test_every_mark_and_rule_stands_on_the_squares(asked: Question) -> None:
    working = written_working(asked)
    marks = [mark for step in working.steps for mark in step.marks]
    assert all(0 <= mark.column < working.columns for mark in marks)
    assert all(0 <= mark.row < working.rows for mark in marks)
    assert max(mark.column for mark in marks) == working.columns - 1
    for rule in working.rules:
        assert 0 <= rule.start <= rule.end < working.columns


def test_the_last_column_names_what_it_carries_by_the_next_column() -> None:
    said = [step.sentence for step in written_working(question("9.5 + 3.75")).steps]
    assert said[-1] == ("9 ones + 3 ones + 1 one carried = 13 ones = 1 ten and 3 ones: write 13.")


def test_the_subtrahends_left_most_digit_is_taken_and_beyond_it_there_is_nothing_to_take() -> None:
    said = [step.sentence for step in written_working(question("34.8 − 2.5")).steps]
    assert "4 ones − 2 ones = 2 ones: write 2." in said
    assert said[-1] == "Nothing is taken from 3 tens: write 3."
