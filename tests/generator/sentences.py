"""A reader of the sentences of workings: every numeric claim in them, checked by exact arithmetic.

It knows each pattern that a sentence may have, and is at a loss with any other: `read` raises
``UnknownSentenceError``. What a sentence says is compared with nothing of the generator's, only
with what the words themselves mean.
"""

import re
from collections.abc import Callable
from fractions import Fraction
from typing import Final

UNITS: Final = {
    "one": 0,
    "ten": 1,
    "hundred": 2,
    "thousand": 3,
    "ten thousand": 4,
    "hundred thousand": 5,
    "million": 6,
    "ten million": 7,
    "hundred million": 8,
    "thousand million": 9,
    "ten thousand million": 10,
    "hundred thousand million": 11,
    "million million": 12,
    "tenth": -1,
    "hundredth": -2,
    "thousandth": -3,
    "ten-thousandth": -4,
    "hundred-thousandth": -5,
    "millionth": -6,
    "ten-millionth": -7,
    "hundred-millionth": -8,
    "thousand-millionth": -9,
    "ten-thousand-millionth": -10,
    "hundred-thousand-millionth": -11,
    "million-millionth": -12,
}
NUMBER: Final = r"\d+(?:\.\d+)?"
_UNIT: Final = "|".join(f"{unit}s?" for unit in sorted(UNITS, key=len, reverse=True))
AMOUNT: Final = rf"\d+ (?:{_UNIT})\b"


class UnknownSentenceError(Exception):
    """A sentence, or a part of one, that the reader has no pattern for."""


def place(name: str) -> int:
    """The place of a column by its name, in the singular or the plural."""
    return UNITS[name] if name in UNITS else UNITS[name.removesuffix("s")]


def amount(text: str) -> Fraction:
    """``14 tenths``: what it is worth. The unit is in the number that goes with it."""
    count, unit = text.split(" ", 1)
    plural = unit.endswith("s")
    assert plural == (count != "1") or unit.endswith("million"), f"{text}: of one, or of several?"
    assert not unit.endswith("millions"), text
    return int(count) * Fraction(10) ** place(unit)


def value(text: str) -> Fraction:
    """A term of a sum or of a product: ``14 tenths``, ``2 ones carried``, ``2.4`` or ``3/8``."""
    text = text.removesuffix(" carried")
    if re.fullmatch(AMOUNT, text):
        return amount(text)
    if re.fullmatch(rf"{NUMBER}/{NUMBER}", text):
        over, under = text.split("/")
        return Fraction(over) / Fraction(under)
    if re.fullmatch(NUMBER, text):
        return Fraction(text)
    if re.fullmatch(r"\d+ \d+/\d+", text):
        whole, part = text.split(" ")
        return int(whole) + value(part)
    raise UnknownSentenceError(text)


def worth(text: str) -> Fraction:
    """What a side of an equation is worth: ``3 tenths + 1 tenth carried``."""
    if "(" in text:
        inner = re.search(r"\(([^()]*)\)", text)
        if inner is None:
            raise UnknownSentenceError(text)
        text = text.replace(inner[0], _plain(worth(inner[1])))
    for sign, fold in _FOLDS:
        if sign in text:
            first, *others = [worth(part) for part in text.split(sign)]
            for other in others:
                first = fold(first, other)
            return first
    return value(text)


def _plain(found: Fraction) -> str:
    """An exact number in digits."""
    places = 0
    while (found * 10**places).denominator != 1:
        places += 1
    digits = str(int(found * 10**places)).rjust(places + 1, "0")
    return f"{digits[:-places]}.{digits[-places:]}" if places else digits


_FOLDS: Final[tuple[tuple[str, Callable[[Fraction, Fraction], Fraction]], ...]] = (
    (" and ", lambda a, b: a + b),
    (" + ", lambda a, b: a + b),
    (" − ", lambda a, b: a - b),
    (" × ", lambda a, b: a * b),
    (" ÷ ", lambda a, b: a / b),
)


def equal(text: str) -> None:
    """``A = B = C``: all sides are worth the same."""
    sides = [worth(side) for side in text.split(" = ")]
    assert len(sides) > 1, text
    assert len(set(sides)) == 1, text


def less(first: str, verb: str, second: str) -> None:
    """``2 ones are less than 8 ones``: an amount is less than an amount, never than a number."""
    assert amount(first) < amount(second), f"{first} < {second}"
    assert verb == ("is" if first.startswith("1 ") else "are"), first


