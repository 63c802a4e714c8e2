"""Questions that find out who works how: what is chosen, and how near the best it comes."""

from fractions import Fraction
from itertools import combinations
from math import e, log, sqrt

import pytest
from hypothesis import given, settings
from hypothesis.strategies import integers

from generator.arithmetic.questions import Question
from generator.numbered.permutation import Permutation
from generator.numbered.seeds import key
from generator.operations.mistakes import mistake_named
from generator.operations.rungs import rung_set
from generator.packs.building import another, build_pack
from generator.packs.finding_out import (
    BOTH_WRONG,
    LOOKS_OF_A_SECTION,
    ONE_RIGHT,
    Inquiry,
    Said,
    inquiry_of,
    said,
)
from generator.packs.telling_apart import CannotTellApartError
from generator.vocabulary import VOCABULARY
from rungsheet.desk import editing
from specs import Spec, SpecError, read_spec
from specs.digest import digest_of
from specs.spec import EVERY_HABIT, SectionSpec
from specs.writing import spec_text

LADDER = """title: Beans
ladder:
  sums: {operation: add, places: {between: [1, 2]}, whole: {between: [1, 2]}}
  differences: {operation: subtract, places: 2, whole: {between: [1, 2]}}
  few: {operation: subtract, places: 1, whole: 1, exchanges: {count: 1}}
  gap: {operation: add, places: 2, whole: 1, form: missing digit}
  level: {operation: add, places: 1, whole: 1, carries: none}
"""
ASKS = "finds_out: every habit"
MIXED = "sums: 3, differences: 3"


def section(words: str, questions: str = MIXED, more: str = "") -> Spec:
    text = f"{LADDER}tiers:\n  core:\n    {words}\n    questions: {{{questions}}}\n{more}"
    return read_spec(text.encode(), "beans.yaml", VOCABULARY)


def asked(spec: Spec, seed: int, version: int = 1) -> list[Question]:
    sections = build_pack(spec, seed, versions=version).sections
    (found,) = (one for one in sections if (one.name, one.version) == ("core", version))
    return [item.question for item in found.items]


def inquiry(spec: Spec) -> Inquiry:
    core = spec.tiers[0]
    found = inquiry_of(core, [spec.rung(share.rung) for share in core.shares])
    assert found is not None
    return found


# What it chooses.


def test_more_is_said_than_by_questions_as_they_come_and_in_every_version() -> None:
    finding, plain = section(ASKS), section("minutes: 9")
    what = inquiry(finding)
    for seed in range(2):
        for version in (1, 2):
            chosen, came = asked(finding, seed, version), asked(plain, seed, version)
            assert said(what, chosen) > said(what, came)
    assert [q.operation for q in chosen] == [q.operation for q in came]


@pytest.mark.slow
@given(seed=integers(0, 10**6))
@settings(max_examples=2, deadline=None)
def test_all_stands_as_in_other_sections_on_its_rung_matched_and_never_twice(seed: int) -> None:
    spec = section(ASKS, more="starter: {sums: 2}\n")
    pack = build_pack(spec, seed, versions=3)
    assert pack == build_pack(spec, seed, versions=3)
    assert pack.sections[1].items == build_pack(spec, seed).sections[1].items, "not by versions"
    items = [item for one in pack.sections for item in one.items]
    assert len({item.question.identity for item in items}) == len(items)
    for item in items:
        questions = rung_set(spec.rung(item.rung))
        assert questions.unrank(questions.rank(item.question)).identity == item.question.identity
    practice = [one.items for one in pack.sections if one.kind == "practice"]
    for places in zip(*practice, strict=True):
        assert len({item.signature for item in places}) == 1
        assert not any(item.matched for item in places)
    for sheet in practice:
        assert len({item.question.answer.trimmed() for item in sheet}) == len(sheet)


