"""Whole specs: given this text, this value or these problems at these lines."""

import re
from pathlib import Path

import pytest
from hypothesis import HealthCheck, event, example, given, settings
from hypothesis import strategies as st

from generator.vocabulary import VOCABULARY
from specs import DEMO, Spec, SpecError, load_spec, read_spec, shipped, shipped_names
from specs.digest import digest_of
from specs.problems import Problem
from specs.shapes import WholeNumber
from specs.spec import Presentation, SectionSpec, Share
from specs.words import Vocabulary, Word

GOOD = """\
title: Weighing beans
ladder:
  level:
    operation: add
    places: 2
    addends: 2
    carries: {across_point: true, count: [1, 2]}
  give-change:
    operation: subtract
    exchanges: some
starter:
  minutes: 10
  questions: {level: 3}
examples: [give-change]
tiers:
  support: {level: 6, give-change: 1}
  stretch:
    minutes: 20
    questions:
      give-change: 9
matching: rung
pages: {paper: A5, squares: 10, carries: above, placeholders: false}
"""

RUNG = "title: Beans\nladder:\n  level:\n    operation: add\n"


def read(text: str, vocabulary: Vocabulary) -> Spec:
    return read_spec(text.encode(), "stall.yaml", vocabulary)


def problems_of(text: str, vocabulary: Vocabulary) -> list[str]:
    with pytest.raises(SpecError) as caught:
        read(text, vocabulary)
    return [str(problem).removeprefix("stall.yaml:") for problem in caught.value.problems]


def test_a_whole_spec(vocabulary: Vocabulary) -> None:
    spec = read(GOOD, vocabulary)
    assert (spec.name, spec.title, spec.matching) == ("stall", "Weighing beans", "rung")
    assert spec.source == "stall.yaml"
    assert [[c.text for c in rung.conditions] for rung in spec.ladder] == [
        ["addends: 2", "places: 2", "carries: {count: [1, 2], across_point: true}"],
        ["exchanges: some"],
    ]
    assert [(c.word, c.line) for c in spec.rung("level").conditions] == [
        ("addends", 6),
        ("places", 5),
        ("carries", 7),
    ]
    assert spec.starter == SectionSpec("starter", (Share("level", 3),), 10)
    assert spec.examples == SectionSpec("examples", (Share("give-change", 1),))
    assert spec.tiers == (
        SectionSpec("support", (Share("level", 6), Share("give-change", 1))),
        SectionSpec("stretch", (Share("give-change", 9),), 20),
    )
    assert spec.presentation == Presentation("A5", 10, "above", False)


def test_what_is_left_out_has_its_usual_value(vocabulary: Vocabulary) -> None:
    spec = read(RUNG + "starter: {level: 1}\n", vocabulary)
    assert (spec.matching, spec.presentation) == ("signature", Presentation())
    assert (spec.examples, spec.tiers) == (None, ())
    assert spec.starter is not None
    assert spec.starter.minutes is None


def test_examples_may_ask_for_more_pairs(vocabulary: Vocabulary) -> None:
    examples = read(RUNG + "examples: {level: 2}\n", vocabulary).examples
    assert examples is not None
    assert examples.shares == (Share("level", 2),)


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("carries: {count: 2, across_point: true}", "carries: {across_point: True, count: [2, 2]}"),
        ("carries: {in: [ones, tenths]}", "carries:\n      in:\n        - tenths\n        - ones"),
        ("addends: 2\n    places: 1", "places: 1\n    addends: 2"),
        ("carries: none", 'carries: "none"   # a comment'),
        ("answer: {between: [0.5, 1]}", "answer: {between: [0.50, 1.00]}"),
    ],
)
def test_two_spellings_of_one_rung_are_the_same(
    one: str, other: str, vocabulary: Vocabulary
) -> None:
    section = "\nstarter: {level: 1}\n"
    first = read(f"{RUNG}    {one}{section}", vocabulary)
    second = read(f"{RUNG}    {other}{section}", vocabulary)
    assert first == second
    assert digest_of(first) == digest_of(second)


