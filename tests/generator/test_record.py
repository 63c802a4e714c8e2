"""The record of a pack, written as JSON and read back."""

import contextlib
import json
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.arithmetic.questions import Question
from generator.packs.building import build_pack
from generator.packs.pack import Item
from generator.packs.record import RecordError, read_record, record, sample
from generator.vocabulary import VOCABULARY
from specs import load_spec, shipped
from tests.generator.test_mistakes import questions


def demo() -> dict[str, Any]:
    pack = build_pack(load_spec(shipped(), VOCABULARY), 3, versions=2)
    found: dict[str, Any] = json.loads(json.dumps(record(pack)))
    return found


def test_a_pack_reads_back_as_it_was() -> None:
    pack = build_pack(load_spec(shipped(), VOCABULARY), 3, versions=2)
    found = read_record(demo() | {"spec": "title: Beans"})
    assert (found.title, found.seed, found.code) == (pack.title, pack.seed, pack.code)
    assert found.spec_text == "title: Beans"
    for read, built in zip(found.sections, pack.sections, strict=True):
        assert (read.name, read.kind, read.version) == (built.name, built.kind, built.version)
        for one, other in zip(read.items, built.items, strict=True):
            assert (one.label, one.rung, one.question) == (other.label, other.rung, other.question)


@given(questions())
def test_every_question_reads_back(question: Question) -> None:
    written = {"label": "a", **sample(Item("a", "beans", question, "", ()))}
    section = {"name": "core", "kind": "practice", "version": 1, "questions": [written]}
    data = {"title": "t", "seed": 1, "code": "c", "sections": [section]}
    [found] = read_record(json.loads(json.dumps(data))).questions
    assert found == question


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ({"sections": 3}, "wrong form"),
        ({"sections": [{}]}, "'questions' is missing"),
        ({"title": None}, "wrong form"),
        ({"seed": "3"}, "wrong form"),
        ({"spec": 4}, "wrong form"),
    ],
)
def test_what_is_no_record_is_refused_in_words(change: dict[str, Any], says: str) -> None:
    with pytest.raises(RecordError, match=says):
        read_record(demo() | change)


def test_a_changed_answer_is_noticed() -> None:
    data = demo()
    data["sections"][0]["questions"][0]["answer"] = "1"
    with pytest.raises(RecordError, match="is not 1"):
        read_record(data)


json_values = st.recursive(
    st.none() | st.booleans() | st.integers() | st.text(max_size=5),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=5), inner),
    max_leaves=5,
)


DEMO = demo()
KEYS = [
    "title",
    "seed",
    "sections",
    "kind",
    "questions",
    "label",
    "operands",
    "answer",
    "remainder",
]


@given(json_values, st.sampled_from(KEYS))
def test_any_json_is_read_or_refused(value: Any, key: str) -> None:
    section = DEMO["sections"][0]
    question = section["questions"][0]
    changed = {
        **DEMO,
        "sections": [{**section, "questions": [{**question, key: value}]}],
        **({key: value} if key in DEMO else {}),
    }
    for tried in (value, changed):
        with contextlib.suppress(RecordError):
            read_record(tried)


def one(question: dict[str, Any]) -> Question:
    """The question that a record of one question has."""
    written = {"label": "a", "rung": "beans", "signature": "", "remainder": None, **question}
    section = {"name": "core", "kind": "practice", "version": 1, "questions": [written]}
    data = {"title": "t", "seed": 1, "code": "c", "sections": [section]}
    [found] = read_record(data).questions
    return found


def test_numbers_have_twenty_four_signs_at_most() -> None:
    for digits, fits in ((24, True), (25, False)):
        question = {"operation": "add", "operands": ["1" * digits, "0"], "answer": "1" * digits}
        if fits:
            assert one(question).answer.value == int("1" * digits)
        else:
            with pytest.raises(RecordError, match="a number is too long"):
                one(question)


def test_quotients_and_numbers_are_rounded_to_twelve_places_at_most() -> None:
    third = {"operation": "divide", "operands": ["1", "3"], "ending": "rounded"}
    for places in (12, 13):
        rounded = {**third, "places": places, "answer": "0." + "3" * places}
        number = {"operation": "round", "operands": ["1.5"], "places": places}
        as_it_stands = {**number, "answer": "1.5".ljust(2 + places, "0")}
        ten = {**number, "places": -places, "operands": ["5" + "0" * (places - 1)]}
        to_tens = {**ten, "answer": "1" + "0" * places}
        for question in (rounded, as_it_stands, to_tens):
            if places == 12:
                assert one(question).places in (12, -12)
            else:
                with pytest.raises(RecordError):
                    one(question)


def test_two_to_twelve_numbers_are_put_in_order() -> None:
    for many, fits in ((1, False), (2, True), (12, True), (13, False)):
        numbers = [str(n) for n in range(1, many + 1)]
        question = {"operation": "order", "operands": numbers, "answer": ", ".join(numbers)}
        if fits:
            assert len(one(question).operands) == many
        else:
            with pytest.raises(RecordError):
                one(question)
