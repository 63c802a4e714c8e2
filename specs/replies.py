"""An answer that somebody gives: a number, a quotient and what is left over, a sign, an order."""

import re
import unicodedata
from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field, replace
from fractions import Fraction
from functools import cache
from itertools import islice, product
from typing import Final

from specs.numerals import Convention, sizes, tidied
from specs.units import BEFORE, COUNTED, PERCENT, Unit, unit_named, units

LONGEST: Final = 48
"""The most characters of an answer, with its units: more than any question needs."""

LONGEST_ORDER: Final = 160
MOST_IN_ORDER: Final = 12
_MOST_WAYS: Final = 16
"""The most ways to read one order."""

NUMBER: Final = "number"
SIGN: Final = "sign"
ORDER: Final = "order"
"""What an answer is: a number, a sign between two numbers, or numbers in order."""


@dataclass(frozen=True, slots=True)
class Reply:
    """An answer as given.

    ``value`` is its size, ``left`` a remainder written beside it (86 r 2 has 86 and 2).
    Equality is of size: 3.670 is 3.67. ``text`` is how it was written. Where the answer is
    no number, ``sign`` is "<", ">" or "=", or ``order`` has the sizes of numbers, smallest first
    as whoever answers has them. ``wrong_unit`` is a unit that measures something else than what
    was asked for; the number stands then as it was written.
    """

    value: Fraction = Fraction(0)
    left: Fraction = Fraction(0)
    text: str = field(default="", compare=False)
    sign: str = ""
    order: tuple[Fraction, ...] = ()
    wrong_unit: str = field(default="", compare=False)


@dataclass(frozen=True, slots=True)
class Asked:
    """What is asked of a pupil.

    ``unit`` is that of the answer and ``left_unit`` that of what is left over, "" where none is
    asked for. ``numbers`` are the sizes to be put in order. ``is_right`` says whether a reply is
    right; without it nobody knows.
    """

    kind: str = NUMBER
    unit: str = ""
    left_unit: str = ""
    numbers: tuple[Fraction, ...] = ()
    is_right: Callable[[Reply], bool] | None = None

    @property
    def without_unit(self) -> "Asked":
        """The same, with any unit passed over."""
        return replace(self, unit="", left_unit="")

    def right_in(self, replies: tuple[Reply, ...]) -> bool:
        """Whether one of the ways to read an answer is right."""
        return self.is_right is not None and any(map(self.is_right, replies))


A_NUMBER: Final = Asked()
A_SIGN: Final = Asked(SIGN)
AN_ORDER: Final = Asked(ORDER)


def read_answer(
    text: str, asked: Asked = A_NUMBER, convention: Convention | None = None
) -> tuple[Reply, ...]:
    """The ways to read an answer to what is asked, the likeliest first; none when it is none."""
    match asked.kind:
        case "sign":
            return read_sign(text)
        case "order":
            return read_order(text, asked.numbers)
    return read_replies(text, asked, convention)


# A sign

_SPACES: Final = re.compile(r"\s+")
_SIGNS: Final = {
    "<": (
        *("<", "less", "less than", "is less than", "smaller", "smaller than", "is smaller than"),
        *("kleiner", "kleiner als", "ist kleiner als"),
    ),
    ">": (
        *(">", "more", "more than", "is more than", "larger", "larger than", "is larger than"),
        *("greater", "greater than", "is greater than", "bigger", "bigger than"),
        *("größer", "größer als", "ist größer als", "groesser", "groesser als"),
    ),
    "=": (
        *("=", "equal", "equals", "equal to", "is equal to", "same", "the same"),
        *("gleich", "ist gleich"),
    ),
}
_SIGN_OF: Final = {word.casefold(): sign for sign, words in _SIGNS.items() for word in words}


def read_sign(text: str) -> tuple[Reply, ...]:
    """The sign between two numbers: ``<``, or ``smaller``, which a spreadsheet leaves alone."""
    word = _SPACES.sub(" ", unicodedata.normalize("NFKC", text)).strip().strip("\"'").casefold()
    sign = _SIGN_OF.get(word)
    return (Reply(text=text, sign=sign),) if sign else ()


# Numbers in order

_LEFT_OVER: Final = re.compile(r"\s*(?:left over|left|over)$", re.IGNORECASE)
_BETWEEN: Final = re.compile(r" ?[;<>] ?")
_LISTED: Final = re.compile(r" and | und |, |[ ,]")


def read_order(text: str, numbers: tuple[Fraction, ...] = ()) -> tuple[Reply, ...]:
    """The ways to read numbers in order, smallest first.

    Between them stand semicolons, spaces, commas, ``and``, ``<``, or ``>`` from the largest
    down. A comma may also stand in a number: where ``numbers`` are known that are to be put in
    order, those ways count that have just these; failing them, those with as many numbers.
    """
    if len(text) > LONGEST_ORDER:
        return ()
    plain = _bare(text)
    if "<" in plain and ">" in plain:
        return ()
    wanted = Counter(numbers)
    if wanted:
        orders = tuple(dict.fromkeys(islice(_made_of(wanted, plain), _MOST_WAYS)))
        if orders:
            return tuple(Reply(text=text, order=order) for order in orders)
    parts = _parts(plain, len(numbers))
    if not 2 <= len(parts) <= MOST_IN_ORDER or (numbers and len(parts) != len(numbers)):
        return ()
    if ">" in plain:
        parts.reverse()
    ways = product(*map(_sizes_in_order, parts))
    return tuple(Reply(text=text, order=order) for order in islice(ways, _MOST_WAYS))


