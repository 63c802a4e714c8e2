"""No wrong answer, ever: what stands in the finished files is read back and worked out anew."""

import os

import pytest

from tests.hard.independent import (
    KINDS,
    LOOKS,
    Asked,
    Count,
    Line,
    answered,
    asked_alone,
    exact,
    read_all,
    read_many,
    unspoken,
    wrong,
)

NIGHTLY = bool(os.environ.get("RUNGSHEET_NIGHTLY"))


pytestmark = pytest.mark.slow


def test_thousands_of_printed_answers_are_right() -> None:
    count = read_many(100_000, 60) if NIGHTLY else read_many(2_000, 3)
    assert count.wrong == []
    assert count.looks == len(LOOKS)
    assert count.printed["in the key"] == count.questions > 2_000
    assert count.printed["on sheets"] == count.printed["said on sheets"]
    assert count.printed["on sheets"] == count.printed["on answer slides"] > 0
    assert count.printed["on example slides"] > count.printed["in examples on paper"] > 0
    assert set(count.kinds) == set(KINDS)


def test_what_is_not_there_is_missed() -> None:
    count, asked = Count(), Asked("a", "add", "2+3", "2+3", ("2", "3"))
    read_all("here", ["2 + 3 = 5"], [asked, asked], answered, count)
    read_all("here", ["2 + 4 = 6"], [asked], answered, count)
    read_all("here", ["2 + 3 = 6"], [asked], answered, count)
    read_all("here", ["beans"], [asked], answered, count)
    read_all("here", ["2 + 3 = 5 beans"], [asked], answered, count)
    assert [line.partition(" ")[2] for line in count.wrong] == [
        "1 read, 2 to be there",
        "a) 2+4 for 2+3",
        "a) '2+3=6': it is 5",
        "a) not read: 'beans'",
    ]


def line(text: str) -> Line:
    """``2 + 3 = 5`` as it would have been read."""
    question, sign, answer, *again = text.replace("=", "|=|").replace("≈", "|≈|").split("|")
    said = [part.strip() for part in (question, sign, answer)]
    return Line(*said, again[1].strip() if again else None)


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


@pytest.mark.parametrize(
    "right",
    [
        "3.□ + 0.27 = 3.67, □ = 4",
        "1.9 + 1.87 = □ .77, □ = 3",
        "□ − 2.2 = 1.58, □ = 3.78",
        "467 ÷ 9 = □ 1 r 8, □ = 5",
        "992 ÷ □ = 110 2/9, □ = 9",
        "9□ 2 ÷ 7 ≈ 138.86, □ = 7",
        "2.4, 2.375, 2.08: 2.08 < 2.375 < 2.4",
        "0.5 □ 0.45: 0.5 > 0.45",
        "0.5 □ 0.50: 0.5 = 0.50",
        "3.96 to 1 decimal place: 4.0",
        "2.5 to the nearest whole number: 3",
        "125 to the nearest ten: 130",
    ],
)
def test_answers_of_every_form_are_read_and_worked_out(right: str) -> None:
    found = answered(right, None)
    assert found
    assert found.why is None


@pytest.mark.parametrize(
    "false",
    [
        "3.□ + 0.27 = 3.67, □ = 5",
        "□ − 2.2 = 1.58, □ = 3.68",
        "467 ÷ 9 = □ 1 r 8, □ = 6",
        "2.4, 2.375, 2.08: 2.375 < 2.08 < 2.4",
        "2.4, 2.375, 2.08: 2.08 < 2.375 < 2.5",
        "2.4, 2.40: 2.4 < 2.40",
        "0.5 □ 0.45: 0.5 < 0.45",
        "0.5 □ 0.45: 0.45 < 0.5",
        "3.96 to 1 decimal place: 4",
        "2.5 to the nearest whole number: 2",
    ],
)
def test_a_wrong_answer_of_any_form_is_caught(false: str) -> None:
    found = answered(false, None)
    assert found
    assert found.why


def test_replies_in_words_are_worked_out() -> None:
    told = Asked("a", "divide, in words", "", "", ())

    def why(text: str) -> str | None:
        found = answered(text, told)
        assert found
        return found.why

    assert why("471 ÷ 6 = 78 pieces and 3 m left over") is None
    assert why("471 ÷ 6 = 78 pieces and 4 m left over")
    assert why("471 ÷ 6 = 78 pieces")
    assert why("90.72 − 17.22 = £73.50") is None
    assert why("90.72 − 17.22 = £73.05")
    assert why("799 ÷ 7 ≈ 114.14 m") is None
    assert why("799 ÷ 7 ≈ 114.15 m")


def test_what_pupils_are_asked_must_hold_too() -> None:
    def why(text: str) -> str | None:
        found = asked_alone(unspoken(text), None)
        assert found
        return found.why

    assert why("24 × 16 = 384, so 2.4 × 0.16 =") is None
    assert why("24 times 16 equals 384, so what is 2.4 times 0.16") is None
    assert why("24 × 16 = 374, so 2.4 × 0.16 =")
    assert why("24 × 16 = 384, so 2.5 × 0.16 =")
    assert why("63 − 29 = 46? Find the mistake and put it right.") is None
    assert why("63 − 29 = 34? Find the mistake and put it right.")
    assert why("3.4 plus 0. missing digit equals 3.67") == "[] would fit"