def changed(before: str, verb: str, after: str) -> tuple[Fraction, Fraction]:
    """``3 ones become 2 ones``: what both are worth."""
    assert verb == ("becomes" if before.startswith("1 ") else "become"), before
    return amount(before), amount(after)


_A: Final = f"({AMOUNT})"
_COLUMN: Final = rf"({_UNIT})"
_WRITE: Final = r"(?:: write (\d+))?"


def _written(text: str, wrote: str | None) -> None:
    """``… = 1 one and 4 tenths: write 4``: the digit, or both where they end the row."""
    if wrote is None:
        return
    amounts = [re.sub(r" carried$", "", part) for part in re.split(r" = ", text)]
    last = amounts[-1]
    parts = last.split(" and ")
    counts = [part.split(" ")[0] for part in parts]
    assert wrote in (counts[-1], _run_together(parts)), text


def _run_together(parts: list[str]) -> str:
    """``1 hundred and 4 tens``: 14."""
    lowest = place(parts[-1].split(" ", 1)[1])
    return _plain(sum(map(amount, parts), Fraction(0)) / Fraction(10) ** lowest)


Check = Callable[[re.Match[str]], None]
CLAIMS: list[tuple[re.Pattern[str], Check]] = []


def claim(pattern: str) -> Callable[[Check], Check]:
    """A pattern that a sentence may have, and how its claim is checked."""

    def keep(check: Check) -> Check:
        CLAIMS.append((re.compile(pattern), check))
        return check

    return keep


_GOES_ON: Final = r"Stop there: |Count on from \d"
"""How a sentence begins whose claim goes with the one before it."""


def read(sentence: str) -> int:
    """Check each claim of what is said in a step; how many there are with a number in them.

    Raises UnknownSentenceError for a sentence of no known pattern, AssertionError for a false one.
    """
    read_so_far = 0
    for part in re.split(rf"(?<=[.?]) (?!{_GOES_ON})(?=[A-Z0-9×÷+−])", sentence):
        for pattern, check in CLAIMS:
            found = pattern.fullmatch(part)
            if found is not None:
                check(found)
                read_so_far += any(character.isdigit() for character in part)
                break
        else:
            raise UnknownSentenceError(part)
    return read_so_far


SAYS_NO_NUMBER: Final = (
    "Set the numbers out: ones under ones, tens under tens.",
    "Set the numbers out: ones under ones, the number to subtract below.",
    "Set the numbers out with the points in line.",
    "Set the numbers out with ones under ones.",
    "Noughts fill the empty places.",
    "Noughts fill the empty places, so that there is something to subtract from.",
    "The point in the answer stands under the other points.",
    "The point in the answer stands above the point in the dividend.",
    "Write a point after the ones, below and above.",
    "The divisor is a decimal: make it a whole number first.",
    "Multiply whole numbers first, then move the digits to their columns.",
    "Multiply two of the numbers, then multiply by the third.",
    "Leave the noughts at the end aside, and put them back afterwards.",
    "No column is left to tell them apart.",
)


@claim("|".join(map(re.escape, SAYS_NO_NUMBER)))
def _nothing(found: re.Match[str]) -> None:
    """No number, and true of every working that says it."""


# Adding, and adding the rows of a product.


_ON: Final = rf"(?:carry|keep) (\d+) (?:to|in mind for) the {_COLUMN}"
"""What is carried to the next column, written or kept in mind."""


@claim(rf"([^:;()]+ [+×] [^:;()]+ = [^:;,()]+): write (\d+)(?:, {_ON})?\.")
def _sum(found: re.Match[str]) -> None:
    said, wrote, carried, to = found.groups()
    equal(said)
    _written(said, wrote)
    if carried is not None:
        assert worth(said.split(" = ")[-1]) == amount_of(carried, to) + int(wrote) * (
            Fraction(10) ** (place(to) - 1)
        )


def amount_of(count: str, column: str) -> Fraction:
    """So many of a column."""
    return int(count) * Fraction(10) ** place(column)


