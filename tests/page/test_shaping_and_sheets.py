"""A lesson opened, shaped, seen, saved and printed, by keys and clicks as a teacher does it."""

import io
import json
import zipfile
from pathlib import Path

import pdfplumber
import pytest

from rungsheet.desk import archive, choices, editing, packs, rungs, specs
from tests.page.looking import complaints
from tests.page.teacher import DEMO, LAPTOP, Teacher

A4 = (595.28, 841.89)


def test_a_sheet_is_there_before_the_engine(opened: Teacher) -> None:
    """It is in the file: nothing needs to have run."""
    assert opened.seen_at_once > 200


def test_every_rung_is_a_strip_with_its_exact_number(page_as_opened: Teacher) -> None:
    page = page_as_opened
    strips = page.sees(
        "[...document.querySelectorAll('.strips .strip')].map((strip) => "
        "[strip.dataset.rung, strip.querySelector('.strip-count').textContent])"
    )
    views = rungs.count(specs.read(DEMO))
    assert strips == [[view.rung.name, f"{view.questions:,} questions"] for view in views]
    assert complaints(page.browser) == []


def test_a_ready_lesson_is_opened_and_the_one_before_comes_back(page_as_opened: Teacher) -> None:
    page = page_as_opened
    page.goes("lesson")
    page.presses_button("[data-lesson=sharing]")
    page.until("rungsheet.lesson.title.startsWith('Short division')")
    assert page.spec == specs.shipped_text("sharing")
    page.until("document.querySelectorAll('.strip .picture').length === 5")
    shown = "document.querySelector('.strips').getBoundingClientRect().top"
    assert 0 < page.sees(shown) < LAPTOP[1] / 2, "the ladder stays in sight, however far down"
    assert page.sees(
        "[...document.querySelectorAll('.strips .strip')].every((strip) => {"
        "const [head, sample] = ['.strip-head', '.sample'].map((one) =>"
        "strip.querySelector(one).getBoundingClientRect());"
        "return head.right <= sample.left; })"
    ), "a question of the rung covers its number"
    assert page.text_of("[aria-current] + .about").startswith("The crop shared out")
    page.clicks("#undo")
    assert page.spec == DEMO


def test_a_file_of_ones_own_is_opened_and_saved(page_as_opened: Teacher, tmp_path: Path) -> None:
    page = page_as_opened
    own = DEMO.replace("Produce stall", "Äpfel & Birnen <b>")
    (tmp_path / "own.yaml").write_text(own, "utf-8")
    page.opens_file("#open-spec", tmp_path / "own.yaml")
    page.until("document.getElementById('title').textContent.startsWith('Äpfel')")
    assert page.text_of("#title") == "Äpfel & Birnen <b>: written calculation with decimals"
    page.clicks("#save-lesson")
    assert page.saved() == own.encode()


def opened_rung(page: Teacher, name: str, word: str) -> None:
    """Go to a rung by keys and open it; what each choice of a word would leave is there then."""
    page.goes("lesson")
    page.presses_button(f"[data-rung={name}] .strip-head")
    page.until(f"document.querySelector('[data-key={word}]')?.textContent.includes('(')")


@pytest.mark.slow
def test_a_choice_says_what_it_would_leave_and_changes_its_value_alone(
    page_as_opened: Teacher,
) -> None:
    page = page_as_opened
    opened_rung(page, "equal-places", "carries")
    page.reaches("[data-key=addends]")
    values = [None, *range(2, 7)]
    left = choices.left(specs.read(DEMO), "equal-places", "addends", iter(values))
    told = page.sees(
        "[...document.querySelectorAll('[data-row=addends] .row-left li')]"
        ".map((one) => one.textContent)"
    )
    said = ("not said", *map(str, values[1:]))
    assert told == [f"{says} {one.count:,}" for says, one in zip(said, left, strict=True)]
    assert complaints(page.browser) == []

    page.reaches("[data-key=carries]")
    page.chooses("[data-key=carries]", "some")
    page.until(f"rungsheet.lesson.text !== {json.dumps(DEMO)}")
    assert page.spec == editing.set_word(DEMO, "equal-places", "carries", "some")
    page.until("document.querySelector('.strip-count').textContent.startsWith('292,775')")
    page.until("document.activeElement.dataset.key === 'carries'")
    page.clicks("#undo")
    assert page.spec == DEMO
    page.presses_button("[data-rung=equal-places] .strip-head")


