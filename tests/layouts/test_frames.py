"""Frames: how much of a question is set out for the pupil, and how it fades."""

import re
from dataclasses import replace
from itertools import pairwise
from typing import Any

import pytest

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Ending, Operation, Question
from generator.forms.frames import Frame, of_numbers
from generator.forms.in_words import InWords
from generator.forms.missing_digit import MissingDigit
from generator.forms.missing_number import MissingNumber
from generator.operations.methods import written_working
from generator.operations.working import Ink, Mark
from generator.packs.pack import Item, Section
from generator.vocabulary import VOCABULARY
from layouts.planning import empty_boxes
from layouts.planning.plan import Box, Text
from layouts.planning.type_scale import MM_PER_POINT
from layouts.planning.typeface import width
from layouts.planning.wording import question_lines
from layouts.planning.working_ink import hand_of
from layouts.sheets.sheet import sheet_pages
from specs import SpecError, read_spec
from specs.spec import FRAMES, FramesByRung, Methods
from specs.writing import spec_text
from tests.generator.ladders import spec
from tests.layouts.lessons import AWKWARD, items, pack
from tests.worked import frame_of, worked


def frame(text: str, kind: str | None, **options: str) -> Frame:
    return frame_of(pack(text, **options), items(text)[0], kind)


def written(found: Frame, *inks: Ink) -> list[str]:
    return [mark.text for mark in found.squares.marks() if mark.ink in inks]


@pytest.mark.parametrize(
    ("kinds", "questions", "expected"),
    [
        (("full", "none"), 4, "full numbers part none"),
        (("full", "none"), 8, "full full numbers numbers part part none none"),
        (("full", "none"), 2, "full none"),
        (("full", "none"), 3, "full numbers none"),
        (("full", "none"), 1, "full"),
        (("none", "part"), 4, "none none part part"),
        (("part", "part"), 3, "part part part"),
    ],
)
def test_frames_fade_from_the_first_question_to_the_last(kinds, questions, expected):
    section = Section("support", "practice", 1, None, items(*["3.4+0.27"] * questions), kinds)
    assert " ".join(kind or "" for _, kind in section.framed) == expected


def test_full_frames_place_numbers_noughts_and_the_answers_point():
    full = frame("3.4+0.275", "full")
    assert written(full, Ink.GIVEN) == list("340275")
    assert written(full, Ink.PLACEHOLDER) == ["0", "0"]
    assert len(full.squares.setting_out.points) == 3
    assert not full.words


def test_boxes_for_small_digits_tell_nothing_of_where_carries_are():
    """As many for a question with carries as for one without, one for each column but the last."""
    assert frame("3.4+0.2", "full").boxes == frame("3.7+0.8", "full").boxes
    assert len(frame("13.41+0.22", "full").boxes) == 3
    assert {row for row, _ in frame("13.41+0.22", "full").boxes} == {3}
    assert {row for row, _ in frame("13.41+0.22", "full", carries="above").boxes} == {0}
    assert {row for row, _ in frame("13.41+0.22", "full", carries="between").boxes} == {2}
    assert frame("6.2-1.1", "full").boxes == frame("6.2-1.9", "full").boxes


GRID = Methods(multiply="grid", divide="long", subtract="counting up")
EXPANDED = Methods(multiply="expanded", divide="chunking", subtract="equal addition")

EVERY_CALCULATION = [
    Question(Operation.ADD, (Number(34, 1), Number(275, 3))),
    Question(Operation.ADD, (Number(34), Number(27), Number(8))),
    Question(Operation.SUBTRACT, (Number(12), Number(375, 2))),
    Question(Operation.MULTIPLY, (Number(24), Number(6))),
    Question(Operation.MULTIPLY, (Number(124), Number(26))),
    Question(Operation.MULTIPLY, (Number(24, 1), Number(16, 1))),
    Question(Operation.MULTIPLY, (Number(6, 1), Number(7, 2))),
    Question(Operation.MULTIPLY, (Number(230), Number(40))),
    Question(Operation.MULTIPLY, (Number(12, 1), Number(3), Number(7))),
    Question(Operation.DIVIDE, (Number(98), Number(7))),
    Question(Operation.DIVIDE, (Number(432), Number(5)), Ending.REMAINDER),
    Question(Operation.DIVIDE, (Number(432), Number(15)), Ending.DECIMAL),
    Question(Operation.DIVIDE, (Number(84, 1), Number(4))),
    Question(Operation.DIVIDE, (Number(84, 1), Number(2, 1))),
    Question(Operation.DIVIDE, (Number(20), Number(7)), Ending.ROUNDED, 2),
]


