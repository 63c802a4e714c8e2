"""Tomorrow's starter: how questions are shared out, and what is never asked twice."""

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis.strategies import integers, lists, text, tuples

from generator.arithmetic.questions import Operation, Question
from generator.operations.mistakes import mistake_named, right_reply
from generator.packs.building import TooFewQuestionsError, build_pack, passed_over
from generator.packs.pack import Pack
from generator.packs.telling_apart import mistakes_to_tell_apart, shown_apart
from generator.results.class_results import ClassResults, class_results
from generator.results.follow_up import (
    Choice,
    EarlierPack,
    FollowUp,
    NothingToFollowError,
    Weighting,
    follow_up,
    shortened,
)
from generator.results.mark_sheet import mark_columns
from generator.results.weighing import Need, shared_out
from generator.vocabulary import VOCABULARY
from specs import load_spec, read_spec, shipped, shipped_names
from specs.avoided import Avoided
from specs.digest import digest_of
from specs.marks import Entry, Marks, PupilRow
from specs.spec import Spec
from specs.writing import spec_text

LINED_UP = "numbers lined up at the right-hand end"
USUAL = Weighting()
LESSON = """\
title: "Produce stall: adding and subtracting"
ladder:
  equal-places: {operation: add, addends: 2, places: 2, whole: 1, carries: none}
  mixed-places:
    operation: add
    addends: 3
    places: {ragged: [1, 3]}
    carries: {count: [1, 2], across_point: false}
  over-the-point: {operation: add, places: 2, whole: 1, carries: {across_point: true}}
  through-zeros: {operation: subtract, places: 3, whole: 1, exchanges: {through_zeros: 2}}
  five-addends: {operation: add, addends: 5, places: {ragged: [1, 3]}}
starter: {minutes: 10, questions: {equal-places: 3, mixed-places: 3}}
tiers:
  support: {equal-places: 6, mixed-places: 3}
  core: {mixed-places: 4, over-the-point: 3, through-zeros: 2}
  stretch: {over-the-point: 3, through-zeros: 3, five-addends: 3}
"""
STALL = read_spec(LESSON.encode(), "stall.yaml", VOCABULARY)


def marked(pack: Pack, habits: list[str | None], sections: tuple[str, ...]) -> ClassResults:
    """The results of pupils who never slip."""
    columns = mark_columns(pack.sections)
    rows = []
    for pupil, habit in enumerate(habits, 1):
        entries = {}
        for column in columns:
            if column.section.name in sections:
                question = column.item.question
                wrong = mistake_named(habit).wrong_answer(question) if habit else None
                entries[column.name] = Entry("answer", (wrong or right_reply(question),))
        rows.append(PupilRow(str(pupil), entries))
    return class_results(columns, Marks(tuple(rows), ()))


def followed(
    habits: list[str | None],
    sections: tuple[str, ...] = ("starter", "core", "stretch"),
    weighting: Weighting = USUAL,
    spec: Spec = STALL,
    earlier: tuple[EarlierPack, ...] = (),
) -> tuple[FollowUp, Pack]:
    pack = build_pack(spec, 4)
    avoided = [item.question for section in pack.sections for item in section.items]
    results = marked(pack, habits, sections)
    return follow_up(spec, results, weighting, range(5, 13), avoided, earlier), pack


def counts(found: FollowUp) -> dict[str, int]:
    return {choice.rung: choice.count for choice in found.choices}


TABLES = """\
title: Rows of beans
ladder:
  short: {operation: multiply, digits: [2, 1]}
  long: {operation: multiply, digits: [2, 2]}
  equal-places: {operation: add, addends: 3, places: 1}
tiers:
  core: {short: 3, long: 2, equal-places: 1}
"""
TABLES_SPEC = read_spec(TABLES.encode(), "tables.yaml", VOCABULARY)
BEFORE = EarlierPack(TABLES_SPEC, frozenset({"short", "long", "equal-places"}))


