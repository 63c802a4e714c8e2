"""A lesson as parts in order: what it says, what the short form says, and what is refused."""

import json

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st
from jsonschema import Draft202012Validator

from generator.vocabulary import VOCABULARY
from specs import Spec, SpecError, read_spec
from specs.digest import digest_of
from specs.schema import schema
from specs.spec import KINDS, Place
from specs.writing import spec_text
from tests.generator.ladders import spec as of_ladder

LADDER = "title: Beans\nladder:\n  level: {operation: add, places: 1}\n"


def read(parts: str) -> Spec:
    return read_spec(f"{LADDER}{parts}\n".encode(), "beans.yaml", VOCABULARY)


def names(spec: Spec) -> list[str]:
    return [section.name for section in spec.sections]


SHORT = "starter: {level: 3}\nexamples: [level]\ntiers:\n  a: {level: 2}\n  b: {level: 4}"
WHOLE = """lesson:
  - starter: {level: 3}
  - examples: {level: 1}
  - practice:
      tiers:
        a: {questions: {level: 2}}
        b: {level: 4}"""


def test_the_short_form_is_read_into_the_same_parts() -> None:
    assert read(SHORT) == read(WHOLE)
    assert digest_of(read(SHORT)) == digest_of(read(WHOLE))
    assert names(read(SHORT)) == ["starter", "examples", "a", "b"]


def test_what_the_short_form_cannot_say_is_another_lesson() -> None:
    other = WHOLE.replace("  - examples: {level: 1}\n", "") + "\n  - examples: {level: 1}"
    assert read(other).lesson
    assert not read(WHOLE).lesson
    assert digest_of(read(other)) != digest_of(read(WHOLE))


@pytest.mark.parametrize(
    ("parts", "sections", "stems"),
    [
        (
            ["practice: {level: 1}", "practice: {level: 1}"],
            ["practice", "practice-2"],
            ["practice", "practice-2"],
        ),
        (
            ["practice: {tiers: {core: {level: 1}}}", "practice: {tiers: {core: {level: 1}}}"],
            ["core", "practice-2-core"],
            ["practice-core", "practice-2-core"],
        ),
        (
            ["starter: {level: 1}", "exit question: {level: 1}", "starter: {level: 1}"],
            ["starter", "exit", "starter-2"],
            ["starter", "exit", "starter-2"],
        ),
        (
            ["examples: [level]", "homework: {tiers: {a: {level: 1}, b: {level: 1}}}"],
            ["examples", "homework-a", "homework-b"],
            ["examples", "homework-a", "homework-b"],
        ),
    ],
)
def test_parts_that_come_twice_are_numbered(
    parts: list[str], sections: list[str], stems: list[str]
) -> None:
    spec = read("lesson:\n" + "".join(f"  - {part}\n" for part in parts))
    assert names(spec) == sections
    assert [one.place.stem for one in spec.sections if one.place] == stems
    for one in spec.sections:
        assert one.place is not None
        again = Place.named(one.place.kind, one.place.part, one.name)
        assert (again.name, again.stem) == (one.name, one.place.stem)


def test_a_tier_takes_what_its_part_says_for_all_unless_it_says_otherwise() -> None:
    spec = read(
        "lesson:\n  - practice: {minutes: 9, frames: full, instructions: In columns,"
        " tiers: {a: {level: 1}, b: {frames: none, minutes: 5, questions: {level: 1}}}}"
    )
    a, b = spec.sections
    assert (a.minutes, a.frames, a.instructions) == (9, ("full", "full"), "In columns")
    assert (b.minutes, b.frames, b.instructions) == (5, ("none", "none"), "In columns")


def test_versions_are_stated_for_sheets_and_not_for_examples() -> None:
    spec = read(f"{WHOLE}\n  - homework: {{level: 1}}\nversions: {{a: 8, homework: 3}}")
    found = {one.name: spec.versions_of(one, 5) for one in spec.sections}
    assert found == {"starter": 1, "examples": 1, "a": 8, "b": 5, "homework": 3}
    everywhere = read(f"{WHOLE}\nversions: 4")
    assert [everywhere.versions_of(one, 5) for one in everywhere.sections] == [1, 1, 4, 4]


EVERYTHING = """lesson:
  - starter: {minutes: 8, instructions: "Heads, then hands", questions: {level: 4}}
  - examples: {minutes: 9, objective: "Line up: points", your_turn: in steps, questions: [level]}
  - practice: {minutes: 12, frames: {from: full, to: none}, questions: {level: 3}}
  - examples: {level: 2}
  - practice:
      frames: part
      tiers: {a: {shown_as: Sheet "A", questions: {level: 2}}, b: {level: 4}}
  - exit: {level: 1}
  - homework: {level: 6}
versions: {practice-2-a: 8}
keep: {homework: {b: "1.2 + 3.4"}}"""


