"""Packs: given this spec and this seed, these questions; nothing repeats, everything matches."""

from collections import Counter, defaultdict

import pytest

from generator.operations.rungs import rung_set
from generator.packs.building import TooFewQuestionsError, build_pack, label
from generator.packs.pack import Item, Pack, Section
from generator.vocabulary import VOCABULARY
from specs import Spec, load_spec, shipped
from tests import golden
from tests.generator import oracle
from tests.generator.ladders import spec

LADDER = """
level: {operation: add, places: 2, whole: 1, carries: none}
mixed: {operation: add, addends: 3, places: {ragged: [1, 3]}, carries: {count: [1, 2]}}
noughts: {operation: subtract, places: 3, exchanges: {through_zeros: 2}}
five: {operation: add, addends: 5, places: {ragged: [1, 3]}}
"""
SECTIONS = """
starter: {minutes: 10, questions: {level: 3, mixed: 3}}
examples: [mixed, noughts]
tiers:
  support: {level: 6, mixed: 3}
  core: {mixed: 4, noughts: 4}
  stretch: {noughts: 4, five: 3}
"""


@pytest.fixture(scope="module")
def demo() -> Spec:
    return load_spec(shipped(), VOCABULARY)


def texts(section: Section) -> list[str]:
    return [item.question.text for item in section.items]


def by_name(pack: Pack) -> dict[tuple[str, int], list[str]]:
    return {(s.name, s.version): texts(s) for s in pack.sections}


def test_a_pack_has_its_sections_in_lesson_order() -> None:
    pack = build_pack(spec(LADDER, SECTIONS), seed=3)
    assert [(s.name, s.kind, len(s.items)) for s in pack.sections] == [
        ("starter", "starter", 6),
        ("examples", "example", 4),
        ("support", "practice", 9),
        ("core", "practice", 8),
        ("stretch", "practice", 7),
    ]
    assert [item.label for item in pack.sections[0].items] == list("abcdef")
    assert pack.sections[0].minutes == 10


def test_every_question_is_on_its_rung(demo: Spec) -> None:
    for seed in range(20):
        for section in build_pack(demo, seed).sections:
            for item in section.items:
                assert item.question in rung_set(demo.rung(item.rung))


def shipped_rung_is_obeyed(item: Item) -> bool:
    """Whether a question of the shipped ladder meets its rung, worked by hand."""
    numbers = [str(number) for number in item.question.operands]
    lengths = [len(number.partition(".")[2]) for number in numbers]
    match item.rung:
        case "equal-places":
            return not oracle.add(numbers).transfers and lengths == [2, 2]
        case "mixed-places":
            carries = oracle.add(numbers).transfers
            across = oracle.carries_across_point(numbers)
            return 1 <= len(carries) <= 2 and not across and len(set(lengths)) > 1
        case "over-the-point":
            return oracle.carries_across_point(numbers)
        case "through-zeros":
            return len(oracle.subtract(numbers).zeros_passed) == 2
        case "five-addends":
            return len(numbers) == 5 and len(set(lengths)) > 1
        case "tables-in-decimals":
            return all(len(number.strip("0.")) == 1 for number in numbers) and set(lengths) <= {
                1,
                2,
            }
        case "price-by-number":
            return lengths == [2, 0] and len(numbers[1]) == 1
        case "bed-areas":
            return lengths == [1, 1] and all(len(number) == 3 for number in numbers)
        case "left-over":
            return int(numbers[0]) % int(numbers[1]) > 0
        case "equal-shares":
            return lengths == [1, 0] and int(numbers[0].replace(".", "")) % int(numbers[1]) == 0
        case "into-decimals":
            dividend, divisor = map(int, numbers)
            return dividend % divisor > 0 and 100 * dividend % divisor == 0
    return False


def test_every_question_obeys_its_rung_when_worked_by_hand(demo: Spec) -> None:
    """The conditions of the shipped ladder, checked by the independent oracle."""
    for seed in range(30):
        for section in build_pack(demo, seed).sections:
            for item in section.items:
                assert shipped_rung_is_obeyed(item), item


def test_nothing_repeats_within_a_pack(demo: Spec) -> None:
    for versions in (1, 30):
        pack = build_pack(demo, 7, versions)
        seen = Counter(item.question.identity for s in pack.sections for item in s.items)
        assert max(seen.values()) == 1


def test_the_same_spec_and_seed_give_the_same_pack_and_another_seed_another(demo: Spec) -> None:
    assert build_pack(demo, 5) == build_pack(demo, 5)
    assert by_name(build_pack(demo, 5)) != by_name(build_pack(demo, 6))


def test_golden_questions_of_the_demo() -> None:
    """If these move, a colleague with the same spec and seed prints another sheet."""
    assert golden.questions() == golden.kept()["questions"]


