"""Runs of examples that share a number or their digits: counted, on their rungs, matched."""

from collections.abc import Callable

import pytest

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Question
from generator.operations.rungs import rung_set
from generator.packs.building import build_pack
from generator.packs.keeping import CannotBeKeptError
from generator.packs.ladder import runs
from generator.packs.runs import RunError, keys_for, runs_of, serving
from generator.vocabulary import VOCABULARY
from specs import Spec, SpecError, read_spec
from specs.spec import RungSpec
from specs.writing import spec_text
from tests.generator.ladders import rung, spec

LADDER = """
level: {operation: add, places: 2, whole: 1, carries: none}
carry: {operation: add, places: 2, whole: 1, carries: {count: 1}}
ragged: {operation: add, places: {ragged: [1, 2]}, whole: 1, carries: {count: 1}}
take: {operation: subtract, places: 2, whole: 1, exchanges: {count: 1}}
tens: {operation: add, places: 2, whole: 2}
wholes: {operation: multiply, digits: [2, 1], places: [0, 0]}
long: {operation: multiply, digits: [3, 2], places: [2, 0]}
tenths: {operation: multiply, digits: [2, 1], places: [1, 0]}
both: {operation: multiply, digits: [2, 1], places: [1, 1]}
alike: {operation: multiply, digits: 2, places: 1, carries: {count: [1, 2]}}
share: {operation: divide, dividend: {digits: 2}}
left: {operation: divide, dividend: {digits: 2}, ending: remainder}
"""


def lesson(*runs: str, more: str = "") -> Spec:
    """A lesson whose examples are those runs."""
    listed = "".join(f"  - {run}\n" for run in runs)
    return spec(LADDER, f"examples:\n{listed}{more}")


def first_numbers(text: str, at: int) -> set[str]:
    """What stands in a place of the questions of a rung, each gone through."""
    of = rung(text)
    questions = rung_set(of)
    kinds = getattr(questions.outline, "kinds", ())  # type: ignore[attr-defined]
    found: set[str] = set()
    for number in range(questions.count):
        operands = questions.unrank(number).operands
        if of.operation == "add":
            found |= {str(n) for n, kind in zip(operands, kinds, strict=True) if kind == kinds[at]}
        else:
            found.add(str(operands[at]))
    return found


TENTHS = "operation: add, places: 1, whole: {between: [0, 1]}"


@pytest.mark.parametrize(
    ("at", "texts"),
    [
        (0, [f"{TENTHS}, carries: none", f"{TENTHS}, carries: {{count: 1}}"]),
        (0, [f"{TENTHS}, carries: every", "operation: add, places: {ragged: [1, 2]}, whole: 0"]),
        (
            1,
            [
                "operation: add, places: [1, 2], whole: [1, 0], answer: {above: 5}",
                "operation: subtract, places: 2, whole: 0",
            ],
        ),
        (
            0,
            [
                "operation: add, addends: 3, places: 1, whole: 0, carries: {across_point: true}",
                "operation: subtract, places: {ragged: [1, 2]}, whole: 0, exchanges: {count: 1}",
            ],
        ),
        (
            0,
            [
                "operation: subtract, places: 2, whole: 0, exchanges: {count: 1}",
                "operation: subtract, places: 2, whole: 0, exchanges: none",
            ],
        ),
        (
            1,
            [
                "operation: subtract, places: 1, whole: 1, zeros: {end: require}",
                "operation: subtract, places: 1, whole: 1, answer: {whole_number: true}",
            ],
        ),
        (
            0,
            [
                "operation: add, places: 0, whole: 2, carries: every",
                "operation: add, places: 0, whole: 2, zeros: {end: require}",
            ],
        ),
        (
            0,
            [
                "operation: multiply, digits: [2, 1], places: [1, 0], carries: none",
                "operation: add, places: 1, whole: 1, carries: every",
            ],
        ),
        (
            0,
            [
                "operation: divide, dividend: {digits: 2}, zero_in_quotient: require",
                "operation: divide, dividend: {digits: 2}, ending: remainder",
            ],
        ),
        (
            1,
            [
                "operation: divide, dividend: {digits: 2}, divisor: [4, 6, 7]",
                "operation: multiply, digits: [2, 1], places: 0, carries: none",
            ],
        ),
    ],
)
def test_the_numbers_that_serve_against_brute_force(at: int, texts: list[str]) -> None:
    rungs = [rung(text) for text in texts]
    found = serving(("first number", "second number")[at], tuple(rungs))
    wanted = set.intersection(*(first_numbers(text, at) for text in texts))
    assert found.count == len(wanted) > 0
    assert {str(found.unrank(number)) for number in range(found.count)} == wanted


def test_factors_that_may_stand_first_are_those_that_the_rung_has_settled() -> None:
    alike = rung("operation: multiply, digits: 2, places: 1, carries: {count: [1, 2]}")
    found = serving("first number", (alike, alike))
    numbers = [str(found.unrank(number)) for number in range(found.count)]
    base = "operation: multiply, digits: 2, places: 1, carries: {count: [1, 2]}"
    every = [f"{tens}.{ones}" for tens in range(1, 10) for ones in range(1, 10)]
    assert numbers == [n for n in every if rung_set(rung(f"{base}, first: {n}")).count]


