"""Mark sheets as spreadsheets and teachers write them: what is read, what is reported."""

from collections.abc import Iterable
from fractions import Fraction

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from specs.marks import Marks, MarksError, read_entry, read_marks
from specs.replies import A_NUMBER, A_SIGN, AN_ORDER, Asked, Reply, read_order, read_replies

COLUMNS = ("starter.a", "starter.b", "core.a")


def numbers(names: Iterable[str]) -> dict[str, Asked]:
    """Columns that ask for numbers."""
    return dict.fromkeys(names, A_NUMBER)


def read(text: str | bytes) -> Marks:
    data = text if isinstance(text, bytes) else text.encode()
    return read_marks(data, "marks.csv", numbers(COLUMNS), {"core.1.a": "core.a"})


def cells(text: str | bytes) -> dict[str, list[str | None]]:
    marks = read(text)
    assert not marks.problems, marks.problems
    return {
        row.pupil: [e.text if (e := row.entries.get(name)) else None for name in COLUMNS]
        for row in marks.rows
    }


PLAIN = {"1": ["3.67", "y", None], "2": ["3.6", None, "86 r 2"]}


@pytest.mark.parametrize(
    "sheet",
    [
        "pupil,starter.a,starter.b,core.a\n1,3.67,y,\n2,3.6,,86 r 2\n",
        "pupil;starter.a;starter.b;core.a\r\n1;3.67;y;\r\n2;3.6;;86 r 2\r\n",
        "pupil\tstarter.a\tstarter.b\tcore.a\n1\t3.67\ty\n2\t3.6\t\t86 r 2",
        '"pupil","starter.a","starter.b","core.a"\n"1","3.67","y",""\n"2","3.6","","86 r 2"',
        "\ufeffpupil,starter.a,starter.b,core.a\n1,3.67,y\n2,3.6,,86 r 2\n,,,\n",
        " Pupil , starter.a , starter.b, core.1.a \n 1 , 3.67 , y \n\n 2 , 3.6 ,  , 86 r 2 ,,\n",
        "sep=;\npupil;starter.a;starter.b;core.a\n1;3.67;y;\n2;3.6;;86 r 2\n",
        "core.a,starter.b,starter.a,pupil\n,y,3.67,1\n86 r 2,,3.6,2\n",
    ],
)
def test_every_way_of_saving_the_same_sheet_reads_alike(sheet: str) -> None:
    assert cells(sheet) == PLAIN
    assert cells(sheet.encode("utf-16")) == PLAIN


def test_a_sheet_saved_by_an_older_windows_spreadsheet_is_read() -> None:
    assert cells("pupil;starter.a\n1;£2,50\n".encode("cp1252")) == {"1": ["£2,50", None, None]}


@pytest.mark.parametrize(
    ("text", "value", "left"),
    [
        ("3.67", "3.67", 0),
        ("3,67", "3.67", 0),
        ("３.６７", "3.67", 0),
        ("3·67", "3.67", 0),
        ("3.67.", "3.67", 0),
        ("28 and 4/5", "28.8", 0),
        ("28 + 4/5", "28.8", 0),
        ("28 and 4", "28", 4),
        (" 3.670 ", "3.67", 0),
        (".5", "0.5", 0),
        ("5.", "5", 0),
        ("1", "1", 0),
        ("0", "0", 0),
        ("£2.50", "2.5", 0),
        ("2.50 kg", "2.5", 0),
        ("12cm", "12", 0),
        ("7 trays", "7", 0),
        ("1 tray", "1", 0),
        ("12 trays r 3", "12", 3),
        ("12 trays and 3 left over", "12", 3),
        ("1 234.5", "1234.5", 0),
        ("1\u00a0234,5", "1234.5", 0),
        ("1,234.5", "1234.5", 0),
        ("−2", "-2", 0),
        ("= 14", "14", 0),
        ("86 r 2", "86", 2),
        ("86r2", "86", 2),
        ("86 R 2", "86", 2),
        ("86 remainder 2", "86", 2),
        ("86 rem 2", "86", 2),
        ("86, Rest 2", "86", 2),
        ("28 4/5", "28.8", 0),
        ("28⅘", "28.8", 0),
        ("4/5", "0.8", 0),
    ],
)
def test_answers_as_pupils_write_them(text: str, value: str, left: int) -> None:
    entry = read_entry(text)
    assert entry is not None
    assert entry.ticked is None
    assert entry.replies == (Reply(Fraction(value), Fraction(left)),)


