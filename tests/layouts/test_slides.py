"""Slides for the whole class: one step a slide, and answers that the back row can read."""

import pytest

from generator.operations.methods import written_working
from generator.packs.building import build_pack
from generator.packs.working_out import WorkedPack, work
from generator.vocabulary import VOCABULARY
from layouts.planning.errors import DoesNotFitError
from layouts.planning.extent import extent
from layouts.planning.paper import SLIDE_HEIGHT, SLIDE_WIDTH
from layouts.planning.plan import Box, Grid, Line, PagePlan, Role, Text, Unit
from layouts.planning.type_scale import MM_PER_POINT, SLIDE_SENTENCES
from layouts.planning.working_ink import FULL
from layouts.slides.answer_slides import answer_pages, spread_out
from layouts.slides.example_slides import LARGEST_SQUARES, example_pages, stage
from layouts.slides.slide import BODY_BOTTOM
from specs import load_spec, shipped
from tests.layouts.lessons import AWKWARD, items, pack, random_texts
from tests.lessons_that_ship import EACH
from tests.worked import worked, worked_item

# Readability: letters 1/20 of the picture's height for what must be read, 1/24 for
# sentences. Common practice, no source.
ANSWER_LEAST = SLIDE_HEIGHT / 20
SENTENCE_LEAST = SLIDE_HEIGHT / 24


def text_of(page) -> str:
    return " ".join(text.text for text in page.texts)


def test_an_example_takes_one_slide_a_step_then_the_pupils_turn_and_its_answer():
    lesson = pack("12.34+7.8", "21.57+6.4")
    section = lesson.of_kind("example")[0]
    working = written_working(section.items[0].question)
    *steps, alone, answer = example_pages(worked(lesson, section))

    assert len(steps) == len(working.steps)
    for number, (page, step) in enumerate(zip(steps, working.steps, strict=True), start=1):
        assert f"step {number} of {len(working.steps)}" in text_of(page)
        assert step.sentence in text_of(page)
    assert "Worked example: Through zeros" in text_of(steps[0])
    assert "20.14" not in text_of(steps[0])
    assert "12.34 + 7.8 = 20.14" in text_of(steps[-1])
    assert "21.57 + 6.4" in text_of(alone)
    assert "27.97" not in text_of(alone)
    assert "21.57 + 6.4 = 27.97" in text_of(answer)


def test_the_column_in_play_is_marked_by_bars_as_well_as_by_a_tint():
    lesson = pack("12.34+7.8", "21.57+6.4")
    section = lesson.of_kind("example")[0]
    working = written_working(section.items[0].question)
    pages = example_pages(worked(lesson, section))
    for page, step in zip(pages, working.steps, strict=False):
        grid = next(item for item in page.items if isinstance(item, Grid))
        bars = [i for i in page.items if isinstance(i, Line) and i.weight > 0.06 * grid.square]
        tints = [item for item in page.items if isinstance(item, Box) and item.fill]
        if step.column is None:
            assert not bars
            assert not tints
        else:
            left = grid.x + step.column * grid.square
            assert [bar.x1 for bar in bars] == [left, left]
            assert [tint.x for tint in tints] == [left]


@pytest.mark.parametrize("text", AWKWARD)
def test_no_example_runs_off_its_slide(text):
    lesson = pack(text, text)
    for page in example_pages(worked(lesson, lesson.of_kind("example")[0])):
        for item in page.items:
            if isinstance(item, Grid):
                assert item.y + item.height <= BODY_BOTTOM + 1e-6
                assert item.x + item.width <= SLIDE_WIDTH - 8
        for text_item in page.texts:
            assert text_item.left >= 8
            assert text_item.left + text_item.width <= SLIDE_WIDTH - 8
            assert text_item.baseline <= SLIDE_HEIGHT - 8