@claim(rf"([^:;()]+ × [^:;()]+ = {AMOUNT}); with {_A} carried, ([^:;]+): write (\d+)(?:, {_ON})?\.")
def _product_with_carry(found: re.Match[str]) -> None:
    product, carried_in, total, wrote, carried, to = found.groups()
    equal(product)
    sides = [worth(side) for side in total.split(" = ")]
    assert set(sides) == {worth(product.split(" = ")[1]) + amount(carried_in)}
    _written(total, wrote)
    if carried is not None:
        assert sides[0] == amount_of(carried, to) + int(wrote) * Fraction(10) ** (place(to) - 1)


@claim(rf"Only {_A}(?: carried)? in this column: write (\d+)\.")
def _only(found: re.Match[str]) -> None:
    assert found[1].split()[0] == found[2]


@claim(rf"No {_COLUMN}: write 0\.")
def _none(found: re.Match[str]) -> None:
    assert place(found[1]) in UNITS.values()


# Subtracting.


@claim(rf"{_A} − {_A} = {_A}(?:: write (\d+)|: no digit is needed in front)\.")
def _difference(found: re.Match[str]) -> None:
    upper, lower, left, wrote = found.groups()
    assert amount(upper) - amount(lower) == amount(left)
    assert wrote in (None, left.split()[0])
    assert wrote is not None or not amount(left)


@claim(rf"Nothing is taken from {_A}: write (\d+)\.")
def _nothing_taken(found: re.Match[str]) -> None:
    assert found[1].split()[0] == found[2]


@claim(rf"{_A} (is|are) less than {_A}(?: and {_A} (is|are) less than {_A})*\.")
def _less(found: re.Match[str]) -> None:
    for first, verb, second in re.findall(rf"{_A} (is|are) less than {_A}", found[0]):
        less(first, verb, second)


@claim(
    rf"{_A} (?:is|are) less than {_A}(?:, {_A} (?:is|are) less than {_A})+ and {_A} (?:is|are) "
    rf"less than {_A}\."
)
def _a_chain(found: re.Match[str]) -> None:
    chain = re.findall(rf"{_A} (is|are) less than {_A}", found[0])
    for first, verb, second in chain:
        less(first, verb, second)
    assert [link[0] for link in chain[1:]] == [link[2] for link in chain[:-1]]


@claim(rf"There are no {_COLUMN} to exchange: look at the {_COLUMN}\.")
def _no_exchange(found: re.Match[str]) -> None:
    assert place(found[2]) == place(found[1]) + 1


@claim(rf"Exchange {_A} for {_A}: {_A} (becomes?) {_A}, and {_A} (becomes?) {_A}\.")
def _exchange(found: re.Match[str]) -> None:
    lent, received, *both = found.groups()
    assert amount(lent) == amount(received)
    before, after = changed(*both[:3])
    assert before - after == amount(lent)
    before, after = changed(*both[3:])
    assert after - before == amount(received)


@claim(rf"Add {_A} above and {_A} below: {_A} (becomes?) {_A}, and {_A} (becomes?) {_A}\.")
def _equal_addition(found: re.Match[str]) -> None:
    above, below, *both = found.groups()
    assert amount(above) == amount(below)
    for told, added in ((both[:3], above), (both[3:], below)):
        before, after = changed(*told)
        assert after - before == amount(added)


# Multiplying through whole numbers.


@claim(r"What is (\d+) × (\d+)\?")
def _fact_asked(found: re.Match[str]) -> None:
    assert min(int(found[1]), int(found[2])) < 2 or max(int(found[1]), int(found[2])) < 10


@claim(r"(\d+ × \d+ = \d+): you know this by heart\.")
def _fact(found: re.Match[str]) -> None:
    equal(found[1])


@claim(r"Multiply the whole numbers: (\d+ × \d+ = \d+)\.")
def _whole_product(found: re.Match[str]) -> None:
    equal(found[1])


@claim(rf"({NUMBER}) is (\d+ ÷ \d+)\.")
def _by_a_power(found: re.Match[str]) -> None:
    assert worth(found[1]) == worth(found[2])
    assert re.fullmatch(r"\d+ ÷ 10+", found[2])


@claim(r"((?:10+ × )+10+ = (10+)): divide the whole-number answer by (10+)\.")
def _powers(found: re.Match[str]) -> None:
    equal(found[1])
    assert found[2] == found[3]


@claim(r"Set out (\d+) × (\d+): the digit under the ones\.")
def _set_out(found: re.Match[str]) -> None:
    assert len(found[2]) == 1 < len(found[1])


