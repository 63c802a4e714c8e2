"""Every kind of file by the fullest checker of PDF/UA-1 that the registries carry.

The package page-validation decides 104 rules of ISO 14289-1, those of veraPDF's published profile
(github.com/veraPDF/veraPDF-validation-profiles, commit 6f2a87f, PDF_UA/PDFUA-1.xml); its makers
say that it finds what is to be found in all files of veraPDF's corpus. That it finds what can go
wrong in ours is tried here, each damage with the clause of ISO 14289-1 that forbids it. What no
such rule decides is in test_tagging.py: the parent tree, where figures stand, the order of
reading, and that what is said is the question. Whether the words are good only people can tell.
"""

import io
import re
from collections.abc import Callable
from typing import Any

import page as checker
import pikepdf
import pytest
from fontTools.ttLib import TTFont
from pikepdf import ContentStreamInstruction, Dictionary, Name, Operator, String
from pypdf import PdfReader

from generator.packs.building import build_pack
from generator.packs.working_out import WorkedPack, work
from generator.results.side_by_side import SideBySide
from generator.vocabulary import VOCABULARY
from layouts import render
from layouts.files.documents import render_classes, render_marks
from layouts.pdf.ink import pdf
from layouts.pdf.reportlab_inside import read_back_by
from layouts.planning.plan import PagePlan, Role, Text, Unit
from layouts.planning.typeface import font_path
from specs import key_words, load_spec, read_spec, shipped, shipped_names
from specs.lands.land import names as lands
from tests.layouts.lessons import pack
from tests.layouts.test_in_another_language import EVERY_PART, results
from tests.layouts.test_sheets_to_change import PAGES, SPEC


def broken_rules(data: bytes) -> set[str]:
    """The rules of PDF/UA-1 that a file breaks, by the checker's names."""
    report = checker.validate_pdf_bytes(data, profile="ua1")
    assert report.rules.total >= 104
    return {f"{failure.rule_id}: {failure.message}" for failure in report.failures}


def all_are_sound(worked: WorkedPack) -> None:
    for document in render(worked):
        assert not broken_rules(document.data), document.name


# What can go wrong, one thing at a time.


def first(file: pikepdf.Pdf, role: str) -> Any:
    return next(part for part in file.Root.StructTreeRoot.K.K if str(part.S) == role)


def font(file: pikepdf.Pdf) -> Any:
    return next(iter(file.pages[0].Resources.Font.values()))


def described(file: pikepdf.Pdf, old: bytes, new: bytes) -> None:
    metadata = file.Root.Metadata.read_bytes()
    assert old in metadata
    file.Root.Metadata.write(metadata.replace(old, new))


def drawn(file: pikepdf.Pdf, change: Callable[[list[Any]], None]) -> None:
    operators = list(pikepdf.parse_content_stream(file.pages[0]))
    change(operators)
    file.pages[0].Contents = file.make_stream(pikepdf.unparse_content_stream(operators))


def at(operators: list[Any], name: str, after: int = 0) -> int:
    return next(i for i, one in enumerate(operators) if i >= after and str(one.operator) == name)


def no_artefact(operators: list[Any]) -> None:
    start = at(operators, "BMC")
    del operators[at(operators, "EMC", start)], operators[start]


def artefact_in_a_part(operators: list[Any]) -> None:
    start = at(operators, "BDC") + 1
    operators.insert(at(operators, "EMC", start), ContentStreamInstruction([], Operator("EMC")))
    operators.insert(start, ContentStreamInstruction([Name.Artifact], Operator("BMC")))


def a_glyph_that_is_none(operators: list[Any]) -> None:
    shown = at(operators, "Tj")
    operators[shown] = ContentStreamInstruction([String(b"\0")], Operator("Tj"))


def a_character_that_is_none(file: pikepdf.Pdf) -> None:
    read_back = font(file).ToUnicode
    read_back.write(re.sub(rb"<01> <....>", b"<01> <0000>", read_back.read_bytes()))


def wider(file: pikepdf.Pdf) -> None:
    font(file).Widths[1] += 50


def a_link(file: pikepdf.Pdf) -> None:
    link = Dictionary(Type=Name.Annot, Subtype=Name.Link, Rect=[10, 10, 50, 50])
    file.pages[0].obj.Annots = pikepdf.Array([file.make_indirect(link)])


