"""The words of the key about wrong answers: which are likely, and what a section can show."""

from collections.abc import Iterator
from dataclasses import dataclass

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
        yield Expected(f"{shown}{wrong.text}", " or ".join(wrong.causes))


def power_lines(section: WorkedSection, width: float) -> tuple[str, ...]:
    """At most two lines: the mistakes that no question shows, and pairs not told apart.

    As many as a line holds are named, the others counted. Nothing for examples, which are not
    marked.
    """
    power = section.power
    if power is None:
        return ()
    misses = [mistake.in_brief for mistake in power.misses]
    pairs = [(one.in_brief, other.in_brief) for one, other in power.alike]
    alike = [f"{one} from {other}" for one, other in pairs if one != other]
    found = (
        _line("No question shows:", list(dict.fromkeys(misses)), width),
        _line("Cannot be told apart:", alike, width),
    )
    return tuple(line for line in found if line)


def _line(start: str, names: list[str], width: float) -> str:
    """The names after their start, as many as fit on one line."""
    for count in range(len(names), 0, -1):
        more = len(names) - count
        line = f"{start} {'; '.join(names[:count])}{f'; {more} more' if more else ''}."
        if typeface.width(line, KEY_WRONG) <= width:
            return line
    return ""
