"""Rungs with no question: which conditions cannot hold together, and what would help."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations, islice
from typing import Any, Final

from generator.allowance import COUNTING, SEARCHING, Portions, TooWideError
from generator.arithmetic.questions import Operation
from generator.operations.rungs import fresh_set, rung_set
from generator.vocabulary import VOCABULARY
from specs.entries import MOST_RUNGS
from specs.languages.saying import Saying, grouped, joined, say
from specs.problems import listed
from specs.spec import Condition, RungSpec, Spec
from specs.words import Word

_FARTHEST: Final = 3  # how far a number in a condition is moved in search of help

_AT_ONCE: Final = 8  # so many counts of sets of conditions a search has room for at least

_EACH: Final = 1_000  # what any count costs, beside its own work

_MOST_NAMED: Final = 3  # of the smallest sets of clashing conditions

_LENGTHS: Final = frozenset(
    {
        *("addends", "factors", "numbers", "places", "whole", "digits"),
        *("divisor", "divisor_places", "dividend", "to"),
    }
)
"""Words that say how many numbers there are and how long: every rung has some, stated or usual."""

Clash = tuple[Condition, ...]
"""Conditions that no question meets together."""


@dataclass(frozen=True, slots=True)
class Conflict:
    """A rung that cannot be used: at which line, why, and what would help.

    ``sets`` are the smallest sets of conditions that no question meets together, the most
    telling first; there is none where the rung is too wide to be counted.
    """

    rung: RungSpec
    sets: tuple[Clash, ...]
    what: Saying
    instead: Saying

    @property
    def clashing(self) -> Clash:
        """The most telling of the sets."""
        return self.sets[0] if self.sets else ()

    @property
    def line(self) -> int:
        """The line of the last clashing condition, or of the rung."""
        return max((condition.line for condition in self.clashing), default=self.rung.line)


def conflicts(spec: Spec) -> Iterator[Conflict]:
    """The conflict of each rung that holds no question or is too wide to be counted.

    What may be counted for a command is shared among the rungs, and so is what may be searched.
    """
    counted, wide = _counted(spec.ladder)
    empty = [rung for rung in counted if not rung_set(rung).count]
    searching = Portions(SEARCHING, len(empty))
    for rung in spec.ladder:
        if rung in wide:
            yield _too_wide(rung, alone=len(wide) == len(spec.ladder) == 1)
        elif rung in empty:
            search, parts = _Search(rung, searching.next), tuple(parts_of(rung))
            sets = search.smallest(parts)
            named = tuple(dict.fromkeys(part for clash in sets for part in clash))
            yield Conflict(rung, sets, _why(rung, sets), search.help(parts, named))
            searching.took(search.work)


def _counted(ladder: Sequence[RungSpec]) -> tuple[list[RungSpec], list[RungSpec]]:
    """The rungs of a ladder that can be counted, and those that are too wide.

    Each has its share; those that it is not enough for share what the others have left. Of a
    ladder that is refused for its length no more are counted than one may have.
    """
    counted: list[RungSpec] = []
    waiting, left = list(ladder[:MOST_RUNGS]), COUNTING
    while waiting:
        portions, wider = Portions(left, len(waiting)), []
        for rung in waiting:
            most, questions = portions.next, rung_set(rung)
            try:
                questions.count_within(most)
            except TooWideError:
                wider.append(rung)
                portions.took(most)
            else:
                counted.append(rung)
                portions.took(questions.work)
        if len(wider) == len(waiting):
            break
        waiting, left = wider, portions.left
    return counted, waiting


def _too_wide(rung: RungSpec, *, alone: bool) -> Conflict:
    what = say("{rung} mixes too many lengths and conditions to be counted exactly", rung=rung.name)
    instead = say("ask for fewer addends, a narrower range of places or whole, or fewer conditions")
    if not alone:
        instead = say("{this}, or keep the widest rungs in a spec of their own", this=instead)
    return Conflict(rung, (), what, instead)


def _why(rung: RungSpec, sets: tuple[Clash, ...]) -> Saying:
    first, *others = (listed([f"`{part.text}`" for part in clash], "and") for clash in sets)
    if len(sets[0]) > 1:
        why = say("no question of {rung} meets {these} together", rung=rung.name, these=first)
    else:
        why = say("no question of {rung} meets {this}", rung=rung.name, this=first)
    for other in others[: _MOST_NAMED - 1]:
        why = say("{no_question}, nor {these}", no_question=why, these=other)
    return why


def parts_of(rung: RungSpec) -> Iterator[Condition]:
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
    together = []
    for alike in of_word.values():
        word = _word(rung, alike[0])
        together.append(word.condition(word.shape.joined(tuple(part.value for part in alike))))
    return tuple(together)


def _says_of_lengths(clash: Clash) -> int:
    """How many of some conditions are lengths: a teacher changes the others first."""
    return sum(part.word in _LENGTHS for part in clash)


class _Search:
    """A search among parts of a rung, with so much counting and no more.

    What it says is exact. When the counting is used up it may have found a set of clashing
    parts that is not the smallest, or no help.
    """

    def __init__(self, rung: RungSpec, most: int) -> None:
        self._rung = rung
        self._most = most
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
            return questions.count_within(self._most // _AT_ONCE)
        except TooWideError:
            return None
        finally:
            self.work += _EACH + min(questions.work, self._most // _AT_ONCE)

    @property
    def over(self) -> bool:
        """Whether its counting is used up."""
        return self.work > self._most

    def smallest(self, parts: Clash) -> tuple[Clash, ...]:
        """All smallest sets of parts that clash, those that say least of lengths first.

        Sets are tried smaller before larger. Should that take half of the counting, parts are
        left out one at a time for as long as the rest still clash.
        """
        for size in range(1, len(parts)):
            found = []
            for chosen in combinations(parts, size):
                if self.clash(chosen, parts):
                    found.append(chosen)
                if self.work > self._most // 2:
                    return tuple(found) or (self._clashing_still(parts),)
            if found:
                return tuple(sorted(found, key=_says_of_lengths))
        return (parts,)

    def clash(self, chosen: Clash, parts: Clash) -> bool:
        """Whether no question meets some of a rung's parts, however long its numbers are.

        Lengths that the rung states and that are not among them are tried as they are stated,
        as they usually are, and with one number moved: a clash that one of these undoes is
        theirs too.
        """
        if self.counted(chosen) != 0:
            return False
        lengths = [part for part in parts if part.word in _LENGTHS and part not in chosen]
        if not lengths:
            return True
        tried = [(*chosen, *lengths)]
        for part in lengths:
            word = _word(self._rung, part)
            others = [other for other in lengths if other is not part]
            for value in word.shape.near(part.value, 1):
                tried.append((*chosen, *others, word.condition(value, part.line)))
        return all(self.counted(self._in_order(these)) == 0 for these in tried)

    def _in_order(self, parts: Clash) -> Clash:
        """Parts in the order of the operation's words, as a rung has them."""
        order = [word.name for word in VOCABULARY.of(self._rung.operation)]
        return tuple(sorted(parts, key=lambda part: order.index(part.word)))

    def _clashing_still(self, parts: Clash) -> Clash:
        whole = parts
        for part in parts:
            fewer = tuple(other for other in parts if other is not part)
            if self.clash(fewer, whole):
                parts = fewer
        return parts

    def help(self, parts: Clash, clashing: Clash) -> Saying:
        """The nearest change that leaves questions: a number moved, or a condition dropped."""
        dropped = []
        for part in clashing:
            count = self.counted(tuple(other for other in parts if other is not part))
            if count:
                said = say(
                    "without `{condition}` there are {count}",
                    condition=part.text,
                    count=grouped(count),
                )
                dropped.append((count, said))
        found = [
            *islice(self._moved(parts, clashing), 1),
            *[text for _, text in sorted(dropped)[:2]],
        ]
        if found:
            return joined(found, "; ")
        return say("drop or change one of them (another conflict will then remain to be solved)")

    def _moved(self, parts: Clash, clashing: Clash) -> Iterator[Saying]:
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
                        yield say(
                            "with `{condition}` there are {count}",
                            condition=changed.text,
                            count=grouped(count),
                        )
