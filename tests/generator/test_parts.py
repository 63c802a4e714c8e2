"""A lesson's parts filled: in order, nothing twice, and no part hanging on another."""

import json
from collections import Counter

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.packs.building import TooFewQuestionsError, build_pack
from generator.packs.codes import PageCode, page_code
from generator.packs.pack import Pack
from generator.packs.record import RecordError, read_record, record
from generator.packs.working_out import work
from generator.results.mark_sheet import given_to_all, mark_columns
from generator.vocabulary import VOCABULARY
from specs import Spec, load_spec, shipped
from specs.spec import Methods
from tests.generator.ladders import spec

LADDER = """
level: {operation: add, places: 2, whole: 1, carries: none}
mixed: {operation: add, addends: 3, places: {ragged: [1, 3]}, carries: {count: [1, 2]}}
noughts: {operation: subtract, places: 3, exchanges: {through_zeros: 2}}
small: {operation: multiply, digits: 1, places: 1}
"""
SHORT = """
starter: {minutes: 10, questions: {level: 3, small: 2}}
examples: [mixed, noughts]
tiers:
  support: {level: 6, mixed: 3}
  core: {mixed: 4, noughts: 4, small: 2}
"""
START = """
lesson:
  - starter: {minutes: 10, questions: {level: 3, small: 2}}
  - examples: [mixed, noughts]
  - practice:
      tiers:
        support: {level: 6, mixed: 3}
        core: {mixed: 4, noughts: 4, small: 2}
"""
MORE = """  - examples: [level]
  - practice: {level: 4, small: 3}
  - exit: {mixed: 1, noughts: 1}
  - homework: {tiers: {support: {level: 4}, core: {small: 3, mixed: 4}}}
"""


def lesson(parts: str) -> Spec:
    return spec(LADDER, parts)


def texts(pack: Pack) -> dict[tuple[str, int], list[str]]:
    return {(s.name, s.version): [i.question.text for i in s.items] for s in pack.sections}


def test_sections_stand_in_the_lessons_order() -> None:
    pack = build_pack(lesson(START + MORE), seed=3)
    assert [(s.name, s.kind, len(s.items)) for s in pack.sections] == [
        ("starter", "starter", 5),
        ("examples", "example", 4),
        ("support", "practice", 9),
        ("core", "practice", 10),
        ("examples-2", "example", 2),
        ("practice-2", "practice", 7),
        ("exit", "exit", 2),
        ("homework-support", "homework", 4),
        ("homework-core", "homework", 7),
    ]
    assert all(section.minutes for section in pack.sections if section.kind != "example")


@pytest.mark.parametrize("versions", [1, 4])
@pytest.mark.parametrize("seed", range(5))
def test_the_short_form_and_the_whole_one_ask_the_same(seed: int, versions: int) -> None:
    short = build_pack(lesson(SHORT), seed, versions)
    whole = build_pack(lesson(START), seed, versions)
    assert texts(short) == texts(whole)
    assert short.code == whole.code
    for one, other in zip(short.sections, whole.sections, strict=True):
        assert page_code(short, one, 1) == page_code(whole, other, 1)


@pytest.mark.parametrize("seed", range(8))
def test_no_question_stands_twice_in_any_part_or_version(seed: int) -> None:
    asked = lesson(f"{START}{MORE}versions: {{core: 5, practice-2: 3, exit: 2}}")
    pack = build_pack(asked, seed, versions=2)
    counts = Counter(i.question.identity for s in pack.sections for i in s.items)
    assert max(counts.values()) == 1
    versions = Counter(section.name for section in pack.sections)
    assert versions["core"] == 5
    assert (versions["support"], versions["practice-2"]) == (2, 3)
    assert (versions["exit"], versions["homework-core"]) == (2, 1)
    assert all(s.versions == versions[s.name] for s in pack.sections)


def test_a_part_changed_or_added_leaves_the_others_as_they_were() -> None:
    """Of rungs that hold plenty: of a small one a later part passes over what is taken."""
    before = texts(build_pack(lesson(START.replace(", small: 2", "")), 7, 3))
    more = MORE.replace(", small: 3", "").replace("small: 3, ", "")
    after = texts(build_pack(lesson(START.replace(", small: 2", "") + more), 7, 3))
    assert {name: after[name] for name in before} == before
    again = texts(build_pack(lesson(START.replace(", small: 2", "") + more * 2), 7, 3))
    assert {name: again[name] for name in after} == after