def test_a_comma_before_three_digits_is_read_both_ways() -> None:
    assert [str(reply.value) for reply in read_replies("1,234")] == ["617/500", "1234"]


@pytest.mark.parametrize("text", ["✓", "✔️", "y", "Y", "yes", "tick", "j", "Ja", "richtig"])
def test_ticks(text: str) -> None:
    entry = read_entry(text)
    assert entry is not None
    assert entry.ticked is True
    assert not entry.replies


@pytest.mark.parametrize("text", ["✗", "x", "X", "×", "n", "No", "nein", "falsch"])
def test_crosses(text: str) -> None:
    entry = read_entry(text)
    assert entry is not None
    assert entry.ticked is False


@pytest.mark.parametrize("text", ["", "  ", "-", "absent", "fehlt", "Keine Antwort"])
def test_empty_cells(text: str) -> None:
    entry = read_entry(text)
    assert entry is not None
    assert not entry.text


@pytest.mark.parametrize(
    "text", ["about 3", "3..6", "4/0", "04-May", "r 2", "1.2e5", "#REF!", "3.67?", "9" * 60, "٣"]
)
def test_what_is_no_answer_is_refused(text: str) -> None:
    assert read_entry(text) is None


def test_every_unreadable_cell_is_reported_and_nothing_else_is_lost() -> None:
    marks = read("pupil,starter.a,starter.b,core.a\n1,3.67,about 3,5\n2,#REF!,y,7\n")
    assert [str(problem) for problem in marks.problems] == [
        "marks.csv: row 2, column starter.b: 'about 3' is no answer, tick or cross; "
        "write the answer, y, n or nothing",
        "marks.csv: row 3, column starter.a: '#REF!' is no answer, tick or cross; "
        "write the answer, y, n or nothing",
    ]
    assert [sorted(row.entries) for row in marks.rows] == [
        ["core.a", "starter.a"],
        ["core.a", "starter.b"],
    ]


@pytest.mark.parametrize(
    ("sheet", "says"),
    [
        ("pupil,starter.a\n1,3\n1,4\n", "row 3: pupil '1' has a row already"),
        ("pupil,starter.a\n1,3\n,4\n", "row 3, column pupil: no pupil is given"),
        ("pupil,starter.a,starter.a\n1,3,4\n", "row 1, column starter.a: the column stands"),
        ("pupil,starter.a,core.b\n1,3,4\n", "row 1, column core.b: no question of the pack"),
        ("pupil,starter.a\n1,3\n2,3,67\n", "row 3: the row has 3 cells and the first row 2"),
    ],
)
def test_other_trouble_is_reported_with_its_row(sheet: str, says: str) -> None:
    marks = read(sheet)
    assert len(marks.problems) == 1
    assert f"marks.csv: {says}" in str(marks.problems[0])
    assert marks.rows[0].entries["starter.a"].text == "3"


@pytest.mark.parametrize(
    "sheet",
    [
        b"",
        b"\xff\xfe",
        b"pupil,core.b\n1,2\n",
        b"name,starter.a\n1,2\n",
        b"pupil,starter.a\n",
        b"%PDF-1.4\0\0",
        b"x" * 12_000_001,
    ],
)
def test_a_file_that_is_no_mark_sheet_is_refused(sheet: bytes) -> None:
    with pytest.raises(MarksError, match=r"marks\.csv"):
        read(sheet)