@pytest.mark.parametrize("asked", EVERY_CALCULATION, ids=lambda asked: asked.text)
@pytest.mark.parametrize(
    "options",
    [
        {},
        {"carries": "above"},
        {"carries": "between"},
        {"point": "column"},
        {"methods": GRID},
        {"methods": EXPANDED},
    ],
)
def test_what_is_given_fades_one_way(asked, options):
    """Each kind of frame gives no mark, point, line or box that the one before does not give."""
    lesson = pack("1+2")
    lesson = replace(lesson, presentation=replace(lesson.presentation, **options))
    item = Item("a", "any", asked, "", ())
    given = []
    for kind in FRAMES:
        found = frame_of(lesson, item, kind)
        squares = found.squares
        given.append(
            {
                *((m.row, m.column, m.text) for m in squares.marks()),
                *((p.row, p.column, ".") for p in squares.points()),
                *squares.rules_drawn(),
                *squares.uprights_drawn(),
                *(("box", at) for at in (*found.boxes, *found.corners)),
                *squares.jumps(),
                *([("line", squares.line.row)] if squares.line else []),
                *([("ends", "named")] if squares.line and squares.line.ends_named else []),
            }
        )
    for more, fewer in pairwise(given):
        assert fewer <= more
    assert not given[-1]
    assert given[0] > given[1], "full gives more than the numbers"


@pytest.mark.parametrize("asked", EVERY_CALCULATION, ids=lambda asked: asked.text)
def test_a_full_frame_holds_no_digit_that_is_to_be_reckoned(asked):
    item = Item("a", "any", asked, "", ())
    full = frame_of(pack("1+2"), item, "full")
    assert {mark.ink for mark in full.squares.marks()} <= {Ink.GIVEN, Ink.SIGN, Ink.PLACEHOLDER}
    assert full.squares.fits_its_squares
    working = written_working(asked)
    lines = working.rows > 1 and not working.rules
    digits = sorted(m.text for m in full.squares.marks() if m.text.isdigit() and m.text != "0")
    whole = "".join(str(n.units) for n in asked.operands)
    if asked.operation is Operation.DIVIDE or not lines:
        assert digits == sorted(whole.replace("0", ""))


def test_a_long_multiplication_in_full():
    """2.4 × 1.6: what makes it whole, 24 × 16 with its two rows, and the answer's point."""
    item = Item("a", "any", Question(Operation.MULTIPLY, (Number(24, 1), Number(16, 1))), "", ())
    full = frame_of(pack("1+2"), item, "full")
    rows = {
        row: "".join(
            mark.text
            for mark in sorted(full.squares.marks(), key=lambda mark: mark.column)
            if mark.row == row
        )
        for row in range(full.squares.rows)
    }
    assert list(rows.values()) == [
        "24=24÷10",
        "16=16÷10",
        "10×10=100",
        "24",
        "×16",
        "",
        "0",
        "",
        "",
        "",
    ]
    assert len(full.corners) == 2  # before the second digit of each row of products
    assert {row for row, _ in full.corners} == {5, 6}
    assert len({row for row, _ in full.boxes}) == 1
    assert [point.row for point in full.squares.points()][-1] == full.squares.rows - 1


def test_a_division_in_full_has_its_point_above_and_boxes_before_its_digits():
    item = Item("a", "any", Question(Operation.DIVIDE, (Number(84, 1), Number(4))), "", ())
    full = frame_of(pack("1+2"), item, "full")
    assert sorted(point.row for point in full.squares.points()) == [0, 1]
    (corner,) = full.corners
    assert corner in {(m.row, m.column) for m in full.squares.marks() if m.text == "4"}


