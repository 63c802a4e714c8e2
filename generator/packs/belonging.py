"""Why a question is not on a rung: which of its conditions it does not meet, and what it has.

Each condition is tried by itself, beside lengths that fit the question: so what is said of one
does not hang on the others.
"""

from collections.abc import Iterator, Mapping
from typing import Any

from generator.allowance import TooWideError
from generator.arithmetic.questions import Operation, Question
from generator.operations.rungs import fresh_set, rung_set
from generator.operations.table import topic_of_rung
from generator.operations.topic import Row, Topic
from generator.packs.conflicts import parts_of
from specs.languages.saying import NOTHING, Saying, joined, say
from specs.problems import listed
from specs.spec import Condition, RungSpec


def unmet(rung: RungSpec, question: Question) -> Saying:
    """``it has one carry, in the tenths, and ragged asks `carries: none```; NOTHING where no single
    condition says why.
    """
    topic = topic_of_rung(
        Operation(rung.operation), frozenset(condition.word for condition in rung.conditions)
    )
    questions = rung_set(rung)
    if topic.admitting is None or not questions.count:
        return NOTHING
    numbers, has = len(questions.unrank(0).operands), len(question.operands)
    if numbers != has:
        return say(
            "it has {has} numbers, and {rung} asks {numbers}",
            has=has,
            rung=rung.name,
            numbers=numbers,
        )
    return joined(_unmet(topic, rung, *topic.admitting(question)), "; ")


def _unmet(
    topic: Topic, rung: RungSpec, question: Question, said: Mapping[str, object]
) -> Iterator[Saying]:
    parts = list(parts_of(rung))
    for row in topic.conditions:
        if question.operation not in row.word.operations:
            continue
        asked = [part for part in parts if part.word == row.word.name]
        failing = [part for part in asked if not _meets(topic, question, said, part)]
        has = say("it has {seen}", seen=row.seen(question)) if row.seen else say("it does not")
        if failing:
            wanted = listed([f"`{part.text}`" for part in failing], "and")
            yield say("{has}, and {rung} asks {wanted}", has=has, rung=rung.name, wanted=wanted)
        elif not asked and row.word.name in said and not _usual(topic, question, said, row):
            yield say(
                "{has}, which {rung} does not allow: it says nothing of '{word}'",
                has=has,
                rung=rung.name,
                word=row.word.name,
            )


def _meets(topic: Topic, question: Question, said: Mapping[str, object], part: Condition) -> bool:
    return _holds(topic, question, {**said, part.word: part.value})


def _usual(topic: Topic, question: Question, said: Mapping[str, object], row: Row) -> bool:
    """Whether a question is as one is where a rung does not mention the word."""
    return _holds(topic, question, {w: v for w, v in said.items() if w != row.word.name})


def _holds(topic: Topic, question: Question, values: Mapping[str, Any]) -> bool:
    rows = [row for row in topic.conditions if question.operation in row.word.operations]
    conditions = tuple(
        row.word.condition(values[row.word.name]) for row in rows if row.word.name in values
    )
    try:
        return question in fresh_set(question.operation, conditions)
    except (TooWideError, ValueError):
        return True  # it cannot be tried by itself
