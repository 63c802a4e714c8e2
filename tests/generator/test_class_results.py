"""What a class's marks say of it: groups, who was absent, how far the secure have come, weeks."""

from collections.abc import Sequence
from fractions import Fraction
from functools import cache
from itertools import pairwise

import pytest

from generator.operations.mistakes import mistake_named, right_reply
from generator.packs.building import build_pack
from generator.results.class_results import ClassResults, attempt_of, class_results
from generator.results.diagnosis import Kind
from generator.results.mark_sheet import MarkColumn, mark_columns
from generator.results.over_weeks import MOST_WEEKS, before_today
from generator.results.posterior import evidence_of, posterior
from generator.results.side_by_side import SideBySide
from specs.marks import Entry, Marks, PupilRow, read_marks
from tests.generator.test_follow_up import LINED_UP, SMALLER, STALL

ALL = ("starter", "core", "stretch")


@cache
def columns(seed: int = 4) -> tuple[MarkColumn, ...]:
    return mark_columns(build_pack(STALL, seed).sections)


def row(
    pupil: str,
    *habits: str,
    sections: Sequence[str] = ALL,
    seed: int = 4,
    ticks: bool = False,
    wrong_on: str = "",
) -> PupilRow:
    """A pupil who follows some habits, or has crosses alone on a rung, and never slips."""
    entries = {}
    for column in columns(seed):
        if column.section.name not in sections:
            continue
        question = column.item.question
        given = [mistake_named(habit).wrong_answer(question) for habit in habits]
        answer = next((one for one in given if one is not None), right_reply(question))
        right = answer == right_reply(question) and column.item.rung != wrong_on
        if ticks or column.item.rung == wrong_on:
            entries[column.name] = Entry("y" if right else "n", ticked=right)
        else:
            entries[column.name] = Entry(answer.text, (answer,))
    return PupilRow(pupil, entries)


def results(*rows: PupilRow) -> ClassResults:
    return class_results(columns(), Marks(rows, ()))


def groups(found: ClassResults) -> list[tuple[str, tuple[str, ...]]]:
    return [(group.name, group.pupils) for group in found.groups]


def test_a_pupil_with_two_habits_is_in_the_group_of_each() -> None:
    found = results(row("1", LINED_UP), row("2", LINED_UP, SMALLER), row("3", SMALLER))
    assert groups(found) == [(LINED_UP, ("1", "2")), (SMALLER, ("2", "3"))]
    assert [pupil["habits"][0]["mistake"] for pupil in found.plain["pupils"]] == [
        LINED_UP,
        LINED_UP,
        SMALLER,
    ]


def test_ticks_and_crosses_alone_say_which_rung_is_not_there_yet() -> None:
    found = results(row("1", ticks=True, wrong_on="through-zeros"), row("2"))
    (not_there, secure) = found.groups
    assert (not_there.finding, not_there.pupils) == (Kind.NOT_THERE, ("1",))
    assert not_there.next_rung == "through-zeros"
    assert (secure.finding, secure.pupils) == (Kind.SECURE, ("2",))


def test_secure_is_said_as_far_as_a_pupil_has_come() -> None:
    found = results(
        row("1"),
        row("2", sections=("starter", "support")),
        row("3", sections=("starter", "core")),
        row("4", sections=("starter",)),
    )
    assert [(g.name, g.pupils, g.reached, g.next_rung) for g in found.groups] == [
        ("secure", ("1",), (), ""),
        (
            "secure so far",
            ("3",),
            ("equal-places", "mixed-places", "over-the-point", "through-zeros"),
            "five-addends",
        ),
        ("secure so far", ("2", "4"), ("equal-places", "mixed-places"), "over-the-point"),
    ]


def test_who_was_absent_is_known_by_a_word_or_by_a_bare_row_between_others() -> None:
    names = [column.name for column in columns()][:3]
    rows = "1,y,y,y\n2,,,\n3,absent,,\n4,y,n,y\n5,,ill,\n6,,,\n7,what,,\n8,,,\n"
    text = f"pupil,{','.join(names)}\n{rows}"
    asked = {column.name: column.asked for column in columns()}
    found = class_results(columns(), read_marks(text.encode(), "marks.csv", asked))
    assert found.absent == ("2", "3", "5")  # 7 has something; 6 and 8 are rows left over
    assert found.plain["absent"] == ["2", "3", "5"]
    assert [pupil.pupil for pupil in found.marked] == ["1", "4"]


