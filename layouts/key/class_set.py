"""The answers of a section in all its versions: a strip a version, to hold beside a book.

A strip has the version, the code of its sheet, and the letters across. Wrong answers to expect
stand under the right one, each with the number of its mistake; the numbers are explained at the
head of every page.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import islice, zip_longest
from typing import Final

from generator.packs.working_out import WorkedItem, WorkedSection, WrongAnswer
from layouts.key.band import BETWEEN_SECTIONS, EDGE, Band, heading, row
from layouts.key.likely import power_lines
from layouts.planning import flow, typeface
from layouts.planning.plan import Line, Role, Text, Unit, line_height, paragraph
from layouts.planning.type_scale import FINE_LINE, GRID, KEY_ANSWER, KEY_QUESTION, KEY_WRONG
from layouts.planning.wording import section_heading

_TOGETHER: Final = 40
"""So many versions have their letters under one another."""
_GAPS: Final = (3.5, 2.4)
"""Between one letter and the next, best first: the first that needs the fewest lines is taken."""
_AFTER_LETTER: Final = 1.2
_LEGEND_COLUMNS: Final = (3, 2)
"""How many mistakes stand side by side in what explains their numbers, best first."""
_LEGEND_GAP: Final = 2.0


@dataclass(frozen=True, slots=True)
class _Numbers:
    """The numbers of a tier's mistakes, in the order in which pupils' sheets meet them."""

    of: dict[str, int]

    def said(self, wrong: WrongAnswer) -> str:
        """``3.1 (2)``, or ``3.1 (2/5)`` where two mistakes give the same answer."""
        return f"{wrong.text} ({'/'.join(str(self.of[cause]) for cause in wrong.causes)})"


def class_set(sections: Iterable[WorkedSection], body: float) -> Iterator[Band]:
    """The bands of one section in its versions."""
    numbers = _Numbers({})
    each = iter(sections)
    while together := tuple(islice(each, _TOGETHER)):
        _number(numbers, together)
        table = _Table.of(together, numbers, body)
        first, last = together[0].version, together[-1].version
        say = together[0].say
        versions = say("version {number}", number=first)
        if last > first:
            versions = say("versions {first} to {last}", first=first, last=last)
        name = f"{section_heading(together[0])}, {versions}"
        notes = power_lines(together[0], body) if first == 1 else ()
        legend = _legend(table.causes, numbers, body)
        yield heading(name, notes)
        yield from legend
        again = _joined(heading(say("{name}, continued", name=name)), *legend)
        for section in together:
            yield table.strip(section, again)


def _number(numbers: _Numbers, sections: Iterable[WorkedSection]) -> None:
    for section in sections:
        for item in section.items:
            for wrong in item.wrong_answers_to_expect:
                for cause in wrong.causes:
                    numbers.of.setdefault(cause, len(numbers.of) + 1)


def _legend(causes: Sequence[str], numbers: _Numbers, body: float) -> tuple[Band, ...]:
    """What each number means, down the columns."""
    if not causes:
        return ()
    words = [f"({numbers.of[cause]}) {cause}" for cause in causes]
    widest = max(typeface.width(one, KEY_WRONG) for one in words) + _LEGEND_GAP
    across = next((count for count in _LEGEND_COLUMNS if widest <= body / count), 1)
    deep = -(-len(words) // across)
    columns = [words[start : start + deep] for start in range(0, len(words), deep)]
    units = [
        row(paragraph(column, EDGE + at * body / across, 0.0, KEY_WRONG))
        for at, column in enumerate(columns)
    ]
    return (Band(tuple(units), deep * line_height(KEY_WRONG) + 1.5, leads=True),)


def _joined(*bands: Band) -> Band:
    """Bands under one another as one."""
    units: list[Unit] = []
    top = 0.0
    for band in bands:
        units.extend(band.drawn(top))
        top += band.height
    return Band(tuple(units), top, BETWEEN_SECTIONS, leads=True)


@dataclass(frozen=True, slots=True)
class _Table:
    """Strips whose letters stand under one another: where each letter begins, and in which line.

    ``places`` has for each letter its line and its x.
    """

    places: tuple[tuple[int, float], ...]
    causes: tuple[str, ...]
    numbers: _Numbers
    label: float
    body: float

    @classmethod
    def of(cls, sections: Sequence[WorkedSection], numbers: _Numbers, body: float) -> "_Table":
        """Each letter as wide as the widest answer that any of the versions has under it."""
        letters = [item.label for section in sections for item in section.items]
        label = max(typeface.width(text, KEY_QUESTION, bold=True) for text in letters)
        label += _AFTER_LETTER
        widths = [
            max(_width(item, numbers, label) for item in under_one_another if item)
            for under_one_another in zip_longest(*(section.items for section in sections))
        ]
        places = min((_placed(widths, gap, body) for gap in _GAPS), key=lambda p: p[-1][0])
        met = {
            cause
            for section in sections
            for item in section.items
            for wrong in item.wrong_answers_to_expect
            for cause in wrong.causes
        }
        by_number = tuple(sorted(met, key=lambda cause: numbers.of[cause]))
        return cls(places, by_number, numbers, label, body)

    def strip(self, section: WorkedSection, again: Band) -> Band:
        """One version."""
        top = 0.8
        say = section.say
        name = say("version {number}", number=section.version)
        (title,) = paragraph((name,), EDGE, top, KEY_QUESTION, bold=True)
        coded = say("code {code}", code=section.code)
        code = Text(coded, EDGE + title.width + 4.0, title.baseline, KEY_WRONG)
        units = [
            Unit(Role.ARTEFACT, (Line(EDGE, 0.0, EDGE + self.body, 0.0, FINE_LINE, GRID),)),
            row((title, code)),
        ]
        top += line_height(KEY_QUESTION)
        for line in range(self.places[-1][0] + 1):
            tallest = 0.0
            for item, (its, x) in zip(section.items, self.places, strict=False):
                if its == line:
                    units.append(row(self._cell(item, x, top)))
                    tallest = max(tallest, self._height(item))
            top += tallest
        return Band(tuple(units), top + 0.8, again=again)

    def _height(self, item: WorkedItem) -> float:
        wrong = len(item.wrong_answers_to_expect)
        return line_height(KEY_ANSWER) + wrong * line_height(KEY_WRONG)

    def _cell(self, item: WorkedItem, x: float, top: float) -> Iterator[Text]:
        width = self.body + EDGE - x - self.label
        answer = typeface.wrap(item.reply, KEY_ANSWER, width, bold=True)
        lines = paragraph(answer, x + self.label, top, KEY_ANSWER, bold=True)
        yield Text(item.label, x, lines[0].baseline, KEY_QUESTION, bold=True)
        yield from lines
        wrong = map(self.numbers.said, item.wrong_answers_to_expect)
        yield from paragraph(wrong, x, top + line_height(KEY_ANSWER), KEY_WRONG)


def _placed(widths: Sequence[float], gap: float, body: float) -> tuple[tuple[int, float], ...]:
    """Letters of these widths on lines that each take the whole width."""
    places: list[tuple[int, float]] = []
    runs = _lines(widths, body, gap)
    for line, (start, end) in enumerate(runs):
        free = body - sum(widths[start:end]) - gap * (end - start - 1)
        more = max(0.0, free) / (end - start)
        x = EDGE
        for width in widths[start:end]:
            places.append((line, x))
            x += width + gap + more
    return tuple(places)


def _lines(widths: Sequence[float], body: float, gap: float) -> tuple[flow.Run, ...]:
    """Which letters share a line: the fewest lines, evenly filled."""
    fewest = len(flow.greedy(widths, body, gap))
    return flow.even(widths, fewest, body, gap)


def _width(item: WorkedItem, numbers: _Numbers, label: float) -> float:
    """The width of a letter and its answer, with the wrong ones under them."""
    wrong = map(numbers.said, item.wrong_answers_to_expect)
    return max(
        label + typeface.width(item.reply, KEY_ANSWER, bold=True),
        *(typeface.width(text, KEY_WRONG) for text in wrong),
        0.0,
    )
