"""What the key says about wrong answers."""

import re

from generator.operations.in_english import IN_BRIEF
from generator.operations.mistakes import MISTAKES
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


def test_a_section_says_in_two_lines_what_it_does_not_show_or_tell_apart() -> None:
    items = tuple(
        Item(label, "differences", asked(text), "", ())
        for label, text in (("a", "63 − 29"), ("b", "40 − 17"))
    )
    both = section("core", "practice", *items)
    (missed,) = power_lines(both, 400.0)
    assert missed.startswith("No question shows: ")
    assert "exchange stops at a nought" in missed
    one = section("core", "practice", items[1])
    assert power_lines(one, 400.0)[-1] == (
        "Cannot be told apart: smaller digit from larger from 0 − n made n."
    )
    shorter = power_lines(both, 100.0)
    assert len(shorter) == 1
    assert re.search(r"; \d+ more\.$", shorter[0])
    assert all(typeface.width(line, KEY_WRONG) <= 100.0 for line in shorter)
    assert not power_lines(section("examples", "example", *items), 400.0)


def test_every_mistake_has_a_few_words_that_fit_beside_an_answer() -> None:
    assert {mistake.name for mistake in MISTAKES} == set(IN_BRIEF)
    assert all(typeface.width(words, KEY_WRONG) <= 55.0 for words in IN_BRIEF.values())
