"""What a spec may cost before it is refused, in counted work."""

from collections import Counter
from collections.abc import Iterator
from fractions import Fraction

import pytest

from generator.allowance import (
    LOOKED_AT_OF_A_LADDER,
    LOOKED_AT_OF_A_PACK,
    LOOKED_AT_TO_EXPLAIN,
    TooWideError,
)
from generator.arithmetic.questions import Question
from generator.forms import asking
from generator.forms.asking import LOOKED_AT, cannot_be_asked
from generator.operations.products import conditions
from generator.operations.rungs import question_set, rung_set
from generator.packs import conflicts as conflicts_module
from generator.packs import telling_apart
from generator.packs.building import TooFewQuestionsError, build_pack
from generator.packs.conflicts import conflicts
from generator.packs.telling_apart import CannotTellApartError
from generator.vocabulary import VOCABULARY
from specs import Spec, read_spec
from specs.spec import RungSpec
from tests.generator.ladders import questions

SHOW_NONE = "operation: add, places: 2, whole: {}, carries: none, form: spot the mistake"
FIT_NONE = "operation: add, places: 3, whole: {}, context: money"


def ladder(rungs: int, rung: str) -> Spec:
    lines = "".join(f"  r{at}: {{{rung.format(at % 4 + 2)}}}\n" for at in range(rungs))
    each = ", ".join(f"r{at}: 1" for at in range(rungs))
    text = f"title: Beans\nladder:\n{lines}tiers:\n  core: {{{each}}}\n"
    return read_spec(text.encode(), "beans.yaml", VOCABULARY)


@pytest.fixture
def asked(monkeypatch: pytest.MonkeyPatch) -> Iterator[Counter[str]]:
    """How often it is tried whether a question can be asked as its rung wishes."""
    tried: Counter[str] = Counter()

    def counted(rung: RungSpec, question: Question) -> bool:
        tried[rung.name] += 1
        return False

    asking._tried.cache_clear()
    monkeypatch.setattr(asking, "can_be_asked", counted)
    yield tried
    asking._tried.cache_clear()


