"""One drawing of a working at every size: how its marks stand in their squares."""

from functools import cache
from itertools import combinations

import pytest

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Ending, Operation, Question
from generator.operations.methods import written_working
from generator.operations.working import Conventions, Ink, Working
from layouts.planning import typeface
from layouts.planning.plan import Box, Line, Text
from layouts.planning.type_scale import DARK, MM_PER_POINT, SOFT
from layouts.planning.working_ink import FULL, HANDS, SMALL, Squares, step_ink, working_ink
from tests.layouts.lessons import question
from tests.layouts.test_products_and_quotients import times

SIDES = (4.5, 7.0, 18.0)


def written(text: str, side: float) -> list[Text]:
    working = written_working(question(text))
    return [item for item in working_ink(working, Squares(0, 0, side)) if isinstance(item, Text)]


def ink_span(text: Text) -> tuple[float, float, float, float]:
    """Left, right, top and bottom of a digit's ink: 0.07 em of its advance is bearing."""
    em = text.size * MM_PER_POINT
    return (
        text.left + 0.07 * em,
        text.left + text.width - 0.07 * em,
        text.baseline - typeface.DIGIT_HEIGHT * em,
        text.baseline,
    )


@pytest.mark.parametrize("side", SIDES)
@pytest.mark.parametrize("text", ["10.004-3.756", "3.2-1.45", "12-3.75", "5.3-1.47", "9.87+0.65"])
def test_no_two_marks_touch(text, side):
    spans = [ink_span(mark) for mark in written(text, side) if mark.text != "."]
    for index, (left, right, top, bottom) in enumerate(spans):
        for left2, right2, top2, bottom2 in spans[index + 1 :]:
            assert right < left2 or right2 < left or bottom < top2 or bottom2 < top


@pytest.mark.parametrize("side", SIDES)
def test_every_mark_stays_in_its_square(side):
    working = written_working(question("3.2-1.45"))
    squares = Squares(0, 0, side)
    texts = [item for item in working_ink(working, squares) if isinstance(item, Text)]
    for mark, text in zip(working.marks(), texts, strict=False):
        left, right, top, bottom = ink_span(text)
        assert mark.column * side <= left < right <= (mark.column + 1) * side
        assert mark.row * side <= top < bottom <= (mark.row + 1) * side


def test_a_small_digit_is_about_half_as_large():
    assert 0.54 < SMALL / FULL < 0.56


@pytest.mark.parametrize("colour", [SOFT, DARK])
def test_grey_ink_is_readable_on_white(colour):
    """Contrast of at least 4.5:1. Source: WCAG 2.2, success criterion 1.4.3, and its formula."""
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in colour]
    luminance = 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]
    assert 1.05 / (luminance + 0.05) >= 4.5


def test_answers_are_bold_and_placeholder_noughts_are_not_black():
    assert HANDS[Ink.ANSWER].bold
    assert not HANDS[Ink.GIVEN].bold
    assert HANDS[Ink.PLACEHOLDER].colour == SOFT


def test_each_exchange_crosses_out_one_digit():
    working = written_working(question("10.004-3.756"))
    lines = [item for item in working_ink(working, Squares(0, 0, 7.0)) if isinstance(item, Line)]
    slanting = [line for line in lines if line.x1 != line.x2 and line.y1 != line.y2]
    assert len(slanting) == 4


@pytest.mark.parametrize("text", ["34.9 × 6.3", "349 × 63", "78 × 96", "306 × 47", "7.4 × 8"])
def test_no_side_of_a_box_crosses_a_digit(text):
    working = written_working(times(text))
    for steps in range(2, len(working.steps) + 1):
        items = step_ink(working, Squares(0, 0, 18.0), steps)
        boxes = [item for item in items if isinstance(item, Box) and item.stroke]
        digits = [item for item in items if isinstance(item, Text) and item.text.isdigit()]
        for box in boxes:
            for left, right, top, bottom in map(ink_span, digits):
                apart = (
                    right <= box.x
                    or box.x + box.width <= left
                    or bottom <= box.y
                    or box.y + box.height <= top
                )
                inside = (
                    box.x <= left
                    and right <= box.x + box.width
                    and box.y <= top
                    and bottom <= box.y + box.height
                )
                assert apart or inside


def test_marks_just_made_are_bold_and_no_others():
    working = written_working(question("12.34+7.8"))
    for count, step in enumerate(working.steps[1:], start=2):
        drawn = step_ink(working, Squares(0, 0, 18.0), count)
        bold = [i.text for i in drawn if isinstance(i, Text) and i.bold and i.text != "."]
        assert bold == [mark.text for mark in step.marks]


# Figures of the face are compared with what Pillow (FreeType) measures in the same file.


