"""Shapes: what each reads, what it says of anything else, and the law of writing."""

from dataclasses import FrozenInstanceError
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from specs.names import tidied
from specs.problems import Reading
from specs.shapes import (
    UNREAD,
    Chosen,
    DecimalNumber,
    DecimalRange,
    Either,
    Field,
    Fields,
    ListOf,
    Named,
    OneField,
    OneNumberOf,
    OneOf,
    Range,
    SetOf,
    Shape,
    Text,
    WholeNumber,
    YesNo,
    decimal_text,
)
from specs.yaml_text import read_tree
from tests.specs.conftest import Where

SMALL = WholeNumber(2, 6)
HOW_MANY = OneOf("none", "some", "every")
COLUMNS = SetOf("tens", "ones", "tenths", "hundredths")
CARRIES = Either(
    HOW_MANY,
    Fields(
        Where,
        {
            "count": Range(0, 9),
            "in": Field(COLUMNS, attribute="columns"),
            "across_point": YesNo(),
        },
    ),
)
POINTS = OneNumberOf(18, 24)
LARGE = Either(POINTS, Named(POINTS, "name of a tier", "^[a-z]+$", tidied))
PLACES = Either(SMALL, ListOf(SMALL, 2, 4), OneField({"ragged": Range(0, 6), "same": Range(0, 6)}))


def read(shape: Shape[Any], text: str) -> tuple[Any, list[str]]:
    """The value after a word, and the problems with it as ``what; instead``."""
    reading = Reading("stall.yaml")
    tree = read_tree(f"word: {text}".encode(), reading)
    assert tree is not None
    value = shape.read(tree.entries[0][1], reading.about("word"))
    return value, [f"{problem.what}; {problem.instead}" for problem in reading.problems]


@pytest.mark.parametrize(
    ("shape", "text", "value", "written"),
    [
        (SMALL, "4", 4, "4"),
        (WholeNumber(-3, 3), "-2", -2, "-2"),
        (DecimalNumber(0, 10), "0.50", Fraction(1, 2), "0.5"),
        (DecimalNumber(0, 10), "3", Fraction(3), "3"),
        (DecimalNumber(-1, 1), "-0.05", Fraction(-1, 20), "-0.05"),
        (YesNo(), "true", True, "true"),
        (YesNo(), "False", False, "false"),
        (YesNo(), "yes", True, "true"),
        (YesNo(), "Off", False, "false"),
        (HOW_MANY, "Every", "every", "every"),
        (Range(0, 9), "2 to 9", (2, 9), "[2, 9]"),
        (Range(0, 9), "2-9", (2, 9), "[2, 9]"),
        (DecimalRange(0, 9), "0.5 to 2", (Fraction(1, 2), Fraction(2)), "[0.5, 2]"),
        (HOW_MANY, "'none'", "none", "none"),
        (OneNumberOf(5, 7, 10), "10", 10, "10"),
        (Text(20), '"Beans: 40p"', "Beans: 40p", '"Beans: 40p"'),
        (Text(20), r"'say \"hi\"'", r"say \"hi\"", r'"say \\\"hi\\\""'),
        (Text(20), "2.50", "2.50", '"2.50"'),
        (Range(0, 6), "[1, 3]", (1, 3), "[1, 3]"),
        (Range(0, 6), "2", (2, 2), "2"),
        (Range(0, 6), "[2, 2]", (2, 2), "2"),
        (DecimalRange(0, 10), "[0.5, 2.25]", (Fraction(1, 2), Fraction(9, 4)), "[0.5, 2.25]"),
        (ListOf(SMALL, 2, 3), "[3, 2]", (3, 2), "[3, 2]"),
        (COLUMNS, "[tenths, ones]", ("ones", "tenths"), "[ones, tenths]"),
        (COLUMNS, "tenths", ("tenths",), "[tenths]"),
        (PLACES, "2", 2, "2"),
        (PLACES, "[2, 3]", (2, 3), "[2, 3]"),
        (PLACES, "{ragged: [1, 3]}", Chosen("ragged", (1, 3)), "{ragged: [1, 3]}"),
        (CARRIES, "none", "none", "none"),
        (
            CARRIES,
            "{across_point: false, count: 2}",
            Where(count=(2, 2), across_point=False),
            "{count: 2, across_point: false}",
        ),
        (LARGE, "24", 24, "24"),
        (
            LARGE,
            "{support: 24, core: 18}",
            (("core", 18), ("support", 24)),
            "{core: 18, support: 24}",
        ),
    ],
)
def test_read_and_written(shape: Shape[Any], text: str, value: object, written: str) -> None:
    assert read(shape, text) == (value, [])
    assert shape.write(value) == written
    assert shape.holds(value)
    hash(value)