@given(st.binary(max_size=200) | st.text(max_size=200).map(str.encode))
@example(b'pupil,starter.a\n1,"3\n')
@example(b"sep=\r\r\npupil")
def test_any_bytes_are_read_or_refused_in_words(data: bytes) -> None:
    for sheet in (data, b"pupil,starter.a,core.a\n1,2,3\n" + data, b"pupil,starter.a\n" + data):
        try:
            assert read(sheet).rows
        except MarksError as error:
            refused = str(error)
        else:
            continue
        assert refused.startswith("marks.csv: row ")


@given(st.text(max_size=30))
def test_any_cell_is_read_or_refused(text: str) -> None:
    entry = read_entry(text)
    assert entry is None or not entry.replies or entry.ticked is None


@given(
    st.fractions(min_value=0, max_value=999).filter(lambda value: value.denominator > 1),
)
def test_fractions_read_back_exactly(value: Fraction) -> None:
    whole, part = divmod(value, 1)
    text = f"{whole} {part.numerator}/{part.denominator}"
    if len(text) <= 48:
        assert read_replies(text) == (Reply(value),)


def test_a_file_of_endless_rows_is_read_as_far_as_a_class_goes() -> None:
    sheet = "pupil,core.a\n" + "1,y\n" * 5000
    read = read_marks(sheet.encode(), "marks.csv", numbers(["core.a"]))
    assert len(read.rows) == 1
    assert "more than 1000 rows" in str(read.problems[-1])
    assert len(read.problems) == 1000


# Signs between two numbers, and numbers in order.


@pytest.mark.parametrize(
    ("text", "sign"),
    [
        *(("<", "<"), (">", ">"), ("=", "="), (" = ", "="), ("＜", "<"), ('"<"', "<")),
        *(("smaller", "<"), ("Larger", ">"), ("equal", "="), ("Equals", "=")),
        *(("kleiner als", "<"), ("GRÖSSER", ">"), ("größer", ">"), ("gleich", "=")),
        *(("less than", "<"), ("is greater  than", ">"), ("bigger", ">"), ("the same", "=")),
    ],
)
def test_signs_as_they_are_written(text: str, sign: str) -> None:
    entry = read_entry(text, A_SIGN)
    assert entry is not None
    assert [reply.sign for reply in entry.replies] == [sign]


@pytest.mark.parametrize(
    "text",
    [
        *("0.3 0.35 0.4", "0.3; 0.35; 0.4", "0.3;0.35;0.4", "0.3 < 0.35 < 0.4", "0.3<0.35<0.4"),
        *("0,3 0,35 0,4", "0,3; 0,35; 0,4", "0.30, 0.35, 0.4", "0.3,0.35,0.4", ".3 .35 .4"),
        *("0.4 > 0.35 > 0.3", "0.3 kg; 0.35 kg; 0.4 kg", "0.3  0.35\u00a00.4"),
    ],
)
def test_orders_as_they_are_written(text: str) -> None:
    entry = read_entry(text, AN_ORDER)
    assert entry is not None
    sizes = Fraction(3, 10), Fraction(7, 20), Fraction(2, 5)
    assert [reply.order for reply in entry.replies] == [sizes]


def test_an_order_of_whole_numbers_and_one_read_both_ways() -> None:
    assert [reply.order for reply in read_order("3,4,12")] == [(3, 4, 12)]
    assert [reply.order for reply in read_order("1,234; 2")] == [
        (Fraction("1.234"), 2),
        (1234, 2),
    ]


@pytest.mark.parametrize(
    ("kind", "text"),
    [
        *((A_SIGN, text) for text in ("0.5", "<>", "≤", "0.5 < 0.6", "larger?")),
        *(
            (AN_ORDER, text)
            for text in ("0.5", "0.3 < 0.5 > 0.4", "b a c", "0.3;;0.4", "0,3", "3,4")
        ),
        *(
            (AN_ORDER, text)
            for text in (" ".join(["1"] * 13), "0.3 " * 60, ";", "<", "0.3 about 0.4")
        ),
        *((A_NUMBER, text) for text in ("<", "smaller", "0.3 0.35", "0.3; 0.4")),
    ],
)
def test_what_is_no_answer_of_its_kind_is_refused(kind: Asked, text: str) -> None:
    assert read_entry(text, kind) is None


