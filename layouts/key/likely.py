"""The words of the key about wrong answers: which are likely, and what a section can show."""

from collections.abc import Iterable, Iterator

from generator.packs.working_out import WorkedItem, WorkedSection


def likely_text(item: WorkedItem) -> Iterator[str]:
    """A line for each likely wrong answer: ``If 0.61: numbers lined up at the right-hand end``.

    Where a mistake is to be found, which it is.
    """
    if item.found_in_it:
        yield f"Shown: {item.found_in_it}"
    for likely in item.likely:
        yield f"If {likely.reply.text}: {likely.names}"


def power_text(section: WorkedSection) -> Iterator[str]:
    """Which mistakes a section can catch, which it cannot, and which it cannot tell apart.

    A line for each number of questions that would show them, of all or of those whose own
    answer is asked for.

    Nothing for examples, which are not marked.
    """
    power = section.power
    if power is None:
        return
    some = power.questions < len(section.items)
    of_all = f"the {power.questions} that are worked alone" if some else f"{power.questions}"
    for count, mistakes in power.by_count:
        yield f"Mistakes that would show on {count} of {of_all}: {_names(mistakes)}."
    if power.misses:
        yield f"Would not show: {_names(power.misses)}."
    if power.alike:
        pairs = "; ".join(f"{first} and {second}" for first, second in power.alike)
        yield f"Not told apart: {pairs}."


def _names(mistakes: Iterable[object]) -> str:
    return ", ".join(map(str, mistakes))
