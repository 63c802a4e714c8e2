"""The words on pages: headings, and where a line of words may break."""

import re
from collections.abc import Iterable
from functools import lru_cache
from typing import Final

from generator.operations.working import Working
from generator.packs.working_out import WorkedItem, WorkedSection
from layouts.planning import typeface
from specs.languages.saying import Saying, say, several
from specs.languages.usage import PLAIN, Usage
from specs.names import name_in_words
from specs.spec import EXAMPLES, EXIT, HOMEWORK, PRACTICE, STARTER, Place

_NO_BREAK = "\N{NO-BREAK SPACE}"


MOST_ANSWERED: Final = 4
"""Of more versions of a sheet the answers are on slips of paper: no class waits for so many."""

_HEADINGS: Final = {
    STARTER: say("Starter"),
    EXAMPLES: say("Worked examples"),
    PRACTICE: say("Practice"),
    EXIT: say("Exit question"),
    HOMEWORK: say("Homework"),
}
_EXIT_QUESTIONS: Final = say("Exit questions")

_IN_TITLES: Final = {
    STARTER: say("starter"),
    EXAMPLES: say("worked examples"),
    PRACTICE: say("practice"),
    EXIT: say("exit question"),
    HOMEWORK: say("homework"),
}


def section_heading(section: WorkedSection) -> str:
    """What pupils see: ``Starter``, ``Core practice``, ``Practice 2``; or the teacher's name."""
    return section.shown_as or place_heading(
        section.place, section.say, several=len(section.items) > 1
    )


def place_heading(place: Place, usage: Usage = PLAIN, *, several: bool = False) -> str:
    """What the section of a place is called where its teacher names it otherwise in no way."""
    part = _of_the_part(place, usage, several)
    if not place.tier:
        return part
    tier = name_in_words(place.tier)
    if place.kind == PRACTICE:
        return _of_a_tier(tier, place, usage)
    return usage(say("{part}: {tier}", part=part, tier=tier))


def part_heading(section: WorkedSection) -> str:
    """What the whole part of a section is called: ``Practice 2``."""
    if section.shown_as and not section.place.tier:
        return section.shown_as
    return _of_the_part(section.place, section.say, len(section.items) > 1)


def _of_the_part(place: Place, usage: Usage, several: bool) -> str:
    is_many = place.kind == EXIT and several
    return _numbered(_EXIT_QUESTIONS if is_many else _HEADINGS[place.kind], place, usage)


def file_title(place: Place, usage: Usage) -> str:
    """What the file of a section is called inside: ``core practice``, ``exit question``."""
    if place.kind == PRACTICE and place.tier:
        return _of_a_tier(place.tier, place, usage)
    part = _numbered(_IN_TITLES[place.kind], place, usage)
    return usage(say("{part}, {tier}", part=part, tier=place.tier)) if place.tier else part


def _of_a_tier(tier: str, place: Place, usage: Usage) -> str:
    if place.number > 1:
        return usage(say("{tier} practice {number}", tier=tier, number=place.number))
    return usage(say("{tier} practice", tier=tier))


def _numbered(words: Saying, place: Place, usage: Usage) -> str:
    if place.number > 1:
        return usage(say("{part} {number}", part=usage(words), number=place.number))
    return usage(words)


def rung_shown(item: WorkedItem) -> str:
    """A question's rung as pupils see it: the teacher's own name for it, or the rung's."""
    return item.shown_as or name_in_words(item.rung)


def minutes_words(minutes: int | None, usage: Usage) -> str:
    """``about 10 minutes``; nothing where no time is known."""
    if minutes is None:
        return ""
    return usage(several("about {count} minute", "about {count} minutes", minutes))


def letters_of(section: WorkedSection) -> str:
    """``a to f``, ``a and b``, or ``a`` alone."""
    labels = [item.label for item in section.items]
    first, last = labels[0], labels[-1]
    if len(labels) == 1:
        return first
    if len(labels) == 2:
        return section.say("{first} and {last}", first=first, last=last)
    return section.say("{first} to {last}", first=first, last=last)


def questions_of(section: WorkedSection) -> str:
    """``questions a to f``, ``question a``."""
    letters, count = letters_of(section), len(section.items)
    said = several("question {letters}", "questions {letters}", count, letters=letters)
    return section.say(said)


def version_words(section: WorkedSection) -> str:
    """``version 3`` where the section comes in several versions, otherwise nothing."""
    if not section.has_versions:
        return ""
    return section.say("version {number}", number=section.version)


