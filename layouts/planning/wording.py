"""The words on pages: headings, and where a line of words may break."""

import re
from functools import lru_cache

from generator.operations.working import Working
from generator.packs.working_out import WorkedItem, WorkedSection

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
