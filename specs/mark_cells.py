"""A cell of a mark sheet: an answer, a tick, a cross or nothing; and why another cannot be read."""

import re
from dataclasses import dataclass
from typing import Final

from specs.languages.saying import Saying, say
from specs.numerals import Convention, tidied
from specs.problems import listed, quoted, write
from specs.replies import A_NUMBER, NUMBER, ORDER, SIGN, Asked, Reply, read_answer, read_order

# Words for the pages' languages, whichever a sheet is in: none means another thing in another.

ABSENT: Final = frozenset({"absent", "abs", "away", "ill", "abwesend", "fehlt", "krank"})
"""What a row may say of a pupil who was not there."""

TICKS: Final = frozenset(
    {
        *("✓", "✔", "☑", "✅", "√", "y", "yes", "tick", "right", "correct", "true"),
        *("j", "ja", "richtig", "wahr"),
    }
)
CROSSES: Final = frozenset(
    {
        *("✗", "✘", "☒", "❌", "×", "x", "n", "no", "cross", "wrong", "incorrect", "false"),
        *("nein", "falsch"),
    }
)
NOTHING: Final = ABSENT | frozenset(
    {
        *("", "-", "--", "---", "–", "—", "―", "‒", "−", ".", "..", "...", "…"),
        *("n/a", "na", "missing", "blank", "none", "not tried", "no answer"),
        *("leer", "nichts", "kein", "keine", "keine antwort"),
    }
)
_MAY_HOLD: Final = {
    NUMBER: say("the answer, y, n or nothing"),
    SIGN: say("<, >, smaller, larger or equal, y, n or nothing"),
    ORDER: say("the numbers in order with spaces between them, y, n or nothing"),
}
"""What a cell may hold, by the kind of its question's answer."""

_MONTHS: Final = "jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec"
_DATE: Final = re.compile(
    rf"[0-9]{{1,4}}[-/. ](?:{_MONTHS})[a-z]*\.?(?:[-/. ][0-9]{{2,4}})?"
    rf"|(?:{_MONTHS})[a-z]*\.?[-/. ][0-9]{{1,4}}"
    r"|[0-9]{1,2}([-/.])[0-9]{1,2}\1[0-9]{2,4}|[0-9]{4}([-/.])[0-9]{1,2}\2[0-9]{1,2}"
    r"(?:[ t]00:00(?::00)?)?",
    re.IGNORECASE,
)
_SHORTENED: Final = re.compile(r"-?[0-9]+(?:[.,][0-9]+)?e[-+]?[0-9]+", re.IGNORECASE)
_RAISED: Final = re.compile("[⁰¹²³⁴-⁹₀-₉]")


@dataclass(frozen=True, slots=True)
class Entry:
    """A cell of the mark sheet: an answer with the ways to read it, or a tick or cross.

    ``passed_over`` are ways to read it that other cells speak against.
    """

    text: str
    replies: tuple[Reply, ...] = ()
    ticked: bool | None = None
    passed_over: tuple[Reply, ...] = ()


def read_entry(
    text: str, asked: Asked = A_NUMBER, convention: Convention | None = None
) -> Entry | None:
    """What a cell holds; None when it cannot be read. An empty one has no answer and no tick.

    ``convention`` is the decimal sign that other cells show.
    """
    plain = text.strip().strip("\ufe0f").strip()
    word = plain.casefold().rstrip("\ufe0f")
    if word in NOTHING:
        return Entry("")
    if word in TICKS or word in CROSSES:
        return Entry(plain, ticked=word in TICKS)
    replies = read_answer(plain, asked, convention)
    if convention is not None and asked.kind == NUMBER and "," in plain:
        return Entry(plain, replies[:1], passed_over=replies[1:]) if replies else None
    return Entry(plain, replies) if replies else None


def why_unread(text: str, asked: Asked) -> tuple[Saying, Saying]:
    """Of a cell that cannot be read: what is wrong with it, and what to write instead."""
    plain, shown = tidied(text), quoted(text.strip())
    again = _MAY_HOLD[asked.kind]
    if _DATE.fullmatch(plain):
        what = say("{words} is a date, which a spreadsheet makes of 3/4", words=shown)
        return what, say("format the cell as text first, then write {words}", words=again)
    if _SHORTENED.fullmatch(plain):
        what = say("{words} is a number that a spreadsheet has shortened", words=shown)
        return what, say("write {words}, in full", words=again)
    if asked.kind == NUMBER and _RAISED.search(text):
        return say("{words} has raised or lowered digits", words=shown), write(again)
    if asked.kind == ORDER and asked.numbers:
        found = {len(reply.order) for reply in read_order(text)}
        if len(found) == 1 and found != {len(asked.numbers)}:
            what = say(
                "{words} has {count} numbers, and {wanted} are to be put in order",
                words=shown,
                count=found.pop(),
                wanted=len(asked.numbers),
            )
            return what, write(again)
    return say("{words} is no answer, tick or cross", words=shown), write(again)


def doubts(entry: Entry, asked: Asked) -> tuple[Saying, Saying] | None:
    """What a teacher should know of an answer that was read; None where nothing is in doubt.

    A comma that may stand before tenths or between thousands is doubted where it decides whether
    the answer is right; a wrong unit, and numbers in order that are not those asked, are named.
    """
    if asked.is_right is None or not entry.replies:
        return None
    shown = quoted(entry.text)
    right = asked.right_in(entry.replies)
    if asked.kind == ORDER:
        if asked.numbers and any(
            sorted(reply.order) != sorted(asked.numbers) for reply in entry.replies
        ):
            return say("{words} has other numbers than the question", words=shown), _WRONG
        if right and not all(map(asked.is_right, entry.replies)):
            return say("{words} can be read in several ways", words=shown), _SPACED
        return None
    if asked.kind != NUMBER:
        return None
    ways = (*entry.replies, *entry.passed_over)
    if len(ways) > 1 and asked.right_in(ways):
        sizes = listed(dict.fromkeys(_plainly(reply) for reply in ways))
        if right and not all(map(asked.is_right, entry.replies)):
            return (
                say("{words} may be {sizes}", words=shown, sizes=sizes),
                say("it is counted as right; write the number with a point where it is not"),
            )
        if not right:
            return (
                say(
                    "{words} may be {sizes}, and the cells around it speak for {size}",
                    words=shown,
                    sizes=sizes,
                    size=_plainly(ways[0]),
                ),
                say("it is counted as wrong; write the number with a point where it is not"),
            )
    if right:
        return None
    wrong = next((reply.wrong_unit for reply in entry.replies if reply.wrong_unit), "")
    bare = read_answer(entry.text, asked.without_unit)
    if wrong or (asked.unit and asked.right_in(bare)):
        asks = listed([unit for unit in (asked.unit, asked.left_unit) if unit], "and")
        what = say("{words} has a wrong unit, as the answer is in {units}", words=shown, units=asks)
        return what, _WRONG
    return None


_WRONG: Final = say("it is counted as wrong")
_SPACED: Final = say("it is counted as right; put semicolons between the numbers where it is not")


def _plainly(reply: Reply) -> str:
    """A size in digits with a point, as far as its tenths end soon."""
    size = reply.value
    for places in range(13):
        scaled = size * 10**places
        if scaled.denominator == 1:
            digits = str(abs(scaled.numerator)).rjust(places + 1, "0")
            sign = "-" if size < 0 else ""
            whole, part = digits[: len(digits) - places], digits[len(digits) - places :]
            return f"{sign}{whole}.{part}" if part else f"{sign}{whole}"
    return str(size)
