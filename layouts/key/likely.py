"""The words of the key about wrong answers: which are likely, and what a section can show."""

from collections.abc import Iterator

from generator.forms.forms import Mistaken
from generator.operations.mistakes import Mistake
from generator.packs.likely_answers import asks_for_the_answer, likely_for, power
from generator.packs.pack import Item, Section


def likely_text(item: Item) -> Iterator[str]:
    """A line for each likely wrong answer: ``If 0.61: numbers lined up at the right-hand end``.

    Where a mistake is to be found, which it is.
    """
    if isinstance(item.form, Mistaken):
        yield f"Shown: {item.form.wrong}, {item.form.mistake}"
    for likely in likely_for(item):
        yield f"If {likely.reply.text}: {likely.names}"


def power_text(section: Section) -> Iterator[str]:
    """Which mistakes a section can catch, which it cannot, and which it cannot tell apart.

    A line for each number of questions that would show them, of all or of those whose own
    answer is asked for.

    Nothing for examples, which are not marked.
    """
    questions = [item.question for item in section.items if asks_for_the_answer(item)]
    if section.kind == "example" or not questions:
        return
    shown = power(questions)
    counts: dict[int, list[Mistake]] = {}
    for mistake, count in shown.catches:
        counts.setdefault(count, []).append(mistake)
    some = len(questions) < len(section.items)
    of_all = f"the {len(questions)} that are worked alone" if some else f"{len(questions)}"
    for count in sorted(counts, reverse=True):
        yield f"Mistakes that would show on {count} of {of_all}: {_names(counts[count])}."
    if shown.misses:
        yield f"Would not show: {_names(shown.misses)}."
    if shown.alike:
        pairs = "; ".join(f"{first.name} and {second.name}" for first, second in shown.alike)
        yield f"Not told apart: {pairs}."


def _names(mistakes: list[Mistake] | tuple[Mistake, ...]) -> str:
    return ", ".join(mistake.name for mistake in mistakes)