def test_it_is_chosen_by_the_seed_and_another_question_says_much_too() -> None:
    spec = section(ASKS)
    assert asked(spec, 1) != asked(spec, 2)
    what, chosen = inquiry(spec), asked(spec, 1)
    others = another(spec, 1, 1, "core", 0)
    assert said(what, [next(others), *chosen[1:]]) > said(what, chosen[1:])


def test_editing_one_section_leaves_the_others_as_they_are() -> None:
    small = section(ASKS)
    large = section(ASKS, more=f"  stretch:\n    {ASKS}\n    questions: {{differences: 30}}\n")
    assert asked(small, 3) == asked(large, 3)


def test_named_habits_are_told_from_all_others_and_others_not_from_each_other() -> None:
    named = ["carry dropped", "stops at a zero"]
    what = inquiry(section(f"finds_out: [{', '.join(named)}]"))
    assert what.asked == set(map(mistake_named, named))
    assert set(what.ways) > what.asked
    at = [what.ways.index(mistake_named(name)) + 1 for name in named]
    for pair in combinations(range(len(what.ways) + 1), 2):
        assert what.matters(*pair) == bool(set(at) & set(pair))


@pytest.mark.slow
def test_with_named_habits_they_show_more_often_than_as_questions_come() -> None:
    rare = "stops at a zero"
    shows = {
        words: sum(
            mistake_named(rare).wrong_answer(question) is not None
            for seed in range(5)
            for question in asked(section(words, "differences: 4"), seed)
        )
        for words in (f"finds_out: {rare}", "minutes: 9")
    }
    assert shows[f"finds_out: {rare}"] > 2 * shows["minutes: 9"]


def test_questions_with_something_missing_are_drawn_as_ever() -> None:
    finding, plain = section(ASKS, "gap: 2, sums: 2"), section("minutes: 9", "gap: 2, sums: 2")
    assert asked(finding, 1)[:2] == asked(plain, 1)[:2]


# How near the best it comes.


def some_of(rung: str, count: int) -> list[Question]:
    questions = rung_set(section(ASKS).rung(rung))
    order = Permutation(questions.count, key("finding out in tests", rung))
    return [questions.unrank(order[at]) for at in range(min(count, questions.count))]


def greedily(what: Inquiry, questions: list[Question], size: int) -> list[Question]:
    """The best of the questions each time, the first of equals."""
    sheet, left, taken = Said(), list(questions), []
    for _ in range(size):
        best = max(left, key=lambda question: sheet.adds(what, question))
        sheet.add(what, best)
        left.remove(best)
        taken.append(best)
    return taken


@pytest.mark.parametrize(
    ("rung", "count", "size"), [("sums", 40, 2), ("differences", 22, 3), ("few", 15, 4)]
)
def test_taking_the_best_each_time_keeps_near_the_best_of_all_sets(
    rung: str, count: int, size: int
) -> None:
    """Nemhauser, Wolsey and Fisher 1978 (from memory): at least 1 − 1/e of the best; here more."""
    what = inquiry(section(ASKS, f"{rung}: {size}"))
    questions = some_of(rung, count)
    best = max(said(what, some) for some in combinations(questions, size))
    found = said(what, greedily(what, questions, size))
    assert found >= (1 - 1 / e) * best
    assert found >= 0.97 * best


def test_what_a_question_adds_is_never_more_when_more_has_been_asked() -> None:
    what = inquiry(section(ASKS))
    questions = [*some_of("sums", 6), *some_of("differences", 6)]
    for last in questions:
        few, more = Said(), Said()
        before = None
        for question in questions:
            more.add(what, question)
            adds = more.adds(what, last)
            assert 0 <= adds <= few.adds(what, last)
            assert before is None or adds <= before
            before = adds


def test_what_is_said_does_not_hang_on_the_order_of_the_questions() -> None:
    what = inquiry(section(ASKS))
    questions = [*some_of("sums", 4), *some_of("differences", 4)]
    assert said(what, questions) == said(what, questions[::-1])


