"""A look at a ladder: each rung with its exact number of questions and one of them.

What is counted are the calculations that the conditions leave. Of a rung that asks in a form or
in words not all can be asked so; the one shown can.
"""

from dataclasses import dataclass
from typing import Any, Final

from generator.forms.asking import LOOKED_AT, can_be_asked, form_of
from generator.forms.form import Turn
from generator.numbered.permutation import Permutation
from generator.numbered.seeds import Dice, key
from generator.operations.rungs import rung_set
from generator.packs.pack import Item
from generator.packs.record import sample
from generator.packs.runs import keys_for, runs_of, that_serve
from specs.languages.saying import Saying, say
from specs.spec import RungSpec, Spec

_WIDEST: Final = 44
"""A question with more signs does not go in a table."""


@dataclass(frozen=True, slots=True)
class RungView:
    """A rung, how many questions are on it, and one of them (None when none can be asked)."""

    rung: RungSpec
    questions: int
    item: Item | None

    @property
    def plain(self) -> dict[str, Any]:
        """The view ready for JSON."""
        return {
            "name": self.rung.name,
            "operation": self.rung.operation,
            "questions": self.questions,
            "sample": sample(self.item) if self.item else None,
        }

    @property
    def shown(self) -> str:
        """The question as it is asked or, where that is long, its calculation."""
        if self.item is None:
            return say("none")
        asked = self.item.form.text(self.item.question)
        return asked if len(asked) <= _WIDEST else self.item.question.text


@dataclass(frozen=True, slots=True)
class RunView:
    """A run of linked questions: where it is asked, what its questions keep, their rungs in order,
    and how many numbers, or sets of digits, serve them all.
    """

    section: str
    keeps: str
    rungs: tuple[str, ...]
    serve: int
    says: Saying

    @property
    def plain(self) -> dict[str, Any]:
        """The view ready for JSON."""
        return {
            "run": list(self.rungs),
            "section": self.section,
            "keep": self.keeps,
            "serve": self.serve,
        }

    @property
    def line(self) -> Saying:
        """The view as a line of text."""
        rungs = ", ".join(self.rungs)
        return say(
            "run in {section}: {rungs}; {says}", section=self.section, rungs=rungs, says=self.says
        )


def runs(spec: Spec) -> tuple[RunView, ...]:
    """A view of every run, in the spec's order. Raises RunError where nothing serves one."""
    found = []
    for section, run, rungs in runs_of(spec):
        keys = keys_for(run, rungs)
        names = tuple(rung.name for rung in rungs)
        found.append(RunView(section, run.keep, names, keys.count, that_serve(run, keys)))
    return tuple(found)


def ladder(spec: Spec) -> tuple[RungView, ...]:
    """A view of every rung, in the spec's order."""
    return tuple(view(rung) for rung in spec.ladder)


def view(rung: RungSpec, seed: int | None = None) -> RungView:
    """A view of one rung; with a seed, the question is chosen by it."""
    questions = rung_set(rung)
    if not questions.count:
        return RungView(rung, 0, None)
    address = ("sample", rung.text) if seed is None else ("picture", rung.text, seed)
    order = Permutation(questions.count, key(*address))
    tried = (questions.unrank(order[at]) for at in range(min(questions.count, LOOKED_AT)))
    question = next((q for q in tried if can_be_asked(rung, q)), None)
    if question is None:
        return RungView(rung, questions.count, None)
    form = form_of(rung, question, Turn(Dice(key(*address, "form"))))
    assert form is not None
    signature = questions.signature(question)
    item = Item("", rung.name, question, str(signature), signature.features, form=form)
    return RungView(rung, questions.count, item)
