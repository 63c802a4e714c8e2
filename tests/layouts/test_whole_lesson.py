"""The files of a whole lesson: the deck in its order, the plan, answers on paper, slips."""

import re
from collections.abc import Iterator
from functools import cache
from itertools import pairwise

import pytest

from generator.packs.building import build_pack
from generator.packs.working_out import WorkedPack, work
from generator.vocabulary import VOCABULARY
from layouts.files.documents import plan
from layouts.files.table import files_of
from layouts.key.band import EDGE
from layouts.planning.paper import SLIDE_HEIGHT, SLIDE_WIDTH
from layouts.planning.plan import Grid, PagePlan, Role, Unit, line_height
from layouts.planning.typeface import width
from layouts.slides.slide import BODY_BOTTOM
from specs import load_spec, shipped
from specs.names import LONGEST_NAME
from tests.generator.ladders import spec
from tests.lessons_that_ship import EACH

TWO_BLOCKS = "adding-then-taking-away"
SHARING = "sharing-with-homework"


@cache
def lesson(name: str, seed: int = 3, versions: int = 1) -> WorkedPack:
    return work(build_pack(load_spec(shipped(name), VOCABULARY), seed, versions))


@cache
def pages(name: str, file: str, versions: int = 1) -> tuple[PagePlan, ...]:
    (found,) = (f for f in files_of(lesson(name, versions=versions)) if f.name == file)
    return tuple(found.pages)


def text_of(page: PagePlan) -> str:
    return " ".join(text.text for text in page.texts).replace("\N{NO-BREAK SPACE}", " ")


def title_of(page: PagePlan) -> str:
    (title,) = (u for u in page.content if isinstance(u, Unit) and u.role is Role.TITLE)
    return " ".join(t.text for t in title.items if hasattr(t, "text"))


def in_order(slides: tuple[PagePlan, ...]) -> list[str]:
    return list(dict.fromkeys(map(title_of, slides)))


def test_the_files_of_a_whole_lesson() -> None:
    assert [file.name for file in files_of(lesson(TWO_BLOCKS))] == [
        "starter.pdf",
        "examples.pdf",
        "examples-on-paper.pdf",
        "practice.pdf",
        "practice-2-support.pdf",
        "practice-2-core.pdf",
        "exit.pdf",
        "lesson.pdf",
        "answers.pdf",
        "answers-on-paper.pdf",
        "plan.pdf",
        "key.pdf",
    ]
    assert {file.name for file in files_of(lesson(SHARING))} >= {"homework.pdf", "exit.pdf"}


def test_the_deck_goes_through_the_lesson_in_its_order() -> None:
    assert in_order(pages(TWO_BLOCKS, "lesson.pdf")) == [
        "Adding decimals, then taking away",
        "Starter, about 8 minutes",
        "Starter: answers",
        "Worked example: One carry",
        "Your turn",
        "Your turn: answer",
        "Worked example: Three numbers",
        "Practice, about 12 minutes",
        "Practice: answers",
        "Worked example: Exchanging through a nought",
        "Worked example: Exchanging through two noughts",
        "Practice 2, about 15 minutes",
        "Sheet A: answers",
        "Sheet B: answers",
        "Exit questions, about 5 minutes",
    ]
    assert in_order(pages(SHARING, "lesson.pdf"))[-2:] == [
        "Exit question, about 5 minutes",
        "Homework, about 15 minutes",
    ]


def test_what_is_to_be_learnt_stands_first_and_before_a_later_part() -> None:
    first, *others = pages(TWO_BLOCKS, "lesson.pdf")
    assert "Line up the points" in text_of(first)
    assert "Exchange through noughts" in text_of(first)
    again = [page for page in others if title_of(page) == title_of(first)]
    assert [text_of(page).count("Exchange through noughts") for page in again] == [1]
    # Nothing is said of that in the demo: its parts stand there.
    opening = text_of(pages("produce-stall", "lesson.pdf")[0])
    assert "Starter Worked examples Practice" in opening


