"""The words on pages: headings, and where a line of words may break."""

import re
from functools import lru_cache
from typing import Final

from generator.operations.working import Working
from generator.packs.working_out import WorkedItem, WorkedSection
from layouts.planning import typeface
from specs.spec import EXAMPLES, EXIT, HOMEWORK, PRACTICE, STARTER, Place

_NO_BREAK = "\N{NO-BREAK SPACE}"


MOST_ANSWERED: Final = 4
"""Of more versions of a sheet the answers are on slips of paper: no class waits for so many."""

_HEADINGS: Final = {
    STARTER: "Starter",
    EXAMPLES: "Worked examples",
    PRACTICE: "Practice",
    EXIT: "Exit question",
    HOMEWORK: "Homework",
}


def section_heading(section: WorkedSection) -> str:
    """What pupils see: ``Starter``, ``Core practice``, ``Practice 2``; or the teacher's name."""
    return section.shown_as or place_heading(section.place, several=len(section.items) > 1)


def place_heading(place: Place, *, several: bool = False) -> str:
    """What the section of a place is called where its teacher names it otherwise in no way."""
    if place.kind == PRACTICE and place.tier:
        return _numbered(f"{name_in_words(place.tier)} practice", place)
    tier = f": {name_in_words(place.tier)}" if place.tier else ""
    return f"{_of_the_part(place, several)}{tier}"


def part_heading(section: WorkedSection) -> str:
    """What the whole part of a section is called: ``Practice 2``."""
    if section.shown_as and not section.place.tier:
        return section.shown_as
    return _of_the_part(section.place, len(section.items) > 1)


def _of_the_part(place: Place, several: bool) -> str:
    more = "s" if place.kind == EXIT and several else ""
    return _numbered(f"{_HEADINGS[place.kind]}{more}", place)


def file_title(place: Place) -> str:
    """What the file of a section is called inside: ``core practice``, ``exit question``."""
    if place.kind == PRACTICE and place.tier:
        return _numbered(f"{place.tier} practice", place)
    tier = f", {place.tier}" if place.tier else ""
    return f"{_numbered(_HEADINGS[place.kind].lower(), place)}{tier}"


def _numbered(words: str, place: Place) -> str:
    return f"{words} {place.number}" if place.number > 1 else words


def rung_shown(item: WorkedItem) -> str:
    """A question's rung as pupils see it: the teacher's own name for it, or the rung's."""
    return item.shown_as or name_in_words(item.rung)


def minutes_words(minutes: int | None) -> str:
    """``about 10 minutes``; nothing where no time is known."""
    return "" if minutes is None else f"about {minutes} minute{'' if minutes == 1 else 's'}"


def letters_of(section: WorkedSection) -> str:
    """``a to f``, ``a and b``, or ``a`` alone."""
    labels = [item.label for item in section.items]
    between = " and " if len(labels) == 2 else " to "
    return between.join(dict.fromkeys((labels[0], labels[-1])))


def name_in_words(name: str) -> str:
    """A name from a spec as a heading: ``over-the-point`` becomes ``Over the point``."""
    words = re.sub(r"[-_\s]+", " ", name).strip()
    return words[:1].upper() + words[1:]


def version_words(section: WorkedSection) -> str:
    """``version 3`` where the section comes in several versions, otherwise nothing."""
    return f"version {section.version}" if section.has_versions else ""


def spoken_working(working: Working, steps: int) -> str:
    """What a drawn working shows after so many steps: ``written working: …``."""
    said = " ".join(step.sentence for step in working.steps[:steps] if step.sentence)
    return f"written working: {said}".rstrip(": ")


def breakable(question_text: str) -> str:
    """The same text, to be wrapped only in front of its signs."""
    return re.sub(r"([+−×÷=]) ", rf"\1{_NO_BREAK}", question_text)


@lru_cache(maxsize=4096)  # versions ask much alike
def question_lines(words: str, size: float, available: float) -> tuple[str, ...]:
    """A question's words in lines no wider than that, broken where a teacher would break them.

    What is to be worked on begins a line of its own, after the colon, where all does not fit on
    one; its lines are as even as can be, so that no number of a list stands alone. A calculation
    is parted only where it is longer than a line: at its equals sign, then at any sign.
    """
    if typeface.width(words, size) <= available:
        return typeface.wrap(words, size, available)
    instruction, colon, numbers = words.rpartition(": ")
    if colon:
        above = question_lines(f"{instruction}:", size, available)
        return above + _evenly(_kept(numbers, size, available), size, available)
    return typeface.wrap(_kept(words, size, available), size, available)


_PARTED: Final = (r" (?=[+−×÷=<>▭□])|(?<=[+−×÷=<>▭□]) |(?<=\bso) ", r" (?=[+−×÷])|(?<=[+−×÷=]) ")
"""Spaces that are kept, best first: all about signs, then all but those before equals signs."""


def _kept(words: str, size: float, available: float) -> str:
    """The words with no-break spaces in their calculations, as far as these fit on a line."""
    for spaces in _PARTED:
        kept = re.sub(spaces, _NO_BREAK, words)
        if all(typeface.width(word, size) <= available for word in kept.split(" ")):
            return kept
    return breakable(words)


def _evenly(words: str, size: float, available: float) -> tuple[str, ...]:
    """The words in the fewest lines, the longest of them as short as can be."""
    lines = typeface.wrap(words, size, available)
    while len(lines) > 1:
        shorter = max(typeface.width(line, size) for line in lines) - 0.01
        tried = typeface.wrap(words, size, shorter)
        if len(tried) > len(lines) or max(typeface.width(t, size) for t in tried) > shorter:
            break
        lines = tried
    return lines


@lru_cache(maxsize=1024)  # what is said of a question is said of its like in every version
def sentence_to_wrap(sentence: str) -> str:
    """The same sentence, to be wrapped nowhere between a number and what it counts.

    Nor is it wrapped within brackets. A name with a hyphen is too long to be kept so.
    """
    kept = re.sub(r"\([^)]*\)", lambda aside: aside[0].replace(" ", _NO_BREAK), sentence)
    kept = re.sub(r"(?<=\d) (?=\w+\b(?!-))|(?<=write) (?=\d)|(?<=carry) (?=\d)", _NO_BREAK, kept)
    return re.sub(r"([+−×÷=]) ", rf"\1{_NO_BREAK}", kept)


def features_text(item: WorkedItem) -> str:
    """The item's rung and features in one small line."""
    said = "; ".join(item.features)
    return f"{rung_shown(item)}: {said}" if said else rung_shown(item)
