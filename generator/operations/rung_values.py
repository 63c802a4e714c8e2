"""What the words of a rung say together, for the checks of a topic."""

from collections.abc import Callable, Iterator

from generator.operations.spans import Lengths
from specs.languages.saying import Saying, say
from specs.spec import RungSpec
from specs.words import Check, Word

Found = Iterator[tuple[int, Saying, Saying]]
"""A line, what is wrong there, and what to write instead."""


def line_of(rung: RungSpec, *words: str) -> int:
    """The last line on which one of the words stands, or the rung's own."""
    lines = [condition.line for condition in rung.conditions if condition.word in words]
    return max(lines, default=rung.line)


def lists_name_every_number(numbers: Callable[[RungSpec], int], *lengths: Word[Lengths]) -> Check:
    """The check that a list of lengths has an entry for each number of a rung's questions."""

    def check(rung: RungSpec) -> Found:
        exist = numbers(rung)
        for word in lengths:
            asked = word.of(rung)
            if isinstance(asked, tuple) and len(asked) != exist:
                yield (
                    line_of(rung, word.name),
                    say(
                        "{word} lists {listed} numbers but the question has {exist}",
                        word=word.name,
                        listed=len(asked),
                        exist=exist,
                    ),
                    say("list {count}, one for each number in turn", count=exist),
                )

    return check
