"""Powers of ten: decimals as whole numbers divided by them, digits moved between columns.

Common practice, no source: 0.6 × 0.07 is 6 × 7 made 10 × 100 = 1000 times smaller.
"""

from generator.arithmetic.numbers import Number
from generator.arithmetic.place_value import becomes
from generator.operations.products.whole_product import set_whole
from generator.operations.spoken import amount
from generator.operations.working import Columns, Ink, Mark, Step, Strike, write_line
from specs.languages.saying import Saying, joined, say, several


def power_of(decimal: Number) -> int:
    """The power of ten that a decimal is divided by, as a whole number: 100 for 0.07."""
    return int(10**decimal.places)


def stated_power(decimal: Number, row: int, columns: Columns) -> Step:
    """``0.07 is 7 ÷ 100.``"""
    parts = f"{decimal.units} ÷ {power_of(decimal)}"
    text, own_column = stated_power_text(decimal), columns.point_column
    written = write_line(text, row, 0, Ink.PARTIAL, point_column=own_column)
    said = say("{decimal} is {parts}.", decimal=decimal, parts=parts)
    return Step(said, None, written.marks, written.points)


def stated_power_text(decimal: Number) -> str:
    """The same as it is written on the squares: ``0.07=7÷100``."""
    return f"{decimal}={decimal.units}÷{power_of(decimal)}"


def product_of_powers(powers: list[int], row: int) -> Step:
    """``10 × 100 = 1000.``"""
    written = write_line(product_of_powers_text(powers), row, 0, Ink.PARTIAL)
    product = _product(powers)
    sentence = say(
        "{powers} = {product}: divide the whole-number answer by {product}.",
        powers=" × ".join(map(str, powers)),
        product=product,
    )
    return Step(sentence, None, written.marks)


def product_of_powers_text(powers: list[int]) -> str:
    """The same as it is written on the squares: ``10×100=1000``."""
    return f"{'×'.join(map(str, powers))}={_product(powers)}"


def made_larger(whole: int, noughts: int, columns: Columns, row: int, ink: Ink) -> Step:
    """A whole number's digits moved to the left, and noughts after them."""
    larger = whole * 10**noughts
    back = several("Put the nought back.", "Put the {count} noughts back.", noughts)
    if whole:
        made = say(
            "{whole} × {power}: {becomes}, so {larger}.",
            whole=whole,
            power=10**noughts,
            becomes=becomes(whole, amount(whole, 0), amount(whole, noughts)),
            larger=larger,
        )
    else:
        made = say("{whole} × {power} is still 0.", whole=whole, power=10**noughts)
    return Step(joined((back, made)), None, set_whole(larger, columns, row, ink))


def made_smaller(whole: int, places: int, columns: Columns, row: int) -> Step:
    """A whole number's digits moved to the right, across the point: the answer."""
    answer = Number(whole, places)
    marks = tuple(
        Mark(row, columns[place], str(answer.digit(place)), Ink.ANSWER)
        for place in range(answer.top_place, answer.last_place - 1, -1)
    )
    return Step(_smaller(whole, answer), None, marks, (columns.point(row, Ink.ANSWER),))


def _smaller(whole: int, answer: Number) -> Saying:
    """What is said of a whole number's digits when they move to the right."""
    if not whole:
        return say(
            "{whole} ÷ {power} is still 0: {answer}.",
            whole=whole,
            power=10**answer.places,
            answer=answer,
        )
    return say(
        "{whole} ÷ {power}: {becomes}, so {answer}.",
        whole=whole,
        power=10**answer.places,
        becomes=becomes(whole, amount(whole, 0), amount(whole, -answer.places)),
        answer=answer,
    )


def point_put_in(whole: int, places: int, columns: Columns, row: int, *, told: bool) -> Step:
    """The point put into a whole number where it stands, with the noughts that it needs before it.

    ``told`` says that it goes by the places of the factors together: common practice, no source.
    """
    answer, said = Number(whole, places), _smaller(whole, Number(whole, places))
    if told:
        together = several(
            "The factors have {count} decimal place together, and so has the answer.",
            "The factors have {count} decimal places together, and so has the answer.",
            places,
        )
        said = joined((together, said))
    noughts = tuple(
        Mark(row, columns[place], "0", Ink.ANSWER)
        for place in range(answer.top_place, len(str(whole)) - 1 - places, -1)
    )
    return Step(said, None, noughts, (columns.point(row, Ink.ANSWER),))


def noughts_dropped(answer: Number, columns: Columns, row: int) -> Step:
    """The noughts at the end of the decimal part crossed out."""
    kept = answer.trimmed().places
    strikes = tuple(Strike(row, columns[-place]) for place in range(kept + 1, answer.places + 1))
    return Step(not_needed(answer), None, (), (), strikes)


def not_needed(answer: Number) -> Saying:
    """What is said of the noughts at the end of an answer's decimal part."""
    kept = answer.trimmed()
    return several(
        "The nought at the end is not needed: {answer} = {kept}.",
        "The {count} noughts at the end are not needed: {answer} = {kept}.",
        answer.places - kept.places,
        answer=answer,
        kept=kept,
    )


def _product(powers: list[int]) -> int:
    product = 1
    for power in powers:
        product *= power
    return product
