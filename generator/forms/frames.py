"""How much of a question is set out for the pupil: a tier's frames, from full to none.

A frame is what stands on the squares before the pupil begins, and the line of words above
it where the numbers are not in their squares. What each kind holds is said in
``specs.spec.FRAMES``.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Final

from generator.arithmetic.questions import Operation, Question
from generator.forms.full_frames import WORKED, full_frame
from generator.forms.question_words import ending_words
from generator.forms.scaffold import on_a_line
from generator.operations.working import Ink, Point, Square, Step, Working

_IN_COLUMNS: Final = (Operation.ADD, Operation.SUBTRACT)


@dataclass(frozen=True, slots=True)
class Frame:
    """What a pupil is given: marks on squares, empty boxes for small digits, words above.

    ``words`` is empty where the numbers stand in their squares. ``corners`` are squares with a
    box in their upper left corner. ``hidden`` are squares whose digit is missing.
    ``may_be_shortened`` says that a page with few rows may leave out some of those that are free.
    ``narrower`` is what a page takes that has too few columns for the squares.
    """

    squares: Working
    boxes: tuple[Square, ...] = ()
    words: str = ""
    hidden: tuple[Square, ...] = ()
    may_be_shortened: bool = False
    corners: tuple[Square, ...] = ()
    narrower: Working | None = None


def framed(kind: str, scaffold: Working, working: Working, question: Question, words: str) -> Frame:
    """The frame of a kind. ``scaffold`` holds the given numbers alone, ``working`` the whole.

    ``words`` are those of the question, for the kinds that do not place its numbers. Of a method
    with many free rows below what is given a small page may leave some out.
    """
    frame = _framed(kind, scaffold, working, question, words)
    by_parts = working.line is not None or working.outline is not None
    below = question.operation is Operation.DIVIDE and has_rows_below(working)
    return replace(frame, may_be_shortened=True) if by_parts or below else frame


def has_rows_below(working: Working) -> bool:
    """Whether a division is written on below its dividend."""
    if working.dividend_row is None:
        return False
    return any(mark.row > working.dividend_row for mark in working.marks())


def _framed(
    kind: str, scaffold: Working, working: Working, question: Question, words: str
) -> Frame:
    shown = "" if _says_all(scaffold, question) and not on_a_line(working) else words
    if working.line is not None:
        return _on_a_number_line(kind, working, words)
    match kind:
        case "full" if question.operation in WORKED:
            full = full_frame(scaffold, working, question)
            narrower = scaffold if full.squares.columns > scaffold.columns else None
            if not scaffold.setting_out.marks:
                narrower = scaffold
            return Frame(full.squares, full.boxes, shown, corners=full.corners, narrower=narrower)
        case "full":
            squares = _filled(scaffold, working, question)
            return Frame(squares, tuple(_small_boxes(scaffold, question)), shown)
        case "numbers":
            return Frame(scaffold, words=shown)
        case "part":
            return Frame(_without_numbers(scaffold), words=words)
        case "none":
            return Frame(_bare(scaffold), words=words)
    raise ValueError(f"no frame is called {kind!r}")


def _says_all(scaffold: Working, question: Question) -> bool:
    """Whether what stands on the squares needs no words: how a division is to end needs some."""
    return bool(scaffold.setting_out.marks) and not ending_words(question)


def _on_a_number_line(kind: str, working: Working, words: str) -> Frame:
    """The question on a line, and the number line with as much as the kind gives of it.

    Full: its two ends, and arcs to scale without their sizes. Numbers: its two ends. Part: the
    line alone. None: bare squares.
    """
    if kind == "none":
        return Frame(_bare(working), words=words)
    assert working.line is not None
    jumps = tuple(replace(jump, named=False) for jump in working.jumps())
    step = Step("", None, jumps=jumps if kind == "full" else ())
    line = replace(working.line, ends_named=kind != "part")
    squares = replace(working, steps=(step,), rules=(), units_column=0, line=line)
    return Frame(squares, words=words)


def bare_rows(scaffold: Working, rows: int, words: str) -> Frame:
    """The question on a line, and so many rows of bare squares below it."""
    return Frame(replace(_bare(scaffold), rows=rows), words=words)


def of_numbers(kind: str | None, working: Working, question: Question, words: str) -> Frame:
    """The frame of a question on a place-value grid, always with its words.

    Full: the numbers in their columns with placeholder noughts. Numbers: without noughts.
    Part: the headings of the columns and the rules, where digits are moved. None: bare squares,
    which the others have for part too. Where nothing is asked for, moving digits has part
    frames and the others have bare squares.
    """
    if kind in (None, "part"):
        kind = "part" if question.power_of_ten else "none"
    if kind == "none":
        return Frame(replace(_bare(working), rows=_rows_to_write(question)), words=words)
    set_out = working.setting_out
    inks = {
        "full": (Ink.HEADING, Ink.GIVEN, Ink.PLACEHOLDER),
        "numbers": (Ink.HEADING, Ink.GIVEN),
        "part": (Ink.HEADING,),
    }[kind]
    step = Step(
        "",
        None,
        tuple(mark for mark in set_out.marks if mark.ink in inks),
        tuple(point for point in set_out.points if point.ink in inks),
    )
    return Frame(replace(working, steps=(step,)), words=words)


def _rows_to_write(question: Question) -> int:
    """Rows of bare squares: enough to write an order out, or to set a number out and round it."""
    return len(question.operands) + 1 if question.operation is Operation.ORDER else 2


def in_columns(question: Question) -> bool:
    """Whether the question's numbers and its answer all stand in the same columns."""
    return question.operation in _IN_COLUMNS


