"""Questions that tell mistakes apart: what is chosen, and why a rung cannot."""

from itertools import combinations

import pytest

from generator.conditions import VOCABULARY
from generator.mistakes import mistake_named, right_reply
from generator.packs import build_pack
from generator.questions import Question
from generator.telling_apart import CannotTellApartError, mistakes_to_tell_apart, shown_apart
from specs import Spec, SpecError, read_spec

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
    with pytest.raises(CannotTellApartError, match=r"25 of all 45 .* apart, and no more"):
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
