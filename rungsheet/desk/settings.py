"""How a lesson is worked and set out, as choices to be made by controls.

Written methods, what stands on pupils' squares, estimates, and how pages write: for the whole
lesson, and where the words of specs allow it for one of its parts. Controls are made of the
shapes that the reader has for these words. None of them changes a question.
"""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Any, Final

from generator.operations.estimating import estimate
from generator.packs.working_out import conventions, is_estimated
from generator.vocabulary import VOCABULARY
from rungsheet.desk import editing
from rungsheet.desk.choices import NO, NOT_SAID, YES, Choice, Control, as_json, control_of
from rungsheet.desk.editing import METHODS_WORD, heading, plain_said, section_path
from rungsheet.desk.labels import choice_label, plainly, some_label, word_label
from rungsheet.desk.packs import Built
from rungsheet.desk.rungs import called
from specs import Spec
from specs.lands import land
from specs.languages.saying import Saying, joined, say
from specs.methods import METHODS
from specs.pages import BY_SHEET, PAGES
from specs.sections import OF_ALL, FramesOfRungs, frames_of, section_words
from specs.shapes import Either, Fields
from specs.spec import AT_ONCE, EXAMPLES, PRACTICE, Methods, Presentation, SectionSpec

__all__ = ["EDITS", "Setting", "of_a_section", "of_the_lesson", "own"]

SHEETS: Final = "sheets"
FRAMES: Final = "frames"
ESTIMATE: Final = "estimate"
PAGES_WORD: Final = "pages"
_SUBTRACTION: Final = "subtraction"

LESSON: Final = "lesson"
_IN_A_PART: Final = ("objective", "instructions", "shown_as", "your_turn")
"""Words of a section that have a control here; minutes and questions have theirs in a table."""

_ELSEWHERE: Final = ("paper", _SUBTRACTION, *BY_SHEET)
"""Words of pages that have a control of their own, or that ``methods`` says better."""


@dataclass(frozen=True, slots=True)
class Setting:
    """One thing that can be chosen: ``group`` has what belongs together, "lesson", "methods",
    "sheets" or "pages".

    ``questions`` is how many questions it is about, ``of`` of how many, where that is another
    number; None where it is about pages. ``edit`` names one of EDITS, and ``given`` what that
    takes before the value.
    """

    group: str
    word: str
    says: Saying
    control: Control
    edit: str
    given: tuple[str, ...]
    questions: int | None = None
    of: int | None = None


EDITS: Final[Mapping[str, Callable[..., str]]] = {
    "method": editing.set_method,
    "frames": editing.set_frames,
    "of a part": editing.set_section_word,
    "page": editing.set_page,
}
"""What a setting changes in the text of a spec, each with what it takes after that."""


def of_the_lesson(spec: Spec, built: Built | None) -> tuple[Setting, ...]:
    """What can be chosen for the whole lesson; ``built`` is a pack of it, where there can be one.

    Of a lesson whose questions are not known, nothing is said of how many can be estimated.
    """
    return (
        *_methods(spec, None),
        *_estimates(spec, built, None),
        *_by_sheet(spec, None),
        *_pages(spec),
    )


def of_a_section(spec: Spec, name: str, built: Built | None) -> tuple[Setting, ...]:
    """What can be chosen for one of its sections. Raises KeyError where there is none such."""
    section = next((one for one in spec.sections if one.name == name), None)
    if section is None:
        raise KeyError(name)
    found = [*_told(spec, section), *_methods(spec, section)]
    if section.place is None or section.place.kind != EXAMPLES:
        found += [_frames(spec, section), *_estimates(spec, built, section)]
        found += _by_sheet(spec, section)
    return tuple(found)


def own(spec: Spec, name: str) -> Saying:
    """What a section says for itself, in a few words; "" for nothing."""
    said: list[Saying] = []
    for setting in of_a_section(spec, name, None):
        if setting.control.kind == "written":
            continue
        first = setting.control.parts[0] if setting.control.parts else setting.control
        chosen = next((one for one in first.choices if one.chosen), None)
        of_all = setting.word in BY_SHEET and not getattr(spec.presentation, setting.word).named
        of_all = of_all or (setting.word == ESTIMATE and chosen is first.choices[0])
        if chosen and not of_all and not chosen.says.startswith(NOT_SAID):
            word = setting.control.label
            if setting.word == ESTIMATE:
                said.append(word)
            else:
                said.append(say("{word} {choice}", word=word, choice=chosen.says))
    return joined(said, between=", ")


