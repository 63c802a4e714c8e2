"""What counts as right, said once at the end of the key: of those answers that the pack has."""

from collections.abc import Iterable, Iterator
from typing import Final

from generator.packs.working_out import WorkedSection
from layouts.key.band import EDGE, Band, heading, row
from layouts.planning import typeface
from layouts.planning.plan import line_height, paragraph
from layouts.planning.type_scale import KEY_WRONG
from layouts.planning.wording import sentence_to_wrap
from specs.accepted import ACCEPTED

_NO_BREAK: Final = "\N{NO-BREAK SPACE}"


def accepted(sections: Iterable[WorkedSection], body: float) -> Iterator[Band]:
    """A heading and a sentence for each kind of answer."""
    met = {kind for section in sections for item in section.items for kind in item.accepted_as}
    yield heading("What counts as right")
    for kind, said in ACCEPTED.items():
        if kind in met:
            words = f"{kind[:1].upper()}{kind[1:]}: {said}."
            kept = sentence_to_wrap(words).replace(" ÷", f"{_NO_BREAK}÷")
            lines = typeface.wrap(kept, KEY_WRONG, body)
            height = len(lines) * line_height(KEY_WRONG)
            yield Band((row(paragraph(lines, EDGE, 0.0, KEY_WRONG)),), height, 0.8)
