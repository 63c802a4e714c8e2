"""Marking as a handbook: given this question and this cell, it is right, wrong, or named.

How decimals and thousands are written elsewhere: BIPM, The International System of Units (9th
edition), section 5.4.4 (point or comma before the decimals, thin spaces between thousands).
The metric prefixes are the SI's; a litre is a cubic decimetre (same source, table 8).
"""

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Ending, Operation, Question
from generator.forms.form import Form
from generator.forms.in_words import InWords
from generator.forms.missing_number import MissingNumber
from generator.forms.plain import PLAIN
from generator.operations.mistakes import is_right, right_reply
from generator.packs.pack import Item, Section
from generator.packs.record import PackRecord
from generator.results.class_results import class_results
from generator.results.mark_sheet import (
    MOST_COLUMNS,
    empty_sheets,
    mark_columns,
    mark_sheet,
    read_sheet,
)
from generator.results.marking import asked_of
from generator.vocabulary import VOCABULARY
from specs.accepted import ACCEPTED
from specs.contexts import templates
from specs.glossary import glossary
from specs.mark_cells import NOTHING
from specs.marks import LARGEST, MarksError
from specs.replies import Reply
from specs.units import unit_named
from tests.generator.test_mistakes import asked, questions

CODE = "K7HM-D4-T"
NB = "\N{NO-BREAK SPACE}"
RIGHT, WRONG, NAMED = "right", "wrong", "named"


def item(question: Question, form: Form = PLAIN, label: str = "a") -> Item:
    return Item(label, "rung", question, "", (), form=form)


def ordered(text: str) -> Question:
    return Question(Operation.ORDER, tuple(map(Number.parse, text.split())))


def litres(text: str) -> Item:
    """A sum in words that is answered in litres."""
    question = asked(text)
    return item(question, InWords("capacity", "watering", "…", f"{question.answer_text}{NB}litres"))


def pounds(text: str) -> Item:
    question = asked(text)
    return item(question, InWords("money", "takings", "…", f"£{question.answer.to_places(2)}"))


def pieces(text: str) -> Item:
    """A division in words: so many pieces, and so many metres left over."""
    question = asked(text, Ending.REMAINDER)
    left = question.remainder
    said = f"{question.answer}{NB}pieces and {left}{NB}m left over"
    return item(question, InWords("length", "pieces-with-rest", "…", said))


def pack(*items: Item) -> PackRecord:
    labelled = tuple(
        item(one.question, one.form, label)
        for label, one in zip("abcdefghijkl", items, strict=False)
    )
    section = Section("core", "practice", 1, None, labelled)
    return PackRecord("Stall", 4, CODE, (section,), "")


def quoted(cells: list[str]) -> str:
    return ",".join('"' + cell.replace('"', '""') + '"' for cell in cells)


def outcome(asked_item: Item, cell: str, *, others: tuple[str, ...] = ()) -> tuple[str, str]:
    """What becomes of a cell: right, wrong or unread; and what is told of it."""
    read = pack(asked_item)
    rows = [["pupil", "core.a"], ["1", cell], *([f"{n}", c] for n, c in enumerate(others, 2))]
    marks = read_sheet(read, "\n".join(map(quoted, rows)).encode(), "marks.csv")
    results = class_results(mark_columns(read.sections), marks)
    told = [str(problem) for problem in marks.problems if problem.row == 2]
    assert all("row 2, column core.a: " in said for said in told)
    (attempts,) = [pupil.attempts for pupil in results.pupils if pupil.pupil == "1"]
    if "core.a" not in attempts:
        assert told, "a cell that is not read must be named"
        return NAMED, told[0]
    return (RIGHT if attempts["core.a"].right else WRONG), " ".join(told)


# A number, and the ways to write it