@pytest.mark.parametrize(
    ("first", "second"), [(("12", "3"), ("19", "6")), (("112", "11"), ("897", "96"))]
)
def test_boxes_of_products_tell_nothing_of_where_carries_are(first, second):
    def boxes(numbers):
        asked = Question(Operation.MULTIPLY, tuple(map(Number.parse, numbers)))
        found = frame_of(pack("1+2"), Item("a", "any", asked, "", ()), "full")
        return {*found.corners}

    assert boxes(first) == boxes(second)


def test_numbers_are_the_usual_frame():
    assert frame("3.4+0.27", None) == frame("3.4+0.27", "numbers")
    assert not written(frame("3.4+0.27", None), Ink.PLACEHOLDER)


def test_part_frames_hold_sign_points_and_rules_and_the_question_on_a_line():
    part = frame("12-3.75", "part")
    assert [mark.text for mark in part.squares.marks()] == ["−"]
    assert len(list(part.squares.points())) == 1, "as the numbers have theirs, and no answer its"
    assert part.squares.rules
    assert part.words == "12 − 3.75 ="


def test_bare_squares_have_room_for_the_working_and_nothing_on_them():
    bare, usual = frame("12-3.75", "none"), frame("12-3.75", "numbers")
    assert not [*bare.squares.marks(), *bare.squares.points(), *bare.squares.rules]
    assert (bare.squares.rows, bare.squares.columns) == (usual.squares.rows, usual.squares.columns)


@pytest.mark.parametrize("kind", FRAMES)
@pytest.mark.parametrize(("paper", "square"), [("A4", 7), ("A5", 5), ("Letter", 10)])
def test_every_frame_fits_every_paper(kind, paper, square):
    lesson = pack(*AWKWARD, paper=paper, square=square)
    section = replace(lesson.sections[0], frames=(kind, kind))
    pages = sheet_pages(worked(lesson, section))
    labels = [text.text for page in pages for text in page.texts if text.text.endswith(")")]
    assert labels == [f"{item.label})" for item in section.items]


def test_frames_fade_over_the_questions_of_each_rung():
    by_rung = FramesByRung((("level", ("full", "none")), ("mixed", ("part", "part"))))
    rungs = ["level", "mixed", "level", "level", "other", "mixed", "level"]
    items_of = zip(items(*["3.4+0.27"] * 7), rungs, strict=True)
    asked = tuple(replace(item, rung=rung) for item, rung in items_of)
    section = Section("support", "practice", 1, None, asked, by_rung)
    assert [kind for _, kind in section.framed] == [
        *("full", "part", "numbers", "part", None, "part", "none"),
    ]


def test_frames_by_rung_are_read_with_their_lines():
    ladder = "level: {operation: add, places: 2}\nmixed: {operation: add, places: 1}"
    tiers = "tiers:\n  core:\n    frames: {level: {from: full, to: none}, mixed: part}\n"
    read = spec(ladder, tiers + "    questions: {level: 4, mixed: 1}\n")
    assert read.tiers[0].frames == FramesByRung(
        (("level", ("full", "none")), ("mixed", ("part", "part")))
    )
    again = read_spec(spec_text(read).encode(), "harvest.yaml", VOCABULARY)
    assert again == read
    for wrong, said in (
        ("{levle: full}", "the ladder has no rung 'levle'; did you mean 'level'?"),
        ("{level: ful}", "'level' in 'frames' in 'core' cannot be 'ful'; did you mean 'full'?"),
        (
            "{from: full, to: non}",
            "'to' in 'frames' in 'core' cannot be 'non'; did you mean 'none'?",
        ),
    ):
        with pytest.raises(SpecError, match=re.escape(said)):
            spec(ladder, f"tiers:\n  core: {{frames: {wrong}, questions: {{level: 4}}}}\n")


def test_a_tier_says_its_frames():
    read = spec(
        "level: {operation: add}",
        "tiers:\n  core: {frames: {to: none}, questions: {level: 2}}\n"
        "  stretch: {frames: part, questions: {level: 2}}\n",
    )
    assert [tier.frames for tier in read.tiers] == [("full", "none"), ("part", "part")]


