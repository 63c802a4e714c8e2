"""``methods:``: the written method of each operation, chosen in the spec."""

import pytest

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Ending, Operation, Question
from generator.forms.table import FORMS
from generator.operations.methods import Conventions, written_working
from generator.operations.mistakes import MISTAKES_OF_METHODS, mistakes_in_methods
from generator.packs.building import build_pack
from generator.packs.likely_answers import likely_among, wrong_answers
from generator.packs.working_out import conventions, work
from generator.vocabulary import VOCABULARY
from specs.digest import digest_of
from specs.problems import SpecError
from specs.reading import read_spec
from specs.spec import FRAMES, Methods
from specs.writing import spec_text

LADDER = """\
title: Produce stall
ladder:
  adding: {operation: add, places: {ragged: [1, 2]}}
  taking: {operation: subtract, places: 1, whole: 2, form: FORM}
  times: {operation: multiply, digits: [2, 2], places: [1, 0], form: FORM}
  sharing: {operation: divide, dividend: {digits: 3}, places: 1, form: FORM}
starter: {adding: 1, taking: 2, times: 2, sharing: 2}
examples: [taking, times, sharing]
"""


def spec(more: str = "", form: str = "plain"):
    text = LADDER.replace("FORM", form) + more
    return read_spec(text.encode(), "stall.yaml", VOCABULARY)


CHOSEN = "methods: {add: without noughts, subtract: counting up, multiply: grid, divide: long}\n"
OTHERS = "methods: {subtract: equal addition, multiply: expanded, divide: chunking}\n"


def test_methods_are_read_and_written_again():
    chosen = spec(CHOSEN)
    assert chosen.methods == Methods("without noughts", "counting up", "grid", "long")
    again = read_spec(spec_text(chosen).encode(), "stall.yaml", VOCABULARY)
    assert again.methods == chosen.methods
    assert digest_of(again) == digest_of(chosen) != digest_of(spec())


def test_what_pages_say_of_methods_still_holds():
    older = spec("pages: {subtraction: equal addition, placeholders: false}\n")
    agreed = conventions(older.presentation)
    assert (agreed.subtraction, agreed.placeholders) == ("equal addition", False)
    newer = spec("methods: {subtract: equal addition, add: with noughts}\n")
    agreed = conventions(newer.presentation)
    assert agreed.subtraction == "equal addition"
    assert agreed.of_addition.placeholders


@pytest.mark.parametrize(
    ("more", "line", "said"),
    [
        ("methods: {subtract: counting}\n", 9, "counting up"),
        ("methods: {multiplying: grid}\n", 9, "did you mean 'multiply'?"),
        (
            "pages: {subtraction: equal addition}\nmethods: {subtract: counting up}\n",
            10,
            "keep one of them",
        ),
    ],
)
def test_a_method_that_is_none_is_said_with_its_line(more, line, said):
    with pytest.raises(SpecError) as refused:
        spec(more)
    (problem,) = refused.value.problems
    assert problem.line == line
    assert said in problem.instead


def test_no_method_changes_which_questions_are_chosen():
    usual = [item.question for section in build_pack(spec(), 7).sections for item in section.items]
    for more in (CHOSEN, OTHERS):
        chosen = build_pack(spec(more), 7)
        assert [i.question for section in chosen.sections for i in section.items] == usual


@pytest.mark.parametrize("more", [CHOSEN, OTHERS])
@pytest.mark.parametrize("form", [form.name for form in FORMS if form.name != "in words"])
def test_every_form_can_be_worked_and_framed_by_every_method(form, more):
    asked = (
        LADDER if form != "known fact" else LADDER.replace("places: 1, whole: 2, form: FORM", "")
    )
    text = asked.replace("FORM", form).replace("subtract, }", "subtract}") + more
    pack = build_pack(read_spec(text.encode(), "stall.yaml", VOCABULARY), 3)
    for section in work(pack):
        for item in section.items:
            assert item.working.steps
            assert item.example.right.fits_its_squares
            for kind in FRAMES:
                frame = item._item.form.set_out(item._written, kind)
                assert frame.squares.rows >= 1


# Each method has its own mistakes: a pupil who never carries does not forget to.


def named(question: Question, agreed: Conventions) -> dict[str, str]:
    wrong = wrong_answers(question, agreed.ways)
    return {m.name: given.text for m, given in wrong.items() if given is not None}


BY = {
    "grid": Conventions(multiplication="grid"),
    "counting up": Conventions(subtraction="counting up"),
    "chunking": Conventions(division="chunking"),
}


