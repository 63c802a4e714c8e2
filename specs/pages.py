"""How the pages look: paper, squares, and what each sheet's readers need."""

from collections.abc import Collection
from typing import Any, Final

from specs import key_words, lands
from specs.languages.language import LANGUAGES
from specs.languages.saying import Saying, say
from specs.looks import LARGE as SIZES
from specs.names import PATTERN, tidied, tidy
from specs.problems import Reading, choose_from, listed, quoted
from specs.shapes import (
    Either,
    Field,
    Fields,
    Made,
    Named,
    OneNumberOf,
    OneOf,
    Shape,
    WholeNumber,
    YesNo,
)
from specs.spec import BySheet, Presentation
from specs.spellings import folded
from specs.tints import TINTS
from specs.yaml_text import Mapping, Node

_OF_A_TIER: Final = say("name of a tier")


def _by_sheet(wish: Shape[Any], names: Saying = _OF_A_TIER) -> Shape[BySheet]:
    """A wish for all sheets, or for those of some tiers by name."""
    return Made(
        Either(wish, Named(wish, names, PATTERN, tidied)),
        BySheet.asked,
        lambda value: value.stated,
    )


MOST_VERSIONS: Final = 100
"""Of a sheet, where its spec says how many: three classes' worth."""

VERSIONS: Final = _by_sheet(WholeNumber(1, MOST_VERSIONS), say("name of a sheet"))
"""In how many versions practice sheets come, or each sheet by name."""

BY_SHEET: Final = ("large", "tint", "estimate", "key_words")
"""Words whose value may be given for each tier."""

PAGES: Final = Fields(
    Presentation,
    {
        "paper": Field(
            OneOf("A4", "A5", "A3", "Letter"),
            say("The paper in the printer: A4, A5, A3 or Letter (A4 when not given)."),
        ),
        "orientation": Field(
            OneOf("portrait", "landscape"),
            say("How each page stands: portrait or landscape (portrait when not given)."),
        ),
        "to_a_sheet": Field(
            OneNumberOf(1, 2, 4),
            say(
                "So many pages side by side on each sheet of paper, to be cut apart: 1, 2 or 4 "
                "(1 when not given)."
            ),
        ),
        "duplex": Field(
            YesNo(),
            say(
                "true: every version begins on the front of a sheet; turn sheets over their left "
                "or right edge."
            ),
        ),
        "squares": Field(
            OneNumberOf(5, 7, 10),
            say("The side of a square in millimetres: 5, 7 or 10 (7 when not given)."),
            attribute="square",
        ),
        "grid": Field(
            OneOf("plain", "faint", "none"),
            say(
                "How strongly the squares are printed: plain, faint or none (plain when not given)."
            ),
        ),
        "spacing": Field(
            OneOf("usual", "wide"), say("How much stays free between questions: usual or wide.")
        ),
        "large": Field(
            _by_sheet(OneNumberOf(*SIZES)),
            say(
                "Large print: the points that digits have at least, 18 or 24; for all sheets, or "
                "by tier as in {{support: 18}}."
            ),
        ),
        "tint": Field(
            _by_sheet(OneOf(*TINTS)),
            say(
                "The colour of the paper: {tints}; for all sheets, or by tier.",
                tints=listed(TINTS),
            ),
        ),
        "estimate": Field(
            _by_sheet(YesNo()),
            say(
                "true: a line for an estimate beside each calculation; slides and key show one, "
                "each number rounded to one significant figure, and the key says which wrong "
                "answers it shows to be wrong. For all sheets, or by tier as in {{support: true}}."
            ),
        ),
        "key_words": Field(
            _by_sheet(OneOf(*key_words.names())),
            say(
                "A strip of key words below the head of sheets, each in the pages' language and in "
                "one that pupils speak: {languages}. For all sheets, or by tier as in "
                "{{support: Polish}}.",
                languages=listed(key_words.names()),
            ),
        ),
        "carries": Field(
            OneOf("below", "above", "between"),
            say(
                "Where small carried digits stand: below the answer, above the numbers, or "
                "between them, over the answer's line (when not given, as is usual in the country "
                "chosen: below in England)."
            ),
        ),
        "placeholders": Field(
            YesNo(), say("false: empty decimal places are not filled with noughts in workings.")
        ),
        "subtraction": Field(
            OneOf("exchange", "equal addition"),
            say(
                "The method of column subtraction: exchange or equal addition (when not given, as "
                "is usual in the country chosen: exchange in England)."
            ),
        ),
        "point": Field(
            OneOf("line", "column"),
            say(
                "Where decimal points stand: line, after the ones, or column, in one of their own "
                "(line when not given)."
            ),
        ),
        "land": Field(
            OneOf(*lands.names()),
            say(
                "The country whose way of writing numbers, signs and written methods the pages "
                "have: {lands} (England when not given).",
                lands=listed(lands.names()),
            ),
        ),
        "language": Field(
            OneOf(*LANGUAGES),
            say(
                "The language in which the pages speak: {languages} (English when not given). Your "
                "own words, such as title and instructions, stay as you write them.",
                languages=listed(LANGUAGES),
            ),
        ),
    },
)
"""``pages:``, each word with what it may be and what it means."""


def check_sheets(pages: Node, sheets: Collection[str], reading: Reading) -> None:
    """Report each sheet named in ``pages:`` that the pack does not have."""
    for word, value in pages.entries if isinstance(pages, Mapping) else ():
        if folded(word.text) in BY_SHEET:
            what = say("{word} in {subject}", word=quoted(word.text), subject=quoted("pages"))
            check_names(what, value, sheets, reading)


def check_names(what: str, named: Node, sheets: Collection[str], reading: Reading) -> None:
    """Report each sheet that a wish (``what``) names and the pack does not have."""
    for name, _ in named.entries if isinstance(named, Mapping) else ():
        if tidy(name).text not in sheets:
            said = say("{word} names {name}, which no sheet is", word=what, name=quoted(name.text))
            instead = choose_from(name.text, tuple(sheets)) if sheets else say("leave it out")
            reading.missed(tidy(name).text, name.line, said, instead)
