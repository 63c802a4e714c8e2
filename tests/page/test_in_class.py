"""A lesson shown to a class, by keys and a clicker, in the order in which it is taught."""

import re

import pytest

from layouts.slides.board import LARGE_ENOUGH, rows_in_sight, square_on_a_screen
from rungsheet.desk import in_class, packs, specs
from tests.page.looking import complaints
from tests.page.teacher import DEMO, LAPTOP, Teacher

DIGIT = 1490 / 2048
"""A digit's height, in ems (layouts/planning/typeface.py)."""

WHERE = "#show .where"
ANSWERS = "[...document.querySelectorAll('#show .answer')]"
SEEN = f"{ANSWERS}.filter((one) => getComputedStyle(one).visibility === 'visible')"


def begins(page: Teacher) -> None:
    """Begin the lesson of the page, from its start, by keys."""
    page.goes("in-class")
    page.until("!document.getElementById('begin').disabled")
    page.presses_button("#begin")
    page.until("!document.getElementById('show').hidden")


def goes_on_to(page: Teacher, wanted: str, key: str = "PageDown") -> None:
    """Press a key until a part is come to, and not for ever."""
    for _ in range(60):
        if re.search(wanted, page.text_of(WHERE)):
            return
        page.presses(key)
    raise AssertionError(f"{key} does not get to {wanted}")


def test_a_lesson_is_shown_from_starter_to_answers(page_as_opened: Teacher) -> None:
    page = page_as_opened
    lesson = in_class.shown(packs.build(specs.read(DEMO)))
    (starter,) = (one for part in lesson.parts for one in part.asked)
    examples = [one for part in lesson.parts for one in part.examples]
    sheets = [one for part in lesson.parts for one in part.sheets]
    answered = [one for part in lesson.parts for one in part.answers]
    begins(page)
    assert page.text_of(WHERE).startswith("Starter")
    assert complaints(page.browser) == []
    size = "parseFloat(getComputedStyle(document.querySelector('#show .screen')).fontSize)"
    assert page.sees(f"{size} / innerHeight") * DIGIT >= 1 / 12

    assert page.sees(f"{SEEN}.length") == 0
    goes_on_to(page, "answers")
    assert page.sees(f"{SEEN}.map((one) => one.textContent)") == [starter.questions[0].reply]
    page.presses("PageUp")
    assert "answers" not in page.text_of(WHERE)
    page.presses("a")
    goes_on_to(page, f"of {len(starter.questions)}")
    page.presses("a")
    assert page.sees(f"{SEEN}.at(-1).textContent") == starter.questions[-1].reply
    goes_on_to(page, "^Example 1")

    for number, example in enumerate(examples, 1):
        for step in example.steps:
            assert page.text_of(WHERE).startswith(f"Example {number}")
            assert page.text_of("#show .sentence") == " ".join(step.sentence.split())
            page.presses("ArrowRight")
        assert example.match is not None
        for question in (example.match.asked, example.match.answered):
            assert page.text_of(WHERE).startswith(f"Your turn {number}")
            assert page.text_of("#show .mine .question") == " ".join(question.split())
            assert page.text_of("#show .kept .caption") == " ".join(example.answered.split())
            page.presses(" ")
    assert page.text_of(WHERE) == "Practice"
    assert all(tier.heading in page.text_of("#show .tiers") for tier in sheets)
    shown: list[str] = []
    for _ in range(12):
        page.presses("PageDown")
        shown.append(page.text_of(WHERE).partition(" · ")[0])
    assert list(dict.fromkeys(shown)) == [f"{tier.heading}: answers" for tier in answered]
    assert page.sees(f"{SEEN}.at(-1).textContent") == answered[-1].questions[-1].answer
    page.presses("Escape")
    page.until("document.getElementById('show').hidden")


def test_a_lesson_left_before_the_screen_was_full_leaves_no_empty_screen(
    page_as_opened: Teacher,
) -> None:
    page = page_as_opened
    page.goes("in-class")
    page.until("!document.getElementById('begin').disabled")
    page.browser.evaluate(
        """
        const whole = document.getElementById("show");
        whole.requestFullscreen = async (options) => {
            delete whole.requestFullscreen;
            await new Promise((later) => setTimeout(later, 1500));
            await whole.requestFullscreen(options);
            window.was_full = document.fullscreenElement === whole;
        };
        """
    )
    page.presses_button("#begin")
    page.presses("Escape")
    page.until("document.getElementById('show').hidden", 5)
    page.until("window.was_full", 10)
    page.until("document.fullscreenElement === null", 5)
    page.until("document.hasFocus() && document.activeElement.id === 'go-on'", 5)