@pytest.mark.parametrize(
    ("rung", "expected"),
    [
        ("carrys: none", ["5: 'carrys' is not a word that a rung knows; did you mean 'carries'?"]),
        ("beans: 2", ["5: 'beans' is not a word that a rung knows; write operation, addends,"]),
        (
            "exchanges: some",
            ["5: 'exchanges' is not a word of 'operation: add'; it goes with subtract; "],
        ),
        (
            "longr: first",
            ["5: 'longr' is not a word that a rung knows; 'longer' goes with subtract"],
        ),
        ("addends: 9", ["5: 'addends' cannot be 9; write a whole number from 2 to 6"]),
        ("addends:", ["5: 'addends' has no value; write a whole number from 2 to 6"]),
        (
            "addends: 1\n    places: [1]\n    carries: {count: x}",
            [
                "5: 'addends' cannot be 1;",
                "6: 'places' is a list of 1; write a list [ ] of 2 to 6, each a whole number",
                "7: 'count' in 'carries' cannot be 'x';",
            ],
        ),
        ("addends: 2\n    addends: 3", ["6: 'addends' is already on line 5; keep one of them"]),
        (
            "addends: 5\n    places: 6",
            ["6: five addends of six places do not fit; write fewer places"],
        ),
    ],
)
def test_problems_in_a_rung(rung: str, expected: list[str], vocabulary: Vocabulary) -> None:
    found = problems_of(f"{RUNG}    {rung}\nstarter: {{level: 1}}\n", vocabulary)
    assert len(found) == len(expected), found
    for problem, start in zip(found, expected, strict=True):
        assert problem.startswith(start)


@pytest.mark.parametrize(
    ("ladder", "expected"),
    [
        ("", ["2: the ladder has no rungs; write a name"]),
        ("  level:\n", ["3: the rung 'level' has nothing in it; indented below it, write"]),
        ("  level: add\n", ["3: the rung 'level' has nothing in it; indented below it, write"]),
        (
            "  level: {addends: 9, beans: 2}\n",
            [
                "3: 'addends' cannot be 9; write a whole number from 2 to 6",
                "3: 'beans' is not a word that a rung knows; write operation, addends, ",
                "3: the rung 'level' has no operation; add 'operation: add, subtract or multiply'",
            ],
        ),
        ("  level: {operaton: add}\n", ["3: 'operaton' is not a word that a rung knows; did you"]),
        ("  level: {operation: ad}\n", ["3: 'operation' cannot be 'ad'; did you mean 'add'?"]),
        (
            "  level: {operation: }\n",
            ["3: 'operation' cannot be left open; write add, subtract or"],
        ),
        (
            "  level: {operation: multiply, places: 2}\n",
            ["3: 'places' cannot be 2; write a list [ ]"],
        ),
        (
            "  2 places: {operation: add}\n  level: {operation: add}\n",
            ["3: '2 places' cannot be the name of a rung; write at most 40 lower-case letters"],
        ),
        (
            "  Level Places: {operation: add}\n  level places: {operation: add}\n",
            [
                "4: 'level places' is the same name as 'level-places' on line 3; choose another",
                "5: the ladder has no rung 'level'; write level-places",
            ],
        ),
        (
            "  nul: {operation: add}\n  level: {operation: add}\n",
            ["3: 'nul' cannot be the name of a rung: Windows keeps it for a device; choose"],
        ),
        (
            "  minutes: {operation: add}\n  level: {operation: add}\n",
            ["3: 'minutes' cannot be the name of a rung: it has a meaning of its own; choose"],
        ),
        (
            f"  {'l' * 41}: {{operation: add}}\n  level: {{operation: add}}\n",
            [f"3: '{'l' * 39}…' cannot be the name of a rung; write at most 40 lower-case"],
        ),
    ],
)
def test_problems_in_the_ladder(ladder: str, expected: list[str], vocabulary: Vocabulary) -> None:
    found = problems_of(f"title: Beans\nladder:\n{ladder}starter: {{level: 1}}\n", vocabulary)
    assert len(found) == len(expected), found
    for problem, start in zip(found, expected, strict=True):
        assert problem.startswith(start)