@claim(r"Set out (\d+) × (\d+) on one line, with a line below\.")
def _set_out_on_one_line(found: re.Match[str]) -> None:
    _set_out(found)


@claim(rf"Set out {NUMBER} × {NUMBER} on one line(?:, with a line below)?\.")
def _set_out_as_they_are(found: re.Match[str]) -> None:
    """What is multiplied is said in the next sentence."""


@claim(r"Leave points aside and multiply (\d+) × (\d+)\.")
def _points_aside(found: re.Match[str]) -> None:
    _set_out(found)


@claim(
    rf"Leave points aside and multiply (\d+) × (\d+), by the ({AMOUNT}(?:, then by the {AMOUNT})*)"
    r"\."
)
def _points_aside_in_turn(found: re.Match[str]) -> None:
    _set_out_long(found)
    parts = [amount(part) for part in found[3].split(", then by the ")]
    assert parts in (sorted(parts), sorted(parts, reverse=True))
    assert sum(parts) == int(found[2])


@claim(r"Each row ends under the digit that it is made by\.")
def _ends_under_its_digit(found: re.Match[str]) -> None:
    """Seen of the squares in tests/generator/test_lands_multiplication.py."""


@claim(rf"Now the {_A}: the row ends under the (\d)\.")
def _row_ends(found: re.Match[str]) -> None:
    assert found[1].split()[0] == found[2]


@claim(r"The factors have (\d+) decimal places? together, and so has the answer\.")
def _places_together(found: re.Match[str]) -> None:
    assert ("places" in found[0]) is (found[1] != "1")


@claim(r"Set out (\d+) × (\d+)\.")
def _set_out_long(found: re.Match[str]) -> None:
    assert 1 < len(found[2]) <= len(found[1])


@claim(rf"Multiply by the ({AMOUNT}(?:, then by the {AMOUNT})*)\.")
def _in_turn(found: re.Match[str]) -> None:
    parts = [amount(part) for part in found[1].split(", then by the ")]
    assert parts in (sorted(parts), sorted(parts, reverse=True))


@claim(rf"Now the {_A}\.")
def _next_row(found: re.Match[str]) -> None:
    assert amount(found[1]) >= 10


@claim(
    r"Begin the row with (a nought: no ones|2 noughts: no ones and no tens|(\d+) noughts: no "
    r"ones, and so on)\."
)
def _begin(found: re.Match[str]) -> None:
    assert found[2] is None or int(found[2]) > 2


@claim(r"Add the (\d+) rows\.")
def _rows(found: re.Match[str]) -> None:
    assert int(found[1]) > 1


@claim(r"Leave the (nought|(\d+) noughts) of (\d+) aside\.")
def _aside(found: re.Match[str]) -> None:
    assert len(found[3]) - len(found[3].rstrip("0")) == int(found[2] or 1)


@claim(r"Put (the nought|the (\d+) noughts) back\.")
def _back(found: re.Match[str]) -> None:
    assert found[2] is None or int(found[2]) > 1


@claim(rf"(\d+) ([×÷]) (10+): {_A} (becomes?) {_A}, so ({NUMBER})\.")
def _made(found: re.Match[str]) -> None:
    whole, sign, power, before, verb, after, answer = found.groups()
    start, end = changed(before, verb, after)
    factor = Fraction(int(power)) if sign == "×" else Fraction(1, int(power))
    assert start == int(whole)
    assert end == Fraction(answer) == start * factor


@claim(rf"0 [×÷] (10+) is still 0(?:: ({NUMBER}))?\.")
def _still_nought(found: re.Match[str]) -> None:
    assert Fraction(found[2] or 0) == 0


@claim(
    rf"(?:The nought at the end is|The (\d+) noughts at the end are) not needed: ({NUMBER}) = "
    rf"({NUMBER})\."
)
def _not_needed(found: re.Match[str]) -> None:
    assert Fraction(found[2]) == Fraction(found[3])
    written, kept = (len(text.partition(".")[2]) for text in (found[2], found[3]))
    assert written - kept == int(found[1] or 1)


# From a known fact.


@claim(r"Begin with what is known: (\d+ [×÷] \d+(?: × \d+)? = \d+)\.")
def _known(found: re.Match[str]) -> None:
    equal(found[1])