def set_to(path: str, value: Any) -> Callable[[pikepdf.Pdf], None]:
    """What sets an entry of the file's root."""

    def change(file: pikepdf.Pdf) -> None:
        *parents, name = path.split(".")
        held: Any = file.Root
        for parent in parents:
            held = held[f"/{parent}"]
        held[f"/{name}"] = value

    return change


def without(path: str) -> Callable[[pikepdf.Pdf], None]:
    def change(file: pikepdf.Pdf) -> None:
        *parents, name = path.split(".")
        held: Any = file.Root
        for parent in parents:
            held = held[f"/{parent}"]
        del held[f"/{name}"]

    return change


def made(role: str, other: str) -> Callable[[pikepdf.Pdf], None]:
    return lambda file: first(file, role).__setitem__("/S", Name(other))


DAMAGE: dict[str, tuple[str, Callable[[pikepdf.Pdf], None], str]] = {
    "no claim": (
        "5",
        lambda file: described(file, b"<pdfuaid:part>1</pdfuaid:part>", b""),
        "ID-PART",
    ),
    "another part": (
        "5",
        lambda file: described(file, b"pdfuaid:part>1<", b"pdfuaid:part>2<"),
        "ID-PART",
    ),
    "part of a page in no part": ("7.1", lambda file: drawn(file, no_artefact), "CONTENT-TAGGING"),
    "an artefact in a part": (
        "7.1",
        lambda file: drawn(file, artefact_in_a_part),
        "ARTIFACT-NESTED",
    ),
    "not marked": ("7.1", without("MarkInfo"), "TAGGED-DOCUMENT"),
    "a kind of part of our own": ("7.1", made("/P", "/Question"), "STRUCT-TREE-ROLE-MAP"),
    "no metadata": ("7.1", without("Metadata"), "METADATA-STRUCTURE"),
    "no title": (
        "7.1",
        lambda file: described(file, b"dc:title", b"dc:rights"),
        "METADATA-TITLE",
    ),
    "the title is not shown": (
        "7.1",
        set_to("ViewerPreferences.DisplayDocTitle", False),
        "VIEWER-PREFERENCES",
    ),
    "no tree": ("7.1", without("StructTreeRoot"), "STRUCT-TREE-ROOT"),
    "suspects": ("7.1", set_to("MarkInfo.Suspects", True), "SUSPECTS"),
    "no language": ("7.2", without("Lang"), "TEXT-LANGUAGE"),
    "no such language": ("7.2", set_to("Lang", String("English, mostly")), "LANGUAGE-TAG"),
    "a cell outside a table": ("7.2", made("/P", "/TD"), "TD-PARENT"),
    "a list's words outside a list": ("7.2", made("/P", "/LBody"), "LBODY-PARENT"),
    "a figure says nothing": (
        "7.3",
        lambda file: first(file, "/Figure").__delitem__("/Alt"),
        "FIGURE-ALTERNATIVE-TEXT",
    ),
    "no first heading": ("7.4.2", made("/H1", "/H2"), "HEADING-NESTING"),
    "a heading skipped": ("7.4.2", made("/H2", "/H3"), "HEADING-NESTING"),
    "a formula says nothing": (
        "7.7",
        lambda file: first(file, "/Formula").__delitem__("/Alt"),
        "FORMULA-ALTERNATIVE-TEXT",
    ),
    "a note without its name": ("7.9", made("/P", "/Note"), "NOTE-ID"),
    "a link that no part has": ("7.18", a_link, "LINK-LINK-TAG"),
    "a face that is not inside": (
        "7.21.4",
        lambda file: font(file).FontDescriptor.__delitem__("/FontFile2"),
        "FONT-EMBEDDING",
    ),
    "a glyph that the face has not": (
        "7.21.4",
        lambda file: drawn(file, a_glyph_that_is_none),
        "FONT-GLYPH-PRESENCE",
    ),
    "another width": ("7.21.5", wider, "FONT-GLYPH-WIDTH"),
    "a code of its own and another's": (
        "7.21.6",
        lambda file: font(file).__setitem__("/Encoding", Name.WinAnsiEncoding),
        "TRUETYPE-SYMBOLIC-ENCODING",
    ),
    "type that cannot be read back": (
        "7.21.7",
        lambda file: font(file).__delitem__("/ToUnicode"),
        "FONT-UNICODE-MAPPING",
    ),
    "type read back as nothing": ("7.21.7", a_character_that_is_none, "FONT-UNICODE-VALUE"),
}
"""What is damaged: the clause of ISO 14289-1, how, and the checker's name of the rule."""