def test_the_digits_that_serve_against_brute_force() -> None:
    texts = [
        "operation: multiply, digits: [2, 1], places: [1, 0], carries: none",
        "operation: multiply, digits: [2, 1], places: [1, 1]",
        "operation: divide, divisor: [2, 3], dividend: {digits: 2}",
    ]
    rungs = tuple(rung(text) for text in texts)

    def digits(of: RungSpec) -> set[tuple[int, ...]]:
        questions = rung_set(of)
        return {
            tuple(int(str(n).replace(".", "").strip("0")) for n in q.operands)
            for q in map(questions.unrank, range(questions.count))
        }

    found = serving("digits", rungs)
    assert {found.unrank(n) for n in range(found.count)} == set.intersection(*map(digits, rungs))


def first(question: Question) -> Number:
    return question.operands[0]


def second(question: Question) -> Number:
    return question.operands[1]


def digits_of(question: Question) -> tuple[str, ...]:
    return tuple(str(number.units).strip("0") for number in question.operands)


@pytest.mark.parametrize(
    ("run", "shares"),
    [
        ("{run: [level, carry, ragged], keep: first number}", first),
        ("{run: [carry, take], keep: first number}", first),
        ("{run: [level, carry], keep: second number}", second),
        ("{run: [wholes, tenths, both], keep: digits}", digits_of),
        ("{run: [share, left], keep: second number}", second),
        ("{run: [tenths, alike], keep: first number}", first),
    ],
)
def test_a_run_shares_one_thing_and_the_class_another(
    run: str, shares: Callable[[Question], object]
) -> None:
    own = lesson(run, more="tiers:\n  core: {level: 3}\n")
    names = run[run.index("[") + 1 : run.index("]")].split(", ")
    for seed in range(3):
        section = build_pack(own, seed).sections[0]
        shown, class_own = section.items[::2], section.items[1::2]
        assert [item.rung for item in shown] == [item.rung for item in class_own] == names
        assert len({shares(item.question) for item in shown}) == 1
        assert len({shares(item.question) for item in class_own}) == 1
        assert shares(shown[0].question) != shares(class_own[0].question)
        for item in section.items:
            assert item.question in rung_set(own.rung(item.rung))
        for one, other in zip(shown, class_own, strict=True):
            assert other.signature == one.signature or other.match
        assert len({item.question.identity for item in section.items}) == len(section.items)


def test_no_other_section_changes_and_a_seed_says_all() -> None:
    tiers = "tiers:\n  core: {level: 4, take: 4}\n"
    plain = build_pack(lesson("level", more=tiers), 5)
    run = build_pack(lesson("{run: [tenths, both], keep: digits}", more=tiers), 5)
    assert plain.sections[1].items == run.sections[1].items
    again = build_pack(lesson("{run: [tenths, both], keep: digits}", more=tiers), 5)
    assert again == run


@pytest.mark.parametrize(
    ("run", "problem"),
    [
        (
            "{run: [level, tens, ragged], keep: first number}",
            "no first number serves level and tens both; loosen one of them, or leave it out",
        ),
        ("{run: [wholes, level], keep: second number}", "no second number serves"),
        (
            "{run: [level, carry], keep: digits}",
            "too many to look in each for the digits of a run; narrow it to 60,000 questions or "
            "fewer, such as by fewer digits, or keep the first number, for which it may have any",
        ),
        (
            "{run: [long, wholes], keep: first number}",
            "long has 65,610 questions, too many to look in each for the first number of a run; "
            "narrow it to 60,000 questions or fewer, such as by fewer digits",
        ),
    ],
)
def test_where_none_serves_it_is_refused(run: str, problem: str) -> None:
    with pytest.raises(RunError) as refused:
        build_pack(lesson(run), 1)
    assert problem in str(refused.value)
    assert refused.value.line == 16


def test_where_one_serves_the_class_has_none() -> None:
    ladder = (
        "one: {operation: add, places: 1, whole: 0, first: 0.5, carries: none}\n"
        "two: {operation: add, places: 1, whole: 0, carries: {count: 1}}"
    )
    with pytest.raises(RunError, match="1 first number serves the whole run, and none is left"):
        build_pack(spec(ladder, "examples:\n  - {run: [one, two], keep: first number}\n"), 1)


def test_a_run_of_three_of_which_each_two_agree() -> None:
    ladder = (
        "a: {operation: add, places: 1, whole: 0, first: 0.5}\n"
        "b: {operation: add, places: {between: [1, 2]}, whole: 0}\n"
        "c: {operation: add, places: 2, whole: 0}"
    )
    with pytest.raises(RunError, match="no first number serves a and c both"):
        build_pack(spec(ladder, "examples:\n  - {run: [a, b, c], keep: first number}\n"), 1)


