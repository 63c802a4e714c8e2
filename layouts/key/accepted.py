"""What counts as right, said once at the end of the key: of those answers that the pack has."""

import re
from collections.abc import Iterable, Iterator
from typing import Final

from generator.packs.working_out import WorkedSection
from layouts.key.band import EDGE, Band, heading, row
from layouts.planning import typeface
from layouts.planning.plan import line_height, paragraph
from layouts.planning.type_scale import KEY_WRONG
from layouts.planning.wording import sentence_to_wrap
from specs.accepted import ACCEPTED
from specs.languages.saying import say
from specs.languages.usage import Usage

_KINDS: Final = {
    "numbers": say("Numbers"),
    "left over": say("Left over"),
    "rounded": say("Rounded"),
    "units": say("Units"),
    "in order": say("In order"),
    "two compared": say("Two compared"),
    "missing": say("Missing"),
}
"""The kinds of answers as the key calls them."""

_NO_BREAK: Final = "\N{NO-BREAK SPACE}"
_BEFORE_DIVIDING: Final = re.compile(r" (?=÷|:\s)")


def accepted(sections: Iterable[WorkedSection], body: float, usage: Usage) -> Iterator[Band]:
    """A heading and a sentence for each kind of answer."""
    met = {kind for section in sections for item in section.items for kind in item.accepted_as}
    yield heading(usage(say("What counts as right")))
    for kind, said in ACCEPTED.items():
        if kind in met:
            words = say("{kind}: {what}.", kind=_KINDS[kind], what=said)
            kept = _BEFORE_DIVIDING.sub(_NO_BREAK, sentence_to_wrap(usage(words)))
            lines = typeface.wrap(kept, KEY_WRONG, body)
            height = len(lines) * line_height(KEY_WRONG)
            yield Band((row(paragraph(lines, EDGE, 0.0, KEY_WRONG)),), height, 0.8)