@pytest.mark.parametrize(
    ("sections", "expected"),
    [
        (
            "",
            [
                "1: the spec asks for no questions; add 'starter:', 'examples:', 'tiers:' or "
                "'lesson:'",
            ],
        ),
        ("starter: {}", ["5: 'starter' has no questions; write rungs with a count each"]),
        ("starter:", ["5: 'starter' has no questions; write rungs with a count each"]),
        ("starter: {levle: 2}", ["5: the ladder has no rung 'levle'; did you mean 'level'?"]),
        ("starter: {level: 41}", ["5: 'level' in 'starter' cannot be 41; write a whole number"]),
        ("starter:\n  minutes: 10", ["5: 'starter' has no 'questions'; below 'questions:' write"]),
        (
            "starter:\n  minutes: 0\n  level: 2\n  mins: 4\n  questions: {level: 2}",
            [
                "6: 'minutes' in 'starter' cannot be 0; write a whole number from 1 to 120",
                "7: the rung 'level' stands beside 'minutes' and 'questions'; indent it below",
                "8: 'mins' is not a word that can stand in 'starter'; did you mean 'minutes'?",
            ],
        ),
        ("examples: []", ["5: 'examples' names no rung; write a list of rungs"]),
        ("examples: none", ["5: 'examples' names no rung; write a list of rungs"]),
        ("examples: level", ["5: 'examples' has no brackets; write [level]"]),
        ("examples: Level, level", ["5: 'examples' has no brackets; write [level, level]"]),
        ("starter: {level 3}", ["5: 'level 3' has no colon; write level: 3"]),
        ("tiers:\n  core: {level 3, level: 2}", ["6: 'level 3' has no colon; write level: 3"]),
        ("starter: {levle 3}", ["5: 'levle 3' has no colon; write levle: 3"]),
        ("examples: {level 2}", ["5: 'level 2' has no colon; write level: 2"]),
        (
            "examples:\n  - level\n  - level\n  - [level]",
            [
                "7: 'examples' names 'level' twice; name it once, or write {level: 2}",
                "8: 'examples' lists something that is not the name of a rung; write names",
            ],
        ),
        (
            "examples: {level: 7}",
            ["5: 'level' in 'examples' cannot be 7; write a whole number from"],
        ),
        ("tiers: {}", ["5: 'tiers' has no tier in it; write tiers such as"]),
        ("tiers: {starter: {level: 1}}", ["5: 'starter' cannot be the name of a tier: it has a"]),
        ("tiers: {1st: {level: 1}}", ["5: '1st' cannot be the name of a tier; write at most 40"]),
        ("starter: {level: 1}\nmatching: rungs", ["6: 'matching' cannot be 'rungs'; did you mean"]),
        (
            "starter: {level: 1}\npages: {paper: a7, squares: 6, colour: red}",
            [
                "6: 'colour' is not a word that can stand in 'pages'; the words in 'pages': paper,",
                "6: 'paper' in 'pages' cannot be 'a7'; write A4, A5",
                "6: 'squares' in 'pages' cannot be 6; write 5, 7 or 10",
            ],
        ),
        (
            "started: {level: 1}\ntiers: {a: {level: 1}}",
            ["5: 'started' is not a word that can stand"],
        ),
    ],
)
def test_problems_in_the_sections(
    sections: str, expected: list[str], vocabulary: Vocabulary
) -> None:
    found = problems_of(f"{RUNG}{sections}\n", vocabulary)
    assert len(found) == len(expected), found
    for problem, start in zip(found, expected, strict=True):
        assert problem.startswith(start)


def test_how_much_a_spec_may_hold(vocabulary: Vocabulary) -> None:
    rungs = [f"  r{number}: {{operation: add}}\n" for number in range(61)]
    head = "title: Beans\nladder:\n"
    full = head + "".join(rungs[:60])
    assert read(f"{full}tiers: {{core: {{r0: 40, r1: 20}}}}\n", vocabulary)
    assert problems_of(f"{full}tiers: {{core: {{r0: 40, r1: 21}}}}\n", vocabulary) == [
        "63: 'core' has 61 questions; keep to 60 in a section"
    ]
    pairs = ", ".join(f"r{number}: 6" for number in range(6))
    assert problems_of(f"{full}examples: {{{pairs}}}\n", vocabulary) == [
        "63: 'examples' has 72 questions; keep to 60 in a section"
    ]
    assert problems_of(head + "".join(rungs) + "starter: {r0: 1}\n", vocabulary) == [
        "63: the ladder has 61 rungs; keep to 60"
    ]


def test_title_and_ladder_must_be_there(vocabulary: Vocabulary) -> None:
    assert problems_of("starter: {level: 1}\n", vocabulary) == [
        "1: the spec has no 'ladder'; add a line that begins 'ladder:'",
        "1: the spec has no 'title'; add a line that begins 'title:'",
    ]


def test_problems_come_in_line_order_whatever_found_them(vocabulary: Vocabulary) -> None:
    found = problems_of(
        GOOD.replace("addends: 2", "addends: 7")
        .replace("title: Weighing beans", "title:")
        .replace("squares: 10", "squares: 1")
        .replace("stretch:\n    minutes: 20", "stretch:\n    minutes: x")
        .replace("[give-change]", "[give-chnage]"),
        vocabulary,
    )
    assert [int(problem.split(":")[0]) for problem in found] == [1, 6, 14, 18, 22]


def test_a_problem_prints_as_file_line_what_instead() -> None:
    problem = Problem("stall.yaml", 14, "'carrys' is not a word", "did you mean 'carries'?")
    assert str(problem) == "stall.yaml:14: 'carrys' is not a word; did you mean 'carries'?"