def test_questions_go_where_the_marks_show_need() -> None:
    found, _ = followed([LINED_UP, LINED_UP, None])
    assert counts(found) == {"mixed-places": 3, "five-addends": 3}
    assert [item.rung for item in found.pack.sections[0].items] == [
        rung for rung, count in counts(found).items() for _ in range(count)
    ]
    assert all("a habit of 2 pupils" in choice.why for choice in found.choices)


@given(
    right=lists(tuples(integers(0, 40), integers(0, 40)), min_size=5, max_size=5),
    questions=integers(1, 40),
)
def test_of_two_rungs_the_one_with_more_wrong_never_gets_fewer_questions(
    right: list[tuple[int, int]], questions: int
) -> None:
    """Once a rung with 3 of 24 wrong got two questions, and one with 21 of 50 a single one."""
    ladder = [f"rung-{at}" for at in range(len(right))]
    tried = {
        rung: (wrong, wrong + good)
        for rung, (wrong, good) in zip(ladder, right, strict=True)
        if wrong + good
    }
    found = [Need(rung, Fraction(*tried[rung]), "") for rung in ladder if rung in tried]
    if not found:
        return
    shared = {choice.rung: choice.count for choice in shared_out(ladder, found, questions)}
    assert sum(shared.values()) == questions
    for first in found:
        for second in found:
            if first.weight > second.weight:
                assert shared.get(first.rung, 0) >= shared.get(second.rung, 0) or (
                    len(shared) == 1  # nothing is needed, and the ladder ends there
                )


def test_of_a_class_with_21_of_50_wrong_on_one_rung_and_3_of_24_on_another() -> None:
    found = [
        Need("first", Fraction(3, 24), "3 of 24 wrong"),
        Need("second", Fraction(21, 50), "21 of 50 wrong"),
        Need("third", Fraction(6, 30), "6 of 30 wrong"),
    ]
    assert shared_out(["first", "second", "third", "fourth"], found, 6) == (
        Choice("second", 4, "21 of 50 wrong"),
        Choice("third", 2, "6 of 30 wrong"),
    )


@pytest.mark.parametrize(
    ("weighting", "older"),
    [
        (Weighting(questions=6, review=Fraction(0)), 0),
        (Weighting(questions=6, review=Fraction(1, 2)), 3),
        (Weighting(questions=9, review=Fraction(1, 3)), 3),
        (Weighting(questions=2, review=Fraction(1)), 1),  # one at least is for what is needed
        (Weighting(questions=6, habits=0), 2),
        (Weighting(questions=6, review=Fraction(1, 4)), 2),  # half a question is a whole one
        (Weighting(questions=6, review=Fraction(24, 100)), 1),
        (Weighting(questions=5, review=Fraction(1, 2)), 3),
        (Weighting(questions=4, review=Fraction(1)), 3),
    ],
)
def test_the_weighting_can_be_set(weighting: Weighting, older: int) -> None:
    found, _ = followed([LINED_UP, LINED_UP, None], weighting=weighting, earlier=(BEFORE,))
    assert sum(counts(found).values()) == weighting.questions
    kept_up = [choice for choice in found.choices if choice.why.startswith("to keep it up")]
    assert sum(choice.count for choice in kept_up) == older
    assert {choice.rung for choice in kept_up} <= {"short", "long", "equal-places-2"}
    assert [item.rung for item in found.pack.sections[0].items] == [
        rung for rung, count in counts(found).items() for _ in range(count)
    ]


def test_no_rung_of_todays_lesson_is_an_older_one() -> None:
    same = EarlierPack(STALL, frozenset(rung.name for rung in STALL.ladder))
    for earlier in ((), (same,)):
        found, _ = followed([LINED_UP, LINED_UP, None], earlier=earlier)
        assert not any("to keep it up" in choice.why for choice in found.choices)
        assert sum(counts(found).values()) == 6


