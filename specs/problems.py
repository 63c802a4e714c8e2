"""What is wrong with a spec, said so that the teacher can put it right."""

import difflib
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace
from functools import lru_cache
from typing import TYPE_CHECKING, Final, overload

from specs.languages.saying import Saying, joined, say

if TYPE_CHECKING:
    from specs.spec import Spec

LONGEST_QUOTE: Final = 40

THIS: Final = say("this")
"""What is being read, where it has no name."""


@dataclass(frozen=True, slots=True, order=True)
class Problem:
    """One problem: where it is, what is wrong, and what to write instead.

    The last two are sayings. Words from the file that cannot be printed stand in it as their codes.
    """

    file: str
    line: int
    what: Saying
    instead: Saying

    def __post_init__(self) -> None:
        object.__setattr__(self, "what", printable(self.what))
        object.__setattr__(self, "instead", printable(self.instead))

    def __str__(self) -> str:
        return f"{printable(self.file)}:{self.line}: {self.what}; {self.instead}"


class SpecError(Exception):
    """A spec that cannot be used, with every problem found in it, in line order.

    ``so_far`` is the spec as far as it could be read, its rungs above all, so that what else is
    wrong with those can be said at once; None where nothing could.
    """

    def __init__(self, problems: list[Problem], so_far: "Spec | None" = None) -> None:
        self.problems = tuple(sorted(problems))
        self.so_far = so_far
        super().__init__("\n".join(map(str, self.problems)))


@dataclass(frozen=True, slots=True)
class Reading:
    """A file being read: gathers its problems and knows what is being read just now.

    ``subject`` names that in messages (``'count' in 'carries'``), ``line`` is where its word
    stands (0: nowhere). Readings made by ``about`` gather into the same list.

    ``mended`` are lines that were broken, of which all has been told; ``lost`` are those of them
    that were left out or may stand in the wrong place, each with its words, which are not to be
    missed elsewhere.
    """

    file: str
    subject: Saying = THIS
    line: int = 0
    problems: list[Problem] = field(default_factory=list)
    mended: set[int] = field(default_factory=set)
    lost: dict[int, frozenset[str]] = field(default_factory=dict)

    def problem(self, line: int, what: Saying, instead: Saying) -> None:
        """Note one problem."""
        self.problems.append(Problem(self.file, line, what, instead))

    def missed(self, name: str, line: int, what: Saying, instead: Saying) -> None:
        """Note that a word is missing, unless it may have stood on a line left out."""
        if not any(name in words for words in self.lost.values()):
            self.problem(line, what, instead)

    def empty(self, line: int, what: Saying, instead: Saying) -> None:
        """Note that there is nothing below a line, unless the line below it was left out."""
        if line + 1 not in self.lost:
            self.problem(line, what, instead)

    def about(self, name: str, line: int = 0) -> "Reading":
        """The same reading with its attention on one word of the spec."""
        word = joined((quoted(name),))
        if self.subject != THIS:
            word = say("{word} in {subject}", word=word, subject=self.subject)
        return replace(self, subject=word, line=line)

    def alone(self) -> "Reading":
        """The same reading with its attention on nothing: names that follow say where they are."""
        return replace(self, subject=THIS, line=0)

    def trial(self) -> "Reading":
        """A reading whose problems can be thrown away."""
        return replace(self, problems=[])


def quoted(text: str) -> str:
    """Text from the file as messages show it: in quotes, short, and safe to print."""
    shown = text if len(text) <= LONGEST_QUOTE else text[: LONGEST_QUOTE - 1] + "…"
    return f"'{printable(shown)}'"


@overload
def printable(text: Saying) -> Saying: ...


@overload
def printable(text: str) -> str: ...


def printable(text: str) -> str:
    r"""The text with the code of each character that has no printed form: ``\x07``.

    Those are control and format characters, spaces but the usual one, halves of a pair, and what
    Unicode has not assigned: a terminal may do anything with them. A saying keeps its pattern.
    """
    if text.isprintable():
        return text
    if isinstance(text, Saying):
        return text.with_values(printable)
    return "".join(c if c.isprintable() else c.encode("unicode_escape").decode() for c in text)


def listed(words: Iterable[str], joined_by: str = "or") -> Saying:
    """Words as a sentence lists them: ``add, subtract or divide``."""
    *first, last = words
    return _LISTS[joined_by](joined(first, ", "), last) if first else joined((last,))


def _or(these: str, last: str) -> Saying:
    return say("{these} or {last}", these=these, last=last)


def _and(these: str, last: str) -> Saying:
    return say("{these} and {last}", these=these, last=last)


_LISTS: Final = {"or": _or, "and": _and}


def cannot_be_opened(word: str, file: str) -> tuple[Saying, Saying]:
    """What to say of a file that a word names and that is not there, or not to be opened."""
    return (
        say("{word} names {file}, which cannot be opened", word=quoted(word), file=quoted(file)),
        say("put that file beside the spec, or correct its name"),
    )


def near_word(text: str, known: Iterable[str]) -> str | None:
    """The known word that was probably meant, or None when none is near."""
    return _nearest(text.strip().lower()[:LONGEST_QUOTE], tuple(known))


@lru_cache(maxsize=1_000)  # what is mistyped once is often mistyped again
def _nearest(tidy: str, known: tuple[str, ...]) -> str | None:
    by_lower = {word.lower(): word for word in known}
    for spelling in (tidy, tidy.replace("_", "-"), tidy.replace("-", "_"), tidy.replace(" ", "-")):
        if spelling in by_lower:
            return by_lower[spelling]
    found = difflib.get_close_matches(tidy, by_lower, n=1)
    return by_lower[found[0]] if found else None


def choose_from(text: str, known: Sequence[str]) -> Saying:
    """What to write instead of an unknown word: the near one, or the whole choice."""
    near = near_word(text, known)
    if near:
        return did_you_mean(near)
    return write(listed(known))


def did_you_mean(word: str) -> Saying:
    """The question whether another word was meant."""
    return say("did you mean {word}?", word=quoted(word))


def write(words: str) -> Saying:
    """What to write instead: a saying, or what stands so in the file in any language."""
    return say("write {words}", words=words)