@claim(
    rf"({NUMBER}) is (\d+) ÷ (10+), so (?:divide the answer by (10+) too|"
    rf"it goes in (10+) times as often): ({NUMBER} ÷ {NUMBER} = {NUMBER})\."
)
def _scaled_fact(found: re.Match[str]) -> None:
    smaller, whole, power, dividend, divisor, said = found.groups()
    assert Fraction(smaller) * int(power) == int(whole)
    assert (dividend or divisor) == power
    first, second = said.partition(" = ")[0].split(" ÷ ")
    assert smaller == (first if dividend else second)
    equal(said)


# What is missing.

GAP: Final = "\N{WHITE SQUARE}"
CALCULATED: Final = rf"[\d.() +−×÷/{GAP}]+"


@claim(
    rf"(?:One digit is missing: the {_COLUMN} digit of the \w+ number|"
    r"Set it out with its answer, and leave the gap|"
    r"Work it out, and read the missing digit off the answer|"
    r"See how far each digit has moved|"
    r"First multiply (?:by )?the digits you can see|The missing digit must make the rest|"
    r"The answer times the second number(?:, plus what is left over,)? makes what is divided|"
    rf"Nothing else stands in the {_COLUMN})\."
)
def _what_to_do(found: re.Match[str]) -> None:
    """Nothing is claimed of a number."""


@claim(r"Which digit(?: fits|, multiplied by the rest, makes the answer)\?")
def _which_digit(found: re.Match[str]) -> None:
    """Nothing is claimed of a number."""


@claim(rf"Count up to ({NUMBER}): ((?:{NUMBER} × {NUMBER} = {NUMBER}(?:, )?)+)\.")
def _counted_up(found: re.Match[str]) -> None:
    multiples = found[2].split(", ")
    for multiple in multiples:
        equal(multiple)
    assert worth(multiples[-1].split(" = ")[1]) == worth(found[1])
    first, *rest = [worth(multiple.split(" × ")[0]) for multiple in multiples]
    unit = rest[0] - first if rest else first
    assert all(later - before == unit for before, later in zip((first, *rest), rest, strict=False))


@claim(rf"Nothing is left to make: (0 × {NUMBER} = 0)\.")
def _nothing_left(found: re.Match[str]) -> None:
    equal(found[1])


@claim(rf"Adding undoes subtracting: ({CALCULATED} = {NUMBER})\.")
def _turned_round(found: re.Match[str]) -> None:
    left, right = found[1].split(" = ")
    fitting = [d for d in "0123456789" if worth(left.replace(GAP, d)) == worth(right)]
    assert len(fitting) == 1


_LEFT: Final = "plus what is left over, makes what is divided"
INVERSES: Final = {
    "Subtracting undoes adding": "−",
    "Adding undoes subtracting": "+",
    "What is left and what is taken away make the first number": "−",
    "Dividing undoes multiplying": "÷",
    "Multiplying undoes dividing": "×",
    "The answer times the missing number makes what is divided": "÷",
    "The answer times the second number makes what is divided": "÷",
    f"The answer times the missing number, {_LEFT}": "÷",
    f"The answer times the second number, {_LEFT}": "÷",
}
"""The sign of the way back that a sentence gives reasons for."""


@claim(
    rf"({'|'.join(INVERSES)}): the (?:missing|first|second|third) number is (?:about )?"
    rf"({CALCULATED})\."
)
def _inverse(found: re.Match[str]) -> None:
    assert INVERSES[found[1]] in found[2]
    # What is left over is taken from the dividend first: (432 − 2) ÷ 86.
    assert found[1].endswith(_LEFT) is (re.search(r"\(.+ − .+\) ÷", found[2]) is not None)


@claim(
    rf"The ({_UNIT}) digit of the (?:first|second|third|fourth|fifth|sixth) number is (\d)\."
    rf"|The ({_UNIT}) digit of the answer is (\d)\.|The missing number is ({NUMBER})\."
)
def _what_was_missing(found: re.Match[str]) -> None:
    """Checked against the question by whoever has it."""


@claim(rf"Check: ({CALCULATED}) ([=≈]) ({NUMBER}|{NUMBER} r {NUMBER}|(?:\d+ )?\d+/\d+)\.")
def _checked(found: re.Match[str]) -> None:
    asked, sign, answer = found.groups()
    if sign == "≈":
        places = len(answer.partition(".")[2])
        assert 2 * abs(worth(asked) - value(answer)) <= Fraction(1, 10**places)
    elif " r " in answer:
        dividend, divisor = map(Fraction, asked.split(" ÷ "))
        quotient, left = map(Fraction, answer.split(" r "))
        assert quotient * divisor + left == dividend
        assert 0 < left < divisor
    else:
        assert worth(asked) == value(answer)


