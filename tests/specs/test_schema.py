"""The JSON Schema for editors, judged by the jsonschema library as an outside reader."""

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st
from jsonschema import Draft202012Validator

import specs
from generator.vocabulary import VOCABULARY
from specs import SpecError, read_spec, schema, shipped
from specs.pages import PAGES
from specs.words import Vocabulary


@pytest.fixture(scope="module")
def valid(vocabulary: Vocabulary) -> Callable[[object], bool]:
    """Whether the schema, as an editor would load it, takes a value."""
    Draft202012Validator.check_schema(schema(vocabulary))
    validator = Draft202012Validator(json.loads(json.dumps(schema(vocabulary))))
    return lambda value: bool(validator.is_valid(value))


def test_every_word_of_pages_is_explained_to_whoever_types_it(vocabulary: Vocabulary) -> None:
    words = schema(vocabulary)["properties"]["pages"]["properties"]
    assert set(words) == set(PAGES.shapes)
    assert all(word["description"].endswith(".") for word in words.values())


def test_the_schema_that_ships_is_the_one_that_the_words_give() -> None:
    shipped_file = Path(specs.__file__).with_name("rungsheet.schema.json")
    assert json.loads(shipped_file.read_text("utf-8")) == json.loads(json.dumps(schema(VOCABULARY)))


def test_takes_the_demo() -> None:
    demo = yaml.safe_load(shipped().read_text(encoding="utf-8"))
    assert Draft202012Validator(json.loads(json.dumps(schema(VOCABULARY)))).is_valid(demo)


CONDITIONS: dict[str, dict[str, list[Any]]] = {
    "add": {
        "addends": [2, 6],
        "places": [0, [1, 2], {"ragged": 2}, {"ragged": [1, 3]}],
        "carries": ["none", {"count": 1}, {"in": "ones"}, {"in": ["ones", "tenths"]}],
        "answer": [{"between": [0.5, 2]}, {"whole_number": True}],
    },
    "subtract": {"exchanges": ["every", {"through_zeros": 1}], "longer": ["first"]},
    "multiply": {"places": [[1, 2], [0, 0, 0]]},
}


PAGES_SAID: list[dict[str, Any]] = [
    {"paper": "A5"},
    {"squares": 5, "placeholders": True},
    {"paper": "A3", "orientation": "landscape", "to_a_sheet": 4, "duplex": True},
    {"grid": "none", "spacing": "wide", "large": 18, "tint": "cream"},
]


@st.composite
def rungs(draw: st.DrawFn) -> dict[str, Any]:
    operation = draw(st.sampled_from(sorted(CONDITIONS)))
    words = {name: st.sampled_from(values) for name, values in CONDITIONS[operation].items()}
    return {"operation": operation} | draw(st.fixed_dictionaries({}, optional=words))


@st.composite
def whole_specs(draw: st.DrawFn) -> dict[str, Any]:
    names = draw(
        st.lists(st.from_regex(r"r[a-z0-9-]{0,8}", fullmatch=True), min_size=1, unique=True)
    )
    names = names[:4]
    counts = st.dictionaries(st.sampled_from(names), st.integers(1, 15), min_size=1)
    section = counts | st.fixed_dictionaries(
        {"questions": counts}, optional={"minutes": st.integers(1, 120)}
    )
    return draw(
        st.fixed_dictionaries(
            {
                "title": st.sampled_from(["Beans", 2024, 1.5, True]),
                "ladder": st.fixed_dictionaries({name: rungs() for name in names}),
                "tiers": st.fixed_dictionaries({"core": section}),
            },
            optional={
                "starter": section,
                "examples": st.lists(st.sampled_from(names), min_size=1, unique=True)
                | st.dictionaries(st.sampled_from(names), st.integers(1, 6), min_size=1),
                "matching": st.sampled_from(["signature", "rung"]),
                "pages": st.sampled_from(PAGES_SAID),
            },
        )
    )


@given(spec=whole_specs())
@pytest.mark.slow
def test_takes_what_reading_takes(
    spec: dict[str, Any], vocabulary: Vocabulary, valid: Callable[[object], bool]
) -> None:
    read_spec(json.dumps(spec).encode(), "stall.yaml", vocabulary)
    assert valid(spec)


def good() -> dict[str, Any]:
    return {"title": "Beans", "ladder": {"level": {"operation": "add"}}, "starter": {"level": 1}}


@pytest.mark.parametrize(
    "change",
    [
        {"title": None},
        {"ladder": {}},
        {"ladder": {"level": {}}},
        {"ladder": {"level": {"operation": "ad"}}},
        {"ladder": {"level": {"operation": "add", "carrys": "none"}}},
        {"ladder": {"level": {"operation": "add", "exchanges": "none"}}},
        {"ladder": {"level": {"operation": "multiply", "places": 2}}},
        {"ladder": {"level": {"operation": "add", "places": "two"}}},
        {"ladder": {"2 level": {"operation": "add"}}},
        {"ladder": {"con": {"operation": "add"}}},
        {"starter": {}},
        {"starter": {"level": 41}},
        {"starter": {"minutes": 10}},
        {"examples": []},
        {"examples": ["level", "level"]},
        {"tiers": {"starter": {"level": 1}}},
        {"matching": "rungs"},
        {"pages": {"squares": 6}},
        {"sections": {}},
    ],
)
def test_refuses_what_reading_refuses(
    change: dict[str, Any], vocabulary: Vocabulary, valid: Callable[[object], bool]
) -> None:
    assert valid(good())
    spec = good() | change
    assert not valid(spec)
    with pytest.raises(SpecError, match=r"stall\.yaml:\d+: "):
        read_spec(json.dumps(spec).encode(), "stall.yaml", vocabulary)


def test_describes_each_word(vocabulary: Vocabulary) -> None:
    rung = schema(vocabulary)["$defs"]["rung-add"]["properties"]
    assert rung["addends"] == {
        "type": "integer",
        "minimum": 2,
        "maximum": 6,
        "description": "How many numbers are added.",
    }