def test_a_class_that_is_secure_goes_on_to_the_next_rung() -> None:
    found, _ = followed([None, None], ("starter",))
    assert counts(found) == {"over-the-point": 6}
    everywhere, _ = followed([None, None])
    assert counts(everywhere) == {"five-addends": 6}


def test_no_question_comes_again_and_the_spec_alone_gives_the_pack() -> None:
    found, pack = followed([LINED_UP, None])
    before = {item.question.identity for section in pack.sections for item in section.items}
    after = {item.question.identity for section in found.pack.sections for item in section.items}
    assert not before & after
    assert not found.listed
    assert not found.spec.avoid
    assert build_pack(read_spec(found.spec.text.encode(), "x.yaml", VOCABULARY), found.pack.seed)
    again = build_pack(found.spec, found.pack.seed)
    assert again == found.pack


def test_questions_show_the_habits_of_the_class() -> None:
    found, _ = followed([LINED_UP, LINED_UP])
    mixed = found.spec.rung("mixed-places")
    assert mistakes_to_tell_apart(mixed) == (mistake_named(LINED_UP),)
    for item in found.pack.sections[0].items:
        if item.rung == "mixed-places":
            assert shown_apart(item.question, mistakes_to_tell_apart(mixed))


def test_what_the_starter_tells_apart_tomorrows_does_as_well() -> None:
    told = "tells_apart: [carry dropped, smaller digit taken from larger], "
    spec = read_spec(
        LESSON.replace(
            "questions: {equal-places: 3,", told + "questions: {through-zeros: 3,"
        ).encode(),
        "stall.yaml",
        VOCABULARY,
    )
    found, _ = followed([SMALLER, "carry dropped"], spec=spec)
    assert found.spec.starter is not None
    assert found.spec.starter.tells_apart == ("carry dropped", SMALLER)
    sums, _ = followed([None, None], ("support",), spec=spec)
    assert sums.spec.starter is not None  # no rung there exchanges, and one carries nothing
    assert sums.spec.starter.tells_apart == ("carry dropped",)


SMALLER = "smaller digit taken from larger"
FEW = """\
title: Beans
ladder:
  beans: {operation: add, places: 1, whole: 0, carries: none}
tiers:
  core: {beans: 8}
"""  # twenty questions


def test_a_small_rung_is_drawn_around_what_was_asked() -> None:
    spec = read_spec(FEW.encode(), "few.yaml", VOCABULARY)
    found, pack = followed([None], ("core",), Weighting(questions=10), spec)
    before = {item.question.identity for item in pack.sections[0].items}
    after = [item.question.identity for item in found.pack.sections[0].items]
    assert len(set(after) | before) == 18
    assert 0 < found.listed <= 8
    assert found.listed == len(found.spec.avoid)
    assert build_pack(read_spec(found.spec.text.encode(), "follow-up.yaml", VOCABULARY), 5) == (
        found.pack
    )
    with pytest.raises(TooFewQuestionsError, match="among the questions to be avoided"):
        followed([None], ("core",), Weighting(questions=13), spec)


def test_a_follow_up_drawn_around_questions_can_be_followed_in_its_turn() -> None:
    spec = read_spec(FEW.encode(), "few.yaml", VOCABULARY)
    first, pack = followed([None], ("core",), Weighting(questions=6), spec)
    asked = [item.question for one in (pack, first.pack) for item in one.sections[0].items]
    results = marked(first.pack, [None], ("starter",))
    second = follow_up(first.spec, results, Weighting(questions=6), range(5, 13), asked)
    new = {item.question.identity for item in second.pack.sections[0].items}
    assert len(new | {question.identity for question in asked}) == 20
    assert build_pack(second.spec, second.pack.seed) == second.pack


