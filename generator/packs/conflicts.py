"""Rungs with no question: which conditions cannot hold together, and what would help."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations, islice
from typing import Any, Final

from generator.arithmetic.questions import Operation
from generator.operations.columns.automaton import TooWideError
from generator.operations.rungs import fresh_set, rung_set
from generator.vocabulary import VOCABULARY
from specs.spec import Condition, RungSpec, Spec
from specs.words import Word

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
    """The rung's conditions, those that say several things taken apart."""
    for condition in rung.conditions:
        word = _word(rung, condition)
        for value in word.shape.parts(condition.value):
            yield word.condition(value, condition.line)


def _word(rung: RungSpec, condition: Condition) -> Word[Any]:
    word = VOCABULARY.word(rung.operation, condition.word)
    if word is None:
        raise ValueError(f"{condition.word} is no word of {rung.operation}")
    return word


def _joined(rung: RungSpec, parts: tuple[Condition, ...]) -> tuple[Condition, ...]:
    """Conditions with the parts of each put together again."""
    of_word: dict[str, list[Condition]] = {}
    for part in parts:
        of_word.setdefault(part.word, []).append(part)
    joined = []
    for alike in of_word.values():
        word = _word(rung, alike[0])
        joined.append(word.condition(word.shape.joined(tuple(part.value for part in alike))))
    return tuple(joined)


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
        conditions = _joined(self._rung, parts)
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
                word = _word(self._rung, part)
                for value in word.shape.near(part.value, distance):
                    changed = word.condition(value, part.line)
                    others = tuple(changed if other is part else other for other in parts)
                    count = self.counted(others)
                    if count:
                        yield f"with `{changed.text}` there are {count:,}"
