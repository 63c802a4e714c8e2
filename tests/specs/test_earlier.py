"""Retrieval: rungs taken from earlier specs, files beside this one."""

import os
import re
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.packs.building import build_pack
from generator.vocabulary import VOCABULARY
from specs import SpecError, load_spec, read_spec
from specs.digest import digest_of
from specs.earlier import FILE, MOST_FILES, name_here, spread
from specs.names import PATTERN
from specs.writing import spec_text
from specs.yaml_text import LARGEST

TODAY = """\
title: Beans weighed
ladder:
  three-numbers: {operation: add, addends: 3, places: 2, whole: 1}
starter:
  minutes: 6
  earlier: {last-lesson.yaml: 3, last-week.yaml: {one-exchange: 2}, Last month.yml: 1}
tiers:
  core: {questions: {three-numbers: 4}, earlier: {last-lesson.yaml: 1}}
"""
LAST_LESSON = """\
title: "Beans: the same places"
ladder:
  level: {operation: add, places: 2, whole: 1, carries: none}
  one-carry: {operation: add, places: 2, whole: 1, carries: {count: 1}}
starter: {earlier: {no-such-file.yaml: 2}}
"""
LAST_WEEK = """\
title: Seed taken from a sack
ladder:
  one-exchange:
    operation: subtract
    shown_as: Taking seed away
    places: 2
    whole: 1
    exchanges: {count: 1}
starter: {one-exchange: 1}
"""
LAST_MONTH = """\
title: Rows shared
ladder:
  Sharing: {operation: divide, dividend: {digits: 3}, places: 1, divisor: {between: [3, 9]}}
starter: {sharing: 1}
"""


@pytest.fixture
def folder(tmp_path):
    for name, text in (
        ("today.yaml", TODAY),
        ("last-lesson.yaml", LAST_LESSON),
        ("last-week.yaml", LAST_WEEK),
        ("Last month.yml", LAST_MONTH),
    ):
        (tmp_path / name).write_text(text, encoding="utf-8")
    return tmp_path


def read(folder):
    return load_spec(folder / "today.yaml", VOCABULARY)


def refused(folder, today=TODAY):
    (folder / "today.yaml").write_text(today, encoding="utf-8")
    with pytest.raises(SpecError) as error:
        read(folder)
    return [str(problem).replace(f"{folder}/", "") for problem in error.value.problems]


def test_a_starter_takes_rungs_under_names_that_say_where_they_come_from(folder):
    spec = read(folder)
    starter, core = spec.sections
    assert [(share.rung, share.count) for share in starter.shares] == [
        ("last-lesson-level", 1),
        ("last-lesson-one-carry", 2),
        ("last-week-one-exchange", 2),
        ("last-month-sharing", 1),
    ]
    assert [(share.rung, share.count) for share in core.shares] == [
        ("three-numbers", 4),
        ("last-lesson-one-carry", 1),
    ]
    assert [rung.name for rung in spec.ladder] == [
        "last-lesson-level",
        "last-lesson-one-carry",
        "last-week-one-exchange",
        "last-month-sharing",
        "three-numbers",
    ], "before the spec's own, which is what today's lesson climbs"
    assert spec.rung("last-week-one-exchange").shown_as == "Taking seed away"
    assert {rung.line for rung in spec.ladder} == {3, 6}, "where the spec asks for them"


@pytest.mark.parametrize("seed", [1, 2, 3])
def test_each_question_is_exactly_on_its_rung_and_none_comes_again(folder, seed):
    spec = read(folder)
    asked = [item for section in build_pack(spec, seed).sections for item in section.items]
    assert len(asked) == 11
    assert len({str(item.question) for item in asked}) == 11
    for item in asked:
        numbers = [Fraction(str(number)) for number in item.question.operands]
        if item.rung == "last-lesson-level":
            assert carries(*numbers) == 0
        elif item.rung == "last-lesson-one-carry":
            assert carries(*numbers) == 1
        elif item.rung == "last-week-one-exchange":
            taken, answer = numbers[1], numbers[0] - numbers[1]
            assert carries(taken, answer) == 1, "an exchange is a carry of the check"
        elif item.rung == "last-month-sharing":
            assert 3 <= numbers[1] <= 9