def _made_of(wanted: Counter[Fraction], plain: str) -> Iterator[tuple[Fraction, ...]]:
    """The ways to take a text apart into just those numbers, each as often as it is wanted."""
    if _BETWEEN.search(plain):
        parts = _BETWEEN.split(plain)
        if ">" in plain:
            parts.reverse()
        if len(parts) == wanted.total():
            yield from _orders([_sizes_in_order(part) for part in parts], wanted)
        return
    breaks = [(found.start(), found.end(), found[0]) for found in _LISTED.finditer(plain)]
    yield from _from(plain, 0, 0, breaks, wanted, set())


def _orders(
    parts: list[tuple[Fraction, ...]], wanted: Counter[Fraction]
) -> Iterator[tuple[Fraction, ...]]:
    if not parts:
        yield ()
        return
    for size in parts[0]:
        if wanted[size]:
            for rest in _orders(parts[1:], wanted - Counter([size])):
                yield (size, *rest)


def _from(
    plain: str,
    start: int,
    at: int,
    breaks: list[tuple[int, int, str]],
    wanted: Counter[Fraction],
    dead: set[tuple[int, frozenset[tuple[Fraction, int]]]],
) -> Iterator[tuple[Fraction, ...]]:
    """The ways to go on at a place: a number ends at a break, or goes on over a comma or gap.

    ``dead`` remembers from where, with which numbers still wanted, there is no way on.
    """
    state = start, frozenset(wanted.items())
    if state in dead:
        return
    found = False
    for upto in range(at, len(breaks) + 1):
        end, following, sign = breaks[upto] if upto < len(breaks) else (len(plain), -1, "")
        for size in _sizes_in_order(plain[start:end]):
            if not wanted[size]:
                continue
            rest = wanted - Counter([size])
            if following < 0 and not rest:
                found = True
                yield (size,)
            elif following >= 0 and rest:
                for further in _from(plain, following, upto + 1, breaks, rest, dead):
                    found = True
                    yield (size, *further)
        if sign not in (" ", ","):  # a number never goes on over these
            break
    if not found:
        dead.add(state)


def _parts(plain: str, wanted: int) -> list[str]:
    """The numbers of an order, taken apart at what stands between them."""
    if _BETWEEN.search(plain):
        return _BETWEEN.split(plain)
    plain = plain.replace(" and ", ", ")
    if ", " in plain:
        return plain.split(", ")
    if " " in plain:
        return plain.split(" ")
    if "." in plain:
        return plain.split(",")
    parts = plain.split(",")
    if not all(part.isdecimal() for part in parts):
        return []
    if wanted and len(parts) == 2 * wanted:  # decimal commas, and commas between
        return [",".join(parts[at : at + 2]) for at in range(0, len(parts), 2)]
    return parts if len(parts) > 2 or wanted == 2 else []


def _sizes_in_order(part: str) -> tuple[Fraction, ...]:
    return tuple(dict.fromkeys(size for size, _ in _amounts(part.strip(), None)))


# A number

_AND_A_PART: Final = re.compile(r"(?<=[0-9]) ?(?:and|\+) ?(?=[0-9]+ ?/ ?[0-9]+$)", re.IGNORECASE)
_REMAINDER: Final = re.compile(
    r"(?P<quotient>.+?),?\s*(?<=[0-9\s,])(?:remainder|rest|rem\.?|r\.?|and)(?![a-z])\s*(?P<left>.+)",
    re.IGNORECASE,
)
_AND: Final = re.compile(r"(.+?) and (.+)", re.IGNORECASE)


def read_replies(
    text: str, asked: Asked = A_NUMBER, convention: Convention | None = None
) -> tuple[Reply, ...]:
    """The ways to read an answer that is a number: none when it is no answer, two for ``1,234``.

    Takes a point or a comma, gaps or commas between thousands, ``86 r 2``, ``28 4/5``, and units,
    which are converted to those asked for: ``4370 ml``, ``£2.50``, ``250p``, ``4 kg 370 g``.
    """
    if len(text) > LONGEST:
        return ()
    plain = _without_own_units(_bare(text), asked)
    together = _AND.fullmatch(plain)
    if together is not None and asked.unit and not asked.left_unit:
        found = tuple(_reply(text, [one], asked) for one in _compound(" ".join(together.groups())))
        if found:  # 4 kg and 370 g
            return found
    divided = _REMAINDER.fullmatch(plain)
    if divided is None:
        whole = _amounts(plain, convention)
        return tuple(dict.fromkeys(_reply(text, [one], asked) for one in whole))
    both = product(
        _amounts(divided["quotient"].strip(), convention),
        _amounts(divided["left"].strip(), convention),
    )
    return tuple(dict.fromkeys(_reply(text, list(pair), asked) for pair in both))


