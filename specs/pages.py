"""How the pages look: paper, squares, and what each sheet's readers need."""

from collections.abc import Collection
from typing import Any, Final

from specs.looks import LARGE as SIZES
from specs.names import PATTERN
from specs.problems import Reading, choose_from, listed, quoted
from specs.shapes import (
    Either,
    Fields,
    Fieldset,
    Named,
    OneNumberOf,
    OneOf,
    YesNo,
)
from specs.spec import BySheet, Presentation
from specs.tints import TINTS
from specs.yaml_text import Mapping, Node

LARGE: Final = OneNumberOf(*SIZES)
TINT: Final = OneOf(*TINTS)

PAGES: Final = Fields(
    {
        "paper": OneOf("A4", "A5", "A3", "Letter"),
        "orientation": OneOf("portrait", "landscape"),
        "to_a_sheet": OneNumberOf(1, 2, 4),
        "duplex": YesNo(),
        "squares": OneNumberOf(5, 7, 10),
        "grid": OneOf("plain", "faint", "none"),
        "spacing": OneOf("usual", "wide"),
        "large": Either(LARGE, Named(LARGE, "name of a tier", PATTERN)),
        "tint": Either(TINT, Named(TINT, "name of a tier", PATTERN)),
        "carries": OneOf("below", "above"),
        "placeholders": YesNo(),
        "subtraction": OneOf("exchange", "equal addition"),
        "point": OneOf("line", "column"),
    }
)

SAYS: Final = {
    "paper": "The paper in the printer: A4, A5, A3 or Letter (A4 when not given).",
    "orientation": "How each page stands: portrait or landscape (portrait when not given).",
    "to_a_sheet": "So many pages side by side on each sheet of paper, to be cut apart: 1, 2 or 4 "
    "(1 when not given).",
    "duplex": "true: every version begins on the front of a sheet; turn sheets over their left or "
    "right edge.",
    "squares": "The side of a square in millimetres: 5, 7 or 10 (7 when not given).",
    "grid": "How strongly the squares are printed: plain, faint or none (plain when not given).",
    "spacing": "How much stays free between questions: usual or wide.",
    "large": "Large print: the points that digits have at least, 18 or 24; for all sheets, or by "
    "tier as in {support: 18}.",
    "tint": f"The colour of the paper: {listed(TINTS)}; for all sheets, or by tier.",
    "carries": "Where small carried digits stand: below or above (below when not given).",
    "placeholders": "false: empty decimal places are not filled with noughts in workings.",
    "subtraction": "The method of column subtraction: exchange or equal addition (exchange when "
    "not given).",
    "point": "Where decimal points stand: line, after the ones, or column, in one of their own "
    "(line when not given).",
}
"""Each word of ``pages:`` in a sentence for a teacher; editors show it."""

BY_SHEET: Final = ("large", "tint")
"""Words whose value may be given for each tier."""


def presentation(pages: Fieldset) -> Presentation:
    """What ``pages:`` asks for; what it leaves out is as usual."""
    usual = Presentation()
    return Presentation(
        paper=pages.get("paper", usual.paper),
        square=pages.get("squares", usual.square),
        carries=pages.get("carries", usual.carries),
        placeholders=pages.get("placeholders", usual.placeholders),
        subtraction=pages.get("subtraction", usual.subtraction),
        point=pages.get("point", usual.point),
        orientation=pages.get("orientation", usual.orientation),
        to_a_sheet=pages.get("to_a_sheet", usual.to_a_sheet),
        duplex=pages.get("duplex", usual.duplex),
        grid=pages.get("grid", usual.grid),
        spacing=pages.get("spacing", usual.spacing),
        large=_by_sheet(pages.get("large")),
        tint=_by_sheet(pages.get("tint")),
    )


def _by_sheet(value: object) -> BySheet:
    if isinstance(value, Fieldset):
        return BySheet(None, tuple(value.pairs))
    assert value is None or isinstance(value, int | str)
    return BySheet(value)


def check_sheets(node: Node, sheets: Collection[str], reading: Reading) -> None:
    """Report each sheet named in ``pages:`` that the pack does not have."""
    for word, value in node.entries if isinstance(node, Mapping) else ():
        if word.text not in BY_SHEET or not isinstance(value, Mapping):
            continue
        for name, _ in value.entries:
            if name.text not in sheets:
                what = (
                    f"{quoted(word.text)} in 'pages' names {quoted(name.text)}, which no sheet is"
                )
                instead = choose_from(name.text, tuple(sheets)) if sheets else "leave it out"
                reading.problem(name.line, what, instead)


def pages_schema() -> dict[str, Any]:
    """``pages:`` as a fragment of JSON Schema, each word with what it means."""
    fragment = PAGES.schema()
    for word, says in SAYS.items():
        fragment["properties"][word] |= {"description": says}
    return fragment | {"description": "How the pages look."}