@pytest.mark.parametrize("words", [("addends", "addends"), ("operation",)])
def test_a_vocabulary_says_a_word_once(words: tuple[str, ...]) -> None:
    rows = tuple(Word(name, frozenset({"add"}), WholeNumber(1, 2), "") for name in words)
    with pytest.raises(ValueError, match="defined twice"):
        Vocabulary(("add",), rows)


def test_a_vocabulary_knows_its_operations() -> None:
    with pytest.raises(ValueError, match="unknown operation"):
        Vocabulary(("add",), (Word("a", frozenset({"divide"}), WholeNumber(1, 2), ""),))


def test_files(tmp_path: Path, vocabulary: Vocabulary) -> None:
    path = tmp_path / "beans.yaml"
    path.write_text(GOOD, encoding="utf-8")
    spec = load_spec(path, vocabulary)
    assert (spec.name, spec.source) == ("beans", str(path))


@pytest.mark.parametrize(
    ("name", "what"),
    [
        ("none.yaml", "there is no such file; check its name and folder"),
        (".", "this is a folder; name a file in it"),
        ("a\0b", "the file cannot be opened (bad name); "),
        ("large.yaml", "the file is larger than 256 KiB; split it into several specs"),
    ],
)
def test_files_that_cannot_be_read(
    name: str, what: str, tmp_path: Path, vocabulary: Vocabulary
) -> None:
    (tmp_path / "large.yaml").write_bytes(b"#" * (256 * 1024 + 1))
    with pytest.raises(SpecError) as caught:
        load_spec(tmp_path / name, vocabulary)
    (problem,) = caught.value.problems
    assert problem.line == 1
    assert f"{problem.what}; {problem.instead}".startswith(what)


def test_the_specs_that_ship() -> None:
    assert DEMO in shipped_names()
    for name in shipped_names():
        spec = load_spec(shipped(name), VOCABULARY)
        assert spec.name == name
    with pytest.raises(KeyError):
        shipped("no-such-spec")


def test_the_demo_is_a_lesson() -> None:
    spec = load_spec(shipped(), VOCABULARY)
    assert len(spec.ladder) >= 5
    assert spec.starter is not None
    assert (spec.starter.minutes, sum(share.count for share in spec.starter.shares)) == (10, 6)
    assert [tier.name for tier in spec.tiers] == ["support", "core", "stretch"]
    assert {sum(share.count for share in tier.shares) for tier in spec.tiers} == {9}
    used = {share.rung for tier in spec.tiers for share in tier.shares}
    assert used == {rung.name for rung in spec.ladder}


PIECES = re.findall(r"\w+|\W", GOOD)
SWAPS = ["", "\n", "\t", ":", "[", "{", "}", "'", '"', "&a", "*a", "!!int", "~", "-1", "9" * 30]


@st.composite
def mutations(draw: st.DrawFn) -> bytes:
    """A good spec with a few pieces swapped, dropped or doubled."""
    pieces = list(PIECES)
    for _ in range(draw(st.integers(1, 5))):
        at = draw(st.integers(0, len(pieces) - 1))
        swaps = st.sampled_from(SWAPS) | st.sampled_from(PIECES) | st.just(pieces[at] * 2)
        pieces[at] = draw(swaps | st.text(max_size=3))
    return "".join(pieces).encode("utf-8", "surrogatepass")


@given(data=mutations() | st.binary(max_size=100))
@settings(max_examples=300, suppress_health_check=[HealthCheck.too_slow], deadline=None)
def test_any_text_is_a_spec_or_has_problems_to_print(data: bytes, vocabulary: Vocabulary) -> None:
    problems: tuple[Problem, ...] = ()
    try:
        spec = read_spec(data, "stall.yaml", vocabulary)
        hash(spec)
        assert spec.ladder
        assert digest_of(spec)
    except SpecError as error:
        problems = error.problems
        event("refused")
    for problem in problems:
        assert problem.line >= 1
        assert problem.what
        assert problem.instead
        assert str(problem).isprintable()


UNPRINTABLE = st.characters(categories=["Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp"])
PLACES_FOR_WORDS = ["Weighing", "level:", "give-change:", "operation", "add", "some", "starter"]
PLACES_FOR_WORDS += ["minutes", "{level: 3}", "[give", "support", "rung\n", "paper", "A5", "false"]


