"""The written methods that a school teaches, an operation each."""

from typing import Final

from specs.languages.saying import say
from specs.problems import Reading, quoted
from specs.shapes import Field, Fields, OneOf
from specs.spec import Methods, Presentation

IN_COLUMNS: Final = "columns"
"""How products are worked where nothing is said of it."""

METHODS: Final = Fields(
    Methods,
    {
        "add": Field(
            OneOf("with noughts", "without noughts"),
            say(
                "Columns, with noughts in empty decimal places or without noughts (as "
                "'placeholders' in 'pages' says when not given)."
            ),
        ),
        "subtract": Field(
            OneOf("exchange", "equal addition", "counting up"),
            say(
                "exchange, equal addition, or counting up on a number line drawn to scale (as "
                "'subtraction' in 'pages' says when not given)."
            ),
        ),
        "multiply": Field(
            OneOf(IN_COLUMNS, "grid", "expanded"),
            say(
                "columns (short or long multiplication, as the numbers ask, set out as is usual in "
                "the country chosen), grid (the area method) or expanded, a row for each product "
                "of two digits (columns when not given)."
            ),
        ),
        "divide": Field(
            OneOf("short", "long", "chunking"),
            say(
                "short, long (with its subtractions where the country chosen has them), or "
                "chunking, by taking easy multiples away, all set out as is usual there (when not "
                "given, the one that is usual there: short in England)."
            ),
        ),
    },
)
"""``methods:``, each operation with the ways to work it."""


def check_one_method(methods: Methods, pages: Presentation, line: int, reading: Reading) -> None:
    """Report a subtraction that ``pages:`` and ``methods:`` want in two ways."""
    asked = methods.subtract
    if asked and pages.subtraction and pages.subtraction != asked:
        what = say(
            "'methods' has subtraction by {method}, and 'pages' by {other}",
            method=quoted(asked),
            other=quoted(pages.subtraction),
        )
        reading.problem(line, what, say("keep one of them, best that in 'methods'"))
