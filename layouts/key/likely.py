"""The words of the key about wrong answers: which are likely, and what a section can show."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from generator.packs.working_out import WorkedItem, WorkedSection
from layouts.planning import typeface
from layouts.planning.type_scale import KEY_WRONG
from layouts.planning.wording import either_of
from specs.languages.saying import Saying, say
from specs.languages.usage import Usage


@dataclass(frozen=True, slots=True)
class Expected:
    """A wrong answer and what it comes from, in words: ``3.1``, ``lined up at the right``."""

    text: str
    reasons: str


def expected(item: WorkedItem) -> Iterator[Expected]:
    """The likely wrong answers, or the one that is shown to be put right."""
    for wrong in item.wrong_answers_to_expect:
        text, reasons = wrong.text, either_of(wrong.causes, item.say)
        if item.shows_a_wrong_answer:
            text = item.say("shown: {wrong}", wrong=text)
        if wrong.far:
            reasons = item.say("{reasons}; far from the estimate", reasons=reasons)
        yield Expected(text, reasons)


def power_lines(section: WorkedSection, width: float) -> tuple[str, ...]:
    """Two lines: the habits that the answers find out, and what they leave open.

    As many as a line holds are named, the others counted. Nothing for examples, which are not
    marked.
    """
    power = section.power
    if power is None:
        return ()
    usage = section.say
    finds_out = [(_FINDS_OUT, usage.says(name)) for name in power.finds_out]
    leaves_open = [
        (_SHOWN[count] if count < len(_SHOWN) else _MIXED_UP, usage.says(name))
        for name, count in sorted(power.leaves_open, key=lambda one: -one[1])
    ]
    start = usage(say("Too few questions."))
    lines = (_line(finds_out, width, usage), _line(leaves_open, width, usage, f"{start} "))
    return tuple(line for line in lines if line)


_FINDS_OUT: Final = say("Finds out")
_SHOWN: Final = (say("Never shown"), say("Shown once"), say("Shown twice"))
_MIXED_UP: Final = say("Cannot be told from another mistake")


def _line(named: list[tuple[Saying, str]], width: float, usage: Usage, start: str = "") -> str:
    """Names below what is said of them, as many as fit on one line."""
    for count in range(len(named), 0, -1):
        said: dict[str, list[str]] = {}
        for what, name in named[:count]:
            said.setdefault(usage(what), []).append(name)
        line = start + " ".join(f"{what}: {'; '.join(names)}." for what, names in said.items())
        if count < len(named):
            more = say("And {count} more.", count=len(named) - count)
            line = f"{line} {usage(more)}"
        if typeface.width(line, KEY_WRONG) <= width:
            return line
    return ""
