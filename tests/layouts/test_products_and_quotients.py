"""Multiplications and divisions on pages: on sheets, on slides, in the key."""

import pytest

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Ending, Operation, Question
from generator.forms.plain import PLAIN
from generator.forms.scaffold import scaffold
from generator.operations.methods import Conventions, written_working
from generator.operations.working import SMALL_MARKS, Ink
from generator.packs.pack import Item, Pack, Section
from generator.packs.working_out import work
from layouts.key.key import key_pages
from layouts.planning import typeface
from layouts.planning.paper import SLIDE_HEIGHT, SLIDE_WIDTH
from layouts.planning.plan import Grid, Line, Text
from layouts.planning.type_scale import MM_PER_POINT
from layouts.planning.wording import sentence_to_wrap
from layouts.planning.working_ink import Squares, step_ink, working_ink
from layouts.sheets.sheet import sheet_pages
from layouts.slides.answer_slides import answer_pages
from layouts.slides.example_slides import SMALLEST_SQUARE, example_pages, stage
from layouts.slides.slide import BODY_BOTTOM
from layouts.slides.window import first_row
from specs.spec import Presentation
from tests.worked import worked

SIDES = (4.5, 7.0, 18.0)


def times(text: str) -> Question:
    return Question(Operation.MULTIPLY, tuple(map(Number.parse, text.split(" × "))))


def divided(text: str, ending: Ending = Ending.EXACT, places: int = 0) -> Question:
    return Question(Operation.DIVIDE, tuple(map(Number.parse, text.split(" ÷ "))), ending, places)


PRODUCTS = [
    times(text)
    for text in ("0.6 × 0.07", "40 × 0.3", "342 × 7", "124 × 26", "1.234 × 5.67", "0.3 × 0.4 × 2.5")
]
QUOTIENTS = [
    divided("98 ÷ 7"),
    divided("432 ÷ 5", Ending.REMAINDER),
    divided("432 ÷ 15", Ending.FRACTION),
    divided("432 ÷ 15", Ending.DECIMAL),
    divided("8.5 ÷ 0.4", Ending.REMAINDER),
    divided("20 ÷ 3", Ending.ROUNDED, 2),
    divided("97531 ÷ 97", Ending.ROUNDED, 1),
    divided("12.75 ÷ 0.15"),
]
DIFFERENCES = [
    Question(Operation.SUBTRACT, (Number.parse("932"), Number.parse("457"))),
    Question(Operation.SUBTRACT, (Number.parse("100"), Number.parse("0.07"))),
]
ALL = [*PRODUCTS, *QUOTIENTS]
named = pytest.mark.parametrize("question", ALL, ids=lambda q: f"{q.text} {q.ending}")


def lesson(*questions: Question, **looks) -> Pack:
    items = tuple(
        Item("abcdefghijklmnopqrstuvwxyz"[at], "rung", question, question.text, ())
        for at, question in enumerate(questions)
    )
    sections = (
        Section("examples", "example", 1, None, items),
        Section("core", "practice", 1, None, items),
    )
    return Pack("Produce stall", 2024, "7F3A-19", 1, sections, Presentation(**looks))


def ink_span(text: Text) -> tuple[float, float, float, float]:
    """Left, right, top and bottom of the ink: 0.06 em of an advance is bearing."""
    em = text.size * MM_PER_POINT
    return (
        text.left + 0.06 * em,
        text.left + text.width - 0.06 * em,
        text.baseline - typeface.DIGIT_HEIGHT * em,
        text.baseline,
    )


def touching(texts: list[Text]) -> list[tuple[str, str]]:
    digits = [(text.text, ink_span(text)) for text in texts if text.text[-1].isdigit()]
    return [
        (one, other)
        for index, (one, (left, right, top, bottom)) in enumerate(digits)
        for other, (left2, right2, top2, bottom2) in digits[index + 1 :]
        if not (right <= left2 or right2 <= left or bottom <= top2 or bottom2 <= top)
    ]


@pytest.mark.parametrize("side", SIDES)
@named
def test_no_two_digits_touch(question, side):
    working = written_working(question)
    drawn = working_ink(working, Squares(0, 0, side))
    assert not touching([item for item in drawn if isinstance(item, Text)])


@pytest.mark.parametrize("question", [*ALL, *DIFFERENCES], ids=lambda q: q.text)
def test_no_two_digits_touch_on_any_slide_bold_or_not(question):
    working = written_working(question, Conventions(subtraction="equal addition"))
    for steps in range(1, len(working.steps) + 1):
        drawn = step_ink(working, Squares(0, 0, 18.0), steps)
        assert not touching([item for item in drawn if isinstance(item, Text)])


@named
def test_full_size_marks_stand_in_the_middle_of_their_squares(question):
    side = 7.0
    working = written_working(question)
    drawn = [i for i in working_ink(working, Squares(0, 0, side)) if isinstance(i, Text)]
    small = {*SMALL_MARKS, Ink.CARRY, Ink.NUMERATOR}
    for mark, text in zip(working.marks(), drawn, strict=False):
        if mark.ink not in small and mark.text.isdigit():
            assert text.x == pytest.approx((mark.column + 0.5) * side)
            assert text.middle == pytest.approx((mark.row + 0.5) * side)