@given(
    sign=UNPRINTABLE | st.sampled_from("\U00018cd6\ud7fc\u200b\u202e\ue000\x85\u2028\ufeff\x1b"),
    place=st.sampled_from(PLACES_FOR_WORDS),
)
@example(sign="\ud7fc", place="give-change:")
@settings(deadline=None)
def test_what_has_no_printed_form_is_refused_and_shown_as_its_code(
    sign: str, place: str, vocabulary: Vocabulary
) -> None:
    text = GOOD.replace(place, f"{place[:2]}{sign}{place[2:]}", 1)
    data = text.encode("utf-8", "surrogatepass")
    if sign in "\t\n\r\x85\u2028\u2029":
        return  # the line ends there
    with pytest.raises(SpecError) as caught:
        read_spec(data, f"stall{sign}.yaml", vocabulary)
    assert all(str(problem).isprintable() for problem in caught.value.problems)


@given(data=st.data())
def test_order_of_words_never_matters(data: st.DataObject, vocabulary: Vocabulary) -> None:
    words = ["operation: add", "addends: 3", "places: 2", "carries: some", "zeros: allow"]
    shuffled = ", ".join(data.draw(st.permutations(words)))
    spec = read(
        f"title: Beans\nladder: {{level: {{{shuffled}}}}}\nstarter: {{level: 1}}", vocabulary
    )
    assert [c.text for c in spec.ladder[0].conditions] == [*words[1:3], "zeros: allow", words[3]]


def test_pages_say_paper_print_and_who_needs_what(vocabulary: Vocabulary) -> None:
    asked = (
        "pages: {paper: A3, orientation: landscape, to_a_sheet: 2, duplex: true, grid: faint, "
        "spacing: wide, large: {support: 24}, tint: cream}"
    )
    good = re.sub("(?m)^pages: .*$", asked, GOOD)
    shown = read(good, vocabulary).presentation
    assert (shown.paper, shown.orientation, shown.to_a_sheet) == ("A3", "landscape", 2)
    assert (shown.duplex, shown.grid, shown.spacing) == (True, "faint", "wide")
    assert [shown.large.of(name) for name in ("starter", "support")] == [None, 24]
    assert [shown.tint.of(name) for name in ("starter", "support")] == ["cream", "cream"]


def test_large_print_for_a_sheet_that_is_not_there_is_refused(vocabulary: Vocabulary) -> None:
    bad = re.sub("(?m)^pages: .*$", "pages: {large: {suport: 24, give-change: 18}}", GOOD)
    assert problems_of(bad, vocabulary) == [
        "22: 'large' in 'pages' names 'give-change', which no sheet is; "
        "write starter, support or stretch",
        "22: 'large' in 'pages' names 'suport', which no sheet is; did you mean 'support'?",
    ]


@pytest.mark.parametrize(
    ("pages", "says"),
    [
        ("large: 20", "'large' in 'pages' cannot be 20; write 18 or 24"),
        ("tint: {support: red}", "'tint' in 'pages' cannot be"),
        ("tint: creme", "did you mean 'cream'?"),
        ("orientation: sideways", "write portrait or landscape"),
        ("to_a_sheet: 3", "write 1, 2 or 4"),
    ],
)
def test_what_pages_cannot_be_is_said(pages: str, says: str, vocabulary: Vocabulary) -> None:
    (problem,) = problems_of(re.sub("(?m)^pages: .*$", f"pages: {{{pages}}}", GOOD), vocabulary)
    assert says in problem
    assert problem.startswith("22: ")


def test_a_spec_keeps_its_own_words_and_usual_pages_leave_its_digest_alone(
    vocabulary: Vocabulary,
) -> None:
    spec = read(GOOD, vocabulary)
    assert spec.text == GOOD
    usual = re.sub("(?m)^pages: .*$", "pages: {paper: A4, grid: plain, duplex: false}", GOOD)
    without = re.sub("(?m)^pages: .*\n", "", GOOD)
    assert digest_of(read(usual, vocabulary)) == digest_of(read(without, vocabulary))
    assert digest_of(read(without, vocabulary)) != digest_of(spec)


@pytest.mark.parametrize(
    ("written", "read"),
    [
        ("3.4 + 0.27", "3.4 + 0.27"),
        ("3.40+0.27+1", "3.40 + 0.27 + 1"),
        ("5 - 2.13", "5 − 2.13"),
        ("0.6 x 0.07", "0.6 × 0.07"),
        ("432 / 15", "432 ÷ 15"),
        ("compare 0.5, 0.50", "compare 0.5, 0.50"),
        ("order 0.4,0.35, 0.3", "order 0.4, 0.35, 0.3"),
        ("round 3.47 to 1", "round 3.47 to 1"),
        ("round 347 to −1", "round 347 to -1"),
    ],
)
def test_questions_to_be_avoided(written: str, read: str, vocabulary: Vocabulary) -> None:
    text = f"{RUNG}starter: {{level: 2}}\n"
    spec = read_spec(f"{text}avoid:\n  - {written}\n".encode(), "x.yaml", vocabulary)
    assert [avoided.text for avoided in spec.avoid] == [read]
    plain = read_spec(text.encode(), "x.yaml", vocabulary)
    assert digest_of(spec) != digest_of(plain)
    assert plain.avoid == ()