# What is said in a part


def _told(spec: Spec, section: SectionSpec) -> Iterator[Setting]:
    """What pupils are told, and of examples how the class's turn is worked."""
    words = editing.words_of(spec, section.name)
    for word in (one for one in _IN_A_PART if one in words):
        shape = words[word].shape
        now = editing.said_at(
            spec.text, (*section_path(spec, section.name), word), shape, word, in_quotes=True
        )
        control = control_of(shape, word, now)
        if control.kind == "one":
            control = _naming_usual(control, choice_label(AT_ONCE, word))
        yield Setting(LESSON, word, words[word].says, control, "of a part", (section.name, word))


# Methods


def _methods(spec: Spec, section: SectionSpec | None) -> Iterator[Setting]:
    """The written method of each operation that is asked."""
    path = (METHODS_WORD,) if section is None else (*section_path(spec, section.name), METHODS_WORD)
    now = plain_said(spec.text, path, METHODS, METHODS_WORD)
    usual = _usual_methods(spec, section)
    counts = _asked_by_operation(spec, section)
    name = section.name if section else ""
    for operation, field in METHODS.fields.items():
        if operation not in counts:
            continue
        control = _naming_usual(
            control_of(field.shape, operation, now.get(operation)),
            choice_label(usual[operation], operation),
        )
        yield Setting(
            METHODS_WORD,
            operation,
            field.says,
            control,
            "method",
            (name, operation),
            counts[operation],
        )


def _asked_by_operation(spec: Spec, section: SectionSpec | None) -> dict[str, int]:
    """How many questions there are of each operation, of examples two a pair."""
    rungs = {rung.name: rung for rung in spec.ladder}
    found: dict[str, int] = {}
    if section is None:
        found = {rung.operation: 0 for rung in spec.ladder}
    for one in spec.sections if section is None else (section,):
        each = 2 if one.place and one.place.kind == EXAMPLES else 1
        for share in one.shares:
            operation = rungs[share.rung].operation
            found[operation] = found.get(operation, 0) + each * share.count
    return found


def _usual_methods(spec: Spec, section: SectionSpec | None) -> dict[str, str]:
    """The method of each operation where nothing is said of it at that place."""
    shown = spec.presentation
    part = Methods()
    if section is None:
        shown = replace(shown, methods=Methods())
    elif section.place and section.place.tier:
        part = spec.parts[spec.part_at(section.place)].asked.methods
    agreed = conventions(shown, part)
    noughts = agreed.of_addition.placeholders
    return {
        "add": METHODS.fields["add"].shape.words[not noughts],
        "subtract": agreed.subtraction,
        "multiply": agreed.multiplication,
        "divide": agreed.division,
    }


def _naming_usual(control: Control, usual: Saying) -> Control:
    """The control with what holds where nothing is said named in its first choice."""
    first, *others = control.choices
    assert first.says == NOT_SAID
    says = say("not said: {usual}", usual=usual)
    return replace(control, choices=(replace(first, says=says), *others))


# Frames


def _frames(spec: Spec, section: SectionSpec) -> Setting:
    rungs = tuple(dict.fromkeys(share.rung for share in section.shares))
    path = (*section_path(spec, section.name), FRAMES)
    now = editing.said_at(spec.text, path, frames_of(rungs), FRAMES)
    shape = Either(OF_ALL, FramesOfRungs(rungs))  # those of all first
    spelt = {name: called(spec.rung(name)) for name in rungs}
    control = control_of(shape, FRAMES, None if now is None else as_json(now), spelt)
    says = section_words(VOCABULARY).fields[FRAMES].says
    return Setting(SHEETS, FRAMES, says, control, "frames", (section.name,), section.questions)


# Estimates


