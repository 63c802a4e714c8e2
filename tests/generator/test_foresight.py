"""What answers will tell, foreseen: many pupils judged at once as one pupil alone is."""

from fractions import Fraction

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis.strategies import integers

from generator.numbered.seeds import Dice, key
from generator.operations.mistakes import mistake_named, right_reply
from generator.packs.building import build_pack
from generator.packs.pack import Pack
from generator.results.diagnosis import diagnose
from generator.results.foresight import CLASS, foresee, stages_of
from generator.results.judging_many import judged
from generator.results.posterior import evidence_of, posterior
from generator.results.pupil_model import PUBLISHED, SLIPS, answers_by_procedure
from generator.results.simulated_pupils import Fair, Written, answered
from generator.results.slip_answers import slip_chance
from generator.results.slips_drawn import drawn_slip
from generator.vocabulary import VOCABULARY
from specs import read_spec
from tests.generator.test_mistakes import asked

LADDER = """title: Beans
ladder:
  sums: {operation: add, places: {between: [1, 2]}, whole: {between: [1, 2]}}
  differences: {operation: subtract, places: 2, whole: {between: [1, 2]}}
  products: {operation: multiply, digits: [2, 1], places: [1, 0]}
  shares: {operation: divide, dividend: {digits: 3}, divisor: {digits: 1}, ending: remainder}
  greater: {operation: compare, places: {between: [1, 3]}, whole: 0}
  nearest: {operation: round, places: 3, to: tenths}
  moved: {operation: multiply, power_of_ten: [10, 100]}
  level: {operation: add, places: 1, whole: 1, carries: none}
  gap: {operation: add, places: 2, whole: 1, form: missing digit}
"""
ALL = "sums: 3, differences: 3, products: 2, shares: 2, greater: 2, nearest: 2, moved: 2"


def pack(sections: str, seed: int = 1) -> Pack:
    return build_pack(read_spec(f"{LADDER}{sections}\n".encode(), "beans.yaml", VOCABULARY), seed)


def written(questions: Pack) -> list[Written]:
    items = [item for section in questions.sections for item in section.items]
    return [Written(item.question, key("tests", at)) for at, item in enumerate(items)]


@given(seed=integers(0, 10**6))
@settings(max_examples=2, deadline=None)
def test_many_judged_at_once_are_judged_as_each_alone(seed: int) -> None:
    """Answers of pupils with habits and without, and answers by chance of nobody at all."""
    questions = written(pack(f"starter: {{{ALL}}}", seed % 5))
    habits = [None, *dict.fromkeys(m for one in questions for m in one.by_procedure)]
    simulated = answered(questions, habits, 1, key("pupils", seed)).reshape(-1, len(questions))
    dice = Dice(key("by chance", seed))
    by_chance = [[dice.below(len(one.attempts)) for one in questions] for _ in range(4)]
    some = [dice.below(len(simulated)) for _ in range(8)]
    answers = np.concatenate([simulated[some], np.array(by_chance)])
    found = judged(questions, answers)
    for at, numbers in enumerate(answers):
        attempts = [one.attempts[n] for one, n in zip(questions, numbers, strict=True)]
        alone = posterior(evidence_of(attempts))
        assert found.careful[at] == pytest.approx(alone.careful, abs=1e-12)
        chances = {
            (field.field, frozenset(possible.mistakes)): possible.chance
            for field in alone.fields
            for possible in field.possible
        }
        for column, (field, alike) in enumerate(zip(found.fields, found.alike, strict=True)):
            single = frozenset(m for m in alike if not m.together) or frozenset(alike)
            assert found.chances[at, column] == pytest.approx(chances[field, single], abs=1e-12)
        named = {mistake for habit in diagnose(attempts).habits for mistake in habit.mistakes}
        assert named == {
            mistake
            for column, alike in enumerate(found.alike)
            if found.named[at, column]
            for mistake in alike
            if not mistake.together or all(m.together for m in alike)
        }


# Simulated pupils.


def test_the_random_numbers_are_those_of_splitmix64() -> None:
    """The first of seed 1234567: Steele, Lea and Flood's generator, as Vigna's splitmix64.c
    gives them (from memory).
    """
    fair = Fair((1234567).to_bytes(8, "big"))
    bits = (6457827717110365317, 3203168211198807973, 9817491932198370423)
    assert fair.uniform(3).tolist() == [(word >> 11) / 2**53 for word in bits]
    assert fair.uniform(2).tolist() == [
        (word >> 11) / 2**53 for word in (4593380528125082431, 16408922859458223821)
    ]


def test_numbers_are_even_and_rates_come_as_often_as_they_should() -> None:
    fair = Fair(key("even"))
    counts, _ = np.histogram(fair.uniform(100_000), bins=20, range=(0, 1))
    assert abs(counts - 5_000).max() < 5 * 5_000**0.5
    rates = fair.among(SLIPS, 100_000)
    for rate, chance in SLIPS:
        assert (rates == rate).mean() == pytest.approx(chance, abs=0.01)