_Amount = tuple[Fraction, Unit | None]


def _reply(text: str, amounts: list[_Amount], asked: Asked) -> Reply:
    """The reply that one or two amounts make, in the units that are asked for."""
    converted, wrong = [], ""
    for (size, unit), wanted in zip(amounts, (asked.unit, asked.left_unit), strict=False):
        factor = _factor(unit, wanted)
        if factor is None and unit is not None:
            wrong = wrong or unit.name
        converted.append(size * (factor or 1))
    left = converted[1] if len(converted) > 1 else Fraction(0)
    return Reply(converted[0], left, text, wrong_unit=wrong)


def _factor(unit: Unit | None, wanted: str) -> Fraction | None:
    """What a size in a unit is multiplied by to be in the unit wanted; None where it cannot be.

    A number without a unit is taken to be in the one asked for. Where none is asked for, only
    per cent is more than a word.
    """
    if unit is None:
        return Fraction(1)
    known = unit_named(wanted) if wanted else None
    if known is None:
        return unit.size if unit.name == PERCENT else Fraction(1)
    return unit.size / known.size if unit.dimension == known.dimension else None


def _without_own_units(plain: str, asked: Asked) -> str:
    """The text without those of the units asked for that are no measure, and no known count.

    They are words of the teacher's own sentences: ``12 punnets``, or ``1 punnet``.
    """
    for unit in (asked.unit, asked.left_unit):
        if unit and unit_named(unit) is None:
            words = sorted({unit, unit.removesuffix("es"), unit.removesuffix("s")}, key=len)
            either = "|".join(map(re.escape, reversed(words)))
            plain = re.sub(rf"(?<=[0-9]) ?(?:{either})\b", "", plain, flags=re.IGNORECASE)
    return plain


def _bare(text: str) -> str:
    """The text without what stands around an answer: quotation marks, an equals sign, a stop."""
    plain = tidied(text).removeprefix("=").strip().strip("\"'").strip()
    if plain.endswith(".") and plain.count(".") > 1:  # the end of a sentence
        plain = plain[:-1]
    return _LEFT_OVER.sub("", _AND_A_PART.sub(" ", plain))


@cache
def _with_unit() -> re.Pattern[str]:
    words = sorted((word for word in units() if word not in BEFORE), key=lambda w: (-len(w), w))
    after = "|".join(map(re.escape, [*words, *BEFORE]))
    return re.compile(rf"(?P<number>.*?[0-9.]) ?(?P<unit>{after})\.?", re.IGNORECASE)


@cache
def _leading_amount() -> re.Pattern[str]:
    """One amount of several that make one, with its unit: ``4 kg``, ``£4``."""
    behind = "|".join(sorted(map(re.escape, units()), key=lambda w: (-len(w), w)))
    return re.compile(
        rf" ?(?:(?P<sign>[{BEFORE}]) ?(?P<money>[0-9.,]+)(?![0-9.,])"
        rf"|(?P<number>[0-9.,]+) ?(?P<unit>{behind})(?![a-z0-9³²^]))",
        re.IGNORECASE,
    )


_MONEY: Final = re.compile(rf"(?P<minus>-?) ?(?P<sign>[{BEFORE}]) ?(?P<number>[^{BEFORE}]+)")


def _amounts(written: str, convention: Convention | None) -> list[_Amount]:
    """The amounts that a number with its unit may be."""
    money = _MONEY.fullmatch(written)
    if money is not None:
        unit = unit_named(money["sign"])
        found = sizes(money["minus"] + money["number"], convention)
        return [(size, unit) for size in found] or _compound(written)
    behind = _with_unit().fullmatch(written)
    if behind is not None:
        unit = unit_named(behind["unit"])
        found = sizes(behind["number"].strip(), convention)
        return [(size, unit) for size in found] or _compound(written)
    return [(size, None) for size in sizes(written, convention)]


def _compound(written: str) -> list[_Amount]:
    """One amount in two or three units, the larger before the smaller: ``4 kg 370 g``, ``£4 37p``.

    Only the last may have a decimal part, and each is less than one of the unit before it.
    """
    at, total, units_of, last = 0, Fraction(0), [], None
    while at < len(written):
        found = _leading_amount().match(written, at)
        unit = unit_named(found["sign"] or found["unit"]) if found else None
        amount = sizes(found["money"] or found["number"]) if found else ()
        if found is None or unit is None or len(amount) != 1 or unit.dimension == COUNTED:
            return []
        if last is not None and (
            unit.dimension != last.dimension
            or unit.size >= last.size
            or amount[0] * unit.size >= last.size
        ):
            return []
        if found.end() < len(written) and amount[0].denominator != 1:
            return []
        total += amount[0] * unit.size
        units_of.append(unit)
        last, at = unit, found.end()
    if not 2 <= len(units_of) <= 3:
        return []
    return [(total / units_of[0].size, units_of[0])]