@claim(
    rf"(?:Without the gap|The digits that are there give|Together the others make):? "
    rf"({CALCULATED} = {NUMBER})\."
)
def _of_the_others(found: re.Match[str]) -> None:
    equal(found[1])


@claim(rf"Without the gap: ([^:]+ = {AMOUNT})\.")
def _without_the_gap(found: re.Match[str]) -> None:
    equal(found[1])


@claim(rf"The answer has {_A} here\.")
def _has(found: re.Match[str]) -> None:
    assert amount(found[1]) >= 0


@claim(
    rf"The answer's digit here is (\d)(?:, and {_A} end in (\d)\.|\. Count on from {_A} to the "
    rf"next number that ends in (\d): {_A}\.)"
)
def _ends_in(found: re.Match[str]) -> None:
    digit, has, ends_already, start, ends, end = found.groups()
    assert digit in (ends_already, ends)
    if has is not None:
        assert has.split()[0].endswith(digit)
        return
    first, last = int(start.split()[0]), int(end.split()[0])
    assert last == next(n for n in range(first + 1, first + 11) if n % 10 == int(digit))


@claim(rf"({AMOUNT} − {AMOUNT} = {AMOUNT}): write (\d) in the gap\.")
def _in_the_gap(found: re.Match[str]) -> None:
    equal(found[1])
    assert found[1].split(" = ")[1].split()[0] == found[2]


@claim(
    rf"([^:;()]+ [+] [^:;()]+ = [^:;,()]+): "
    rf"(?:nothing is carried|carry (\d+) to the {_COLUMN})\."
)
def _for_its_carry(found: re.Match[str]) -> None:
    said, carried, to = found.groups()
    equal(said)
    if carried is None:
        assert int(said.split(" = ")[-1].split()[0]) < 10
    else:
        assert said.split(" = ")[-1].startswith(f"{carried} ")
        assert place(said.split(" = ")[-1].split(" and ")[0].split(" ", 1)[1]) == place(to)


@claim(rf"(?:Only {_A}(?: carried)?|No {_COLUMN}) in this column: nothing is carried\.")
def _nothing_carried(found: re.Match[str]) -> None:
    assert found[1] is None or int(found[1].split()[0]) < 10


@claim(
    rf"({NUMBER} [+−×] {NUMBER}(?: \+ {NUMBER})* = {NUMBER})"
    rf"(?: is left|: the {_COLUMN} digit must make this)?\."
)
def _on_a_line(found: re.Match[str]) -> None:
    equal(found[1])


@claim(rf"({NUMBER} × {NUMBER}) = ({NUMBER}), about ({NUMBER})\.")
def _about(found: re.Match[str]) -> None:
    assert worth(found[1]) == Fraction(found[2])


@claim(
    rf"(?:Build it up from multiples of ({NUMBER}): )?({NUMBER} × ({NUMBER}) = ({NUMBER}))\."
    rf"(?: Stop there: ({NUMBER} × {NUMBER} = ({NUMBER})) is more than ({NUMBER})\.)?"
)
def _built_up(found: re.Match[str]) -> None:
    of, said, by, share, more, too_much, rest = found.groups()
    equal(said)
    assert of in (None, by)
    if more is not None:
        equal(more)
        assert Fraction(share) <= Fraction(rest) < Fraction(too_much)


@claim(rf"So ({NUMBER} ÷ {NUMBER} = {NUMBER})\.")
def _so(found: re.Match[str]) -> None:
    equal(found[1])


@claim(rf"(\d+/\d+ × {NUMBER} = {NUMBER})\.")
def _part_of(found: re.Match[str]) -> None:
    equal(found[1])


@claim(
    rf"(\d+ \d+/\d+|\d+/\d+) (?:=|is) (\d+/\d+|\d+ ÷ \d+), "
    rf"so (\d+) times the number is ({NUMBER} × \d+ = {NUMBER})\."
)
def _as_one_fraction(found: re.Match[str]) -> None:
    mixed, fraction, over, said = found.groups()
    assert value(mixed) == worth(fraction)
    assert fraction.startswith(over)
    equal(said)


