"""Spot the mistake: a question worked by one wrong procedure, to be found and put right."""

import json

import pytest
from hypothesis import given, settings
from hypothesis.strategies import booleans, integers, sampled_from

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Ending, Operation, Question
from generator.forms.asking import CannotBeAskedError, cannot_be_asked
from generator.forms.spot_the_mistake import SpotTheMistake
from generator.operations.methods import Conventions, Working, written_working
from generator.operations.mistakes import mistake_named, mistakes_of
from generator.operations.rungs import rung_set
from generator.operations.worked_wrongly import wrong_working
from generator.operations.working import SMALL_MARKS, Ink
from generator.packs.building import build_pack
from generator.packs.record import RecordError, read_record, record
from generator.packs.working_out import work
from generator.results.class_results import attempt_of
from generator.vocabulary import VOCABULARY
from layouts.key.key import key_pages
from layouts.planning.plan import Grid, PagePlan, Role, Text, Unit
from layouts.planning.type_scale import MM_PER_POINT
from layouts.planning.working_ink import FULL, HANDS
from layouts.sheets.example_pages import printed_pairs
from layouts.sheets.sheet import sheet_pages
from layouts.slides.example_slides import example_pages
from specs import Spec, read_spec
from specs.marks import read_entry
from tests.generator import ladders
from tests.worked import frame_of, worked


def spec(rung: str) -> Spec:
    text = f"title: Beans\nladder:\n  beans: {{{rung}, form: spot the mistake}}\n"
    text += "examples: [beans]\ntiers: {core: {beans: 5}}\n"
    return read_spec(text.encode(), "beans.yaml", VOCABULARY)


RUNGS = [
    "operation: add, places: {ragged: [1, 2]}",
    "operation: add, addends: 3, places: 1, carries: some",
    "operation: subtract, places: 2, exchanges: {count: [1, 2]}",
    "operation: multiply, digits: [3, 1], places: [0, 0], carries: some",
    "operation: multiply, digits: [3, 1], places: [1, 0], zeros: {inside: require}",
    "operation: multiply, digits: [2, 2], places: [1, 1]",
    "operation: divide, divisor: {between: [3, 9]}, dividend: {digits: 3}, ending: remainder",
    "operation: divide, divisor: {between: [3, 9]}, dividend: {digits: 4}, places: 2, "
    "ending: exact, zero_in_quotient: require",
    "operation: divide, divisor: {digits: 1}, divisor_places: 1, dividend: {digits: 3}, "
    "places: 2, ending: exact",
    "operation: divide, divisor: {between: [3, 9]}, dividend: {digits: 3}, ending: {rounded: 2}",
]


@pytest.mark.parametrize("rung", RUNGS)
@pytest.mark.parametrize("seed", range(3))
def test_each_question_shows_the_answer_of_the_mistake_that_the_key_names(
    rung: str, seed: int
) -> None:
    pack = build_pack(spec(rung), seed, versions=2)
    key = " ".join(text.text for page in key_pages(work(pack)) for text in page.texts)
    for section in pack.sections:
        for item in section.items:
            form = item.form
            assert isinstance(form, SpotTheMistake)
            wrong = mistake_named(form.mistake).wrong_answer(item.question)
            assert wrong is not None
            assert form.wrong == wrong.text != item.question.answer_text
            assert any(said in key for said in (f"shown: {form.wrong} ", f"{form.wrong} ("))
            assert mistake_named(form.mistake).in_brief in key
            assert item.question.answer_text in key
        if section.kind == "practice":
            printed = [
                text.text for page in sheet_pages(worked(pack, section)) for text in page.texts
            ]
            assert "mistake" in " ".join(printed)


def test_the_sheet_has_the_wrong_working_and_as_much_room_to_put_it_right() -> None:
    pack = build_pack(spec(RUNGS[2]), 1)
    item = pack.sections[-1].items[0]
    assert isinstance(item.form, SpotTheMistake)
    wrong = wrong_working(item.question, mistake_named(item.form.mistake))
    assert wrong is not None
    frame = frame_of(pack, item, None)
    assert set(frame.squares.marks()) == set(wrong.marks())
    assert frame.squares.rows == 2 * wrong.rows + 1
    assert frame.words.endswith("Find the mistake and put it right.")