def test_the_half_box_is_a_rule_over_the_dividend_and_an_upright_at_its_left():
    working = written_working(divided("432 ÷ 5", Ending.REMAINDER))
    lines = [i for i in working_ink(working, Squares(0, 0, 10.0)) if isinstance(i, Line)]
    spans = {(line.x1, line.y1, line.x2, line.y2) for line in lines}
    assert spans == {(10.0, 10.0, 40.0, 10.0), (10.0, 10.0, 10.0, 20.0)}


def test_the_line_over_the_dividend_grows_with_its_noughts():
    working = written_working(divided("9 ÷ 4", Ending.DECIMAL))
    lengths = []
    for steps in range(1, len(working.steps) + 1):
        rules = [
            item
            for item in step_ink(working, Squares(0, 0, 10.0), steps)
            if isinstance(item, Line) and item.y1 == item.y2 == 10.0
        ]
        lengths.append(max(rule.x2 for rule in rules))
    assert lengths == sorted(lengths)
    assert (lengths[0], lengths[-1]) == (20.0, 40.0)


# Sheets.


def words_of(*questions: Question) -> list[str]:
    pack = lesson(*questions)
    return [
        text.text
        for page in sheet_pages(worked(pack, pack.of_kind("practice")[0]))
        for text in page.texts
    ]


def test_a_multiplication_of_decimals_stands_in_a_line_of_squares_over_empty_ones():
    words = words_of(times("0.6 × 0.07"))
    assert "".join(words[words.index("a)") + 1 :]).startswith("06×007=")
    empty = scaffold(times("0.6 × 0.07"), written_working(times("0.6 × 0.07")))
    assert not list(empty.marks())
    assert not empty.rules_drawn()


def test_whole_numbers_are_set_out_in_columns():
    words = words_of(times("342 × 7"))
    assert [word for word in words if word.isdigit()][:4] == ["3", "4", "2", "7"]
    assert not [word for word in words if "=" in word]


def test_a_division_is_a_half_box_and_says_how_it_is_to_end():
    words = words_of(divided("98 ÷ 7"), divided("20 ÷ 3", Ending.ROUNDED, 2))
    assert not [word for word in words if word.startswith("98")]
    assert "20 ÷ 3, to 2 decimal places" in words


@pytest.mark.parametrize("ending", [Ending.REMAINDER, Ending.DECIMAL, Ending.FRACTION])
def test_the_room_for_a_quotient_does_not_tell_it(ending):
    frames = [
        scaffold(asked_for, written_working(asked_for))
        for asked_for in (divided("424 ÷ 16", ending), divided("992 ÷ 16", ending))
    ]
    assert len({frame.columns for frame in frames}) == 1
    for frame in frames:
        assert {mark.ink for mark in frame.marks()} == {Ink.GIVEN}


def test_no_label_stands_on_a_divisor():
    pack = lesson(*QUOTIENTS)
    (section,) = pack.of_kind("practice")
    for page in sheet_pages(worked(pack, section)):
        labels = [text for text in page.texts if text.bold and text.text.endswith(")")]
        digits = [text for text in page.texts if text.text.isdigit()]
        for label in labels:
            for digit in digits:
                apart = abs(label.middle - digit.middle) > 2.0
                assert apart or label.left + label.width <= digit.left or label.left > digit.left


@pytest.mark.parametrize(("paper", "square"), [("A4", 7), ("A4", 5), ("A5", 7), ("Letter", 10)])
def test_sheets_and_keys_of_all_four_operations_are_planned_on_every_paper(paper, square):
    pack = lesson(*ALL, *DIFFERENCES, paper=paper, square=square)
    (section,) = pack.of_kind("practice")
    said = [text.text for page in sheet_pages(worked(pack, section)) for text in page.texts]
    for letter in "abcdefghijklmnop"[: len(ALL) + 2]:
        assert f"{letter})" in said
    keyed = [text.text for page in key_pages(work(pack)) for text in page.texts]
    assert "0.6 × 0.07 = 0.042" in keyed
    assert "20 ÷ 3 ≈ 6.67" in keyed


# Slides.


@named
def test_every_step_fits_its_slide(question):
    pack = lesson(question, question)
    for page in example_pages(worked(pack, pack.of_kind("example")[0])):
        for item in page.items:
            if isinstance(item, Grid):
                assert item.y + item.height <= BODY_BOTTOM + 1e-6
                assert item.square >= SMALLEST_SQUARE
        for text in page.texts:
            assert text.left >= 8
            assert text.left + text.width <= SLIDE_WIDTH - 8
            assert text.baseline <= SLIDE_HEIGHT - 8


def test_a_long_multiplication_of_four_digits_by_three_fits_a_slide():
    question = times("9.876 × 7.89")
    assert stage(written_working(question), PLAIN.with_answer(question)[0]).squares.side >= 9.0


