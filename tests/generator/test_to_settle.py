"""What is not settled after a lesson, and the follow-up's questions chosen to settle it."""

import pytest

from generator.operations.mistakes import Mistake, mistake_named, right_reply
from generator.packs.building import build_pack
from generator.packs.codes import pack_code
from generator.packs.pack import Pack
from generator.results import follow_up as module
from generator.results.class_results import ClassResults, class_results
from generator.results.follow_up import FollowUp, Weighting, follow_up
from generator.results.mark_sheet import mark_columns
from generator.results.settling import settling
from generator.results.to_settle import MOST_NAMED, ToSettle, to_settle
from generator.vocabulary import VOCABULARY
from specs import read_spec
from specs.digest import digest_of
from specs.marks import Entry, Marks, PupilRow
from specs.replies import Reply
from specs.spec import EVERY_HABIT, Spec

LESSON = """\
title: Beans
ladder:
  differences: {operation: subtract, places: {between: [1, 2]}, whole: {between: [1, 2]}}
  sums: {operation: add, places: {between: [1, 2]}, whole: {between: [1, 2]}}
starter: {differences: 3, sums: 3}
"""
BEANS = read_spec(LESSON.encode(), "beans.yaml", VOCABULARY)
SMALLER = "smaller digit taken from larger"
ZERO_GIVES_N = "zero minus n gives n"
COPIED_DOWN = "missing place copied down"
DROPPED = "carry dropped"
NOT_ADDED = "carry written but not added"
TWICE = "carry added twice"
HABITS = (SMALLER, DROPPED, ZERO_GIVES_N, TWICE, COPIED_DOWN)
GROUPS = Weighting(groups=True)


def once(pack: Pack, habits: tuple[str | None, ...], times: int = 1) -> ClassResults:
    """Pupils whose habit shows so many times at most; everything else they answer rightly."""
    columns = mark_columns(pack.sections)
    rows = []
    for pupil, name in enumerate(habits, 1):
        left, entries = times, {}
        for column in columns:
            question = column.item.question
            wrong = mistake_named(name).wrong_answer(question) if name and left else None
            left -= wrong is not None
            entries[column.name] = Entry("answer", (wrong or right_reply(question),))
        rows.append(PupilRow(str(pupil), entries))
    return class_results(columns, Marks(tuple(rows), ()))


def followed(results: ClassResults, pack: Pack, weighting: Weighting = GROUPS) -> FollowUp:
    seeds = range(pack.seed + 1, pack.seed + 9)
    asked = [item.question for section in pack.sections for item in section.items]
    return follow_up(BEANS, results, weighting, seeds, asked)


def finds_out(spec: Spec) -> dict[str, tuple[str, ...]]:
    return {one.name: one.finds_out for one in spec.sections if one.finds_out}


def of(results: ClassResults, pupil: str) -> tuple[str, ...]:
    (found,) = (one for one in results.pupils if one.pupil == pupil)
    return tuple(mistake.name for mistake in found.in_question)


# What is in question.


def test_two_habits_alike_and_a_single_wrong_answer_are_not_settled() -> None:
    pack = build_pack(BEANS, 0)
    alike = once(pack, (ZERO_GIVES_N, None), times=9)
    assert set(of(alike, "1")) == {ZERO_GIVES_N, COPIED_DOWN}, "nothing asked tells them apart"
    assert not of(alike, "2")
    single = once(pack, (SMALLER, DROPPED))
    assert of(single, "1") == (SMALLER,)
    assert set(of(single, "2")) == {DROPPED, NOT_ADDED}


def test_what_is_settled_asks_for_nothing_and_the_spec_is_as_ever() -> None:
    pack = build_pack(BEANS, 1)
    results = once(pack, (SMALLER, DROPPED, None), times=9)
    assert not any(pupil.is_open for pupil in results.pupils)
    found = followed(results, pack)
    assert not found.to_settle
    assert "finds_out" not in found.spec.text


def test_two_habits_that_the_same_follow_up_mends_are_settled() -> None:
    pack = build_pack(BEANS, 1)
    results = once(pack, (DROPPED,), times=9)
    (pupil,) = results.pupils
    assert pupil.finding.habits
    assert not pupil.in_question


# What tomorrow's sections are to find out.


def test_the_sheet_of_who_is_not_settled_names_the_habits_in_question() -> None:
    pack = build_pack(BEANS, 0)
    found = followed(once(pack, HABITS), pack)
    (group,) = (one for one in found.groups if one.group.finding == "not enough to say")
    (asked,) = (one for one in found.to_settle if one.section == group.name)
    assert asked.pupils == group.group.pupils == ("1", "2", "3", "4", "5")
    named = {ZERO_GIVES_N, COPIED_DOWN, SMALLER, NOT_ADDED, DROPPED, TWICE}
    assert set(finds_out(found.spec)[group.name]) == named
    assert len(named) <= MOST_NAMED
    assert asked.settled == asked.pupils