@pytest.mark.slow
def test_the_timer_runs_quietly_and_the_screen_goes_black(page_as_opened: Teacher) -> None:
    page = page_as_opened
    page.goes("in-class")
    page.until("document.querySelector('.plan input')")
    page.until("document.querySelector('.plan input').value === '10'")
    page.at_rest()
    page.reaches(".plan input")
    page.replaces("3")
    page.until("document.querySelector('.plan input').value === '3'")
    page.clicks("#begin")
    page.until("!document.getElementById('show').hidden")
    clock = "document.querySelector('#show .clock').textContent"
    assert page.sees(clock) == "3:00"
    page.presses("t")
    page.until(f"{clock} === '2:59'", 5)
    page.presses("t")
    stopped = page.sees(clock)
    assert "stopped" in page.sees("document.querySelector('#show .clock').ariaLabel")
    black = "getComputedStyle(document.querySelector('#show .black')).backgroundColor"
    page.presses("b")
    assert page.sees("document.querySelector('#show .black').offsetHeight === innerHeight")
    assert page.sees(black) == "rgb(0, 0, 0)"
    page.presses("PageDown")  # whatever is pressed brings the lesson back where it was
    assert page.sees("document.querySelector('#show .black').offsetHeight") == 0
    assert (page.text_of(WHERE), page.sees(clock)) == ("Starter", stopped)
    page.clicks("#show .stage")
    assert "answers" in page.text_of(WHERE)
    page.clicks("#show-leave")
    assert page.text_of("#go-on") == "Go on with: Starter: answers"
    assert page.sees("document.activeElement.id") == "go-on"


TALL = """\
title: Beds of beans
ladder:
  five: {operation: add, addends: 5, places: {ragged: [1, 3]}, whole: 2}
  long: {operation: multiply, digits: [3, 2], places: [2, 0]}
  short: {operation: subtract, places: 2, whole: 1}
examples: [five, {rung: long, question: 2.14 × 32}, short]
"""


@pytest.mark.parametrize("size", [LAPTOP, pytest.param((1920, 1080), marks=pytest.mark.slow)])
def test_the_digits_of_a_working_are_a_twelfth_of_the_height(
    page_as_opened: Teacher, size: tuple[int, int]
) -> None:
    """Of a tall working the rows in play, large, rather than all of it, small."""
    page = page_as_opened
    page.browser.evaluate(f"rungsheet.lesson.open({TALL!r}, 'beds.yaml')")
    page.browser.tell("size", *size)
    page.until("rungsheet.lesson.title === 'Beds of beans'")
    begins(page)
    # A square is 20 mm of the picture and its digit 0.76 of that, in ems (layouts/slides/board.py).
    drawn = f"""[...document.querySelectorAll('#show .working .picture')].map((one) => {{
        const svg = one.shadowRoot.querySelector('svg');
        const scale = svg.getBoundingClientRect().width / svg.viewBox.baseVal.width;
        return 0.76 * 20 * scale * {DIGIT} / document.getElementById('show').clientHeight;
    }})"""
    least: dict[str, float] = {}
    while "try it" not in page.text_of(WHERE) or not page.text_of(WHERE).startswith("Your turn 3"):
        part = page.text_of(WHERE).partition(" · ")[0]
        page.sees_it_drawn()
        for height in page.sees(drawn):
            least[part] = min(least.get(part, 9), height * 12)
        page.presses("PageDown")
    page.presses("Escape")
    page.browser.tell("size", *LAPTOP)
    examples = packs.build(specs.read(TALL)).worked.of_kinds("example")
    workings = [item.example.right for section in examples for item in section.items[::2]]
    possible = {
        f"Example {at}: {name}": square_on_a_screen(working, rows_in_sight(working)) / LARGE_ENOUGH
        for at, (name, working) in enumerate(
            zip(("Five", "Long", "Short"), workings, strict=True), 1
        )
    }
    assert least.keys() == possible.keys()
    for part, height in least.items():
        assert height >= 0.9 * min(1, possible[part]), (part, least, possible)


WORDED = """\
title: Buckets
ladder:
  poured: {operation: add, places: {ragged: [1, 2]}, context: capacity}
examples: [poured]
tiers:
  core: {poured: 2}
versions: 14
"""


