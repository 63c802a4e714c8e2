"""What a form is: one way of asking a question, from the offer to the mark.

A form changes what is printed and what the pupil writes, never the calculation: that stays
on its rung. Each form is a module with one class whose values are frozen: the class offers
itself to a question, and the value that it offers says all that pages, keys, records and
marks need to know. ``generator/forms/table.py`` is the one list of them.

What a form leaves as it is here, it does as a plain question does.
"""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Any, ClassVar, Self, TypeVar

from generator.arithmetic.questions import Operation, Question
from generator.forms import question_words
from generator.forms.frames import Frame, framed, of_numbers
from generator.forms.scaffold import scaffold
from generator.numbered.seeds import Dice
from generator.operations.methods import Conventions, written_working
from generator.operations.mistake import Mistake, is_right
from generator.operations.working import Step, Working
from specs.languages.saying import NOTHING, Saying, joined, say
from specs.languages.usage import PLAIN, Usage
from specs.replies import Reply
from specs.spec import RungSpec

T = TypeVar("T")

CALCULATIONS = tuple(str(operation) for operation in Operation if operation.is_calculation)
"""The operations of questions that have numbers and an answer to leave out."""


@dataclass(frozen=True, slots=True)
class Turn:
    """What decides among the ways in which one form can be had.

    They are put in an order by ``dice``; each ``number`` begins one further along it, so that
    neighbours on a sheet differ. ``used`` names the sentences that other questions of the
    sheet have.
    """

    dice: Dice
    number: int = 0
    used: Collection[str] = ()

    def order(self, ways: Sequence[T]) -> list[T]:
        """The ways in this turn's order."""
        shuffled = self.dice.shuffled(ways)
        at = self.number % len(shuffled) if shuffled else 0
        return [*shuffled[at:], *shuffled[:at]]


class DisagreementError(Exception):
    """A written method and exact arithmetic give different answers: never to be printed."""

    def __init__(self, what: Saying) -> None:
        self.what = what
        super().__init__(what)


@dataclass(frozen=True, slots=True)
class Written:
    """A bare question worked by its written method, whatever its form will make of it."""

    question: Question
    conventions: Conventions
    working: Working

    @classmethod
    def by(cls, question: Question, conventions: Conventions) -> Self:
        """The question by the method that goes with it.

        Raises DisagreementError where its answer is not that of exact arithmetic.
        """
        working = written_working(question, conventions)
        if not working.agrees_with(question):
            raise DisagreementError(
                say(
                    "{question}: worked {worked}, exactly {exactly}",
                    question=question.text,
                    worked=working.answer,
                    exactly=question.answer_text,
                )
            )
        return cls(question, conventions, working)

    @property
    def with_noughts(self) -> Self:
        """The same with placeholder noughts, whatever is agreed."""
        agreed = replace(self.conventions, placeholders=True, noughts_added=None)
        return self if agreed == self.conventions else self.by(self.question, agreed)


@dataclass(frozen=True, slots=True)
class Shown:
    """A worked example: the wrong working that is found first, if any, then the right one.

    ``then_asked`` is what stands over the right one, where a wrong one went before.
    """

    wrong: Working | None
    right: Working
    then_asked: str = ""


@dataclass(frozen=True, slots=True)
class OnSquares:
    """A calculation about to be set out by a kind of frame (None: the usual one).

    ``bare`` holds the given numbers alone, ``written`` the whole; ``words`` are those of the
    question.
    """

    kind: str | None
    bare: Working
    written: Written
    words: str

    @property
    def question(self) -> Question:
        """The question."""
        return self.written.question

    def framed(self, kind: str) -> Frame:
        """The frame of a kind."""
        return framed(kind, self.bare, self.written.working, self.question, self.words)