@pytest.mark.slow
def test_rungs_are_drawn_again_after_another_place_only_where_the_lesson_is_another(
    page_as_opened: Teacher,
) -> None:
    page = page_as_opened
    opened_rung(page, "equal-places", "carries")
    the_same = """
        const shown = document.querySelector(".strips [data-key=addends]");
        const same = shown === globalThis.seenBefore;
        globalThis.seenBefore = shown;
        return same;
    """
    assert not page.browser.evaluate(the_same)
    page.goes("sheets")
    page.goes("lesson")
    page.at_rest()
    assert page.browser.evaluate(the_same), "what is being typed there would be lost"
    page.goes("sheets")
    changed = DEMO.replace("carries: none", "carries: some", 1)
    page.browser.evaluate(f"rungsheet.lesson.change({{ text: {json.dumps(changed)} }})")
    page.at_rest()
    page.goes("lesson")
    page.until("document.querySelector('.strip-count').textContent.startsWith('292,775')")
    page.until("document.querySelector('.strips [data-key=addends]')")
    assert not page.browser.evaluate(the_same)
    page.clicks("#undo")
    assert page.spec == DEMO
    page.presses_button("[data-rung=equal-places] .strip-head")


@pytest.mark.slow
def test_what_cannot_be_says_0_before_it_is_chosen_and_is_refused_with_the_reason(
    page_as_opened: Teacher,
) -> None:
    page = page_as_opened
    opened_rung(page, "through-zeros", "places")
    page.reaches("[data-key=places]")
    left = "[...document.querySelectorAll('[data-row=places] .row-left li')]"
    none = page.sees(f"{left}.filter((one) => one.matches('.none')).map((one) => one.textContent)")
    assert {"0 0", "1 0", "2 0"} <= set(none)
    page.chooses("[data-key=places]", "1")  # and an exchange through two noughts
    page.until("document.querySelector('[data-row=places] .why').textContent !== ''")
    assert "no question of through-zeros" in page.text_of("[data-row=places] .why")
    assert page.text_of("[data-key=places] option:checked") == "3"
    assert page.spec == DEMO
    page.presses_button("[data-rung=through-zeros] .strip-head", "Shift+Tab")


@pytest.mark.slow
def test_rungs_are_added_named_copied_moved_and_removed(page_as_opened: Teacher) -> None:
    page = page_as_opened
    text = DEMO

    def becomes(changed: str) -> None:
        nonlocal text
        text = changed
        page.until(f"rungsheet.lesson.text === {json.dumps(changed)}", 20)
        page.at_rest()

    page.clicks(".adding input")
    page.types("Change from ten")
    page.reaches(".adding select")
    page.chooses(".adding select", "subtract")
    page.presses_button("#add-rung")
    becomes(editing.add_rung(text, "Change from ten", "subtract"))
    page.until("document.querySelector('[data-rung=change-from-ten] [data-key=operation]')")
    page.reaches(".strip-body [data-key=name]", "Shift+Tab")
    page.replaces("Übrig, für später")
    becomes(editing.rename_rung(text, "change-from-ten", "Übrig, für später"))
    page.until(
        "document.querySelector('.strip-body [data-key=name]')?.value === 'Übrig, für später'"
    )
    copy = "document.querySelector('.strip-body [data-key=copy]').getAttribute('aria-label')"
    assert page.sees(copy) == "Copy: Übrig, für später"
    page.reaches(".strip-body [data-key=name]", "Shift+Tab")
    page.replaces("Till change")
    becomes(editing.rename_rung(text, "uebrig-fuer-spaeter", "Till change"))
    page.until("document.querySelector('[data-rung=till-change] .strip-body').children.length")
    for key, change in (
        ("copy", editing.copy_rung),
        ("up", lambda given, name: editing.move_rung(given, name, -1)),
        ("remove", editing.remove_rung),
    ):
        page.until(f"document.querySelector('.strip-body [data-key={key}]')")
        page.clicks(f".strip-body [data-key={key}]")
        becomes(change(text, "till-change"))