def test_a_starters_answers_come_one_after_another_and_nothing_moves() -> None:
    (starter,) = lesson(TWO_BLOCKS).of_kinds("starter")
    deck = pages(TWO_BLOCKS, "lesson.pdf")
    questions = [page for page in deck if title_of(page).startswith("Starter, about")]
    shown = " ".join(map(text_of, questions))
    assert all(item.calculation in shown for item in starter.items)
    assert "In your head first, then in columns" in shown
    assert not re.search(r"=\s+\d", shown)
    answers = [page for page in deck if title_of(page) == "Starter: answers"]
    told = [len(re.findall(r"=\s+\d", text_of(page))) for page in answers]
    assert told == [1, 2, 3, 1, 2, 3]  # on two slides of three
    for before, after in pairwise(answers):
        if len(before.texts) < len(after.texts):
            stand = {(text.text, text.x, text.baseline) for text in after.texts}
            assert {(text.text, text.x, text.baseline) for text in before.texts} <= stand


@pytest.mark.parametrize("name", EACH)
def test_a_question_on_a_slide_asks_all_that_it_asks_on_paper(name: str) -> None:
    shown = [page for page in pages(name, "lesson.pdf") if "about" in title_of(page)]
    words = "".join(map(text_of, shown)).replace(" ", "")
    for section in lesson(name).of_kinds("starter", "exit"):
        for item in section.items:
            assert item.asked_on_a_line.replace("\N{NO-BREAK SPACE}", "").replace(" ", "") in words
        told = [page for page in pages(name, "lesson.pdf") if "Starter: answers" in title_of(page)]
        replies = "".join(map(text_of, told)).replace(" ", "")
        if section.kind == "starter":
            assert all(item.reply.replace(" ", "") in replies for item in section.items)


@pytest.mark.parametrize("name", [TWO_BLOCKS, SHARING, "produce-stall"])
def test_the_finished_example_stays_beside_the_question_of_the_class(name: str) -> None:
    pairs = [
        section.items[at : at + 2]
        for section in lesson(name).of_kinds("example")
        for at in range(0, len(section.items), 2)
    ]
    turns = [page for page in pages(name, "lesson.pdf") if title_of(page) == "Your turn"]
    assert len(turns) == len(pairs)
    for page, (shown, match) in zip(turns, pairs, strict=True):
        words = text_of(page)
        assert shown.with_answer.replace("\N{NO-BREAK SPACE}", " ") in words
        assert match.calculation in words
        (working,) = (u for u in page.content if isinstance(u, Unit) and u.role is Role.WORKING)
        assert shown.working.steps[-1].sentence in working.says


def test_a_match_is_worked_in_steps_where_the_spec_says_so() -> None:
    slides = pages(TWO_BLOCKS, "lesson.pdf")
    _, second = lesson(TWO_BLOCKS).of_kinds("example")
    matches = second.items[1::2]
    answered = [page for page in slides if title_of(page) == "Your turn: answer"]
    of_first = 2
    assert len(answered) == of_first + sum(len(match.working.steps) for match in matches)
    assert text_of(answered[of_first]).endswith(f"step 1 of {len(matches[0].working.steps)}")


@pytest.mark.parametrize("name", [TWO_BLOCKS, SHARING, "produce-stall", "puzzles", "ordering"])
def test_no_slide_of_the_deck_runs_off_or_into_its_foot(name: str) -> None:
    for page in pages(name, "lesson.pdf"):
        assert (page.width, page.height) == (SLIDE_WIDTH, SLIDE_HEIGHT)
        for text in page.texts:
            assert text.left >= 8
            assert text.left + text.width <= SLIDE_WIDTH - 8 + 1e-6
        for item in page.items:
            if isinstance(item, Grid):
                assert item.y + item.height <= BODY_BOTTOM + 1e-6