PLAIN_CASES = [
    ("3.4 + 0.27", "3.67", RIGHT),
    ("3.4 + 0.27", "3,67", RIGHT),
    ("3.4 + 0.27", "3.670", RIGHT),
    ("3.4 + 0.27", "= 3.67", RIGHT),
    ("3.4 + 0.27", "367", WRONG),
    ("3.4 + 0.27", "36.7", WRONG),
    ("3.4 + 0.27", "3 67", NAMED),
    ("3.4 + 0.27", "3.67 or 3.76", NAMED),
    ("3.4 + 0.27", "367%", RIGHT),
    ("3.4 + 0.27", "3.67%", WRONG),
    ("800 + 19", "819", RIGHT),
    ("800 + 19", "0,819", WRONG),  # no thousands begin with a nought
    ("800 + 19", "0.819", WRONG),
    ("0.8 + 0.019", "0,819", RIGHT),
    ("1200 + 34", "1234", RIGHT),
    ("1200 + 34", "1 234", RIGHT),
    ("1200 + 34", "1\u2009234", RIGHT),  # a thin space
    ("1200 + 34", "1\u202f234", RIGHT),
    ("1200 + 34", "1'234", RIGHT),
    ("1200 + 34", "1.234", WRONG),
    ("1200 + 34.5", "1,234.5", RIGHT),
    ("1200 + 34.5", "1.234,5", RIGHT),
    ("1200 + 34.5", "1 234,5", RIGHT),
    ("1200 + 34.5", "1234.5", RIGHT),
    ("40 + 13", "5³", NAMED),
    ("40 + 13", "⁵3", NAMED),
    ("40 + 13", "5₃", NAMED),
    ("40 + 13", "⑤3", NAMED),
    ("40 + 13", "５３", RIGHT),  # full width, as some keyboards have it
    ("40 + 13", "53.0", RIGHT),
    ("40 + 13", "5.3E+01", NAMED),
    ("40 + 13", "5,3E+01", NAMED),
    ("40 + 13", "#####", NAMED),
    ("40 + 13", "#NAME?", NAMED),
    ("40 + 13", "O53", NAMED),
    ("40 + 13", "53 kg", RIGHT),  # no unit was asked for, and none does harm
]


@pytest.mark.parametrize(("text", "cell", "becomes"), PLAIN_CASES)
def test_a_number_however_it_is_written(text: str, cell: str, becomes: str) -> None:
    assert outcome(item(asked(text)), cell)[0] == becomes


# A comma before three digits may stand before thousandths or between thousands

EITHER = [
    # right answer, cell, others in the column, what becomes of it, whether it is doubted
    ("23.8 + 0.034", "23,834", (), RIGHT, True),
    ("23.8 + 0.034", "23,834", ("23,83", "0,5"), RIGHT, False),
    ("23.8 + 0.034", "23,834", ("23.83", "0.5"), WRONG, True),
    ("23.8 + 0.034", "23,834", ("23.83", "0,5"), RIGHT, True),  # some write so, some so
    ("23000 + 834", "23,834", (), RIGHT, True),
    ("23000 + 834", "23,834", ("23.83",), RIGHT, False),
    ("23000 + 834", "23,834", ("23,83",), WRONG, True),
    ("23.8 + 0.034", "23.834", (), RIGHT, False),
    ("23.8 + 0.034", "23.834", ("23,83",), RIGHT, True),  # a point between thousands, perhaps
    ("23000 + 834", "23.834", ("23,83",), RIGHT, True),
    ("23000 + 834", "23.834", (), WRONG, False),
    ("1 + 1", "23,834", (), WRONG, False),  # wrong whichever it is
    ("0.8 + 0.019", "0,819", (), RIGHT, False),
]


@pytest.mark.parametrize(("text", "cell", "others", "becomes", "doubted"), EITHER)
def test_a_comma_that_may_be_either_is_doubted_where_it_decides(
    text: str, cell: str, others: tuple[str, ...], becomes: str, doubted: bool
) -> None:
    found, told = outcome(item(asked(text)), cell, others=others)
    assert found == becomes
    assert bool(told) is doubted
    if doubted:
        assert "23834" in told
        assert "23.834" in told
        assert "write the number with a point" in told


# Units

