"""What teachers are told of a lesson, a file or marks is a saying to its last word.

``tests.untranslated`` has a language in Greek letters; what is in Latin letters there is the
teacher's own (names, conditions and words of the spec) or was no saying, so that no language
could have it.
"""

import re
from collections.abc import Callable, Iterable
from pathlib import Path

import pytest

from generator.forms.asking import CannotBeAskedError, cannot_be_asked
from generator.packs.building import TooFewQuestionsError, build_pack, too_few
from generator.packs.codes import CodeError, PageCode, page_code
from generator.packs.conflicts import Conflict, conflicts
from generator.packs.keeping import CannotBeKeptError, NotOnItsRungError, wanted
from generator.packs.ladder import runs
from generator.packs.rebuilding import read_code
from generator.packs.record import RecordError, read_record, record
from generator.packs.runs import RunError
from generator.packs.telling_apart import CannotTellApartError
from layouts.files.crew import CrewLostError
from layouts.files.editable import TooManySheetsError
from layouts.files.folder import FolderError, write_file, write_folder
from layouts.pdf.carried import Carried, NotASheetError, carried_by
from layouts.pictures.png import NoPicturesError
from layouts.planning.errors import LayoutError
from layouts.planning.paper import paper_named
from layouts.planning.typeface import refuse_unprintable
from layouts.sheets.sheet import sheet_pages
from layouts.slides.answer_slides import spread_out
from specs.avoided import Avoided
from specs.languages.language import Language
from specs.languages.saying import say
from specs.spec import Kept, Spec
from tests.generator import test_follow_up, test_own_examples, test_runs
from tests.generator.ladders import rung, spec
from tests.layouts.lessons import items, pack
from tests.layouts.sheets import with_presentation
from tests.untranslated import NOBODYS
from tests.worked import worked, worked_item

Told = CannotTellApartError | TooFewQuestionsError | RunError | CannotBeKeptError
OWN = {
    *("mass", "length", "Letter", "ACDEFHJKMNPRTUVWXY"),
    *("beans", "crates", "tens", "level", "carry", "both", "long", "wholes", "take", "left"),
    *("plain", "ragged", "times", "share", "core", "starter", "examples", "harvest", "one", "two"),
    *("equal", "mixed", "over", "the", "point", "through", "zeros", "places", "five", "addends"),
    *("pack", "json", "key", "pdf", "png", "pip", "install", "rungsheet", "pypdfium", "svg"),
    *("jobs", "versions", "out", "pictures", "masses", "lengths"),
    *("Rungsheet", "PDF", "PNG"),
}
"""Names that stand in these tests, of files and of what is typed."""
WORDS = {
    *("add", "subtract", "multiply", "divide", "tells_apart", "finds_out", "worked_by"),
    *("digits", "first", "missing", "second", "number", "tenths", "hundredths", "answer"),
}
"""Words of specs, which are the same in every language."""


def not_said(texts: Iterable[str], language: Language = NOBODYS) -> list[str]:
    """The texts that hold words in Latin letters which are none of the teacher's own."""
    found = []
    for text in texts:
        plain = re.sub(r"'[^']*'|`[^`]*`|\b[0-9A-Z]{4}(-[0-9A-Z]+)*\b", "", language.says(text))
        if set(re.findall(r"[A-Za-z_]{2,}", plain)) - OWN - WORDS:
            found.append(text)
    return found


def of(told: Conflict | Told | CannotBeAskedError | NotOnItsRungError | CodeError) -> list[str]:
    return [told.what, told.instead]


def refused(spec: Spec, versions: int = 1) -> list[str]:
    """What is told of a lesson that cannot be had."""
    found = [*conflicts(spec)]
    for problem in (found, [*cannot_be_asked(spec.ladder)], [*too_few(spec, versions)]):
        if problem:
            return [text for one in problem for text in of(one)]
    with pytest.raises((*Told.__args__, NotOnItsRungError)) as caught:
        build_pack(spec, 1, versions)
    return of(caught.value)


