"""Mistakes of the grid, expanded multiplication, chunking and counting up, found where they are
taught: in marks, in questions that find out, in what is foreseen, and in what comes next."""

from collections.abc import Mapping
from dataclasses import replace

import pytest

from generator.operations.mistakes import (
    MISTAKES,
    MISTAKES_OF_METHODS,
    Mistake,
    mistake_named,
    mistakes_searched_for,
    right_reply,
    with_mistakes_of_their_own,
)
from generator.packs.building import build_pack
from generator.packs.finding_out import inquiry_of, made_by_another_method, said
from generator.packs.pack import Pack
from generator.packs.telling_apart import CannotTellApartError
from generator.packs.working_out import conventions, work
from generator.results.class_results import ClassResults, class_results
from generator.results.diagnosis import Kind
from generator.results.follow_up import Weighting, follow_up
from generator.results.foresight import foresee
from generator.results.mark_sheet import mark_columns
from generator.results.posterior import evidence_of, posterior
from generator.vocabulary import VOCABULARY
from specs import Spec, read_spec
from specs.marks import Entry, Marks, PupilRow
from specs.problems import SpecError

RUNGS = {
    "multiply": "operation: multiply, digits: [2, 2]",
    "subtract": "operation: subtract, places: 0, whole: 3",
    "divide": "operation: divide, dividend: {digits: 3}, divisor: {between: [12, 24]}, "
    "ending: remainder",
}
TAUGHT = {  # each mistake, its operation and a method that it is made by
    "only matching parts multiplied": ("multiply", "grid"),
    "a nought too few in a product of parts": ("multiply", "expanded"),
    "last jump left out": ("subtract", "counting up"),
    "first jump left out": ("subtract", "counting up"),
    "last chunk not counted": ("divide", "chunking"),
}
IN_COLUMNS = {"multiply": "columns", "subtract": "exchange", "divide": "long"}
MATCHING = "only matching parts multiplied"


def spec_of(operation: str, way: str, words: str = "", questions: int = 6) -> Spec:
    text = f"title: Beans\nladder:\n  beans: {{{RUNGS[operation]}}}\n"
    text += f"starter:\n  questions: {{beans: {questions}}}\n"
    text += f"  {words}\n" if words else ""
    text += f"methods: {{{operation}: {way}}}\n"
    return read_spec(text.encode(), "beans.yaml", VOCABULARY)


def ways(spec: Spec) -> dict[str, frozenset[str]]:
    found = {
        section.name: with_mistakes_of_their_own(
            conventions(spec.presentation, section.methods).ways
        )
        for section in spec.sections
    }
    return {name: of_section for name, of_section in found.items() if of_section}


def marked(spec: Spec, pack: Pack, habits: tuple[str | None, ...]) -> ClassResults:
    """Pupils who never slip, each with a habit or none."""
    columns = mark_columns(pack.sections, ways(spec))
    rows = []
    for pupil, name in enumerate(habits, 1):
        entries = {}
        for column in columns:
            question = column.item.question
            wrong = mistake_named(name).wrong_answer(question) if name else None
            entries[column.name] = Entry("answer", (wrong or right_reply(question),))
        rows.append(PupilRow(str(pupil), entries))
    return class_results(columns, Marks(tuple(rows), ()))


def test_every_mistake_of_a_method_is_tried_here() -> None:
    assert set(TAUGHT) == {mistake.name for mistake in MISTAKES_OF_METHODS}


# Marks.


@pytest.mark.parametrize("name", TAUGHT)
def test_marks_find_a_methods_own_habit_where_it_is_taught_and_nowhere_else(name: str) -> None:
    operation, way = TAUGHT[name]
    taught = spec_of(operation, way)
    pack = build_pack(taught, 1)
    habit, careful = marked(taught, pack, (name, None)).pupils
    assert [m.name for m in habit.habits] == [name]
    assert habit.finding.sure > 0.9
    assert careful.finding.kind is Kind.SECURE
    columns = spec_of(operation, IN_COLUMNS[operation])
    assert not ways(columns)
    other, careful = marked(columns, build_pack(columns, 1), (name, None)).pupils
    possible = {m for f in other.posterior.fields for p in f.possible for m in p.mistakes}  # type: ignore[union-attr]
    assert not possible & set(MISTAKES_OF_METHODS)
    assert mistake_named(name) not in other.habits
    assert careful.finding.kind is Kind.SECURE


