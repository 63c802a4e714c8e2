"""Questions that tell mistakes apart: what is chosen, and why a rung cannot."""

from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis.strategies import integers

from generator.arithmetic.questions import Question
from generator.operations.mistakes import mistake_named, right_reply
from generator.packs.building import build_pack
from generator.packs.telling_apart import CannotTellApartError, mistakes_to_tell_apart, shown_apart
from generator.vocabulary import VOCABULARY
from specs import Spec, SpecError, read_spec
from specs.digest import digest_of
from specs.writing import spec_text

SMALLER = "smaller digit taken from larger"
NOT_LOWERED = "exchange without lowering the next column"
ZERO_GIVES_N = "zero minus n gives n"
ZERO_GIVES_0 = "zero minus n gives 0"


def spec(rung: str, count: int = 4, sections: str = "") -> Spec:
    text = f"title: Beans\nladder:\n  beans: {{{rung}}}\ntiers:\n  core: {{beans: {count}}}\n"
    return read_spec((text + sections).encode(), "beans.yaml", VOCABULARY)


def answers(question: Question, names: list[str]) -> list[object]:
    """The answers under the right method and each procedure: a pupil's whose mistake does not
    show is right."""
    right = right_reply(question)
    return [right, *(mistake_named(name).works(question) or right for name in names)]


EXCHANGES = "operation: subtract, places: 2, whole: 1, exchanges: {count: [1, 2]}"


@pytest.mark.parametrize(
    ("rung", "names"),
    [
        (EXCHANGES, [SMALLER, NOT_LOWERED, ZERO_GIVES_N]),
        (EXCHANGES, [SMALLER, NOT_LOWERED, ZERO_GIVES_N, ZERO_GIVES_0, "stops at a zero"]),
        (
            "operation: add, places: {ragged: [1, 3]}, whole: 1",
            ["numbers lined up at the right-hand end", "carry dropped", "carry added twice"],
        ),
        (
            "operation: add, places: 1, whole: 2",
            ["carry written but not added", "carry dropped"],
        ),
    ],
)
@pytest.mark.parametrize("seed", range(3))
def test_every_version_of_a_section_separates_every_pair(
    rung: str, names: list[str], seed: int
) -> None:
    asked = spec(f"{rung}, tells_apart: [{', '.join(names)}]", 6)
    pack = build_pack(asked, seed, versions=3)
    for section in pack.sections:
        given = [answers(item.question, names) for item in section.items]
        for item in section.items:
            works = [mistake_named(name).works(item.question) for name in names]
            shown = [answer for answer in works if answer is not None]
            assert shown
            assert len({right_reply(item.question), *shown}) == len(shown) + 1
        for first, second in combinations(range(len(names) + 1), 2):
            assert any(each[first] != each[second] for each in given), (first, second)


def test_the_choice_is_the_same_for_the_same_seed_and_starter_and_examples_have_it_too() -> None:
    asked = spec(
        f"{EXCHANGES}, tells_apart: [{SMALLER}, {ZERO_GIVES_N}]",
        4,
        "starter: {beans: 3}\nexamples: [beans]\n",
    )
    pack = build_pack(asked, 5)
    assert pack == build_pack(asked, 5)
    mistakes = mistakes_to_tell_apart(asked.ladder[0])
    for section in pack.sections:
        assert all(shown_apart(item.question, mistakes) for item in section.items)


def test_the_word_leaves_other_rungs_as_they_are() -> None:
    plain, asked = spec(EXCHANGES), spec(f"{EXCHANGES}, tells_apart: [{SMALLER}]")
    assert mistakes_to_tell_apart(plain.ladder[0]) == ()
    assert mistakes_to_tell_apart(asked.ladder[0]) == (mistake_named(SMALLER),)