CLASHING = (
    "add, whole: 0, places: 1, carries: {in: [tens]}",
    "add, places: 1, whole: 1, carries: {in: [tenths]}, answer: {below: 1}",
    "add, places: 0, whole: 1, carries: none, answer: {above: 30}",
    "subtract, places: 0, whole: 1, exchanges: {count: 1}",
    "multiply, digits: 1, places: 0, carries: none, answer: {above: 90}",
    "divide, dividend: {digits: 2}, divisor: 9, remainders: every, quotient: {digits: 2}",
)
WIDE = (
    "add, addends: 6, places: {ragged: [0, 4]}, whole: {between: [0, 5]}, "
    "carries: {count: [2, 5], across_point: true}, zeros: {inside: require}, "
    "answer: {between: [10, 100000]}"
)
NOT_SO = (
    "multiply, digits: 1, places: 0, form: known fact",
    "divide, divisor: 3, dividend: {digits: 2}, ending: {rounded: 1}, form: missing number",
    "add, places: 0, whole: 1, carries: none, form: spot the mistake",
    "add, places: 0, whole: 1, carries: none, worked_by: carry dropped, form: spot the mistake",
    "add, places: 0, whole: 1, carries: none, worked_by: [carry dropped, carry added twice], "
    "form: spot the mistake",
    "add, places: 5, whole: 1, context: mass",
    "subtract, places: 5, whole: 1, context: [mass, length]",
    "add, places: 1, whole: 1, missing: {digit: hundredths}",
    "add, places: 1, whole: 1, missing: {digit: [hundredths], of: answer}",
    "add, places: 1, whole: 1, missing: {digit: [hundredths], of: first}",
)
ALIKE = (
    ("add, carries: none, places: 1, whole: 0, tells_apart: [carry dropped]", 1),
    ("add, places: 1, whole: 0, tells_apart: carry dropped", 26),
    (
        "add, places: {between: [0, 1]}, whole: 1, answer: {whole: 1}, "
        "tells_apart: [carry dropped, numbers lined up at the right-hand end]",
        1,
    ),
    (
        "subtract, places: 0, whole: [2, 1], exchanges: every, first: 10, "
        "tells_apart: [smaller digit taken from larger, zero minus n gives n]",
        2,
    ),
)
FINDS_OUT = "{{finds_out: [{}], questions: {{beans: 2}}}}"


def of_rung(text: str, count: int = 1) -> Spec:
    return spec(f"beans: {{operation: {text}}}", f"tiers:\n  core: {{beans: {count}}}\n")


@pytest.mark.parametrize("text", CLASHING)
def test_why_conditions_clash(text: str) -> None:
    assert not_said(of(*conflicts(of_rung(text)))) == []


@pytest.mark.slow
def test_why_a_rung_is_too_wide() -> None:
    lesson = spec(f"beans: {{operation: {WIDE}}}\ncrates: {{operation: add}}")
    assert not_said(of(*conflicts(lesson))) == []


@pytest.mark.parametrize("text", NOT_SO)
def test_why_none_can_be_asked_so(text: str) -> None:
    (asked,) = of_rung(text).ladder
    for tried_all in (True, False):
        assert not_said(of(CannotBeAskedError(asked, tried_all))) == []


@pytest.mark.parametrize(("text", "count"), ALIKE)
def test_why_mistakes_are_not_told_apart(text: str, count: int) -> None:
    with pytest.raises(CannotTellApartError) as caught:
        build_pack(of_rung(text, count), 1)
    assert not_said(of(caught.value)) == []


@pytest.mark.parametrize("names", ["carry dropped", "carry dropped, carry written but not added"])
def test_why_habits_are_not_found_out(names: str) -> None:
    core = FINDS_OUT.format(names)
    beans = "beans: {operation: add, places: 1, whole: 1, carries: none}"
    assert not_said(refused(spec(beans, f"tiers:\n  core: {core}\n"))) == []


def test_whose_habit_it_is() -> None:
    core = FINDS_OUT.format("last jump left out")
    sums = "beans: {operation: subtract, places: 1, whole: 1}"
    with pytest.raises(CannotTellApartError) as caught:
        build_pack(spec(sums, f"tiers:\n  core: {core}\n"), 1)
    assert not_said(of(caught.value)) == []