UNITS = [
    (litres("4 + 0.37"), "4.37", RIGHT),
    (litres("4 + 0.37"), "4.37 litres", RIGHT),
    (litres("4 + 0.37"), "4.37 l", RIGHT),
    (litres("4 + 0.37"), "4.37L", RIGHT),
    (litres("4 + 0.37"), "4370 ml", RIGHT),
    (litres("4 + 0.37"), "4 370 ml", RIGHT),
    (litres("4 + 0.37"), "4370 cm³", RIGHT),
    (litres("4 + 0.37"), "437 cl", RIGHT),
    (litres("4 + 0.37"), "4 l 370 ml", RIGHT),
    (litres("4 + 0.37"), "4 litres and 370 ml", RIGHT),
    (litres("4 + 0.37"), "4 litres 37 ml", WRONG),
    (litres("4 + 0.37"), "4.37 ml", WRONG),
    (litres("4 + 0.37"), "4.37 kg", WRONG),
    (litres("4 + 0.37"), "4.37 bags", WRONG),
    (litres("4 + 0.37"), "437%", WRONG),
    (litres("4 + 0.37"), "4370", WRONG),
    (litres("4 + 0.37"), "370 ml 4 l", NAMED),
    (pounds("2 + 0.5"), "£2.50", RIGHT),
    (pounds("2 + 0.5"), "2.5", RIGHT),
    (pounds("2 + 0.5"), "£2,50", RIGHT),
    (pounds("2 + 0.5"), "2.50£", RIGHT),
    (pounds("2 + 0.5"), "250p", RIGHT),
    (pounds("2 + 0.5"), "£2 50p", RIGHT),
    (pounds("2 + 0.5"), "2 pounds 50 pence", RIGHT),
    (pounds("2 + 0.5"), "£2.50p", NAMED),
    (pounds("2 + 0.5"), "2.50p", WRONG),
    (pounds("2 + 0.5"), "€2.50", WRONG),
    (pounds("2 + 0.5"), "250", WRONG),
    (pounds("2 + 0.5"), "£250", WRONG),
    (pieces("432 ÷ 15"), "28 r 12", RIGHT),
    (pieces("432 ÷ 15"), "28 pieces and 12 m left over", RIGHT),
    (pieces("432 ÷ 15"), "28 pieces r 1200 cm", RIGHT),
    (pieces("432 ÷ 15"), "28 pieces r 12 cm", WRONG),
    (pieces("432 ÷ 15"), "28 m r 12 m", WRONG),
    (pieces("432 ÷ 15"), "28.8", WRONG),  # asked for were pieces, and what is left over
    (pieces("432 ÷ 15"), "28 4/5", WRONG),
    (pieces("432 ÷ 15"), "28", WRONG),
]


@pytest.mark.parametrize(
    ("asked_item", "cell", "becomes"), UNITS, ids=[f"{i.question.text}: {c}" for i, c, _ in UNITS]
)
def test_units_are_converted(asked_item: Item, cell: str, becomes: str) -> None:
    assert outcome(asked_item, cell)[0] == becomes


@pytest.mark.parametrize("cell", ["4.37 ml", "4.37 kg", "4.37 bags", "£4.37", "437%"])
def test_a_wrong_unit_is_named_as_such(cell: str) -> None:
    found, told = outcome(litres("4 + 0.37"), cell)
    assert found == WRONG
    assert f"'{cell}' has a wrong unit, as the answer is in litres; it is counted as wrong" in told


def test_a_wrong_number_in_the_unit_asked_for_is_nothing_to_tell() -> None:
    assert outcome(litres("4 + 0.37"), "4.73 litres") == (WRONG, "")
    assert outcome(litres("4 + 0.37"), "4730 ml") == (WRONG, "")


def test_the_units_of_each_template_that_ships_are_known() -> None:
    """A unit that no answer could be read in would make every answer with it wrong."""
    for template in templates():
        for quantity in (template.answer, template.left_over):
            if quantity is not None and quantity.unit:
                assert unit_named(quantity.unit), quantity.unit


# What is left over