@pytest.mark.parametrize(
    ("way", "asked", "mistake", "gives"),
    [
        ("grid", "34 × 27", "only matching parts multiplied", "628"),
        ("grid", "3.4 × 2.7", "only matching parts multiplied", "6.28"),
        ("grid", "34 × 27", "a nought too few in a product of parts", "378"),
        ("counting up", "932 − 457", "last jump left out", "443"),
        ("counting up", "932 − 457", "first jump left out", "472"),
        ("chunking", "432 ÷ 15", "last chunk not counted", "27 r 12"),
    ],
)
def test_a_methods_own_mistakes_are_likely_where_it_is_chosen(way, asked, mistake, gives):
    first, sign, second = asked.split(" ")
    (operation,) = [operation for operation in Operation if operation.sign == sign]
    ending = Ending.REMAINDER if sign == "÷" else Ending.EXACT
    question = Question(operation, (Number.parse(first), Number.parse(second)), ending)
    assert named(question, BY[way])[mistake] == gives
    assert mistake not in named(question, Conventions())
    assert mistake in {m.name for m in MISTAKES_OF_METHODS}
    assert written_working(question, BY[way]).agrees_with(question)


def test_mistakes_of_other_methods_are_not_expected():
    left = {mistake.name for mistake in mistakes_in_methods(Operation.MULTIPLY, BY["grid"].ways)}
    assert "carry not added in multiplying" not in left
    assert "rows of a long multiplication not moved along" not in left
    asked = Question(Operation.SUBTRACT, (Number(63), Number(29)))
    likely = likely_among(wrong_answers(asked, BY["counting up"].ways))
    assert "smaller digit taken from larger" not in {
        m.name for like in likely for m in like.mistakes
    }


BY_PART = """\
title: By the grid, then long
ladder:
  times: {operation: multiply, digits: [2, 2], places: [1, 0]}
  taking: {operation: subtract, places: 1, whole: 2}
lesson:
  - examples: {methods: {multiply: grid}, questions: [times, taking]}
  - practice:
      methods: {multiply: grid, subtract: equal addition}
      tiers:
        support: {frames: full, questions: {times: 2, taking: 1}}
        core: {methods: {multiply: columns}, questions: {times: 2, taking: 1}}
  - examples: [times]
  - exit: {questions: {times: 1}, methods: {multiply: expanded}}
"""

SHORT = """\
title: By the grid, then long
ladder: {times: {operation: multiply, digits: [2, 2], places: [1, 0]}}
starter: {methods: {multiply: grid}, questions: {times: 1}}
examples: [times]
tiers: {core: {times: 1}, more: {questions: {times: 1}, methods: {multiply: expanded}}}
methods: {multiply: columns}
"""


def by_part(text: str = BY_PART):
    return read_spec(text.encode(), "stall.yaml", VOCABULARY)


def section_of(text: str, name: str):
    (section,) = work(build_pack(by_part(text), seed=3)).named(name)
    return section


@pytest.mark.parametrize(
    ("text", "name", "agreed"),
    [
        (BY_PART, "examples", Conventions(multiplication="grid")),
        (BY_PART, "support", Conventions(multiplication="grid", subtraction="equal addition")),
        (BY_PART, "core", Conventions(subtraction="equal addition")),
        (BY_PART, "examples-2", Conventions()),
        (BY_PART, "exit", Conventions(multiplication="expanded")),
        (SHORT, "starter", Conventions(multiplication="grid")),
        (SHORT, "examples", Conventions()),
        (SHORT, "core", Conventions()),
        (SHORT, "more", Conventions(multiplication="expanded")),
    ],
)
def test_each_part_is_worked_by_its_own_methods(text, name, agreed):
    for item in section_of(text, name).items:
        question = item._item.question
        assert item.working == written_working(question, agreed)
        of_its_methods = set(mistakes_in_methods(question.operation, agreed.ways))
        assert {m for likely in item.likely for m in likely.mistakes} <= of_its_methods


def test_a_frame_is_of_the_method_of_its_part():
    by_grid = section_of(BY_PART, "support").items[0]
    long = section_of(BY_PART.replace("{multiply: grid, sub", "{sub"), "support").items[0]
    assert by_grid.calculation == long.calculation
    assert by_grid.frame != long.frame


@pytest.mark.parametrize("text", [BY_PART, SHORT])
def test_methods_of_parts_change_codes_and_no_question(text):
    chosen = by_part(text)
    again = read_spec(spec_text(chosen).encode(), "stall.yaml", VOCABULARY)
    assert again.sections == chosen.sections
    assert digest_of(again) == digest_of(chosen)
    other = by_part(text.replace("multiply: grid", "multiply: expanded"))
    assert digest_of(other) != digest_of(chosen)
    asked = [[i.question for i in s.items] for s in build_pack(chosen, 5).sections]
    assert asked == [[i.question for i in s.items] for s in build_pack(other, 5).sections]


def test_columns_said_or_not_is_one_spec():
    assert digest_of(by_part(SHORT)) == digest_of(by_part(SHORT.rsplit("methods", 1)[0]))


def test_what_is_no_method_of_a_part_is_told_at_its_line():
    with pytest.raises(SpecError) as told:
        by_part(BY_PART.replace("multiply: expanded", "multiply: lattice"))
    (problem,) = told.value.problems
    assert (problem.line, "lattice" in problem.what) == (13, True)