@pytest.mark.parametrize(
    "written", ["3.4", "beans", "3.4 + 0.27 - 1", "1 - 2 - 3", "3,4 + 1", "round 3.4", "-1 + 2"]
)
def test_what_is_no_question_cannot_be_avoided(written: str, vocabulary: Vocabulary) -> None:
    found = problems_of(
        f"{RUNG}starter: {{level: 2}}\navoid:\n  - 1 + 2\n  - {written}\n", vocabulary
    )
    assert len(found) == 1
    assert found[0].startswith(f"8: '{written}' in 'avoid' is no question; write one such as")


BESIDE = """\
title: Beans
ladder:
  level:
  operation: add
  places: 2
  over: {operation: add}
tiers:
  core: {level: 3, over: 2}
"""


def test_words_that_stand_beside_their_rung_are_told_once(vocabulary: Vocabulary) -> None:
    assert problems_of(BESIDE, vocabulary) == [
        "4: 'operation' stands beside the rung 'level', not in it; indent it below 'level:', and "
        "the lines that go with it"
    ]


def test_a_rung_that_stands_beside_the_ladder_is_told_once(vocabulary: Vocabulary) -> None:
    text = "title: Beans\nladder:\nlevel:\n  operation: add\ntiers:\n  core: {level: 3}\n"
    assert problems_of(text, vocabulary) == [
        "3: the rung 'level' stands beside the ladder, not in it; indent it and what belongs to it "
        "below 'ladder:'"
    ]


