"""What answers make likely: beside Bayes' rule worked out in fractions, laws, weights, a class.

Sources: Junker & Sijtsma (2001) for the noisy "and" gate; Brown & Burton (1978) for answers of
procedures (both from memory). All else is worked out here from the model's own tables.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import product
from random import Random
from xml.etree import ElementTree

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.numbered.seeds import Dice, key
from generator.operations.mistakes import (
    EVERY_MISTAKE,
    MISTAKES,
    Mistake,
    mistake_named,
    right_reply,
)
from generator.results import pupil_model as model
from generator.results.attempts import Attempt
from generator.results.diagnosis import Kind, diagnose, diagnose_class
from generator.results.how_common import ASSUMED, COUNTED, NAMED_FIRST, how_common
from generator.results.how_sure import how_sure
from generator.results.posterior import (
    CLASS_FROM,
    Posterior,
    class_priors,
    evidence_of,
    posterior,
)
from generator.results.rung_level import level
from generator.results.settling import MOST_MORE, settling
from generator.results.slip_answers import ANYTHING, OF_A_HUNDRED, slip_chance
from specs.replies import Reply, read_replies
from tests.bench.diagnosis import simulated
from tests.bench.reliability import bins, drawn
from tests.bench.simulated_pupils import COPYING, MAKES, pupil
from tests.generator.test_diagnosis import EASY, EXCHANGES, LINED_UP, RAGGED, SMALLER, following
from tests.generator.test_mistakes import asked

LOWERED = "exchange without lowering the next column"


def written(text: str, answer: str) -> Attempt:
    return Attempt.answered(asked(text), read_replies(answer))


def of(attempts: Sequence[Attempt]) -> Posterior:
    return posterior(evidence_of(attempts))


def chance(attempts: Sequence[Attempt], name: str) -> float:
    return of(attempts).chances.get(mistake_named(name), 0.0)


# Bayes' rule in fractions, by going through every case

Way = tuple[str, tuple[Mistake, ...]]


def exact(chance: float) -> Fraction:
    return Fraction(str(chance))


def by_hand(attempts: Sequence[Attempt], names: Sequence[Mistake], field: str) -> Fraction:
    """The chance of procedures in a field, summed over every case there is, in fractions."""
    fields = [f for f in model.FIELDS if any(model.field_of(a.question) == f for a in attempts)]
    whole = named = Fraction(0)
    in_field = [[a for a in attempts if model.field_of(a.question) == at] for at in fields]
    pairs = {
        e.field: [
            (one, other) for i, j in e.pairs for one, other in product(e.alike[i], e.alike[j])
        ]
        for e in evidence_of(attempts)
    }
    every_case = [*cases(fields, pairs)]
    for slips, of_slips in model.SLIPS:
        known: dict[tuple[int, Way], Fraction] = {}
        for prior, ways in every_case:
            mass = exact(of_slips) * prior
            for at in enumerate(ways):
                if at not in known:
                    known[at] = of_way(in_field[at[0]], at[1], exact(slips))
                mass *= known[at]
            whole += mass
            kind, procedures = ways[fields.index(field)]
            if kind in ("follows", "both") and set(procedures) & set(names):
                named += mass
    return named / whole


Pairs = Mapping[str, Sequence[tuple[Mistake, Mistake]]]


def cases(fields: Sequence[str], pairs: Pairs) -> Iterator[tuple[Fraction, tuple[Way, ...]]]:
    """Each way of working all fields, and its prior."""
    all_careful = exact(model.ALL_CAREFUL)
    careful: Way = ("careful", ())
    yield all_careful, (careful,) * len(fields)
    others = 1 - all_careful
    carried = {
        m: exact(model.IN_EVERY_FIELD) * share(m) / others
        for m in MISTAKES
        if len(model.FIELDS_OF[m]) > 1 and model.FIELDS_OF[m] & set(fields)
    }
    for mistake, prior in [(None, 1 - sum(carried.values())), *carried.items()]:
        of_fields = [
            [(Fraction(1), ("follows", (mistake,)))]
            if mistake and field in model.FIELDS_OF[mistake]
            else [*ways_of(field, pairs[field])]
            for field in fields
        ]
        for chosen in product(*of_fields):
            mass = others * prior
            for of_way_, _ in chosen:
                mass *= of_way_
            yield mass, tuple(way for _, way in chosen)


def share(mistake: Mistake) -> Fraction:
    return exact(how_common(mistake.name)[0])


def ways_of(field: str, pairs: Sequence[tuple[Mistake, Mistake]]) -> Iterator[tuple[Fraction, Way]]:
    """Each way of working a field for who works each by itself; two at once only by the pairs that
    the answers call for.
    """
    others = 1 - exact(model.ALL_CAREFUL)
    alone = {}
    for m in model.PROCEDURES[field]:
        in_fields = len(model.FIELDS_OF[m])
        rest = 1 - exact(model.IN_EVERY_FIELD)
        alone[m] = share(m) / others * (1 if in_fields == 1 else rest / in_fields)
    most = exact(model.MOST_OF_A_FIELD)
    scale = min(Fraction(1), most / sum(alone.values()))
    left = 1 - exact(model.SOMETHING_ELSE)
    for m, prior in alone.items():
        yield scale * prior, ("follows", (m,))
        passing = scale * prior * exact(model.PASSING_SHARE)
        yield passing, ("passing", (m,))
        left -= scale * prior + passing
    for one, other in pairs:
        oftener = exact(model.PAIRS_OFTENER)
        yield oftener * scale * alone[one] * scale * alone[other], ("both", (one, other))
    yield left, ("careful", ())
    yield exact(model.SOMETHING_ELSE), ("something else", ())


def of_way(attempts: Sequence[Attempt], way: Way, slips: Fraction) -> Fraction:
    """The chance of answers in a field from who works it in a way and slips so often."""
    kind, procedures = way
    if kind == "something else":
        rates = model.ELSE_WRONG
    else:
        rates = model.PASSING if kind == "passing" else model.STEADY
    whole = Fraction(0)
    for rate, of_rate in rates:
        mass = exact(of_rate)
        for attempt in attempts:
            mass *= of_answer(attempt, kind, procedures, slips, exact(rate))
        whole += mass
    return whole


def of_answer(
    attempt: Attempt, kind: str, procedures: tuple[Mistake, ...], slips: Fraction, rate: Fraction
) -> Fraction:
    question, (answer,) = attempt.question, attempt.replies
    right = right_reply(question)
    every = {
        wrong
        for m in model.PROCEDURES[model.field_of(question)]
        if (wrong := m.wrong_answer(question))
    }
    meant = {wrong for m in procedures if (wrong := m.wrong_answer(question))}

    def slipped(from_: Reply) -> Fraction:
        return Fraction(slip_chance(question, from_, answer, every))

    if kind == "something else":
        if attempt.right:
            return (1 - rate) * (1 - slips)
        unknown = Fraction(model.unknown_chance(question, answer, every))
        return rate * unknown + (1 - rate) * slips * slipped(right)
    if not meant:
        return 1 - slips if attempt.right else slips * slipped(right)
    if attempt.right:
        return (1 - rate) * (1 - slips)
    hits = [(1 - slips) * (answer == one) + slips * slipped(one) for one in meant]
    return rate * sum(hits) / len(hits) + (1 - rate) * slips * slipped(right)


@pytest.mark.parametrize(
    ("answers", "name"),
    [
        ([("63 − 29", "46")], SMALLER),
        ([("63 − 29", "44"), ("62 − 21", "41")], LOWERED),
        ([("63 − 29", "35"), ("42 − 18", "26")], SMALLER),
        ([("6.4 − 1.25", "5.25")], "missing place copied down"),
        ([("63 − 29", "46"), ("5.8 − 0.35", "5.5")], SMALLER),  # and places left out
    ],
)
def test_the_posterior_is_bayes_rule(answers: list[tuple[str, str]], name: str) -> None:
    attempts = [written(text, answer) for text, answer in answers]
    shared = of(attempts).fields[0]
    possible = next(p for p in shared.possible if mistake_named(name) in p.mistakes)
    expected = by_hand(attempts, possible.mistakes, "subtractions")
    assert possible.chance == pytest.approx(float(expected), rel=1e-9)


def test_a_procedure_of_two_fields_is_weighed_over_both() -> None:
    attempts = [written("3.4 + 0.27", "0.61"), written("3.75 − 1.2", "3.63")]
    for field in of(attempts).fields:
        (possible,) = [p for p in field.possible if mistake_named(LINED_UP) in p.mistakes]
        expected = by_hand(attempts, possible.mistakes, field.field)
        assert possible.chance == pytest.approx(float(expected), rel=1e-9)
    alone = chance(attempts[:1], LINED_UP)
    assert chance(attempts, LINED_UP) > alone


# The model


def test_rates_and_their_chances_are_shares() -> None:
    for rates in (model.SLIPS, model.STEADY, model.PASSING, model.ELSE_WRONG):
        assert sum(exact(of_rate) for _, of_rate in rates) == 1
        assert all(0 < rate < 1 for rate, _ in rates)
    assert sum(OF_A_HUNDRED.values()) == 100
    assert all(0 < model.PUBLISHED.share(mistake) < 0.3 for mistake in EVERY_MISTAKE)


def test_every_figure_of_how_common_a_habit_is_has_a_source_or_is_called_an_assumption() -> None:
    names = {mistake.name for mistake in EVERY_MISTAKE}
    assert set(COUNTED) | NAMED_FIRST <= names
    for name in names:
        figure, source = how_common(name)
        assert figure > 0
        assert (source == ASSUMED) is (name not in COUNTED)


def test_right_and_wrong_alone_follow_the_noisy_and_gate() -> None:
    """Who can do it is right but for slips, 1 − s; who cannot, at a rate of guessing, g."""
    question = asked("63 − 29")
    wrong = mistake_named(SMALLER).wrong_answer(question)
    assert wrong is not None
    can, cannot = (model.chances(Attempt(question, True), e) for e in ((), (wrong,)))
    rates = [(slips, steady) for slips, _ in model.SLIPS for steady, _ in model.STEADY]
    assert can == tuple(1.0 - slips for slips, _ in rates)
    assert cannot == tuple((1.0 - steady) * (1.0 - slips) for slips, steady in rates)
    crossed = model.chances(Attempt(question, False), (wrong,))
    assert crossed == pytest.approx([1 - right for right in cannot])


@pytest.mark.parametrize(("right", "answers"), [("37.67", 10_000), ("4.9", 100), ("120", 1_000)])
def test_over_all_answers_the_chances_of_a_slip_are_about_one(right: str, answers: int) -> None:
    question, (meant,) = asked(f"{right} + 0"), read_replies(right)
    places = len(right.partition(".")[2])
    all_written = (Reply(Fraction(n, 10**places)) for n in range(answers))
    anything = OF_A_HUNDRED["anything else"] / 100 / ANYTHING  # one of so many, few of them known
    of_a_kind = sum(
        slip_chance(question, meant, written) - anything
        for written in all_written
        if written != meant
    )
    kinds = ("a digit one out", "another digit wrong", "two neighbours swapped")
    assert 0.7 < 100 * of_a_kind / sum(OF_A_HUNDRED[kind] for kind in kinds) < 1.3


@pytest.mark.parametrize(
    ("text", "wrong", "name"),
    [
        ("253 − 118", "145", SMALLER),
        ("140 − 21", "121", "zero minus n gives n"),
        ("304 − 75", "139", "passes over a zero"),
    ],
)
def test_one_answer_of_brown_and_burton_points_first_at_their_procedure(
    text: str, wrong: str, name: str
) -> None:
    (field,) = of([written(text, wrong)]).fields
    assert mistake_named(name) in field.possible[0].mistakes


# Laws

PAPER = [*EXCHANGES, *RAGGED, "40 − 17", "5.3 − 2.17"]
TRIES = st.lists(
    st.tuples(st.sampled_from(PAPER), st.integers(-1, 4), st.sampled_from(["1", "1/2"])),
    min_size=1,
    max_size=8,
)


def tried(pairs: list[tuple[str, int, str]]) -> list[Attempt]:
    attempts = []
    for text, wish, weight in pairs:
        question = asked(text)
        wrong = [*dict.fromkeys(model.answers_by_procedure(question).values())]
        answer = wrong[wish] if 0 <= wish < len(wrong) else right_reply(question)
        attempt = Attempt.answered(question, (answer,))
        attempts.append(replace(attempt, weight=Fraction(weight)))
    return attempts


@settings(max_examples=40)
@given(TRIES, st.randoms(use_true_random=False))
def test_the_order_of_answers_makes_no_difference(
    pairs: list[tuple[str, int, str]], chosen: Random
) -> None:
    attempts = tried(pairs)
    shuffled = [*attempts]
    chosen.shuffle(shuffled)
    assert of(attempts) == of(shuffled)


@settings(max_examples=40)
@given(TRIES)
def test_chances_are_chances(pairs: list[tuple[str, int, str]]) -> None:
    found = of(tried(pairs))
    assert 0 <= found.careful <= found.no_habit <= 1.000001
    for field in found.fields:
        whole = field.careful + field.something_else + sum(p.chance for p in field.possible)
        assert whole >= 0.999999  # a pair counts for both
        assert min(field.careful, field.something_else, *(p.chance for p in field.possible)) >= 0


@settings(max_examples=40)
@given(TRIES, st.sampled_from(["83 − 46", "364 − 137"]))
def test_an_answer_that_one_procedure_alone_gives_never_makes_it_less_likely(
    pairs: list[tuple[str, int, str]], text: str
) -> None:
    smaller = mistake_named(SMALLER)
    wrong = model.answers_by_procedure(asked(text))
    same = [m for m, answer in wrong.items() if answer == wrong[smaller] and not m.together]
    assert same == [smaller]
    attempts = tried(pairs)
    before = chance([*attempts, Attempt(asked(text), True, worked=False)], SMALLER)
    assert chance(attempts + following(SMALLER, [text]), SMALLER) >= before - 1e-12


# Old answers


def test_an_answer_of_no_weight_says_nothing_and_one_of_half_weight_says_less() -> None:
    habit, none = following(SMALLER, EXCHANGES[:2]), following(None, EXCHANGES[2:4])
    chances = []
    for weight in (Fraction(1, 10**9), Fraction(1, 2), Fraction(1)):
        old = [replace(attempt, weight=weight) for attempt in habit]
        chances.append(chance(old + none, SMALLER))
    assert chances == sorted(chances)
    assert chances[0] == pytest.approx(chance([], SMALLER) or chances[0])
    assert chances[2] == chance(habit + none, SMALLER)
    assert chances[1] < 0.9 * chances[2]


def test_what_was_wrong_weeks_ago_gives_way_to_what_is_right_today() -> None:
    faded = Fraction(1, 4)
    old = [replace(a, weight=faded) for a in following(SMALLER, EXCHANGES[:3])]
    today = following(None, EXCHANGES[3:] + EASY[3:])
    assert diagnose(old + today).kind is not Kind.HABIT
    assert diagnose([replace(a, weight=Fraction(1)) for a in old] + today).kind is not Kind.SECURE


# A class


def a_class(of_pupils: Sequence[str | None], texts: list[str]) -> list[list[Attempt]]:
    return [following(name, texts) for name in of_pupils]


def test_a_habit_that_three_have_is_likelier_in_the_fourth() -> None:
    texts = [*EXCHANGES[:4], *EASY[:4]]
    doubtful = [*following(LOWERED, EXCHANGES[:1]), *following(None, EASY[:4])]
    alone = diagnose_class([doubtful])[0].posterior.chances[mistake_named(LOWERED)]
    with_habit = [*a_class([LOWERED] * 3 + [None] * 6, texts), doubtful]
    without = [*a_class([None] * 9, texts), doubtful]
    chances = [
        diagnose_class(pupils)[-1].posterior.chances[mistake_named(LOWERED)]
        for pupils in (without, with_habit)
    ]
    assert chances[0] < alone < chances[1]


def test_a_class_of_few_keeps_the_published_priors_and_no_pupil_counts_for_itself() -> None:
    few = [of(attempts) for attempts in a_class([SMALLER] * (CLASS_FROM - 1), EXCHANGES[:4])]
    assert class_priors(few) == (model.PUBLISHED,) * len(few)
    alone = [of(a) for a in a_class([SMALLER] + [None] * CLASS_FROM, EXCHANGES[:4])]
    own, other = class_priors(alone)[0], class_priors(alone)[1]
    mistake = mistake_named(SMALLER)
    assert own.share(mistake) < model.PUBLISHED.share(mistake) < other.share(mistake)


def test_pupils_without_an_answer_say_nothing_of_a_class() -> None:
    pupils = a_class([SMALLER] * 4 + [None] * 6, EXCHANGES[:5])
    with_absent = diagnose_class([*pupils, [], []])
    assert [d.finding for d in with_absent[:10]] == [d.finding for d in diagnose_class(pupils)]
    assert with_absent[-1].finding.kind is Kind.NOT_ENOUGH


# Right and wrong alone, and what would settle it


@pytest.mark.parametrize(
    ("right", "wrong", "secure", "not_there"),
    [(4, 0, True, False), (3, 0, False, False), (0, 3, False, True), (0, 2, False, False)],
)
def test_level_from_ticks_and_crosses(
    right: int, wrong: int, secure: bool, not_there: bool
) -> None:
    """By Bayes (1763): with r of n right the chance of a share below x is that of Beta(r + 1,
    n − r + 1), 1 − 0.8^5 = 0.67 for 4 of 4, and 1 − 0.5^4 = 0.94 for 0 of 3.
    """
    question = asked("3 + 4")
    attempts = [Attempt(question, n < right) for n in range(right + wrong)]
    found = level(attempts)
    assert (found.secure >= 0.66, found.not_there >= 0.9) == (secure, not_there)
    if right and not wrong:
        assert found.secure == pytest.approx(1 - 0.8 ** (right + 1), abs=0.01)


def test_questions_that_settle_it_are_few_and_do() -> None:
    texts = ["40 − 17", "60 − 23", *EASY[:3]]  # where the upper digit is 0, both give the same
    pupil = following("zero minus n gives n", texts)
    pool = [asked(text) for text in ["90 − 41", "3.4 + 0.27", "42 − 18", "62 − 21", "63 − 29"]]
    assert settling(of(pupil), pool) == (asked("42 − 18"), asked("63 − 29"))
    assert len(diagnose(pupil).habits[0].mistakes) == 2
    for name in ("zero minus n gives n", SMALLER):
        told = diagnose([*pupil, *following(name, ["42 − 18", "63 − 29"])])
        assert [habit.mistakes for habit in told.habits] == [(mistake_named(name),)]
    assert settling(of(pupil), pool[:2]) is None
    assert settling(of(following(None, texts)), pool) == ()


@settings(max_examples=40)
@given(TRIES)
def test_what_settles_it_comes_from_the_pool_and_is_short(
    pairs: list[tuple[str, int, str]],
) -> None:
    pool = [asked(text) for text in ["52 − 27", "3.25 + 4.8", "80 − 36", "7 − 2.35"]]
    found = settling(of(tried(pairs)), pool)
    if found:
        assert set(found) <= set(pool)
        assert len(found) <= 2 * MOST_MORE


def test_how_sure_is_said_coarsely() -> None:
    said = [how_sure(chance) for chance in (0.0, 0.3, 0.6, 0.75, 0.9, 0.95, 0.999)]
    assert said == [
        *("", "as likely as not", "2 in 3", "3 in 4", "9 in 10", "19 in 20", "almost certain")
    ]


# The benchmark


def test_most_habits_are_named_and_no_other() -> None:
    """A small part of ``python -m tests.bench.diagnosis``."""
    with_habit, without = simulated(9, 1, told_apart=True, pupils=1)
    assert with_habit["right"] >= 7
    assert with_habit["wrong"] == without["wrong"] == 0


@pytest.mark.parametrize("make", MAKES)
def test_simulated_pupils_slip_about_as_often_as_they_are_to(make: str) -> None:
    asked_ = [asked(text) for text in EXCHANGES * 200]
    dice = Dice(key("slips", make))
    neighbours = [mistake_named(SMALLER)] if make == COPYING else []
    wrong = sum(not attempt.right for attempt in pupil(asked_, (), dice, make, neighbours))
    expected = 0.15 if make == COPYING else 0.05
    assert 0.7 * expected < wrong / len(asked_) < 1.3 * expected


def test_statements_are_counted_by_the_chance_that_they_claim() -> None:
    said = [(0.92, True), (0.94, True), (0.93, False), (1.0, True), (0.5, False), (0.01, True)]
    found = {(one.least, one.most): (one.said, one.right) for one in bins(said)}
    assert found == {(0.9, 0.95): (3, 2), (0.95, 1.0): (1, 1), (0.5, 0.6): (1, 0)}
    picture = ElementTree.fromstring(drawn(bins(said)))
    assert len(picture.findall("{http://www.w3.org/2000/svg}circle")) == 3