LEFT = [
    ("341 ÷ 5", Ending.FRACTION, "68 1/5", RIGHT),
    ("341 ÷ 5", Ending.FRACTION, "68⅕", RIGHT),
    ("341 ÷ 5", Ending.FRACTION, "68 ⅕", RIGHT),
    ("341 ÷ 5", Ending.FRACTION, "68¹⁄₅", RIGHT),
    ("341 ÷ 5", Ending.FRACTION, "68 2/10", RIGHT),
    ("341 ÷ 5", Ending.FRACTION, "341/5", RIGHT),
    ("341 ÷ 5", Ending.FRACTION, "68 r 1", RIGHT),  # accepted, and said so
    ("341 ÷ 5", Ending.FRACTION, "68.2", RIGHT),
    ("341 ÷ 5", Ending.FRACTION, "68 r 1/5", WRONG),
    ("341 ÷ 5", Ending.FRACTION, "68.1", WRONG),
    ("341 ÷ 5", Ending.FRACTION, "681/5", WRONG),
    ("341 ÷ 5", Ending.REMAINDER, "68 r 1", RIGHT),
    ("341 ÷ 5", Ending.REMAINDER, "68R1", RIGHT),
    ("341 ÷ 5", Ending.REMAINDER, "68 rem 1", RIGHT),
    ("341 ÷ 5", Ending.REMAINDER, "68 remainder 1", RIGHT),
    ("341 ÷ 5", Ending.REMAINDER, "68 1/5", RIGHT),
    ("341 ÷ 5", Ending.REMAINDER, "68 and 1 left over", RIGHT),
    ("341 ÷ 5", Ending.REMAINDER, "67 r 6", WRONG),
    ("341 ÷ 5", Ending.REMAINDER, "68", WRONG),
    ("341 ÷ 5", Ending.REMAINDER, "68 r", NAMED),
    ("341 ÷ 5", Ending.REMAINDER, "r 1", NAMED),
    ("432 ÷ 4", Ending.EXACT, "108", RIGHT),
    ("432 ÷ 4", Ending.EXACT, "108 r 0", RIGHT),
    ("432 ÷ 4", Ending.EXACT, "107 r 4", WRONG),  # one more four goes into that
    ("432 ÷ 4", Ending.EXACT, "109 r -4", WRONG),
    ("432 ÷ 5", Ending.DECIMAL, "86 r 2", RIGHT),
    ("432 ÷ 5", Ending.DECIMAL, "85 r 7", WRONG),
    ("432 ÷ 5", Ending.DECIMAL, "86.4", RIGHT),
]


@pytest.mark.parametrize(("text", "ending", "cell", "becomes"), LEFT)
def test_what_is_left_over_however_it_is_written(
    text: str, ending: Ending, cell: str, becomes: str
) -> None:
    assert outcome(item(asked(text, ending)), cell)[0] == becomes


def test_what_is_accepted_is_said_with_examples_that_hold() -> None:
    said = ACCEPTED["left over"]
    for cell in ("68 r 1", "68 1/5", "68.2"):
        assert cell in said
        for ending in (Ending.REMAINDER, Ending.FRACTION, Ending.DECIMAL):
            assert outcome(item(asked("341 ÷ 5", ending)), cell) == (RIGHT, "")
    assert "4370 ml for 4.37 litres" in ACCEPTED["units"]
    words = " ".join(glossary(VOCABULARY).partition("what counts as a right answer")[2].split())
    assert all(f"{name} {sentence}" in words for name, sentence in ACCEPTED.items())


def test_of_a_rounded_quotient_the_rounded_number_alone_is_right() -> None:
    question = Question(Operation.DIVIDE, (Number(100), Number(7)), Ending.ROUNDED, 1)
    assert question.answer_text == "14.3"
    cells = {"14.3": RIGHT, "14,3": RIGHT, "14.29": WRONG, "14 2/7": WRONG, "14 r 2": WRONG}
    assert {cell: outcome(item(question), cell)[0] for cell in cells} == cells


# Numbers in order

