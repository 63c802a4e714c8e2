"""Work: each question becomes one value with all that pages, keys and marks need."""

from dataclasses import FrozenInstanceError, replace

import pytest

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Question
from generator.forms import form
from generator.forms.form import DisagreementError, Written
from generator.operations.methods import Conventions, Working, written_working
from generator.operations.working import Ink
from generator.packs import working_out
from generator.packs.building import build_pack
from generator.packs.codes import page_code
from generator.packs.likely_answers import likely_for, power
from generator.packs.pack import Pack
from generator.packs.working_out import conventions, work
from layouts import plan
from tests.generator.ladders import spec
from tests.layouts import lessons
from tests.worked import worked_item

LADDER = """
sums: {operation: add, places: 2, whole: 1}
gaps: {operation: subtract, places: 1, whole: 1, form: missing number}
wrong: {operation: add, places: 1, whole: 2, carries: every, form: spot the mistake}
stall: {operation: add, places: 2, whole: 1, context: money}
"""
SECTIONS = """
starter: {questions: {sums: 2}}
examples: [wrong]
tiers: {core: {sums: 2, gaps: 2, wrong: 1, stall: 1}}
"""


@pytest.fixture(scope="module")
def pack() -> Pack:
    return build_pack(spec(LADDER, SECTIONS), 7, versions=3)


def test_a_worked_question_says_all_that_its_form_says(pack: Pack) -> None:
    agreed = conventions(pack.presentation)
    for chosen, worked in zip(pack.sections, work(pack), strict=True):
        assert (worked.name, worked.kind, worked.version) == (
            chosen.name,
            chosen.kind,
            chosen.version,
        )
        for asked, item in zip(chosen.items, worked.items, strict=True):
            question, own = asked.question, asked.form
            assert (item.label, item.rung, item.calculation) == (
                asked.label,
                asked.rung,
                question.text,
            )
            assert item.asked == own.asked(question)
            assert item.answered == own.answered(question)
            assert item.reply == own.reply(question).replace("\xa0", " ")
            assert item.said == f"question {asked.label}: {own.said(question)}"
            written = own.working(Written.by(question, agreed))
            assert [*item.working.marks()] == [*written.marks()]
            if own.asks_for_the_answer:
                assert item.working.answer == question.answer
            assert item.likely == likely_for(asked)


def test_an_example_with_a_mistake_has_the_wrong_working_first(pack: Pack) -> None:
    (section,) = work(pack).of_kinds("example")
    for item in section.items:
        wrong, right = item.example.wrong, item.example.right
        assert wrong is not None
        assert wrong.answer != right.answer
        assert wrong.steps[-1].sentence.startswith("The mistake: the pupil ")
        assert item.found_in_it.startswith(f"{wrong.answer.trimmed()}, ")
    (starter,) = work(pack).of_kinds("starter")
    assert all(item.example.wrong is None for item in starter.items)


def test_a_section_knows_what_its_questions_can_show(pack: Pack) -> None:
    core = next(iter(work(pack).named("core")))
    alone = [item.question for item in pack.of_kind("practice")[0].items]
    alone = [q for q, item in zip(alone, core.items, strict=True) if item.asks_for_the_answer]
    assert len(alone) == 3
    assert core.power == power(alone)
    (examples,) = work(pack).of_kinds("example")
    assert examples.power is None


def test_pages_have_the_codes_of_their_place_in_the_pack(pack: Pack) -> None:
    for chosen, worked in zip(pack.sections, work(pack), strict=True):
        assert worked.code == page_code(pack, chosen, 1)
    assert work(pack).facts.key_code == page_code(pack, None, 1)
    narrowed = next(iter(work(pack).named("core")))
    assert narrowed.code == page_code(pack, pack.of_kind("practice")[0], 1)


def test_a_section_is_worked_once_for_all_files(pack: Pack) -> None:
    worked = work(pack)
    sheet, key = next(iter(worked.named("core"))), next(iter(worked.of_version(1).named("core")))
    assert sheet is key
    assert sheet.items[0].working is key.items[0].working


def test_no_more_sections_are_kept_than_a_class_has(
    pack: Pack, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(working_out, "_SECTIONS_KEPT", 2)
    worked = work(pack)
    kept_all = plan(work(pack))
    first, *_ = worked
    assert len(worked._kept) == 2
    assert next(iter(worked)) is not first
    assert next(iter(worked)) == first
    assert plan(worked) == kept_all, "what is kept changes no page"


def test_a_method_that_disagrees_with_exact_arithmetic_is_never_printed(
    pack: Pack, monkeypatch: pytest.MonkeyPatch
) -> None:
    def one_too_many(question: Question, conventions: Conventions) -> Working:
        working = written_working(question, conventions)
        return replace(working, answer=Number(working.answer.units + 1, working.answer.places))

    monkeypatch.setattr(form, "written_working", one_too_many)
    for kind in ("starter", "example", "practice"):
        with pytest.raises(DisagreementError, match=r"worked \d+\.\d+, exactly \d"):
            plan(work(pack).of_kinds(kind))


def test_worked_values_are_frozen(pack: Pack) -> None:
    section = next(iter(work(pack)))
    for value in (section, section.items[0], section.pack):
        with pytest.raises(FrozenInstanceError):
            value.title = "another"  # type: ignore[union-attr, misc, attr-defined]


def test_full_frames_have_placeholder_noughts_whatever_is_agreed() -> None:
    (ragged,) = lessons.items("3.4+0.275")
    bare = lessons.pack("3.4+0.275", placeholders=False)
    noughts = {
        kind: [
            mark.text
            for mark in worked_item(ragged, bare, kind).frame.squares.marks()
            if mark.ink is Ink.PLACEHOLDER
        ]
        for kind in ("full", "numbers")
    }
    assert noughts == {"full": ["0", "0"], "numbers": []}
