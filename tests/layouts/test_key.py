"""How the teacher's key stands on its pages."""

import pytest

from generator.packs.building import build_pack
from generator.packs.pack import Pack
from generator.packs.working_out import work
from generator.vocabulary import VOCABULARY
from layouts.key.key import key_pages
from layouts.planning.plan import Text
from layouts.planning.type_scale import KEY_TEXT
from specs import load_spec, read_spec, shipped
from tests.layouts.lessons import pack
from tests.worked import worked

LONG_TITLE = "Autumn fair: decimals in order, in words and with gaps"


def texts(of: Pack) -> list[Text]:
    return [text for page in key_pages(work(of)) for text in page.texts]


@pytest.mark.parametrize("title", ["Produce stall", LONG_TITLE])
def test_its_title_stays_on_one_line_where_smaller_type_does_it(title: str) -> None:
    first, *_ = texts(pack("1.5+2.25", title=title))
    assert first.text == f"{title}: teacher's key"
    assert first.size >= 11.5


def test_a_pair_of_worked_examples_takes_the_whole_width() -> None:
    lesson = pack("1.5+2.25", "2.5+3.25", "3.5+4.25")
    (page,) = key_pages(work(lesson))
    labels = [text for text in page.texts if text.text in ("a)", "b)", "c)")]
    starter, pair = labels[:3], labels[3:5]
    across = [sorted(text.x for text in row) for row in (starter, pair)]
    assert [len(set(xs)) for xs in across] == [3, 2]
    assert across[1][1] - across[1][0] > 1.4 * (across[0][1] - across[0][0])


def test_no_line_ends_between_a_number_and_what_it_counts() -> None:
    lesson = build_pack(load_spec(shipped(), VOCABULARY), 1)
    small = [text.text for text in texts(lesson) if text.size < 8 and " " in text.text]
    assert any("decimal places in all" in line for line in small)
    foot = ("page", "code", "seed")
    ends = [line for line in small if line[-1].isdigit() and not line.startswith(foot)]
    assert not ends


def test_the_answer_to_words_and_to_an_order_stands_apart_in_bold() -> None:
    spec = """
title: Stall
ladder:
  words: {operation: subtract, places: 2, whole: 2, context: any}
  rising: {operation: order, numbers: 3, places: 2, whole: 1}
tiers: {core: {words: 2, rising: 2}}
"""
    lesson = build_pack(read_spec(spec.encode(), "stall.yaml", VOCABULARY), 1)
    bold = [text.text for text in texts(lesson) if text.bold and text.size == KEY_TEXT]
    section = lesson.sections[0]
    items = worked(lesson, section).items
    answers = [item.with_answer_apart[1].replace("\xa0", " ") for item in items]
    assert all(answers)
    assert [line for line in bold if not line.endswith(")")] == answers
