"""No wrong answer, ever: what stands in the finished files is read back and worked out anew."""

import os

import pytest

from tests.hard.independent import Line, exact, read_many, wrong

NIGHTLY = bool(os.environ.get("RUNGSHEET_NIGHTLY"))


def test_thousands_of_printed_answers_are_right() -> None:
    count = read_many(100_000, 250) if NIGHTLY else read_many(2_000, 16)
    assert count.wrong == []
    assert count.printed["key"] == count.questions
    assert set(count.by_sign) == set("+−×÷")


def line(text: str) -> Line:
    """``2 + 3 = 5`` as it would have been read."""
    question, sign, answer, *again = text.replace("=", "|=|").replace("≈", "|≈|").split("|")
    said = [part.strip() for part in (question, sign, answer)]
    return Line("a", *said, again[1].strip() if again else None)


@pytest.mark.parametrize(
    "right",
    [
        "3.4 + 0.27 = 3.67",
        "1.25 + 0.75 = 2.00 = 2",
        "6.002 − 2.415 = 3.587",
        "6.1 × 3.8 = 23.18",
        "0.5 × 0.04 = 0.020 = 0.02",
        "432 ÷ 5 = 86 r 2",
        "144 ÷ 5 = 28 4/5",
        "20 ÷ 3 ≈ 6.67",
        "9 ÷ 8 ≈ 1.13",
        "1 ÷ 4 = 0.25",
    ],
)
def test_what_is_right_is_accepted(right: str) -> None:
    assert wrong(line(right)) is None


@pytest.mark.parametrize(
    "false",
    [
        "3.4 + 0.27 = 3.66",
        "1.25 + 0.75 = 2.00",  # nothing said of its noughts
        "1.25 + 0.75 = 2.00 = 2.0",
        "3.5 + 0.2 = 3.7 = 3.7",
        "2.415 − 6.002 = 3.587",
        "6.1 × 3.8 = 231.8",
        "432 ÷ 5 = 85 r 7",
        "432 ÷ 5 = 86 r 3",
        "432 ÷ 4 = 108 r 0",
        "144 ÷ 5 = 28 8/10",
        "144 ÷ 5 = 27 9/5",
        "20 ÷ 3 ≈ 6.66",
        "9 ÷ 8 ≈ 1.12",
        "03 + 4 = 7",
    ],
)
def test_what_is_wrong_is_caught(false: str) -> None:
    assert wrong(line(false))


def test_signs_are_worked_from_the_left() -> None:
    assert exact("10 − 4 − 3") == 3
    assert exact("12 ÷ 3 ÷ 2") == 2