def test_the_wrong_answers_of_a_question_are_put_down_to_the_methods_own() -> None:
    grid = spec_of("multiply", "grid")
    results = marked(grid, build_pack(grid, 1), (MATCHING, MATCHING))
    for question in results.questions:
        ((wrong,),) = [question.wrong]
        assert mistake_named(MATCHING) in wrong.mistakes
    (group,) = results.groups
    assert (group.name, group.pupils) == (MATCHING, ("1", "2"))


def test_habits_of_columns_are_still_found_where_another_method_is_taught() -> None:
    """Whoever learns the grid may fall back on columns."""
    grid = spec_of("multiply", "grid")
    not_along = "rows of a long multiplication not moved along"
    (pupil,) = marked(grid, build_pack(grid, 1), (not_along,)).pupils
    assert [m.name for m in pupil.habits] == [not_along]


def test_nothing_is_searched_for_that_only_another_method_has() -> None:
    assert mistakes_searched_for(("columns", "exchange", "short")) == MISTAKES
    by_grid = mistakes_searched_for(("grid", "exchange", "short"))
    assert {m.name for m in by_grid} - {m.name for m in MISTAKES} == {
        MATCHING,
        "a nought too few in a product of parts",
    }


def test_chances_are_still_chances_with_them() -> None:
    grid = spec_of("multiply", "grid")
    results = marked(grid, build_pack(grid, 1), (MATCHING, None, "point ignored"))
    for pupil in results.pupils:
        (field,) = posterior(evidence_of([*pupil.attempts.values()])).fields
        assert field.field == "multiplications"
        assert 0 <= field.careful <= 1
        assert all(0 <= possible.chance <= 1 for possible in field.possible)


# Questions that find out.


def test_every_habit_has_those_of_the_methods_chosen_and_no_others() -> None:
    def asked(way: str) -> set[str]:
        spec = spec_of("multiply", way, "finds_out: every habit")
        (section,) = spec.sections
        found = inquiry_of(section, spec.ladder, conventions(spec.presentation).ways)
        assert found is not None
        return {mistake.name for mistake in found.ways}

    assert asked("grid") - asked("columns") == {
        m for m, (o, _) in TAUGHT.items() if o == "multiply"
    }
    assert asked("columns") <= asked("grid")


def test_a_methods_own_habit_may_be_named_and_shows_on_the_questions_chosen() -> None:
    named = spec_of("subtract", "counting up", "finds_out: first jump left out")
    (section,) = named.sections
    assert section.finds_out == ("first jump left out",)
    what = inquiry_of(section, named.ladder, conventions(named.presentation).ways)
    assert what is not None
    plain = spec_of("subtract", "counting up")
    chosen, came = (
        [item.question for item in build_pack(spec, 3).sections[0].items] for spec in (named, plain)
    )
    assert said(what, chosen) > said(what, came)


@pytest.mark.parametrize("name", TAUGHT)
def test_a_habit_of_a_method_that_is_not_taught_is_refused_with_its_line(name: str) -> None:
    operation, way = TAUGHT[name]
    spec = spec_of(operation, IN_COLUMNS[operation], f"finds_out: [{name}]")
    with pytest.raises(CannotTellApartError) as refused:
        build_pack(spec, 1)
    assert refused.value.line == 6
    assert f"'{name}' in 'finds_out' is a mistake made by" in refused.value.what
    assert f"'methods: {{{operation}: " in refused.value.instead
    build_pack(spec_of(operation, way, f"finds_out: [{name}]"), 1)


def test_a_habit_of_a_method_goes_with_rungs_of_its_operation() -> None:
    with pytest.raises(SpecError, match="goes with no rung of") as refused:
        spec_of("multiply", "grid", "finds_out: last chunk not counted")
    assert ":6:" in str(refused.value)
    assert "it goes with divide" in str(refused.value)


# Keys, and what is foreseen.


def test_the_key_says_that_such_habits_are_found_out() -> None:
    def found_out(way: str) -> set[str]:
        spec = spec_of("multiply", way, questions=8)
        (section,) = work(build_pack(spec, 1))
        assert section.power is not None
        return set(section.power.finds_out)

    assert mistake_named(MATCHING).in_brief in found_out("grid")
    assert mistake_named(MATCHING).in_brief not in found_out("columns")