@pytest.mark.parametrize(
    ("shape", "text", "problems"),
    [
        (SMALL, "7", ["'word' cannot be 7; write a whole number from 2 to 6"]),
        (SMALL, "2.5", ["'word' cannot be 2.5; write a whole number from 2 to 6"]),
        (SMALL, "'3'", ["'word' cannot be '3' in quotes; write a whole number from 2 to 6"]),
        (SMALL, "03", ["'word' cannot be 03; write a whole number from 2 to 6"]),
        (SMALL, "9" * 9000, [f"'word' cannot be '{'9' * 39}…'; write a whole number from 2 to 6"]),
        (SMALL, "", ["'word' has no value; write a whole number from 2 to 6"]),
        (SMALL, "~", ["'word' has no value; write a whole number from 2 to 6"]),
        (SMALL, "[2]", ["'word' cannot be a list; write a whole number from 2 to 6"]),
        (
            SMALL,
            "[2 6]",
            ["'word' cannot be [2 6] without a comma; write a whole number from 2 to 6"],
        ),
        (
            DecimalNumber(0, Fraction(5, 2), 1),
            "0.25",
            ["'word' cannot be 0.25; write a number from 0 to 2.5 with at most 1 decimal place"],
        ),
        (YesNo(), "maybe", ["'word' cannot be 'maybe'; write true or false"]),
        (YesNo(), "'true'", ["'word' cannot be 'true' in quotes; write true or false"]),
        (HOW_MANY, "evry", ["'word' cannot be 'evry'; did you mean 'every'?"]),
        (HOW_MANY, "twice", ["'word' cannot be 'twice'; write none, some or every"]),
        (OneNumberOf(5, 7, 10), "6", ["'word' cannot be 6; write 5, 7 or 10"]),
        (Text(5), "runner beans", ["'word' is 12 characters long; write a line of at most 5"]),
        (Text(5), "' '", ["'word' cannot be ' '; write a line of at most 5 characters"]),
        (Text(5), '"a\\tb"', ["'word' holds a character that cannot be printed; take out U+0009"]),
        (
            Text(5),
            '"\\uD800"',
            ["'word' holds a character that cannot be printed; take out U+D800"],
        ),
        (Text(5), "[a]", ["'word' cannot be a list; write a line of at most 5 characters"]),
        (Range(0, 6), "3 to 1", ["'word' cannot be [3, 1]: the lowest stands first; write [1, 3]"]),
        (Range(0, 6), "[3, 1]", ["'word' cannot be [3, 1]: the lowest stands first; write [1, 3]"]),
        (
            Range(0, 6),
            "[1]",
            ["'word' cannot be a list; write a whole number from 0 to 6 or a pair"],
        ),
        (Range(0, 6), "[1, 9]", ["'word' cannot be 9; write a whole number from 0 to 6"]),
        (
            ListOf(SMALL, 2, 3),
            "[1, 2, 3, 9]",
            [
                "'word' is a list of 4; write a list [ ] of 2 to 3, each a whole number",
                "'word' cannot be 1; write",
                "'word' cannot be 9; write",
            ],
        ),
        (COLUMNS, "[ones, ones]", ["'word' names 'ones' twice; name it once"]),
        (COLUMNS, "[ones, tenth]", ["'word' cannot be 'tenth'; did you mean 'tenths'?"]),
        (COLUMNS, "[]", ["'word' cannot be an empty list; write one or more of [tens, ones,"]),
        (PLACES, "7", ["'word' cannot be 7; write a whole number from 2 to 6"]),
        (
            PLACES,
            "two",
            ["'word' cannot be 'two'; write a whole number from 2 to 6, or a list [ ]"],
        ),
        (PLACES, "{}", ["'word' cannot be an empty {}; write {ragged:"]),
        (
            CARRIES,
            "{cuont: 2, across_point: maybe}",
            [
                "'cuont' is not a word that can stand in 'word'; did you mean 'count'? "
                "(the words in 'word': count, in, across_point)",
                "'across_point' in 'word' cannot be 'maybe'; write true or false",
            ],
        ),
        (CARRIES, "non", ["'word' cannot be 'non'; did you mean 'none'?"]),
        (
            CARRIES,
            "4",
            ["'word' cannot be 4; write none, some or every, or {count: …} with any of"],
        ),
    ],
)
def test_refused(shape: Shape[Any], text: str, problems: list[str]) -> None:
    value, found = read(shape, text)
    assert value is UNREAD
    assert len(found) == len(problems), found
    for problem, start in zip(found, problems, strict=True):
        assert problem.startswith(start)