@pytest.fixture(scope="module")
def sound() -> bytes:
    """A file with a part of every role: titles, words, questions, workings and artefacts."""
    (document,) = (
        document
        for document in render(work(pack("0.6+0.7", "12-3.75")))
        if document.name == "examples-on-paper.pdf"
    )
    return document.data


def test_the_file_that_is_damaged_has_a_part_of_every_role_and_is_sound(sound: bytes) -> None:
    with pikepdf.open(io.BytesIO(sound)) as file:
        roles = {str(part.S) for part in file.Root.StructTreeRoot.K.K}
    assert roles == {f"/{role}" for role in Role if role is not Role.ARTEFACT}
    assert not broken_rules(sound)


@pytest.mark.slow
@pytest.mark.parametrize("what", DAMAGE)
def test_the_checker_notices(what: str, sound: bytes) -> None:
    _, damage, rule = DAMAGE[what]
    buffer = io.BytesIO()
    with pikepdf.open(io.BytesIO(sound)) as file:
        damage(file)
        file.save(buffer)
    assert [said for said in broken_rules(buffer.getvalue()) if f"-{rule}-" in said]


def test_a_file_with_many_different_characters_is_read_back_by_each() -> None:
    """More than a face's map holds at once (100), and more than one embedded face has (256)."""
    known = sorted(TTFont(str(font_path(bold=False))).getBestCmap())
    characters = [chr(code) for code in known if code > 32 and code != 0xA0][:400]
    assert len(characters) > 256
    lines = ["".join(characters[start : start + 40]) for start in range(0, len(characters), 40)]
    units = tuple(
        Unit(Role.PARAGRAPH if row else Role.TITLE, (Text(line, 10, 10 + 8 * row, 9),))
        for row, line in enumerate(lines)
    )
    data = pdf([PagePlan(210, 297, units)], "title", "subject")
    assert not broken_rules(data)
    read = "".join(PdfReader(io.BytesIO(data)).pages[0].extract_text().split())
    assert read == "".join("".join(lines).split())
    maps = re.findall(rb"(\d+) beginbfchar\n(.*?)endbfchar", data, re.DOTALL)
    assert len(maps) > 2
    for count, entries in maps:
        assert int(count) == len(entries.splitlines()) <= 100
        assert b"<0000>" not in entries


def test_a_map_is_written_again_whole() -> None:
    entries = [f"<{code:02X}> <{code + 0x20:04X}>" for code in range(1, 203)]
    written = "\n".join(["begin", "203 beginbfchar", "<00> <0000>", *entries, "endbfchar", "end"])
    again = read_back_by(written)
    assert re.findall(r"^<.*>$", again, re.MULTILINE) == entries
    assert re.findall(r"(\d+) beginbfchar", again) == ["100", "100", "2"]
    assert again.startswith("begin\n100 ")
    assert again.endswith("\nendbfchar\nend")


# Every file that is made.


@pytest.mark.slow
@pytest.mark.parametrize("name", shipped_names())
def test_every_file_of_what_ships_keeps_the_rules(name: str) -> None:
    all_are_sound(work(build_pack(load_spec(shipped(name), VOCABULARY), 1)))


LOOKS = {
    **PAGES,
    **{name: f"{{land: {name}}}" for name in lands()},
    **{f"{name} key words": f"{{key_words: {name}}}" for name in key_words.NUMBERED},
}


@pytest.mark.slow
@pytest.mark.parametrize("pages", LOOKS.values(), ids=LOOKS)
def test_every_look_land_and_language_keeps_the_rules(pages: str) -> None:
    spec = SPEC.replace("PAGES", pages).encode()
    all_are_sound(work(build_pack(read_spec(spec, "a", VOCABULARY), 1, 2)))


@pytest.mark.slow
def test_a_lesson_with_every_part_in_german_keeps_the_rules() -> None:
    german = EVERY_PART.replace("land: Germany", "land: Germany, language: German")
    all_are_sound(work(build_pack(read_spec(german.encode(), "a", VOCABULARY), 1, 2)))


@pytest.mark.slow
def test_the_marks_of_a_class_keep_the_rules() -> None:
    assert not broken_rules(render_marks("Beans", results(), ["a line"], 1))


@pytest.mark.slow
def test_the_marks_of_several_classes_keep_the_rules() -> None:
    both = SideBySide(("7a", "7b"), (results(), results()))
    assert not broken_rules(render_classes("Beans", both, [[], ["a line"]]))