@pytest.mark.parametrize("bold", [False, True])
def test_the_faces_measures_are_those_in_its_file(bold):
    from PIL import Image, ImageDraw, ImageFont

    em = 512
    font = ImageFont.truetype(str(typeface.font_path(bold=bold)), em)

    def ink(character: str) -> tuple[int, int, int, int]:
        """Left, top, right and bottom of the ink, from the origin, y downwards."""
        image = Image.new("L", (2 * em, 2 * em))
        ImageDraw.Draw(image).text((em // 2, em), character, fill=255, font=font, anchor="ls")
        left, top, right, bottom = image.getbbox()
        return left - em // 2, top - em, right - em // 2, bottom - em

    _, top, _, _ = ink("1")
    assert -top / em == pytest.approx(typeface.DIGIT_HEIGHT, abs=0.004)
    for sign in "+−×÷":
        _, top, _, bottom = ink(sign)
        assert -(top + bottom) / 2 / em == pytest.approx(typeface.DIGIT_HEIGHT / 2, abs=0.004)
    for digit in "0123456789":
        left, _, right, _ = ink(digit)
        assert (right - left) / em <= typeface.DIGIT_INK + 0.003
    widths = {font.getlength(digit) for digit in "0123456789"}
    assert len(widths) == 1, "digits are equally wide"
    assert typeface.width("0", 72, bold=bold) / 25.4 == pytest.approx(widths.pop() / em, abs=1e-3)
    left, top, right, bottom = ink(".")
    assert (left + right) / 2 == pytest.approx(font.getlength(".") / 2, abs=2)
    if bold:
        assert -(top + bottom) / 2 / em == pytest.approx(typeface.POINT_MIDDLE, abs=0.004)


# Ink measured in the face's own file: nothing touches what it shares a square with.

BOLD_AND_CLEAR = 0.02
"""The least room between two inks, in squares: a fifth of a millimetre on a slide's 10 mm."""


@cache
def drawn(character: str, bold: bool) -> tuple[float, float, float, float]:
    """Left, top, right and bottom of a character's ink from its origin, in ems, y downwards."""
    from PIL import Image, ImageDraw, ImageFont

    em = 1024
    font = ImageFont.truetype(str(typeface.font_path(bold=bold)), em)
    image = Image.new("L", (2 * em, 2 * em))
    ImageDraw.Draw(image).text((em // 2, em), character, fill=255, font=font, anchor="ls")
    left, top, right, bottom = image.getbbox()
    return (left - em // 2) / em, (top - em) / em, (right - em // 2) / em, (bottom - em) / em


def boxes_of_ink(items, side: float) -> list[tuple[str, float, float, float, float]]:
    """Each text of a drawing, with its ink's edges in squares."""
    found = []
    for item in items:
        if not isinstance(item, Text):
            continue
        em, x = item.size * MM_PER_POINT, item.left
        for character in item.text:
            left, top, right, bottom = drawn(character, item.bold)
            found.append(
                (
                    character,
                    (x + left * em) / side,
                    (item.baseline + top * em) / side,
                    (x + right * em) / side,
                    (item.baseline + bottom * em) / side,
                )
            )
            x += typeface.width(character, item.size, bold=item.bold)
    return found


def touching(working: Working, side: float = 10.0) -> list[str]:
    """Pairs of inks with too little between them, in the whole and after each step."""
    squares, close = Squares(0, 0, side), []
    drawings = [working_ink(working, squares)]
    drawings += [step_ink(working, squares, n) for n in range(1, len(working.steps) + 1)]
    for drawing in drawings:
        found = boxes_of_ink(drawing, side)
        for (a, *first), (b, *second) in combinations(found, 2):
            across = max(first[0], second[0]) - min(first[2], second[2])
            down = max(first[1], second[1]) - min(first[3], second[3])
            one_number = abs(first[3] - second[3]) < 0.02 and first[2] - first[0] < 0.3
            if max(across, down) < (0.0 if one_number else BOLD_AND_CLEAR):
                close.append(f"{a} {b}")
    return close


@pytest.mark.parametrize("point", ["line", "column"])
@pytest.mark.parametrize(
    "asked",
    [
        *("40.8 ÷ 6", "20.04 ÷ 3", "7.02 ÷ 9", "304 ÷ 8", "30.06 ÷ 12", "9.007 ÷ 8", "500.8 ÷ 16"),
        *("900.1 − 8.76", "3.2 − 1.45", "404.4 − 66.6", "80 − 0.09", "10.004 − 3.756"),
        *("34.9 × 6.8", "80.8 × 9.7", "99.9 × 8.8"),
    ],
)
@pytest.mark.parametrize("subtraction", ["exchange", "equal addition"])
def test_no_small_digit_touches_a_digit_or_a_point(asked, subtraction, point):
    numbers, sign = asked.split(" ")[::2], asked.split(" ")[1]
    (operation,) = [operation for operation in Operation if operation.sign == sign]
    ending = Ending.DECIMAL if sign == "÷" else Ending.EXACT
    working = written_working(
        Question(operation, tuple(map(Number.parse, numbers)), ending),
        Conventions(subtraction=subtraction, point=point),
    )
    assert not touching(working)


@pytest.mark.parametrize("point", ["line", "column"])
@pytest.mark.parametrize("way", ["grid", "expanded"])
@pytest.mark.parametrize("asked", ["98 × 97", "3.42 × 0.7", "999 × 88", "305 × 70"])
def test_no_mark_of_a_grid_or_an_expanded_product_touches_another(asked, way, point):
    numbers = tuple(map(Number.parse, asked.split(" × ")))
    agreed = Conventions(multiplication=way, point=point)
    assert not touching(written_working(Question(Operation.MULTIPLY, numbers), agreed))


@pytest.mark.parametrize("point", ["line", "column"])
@pytest.mark.parametrize("way", ["long", "chunking"])
@pytest.mark.parametrize("asked", ["432 ÷ 15", "500.8 ÷ 1.6", "20.04 ÷ 3", "987 ÷ 35"])
def test_no_mark_of_a_long_division_or_of_chunks_touches_another(asked, way, point):
    numbers = tuple(map(Number.parse, asked.split(" ÷ ")))
    agreed = Conventions(division=way, point=point)
    working = written_working(Question(Operation.DIVIDE, numbers, Ending.DECIMAL), agreed)
    assert not touching(working)


def test_the_ten_and_the_one_of_equal_addition_are_written_apart():
    asked = Question(Operation.SUBTRACT, (Number(932), Number(457)))  # the England appendix
    working = written_working(asked, Conventions(subtraction="equal addition"))
    texts = {ink: {m.text for m in working.marks() if m.ink is ink} for ink in (Ink.TEN, Ink.ADDED)}
    assert texts == {Ink.TEN: {"1"}, Ink.ADDED: {"+1"}}