def test_answers_to_many_versions_are_on_slips_not_on_slides() -> None:
    slides = pages(SHARING, "lesson.pdf")
    (core,) = (page for page in slides if title_of(page) == "Core practice: answers")
    assert "on a slip of its own" in text_of(core)
    paper = pages(SHARING, "answers-on-paper.pdf")
    words = " ".join(map(text_of, paper))
    for section in lesson(SHARING).named("core"):
        assert words.count(str(section.code)) == 2  # in the table and on its slip
    assert len(paper) == 2


@pytest.mark.parametrize("name", EACH)
@pytest.mark.parametrize("versions", [1, 3])
def test_bare_answers_of_all_parts_are_on_one_page_and_the_plan_is_one(
    name: str, versions: int
) -> None:
    found = lesson(name, versions=versions)
    (plan_page,) = pages(name, "plan.pdf", versions)
    first, *slips = answers = pages(name, "answers-on-paper.pdf", versions)
    assert bool(slips) == any(section.has_versions for section in found)
    # Of twenty versions the table goes on: on one page it would be too small to be read.
    sheets = sum(section.versions for section in found.of_version(1))
    words = text_of(first) if sheets < 20 else " ".join(map(text_of, answers))
    for section in found:
        if section.kind != "example":
            for item in section.items:
                assert item.reply.split(" ")[0] in words
            assert (str(section.code) in words) == section.has_versions
        if section.version == 1 and section.kind != "example":
            assert str(section.code) in text_of(plan_page)
    for page in (plan_page, first, *slips):
        lowest = max(text.baseline for text in page.texts)
        assert lowest <= page.height - 8
        assert all(text.left + text.width <= page.width - 8 for text in page.texts)


def test_the_plan_has_what_is_said_and_what_goes_wrong() -> None:
    (page,) = pages(TWO_BLOCKS, "plan.pdf")
    words = text_of(page)
    assert "60 minutes in all" in words
    assert re.findall(r"\d+–\d+ min", words) == [
        "0–8 min",
        "8–18 min",
        "18–30 min",
        "30–40 min",
        "40–55 min",
        "55–60 min",
    ]
    for section in lesson(TWO_BLOCKS).of_kinds("example"):
        for shown in section.items[::2]:
            assert shown.with_answer.replace("\N{NO-BREAK SPACE}", " ") in words
    assert words.count("Say: ") == 8
    assert words.count("• ") == 3
    wrong = re.findall(r"([\d.]+ [+−] [\d.]+) gives ([\d.]+), not ([\d.]+)", words)
    items = {i.calculation: i for s in lesson(TWO_BLOCKS) for i in s.items}
    for asked, given, right in wrong:
        assert items[asked].reply == right
        assert given in {likely.reply.text for likely in items[asked].likely}


def test_the_plan_leaves_a_little_air_between_examples() -> None:
    (page,) = pages("produce-stall", "plan.pdf")
    texts = sorted(page.texts, key=lambda text: text.baseline)
    heads = [text for text in texts if text.bold and " = " in text.text]
    assert len(heads) == 4
    for head in heads[1:]:
        above = max(text.baseline for text in texts if text.baseline < head.baseline)
        below = min(text.baseline for text in texts if text.baseline > head.baseline)
        assert head.baseline - above > 1.2 * (below - head.baseline)


def test_the_plan_says_what_went_wrong_in_a_working_to_be_put_right() -> None:
    words = text_of(pages("puzzles", "plan.pdf")[0])
    shown = [
        item
        for section in lesson("puzzles").of_kinds("example")
        for item in section.items[::2]
        if item.example.wrong
    ]
    assert shown
    for item in shown:
        assert item.example.wrong is not None
        assert f"Say: {item.example.wrong.steps[-1].sentence}" in words


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("decimal-times-decimal", r"Say: \d+ ÷ 1000: "),  # 0.7 × 0.04
        ("related-facts", r"Say: \d+ ÷ 10: "),
        ("ordering", r"Say: Ones: "),
        ("rounding", r"Say: The hundredths digit is "),
        ("powers-of-ten", r"Say: × 10+: each digit moves \d columns"),
    ],
)
def test_the_plan_says_what_matters_where_no_small_digit_is_written(name: str, said: str) -> None:
    assert re.search(said, text_of(pages(name, "plan.pdf")[0]))


