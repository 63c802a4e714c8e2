"""Rungs with no question: which conditions cannot hold together, and what would help."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations, islice
from typing import Final

from generator.arithmetic.questions import Operation
from generator.operations.columns.automaton import TooWideError
from generator.operations.rungs import fresh_set, rung_set
from generator.vocabulary import VOCABULARY
from specs.shapes import Fieldset
from specs.spec import Condition, RungSpec, Spec

_FARTHEST: Final = 3  # how far a number in a condition is moved in search of help

_MOST_SEARCH: Final = 2_000_000
"""How much counting goes into a search for the smallest conflict and for help (a second)."""

_MOST_AT_ONCE: Final = _MOST_SEARCH // 8  # … and into one set of conditions in it

_EACH: Final = 1_000  # what any count costs, beside its own work

_MOST_FOR_A_LADDER: Final = 4_000_000
"""How much counting goes into all the rungs of a ladder (some two seconds)."""


@dataclass(frozen=True, slots=True)
class Conflict:
    """A rung that cannot be used: at which line, why, and what would help.

    ``clashing`` is a smallest set of conditions that no question meets together; it is
    empty where the rung is too wide to be counted.
    """

    rung: RungSpec
    clashing: tuple[Condition, ...]
    what: str
    instead: str

    @property
    def line(self) -> int:
        """The line of the last clashing condition, or of the rung."""
        return max((condition.line for condition in self.clashing), default=self.rung.line)


def conflicts(spec: Spec) -> Iterator[Conflict]:
    """The conflict of each rung that holds no question or is too wide to be counted."""
    work = 0
    for rung in spec.ladder:
        questions = rung_set(rung)
        try:
            if work > _MOST_FOR_A_LADDER:
                raise TooWideError
            if not questions.count:
                search, parts = _Search(rung), tuple(_parts(rung))
                clashing = search.smallest(parts)
                instead = search.help(parts, clashing)
                yield Conflict(rung, clashing, _why(rung, clashing), instead)
                work += search.work
        except TooWideError:
            if work > _MOST_FOR_A_LADDER:
                what = f"the rungs before {rung.name} have taken as much counting as one spec may"
                yield Conflict(rung, (), what, "keep the widest rungs in a spec of their own")
                return
            yield Conflict(
                rung,
                (),
                f"{rung.name} mixes too many lengths and conditions to be counted exactly",
                "ask for fewer addends, a narrower range of places or whole, or fewer conditions",
            )
        work += questions.work


def _why(rung: RungSpec, clashing: tuple[Condition, ...]) -> str:
    texts = [f"`{condition.text}`" for condition in clashing]
    if len(texts) == 1:
        return f"no question of {rung.name} meets {texts[0]}"
    return f"no question of {rung.name} meets {', '.join(texts[:-1])} and {texts[-1]} together"


def _parts(rung: RungSpec) -> Iterator[Condition]:
    """The rung's conditions, those with several fields taken apart."""
    for condition in rung.conditions:
        if isinstance(condition.value, Fieldset):
            for name, value in condition.value.items():
                yield _condition(rung, condition, Fieldset({name: value}))
        else:
            yield condition


def _condition(rung: RungSpec, like: Condition, value: object) -> Condition:
    """A condition of the same word with another value, with the text that says so."""
    word = VOCABULARY.word(rung.operation, like.word)
    assert word is not None
    return Condition(like.word, value, f"{like.word}: {word.shape.write(value)}", like.line)


def _joined(parts: tuple[Condition, ...]) -> tuple[Condition, ...]:
    """Conditions with the parts of each put together again, without their texts."""
    values: dict[str, object] = {}
    for part in parts:
        before = values.get(part.word)
        if isinstance(before, Fieldset) and isinstance(part.value, Fieldset):
            values[part.word] = Fieldset({**before, **part.value})
        else:
            values[part.word] = part.value
    return tuple(Condition(word, value, "") for word, value in values.items())