@pytest.mark.parametrize(
    ("text", "least"), [("12.34+7.8+0.125", 20.0), ("1.234+2.5+3.45+4.567+5.1", 15.0)]
)
def test_squares_are_as_large_as_fits(text, least):
    (item,) = items(text)
    placed = stage(written_working(item.question), item.question.text)
    assert least <= placed.squares.side <= LARGEST_SQUARES[0]
    assert placed.sentence_size * MM_PER_POINT >= SENTENCE_LEAST


def test_a_short_working_takes_the_room_that_its_sentences_leave():
    (item,) = items("34+25")
    working = written_working(item.question)
    placed = stage(working, item.question.text)
    assert placed.squares.side > LARGEST_SQUARES[-1]
    assert placed.sentence_size == SLIDE_SENTENCES[0]
    assert placed.squares.y + placed.rows * placed.squares.side <= BODY_BOTTOM


def test_nothing_jumps_from_one_slide_of_an_example_to_the_next():
    lesson = pack("10.004-3.756", "20.003-4.658")
    pages = example_pages(worked(lesson, lesson.of_kind("example")[0]))
    grids = {item for page in pages for item in page.items if isinstance(item, Grid)}
    assert len({(grid.x, grid.square) for grid in grids}) == 1


@pytest.mark.parametrize("texts", [AWKWARD, random_texts(40, 5), random_texts(9, 6, 2)])
def test_answers_are_at_least_a_twentieth_of_the_slides_height(texts):
    lesson = pack(*texts)
    section = lesson.of_kind("practice")[0]
    for page in answer_pages(worked(lesson, section)):
        answers = [text for text in page.texts[1:] if text.bold and text.text[-1].isdigit()]
        assert answers
        for text in answers:
            assert text.size * MM_PER_POINT >= ANSWER_LEAST
        for text in page.texts:
            assert text.size >= 15
            assert text.left + text.width <= SLIDE_WIDTH - 8


def test_answers_that_end_in_noughts_are_shown_without_them_too():
    lesson = pack("1.25+0.75", "3.4+0.27")
    (page,) = answer_pages(worked(lesson, lesson.of_kind("practice")[0]))
    words = [text.text for text in page.texts]
    assert "2.00 = 2" in words
    assert "3.67" in words


@pytest.mark.parametrize("count", range(2, 45))
def test_no_answer_is_alone_on_a_last_slide(count):
    spread = spread_out([*map(worked_item, items(*["12.345+7.25"] * count))])
    sizes = [end - start for start, end in spread.slides]
    assert sum(sizes) == count
    assert sizes[-1] > 1
    assert max(sizes) - min(sizes) <= 1


def test_versions_have_slides_of_their_own():
    lesson = pack("1.5+2.25", "3.4+0.27", versions=3)
    titles = [
        page.texts[0].text
        for section in lesson.of_kind("practice")
        for page in answer_pages(worked(lesson, section))
    ]
    assert titles == [f"Core practice: answers, version {v}" for v in (1, 2, 3)]


def test_an_answer_wider_than_a_slide_is_refused():
    with pytest.raises(DoesNotFitError, match="shorter numbers"):
        spread_out([*map(worked_item, items("9" * 60 + "+1"))])


DIGITS_LEAST = SLIDE_HEIGHT / 12
"""Common practice for a back row, no source."""


@pytest.fixture(scope="module", params=EACH)
def lesson_of_a_spec(request) -> WorkedPack:
    return work(build_pack(load_spec(shipped(request.param), VOCABULARY), 1))


def squares(page: PagePlan) -> list[Grid]:
    return [item for item in page.items if isinstance(item, Grid)]


def test_digits_of_every_step_are_a_twelfth_of_the_height(lesson_of_a_spec):
    for section in lesson_of_a_spec.of_kinds("example"):
        for page in example_pages(section):
            for grid in squares(page):
                assert grid.square * FULL >= DIGITS_LEAST - 0.01
                assert grid.y + grid.height <= BODY_BOTTOM + 1e-6


