"""What is said to people about each mistake, in English: the one place for it in this language.

The keys are the mistakes' names, which specs, records and marks hold on to. A further language
is a further module like this.
"""

from dataclasses import dataclass
from typing import Final


@dataclass(frozen=True, slots=True)
class Said:
    """What is said of a mistake.

    ``sentence`` says to the teacher what the pupil does, ``told`` the same with its subject, to
    stand behind a colon, and ``follow_up`` what to show next.
    """

    sentence: str
    told: str
    follow_up: str


_TRADING: Final = (
    "Build a column of ten or more with counters, trade ten for one of the next column, "
    "and write the carried digit where it will be added."
)
_FILLING: Final = "Write the noughts in the empty places first, then exchange into them."
_TEN_FROM_A_HUNDRED: Final = (
    "Work 103 − 45 with hundreds, tens and ones: the ten must first come out of the hundred."
)
_EMPTY_COLUMN: Final = "Work 40 − 7 with tens and ones: an empty column needs an exchange first."
_SCALING: Final = (
    "Estimate first; then show 0.6 × 0.7 as 6 × 7 made 10 × 10 = 100 times smaller, on "
    "squared paper ten by ten."
)
_PART_BY_PART: Final = "Write out 20 × 6 and 4 × 6 and add them, beside the short form."

TITLES: Final[dict[str, str]] = {
    "stops at a zero": "stops at a nought",
    "passes over a zero": "passes over a nought",
    "zero minus n gives n": "nought minus n gives n",
    "zero minus n gives 0": "nought minus n gives nought",
    "zero digits skipped in multiplying": "noughts skipped in multiplying",
    "zero left out of a quotient": "nought left out of a quotient",
}
"""What pages call those mistakes whose names, kept by specs and records, say zero."""

