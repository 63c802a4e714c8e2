"""Whatever pages say can be said in another language.

In nobody's language nothing is left in Latin letters but the teacher's own words, units, codes and
the names of files; and in a land with a decimal comma no number has a point.
"""

import re
from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from io import BytesIO
from itertools import takewhile

import pytest
from pptx import Presentation
from pypdf import PdfReader

from generator.operations.mistakes import mistake_named, right_reply
from generator.packs.likely_answers import likely_for
from generator.packs.working_out import WorkedPack, work
from generator.results.class_results import ClassResults, Settle, class_results
from generator.results.mark_sheet import MarkColumn, mark_columns
from generator.results.side_by_side import SideBySide
from layouts.editable.slides import slides
from layouts.files.documents import Planned, plan, render_key, render_marks
from layouts.marks.marks_pages import marks_pages, pages_of_classes
from layouts.planning.plan import PagePlan
from layouts.planning.wording import page_named
from rungsheet.desk import in_class, marks, packs
from rungsheet.desk import specs as desk
from specs import DEMO, Spec, shipped, shipped_names
from specs.languages.saying import say
from specs.languages.usage import Usage, usage
from specs.marks import Entry, Marks, PupilRow
from tests.untranslated import (
    NOBODYS,
    in_nobodys,
    in_nobodys_language,
    left_of,
    not_sayings,
    own_words,
    said_on,
)

# A spec whose names are no English words, and that reaches what the demo does not.
EVERY_PART = """
title: Zzz
ladder:
  zz-one: {operation: add, places: 1, whole: 1}
  zz-two: {operation: subtract, places: 2, whole: 1, exchanges: some}
  zz-three: {operation: add, places: {ragged: [1, 2]}, whole: 1, form: spot the mistake}
  zz-four: {operation: order, numbers: 3, places: {ragged: [1, 3]}, whole: 0}
  zz-five: {operation: compare, places: 1, whole: 1}
  zz-six: {operation: round, places: 2, whole: 1, to: tenths}
  zz-seven: {operation: add, places: 1, whole: 1, form: missing number}
  zz-eight:
    {operation: divide, dividend: {digits: 3}, divisor: {between: [3, 9]}, ending: remainder}
lesson:
  - starter: {minutes: 1, instructions: Qq ww, questions: {zz-one: 2, zz-three: 1, zz-four: 1}}
  - examples: {your turn: in steps, questions: [zz-two, zz-three, zz-eight]}
  - practice: {questions: {zz-one: 1}}
  - practice:
      tiers:
        zza: {zz-one: 3, zz-two: 2, zz-five: 1}
        zzb: {zz-two: 6, zz-six: 2, zz-seven: 1}
  - exit: {zz-two: 2}
  - exit: {zz-two: 1}
  - homework:
      objective: Zz yy
      tiers:
        zza: {minutes: 15, instructions: Qq ww, questions: {zz-two: 3}}
        zzb: {zz-two: 1}
versions: {practice: 2, practice-2-zza: 5}
pages: {land: Germany, estimate: true}
"""

SMALL = """
title: Zzz
ladder:
  zz: {operation: add, places: 1, whole: 1}
starter:
  questions: {zz: 2}
"""

_POINT = re.compile(r"\d\.\d")


@cache
def read(name: str) -> Spec:
    """A spec that ships, with the numbers of a land that has a decimal comma; "" for ours."""
    spec = desk.read(EVERY_PART if not name else shipped(name).read_text("utf-8"))
    return replace(spec, presentation=replace(spec.presentation, land="Germany"))


@cache
def pack(name: str) -> WorkedPack:
    return in_nobodys_language(read(name))


@cache
def planned(name: str) -> tuple[Planned, ...]:
    return plan(pack(name))


def leaks(name: str) -> dict[str, list[str]]:
    return left_of(read(name), planned(name))


def with_points(name: str) -> list[str]:
    """What has a number with a point, but for what the key tells of points and commas."""
    accepted = NOBODYS.says(say("What counts as right"))
    found = []
    for file in planned(name):
        said = (said for page in file.pages for said in said_on(page))
        found += takewhile(lambda text: text != accepted, said)
    return [text for text in found if _POINT.search(text)]