@pytest.mark.parametrize(
    ("operation", "way"),
    [("subtract", "counting up"), pytest.param("multiply", "grid", marks=pytest.mark.slow)],
)
def test_what_is_foreseen_of_a_methods_own_habits(operation: str, way: str) -> None:
    def foreseen(taught: str) -> Mapping[Mistake, float]:
        spec = spec_of(operation, taught, "finds_out: every habit", questions=6)
        found = foresee(build_pack(spec, 1), pupils=200)
        assert found.called[-1] <= 0.02
        return {habit.mistake: habit.named[-1] for habit in found.habits}

    by_way, by_columns = foreseen(way), foreseen(IN_COLUMNS[operation])
    own = {mistake_named(name) for name, (o, _) in TAUGHT.items() if o == operation}
    assert own <= set(by_way)
    assert not own & set(by_columns)
    assert all(by_way[mistake] >= 0.8 for mistake in own)


# What comes next.


def test_a_group_with_such_a_habit_has_a_sheet() -> None:
    grid = spec_of("multiply", "grid")
    pack = build_pack(grid, 1)
    results = marked(grid, pack, (MATCHING, MATCHING, None))
    asked = [item.question for section in pack.sections for item in section.items]
    found = follow_up(grid, results, Weighting(groups=True), range(2, 9), asked)
    sheet = found.groups[0]
    assert (sheet.group.mistake, sheet.mends) == (mistake_named(MATCHING), None)
    (section,) = (one for one in found.pack.sections if one.name == sheet.name)
    shown = [mistake_named(MATCHING).wrong_answer(item.question) for item in section.items]
    assert all(shown)
    assert found.spec.presentation.methods.multiply == "grid"


def test_a_follow_up_asks_about_such_a_habit_where_it_is_not_settled() -> None:
    up = spec_of("subtract", "counting up", questions=4)
    pack = build_pack(up, 2)
    columns = mark_columns(pack.sections, ways(up))
    habit = mistake_named("last jump left out")
    first = next(c for c in columns if habit.wrong_answer(c.item.question))
    entries = {c.name: Entry("y", ticked=True) for c in columns}
    wrong = habit.wrong_answer(first.item.question)
    assert wrong is not None
    entries[first.name] = Entry(wrong.text, (wrong,))
    results = class_results(columns, Marks((PupilRow("1", entries),), ()))
    asked = [item.question for section in pack.sections for item in section.items]
    found = follow_up(up, results, Weighting(), range(3, 11), asked)
    (starter,) = (one for one in found.spec.sections if one.name == "starter")
    assert habit.name in starter.finds_out
    assert build_pack(read_spec(found.spec.text.encode(), "x.yaml", VOCABULARY), found.pack.seed)


# Parts with methods of their own.

BY_PARTS = f"""title: Beans
ladder:
  beans: {{{RUNGS["multiply"]}}}
lesson:
  - starter: {{beans: 6}}
  - practice:
      methods: {{multiply: grid}}
      finds_out: FINDS
      tiers:
        core: {{beans: 6}}
"""


def by_parts(finds_out: str = "every habit") -> Spec:
    return read_spec(BY_PARTS.replace("FINDS", finds_out).encode(), "beans.yaml", VOCABULARY)


def test_a_part_with_a_method_of_its_own_is_searched_for_its_mistakes_and_no_other_part() -> None:
    spec = by_parts()
    pack = build_pack(spec, 1)
    assert ways(spec) == {"core": frozenset({"grid"})}
    columns = {column.name: column for column in mark_columns(pack.sections, ways(spec))}
    assert columns["core.a"].ways == {"grid"}
    assert not columns["starter.a"].ways
    starter, core = spec.sections
    what = inquiry_of(core, spec.ladder, conventions(spec.presentation, core.methods).ways)
    assert what is not None
    assert mistake_named(MATCHING) in what.ways
    assert build_pack(by_parts(MATCHING), 1)
    found = foresee(pack, pupils=120)
    (habit,) = (one for one in found.habits if one.mistake.name == MATCHING)
    assert habit.shows[0] == 0 < habit.shows[-1]
    own = replace(starter, finds_out=(MATCHING,), finds_out_line=9)
    refused = made_by_another_method(own, conventions(spec.presentation, starter.methods).ways)
    assert refused is not None


def test_what_follows_is_worked_by_the_method_of_the_part_that_asked_it() -> None:
    spec = read_spec(
        BY_PARTS.replace("  - starter: {beans: 6}\n", "").replace("FINDS", "every habit").encode(),
        "beans.yaml",
        VOCABULARY,
    )
    pack = build_pack(spec, 1)
    results = marked(spec, pack, (MATCHING, None))
    assert [m.name for m in results.pupils[0].habits] == [MATCHING]
    asked = [item.question for section in pack.sections for item in section.items]
    found = follow_up(spec, results, Weighting(groups=True), range(2, 9), asked)
    assert {section.methods.multiply for section in found.spec.sections} == {"grid"}