def test_it_is_written_out_and_read_again() -> None:
    spec = read(EVERYTHING)
    again = read_spec(spec_text(spec).encode(), "beans.yaml", VOCABULARY)
    assert again == spec
    assert digest_of(again) == digest_of(spec)


@pytest.mark.parametrize("text", [SHORT, WHOLE, EVERYTHING])
def test_editors_take_it(text: str) -> None:
    known = Draft202012Validator(json.loads(json.dumps(schema(VOCABULARY))))
    assert list(known.iter_errors(yaml.safe_load(LADDER + text))) == []


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("lesson: {starter: {level: 3}}", "4: 'lesson' cannot be {starter: …}; write a list of"),
        ("lesson: []", "4: 'lesson' cannot be an empty list; write a list of parts"),
        (
            "lesson:\n  - starter: {level: 3}\n    examples: [level]",
            "5: 'starter' and 'examples' stand in one part of the lesson; begin each part with a",
        ),
        (
            "lesson:\n  - practice:\n    minutes: 3\n    questions: {level: 1}",
            "5: 'minutes' stands beside 'practice', not in it; indent it below 'practice:'",
        ),
        ("lesson:\n  - level", "5: a part of the lesson does not say what it is; write one of"),
        ("lesson:\n  - warmup: {level: 2}", "5: 'warmup' is no part of a lesson; write starter"),
        ("lesson:\n  - homwork: {level: 2}", "5: 'homwork' is no part of a lesson; did you mean"),
        (
            "lesson:\n  - practice:\n      tiers: {a: {level: 2}}\n      questions: {level: 2}",
            "7: 'questions' is not a word that can stand in 'practice'; the words in 'practice':",
        ),
        (
            "lesson:\n  - practice: {tiers: {exit: {level: 1}}}\n  - exit: {level: 1}",
            "5: two sheets of the lesson would be called 'exit'; give the tier another name",
        ),
        (
            "starter: {level: 1}\nlesson:\n  - exit: {level: 1}",
            "4: 'starter' stands beside 'lesson', which has every part in order; make it a part",
        ),
        (
            "lesson:\n  - examples: {your_turn: slowly, questions: [level]}",
            "5: 'your_turn' in 'examples' cannot be 'slowly'; write at once or in steps",
        ),
        ("lesson:\n  - homework: {minutes: 10}", "5: 'homework' has no 'questions'; below"),
        (
            "lesson:\n  - exit: {level: 1}\nversions: {core: 3}",
            "6: 'versions' names 'core', which no sheet is; write exit",
        ),
        (
            "lesson:\n  - exit: {level: 1}\nversions: 400",
            "6: 'versions' cannot be 400; write a whole number from 1 to 100",
        ),
        (
            "lesson:\n  - exit: {level: 1}\nkeep: {exit: {b: 1.1 + 0.2}}",
            "6: exit has no question b; it has 1, from a on",
        ),
        (
            "lesson:\n  - exit: {level: 1}\npages: {large: {exits: 18}}",
            "6: 'large' in 'pages' names 'exits', which no sheet is; did you mean 'exit'?",
        ),
        ("lesson:\n" + "  - exit: {level: 1}\n" * 21, "25: 'lesson' has 21 parts; keep to 20"),
        (
            f"lesson:\n  - exit: {{instructions: {'x' * 91}, questions: {{level: 1}}}}",
            "5: 'instructions' in 'exit' is 91 characters long; write a line of at most 90",
        ),
    ],
)
def test_what_is_wrong_is_said_with_its_line(text: str, said: str) -> None:
    with pytest.raises(SpecError) as refused:
        read(text)
    (problem,) = map(str, refused.value.problems)
    assert problem.startswith(f"beans.yaml:{said}")


def test_a_rung_may_have_another_name_for_pupils() -> None:
    ladder = "level: {operation: add, places: 1, shown as: 'Adding: tenths'}"
    (rung,) = of_ladder(ladder, "starter: {level: 1}").ladder
    assert rung.shown_as == "Adding: tenths"
    (bare,) = of_ladder(ladder.split(", shown")[0] + "}", "starter: {level: 1}").ladder
    assert rung.text == bare.text  # the same questions


@given(st.lists(st.sampled_from(KINDS), min_size=1, max_size=20))
def test_every_section_has_a_name_of_its_own_and_an_index_that_others_do_not_move(
    kinds: list[str],
) -> None:
    asked = {kind: "[level]" if kind == "examples" else "{level: 1}" for kind in KINDS}
    spec = read("lesson:\n" + "".join(f"  - {kind}: {asked[kind]}\n" for kind in kinds))
    assert len(set(names(spec))) == len(kinds)
    indices = {one.name: one.place.index for one in spec.sections if one.place}
    shorter = read("lesson:\n" + "".join(f"  - {kind}: {asked[kind]}\n" for kind in set(kinds)))
    assert all(one.place and indices[one.name] == one.place.index for one in shorter.sections)