def test_what_may_stand_in_such_cells_is_said() -> None:
    marks = read_marks(
        b"pupil,a,b,c\n1,0.5,b a,0.3 0.4\n2,x,y,\n",
        "marks.csv",
        {"a": A_SIGN, "b": AN_ORDER, "c": A_NUMBER},
    )
    assert [str(problem).partition("cross; ")[2] for problem in marks.problems] == [
        "write <, >, smaller, larger or equal, y, n or nothing",
        "write the numbers in order with spaces between them, y, n or nothing",
        "write the answer, y, n or nothing",
    ]
    assert marks.rows[1].entries["a"].ticked is False


@given(st.text(max_size=30), st.sampled_from([A_SIGN, AN_ORDER]))
def test_any_cell_of_signs_and_orders_is_read_or_refused(text: str, kind: Asked) -> None:
    entry = read_entry(text, kind)
    assert entry is None or not entry.replies or entry.ticked is None


# Several versions: a column says which of them a pupil had.

OF_TWO = ("starter.a", "core.1.a", "core.1.b", "core.2.a", "core.2.b")
PLAINLY = {
    name: {1: f"core.1.{name[-1]}", 2: f"core.2.{name[-1]}"} for name in ("core.a", "core.b")
}


def of_versions(text: str) -> Marks:
    also = {"core.a": "core.1.a", "core.b": "core.1.b"}
    return read_marks(text.encode(), "marks.csv", numbers(OF_TWO), also, versions=PLAINLY)


def entries(marks: Marks) -> list[dict[str, str]]:
    return [{name: entry.text for name, entry in row.entries.items()} for row in marks.rows]


@pytest.mark.parametrize(
    "sheet",
    [
        "pupil,version,starter.a,core.a,core.b\n1,1,3,4,5\n2,2,6,7,8\n3,,9,,\n",
        "core.b;Core.A;starter.a;Version;pupil\n5;4;3;1;1\n8;7;6; 2 ;2\n;;9;;3\n",
        "pupil,starter.a,core.1.a,core.1.b,core.2.a,core.2.b\n1,3,4,5,,\n2,6,,,7,8\n3,9\n",
        "pupil,version,starter.a,core.a,core.1.b,core.2.b\n1,1,3,4,5,\n2,2,6,7,,8\n3,,9\n",
    ],
)
def test_a_narrow_sheet_reads_as_the_wide_one(sheet: str) -> None:
    marks = of_versions(sheet)
    assert not marks.problems, marks.problems
    assert entries(marks) == [
        {"starter.a": "3", "core.1.a": "4", "core.1.b": "5"},
        {"starter.a": "6", "core.2.a": "7", "core.2.b": "8"},
        {"starter.a": "9"},
    ]


def test_without_such_a_column_a_plain_name_is_of_no_version() -> None:
    marks = of_versions("pupil,starter.a,core.a,core.b\n1,3,4,5\n")
    assert entries(marks) == [{"starter.a": "3"}]
    assert [str(problem) for problem in marks.problems] == [
        "marks.csv: row 1, column core.a: there are 2 versions, and core.a is in each; add a "
        "column 'version'; core.a and its like are left out"
    ]


@pytest.mark.parametrize("at", [2, 3, 4])
@pytest.mark.parametrize("cell", ['"3.67', '3.6"7', '"'])
def test_a_stray_quotation_mark_costs_its_own_cell_and_no_pupil(at: int, cell: str) -> None:
    rows = [f"{pupil},1,2,3" for pupil in range(1, 6)]
    rows[at - 2] = f"{at - 1},{cell},2,3"
    marks = read("pupil,starter.a,starter.b,core.a\n" + "\n".join(rows) + "\n")
    assert [row.pupil for row in marks.rows] == ["1", "2", "3", "4", "5"]
    lost = {number: 3 - len(row.entries) for number, row in enumerate(marks.rows, 2)}
    assert lost.pop(at) <= 1
    assert not any(lost.values())
    assert {problem.row for problem in marks.problems} <= {at}