@pytest.mark.parametrize("name", [DEMO, ""])
def test_every_word_of_a_pack_is_a_saying(name: str) -> None:
    assert leaks(name) == {}


@pytest.mark.parametrize("name", [DEMO, ""])
def test_every_number_of_a_pack_is_as_the_land_has_it(name: str) -> None:
    assert with_points(name) == []


def test_what_teachers_write_stays_as_it_is() -> None:
    """Also where it looks like numbers and signs that a land has otherwise; so do seeds."""
    name = "Zz 3.4 × {2}, 12345"
    spec = replace(desk.read(f"{SMALL}pages: {{land: Germany}}\n"), title=name)
    worked = in_nobodys(work(packs.choose(spec, packs.Edition(123456789))))
    files = plan(worked)
    texts = {said for file in files for page in file.pages for said in said_on(page)}
    assert {name, NOBODYS.says(say("{title}: plan", title=name))} <= texts
    assert NOBODYS.says(say("seed {seed}", seed=123456789)) in texts
    assert all(file.title.startswith(f"{name}: ") for file in files)


@pytest.mark.slow
@pytest.mark.parametrize("name", sorted(set(shipped_names()) - {DEMO}))
def test_every_word_and_number_of_what_ships_is_a_saying(name: str) -> None:
    assert leaks(name) == {}
    assert with_points(name) == []


# The marks of a class.

NOBODYS_MARKS = Usage(usage("Germany", "English").land, NOBODYS)


@cache
def columns(name: str = "") -> tuple[MarkColumn, ...]:
    return mark_columns(packs.choose(read(name), packs.Edition(1, 2)).sections)