def test_answers_of_earlier_packs_count_half_as_much_with_every_pack_after_them() -> None:
    sheets = [
        (columns(seed), Marks((row("07", LINED_UP, sections=("starter",), seed=seed),), ()))
        for seed in range(1, MOST_WEEKS + 3)
    ]
    before = before_today(sheets)
    assert list(before) == ["7"]
    weights = [attempt.weight for attempt in before["7"]]
    each = len([c for c in columns() if c.section.name == "starter"])
    assert weights == [
        Fraction(1, 2**back) for back in range(1, MOST_WEEKS + 1) for _ in range(each)
    ]


def chance(back: int, wrong: int = 0, right: int = 0) -> float:
    """How likely a habit is that showed throughout the pack so many packs ago.

    Today so many answers are the habit's, and so many right where it would show.
    """
    habit = mistake_named(LINED_UP)
    shows = [c for c in columns() if habit.wrong_answer(c.item.question) is not None]
    entries = {}
    for at, column in enumerate(shows[: wrong + right]):
        question = column.item.question
        answer = (habit.wrong_answer(question) if at < wrong else None) or right_reply(question)
        entries[column.name] = Entry(answer.text, (answer,))
    today = [attempt_of(c.item, entries[c.name]) for c in columns() if c.name in entries]
    others = [(columns(9), Marks((), ()))] * (back - 1)
    before = before_today([*others, (columns(5), Marks((row("1", LINED_UP, seed=5),), ()))])
    return posterior(evidence_of([*today, *before["1"]])).chances[habit]


def test_what_was_certain_is_half_as_likely_with_every_pack_that_came_after() -> None:
    """However much showed it then: the pupil may have learnt it since."""
    chances = [chance(back) for back in range(1, 5)]
    assert chances[0] == pytest.approx(0.5, abs=0.05)
    for newer, older in pairwise(chances):
        assert older == pytest.approx(newer / 2, abs=0.03)


def test_an_answer_of_today_brings_back_what_fades_or_does_away_with_it() -> None:
    assert chance(1, wrong=1) > 0.99
    assert chance(1, wrong=1) > chance(3, wrong=1) > chance(6, wrong=1)
    assert chance(1, right=1) < 0.1
    assert chance(1, right=3) < 0.01


def test_evidence_of_several_packs_adds_up() -> None:
    starter = row("1", LINED_UP, sections=("starter",))
    alone = class_results(columns(), Marks((starter,), ())).pupils[0].finding
    earlier = (columns(5), Marks((row("1", LINED_UP, sections=("starter",), seed=5),), ()))
    both = class_results(columns(), Marks((starter,), ()), before_today([earlier] * 2))
    assert both.pupils[0].finding.kind is Kind.HABIT
    assert both.pupils[0].finding.sure >= alone.sure
    assert both.pupils[0].attempted == 6  # of today


def test_who_was_absent_today_is_found_nothing_by_what_was_before() -> None:
    earlier = (columns(5), Marks((row("1", LINED_UP, seed=5),), ()))
    today = Marks((PupilRow("1", {}, absent=True), row("2")), ())
    found = class_results(columns(), today, before_today([earlier]))
    assert found.absent == ("1",)
    assert groups(found) == [("secure", ("2",))]


@pytest.mark.parametrize("pupils", [1, 3])
def test_classes_side_by_side_count_what_each_has(pupils: int) -> None:
    first = results(*(row(str(n), LINED_UP) for n in range(pupils)))
    second = results(row("1"), PupilRow("2", {}, absent=True))
    both = SideBySide(("9a", "9b"), (first, second))
    assert dict(both.findings)["absent"] == (0, 1)
    assert dict(both.findings)["habit"] == (pupils, 0)
    assert [(mistake.name, counts) for mistake, counts in both.habits] == [(LINED_UP, (pupils, 0))]
    assert both.spread("equal-places") == 0
    assert both.spread("five-addends") > Fraction(1, 2)
    assert both.tried("equal-places") == 3 * (pupils + 1)