ORDERS = [
    ("0.46 0.63 0.8", "0.46 0.63 0.8", RIGHT),
    ("0.46 0.63 0.8", "0.46, 0.63, 0.8", RIGHT),
    ("0.46 0.63 0.8", "0,46,0,63,0,8", RIGHT),
    ("0.46 0.63 0.8", "0,46, 0,63, 0,8", RIGHT),
    ("0.46 0.63 0.8", "0,46 0,63 0,8", RIGHT),
    ("0.46 0.63 0.8", "0.46 < 0.63 < 0.8", RIGHT),
    ("0.46 0.63 0.8", "0.8 > 0.63 > 0.46", RIGHT),
    ("0.46 0.63 0.8", "0.46, 0.63 and 0.8", RIGHT),
    ("0.46 0.63 0.8", "0.460 .63 0.80", RIGHT),
    ("0.46 0.63 0.8", "0.8 0.63 0.46", WRONG),
    ("0.46 0.63 0.8", "0,8,0,63,0,46", WRONG),
    ("0.46 0.63 0.8", "0.46 0.63", NAMED),
    ("0.46 0.63 0.8", "0,46,0,63", NAMED),
    ("0.46 0.63 0.8", "0.46 0.63 0.8 0.9", NAMED),
    ("0.46 0.63 0.8", "a c b", NAMED),
    ("1754 3454 3.5 7", "3.5, 7, 1,754, 3,454", RIGHT),
    ("1754 3454 3.5 7", "3.5; 7; 1,754; 3,454", RIGHT),
    ("1754 3454 3.5 7", "3,5,7,1,754,3,454", RIGHT),
    ("1754 3454 3.5 7", "3.5 7 1 754 3 454", RIGHT),
    ("1754 3454 3.5 7", "7, 3.5, 1,754, 3,454", WRONG),
    ("1754 3454 5120 7000", "1,754, 3,454, 5,120, 7,000", RIGHT),
    ("1.754 3.454 5.12 7", "1,754, 3,454, 5,120, 7,000", RIGHT),
    ("3 4", "3,4", RIGHT),
    ("3 4", "4,3", WRONG),
]


@pytest.mark.parametrize(("numbers", "cell", "becomes"), ORDERS)
def test_numbers_in_order_whose_commas_may_be_anything(
    numbers: str, cell: str, becomes: str
) -> None:
    found, told = outcome(item(ordered(numbers)), cell)
    assert (found, bool(told)) == (becomes, becomes == NAMED)


def test_too_many_numbers_are_said_to_be() -> None:
    _, told = outcome(item(ordered("0.46 0.63 0.8")), "0.46 0.63")
    assert "'0.46 0.63' has 2 numbers, and 3 are to be put in order; write the numbers" in told


def test_other_numbers_than_the_question_has_are_wrong_and_named() -> None:
    for cell in ("0.46 0.64 0.8", "0,46,0,64,0,8"):
        found, told = outcome(item(ordered("0.46 0.63 0.8")), cell)
        assert found == WRONG
        assert "has other numbers than the question; it is counted as wrong" in told


def test_an_order_that_can_be_read_in_two_ways_is_doubted() -> None:
    found, told = outcome(item(ordered("1 1.1")), "1,1,1")
    assert found == RIGHT
    assert "can be read in several ways; it is counted as right; put semicolons" in told


# What a spreadsheet makes of what is typed

DATES = ["04-May", "4-May-26", "May-04", "03/04/2026", "2026-05-04", "4 May 2026", "4.5.2026"]


@pytest.mark.parametrize("cell", [*DATES, "2026-05-04 00:00:00"])
def test_a_date_is_named_with_what_to_do(cell: str) -> None:
    found, told = outcome(item(asked("4 ÷ 5", Ending.FRACTION)), cell)
    assert found == NAMED
    assert "is a date, which a spreadsheet makes of 3/4; format the cell as text first" in told


def test_a_shortened_number_is_named() -> None:
    for cell in ("1E+03", "1.23E+05", "1,23e+05"):
        assert "that a spreadsheet has shortened" in outcome(item(asked("999 + 1")), cell)[1]


@pytest.mark.parametrize("cell", ["", " ", "-", "—", "−", "--", "…", "abs", "Absent", "n/a", "ill"])
def test_dashes_and_words_for_nothing_are_no_answers(cell: str) -> None:
    read = pack(item(asked("4 + 3")))
    marks = read_sheet(read, f"pupil,core.a\n1,{cell}\n".encode(), "marks.csv")
    assert not marks.problems
    assert not marks.rows[0].entries


