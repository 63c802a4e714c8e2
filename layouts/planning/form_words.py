"""The words of a question in its form: bare, with something missing, or put in words."""

from dataclasses import replace

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Ending, Operation, Question
from generator.forms.forms import DIGIT_BOX, NUMBER_BOX, FromFact, InWords, Missing, Mistaken
from generator.operations.products.known_fact import related_product
from generator.operations.working import Step, Working
from generator.packs.pack import Item, Pack
from layouts.planning import wording
from layouts.planning.frames import finished_wrongly


def asked(item: Item) -> str:
    """The question alone: ``3.4 + 0.27``, ``3.4 + ▭ = 3.67`` or a sentence."""
    match item.form:
        case Missing() | FromFact():
            return item.form.asked(item.question)
        case Mistaken():
            ending = wording.ending_words(item.question)
            asked_for = f" Answer {ending}." if ending else ""
            return f"{item.form.asked(item.question)}{asked_for}"
        case InWords():
            if item.question.ending not in (Ending.DECIMAL, Ending.ROUNDED):
                return item.form.sentence
            return f"{item.form.sentence} Answer {wording.ending_words(item.question)}."
    match item.question.operation:
        case Operation.ORDER:
            return f"Put in order, smallest first: {_apart(item.question.operands)}"
        case Operation.COMPARE:
            return f"Write <, > or = in the box: {_kept_together(item.question.text)}"
        case Operation.ROUND:
            return f"Round {item.question.text}"
    return wording.asked(item.question)


def question_line(item: Item) -> str:
    """The question on a line of its own, to be answered: ``0.6 × 0.07 =``."""
    asked_in_words = isinstance(item.form, Missing | InWords | Mistaken | FromFact)
    if asked_in_words or not item.question.operation.is_calculation:
        return asked(item)
    return wording.question_line(item.question)


def answered(item: Item) -> tuple[str, str, str]:
    """The question, its sign and its answer, as one line holds them.

    Words give way to their calculation, and what was missing follows the calculation.
    """
    question = item.question
    match item.form:
        case Missing():
            return f"{asked(item)},", f"{_box(item.form)} =", item.form.reply(question)
        case InWords():
            return question.text, wording.equals(question), item.form.answer
    match question.operation:
        case Operation.ORDER:
            return _apart(question.operands) + ":", "", _rising(question)
        case Operation.COMPARE:
            first, second = question.operands
            signed = f"{first} {question.answer_text} {second}"
            return f"{_kept_together(question.text)}:", "", _kept_together(signed)
        case Operation.ROUND:
            return f"{question.text}:", "", question.answer_text
    return question.text, wording.equals(question), wording.answer_text(question)


def with_answer(item: Item) -> str:
    """The question with its answer: ``3.4 + 0.27 = 3.67``."""
    if isinstance(item.form, InWords):
        return f"{asked(item)} {item.form.answer}"
    return " ".join(filter(None, answered(item)))


def with_answer_apart(item: Item) -> tuple[str, str]:
    """The same in two parts, the answer to words or of an order on a line of its own.

    The second part is "" where one line holds question and answer.
    """
    if isinstance(item.form, InWords):
        return asked(item), item.form.answer
    if item.question.operation is Operation.ORDER and not isinstance(item.form, Missing):
        question, _, answer = answered(item)
        return question, answer
    return with_answer(item), ""


def spoken_question(item: Item) -> str:
    """The question as a screen reader says it: ``question c: 3.4 plus 0.27``."""
    match item.form:
        case Missing():
            said = asked(item)
            for box, name in ((NUMBER_BOX, "a missing number"), (DIGIT_BOX, " missing digit ")):
                said = said.replace(box, name)
            for sign, word in _SPOKEN.items():
                said = said.replace(f" {sign} ", f" {word} ")
            return f"question {item.label}: {' '.join(said.split())}"
        case InWords():
            return f"question {item.label}: {' '.join(asked(item).split())}"
        case Mistaken():
            said = f"{wording.spoken_question(item)} is said to be {item.form.wrong}."
            return f"{said} Find the mistake and put it right."
        case FromFact():
            known = item.form.fact
            said = f"{_said(known)} equals {known.answer}, so what is {_said(item.question)}"
            return f"question {item.label}: {said}"
    match item.question.operation:
        case Operation.ORDER | Operation.ROUND:
            return f"question {item.label}: {' '.join(asked(item).split())}"
        case Operation.COMPARE:
            first, second = item.question.operands
            choice = "is less than, is more than or equals"
            return f"question {item.label}: write the sign for {choice}: {first}, {second}"
    return wording.spoken_question(item)


_SPOKEN = {
    "+": "plus",
    "−": "minus",
    "×": "times",
    "÷": "divided by",
    "=": "equals",
    "≈": "is about",
}


def worked(item: Item, pack: Pack) -> Working:
    """The working by the pack's conventions, with what its question's form needs said first."""
    if isinstance(item.form, FromFact) and item.question.operation is Operation.MULTIPLY:
        return related_product(item.question, wording.conventions(pack))
    working = wording.worked(item.question, pack)
    lead = item.form.lead(item.question)
    if not lead:
        return working
    first, *rest = working.steps
    sentence = f"{lead} {first.sentence}".rstrip()
    return replace(working, steps=(replace(first, sentence=sentence), *rest))


def found_wrong(item: Item, pack: Pack) -> Working | None:
    """The wrong working that a mistake is to be found in, then the mistake in words.

    None where the question's form shows no mistake.
    """
    if not isinstance(item.form, Mistaken):
        return None
    wrong = finished_wrongly(
        item.question, item.form, wording.conventions(pack), "A pupil worked it like this."
    )
    named = Step(item.form.lead(item.question), None)
    return replace(wrong, steps=(*wrong.steps, named))


def put_right(item: Item, pack: Pack) -> Working:
    """The right working of an example.

    What was done wrong is said before it, not in it. A missing number is worked by the
    calculation that finds it, and then checked.
    """
    match item.form:
        case Mistaken():
            return wording.worked(item.question, pack)
        case Missing():
            finding = item.form.finding(item.question)
            if finding is not None:
                return _found(finding, item, pack)
    return worked(item, pack)


def _found(finding: Question, item: Item, pack: Pack) -> Working:
    """The calculation that finds a missing number, then the check in one sentence."""
    working = wording.worked(finding, pack)
    first, *rest = working.steps
    sentence = f"The missing number is {finding.text}. {first.sentence}".rstrip()
    check = Step(f"Check: {item.question.text} = {item.question.answer_text}.", None)
    return replace(working, steps=(replace(first, sentence=sentence), *rest, check))


def _apart(numbers: tuple[Number, ...]) -> str:
    """Numbers in a row, plainly apart."""
    return ",  ".join(map(str, numbers))


def _rising(question: Question) -> str:
    return " <\N{NO-BREAK SPACE}".join(map(str, question.in_order))


def _kept_together(text: str) -> str:
    """A text that no line breaks."""
    return text.replace(" ", "\N{NO-BREAK SPACE}")


def _said(question: Question) -> str:
    return f" {question.operation.spoken} ".join(map(str, question.operands))


def _box(form: Missing) -> str:
    return NUMBER_BOX if form.place is None else DIGIT_BOX
