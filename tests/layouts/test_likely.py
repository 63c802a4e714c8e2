"""What the key says about wrong answers."""

import re

from generator.operations.in_english import IN_BRIEF
from generator.operations.mistakes import MISTAKES, MISTAKES_OF_METHODS
from generator.packs.building import build_pack
from generator.packs.likely_answers import likely_for
from generator.packs.pack import Item, Section
from generator.packs.working_out import WorkedSection, work
from generator.vocabulary import VOCABULARY
from layouts.key.key import key_pages
from layouts.key.likely import expected, power_lines
from layouts.planning import typeface
from layouts.planning.type_scale import KEY_WRONG
from specs import read_spec
from tests.generator.test_mistakes import asked
from tests.worked import USUAL, worked, worked_item

SPEC = """\
title: Weighing beans
ladder:
  sums: {operation: add, places: {ragged: [1, 2]}}
  differences: {operation: subtract, places: 2, exchanges: {count: 1}}
  boxes: {operation: add, places: 1, form: missing number}
tiers: {core: {sums: 2, differences: 2, boxes: 2}}
"""


def section(name: str, kind: str, *items: Item) -> WorkedSection:
    return worked(USUAL, Section(name, kind, 1, None, items))


def test_the_key_names_the_likely_wrong_answers_of_every_question() -> None:
    pack = build_pack(read_spec(SPEC.encode(), "beans.yaml", VOCABULARY), 1)
    pages = tuple(key_pages(work(pack)))
    printed = " ".join(text.text for page in pages for text in page.texts)
    for item in pack.sections[0].items:
        for likely in likely_for(item):
            assert f"{likely.reply.text} → {likely.mistakes[0].in_brief}" in printed


def test_names_are_joined_where_two_give_the_same() -> None:
    item = Item("a", "sums", asked("2.17 + 4.98"), "", ())
    first, *_ = expected(worked_item(item))
    assert (first.text, first.reasons) == ("6.05", "carry written, not added or carry left out")


def differences(*texts: str) -> WorkedSection:
    items = (Item("a", "differences", asked(text), "", ()) for text in texts)
    return section("core", "practice", *items)


def test_a_section_says_in_two_lines_what_it_finds_out_and_what_it_leaves_open() -> None:
    found, left = power_lines(differences("63 − 29", "40 − 17", "52 − 38", "71 − 26"), 400.0)
    assert found == "Finds out: smaller digit from larger; next column not lowered; added instead."
    # Only 40 − 17 has a nought above: there one gives 37, as whoever takes the smaller digit
    # from the larger does, the other 30.
    assert left.startswith(
        "Too few questions. "
        "Shown once: digit under a 0 copied down; digit under a 0 made 0. "
        "Never shown: lined up at the right; "
    )
    assert "exchange stops at a nought" in left


def test_habits_that_give_the_same_answers_are_named_together() -> None:
    (left,) = power_lines(differences("40 − 17"), 400.0)
    assert "Shown once: smaller digit from larger or digit under a 0 copied down;" in left
    (found, _) = power_lines(differences("40 − 17", "60 − 28", "70 − 36"), 400.0)
    assert "smaller digit from larger or digit under a 0 copied down" in found


def test_a_habit_that_is_seldom_told_from_another_is_left_open() -> None:
    # Of the three one alone tells who takes the smaller digit from the larger from who makes
    # 0 − n into n, and there the second is right.
    found, left = power_lines(differences("40 − 17", "60 − 28", "70 − 36", "63 − 29"), 400.0)
    assert "smaller digit" not in found
    assert left.startswith(
        "Too few questions. Cannot be told from another mistake: smaller digit from larger; "
    )


def test_as_many_names_as_fit_stand_on_a_line() -> None:
    core = differences("63 − 29", "40 − 17")
    (shorter,) = power_lines(core, 120.0)
    assert re.search(r"\. And \d+ more\.$", shorter)
    assert all(typeface.width(line, KEY_WRONG) <= 120.0 for line in power_lines(core, 120.0))
    assert not power_lines(section("examples", "example"), 400.0)


def test_every_mistake_has_a_few_words_that_fit_beside_an_answer() -> None:
    assert {mistake.name for mistake in (*MISTAKES, *MISTAKES_OF_METHODS)} == set(IN_BRIEF)
    assert all(typeface.width(words, KEY_WRONG) <= 55.0 for words in IN_BRIEF.values())