def test_questions_are_shared_out_in_a_table(page_as_opened: Teacher) -> None:
    page = page_as_opened
    page.goes("lesson")
    page.reaches('[data-key="over-the-point core"]')
    page.replaces("4")
    page.until(f"rungsheet.lesson.text !== {json.dumps(DEMO)}")
    changed = editing.set_count(DEMO, "core", "over-the-point", 4)
    assert page.spec == changed
    page.at_rest()
    page.reaches('[data-key="through-zeros core"]')
    page.replaces("45")
    said = "Only a whole number from 0 to 40 can stand there."
    assert page.text_of("#state") == said
    assert page.sees("document.querySelector('[data-key=\"through-zeros core\"]').value") == "2"
    assert page.spec == changed
    page.reaches('[data-key="through-zeros core"]', "Shift+Tab")
    page.replaces("3")
    assert page.text_of("#state") == ""
    page.until(f"rungsheet.lesson.text !== {json.dumps(changed)}")
    assert page.spec == editing.set_count(changed, "core", "through-zeros", 3)


def test_a_part_may_find_out_habits(page_as_opened: Teacher) -> None:
    page = page_as_opened
    page.goes("lesson")
    page.clicks('[data-key="finds out starter"]')
    page.until(f"rungsheet.lesson.text !== {json.dumps(DEMO)}")
    assert page.spec == editing.set_finding_out(DEMO, "starter", True)
    page.until("document.querySelector('[data-key=\"finds out starter\"]').checked")


@pytest.mark.slow
def test_how_a_lesson_is_worked_is_chosen_for_all_of_it_and_for_a_part(
    page_as_opened: Teacher,
) -> None:
    page = page_as_opened
    text = DEMO

    def becomes(changed: str, focused: str) -> None:
        nonlocal text
        text = changed
        page.until(f"rungsheet.lesson.text === {json.dumps(changed)}")
        page.at_rest()
        page.until(f"document.activeElement.dataset.key === '{focused}'")

    page.goes("lesson")
    page.clicks("#settings-summary")
    multiply = '[data-key="setting multiply"]'
    page.until(f"document.querySelector('{multiply}')")
    page.reaches(multiply)
    assert "10 questions" in page.text_of('[data-row="setting multiply"]')
    page.chooses(multiply, "grid")
    becomes(editing.set_method(text, "", "multiply", "grid"), "setting multiply")
    page.reaches("#settings-of", "Shift+Tab")
    page.chooses("#settings-of", "Core practice")
    page.until("document.querySelector('[data-key=\"setting frames\"]')")
    page.reaches(multiply)
    assert page.text_of(f"{multiply} option:checked") == "not said: grid"
    page.chooses(multiply, "columns")
    becomes(editing.set_method(text, "core", "multiply", "columns"), "setting multiply")
    assert page.text_of("#settings-of option:checked") == "Core practice: multiply columns"
    page.reaches('[data-key="setting frames"]')
    page.chooses('[data-key="setting frames"]', "from … to")
    becomes(editing.set_frames(text, "core", {"from": "full", "to": "none"}), "setting frames/0")
    page.reaches("#settings-of", "Shift+Tab")
    page.presses("Home")
    page.until("document.querySelector('[data-key=\"setting land\"]')")
    page.clicks("#settings-summary")
    assert page.spec == text


