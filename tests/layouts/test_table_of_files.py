"""The files that a pack has, and that no page is planned to know them."""

from dataclasses import replace
from pathlib import Path

import pytest

from generator.packs.pack import Section
from generator.packs.working_out import WorkedPack, work
from layouts import draw_file, file_names, plan
from layouts.files import table
from layouts.files.press import draw_pack
from layouts.files.table import TABLE, files_of, key_to
from tests.layouts.lessons import items, pack

EIGHT = tuple(f"tier-{number}" for number in range(1, 9))


def eight_tiers() -> WorkedPack:
    """A starter and eight tiers, each with a section."""
    tiers = (Section(tier, "practice", 1, None, items("1.5+2.5", "4.5-2.7")) for tier in EIGHT)
    starter = Section("starter", "starter", 1, 10, items("0.3+0.4"))
    return work(replace(pack(), sections=(starter, *tiers)))


def lesson(versions: int = 1) -> WorkedPack:
    """A lesson whose starter, examples and tier hold two questions."""
    return work(pack("1.5+2.5", "4.5-2.7", versions=versions))


@pytest.fixture
def planned_sections(monkeypatch) -> list[str]:
    """The sections whose sheets are planned, in the order of that."""
    found: list[str] = []
    plan_section = table.sheet_pages

    def noted(section):
        found.append(section.name)
        return plan_section(section)

    monkeypatch.setattr(table, "sheet_pages", noted)
    return found


def test_to_name_the_files_no_page_is_planned(planned_sections):
    names = file_names(eight_tiers())
    others = ("lesson.pdf", "answers.pdf", "answers-on-paper.pdf", "plan.pdf", "key.pdf")
    assert names == ("starter.pdf", *(f"practice-{t}.pdf" for t in EIGHT), *others)
    assert planned_sections == []


def test_to_draw_a_file_no_other_is_planned(planned_sections, tmp_path: Path):
    draw_file(eight_tiers(), "practice-tier-5.pdf", tmp_path)
    assert planned_sections == ["tier-5"]


@pytest.mark.parametrize("jobs", [1, 2])
def test_each_section_of_a_pack_is_planned_once(planned_sections, tmp_path: Path, jobs: int):
    drawn = draw_pack(eight_tiers(), tmp_path, jobs=jobs)
    assert [file.name for file in drawn] == list(file_names(eight_tiers()))
    if jobs == 1:  # with more, other processes plan
        assert planned_sections == ["starter", *EIGHT]


def test_a_section_without_questions_has_no_file():
    bare = work(replace(pack(), sections=(Section("starter", "starter", 1, 10, ()),)))
    assert files_of(bare) == () == plan(bare)


def test_examples_have_slides_and_paper_and_the_key_holds_all():
    files = {file.name: file for file in files_of(lesson(versions=3))}
    assert list(files) == [
        "starter.pdf",
        "examples.pdf",
        "examples-on-paper.pdf",
        "practice-core.pdf",
        "lesson.pdf",
        "answers.pdf",
        "answers-on-paper.pdf",
        "plan.pdf",
        "key.pdf",
    ]
    assert files["key.pdf"].sections == ("starter", "examples", "core")
    assert files["answers.pdf"].sections == ("starter", "core")
    assert files["practice-core.pdf"].title == "Produce stall: core practice"


def test_a_class_set_s_key_is_its_heaviest_file():
    files = files_of(lesson(versions=30))
    assert max(files, key=lambda file: file.weight).name == "key.pdf"


def test_a_key_to_one_section_holds_it_alone():
    file = key_to(lesson(versions=2), ("core",))
    said = [text.text for page in file.pages for text in page.texts]
    assert "Core practice, versions 1 to 2" in said
    assert "Starter" not in said


def test_every_row_names_its_own_file_and_says_how_much_there_is_to_draw():
    assert len({(kind.name, kind.role) for kind in TABLE}) == len(TABLE)
    assert all(kind.weight > 0 and kind.holds for kind in TABLE)