def spoken_working(working: Working, steps: int, usage: Usage) -> str:
    """What a drawn working shows after so many steps: ``written working: …``."""
    said = " ".join(step.sentence for step in working.steps[:steps] if step.sentence)
    said = said.rstrip(": ")
    return usage(say("written working: {said}", said=said) if said else say("written working"))


def page_named(file: str, number: int, usage: Usage, pages: int | None = None) -> str:
    """What a page of a file is called: ``Produce stall: answers, page 1 of 2``."""
    if pages is None:
        return usage(say("{file}, page {number}", file=file, number=number))
    return usage(say("{file}, page {number} of {pages}", file=file, number=number, pages=pages))


def worked_named(question: str, usage: Usage) -> str:
    """What a question's working is called: ``3.4 + 0.27, worked``."""
    return usage(say("{question}, worked", question=question))


def slide_number(of: WorkedSection | WorkedItem, number: int, count: int) -> str:
    """``slide 2 of 3``; nothing where there is one alone."""
    return of.say("slide {number} of {count}", number=number, count=count) if count > 1 else ""


def capital(said: str) -> str:
    """What was said, with a capital letter first."""
    return said[:1].upper() + said[1:]


def both_of(said: Iterable[str], usage: Usage) -> str:
    """``this and that``, ``this and that and the other``."""
    found, *others = said
    for other in others:
        found = usage(say("{first} and {last}", first=found, last=other))
    return found


def either_of(said: Iterable[str], usage: Usage) -> str:
    """What may be, the likeliest first: ``this or that``, ``this or that or the other``."""
    found, *others = said
    for other in others:
        found = usage(say("{these} or {other}", these=found, other=other))
    return found


def habits_named(titles: Iterable[str], usage: Usage) -> str:
    """The names of mistakes of which it is one: ``this; or that``."""
    found, *others = map(usage.says, titles)
    for other in others:
        found = usage(say("{these}; or {other}", these=found, other=other))
    return found


def breakable(question_text: str) -> str:
    """The same text, to be wrapped only in front of its signs."""
    return re.sub(rf"({_SIGN}) ", rf"\1{_NO_BREAK}", question_text)


@lru_cache(maxsize=4096)  # versions ask much alike
def question_lines(words: str, size: float, available: float) -> tuple[str, ...]:
    """A question's words in lines no wider than that, broken where a teacher would break them.

    What is to be worked on begins a line of its own, after the colon, where all does not fit on
    one; its lines are as even as can be, so that no number of a list stands alone. A calculation
    is parted only where it is longer than a line: at its equals sign, then at any sign.
    """
    if typeface.width(words, size) <= available:
        return typeface.wrap(words, size, available)
    told = _INSTRUCTION.fullmatch(words)
    if told:
        above = question_lines(told[1], size, available)
        return above + _evenly(_kept(told[2], size, available), size, available)
    return typeface.wrap(_kept(words, size, available), size, available)


_SIGN: Final = r"[+−×÷·=]|(?<=\s):"
"""A sign between numbers, as any land writes it: a colon after a space is one."""
_INSTRUCTION: Final = re.compile(r"(.*\S:) (.*)", re.DOTALL)
"""What is to be done, up to its colon, and what it is to be done with."""
_PARTED: Final = (
    r" (?=[+−×÷·=<>▭□]|: )|(?<=[+−×÷·=<>▭□]) |(?<= :) |(?<=\bso) ",
    r" (?=[+−×÷·]|: )|(?<=[+−×÷·=]) |(?<= :) ",
)
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


_WRITTEN: Final = re.compile(r"(?<=chreibe) (?=\d)|(?<=bertrage) (?=\d)")
"""Between what is told to be written or carried and its number, in German."""


@lru_cache(maxsize=1024)  # what is said of a question is said of its like in every version
def sentence_to_wrap(sentence: str) -> str:
    """The same sentence, to be wrapped nowhere between a number and what it counts.

    Nor is it wrapped within brackets. A name with a hyphen is too long to be kept so.
    """
    sentence = _WRITTEN.sub(_NO_BREAK, sentence)
    kept = re.sub(r"\([^)]*\)", lambda aside: aside[0].replace(" ", _NO_BREAK), sentence)
    kept = re.sub(r"(?<=\d) (?=\w+\b(?!-))|(?<=write) (?=\d)|(?<=carry) (?=\d)", _NO_BREAK, kept)
    return re.sub(rf"({_SIGN}) ", rf"\1{_NO_BREAK}", kept)


def features_text(item: WorkedItem) -> str:
    """The item's rung and features in one small line."""
    said = "; ".join(item.features)
    return f"{rung_shown(item)}: {said}" if said else rung_shown(item)