def test_how_many_numbers_serve_a_run_stands_beside_its_counts(page_as_opened: Teacher) -> None:
    page = page_as_opened
    name = "multiplying-by-the-grid"
    spec = json.dumps(specs.shipped_text(name))
    page.browser.evaluate(f"rungsheet.lesson.open({spec}, '{name}.yaml')")
    page.until("document.querySelectorAll('.runs li').length === 3")
    assert page.text_of(".runs li") == (
        "Worked examples: a run of Ones and tenths, Four boxes. "
        "81 first numbers serve the whole run."
    )


def test_a_mistake_in_the_text_is_shown_at_its_line(page_as_opened: Teacher) -> None:
    page = page_as_opened
    page.clicks("#toggle-text")
    page.clicks("#spec-text")
    page.presses("Control+Home", *["ArrowDown"] * DEMO[: DEMO.index("addends: 3")].count("\n"))
    page.presses("End")
    page.types("x")
    page.until("document.querySelector('#spec-problems .problem')")
    line = DEMO[: DEMO.index("addends: 3")].count("\n") + 1
    assert page.text_of("#spec-problems .problem").startswith(f"Line {line}: ")
    page.clicks("#spec-problems .problem")
    marked = page.sees(
        "((field) => field.value.slice(field.selectionStart, field.selectionEnd))"
        "(document.activeElement)"
    )
    assert marked.strip().startswith("addends: 3")
    assert page.sees("document.querySelector('.strips').inert")
    assert complaints(page.browser) == []
    page.presses("End", "Backspace")
    page.until("!document.querySelector('.strips').inert")
    assert page.spec == DEMO
    page.clicks("#toggle-text")


@pytest.mark.parametrize("size", [(1366, 768), (1024, 640), (683, 384)])  # the last: at 200 %
def test_every_place_fits_its_screen(page_as_opened: Teacher, size: tuple[int, int]) -> None:
    page = page_as_opened
    page.browser.tell("size", *size)
    for place in ("lesson", "sheets", "in-class", "marks", "find"):
        page.goes(place)
        assert page.sees("document.documentElement.scrollWidth <= innerWidth"), (place, size)
    page.browser.tell("size", *LAPTOP)


def shown(page: Teacher, file: str) -> None:
    """Go to a sheet by keys."""
    page.goes("sheets")
    page.until(f"document.querySelector('button[data-file=\"{file}\"]')")
    page.presses_button(f'button[data-file="{file}"]')
    page.until(f"document.querySelector('.pages').dataset.file === '{file}'")


def test_sheets_are_saved_as_the_command_line_makes_them(page_as_opened: Teacher) -> None:
    page = page_as_opened
    shown(page, "practice-core.pdf")
    assert complaints(page.browser) == []
    built = packs.build(specs.read(DEMO, "produce-stall.yaml"))
    page.clicks("#save-pdf")
    assert page.saved() == built.drawn("practice-core.pdf").data
    page.clicks("#save-zip")
    whole = page.saved()
    assert whole == archive.zipped(built.files(), "produce-stall-1")
    with zipfile.ZipFile(io.BytesIO(whole)) as found:
        assert len(found.namelist()) == len(built.files())
    page.clicks("#save-spec")
    assert page.saved() == DEMO.encode()


def test_one_question_is_changed_and_kept_while_others_change(page_as_opened: Teacher) -> None:
    page = page_as_opened
    shown(page, "practice-core.pdf")
    page.until("document.querySelector('.questions [data-section=core][data-label=c]')")
    page.presses_button(".questions [data-label=c] button")
    page.until("document.querySelector('.questions .kept')")
    assert page.sees("rungsheet.lesson.text") == editing.another(DEMO, 1, 1, "core", "c")
    questions = "[...document.querySelectorAll('.question-text')].map((one) => one.textContent)"
    before = page.sees(questions)
    page.clicks("#another")
    page.until(f"document.querySelector('.question-text').textContent !== {json.dumps(before[0])}")
    after = page.sees(questions)
    assert after[2] == before[2]
    assert after[2].endswith("(kept)")
    assert sum(one != other for one, other in zip(before, after, strict=True)) >= 7
    assert page.sees("rungsheet.lesson.seed") == 2


