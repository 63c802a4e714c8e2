"""Sheets for groups and for absent pupils, in tomorrow's pack."""

from collections import Counter

import pytest

from generator.forms.spot_the_mistake import SpotTheMistake
from generator.packs.building import build_pack
from generator.packs.pack import Section
from generator.results.follow_up import FollowUp, Weighting
from generator.results.group_sheets import mends
from generator.vocabulary import VOCABULARY
from specs import read_spec
from specs.problems import SpecError
from tests.generator.test_follow_up import LINED_UP, SMALLER, followed

ALL = Weighting(groups=True, catch_up=True)
POINTS = "point ignored"
NOT_LOWERED = "exchange without lowering the next column"


def section(found: FollowUp, name: str) -> Section:
    (one,) = (one for one in found.pack.sections if one.name == name)
    return one


def test_each_group_has_a_sheet_with_questions_that_show_its_habit() -> None:
    found, _ = followed([LINED_UP, LINED_UP, SMALLER, None], weighting=ALL)
    assert [(sheet.name, sheet.group.pupils) for sheet in found.groups] == [
        ("group-1", ("1", "2")),
        ("group-2", ("3",)),
        ("group-3", ("4",)),
    ]
    for sheet in found.groups[:2]:
        items = section(found, sheet.name).items
        assert len(items) == ALL.questions
        assert sheet.group.mistake is not None
        shown = [i for i in items if sheet.group.mistake.wrong_answer(i.question) is not None]
        assert len(shown) >= ALL.questions - 1
    # A group's rungs are those on which its own pupils went wrong.
    assert {item.rung for item in section(found, "group-2").items} == {"through-zeros"}
    assert {item.rung for item in section(found, "group-1").items} == {
        "mixed-places",
        "five-addends",
    }


def test_what_mends_a_habit_is_worked_by_it_and_then_rightly() -> None:
    found, _ = followed([LINED_UP, SMALLER], weighting=ALL)
    examples = section(found, "examples").items
    assert [item.rung for item in examples] == [
        *("group-1-mistake", "group-1-mistake"),
        *("group-2-mistake", "group-2-mistake"),
    ]
    for at, habit in enumerate((LINED_UP, LINED_UP, SMALLER, SMALLER)):
        form = examples[at].form
        assert isinstance(form, SpotTheMistake)
        assert form.mistake == habit


@pytest.mark.slow
def test_a_habit_that_shows_on_no_squares_has_a_sheet_alone() -> None:
    found, _ = followed([POINTS, POINTS], weighting=ALL)
    (sheet, *_) = found.groups
    assert sheet.group.name == POINTS
    assert sheet.mends is None
    assert not any(one.kind == "example" for one in found.pack.sections)
    assert len(section(found, sheet.name).items) == ALL.questions


def test_a_catch_up_sheet_has_two_of_each_rung_that_was_asked() -> None:
    found, pack = followed([LINED_UP, None], weighting=Weighting(catch_up=True))
    catch_up = section(found, "catch-up")
    asked = {i.rung for one in pack.sections for i in one.items if one.kind != "example"}
    assert Counter(item.rung for item in catch_up.items) == dict.fromkeys(asked, 2)
    assert catch_up.frames == ("full", "none")
    assert not found.groups


def test_the_starter_is_the_same_with_further_sheets_or_without() -> None:
    alone, _ = followed([LINED_UP, SMALLER, None])
    with_sheets, _ = followed([LINED_UP, SMALLER, None], weighting=ALL)
    assert alone.choices == with_sheets.choices
    assert [s.name for s in alone.pack.sections] == ["starter"]


def test_all_is_one_pack_that_its_spec_and_seed_give_again() -> None:
    found, pack = followed([LINED_UP, SMALLER, None], weighting=ALL)
    again = build_pack(read_spec(found.spec.text.encode(), "x.yaml", VOCABULARY), found.pack.seed)
    assert again == found.pack
    before = [item.question.identity for one in pack.sections for item in one.items]
    after = [item.question.identity for one in found.pack.sections for item in one.items]
    assert not set(before) & set(after)
    assert len(set(after)) == len(after)


def test_rungs_that_mend_a_group_go_when_the_starter_is_followed() -> None:
    found, _ = followed([LINED_UP, SMALLER], weighting=ALL)
    assert any(map(mends, found.spec.ladder))
    second, _ = followed([LINED_UP, None], ("starter",), spec=found.spec)
    assert not any(map(mends, second.spec.ladder))
    assert [r.name for r in second.spec.ladder] == [
        rung.name for rung in found.spec.ladder if not mends(rung)
    ]


@pytest.mark.parametrize(
    ("rung", "says"),
    [
        (
            "operation: add, places: 2, worked_by: carry dropped",
            "'worked_by' has no meaning without 'form: spot the mistake'",
        ),
        (
            "operation: add, places: 2, form: spot the mistake, worked_by: carries dropped",
            "did you mean 'carry dropped'",
        ),
    ],
)
def test_what_worked_by_may_say(rung: str, says: str) -> None:
    text = f"title: Beans\nladder:\n  beans: {{{rung}}}\nstarter: {{beans: 1}}\n"
    with pytest.raises(SpecError, match=says):
        read_spec(text.encode(), "beans.yaml", VOCABULARY)


def test_questions_are_worked_by_the_mistakes_that_are_named() -> None:
    text = (
        "title: Beans\nladder:\n  beans: {operation: subtract, places: 2, exchanges: some, form: "
        f"spot the mistake, worked_by: [{SMALLER}, {NOT_LOWERED}]}}\nstarter: {{beans: 12}}\n"
    )
    pack = build_pack(read_spec(text.encode(), "beans.yaml", VOCABULARY), 1)
    forms = [item.form for item in pack.sections[0].items]
    assert {f.mistake for f in forms if isinstance(f, SpotTheMistake)} == {
        SMALLER,
        NOT_LOWERED,
    }
