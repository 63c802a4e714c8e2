"""What codes and seeds hang on: the words of a spec and their values, and nothing else."""

from collections.abc import Callable
from dataclasses import fields, make_dataclass, replace
from fractions import Fraction
from hashlib import sha256

import pytest

from generator.forms import spot_the_mistake
from generator.operations import table
from generator.operations.rungs import question_set, rung_set
from generator.packs.building import build_pack
from generator.vocabulary import VOCABULARY
from specs import Spec, read_spec
from specs.canonical import InOrder, Plain, canonical, flow
from specs.digest import digest_of
from specs.shapes import DecimalRange, Either, Field, Fields, OneOf, Range, SetOf
from specs.words import Vocabulary, Word

WHOLE = """\
title: Weighing beans
ladder:
  level:
    operation: add
    places: {ragged: [1, 3]}
    carries: {in: [ones, tenths], count: [1, 2]}
    answer: {between: [0.5, 12]}
  shared:
    operation: divide
    divisor: {digits: 1}
    ending: {decimal: 2}
    form: missing number
starter: {minutes: 10, frames: {from: full, to: none}, questions: {level: 3, shared: 1}}
examples: [level]
tiers:
  core: {shared: 2, level: 1}
  more: {level: 2}
pages: {squares: 5, large: {core: 18}}
avoid: [3.4 + 0.27, 1 + 2]
"""


def read(text: str, vocabulary: Vocabulary = VOCABULARY) -> Spec:
    return read_spec(text.encode(), "stall.yaml", vocabulary)


def asked(spec: Spec) -> list[str]:
    """The questions that a spec gives with a seed."""
    pack = build_pack(spec, 7)
    return [item.question.text for section in pack.sections for item in section.items]


@pytest.mark.parametrize(
    ("value", "text", "written"),
    [
        ({"b": 1, "a": (True, "x")}, '[1,{"a":[true,"x"],"b":1}]', "{b: 1, a: [true, x]}"),
        (Fraction(1, 2), '[1,"0.5"]', "0.5"),
        (InOrder((("b", 1), ("a", 2))), '[1,[["b",1],["a",2]]]', "{b: 1, a: 2}"),
        ("½ é", r'[1,"\u00bd \u00e9"]', "½ é"),
    ],
)
def test_plain_data_has_one_text_and_reads_as_yaml(value: Plain, text: str, written: str) -> None:
    assert canonical(value) == text
    assert flow(value) == written


SAME: list[Callable[[str], str]] = [
    lambda text: text.replace("{in: [ones, tenths],", "{in: [tenths, ones],"),
    lambda text: text.replace("tenths], count: [1, 2]}", "tenths], 'count': [1, 2]}"),
    lambda text: text.replace("[0.5, 12]", "[0.50, 12.0]"),
    lambda text: text.replace("{decimal: 2}", "{'decimal': 2}   # two places"),
    lambda text: text.replace("[3.4 + 0.27, 1 + 2]", "\n  - 1+2\n  - 3.4+0.27"),
    lambda text: text.replace(
        "operation: divide\n    divisor: {digits: 1}", "divisor: {digits: 1}\n    operation: divide"
    ),
    lambda text: text.replace("{core: 18}", "{core: 18}, paper: A4"),
    lambda text: text.replace("\n", "\r\n"),
    lambda text: text.replace("examples: [level]", "examples: {level: 1}"),
]  # fmt: skip

OTHERS: list[Callable[[str], str]] = [
    lambda text: text.replace("beans", "peas"),
    lambda text: text.replace("[1, 3]", "[1, 4]"),
    lambda text: text.replace("ragged: [", "between: ["),
    lambda text: text.replace("count: [1, 2]", "count: 2"),
    lambda text: text.replace("0.5,", "0.6,"),
    lambda text: text.replace("missing number", "plain"),
    lambda text: text.replace("minutes: 10", "minutes: 12"),
    lambda text: text.replace("to: none", "to: part"),
    lambda text: text.replace("{shared: 2, level: 1}", "{level: 1, shared: 2}"),
    lambda text: text.replace("more", "most"),
    lambda text: text.replace("examples: [level]", "examples: [shared]"),
    lambda text: text.replace("squares: 5", "squares: 10"),
    lambda text: text.replace("core: 18", "core: 24"),
    lambda text: text.replace("1 + 2", "1 + 3"),
    lambda text: text + "matching: rung\n",
]


@pytest.mark.parametrize("change", SAME)
def test_another_spelling_leaves_codes_and_questions_alone(change: Callable[[str], str]) -> None:
    assert change(WHOLE) != WHOLE
    spec, other = read(WHOLE), read(change(WHOLE))
    assert digest_of(other) == digest_of(spec)
    assert [rung.text for rung in other.ladder] == [rung.text for rung in spec.ladder]
    assert asked(other) == asked(spec)