def _estimates(spec: Spec, built: Built | None, section: SectionSpec | None) -> Iterator[Setting]:
    """Whether an estimate is asked for, on all sheets, on none, or on some."""
    sheets = [one for one in spec.sections if one.place and one.place.kind != EXAMPLES]
    if not sheets:
        return
    now = {one.name: is_estimated(spec.presentation, one.name, PRACTICE) for one in sheets}

    def with_it(name: str, value: bool) -> Any:
        then = {**now, name: value}
        return {sheet: True for sheet, wanted in then.items() if wanted} or None

    can = {one.name: _can_be_estimated(built, one.name) for one in sheets}
    says = PAGES.fields[ESTIMATE].says
    if section is not None:
        choices = tuple(
            Choice(said, with_it(section.name, value), now[section.name] == value)
            for said, value in ((NO, False), (YES, True))
        )
        control = Control("one", word_label(ESTIMATE), choices)
        counted, of = can[section.name], section.questions
    else:
        boxes = tuple(
            Choice(_heading(spec, one), with_it(one.name, not now[one.name]), now[one.name])
            for one in sheets
        )
        every = all(now.values())
        first = Choice(say("every sheet"), None if every else True, every)
        control = Control("some", word_label(ESTIMATE), (first, *boxes))
        known = [count for count in can.values() if count is not None]
        counted = sum(known) if len(known) == len(can) else None
        of = sum(one.questions for one in sheets)
    yield Setting(SHEETS, ESTIMATE, says, control, "page", (ESTIMATE,), counted, of)


def _can_be_estimated(built: Built | None, name: str) -> int | None:
    """Of how many questions of a section an estimate is near enough to be worth making."""
    if built is None:
        return None
    return sum(
        item.form.asks_for_the_answer and estimate(item.question) is not None
        for section in built.pack.sections
        if (section.name, section.version) == (name, 1)
        for item in section.items
    )


def _heading(spec: Spec, section: SectionSpec) -> Saying:
    """What its sheet is called, in the language of the pages."""
    assert section.place is not None
    return plainly(heading(spec, section.place, section))


# What else may differ from sheet to sheet


def _by_sheet(spec: Spec, section: SectionSpec | None) -> Iterator[Setting]:
    """Large print, tints and whatever else is said of all sheets, or of some by name."""
    sheets = [one.name for one in spec.sections if one.place and one.place.kind != EXAMPLES]
    for word in (one for one in BY_SHEET if one != ESTIMATE):
        field = PAGES.fields[word]
        wish, of_all = getattr(spec.presentation, word), field.shape.shape.shapes[0]  # type: ignore[attr-defined]
        if section is None:
            control = control_of(of_all, word, wish.usual)
            if wish.named:
                unsaid, *others = control.choices
                named = Choice(say("by sheet"), dict(wish.named), chosen=True)
                control = replace(control, choices=(replace(unsaid, chosen=False), *others, named))
        else:
            now = {name: wish.of(name) for name in sheets}
            control = control_of(of_all, word, now[section.name])
            control = replace(
                control,
                choices=tuple(
                    replace(choice, value=_with(now, section.name, choice.value))
                    for choice in control.choices
                ),
            )
        yield Setting(SHEETS, word, field.says, control, "page", (word,))


def _with(now: Mapping[str, Any], name: str, value: Any) -> Any:
    """The wish for each sheet, with another for one of them; None for none at all."""
    then = {**now, name: value}
    return {sheet: wanted for sheet, wanted in then.items() if wanted is not None} or None


# Pages


def _pages(spec: Spec) -> Iterator[Setting]:
    """How the pages look and write, but for what is chosen elsewhere."""
    now = plain_said(spec.text, (PAGES_WORD,), PAGES, PAGES_WORD)
    for word, field in PAGES.fields.items():
        if word in _ELSEWHERE and not (word == _SUBTRACTION and word in now):
            continue
        control = control_of(field.shape, word, as_json(now[word]) if word in now else None)
        control = _naming_usual(control, _usual(spec, word, PAGES))
        yield Setting(PAGES_WORD, word, field.says, control, "page", (word,))


def _usual(spec: Spec, word: str, words: Fields[Any]) -> Saying:
    """What a word of pages is where nothing is said of it."""
    its = land(spec.presentation.land)
    by_land = {"carries": its.carries, _SUBTRACTION: its.subtraction}
    usual = by_land.get(word, getattr(Presentation(), words.fields[word].attribute))
    if isinstance(usual, bool):
        return YES if usual else NO
    return some_label(str(usual), word)