@claim(r"Each digit has moved (\d) columns? to the (?:left|right), as by (10+)\.")
def _has_moved(found: re.Match[str]) -> None:
    assert len(found[2]) - 1 == int(found[1])


# Dividing.


@claim(
    rf"Multiply both numbers by (10+), and the answer stays the same: ({NUMBER}) ÷ "
    rf"({NUMBER}) = ({NUMBER}) ÷ (\d+)\."
)
def _scaled(found: re.Match[str]) -> None:
    power, first, second, larger, whole = found.groups()
    assert Fraction(first) * int(power) == Fraction(larger)
    assert Fraction(second) * int(power) == int(whole)


@claim(rf"Set the division out: ({NUMBER}) inside, (\d+) outside\.")
def _half_box(found: re.Match[str]) -> None:
    assert int(found[2])


@claim(
    rf"{_A} (is|are) less than {_A}: (?:no {_COLUMN} in the answer|write 0)(?:, carry (\d+) to "
    rf"the {_COLUMN})?\."
)
def _too_few(found: re.Match[str]) -> None:
    held, verb, divisor, column, carried, to = found.groups()
    less(held, verb, divisor)
    if column is not None:
        assert place(column) == place(held.split(" ", 1)[1])
    if carried is not None:
        assert held.startswith(f"{carried} ")
        assert place(to) == place(held.split(" ", 1)[1]) - 1


@claim(
    rf"{_A} ÷ (\d+) = {_A}(?: \((\d+) × (\d+) = (\d+)\))?(?:, {_A} left over)?: "
    rf"write (\d+|nothing)(?:, carry (\d+) to the {_COLUMN})?\."
)
def _shared(found: re.Match[str]) -> None:
    held, divisor, share, first, second, multiple, left, wrote, carried, to = found.groups()
    over = amount(left) if left else Fraction(0)
    assert amount(held) == amount(share) * int(divisor) + over
    unit = Fraction(10) ** place(held.split(" ", 1)[1])
    assert 0 <= over < int(divisor) * unit
    assert wrote == share.split()[0] or (wrote == "nothing" and not amount(share))
    if first is not None:
        assert int(first) * int(second) == int(multiple)
        assert (first, second) == (share.split()[0], divisor)
    if carried is not None:
        assert left is not None
        assert left.startswith(f"{carried} ")
        assert Fraction(10) ** place(to) * 10 == unit


@claim(rf"{_A} and {_A} are {_A}\.")
def _together(found: re.Match[str]) -> None:
    assert amount(found[1]) + amount(found[2]) == amount(found[3])


@claim(rf"{_A} left over\.")
def _over(found: re.Match[str]) -> None:
    assert amount(found[1])


@claim(rf"Write a nought in the {_COLUMN}(?:: {_A} (becomes?) {_A})?\.")
def _one_more_nought(found: re.Match[str]) -> None:
    column, before, verb, after = found.groups()
    if before is not None:
        start, end = changed(before, verb, after)
        assert start == end
        assert place(after.split(" ", 1)[1]) == place(column)


@claim(
    rf"(?:{_A} (?:is|are)|({NUMBER}) is) left over(?: from a number multiplied by (10+): "
    rf"({NUMBER} ÷ 10+ = ({NUMBER})))?\."
)
def _remains(found: re.Match[str]) -> None:
    left = amount(found[1]) if found[1] else Fraction(found[2])
    assert left
    if found[4]:
        equal(found[4])
        assert Fraction(found[5]) * int(found[3]) == left


@claim(rf"Write remainder ({NUMBER})\.")
def _write_remainder(found: re.Match[str]) -> None:
    assert Fraction(found[1])


@claim(rf"(?:{_A} (?:is|are)|({NUMBER}) is) left over: ({NUMBER}) ÷ (\d+) = ([\d/ =]+)\.")
def _as_a_fraction(found: re.Match[str]) -> None:
    left = amount(found[1]) if found[1] else Fraction(found[2])
    assert left == Fraction(found[3])
    assert {value(side) for side in found[5].split(" = ")} == {left / int(found[4])}


@claim(r"Write (\d+)/(\d+)\.")
def _write_fraction(found: re.Match[str]) -> None:
    part = Fraction(int(found[1]), int(found[2]))
    assert (str(part.numerator), str(part.denominator)) == found.groups()
    assert part < 1


# Rounding.