def carries(first, second):
    """Columns that carry when numbers with two places are added, by their digit sums.

    A carry makes ten of one column one of the next, so each takes nine from the digit sum
    (Legendre; from memory).
    """
    digits = [sum(map(int, str(int(number * 100)))) for number in (first, second, first + second)]
    return (digits[0] + digits[1] - digits[2]) // 9


def test_a_pack_is_built_again_from_its_own_text_without_the_files(folder):
    spec = read(folder)
    again = read_spec(spec.text.encode(), "kept.yaml", VOCABULARY)
    assert "earlier" not in spec.text
    assert digest_of(again) == digest_of(spec)
    assert build_pack(again, 3).sections == build_pack(spec, 3).sections
    assert spec_text(again) == spec.text


@pytest.mark.parametrize(
    ("asked", "rungs", "counts"),
    [
        (1, 1, [1]),
        (1, 5, [0, 0, 1, 0, 0]),
        (2, 5, [0, 1, 0, 1, 0]),
        (3, 6, [0, 1, 0, 1, 0, 1]),
        (4, 4, [1, 1, 1, 1]),
        (5, 2, [2, 3]),
        (40, 1, [40]),
    ],
)
def test_questions_are_spread_evenly_over_a_ladder(asked, rungs, counts):
    assert spread(asked, rungs) == counts


@given(st.integers(1, 40), st.integers(1, 60))
def test_no_rung_gives_more_than_one_question_more_than_another(asked, rungs):
    counts = spread(asked, rungs)
    assert sum(counts) == asked
    assert max(counts) - min(counts) <= 1


@given(st.from_regex(FILE, fullmatch=True), st.from_regex(PATTERN, fullmatch=True))
def test_a_name_is_fit_whatever_the_file_is_called(file, rung):
    assert re.fullmatch(PATTERN, name_here(file, rung))


@pytest.mark.parametrize(
    ("now", "then", "said"),
    [
        ("last-lesson", "lost", "today.yaml:6: 'earlier' names 'lost.yaml', which cannot be open"),
        ("one-exchange:", "one-exchang:", "6: the ladder of 'last-week.yaml' has no rung 'one-e"),
        ("last-lesson.yaml: 3", "../last-lesson.yaml: 3", "is no file beside the spec; write"),
        ("last-lesson.yaml: 3", "last-lesson.txt: 3", "is no file beside the spec; write"),
        ("last-lesson.yaml: 3", "last-lesson.yaml: 0", "'last-lesson.yaml' in 'earlier'"),
        ("last-lesson.yaml: 3", "last-lesson.yaml: 41", "write a whole number from 1 to 40"),
        ("earlier: {last-lesson.yaml: 1}", "earlier: [last-lesson.yaml]", "today.yaml:8: 'earlier"),
        ("three-numbers: {op", "last-lesson-level: {op", "as one of the spec's own ladder; give"),
    ],
)
def test_what_is_wrong_is_said_on_its_line(folder, now, then, said):
    problems = refused(folder, TODAY.replace(now, then))
    assert any(said in problem for problem in problems), problems


def test_a_section_may_be_of_earlier_rungs_alone_and_have_its_other_words(folder):
    today = TODAY.replace("questions: {three-numbers: 4}", "frames: full")
    (folder / "today.yaml").write_text(today, encoding="utf-8")
    (_, core) = read(folder).sections
    assert (core.questions, core.frames) == (1, ("full", "full"))