def test_steps_of_one_example_keep_their_squares_and_words_in_place(lesson_of_a_spec):
    for section in lesson_of_a_spec.of_kinds("example"):
        seen: list[tuple[float, float, float]] = []
        for page in example_pages(section):
            foot = page.texts[-1].text
            if foot.startswith("step 1 of"):
                seen = []
            if foot.startswith("step "):
                seen += [(grid.x, grid.y, grid.square) for grid in squares(page)]
                assert len({(x, side) for x, _, side in seen}) == 1
                assert len({y for _, y, _ in seen}) == 1 or "mistake" in text_of(page)


def test_words_lie_neither_over_the_squares_nor_over_one_another(lesson_of_a_spec):
    for section in lesson_of_a_spec.of_kinds("example"):
        for page in example_pages(section):
            on_squares = {
                item
                for unit in page.content
                if isinstance(unit, Unit) and unit.role in (Role.WORKING, Role.QUESTION)
                for item in unit.items
            }
            words = [text for text in page.texts if text not in on_squares and text.text]
            boxes = [extent([item]) for item in (*words, *squares(page))]
            for at, (left, top, right, bottom) in enumerate(boxes):
                for other in boxes[at + 1 :]:
                    across = min(right, other[2]) - max(left, other[0])
                    down = min(bottom, other[3]) - max(top, other[1])
                    assert across < 0.05 or down < 0.05, text_of(page)


def test_a_window_holds_all_that_each_step_speaks_of(lesson_of_a_spec):
    for section in lesson_of_a_spec.of_kinds("example"):
        for item in section.items:
            working = item.example.right
            placed = stage(working, item.with_answer)
            for number, step in enumerate(working.steps, start=1):
                newest = placed.shown(working, number).steps[number - 1]
                assert len(newest.marks) == len(step.marks)
                if step.rows:
                    assert newest.rows
                    assert newest.rows[1] - newest.rows[0] == step.rows[1] - step.rows[0]


def test_a_tall_working_is_answered_on_two_slides_with_every_mark_once():
    lesson = work(build_pack(load_spec(shipped("ordering"), VOCABULARY), 1))
    for section in lesson.of_kinds("example"):
        pages = [page for page in example_pages(section) if "Your turn: answer" in text_of(page)]
        drawn = sum(
            isinstance(item, Text)
            for page in pages
            for unit in page.content
            if isinstance(unit, Unit) and unit.role is Role.WORKING
            for item in unit.items
        )
        workings = [item.example.right for item in section.items[1::2]]
        assert len(pages) >= len(workings)
        assert drawn == sum(len([*w.marks()]) + len([*w.points()]) for w in workings)


def test_answers_and_their_questions_have_one_size_and_stand_in_order(lesson_of_a_spec):
    for section in lesson_of_a_spec.of_kinds("starter", "practice"):
        labels: list[str] = []
        pages = answer_pages(section)
        sizes = set()
        for page in pages:
            for unit in page.content:
                if isinstance(unit, Unit) and unit.role is Role.PARAGRAPH:
                    texts = [item for item in unit.items if isinstance(item, Text)]
                    labels += [min(texts, key=lambda text: (text.baseline, text.left)).text]
                    notes = [text for text in texts if text.text and text.size < texts[0].size]
                    assert not notes or section.items[len(labels) - 1].shows_a_wrong_answer
                    sizes.add(texts[0].size)
        assert labels == [item.label for item in section.items]
        assert len(sizes) == 1
        stretched = any(len(item.reply) > 20 for item in section.items)  # an order of five
        assert sizes.pop() >= (36.0 if stretched else 45.0)


def test_the_answer_to_a_mistake_that_was_to_be_found_says_which_it_was():
    spec = load_spec(shipped("puzzles"), VOCABULARY)
    lesson = work(build_pack(spec, 1))
    said = 0
    for section in lesson.of_kinds("starter", "practice"):
        shown = " ".join(text_of(page) for page in answer_pages(section))
        for item in section.items:
            if item.shows_a_wrong_answer:
                (wrong,) = item.wrong_answers_to_expect
                assert f"not {wrong.text}: {wrong.causes[0]}" in shown
                said += 1
    assert said