class Form:
    """How one question is asked, as a frozen value."""

    __slots__ = ()

    name: ClassVar[str]
    """What specs and records call it."""
    says: ClassVar[Saying] = NOTHING
    """What a teacher must know of it beside its name, in a few words."""
    goes_with: ClassVar[tuple[str, ...]] = tuple(map(str, Operation))
    """The operations whose questions can have it."""
    asks_for_the_answer: ClassVar[bool] = True
    """Whether a pupil works the question alone, so that a wrong answer shows how."""

    # Offer: can a question have it, and in which way?

    @classmethod
    def offered(cls, question: Question, rung: RungSpec, turn: Turn) -> Self | None:
        """The form for a question of a rung; None where it cannot have it."""
        raise NotImplementedError

    @classmethod
    def fits(cls, question: Question, rung: RungSpec) -> bool:
        """Whether a question can have it at all."""
        raise NotImplementedError

    @classmethod
    def wanting(cls, rung: RungSpec) -> Saying:
        """What no question of a rung does, where none can have it: ``follows from a fact``."""
        return say("can be asked so ({form})", form=cls.name)

    @classmethod
    def instead(cls, rung: RungSpec) -> Saying:
        """What to write where no question of a rung can have it."""
        return say("leave out 'form', or loosen the conditions")

    def of_the_match(self, match: "Form", question: Question) -> "Form":
        """The form of an example's match, whose own would be ``match``, so that it goes with it."""
        return match

    @property
    def sentence_used(self) -> str:
        """The name of the sentence that no neighbour should have too; "" for none."""
        return ""

    # Ask, in print.

    def text(self, question: Question) -> str:
        """The question as records and tables have it: ``3.4 + 0.27``."""
        return question.text

    def asked(self, question: Question) -> str:
        """The question alone, as it is printed: ``3.4 + 0.27``."""
        return question_words.asked(question)

    def asked_on_a_line(self, question: Question) -> str:
        """The question on a line of its own, to be answered: ``0.6 × 0.07 =``."""
        return self.asked(question)

    # Reply: what a pupil writes, and where it stands.

    def reply(self, question: Question) -> str:
        """What a pupil is to write: ``3.67``."""
        return question.answer_text

    def answered(self, question: Question) -> tuple[str, str, str]:
        """The question, its sign and its answer, as one line holds them."""
        return question_words.answered(question)

    def with_answer(self, question: Question) -> tuple[str, str]:
        """The question with its answer, ``3.4 + 0.27 = 3.67``, and then "".

        In two parts where the answer has a line of its own, as the order of numbers has.
        """
        asked, sign, answer = self.answered(question)
        if question.operation is Operation.ORDER:
            return asked, answer
        return joined((asked, sign, answer)), ""

    def in_brief(self, question: Question) -> tuple[str, ...]:
        """The same in as few words as can be, for a table of marks."""
        if question.operation.is_calculation:
            return (question.text + " = " + question.answer_text,)
        return tuple(filter(None, self.with_answer(question)))

    # Say, aloud and beside the working.

    def said(self, question: Question) -> str:
        """The question as a screen reader says it: ``3.4 plus 0.27``."""
        return question_words.said(question)

    def lead(self, question: Question) -> str:
        """What is said before a working; "" where the working says all."""
        return ""

    def what_was_wrong(self) -> str:
        """In words, what the mistake is that is to be found; "" where there is none."""
        return ""

    def found_in_it(self) -> str:
        """What is to be found in what is shown, for the key; "" for nothing."""
        return ""

    @property
    def shows(self) -> tuple[str, Mistake] | None:
        """The wrong answer that is shown, to be put right, and the mistake that gave it."""
        return None

    # Set out: the working, the example, the squares that a pupil is given.

    def working(self, written: Written) -> Working:
        """The question worked, with what its form needs said first."""
        return led(written.working, self.lead(written.question))

    def example(self, written: Written) -> Shown:
        """The question worked as an example."""
        return Shown(None, self.working(written))

    def set_out(self, written: Written, kind: str | None) -> Frame:
        """What a pupil is given, by the kind of frame (None: the usual one)."""
        if kind == "full":
            written = written.with_noughts
        question, working = written.question, written.working
        words = self.asked_on_a_line(question)
        if question.power_of_ten or not question.operation.is_calculation:
            return of_numbers(kind, working, question, words)
        return self.on_squares(OnSquares(kind, scaffold(question, working), written, words))

    def on_squares(self, given: OnSquares) -> Frame:
        """What a pupil is given of a calculation."""
        return given.framed(given.kind or "numbers")

    # Record, as plain data, and back.

    def record(self, question: Question) -> dict[str, Any]:
        """What ``pack.json`` says of it beside the question."""
        return {"form": self.name, "asked": self.text(question)}

    @classmethod
    def read(cls, data: Mapping[str, Any], question: Question) -> Self:
        """The form that ``record`` wrote so.

        Raises ValueError, TypeError or KeyError where the data does not hold together.
        """
        raise NotImplementedError

    # Mark.

    def is_right(self, question: Question, replies: Sequence[Reply]) -> bool:
        """Whether one of the ways to read what a pupil wrote is right."""
        return any(is_right(question, given) for given in replies)

    def units(self, usage: Usage = PLAIN) -> tuple[str, str]:
        """The units of the answer and of what is left over, as pages have them; "" where none is
        asked for.
        """
        return "", ""

    def minutes(self, usual: Fraction) -> Fraction:
        """How long it takes, where the bare question usually takes so long."""
        return usual


def led(working: Working, lead: str) -> Working:
    """A working with something said first."""
    if not lead:
        return working
    first, *rest = working.steps
    told = replace(first, sentence=joined((lead, first.sentence)))
    return replace(working, steps=(told, *rest))


def followed(working: Working, sentence: str) -> Working:
    """A working with something said last."""
    return replace(working, steps=(*working.steps, Step(sentence, None)))
