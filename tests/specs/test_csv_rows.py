"""Tables that are far larger than any mark sheet cost no more than one, and are told in words."""

import pytest

from specs.csv_rows import MOST_CELLS, MOST_ROWS, table_of
from specs.marks import LARGEST, MarksError, read_marks
from specs.replies import NUMBER, Asked
from specs.wrong_only import Sheets, is_wrong_only, read_wrong_only

ASKED = {"core.a": Asked(NUMBER)}
SHEETS = Sheets({"core": ("core.a",)}, frozenset({"core"}))


@pytest.mark.parametrize("row", [b"1,3.4\n", b'1,"3.4\n', b"1,3.4\r"])
def test_of_many_rows_only_so_many_are_taken_apart(row: bytes) -> None:
    assert len(table_of(b"pupil,core.a\n" + row * (MOST_ROWS + 10)).rows) <= MOST_ROWS


def test_a_row_wider_than_any_spreadsheet_is_refused() -> None:
    found = table_of(b"pupil,core.a\n1" + b"," * MOST_CELLS)
    assert not found.rows
    assert found.wrong is not None
    assert found.wrong[0] == "a row has more than 20,000 cells"
    assert table_of(b"pupil,core.a\n1" + b"," * (MOST_CELLS - 1)).wrong is None


def test_a_file_too_large_is_refused_before_it_is_taken_apart(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr("specs.marks.table_of", None)  # whoever calls it fails otherwise
    monkeypatch.setattr("specs.wrong_only.table_of", None)
    data = b"pupil,core.a\n".ljust(LARGEST + 1, b",")
    for read in (
        lambda: read_marks(data, "marks.csv", ASKED),
        lambda: read_wrong_only(data, "marks.csv", ASKED, SHEETS),
    ):
        with pytest.raises(MarksError, match="too large to be a mark sheet"):
            read()


def test_a_list_of_wrong_answers_that_ends_in_no_text_is_refused_in_words() -> None:
    data = b"pupil,question,written\n" + b"1,core.a,3.4\n" * 6000 + b"\0"
    assert is_wrong_only(data)
    with pytest.raises(MarksError, match="the file is not text"):
        read_wrong_only(data, "wrong-only.csv", ASKED, SHEETS)