@given(seed=integers(0, 10**6), before=integers(0, 10**6))
@settings(max_examples=15, deadline=None)
@pytest.mark.slow
def test_only_questions_that_stood_in_the_way_need_to_be_named(seed: int, before: int) -> None:
    spec = read_spec(MIXED.encode(), "mixed.yaml", VOCABULARY)
    asked = [item.question for part in build_pack(spec, before).sections for item in part.items]
    every = tuple(named(question) for question in asked)
    some = passed_over(spec, seed, asked)
    assert set(some) <= set(every)
    around, around_all = (build_pack(replace(spec, avoid=names), seed) for names in (some, every))
    assert around.sections == around_all.sections
    new = {item.question.identity for part in around.sections for item in part.items}
    assert not new & {question.identity for question in asked}


def named(question: Question) -> Avoided:
    """A question written out for ``avoid``, by way of its text."""
    numbers = ", ".join(map(str, question.operands))
    match question.operation:
        case Operation.ROUND:
            text = f"round {numbers} to {question.places}"
        case Operation.ORDER | Operation.COMPARE:
            text = f"{question.operation} {numbers}"
        case _:
            text = question.text
    found = Avoided.parse(text)
    assert found is not None
    assert found.text == text
    return found


MIXED = """\
title: Beans
ladder:
  sums: {operation: add, places: 1, whole: 0}
  differences: {operation: subtract, places: 1, whole: 0}
  products: {operation: multiply, digits: [1, 1], places: [1, 1]}
  shares: {operation: divide, divisor: {between: [3, 5]}, dividend: {digits: 2}}
  pairs: {operation: compare, places: {between: [1, 2]}, whole: 0}
  rows: {operation: order, numbers: 3, places: 1, whole: 0, same_to: ones}
  tens: {operation: round, places: 1, whole: 1, to: [ones, tens]}
tiers:
  core: {sums: 9, differences: 9, products: 9, shares: 9, pairs: 8, rows: 8, tens: 8}
"""


@pytest.mark.parametrize("name", shipped_names())
def test_the_specs_that_ship_read_back_as_well(name: str) -> None:
    spec = load_spec(shipped(name), VOCABULARY)
    assert read_spec(spec_text(spec).encode(), f"{name}.yaml", VOCABULARY) == spec


@pytest.mark.parametrize(
    ("title", "shown"),
    [
        ("Short division: sharing exactly", "Short division: sharing exactly"),
        (
            "Short division: sharing exactly, with remainders, into decimals",
            "Short division: sharing exactly, with remainders…",
        ),
        (
            "Adding and taking away the masses of sacks and crates of the harvest",
            "Adding and taking away the masses of sacks and crates of the…",
        ),
        ("x" * 61, "x" * 61),
        ("x" * 70, "x" * 60 + "…"),
    ],
)
def test_no_word_of_a_long_title_is_cut_in_two(title: str, shown: str) -> None:
    assert shortened(title, 61) == shown


@given(text(alphabet="ab ,;:", min_size=1, max_size=80), integers(2, 80))
def test_a_title_made_shorter_has_room(title: str, most: int) -> None:
    assert len(shortened(title, most)) <= most


def test_nothing_follows_from_an_empty_mark_sheet() -> None:
    with pytest.raises(NothingToFollowError, match="no question of the ladder has an answer"):
        followed([None], ())


AVOID = "avoid:\n  - 3.4 + 0.27\n  - 5 − 2.13\n  - order 0.4, 0.35, 0.3\n  - round 347 to -1\n"
PAGES = "pages: {paper: A5, squares: 10, large: {starter: 18}, tint: cream, placeholders: false}\n"


@pytest.mark.parametrize("extra", ["", "matching: rung\n", PAGES, AVOID])
@pytest.mark.parametrize("rung", ["", "form: missing number", "context: [money, mass]"])
def test_a_spec_reads_back_as_it_was_written(extra: str, rung: str) -> None:
    text = LESSON.replace("    addends: 3\n", f"    addends: 3\n    {rung}\n") + extra
    assert rung in text
    spec = read_spec(text.encode(), "stall.yaml", VOCABULARY)
    written = spec_text(spec)
    again = read_spec(written.encode(), "stall.yaml", VOCABULARY)
    assert again == spec
    assert digest_of(again) == digest_of(spec)
    assert spec_text(again) == written
