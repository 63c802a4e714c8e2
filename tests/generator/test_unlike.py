"""Questions unlike each other on a sheet: liked, as far as a few looks go, and never hunted for."""

from collections import Counter
from typing import Any

import pytest
from scipy import stats

from generator.operations.rungs import rung_set
from generator.packs.building import build_pack
from generator.packs.choosing import LOOKS, LOOKS_FOR_A_MATCH, UNLIKE, Drawing, Sheet
from specs import Spec
from tests.generator.ladders import questions, spec

ONE_DIGIT = "shares: {operation: divide, divisor: {between: [2, 9]}, dividend: {digits: 3}}"
ONE_DIVISOR = "shares: {operation: divide, divisor: 7, dividend: {digits: 3}}"
TABLES = "tables: {operation: multiply, digits: [1, 1], places: [1, 1]}"


@pytest.fixture
def looks(monkeypatch: pytest.MonkeyPatch) -> Counter[str]:
    """How many questions are looked at."""
    counted: Counter[str] = Counter()
    look = Drawing._looked_at

    def looked_at(self: Drawing, *of: Any) -> Any:
        counted["in all"] += 1
        return look(self, *of)

    monkeypatch.setattr(Drawing, "_looked_at", looked_at)
    return counted


@pytest.mark.parametrize("rung", [ONE_DIGIT, ONE_DIVISOR, TABLES])
def test_a_liking_that_cannot_be_met_costs_a_few_looks_a_slot(
    rung: str, looks: Counter[str]
) -> None:
    name, slots, versions = rung.partition(":")[0], 15, 2
    build_pack(spec(rung, f"tiers: {{core: {{{name}: {slots}}}}}\n"), 1, versions)
    # A question that is in the pack already is passed over, at the cost of a look.
    taken = slots * versions
    assert looks["in all"] <= slots * (LOOKS + LOOKS_FOR_A_MATCH + taken)


def test_a_large_pack_of_few_divisors_costs_a_few_looks_a_slot(looks: Counter[str]) -> None:
    tiers = "".join(f"  t{at}: {{shares: 40}}\n" for at in range(12))
    build_pack(spec(ONE_DIGIT, f"tiers:\n{tiers}"), 1)
    assert looks["in all"] <= 12 * 40 * 2 * LOOKS


def squares(read: Spec, seeds: range) -> list[int]:
    """How many questions of each first section have the same number twice."""
    sections = (build_pack(read, seed).sections[0] for seed in seeds)
    return [sum(len(set(i.question.operands)) == 1 for i in s.items) for s in sections]


def test_squares_do_not_crowd_a_sheet_of_times_tables() -> None:
    """Of 36 products from 0.2 × 0.2 to 0.9 × 0.9 eight are squares; a sheet of eight has fewer
    of them than chance would give.
    """
    read = spec(TABLES, "starter:\n  questions: {tables: 8}\n")
    assert rung_set(read.ladder[0]).count == 36
    found = squares(read, range(60))
    assert sum(found) / (8 * 60) < 8 / 36
    assert max(found) <= 3


@pytest.mark.slow
def test_the_first_question_of_a_sheet_is_drawn_uniformly() -> None:
    """To an empty sheet no question is alike: squares come as often as any."""
    alone = spec(TABLES, "starter:\n  questions: {tables: 1}\n")
    drawn = Counter(
        build_pack(alone, seed).sections[0].items[0].question.identity for seed in range(1800)
    )
    tally = [drawn[question.identity] for question in map(questions_of(TABLES).unrank, range(36))]
    assert sum(tally) == 1800
    assert stats.chisquare(tally).pvalue > 0.001


def questions_of(rung: str) -> Any:
    return questions(rung.partition("{")[2].rstrip("}"))


def test_likeness_counts_answers_before_numbers_and_squares_last() -> None:
    sheet = Sheet()
    products = questions_of(TABLES)
    at = {q.text: q for q in map(products.unrank, range(products.count))}
    assert sheet.likeness(at["0.2 × 0.2"]) == UNLIKE
    sheet.add(at["0.8 × 0.3"])
    likings = [sheet.likeness(at[text]) for text in ("0.5 × 0.2", "0.5 × 0.3", "0.5 × 0.5")]
    assert likings == sorted(likings)
    assert likings[0] == UNLIKE
    assert sheet.likeness(at["0.6 × 0.4"]) > likings[-1]  # 0.24 stands there


def test_a_sheet_uses_all_its_divisors_before_one_comes_again() -> None:
    """Eight divisors: the first eight questions have nearly all of them, whatever the seed."""
    read = spec(ONE_DIGIT, "starter:\n  questions: {shares: 8}\n")
    for seed in range(20):
        divisors = {item.question.operands[1] for item in build_pack(read, seed).sections[0].items}
        assert len(divisors) >= 7