def test_where_something_is_missing_what_goes_there_is_right() -> None:
    gap = item(asked("63 − 29"), MissingNumber(0))
    cells = {"63": RIGHT, "63.0": RIGHT, "34": WRONG, "63 r 1": WRONG, "63³": NAMED}
    assert {cell: outcome(gap, cell)[0] for cell in cells} == cells


# Rows and headings

SUMS = pack(*(item(asked(text)) for text in ("3.4 + 0.27", "1.25 + 0.5", "3 + 4", "5 + 6")))


def read_text(text: str, read: PackRecord = SUMS) -> tuple[dict[str, int], list[str]]:
    """How many answers of each pupil are right, and what is told."""
    marks = read_sheet(read, text.encode(), "marks.csv")
    results = class_results(mark_columns(read.sections), marks)
    return {pupil.pupil: pupil.right for pupil in results.pupils}, list(map(str, marks.problems))


ALL = "pupil,core.a,core.b,core.c,core.d"


@pytest.mark.parametrize(
    "row",
    [
        "2,3,67,1,75,7,11",  # decimal commas in a file of commas: two cells too many
        "2,3,67,1.75,7,11,",  # and where the last is empty
        "2,3,67,1.75,7",  # and where the last answer was left out
        "2,3.67,1,75,7",
        "2,3,66,1,75",  # the first is wrong, the second shows it
    ],
)
def test_a_decimal_comma_in_a_file_of_commas_costs_the_row_and_is_named(row: str) -> None:
    right, told = read_text(f"{ALL}\n1,3.67,1.75,7,11\n{row}\n")
    assert right == {"1": 4}
    assert len(told) == 1
    assert told[0].startswith("marks.csv: row 3: ")
    assert "put answers with a decimal comma in double quotes" in told[0]


@pytest.mark.parametrize("between", ["\t", ";"])
def test_decimal_commas_between_semicolons_or_tabs_are_read(between: str) -> None:
    lines = [ALL.split(","), ["1", "3,67", "1,75", "7", "11"], ["2", "3", "67", "7", "11"]]
    right, told = read_text("\n".join(between.join(line) for line in lines))
    assert (right, told) == ({"1": 4, "2": 2}, [])


def test_empty_columns_at_the_end_are_empty_columns() -> None:
    right, told = read_text(f"{ALL},,\n1,3.67,1.75,7,11,,\n2,3,1,7,11,,\n")
    assert (right, told) == ({"1": 4, "2": 2}, [])
    right, told = read_text(f"{ALL}\n1,3.67,1.75,7,11,,\n2,3,1,7,11,,\n")
    assert (right, told) == ({"1": 4, "2": 2}, [])


@pytest.mark.parametrize(
    "name", ["Total", "total:", "AVERAGE", "Mean", "out of", "Class average", "pupil", "%"]
)
def test_a_spreadsheets_further_rows_are_no_pupils(name: str) -> None:
    right, told = read_text(f"{ALL}\n1,3.67,1.75,7,11\n{name},5,6,7,8\n")
    assert right == {"1": 4}
    assert told == [f"marks.csv: row 3, column pupil: '{name}' is no pupil; the row is left out"]


@pytest.mark.parametrize("again", ["7", "07", "7.0", " 7 "])
def test_a_pupil_written_otherwise_is_the_same_pupil(again: str) -> None:
    right, told = read_text(f"{ALL}\n7,3.67,1.75,7,11\n{again},1,1,1,1\n")
    assert right == {"7": 4}
    assert "has a row already" in told[0]


def test_a_title_may_stand_above_the_heading() -> None:
    right, told = read_text(f"Monday,,,,\n\n{ALL}\n1,3.67,1.75,7,11\n2,about,,,\n")
    assert right == {"1": 4, "2": 0}
    assert "row 5, column core.a" in told[0]


