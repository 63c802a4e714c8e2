"""The words that a rung may use. The words themselves are defined beside their meaning."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any, Generic, TypeVar, cast

from specs.languages.saying import NOTHING, Saying, joined, say
from specs.shapes import Shape
from specs.spec import PLAIN, Condition, RungSpec

T = TypeVar("T")

Check = Callable[[RungSpec], Iterable[tuple[int, Saying, Saying]]]
"""Judges a rung's words together: (line, what is wrong, what to write instead) for each problem."""


@dataclass(frozen=True, slots=True)
class Word(Generic[T]):
    """One condition word: the operations it goes with, the shape of its value, its meaning.

    ``says`` is one plain sentence for a teacher; editors show it.
    """

    name: str
    operations: frozenset[str]
    shape: Shape[T]
    says: Saying

    def condition(self, value: T, line: int = 0) -> Condition:
        """The condition that this word makes of a value of its shape."""
        text = f"{self.name}: {self.shape.write(value)}"
        return Condition(self.name, value, text, self.shape.plain(value), line)

    def of(self, rung: RungSpec) -> T | None:
        """What a rung says with this word; None where it does not mention it."""
        if rung.operation not in self.operations:
            return None
        found = (condition.value for condition in rung.conditions if condition.word == self.name)
        return cast(T | None, next(found, None))


@dataclass(frozen=True, slots=True)
class FormWord:
    """A way of asking questions by its name, with what a teacher must know beside it, if anything.

    ``says`` stands in brackets behind the name: ``of whole numbers, from which decimals follow``.
    ``operations`` are those whose questions can be asked so; None: all.
    """

    name: str
    says: Saying = NOTHING
    operations: frozenset[str] | None = None

    @property
    def listed(self) -> Saying:
        """The name as it stands in a list of forms, with what must be known beside it."""
        if not self.says:
            return joined((self.name,))
        return say("{name} ({says})", name=self.name, says=self.says)


@dataclass(frozen=True, slots=True)
class Vocabulary:
    """Every operation, condition word and form, in canonical order.

    A name may stand in several rows, with a shape for each operation. ``checks`` run on
    every rung whose words could all be read. ``leaves_out`` says which questions of an
    operation are never asked, ``of_methods`` has the mistakes that go with some written methods
    alone, each with its operations. Raises ValueError when two rows claim the
    same word of the same operation, or a row names an unknown operation.
    """

    operations: tuple[str, ...]
    words: tuple[Word[Any], ...]
    checks: tuple[Check, ...] = ()
    forms: tuple[FormWord, ...] = (FormWord(PLAIN),)
    leaves_out: Mapping[str, Saying] = field(default_factory=dict)
    of_methods: Mapping[str, frozenset[str]] = field(default_factory=dict)

    def __post_init__(self) -> None:
        claimed: set[tuple[str, str]] = {(name, "operation") for name in self.operations}
        for word in self.words:
            if not word.operations <= set(self.operations):
                raise ValueError(f"{word.name} goes with an unknown operation")
            for operation in word.operations:
                if (operation, word.name) in claimed:
                    raise ValueError(f"{word.name} is defined twice for {operation}")
                claimed.add((operation, word.name))

    def word(self, operation: str, name: str) -> Word[Any] | None:
        """The word as that operation knows it, or None."""
        return next((word for word in self.of(operation) if word.name == name), None)

    def of(self, operation: str) -> tuple[Word[Any], ...]:
        """The words of an operation, in canonical order."""
        return tuple(word for word in self.words if operation in word.operations)

    def forms_of(self, operation: str) -> tuple[FormWord, ...]:
        """The forms in which questions of an operation may be asked, plain first."""
        return tuple(
            form for form in self.forms if form.operations is None or operation in form.operations
        )

    def operations_with(self, form: str) -> tuple[str, ...]:
        """The operations that a form of question goes with, in canonical order."""
        return tuple(
            operation
            for operation in self.operations
            if form in {known.name for known in self.forms_of(operation)}
        )

    def rows(self, name: str) -> tuple[Word[Any], ...]:
        """Every row of a name."""
        return tuple(word for word in self.words if word.name == name)

    def operations_of(self, name: str) -> tuple[str, ...]:
        """The operations that know a word, in canonical order."""
        return tuple(name_of for name_of in self.operations if self.word(name_of, name))