@pytest.mark.parametrize(
    "question", ["3.45 + 0.7", "40.1 − 17.25", "0.6 × 24", "432 ÷ 5", "3.45 × 100"]
)
def test_a_slip_writes_something_else_that_the_model_knows_as_a_slip(question: str) -> None:
    one = asked(question)
    wrong = tuple(dict.fromkeys(answers_by_procedure(one).values()))
    right = right_reply(one)
    slips = [drawn_slip(one, right, wrong, Dice(key("slips", at))) for at in range(200)]
    assert right not in slips
    assert all(slip.value >= 0 and slip.text for slip in slips)
    assert len(set(slips)) > 20
    # Of a hundred slips 40 are of the commonest kind, and far likelier than any other answer.
    likely = [slip for slip in slips if slip_chance(one, right, slip, wrong) > 0.02]
    assert 60 < len(likely) < 140


def test_a_slip_at_a_sign_or_an_order_is_another_of_these() -> None:
    for section in build_pack(
        read_spec(
            b"title: B\nladder:\n  c: {operation: compare, places: 2}\n"
            b"  o: {operation: order, places: 2}\nstarter: {c: 2, o: 2}\n",
            "b.yaml",
            VOCABULARY,
        ),
        1,
    ).sections:
        for item in section.items:
            right = right_reply(item.question)
            for at in range(20):
                slip = drawn_slip(item.question, right, (), Dice(key(at)))
                assert slip != right
                assert sorted(slip.order) == sorted(right.order)
                assert bool(slip.sign) == bool(right.sign)


def test_a_pupil_with_a_habit_answers_by_it_and_slips_as_often_as_the_model_says() -> None:
    questions = [Written(asked("40 − 17"), key("one"))]
    smaller = mistake_named("smaller digit taken from larger")
    careful, followed = answered(questions, [None, smaller], 20_000, key("two"))
    right, wrong = questions[0].meant[0], questions[0].meant[questions[0].meant_by(smaller)]
    slips = sum(rate * chance for rate, chance in SLIPS)
    assert (careful == right).mean() == pytest.approx(1 - slips, abs=0.01)
    assert 0.7 < (followed == wrong).mean() < 0.85
    assert questions[0].attempts[wrong].replies[0].value == Fraction(37)


# What is foreseen.


def test_a_pupil_answers_the_starter_and_then_a_tier() -> None:
    tiers = "tiers:\n  support: {sums: 2}\n  core: {differences: 2}\nexamples: [sums]"
    stages = stages_of(pack(f"starter: {{sums: 1}}\n{tiers}"))
    assert [(stage.name, stage.sections) for stage in stages] == [
        ("starter", ("starter",)),
        ("support", ("starter", "support")),
        ("core", ("starter", "core")),
        ("whole pack", ("starter", "support", "core")),
    ]
    one_tier = "starter: {sums: 1}\ntiers:\n  core: {differences: 2}"
    assert [stage.name for stage in stages_of(pack(one_tier))] == ["starter", "core"]
    assert [stage.name for stage in stages_of(pack("starter: {sums: 2}"))] == ["starter"]
    assert stages_of(pack("starter: {gap: 2}")) == ()


def test_what_shows_more_often_is_named_more_often_and_careful_pupils_hardly_ever() -> None:
    asked_for = "finds_out: every habit, questions: {differences: 6}"
    found = foresee(pack(f"starter: {{{asked_for}}}\ntiers:\n  core: {{differences: 6}}"), 2_000)
    first, last = (np.array([h.named[at] for h in found.habits]) for at in (0, -1))
    assert (last >= first - 0.05).all()
    often = [h.named[-1] for h in found.habits if h.shows[-1] >= 5 and not h.alike]
    assert min(often) > 0.8
    assert max(found.called) < 0.03


def test_habits_that_nothing_tells_apart_and_those_that_never_show_are_said() -> None:
    found = foresee(pack("starter: {level: 6}"), 1_000)
    assert found == foresee(pack("starter: {level: 6}"), 1_000), "the same on every machine"
    assert {habit.mistake.name for habit in found.habits} == {"point ignored"}
    assert mistake_named("carry dropped") in found.unseen
    alike = foresee(build_pack(_zeros(), 1), 1_000)
    by_name = {habit.mistake.name: habit for habit in alike.habits}
    smaller = by_name["smaller digit taken from larger"]
    assert mistake_named("zero minus n gives n") in smaller.alike


def _zeros():  # type: ignore[no-untyped-def]
    """Nought under nothing and over every other digit: only there is anything exchanged."""
    text = (
        "title: B\nladder:\n  z: {operation: subtract, places: 0, whole: [2, 2], "
        "exchanges: {in: [ones]}, zeros: {end: require}}\nstarter: {z: 4}\n"
    )
    return read_spec(text.encode(), "b.yaml", VOCABULARY)


def test_of_a_class_as_many_are_named_as_have_habits_that_are_named() -> None:
    found = foresee(pack("starter: {sums: 6, differences: 6}"), 4_000)
    shares = [PUBLISHED.share(habit.mistake) for habit in found.habits]
    (of_class,) = found.of_class
    assert of_class.habits == pytest.approx(CLASS * sum(shares))
    named = sum(s * h.named[0] for s, h in zip(shares, found.habits, strict=True))
    assert of_class.named == pytest.approx(CLASS * named)
    assert 0 <= of_class.wrongly < 0.1 * of_class.named