def test_a_long_question_stays_on_the_screen_and_answers_on_slips(page_as_opened: Teacher) -> None:
    page = page_as_opened
    page.browser.evaluate(f"rungsheet.lesson.open({WORDED!r}, 'buckets.yaml')")
    page.until("rungsheet.lesson.title === 'Buckets'")
    off = """[...document.querySelectorAll(
        '#show .question, #show .sentence, #show .caption, #show .tier')].filter((one) => {
        const [{ right, bottom }, stage] = [one, one.closest('.stage')].map((box) =>
            box.getBoundingClientRect());
        return one.scrollWidth > one.clientWidth || right > stage.right + 1
            || bottom > stage.bottom + 1; }).map((one) => one.textContent)"""
    for size in (LAPTOP, (911, 512)):
        page.browser.tell("size", *size)  # before the screen is full: Firefox waits for ever in it
        begins(page)
        page.presses("Home")
        seen: list[str] = []
        while not seen or "answers" not in seen[-1]:
            page.sees_it_drawn()
            assert page.sees(off) == [], (size, seen)
            page.presses("PageDown")
            seen.append(page.text_of(WHERE))
        said = page.text_of("#show .tier")
        assert said == "The answers to each version are on a slip of its own."
        page.presses("PageDown")
        assert page.text_of(WHERE) == "Core practice: answers"
        page.presses("Escape")
        page.until("document.getElementById('show').hidden && !document.fullscreenElement")
    page.browser.tell("size", *LAPTOP)
    leaves_the_whole(page)


WHOLE = specs.shipped_text("adding-then-taking-away")
IN_ORDER = [
    *("Starter: to learn", "Starter", "Starter: answers"),
    *("Example 1: One carry", "Your turn 1: One carry"),
    *("Example 2: Three numbers", "Your turn 2: Three numbers"),
    *("Practice", "Practice: answers", "Worked examples 2: to learn"),
    *("Example 3: Exchanging through a nought", "Your turn 3: Exchanging through a nought"),
    *("Example 4: Exchanging through two noughts", "Your turn 4: Exchanging through two noughts"),
    *("Practice 2", "Sheet A: answers", "Sheet B: answers", "Exit questions"),
]


def opens_the_whole(page: Teacher) -> None:
    """Open a lesson of many parts, and go to where it is shown in class."""
    page.browser.evaluate(f"rungsheet.lesson.open({WHOLE!r}, 'blocks.yaml')")
    page.until("rungsheet.lesson.title === 'Adding decimals, then taking away'")
    page.goes("in-class")
    page.until("document.querySelectorAll('.plan .part').length > 12")
    assert complaints(page.browser) == []


def leaves_the_whole(page: Teacher) -> None:
    """Have the demo listed again, so that no field of the other lesson is taken for its own."""
    page.begins_again()
    page.goes("in-class")
    page.until("document.querySelector('.plan .part')?.textContent === 'Starter'")


@pytest.mark.slow
def test_a_lesson_of_many_parts_is_listed_in_its_order(page_as_opened: Teacher) -> None:
    opens_the_whole(page_as_opened)
    listed = "[...document.querySelectorAll('.plan .part')].map((one) => one.textContent)"
    assert page_as_opened.sees(listed) == IN_ORDER
    leaves_the_whole(page_as_opened)


@pytest.mark.slow
def test_a_lesson_of_many_parts_is_taught_through_by_keys_alone(page_as_opened: Teacher) -> None:
    page = page_as_opened
    opens_the_whole(page)
    begins(page)
    seen: list[str] = []
    for _ in range(200):
        seen.append(page.text_of(WHERE).partition(" · ")[0])
        if seen[-1] == IN_ORDER[-1]:
            break
        page.presses("PageDown")
    assert list(dict.fromkeys(seen)) == IN_ORDER
    page.presses("Escape")
    leaves_the_whole(page)


TOLD = """\
title: Beds and trays
ladder:
  beds: {operation: multiply, digits: [2, 1], places: [1, 0]}
starter:
  instructions: Work these out in your books by the grid, and draw each of its boxes with a ruler
  questions: {beds: 6}
examples: {your_turn: in steps, methods: {multiply: grid}, questions: [beds]}
"""


@pytest.mark.slow
def test_pupils_are_told_what_to_do_and_their_turn_is_worked_in_steps(
    page_as_opened: Teacher,
) -> None:
    page = page_as_opened
    starter, examples = in_class.shown(packs.build(specs.read(TOLD))).parts
    page.browser.evaluate(f"rungsheet.lesson.open({TOLD!r}, 'beds.yaml')")
    page.until("rungsheet.lesson.title === 'Beds and trays'")
    begins(page)
    overflow = "((one) => one.scrollHeight - one.clientHeight)(document.querySelector('#show {}'))"
    for _ in range(7):  # with its answers
        assert page.text_of("#show .told") == starter.asked[0].told
        assert page.sees(overflow.format(".stage")) <= 0
        assert page.sees(overflow.format(".told")) <= 0
        page.presses("PageDown")
    (match,) = (one.match for one in examples.examples)
    assert match is not None
    assert len(match.steps) > 4
    goes_on_to(page, "^Your turn 1.*step 1 of")
    for step in match.steps:
        assert page.text_of("#show .sentence") == " ".join(step.sentence.split())
        page.presses("ArrowRight")
    assert page.text_of("#show .kept .caption").startswith(examples.examples[0].answered[:4])
    page.presses("Escape")
    leaves_the_whole(page)


