"""The words on pages: headings, and where a line of words may break."""

import re
from functools import lru_cache
from typing import Final

from generator.operations.working import Working
from generator.packs.working_out import WorkedItem, WorkedSection
from layouts.planning import typeface

_NO_BREAK = "\N{NO-BREAK SPACE}"


def section_heading(section: WorkedSection) -> str:
    """``Starter``, ``Core practice``, ``Worked examples``."""
    if section.kind == "starter":
        return "Starter"
    if section.kind == "example":
        return "Worked examples"
    return f"{name_in_words(section.name)} practice"


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
    return f"{name_in_words(item.rung)}: {said}" if said else name_in_words(item.rung)
