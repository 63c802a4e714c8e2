"""A small vocabulary, so that reading is tested apart from what the words come to mean."""

from dataclasses import dataclass
from fractions import Fraction

import pytest

from specs.shapes import (
    DecimalRange,
    Either,
    Field,
    Fields,
    ListOf,
    OneField,
    OneOf,
    Range,
    SetOf,
    WholeNumber,
    YesNo,
)
from specs.spec import RungSpec
from specs.words import Vocabulary, Word

ADD, SUBTRACT, MULTIPLY = (frozenset({name}) for name in ("add", "subtract", "multiply"))

COLUMNS = ("tens", "ones", "tenths", "hundredths")
HOW_MANY = OneOf("none", "some", "every")
PLACES = WholeNumber(0, 6)


@dataclass(frozen=True)
class Where:
    """Carries: how many, and where."""

    count: tuple[int, int] | None = None
    columns: tuple[str, ...] | None = None
    across_point: bool | None = None


@dataclass(frozen=True)
class Answer:
    """What the answer must be."""

    between: tuple[Fraction, Fraction] | None = None
    whole_number: bool | None = None


def five_numbers_fit_the_sheet(rung: RungSpec) -> list[tuple[int, str, str]]:
    """A check across words, such as the generator makes: five addends need short numbers."""
    values = {condition.word: condition for condition in rung.conditions}
    if "addends" in values and "places" in values:
        addends, places = values["addends"], values["places"]
        if addends.value == 5 and places.value == 6:
            return [(places.line, "five addends of six places do not fit", "write fewer places")]
    return []


@pytest.fixture(scope="session")
def vocabulary() -> Vocabulary:
    return Vocabulary(
        operations=("add", "subtract", "multiply"),
        words=(
            Word("addends", ADD, WholeNumber(2, 6), "How many numbers are added."),
            Word(
                "places",
                ADD | SUBTRACT,
                Either(PLACES, ListOf(PLACES, 2, 6), OneField({"ragged": Range(0, 6)})),
                "Decimal places.",
            ),
            Word("places", MULTIPLY, ListOf(PLACES, 2, 3), "Decimal places of each factor."),
            Word("whole", ADD | SUBTRACT, WholeNumber(0, 6), "Digits before the point."),
            Word("longer", SUBTRACT, OneOf("first", "second", "neither"), "The longer number."),
            Word("zeros", ADD | SUBTRACT, OneOf("allow", "require", "forbid"), "Noughts."),
            Word("repeats", ADD | SUBTRACT, YesNo(), "Whether a digit may repeat in a column."),
            Word(
                "carries",
                ADD,
                Either(
                    HOW_MANY,
                    Fields(
                        Where,
                        {
                            "count": Range(0, 9),
                            "in": Field(SetOf(*COLUMNS), attribute="columns"),
                            "across_point": YesNo(),
                        },
                    ),
                ),
                "Carries from column to column.",
            ),
            Word(
                "exchanges",
                SUBTRACT,
                Either(HOW_MANY, OneField({"through_zeros": Range(0, 4)})),
                "Exchanges from column to column.",
            ),
            Word(
                "answer",
                ADD | SUBTRACT,
                Fields(Answer, {"between": DecimalRange(0, 1000), "whole_number": YesNo()}),
                "What the answer must be.",
            ),
        ),
        checks=(five_numbers_fit_the_sheet,),
    )