@pytest.mark.parametrize(
    ("rung", "names", "says"),
    [
        (  # one digit before the point and one behind it: nothing overflows on the left
            # 28 pairs of ones, 45 of tenths, 20 doubles: (28 × 45 + 20) / 2 sums
            "operation: add, places: 1, whole: 1, carries: {count: 1, across_point: true}",
            ["carry written but not added", "carry dropped"],
            "'carry written but not added' and 'carry dropped' give the same answer to each of "
            "all 640 questions of beans",
        ),
        (
            "operation: add, places: 1, whole: 1, carries: none",
            ["carry dropped"],
            "'carry dropped' gives the right answer to each of all",
        ),
        (  # where the upper digit is 0, both write the lower digit
            "operation: subtract, places: 1, whole: [2, 1], answer: {whole: 1},"
            " exchanges: {in: [ones]}",
            [SMALLER, ZERO_GIVES_N, "one taken where the lower number has no digit"],
            "beans",
        ),
    ],
)
def test_a_rung_that_cannot_tell_them_apart_says_which_pair(
    rung: str, names: list[str], says: str
) -> None:
    with pytest.raises(CannotTellApartError) as caught:
        build_pack(spec(f"{rung}, tells_apart: [{', '.join(names)}]", 2), 1)
    assert says in str(caught.value)
    assert "; " in str(caught.value)
    assert caught.value.line == 3


@pytest.mark.parametrize(
    ("first", "names", "says"),
    [
        ("3.2", "carry dropped", "'carry dropped' gives the right answer to the one question of"),
        (
            "3.7",
            "carry written but not added, carry dropped",
            "and 'carry dropped' give the same answer to the one question of beans; keep one",
        ),
    ],
)
def test_of_the_only_question_of_a_rung_no_more_is_said_than_of_one(
    first: str, names: str, says: str
) -> None:
    rung = f"operation: add, places: 1, whole: 1, first: {first}, second: 2.5"
    with pytest.raises(CannotTellApartError) as caught:
        build_pack(spec(f"{rung}, tells_apart: [{names}]", 1), 1)
    assert says in str(caught.value)


def test_too_few_questions_in_a_section_are_refused_with_the_mistakes_left_over() -> None:
    # Only tenths under tenths carry here, and then nothing can be lined up wrongly.
    rung = "operation: add, places: {between: [0, 1]}, whole: 1, answer: {whole: 1}"
    names = "tells_apart: [carry dropped, numbers lined up at the right-hand end]"
    build_pack(spec(f"{rung}, {names}", 2), 1)
    with pytest.raises(CannotTellApartError, match="1 question of beans in core cannot show"):
        build_pack(spec(f"{rung}, {names}", 1), 1)


def test_too_few_questions_that_tell_apart_are_refused_with_their_number() -> None:
    # Of the 45 pairs of tenths from 1 to 9, 25 make ten or more.
    rung = "operation: add, places: 1, whole: 0, tells_apart: carry dropped"
    build_pack(spec(rung, 5), 1)
    with pytest.raises(
        CannotTellApartError, match=r"25 of all 45 .* can tell .* apart, and no more"
    ):
        build_pack(spec(rung, 26), 1)


@pytest.mark.parametrize(
    "written", [SMALLER, SMALLER.replace(" ", "-"), f"[{SMALLER.replace(' ', '-').title()}]"]
)
def test_names_may_have_hyphens(written: str) -> None:
    asked = spec(f"{EXCHANGES}, tells_apart: {written}")
    assert asked.ladder[0].conditions[-1].value == (SMALLER,)


def test_a_rung_with_something_missing_asks_for_no_answers() -> None:
    with pytest.raises(SpecError, match="cannot have both 'tells_apart' and 'form: missing digit'"):
        spec(f"{EXCHANGES}, form: missing digit, tells_apart: [{SMALLER}]")