def test_what_is_wrong_in_an_earlier_spec_is_said_with_its_own_file_and_line(folder):
    earlier = folder / "last-lesson.yaml"
    earlier.write_text(LAST_LESSON.replace("{count: 1}", "{count: many}"), encoding="utf-8")
    assert any(problem.startswith("last-lesson.yaml:4: ") for problem in refused(folder))
    for data, said in (
        (b"x" * (LARGEST + 1), "last-lesson.yaml:1: the file is larger than 256 KiB"),
        (b"\xff\xfe", "last-lesson.yaml:1: the file is not UTF-8 text"),
        (b"", "last-lesson.yaml:1: the file is empty"),
        (b"title: Beans\n", "last-lesson.yaml:1: this is no spec to take rungs from: it has no"),
        (b"- a\n- b\n", "last-lesson.yaml:1: a spec is made of words with a colon"),
        (b"ladder: {}\n", "last-lesson.yaml:1: the ladder has no rungs"),
        (b"ladder: &a [x]\nb: [*a, *a]\n", "last-lesson.yaml:1: "),
    ):
        earlier.write_bytes(data)
        problems = refused(folder)
        assert any(problem.startswith(said) for problem in problems), (said, problems)
        assert all(problem.startswith("last-lesson.yaml:") for problem in problems), problems


def test_nothing_but_a_file_is_opened_and_no_more_of_them_than_a_spec_needs(folder):
    (folder / "rows.yaml").mkdir()
    os.mkfifo(folder / "pipe.yaml")
    for name in ("rows.yaml", "pipe.yaml"):
        (problem,) = refused(folder, TODAY.replace("last-lesson.yaml: 3", f"{name}: 3"))
        assert "which cannot be opened" in problem
    files = ", ".join(f"f{at}.yaml: 1" for at in range(MOST_FILES + 1))
    problems = refused(folder, TODAY.replace("last-lesson.yaml: 3", files))
    assert any(f"names {MOST_FILES + 4} files; keep to {MOST_FILES}" in p for p in problems)


def test_a_ladder_with_earlier_rungs_is_no_longer_than_any_other(folder):
    rung = "{operation: add, places: 2, whole: 1}"
    many = "".join(f"  r{at}: {rung}\n" for at in range(60))
    (folder / "last-lesson.yaml").write_text(f"title: Many\nladder:\n{many}", encoding="utf-8")
    half, rest = (
        "{" + ", ".join(f"r{at}: 1" for at in range(first, first + 30)) + "}" for first in (0, 30)
    )
    today = TODAY.replace("lesson.yaml: 3", f"lesson.yaml: {half}")
    problems = refused(folder, today.replace("yaml: 1}}", f"yaml: {rest}}}}}"))
    assert len(problems) == 1
    assert "63 rungs with those of 'earlier'; keep to 60" in problems[0]
    problems = refused(folder, TODAY.replace("lesson.yaml: 3", "lesson.yaml: 40, many.yaml: 40"))
    assert any("cannot be opened" in problem for problem in problems)
    (folder / "many.yaml").write_text(f"title: Many\nladder:\n{many}", encoding="utf-8")
    problems = refused(folder, TODAY.replace("lesson.yaml: 3", "lesson.yaml: 40, many.yaml: 40"))
    assert any("has 83 questions; keep to 60 in a section" in p for p in problems), problems


def test_where_no_other_file_can_be_read_that_is_said_once_for_each_of_them():
    with pytest.raises(SpecError) as error:
        read_spec(TODAY.encode(), "lesson.yaml", VOCABULARY)
    said = [str(problem) for problem in error.value.problems]
    assert len(said) == 3
    assert all(problem.startswith("lesson.yaml:6: 'earlier' names ") for problem in said)
    assert all("which is no file that can be read here; build from" in problem for problem in said)


def test_the_parts_of_a_lesson_take_earlier_rungs_and_examples_none(folder):
    lesson = (
        TODAY.split("starter:")[0]
        + """\
lesson:
  - starter: {earlier: {last-week.yaml: 2}}
  - practice: {tiers: {a: {earlier: {last-week.yaml: 1}}, b: {three-numbers: 2}}}
  - exit: {questions: {three-numbers: 1}, earlier: {last-lesson.yaml: 1}}
"""
    )
    (folder / "today.yaml").write_text(lesson, encoding="utf-8")
    spec = read(folder)
    assert [section.questions for section in spec.sections] == [2, 1, 2, 2]
    assert read_spec(spec.text.encode(), "again.yaml", VOCABULARY).parts == spec.parts
    shown = lesson.replace(
        "exit: {questions: {three-numbers: 1}", "examples: {questions: [three-numbers]"
    )
    assert any("'earlier'" in problem for problem in refused(folder, shown))
