"""A mistake to find and put right: ``63 − 29 = 46? Find the mistake and put it right.``"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from operator import attrgetter
from typing import Any, ClassVar, Final

from generator.arithmetic.questions import Question
from generator.forms.form import CALCULATIONS, Form, OnSquares, Shown, Turn, Written, followed
from generator.forms.frames import Frame, in_columns
from generator.forms.plain_data import text_of
from generator.forms.question_words import answer_so, asked_on_a_line, said
from generator.operations import worked_by
from generator.operations.mistakes import Mistake, mistake_named, mistakes_of
from generator.operations.worked_wrongly import wrong_working
from generator.operations.working import Step, Working
from specs.languages.saying import Saying, joined, say
from specs.spec import RungSpec

_TO_DO: Final = say("Find the mistake and put it right.")


@dataclass(frozen=True, slots=True)
class SpotTheMistake(Form):
    """The question worked wrongly, by one procedure, for pupils to find it and put it right.

    ``mistake`` is the procedure's name, ``wrong`` the answer that it gives.
    """

    mistake: str
    wrong: str
    name: ClassVar[str] = "spot the mistake"
    goes_with: ClassVar[tuple[str, ...]] = CALCULATIONS
    asks_for_the_answer: ClassVar[bool] = False

    @classmethod
    def by(cls, question: Question, name: str) -> "SpotTheMistake | None":
        """The question worked wrongly by the mistake of that name; None where it can't be shown."""
        mistake = mistake_named(name)
        wrong = mistake.wrong_answer(question)
        if wrong is None or wrong_working(question, mistake) is None:
            return None
        return cls(name, wrong.text)

    @classmethod
    def offered(cls, question: Question, rung: RungSpec, turn: Turn) -> "SpotTheMistake | None":
        """The question worked wrongly by a procedure drawn from those that can be shown."""
        by_name = sorted(_shown(question, rung), key=attrgetter("name"))
        for mistake in turn.order(by_name):
            form = cls.by(question, mistake.name)
            if form is not None:
                return form
        return None

    @classmethod
    def fits(cls, question: Question, rung: RungSpec) -> bool:
        """Whether a procedure can be shown."""
        return any(cls.by(question, mistake.name) for mistake in _shown(question, rung))

    @classmethod
    def wanting(cls, rung: RungSpec) -> Saying:
        """What no question of a rung shows."""
        named = worked_by.named(rung)
        if named:
            if len(named) == 1:
                return say(
                    "shows '{mistake}' in a way that can be set out on squares", mistake=named[0]
                )
            return say(
                "shows one of {worked_by} in a way that can be set out on squares",
                worked_by=worked_by.NAME,
            )
        return say("shows a mistake that can be set out on squares")

    @classmethod
    def instead(cls, rung: RungSpec) -> Saying:
        """Which questions show one."""
        if worked_by.named(rung):
            return say(
                "name another mistake in {worked_by}, or loosen the rung", worked_by=worked_by.NAME
            )
        return say(
            "sums that carry, products of two numbers that carry, subtractions that exchange "
            "and divisions that hand something on, and do not end with a fraction, do"
        )

    def of_the_match(self, match: Form, question: Question) -> Form:
        """A match is worked by the mistake that its example shows, where it can be."""
        return SpotTheMistake.by(question, self.mistake) or match

    def text(self, question: Question) -> str:
        """``63 − 29 = 46? Find the mistake and put it right.``"""
        return joined((question.text, "=", self.wrong + "?", _TO_DO))

    def asked(self, question: Question) -> str:
        """The same, and how a division's answer is to be given."""
        return joined((self.text(question), answer_so(question)))

    def said(self, question: Question) -> str:
        """``63 minus 29 is said to be 46. Find the mistake and put it right.``"""
        is_said = say(
            "{question} is said to be {wrong}.", question=said(question), wrong=self.wrong
        )
        return joined((is_said, _TO_DO))

    def lead(self, question: Question) -> str:
        """What was done wrong."""
        return self.what_was_wrong()

    def what_was_wrong(self) -> str:
        """``The mistake: the pupil …``."""
        return say("The mistake: {told}", told=mistake_named(self.mistake).told)

    def found_in_it(self) -> str:
        """The wrong answer and the procedure that gave it."""
        return say("{wrong}, {title}", wrong=self.wrong, title=mistake_named(self.mistake).title)

    @property
    def shows(self) -> tuple[str, Mistake]:
        """The wrong answer and the procedure that gave it."""
        return self.wrong, mistake_named(self.mistake)

    def example(self, written: Written) -> Shown:
        """The wrong working, then the mistake in words; the right working says nothing of it."""
        question = written.question
        wrong = self._finished(written, say("A pupil worked it like this."))
        return Shown(
            followed(wrong, self.lead(question)), written.working, asked_on_a_line(question)
        )

    def on_squares(self, given: OnSquares) -> Frame:
        """The question worked by the mistake, and as much room again to put it right.

        What stands on a line first, such as a division by a decimal, stays there.
        """
        wrong = self._finished(given.written)
        room = replace(wrong, rows=2 * wrong.rows + 1)
        if not in_columns(given.question):  # the right working may need more squares
            short = given.bare.rows - room.rows // 2
            columns = max(room.columns, given.bare.columns)
            room = replace(room, rows=room.rows + max(short, 0), columns=columns)
        return Frame(room, words=given.words, may_be_shortened=True)

    def _finished(self, written: Written, sentence: str = "") -> Working:
        """The question worked by the mistake, all of it made in one step with that sentence."""
        mistake = mistake_named(self.mistake)
        wrong = wrong_working(written.question, mistake, written.conventions)
        assert wrong is not None
        marks, points = tuple(wrong.marks()), tuple(wrong.points())
        step = Step(sentence, None, marks, points, tuple(wrong.strikes()))
        return replace(
            wrong, steps=(step,), rules=wrong.rules_drawn(), uprights=wrong.uprights_drawn()
        )

    def record(self, question: Question) -> dict[str, Any]:
        """The mistake and the wrong answer that is shown."""
        shown = {"mistake": self.mistake, "shown": self.wrong}
        return {"form": self.name, **shown, "asked": self.text(question)}

    @classmethod
    def read(cls, data: Mapping[str, Any], question: Question) -> "SpotTheMistake":
        """The mistake, which must give the wrong answer that is shown."""
        name = text_of(data["mistake"])
        wrong = mistake_named(name).wrong_answer(question)
        if wrong is None or wrong.text != data["shown"]:
            raise ValueError(
                say("the mistake in {question} does not hold together", question=question.text)
            )
        return cls(name, wrong.text)


def _shown(question: Question, rung: RungSpec) -> list[Mistake]:
    """The mistakes by which a rung would have a question worked."""
    names = worked_by.named(rung)
    return [m for m in mistakes_of(question.operation) if not names or m.name in names]
