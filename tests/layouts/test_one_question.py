"""A question alone on squares: what a rung asks, as a pupil's sheet would set it out."""

import pytest

from generator.packs.ladder import ladder
from generator.packs.working_out import work_alone
from generator.vocabulary import VOCABULARY
from layouts.planning.extent import extent
from layouts.planning.plan import Grid, PagePlan, Unit
from layouts.sheets.one_question import one_question
from specs import load_spec, shipped
from tests.lessons_that_ship import EACH


def pictured(name: str) -> list[PagePlan]:
    spec = load_spec(shipped(name), VOCABULARY)
    items = [view.item for view in ladder(spec)]
    assert all(items)
    look = spec.presentation
    return [one_question(work_alone(item, look), look) for item in items if item]


@pytest.mark.parametrize("name", EACH)
def test_all_its_ink_is_on_a_piece_of_paper_hardly_larger(name: str) -> None:
    for page in pictured(name):
        (unit,) = [entry for entry in page.content if isinstance(entry, Unit)]
        box = extent(unit.items)
        assert box is not None
        left, top, right, bottom = box
        assert 0 <= left < right <= page.width <= 180
        assert 0 <= top < bottom <= page.height <= 180


def test_it_has_squares_and_no_letter_and_is_said_without_one() -> None:
    for page in pictured("produce-stall"):
        (unit,) = [entry for entry in page.content if isinstance(entry, Unit)]
        assert [type(entry) for entry in page.content] == [Grid, Unit]
        assert ")" not in "".join(text.text for text in page.texts)
        assert unit.says
        assert "question" not in unit.says.lower()