@pytest.mark.parametrize(
    ("name", "near"),
    [
        ("chang", "change.yaml"),
        ("change.yml", "change.yaml"),
        ("produce-stal", "produce-stall"),
        ("zzz", None),
    ],
)
def test_the_name_of_no_file_may_be_near_a_spec(
    name: str, near: str | None, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    Path("change.yaml").write_text(GOOD, encoding="utf-8")
    instead = f"did you mean '{near}'?" if near else "check its name and folder"
    with pytest.raises(SpecError) as caught:
        load_spec(name, VOCABULARY)
    assert str(caught.value) == f"{name}:1: there is no such file; {instead}"


def test_a_name_is_kept_in_plain_letters_wherever_it_stands(vocabulary: Vocabulary) -> None:
    spec = read(GOOD.replace("level", "Étape 2").replace("support", "Support set"), vocabulary)
    assert [rung.name for rung in spec.ladder] == ["etape-2", "give-change"]
    assert [share.rung for share in spec.tiers[0].shares] == ["etape-2", "give-change"]
    assert spec.tiers[0].name == "support-set"


NOT_IN_DOUBT = [
    ("operation: addition", "operation: add"),
    ("operation: Adding", "operation: add"),
    ("operation: minus", "operation: subtract"),
    ("operation: take away", "operation: subtract"),
    ("operation: times", "operation: multiply"),
    ("operation: division", "operation: divide"),
    ("operation: rounding", "operation: round"),
    ("Operation: add", "operation: add"),
    ("operation: add, carries: 1", "operation: add, carries: {count: 1}"),
    ("operation: add, carries: [1, 2]", "operation: add, carries: {count: [1, 2]}"),
    ("operation: add, carry: yes", "operation: add, carries: some"),
    ("operation: add, carries: All", "operation: add, carries: every"),
    ("operation: add, decimal places: 2", "operation: add, places: 2"),
    ("operation: add, places: 1 to 3", "operation: add, places: {between: [1, 3]}"),
    ("operation: add, whole: 1-2", "operation: add, whole: {between: [1, 2]}"),
    ("operation: add, answer: {whole number: yes}", "operation: add, answer: {whole_number: true}"),
    ("operation: subtract, borrow: none", "operation: subtract, exchanges: none"),
    ("operation: subtract, borrowing: 2", "operation: subtract, exchanges: {count: 2}"),
    (
        "operation: subtract, exchanges: {through zeros: 1}",
        "operation: subtract, exchanges: {through_zeros: 1}",
    ),
    (
        "operation: subtract, exchanges: {through-noughts: 1}",
        "operation: subtract, exchanges: {through_zeros: 1}",
    ),
    ("operation: divide, divisor: 2 to 9", "operation: divide, divisor: {between: [2, 9]}"),
    ("operation: divide, dividend: [2, 3]", "operation: divide, dividend: {digits: [2, 3]}"),
    ("operation: divide, quotient: 3", "operation: divide, quotient: {digits: 3}"),
    ("operation: divide, remainders: 1", "operation: divide, remainders: {count: 1}"),
    (
        "operation: multiply, power_of_ten: {by: [10, 100]}",
        "operation: multiply, power_of_ten: {by: [ten, hundred]}",
    ),
    ("operation: multiply, power of 10: 100", "operation: multiply, power_of_ten: {by: hundred}"),
    ("operation: add, form: missing-number", "operation: add, form: missing number"),
]


@pytest.mark.parametrize(("said", "means"), NOT_IN_DOUBT)
def test_what_a_teacher_may_say_for_a_word_of_a_rung(said: str, means: str) -> None:
    spec, other = (
        read(f"title: Beans\nladder: {{level: {{{rung}}}}}\nstarter: {{level: 1}}\n", VOCABULARY)
        for rung in (said, means)
    )
    assert spec == other
    assert digest_of(spec) == digest_of(other)


def test_what_a_teacher_may_say_elsewhere(vocabulary: Vocabulary) -> None:
    said = (
        "Title: Decimals: adding and taking away\nLadder:\n  Level places: {operation: add}\n"
        "starter:\n  Minutes: 10\n  questions: {level places: 2}\n"
        "Examples: [Level Places]\ntiers:\n  Core: {level-places: 3}\n"
        "pages: {duplex: yes, paper: a5, to a sheet: 2, large: {Core: 18}}\n"
    )
    means = (
        "title: 'Decimals: adding and taking away'\nladder:\n  level-places: {operation: add}\n"
        "starter:\n  minutes: 10\n  questions: {level-places: 2}\n"
        "examples: [level-places]\ntiers:\n  core: {level-places: 3}\n"
        "pages: {duplex: true, paper: A5, to_a_sheet: 2, large: {core: 18}}\n"
    )
    assert read(said, vocabulary) == read(means, vocabulary)


@pytest.mark.parametrize(
    ("written", "title"),
    [
        ("Decimals: adding", "Decimals: adding"),
        ("Week 3: beans: peas", "Week 3: beans: peas"),
        ("It's ready:  # a comment", "It's ready:"),
        ("'Beans: peas'", "Beans: peas"),
        ('"Beans: peas"  # a comment', "Beans: peas"),
        ("12:30 lesson", "12:30 lesson"),
    ],
)
def test_a_title_may_hold_a_colon(written: str, title: str, vocabulary: Vocabulary) -> None:
    rest = RUNG.removeprefix("title: Beans\n") + "starter: {level: 1}\n"
    assert read(f"title: {written}\n{rest}", vocabulary).title == title


@pytest.mark.parametrize(
    ("rung", "problem"),
    [
        (
            "operation: add, borrow: none",
            "'borrow' is not a word that a rung knows; 'exchanges' goes with subtract",
        ),
        ("operation: sharing", "'operation' cannot be 'sharing'; write add, subtract, multiply,"),
        ("operation: add, carries: lots", "'carries' cannot be 'lots'; write none, some or every"),
        (
            "operation: subtract, exchanges: some, borrow: none",
            "'borrow' says the same as 'exchanges' on line 2; keep one of them",
        ),
        (
            "operation: subtract, exchanges: {through zeros: 1, through_zeros: 2}",
            "'through_zeros' says the same as 'through_zeros' on line 2; keep one of them",
        ),
    ],
)
def test_what_is_in_doubt_is_named(rung: str, problem: str) -> None:
    text = f"title: Beans\nladder: {{level: {{{rung}}}}}\nstarter: {{level: 1}}\n"
    assert problems_of(text, VOCABULARY)[0].startswith(f"2: {problem}")


FAULTS = [
    ("title: Weighing beans", "title:"),
    ("places: 2", "places: 9"),
    ("addends: 2", "adends: 2"),
    ("operation: subtract", "operation: substract"),
    ("minutes: 10", "minutes: 0"),
    ("questions: {level: 3}", "questions: {levle: 3}"),
    ("examples: [give-change]", "examples: [give-chnage]"),
    ("support: {level: 6, give-change: 1}", "support: {level: 60, give-change: 1}"),
    ("give-change: 9", "give-chang: 9"),
    ("matching: rung", "matching: rungs"),
    ("squares: 10", "squares: 11"),
    ("carries: above", "carries: aside"),
    ("pages: {", "pages: {colour: red, "),
    ("tiers:", "teirs: {}\ntiers:"),
    ("minutes: 20", "minuts: 20"),
]


BROKEN = [
    ("title: Weighing beans", "title: 'Weighing beans"),
    ("title: Weighing beans", "title Weighing beans"),
    ("ladder:", "ladder"),
    ("    addends: 2", "    addends 2"),
    ("    addends: 2", "\taddends: 2"),
    ("    addends: 2", "     addends: 2"),
    ("    addends: 2", "   addends: 2"),
    ("    addends: 2", "    addends:\t2"),
    ("true, count: [1, 2]}", "true, count: [1, 2]"),
    ("true, count: [1, 2]}", "true, count: [1, 2}"),
    ("true, count: [1, 2]}", "true count: [1, 2]}"),
    ("carries: {across_point: true, count: [1, 2]}", "carries: count: 1"),
    ("  give-change:\n", "   give-change:\n"),
    ("  give-change:\n", " give-change:\n"),
    ("  give-change:\n", "  give-change\n"),
    ("  give-change:\n", "\tgive-change:\n"),
    ("starter:", "starter"),
    ("questions: {level: 3}", "questions: {level: 3"),
    ("examples: [give-change]", "examples: [give-change"),
    ("  support: {level: 6, give-change: 1}", "\tsupport: {level: 6, give-change: 1}"),
    ("tiers:", "tiers"),
    ("    minutes: 20", "   minutes: 20"),
    ("    questions:\n", "    questions\n"),
    ("matching: rung", "matching: @rung"),
    ("matching: rung", "matching: *rung"),
    ("matching: rung", "matching: &beans rung"),
    ("matching: rung", "matching: !!str rung"),
    ("matching: rung", 'matching: "\\q"'),
    ("matching: rung", "matching: rung\x07"),
    ("matching: rung", "matching: " + "[" * 20),
    ("pages: {paper", "pages: {{paper"),
]


@pytest.mark.parametrize(("right", "broken"), BROKEN)
def test_what_is_no_yaml_is_told_once_and_nothing_that_follows_from_it(
    right: str, broken: str, vocabulary: Vocabulary
) -> None:
    assert right in GOOD
    (problem,) = problems_of(GOOD.replace(right, broken, 1), vocabulary)
    assert problem


@given(data=st.data())
@settings(max_examples=50, deadline=None)
def test_what_is_no_yaml_hides_no_other_problem(
    data: st.DataObject, vocabulary: Vocabulary
) -> None:
    """Other faults stand on other lines: each is told as it is where all else is well."""
    right, broken = data.draw(st.sampled_from(BROKEN))
    good, at = GOOD.splitlines(), GOOD[: GOOD.index(right)].count("\n")
    faults = [
        fault
        for fault in FAULTS
        if all(fault[0] not in line for line in good[at : at + 2]) and fault[0] != "tiers:"
    ]
    some = data.draw(st.lists(st.sampled_from(faults), min_size=1, max_size=3, unique=True))

    def found(changes: list[tuple[str, str]]) -> set[str]:
        text = GOOD
        for was, now in changes:
            text = text.replace(was, now, 1)
        return {re.sub(r"^[0-9]+: ", "", problem) for problem in problems_of(text, vocabulary)}

    assert found([*some, (right, broken)]) >= set.union(*(found([fault]) for fault in some))


def test_many_broken_lines_are_told_each(vocabulary: Vocabulary) -> None:
    text = GOOD
    for right, broken in (BROKEN[0], BROKEN[3], BROKEN[8], BROKEN[14], BROKEN[18], BROKEN[23]):
        text = text.replace(right, broken, 1)
    text = text.replace("minutes: 20", "minutes: 999").replace("squares: 10", "squares: 11")
    lines = [int(problem.partition(":")[0]) for problem in problems_of(text, vocabulary)]
    assert lines == [1, 6, 7, 8, 14, 18, 21, 22]


@given(data=st.data())
@pytest.mark.slow
def test_one_problem_never_hides_another(data: st.DataObject, vocabulary: Vocabulary) -> None:
    """Faults one by one, then some of them together: no problem gets lost."""

    def found(faults: list[tuple[str, str]]) -> set[str]:
        text = GOOD
        for right, wrong in faults:
            text = text.replace(right, wrong, 1)
        return {re.sub(r"^[0-9]+: ", "", problem) for problem in problems_of(text, vocabulary)}

    some = data.draw(st.lists(st.sampled_from(FAULTS), min_size=2, max_size=4, unique=True))
    assert found(some) >= set.union(*(found([fault]) for fault in some))
