"""Shapes of values: what may stand after a word of a spec.

A shape reads a node of the file into a frozen, hashable value, says in plain words what
it takes, describes itself to editors as JSON Schema, and writes a value back in one
spelling. ``read(write(value)) == value`` for every value that a shape reads.
"""

from specs.canonical import decimal_text
from specs.shapes.either import Either
from specs.shapes.fields import Chosen, Field, Fields, OneField, refuse_key
from specs.shapes.lists import ListOf, SetOf
from specs.shapes.made import Defined, Made
from specs.shapes.named import Named
from specs.shapes.numbers import (
    DecimalNumber,
    DecimalRange,
    OneNumberOf,
    Range,
    WholeNumber,
    WrittenNumber,
)
from specs.shapes.shape import UNREAD, Notation, Shape, Unread, is_nothing, notation_of
from specs.shapes.words import OneOf, Text, YesNo

__all__ = [
    "UNREAD",
    "Chosen",
    "DecimalNumber",
    "DecimalRange",
    "Defined",
    "Either",
    "Field",
    "Fields",
    "ListOf",
    "Made",
    "Named",
    "Notation",
    "OneField",
    "OneNumberOf",
    "OneOf",
    "Range",
    "SetOf",
    "Shape",
    "Text",
    "Unread",
    "WholeNumber",
    "WrittenNumber",
    "YesNo",
    "decimal_text",
    "is_nothing",
    "notation_of",
    "refuse_key",
]