FEW = "{operation: add, places: 1, whole: 0, first: 0.5, carries: none}"


@pytest.mark.parametrize(
    ("ladder", "sections", "versions"),
    [
        (f"beans: {FEW}", "starter: {beans: 9}\n", 1),
        (f"beans: {FEW}", "starter: {beans: 1}\ntiers:\n  core: {beans: 4}\n", 3),
        (f"beans: {FEW}\ncrates: {FEW}", "tiers:\n  core: {beans: 4, crates: 4}\n", 1),
        (f"beans: {FEW}\ncrates: {FEW}", "tiers:\n  core: {beans: 2, crates: 2}\n", 2),
        (f"beans: {FEW}", "tiers:\n  core: {beans: 4}\navoid: [0.5 + 0.1]\n", 1),
        (
            f"beans: {FEW}\ncrates: {FEW}",
            "tiers:\n  core: {beans: 2, crates: 2}\navoid: [0.5 + 0.1]\n",
            1,
        ),
    ],
)
def test_why_questions_are_too_few(ladder: str, sections: str, versions: int) -> None:
    assert not_said(refused(spec(ladder, sections), versions)) == []


@pytest.mark.parametrize(
    "run",
    [
        "{run: [level, tens], keep: first number}",
        "{run: [wholes, level], keep: second number}",
        "{run: [level, carry], keep: digits}",
        "{run: [long, wholes], keep: first number}",
        "{run: [wholes, level, level], keep: second number}",
    ],
)
def test_why_no_run_can_be_had(run: str) -> None:
    assert not_said(refused(test_runs.lesson(run))) == []


def test_how_many_serve_a_run() -> None:
    (view,) = runs(test_runs.lesson("{run: [level, carry, ragged], keep: first number}", "level"))
    assert not_said([view.line]) == []


@pytest.mark.parametrize(
    ("name", "question"),
    [
        ("plain", "3.46 + 1.25"),
        ("plain", "3.4 + 1.2"),
        ("plain", "13.46 + 1.25 + 1.1"),
        ("plain", "13.46 + 1.22"),
        ("plain", "3.46 − 1.25"),
        ("plain", "3.40 + 1.25"),
        ("plain", "3.05 + 2.50"),
        ("take", "5.23 − 1.45"),
        ("take", "5.00 − 1.45"),
        ("times", "2.4 × 6"),
        ("times", "24 × 6"),
        ("times", "2.05 × 60"),
        ("times", "1.1 × 1"),
        ("share", "8.4 ÷ 2"),
        ("share", "8.4 ÷ 3"),
        ("share", "805 ÷ 3"),
        ("share", "8.5 ÷ 3"),
        ("share", "8.4 ÷ 0"),
    ],
)
def test_why_it_is_not_on_the_rung(name: str, question: str) -> None:
    own = test_own_examples.lesson(f"{{rung: {name}, question: {question}}}")
    assert not_said(refused(own)) == []


KEPT = Kept("core", "a", Avoided("add", ("1.2", "3.4")), 9)


def test_why_it_cannot_be_kept() -> None:
    beans = "beans: {operation: add, places: 1, whole: 1}"
    text = "tiers:\n  core: {{beans: 2}}\nkeep:\n  core: {{a: {}}}\n".format
    told = refused(spec(beans, text("1.25 + 2")))
    run = "{run: [level, carry], keep: first number}"
    kept = "keep:\n  examples: {a: 1.11 + 2.22}\n"
    told += refused(test_runs.lesson(run, more=kept))
    told += of(CannotBeKeptError(KEPT, rung("operation: add"), wanted))
    assert not_said(told) == []


@pytest.mark.parametrize(
    "written", ["", "K7HM", "K7HM-D4-A-CF-B", "K7HM-D4-T", "K7HM-D4-A-CF-A", "A" * 60, "a b c d e"]
)
def test_why_it_is_no_code(written: str) -> None:
    with pytest.raises(CodeError) as caught:
        PageCode.parse(written)
    assert not_said(of(caught.value)) == []