def test_an_unknown_frame_is_refused_with_the_choice():
    with pytest.raises(SpecError, match="'frames' in 'core' cannot be 'ful'; did you mean 'full'"):
        spec("level: {operation: add}", "tiers:\n  core: {frames: ful, questions: {level: 2}}\n")


def numbers_item(operation: Operation, *numbers: str, places: int = 0) -> Item:
    ending = (
        Ending.EXACT if operation not in (Operation.MULTIPLY, Operation.DIVIDE) else Ending.MOVED
    )
    question = Question(operation, tuple(map(Number.parse, numbers)), ending, places)
    return Item("a", "ladder-of-numbers", question, "", ())


@pytest.mark.parametrize(
    ("item", "words"),
    [
        (numbers_item(Operation.ORDER, "0.5", "0.45"), "Put in order, smallest first: 0.5,  0.45"),
        (numbers_item(Operation.COMPARE, "0.5", "0.50"), "Write <, > or = in the box: 0.5 □ 0.50"),
        (numbers_item(Operation.ROUND, "3.47", places=1), "Round 3.47 to 1 decimal place"),
        (numbers_item(Operation.MULTIPLY, "3.4", "100"), "3.4 × 100 ="),
    ],
)
@pytest.mark.parametrize("kind", [None, *FRAMES])
def test_questions_about_numbers_always_have_their_words(item, words, kind):
    found = frame_of(pack("1+2"), item, kind)
    assert found.words.replace("\N{NO-BREAK SPACE}", " ") == words
    given = written(found, Ink.GIVEN)
    assert bool(given) is (kind in ("full", "numbers"))


def test_moving_digits_has_a_grid_with_headings():
    found = frame_of(pack("1+2"), numbers_item(Operation.DIVIDE, "3.4", "10"), None)
    assert written(found, Ink.HEADING) == ["O", "t", "h"]
    assert not written(found, Ink.GIVEN)


def test_a_missing_digit_has_a_box_in_its_square():
    item = replace(items("3.4+0.27")[0], form=MissingDigit(1, -1))
    found = frame_of(pack("3.4+0.27"), item, None)
    assert sorted(written(found, Ink.GIVEN)) == sorted("3407367"), "all but the 2"
    ((row, column),) = found.hidden
    assert (row, column) == (1, found.squares.units_column + 1)
    assert not found.words
    assert frame_of(pack("3.4+0.27"), item, "none").words == "3.4 + 0.□7 = 3.67"


def test_a_missing_number_is_asked_on_a_line():
    item = replace(items("3.4+0.27")[0], form=MissingNumber(0))
    found = frame_of(pack("3.4+0.27"), item, "full")
    assert found.words == "▭ + 0.27 = 3.67"
    assert not [*found.squares.marks()]


def test_words_stand_above_the_squares_for_their_working():
    form = InWords("mass", "sacks", "Sacks hold 3.4 kg and 0.27 kg. How much is that?", "3.67 kg")
    item = replace(items("3.4+0.27")[0], form=form)
    assert frame_of(pack("3.4+0.27"), item, None).words == form.sentence
    assert not written(frame_of(pack("3.4+0.27"), item, None), Ink.GIVEN)
    full = frame_of(pack("3.4+0.27"), item, "full")
    assert full.words == form.sentence
    assert written(full, Ink.GIVEN)


def test_an_empty_box_is_drawn_where_its_character_stands():
    text = Text("1.□5 = ▭", 20.0, 50.0, 12.0)
    one, box, rest, number = empty_boxes.parts(text)
    assert (one.text, rest.text) == ("1.", "5 = ")
    assert one.x + one.width < box.x < box.x + box.width < rest.x
    assert number.x + number.width < text.left + text.width
    assert number.width > box.width


def test_equal_addition_has_no_row_for_exchanged_digits():
    lesson = pack("6.2-1.9")
    equal = replace(lesson, presentation=replace(lesson.presentation, subtraction="equal addition"))
    found = frame_of(equal, items("6.2-1.9")[0], "full")
    assert not found.boxes
    assert written(found, Ink.GIVEN) == list("6219")