def test_columns_moved_are_read_and_columns_renamed_are_named() -> None:
    right, told = read_text("core.d,total,core.a,pupil,core b\n11,5,3.67,1,1.75\n")
    assert right == {"1": 2}
    assert [said.partition(": ")[2] for said in told] == [
        "row 1, column core b: no question of the pack has that name; did you mean 'core.b'?",
        "row 1, column total: no question of the pack has that name; the column is left out",
    ]


@pytest.mark.parametrize("encoding", ["utf-8-sig", "utf-16", "utf-16-le", "utf-16-be", "cp1252"])
def test_every_encoding_that_spreadsheets_save_in(encoding: str) -> None:
    text = f"pupil ({CODE}),core.a,core.b,core.c,core.d\r\n1,£3.67,1¾,7,11\r\n"
    marks = read_sheet(SUMS, text.encode(encoding), "marks.csv")
    results = class_results(mark_columns(SUMS.sections), marks)
    assert results.pupils[0].right == 4


# The pack's code in the heading


def test_an_empty_sheet_bears_the_packs_code_and_is_read_again() -> None:
    sheet = mark_sheet(SUMS)
    assert sheet.startswith(f"pupil ({CODE}),core.a,")
    filled = sheet.replace("1,,,,", "1,3.67,1.75,7,11", 1)
    assert read_text(filled)[0]["1"] == 4
    assert read_text(filled)[1] == []


@pytest.mark.parametrize(
    "head",
    [
        f"pupil ({CODE})",
        f'"Pupil ({CODE.lower()})"',
        f" PUPIL  ( {CODE} ) ",
        f"pupil ({CODE.replace('-', '–')})",  # a spreadsheet's longer dash
        f"pupil({CODE}",
        "pupil",
        "Pupil number",
    ],
)
def test_the_heading_as_it_comes_back_from_a_spreadsheet(head: str) -> None:
    assert read_text(f"{head},core.a\n1,3.67\n") == ({"1": 1}, [])


def test_a_sheet_of_the_pack_as_it_was_before_is_refused() -> None:
    with pytest.raises(MarksError) as refused:
        read_text("pupil (AAAA-D4-C),core.a\n1,3.67\n")
    assert str(refused.value) == (
        f"marks.csv: row 1: the sheet is of the pack 'AAAA-D4-C', and this pack is {CODE}; name "
        "the folder of the sheet's own pack, or, where pupils had this pack's questions all the "
        "same, write pupil alone in that cell"
    )


def class_set(versions: int) -> PackRecord:
    items = tuple(item(asked("3 + 4"), label=label) for label in "abcdefghijklmnopqrst")
    named = "questions for whoever comes along"
    sections = (Section(named, "practice", n, None, items) for n in range(1, versions + 1))
    return PackRecord("Stall", 4, CODE, tuple(sections), "")


@pytest.mark.parametrize("versions", [500, pytest.param(1000, marks=pytest.mark.slow)])
def test_a_class_sets_own_sheets_are_read(versions: int) -> None:
    """The largest packs have the sheet by versions alone: no spreadsheet has so many columns."""
    read = class_set(versions)
    sheets = empty_sheets(read)
    wide = 20 * versions < MOST_COLUMNS
    assert list(sheets) == (["marks.csv"] if wide else []) + [
        *("marks-by-version.csv", "wrong-only.csv")
    ]
    for name, (_, text) in list(sheets.items())[:-1]:
        filled = text.replace("1,,", "1,1,7" if "version" in name else "1,7,", 1)
        assert len(filled) < LARGEST / 4
        assert read_sheet(read, filled.encode(), "marks.csv").rows[0].entries


# Laws: every promised way to write the right answer is right, no way to write a wrong value is,
# and what cannot be read is named with its row and column.


