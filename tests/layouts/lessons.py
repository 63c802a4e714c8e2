"""Packs set by hand, so that pages are tested without the choosing of questions."""

import random
from decimal import Decimal

from generator.arithmetic.numbers import Number
from generator.packs.pack import Item, Pack, Section
from specs.spec import Presentation
from tests.asked import question

LETTERS = "abcdefghijklmnopqrstuvwxyz"

AWKWARD = (
    "0.6+0.7",  # the answer is longer than the numbers
    "12.345+9.8+0.007+101.25+3.5",
    "10.004-3.756",  # exchanges through three noughts
    "12-3.75",  # a whole number takes its noughts
    "1.25+0.75",  # the answer ends in noughts
    "123456.789-98765.432",
    "999999.999+0.001",
    "3+4",
    "1.234+2.345+3.456+4.567+5.678+6.789",
    "3.2-1.45",  # a digit that lent, then received
    "100-0.001",
)


def items(*texts: str) -> tuple[Item, ...]:
    """Questions in their places, labelled a, b, …, z, aa, ab, …"""
    return tuple(
        Item(
            label=("" if at < 26 else LETTERS[at // 26 - 1]) + LETTERS[at % 26],
            rung="through-zeros",
            question=question(text),
            signature=text,
            features=("carries in the tenths and ones",),
        )
        for at, text in enumerate(texts)
    )


def pack(
    *texts: str,
    versions: int = 1,
    paper: str = "A4",
    square: int = 7,
    carries: str = "below",
    placeholders: bool = True,
    title: str = "Produce stall",
) -> Pack:
    """A lesson whose starter, examples and one tier all hold these questions."""
    asked = items(*texts)
    return Pack(
        title,
        seed=2024,
        code="7F3A-19",
        versions=versions,
        sections=(
            Section("starter", "starter", 1, 10, asked),
            Section("examples", "example", 1, None, asked),
            *(Section("core", "practice", v, None, asked) for v in range(1, versions + 1)),
        ),
        presentation=Presentation(paper, square, carries, placeholders),
    )


def random_texts(count: int, seed: int, most_addends: int = 4) -> list[str]:
    """Additions and subtractions with numbers of all lengths."""
    source = random.Random(seed)

    def number() -> str:
        places = source.randint(0, 3)
        units = source.randint(0, 10 ** (places + source.randint(1, 2)) - 1)
        return str(Number(units, places))

    def one() -> str:
        if source.random() < 0.5:
            return "+".join(number() for _ in range(source.randint(2, most_addends)))
        return "-".join(sorted((number(), number()), key=Decimal, reverse=True))

    return [one() for _ in range(count)]