def test_a_spec_says_the_method_of_subtraction():
    asked = "starter:\n  questions: {level: 1}\npages: {subtraction: equal addition}\n"
    assert spec("level: {operation: subtract}", asked).presentation.subtraction == "equal addition"


@pytest.mark.parametrize(
    ("operation", "numbers"),
    [
        (Operation.ORDER, ("0.4", "0.35", "0.3")),
        (Operation.COMPARE, ("0.5", "0.48")),
        (Operation.ROUND, ("3.47",)),
    ],
)
def test_where_no_column_is_worked_part_frames_are_bare_squares(
    operation: Operation, numbers: tuple[str, ...]
) -> None:
    asked = Question(operation, tuple(map(Number.parse, numbers)), places=1)
    squares = of_numbers("part", written_working(asked), asked, "words").squares
    assert not squares.rules
    assert not list(squares.marks())


@pytest.mark.parametrize("numbers", [2, 3, 4, 6])
def test_bare_squares_for_an_order_have_a_row_for_each_number_and_one_to_write_it_out(
    numbers: int,
) -> None:
    asked = Question(Operation.ORDER, tuple(Number(4 + n, 1) for n in range(numbers)))
    frame = of_numbers("none", written_working(asked), asked, "")
    assert frame.squares.rows == numbers + 1
    rounding = Question(Operation.ROUND, (Number(347, 2),), places=1)
    assert of_numbers("none", written_working(rounding), rounding, "").squares.rows == 2


def ink_of(form: Any, *texts: str, square: int) -> list[Any]:
    """What stands on a sheet of questions in that form."""
    asked = tuple(replace(item, form=form) for item in items(*texts))
    lesson = pack(*texts, square=square)
    section = replace(lesson.of_kind("practice")[0], items=asked)
    return [item for page in sheet_pages(worked(lesson, section)) for item in page.items]


@pytest.mark.parametrize("square", [5, 7, 10])
@pytest.mark.parametrize("form", [MissingDigit(1, -1), MissingNumber(0)])
def test_boxes_to_write_in_hold_a_digit_by_hand(form: Any, square: int) -> None:
    """Five millimetres each way (common practice, no source), on squares and in words alike."""
    ink = ink_of(form, "3.4+0.27", square=square)
    boxes = [item for item in ink if isinstance(item, Box) and item.stroke]
    boxes += [
        part
        for item in ink
        if isinstance(item, Text) and empty_boxes.has_boxes(item)
        for part in empty_boxes.parts(item)
        if isinstance(part, Box)
    ]
    assert boxes
    assert all(min(box.width, box.height) >= 5 for box in boxes)


@pytest.mark.parametrize("square", [5, 7, 10])
def test_headings_of_columns_are_six_points_and_stay_in_their_squares(square: int) -> None:
    for text in ("O", "t", "th", "tth", "HTh", "TTh"):
        hand = hand_of(Mark(0, 0, text, Ink.HEADING))
        points = hand.em * square / MM_PER_POINT
        assert points >= 6
        assert width(text, points) < square


@pytest.mark.parametrize(
    ("words", "room", "lines"),
    [
        (
            "Put in order, smallest first: 0.268, 0.204, 0.273, 0.24, 0.237",
            75,
            ["Put in order, smallest first:", "0.268, 0.204, 0.273, 0.24, 0.237"],
        ),
        (
            "Write <, > or = in the box: 0.82 □ 0.258",
            72,
            ["Write <, > or = in the box:", "0.82 □ 0.258"],
        ),
        ("3 ÷ 8 = 3/8, so 0.3 ÷ 8 =", 40, ["3 ÷ 8 = 3/8,", "so 0.3 ÷ 8 ="]),
    ],
)
def test_lines_break_where_a_teacher_would_break_them(
    words: str, room: float, lines: list[str]
) -> None:
    found = question_lines(words, 12.0, room)
    assert [line.strip() for line in found] == lines


def test_a_list_longer_than_a_line_leaves_no_number_alone() -> None:
    found = question_lines("Put in order: 0.268, 0.204, 0.273, 0.24", 12.0, 41.0)
    assert found[0] == "Put in order:"
    assert all("," in line for line in found[1:])
