"""A class marked by its wrong answers alone: a row each, and all else is right."""

import pytest

from generator.packs.pack import Section
from generator.packs.record import PackRecord
from generator.results.class_results import ClassResults, class_results
from generator.results.mark_sheet import WRONG_ONLY, empty_sheets, mark_columns, read_sheet
from specs.marks import MarksError
from tests.generator.test_diagnosis import EXCHANGES, RAGGED, SMALLER, section
from tests.generator.test_marking import CODE

CORE = section("core", EXCHANGES, "exchanges")  # 34, 24, 135, 243, 48, 18
STARTER = section("starter", RAGGED[:4], "ragged", "starter")
ONE = PackRecord("Stall", 4, CODE, (STARTER, CORE), "")
OF_TWO = (CORE, Section("core", "practice", 2, None, CORE.items))
SEVERAL = PackRecord("Stall", 4, CODE, (STARTER, *OF_TWO, section("support", RAGGED, "more")), "")


def marked(*rows: str, pack: PackRecord = ONE) -> tuple[ClassResults, list[str]]:
    text = "\n".join([f"pupil ({CODE}),question,written", *rows])
    marks = read_sheet(pack, text.encode(), "wrong-only.csv")
    told = [str(problem).removeprefix("wrong-only.csv: ") for problem in marks.problems]
    return class_results(mark_columns(pack.sections), marks), told


def scores(results: ClassResults) -> dict[str, tuple[int, int]]:
    return {pupil.pupil: (pupil.right, pupil.attempted) for pupil in results.pupils}


def test_what_is_not_listed_is_right() -> None:
    results, told = marked("1 to 3,,", "1,core.a,46", "1,starter.b,", "4,absent,", "2,core.b,-")
    assert told == []
    assert scores(results) == {"1": (8, 10), "2": (9, 9), "3": (10, 10), "4": (0, 0)}
    first = next(q for q in results.questions if q.column.name == "core.a")
    assert [(wrong.text, wrong.pupils) for wrong in first.wrong] == [("46", ("1",))]


def test_who_was_away_is_said_in_any_language_of_pages() -> None:
    results, told = marked("1 to 3,,", "2,fehlt,", "3,Abwesend,")
    assert told == []
    assert results.absent == ("2", "3")


def test_a_habit_shows_in_wrong_answers_alone() -> None:
    answers = zip("abcdef", (46, 36, 145, 263, 52, 22), strict=True)
    results, told = marked(*(f"7,core.{label},{wrong}" for label, wrong in answers))
    assert told == []
    mistake = results.pupils[0].finding.mistake
    assert mistake is not None
    assert mistake.name == SMALLER


def test_of_several_sheets_a_row_or_a_wrong_answer_says_which_a_pupil_had() -> None:
    results, told = marked(
        *("1,core.2,", "1,core.a,46", "2,core.1.b,36", "3 to 4,support,", "5,,"), pack=SEVERAL
    )
    assert scores(results) == {
        "1": (9, 10),
        "2": (9, 10),
        "3": (10, 10),
        "4": (10, 10),
        "5": (4, 4),  # the starter, which everyone had
    }
    assert told == [
        "row 6, column question: it is not said which further sheet pupil '5' had; write its name "
        "in a row, such as core.1"
    ]
    assert "core.2.a" in results.pupils[0].attempts
    assert not results.pupils[0].attempts["core.2.a"].right


@pytest.mark.parametrize(
    ("row", "says", "score"),
    [
        ("1,core.a,about 40", "column written: 'about 40' is no answer", (9, 10)),
        ("1,core.a,3,67", "the row has 4 cells and the first row 3", (9, 10)),
        ("1,core.a,04-May", "is a date, which a spreadsheet makes of 3/4", (9, 10)),
        ("1,core.a,34", "'34' is right for core.a; it is counted as right", (10, 10)),
        ("1,core.z,34", "no question of the pack is called 'core.z'; did you mean", (10, 10)),
        ("1,,34", "no question is given for '34'; write its name", (10, 10)),
        ("Total,core.a,34", "'Total' is no pupil; the row is left out", None),
        (",core.a,34", "no pupil is given", None),
        ("1,core.a,3\n01,core.a,4", "the pupil has an answer to core.a already", (9, 10)),
    ],
)
def test_what_cannot_be_read_is_named_and_wrong_stays_wrong(
    row: str, says: str, score: tuple[int, int] | None
) -> None:
    results, told = marked("2,,", row)
    assert scores(results).get("1") == score
    assert scores(results)["2"] == (10, 10)
    assert len(told) == 1
    assert told[0].startswith("row ")
    assert says in told[0]


def test_the_empty_list_has_no_pupils_and_bears_the_packs_code() -> None:
    role, text = empty_sheets(ONE)[WRONG_ONLY]
    assert (role, text) == ("wrong answers", f"pupil ({CODE}),question,written\r\n")
    with pytest.raises(MarksError, match="no row has a pupil in it"):
        read_sheet(ONE, text.encode(), "wrong-only.csv")
    other = text.replace(CODE, "AAAA-D4-C") + "1,core.a,3\r\n"
    with pytest.raises(MarksError, match="the sheet is of the pack 'AAAA-D4-C'"):
        read_sheet(ONE, other.encode(), "wrong-only.csv")


def test_semicolons_and_columns_in_another_order_do_as_well() -> None:
    text = "written;pupil;note;question\n3,5;7;late;starter.a\n;8;;\n"
    marks = read_sheet(ONE, text.encode(), "wrong-only.csv")
    assert not marks.problems
    assert scores(class_results(mark_columns(ONE.sections), marks)) == {"7": (9, 10), "8": (10, 10)}