def test_what_says_more_gives_more_information_in_bits() -> None:
    """Against Shannon's measure (1948), added up over every answer that pupils may write."""
    what = inquiry(section(ASKS, "differences: 2"))
    pairs = list(combinations(some_of("differences", 14), 2))
    bits = {pair: information(what, pair) for pair in pairs}
    in_order = sorted(pairs, key=lambda pair: said(what, pair))
    tenth = len(pairs) // 10
    least, most = (
        sum(map(bits.__getitem__, some)) for some in (in_order[:tenth], in_order[-tenth:])
    )
    assert most > 1.5 * least
    assert bits[in_order[-1]] >= 0.9 * max(bits.values())


SLIPS, STEADY, ANSWERS = 0.05, 0.85, 25


def written(parts: tuple[int, ...], way: int) -> list[float]:
    """How likely each answer is, 0 the right one, the last any other, for one way of working."""
    chances = [SLIPS / ANSWERS] * (max(parts) + 1)
    chances.append(1 - SLIPS - sum(chances) + SLIPS * 1.0)
    chances[-1] = SLIPS * (ANSWERS - max(parts) - 1) / ANSWERS
    steady = STEADY if way else 1.0
    chances[parts[way]] += (1 - SLIPS) * steady
    chances[0] += (1 - SLIPS) * (1 - steady)
    return chances


def information(what: Inquiry, questions: tuple[Question, ...]) -> float:
    """How many bits two answers give about who works how, careful work as likely as nine habits."""
    count = len(what.ways)
    chances = [9 / (9 + count), *[1 / (9 + count)] * count]
    parts = [what.parts(question) for question in questions]
    tables = [[written(part, way) for way in range(count + 1)] for part in parts]
    bits = 0.0
    for first in range(len(tables[0][0])):
        for second in range(len(tables[1][0])):
            both = [tables[0][way][first] * tables[1][way][second] for way in range(count + 1)]
            in_all = sum(chance * one for chance, one in zip(chances, both, strict=True))
            for chance, one in zip(chances, both, strict=True):
                bits += chance * one * log(one / in_all) / log(2)
    return bits


def test_the_overlaps_are_those_of_the_pupils_that_are_assumed_rounded_to_powers_of_two() -> None:
    """Bhattacharyya 1943 (from memory): the sum of the roots of both chances of each answer."""
    parts = (0, 0, 1, 2)  # careful work, a habit that does not show, two that do

    def overlap(first: int, second: int) -> float:
        chances = zip(written(parts, first), written(parts, second), strict=True)
        # What other answers there are is alike for both.
        return sum(sqrt(one * other) for one, other in chances)

    assert sum(written(parts, 2)) == pytest.approx(1.0)
    for pair, halvings in (((0, 2), ONE_RIGHT), ((1, 3), ONE_RIGHT), ((2, 3), BOTH_WRONG)):
        assert Fraction(3, 4) < overlap(*pair) * 2**halvings < Fraction(5, 4)


# What it may say, and what is wrong with it.


def test_every_habit_is_one_word_whatever_stands_beside_it() -> None:
    spec = section("finds_out: [carry dropped, every-habit]")
    assert spec.tiers[0].finds_out == (EVERY_HABIT,)
    assert (spec.tiers[0].finds_out_line, spec.tiers[0].tells_apart_line) == (10, 0)
    assert spec == section(ASKS)
    assert read_spec(spec_text(spec).encode(), "beans.yaml", VOCABULARY) == spec
    assert digest_of(spec) == digest_of(section(ASKS)) != digest_of(section("minutes: 9"))


