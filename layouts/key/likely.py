"""The words of the key about wrong answers: which are likely, and what a section can show."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from generator.packs.working_out import WorkedItem, WorkedSection
from layouts.planning import typeface
from layouts.planning.type_scale import KEY_WRONG


@dataclass(frozen=True, slots=True)
class Expected:
    """A wrong answer and what it comes from, in words: ``3.1``, ``lined up at the right``."""

    text: str
    reasons: str


def expected(item: WorkedItem) -> Iterator[Expected]:
    """The likely wrong answers, or the one that is shown to be put right."""
    shown = "shown: " if item.shows_a_wrong_answer else ""
    for wrong in item.wrong_answers_to_expect:
        far = "; far from the estimate" if wrong.far else ""
        yield Expected(f"{shown}{wrong.text}", " or ".join(wrong.causes) + far)


def power_lines(section: WorkedSection, width: float) -> tuple[str, ...]:
    """Two lines: the habits that the answers find out, and what they leave open.

    As many as a line holds are named, the others counted. Nothing for examples, which are not
    marked.
    """
    power = section.power
    if power is None:
        return ()
    finds_out = [("Finds out", name) for name in power.finds_out]
    leaves_open = [
        (_SHOWN[count] if count < len(_SHOWN) else _MIXED_UP, name)
        for name, count in sorted(power.leaves_open, key=lambda one: -one[1])
    ]
    lines = (_line(finds_out, width), _line(leaves_open, width, "Leaves open. "))
    return tuple(line for line in lines if line)


_SHOWN: Final = ("Never shown", "Shown once", "Shown twice")
_MIXED_UP: Final = "Not told from others"


def _line(named: list[tuple[str, str]], width: float, start: str = "") -> str:
    """Names below what is said of them, as many as fit on one line."""
    for count in range(len(named), 0, -1):
        said: dict[str, list[str]] = {}
        for what, name in named[:count]:
            said.setdefault(what, []).append(name)
        more = f" And {len(named) - count} more." if count < len(named) else ""
        line = start + " ".join(f"{what}: {'; '.join(names)}." for what, names in said.items())
        line += more
        if typeface.width(line, KEY_WRONG) <= width:
            return line
    return ""