@pytest.mark.parametrize("rung", [RUNGS[0], RUNGS[2], RUNGS[3], RUNGS[7]])
def test_an_example_shows_the_wrong_working_then_the_mistake_then_the_right_one(rung: str) -> None:
    pack = build_pack(spec(rung), 4)
    (section,) = pack.of_kind("example")
    shown, match = section.items
    wrong, wrong_match = (
        wrong_working(item.question, mistake_named(item.form.mistake))
        for item in section.items
        if isinstance(item.form, SpotTheMistake)
    )
    assert wrong
    assert wrong_match
    right = written_working(shown.question)
    whole = [_digits(wrong), _digits(right)]
    said = shown.form.lead(shown.question)

    slides = example_pages(worked(pack, section))
    steps = [_on(page, Role.WORKING) for page in slides[: 2 + len(right.steps)]]
    assert [steps[0], steps[1], steps[-1]] == [[whole[0]], [whole[0]], [whole[1]]]
    words = [" ".join(text.text for text in page.texts) for page in slides]
    assert said in words[1]
    assert [said in of_slide for of_slide in words].count(True) == 3
    assert said in words[-1], "the answer says what the match's mistake was"
    assert shown.question.answer_text not in words[0]
    beside = slides[2 + len(right.steps)]
    assert _on(beside, Role.WORKING) == whole, "both stand beside one another at the end"
    assert said in words[2 + len(right.steps)]
    turn = slides[3 + len(right.steps)]
    assert _on(turn, Role.QUESTION) == [_digits(wrong_match)]
    assert f"{match.question.text} =" in words[3 + len(right.steps)]

    printed = printed_pairs(worked(pack, section))
    assert [digits for page in printed for digits in _on(page, Role.WORKING)] == whole
    on_paper = " ".join(text.text for page in printed for text in page.texts)
    assert said in on_paper
    assert on_paper.index(said) < on_paper.index(f"{right.steps[0].sentence}")


def _on(page: PagePlan, role: Role) -> list[list[str]]:
    """The full-sized digits and the points on the squares of each part of a page, in order."""
    found = []
    for part in page.content:
        if isinstance(part, Unit) and part.role is role:
            square = next(item.square for item in part.items if isinstance(item, Grid))
            em = FULL * square / MM_PER_POINT
            full = (t for t in part.items if isinstance(t, Text) and abs(t.size - em) < 1e-6)
            found.append(sorted(t.text for t in full if len(t.text) == 1))
    return found


def _digits(working: Working) -> list[str]:
    full = [mark.text for mark in working.marks() if HANDS[mark.ink].em == FULL]
    return sorted(full + ["." for _ in working.points()])


@pytest.mark.parametrize("rung", RUNGS)
def test_a_match_is_worked_by_the_mistake_of_its_example_where_it_can_be(rung: str) -> None:
    for seed in range(6):
        shown, match = build_pack(spec(rung), seed).of_kind("example")[0].items
        assert isinstance(shown.form, SpotTheMistake)
        assert isinstance(match.form, SpotTheMistake)
        alike = match.form.mistake == shown.form.mistake
        assert alike == bool(SpotTheMistake.by(match.question, shown.form.mistake))


def test_neighbours_show_different_mistakes_where_they_can() -> None:
    pack = build_pack(spec(RUNGS[2]), 1)
    found = {
        item.form.mistake
        for item in pack.sections[-1].items
        if isinstance(item.form, SpotTheMistake)
    }
    assert len(found) > 1


def test_the_form_is_in_the_record() -> None:
    pack = build_pack(spec(RUNGS[0]), 1)
    plain = json.loads(json.dumps(record(pack)))
    for read, built in zip(read_record(plain).sections, pack.sections, strict=True):
        assert [item.form for item in read.items] == [item.form for item in built.items]
    plain["sections"][0]["questions"][0]["shown"] = "1"
    with pytest.raises(RecordError, match="does not hold together"):
        read_record(plain)


