"""A look at a ladder: each rung with its exact number of questions and one of them."""

from dataclasses import dataclass
from typing import Any

from generator.counting.permutation import Permutation
from generator.pack import Item
from generator.record import sample
from generator.rungs import rung_set
from generator.seeds import key
from specs.spec import RungSpec, Spec


@dataclass(frozen=True, slots=True)
class RungView:
    """A rung, how many questions are on it, and one of them (None when there are none)."""

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

    @staticmethod
    def table(views: "tuple[RungView, ...]") -> str:
        """The views as lines of text in columns."""
        rows = [("rung", "operation", "questions", "one of them", "its features")]
        for view in views:
            text = view.item.question.text if view.item else "none"
            features = "; ".join(view.item.features) if view.item else ""
            rows.append(
                (view.rung.name, view.rung.operation, f"{view.questions:,}", text, features)
            )
        widths = [max(len(row[column]) for row in rows) for column in range(4)]
        return "\n".join(
            f"{name:<{widths[0]}}  {operation:<{widths[1]}}  {count:>{widths[2]}}  "
            f"{text:<{widths[3]}}  {features}".rstrip()
            for name, operation, count, text, features in rows
        )


def ladder(spec: Spec) -> tuple[RungView, ...]:
    """A view of every rung, in the spec's order."""
    return tuple(_view(rung) for rung in spec.ladder)


def _view(rung: RungSpec) -> RungView:
    questions = rung_set(rung)
    if not questions.count:
        return RungView(rung, 0, None)
    question = questions.unrank(Permutation(questions.count, key("sample", rung.text))[0])
    signature = questions.signature(question)
    return RungView(
        rung,
        questions.count,
        Item("", rung.name, question, str(signature), signature.features),
    )
