"""Contexts of the teacher's own: read, checked with their own lines, and used."""

import re

import pytest

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Operation, Question
from generator.forms.in_words import InWords
from generator.packs.building import build_pack
from generator.packs.pack import Item
from generator.results.marking import asked_of
from generator.vocabulary import VOCABULARY
from specs import load_spec
from specs.contexts import templates
from specs.digest import digest_of
from specs.own_contexts import LARGEST, MOST
from specs.problems import SpecError
from specs.reading import read_spec
from specs.replies import read_answer
from specs.writing import spec_text

SPEC = """\
title: Produce stall
ladder:
  change: {operation: subtract, places: [0, 2], whole: [2, 1], context: own}
  totals: {operation: add, places: 2, whole: 1, context: money}
contexts: stall.yaml
tiers:
  core: {change: 3, totals: 4}
  more: {totals: 1}
"""
SUBTRACTS = "operation: subtract, places: [0, 2], whole: [2, 1]"
STALL = """\
# Sentences of the fair.
change-from-a-note:
  kind: money
  operation: subtract
  says: "Marrows cost {second}. What is the change from a {first} note?"
  numbers:
    - {unit: £, among: [10, 20, 50], places: [0, 2]}
    - {unit: £, from: 0.5, to: 50, places: [2]}
  answer: {unit: £, from: 0.01}
raffle:
  kind: money
  operation: add
  says: "The raffle took {all}. How much in all?"
  each: {unit: £, from: 0.5, to: 50, places: [0, 2]}
  answer: {unit: £}
"""


@pytest.fixture
def folder(tmp_path):
    (tmp_path / "lesson.yaml").write_text(SPEC, encoding="utf-8")
    (tmp_path / "stall.yaml").write_text(STALL, encoding="utf-8")
    return tmp_path


def read(folder):
    return load_spec(folder / "lesson.yaml", VOCABULARY)


def refused(folder, stall=STALL, spec=SPEC):
    (folder / "lesson.yaml").write_text(spec, encoding="utf-8")
    if isinstance(stall, bytes):
        (folder / "stall.yaml").write_bytes(stall)
    else:
        (folder / "stall.yaml").write_text(stall, encoding="utf-8")
    with pytest.raises(SpecError) as error:
        read(folder)
    return [str(problem).replace(f"{folder}/", "") for problem in error.value.problems]


def test_a_file_beside_the_spec_gives_its_sentences(folder):
    spec = read(folder)
    assert [template.name for template in spec.contexts] == ["change-from-a-note", "raffle"]
    (core, *_) = build_pack(spec, 5).sections
    said = [(item.rung, item.form.template) for item in core.items]
    assert {name for rung, name in said if rung == "change"} == {"change-from-a-note"}
    assert {name for rung, name in said if rung == "totals"} > {"raffle"}, "beside those that ship"


def test_change_is_given_from_a_note_and_never_from_another_sum(folder):
    for seed in range(4):
        (core, *_) = build_pack(read(folder), seed).sections
        for item in core.items:
            if item.rung == "change":
                note = re.search(r"a £(\d+) note", item.form.sentence)
                assert note is not None
                assert note[1] in {"10", "20", "50"}


def test_a_pack_is_built_again_from_its_own_text_without_the_file(folder):
    spec = read(folder)
    again = read_spec(spec.text.encode(), "kept.yaml", VOCABULARY)
    assert again.contexts == spec.contexts
    assert digest_of(again) == digest_of(spec)
    assert build_pack(again, 3).sections == build_pack(spec, 3).sections
    lines = spec.text.splitlines()
    assert lines[: len(SPEC.splitlines())] == [
        f"# {line}" if line.startswith("contexts") else line for line in SPEC.splitlines()
    ], "no line of the spec has moved"
    third = read_spec(spec_text(spec).encode(), "written.yaml", VOCABULARY)
    assert third.contexts == spec.contexts


def test_sentences_may_stand_in_the_spec_itself():
    below = "".join(f"  {line}\n" for line in STALL.splitlines())
    spec = read_spec(
        SPEC.replace("contexts: stall.yaml\n", f"contexts:\n{below}").encode(), "s", VOCABULARY
    )
    assert len(spec.contexts) == 2


