"""How the marks of a class stand on their pages."""

from collections.abc import Mapping
from dataclasses import replace

import pytest

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Operation, Question
from generator.operations.mistakes import mistake_named, right_reply
from generator.packs.pack import Section
from generator.results.class_results import Settle, class_results
from generator.results.diagnosis import Finding, Habit, Kind
from generator.results.mark_sheet import mark_columns
from generator.results.side_by_side import SideBySide
from layouts.marks import class_map
from layouts.marks.marks_pages import CAUTION, marks_pages, pages_of_classes
from layouts.planning import wording
from layouts.planning.plan import Box, Line, PagePlan, Text
from layouts.planning.type_scale import KEY_SMALL, KEY_TEXT
from specs.marks import Entry, Marks, PupilRow
from specs.spec import EXAMPLES, KINDS
from tests.layouts.lessons import items

DROPPED = "carry written but not added"
LONG = "1.234+2.345+3.456+4.567+5.678+6.789"


def pages(
    questions: Mapping[str, int], pupils: int, *, habits: int = 0, text: str = "1.75+2.75"
) -> tuple[PagePlan, ...]:
    """The marks of a class with so many questions a section; the first pupils have a habit."""
    sections = [
        Section(name, "practice", 1, None, items(*[text] * count))
        for name, count in questions.items()
    ]
    columns = mark_columns(sections)
    rows = []
    for pupil in range(1, pupils + 1):
        entries = {}
        for column in columns:
            wrong = mistake_named(DROPPED).wrong_answer(column.item.question)
            reply = wrong if pupil <= habits else None
            given = reply or right_reply(column.item.question)
            entries[column.name] = Entry(given.text, (given,))
        rows.append(PupilRow(str(pupil), entries))
    results = class_results(columns, Marks(tuple(rows), ()))
    return marks_pages("Stall", results, ["marks.csv: row 3: 'banana' is no answer"])


def texts(page: PagePlan) -> list[Text]:
    return list(page.texts)


def squares(page: PagePlan) -> list[Box]:
    return [box for box in page.items if isinstance(box, Box) and box.width == box.height]


def in_rows(page: PagePlan) -> dict[float, list[Box]]:
    rows: dict[float, list[Box]] = {}
    for box in squares(page):
        rows.setdefault(round(box.y, 3), []).append(box)
    return rows


@pytest.mark.parametrize(
    "questions",
    [
        {"starter": 6, "core": 9},
        {"starter": 6, "support": 11, "core": 13, "stretch": 14, "bare": 12},
        {"core": 80},
    ],
)
def test_every_pupil_has_a_square_for_every_question_with_its_letter_above(
    questions: Mapping[str, int],
) -> None:
    pupils = 30
    drawn = pages(questions, pupils)
    assert sum(len(squares(page)) for page in drawn) == pupils * sum(questions.values())
    for page in drawn:
        heads = [text for text in texts(page) if text.anchor == "centre" and text.size == KEY_SMALL]
        for y, row in in_rows(page).items():
            centres = [round(box.x + box.width / 2, 3) for box in row]
            nearest = max(text.baseline for text in heads if text.baseline < y + 1e-6)
            head = [round(t.x, 3) for t in heads if abs(t.baseline - nearest) < 1e-6]
            assert centres == head
            assert max(box.x + box.width for box in row) <= page.width - 14.0 + 1e-6
        legends = [text for text in texts(page) if text.text.startswith("Blank: right")]
        assert bool(legends) is bool(squares(page))


def test_a_section_stays_in_one_band_where_the_width_holds_it() -> None:
    drawn = pages({"starter": 20, "core": 20, "stretch": 10}, 3)
    assert sorted({len(row) for page in drawn for row in in_rows(page).values()}) == [20, 30]


