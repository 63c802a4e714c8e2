"""``point: column`` on paper and on slides, measured in the files by pdfplumber."""

import io
from dataclasses import replace

import pdfplumber
import pytest

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Ending, Operation, Question
from generator.forms import frames
from generator.forms.scaffold import scaffold
from generator.operations.methods import Conventions, written_working
from generator.packs.pack import Item
from generator.packs.working_out import work
from layouts import render
from layouts.planning.plan import Text
from layouts.planning.working_ink import Squares, step_ink
from tests.layouts.inked import MM, inks, overlapping
from tests.layouts.lessons import AWKWARD, pack
from tests.layouts.reading import Sheet
from tests.layouts.sheets import with_presentation

TOLERANCE = 0.1  # millimetres from the middle of the point's column
AGREED = Conventions(point="column")


def of(operation: Operation, text: str, ending: Ending = Ending.EXACT) -> Question:
    return Question(operation, tuple(map(Number.parse, text.split())), ending)


OTHERS = (
    of(Operation.DIVIDE, "9.75 3"),
    of(Operation.DIVIDE, "7 4", Ending.DECIMAL),
    of(Operation.DIVIDE, "8.4 0.12"),
    of(Operation.MULTIPLY, "2.4 0.16"),
    of(Operation.MULTIPLY, "3.45 100", Ending.MOVED),
    of(Operation.ORDER, "0.5 0.45 0.405"),
    replace(of(Operation.ROUND, "3.96"), places=1),
)


@pytest.fixture(scope="module")
def printed():
    """A lesson of sums and differences, and of every other method, as files."""
    lesson = with_presentation(pack(*AWKWARD), point="column")
    others = tuple(
        Item(letter, "in-columns", question, str(question), ())
        for letter, question in zip("tuvwxyz", OTHERS, strict=True)
    )
    sections = tuple(
        replace(section, items=section.items + others if section.kind != "starter" else others)
        for section in lesson.sections
    )
    return {
        document.name: pdfplumber.open(io.BytesIO(document.data))
        for document in render(work(replace(lesson, sections=sections)))
    }


@pytest.mark.parametrize(
    ("name", "expected"),
    [  # 9.75, 8.4 ÷ 0.12, 2.4 × 0.16, 3.45 × 100, and every point of the sums and differences
        ("starter.pdf", 6),
        ("practice-core.pdf", 6 + sum(text.count(".") for text in AWKWARD)),
    ],
)
def test_each_point_on_a_sheet_has_the_middle_of_a_square_to_itself(printed, name, expected):
    found = 0
    for page in printed[name].pages:
        sheet = Sheet(page)
        digits = {sheet.place(digit) for digit in sheet.digits}
        written = [point for point in sheet.points if point["size"] > 0.7 * sheet.square]
        for point in written:
            row, column = sheet.place(point)
            if not {(row, column - 1), (row, column + 1)} & digits:
                continue  # a point in a question's words
            middle = (sheet.verticals[column] + sheet.verticals[column + 1]) / 2
            assert abs(sheet.middle(point)[0] - middle) * MM < TOLERANCE
            assert (row, column) not in digits
            assert (row, column - 1) in digits
            assert (row, column + 1) in digits
            found += 1
    assert found == expected


def test_points_are_text_and_questions_read_back(printed):
    text = "".join(page.extract_text() for page in printed["key.pdf"].pages)
    assert "12.345 + 9.8" in text.replace("\N{NO-BREAK SPACE}", " ")
    sheet = Sheet(printed["practice-core.pdf"].pages[0])
    assert sheet.points
    assert all(point["text"] == "." for point in sheet.points)


def test_no_ink_lies_over_other_ink_on_sheets(printed):
    for name in ("starter.pdf", "practice-core.pdf"):
        for page in printed[name].pages:
            dots = [pair for pair in overlapping(inks(page)) if "." in pair]
            assert not dots, (name, page.page_number)


@pytest.mark.parametrize(
    "question",
    [*OTHERS, of(Operation.ADD, "12.75 3.48"), of(Operation.SUBTRACT, "10.004 3.756")],
    ids=str,
)
@pytest.mark.parametrize("side", [4.5, 7.0, 18.0])  # the key's, a sheet's and a slide's squares
def test_after_every_step_points_are_in_the_middle_of_empty_squares(question, side):
    working = written_working(question, AGREED)
    squares = Squares(20.0, 30.0, side)
    for steps in range(1, len(working.steps) + 1):
        texts = [item for item in step_ink(working, squares, steps) if isinstance(item, Text)]
        dots = [text for text in texts if text.text == "."]
        assert len(dots) == len(list(working.points(steps)))
        for dot in dots:
            assert dot.anchor == "centre"
            at = (dot.x - squares.x) / side
            assert abs(at - int(at) - 0.5) * side < TOLERANCE
            level = [t for t in texts if t is not dot and abs(t.baseline - dot.baseline) < 0.01]
            beside = {round((t.x - dot.x) / side, 2) for t in level if t.size == dot.size}
            assert 0.0 not in beside
            if steps == len(working.steps):
                assert {-1.0, 1.0} <= beside, "a digit in the square at each side"


@pytest.mark.parametrize("kind", ["full", "numbers", "part", "none"])
def test_frames_keep_the_column(kind):
    question = of(Operation.ADD, "12.75 3.4")
    working = written_working(question, AGREED)
    frame = frames.framed(kind, scaffold(question, working), working, question, "words")
    own = frame.squares.units_column + 1
    points = list(frame.squares.points())
    assert len(points) == {"full": 3, "numbers": 2, "part": 2, "none": 0}[kind]
    assert all(point.in_square and point.column == own for point in points)
    taken = {mark.column for mark in frame.squares.marks()} | {column for _, column in frame.boxes}
    assert own not in taken
    if kind == "full":
        ones = frame.squares.units_column
        assert {column for _, column in frame.boxes} == {ones - 1, ones, ones + 2}


def test_a_division_has_room_for_the_point_that_it_will_need():
    question = of(Operation.DIVIDE, "7 4", Ending.DECIMAL)
    usual = scaffold(question, written_working(question))
    with_column = scaffold(question, written_working(question, AGREED))
    assert with_column.columns == usual.columns + 1
