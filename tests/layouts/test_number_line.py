"""A number line is the same drawing in every kind of file: arcs in PDF, SVG and editable slides."""

import re
from io import BytesIO
from math import comb

import pytest

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Operation, Question
from generator.operations.methods import Conventions, written_working
from layouts.editable.slides import slides
from layouts.pdf.ink import pdf
from layouts.pictures.svg import svg
from layouts.planning.plan import Arc, PagePlan
from layouts.slides.board import finished_board, step_boards

QUESTION = Question(Operation.SUBTRACT, (Number(932), Number(457)))
WORKING = written_working(QUESTION, Conventions(subtraction="counting up"))


def arcs(page: PagePlan) -> list[Arc]:
    return [item for item in page.items if isinstance(item, Arc)]


def test_each_jump_is_an_arc_and_comes_with_its_step():
    counts = [len(arcs(page)) for page in step_boards(WORKING)]
    assert counts[:5] == [0, 1, 2, 3, 4]
    assert len(arcs(finished_board(WORKING))) == 4


def test_every_kind_of_file_draws_the_arcs():
    page = finished_board(WORKING)
    assert len(re.findall(r'd="M[\d. ]+C', svg(page))) == 4
    data = pdf([page], "Number line", "")
    assert len(re.findall(rb" c S", data)) == 4


def test_editable_slides_draw_the_arcs():
    pptx = pytest.importorskip("pptx")
    deck = pptx.Presentation(BytesIO(slides([finished_board(WORKING)], "Number line")))
    shapes = [shape for one in deck.slides for shape in one.shapes]
    assert sum(shape.name.startswith("Freeform") for shape in shapes) == 4


def test_a_curve_in_straight_pieces_is_the_same_curve():
    """Points by Bernstein's polynomials, which define a Bézier curve (ISO 32000-1, 8.5.2.2)."""
    arc = Arc(10.0, 30.0, 50.0, 6.0, 0.3)
    x = (arc.x1, arc.x1, arc.x2, arc.x2)
    y = (arc.y, arc.over, arc.over, arc.y)
    for at, (across, down) in enumerate(arc.points(8)):
        t = at / 8
        weights = [comb(3, k) * t**k * (1 - t) ** (3 - k) for k in range(4)]
        assert across == pytest.approx(sum(w * value for w, value in zip(weights, x, strict=True)))
        assert down == pytest.approx(sum(w * value for w, value in zip(weights, y, strict=True)))
    assert min(down for _, down in arc.points(8)) == pytest.approx(arc.y - arc.height)


def test_what_is_drawn_is_also_said():
    assert 'aria-label="written working: Draw a number line from 457 to 932.' in svg(
        finished_board(WORKING)
    )