def test_what_is_marked_is_the_right_answer_and_nothing_is_diagnosed() -> None:
    item = build_pack(spec(RUNGS[0]), 1).sections[-1].items[0]
    right, wrong = read_entry(item.question.answer_text), read_entry("1000")
    assert right is not None
    assert wrong is not None
    assert attempt_of(item, right).right
    assert not attempt_of(item, wrong).right
    assert not attempt_of(item, wrong).is_known


def test_a_rung_that_shows_no_mistake_is_refused() -> None:
    with pytest.raises(CannotBeAskedError, match="shows a mistake that can be set out"):
        build_pack(spec("operation: add, places: 0, whole: 1, carries: none"), 1)


# What stands on the squares.

TIMES, BY = Operation.MULTIPLY, Operation.DIVIDE

WORKED = [
    # the question, the mistake, the rows as a marker reads them (small digits in brackets)
    (TIMES, "24", "6", "carry not added in multiplying", [" 24", "×6", "124"]),
    (TIMES, "24", "6", "carry added before multiplying", [" 24", "×6", "244", "(2)"]),
    (
        TIMES,
        "24",
        "6",
        "carried and kept figures swapped in multiplying",
        ["24", "×6", "162", "(4)"],
    ),
    (TIMES, "304", "6", "zero digits skipped in multiplying", ["304", "×6", "204", "(2)"]),
    (
        TIMES,
        "24",
        "16",
        "rows of a long multiplication not moved along",
        ["24", "×16", "1(2)44", "24", "168"],
    ),
    (TIMES, "0.6", "0.7", "point placed as in addition", ["0.6×0.7", "6×7=42", "4.2"]),
    (
        TIMES,
        "2.4",
        "0.6",
        "carry not added in multiplying",
        ["2.4×0.6", "2.4=24÷10", "0.6=6÷10", "10×10=100", "24", "×6", "124", "", "1.24"],
    ),
    (BY, "98", "7", "remainder not carried", ["11r1", "798"]),
    (BY, "9.8", "7", "remainder not carried", ["1.1", "79.8"]),
    (BY, "3.64", "7", "remainder not carried", ["0.50", "73.(3)64"]),
    (BY, "816", "8", "zero left out of a quotient", ["12", "881(1)6"]),
    (BY, "8.16", "8", "zero left out of a quotient", ["1.2", "88.1(1)6"]),
    (BY, "0.98", "0.7", "remainder not carried", ["0.98÷0.7=9.8÷7", "", "1.1", "79.8"]),
]


def rows_of(working: Working) -> list[str]:
    """The rows from the top, as they are read from left to right."""
    rows = []
    for row in range(working.rows):
        written = [
            (
                mark.column,
                mark.ink not in SMALL,
                f"({mark.text})" if mark.ink in SMALL else mark.text,
            )
            for mark in working.marks()
            if mark.row == row
        ]
        written += [(p.column, True, ".") for p in working.points() if p.row == row]
        rows.append("".join(text for *_, text in sorted(written, key=lambda part: part[:2])))
    while rows and not rows[-1]:
        rows.pop()
    return rows


SMALL = SMALL_MARKS | {Ink.CARRY}


@pytest.mark.parametrize(("operation", "first", "second", "name", "rows"), WORKED)
def test_products_and_quotients_worked_wrongly(
    operation: Operation, first: str, second: str, name: str, rows: list[str]
) -> None:
    ending = Ending.REMAINDER if rows[0].count("r") else Ending.EXACT
    question = Question(operation, (Number.parse(first), Number.parse(second)), ending)
    working = wrong_working(question, mistake_named(name))
    assert working is not None
    assert [row.replace(" ", "") for row in rows_of(working)] == [r.strip() for r in rows]