class _Search:
    """A search among parts of a rung, with so much counting and no more.

    What it says is exact. When the counting is used up it may have found a set of clashing
    parts that is not the smallest, or no help.
    """

    def __init__(self, rung: RungSpec) -> None:
        self._rung = rung
        self._known: dict[tuple[Condition, ...], int | None] = {}
        self.work = 0

    def counted(self, parts: tuple[Condition, ...]) -> int | None:
        """How many questions meet some parts; None where that cannot be counted.

        A list of lengths cannot be, without the number of addends that it goes with.
        """
        conditions = _joined(parts)
        if conditions not in self._known:
            self._known[conditions] = self._count(parts, conditions)
        return self._known[conditions]

    def _count(self, parts: tuple[Condition, ...], conditions: tuple[Condition, ...]) -> int | None:
        if self.over:
            return None
        candidate = RungSpec(self._rung.name, self._rung.operation, parts)
        if any(found for check in VOCABULARY.checks for found in check(candidate)):
            return None
        questions = fresh_set(Operation(self._rung.operation), conditions)
        try:
            return questions.count_within(_MOST_AT_ONCE)
        except TooWideError:
            return None
        finally:
            self.work += _EACH + questions.work

    @property
    def over(self) -> bool:
        """Whether its counting is used up."""
        return self.work > _MOST_SEARCH

    def smallest(self, parts: tuple[Condition, ...]) -> tuple[Condition, ...]:
        """A smallest set of parts that no question meets.

        Sets are tried smaller before larger. Should that take half of the counting, parts are
        left out one at a time for as long as the rest still clash.
        """
        for size in range(len(parts)):
            for chosen in combinations(parts, size):
                if self.counted(chosen) == 0:
                    return chosen
                if self.work > _MOST_SEARCH // 2:
                    return self._clashing_still(parts)
        return parts

    def _clashing_still(self, parts: tuple[Condition, ...]) -> tuple[Condition, ...]:
        for part in parts:
            fewer = tuple(other for other in parts if other is not part)
            if self.counted(fewer) == 0:
                parts = fewer
        return parts

    def help(self, parts: tuple[Condition, ...], clashing: tuple[Condition, ...]) -> str:
        """The nearest change that leaves questions: a number moved, or a condition dropped."""
        dropped = []
        for part in clashing:
            count = self.counted(tuple(other for other in parts if other is not part))
            if count:
                dropped.append((count, f"without `{part.text}` there are {count:,}"))
        found = [
            *islice(self._moved(parts, clashing), 1),
            *[text for _, text in sorted(dropped)[:2]],
        ]
        if found:
            return "; ".join(found)
        return "drop or change one of them (another conflict will then remain to be solved)"

    def _moved(
        self, parts: tuple[Condition, ...], clashing: tuple[Condition, ...]
    ) -> Iterator[str]:
        """Changes of one number in one clashing part that leave questions, least changes first.

        What a rung asks of the working gives way before the lengths of its numbers.
        """
        for distance in range(1, _FARTHEST + 1):
            for part in reversed(clashing):
                for value in _neighbours(part.value, distance):
                    word = VOCABULARY.word(self._rung.operation, part.word)
                    assert word is not None
                    if not word.shape.holds(value):
                        continue
                    changed = _condition(self._rung, part, value)
                    others = tuple(changed if other is part else other for other in parts)
                    count = self.counted(others)
                    if count:
                        yield f"with `{changed.text}` there are {count:,}"


def _neighbours(value: object, distance: int) -> Iterator[object]:
    """Values like a condition's with its number moved, or an end of its range widened."""
    if isinstance(value, bool):
        return
    if isinstance(value, int):
        yield from (value - distance, value + distance)
    elif isinstance(value, Fieldset):
        ((name, inner),) = value.items()
        for moved in _neighbours(inner, distance):
            yield Fieldset({name: moved})
    elif isinstance(value, tuple) and len(value) == 2 and all(type(end) is int for end in value):
        low, high = value
        if low == high:
            yield from ((low - distance,) * 2, (high + distance,) * 2)
        else:
            yield from ((low - distance, high), (low, high + distance))