def test_why_a_code_is_another_lessons() -> None:
    pack = build_pack(of_rung("add, places: 1, whole: 1"), 1)
    code = str(page_code(pack, pack.sections[0], 1))
    with pytest.raises(CodeError) as caught:
        read_code(code, of_rung("add, places: 2, whole: 1"))
    assert not_said(of(caught.value)) == []


def test_why_it_is_no_record_of_a_pack() -> None:
    good = record(build_pack(of_rung("add, places: 1, whole: 1"), 1))
    question = good["sections"][0]["questions"][0]
    for changed in (
        {"answer": "0.1"},
        {"answer": "-"},
        {"answer": "1" * 99},
        {"operands": ["1.2"]},
        {"form": "sung"},
        {"label": 3},
        {"label": "a" * 2000},
        {"operation": "round", "places": 99},
    ):
        section = good["sections"][0] | {"questions": [question | changed]}
        with pytest.raises(RecordError) as caught:
            read_record(good | {"sections": [section]})
        assert not_said([caught.value.what]) == []
    for without in ("title", "sections"):
        with pytest.raises(RecordError) as caught:
            read_record({key: value for key, value in good.items() if key != without})
        assert not_said([caught.value.what]) == []


def test_what_tomorrows_starter_is_for() -> None:
    habits: list[str | None] = ["smaller digit taken from larger"] * 3 + [None] * 2
    found, _ = test_follow_up.followed(habits)
    said = [choice.why for choice in found.choices]
    assert not_said(said) == []


def _large_frame() -> None:
    lesson = pack("123456.789-98765.432")
    of_paper = with_presentation(lesson, paper="A5", large=24, to_a_sheet=4)
    sheet_pages(worked(of_paper, of_paper.of_kind("practice")[0]))


def _long_answer() -> None:
    spread_out([*map(worked_item, items("9" * 60 + "+1"))])


def _raise(error: Exception) -> None:
    raise error


@pytest.mark.parametrize(
    "refusal",
    [
        lambda: paper_named("A9"),
        lambda: refuse_unprintable("beans ✨"),
        lambda: _raise(CrewLostError("key.pdf")),
        lambda: _raise(TooManySheetsError(50)),
        lambda: _raise(NoPicturesError()),
        _large_frame,
        _long_answer,
    ],
)
def test_why_it_cannot_be_printed(refusal: Callable[[], None]) -> None:
    with pytest.raises(LayoutError) as caught:
        refusal()
    assert not_said([caught.value.what]) == []


def test_why_a_folder_cannot_be_written(tmp_path: Path) -> None:
    (tmp_path / "full").mkdir()
    (tmp_path / "full" / "own.txt").write_text("own")
    (tmp_path / "key").write_text("a file")
    (tmp_path / "link").symlink_to(tmp_path / "full")
    for name in ("full", "key", "link", "key/pack", "n" * 300):
        with pytest.raises(FolderError) as caught:
            write_folder(tmp_path / name, {})
        assert not_said([caught.value.what, caught.value.instead]) == []
    with pytest.raises(FolderError) as caught:
        write_file(tmp_path / "key", b"other")
    assert not_said([caught.value.what, caught.value.instead]) == []


def test_why_it_is_no_sheet() -> None:
    for data in (b"beans", b"%PDF-1.4 cut short"):
        with pytest.raises(NotASheetError) as caught:
            carried_by(data)
        assert not_said([caught.value.what, caught.value.instead]) == []
    ours = Carried("", 1, 2, ("core",)).keywords
    for keywords in ("beans", ours.replace("rungsheet 1", "rungsheet 2")):
        with pytest.raises(NotASheetError) as caught:
            Carried.parse(keywords, "")
        assert not_said([caught.value.what, caught.value.instead]) == []
    for carried in (Carried("", 1, 99, (), pages=1), Carried("", 1, 2, (), pages=2, size=2)):
        with pytest.raises(NotASheetError) as caught:
            carried.refuse_too_many_versions()
        assert not_said([caught.value.what, caught.value.instead]) == []


def test_that_the_check_can_fail() -> None:
    dead = f"{rung('operation: add').name} has too few"
    assert not_said([dead, say("beans are few"), "beans: `carries: none`"]) == [dead]