@pytest.mark.parametrize(
    "rung",
    [
        "operation: multiply, digits: {between: [1, 3]}, places: {between: [0, 2]}",
        "operation: divide, divisor: {between: [2, 12]}, dividend: {digits: 4},"
        " places: {between: [0, 2]}, ending: exact",
        "operation: divide, divisor: {digits: 2}, dividend: {digits: 4}, ending: remainder",
        "operation: divide, divisor: {between: [3, 9]}, dividend: {digits: 3}, "
        "ending: {rounded: 1}",
        "operation: divide, divisor: {between: [3, 9]}, dividend: {digits: 4}, places: 2, "
        "ending: {rounded: 0}",
        RUNGS[0],
        RUNGS[2],
    ],
)
@given(at=integers(0, 10**9), carries=sampled_from(["below", "above", "between"]), point=booleans())
@settings(max_examples=40, deadline=None)
@pytest.mark.slow
def test_the_squares_hold_the_answer_of_the_one_procedure_and_no_digit_on_another(
    rung: str, at: int, carries: str, point: bool
) -> None:
    questions = rung_set(spec(rung).ladder[0])
    question = questions.unrank(at % questions.count)
    agreed = Conventions(carries=carries, point="column" if point else "line")
    for mistake in mistakes_of(question.operation):
        wrong = mistake.wrong_answer(question)
        working = wrong_working(question, mistake, agreed)
        if wrong is None:
            assert working is None
        elif working is not None:
            left = working.remainder.value if working.remainder else 0
            assert (working.answer.value, left) == (wrong.value, wrong.left)
            full = [(m.row, m.column) for m in working.marks() if m.ink not in SMALL_MARKS]
            struck = {(s.row, s.column) for s in working.strikes()}
            assert len(set(full)) == len(full) or struck
            assert all(0 <= m.column < working.columns for m in working.marks())
            assert all(0 <= m.row < working.rows for m in working.marks())


def test_how_a_division_is_to_end_is_said() -> None:
    pack = build_pack(spec(RUNGS[-1]), 1)
    printed = " ".join(
        t.text for page in sheet_pages(worked(pack, pack.sections[-1])) for t in page.texts
    )
    assert "Answer to 2 decimal places." in " ".join(printed.split())


def test_there_is_as_much_room_as_the_right_division_may_need() -> None:
    item = build_pack(spec(RUNGS[-1]), 1).sections[-1].items[0]
    frame = frame_of(build_pack(spec(RUNGS[-1]), 1), item, None)
    width = len(str(item.question.operands[1])) + len(str(item.question.operands[0]))
    assert frame.squares.columns >= width + 3  # two places and the one that is rounded away
    assert frame.squares.rules
    assert frame.squares.uprights


@pytest.mark.parametrize("pages", ["{paper: A5}", "{large: 24}", "{squares: 10}"])
def test_small_pages_have_less_room_below_the_wrong_working(pages: str) -> None:
    text = f"title: Beans\nladder:\n  beans: {{{LONG}, form: spot the mistake}}\n"
    text += f"tiers: {{core: {{beans: 4}}}}\npages: {pages}\n"
    pack = build_pack(read_spec(text.encode(), "beans.yaml", VOCABULARY), 2)
    planned = sheet_pages(worked(pack, pack.sections[0]))
    assert sum(text.text == "×" for page in planned for text in page.texts) >= 4


LONG = "operation: multiply, digits: [3, 2], places: [1, 1]"


@pytest.mark.parametrize(
    ("refused", "accepted", "named"),
    [
        ("multiply, factors: 3, places: 0", "multiply, places: 0", "products of two numbers"),
        ("divide, ending: fraction", "divide, ending: remainder", "do not end with a fraction"),
    ],
)
def test_the_refusal_names_what_would_do(refused: str, accepted: str, named: str) -> None:
    asked = {"no": refused, "yes": accepted}
    rungs = [
        f"{name}: {{operation: {text}, form: {SpotTheMistake.name}}}"
        for name, text in asked.items()
    ]
    (found,) = cannot_be_asked(ladders.spec("\n".join(rungs)).ladder)
    assert found.rung.name == "no"
    assert named in found.instead