def test_a_habit_is_explained_once_however_many_have_it() -> None:
    said = [text.text for page in pages({"core": 6}, 9, habits=5) for text in texts(page)]
    habit = mistake_named(DROPPED)
    assert said.count(habit.sentence) == 1
    assert sum(line.startswith("Next: Build a column") for line in said) == 1
    rests_on = "6 of the questions answered can show this habit, and every one of those answers is"
    assert sum(line.startswith(rests_on) for line in said) == 5


@pytest.mark.parametrize(
    ("shows", "explained", "said"),
    [
        (1, 1, "One question answered can show this habit, and its answer is the one the habit"),
        (4, 4, "4 of the questions answered can show this habit, and every one of those answers"),
        (4, 3, "4 of the questions answered can show this habit, and 3 of those answers are the"),
        (2, 1, "2 of the questions answered can show this habit, and 1 of those answers is the"),
    ],
)
def test_a_habit_says_in_whole_sentences_what_it_rests_on(
    shows: int, explained: int, said: str
) -> None:
    columns = mark_columns([Section("core", "practice", 1, None, items("1.75+2.75"))])
    crosses = {column.name: Entry("n", ticked=False) for column in columns}
    results = class_results(columns, Marks((PupilRow("1", crosses),), ()))
    habit = Habit((mistake_named(DROPPED),), 0.95, explained, shows, ("addition",))
    finding = Finding(Kind.HABIT, sure=0.95, habits=(habit,))
    pupils = (replace(results.pupils[0], finding=finding),)
    drawn = marks_pages("Stall", replace(results, pupils=pupils), [])
    assert any(text.text.startswith(said) for page in drawn for text in texts(page))


@pytest.mark.parametrize(
    ("settle", "said"),
    [
        (Settle(("core.e", "core.f"), True), "Not answered yet, and it would settle this: core.e"),
        (Settle(("core.e", "core.f"), False), "2 more questions like core.e and core.f would"),
        (Settle(("core.e",), False), "1 more question like core.e would settle this."),
        (Settle((), False), "No question of this pack would settle it: look at the working."),
    ],
)
def test_what_would_settle_a_finding_stands_under_it(settle: Settle, said: str) -> None:
    columns = mark_columns([Section("core", "practice", 1, None, items("1.75+2.75", "1+2"))])
    unsure = {column.name: Entry("n", ticked=False) for column in columns}
    results = class_results(columns, Marks((PupilRow("1", unsure),), ()))
    pupils = (replace(results.pupils[0], settle=settle),)
    drawn = marks_pages("Stall", replace(results, pupils=pupils), [])
    lines = [text.text for page in drawn for text in texts(page)]
    assert any(line.startswith(said) for line in lines)


def test_crosses_alone_say_on_which_rung_a_pupil_is_perhaps_not_there() -> None:
    columns = mark_columns([Section("core", "practice", 1, None, items("1.75+2.75", "1+2"))])
    crosses = {column.name: Entry("n", ticked=False) for column in columns}
    drawn = marks_pages("Stall", class_results(columns, Marks((PupilRow("1", crosses),), ())), [])
    lines = [text.text for page in drawn for text in texts(page)]
    assert "Perhaps not there yet: Through zeros." in lines
    assert "There are only crosses; what was written would say why." in lines


def test_rungs_are_called_as_the_teacher_spells_them_on_every_page() -> None:
    columns = mark_columns([Section("core", "practice", 1, None, items(*["1.75+2.75"] * 6))])
    crosses = {column.name: Entry("n", ticked=False) for column in columns}
    marks = Marks((PupilRow("1", crosses), PupilRow("2", crosses)), ())
    results = class_results(columns, marks, shown_as={"through-zeros": "Through ZEROS"})
    one = marks_pages("Stall", results, [])
    both = pages_of_classes("Stall", SideBySide(("9a", "9b"), (results, results)), [[], []])
    for drawn, times in ((one, 3), (both, 4)):
        said = "\n".join(text.text for page in drawn for text in texts(page))
        assert said.count("Through ZEROS") >= times
        assert "Through zeros" not in said