@claim(
    rf"The {_COLUMN} digit is (\d): "
    r"(?:(5 or more), so round up|less than 5, so the last digit kept stays as it is)\."
)
def _decides(found: re.Match[str]) -> None:
    assert (int(found[2]) >= 5) is (found[3] is not None)


@claim(rf"To (?:the nearest whole number|(\d+) decimal places?), the answer is ({NUMBER})\.")
def _rounded_answer(found: re.Match[str]) -> None:
    assert len(found[2].partition(".")[2]) == int(found[1] or 0)


@claim(rf"Round to the {_COLUMN}: the digit to look at is the next one, the {_COLUMN}\.")
def _look(found: re.Match[str]) -> None:
    assert place(found[1]) == place(found[2]) + 1


@claim(rf"The {_COLUMN} digit is (\d): less than 5, so the {_A} stays?\.")
def _stays(found: re.Match[str]) -> None:
    assert int(found[2]) < 5
    assert place(found[3].split(" ", 1)[1]) == place(found[1]) + 1
    assert found[0].endswith("stays.") is found[3].startswith("1 ")


@claim(rf"{_A} (becomes?) {_A}\.")
def _becomes(found: re.Match[str]) -> None:
    changed(*found.groups())


@claim(
    rf"To (?:the nearest (?:whole number|ten|hundred|thousand)|(\d+) decimal places?), "
    rf"({NUMBER}) is about ({NUMBER})\."
)
def _is_about(found: re.Match[str]) -> None:
    nearest = re.search(r"nearest (ten|hundred|thousand)", found[0])
    unit = Fraction(10) ** (UNITS[nearest[1]] if nearest else -int(found[1] or 0))
    assert 2 * abs(Fraction(found[2]) - Fraction(found[3])) <= unit
    assert Fraction(found[3]) % unit == 0


# Moving digits.


@claim(rf"Set ({NUMBER}) out in its columns\.")
def _in_columns(found: re.Match[str]) -> None:
    assert Fraction(found[1]) >= 0


@claim(
    r"[×÷] (10+): each digit moves (\d) columns? to the (left|right), "
    r"and the point stays where it is\."
)
def _moves(found: re.Match[str]) -> None:
    assert len(found[1]) - 1 == int(found[2])
    assert (found[0][0] == "×") is (found[3] == "left")


@claim(rf"{_A} (becomes?) {_A}: no nought is needed at the end\.")
def _no_nought(found: re.Match[str]) -> None:
    before, after = changed(*found.groups())
    assert before == after == 0


@claim(rf"Write (a nought|noughts) in the empty ((?:{_UNIT}|, | and )+) column(s?)\.")
def _fills(found: re.Match[str]) -> None:
    names = re.split(r", | and ", found[2])
    assert all(place(name) in UNITS.values() for name in names)
    assert (found[1] == "a nought") is (len(names) == 1) is (not found[3])


# Ordering and comparing.


def _digit_of(number: str, column: int) -> int:
    return int(Fraction(number) / Fraction(10) ** column) % 10


@claim(
    rf"(\w[\w -]+): (\d(?: for {NUMBER})?(?:, \d(?: for {NUMBER})?)*(?: and \d(?: for "
    rf"{NUMBER})?)?)\."
)
def _digits(found: re.Match[str]) -> None:
    column = place(found[1].lower())
    for part in re.split(r", | and ", found[2]):
        digit, _, number = part.partition(" for ")
        assert not number or _digit_of(number, column) == int(digit)


@claim(r"All the same: look one column further to the right\.")
def _same(found: re.Match[str]) -> None:
    """Checked against the digits by whoever has the question."""


@claim(
    rf"((?:{NUMBER}|, | and |, and )+) are still alike(?:: look one column further to the right)?\."
)
def _alike(found: re.Match[str]) -> None:
    assert len(re.findall(NUMBER, found[1])) > 1


@claim(rf"In order, smallest first: ({NUMBER}(?:, {NUMBER})*)\.")
def _in_order(found: re.Match[str]) -> None:
    sizes = [Fraction(number) for number in found[1].split(", ")]
    assert sizes == sorted(sizes)


@claim(rf"({NUMBER}) is (equal to|less than|greater than) ({NUMBER})\.")
def _compared(found: re.Match[str]) -> None:
    first, second = Fraction(found[1]), Fraction(found[3])
    assert {"equal to": first == second, "less than": first < second}.get(found[2], first > second)