def ways(size: Number) -> list[str]:
    """The ways to write a number that are promised to be read in one way."""
    whole, point, part = str(size).partition(".")
    from_right = [whole[max(end - 3, 0) : end] for end in range(len(whole), 0, -3)][::-1]
    found = [f"{whole}{point}{part}", f"{whole}{point}{part}{'0' if point else '.0'}"]
    found += [f" {gap.join(from_right)}{point}{part} " for gap in (" ", "\u2009", NB, "'")]
    found += [f"= {whole}{point}{part}", f'"{whole}{point}{part}"']
    if point and (len(part) != 3 or whole == "0"):
        found.append(f"{whole},{part}")
    if point and len(from_right) > 1:
        found += [f"{','.join(from_right)}.{part}", f"{'.'.join(from_right)},{part}"]
    if whole == "0" and point:
        found.append(f".{part}")
    return found


def replies_to(question: Question) -> list[str]:
    """The ways to write a question's right answer."""
    right = right_reply(question)
    left = question.remainder
    if left is None:
        return ways(question.answer)
    if not left.units:
        return ways(question.answer.trimmed())
    divisor = question.operands[1].value
    part = left.value / divisor
    quotient = str(question.answer.trimmed())
    over, under = part.numerator, part.denominator
    assert right.value + right.left / divisor == question.answer.value + part
    return [
        *(f"{quotient}{between}{left.trimmed()}" for between in (" r ", "r", " R ", " rem ")),
        *(f"{quotient} {over}/{under}", f"{quotient} {2 * over}/{2 * under}"),
        *(f"{quotient} remainder {left.trimmed()}", f"{quotient} and {over}/{under}"),
    ]


@given(questions(), st.data())
def test_the_right_answer_is_right_however_it_is_written(
    question: Question, data: st.DataObject
) -> None:
    cell = data.draw(st.sampled_from([way for way in replies_to(question) if len(way) <= 40]))
    assert outcome(item(question), cell) == (RIGHT, "")


@given(questions(), st.integers(1, 10**6), st.integers(0, 3), st.data())
def test_a_wrong_value_is_never_right_however_it_is_written(
    question: Question, more: int, places: int, data: st.DataObject
) -> None:
    other = Number(question.answer.units + more, max(question.answer.places, places))
    given_as = Reply(other.value)
    assume(not is_right(question, given_as))
    cell = data.draw(st.sampled_from([way for way in ways(other) if len(way) <= 40]))
    assert outcome(item(question), cell)[0] == WRONG


@given(st.text(max_size=20) | st.text("3367.,05 r/%£kgm⁄¾³'-", max_size=9))
def test_any_cell_at_all_is_read_or_named_and_right_only_with_the_digits(cell: str) -> None:
    """A right answer has all the digits of 3.67 and no others but noughts at its ends."""
    assume(not any(sign in cell for sign in '"\r\n\0'))
    read = pack(item(asked("3.4 + 0.27")), item(asked("3.4 + 0.27")))
    marks = read_sheet(read, f"pupil,core.a,core.b\n1,y,{quoted([cell])}\n".encode(), "marks.csv")
    entry = marks.rows[0].entries.get("core.b")
    if entry is None:
        named = any((p.row, p.column) == (2, "core.b") for p in marks.problems)
        assert named or cell.strip().strip("\ufe0f").strip().casefold() in NOTHING
    elif entry.ticked is None and asked_of(item(asked("3.4 + 0.27"))).right_in(entry.replies):
        digits = "".join(sign for sign in cell if sign.isdecimal())
        assert digits.strip("0") == "367" or set(cell) & set("r/⁄¾")


@given(st.lists(st.integers(1, 9999), min_size=2, max_size=6, unique=True), st.data())
def test_an_order_is_right_however_it_is_written(units: list[int], data: st.DataObject) -> None:
    places = data.draw(st.integers(1, 2))
    question = Question(Operation.ORDER, tuple(Number(n, places) for n in units))
    numbers = list(map(str, question.in_order))
    between = data.draw(st.sampled_from([" ", ", ", "; ", " < ", ",", ";"]))
    assert outcome(item(question), between.join(numbers)) == (RIGHT, "")
    commas = [number.replace(".", ",") for number in numbers]
    assert outcome(item(question), "; ".join(commas)) == (RIGHT, "")
    assert outcome(item(question), ", ".join(commas))[0] == RIGHT
    assert outcome(item(question), between.join(numbers[::-1]))[0] == WRONG