@pytest.mark.slow
def test_a_class_set_shows_how_far_it_is_and_can_be_stopped(page_as_opened: Teacher) -> None:
    page = page_as_opened
    page.goes("sheets")
    page.until("document.querySelector('.files button')")
    page.clicks("#save-class-set")
    page.until("document.querySelector('.working progress').value > 0")
    assert page.sees("document.querySelector('.working progress').max") > 90
    page.clicks("#stop")
    page.until("document.querySelector('.working').hidden")
    assert page.text_of("#state") == "Stopped."
    page.browser.ready()


def test_pages_are_printed_at_their_size(page_as_opened: Teacher, tmp_path: Path) -> None:
    """A browser's own print of the page: only the sheets, each on a page of its own."""
    page = page_as_opened
    shown(page, "practice-core.pdf")
    page.clicks("#print")
    page.until("window.printed")
    page.browser.tell("print", str(tmp_path / "printed.pdf"))
    drawn = packs.build(specs.read(DEMO)).drawn("practice-core.pdf")
    with (
        pdfplumber.open(io.BytesIO(drawn.data)) as ours,
        pdfplumber.open(tmp_path / "printed.pdf") as printed,
    ):
        assert len(printed.pages) == len(ours.pages)
        for mine, its in zip(ours.pages, printed.pages, strict=True):
            assert (its.width, its.height) == pytest.approx(A4, abs=1)
            places = [place(one) for one in (*its.lines, *its.rects, *its.curves)]
            for line in mine.lines:  # the squares' too
                assert any(place(line) == pytest.approx(one, abs=0.05) for one in places)


def place(drawn: dict[str, float]) -> tuple[float, ...]:
    """Where something stands on a page, in points."""
    return tuple(drawn[side] for side in ("x0", "top", "x1", "bottom"))


@pytest.mark.slow
def test_what_was_chosen_while_another_sheet_was_drawn_stays_chosen(
    page_as_opened: Teacher,
) -> None:
    """The answer that is still on its way is of what was chosen before."""
    page = page_as_opened
    key = "key.pdf"

    def chooses_before_the_answer(seed: int, choose: str, then: str) -> None:
        """Ask for a sheet, choose another at once, and do something when the first one is there."""
        page.at_rest()
        page.browser.evaluate(
            f"""
            const {{ engine, lesson }} = rungsheet;
            const ask = engine.ask;
            engine.ask = (job, ...given) => {{
                const answer = ask.call(engine, job, ...given);
                if (job === "show") {{
                    delete engine.ask;
                    answer.then(() => setTimeout(() => {{ {then} }}));
                }}
                return answer;
            }};
            lesson.change({{ seed: {seed} }});
            {choose}
            """
        )

    beside = "document.querySelector('.preview select')"
    page.until(f"{beside}.options.length > 3")
    page.browser.evaluate("window.chosen_then = null")
    choose = f"{beside}.value = '{key}'; {beside}.dispatchEvent(new Event('change'));"
    chooses_before_the_answer(2, choose, f"window.chosen_then = {beside}.value;")
    page.until("window.chosen_then !== null")
    page.at_rest()
    assert page.sees(f"[window.chosen_then, {beside}.value]") == [key, key]

    shown(page, "starter.pdf")
    choose = f"document.querySelector('.files [data-file=\"{key}\"]').click();"
    chooses_before_the_answer(3, choose, "document.getElementById('save-pdf').click();")
    built = packs.build(specs.read(DEMO, "produce-stall.yaml"), packs.Edition(3))
    assert page.saved() == built.drawn(key).data
    page.until(f"document.querySelector('.pages').dataset.file === '{key}'")
    shown(page, "starter.pdf")


