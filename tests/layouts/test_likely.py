"""What the key says about wrong answers."""

from generator.packs.building import build_pack
from generator.packs.likely_answers import likely_for
from generator.packs.pack import Item, Section
from generator.packs.working_out import WorkedSection, work
from generator.vocabulary import VOCABULARY
from layouts.key.key import key_pages
from layouts.key.likely import likely_text, power_text
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
            assert f"If {likely.reply.text}: {likely.mistakes[0].name.split()[0]}" in printed
    assert "Mistakes that would show on 4 of the 4 that are worked alone: " in printed


def test_names_are_joined_where_two_give_the_same() -> None:
    item = Item("a", "sums", asked("2.17 + 4.98"), "", ())
    first, *_ = likely_text(worked_item(item))
    assert first == "If 6.05: carry written but not added; or carry dropped"


def test_a_section_says_what_it_can_show() -> None:
    items = tuple(
        Item(label, "differences", asked(text), "", ())
        for label, text in (("a", "63 − 29"), ("b", "40 − 17"))
    )
    both, one_of_them, would_not = power_text(section("core", "practice", *items))
    assert both == (
        "Mistakes that would show on 2 of 2: smaller digit taken from larger, exchange without "
        "lowering the next column, adds instead."
    )
    assert one_of_them == (
        "Mistakes that would show on 1 of 2: nought minus n gives n, nought minus n gives nought."
    )
    assert "stops at a nought" in would_not
    one = section("core", "practice", items[1])
    assert list(power_text(one))[-1] == (
        "Not told apart: smaller digit taken from larger and nought minus n gives n."
    )
    assert not list(power_text(section("examples", "example", *items)))
