"""What a spec keeps: read, written again, and refused where there is no such place."""

import pytest

from generator.vocabulary import VOCABULARY
from specs import Spec, SpecError, read_spec
from specs.digest import digest_of
from specs.spec import position_of
from specs.writing import spec_text

LESSON = """\
title: Beans
ladder:
  beans: {operation: add, places: 1, whole: 1}
starter: {beans: 2}
examples: [beans]
tiers: {core: {beans: 3}}
"""


def read(keep: str) -> Spec:
    return read_spec(f"{LESSON}{keep}\n".encode(), "lesson.yaml", VOCABULARY)


def test_what_is_kept_is_read_and_written_again() -> None:
    spec = read("keep: {Core: {b: 1.5 + 2.4, a: '1.2+3.4'}, examples: {a: 1.1 + 2.2}}")
    kept = [(one.section, one.label, one.question.text) for one in spec.keep]
    assert kept == [
        ("core", "a", "1.2 + 3.4"),
        ("core", "b", "1.5 + 2.4"),
        ("examples", "a", "1.1 + 2.2"),
    ]
    again = read_spec(spec_text(spec).encode(), "lesson.yaml", VOCABULARY)
    assert again == spec


def test_what_is_kept_is_part_of_the_code_and_nothing_is_no_part() -> None:
    assert digest_of(read("")) != digest_of(read("keep: {core: {a: 1.2 + 3.4}}"))
    assert digest_of(read("keep: {core: {a: 1.2 + 3.4}}")) == digest_of(
        read("keep:\n  core:\n    a: '1.2 + 3.4'")
    )


@pytest.mark.parametrize(
    ("keep", "told"),
    [
        ("{core: {d: 1.2 + 3.4}}", "core has no question d; it has 3, from a on"),
        ("{cor: {a: 1.2 + 3.4}}", "'cor', which is no section; did you mean 'core'"),
        ("{examples: {b: 1.2 + 3.4}}", "b in examples is the match of the example before it"),
        ("{core: {a: beans}}", "'beans' in 'keep' is no question"),
        ("{core: {a: [1.2 + 3.4]}}", "an entry in 'keep' is no question"),
        ("{core: {1: 1.2 + 3.4}}", "'1' in 'keep' is not the letter of a question"),
        ("{core: {}}", "'core' in 'keep' keeps no question"),
        ("[a]", "'keep' cannot be a list"),
        ("", "'keep' has no value"),
    ],
)
def test_what_cannot_be_kept_is_refused_at_its_line(keep: str, told: str) -> None:
    with pytest.raises(SpecError) as caught:
        read(f"keep: {keep}")
    (problem,) = caught.value.problems
    assert told in f"{problem.what}; {problem.instead}"
    assert problem.line == LESSON.count("\n") + 1


@pytest.mark.parametrize(("label", "position"), [("a", 0), ("z", 25), ("aa", 26), ("ba", 52)])
def test_letters_count_on(label: str, position: int) -> None:
    assert position_of(label) == position