def test_a_section_may_both_find_out_and_tell_apart() -> None:
    apart = ["carry dropped", "carry added twice"]
    spec = section(f"{ASKS}\n    tells_apart: [{', '.join(apart)}]", "sums: 4")
    what = inquiry(spec)
    only_apart = section(f"tells_apart: [{', '.join(apart)}]", "sums: 4")
    for seed in range(2):
        for question in asked(spec, seed):
            assert any(mistake_named(name).wrong_answer(question) for name in apart)
        assert said(what, asked(spec, seed)) >= said(what, asked(only_apart, seed))


@pytest.mark.parametrize(
    ("words", "questions", "says"),
    [
        (
            "finds_out: [carry droped]",
            "sums: 2",
            "beans.yaml:10: 'finds_out' in 'core' cannot be 'carry droped'; "
            "did you mean 'carry dropped'?",
        ),
        (
            "finds_out: stops at a zero",
            "sums: 2",
            "beans.yaml:10: 'stops at a zero' in 'finds_out' goes with no rung of 'core'; it goes "
            "with subtract",
        ),
        (
            "finds_out: carry dropped",
            "gap: 2",
            "beans.yaml:10: 'carry dropped' in 'finds_out' goes with no rung of 'core': with "
            "'form: missing digit' no answer shows it",
        ),
        (
            ASKS,
            "gap: 2",
            "beans.yaml:10: 'every habit' in 'finds_out' goes with no rung of 'core': with "
            "'form: missing digit' no answer shows one; leave it out",
        ),
        ("finds_out: []", "sums: 2", "beans.yaml:10: 'finds_out' in 'core'"),
    ],
)
def test_problems_have_their_line(words: str, questions: str, says: str) -> None:
    with pytest.raises(SpecError) as caught:
        section(words, questions)
    assert str(caught.value).startswith(says)
    assert len(caught.value.problems) == 1


def test_a_named_habit_that_never_shows_is_refused_whatever_the_seed() -> None:
    # 36 pairs of digits from 1 to 9 make nine or less, 4 of them doubles: (36 × 36 + 16) / 2 sums
    for seed in range(3):
        with pytest.raises(CannotTellApartError) as caught:
            build_pack(section("finds_out: carry dropped", "level: 2"), seed)
        assert caught.value.line == 10
        assert str(caught.value) == (
            "'carry dropped' gives the right answer to each of all 656 questions of level in "
            "core; leave it out of finds_out, or loosen a rung"
        )
    assert len(asked(section(ASKS, "level: 2"), 1)) == 2, "of all habits some may never show"


def test_looks_are_bounded(monkeypatch: pytest.MonkeyPatch) -> None:
    """A tier of 60 questions looks at no more than one of 10."""
    looks = 0
    adds = Said.adds

    def counted(self: Said, what: Inquiry, question: Question) -> int:
        nonlocal looks
        looks += 1
        return adds(self, what, question)

    monkeypatch.setattr(Said, "adds", counted)
    build_pack(section(ASKS, "sums: 40, differences: 20"), 1)
    assert 60 * 4 < looks <= LOOKS_OF_A_SECTION


# Parts with tiers.

TIERED = """lesson:
  - starter: {sums: 2}
  - practice:
      FINDS
      tiers:
        support: {sums: 4}
        core: {finds_out: stops at a zero, questions: {differences: 4}}
        stretch: {questions: {differences: 2, gap: 2}}
"""


def tiered(words: str, tiers: str = TIERED) -> Spec:
    return read_spec(f"{LADDER}{tiers.replace('FINDS', words)}".encode(), "beans.yaml", VOCABULARY)


def tier(spec: Spec, name: str) -> SectionSpec:
    (found,) = (one for one in spec.sections if one.name == name)
    return found