def test_the_starter_asks_of_its_own_rungs_alone() -> None:
    pack = build_pack(BEANS, 0)
    found = followed(once(pack, (SMALLER, *(None,) * 9, DROPPED)), pack, Weighting())
    assert {choice.rung for choice in found.choices} == {"sums"}
    assert set(finds_out(found.spec)["starter"]) == {DROPPED, NOT_ADDED}
    (asked,) = found.to_settle
    assert asked.pupils == ("11",), "what is in question of the first no sum shows"


def test_questions_chosen_settle_more_than_those_that_come(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Over seeds 0 to 19 those chosen are enough for 35 pupils of 35, those that come for 25."""
    pack = build_pack(BEANS, 0)
    results = once(pack, HABITS)
    assert enough_for(followed(results, pack), results) == len(HABITS)
    monkeypatch.setattr(module, "to_settle", lambda *_: None)
    assert enough_for(followed(results, pack), results) == 2


def enough_for(found: FollowUp, results: ClassResults) -> int:
    """For how many pupils their group's sheet is enough to settle what is in question."""
    questions = {s.name: [item.question for item in s.items] for s in found.pack.sections}
    sheets = {p: questions[sheet.name] for sheet in found.groups for p in sheet.group.pupils}
    left_open = [p for p in results.pupils if p.in_question and p.posterior]
    return sum(bool(settling(p.posterior, sheets[p.pupil], most=6)) for p in left_open)


def test_the_spec_alone_gives_the_pack_again_with_its_code() -> None:
    pack = build_pack(BEANS, 0)
    found = followed(once(pack, HABITS), pack)
    assert finds_out(found.spec)
    again = read_spec(found.spec.text.encode(), "follow-up.yaml", VOCABULARY)
    assert again == found.spec
    assert build_pack(again, found.pack.seed) == found.pack
    assert found.pack.code == pack_code(digest_of(again), found.pack.seed)


# What is left out of it.


def asked(pack: Pack, habits: tuple[str | None, ...], *rungs: str) -> ToSettle | None:
    return to_settle("starter", once(pack, habits).pupils, [BEANS.rung(name) for name in rungs])


def test_a_habit_that_no_question_of_the_rungs_shows_is_left_out() -> None:
    pack = build_pack(BEANS, 0)
    assert asked(pack, (SMALLER,), "sums") is None
    found = asked(pack, (SMALLER, DROPPED), "sums")
    assert found is not None
    assert {habit.name for habit in found.habits} == {DROPPED, NOT_ADDED}
    level = read_spec(
        b"title: Beans\nladder:\n  level: {operation: add, places: 1, whole: 1, carries: none}\n"
        b"starter: {level: 3}\n",
        "beans.yaml",
        VOCABULARY,
    ).ladder
    assert to_settle("starter", once(pack, (DROPPED,)).pupils, level) is None


def test_where_nothing_points_at_a_habit_every_one_is_to_be_found_out() -> None:
    pack = build_pack(BEANS, 0)
    columns = mark_columns(pack.sections)
    odd = {
        column.name: Entry("answer", (Reply(column.item.question.answer.value + 7 + at),))
        for at, column in enumerate(columns)
        if at % 2
    }
    right = {c.name: Entry("y", ticked=True) for c in columns if c.name not in odd}
    results = class_results(columns, Marks((PupilRow("1", {**odd, **right}),), ()))
    (pupil,) = results.pupils
    assert pupil.is_open
    assert not pupil.in_question
    found = to_settle("starter", results.pupils, BEANS.ladder)
    assert found == ToSettle("starter", (), ("1",))
    assert found.finds_out == (EVERY_HABIT,)


def test_no_more_habits_are_named_than_a_few_those_of_most_pupils_first() -> None:
    pack = build_pack(BEANS, 0)
    many = (*HABITS, "point ignored", TWICE)
    found = asked(pack, many, "sums", "differences")
    assert found is not None
    assert len(found.habits) == MOST_NAMED

    def pupils(habit: Mistake) -> int:
        return sum(habit in pupil.in_question for pupil in once(pack, many).pupils)

    counts = [pupils(habit) for habit in found.habits]
    assert counts == sorted(counts, reverse=True)
    assert mistake_named("point ignored") not in found.habits
    assert found.pupils == ("1", "2", "3", "4", "5", "7")