def test_runs_are_found_and_counted() -> None:
    own = lesson("{run: [level, carry, ragged], keep: first number}", "level")
    ((section, run, rungs),) = runs_of(own)
    assert (section, run.keep, [one.name for one in rungs]) == (
        "examples",
        "first number",
        ["level", "carry", "ragged"],
    )
    assert keys_for(run, rungs).count == 632  # by brute force too
    (view,) = runs(own)
    assert (view.serve, view.rungs) == (632, ("level", "carry", "ragged"))
    assert view.line == (
        "run in examples: level, carry, ragged; 632 first numbers serve the whole run"
    )


def test_digits_that_serve_are_counted_as_sets() -> None:
    (view,) = runs(lesson("{run: [tenths, both], keep: digits}"))
    by_hand = {
        text: {
            tuple(str(n.units).strip("0") for n in question.operands)
            for question in map(questions.unrank, range(questions.count))
        }
        for text in (
            "operation: multiply, digits: [2, 1], places: [1, 0]",
            "operation: multiply, digits: [2, 1], places: [1, 1]",
        )
        for questions in [rung_set(rung(text))]
    }
    assert view.serve == len(set.intersection(*by_hand.values()))
    assert view.says.endswith("sets of digits serve the whole run")


def test_what_a_run_shares_cannot_be_kept_apart() -> None:
    kept = "keep:\n  examples: {a: 1.11 + 2.22}\n"
    with pytest.raises(CannotBeKeptError, match="cannot be kept: a run shares"):
        build_pack(lesson("{run: [level, carry], keep: first number}", more=kept), 1)
    kept = "tiers:\n  core: {level: 2}\nkeep:\n  core: {a: 1.11 + 2.22}\n"
    run = "{run: [level, carry], keep: first number}"
    with_kept = build_pack(lesson(run, more=kept), 1)
    without = build_pack(lesson(run, more="tiers:\n  core: {level: 2}\n"), 1)
    assert with_kept.sections[0].items == without.sections[0].items


@pytest.mark.parametrize(
    ("entry", "problem"),
    [
        ("{run: [level, ragged]}", "'examples' has no 'keep'"),
        ("{run: [level], keep: first number}", "write a list of at least two rungs"),
        ("{run: [level, rugged], keep: first number}", "no rung 'rugged'; did you mean 'ragged'?"),
        ("{run: [level, ragged], keep: first}", "write first number, second number or digits"),
    ],
)
def test_a_run_that_cannot_be_read_is_told(entry: str, problem: str) -> None:
    with pytest.raises(SpecError) as refused:
        lesson(entry)
    assert problem in str(refused.value)


def test_written_and_read_again_it_is_the_same() -> None:
    run = "{run: [level, carry], keep: first number}"
    own = lesson(run, "level", run, "{run: [tenths, both], keep: digits}")
    again = read_spec(spec_text(own).encode(), "harvest.yaml", VOCABULARY)
    assert again.examples.shares == own.examples.shares
    assert len({share.run for share in own.examples.shares}) == 4


PRACTICE = """tiers:
  core:
    questions:
      - {level: 2}
      - {run: [level, carry, ragged], keep: first number}
      - {ragged: 1, both: 1}
      - {run: [wholes, tenths, both], keep: digits}
      - {run: [wholes, tenths, both], keep: digits}
"""


def test_practice_goes_through_runs_in_every_version() -> None:
    pack = build_pack(spec(LADDER, PRACTICE), 4, 5)
    seen = set()
    of_runs = set()
    for section in pack.sections:
        asked = [item.question for item in section.items]
        assert [item.rung for item in section.items] == [
            *("level", "level", "level", "carry", "ragged", "ragged", "both"),
            *("wholes", "tenths", "both") * 2,
        ]
        shared = first(asked[2]), digits_of(asked[7]), digits_of(asked[10])
        assert {first(question) for question in asked[2:5]} == {shared[0]}
        assert {digits_of(question) for question in asked[7:10]} == {shared[1]}
        assert {digits_of(question) for question in asked[10:]} == {shared[2]}
        assert shared[1] != shared[2]
        seen |= {question.identity for question in asked}
        of_runs.add(shared[0])
    assert len(seen) == 5 * 13
    assert len(of_runs) == 5
    for version in pack.sections[1:]:
        for one, other in zip(pack.sections[0].items, version.items, strict=True):
            assert other.signature == one.signature or other.match


def test_practice_written_and_read_again_is_the_same() -> None:
    own = spec(LADDER, PRACTICE)
    again = read_spec(spec_text(own).encode(), "harvest.yaml", VOCABULARY)
    assert again.tiers == own.tiers


@pytest.mark.parametrize(
    ("questions", "problem"),
    [
        ("[level]", "'questions' in 'core' has no questions; write rungs with a count each"),
        ("[{levl: 2}]", "the ladder has no rung 'levl'"),
        ("[{run: [level, carry]}]", "has no 'keep'"),
        ("[{level: 40}, {carry: 40}]", "has 80 questions"),
        ("[{rung: level, question: 1.11 + 2.22}]", "'rung'"),
    ],
)
def test_practice_that_cannot_be_read_is_told(questions: str, problem: str) -> None:
    with pytest.raises(SpecError) as refused:
        spec(LADDER, f"tiers:\n  core: {{questions: {questions}}}\n")
    assert problem in str(refused.value)
