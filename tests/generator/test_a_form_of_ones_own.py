"""A further form is one class and one row: here one is added, and nothing else is touched."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from io import BytesIO
from typing import Any, ClassVar

import pytest
from pypdf import PdfReader

from generator.arithmetic.numbers import Number, difference
from generator.arithmetic.questions import Question
from generator.forms import table
from generator.forms.asking import cannot_be_asked
from generator.forms.form import Form, OnSquares, Turn
from generator.forms.frames import Frame
from generator.packs.building import build_pack
from generator.packs.ladder import ladder
from generator.packs.record import read_record, record
from generator.packs.working_out import work
from generator.results.class_results import class_results
from generator.results.mark_sheet import mark_columns, mark_sheet, read_sheet
from generator.vocabulary import vocabulary
from layouts import plan, render
from specs import Spec, SpecError, read_spec
from specs.replies import Reply
from specs.schema import schema
from specs.spec import RungSpec

TEN = Number(10)


@dataclass(frozen=True, slots=True)
class UpToTen(Form):
    """How much more than a sum makes ten: ``3.4 + 0.27 and how much more make 10?``"""

    name: ClassVar[str] = "up to ten"
    says: ClassVar[str] = "what a sum leaves of ten"
    goes_with: ClassVar[tuple[str, ...]] = ("add",)
    asks_for_the_answer: ClassVar[bool] = False

    @classmethod
    def offered(cls, question: Question, rung: RungSpec, turn: Turn) -> "UpToTen | None":
        return cls() if cls.fits(question, rung) else None

    @classmethod
    def fits(cls, question: Question, rung: RungSpec) -> bool:
        return question.answer.value < 10

    @classmethod
    def wanting(cls, rung: RungSpec) -> str:
        return "stays below 10"

    @classmethod
    def instead(cls, rung: RungSpec) -> str:
        return "take smaller numbers"

    def text(self, question: Question) -> str:
        return f"{question.text} and how much more make 10?"

    def asked(self, question: Question) -> str:
        return self.text(question)

    def reply(self, question: Question) -> str:
        return str(difference(TEN, question.answer).trimmed())

    def answered(self, question: Question) -> tuple[str, str, str]:
        return f"{self.asked(question)} 10 − {question.answer_text}", "=", self.reply(question)

    def said(self, question: Question) -> str:
        return f"{Form.said(self, question)} and how much more make 10"

    def lead(self, question: Question) -> str:
        return "First the sum, then what it leaves of 10."

    def on_squares(self, given: OnSquares) -> Frame:
        return given.framed("part")

    @classmethod
    def read(cls, data: Mapping[str, Any], question: Question) -> "UpToTen":
        return cls()

    def is_right(self, question: Question, replies: Sequence[Reply]) -> bool:
        return any(reply.value == 10 - question.answer.value for reply in replies)

    def minutes(self, usual: Fraction) -> Fraction:
        return usual + 3


SPEC = """\
title: Crates of ten
ladder:
  fill: {operation: add, places: 1, whole: 1, form: up to ten}
starter: {fill: 2}
examples: [fill]
tiers: {core: {fill: 3}}
"""


@pytest.fixture(autouse=True)
def one_more_row(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(table, "FORMS", (*table.FORMS, UpToTen))


def crates(text: str = SPEC) -> Spec:
    return read_spec(text.encode(), "crates.yaml", vocabulary())


def test_specs_know_it_and_say_so() -> None:
    assert crates().rung("fill").form == "up to ten"
    described = str(schema(vocabulary()))
    assert "spot the mistake or up to ten (what a sum leaves of ten)" in described
    with pytest.raises(SpecError, match="did you mean 'up to ten'"):
        crates(SPEC.replace("up to ten", "up to tne"))


def test_a_rung_that_cannot_have_it_says_why() -> None:
    wide = crates(SPEC.replace("places: 1, whole: 1", "places: 1, whole: 2"))
    (error,) = cannot_be_asked(wide.ladder)
    assert str(error).endswith("of fill stays below 10; take smaller numbers")


def test_it_is_chosen_shown_and_recorded() -> None:
    pack = build_pack(crates(), 3, versions=2)
    for section in pack.sections:
        for item in section.items:
            assert item.form == UpToTen()
            assert item.question.answer.value < 10
    starter = pack.of_kind("starter")[0]
    assert starter.minutes == 10, "two questions, at five minutes each"
    (view,) = ladder(crates())
    assert view.shown.endswith("and how much more make 10?")
    plain = record(pack)
    assert plain["sections"][0]["questions"][0]["form"] == "up to ten"
    read = read_record({**plain, "spec": SPEC})
    forms = [item.form for section in read.sections for item in section.items]
    assert forms == [item.form for section in pack.sections for item in section.items]


def test_it_stands_on_sheets_slides_and_key() -> None:
    pack = build_pack(crates(), 3)
    worked = work(pack)
    texts = {
        file.name: " ".join(text.text for page in file.pages for text in page.texts)
        for file in plan(worked)
    }
    core, (shown, match) = pack.of_kind("practice")[0], pack.of_kind("example")[0].items
    for item in core.items:
        asked = f"{item.question.text} and how much more make 10?"
        reply = item.form.reply(item.question)
        assert float(reply) == pytest.approx(10 - float(item.question.answer_text))
        assert asked in _one_line(texts["practice-core.pdf"])
        assert f"= {reply}" not in texts["practice-core.pdf"]
        for told in ("answers.pdf", "key.pdf"):
            assert asked in _one_line(texts[told])
            assert reply in texts[told].split()
    for slides in ("examples.pdf", "examples-on-paper.pdf"):
        assert "First the sum, then what it leaves of 10." in _one_line(texts[slides])
        assert f"{match.question.text} and how much more" in _one_line(texts[slides])
        assert shown.form.reply(shown.question) in texts[slides].split()
    assert "that are worked alone" not in texts["key.pdf"]


def test_it_is_drawn() -> None:
    pack = build_pack(crates(), 3)
    drawn = {document.name: document.data for document in render(work(pack))}
    pages = PdfReader(BytesIO(drawn["practice-core.pdf"])).pages
    printed = _one_line(" ".join(page.extract_text() for page in pages))
    for item in pack.of_kind("practice")[0].items:
        assert f"{item.question.text} and how much more make 10?" in printed


def test_it_is_marked_by_what_it_asks_for() -> None:
    pack = build_pack(crates(), 3)
    columns = mark_columns(pack.sections)
    assert [column.name for column in columns if column.section.name == "core"] == [
        "core.a",
        "core.b",
        "core.c",
    ]
    assert ",starter.a," in mark_sheet(pack).splitlines()[0]
    core = pack.of_kind("practice")[0].items
    right = ",".join(item.form.reply(item.question) for item in core)
    sums = ",".join(item.question.answer_text for item in core)
    sheet = f"pupil,core.a,core.b,core.c\n1,{right}\n2,{sums}\n"
    marks = read_sheet(read_record(record(pack)), sheet.encode(), "marks.csv")
    results = class_results(columns, marks)
    assert [pupil.right for pupil in results.pupils] == [3, 0]
    asked_for_sums = [attempt.worked for attempt in results.pupils[1].attempts.values()]
    assert asked_for_sums == [False] * 3


def _one_line(text: str) -> str:
    return " ".join(text.split())