def test_a_rung_that_is_too_small_for_all_parts_says_what_each_wants() -> None:
    with pytest.raises(TooFewQuestionsError) as error:
        build_pack(lesson(START + MORE + "versions: {core: 30}"), 1)
    assert "small has 36 questions, and 68 are wanted" in error.value.what
    for wanted in ("starter 2", "core 2 in 30 versions", "practice-2 3", "homework-core 3"):
        assert wanted in error.value.what


@given(
    versions=st.integers(1, 40),
    version=st.integers(1, 100),
    section=st.integers(0, 60),
    page=st.integers(1, 9),
    look=st.integers(0, 40),
    seed=st.integers(0, 999_999_999),
)
def test_a_page_code_is_read_as_it_was_written_whatever_version_it_is_of(
    versions: int, version: int, section: int, page: int, look: int, seed: int
) -> None:
    code = PageCode("K7HM", seed, versions, version, section, page, look)
    assert PageCode.parse(str(code)) == code


def test_all_page_codes_of_a_pack_differ() -> None:
    asked = lesson(f"{START}{MORE}versions: {{core: 9, exit: 4}}")
    pack = build_pack(asked, 5, versions=3)
    codes = [str(page_code(pack, section, page)) for section in pack.sections for page in (1, 2)]
    codes += [str(page_code(pack, None, page)) for page in (1, 2)]
    assert len(set(codes)) == len(codes)


def test_its_record_says_which_part_a_section_is_of() -> None:
    pack = build_pack(lesson(f"{START}{MORE}"), 2)
    plain = json.loads(json.dumps(record(pack)))
    assert [section.get("part") for section in plain["sections"]] == [
        *[None] * 4,
        "examples-2",
        "practice-2",
        *[None] * 3,
    ]
    again = read_record(plain)
    assert [s.place.part for s in again.sections] == [s.place.part for s in pack.sections]
    assert [s.place.name for s in again.sections] == [s.name for s in pack.sections]
    for part in ("practice2", "", "practice-x", 3):
        plain["sections"][5]["part"] = part
        with pytest.raises(RecordError):
            read_record(plain)


def test_all_pupils_have_what_is_alone_in_its_part() -> None:
    pack = build_pack(lesson(f"{START}{MORE}versions: {{exit: 3}}"), 2)
    assert given_to_all(mark_columns(pack.sections)) == {"starter", "practice-2"}
    single = build_pack(lesson(SHORT.replace("  core:", "  core: {level: 1}\n#")), 2)
    assert given_to_all(mark_columns(single.sections)) == {"starter"}


WHOLE_LESSONS = [
    "adding-then-taking-away",
    "sharing-with-homework",
    pytest.param("multiplying-by-the-grid", marks=pytest.mark.slow),
]


@pytest.mark.parametrize("name", WHOLE_LESSONS)
def test_the_whole_lessons_that_ship_ask_nothing_twice(name: str) -> None:
    for seed in range(2):
        pack = build_pack(load_spec(shipped(name), VOCABULARY), seed, versions=3)
        counts = Counter(i.question.identity for s in pack.sections for i in s.items)
        assert max(counts.values()) == 1


def test_one_lesson_shows_a_run_by_the_grid_and_one_long() -> None:
    spec = load_spec(shipped("multiplying-by-the-grid"), VOCABULARY)
    by_grid, long = Methods(multiply="grid"), Methods()
    assert spec.methods == long
    methods = {section.name: section.methods for section in spec.sections}
    assert (methods["examples"], methods["examples-2"]) == (by_grid, long)
    for seed in range(2):
        pack = work(build_pack(spec, seed))
        for name, boxes in (("examples", True), ("examples-2", False)):
            (shown,) = pack.named(name)
            firsts = [item.calculation.split(" × ")[0] for item in shown.items]
            assert firsts[0] == firsts[2], "the teacher's questions share their first number"
            assert firsts[1] == firsts[3], "and so do the class's"
            for item in shown.items:
                said = " ".join(step.sentence for step in item.working.steps)
                assert ("along the grid" in said) == boxes
