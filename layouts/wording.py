"""The words on pages: headings, questions with their answers."""

import re

from generator.methods import Conventions, Working, written_working
from generator.pack import Item, Pack, Section
from generator.questions import Question

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
    """The answer as the column method leaves it and, where that ends in noughts, without them."""
    written, short = question.answer, question.answer.trimmed()
    return str(written) if written == short else f"{written} = {short}"


def with_answer(question: Question) -> str:
    """``3.4 + 0.27 = 3.67`` on one line."""
    return f"{question.text} = {answer_text(question)}"


def breakable(question_text: str) -> str:
    """The same text, to be wrapped only in front of its signs."""
    return re.sub(r"([+−×÷=]) ", rf"\1{_NO_BREAK}", question_text)


def sentence_to_wrap(sentence: str) -> str:
    """The same sentence, to be wrapped nowhere between a number and what it counts."""
    kept = re.sub(r"(?<=\d) (?=\w)|(?<=write) (?=\d)|(?<=carry) (?=\d)", _NO_BREAK, sentence)
    return re.sub(r"([+−×÷=]) ", rf"\1{_NO_BREAK}", kept)


def features_text(item: Item) -> str:
    """The item's rung and features in one small line."""
    said = "; ".join((*item.features, *([item.matched] if item.matched else [])))
    return f"{name_in_words(item.rung)}: {said}" if said else name_in_words(item.rung)


def worked(question: Question, pack: Pack) -> Working:
    """The question's working by the pack's conventions."""
    shown = pack.presentation
    return written_working(
        question, Conventions(carries=shown.carries, placeholders=shown.placeholders)
    )
