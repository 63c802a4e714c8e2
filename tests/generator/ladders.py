"""Rungs written in a line, for tests."""

from functools import cache
from typing import Any

from generator.operations.rungs import QuestionSet, rung_set
from generator.vocabulary import VOCABULARY
from specs import Spec, read_spec
from specs.spec import RungSpec


@cache
def spec(ladder: str, sections: str = "") -> Spec:
    """A spec from the text of its ladder (a rung a line, ``name: {…}``) and its sections."""
    lines = "\n".join(f"  {line.strip()}" for line in ladder.strip().splitlines())
    first = ladder.strip().partition(":")[0]
    sections = sections or f"starter:\n  questions: {{{first}: 1}}\n"
    text = f"title: Weighing the harvest\nladder:\n{lines}\n{sections}"
    return read_spec(text.encode(), "harvest.yaml", VOCABULARY)


@cache
def rung(text: str) -> RungSpec:
    """A rung from its conditions in flow form: ``operation: add, places: 2``."""
    return spec(f"rung: {{{text}}}").ladder[0]


@cache
def questions(text: str) -> QuestionSet[Any]:
    """The questions of a rung written in a line."""
    return rung_set(rung(text))
