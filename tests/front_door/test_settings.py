"""How a lesson is worked and set out, chosen by controls: of the vocabulary, and each alone."""

import difflib
from collections.abc import Iterator

import pytest

from rungsheet.desk import editing, packs, settings, specs
from rungsheet.desk.choices import Choice, Control
from rungsheet.desk.problems import Refused
from rungsheet.desk.settings import Setting
from specs.methods import METHODS
from specs.pages import PAGES
from specs.spec import FRAMES, Methods

LESSON = """\
# Beans and peas, weighed.
title: Weighing beans   # shown on every sheet
ladder:
  beans: {operation: add, places: {ragged: [1, 2]}}
  trays: {operation: multiply, digits: [2, 1], places: [1, 0]}
  crates: {operation: subtract, places: 1, exchanges: {count: 1}}
lesson:
  - starter: {beans: 2}   # to begin
  - examples:
      # one after the other
      - beans
      - trays   # by hand
  - practice:
      frames: full   # for all
      Methods: {multiply: grid}   # as last year
      tiers:
        support: {beans: 2, trays: 1}
        core:
          methods:
            multiply: expanded   # they can
          questions: {trays: 3, crates: 1}
  - homework: {trays: 1}
methods:
  # as agreed
  add: without noughts
pages: {carries: above, estimate: {homework: true}}   # the department's
"""


def changes(after: str, before: str = LESSON) -> list[str]:
    lines = difflib.unified_diff(before.splitlines(), after.splitlines(), n=0, lineterm="")
    return [line for line in lines if not line.startswith(("---", "+++", "@@"))]


def every(spec: specs.Spec) -> Iterator[tuple[str, Setting]]:
    """Every setting of a lesson, with the section that it is of."""
    for section in ("", *(one.name for one in spec.sections)):
        for setting in of(spec, section):
            yield section, setting


def of(spec: specs.Spec, section: str) -> tuple[Setting, ...]:
    if section:
        return settings.of_a_section(spec, section, None)
    return settings.of_the_lesson(spec, None)


def offered(control: Control) -> Iterator[Choice]:
    yield from control.choices
    for part in control.parts:
        yield from offered(part)


def chosen(spec: specs.Spec, section: str, word: str) -> list[str]:
    (setting,) = (one for name, one in every(spec) if (name, one.word) == (section, word))
    return [choice.says for choice in offered(setting.control) if choice.chosen]


def test_each_is_a_word_of_the_vocabulary_said_as_there() -> None:
    spec = specs.read(specs.shipped_text())
    whole = settings.of_the_lesson(spec, None)
    methods = [one for one in whole if one.group == "methods"]
    assert [one.word for one in methods] == ["add", "subtract", "multiply", "divide"]
    for setting in whole:
        fields = METHODS.fields if setting.group == "methods" else PAGES.fields
        assert setting.says == fields[setting.word].says
        for choice in setting.control.choices:  # as its word has it
            if choice.value is not None:
                editing.value_of(fields[setting.word].shape, choice.value, setting.word)
    there = {one.word for one in whole if one.group != "methods"}
    elsewhere = {"paper", "subtraction"}  # beside the sheets; by `methods:`
    assert there == PAGES.fields.keys() - elsewhere


def test_operations_are_those_that_are_asked() -> None:
    spec = specs.read(LESSON)
    found = {
        name: {s.word: s.questions for n, s in every(spec) if (n, s.group) == (name, "methods")}
        for name in ("", "starter", "examples", "core", "homework")
    }
    assert found == {
        "": {"add": 6, "subtract": 1, "multiply": 7},
        "starter": {"add": 2},
        "examples": {"add": 2, "multiply": 2},
        "core": {"subtract": 1, "multiply": 3},
        "homework": {"multiply": 1},
    }