def test_a_mistake_of_another_operation_or_of_none_is_refused() -> None:
    with pytest.raises(SpecError, match="tells_apart"):
        spec(f"{EXCHANGES}, tells_apart: [carry dropped]")
    with pytest.raises(SpecError, match=f"did you mean '{SMALLER}'"):
        spec(f"{EXCHANGES}, tells_apart: [smaller digit from larger]")


# A section that asks for it.

LINED_UP = "numbers lined up at the right-hand end"
TWO_RUNGS = """title: Beans
ladder:
  sums: {operation: add, places: {ragged: [1, 2]}, whole: 1}
  level: {operation: add, places: 1, whole: 1, carries: none}
  differences: {operation: subtract, places: 2, whole: 1, exchanges: {count: [1, 2]}}
  products: {operation: multiply, digits: [3, 1], places: [1, 1]}
"""


def section(words: str, questions: str, ladder: str = TWO_RUNGS) -> Spec:
    text = f"{ladder}tiers:\n  core:\n    {words}\n    questions: {{{questions}}}\n"
    return read_spec(text.encode(), "beans.yaml", VOCABULARY)


OF_SECTIONS = [
    (f"[{LINED_UP}, carry dropped, carry added twice]", "sums: 4"),
    (f"[{LINED_UP}, carry dropped, {SMALLER}, {NOT_LOWERED}]", "sums: 3, differences: 3"),
    ("[carry dropped, carry-not-added-in-multiplying]", "level: 2, sums: 2, products: 2"),
]


@pytest.mark.parametrize(("names", "questions"), OF_SECTIONS)
@given(seed=integers(0, 10**6))
@settings(max_examples=6, deadline=None)
def test_a_section_separates_every_pair_that_it_names_in_every_version(
    names: str, questions: str, seed: int
) -> None:
    asked = section(f"tells_apart: {names}", questions)
    assert asked.tiers[0].tells_apart_line == 9
    named = [mistake_named(name) for name in asked.tiers[0].tells_apart]
    pack = build_pack(asked, seed, versions=3)
    for sheet in pack.sections:
        given_answers = []
        for item in sheet.items:
            right = right_reply(item.question)
            works = [
                mistake.procedure.reply(item.question)
                for mistake in named
                if item.question.operation in mistake.operations
            ]
            shown = [answer for answer in works if answer is not None]
            assert len({right, *shown}) == len(shown) + 1
            assert shown or item.rung == "level"  # on which no procedure can go wrong
            given_answers.append([right, *(m.works(item.question) or right for m in named)])
        for first, second in combinations(range(len(named) + 1), 2):
            assert any(each[first] != each[second] for each in given_answers)


def test_a_section_and_its_rung_may_both_ask() -> None:
    ladder = TWO_RUNGS.replace("whole: 1}", f"whole: 1, tells_apart: [{LINED_UP}]}}", 1)
    pack = build_pack(section("tells_apart: [carry dropped]", "sums: 4", ladder), 1, versions=2)
    for sheet in pack.sections:
        for item in sheet.items:
            for name in (LINED_UP, "carry dropped"):
                assert shown_apart(item.question, [mistake_named(name)])


def test_the_last_rung_that_can_show_a_mistake_shows_it() -> None:
    # Only the one question of the first rung can show what is lined up wrongly.
    ladder = """title: Beans
ladder:
  ragged: {operation: add, places: {ragged: [1, 2]}, whole: 1}
  even: {operation: add, places: 2, whole: 2}
"""
    names = f"tells_apart: [carry dropped, carry added twice, {LINED_UP}]"
    for seed in range(5):
        (core,) = build_pack(section(names, "ragged: 1, even: 2", ladder), seed).sections
        assert mistake_named(LINED_UP).works(core.items[0].question) is not None


def test_a_section_changes_the_digest_only_where_it_asks() -> None:
    plain, asked = (
        section("minutes: 9", "sums: 3"),
        section("tells_apart: carry dropped", "sums: 3"),
    )
    assert plain.tiers[0].tells_apart == ()
    assert digest_of(plain) != digest_of(asked)
    assert read_spec(spec_text(asked).encode(), "beans.yaml", VOCABULARY) == asked