@pytest.mark.parametrize("rung", [SHOW_NONE, FIT_NONE])
@pytest.mark.parametrize("rungs", [1, 8, 60])
def test_looks_at_what_cannot_be_asked_are_shared_among_the_rungs(
    rung: str, rungs: int, asked: Counter[str]
) -> None:
    refused = list(cannot_be_asked(ladder(rungs, rung).ladder))
    assert len(refused) == rungs
    assert sum(asked.values()) <= LOOKED_AT_OF_A_LADDER
    share = min(LOOKED_AT, LOOKED_AT_OF_A_LADDER // rungs)
    assert set(asked.values()) <= {share, share + 1}
    for error in refused:
        assert f"not one of {asked[error.rung.name]} questions of {error.rung.name}" in str(error)


@pytest.mark.slow
def test_looks_at_what_tells_nothing_apart_are_bounded(monkeypatch: pytest.MonkeyPatch) -> None:
    looks = Counter[str]()
    apart = telling_apart.shown_apart

    def counted(*of: object, **how: object) -> object:
        looks["in all"] += 1
        return apart(*of, **how)  # type: ignore[arg-type]

    monkeypatch.setattr(telling_apart, "shown_apart", counted)
    level = "operation: add, places: 2, whole: {}, carries: none, tells_apart: carry dropped"
    with pytest.raises(CannotTellApartError):
        build_pack(ladder(60, level), 1)
    assert looks["in all"] <= LOOKED_AT_OF_A_PACK + LOOKED_AT_TO_EXPLAIN


WIDE = [
    "operation: multiply, digits: 2, places: {{between: [0, 2]}}, carries: {{count: [1, {}]}}",
    "operation: multiply, factors: 3, digits: [2, 1, 1], places: 1, carries: {{count: {}}}",
    "operation: add, addends: {}, places: {{ragged: [0, 3]}}, zeros: {{inside: require}}",
    "operation: divide, divisor: {{digits: 2}}, dividend: {{digits: {}}}, ending: remainder",
]


@pytest.mark.parametrize("rung", WIDE)
@pytest.mark.parametrize("rungs", [4, 40])
def test_counting_is_shared_among_the_rungs_and_the_rest_is_said(
    rung: str, rungs: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Rungs that are too wide for their share are told; a narrow one among them keeps its own."""
    most = 20_000
    monkeypatch.setattr(conflicts_module, "COUNTING", most)
    asked = ladder(rungs, rung)
    narrow = "  last: {operation: add, addends: 2, places: 1, whole: 1, carries: none}\ntiers:"
    text = asked.text.replace("tiers:", narrow, 1)
    found = list(conflicts(read_spec(text.encode(), "beans.yaml", VOCABULARY)))
    told = {conflict.rung.name for conflict in found}
    assert told
    assert "last" not in told
    assert sum(rung_set(rung).work for rung in asked.ladder if rung.name not in told) <= most
    assert all("too many lengths" in conflict.what for conflict in found)


@pytest.mark.parametrize("rung", WIDE)
@pytest.mark.slow
def test_what_is_refused_hangs_on_nothing_that_was_counted_before(
    rung: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The same in a process in which each rung has been counted by itself, as in the page."""
    asked = ladder(4, rung)
    refused = []
    for most in (10_000, 700_000):
        monkeypatch.setattr(conflicts_module, "COUNTING", most)
        question_set.cache_clear()
        afresh = [conflict.what for conflict in conflicts(asked)]
        question_set.cache_clear()
        assert sum(rung_set(rung).count for rung in asked.ladder)
        assert [conflict.what for conflict in conflicts(asked)] == afresh
        refused.append(len(afresh))
    assert refused[0] > refused[-1]


def test_a_search_for_what_clashes_has_its_share(monkeypatch: pytest.MonkeyPatch) -> None:
    searched = Counter[str]()
    made = conflicts_module.fresh_set

    def counted(*of: object) -> object:
        found = made(*of)  # type: ignore[arg-type]
        searched["sets"] += 1
        return found

    most = 100_000
    monkeypatch.setattr(conflicts_module, "SEARCHING", most)
    monkeypatch.setattr(conflicts_module, "fresh_set", counted)
    impossible = "operation: multiply, digits: [4, 3], places: [2, 1], answer: {{whole: 9}}"
    assert len(list(conflicts(ladder(8, impossible)))) == 8
    assert searched["sets"] <= most // conflicts_module._EACH + 8


def test_a_bound_of_a_product_is_found_in_whole_numbers(monkeypatch: pytest.MonkeyPatch) -> None:
    """Sixty impossible products are searched for help; in fractions that took thrice as long."""
    made = Counter[str]()

    def counted(value: int) -> Fraction:
        made["fractions"] += 1
        return Fraction(value)

    monkeypatch.setattr(conditions, "Fraction", counted)
    impossible = "operation: multiply, digits: [4, 3], places: [2, 1], answer: {{whole: 9}}"
    assert len(list(conflicts(ladder(2, impossible)))) == 2
    assert made["fractions"] < 1000, "bounds are narrowed in fractions, not met in them"


@pytest.mark.slow
def test_what_is_refused_for_one_seed_is_refused_for_all() -> None:
    """Of 45 sums 25 carry. Whatever the seed, 25 of them can be had and 26 cannot."""
    carried = "operation: add, places: 1, whole: 0, tells_apart: carry dropped"
    rung = f"title: Beans\nladder:\n  r: {{{carried}}}\ntiers:\n  core: {{r: {{}}}}\n"
    rung = rung.replace("{r: {}}", "{r: COUNT}")
    for count, refused in ((25, False), (26, True)):
        spec = read_spec(rung.replace("COUNT", str(count)).encode(), "beans.yaml", VOCABULARY)
        for seed in range(12):
            try:
                build_pack(spec, seed)
            except (CannotTellApartError, TooFewQuestionsError):
                assert refused
            else:
                assert not refused


@pytest.mark.parametrize(
    "words",
    [
        "operation: multiply, digits: 2, places: {between: [0, 1]}, carries: {count: [1, 2]}",
        "operation: divide, divisor: {digits: 2}, dividend: {digits: 4}, ending: remainder",
        "operation: add, addends: 3, places: {ragged: [0, 2]}",
    ],
)
def test_what_was_broken_off_can_be_counted_with_more(words: str) -> None:
    """Whoever asks for the same questions next has all of the allowance again."""
    fresh = questions(words).count
    question_set.cache_clear()
    with pytest.raises(TooWideError):
        questions(words).count_within(1)
    assert questions(words).count == fresh
    with pytest.raises(TooWideError):
        questions(words).count_within(1)
    assert questions(words).rank(questions(words).unrank(7)) == 7
