"""The words on pages: headings, questions with their answers."""

import re
from functools import lru_cache

from generator.arithmetic.questions import Ending, Question
from generator.forms.forms import is_exact
from generator.operations.methods import Conventions, Working, written_working
from generator.packs.pack import Item, Pack, Section

_NO_BREAK = "\N{NO-BREAK SPACE}"


def section_heading(section: Section) -> str:
    """``Starter``, ``Core practice``, ``Worked examples``."""
    if section.kind == "starter":
        return "Starter"
    if section.kind == "example":
        return "Worked examples"
    return f"{name_in_words(section.name)} practice"


def name_in_words(name: str) -> str:
    """A name from a spec as a heading: ``over-the-point`` becomes ``Over the point``."""
    words = re.sub(r"[-_\s]+", " ", name).strip()
    return words[:1].upper() + words[1:]


def version_words(section: Section, pack: Pack) -> str:
    """``version 3`` where the section comes in several versions, otherwise nothing."""
    has_versions = pack.versions > 1 and section.kind == "practice"
    return f"version {section.version}" if has_versions else ""


def answer_text(question: Question) -> str:
    """The answer as its method leaves it and, where that ends in noughts, without them.

    A rounded answer keeps its noughts; a remainder stands after its quotient.
    """
    if question.ending not in (Ending.EXACT, Ending.DECIMAL):
        return question.answer_text
    written, short = question.answer, question.answer.trimmed()
    return str(written) if written == short else f"{written} = {short}"


def with_answer(question: Question) -> str:
    """``3.4 + 0.27 = 3.67`` on one line."""
    return f"{question.text} {equals(question)} {answer_text(question)}"


def equals(question: Question) -> str:
    """``=``, or ``≈`` where the answer is rounded off."""
    return "=" if is_exact(question) else "≈"


def ending_words(question: Question) -> str:
    """How a division's answer is to be given, where that must be said: ``with a remainder``."""
    match question.ending:
        case Ending.EXACT | Ending.MOVED:
            return ""
        case Ending.REMAINDER:
            return "with remainder"
        case Ending.FRACTION:
            return "remainder as a fraction"
        case Ending.DECIMAL:
            return "as a decimal"
        case Ending.ROUNDED:
            if not question.places:
                return "to the nearest whole number"
            return f"to {question.places} decimal place{'' if question.places == 1 else 's'}"


def asked(question: Question) -> str:
    """The question alone: ``3.4 + 0.27``, ``20 ÷ 3, to 2 decimal places``."""
    return ", ".join(filter(None, (question.text, ending_words(question))))


def question_line(question: Question) -> str:
    """The question on a line of its own, to be answered: ``0.6 × 0.07 =``."""
    return asked(question) if ending_words(question) else f"{question.text} ="


def spoken_question(item: Item) -> str:
    """The question as a screen reader says it: ``question c: 3.4 plus 0.27``."""
    question = item.question
    numbers = f" {question.operation.spoken} ".join(map(str, question.operands))
    return ", ".join(filter(None, (f"question {item.label}: {numbers}", ending_words(question))))


def spoken_working(working: Working, steps: int) -> str:
    """What a drawn working shows after so many steps: ``written working: …``."""
    said = " ".join(step.sentence for step in working.steps[:steps] if step.sentence)
    return f"written working: {said}".rstrip(": ")


def breakable(question_text: str) -> str:
    """The same text, to be wrapped only in front of its signs."""
    return re.sub(r"([+−×÷=]) ", rf"\1{_NO_BREAK}", question_text)


@lru_cache(maxsize=1024)  # what is said of a question is said of its like in every version
def sentence_to_wrap(sentence: str) -> str:
    """The same sentence, to be wrapped nowhere between a number and what it counts.

    Nor is it wrapped within brackets. A name with a hyphen is too long to be kept so.
    """
    kept = re.sub(r"\([^)]*\)", lambda aside: aside[0].replace(" ", _NO_BREAK), sentence)
    kept = re.sub(r"(?<=\d) (?=\w+\b(?!-))|(?<=write) (?=\d)|(?<=carry) (?=\d)", _NO_BREAK, kept)
    return re.sub(r"([+−×÷=]) ", rf"\1{_NO_BREAK}", kept)


def features_text(item: Item) -> str:
    """The item's rung and features in one small line."""
    said = "; ".join((*item.features, *([item.matched] if item.matched else [])))
    return f"{name_in_words(item.rung)}: {said}" if said else name_in_words(item.rung)


def worked(question: Question, pack: Pack) -> Working:
    """The question's working by the pack's conventions."""
    return written_working(question, conventions(pack))


def conventions(pack: Pack) -> Conventions:
    """How the pack sets its written methods out."""
    shown = pack.presentation
    return Conventions(shown.carries, shown.placeholders, shown.subtraction, shown.point)