@pytest.mark.parametrize(
    ("words", "questions", "says"),
    [
        (
            "tells_apart: [carry droped]",
            "sums: 2",
            "beans.yaml:9: 'tells_apart' in 'core' cannot be 'carry droped'; "
            "did you mean 'carry dropped'?",
        ),
        (
            f"tells_apart:\n      - carry dropped\n      - {SMALLER}",
            "sums: 2",
            f"beans.yaml:11: '{SMALLER}' in 'tells_apart' goes with no rung of 'core'; it goes "
            "with subtract; leave it out",
        ),
        (
            "tells_apart: [carry dropped, carry-dropped]",
            "sums: 2",
            "beans.yaml:9: 'tells_apart' in 'core' names 'carry dropped' twice",
        ),
        ("tells_apart: []", "sums: 2", "beans.yaml:9: 'tells_apart' in 'core'"),
    ],
)
def test_problems_of_a_section_have_their_line(words: str, questions: str, says: str) -> None:
    with pytest.raises(SpecError) as caught:
        section(words, questions)
    assert str(caught.value).startswith(says)
    assert len(caught.value.problems) == 1


def test_a_section_of_questions_with_something_missing_shows_no_mistake() -> None:
    ladder = TWO_RUNGS.replace("whole: 1}", "whole: 1, form: missing digit}", 1)
    with pytest.raises(SpecError, match="with 'form: missing digit' no answer shows it"):
        section("tells_apart: [carry dropped]", "sums: 2", ladder)
    mixed = section("tells_apart: [carry dropped]", "sums: 2, even: 2", ladder + EVEN)
    pack = build_pack(mixed, 1)
    shown = [mistake_named("carry dropped").works(item.question) for item in pack.sections[0].items]
    assert all(answer is not None for answer in shown[2:])


EVEN = "  even: {operation: add, places: 2, whole: 2}\n"


@pytest.mark.parametrize(
    ("names", "questions", "says"),
    [
        (
            "[carry written but not added, carry dropped]",
            "tight: 3",
            "'carry written but not added' and 'carry dropped' give the same answer to each of "
            "all 640 questions of tight; keep one of them",
        ),
        (  # 36 pairs of digits from 1 to 9 make nine or less, 4 of them doubles; from 0, 55 and 5:
            # (36 × 36 + 16) / 2 and (36 × 55 + 20) / 2 sums
            "[carry dropped]",
            "level: 2, other: 2",
            "'carry dropped' gives the right answer to each of all 1,656 questions of level and "
            "other; leave it out of tells_apart, or loosen a rung",
        ),
        (
            f"[carry dropped, {LINED_UP}]",
            "mixed: 1",
            "1 question of mixed in core cannot show",
        ),
        (  # 81 numbers of two figures that end in no nought, times 8 of one figure, from 2 on
            "[nought added at the end, digits moved the wrong way]",
            "times: 2",
            "'nought added at the end' and 'digits moved the wrong way' give the same answer to "
            "each of all 648 questions of times",
        ),
    ],
)
def test_a_section_that_cannot_says_which_pair(names: str, questions: str, says: str) -> None:
    ladder = """title: Beans
ladder:
  tight: {operation: add, places: 1, whole: 1, carries: {count: 1, across_point: true}}
  level: {operation: add, places: 1, whole: 1, carries: none}
  other: {operation: add, places: 0, whole: 2, carries: none}
  mixed: {operation: add, places: {between: [0, 1]}, whole: 1, answer: {whole: 1}}
  times: {operation: multiply, digits: [2, 1], places: [1, 1]}
"""
    with pytest.raises(CannotTellApartError) as caught:
        build_pack(section(f"tells_apart: {names}", questions, ladder), 1)
    assert str(caught.value).startswith(says)
    assert caught.value.line == 10
