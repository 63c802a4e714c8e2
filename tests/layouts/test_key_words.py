"""Key words on sheets for pupils who learn in another language than they speak."""

from io import BytesIO

import pikepdf
import pytest

from generator.packs.codes import page_code
from generator.packs.key_words import EVERY, key_words_of
from generator.packs.working_out import WorkedPack, work
from layouts.files.documents import plan, render
from layouts.planning import typeface
from rungsheet.desk import again, packs
from rungsheet.desk import specs as desk
from specs import key_words
from specs.key_words import NUMBERED
from specs.looks import Look

LESSON = """\
title: Filling sacks
ladder:
  level: {operation: add, places: 2}
  shared: {operation: divide, places: 1, ending: exact}
  left: {operation: divide, ending: remainder}
  whole: {operation: subtract, places: 0, whole: 3}
tiers:
  support: {whole: 2}
  core: {level: 2, shared: 2}
  stretch: {left: 3}
"""


NO_LOOK = Look()


def worked(pages: str = "", look: Look = NO_LOOK) -> WorkedPack:
    spec = desk.read(LESSON + (f"pages: {{{pages}}}\n" if pages else ""), "sacks.yaml")
    return work(packs.choose(spec, packs.Edition(1, 1, look)))


def words_of(pack: WorkedPack, tier: str) -> dict[str, str]:
    (section,) = (one for one in pack if one.name == tier)
    return dict(section.key_words)


@pytest.mark.parametrize("name", key_words.names())
def test_every_language_has_every_key_word_in_letters_that_can_be_printed(name: str) -> None:
    there = key_words.key_words(name)
    assert set(there.words) == set(EVERY)
    assert all(there.words.values())
    assert typeface.lacking(" ".join(there.words.values())) == ""


def test_page_codes_count_every_language_once() -> None:
    assert sorted(NUMBERED) == list(key_words.names())


def test_a_sheet_has_the_words_that_its_questions_need_and_no_others() -> None:
    pack = worked("key_words: Polish")
    assert words_of(pack, "core") == {
        "add": "dodać",
        "sum": "suma",
        "carry": "przeniesienie",
        "divide": "podzielić",
        "answer": "wynik",
        "decimal point": "przecinek",
        "tenths": "części dziesiąte",
        "hundredths": "części setne",
    }
    assert list(words_of(pack, "support")) == ["subtract", "difference", "exchange", "answer"]
    assert list(words_of(pack, "stretch")) == ["divide", "remainder", "answer"]


def test_one_tier_alone_can_have_them() -> None:
    pack = worked("key_words: {support: Turkish}")
    assert words_of(pack, "support")["answer"] == "cevap"
    assert words_of(pack, "core") == {}


def test_there_are_none_in_the_language_that_the_pages_have_anyway() -> None:
    assert words_of(worked("key_words: German, language: German"), "core") == {}


def test_words_to_be_estimated_and_compared_have_theirs() -> None:
    assert key_words_of([], estimated=True) == ("estimate",)


@pytest.mark.parametrize("pages", ["", "paper: A5", "large: 24", "squares: 10, tint: mint"])
def test_the_strip_stands_between_the_name_and_the_squares(pages: str) -> None:
    pack = worked(pages, Look(None, None, "Romanian"))
    for file in plan(pack):
        if file.name != "practice-core.pdf":
            continue
        for page in file.pages:
            strip = [text for text in page.texts if text.text in dict(words_of(pack, "core"))]
            (grid,) = (item for item in page.items if type(item).__name__ == "Grid")
            lines = [text for text in page.texts if text.text == "Name"]
            assert strip
            assert all(lines[0].baseline < text.baseline < grid.y for text in strip)
            assert all(text.left > 0 and text.left + text.width < page.width for text in strip)


def test_a_screen_reader_is_told_the_language_of_each_word() -> None:
    (sheet,) = (
        file for file in render(worked("key_words: Spanish")) if file.name == "practice-core.pdf"
    )
    with pikepdf.open(BytesIO(sheet.data)) as pdf:
        spoken = [str(one.get("/Lang", "")) for one in pdf.Root.StructTreeRoot.K.K]
    assert spoken.count("es") == len(words_of(worked("key_words: Spanish"), "core"))


@pytest.mark.parametrize("name", NUMBERED)
@pytest.mark.parametrize("print_", [(None, None), (24, "rose"), (18, None)])
def test_a_code_knows_the_key_words_that_were_asked_for(
    name: str, print_: tuple[int | None, str | None]
) -> None:
    look = Look(*print_, name)
    assert Look.numbered(look.number) == look
    spec = desk.read(LESSON, "sacks.yaml")
    pack = packs.choose(spec, packs.Edition(1, 1, look))
    assert (
        again.from_code(str(page_code(pack, None, 1)), spec).pack.presentation == pack.presentation
    )