def test_what_is_not_said_names_what_holds_then() -> None:
    spec = specs.read(LESSON)

    def unsaid(section: str, word: str) -> str:
        (one,) = (s for name, s in every(spec) if (name, s.word) == (section, word))
        return one.control.choices[0].says

    assert unsaid("", "multiply") == "not said: columns"
    assert unsaid("support", "multiply") == "not said: grid"
    assert unsaid("core", "multiply") == "not said: grid"
    assert unsaid("starter", "add") == "not said: without noughts"
    assert unsaid("", "carries") == "not said: below"
    german = specs.read(LESSON.replace("carries: above", "land: Germany"))
    (divide, carries) = (
        next(s for s in settings.of_the_lesson(german, None) if s.word == word)
        for word in ("subtract", "carries")
    )
    assert divide.control.choices[0].says == "not said: equal addition"
    assert carries.control.choices[0].says.startswith("not said: ")


def test_what_is_said_is_chosen() -> None:
    spec = specs.read(LESSON)
    assert chosen(spec, "", "add") == ["without noughts"]
    assert chosen(spec, "core", "multiply") == ["expanded"]
    assert chosen(spec, "", "carries") == ["above"]
    assert chosen(spec, "", "estimate") == ["Homework"]
    assert chosen(spec, "homework", "estimate") == ["yes"]
    assert settings.own(spec, "core") == "multiply expanded"
    assert settings.own(spec, "homework") == "estimate"
    assert settings.own(spec, "starter") == ""


@pytest.mark.parametrize(
    ("change", "given", "lines"),
    [
        (
            editing.set_method,
            ("", "multiply", "grid"),
            ["+  multiply: grid"],
        ),
        (
            editing.set_method,
            ("starter", "add", "with noughts"),
            [
                "-  - starter: {beans: 2}   # to begin",
                "+  - starter: {methods: {add: with noughts}, questions: {beans: 2}}   # to begin",
            ],
        ),
        (
            editing.set_method,
            ("examples", "multiply", "grid"),
            [
                "-      - beans",
                "-      - trays   # by hand",
                "+      methods: {multiply: grid}",
                "+      questions:",
                "+        - beans",
                "+        - trays   # by hand",
            ],
        ),
        (
            editing.set_method,
            ("core", "subtract", "equal addition"),
            ["+            subtract: equal addition"],
        ),
        (
            editing.set_method,
            ("core", "multiply", None),
            ["-          methods:", "-            multiply: expanded   # they can"],
        ),
        (
            editing.set_section_word,
            ("homework", "instructions", "Beans: 'first', then \"trays\""),
            [
                "-  - homework: {trays: 1}",
                "+  - homework: {instructions: \"Beans: 'first', then \\\"trays\\\"\", "
                "questions: {trays: 1}}",
            ],
        ),
        (
            editing.set_frames,
            ("support", {"from": "full"}),
            [
                "-        support: {beans: 2, trays: 1}",
                "+        support: {frames: {from: full, to: none}, "
                "questions: {beans: 2, trays: 1}}",
            ],
        ),
        (
            editing.set_page,
            ("land", "Germany"),
            [
                "-pages: {carries: above, estimate: {homework: true}}   # the department's",
                "+pages: {carries: above, estimate: {homework: true}, land: Germany}   "
                "# the department's",
            ],
        ),
        (
            editing.set_page,
            ("estimate", {"core": True, "homework": True}),
            [
                "-pages: {carries: above, estimate: {homework: true}}   # the department's",
                "+pages: {carries: above, estimate: {homework: true, core: true}}   "
                "# the department's",
            ],
        ),
    ],
)  # fmt: skip
def test_its_own_value_changes_alone(change, given, lines) -> None:  # type: ignore[no-untyped-def]
    assert changes(change(LESSON, *given)) == lines


SHIPPED = [specs.DEMO, "multiplying-by-the-grid", "sharing-with-homework"]


def asked(spec: specs.Spec) -> list[str]:
    pack = packs.choose(spec, packs.Edition(3))
    return [item.question.text for section in pack.sections for item in section.items]


def all_can_be_had(text: str, one_in: int) -> None:
    """What is offered, one in so many, is chosen; none of it changes a question."""
    spec = specs.read(text)
    every_choice = [
        (section, setting, choice)
        for section, setting in every(spec)
        for choice in offered(setting.control)
    ]
    for section, setting, choice in every_choice[::one_in]:
        changed = specs.read(settings.EDITS[setting.edit](text, *setting.given, choice.value))
        for again in of(changed, section):
            if again.word == setting.word:
                values = [one.value for one in offered(again.control) if one.chosen]
                assert values or choice.value is None or again.control.kind == "some"
        if setting.word in ("frames", "land", "multiply"):
            assert asked(changed) == asked(spec)


