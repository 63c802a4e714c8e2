"""What is said to people about each mistake: the one place for it.

The keys are the mistakes' names, which specs, records and marks hold on to and which stay English
everywhere. What stands behind them are sayings, so that pages in another language have it from
their catalogue.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from specs.languages.saying import Saying, say


@dataclass(frozen=True, slots=True)
class Said:
    """What is said of a mistake.

    ``sentence`` says to the teacher what the pupil does, ``told`` the same with its subject, to
    stand behind a colon, and ``follow_up`` what to show next.
    """

    sentence: Saying
    told: Saying
    follow_up: Saying


_TRADING: Final = say(
    "Build a column of ten or more with counters, trade ten for one of the next column, "
    "and write the carried digit where it will be added."
)
_FILLING: Final = say("Write the noughts in the empty places first, then exchange into them.")
_TEN_FROM_A_HUNDRED: Final = say(
    "Work 103 − 45 with hundreds, tens and ones: the ten must first come out of the hundred."
)
_EMPTY_COLUMN: Final = say(
    "Work 40 − 7 with tens and ones: an empty column needs an exchange first."
)
_SCALING: Final = say(
    "Estimate first; then show 0.6 × 0.7 as 6 × 7 divided by 10 × 10 = 100, on squared paper "
    "ten by ten."
)
_PART_BY_PART: Final = say("Write out 20 × 6 and 4 × 6 and add them, beside the short form.")

TITLES: Final[Mapping[str, Saying]] = {
    "numbers lined up at the right-hand end": say("numbers lined up at the right-hand end"),
    "smaller digit taken from larger": say("smaller digit taken from larger"),
    "carry written but not added": say("carry written but not added"),
    "carry dropped": say("carry dropped"),
    "exchange without lowering the next column": say("exchange without lowering the next column"),
    "missing place copied down": say("missing place copied down"),
    "missing place left out": say("missing place left out"),
    "stops at a zero": say("stops at a nought"),
    "passes over a zero": say("passes over a nought"),
    "zero minus n gives n": say("0 − 7 written as 7"),
    "zero minus n gives 0": say("0 − 7 written as 0"),
    "one taken where the lower number has no digit": say(
        "one taken where the lower number has no digit"
    ),
    "smaller digit taken from larger and one taken where the lower number has no digit": say(
        "smaller digit taken from larger and one taken where the lower number has no digit"
    ),
    "whole and decimal parts worked apart": say("whole and decimal parts worked apart"),
    "carried figure and kept figure swapped": say("carried digit and kept digit swapped"),
    "carry added twice": say("carry added twice"),
    "nought added at the end": say("nought added at the end"),
    "digits moved the wrong way": say("digits moved the wrong way"),
    "point placed as in addition": say("point placed as in addition"),
    "zero digits skipped in multiplying": say("noughts skipped in multiplying"),
    "carry not added in multiplying": say("carry not added in multiplying"),
    "rows of a long multiplication not moved along": say(
        "rows of a long multiplication not moved along"
    ),
    "carry added before multiplying": say("carry added before multiplying"),
    "carried and kept figures swapped in multiplying": say(
        "carried and kept digits swapped in multiplying"
    ),
    "powers of ten added not multiplied": say("powers of ten added not multiplied"),
    "remainder not carried": say("remainder not carried"),
    "zero left out of a quotient": say("nought left out of a quotient"),
    "remainder written as a decimal digit": say("remainder written as a decimal digit"),
    "divisor made whole and dividend left as it was": say(
        "divisor made whole and dividend left as it was"
    ),
    "divides larger by smaller": say("divides larger by smaller"),
    "point ignored": say("point ignored"),
    "adds instead": say("adds instead"),
    "cut off and not rounded": say("cut off and not rounded"),
    "always rounded up": say("always rounded up"),
    "ten written where a nine goes over": say("ten written where a nine goes over"),
    "more digits taken as larger": say("more digits taken as larger"),
    "fewer digits taken as larger": say("fewer digits taken as larger"),
    "nought after the point handled apart": say("nought after the point handled apart"),
    "only matching parts multiplied": say("only matching parts multiplied"),
    "a nought too few in a product of parts": say("a nought too few in a product of parts"),
    "last jump left out": say("last jump left out"),
    "first jump left out": say("first jump left out"),
    "last chunk not counted": say("last chunk not counted"),
}
"""What pages call each mistake: its name, with nought for the zero of some that are kept so."""

MISTAKES: Final[Mapping[str, Said]] = {
    "numbers lined up at the right-hand end": Said(
        say("Sets the last digits under one another, whatever their place."),
        say("the pupil sets the last digits under one another, whatever their place."),
        say(
            "Show the same numbers on a place-value grid, ones under ones and points in line, and "
            "fill the empty places with noughts."
        ),
    ),
    "smaller digit taken from larger": Said(
        say("In each column takes the smaller digit from the larger, whichever stands above."),
        say(
            "in each column the pupil takes the smaller digit from the larger, whichever stands "
            "above."
        ),
        say("Work 42 − 18 with tens and ones: 2 ones are less than 8 ones, so a ten is exchanged."),
    ),
    "carry written but not added": Said(
        say("Writes the carried digit and then leaves it out of the next column."),
        say("the pupil writes the carried digit and then leaves it out of the next column."),
        _TRADING,
    ),
    "carry dropped": Said(
        say("Writes only the last digit of each column's total, in the left-most column too."),
        say(
            "the pupil writes only the last digit of each column's total, in the left-most "
            "column too."
        ),
        _TRADING,
    ),
    "exchange without lowering the next column": Said(
        say("Makes a column ten larger and changes nothing in the next column."),
        say("the pupil makes a column ten larger and changes nothing in the next column."),
        say(
            "Cross out and rewrite the next digit before the small 1 is written; check by adding "
            "back."
        ),
    ),
    "missing place copied down": Said(
        say("Where the upper number has no digit, writes the lower digit in the answer."),
        say("where the upper number has no digit, the pupil writes the lower digit in the answer."),
        _FILLING,
    ),
    "missing place left out": Said(
        say("Where the upper number has no digit, leaves the lower digit out of the answer."),
        say(
            "where the upper number has no digit, the pupil leaves the lower digit out of the "
            "answer."
        ),
        _FILLING,
    ),
    "stops at a zero": Said(
        say("Exchanges from a 0, makes it 9, and takes nothing from the column beyond."),
        say("the pupil exchanges from a 0, makes it 9, and takes nothing from the column beyond."),
        _TEN_FROM_A_HUNDRED,
    ),
    "passes over a zero": Said(
        say("Exchanges straight from the column beyond a 0 and leaves the 0 as it was."),
        say("the pupil exchanges straight from the column beyond a 0 and leaves the 0 as it was."),
        _TEN_FROM_A_HUNDRED,
    ),
    "zero minus n gives n": Said(
        say("Where the upper digit is 0, writes the lower digit."),
        say("where the upper digit is 0, the pupil writes the lower digit."),
        _EMPTY_COLUMN,
    ),
    "zero minus n gives 0": Said(
        say("Where the upper digit is 0, writes 0."),
        say("where the upper digit is 0, the pupil writes 0."),
        _EMPTY_COLUMN,
    ),
    "one taken where the lower number has no digit": Said(
        say(
            "Where the lower number has no more digits on the left, takes 1 off each upper digit, "
            "exchange or not (a 0 stays)."
        ),
        say(
            "where the lower number has no more digits on the left, the pupil takes 1 off each "
            "upper digit, exchange or not (a 0 stays)."
        ),
        say("Write the missing digits of the lower number as noughts, and take nought from each."),
    ),
    "smaller digit taken from larger and one taken where the lower number has no digit": Said(
        say(
            "Takes the smaller digit from the larger, and where the lower number has no more "
            "digits on the left, takes 1 off each upper digit although nothing was exchanged (a 0 "
            "stays)."
        ),
        say(
            "the pupil takes the smaller digit from the larger, and where the lower number has no "
            "more digits on the left, takes 1 off each upper digit although nothing was exchanged "
            "(a 0 stays)."
        ),
        say(
            "Begin with the exchange, 42 − 18 with tens and ones; then fill missing digits with "
            "noughts."
        ),
    ),
    "whole and decimal parts worked apart": Said(
        say("Works the digits before the point and the digits after it as two whole numbers."),
        say(
            "the pupil works the digits before the point and the digits after it as two whole "
            "numbers."
        ),
        say(
            "Show that ten tenths make one: count on past 0.9 on a number line, then carry over "
            "the point."
        ),
    ),
    "carried figure and kept figure swapped": Said(
        say("Writes the tens of a column's total in the answer and carries the ones."),
        say("the pupil writes the tens of a column's total in the answer and carries the ones."),
        say(
            "Say the total in words, one ten and two: the two stays in its column, the ten moves "
            "left."
        ),
    ),
    "carry added twice": Said(
        say("Adds the carried digit at the start of the next column and again at its end."),
        say(
            "the pupil adds the carried digit at the start of the next column and again at its end."
        ),
        say("Have the carried digit crossed out as soon as it has been added."),
    ),
    "nought added at the end": Said(
        say("Writes a nought for each nought of 10, 100 or 1000, after the point as well."),
        say(
            "the pupil writes a nought for each nought of 10, 100 or 1000, after the point as well."
        ),
        say("On a place-value grid, 3.45 and 3.450: which digit has become ten times as large?"),
    ),
    "digits moved the wrong way": Said(
        say("Moves the digits to the right in multiplying by 10, or to the left in dividing."),
        say(
            "the pupil moves the digits to the right in multiplying by 10, or to the left in "
            "dividing."
        ),
        say(
            "Ask first whether the answer is larger or smaller than the number, then move the "
            "digits."
        ),
    ),
    "point placed as in addition": Said(
        say("Gives the product as many decimal places as the longer number has."),
        say("the pupil gives the product as many decimal places as the longer number has."),
        _SCALING,
    ),
    "zero digits skipped in multiplying": Said(
        say("Passes over a nought inside a number as if it were not there."),
        say("the pupil passes over a nought inside a number as if it were not there."),
        say("Multiply 300 + 4 by 6 part by part, and compare with the column working."),
    ),
    "carry not added in multiplying": Said(
        say("Writes the last digit of each product and never adds what is carried."),
        say("the pupil writes the last digit of each product and never adds what is carried."),
        _PART_BY_PART,
    ),
    "rows of a long multiplication not moved along": Said(
        say("Sets every row out from the ones, so the tens row counts as ones."),
        say("the pupil sets every row out from the ones, so the tens row counts as ones."),
        say(
            "Split 24 × 16 into 24 × 6 and 24 × 10: the row of tens has its last digit in the "
            "tens, before a nought or an empty square."
        ),
    ),
    "carry added before multiplying": Said(
        say("Adds the carried digit to the next digit and multiplies the two together."),
        say("the pupil adds the carried digit to the next digit and multiplies the two together."),
        _PART_BY_PART,
    ),
    "carried and kept figures swapped in multiplying": Said(
        say("Writes the tens of a product in the answer and carries the ones."),
        say("the pupil writes the tens of a product in the answer and carries the ones."),
        say("Say the product in words, two tens and four: the four stays, the two tens move left."),
    ),
    "powers of ten added not multiplied": Said(
        say("Divides the whole-number product by 10 + 10 = 20 instead of 10 × 10 = 100."),
        say("the pupil divides the whole-number product by 10 + 10 = 20 instead of 10 × 10 = 100."),
        _SCALING,
    ),
    "remainder not carried": Said(
        say("Divides each digit alone and loses what the column before left over."),
        say("the pupil divides each digit alone and loses what the column before left over."),
        say("Share 98 counters as tens and ones: two tens left over become twenty ones."),
    ),
    "zero left out of a quotient": Said(
        say("Writes nothing where a column's share is 0, so later digits move up."),
        say("the pupil writes nothing where a column's share is 0, so later digits move up."),
        say(
            "Write a digit for every digit of the dividend, 0 where none can be shared; check "
            "by multiplying back."
        ),
    ),
    "remainder written as a decimal digit": Said(
        say("Writes the remainder after a point: 5 r 2 as 5.2."),
        say("the pupil writes the remainder after a point: 5 r 2 as 5.2."),
        say("Share the remainder out as well: 2 left over among 3 is 2/3, not 2 tenths."),
    ),
    "divisor made whole and dividend left as it was": Said(
        say("Makes the divisor a whole number and leaves the dividend as it was."),
        say("the pupil makes the divisor a whole number and leaves the dividend as it was."),
        say(
            "Write the division as a fraction and multiply top and bottom by the same power of ten."
        ),
    ),
    "divides larger by smaller": Said(
        say("Divides the larger number by the smaller, whichever comes first."),
        say("the pupil divides the larger number by the smaller, whichever comes first."),
        say("Read 4 ÷ 8 as 4 loaves among 8: is each share more than one loaf or less?"),
    ),
    "point ignored": Said(
        say("Works with the digits as whole numbers and writes no point."),
        say("the pupil works with the digits as whole numbers and writes no point."),
        say(
            "Ask for an estimate to the nearest whole number first, then where the point must "
            "stand."
        ),
    ),
    "adds instead": Said(
        say("Adds the numbers, whatever the sign says."),
        say("the pupil adds the numbers, whatever the sign says."),
        say("Have the sign ringed and the question read aloud before any working."),
    ),
    "cut off and not rounded": Said(
        say("Leaves the further digits out, however large they are."),
        say("the pupil leaves the further digits out, however large they are."),
        say("Mark 2.96 between 2.9 and 3.0 on a number line: which of the two is nearer?"),
    ),
    "always rounded up": Said(
        say("Makes the last digit one more, however small the digits after it are."),
        say("the pupil makes the last digit one more, however small the digits after it are."),
        say("Mark 2.31 between 2.3 and 2.4 on a number line: which of the two is nearer?"),
    ),
    "ten written where a nine goes over": Said(
        say("Makes a 9 into 10 in its own column: 3.96 to 3.10."),
        say("the pupil makes a 9 into 10 in its own column: 3.96 to 3.10."),
        say("Count on in tenths from 3.8: 3.9, then 4.0, as ten tenths make one."),
    ),
    "more digits taken as larger": Said(
        say("Reads the digits after the point as a whole number."),
        say("the pupil reads the digits after the point as a whole number."),
        say("Fill both numbers to the same length, 4.80 and 4.63, and mark them on a number line."),
    ),
    "fewer digits taken as larger": Said(
        say("Takes the number with fewer places as the larger, because tenths are larger parts."),
        say(
            "the pupil takes the number with fewer places as the larger, because tenths are "
            "larger parts."
        ),
        say(
            "Shade 0.4 on one hundred square and 0.83 on another: which is more? The number of "
            "parts matters as well as their size."
        ),
    ),
    "nought after the point handled apart": Said(
        say(
            "Reads decimals as whole numbers, but knows that a nought after the point makes the "
            "number small."
        ),
        say(
            "the pupil reads decimals as whole numbers, but knows that a nought after the point "
            "makes the number small."
        ),
        say("Compare 4.08, 4.7 and 4.63 digit by digit from the left on a place-value grid."),
    ),
    "only matching parts multiplied": Said(
        say("Multiplies tens by tens and ones by ones alone: 34 × 27 as 30 × 20 and 4 × 7."),
        say(
            "the pupil multiplies tens by tens and ones by ones alone, and leaves the other two "
            "products out."
        ),
        say("Draw 34 × 27 as a rectangle of four parts: which of them were left out?"),
    ),
    "a nought too few in a product of parts": Said(
        say("Writes one nought too few when tens are multiplied by tens: 30 × 20 as 60."),
        say("the pupil writes one nought too few when tens are multiplied by tens."),
        say("Work 30 × 20 as 3 tens × 2 tens = 6 hundreds, beside 3 tens × 2 = 6 tens."),
    ),
    "last jump left out": Said(
        say("Counts up to the last round number and does not add the jump after it."),
        say("the pupil counts up to the last round number and does not add the jump after it."),
        say("Check the answer by adding: does it lead from the second number to the first?"),
    ),
    "first jump left out": Said(
        say("Begins to count at the first round number and does not add the jump before it."),
        say(
            "the pupil begins to count at the first round number and does not add the jump "
            "before it."
        ),
        say("Check the answer by adding: does it lead from the second number to the first?"),
    ),
    "last chunk not counted": Said(
        say("Adds how many there were in each chunk, and leaves out the last."),
        say("the pupil adds how many there were in each chunk, and leaves out the last."),
        say(
            "Write beside each chunk how many of the divisor it has, and tick each off when adding."
        ),
    ),
}

IN_BRIEF: Final[Mapping[str, Saying]] = {
    "numbers lined up at the right-hand end": say("lined up at the right"),
    "smaller digit taken from larger": say("smaller digit from larger"),
    "carry written but not added": say("carry written, not added"),
    "carry dropped": say("carry left out"),
    "exchange without lowering the next column": say("next column not lowered"),
    "missing place copied down": say("digit under a gap copied down"),
    "missing place left out": say("digit under a gap left out"),
    "stops at a zero": say("exchange stops at a nought"),
    "passes over a zero": say("exchange skips a nought"),
    "zero minus n gives n": say("digit under a 0 copied down"),
    "zero minus n gives 0": say("digit under a 0 made 0"),
    "one taken where the lower number has no digit": say("1 taken off with no exchange"),
    "smaller digit taken from larger and one taken where the lower number has no digit": (
        say("smaller from larger and 1 taken off")
    ),
    "whole and decimal parts worked apart": say("each side of the point by itself"),
    "carried figure and kept figure swapped": say("carried and kept digits swapped"),
    "carry added twice": say("carry added twice"),
    "nought added at the end": say("noughts written at the end"),
    "digits moved the wrong way": say("digits moved the wrong way"),
    "point placed as in addition": say("point placed as in adding"),
    "zero digits skipped in multiplying": say("nought inside a number skipped"),
    "carry not added in multiplying": say("carry not added"),
    "rows of a long multiplication not moved along": say("tens row not moved along"),
    "carry added before multiplying": say("carry added before multiplying"),
    "carried and kept figures swapped in multiplying": say("carried and kept digits swapped"),
    "powers of ten added not multiplied": say("powers of ten added"),
    "remainder not carried": say("remainder not carried"),
    "zero left out of a quotient": say("nought left out of the answer"),
    "remainder written as a decimal digit": say("remainder put after a point"),
    "divisor made whole and dividend left as it was": say("only the divisor made whole"),
    "divides larger by smaller": say("larger divided by smaller"),
    "point ignored": say("point left out"),
    "adds instead": say("added instead"),
    "cut off and not rounded": say("cut off, not rounded"),
    "always rounded up": say("rounded up"),
    "ten written where a nine goes over": say("9 made 10 in its own place"),
    "more digits taken as larger": say("more digits taken as larger"),
    "fewer digits taken as larger": say("fewer digits taken as larger"),
    "nought after the point handled apart": say("longer is larger, except 0 tenths"),
    "only matching parts multiplied": say("only tens × tens, ones × ones"),
    "a nought too few in a product of parts": say("tens × tens a nought short"),
    "last jump left out": say("last jump left out"),
    "first jump left out": say("first jump left out"),
    "last chunk not counted": say("last chunk not counted"),
}
"""What the key says of each mistake beside the wrong answer that it gives."""