def test_sections_are_called_as_the_teacher_named_them_on_every_page() -> None:
    two = (Section("core", "practice", 2, None, items(*["1.75+2.75"] * 2)),)
    columns = mark_columns([Section("core", "practice", 1, None, items("1.75+2.75", "1+2")), *two])
    unsure = {column.name: Entry("n", ticked=False) for column in columns}
    marks = Marks((PupilRow("1", unsure),), ())
    results = class_results(columns, marks, sections={"core": "Grundlagen"})
    settle = Settle(("core.1.b",), unanswered=True)
    pupils = (replace(results.pupils[0], settle=settle),)
    drawn = marks_pages("Stall", replace(results, pupils=pupils), [])
    said = [text.text for page in drawn for text in texts(page)]
    assert {"Grundlagen.1.a", "Grundlagen.2.b"} <= set(said)
    assert any(line.endswith("settle this: Grundlagen.1.b.") for line in said)
    assert "Gru…" in said  # over two narrow columns
    assert not [line for line in said if line.lower().startswith("core")]
    long = replace(results, sections={"core": "Für alle, die schon weiter sind"})
    said = [text.text for page in marks_pages("Stall", long, []) for text in texts(page)]
    assert any(line.startswith("Für alle") and line.endswith("….2.b") for line in said)


def test_every_kind_of_part_that_is_marked_has_its_word_over_the_map() -> None:
    assert class_map._SECTIONS.keys() == set(KINDS) - {EXAMPLES}
    assert wording._HEADINGS.keys() == wording._IN_TITLES.keys() == set(KINDS)


def test_rungs_to_teach_again_and_what_the_line_on_a_bar_means() -> None:
    said = [text.text for page in pages({"core": 6}, 5, habits=4) for text in texts(page)]
    assert "To teach everyone again: Through zeros" in said
    assert "Of the answers on this rung, fewer than 3 in 5 were right." in said
    assert any("Upright line: 3 in 5" in line for line in said)


def test_how_to_keep_marks_has_a_heading_of_its_own() -> None:
    said = [text.text for page in pages({"core": 6}, 3) for text in texts(page)]
    at = next(at for at, line in enumerate(said) if len(line) > 9 and CAUTION.startswith(line))
    assert said[at - 1] == "Where marks are kept"


def test_a_long_sum_takes_the_width_of_the_page() -> None:
    drawn = pages({"core": 2}, 3, text=LONG)
    parts = [t for page in drawn for t in texts(page) if t.size == KEY_TEXT and "1.234" in t.text]
    assert len(parts) == 2
    assert all(text.width > 70 for text in parts)  # millimetres, of 182 across the page


def test_numbers_in_order_have_a_line_of_their_own() -> None:
    numbers = tuple(map(Number.parse, ("4.422", "4.848", "4.4", "4.501")))
    item = replace(items("1.5+2.5")[0], question=Question(Operation.ORDER, numbers))
    columns = mark_columns([Section("core", "practice", 1, None, (item,))])
    row = PupilRow("1", {columns[0].name: Entry("y", (), ticked=True)})
    drawn = marks_pages("Stall", class_results(columns, Marks((row,), ())), [])
    said = [text.text.replace("\xa0", " ") for page in drawn for text in texts(page)]
    assert said[said.index("4.4 < 4.422 < 4.501 < 4.848") - 1].endswith("4.501:")


def test_the_upright_line_of_each_rung_stands_at_three_fifths_of_its_bar() -> None:
    drawn = pages({"core": 6}, 5, habits=4)
    bars = [item for page in drawn for item in page.items if isinstance(item, Box) and item.stroke]
    uprights = [
        line
        for page in drawn
        for line in page.items
        if isinstance(line, Line) and line.x1 == line.x2 and line.y2 - line.y1 < 6
    ]
    assert uprights
    for line in uprights:
        (bar,) = [b for b in bars if b.width > 20 and line.y1 < b.y < b.y + b.height < line.y2]
        assert line.x1 == pytest.approx(bar.x + bar.width * 3 / 5)