def test_what_a_part_finds_out_its_tiers_do_but_those_that_say_it_themselves() -> None:
    spec = tiered(ASKS)
    assert [one.finds_out for one in spec.sections] == [
        (),
        (EVERY_HABIT,),
        ("stops at a zero",),
        (EVERY_HABIT,),
    ]
    each = tiered(
        "minutes: 9",
        TIERED.replace("support: {sums: 4}", f"support: {{{ASKS}, questions: {{sums: 4}}}}"),
    )
    there, alone = (build_pack(one, 3).sections for one in (spec, each))
    assert [item.question for item in there[1].items] == [item.question for item in alone[1].items]
    plain = build_pack(tiered("minutes: 9"), 3).sections
    what = inquiry_of(tier(spec, "support"), [spec.rung("sums")])
    assert what is not None
    chosen, came = ([item.question for item in one[1].items] for one in (there, plain))
    assert said(what, chosen) > said(what, came)
    assert there[0] == plain[0]


def test_it_reads_back_as_it_was_written() -> None:
    for words in (ASKS, "finds_out: [carry dropped, stops at a zero]"):
        spec = tiered(words)
        again = read_spec(spec_text(spec).encode(), "beans.yaml", VOCABULARY)
        assert again == spec
        assert digest_of(again) == digest_of(spec)
        assert again.sections == spec.sections
    assert digest_of(tiered(ASKS)) != digest_of(tiered("minutes: 9"))


def test_of_habits_named_for_all_tiers_each_finds_out_those_that_its_rungs_can_show() -> None:
    spec = tiered("finds_out: [carry dropped, passes over a zero]")
    asked_about = {}
    for one in spec.sections[1:]:
        what = inquiry_of(one, [spec.rung(share.rung) for share in one.shares])
        assert what is not None
        asked_about[one.name] = {mistake.name for mistake in what.asked}
    assert asked_about == {
        "support": {"carry dropped"},
        "core": {"stops at a zero"},
        "stretch": {"carry dropped", "passes over a zero"} - {"carry dropped"},
    }
    assert build_pack(spec, 1)


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (
            "finds_out: remainder not carried",
            "'remainder not carried' in 'finds_out' goes with no rung of 'practice'",
        ),
        ("finds_out: every habbit", "did you mean 'every habit'"),
        (
            "tells_apart: carry dropped",
            "'tells_apart' cannot stand beside 'tiers'; write it in each tier",
        ),
    ],
)
def test_what_does_not_go_beside_tiers_is_refused_with_its_line(words: str, says: str) -> None:
    with pytest.raises(SpecError) as refused:
        tiered(words)
    assert says in str(refused.value)
    assert "beans.yaml:11: " in str(refused.value)


def test_a_part_is_not_to_find_out_what_each_of_its_tiers_says_itself() -> None:
    alone = (
        TIERED.split("        support")[0]
        + "        core: {finds_out: stops at a zero, questions: {differences: 4}}\n"
    )
    with pytest.raises(SpecError, match="each tier of 'practice' says itself what it finds out"):
        tiered(ASKS, alone)


def test_a_habit_that_no_tier_shows_is_refused() -> None:
    level = TIERED.replace("support: {sums: 4}", "support: {level: 4}")
    with pytest.raises(CannotTellApartError) as refused:
        build_pack(tiered("finds_out: carry dropped", level), 1)
    assert refused.value.line == 11
    assert "of level and differences in practice" in refused.value.what


def test_ticking_a_tier_beside_one_that_finds_out_for_all() -> None:
    text = f"{LADDER}{TIERED.replace('FINDS', ASKS)}"

    def finds_out(changed: str) -> dict[str, tuple[str, ...]]:
        spec = read_spec(changed.encode(), "beans.yaml", VOCABULARY)
        return {one.name: one.finds_out for one in spec.sections if one.finds_out}

    assert editing.set_finding_out(text, "support", True) == text
    without = editing.set_finding_out(text, "support", False)
    assert finds_out(without) == {"core": ("stops at a zero",), "stretch": (EVERY_HABIT,)}
    assert finds_out(editing.set_finding_out(text, "core", False)) == {
        "support": (EVERY_HABIT,),
        "stretch": (EVERY_HABIT,),
    }
    assert finds_out(editing.set_finding_out(without, "support", True)) == finds_out(text)