@pytest.mark.parametrize("change", OTHERS)
def test_a_change_that_matters_changes_the_code(change: Callable[[str], str]) -> None:
    assert change(WHOLE) != WHOLE
    assert digest_of(read(change(WHOLE))) != digest_of(read(WHOLE))


def test_a_reordered_table_of_words_changes_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    turned = replace(VOCABULARY, words=VOCABULARY.words[::-1])
    spec, other = read(WHOLE), read(WHOLE, turned)
    assert [c.word for c in other.ladder[0].conditions] != [
        c.word for c in spec.ladder[0].conditions
    ]
    assert digest_of(other) == digest_of(spec)
    before = asked(spec)
    # Rows of different words narrow different things, so their order is free too (but for the
    # first, which says how many numbers there are).
    question_set.cache_clear()
    topics = [replace(t, conditions=t.conditions[:1] + t.conditions[:0:-1]) for t in table.TOPICS]
    monkeypatch.setattr(table, "TOPICS", tuple(topics))
    assert asked(other) == before


def test_renamed_attributes_and_classes_change_nothing() -> None:
    texts = []
    for name in ("Carries", "Transfers"):
        attribute = f"within_{name.lower()}"
        made = make_dataclass(name, [(attribute, object, None)], frozen=True)
        shape = Fields(made, {"in": Field(SetOf("ones", "tenths"), attribute=attribute)})
        vocabulary = Vocabulary(("add",), (Word("carries", frozenset({"add"}), shape, "Carries."),))
        ladder = "ladder: {level: {operation: add, carries: {in: ones}}}"
        spec = read(f"title: Beans\n{ladder}\nstarter: {{level: 1}}", vocabulary)
        texts.append((digest_of(spec), spec.ladder[0].text))
    assert texts[0] == texts[1]
    assert texts[0][1] == '[1,{"carries":{"in":["ones"]},"operation":"add"}]'


def test_the_code_of_a_spec_is_the_digest_of_its_canonical_form() -> None:
    """By hand: the JSON that stands here is the promise."""
    text = (
        "title: Beans\nladder:\n  level: {operation: add, places: {same: [1, 2]}}\n"
        "starter: {level: 2}\npages: {squares: 5}\n"
    )
    promised = (
        '[1,{"ladder":[["level",{"operation":"add","places":{"same":[1,2]}}]],'
        '"pages":{"squares":5},"starter":[["level",2]],"title":"Beans"}]'
    )
    assert digest_of(read(text)) == sha256(promised.encode()).hexdigest()


def test_signatures_are_plain_data_of_all_their_parts() -> None:
    """Each part of a signature is told apart in its canonical text, whatever its attribute."""
    for name in ("add", "subtract", "multiply", "divide", "order", "compare", "round"):
        ladder = f"title: Beans\nladder: {{level: {{operation: {name}}}}}\nstarter: {{level: 1}}"
        questions = rung_set(read(ladder).ladder[0])
        signatures = {
            questions.signature(questions.unrank(at))
            for at in range(0, questions.count, questions.count // 50)
        }
        texts = {canonical(signature.plain) for signature in signatures}
        assert len(texts) == len(signatures) > 1
        for signature in signatures:
            said = [
                part
                for part in fields(signature)
                if part.compare and getattr(signature, part.name) != part.default
            ]
            assert len(signature.plain) >= len(said)


def test_values_of_shapes_are_plain_whatever_was_written() -> None:
    shape = Either(OneOf("none"), DecimalRange(0, 9), Range(0, 9))
    assert canonical(shape.plain((Fraction(1, 2), Fraction(1, 2)))) == '[1,"0.5"]'


def test_the_order_of_mistakes_and_of_templates_decides_no_question(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    text = (
        "title: Beans\nladder:\n"
        "  wrong: {operation: subtract, places: 2, exchanges: some, form: spot the mistake}\n"
        "  shop: {operation: add, places: 2, context: money}\n"
        "tiers: {core: {wrong: 6, shop: 6}}\n"
    )
    spec = read(text)
    turned = replace(
        spec,
        ladder=tuple(replace(rung, templates=rung.templates[::-1]) for rung in spec.ladder),
    )

    def forms(of: Spec) -> list[object]:
        return [item.form for section in build_pack(of, 7).sections for item in section.items]

    before = forms(spec)
    known = spot_the_mistake.mistakes_of
    monkeypatch.setattr(spot_the_mistake, "mistakes_of", lambda operation: known(operation)[::-1])
    assert forms(turned) == before