def pulls_the_window(page: Teacher, width: str) -> None:
    """Give the lesson another width on the screen, as when a window is pulled smaller."""
    page.browser.evaluate(
        f"""
        const stage = document.querySelector("#show .stage");
        const before = stage.clientWidth;
        stage.style.maxWidth = {width!r};
        if (stage.clientWidth === before) throw new Error("it has the width that it had");
        """
    )
    page.until(
        "document.querySelector('#show .screen').style.width === "
        "`${document.querySelector('#show .stage').clientWidth}px`"
    )


@pytest.mark.slow
def test_practice_has_the_minutes_that_were_typed_whatever_the_screen_does(
    page_as_opened: Teacher,
) -> None:
    page = page_as_opened
    page.goes("in-class")
    entries = "[...document.querySelectorAll('.plan li')]"
    practice = f"{entries}.find((one) => one.innerText.includes('Practice'))"
    page.until(f"{practice}?.querySelector('input')")
    page.at_rest()
    page.browser.evaluate(f"{practice}.id = 'practice-in-plan'")
    page.reaches("#practice-in-plan input")
    page.replaces("7")
    page.goes("sheets")  # and back again: the lesson is the same
    page.at_rest()
    page.goes("in-class")
    page.until(f"{practice}?.querySelector('input')")
    page.at_rest()
    assert page.sees(f"{practice}.querySelector('input').value") == "7"
    page.browser.evaluate(f"{practice}.id = 'practice-in-plan'")
    page.clicks("#practice-in-plan button")
    page.until("!document.getElementById('show').hidden")
    clock = "document.querySelector('#show .clock').textContent"
    assert (page.text_of(WHERE), page.sees(clock)) == ("Practice", "7:00")
    page.presses("t")
    page.until(f"{clock} === '6:59'", 5)
    page.presses("t")
    stopped = page.sees(clock)
    pulls_the_window(page, "70%")
    assert (page.text_of(WHERE), page.sees(clock)) == ("Practice", stopped)
    pulls_the_window(page, "")
    assert page.sees(clock) == stopped
    page.presses("Escape")
    page.until("document.getElementById('show').hidden && !document.fullscreenElement")
    leaves_the_whole(page)


LONG_LISTS = """\
title: Long lists
ladder:
  level: {operation: add, addends: 6, places: 3, whole: 3}
tiers:
  core: {level: 24}
  support: {level: 20}
"""


@pytest.mark.slow
def test_it_goes_on_where_it_was_left_though_the_screen_has_more_moments_than_the_plan(
    page_as_opened: Teacher,
) -> None:
    page = page_as_opened
    page.browser.evaluate(f"rungsheet.lesson.open({LONG_LISTS!r}, 'lists.yaml')")
    page.until("rungsheet.lesson.title === 'Long lists'")
    begins(page)
    for key in ("End", "PageUp"):
        page.presses(key)
        there = page.text_of(WHERE)
        assert there.startswith("Support practice: answers · ")
        page.presses("Escape")
        page.until("document.getElementById('show').hidden && !document.fullscreenElement")
        page.goes("lesson")
        page.goes("in-class")
        page.until("!document.getElementById('go-on').disabled")
        page.at_rest()
        assert page.text_of("#go-on") == "Go on with: Support practice: answers"
        page.clicks("#go-on")
        page.until("!document.getElementById('show').hidden")
        assert page.text_of(WHERE) == there
    page.presses("Escape")
    page.until("document.getElementById('show').hidden && !document.fullscreenElement")
    # The plan's entries are of its own row, not of the one that was shown.
    page.clicks(".plan li:last-child button")
    page.until("!document.getElementById('show').hidden")
    assert page.text_of(WHERE).startswith("Support practice: answers · 1 of")
    page.presses("Escape")
    page.until("document.getElementById('show').hidden && !document.fullscreenElement")
    leaves_the_whole(page)


def test_a_lesson_that_did_not_come_cannot_be_begun_nor_the_one_before(
    page_as_opened: Teacher,
) -> None:
    page = page_as_opened
    page.goes("in-class")
    page.until("!document.getElementById('begin').disabled")
    page.at_rest()
    page.browser.evaluate(
        """
        const { engine, lesson } = rungsheet;
        const ask = engine.ask;
        engine.ask = (job, ...given) => {
            if (job !== "in class") return ask.call(engine, job, ...given);
            delete engine.ask;
            return Promise.reject(Object.assign(new Error(), { why: "out of time" }));
        };
        lesson.change({ seed: 2 });
        """
    )
    page.until("document.getElementById('state').textContent.startsWith('That took too long')")
    page.at_rest()
    assert page.sees("document.getElementById('begin').disabled")
    assert page.sees("document.querySelectorAll('.plan li').length") == 0
    leaves_the_whole(page)
