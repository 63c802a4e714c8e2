"""Reckoning on lines of squares: one short calculation a line, each with what is said of it.

For what no single written method finds: a number by its parts, or a hidden digit by what is left
when the rest of its number has had its share (common practice, no source).
"""

from dataclasses import dataclass, field

from generator.arithmetic.numbers import Number
from generator.arithmetic.place_value import column_name
from generator.operations.working import Ink, Step, Working, line_width, write_line
from specs.languages.saying import joined, say


def of_value(units: int, places: int) -> Number:
    """A number without noughts at the end of its decimals."""
    return Number(units, places).trimmed()


def times(first: Number, second: Number) -> Number:
    """The exact product."""
    return of_value(first.units * second.units, first.places + second.places)


def less(first: Number, second: Number) -> Number:
    """The exact difference."""
    places = max(first.places, second.places)
    return of_value(first.to_places(places).units - second.to_places(places).units, places)


@dataclass
class Lines:
    """Lines that are written one under another."""

    point_column: bool
    _steps: list[Step] = field(default_factory=list)
    _width: int = 0
    _rows: int = 0

    def write(self, line: str, sentence: str, *, last: bool = False) -> None:
        """One line, such as ``20×34=680``; the last one ends with what was to be found."""
        before, equals, result = line.rpartition("=")
        ink = Ink.ANSWER if last else Ink.PARTIAL
        own = self.point_column
        asked = write_line(f"{before}{equals}", self._rows, 0, Ink.PARTIAL, point_column=own)
        start = line_width(f"{before}{equals}", point_column=own)
        found = write_line(result, self._rows, start, ink, point_column=own)
        marks, points = (*asked.marks, *found.marks), (*asked.points, *found.points)
        self._steps.append(Step(sentence, None, marks, points))
        self._width = max(self._width, line_width(line, point_column=own))
        self._rows += 1

    def working(self, found: Number) -> Working:
        """The lines as a working that ends with the number found."""
        return Working(
            rows=max(self._rows, 1),
            columns=max(self._width, 1),
            units_column=0,
            point_column=self.point_column,
            rules=(),
            steps=tuple(self._steps),
            answer=found,
        )


def by_its_parts(lines: Lines, total: Number, by: Number, found: Number) -> None:
    """A number found from its product: how many of ``by`` make ``total``, place by place."""
    if not total.units:
        lines.write(f"0×{by}=0", f"0 × {by} = 0.")
        return
    parts: list[Number] = []
    rest = total
    for place in range(found.top_place, found.last_place - 1, -1):
        digit = found.digit(place)
        if not digit:
            continue
        part, more = _at(digit, place), _at(digit + 1, place).trimmed()
        share = times(part, by)
        left = less(rest, share)
        said = f"{part} × {by} = {share}."
        if left.units:
            said = say(
                "{calculation}. Stop there: {one_more} is more than {rest}.",
                calculation=f"{part} × {by} = {share}",
                one_more=f"{more} × {by} = {times(more, by)}",
                rest=str(rest),
            )
        if not parts:
            said = joined((say("Build it up from multiples of {number}:", number=str(by)), said))
        parts.append(part)
        last = not left.units and len(parts) == 1
        lines.write(f"{part}×{by}={share}", said)
        if left.units:
            taken = f"{rest} − {share} = {left}"
            lines.write(
                f"{rest}−{share}={left}",
                say("{calculation} is left.", calculation=taken),
            )
        elif last:
            lines.write(
                f"{total}÷{by}={part}",
                say("So {calculation}.", calculation=f"{total} ÷ {by} = {part}"),
                last=True,
            )
        rest = left
    if len(parts) > 1:
        summed = " + ".join(map(str, parts))
        lines.write(
            f"{'+'.join(map(str, parts))}={found.trimmed()}",
            f"{summed} = {found.trimmed()}.",
            last=True,
        )


def by_what_is_left(lines: Lines, total: Number, by: Number, hidden: Number, place: int) -> None:
    """A hidden digit of a factor, found from what the rest of its number leaves of the product."""
    part = _at(hidden.digit(place), place)
    rest_of_it = less(hidden, part)
    left = total
    if rest_of_it.units:
        share = times(rest_of_it, by)
        left = less(total, share)
        lines.write(
            f"{rest_of_it}×{by}={share}",
            say(
                "The digits that are there give {calculation}.",
                calculation=f"{rest_of_it} × {by} = {share}",
            ),
        )
        lines.write(
            f"{total}−{share}={left}",
            say(
                "{calculation}: the {column} digit must make this.",
                calculation=f"{total} − {share} = {left}",
                column=column_name(place),
            ),
        )
    lines.write(f"{part}×{by}={left}", _counted_up(hidden.digit(place), place, by, left))


def _counted_up(digit: int, place: int, by: Number, wanted: Number) -> str:
    """How a digit is found: the multiples up to the one that is wanted, from five on if need be."""
    if not digit:
        return say("Nothing is left to make: {calculation}.", calculation=f"0 × {by} = 0")
    first = 5 if digit > 5 else 1
    counted = (_at(many, place) for many in range(first, digit + 1))
    multiples = ", ".join(f"{many} × {by} = {times(many, by)}" for many in counted)
    return say("Count up to {number}: {multiples}.", number=str(wanted), multiples=multiples)


def _at(digit: int, place: int) -> Number:
    """A digit in its column: 20, 0.3."""
    return Number(digit * 10**place) if place >= 0 else Number(digit, -place)