def test_editing_one_tier_leaves_the_others_as_they_were() -> None:
    before = by_name(build_pack(spec(LADDER, SECTIONS), 11, versions=3))
    edited = SECTIONS.replace("support: {level: 6, mixed: 3}", "support: {mixed: 5, level: 2}")
    after = by_name(build_pack(spec(LADDER, edited), 11, versions=3))
    changed = {name for (name, _), questions in after.items() if questions != before[name, _]}
    assert changed == {"support"}


def test_the_title_and_the_look_do_not_change_a_question() -> None:
    one = spec(LADDER, SECTIONS)
    other = spec(LADDER, SECTIONS + "pages: {squares: 10}\n")
    assert by_name(build_pack(one, 2)) == by_name(build_pack(other, 2))


def test_more_versions_leave_the_first_ones_as_they_were(demo: Spec) -> None:
    few, many = by_name(build_pack(demo, 4, 2)), by_name(build_pack(demo, 4, 12))
    assert few.items() <= many.items()


def test_versions_carry_and_exchange_in_the_very_same_columns(demo: Spec) -> None:
    pack = build_pack(demo, 9, versions=30)
    slots = defaultdict(list)
    for section in pack.of_kind("practice"):
        for item in section.items:
            slots[section.name, item.label].append(item)
    for items in slots.values():
        assert len(items) == 30
        assert len({item.signature for item in items if not item.matched}) == 1
        if any(item.matched for item in items):
            # Only where fewer questions share the signature than versions are asked for.
            assert items[0].rung in ("tables-in-decimals", "into-decimals")
            continue
        by_hand = {"add": oracle.add, "subtract": oracle.subtract}.get(items[0].question.operation)
        if by_hand:
            worked = [by_hand([str(n) for n in i.question.operands]).transfers for i in items]
            assert worked.count(worked[0]) == 30


def test_example_pairs_match(demo: Spec) -> None:
    (examples,) = build_pack(demo, 13).of_kind("example")
    for teacher, match in zip(examples.items[::2], examples.items[1::2], strict=True):
        assert teacher.rung == match.rung
        assert teacher.signature == match.signature
        assert teacher.question != match.question


def test_within_a_rung_a_sheet_runs_from_easier_to_harder(demo: Spec) -> None:
    for section in build_pack(demo, 3).of_kind("practice"):
        for before, after in zip(section.items, section.items[1:], strict=False):
            if before.rung == after.rung:
                rung = rung_set(demo.rung(before.rung))
                easier, harder = (rung.signature(i.question) for i in (before, after))
                assert easier.difficulty <= harder.difficulty


def test_answers_and_numbers_differ_within_a_sheet(demo: Spec) -> None:
    for seed in range(10):
        for section in build_pack(demo, seed, versions=3).sections:
            answers = [item.question.answer.trimmed() for item in section.items]
            assert len(set(answers)) == len(answers)
            # Divisors and single-digit factors are too few for every question to have its own.
            added = [i for i in section.items if i.question.operation in ("add", "subtract")]
            numbers = [n for item in added for n in set(item.question.operands)]
            assert len(set(numbers)) == len(numbers)


SMALL = "tiny: {operation: add, places: 1, whole: 0, carries: none}"


def test_a_small_rung_is_used_to_the_last_question() -> None:
    """45 questions: 9 slots in 5 versions; not every slot can have five with its signature."""
    small = spec("tiny: {operation: add, places: 1, whole: 0}", "tiers: {core: {tiny: 9}}\n")
    assert rung_set(small.ladder[0]).count == 45
    pack = build_pack(small, 1, versions=5)
    assert len({i.question.identity for s in pack.sections for i in s.items}) == 45
    widened = {item.matched for section in pack.sections for item in section.items}
    assert "" in widened
    assert len(widened) > 1


def test_a_rung_with_too_few_questions_says_how_many() -> None:
    asked = spec(SMALL, "starter: {tiny: 1}\ntiers: {core: {tiny: 4}}\n")
    with pytest.raises(TooFewQuestionsError) as error:
        build_pack(asked, 1, versions=5)
    assert error.value.what == (
        "tiny has 20 questions, and 21 are wanted (starter 1, core 4 in 5 versions)"
    )


def test_looser_matching_is_the_rung_alone() -> None:
    sections = "tiers: {core: {mixed: 3}}\nmatching: rung\n"
    pack = build_pack(spec(LADDER, sections), 1, versions=6)
    first, *others = pack.sections
    assert {item.matched for item in first.items} == {""}
    assert {item.matched for s in others for item in s.items} == {"same rung only"}
    assert len({item.signature for s in pack.sections for item in s.items}) > 3


def test_questions_are_lettered() -> None:
    assert [label(at) for at in (0, 25, 26, 27, 52)] == ["a", "z", "aa", "ab", "ba"]


@pytest.mark.parametrize("wrong", [{"seed": -1}, {"seed": 1, "versions": 0}])
def test_seeds_and_versions_count_upwards(demo: Spec, wrong: dict[str, int]) -> None:
    with pytest.raises(ValueError, match="count"):
        build_pack(demo, **wrong)
