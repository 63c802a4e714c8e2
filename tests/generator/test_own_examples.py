"""A teacher's own example: worked, checked against its rung, and matched for the class."""

import pytest

from generator.packs.building import build_pack
from generator.packs.keeping import CannotBeKeptError, NotOnItsRungError
from generator.packs.working_out import work
from generator.vocabulary import VOCABULARY
from specs import Spec, SpecError, read_spec
from specs.writing import spec_text
from tests.generator.ladders import spec

LADDER = (
    "plain: {operation: add, places: 2, whole: 1, carries: none}\n"
    "ragged: {operation: add, addends: 3, places: {ragged: [1, 2]}, whole: {between: [0, 1]}}\n"
    "take: {operation: subtract, places: 2, whole: 1, exchanges: {through_zeros: 1}}\n"
    "times: {operation: multiply, digits: [2, 1], places: [1, 0], carries: none}\n"
    "share: {operation: divide, divisor: {between: [3, 9]}, remainders: none, places: 1}\n"
)


def lesson(*examples: str, more: str = "") -> Spec:
    """A lesson with those examples."""
    listed = "".join(f"  - {example}\n" for example in examples)
    return spec(LADDER, f"examples:\n{listed}{more}")


def test_it_is_worked_and_matched_whatever_the_seed() -> None:
    own = lesson("plain", "{rung: ragged, question: 3.46 + 0.2 + 1.75}", "ragged")
    for seed in range(20):
        (section,) = build_pack(own, seed).sections
        (at,) = [i for i, item in enumerate(section.items) if item.question.text.startswith("3.46")]
        shown, match = section.items[at : at + 2]
        assert at % 2 == 0
        assert shown.question.text == "3.46 + 0.2 + 1.75"
        assert (match.rung, match.signature) == ("ragged", shown.signature)
        assert match.question != shown.question
        assert len({item.question.identity for item in section.items}) == 6
    (worked,) = work(build_pack(own, 1)).of_kinds("example")
    assert worked.items[0].working.steps


def test_no_other_question_changes() -> None:
    """Another section's choices do not hang on it."""
    tiers = "tiers:\n  core: {plain: 4, take: 4}\n"
    one = build_pack(lesson("{rung: times, question: 2.1 × 4}", more=tiers), 3)
    other = build_pack(lesson("times", more=tiers), 3)
    assert one.sections[1].items == other.sections[1].items


@pytest.mark.parametrize(
    ("rung", "question", "why"),
    [
        (
            "plain",
            "3.46 + 1.25",
            "it has one carry, in the hundredths, and plain asks `carries:",
        ),
        (
            "plain",
            "3.4 + 1.2",
            "it has one decimal place in each number, and plain asks",
        ),
        ("plain", "3.46 + 1.2 + 1.1", "it has 3 numbers, and plain asks 2"),
        ("plain", "3.46 − 1.25", "it is one to subtract, and plain asks to add"),
        ("plain", "3.40 + 1.25", "it has a nought at the end of 3.40, which plain does not allow"),
        ("ragged", "3.41 + 0.21 + 1.21", "it has 2 decimal places in each number, and ragged asks"),
        ("take", "5.23 − 1.45", "it has 2 exchanges, in the hundredths and tenths, and take asks"),
        ("times", "2.4 × 6", "it has 2 carries, and times asks `carries: none`"),
        (
            "times",
            "24 × 6",
            "it has no decimal places in each number, and times asks",
        ),
        ("share", "8.4 ÷ 2", "it has the divisor 2, and share asks `divisor: {between: [3, 9]}`"),
        ("share", "8.4 ÷ 3", "it has one remainder carried, and share asks `remainders: none`"),
        ("share", "8.5 ÷ 3", "something left over after the last digit of what is divided"),
        ("share", "8.4 ÷ 0", "it is no question of it"),
    ],
)
def test_what_makes_it_not_belong_is_said(rung: str, question: str, why: str) -> None:
    with pytest.raises(NotOnItsRungError) as refused:
        build_pack(lesson(f"{{rung: {rung}, question: {question}}}"), 1)
    assert why in str(refused.value)
    assert refused.value.line == 9


def test_it_can_be_shown_once_only() -> None:
    twice = ("{rung: plain, question: 3.4 + 1.2}", "{rung: plain, question: 1.2 + 3.4}")
    loose = LADDER.replace("places: 2, whole: 1, carries: none", "places: 1, whole: 1")
    listed = "".join(f"  - {example}\n" for example in twice)
    with pytest.raises(CannotBeKeptError, match="kept twice"):
        build_pack(spec(loose, f"examples:\n{listed}"), 1)
    with pytest.raises(CannotBeKeptError, match="to be avoided"):
        build_pack(spec(loose, f"examples:\n  - {twice[0]}\navoid: [1.2 + 3.4]\n"), 1)


@pytest.mark.parametrize(
    ("entry", "problem"),
    [
        ("{rung: ragged}", "'examples' has no 'question'"),
        ("{rung: raged, question: 3.4 + 0.2}", "the ladder has no rung 'raged'; did you mean"),
        (
            "{rung: ragged, question: 3.4 plus 0.2}",
            "'question' in 'examples' cannot be 3.4 plus",
        ),
        ("{rung: ragged, question: 3.4 + 0.2, times: 2}", "'times'"),
        ("{ragged: 2}", "'examples' cannot be {ragged: …}; write {rung: name-of-rung"),
    ],
)
def test_an_entry_that_cannot_be_read_is_told(entry: str, problem: str) -> None:
    with pytest.raises(SpecError) as refused:
        lesson(entry)
    assert problem in str(refused.value)


def test_written_and_read_again_it_is_the_same() -> None:
    own = lesson("plain", '{rung: ragged, question: "3.46 + 0.2 + 1.75"}', "ragged")
    again = read_spec(spec_text(own).encode(), "harvest.yaml", VOCABULARY)
    assert again.examples == own.examples