def test_what_is_offered_can_be_had_and_is_then_chosen() -> None:
    all_can_be_had(LESSON, 13)


@pytest.mark.slow
@pytest.mark.parametrize("name", SHIPPED)
def test_what_is_offered_for_shipped_lessons_can_be_had(name: str) -> None:
    all_can_be_had(specs.shipped_text(name), 5)


def test_print_is_large_for_all_sheets_or_for_some() -> None:
    assert chosen(specs.read(LESSON), "", "large") == ["not said"]
    all_of_them = editing.set_page(LESSON, "large", 18)
    assert chosen(specs.read(all_of_them), "core", "large") == ["18"]
    assert settings.own(specs.read(all_of_them), "core") == "multiply expanded"
    (core,) = (s for s in of(specs.read(LESSON), "core") if s.word == "large")
    value = next(choice.value for choice in core.control.choices if choice.says == "24")
    one = specs.read(editing.set_page(LESSON, "large", value))
    assert one.presentation.large.named == (("core", 24),)
    assert chosen(one, "", "large") == ["by sheet"]
    assert settings.own(one, "core") == "multiply expanded, large print 24"


def test_what_pupils_are_told_is_written_and_their_turn_chosen() -> None:
    text = editing.set_section_word(LESSON, "starter", "objective", "Weigh: 2 kg")
    (objective,) = (s for s in of(specs.read(text), "starter") if s.word == "objective")
    assert (objective.control.kind, objective.control.typed) == ("written", "Weigh: 2 kg")
    assert specs.read(text).sections[0].objective == "Weigh: 2 kg"
    assert editing.set_section_word(text, "starter", "objective", None).count("Weigh") == 1
    turn = editing.set_section_word(LESSON, "examples", "your_turn", "in steps")
    assert chosen(specs.read(turn), "examples", "your_turn") == ["in steps"]
    assert settings.own(specs.read(turn), "examples") == "your turn in steps"
    with pytest.raises(Refused, match="no word of"):
        editing.set_section_word(LESSON, "starter", "your_turn", "in steps")


def test_two_words_for_one_thing_are_refused_with_the_reason() -> None:
    older = LESSON.replace("carries: above", "subtraction: equal addition")
    assert "subtraction" in {setting.word for _, setting in every(specs.read(older))}
    with pytest.raises(Refused) as told:
        editing.set_method(older, "", "subtract", "exchange")
    assert "keep one of them" in told.value.problems[0].instead


def test_frames_rung_by_rung_have_a_control_for_each() -> None:
    lesson = editing.rename_rung(LESSON, "crates", "Körbe")
    text = editing.set_frames(lesson, "core", {"trays": "full"})
    assert chosen(specs.read(text), "core", "frames") == [
        "rung by rung",
        *("full", "not said"),
    ]
    (frames,) = (s for n, s in every(specs.read(text)) if (n, s.word) == ("core", "frames"))
    trays, baskets = frames.control.parts[1].parts
    assert [part.label for part in (trays, baskets)] == ["Trays", "Körbe"], "as on the ladder"
    assert [c.says for c in trays.choices[1:-1]] == list(FRAMES)
    value = next(choice.value for choice in baskets.choices if choice.says == "part")
    assert value == {"trays": "full", "koerbe": "part"}


def test_of_how_many_an_estimate_is_worth_making_is_counted() -> None:
    spec = specs.read(specs.shipped_text())
    built = packs.build(spec)
    (estimate,) = (s for s in settings.of_a_section(spec, "starter", built) if s.word == "estimate")
    shown = packs.build(specs.read(editing.set_page(specs.shipped_text(), "estimate", True)))
    (starter,) = shown.worked.named("starter")
    assert estimate.questions == sum(item.estimate is not None for item in starter.items)
    assert estimate.of == len(starter.items)


def test_no_section_of_that_name_has_settings() -> None:
    with pytest.raises(KeyError):
        settings.of_a_section(specs.read(LESSON), "tea", None)
    assert specs.read(LESSON).sections[0].methods == Methods()