@cache
def results(name: str = "") -> ClassResults:
    """Pupils who are right, have a habit, cross everything, answer next to nothing, write oddly."""

    def row(pupil: str, *answers: Entry) -> PupilRow:
        return PupilRow(pupil, dict(zip((c.name for c in columns(name)), answers, strict=False)))

    def written(column: MarkColumn, *, wrong: bool) -> Entry:
        likely = likely_for(column.item) if wrong else ()
        reply = likely[0].reply if likely else right_reply(column.item.question)
        return Entry(reply.text, (reply,))

    right = [written(column, wrong=False) for column in columns(name)]
    habit = mistake_named("smaller digit taken from larger")
    habits = [
        Entry(reply.text, (reply,))
        for column in columns(name)
        for reply in [habit.wrong_answer(column.item.question) or right_reply(column.item.question)]
    ]
    crosses = [Entry("n", ticked=False)] * len(right)
    odd = [Entry("0.1234567", ticked=False)] * len(right)
    wrong = [written(column, wrong=True) for column in columns(name)]
    slip = [*right[:-1], Entry("n", ticked=False)]
    rows = (
        row("1", *right),
        row("2", *habits),
        row("3", *crosses),
        row("4", *right[:2]),
        row("5", *wrong),
        row("6", *odd),
        row("7", *slip),
        row("8", *right[: len(right) // 2]),
        PupilRow("9", {}, absent=True),
    )
    return class_results(columns(name), Marks(rows, ()))


def marks_of_classes() -> Iterator[PagePlan]:
    """Of one class with all that may be open in its findings, and of two side by side."""
    found = results()
    settled = [
        Settle((columns()[0].name, columns()[1].name), True),
        Settle((columns()[0].name,), False),
        Settle((columns()[0].name, columns()[1].name), False),
        Settle((), False),
    ]
    yield from marks_pages("Zzz", found, [], 2, NOBODYS_MARKS)
    for settle in settled:
        pupils = tuple(replace(pupil, settle=settle) for pupil in found.pupils)
        yield from marks_pages("Zzz", replace(found, pupils=pupils), [], 1, NOBODYS_MARKS)
    nothing = class_results(columns(), Marks((), ()))
    yield from marks_pages("Zzz", nothing, ["34"] * 101, 0, NOBODYS_MARKS)
    for classes in (2, 12):
        names = tuple(f"Zz {at}" for at in range(classes))
        both = SideBySide(names, (found,) * classes)
        first, *_ = pages_of_classes("Zzz", both, [[]] * classes, NOBODYS_MARKS)
        yield first


def test_every_word_and_number_of_the_marks_of_a_class_is_a_saying() -> None:
    texts = dict.fromkeys(said for page in marks_of_classes() for said in said_on(page))
    named = [column.name for column in columns()]
    assert not_sayings(texts, [*own_words(read("")), *named]) == []
    assert [text for text in texts if _POINT.search(text)] == []


@pytest.mark.parametrize("name", ["English", "German"])
def test_marks_are_in_the_language_of_their_pack(name: str) -> None:
    spec = desk.read(f"{SMALL}pages: {{language: {name}}}\n")
    record = marks.read_pack(packs.build(spec).record([]).data, "pack.json")
    (file, _) = marks.mark(record, "pupil,starter.a\n1,n\n", "marks.csv").files()
    found, said = PdfReader(BytesIO(file.data)), usage("England", name)
    assert found.metadata is not None
    assert found.metadata.title == said(say("{title}: marks", title="Zzz"))
    assert found.trailer["/Root"]["/Lang"] == said.language.code


# Files beside the pages.


def test_pdf_files_bear_the_language_of_their_pages() -> None:
    data = render_key(pack(""), ("starter",)).data
    found = PdfReader(BytesIO(data))
    assert found.trailer["/Root"]["/Lang"] == NOBODYS.code
    assert found.metadata is not None
    described = [found.metadata.title, found.metadata.subject]
    assert not_sayings(map(str, described), ["Zzz"]) == []
    assert b"<rdf:li>%b</rdf:li></rdf:Bag></dc:language>" % NOBODYS.code.encode() in data
    marked = render_marks("Zzz", results(), [], usage=NOBODYS_MARKS)
    found = PdfReader(BytesIO(marked))
    assert found.trailer["/Root"]["/Lang"] == NOBODYS.code
    assert found.metadata is not None
    assert not_sayings(map(str, (found.metadata.title, found.metadata.subject)), ["Zzz"]) == []


def test_slides_to_be_changed_bear_the_language_of_their_pages() -> None:
    (examples,) = (file for file in planned("") if file.name == "examples.pdf")
    data = slides(examples.pages[:2], examples.title, pack("").facts.usage)
    shown = Presentation(BytesIO(data))
    assert shown.core_properties.language == NOBODYS.code
    for slide in shown.slides:
        frame = slide.notes_slide.notes_text_frame
        assert frame is not None
        names = [shape.name for shape in slide.shapes if shape.has_table]
        described = [
            str(shape._element.nvGraphicFramePr.cNvPr.get("descr"))
            for shape in slide.shapes
            if shape.has_table
        ]
        assert names
        assert not_sayings([frame.text, *names, *described], own_words(read(""))) == []


def test_what_is_shown_in_class_is_in_the_language_of_the_pages() -> None:
    built = replace(packs.build(read("")), worked=pack(""))
    shown = in_class.shown(built)
    steps = [step for part in shown.parts for one in part.examples for step in one.steps]
    pictures = [step.picture for step in steps]
    assert pictures
    assert all(f'lang="{NOBODYS.code}"' in picture for picture in pictures)
    heard = [said for picture in pictures for said in re.findall(r'aria-label="([^"]*)"', picture)]
    asked = [one for part in shown.parts for one in (*part.asked, *part.sheets, *part.answers)]
    texts = [
        *heard,
        *(step.sentence for step in steps),
        *(part.heading for part in shown.parts),
        *(one.heading for one in asked),
        *(text for one in asked for q in one.questions for text in (q.to_do, q.reply, q.asked)),
    ]
    assert not_sayings(texts, own_words(read(""))) == []


def test_pictures_of_pages_are_called_in_the_language_of_the_pages() -> None:
    say = pack("").facts.usage
    named = [page_named("Zzz", 1, say), page_named("Zzz", 1, say, 2)]
    assert not_sayings(named, ["Zzz"]) == []
