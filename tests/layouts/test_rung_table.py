"""The table of pupils and rungs, and classes side by side: everything on the page, nothing lost."""

from dataclasses import replace

import pytest

from generator.operations.mistakes import mistake_named, right_reply
from generator.packs.pack import Section
from generator.results.class_results import ClassResults, class_results
from generator.results.mark_sheet import mark_columns
from generator.results.side_by_side import MOST_CLASSES, SideBySide
from layouts.marks.marks_pages import marks_pages, pages_of_classes
from layouts.marks.rung_table import ROW
from layouts.planning.plan import Box, PagePlan, Text, Unit
from layouts.planning.type_scale import BLACK, GRID, WHITE
from specs.marks import Entry, Marks, PupilRow
from tests.layouts.lessons import items

DROPPED = "carry written but not added"
LONG = "adding-five-numbers-of-unequal-places"  # 37 letters of the 40 that a name may have


SUMS = ("1.75+2.75", "1.46+2.27", "3.58+1.64")


def section(rungs: int, *, long: bool = False, each: int = 2) -> Section:
    """Practice with so many questions of each rung."""
    found = []
    for number in range(rungs):
        rung = f"{LONG}-{number}" if long else f"rung-{number}"
        found += [replace(item, rung=rung) for item in items(*SUMS[:each])]
    labelled = (replace(item, label=f"q{at}") for at, item in enumerate(found))
    return Section("core", "practice", 1, None, tuple(labelled))


def results(rungs: int, pupils: int, *, long: bool = False, habits: int = 0) -> ClassResults:
    """A class that is right but for pupils with a habit; the last pupil has only crosses."""
    columns = mark_columns([section(rungs, long=long)])
    rows = []
    for pupil in range(1, pupils + 1):
        entries = {}
        for column in columns:
            question = column.item.question
            wrong = mistake_named(DROPPED).wrong_answer(question) if pupil <= habits else None
            given = wrong or right_reply(question)
            entries[column.name] = Entry(given.text, (given,))
            if pupil == pupils:
                entries[column.name] = Entry("n", ticked=False)
        rows.append(PupilRow(str(pupil), entries))
    return class_results(columns, Marks((*rows, PupilRow("99", {}, absent=True)), ()))


def pages(found: ClassResults) -> tuple[PagePlan, ...]:
    return marks_pages("Stall", found, [])


def squares(page: PagePlan) -> list[Box]:
    return [b for b in page.items if isinstance(b, Box) and b.height == pytest.approx(ROW)]


def in_square(page: PagePlan, box: Box) -> list[Text]:
    return [
        text
        for text in page.texts
        if text.anchor == "centre"
        and box.x < text.x < box.x + box.width
        and box.y < text.middle < box.y + box.height
    ]


@pytest.mark.parametrize(
    ("rungs", "pupils", "long"),
    [
        (1, 5, False),
        (4, 30, True),
        (11, 30, False),
        (16, 12, True),
        pytest.param(11, 60, True, marks=pytest.mark.slow),
    ],
)
def test_every_pupil_has_a_square_with_numbers_for_every_rung(
    rungs: int, pupils: int, long: bool
) -> None:
    drawn = pages(results(rungs, pupils, long=long, habits=2))
    assert sum(len(squares(page)) for page in drawn) == rungs * pupils
    for page in drawn:
        for box in squares(page):
            (text,) = in_square(page, box)
            assert text.text in {"2/2", "0/2", "0/2 h"}
            assert text.width < box.width - 0.5
            assert text.colour == (WHITE if box.fill == BLACK else BLACK)
            assert box.x + box.width <= page.width - 14.0 + 1e-6
            assert box.fill == (WHITE if text.text == "2/2" else BLACK)


def test_rungs_have_one_number_in_the_list_and_over_the_table() -> None:
    (first, *_) = pages(results(5, 3))
    for number in range(1, 6):
        assert sum(text.text == str(number) and text.bold for text in first.texts) >= 2
    names = [text.text for text in first.texts if text.text.startswith("Rung 3")]
    assert names == ["Rung 3", "Rung 3"]  # in the list, and over its column as there is room


def test_names_that_do_not_fit_over_a_column_are_left_to_the_list() -> None:
    (first, *_) = pages(results(9, 3, long=True))
    said = " ".join(text.text for text in first.texts)
    assert "The numbers over the squares are those of the rungs above." in said
    assert not [text for text in first.texts if text.anchor == "centre" and "five" in text.text]


def test_a_row_is_read_out_in_words() -> None:
    drawn = pages(results(2, 3, habits=1))
    spoken = [u.says for page in drawn for u in page.content if isinstance(u, Unit) and u.says]
    assert "Pupil 2: Rung 0 2 of 2; Rung 1 2 of 2; secure." in spoken
    (habit,) = [said for said in spoken if said.startswith("Pupil 1:")]
    assert "Rung 0 0 of 2, wrong by the pupil's habit" in habit


@pytest.mark.parametrize(("right", "fill"), [(3, WHITE), (2, GRID), (1, BLACK), (0, BLACK)])
def test_what_is_partly_right_is_grey_and_what_is_mostly_wrong_is_black(
    right: int, fill: tuple[float, float, float]
) -> None:
    columns = mark_columns([section(1, each=3)])
    cells = {c.name: Entry("", ticked=at < right) for at, c in enumerate(columns)}
    (page, *_) = pages(class_results(columns, Marks((PupilRow("1", cells),), ())))
    (box,) = squares(page)
    (text,) = in_square(page, box)
    assert (box.fill, text.text) == (fill, f"{right}/3")


def test_the_absent_are_listed() -> None:
    (first, *_) = pages(results(1, 4))
    assert "Absent: 99" in [text.text for text in first.texts]


@pytest.mark.parametrize("classes", [2, 5, pytest.param(MOST_CLASSES, marks=pytest.mark.slow)])
def test_classes_stand_beside_one_another_within_the_page(classes: int) -> None:
    one = results(6, 20, long=True, habits=4)
    names = tuple(f"a class with a long name {number}" for number in range(classes))
    first, *rest = pages_of_classes("Stall", SideBySide(names, (one,) * classes), [[]] * classes)
    assert len([box for box in first.items if isinstance(box, Box) and box.stroke]) == 6 * classes
    for text in first.texts:
        assert text.left + text.width <= first.width - 13.0
    shares = [
        text for text in first.texts if text.text in ("38 of 40", "38/40", "30 of 40", "30/40")
    ]
    assert len(shares) == 6 * classes
    assert len(rest) == classes * len(marks_pages("Stall: a class", one, []))