def rows_of_numbers(scaffold: Working) -> list[int]:
    """The rows of the numbers, from the top."""
    return sorted({mark.row for mark in scaffold.marks() if mark.ink is Ink.GIVEN})


def _bare(scaffold: Working) -> Working:
    """Squares as many as the scaffold's, and nothing on them."""
    return Working(
        scaffold.rows,
        scaffold.columns,
        scaffold.units_column,
        (),
        (Step("", None),),
        scaffold.answer,
    )


def _filled(scaffold: Working, working: Working, question: Question) -> Working:
    """The scaffold with the placeholder noughts of the setting out, and the answer's point."""
    (given,) = scaffold.steps
    shift = scaffold.units_column - working.units_column
    set_out = working.setting_out
    noughts = tuple(
        replace(mark, column=mark.column + shift)
        for mark in set_out.marks
        if mark.ink is Ink.PLACEHOLDER
    )
    points = tuple(
        replace(point, column=point.column + shift)
        for point in set_out.points
        if point.ink is Ink.PLACEHOLDER
    )
    points += answer_point(scaffold, question)
    step = replace(given, marks=given.marks + noughts, points=given.points + points)
    return replace(scaffold, steps=(step,))


def answer_point(scaffold: Working, question: Question) -> tuple[Point, ...]:
    """The point of the answer row, where a column method has one."""
    if question.operation not in _IN_COLUMNS or not _lowest(question):
        return ()
    return (scaffold.places.point(scaffold.rules[0].row, Ink.GIVEN),)


def _without_numbers(scaffold: Working) -> Working:
    """The sign, the points of the numbers and the rules; no digit, nor the answer's point."""
    (given,) = scaffold.steps
    signs = tuple(mark for mark in given.marks if mark.ink is Ink.SIGN)
    return replace(scaffold, steps=(replace(given, marks=signs),))


def _lowest(question: Question) -> int:
    """How many decimal places the longest number has."""
    return max(number.places for number in question.operands)


def _small_boxes(scaffold: Working, question: Question) -> Iterator[Square]:
    """A box for each small digit that the method could need, whether or not it will.

    Carried digits have theirs in the carry row, digits left after an exchange above the
    number that lends. No box stands over the right-most column, which nothing enters and
    which lends to none.
    """
    if question.operation not in _IN_COLUMNS:
        return
    answer_row = scaffold.rules[0].row
    row = _row_of_small_digits(scaffold, answer_row)
    if question.operation is Operation.SUBTRACT and not _has_exchange_row(scaffold):
        return
    top = max(number.top_place for number in question.operands)
    for place in range(top, -_lowest(question), -1):
        yield row, scaffold.places[place]


def _row_of_small_digits(scaffold: Working, answer_row: int) -> int:
    """The free row: above the numbers, between them and the answer, or below it."""
    if scaffold.rows > answer_row + 1:
        return answer_row + 1
    written = {mark.row for mark in scaffold.setting_out.marks}
    return answer_row - 1 if answer_row - 1 not in written else 0


def _has_exchange_row(scaffold: Working) -> bool:
    """Whether a row is kept free above the numbers."""
    return all(mark.row > 0 for mark in scaffold.setting_out.marks)
