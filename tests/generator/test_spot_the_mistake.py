"""Spot the mistake: a question worked by one wrong procedure, to be found and put right."""

import json

import pytest

from generator.asking import CannotBeAskedError
from generator.class_results import attempt_of
from generator.conditions import VOCABULARY
from generator.forms import Mistaken
from generator.methods import Conventions
from generator.mistakes import mistake_named
from generator.mistakes.worked import wrong_working
from generator.packs import build_pack
from generator.record import RecordError, read_record, record
from layouts.frames import worked_wrongly
from layouts.key import key_pages
from layouts.sheet import sheet_pages
from specs import Spec, read_spec
from specs.marks import read_entry


def spec(rung: str) -> Spec:
    text = f"title: Beans\nladder:\n  beans: {{{rung}, form: spot the mistake}}\n"
    text += "examples: [beans]\ntiers: {core: {beans: 5}}\n"
    return read_spec(text.encode(), "beans.yaml", VOCABULARY)


RUNGS = [
    "operation: add, places: {ragged: [1, 2]}",
    "operation: add, addends: 3, places: 1, carries: some",
    "operation: subtract, places: 2, exchanges: {count: [1, 2]}",
]


@pytest.mark.parametrize("rung", RUNGS)
@pytest.mark.parametrize("seed", range(3))
def test_each_question_shows_the_answer_of_the_mistake_that_the_key_names(
    rung: str, seed: int
) -> None:
    pack = build_pack(spec(rung), seed, versions=2)
    key = " ".join(text.text for page in key_pages(pack) for text in page.texts)
    for section in pack.sections:
        for item in section.items:
            form = item.form
            assert isinstance(form, Mistaken)
            wrong = mistake_named(form.mistake).wrong_answer(item.question)
            assert wrong is not None
            assert form.wrong == wrong.text != item.question.answer_text
            assert f"Shown: {form.wrong}, {form.mistake.split()[0]}" in key
            assert item.question.answer_text in key
        if section.kind == "practice":
            printed = [text.text for page in sheet_pages(pack, section) for text in page.texts]
            assert "mistake" in " ".join(printed)


def test_the_sheet_has_the_wrong_working_and_as_much_room_to_put_it_right() -> None:
    pack = build_pack(spec(RUNGS[2]), 1)
    item = pack.sections[-1].items[0]
    assert isinstance(item.form, Mistaken)
    wrong = wrong_working(item.question, mistake_named(item.form.mistake))
    assert wrong is not None
    frame = worked_wrongly(item.question, item.form, Conventions())
    assert set(frame.squares.marks()) == set(wrong.marks())
    assert frame.squares.rows == 2 * wrong.rows + 1
    assert frame.words.endswith("Find the mistake and put it right.")


def test_neighbours_show_different_mistakes_where_they_can() -> None:
    pack = build_pack(spec(RUNGS[2]), 1)
    found = {
        item.form.mistake for item in pack.sections[-1].items if isinstance(item.form, Mistaken)
    }
    assert len(found) > 1


def test_the_form_is_in_the_record() -> None:
    pack = build_pack(spec(RUNGS[0]), 1)
    plain = json.loads(json.dumps(record(pack)))
    for read, built in zip(read_record(plain).sections, pack.sections, strict=True):
        assert [item.form for item in read.items] == [item.form for item in built.items]
    plain["sections"][0]["questions"][0]["shown"] = "1"
    with pytest.raises(RecordError, match="does not hold together"):
        read_record(plain)


def test_what_is_marked_is_the_right_answer_and_nothing_is_diagnosed() -> None:
    item = build_pack(spec(RUNGS[0]), 1).sections[-1].items[0]
    right, wrong = read_entry(item.question.answer_text), read_entry("1000")
    assert right is not None
    assert wrong is not None
    assert attempt_of(item, right).right
    assert not attempt_of(item, wrong).right
    assert not attempt_of(item, wrong).is_known


def test_a_rung_that_shows_no_mistake_is_refused() -> None:
    with pytest.raises(CannotBeAskedError, match="shows a mistake that can be set out"):
        build_pack(spec("operation: add, places: 0, whole: 1, carries: none"), 1)
