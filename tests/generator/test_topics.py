"""An operation is a place and a row: a topic is added here, and nothing else is touched."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import ClassVar

import pytest

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Operation, Question
from generator.numbered.question_sets import PartedQuestions, Signature
from generator.operations import in_english, mistakes, table
from generator.operations.conditions import CONDITIONS, vocabulary_of
from generator.operations.in_english import Said
from generator.operations.methods import written_working
from generator.operations.mistake import NO_SOURCE, AnswerAlone, Mistake
from generator.operations.mistakes import MISTAKES, MISTAKES_OF_METHODS, mistakes_of
from generator.operations.order.ordering import comparison
from generator.operations.order.topic import ORDER
from generator.operations.table import TOPICS, mistakes_in, topic_of, topic_of_rung
from generator.operations.topic import Row, Topic
from generator.packs import building, record
from generator.packs.likely_answers import likely_wrong_answers
from generator.results.mark_sheet import mark_columns
from specs import read_spec
from specs.canonical import Plain
from specs.replies import SIGN, Reply
from specs.shapes import WholeNumber
from specs.words import Word

# A topic of its own: tenths compared that are so many apart, 0.3 and 0.5. ------------------------


@dataclass(frozen=True)
class Apart:
    tenths: int = 1


@dataclass(frozen=True)
class ApartSignature:
    tenths: int

    @property
    def plain(self) -> Plain:
        return {"tenths": self.tenths}

    @property
    def features(self) -> tuple[str, ...]:
        return (f"{self.tenths} tenths apart",)

    @property
    def difficulty(self) -> tuple[int, ...]:
        return (-self.tenths,)


@dataclass(frozen=True)
class ApartQuestions(PartedQuestions):
    outline: Apart
    widenings: ClassVar[tuple[str, ...]] = ("", "same rung only")

    @property
    def operation(self) -> Operation:
        return Operation.COMPARE

    @property
    def _sizes(self) -> Sequence[int]:
        return [9 - self.outline.tenths]

    def _fetched(self, part: int, number: int) -> Question:
        first = number + 1
        return Question(
            Operation.COMPARE, (Number(first, 1), Number(first + self.outline.tenths, 1))
        )

    def _found(self, question: Question) -> tuple[int, int] | None:
        first, second = (number.units for number in question.operands)
        return (0, first - 1) if second - first == self.outline.tenths else None

    def signature(self, question: Question) -> Signature:
        return ApartSignature(self.outline.tenths)

    def matching(self, signature: Signature, step: int) -> "ApartQuestions":
        return self


BACKWARDS = Mistake(
    "sign turned round",
    frozenset({Operation.COMPARE}),
    NO_SOURCE,
    AnswerAlone(lambda question: Reply(text=">", sign=">")),
)

TENTHS_APART = Topic(
    "tenths_apart",
    outlines={Operation.COMPARE: Apart()},
    questions=ApartQuestions,
    conditions=(
        Row(
            Word("apart", frozenset({"compare"}), WholeNumber(1, 8), "How many tenths apart."),
            lambda value, outline: replace(outline, tenths=value),
        ),
    ),
    method=comparison,
    mistakes=(BACKWARDS,),
    minutes=lambda question: Fraction(7),
    answer_kind=lambda question: SIGN,
    numbers={Operation.COMPARE: (2, 2)},
)

SPEC = """
title: Baskets
ladder:
  baskets: {operation: compare, apart: 2, tells_apart: [sign turned round]}
tiers:
  core: {baskets: 4}
"""


@pytest.fixture
def with_the_row(monkeypatch: pytest.MonkeyPatch) -> tuple[Topic, ...]:
    """The table with the row of ordering and comparing taken out, and this one put in."""
    topics = (*(topic for topic in TOPICS if topic is not ORDER), TENTHS_APART)
    known = tuple(mistakes_in(topics))
    monkeypatch.setattr(table, "TOPICS", topics)
    monkeypatch.setattr(table, "MISTAKES", known)  # which follows from the row
    monkeypatch.setattr(mistakes, "MISTAKES", known)
    said = Said("Turns the sign round.", "the pupil turns the sign round.", "Read it aloud.")
    monkeypatch.setitem(in_english.MISTAKES, BACKWARDS.name, said)
    monkeypatch.setitem(in_english.TITLES, BACKWARDS.name, BACKWARDS.name)
    return topics


def test_a_topic_is_a_place_and_a_row(with_the_row: tuple[Topic, ...]) -> None:
    vocabulary = vocabulary_of(with_the_row, table.MISTAKES)
    spec = read_spec(SPEC.encode(), "baskets.yaml", vocabulary)
    pack = building.build_pack(spec, seed=5, versions=1)
    (section,) = pack.sections
    questions = [item.question for item in section.items]

    assert all(second.units - first.units == 2 for first, second in (q.operands for q in questions))
    assert len({q.operands for q in questions}) == 4
    assert section.minutes == 30  # four times seven, to five minutes
    assert all(topic_of(question) is TENTHS_APART for question in questions)
    assert all(written_working(question).agrees_with(question) for question in questions)
    assert [column.asked.kind for column in mark_columns(pack.sections)] == [SIGN] * 4
    (likely,) = likely_wrong_answers(questions[0])
    assert (likely.reply.text, likely.names) == (">", "sign turned round")
    read = record.read_record(record.record(pack))
    assert [item.question for item in read.sections[0].items] == questions


def test_the_words_of_a_rung_are_those_of_its_topics() -> None:
    for topic in TOPICS:
        for row in topic.conditions:
            assert row.word in CONDITIONS.words
            assert row.word.operations <= set(topic.outlines)


def test_every_operation_has_a_topic_for_any_rung() -> None:
    for operation in Operation:
        topic = topic_of_rung(operation, frozenset())
        assert topic.opened_by is None
        assert topic_of_rung(operation, frozenset({"places"})) is topic
    for operation in (Operation.MULTIPLY, Operation.DIVIDE):
        assert topic_of_rung(operation, frozenset({"power_of_ten"})).name == "powers"


def test_each_topic_counts_and_works_questions_that_are_its_own() -> None:
    for topic in TOPICS:
        for operation in topic.outlines:
            words = frozenset(filter(None, [topic.opened_by]))
            assert topic_of_rung(operation, words) is topic


def test_every_mistake_has_its_words_and_no_words_are_left_over() -> None:
    every = {mistake.name for mistake in (*MISTAKES, *MISTAKES_OF_METHODS)}
    assert every == set(in_english.MISTAKES) == set(in_english.TITLES)
    assert all(mistakes_of(operation) for operation in Operation)