MISTAKES: Final[dict[str, Said]] = {
    "numbers lined up at the right-hand end": Said(
        "Sets the last digits under one another, whatever their place.",
        "the pupil sets the last digits under one another, whatever their place.",
        "Show the same numbers on a place-value grid, ones under ones and points in line, and "
        "fill the empty places with noughts.",
    ),
    "smaller digit taken from larger": Said(
        "In each column takes the smaller digit from the larger, whichever stands above.",
        "in each column the pupil takes the smaller digit from the larger, whichever stands above.",
        "Work 42 − 18 with tens and ones: 2 ones are less than 8 ones, so a ten is exchanged.",
    ),
    "carry written but not added": Said(
        "Writes the carried digit and then leaves it out of the next column.",
        "the pupil writes the carried digit and then leaves it out of the next column.",
        _TRADING,
    ),
    "carry dropped": Said(
        "Writes only the last digit of each column's total, in the left-most column too.",
        "the pupil writes only the last digit of each column's total, in the left-most column too.",
        _TRADING,
    ),
    "exchange without lowering the next column": Said(
        "Makes a column ten larger and changes nothing in the next column.",
        "the pupil makes a column ten larger and changes nothing in the next column.",
        "Cross out and rewrite the next digit before the small 1 is written; check by adding back.",
    ),
    "missing place copied down": Said(
        "Where the upper number has no digit, writes the lower digit in the answer.",
        "where the upper number has no digit, the pupil writes the lower digit in the answer.",
        _FILLING,
    ),
    "missing place left out": Said(
        "Where the upper number has no digit, leaves the lower digit out of the answer.",
        "where the upper number has no digit, the pupil leaves the lower digit out of the answer.",
        _FILLING,
    ),
    "stops at a zero": Said(
        "Exchanges from a 0, makes it 9, and takes nothing from the column beyond.",
        "the pupil exchanges from a 0, makes it 9, and takes nothing from the column beyond.",
        _TEN_FROM_A_HUNDRED,
    ),
    "passes over a zero": Said(
        "Exchanges straight from the column beyond a 0 and leaves the 0 as it was.",
        "the pupil exchanges straight from the column beyond a 0 and leaves the 0 as it was.",
        _TEN_FROM_A_HUNDRED,
    ),
    "zero minus n gives n": Said(
        "Where the upper digit is 0, writes the lower digit.",
        "where the upper digit is 0, the pupil writes the lower digit.",
        _EMPTY_COLUMN,
    ),
    "zero minus n gives 0": Said(
        "Where the upper digit is 0, writes 0.",
        "where the upper digit is 0, the pupil writes 0.",
        _EMPTY_COLUMN,
    ),
    "one taken where the lower number has no digit": Said(
        "Lowers by one each digit but 0 that stands in front of the lower number's first digit.",
        "the pupil lowers by one each digit but 0 that stands in front of the lower number's "
        "first digit.",
        "Write the missing digits of the lower number as noughts, and take nought from each.",
    ),
    "smaller digit taken from larger and one taken where the lower number has no digit": Said(
        "Takes the smaller digit from the larger, and lowers by one each digit but 0 in front of "
        "the lower number's first digit.",
        "the pupil takes the smaller digit from the larger, and lowers by one each digit but 0 in "
        "front of the lower number's first digit.",
        "Begin with the exchange, 42 − 18 with tens and ones; then fill missing digits with "
        "noughts.",
    ),
    "whole and decimal parts worked apart": Said(
        "Works the digits before the point and the digits behind it as two whole numbers.",
        "the pupil works the digits before the point and the digits behind it as two whole "
        "numbers.",
        "Show that ten tenths make one: count on past 0.9 on a number line, then carry over "
        "the point.",
    ),
    "carried figure and kept figure swapped": Said(
        "Writes the tens of a column's total in the answer and carries the ones.",
        "the pupil writes the tens of a column's total in the answer and carries the ones.",
        "Say the total in words, one ten and two: the two stays in its column, the ten moves left.",
    ),
    "carry added twice": Said(
        "Adds the carried digit at the start of the next column and again at its end.",
        "the pupil adds the carried digit at the start of the next column and again at its end.",
        "Have the carried digit crossed out as soon as it has been added.",
    ),
    "nought added at the end": Said(
        "Writes a nought for each nought of 10, 100 or 1000, behind the point as well.",
        "the pupil writes a nought for each nought of 10, 100 or 1000, behind the point as well.",
        "On a place-value grid, 3.45 and 3.450: which digit has become ten times as large?",
    ),
    "digits moved the wrong way": Said(
        "Moves the digits to the right in multiplying by 10, or to the left in dividing.",
        "the pupil moves the digits to the right in multiplying by 10, or to the left in dividing.",
        "Ask first whether the answer is larger or smaller than the number, then move the digits.",
    ),
    "point placed as in addition": Said(
        "Gives the product as many decimal places as the longer number has.",
        "the pupil gives the product as many decimal places as the longer number has.",
        _SCALING,
    ),
    "zero digits skipped in multiplying": Said(
        "Passes over a nought inside a number as if it were not there.",
        "the pupil passes over a nought inside a number as if it were not there.",
        "Multiply 300 + 4 by 6 part by part, and compare with the column working.",
    ),
    "carry not added in multiplying": Said(
        "Writes the last digit of each product and never adds what is carried.",
        "the pupil writes the last digit of each product and never adds what is carried.",
        _PART_BY_PART,
    ),
    "rows of a long multiplication not moved along": Said(
        "Sets every row out from the ones, so the tens row counts as ones.",
        "the pupil sets every row out from the ones, so the tens row counts as ones.",
        "Split 24 × 16 into 24 × 6 and 24 × 10, and write the nought of the second row first.",
    ),
    "carry added before multiplying": Said(
        "Adds the carried digit to the next digit and multiplies the two together.",
        "the pupil adds the carried digit to the next digit and multiplies the two together.",
        _PART_BY_PART,
    ),
    "carried and kept figures swapped in multiplying": Said(
        "Writes the tens of a product in the answer and carries the ones.",
        "the pupil writes the tens of a product in the answer and carries the ones.",
        "Say the product in words, two tens and four: the four stays, the two tens move left.",
    ),
    "powers of ten added not multiplied": Said(
        "Makes the whole-number product 10 + 10 times smaller instead of 10 × 10 times.",
        "the pupil makes the whole-number product 10 + 10 times smaller instead of 10 × 10 times.",
        _SCALING,
    ),
    "remainder not carried": Said(
        "Divides each digit alone and loses what the column before left over.",
        "the pupil divides each digit alone and loses what the column before left over.",
        "Share 98 counters as tens and ones: two tens left over become twenty ones.",
    ),
    "zero left out of a quotient": Said(
        "Writes nothing where a column's share is 0, so later digits move up.",
        "the pupil writes nothing where a column's share is 0, so later digits move up.",
        "Write a digit above every digit of the dividend, 0 where none can be shared; check "
        "by multiplying back.",
    ),
    "remainder written as a decimal digit": Said(
        "Writes the remainder behind a point: 5 r 2 as 5.2.",
        "the pupil writes the remainder behind a point: 5 r 2 as 5.2.",
        "Share the remainder out as well: 2 left over among 3 is 2/3, not 2 tenths.",
    ),
    "divisor made whole and dividend left as it was": Said(
        "Makes the divisor a whole number and leaves the dividend as it was.",
        "the pupil makes the divisor a whole number and leaves the dividend as it was.",
        "Write the division as a fraction and multiply top and bottom by the same power of ten.",
    ),
    "divides larger by smaller": Said(
        "Divides the larger number by the smaller, whichever comes first.",
        "the pupil divides the larger number by the smaller, whichever comes first.",
        "Read 4 ÷ 8 as 4 loaves among 8: is each share more than one loaf or less?",
    ),
    "point ignored": Said(
        "Works with the digits as whole numbers and writes no point.",
        "the pupil works with the digits as whole numbers and writes no point.",
        "Ask for an estimate to the nearest whole number first, then where the point must stand.",
    ),
    "adds instead": Said(
        "Adds the numbers, whatever the sign says.",
        "the pupil adds the numbers, whatever the sign says.",
        "Have the sign ringed and the question read aloud before any working.",
    ),
    "cut off and not rounded": Said(
        "Leaves the further digits out, however large they are.",
        "the pupil leaves the further digits out, however large they are.",
        "Mark 2.96 between 2.9 and 3.0 on a number line: which of the two is nearer?",
    ),
    "always rounded up": Said(
        "Makes the last digit one more, however small the digits behind it are.",
        "the pupil makes the last digit one more, however small the digits behind it are.",
        "Mark 2.31 between 2.3 and 2.4 on a number line: which of the two is nearer?",
    ),
    "ten written where a nine goes over": Said(
        "Makes a 9 into 10 in its own column: 3.96 to 3.10.",
        "the pupil makes a 9 into 10 in its own column: 3.96 to 3.10.",
        "Count on in tenths from 3.8: 3.9, then 4.0, as ten tenths make one.",
    ),
    "more digits taken as larger": Said(
        "Reads the digits behind the point as a whole number.",
        "the pupil reads the digits behind the point as a whole number.",
        "Fill both numbers to the same length, 4.80 and 4.63, and mark them on a number line.",
    ),
    "fewer digits taken as larger": Said(
        "Takes the number with fewer places as the larger, because tenths are larger parts.",
        "the pupil takes the number with fewer places as the larger, because tenths are "
        "larger parts.",
        "Shade 0.4 and 0.83 on one hundred-square: how many parts counts as well as their size.",
    ),
    "nought after the point handled apart": Said(
        "Reads decimals as whole numbers, but knows that a nought after the point makes small.",
        "the pupil reads decimals as whole numbers, but knows that a nought after the point "
        "makes small.",
        "Compare 4.08, 4.7 and 4.63 digit by digit from the left on a place-value grid.",
    ),
    "only matching parts multiplied": Said(
        "Multiplies tens by tens and ones by ones alone: 34 × 27 as 30 × 20 and 4 × 7.",
        "the pupil multiplies tens by tens and ones by ones alone, and leaves the other two "
        "products out.",
        "Draw 34 × 27 as a rectangle of four parts: which of them were left out?",
    ),
    "a nought too few in a product of parts": Said(
        "Gives a product of tens and tens one nought: 30 × 20 as 60.",
        "the pupil gives a product of tens and tens one nought.",
        "Work 30 × 20 as 3 tens × 2 tens = 6 hundreds, beside 3 tens × 2 = 6 tens.",
    ),
    "last jump left out": Said(
        "Counts up to the last round number and does not add the jump after it.",
        "the pupil counts up to the last round number and does not add the jump after it.",
        "Check the answer by adding: does it lead from the second number to the first?",
    ),
    "first jump left out": Said(
        "Begins to count at the first round number and does not add the jump before it.",
        "the pupil begins to count at the first round number and does not add the jump before it.",
        "Check the answer by adding: does it lead from the second number to the first?",
    ),
    "last chunk not counted": Said(
        "Adds how many there were in each chunk, and leaves out the last.",
        "the pupil adds how many there were in each chunk, and leaves out the last.",
        "Write beside each chunk how many of the divisor it has, and tick each off when adding.",
    ),
}