def test_two_stray_quotation_marks_swallow_nobody() -> None:
    text = 'pupil,starter.a,starter.b\n1,"1,2\n2,1,2\n3,1,"2\n'
    assert [len(row.entries) for row in read(text).rows] == [2, 2, 2]


def test_a_note_of_several_lines_is_one_cell() -> None:
    marks = read('pupil,starter.a,note\n1,3,"late,\nthen ill"\n2,4,\n')
    assert [row.pupil for row in marks.rows] == ["1", "2"]


@pytest.mark.parametrize(("ones", "doubted"), [("1,0,1", True), ("1,0,2", False)])
def test_noughts_and_ones_are_doubted(ones: str, doubted: bool) -> None:
    rows = "".join(f"{pupil},{ones}\n" for pupil in range(1, 5))
    problems = read(f"pupil,starter.a,starter.b,core.a\n{rows}").problems
    assert [str(problem) for problem in problems] == [
        "marks.csv: row 1: each answer is 0 or 1; where they mean wrong and right, write n and y"
    ] * doubted


@pytest.mark.parametrize(
    ("cells", "says", "left"),
    [
        (
            "3,6,7,8",
            "'3' is no version of the pack; write a number from 1 to 2; answers in core.a and its "
            "like are left out",
            {"starter.a": "6"},
        ),
        ("two,6,7,8", "'two' is no version of the pack; write a", {"starter.a": "6"}),
        ("0,6,7,8", "'0' is no version of the pack; write a", {"starter.a": "6"}),
        (",6,7,8", "no version is given; write a number from 1 to 2", {"starter.a": "6"}),
        (",6,,y", "no version is given; write a number from 1 to 2", {"starter.a": "6"}),
        ("9,6,,-", "'9' is no version of the pack; write a number", {"starter.a": "6"}),
    ],
)
def test_a_bad_version_is_reported_and_nothing_else_is_lost(
    cells: str, says: str, left: dict[str, str]
) -> None:
    marks = of_versions(f"pupil,version,starter.a,core.a,core.b\n1,{cells}\n2,2,1,2,3\n")
    (problem,) = marks.problems
    assert str(problem).startswith(f"marks.csv: row 2, column version: {says}")
    assert entries(marks) == [left, {"starter.a": "1", "core.2.a": "2", "core.2.b": "3"}]


def test_one_question_answered_in_two_columns_is_reported() -> None:
    marks = of_versions("pupil,version,core.a,core.2.a\n1,2,3,4\n2,1,3,4\n")
    assert [str(problem) for problem in marks.problems] == [
        "marks.csv: row 2, column core.2.a: the pupil has an answer to core.2.a already; keep one; "
        "the second is left out"
    ]
    assert entries(marks) == [{"core.2.a": "3"}, {"core.1.a": "3", "core.2.a": "4"}]


def test_a_cell_of_a_narrow_sheet_is_named_by_its_own_column() -> None:
    marks = of_versions("pupil,version,core.a,core.b\n1,2,about 3,4\n")
    assert str(marks.problems[0]).startswith("marks.csv: row 2, column core.a: 'about 3' is no")


def test_a_pack_of_one_version_takes_such_a_column_too() -> None:
    marks = read("pupil,version,core.a\n1,1,3\n2,,4\n3,2,5\n")
    assert entries(marks) == [{"core.a": "3"}, {"core.a": "4"}, {"core.a": "5"}]
    assert [str(problem) for problem in marks.problems] == [
        "marks.csv: row 4, column version: '2' is no version of the pack; write 1"
    ]


def test_a_column_whose_name_has_a_colon_is_named_in_quotes() -> None:
    (problem,) = read("pupil,starter.a,cor:.b\n1,3.67,0.5\n").problems
    assert str(problem).startswith("marks.csv: row 1, column 'cor:.b': no question of the pack")
