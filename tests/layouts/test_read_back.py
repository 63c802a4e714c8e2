"""What is printed is what was asked: files read back as text and worked out anew."""

import io
import re
from decimal import Decimal
from typing import Any

import pdfplumber
import pytest

from generator.packs.pack import Pack, Section
from generator.packs.working_out import work
from layouts import Document, render
from specs.spec import Presentation
from tests.layouts.lessons import items, pack, question, random_texts
from tests.layouts.reading import ReadQuestion, Sheet


def file(documents: tuple[Document, ...], name: str) -> pdfplumber.PDF:
    (found,) = (document for document in documents if document.name == name)
    return pdfplumber.open(io.BytesIO(found.data))


def in_lines(page: Any) -> str:
    """The page's text, a line for each baseline, from the left."""
    lines: dict[float, list[dict[str, Any]]] = {}
    for char in page.chars:
        lines.setdefault(round(char["matrix"][5], 1), []).append(char)
    return "\n".join(
        "".join(
            (" " if last and char["x0"] > last["x1"] + 1 else "") + char["text"]
            for last, char in zip([None, *line], line, strict=False)
        )
        for line in (sorted(chars, key=lambda c: c["x0"]) for chars in lines.values())
    ).replace("  ", " ")


def worked_out(question: ReadQuestion) -> Decimal:
    first, *others = map(Decimal, question.operands)
    return first + sum(others) if question.sign == "+" else first - sum(others)


@pytest.mark.parametrize(
    ("paper", "square", "carries"),
    [
        ("A4", 7, "below"),
        pytest.param("A5", 5, "above", marks=pytest.mark.slow),
        pytest.param("Letter", 10, "below", marks=pytest.mark.slow),
    ],
)
def test_every_question_on_a_practice_sheet_is_the_one_that_was_chosen(paper, square, carries):
    chosen = items(*random_texts(46, seed=square))
    sections = [Section("core", "practice", v, None, chosen[v - 1 :]) for v in (1, 2, 3)]
    lesson = Pack("Stall", 1, "X", 3, tuple(sections), Presentation(paper, square, carries))

    read = [
        found
        for page in file(render(work(lesson)), "practice-core.pdf").pages
        for found in Sheet(page).questions()
    ]

    expected = [item for section in sections for item in section.items]
    assert {(q.label, q.operands, q.sign) for q in read} == {
        (i.label, tuple(map(str, i.question.operands)), i.question.operation.sign) for i in expected
    }
    assert len(read) == len(expected)
    answers = {item.question.text: Decimal(str(item.question.answer)) for item in expected}
    for found in read:
        assert worked_out(found) == answers[f" {found.sign} ".join(found.operands)]


def test_a_pupils_sheet_has_no_digit_but_the_given_ones():
    lesson = pack("12-3.75", "2.5+0.125", "7+0.003")
    (page,) = file(render(work(lesson)), "practice-core.pdf").pages
    assert len(Sheet(page).digits) == sum(map(len, ("12", "375", "25", "0125", "7", "0003")))


@pytest.mark.slow
def test_answer_slides_read_as_sums_that_are_right():
    short = [
        text
        for text in random_texts(90, seed=3, most_addends=2)
        if len(text) < 12 and not re.search(r"\.\d*0$", str(question(text).answer))
    ]
    lesson = pack("1.25+0.75", "12.5+7.5", *short)
    text = "\n".join(map(in_lines, file(render(work(lesson)), "answers.pdf").pages))
    number = r"\d+(?:\.\d+)?"
    found = re.findall(
        rf"\b([a-z]+) ({number}) ([+−]) ({number}) = ({number})(?: = ({number}))?", text
    )
    assert len(found) == 2 * (2 + len(short))  # the starter and the tier
    for _, first, sign, second, written, trimmed in found:
        answer = Decimal(first) + Decimal(second) * (1 if sign == "+" else -1)
        assert Decimal(written) == answer
        ends_in_nought = "." in written and written.endswith("0")
        assert bool(trimmed) == ends_in_nought
        assert not trimmed or (Decimal(trimmed) == answer and not re.search(r"\.\d*0$", trimmed))


def test_the_key_reads_as_sums_that_are_right():
    lesson = pack(*random_texts(24, seed=4, most_addends=2))
    number = r"\d+(?:\.\d+)?"
    found = [
        match
        for page in file(render(work(lesson)), "key.pdf").pages
        for match in re.findall(
            rf"([a-z])\) ({number}) ([+−]) ({number}) = ({number})", page.extract_text()
        )
    ]
    assert len(found) == 3 * 24  # the starter, the examples and the tier
    for _, first, sign, second, written in found:
        assert Decimal(written) == Decimal(first) + Decimal(second) * (1 if sign == "+" else -1)