@pytest.mark.parametrize(
    ("now", "then", "line", "said"),
    [
        ("among:", "amongst:", 7, "did you mean 'among'?"),
        ("{all}", "{al}", 11, "has other gaps than its numbers"),
        ("{second}.", "{second.__class__}.", 3, "write {first} and {second}, each once"),
        ("kind: money\n  operation: add", "kind: monney\n  operation: add", 11, "'money'"),
        ("operation: add", "operation: multiply", 11, "is no addition"),
        ("raffle:", "takings:", 10, "a sentence that ships has the name"),
        ("raffle:", "Raffle!:", 10, "cannot be the name of a sentence"),
        ("  each: {unit: £, from: 0.5, to: 50, places: [0, 2]}\n", "", 11, "neither"),
        ("[10, 20, 50]", "[10, 20, 50", 7, ""),
        ("answer: {unit: £}", "answer: {unit: £, from: -1}", 15, "a number from 0"),
    ],
)
def test_what_is_wrong_is_said_with_the_files_own_line(folder, now, then, line, said):
    problems = refused(folder, STALL.replace(now, then))
    assert any(p.startswith(f"stall.yaml:{line}: ") and said in p for p in problems), problems
    assert all(p.startswith("stall.yaml:") for p in problems), problems


def test_a_file_that_cannot_be_used_is_said_and_bounded(folder):
    assert refused(folder, b"x" * (LARGEST + 1)) == [
        "stall.yaml:1: the file is larger than 64 KiB; leave some sentences out"
    ]
    assert "is not UTF-8" in refused(folder, b"\xff\xfe")[0]
    assert "the file is empty" in refused(folder, " \n")[0]
    (other,) = refused(folder, spec=SPEC.replace("stall.yaml", "fair.yaml"))
    assert other.startswith("lesson.yaml:5: 'contexts' names 'fair.yaml', which cannot be opened")
    for name in ("../stall.yaml", "/etc/stall.yaml", "stall.txt"):
        problems = refused(folder, spec=SPEC.replace("stall.yaml", name))
        assert "no file that can be read" in problems[0], "no other folder is looked into"
    bomb = "a: &a [x]\nb: [*a, *a]\n"
    assert all("stall.yaml:" in problem for problem in refused(folder, bomb))
    many = "".join(f"s{at}: {{kind: money}}\n" for at in range(MOST + 1))
    assert "over 200" in refused(folder, many)[0]


def test_a_rung_that_no_sentence_of_ones_own_goes_with_is_said(folder):
    problems = refused(folder, spec=SPEC.replace(SUBTRACTS, "operation: multiply"))
    assert any(
        "lesson.yaml:3: the rung 'change' wants sentences of your own" in p for p in problems
    )


def test_what_is_counted_in_own_words_is_marked_by_its_number(folder):
    sentence = """\
punnets:
  kind: mass
  operation: divide
  says: "How many punnets of {second} does {first} of raspberries fill?"
  numbers:
    - {unit: kg, from: 0.2, to: 90, places: [0, 1, 2]}
    - {unit: kg, from: 0.1, to: 2, places: [0, 1, 2]}
  answer: {unit: punnets, one: punnet, from: 1, places: [0]}
"""
    (folder / "stall.yaml").write_text(sentence, encoding="utf-8")
    spec = SPEC.replace(SUBTRACTS, "operation: divide")
    (folder / "lesson.yaml").write_text(spec, encoding="utf-8")
    (template,) = read(folder).contexts
    for numbers, answer in ((("3", "0.5"), "6 punnets"), (("0.4", "0.4"), "1 punnet")):
        asked = Question(Operation.DIVIDE, tuple(map(Number.parse, numbers)))
        form = InWords.by(asked, [template])
        assert form is not None
        assert form.answer.replace("\N{NO-BREAK SPACE}", " ") == answer
        asks = asked_of(Item("a", "rung", asked, "", (), form=form))
        for given in (answer, answer.split(" ")[0]):
            assert asks.right_in(read_answer(given, asks))
        assert not asks.right_in(read_answer("7 punnets", asks))


def test_every_shipped_unit_says_what_a_single_one_is():
    for template in templates():
        for quantity in (*template.quantities, template.answer):
            assert not quantity.unit.endswith("s") or quantity.one
