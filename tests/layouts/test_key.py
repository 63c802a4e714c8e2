"""How the teacher's key stands on its pages."""

import re
from dataclasses import replace
from pathlib import Path

import pytest

from generator.packs.building import build_pack
from generator.packs.pack import Pack
from generator.packs.working_out import WorkedPack, work
from generator.vocabulary import VOCABULARY
from layouts.key.band import EDGE
from layouts.key.key import key_pages
from layouts.planning.extent import extent
from layouts.planning.plan import PagePlan, Role, Text, Unit
from layouts.planning.type_scale import BLACK, KEY_ANSWER, KEY_WRONG
from specs import load_spec, shipped
from tests.layouts.lessons import pack
from tests.layouts.sheets import with_presentation

LESSONS = Path(__file__).parents[2] / "specs" / "lessons"
LONG_TITLE = "Autumn fair: decimals in order, in words and with gaps"


def texts(of: Pack) -> list[Text]:
    return [text for page in key_pages(work(of)) for text in page.texts]


@pytest.mark.parametrize("title", ["Produce stall", LONG_TITLE])
def test_its_title_stays_on_one_line_where_smaller_type_does_it(title: str) -> None:
    first, *_ = texts(pack("1.5+2.25", title=title))
    assert first.text == f"{title}: teacher's key"
    assert first.size >= 11.5


def section_texts(page: PagePlan) -> list[Text]:
    """What is printed of a page over its foot."""
    return [text for text in page.texts if text.baseline < page.height - 25]


def test_a_pair_of_worked_examples_takes_the_whole_width() -> None:
    lesson = pack("1.5+2.25", "2.5+3.25", "3.5+4.25")
    labels = [text for text in texts(lesson) if text.text in ("a)", "b)", "c)")]
    starter, pair = labels[:3], labels[3:5]
    across = [sorted(text.x for text in row) for row in (starter, pair)]
    assert [len(set(xs)) for xs in across] == [3, 2]
    assert across[1][1] - across[1][0] > 1.4 * (across[0][1] - across[0][0])


def test_no_line_ends_between_a_number_and_what_it_counts() -> None:
    lesson = build_pack(load_spec(shipped(), VOCABULARY), 1)
    small = [text.text for text in texts(lesson) if text.size == KEY_WRONG and " " in text.text]
    assert any("decimal places in all" in line for line in small)
    about = [line for line in small if ": " in line and "decimal" in line]
    assert not [line for line in about if line[-1].isdigit()]


@pytest.mark.parametrize("spec", [shipped(), *sorted(LESSONS.glob("*.yaml"))], ids=lambda p: p.stem)
def test_answers_are_large_and_nothing_is_small_or_grey(spec: Path) -> None:
    lesson = work(build_pack(load_spec(spec, VOCABULARY), 1))
    answers = [item.reply.replace(" ", "") for section in lesson for item in section.items]
    printed = []
    for page in key_pages(lesson):
        over_foot = section_texts(page)
        on_squares = {
            item
            for unit in page.content
            if isinstance(unit, Unit) and unit.role is Role.WORKING
            for item in unit.items
        }
        for text in over_foot:
            if text not in on_squares:
                assert text.size >= 9
                assert text.colour == BLACK
        large = [
            text
            for unit in page.content
            if isinstance(unit, Unit) and unit.role is Role.PARAGRAPH
            for text in unit.items
            if isinstance(text, Text) and text.size == KEY_ANSWER and text.bold
        ]
        printed += large
    assert KEY_ANSWER >= 12
    assert "".join(text.text for text in printed).replace(" ", "") == "".join(answers)


@pytest.mark.slow
def test_a_class_set_s_key_has_every_answer_of_every_version_with_its_code() -> None:
    lesson = work(build_pack(load_spec(shipped(), VOCABULARY), 1, 30))
    pages = list(key_pages(lesson))
    printed = [text.text for page in pages for text in page.texts]
    large = [text.text for page in pages for text in page.texts if text.size == KEY_ANSWER]
    wanted = [item.reply for name in lesson.names for s in lesson.named(name) for item in s.items]
    assert large == wanted
    for section in lesson:
        if section.kind == "practice":
            assert f"code {section.code}" in printed
            for item in section.items:
                for wrong in item.wrong_answers_to_expect:
                    assert any(text.startswith(f"{wrong.text} (") for text in printed)


def two_tiers(versions: int, *, all_workings: bool = False) -> WorkedPack:
    spec = load_spec(shipped(), VOCABULARY)
    lesson = build_pack(spec, 1, versions)
    sections = tuple(section for section in lesson.sections if section.name != "stretch")
    return work(replace(lesson, sections=sections), all_workings=all_workings)


def test_thirty_versions_of_two_tiers_take_fewer_than_twelve_pages() -> None:
    assert len(list(key_pages(two_tiers(30)))) < 12


def test_workings_are_of_the_first_version_unless_all_are_asked_for() -> None:
    def headings(lesson: WorkedPack) -> list[str]:
        said = [text.text for page in key_pages(lesson) for text in page.texts]
        return [text for text in said if "workings, version" in text]

    assert headings(two_tiers(3)) == [
        "Support practice: workings, version 1",
        "Core practice: workings, version 1",
    ]
    assert len(headings(two_tiers(3, all_workings=True))) == 6


def test_each_number_of_a_mistake_is_explained_on_its_page() -> None:
    for page in key_pages(two_tiers(12)):
        small = [text.text for text in page.texts if text.size == KEY_WRONG]
        told = {match[1] for text in small if (match := re.match(r"\((\d+)\) \w", text))}
        used = {
            number
            for text in small
            if (match := re.search(r" \(([\d/]+)\)$", text))
            for number in match[1].split("/")
        }
        assert used <= told


def test_nothing_lies_over_anything_else_on_a_class_set_s_key() -> None:
    for page in key_pages(two_tiers(4)):
        loose = [
            text
            for unit in page.content
            if isinstance(unit, Unit) and unit.role is Role.PARAGRAPH
            for text in unit.items
            if isinstance(text, Text)
        ]
        boxes = [extent([text]) for text in loose]
        for at, (left, top, right, bottom) in enumerate(boxes):
            assert right <= page.width - EDGE + 0.1
            for other in boxes[at + 1 :]:
                across = min(right, other[2]) - max(left, other[0])
                down = min(bottom, other[3]) - max(top, other[1])
                assert across < 0.05 or down < 0.05


@pytest.mark.parametrize(("paper", "width"), [("A5", 210), ("A3", 210), ("Letter", 215.9)])
def test_it_is_on_upright_a4_or_letter_whatever_pupils_have(paper: str, width: float) -> None:
    lesson = with_presentation(pack("1.5+2.25", paper=paper), orientation="landscape")
    for page in key_pages(work(lesson)):
        assert page.width == width
        assert page.height > page.width


def test_it_ends_with_what_counts_as_right() -> None:
    *_, last = key_pages(work(pack("1.5+2.25")))
    said = [text.text for text in last.texts]
    at = said.index("What counts as right")
    assert said[at + 1].startswith("Numbers: 3.67 or 3,67")
