"""Words with what they were made of, so that another language can say the same.

``say("Exchange {one} for {ten}.", one=..., ten=...)`` is the English sentence, a text like any
other. It also knows its pattern and what stands in the gaps, which may be sayings themselves: a
language puts its own pattern in place of the English one, and each gap in its own words.
"""

from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import Any, Final

MONEY: Final = "money"
"""What sums in a land's own currency are about; how it is written, the land knows."""

JOINED: Final = ""
"""The pattern of sayings that merely follow one another: their gaps, in order."""


class Saying(str):
    """A text in English with its pattern and the values of its gaps.

    ``many`` is the pattern for any number of things but one, "" where nothing is counted, and
    ``number`` how many there are. ``about`` tells alike patterns apart: "O" for ones.
    """

    __slots__ = ("about", "many", "number", "pattern", "values")

    pattern: str
    many: str
    number: int
    about: str
    values: Mapping[str, Any]

    def __new__(
        cls,
        pattern: str,
        values: Mapping[str, Any],
        many: str = "",
        number: int = 1,
        about: str = "",
    ) -> "Saying":
        """The text that the pattern gives in English."""
        if pattern == JOINED:
            text = "".join(map(str, values.values()))
        else:
            text = (many if many and number != 1 else pattern).format(**values)
        made = super().__new__(cls, text)
        made.pattern, made.values = pattern, values
        made.many, made.number, made.about = many, number, about
        return made

    @property
    def is_said(self) -> bool:
        """Whether a language may have other words for it: not where mere texts are joined."""
        values = self.values.values()
        return self.pattern != JOINED or any(isinstance(v, Saying) and v.is_said for v in values)

    def with_values(self, changed: Callable[[str], str]) -> "Saying":
        """The same saying with each text that stands in its gaps changed."""
        values = {name: changed(v) if isinstance(v, str) else v for name, v in self.values.items()}
        return type(self)(self.pattern, values, self.many, self.number, self.about)

    def __getnewargs__(self) -> tuple[Any, ...]:
        """What makes it again in another process."""
        return self.pattern, self.values, self.many, self.number, self.about

    def __add__(self, more: str) -> "Saying":
        """This saying and what follows it at once."""
        return joined((self, more), between="")

    def __radd__(self, before: str) -> "Saying":
        """What stands before this saying at once."""
        return joined((before, self), between="")


NOTHING: Final = Saying("", {})
"""Where nothing is to be said."""


def say(pattern: str, /, **values: Any) -> Saying:
    """A saying of that English pattern; its gaps are named: ``{ten}``."""
    return Saying(pattern, values)


def say_of(about: str, pattern: str, /, **values: Any) -> Saying:
    """A saying that would be mistaken for another without what it is about: ``"column", "O"``."""
    return Saying(pattern, values, about=about)


def several(one: str, many: str, count: int, /, **values: Any) -> Saying:
    """A saying that counts: ``several("{count} tenth", "{count} tenths", 3)``."""
    return Saying(one, {"count": count, **values}, many, count)


def counted(one: str, many: str) -> tuple[str, str]:
    """The two patterns of a saying that counts, for a table: ``several(*counted(…), 3)``."""
    return one, many


def grouped(number: int) -> str:
    """A whole number from 0 on with its digits in groups of three: ``60,000``."""
    more, three = divmod(number, 1000)
    if not more:
        return str(number)
    return say_of("digits in threes", "{more},{three}", more=grouped(more), three=f"{three:03}")


def money(amount: str) -> Saying:
    """A sum in the currency of whichever land the pages are for: ``£3.40``."""
    return Saying("£{amount}", {"amount": amount}, about=MONEY)


def joined(parts: Iterable[str], between: str = " ") -> Saying:
    """Sayings, and texts that are the same in every language, one after another.

    Empty ones are passed over.
    """
    found: list[str] = []
    for part in parts:
        if part:
            found.extend((between, part) if between and found else (part,))
    return Saying(JOINED, {str(at): part for at, part in enumerate(found)})


def all_of(parts: Sequence[str]) -> str:
    """Several in a list: ``tenths, hundredths and thousandths``."""
    if len(parts) < 2:
        return parts[0] if parts else ""
    return say("{these} and {last}", these=joined(parts[:-1], between=", "), last=parts[-1])
