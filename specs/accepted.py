"""What counts as a right answer, on paper and in the mark sheet, said to teachers."""

from typing import Final

from specs.languages.saying import say

ACCEPTED: Final = {
    "numbers": say(
        "3.67 or 3,67, with noughts at the end or without; gaps, commas or apostrophes between "
        "thousands; where 23,834 may be 23.834 as well as 23834, other answers of the column and "
        "the sheet decide, and where they do not it is listed for you to look at"
    ),
    "left over": say(
        "a remainder, a fraction or a decimal, whichever of them is asked for: 68 r 1, 68 1/5 and "
        "68.2 are all right for 341 ÷ 5; what is left over must be less than the divisor; where "
        "words ask how much is left over, both numbers are needed"
    ),
    "rounded": say("the rounded number alone is right: 14.3 for 100 ÷ 7 to one decimal place"),
    "units": say(
        "none is needed; the same amount in another unit is right, 4370 ml for 4.37 litres; a "
        "wrong unit is wrong, and named"
    ),
    "in order": say(
        "all the numbers, smallest first, with spaces, commas, semicolons or < between"
    ),
    "two compared": say("<, > or =, or in words: smaller, larger, equal"),
    "missing": say("what goes in the box"),
}
"""By what is answered, in a sentence each."""