def test_words_that_yaml_would_take_for_something_else_are_no_choice() -> None:
    for word in ("no", "true", "null", "a: b", "1st", "-a"):
        with pytest.raises(ValueError, match="would not stay a word"):
            OneOf("none", word)


def test_a_value_in_braces_is_frozen_and_says_only_what_is_given() -> None:
    one, _ = read(CARRIES, "{in: tenths, count: 2}")
    other, _ = read(CARRIES, "{count: 2, in: [tenths]}")
    assert one == other == Where((2, 2), ("tenths",))
    assert hash(one) == hash(other)
    assert CARRIES.parts(one) == (Where(count=(2, 2)), Where(columns=("tenths",)))
    assert CARRIES.joined(CARRIES.parts(one)) == one
    with pytest.raises(FrozenInstanceError):
        one.count = (1, 1)


@pytest.mark.parametrize(
    ("shape", "value", "distance", "near"),
    [
        (SMALL, 3, 1, [2, 4]),
        (SMALL, 6, 2, [4]),
        (Range(0, 6), (2, 2), 1, [(1, 1), (3, 3)]),
        (Range(0, 6), (1, 6), 1, [(0, 6)]),
        (PLACES, Chosen("ragged", (1, 3)), 1, [Chosen("ragged", (0, 3)), Chosen("ragged", (1, 4))]),
        (PLACES, (2, 3), 1, [(3, 3), (2, 2), (2, 4)]),
        (CARRIES, "none", 1, []),
        (CARRIES, Where(count=(0, 2)), 1, [Where(count=(0, 3))]),
        (YesNo(), True, 1, []),
    ],
)
def test_values_near_a_value_have_one_number_moved(
    shape: Shape[Any], value: object, distance: int, near: list[object]
) -> None:
    assert list(shape.near(value, distance)) == near


def test_one_word_of_a_few_is_one() -> None:
    assert read(PLACES, "{ragged: 2, same: 1}") == (
        UNREAD,
        ["'word' cannot be ragged and same at once; keep one of them, for instance {ragged: 2}"],
    )


def test_a_third_has_no_decimal() -> None:
    with pytest.raises(ValueError, match="18 decimal places"):
        decimal_text(Fraction(1, 3))


WHOLE = st.integers(0, 9)
EXACT = st.decimals(-99, 99, places=4, allow_nan=False).map(Fraction)
NAMES = st.sampled_from(COLUMNS.words)
ANY_FIELDS = st.fixed_dictionaries(
    {},
    optional={
        "count": st.tuples(WHOLE, WHOLE).map(lambda pair: tuple(sorted(pair))),
        "columns": st.sets(NAMES, min_size=1).map(
            lambda names: tuple(name for name in COLUMNS.words if name in names)
        ),
        "across_point": st.booleans(),
    },
).filter(bool)

SHAPES_WITH_VALUES: list[tuple[Shape[Any], st.SearchStrategy[Any]]] = [
    (WholeNumber(0, 9), WHOLE),
    (DecimalNumber(-99, 99), EXACT),
    (YesNo(), st.booleans()),
    (Text(30), st.text(max_size=30).filter(Text(30).holds)),
    (DecimalRange(-99, 99), st.tuples(EXACT, EXACT).map(lambda pair: tuple(sorted(pair)))),
    (ListOf(WholeNumber(0, 9), 1, 4), st.lists(WHOLE, min_size=1, max_size=4).map(tuple)),
    (CARRIES, st.sampled_from(HOW_MANY.words) | ANY_FIELDS.map(lambda given: Where(**given))),
]


@given(st.data())
@pytest.mark.parametrize(("shape", "values"), SHAPES_WITH_VALUES)
def test_what_is_written_reads_back(
    shape: Shape[Any], values: st.SearchStrategy[Any], data: st.DataObject
) -> None:
    value = data.draw(values)
    assert shape.holds(value)
    assert read(shape, shape.write(value)) == (value, [])


@given(st.decimals(-(10**6), 10**6, places=6, allow_nan=False))
def test_a_decimal_is_written_as_the_decimal_module_writes_it(number: Any) -> None:
    """Against the standard library's decimal module, stripped of noughts at the end."""
    expected = format(number, "f").rstrip("0").rstrip(".")
    assert decimal_text(Fraction(number)) == ("0" if expected in ("-0", "") else expected)