IN_BRIEF: Final[dict[str, str]] = {
    "numbers lined up at the right-hand end": "lined up at the right",
    "smaller digit taken from larger": "smaller digit from larger",
    "carry written but not added": "carry written, not added",
    "carry dropped": "carry left out",
    "exchange without lowering the next column": "next column not lowered",
    "missing place copied down": "digit under a gap copied down",
    "missing place left out": "digit under a gap left out",
    "stops at a zero": "exchange stops at a nought",
    "passes over a zero": "exchange skips a nought",
    "zero minus n gives n": "0 − n made n",
    "zero minus n gives 0": "0 − n made 0",
    "one taken where the lower number has no digit": "1 taken where no digit is below",
    "smaller digit taken from larger and one taken where the lower number has no digit": (
        "smaller from larger, gaps lowered"
    ),
    "whole and decimal parts worked apart": "both sides of the point apart",
    "carried figure and kept figure swapped": "carried and kept digit swapped",
    "carry added twice": "carry added twice",
    "nought added at the end": "noughts written at the end",
    "digits moved the wrong way": "digits moved the wrong way",
    "point placed as in addition": "point placed as in adding",
    "zero digits skipped in multiplying": "nought inside a number skipped",
    "carry not added in multiplying": "carry not added",
    "rows of a long multiplication not moved along": "tens row not moved along",
    "carry added before multiplying": "carry added before multiplying",
    "carried and kept figures swapped in multiplying": "carried and kept digit swapped",
    "powers of ten added not multiplied": "powers of ten added",
    "remainder not carried": "remainder not carried",
    "zero left out of a quotient": "nought left out of the answer",
    "remainder written as a decimal digit": "remainder put behind a point",
    "divisor made whole and dividend left as it was": "divisor alone made whole",
    "divides larger by smaller": "larger divided by smaller",
    "point ignored": "point left out",
    "adds instead": "added instead",
    "cut off and not rounded": "cut off, not rounded",
    "always rounded up": "rounded up",
    "ten written where a nine goes over": "9 made 10 in its own place",
    "more digits taken as larger": "more digits taken as larger",
    "fewer digits taken as larger": "fewer digits taken as larger",
    "nought after the point handled apart": "read as whole, but for noughts",
    "only matching parts multiplied": "matching parts only",
    "a nought too few in a product of parts": "tens × tens a nought short",
    "last jump left out": "last jump left out",
    "first jump left out": "first jump left out",
    "last chunk not counted": "last chunk not counted",
}
"""What the key says of each mistake beside the wrong answer that it gives."""
