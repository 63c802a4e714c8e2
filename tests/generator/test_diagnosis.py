"""What a pupil's and a class's answers say: worked pupils, thresholds, and laws."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Ending, Operation, Question
from generator.forms.missing_number import MissingNumber
from generator.forms.spot_the_mistake import SpotTheMistake
from generator.operations.mistakes import agree, is_right, mistake_named, mistakes_of, right_reply
from generator.packs.likely_answers import likely_wrong_answers, power
from generator.packs.pack import Item, Section
from generator.packs.record import PackRecord
from generator.results.attempts import Attempt
from generator.results.class_results import RETEACH_ANSWERS, ClassResults, Settle, class_results
from generator.results.diagnosis import NAMED_FROM, Finding, Habit, Kind, diagnose
from generator.results.mark_sheet import MarkColumn, mark_columns, mark_sheet, other_names
from generator.results.pupil_model import field_of
from specs.marks import Marks, read_marks
from specs.replies import Reply, read_order, read_replies, read_sign
from tests.generator.test_mistakes import asked, questions

SMALLER = "smaller digit taken from larger"
LINED_UP = "numbers lined up at the right-hand end"

# Each of the first six needs an exchange; by hand, no source.
EXCHANGES = ["63 − 29", "42 − 18", "253 − 118", "671 − 428", "85 − 37", "34 − 16"]
RAGGED = ["3.4 + 0.27", "2.4 + 1.375", "0.8 + 0.15", "1.25 + 3.4", "0.6 + 0.125", "2 + 0.35"]
EASY = ["5 + 3", "24 + 15", "40 + 19", "62 − 21", "95 − 43", "3.5 + 1.2"]


def following(name: str | None, texts: list[str]) -> list[Attempt]:
    """The attempts of a pupil who never slips."""
    attempts = []
    for text in texts:
        question = asked(text)
        reply = mistake_named(name).wrong_answer(question) if name else None
        attempts.append(Attempt.answered(question, (reply or right_reply(question),)))
    return attempts


def slipped(text: str, answer: str) -> Attempt:
    return Attempt.answered(asked(text), read_replies(answer))


def found(attempts: list[Attempt]) -> tuple[str, str | None]:
    finding = diagnose(attempts)
    return str(finding.kind), finding.mistake.name if finding.mistake else None


def test_all_right_is_secure_from_four_answers_on() -> None:
    assert found(following(None, EASY[:4])) == ("secure", None)
    assert found(following(None, EASY[:3])) == ("not enough to say", None)
    assert diagnose([]) == Finding(Kind.NOT_ENOUGH)


@pytest.mark.parametrize("name", [SMALLER, "exchange without lowering the next column"])
def test_three_answers_by_one_procedure_are_a_habit(name: str) -> None:
    assert found(following(name, EXCHANGES[:4])) == ("habit", name)
    assert found(following(name, EXCHANGES[:3] + EASY)) == ("habit", name)


def test_two_answers_by_one_procedure_are_a_habit_where_no_slip_gives_them() -> None:
    finding = diagnose(following(SMALLER, EXCHANGES[:1] + EXCHANGES[3:4] + EASY))
    assert finding.kind is Kind.HABIT
    assert finding.mistake == mistake_named(SMALLER)
    assert finding.how_sure == "almost certain"


def test_less_than_four_answers_are_never_a_habit_but_point_at_one() -> None:
    finding = diagnose(following(SMALLER, EXCHANGES[:3]))
    assert (finding.kind, finding.also) == (Kind.NOT_ENOUGH, (mistake_named(SMALLER),))


def test_an_unsteady_habit_is_named_and_how_often_it_showed() -> None:
    attempts = following(SMALLER, EXCHANGES[:4]) + following(None, EXCHANGES[4:])
    finding = diagnose(attempts)
    assert finding.mistake == mistake_named(SMALLER)
    assert (finding.explained, finding.shows) == (4, 6)
    half = diagnose(following(SMALLER, EXCHANGES[:3]) + following(None, EXCHANGES[3:]))
    assert (half.kind, half.also) == (Kind.NOT_ENOUGH, (mistake_named(SMALLER),))


def test_a_procedure_that_shows_only_now_and_then_is_no_habit() -> None:
    harder = ["52 − 27", "90 − 34", "81 − 46", "364 − 137", "73 − 55", "45 − 28"]
    attempts = following(SMALLER, EXCHANGES[:2]) + following(None, EXCHANGES[2:] + harder)
    assert found(attempts)[0] != "habit"


def test_one_wrong_answer_among_many_is_a_slip_even_when_a_procedure_gives_it() -> None:
    attempts = following(None, EASY + EXCHANGES[1:]) + following(SMALLER, EXCHANGES[:1])
    assert found(attempts) == ("slips", None)
    assert found([*following(None, EASY), slipped("63 − 29", "33")]) == ("slips", None)


def test_many_wrong_answers_of_no_kind_are_not_enough_to_say() -> None:
    attempts = [slipped(text, str(900 + n)) for n, text in enumerate(EXCHANGES)]
    finding = diagnose(attempts + following(None, EXCHANGES[:3]))
    assert (finding.kind, finding.mistake) == (Kind.NOT_ENOUGH, None)
    assert finding.unknown == ("subtractions",)


def test_a_habit_outlives_a_slip() -> None:
    attempts = [*following(SMALLER, EXCHANGES[:5]), slipped("34 − 16", "19")]
    assert found(attempts) == ("habit", SMALLER)


def test_a_habit_in_moving_digits_is_weighed_against_questions_of_moving_digits_alone() -> None:
    name = "nought added at the end"
    moved = [
        Question(Operation.MULTIPLY, (Number.parse(text), Number(10)), Ending.MOVED)
        for text in ("3.45", "1.2", "0.75")
    ]
    habit = [Attempt.answered(q, (mistake_named(name).works(q),)) for q in moved]
    others = [slipped(text, "1") for text in ("23 × 4", "1.5 × 3", "72 × 6", "0.9 × 5")]
    assert found(habit + others) == ("habit", name)


def test_procedures_that_cannot_be_told_apart_are_one_finding_with_both_names() -> None:
    # Where the upper digit is 0, both write the lower digit.
    texts = ["40 − 17", "60 − 23", "90 − 41"]
    (habit,) = diagnose(following("zero minus n gives n", [*texts, *EASY])).habits
    assert [mistake.name for mistake in habit.mistakes] == [SMALLER, "zero minus n gives n"]
    told_apart = following("zero minus n gives n", [*texts, "42 − 18", "63 − 29"])
    assert found(told_apart) == ("habit", "zero minus n gives n")
    assert diagnose(told_apart).also == ()


def test_procedures_with_one_follow_up_are_one_finding() -> None:
    texts = ["24 + 18", "35 + 27", "46 + 16", "15 + 23"]  # no column at the left makes ten
    finding = diagnose(following("carry dropped", texts))
    assert finding.mistake == mistake_named("carry written but not added")
    assert finding.also == (mistake_named("carry dropped"),)
    assert found(following("carry dropped", [*texts, "67 + 58"])) == ("habit", "carry dropped")


def test_two_at_once_are_named_only_where_both_show() -> None:
    both = f"{SMALLER} and one taken where the lower number has no digit"
    assert found(following(both, ["671 − 28", "352 − 17", "463 − 38", "50 − 20"])) == (
        "habit",
        both,
    )
    assert found(following(SMALLER, EXCHANGES[:4])) == ("habit", SMALLER)


def test_ticks_and_crosses_show_slips_and_what_is_not_there_yet_but_never_a_habit() -> None:
    crosses = [Attempt(asked(text), False, rung="exchanges") for text in EXCHANGES]
    finding = diagnose([*following(None, EASY), *crosses])
    assert (finding.kind, finding.mistake) == (Kind.NOT_THERE, None)
    assert finding.not_there == ("exchanges",)
    assert finding.secure_on == ("add",)  # attempts without a rung go by their operation
    assert finding.how_sure == "almost certain"
    two = diagnose([*following(None, EASY), *crosses[:2]])
    assert (two.kind, two.perhaps_not_there) == (Kind.NOT_ENOUGH, ("exchanges",))
    assert found([*following(None, EXCHANGES[1:]), crosses[0]]) == ("slips", None)
    # the only question with an exchange: that may be a slip, or be all there is to know
    assert found([*following(None, EASY), crosses[0]]) == ("not enough to say", None)


def test_one_habit_in_additions_and_another_in_subtractions_are_both_named() -> None:
    finding = diagnose(following(LINED_UP, RAGGED[:4]) + following(SMALLER, EXCHANGES[:4]))
    assert {habit.mistake.name for habit in finding.habits} == {LINED_UP, SMALLER}
    assert [habit.fields for habit in finding.habits] == [("additions",), ("subtractions",)]
    assert [(habit.explained, habit.shows) for habit in finding.habits] == [(4, 4), (4, 4)]
    assert finding.mistake == mistake_named(LINED_UP)


def test_one_habit_in_two_operations_is_named_once() -> None:
    ragged_differences = ["3.75 − 1.2", "8.65 − 0.3", "7.25 − 2.1", "9.48 − 3.5"]
    finding = diagnose(following(LINED_UP, RAGGED[:3] + ragged_differences))
    (habit,) = finding.habits
    assert habit.mistakes == (mistake_named(LINED_UP),)
    assert habit.fields == ("additions", "subtractions")
    assert habit.explained == habit.shows == 7


def test_two_habits_in_one_operation_are_both_named_where_each_shows_alone() -> None:
    ragged = ["5.3 − 2.11", "6.7 − 1.125", "8.6 − 0.35"]  # nothing stands over the last digit
    attempts = following(SMALLER, EXCHANGES[:4])
    attempts += following("missing place left out", ragged)
    smaller, left_out = sorted(diagnose(attempts).habits, key=lambda habit: len(habit.mistakes))
    assert smaller.mistakes == (mistake_named(SMALLER),)
    # 5.30 − 2.11 is 3.2 for both of these
    names = ["zero minus n gives 0", "missing place left out"]
    assert [mistake.name for mistake in left_out.mistakes] == names


@pytest.mark.slow
@given(st.lists(st.tuples(questions(), st.integers(0, 3)), max_size=12))
def test_a_habit_is_likely_and_gave_wrong_answers(pairs: list[tuple[Question, int]]) -> None:
    attempts = []
    for question, wish in pairs:
        likely = [found.reply for found in likely_wrong_answers(question)]
        reply = likely[wish] if wish < len(likely) else right_reply(question)
        attempts.append(Attempt.answered(question, (reply,)))
    finding = diagnose(attempts)
    assert bool(finding.habits) is (finding.kind is Kind.HABIT) is (finding.mistake is not None)
    for habit in finding.habits:
        assert NAMED_FROM <= habit.sure < 1.001
        explained = [
            a
            for a in attempts
            if field_of(a.question) in habit.fields
            and not a.right
            and any(agree(a.question, w, a.replies[0]) for w in wrong_by(habit, a.question))
        ]
        assert len(explained) == habit.explained >= 1
        assert habit.explained <= habit.shows


def wrong_by(habit: Habit, question: Question) -> list[Reply]:
    given = (mistake.wrong_answer(question) for mistake in habit.mistakes)
    return [reply for reply in given if reply is not None]


def test_likely_wrong_answers_join_the_names_that_give_the_same() -> None:
    likely = likely_wrong_answers(asked("5.3 − 2.17"))
    assert [answer.reply.text for answer in likely] == ["3.27", "3.23", "3.2"]
    assert likely[0].names.startswith(f"{SMALLER}; or missing place copied down")


@given(questions())
def test_likely_wrong_answers_are_few_different_and_wrong(question: Question) -> None:
    likely = likely_wrong_answers(question)
    assert len(likely) <= 3
    assert len({answer.reply for answer in likely}) == len(likely)
    for answer in likely:
        assert not is_right(question, answer.reply)
        assert all(m.wrong_answer(question) == answer.reply for m in answer.mistakes)


def test_power_says_what_a_set_of_questions_can_show() -> None:
    shown = power(map(asked, ["63 − 29", "62 − 21"]))
    caught = {mistake.name: count for mistake, count in shown.catches}
    assert caught[SMALLER] == 1
    assert caught["adds instead"] == 2
    assert mistake_named("stops at a zero") in shown.misses
    assert mistake_named("carry dropped") not in shown.misses  # no addition is asked
    assert shown.separates(mistake_named(SMALLER), mistake_named("stops at a zero"))
    alike = power([asked("40 − 17")])
    assert (mistake_named(SMALLER), mistake_named("zero minus n gives n")) in alike.alike
    assert not alike.separates(mistake_named("zero minus n gives n"), mistake_named(SMALLER))


@pytest.mark.parametrize(
    ("name", "given"),
    [
        ("zero left out of a quotient", ["9 3/5", "7 2/5", "12 1/5", "16 2/5"]),
        ("zero left out of a quotient", ["9 r 3", "7 r 2", "12 r 1", "16 r 2"]),
    ],
)
def test_a_habit_shows_however_what_is_left_over_is_written(name: str, given: list[str]) -> None:
    texts = ["453 ÷ 5", "352 ÷ 5", "511 ÷ 5", "532 ÷ 5"]  # 90 3/5, 70 2/5, 102 1/5, 106 2/5
    questions = [asked(text, Ending.FRACTION) for text in texts]
    attempts = [
        Attempt.answered(question, read_replies(text))
        for question, text in zip(questions, given, strict=True)
    ]
    assert found(attempts) == ("habit", name)


def test_what_is_worked_wrongly_is_marked_by_the_right_answer_however_written() -> None:
    item = Item(
        "a", "sp", asked("432 ÷ 5", Ending.REMAINDER), "", (), form=SpotTheMistake("", "80 r 2")
    )
    (column,) = mark_columns([Section("core", "practice", 1, None, (item,))])
    sheet = b"pupil,core.a\n1,86 r 2\n2,86 2/5\n3,86\n4,y\n5,n\n"
    results = class_results((column,), read((column,), sheet))
    assert [pupil.right for pupil in results.pupils] == [1, 1, 0, 1, 0]


def test_answers_are_counted_together_however_they_are_written() -> None:
    columns = mark_columns([section("core", ["3.25 + 8.61"], "level")])
    sheet = b"pupil;core.a\n1;1186\n2;1,186\n3;1 186\n4;5\n"
    (question,) = class_results(columns, read(columns, sheet)).questions
    assert [(wrong.pupils, [m.name for m in wrong.mistakes]) for wrong in question.wrong] == [
        (("1", "2", "3"), ["point ignored"]),
        (("4",), []),
    ]


def test_what_goes_in_a_box_is_marked_and_never_diagnosed() -> None:
    items = [
        Item("abcdef"[n], "boxes", asked(text), "", (), form=MissingNumber(0))
        for n, text in enumerate(EXCHANGES)
    ]
    columns = mark_columns([Section("core", "practice", 1, None, tuple(items))])
    names = [column.name for column in columns]
    header = ",".join(["pupil", *names])
    hidden = "1,63,42,253,671,85,34"
    answers = "2,46,36,145,263,52,22"  # as smaller digit taken from larger gives them
    sheet = "\n".join([header, hidden, answers]).encode()
    results = class_results(columns, read(columns, sheet))
    assert [(p.right, str(p.finding.kind)) for p in results.pupils] == [
        (6, "secure"),
        (0, "not there yet"),
    ]
    assert results.pupils[1].finding.mistake is None
    assert results.pupils[1].finding.not_there == ("boxes",)
    assert not results.questions[0].wrong[0].mistakes


def read(columns: tuple[MarkColumn, ...], sheet: bytes) -> Marks:
    asked_in = {column.name: column.asked for column in columns}
    return read_marks(sheet, "marks.csv", asked_in, other_names(columns))


def section(name: str, texts: list[str], rung: str, kind: str = "practice") -> Section:
    items = [Item("abcdefghi"[n], rung, asked(text), "", ()) for n, text in enumerate(texts)]
    return Section(name, kind, 1, None, tuple(items))


LESSON = (
    section("starter", RAGGED[:4], "ragged", "starter"),
    section("examples", EASY[:2], "easy", "example"),
    section("core", EXCHANGES, "exchanges"),
)


def marked(*rows: str) -> ClassResults:
    columns = mark_columns(LESSON)
    header = ",".join(["pupil", *(column.name for column in columns)])
    sheet = "\n".join([header, *rows]).encode()
    return class_results(columns, read(columns, sheet))


RIGHT = "3.67,3.775,0.95,4.65"


def test_a_mark_sheet_has_a_row_a_pupil_and_a_column_a_question() -> None:
    record = PackRecord("Stall", 4, "K7HM-D4-T", LESSON, "")
    lines = mark_sheet(record).split("\r\n")
    assert lines[0] == (
        "pupil (K7HM-D4-T),starter.a,starter.b,starter.c,starter.d,"
        "core.a,core.b,core.c,core.d,core.e,core.f"
    )
    assert lines[1] == "1,,,,,,,,,,"
    assert lines[30].startswith("30,")
    assert lines[31:] == [""]


def test_a_class_is_told_apart_and_grouped() -> None:
    results = marked(
        f"1,{RIGHT},46,36,145,263,52,22",
        f"2,{RIGHT},34,24,135,243,48,18",
        f"3,{RIGHT},34,24,135,243,48,19",
        f"4,{RIGHT},46,36,145,263,52,22",
        "5,3.67,,,,,,,,,",
        "6,,,,,,,,,,",
    )
    assert [str(p.finding.kind) for p in results.pupils] == [
        *("habit", "secure", "slips", "habit", "not enough to say", "not enough to say")
    ]
    assert [(group.name, group.pupils) for group in results.groups] == [
        (SMALLER, ("1", "4")),
        ("slips", ("3",)),
        ("not enough to say", ("5",)),
        ("secure", ("2",)),
    ]
    first = results.questions[4]
    assert (first.column.name, first.attempted, first.right) == ("core.a", 4, 2)
    assert first.wrong[0].text == "46"
    assert first.wrong[0].pupils == ("1", "4")
    assert first.wrong[0].mistakes[0].name == SMALLER
    assert results.reteach == ("exchanges",)


def test_what_is_open_says_which_questions_would_settle_it() -> None:
    """Whoever writes 37 and 43 takes the smaller digit from the larger, or 0 minus n for n."""
    alike, telling = ["40 − 17", "60 − 23", "5 + 3", "24 + 15"], ["42 − 18", "63 − 29"]
    for sections, unanswered, named in (
        ((section("core", alike + telling, "exchanges"),), True, ("core.e", "core.f")),
        (
            (section("core", alike, "exchanges"), section("support", telling, "exchanges")),
            False,
            ("support.a", "support.b"),
        ),
        ((section("core", alike, "exchanges"),), False, ()),
    ):
        columns = mark_columns(sections)
        header = ",".join(["pupil", *(column.name for column in columns)])
        sheet = "\n".join([header, "1,37,43,8,39,,", "2,23,37,8,39,,"]).encode()
        open_, settled = class_results(columns, read(columns, sheet)).pupils
        assert [m.name for m in open_.finding.habits[0].mistakes] == [
            SMALLER,
            "zero minus n gives n",
        ]
        assert open_.settle == Settle(named, unanswered)
        assert settled.finding.kind is Kind.SECURE
        assert settled.settle is None


def test_a_rung_is_taught_again_on_enough_evidence_only() -> None:
    few = marked("1,1,1,1,1")
    assert few.rungs[0].attempted < RETEACH_ANSWERS
    assert few.reteach == ()
    assert marked("1,1,1,1,1", "2,1,,,").reteach == ("ragged",)
    assert marked("1,3.67,3.775,0.95,1", "2,1,,,").reteach == ()  # three of five are right


# Numbers in order: what is given by whom, after Resnick et al. (1989), from memory.

PAIRS = ["4.8 4.63", "0.5 0.36", "4.7 4.08", "0.4 0.83", "2.45 2.5", "0.6 0.50"]


def compared(text: str) -> Question:
    first, second = map(Number.parse, text.split())
    return Question(Operation.COMPARE, (first, second))


def ordered(text: str) -> Question:
    return Question(Operation.ORDER, tuple(map(Number.parse, text.split())))


@pytest.mark.parametrize(
    ("name", "signs", "order"),
    [
        (None, "> > > < < >", "4.09 4.6 4.63 4.8"),
        ("more digits taken as larger", "< < < < > <", "4.6 4.8 4.09 4.63"),
        ("fewer digits taken as larger", "> > > > < >", "4.09 4.63 4.6 4.8"),
        ("nought after the point handled apart", "< < > < > <", "4.09 4.6 4.8 4.63"),
    ],
)
def test_signs_and_orders_show_how_decimals_are_read(
    name: str | None, signs: str, order: str
) -> None:
    texts = [*zip(PAIRS, signs.split(), strict=True)]
    attempts = [Attempt.answered(compared(text), read_sign(sign)) for text, sign in texts]
    row = ordered("4.8 4.63 4.09 4.6")
    attempts.append(Attempt.answered(row, read_order(order)))
    if name is None:
        assert found(attempts) == ("secure", None)
        return
    for attempt, (text, sign) in zip(attempts, texts, strict=False):
        shown = mistake_named(name).works(compared(text)) or right_reply(compared(text))
        assert shown == read_sign(sign)[0]
        assert attempt.right == (sign == compared(text).answer_text)
    assert mistake_named(name).wrong_answer(row) == read_order(order)[0]
    assert found(attempts)[1] == name


def test_a_sign_or_an_order_is_no_number() -> None:
    assert not is_right(asked("5 − 5"), read_sign("<")[0])
    assert not is_right(compared("0.5 0.6"), read_replies("0.6")[0])
    assert not is_right(ordered("0.5 0.6"), read_replies("0.6")[0])
    assert is_right(ordered("0.60 0.5"), read_order("0.50 0.6")[0])


@pytest.mark.parametrize("operation", [Operation.ORDER, Operation.COMPARE])
@given(st.lists(st.builds(Number, st.integers(1, 999), st.integers(0, 3)), min_size=2, max_size=2))
def test_numbers_of_one_length_are_ordered_rightly_by_every_way(
    operation: Operation, numbers: list[Number]
) -> None:
    question = Question(operation, tuple(numbers))
    for mistake in mistakes_of(operation):
        given_answer = mistake.works(question)
        if numbers[0].places == numbers[1].places:
            assert given_answer is None
        elif given_answer is not None:
            assert bool(given_answer.order) == (operation is Operation.ORDER)
            assert not is_right(question, given_answer)
            assert mistake.wrong_answer(question) == given_answer


@pytest.mark.parametrize(
    ("right", "wrong", "kind"),
    [
        (4, 1, "slips"),  # four fifths, and no two of the wrong ones alike
        (8, 2, "slips"),
        (7, 2, "not enough to say"),
        (3, 1, "not enough to say"),
    ],
)
def test_slips_are_one_in_five_at_most(right: int, wrong: int, kind: str) -> None:
    texts = [f"{n} + {n + 1}" for n in range(20, 20 + right + wrong)]
    attempts = following(None, texts[:right])
    attempts += [slipped(text, f"{n}.1{n}") for n, text in enumerate(texts[right:], 7)]
    assert found(attempts) == (kind, None)


@pytest.mark.parametrize(
    ("right", "of", "doubted"),
    [(0, 20, True), (1, 20, True), (2, 20, False), (0, 19, False), (2, 40, True), (3, 40, False)],
)
def test_marks_of_another_pack_are_doubted_from_twenty_answers_on(
    right: int, of: int, doubted: bool
) -> None:
    """One in twenty right, or fewer."""
    columns = mark_columns([section("core", ["3 + 4"], "level")])
    rows = [f"{n},{7 if n <= right else 9}" for n in range(1, of + 1)]
    results = class_results(columns, read(columns, "\n".join(["pupil,core.a", *rows]).encode()))
    assert bool(results.doubt) is doubted