@pytest.mark.slow
def test_a_paper_that_is_refused_is_said_and_nothing_of_the_mistake_is_printed(
    page_as_opened: Teacher,
) -> None:
    page = page_as_opened
    shown(page, "starter.pdf")
    mistaken = DEMO.replace("addends: 3", "addends: 3x", 1)
    page.browser.evaluate(f"rungsheet.lesson.change({{ text: {json.dumps(mistaken)} }})")
    page.until("document.querySelector('.pages .problems')")
    page.at_rest()
    page.browser.evaluate(
        """
        const papers = [...document.querySelectorAll("#place-sheets select")];
        papers.find((one) => one.value === "A4").id = "papers";
        rungsheet.lesson.say("");
        """
    )
    page.reaches("#papers")
    page.chooses("#papers", "A5")
    page.until("document.getElementById('state').textContent.startsWith('Line ')")
    assert page.sees("document.getElementById('papers').value") == "A4"
    page.browser.evaluate("window.printed = false; rungsheet.lesson.say('');")
    page.clicks("#print")
    page.at_rest()
    page.sees_it_drawn()
    assert [page.sees("window.printed"), page.text_of("#state")] == [False, ""]

    # And what another sheet is to take the place of is not printed in its stead.
    page.sees("rungsheet.lesson.undo(), 0")
    page.until("rungsheet.lesson.problems.length === 0")
    shown(page, "starter.pdf")
    page.at_rest()
    page.browser.evaluate(
        """
        window.printed = false;
        document.getElementById("print").click();
        rungsheet.lesson.change({ seed: 2 });
        """
    )
    page.at_rest()
    page.sees_it_drawn()
    assert not page.sees("window.printed")


@pytest.mark.slow
def test_stop_is_for_the_job_that_its_bar_shows(page_as_opened: Teacher) -> None:
    page = page_as_opened
    shown(page, "starter.pdf")
    page.browser.evaluate(
        """
        const { engine } = rungsheet;
        const ask = engine.ask;
        window.ended = [];
        engine.ask = (job, ...given) => {
            const answer = ask.call(engine, job, ...given);
            const ended = (how) => window.ended.push(`${job}: ${how}`);
            answer.then(() => ended("done"), ({ why }) => ended(why));
            return answer;
        };
        """
    )
    page.browser.evaluate(
        """
        rungsheet.lesson.change({ seed: 2 });
        document.getElementById("save-zip").click();
        document.getElementById("stop").click();
        """
    )
    page.until("window.ended.length === 2")
    assert page.sees("window.ended") == ["zip: stopped", "show: done"]
    assert page.sees("document.querySelector('.working').hidden")

    bar = "document.querySelector('.working progress')"
    shown_first = page.browser.evaluate(
        f"""
        document.getElementById("save-pdf").click();
        document.getElementById("save-class-set").click();
        return {bar}.ariaLabel;
        """
    )
    assert shown_first == "Drawing Starter…"
    page.until("window.ended.includes('draw: done')")
    page.until(f"{bar}.ariaLabel === 'Drawing the pack…' && {bar}.max > 90")
    assert not page.sees("document.querySelector('.working').hidden")
    page.clicks("#stop")
    page.until("document.querySelector('.working').hidden")
    assert page.sees("window.ended.slice(2)") == ["draw: done", "zip: stopped"]
    page.browser.evaluate("delete rungsheet.engine.ask; window.saved.length = 0;")
    page.browser.ready()


@pytest.mark.slow
def test_a_text_is_read_though_the_engine_was_stopped_over_it(page_as_opened: Teacher) -> None:
    page = page_as_opened
    page.goes("find")  # where nothing else is asked of a text
    page.at_rest()
    changed = DEMO.replace("Produce stall", "Market stall")
    page.browser.evaluate(
        f"""
        const {{ engine, lesson }} = rungsheet;
        const ask = engine.ask;
        engine.ask = (job, ...given) => {{
            const answer = ask.call(engine, job, ...given);
            if (job === "read") {{
                delete engine.ask;
                engine.stop();
            }}
            return answer;
        }};
        lesson.change({{ text: {json.dumps(changed)} }});
        """
    )
    page.until("rungsheet.lesson.title.startsWith('Market stall')")