def test_what_to_print_stands_clear_of_the_part_above_it() -> None:
    (page,) = pages("puzzles", "plan.pdf")
    assert "Look for" not in text_of(page)
    (head,) = (text for text in page.texts if text.text == "Print")
    above = max(text.baseline for text in page.texts if text.baseline < head.baseline)
    assert head.baseline - above > 1.5 * line_height(head.size)


def test_the_longest_name_of_a_tier_leaves_the_codes_on_the_page() -> None:
    tier = "-".join(["mmmm"] * LONGEST_NAME)[:LONGEST_NAME].strip("-")
    asked = spec("level: {operation: add, places: 2}", f"tiers:\n  {tier}: {{level: 3}}")
    (page,) = {file.name: file for file in plan(work(build_pack(asked, 1)))}["plan.pdf"].pages
    assert f"practice-{tier}.pdf" in text_of(page)
    for text in page.texts:
        if text.anchor == "right":
            continue  # at the foot, which has its own tests
        assert text.x + width(text.text, text.size, bold=text.bold) <= page.width - EDGE + 0.05


@pytest.mark.parametrize(
    ("count", "told"), [(1, "Question a is on the slide"), (3, "Questions a to c are on the slide")]
)
def test_the_plan_speaks_of_one_question_or_of_several(count: int, told: str) -> None:
    asked = spec("level: {operation: add, places: 2}", f"lesson:\n  - starter: {{level: {count}}}")
    (page,) = {file.name: file for file in plan(work(build_pack(asked, 1)))}["plan.pdf"].pages
    assert told in text_of(page)


@pytest.mark.parametrize(("versions", "sheets"), [(1, 1), (4, 1), (6, 2)])
def test_exit_questions_are_slips_four_to_a_sheet(versions: int, sheets: int) -> None:
    asked = spec(
        "level: {operation: add, places: 2}",
        f"lesson:\n  - exit: {{level: 2}}\nversions: {{exit: {versions}}}\n",
    )
    (file,) = (f for f in files_of(work(build_pack(asked, 1))) if f.name == "exit.pdf")
    found = tuple(file.pages)
    assert len(found) == sheets
    grids = [item for item in found[0].items if isinstance(item, Grid)]
    assert len(grids) == 4
    codes = re.findall(r"code (\S+)", " ".join(map(text_of, found)))
    assert len(set(codes)) == versions


def test_many_exit_questions_take_larger_slips() -> None:
    def on_a_sheet(count: int) -> int:
        asked = spec("level: {operation: add, places: 2}", f"lesson:\n  - exit: {{level: {count}}}")
        (file,) = (f for f in files_of(work(build_pack(asked, 1))) if f.name == "exit.pdf")
        (page,) = file.pages
        return sum(isinstance(item, Grid) for item in page.items)

    assert [on_a_sheet(count) for count in (1, 6, 14)] == [4, 2, 1]


def test_a_sheet_says_what_its_teacher_has_pupils_told() -> None:
    (sheet,) = pages(SHARING, "homework.pdf")
    assert "Set out every division; check one by multiplying" in text_of(sheet)
    (other,) = pages(TWO_BLOCKS, "practice-2-core.pdf")
    assert "Sheet B" in text_of(other)
    assert "Core" not in text_of(other)


def test_a_lesson_of_many_parts_still_has_a_plan_of_one_page() -> None:
    def parts() -> Iterator[str]:
        for _ in range(10):
            yield "  - examples: {level: 3}\n"
            yield "  - practice: {minutes: 3, questions: {level: 2}}\n"

    asked = spec("level: {operation: add, places: 3}", f"lesson:\n{''.join(parts())}")
    found = {file.name: file for file in plan(work(build_pack(asked, 1)))}
    assert len(found["plan.pdf"].pages) == 1
    assert "practice-10.pdf" in text_of(found["plan.pdf"].pages[0])