@pytest.mark.slow
@pytest.mark.parametrize("text", ["1.2 × 3.4 × 5.6", "1.23 × 4.56 × 7.89"])
def test_a_working_too_tall_for_a_slide_moves_up_as_it_grows(text):
    question = times(text)
    working = written_working(question)
    placed = stage(working, PLAIN.with_answer(question)[0])
    assert placed.squares.side >= SMALLEST_SQUARE
    assert placed.rows < working.rows
    starts = [first_row(working, n, placed.rows) for n in range(1, len(working.steps) + 1)]
    assert starts == sorted(starts)
    assert (starts[0], starts[-1]) == (0, working.rows - placed.rows)
    for number, step in enumerate(working.steps, start=1):
        newest = placed.shown(working, number).steps[number - 1]
        assert len(newest.marks) == len(step.marks), "all that is new is seen"
        assert len(newest.rules) == len(step.rules)
    pack = lesson(question, question)
    for page in example_pages(worked(pack, pack.of_kind("example")[0])):
        for item in page.items:
            if isinstance(item, Grid):
                assert item.y + item.height <= BODY_BOTTOM + 1e-6
            if isinstance(item, Text):
                assert item.baseline <= SLIDE_HEIGHT - 8


def test_the_digits_in_play_are_tinted_between_bars_and_nothing_else_is():
    from layouts.planning.plan import Box

    working = written_working(times("12.4 × 2.6"))
    side = 10.0
    for number, step in enumerate(working.steps, start=1):
        ink = step_ink(working, Squares(0, 0, side), number)
        tinted = {
            (row, round(box.x / side))
            for box in ink
            if isinstance(box, Box) and box.fill
            for row in range(round(box.y / side), round((box.y + box.height) / side))
        }
        assert tinted == set(step.lit)
        bars = [item for item in ink if isinstance(item, Line) and item.weight > 0.06 * side]
        assert {(round(bar.y1 / side), round(bar.x1 / side)) for bar in bars} == {
            (row + below, column)
            for row, column in step.lit
            for below in (0, 1)
            if (row - 1 + 2 * below, column) not in step.lit
        }


def test_a_line_just_written_is_boxed_as_one():
    from layouts.planning.plan import Box

    working = written_working(times("0.6 × 0.07"))
    boxes = [i for i in step_ink(working, Squares(0, 0, 10.0), 2) if isinstance(i, Box)]
    (box,) = [box for box in boxes if box.stroke]
    assert box.x < 5.0
    assert box.x + box.width > 65.0


def test_answers_on_slides_say_how_each_division_ends():
    pack = lesson(*QUOTIENTS)
    words = [
        t.text for p in answer_pages(worked(pack, pack.of_kind("practice")[0])) for t in p.texts
    ]
    assert {"86 r 2", "28 4/5", "28.8", "21 r 0.1", "6.67"} <= set(words)
    assert "20 ÷ 3 ≈ " in words


# Words.


@pytest.mark.parametrize(
    ("question", "words", "answered"),
    [
        (divided("98 ÷ 7"), "98 ÷ 7", "98 ÷ 7 = 14"),
        (
            divided("432 ÷ 5", Ending.REMAINDER),
            "432 ÷ 5, with a remainder",
            "432 ÷ 5 = 86 r 2",
        ),
        (
            divided("432 ÷ 15", Ending.FRACTION),
            "432 ÷ 15, the remainder as a fraction",
            "432 ÷ 15 = 28 4/5",
        ),
        (divided("432 ÷ 15", Ending.DECIMAL), "432 ÷ 15, as a decimal", "432 ÷ 15 = 28.8"),
        (
            divided("20 ÷ 3", Ending.ROUNDED, 2),
            "20 ÷ 3, to 2 decimal places",
            "20 ÷ 3 ≈ 6.67",
        ),
        (
            divided("5.2 ÷ 4", Ending.ROUNDED, 2),
            "5.2 ÷ 4, to 2 decimal places",
            "5.2 ÷ 4 = 1.30",
        ),
        (
            divided("100 ÷ 7", Ending.ROUNDED),
            "100 ÷ 7, to the nearest whole number",
            "100 ÷ 7 ≈ 14",
        ),
        (times("0.5 × 0.04"), "0.5 × 0.04", "0.5 × 0.04 = 0.020 = 0.02"),
    ],
)
def test_questions_and_answers_in_words(question, words, answered):
    assert PLAIN.asked(question) == words
    assert PLAIN.with_answer(question)[0] == answered


def test_a_long_column_name_is_broken_at_its_hyphen():
    sentence = sentence_to_wrap("699678 ones become 699678 hundred-thousandths: 6.99678.")
    lines = typeface.wrap(sentence, 34.0, 100.0)
    assert "hundred-" in [line.split(" ")[-1] for line in lines]


def test_what_is_in_brackets_stays_on_a_line():
    lines = typeface.wrap(sentence_to_wrap("43 tens ÷ 15 = 2 tens (2 × 15 = 30)."), 34.0, 120.0)
    assert lines[-1].endswith("(2 × 15 = 30).")
