"""Rungs that share questions: whether all places can be filled, and which questions to spare.

A rung may lie inside another. That each place gets a question of its own is a matching; by
Hall's theorem (P. Hall, *On representatives of subsets*, 1935; from memory) there is one exactly
when no set of rungs wants more questions than they hold together. Questions that the very same
rungs hold are of one kind, and only counted; a matching says how many of each kind a rung is to
have. It is kept up as questions are taken: one is taken only where the rest can then be filled.

A rung with at least as many questions as a whole pack wants is never in such a set: it goes
without counting.
"""

from collections import Counter
from collections.abc import Collection, Hashable, Mapping
from dataclasses import dataclass

_Kind = frozenset[int]


@dataclass(frozen=True, slots=True)
class Shortage:
    """Rungs, by number, that want more questions than they hold together."""

    rungs: tuple[int, ...]
    exist: int
    wanted: int


class Shares:
    """How many questions of each kind are for which rung, so that none goes short.

    Rungs are numbered as in ``held``, which has the identities of their questions; ``wanted``
    is how many each is to have.
    """

    def __init__(self, wanted: Mapping[int, int], held: Mapping[int, Collection[Hashable]]) -> None:
        rungs_of: dict[Hashable, list[int]] = {}
        for rung, questions in held.items():
            for question in questions:
                rungs_of.setdefault(question, []).append(rung)
        kinds: dict[tuple[int, ...], _Kind] = {}
        self._kind_of: dict[Hashable, _Kind] = {
            question: kinds.setdefault(tuple(rungs), frozenset(rungs))
            for question, rungs in rungs_of.items()
        }
        self._left = Counter(self._kind_of.values())
        self._used: Counter[_Kind] = Counter()
        self._plan: dict[int, Counter[_Kind]] = {rung: Counter() for rung in held}
        self._kinds: dict[int, list[_Kind]] = {
            rung: [kind for kind in self._left if rung in kind] for rung in held
        }
        self.shortage = self._first_shortage(wanted)

    def _first_shortage(self, wanted: Mapping[int, int]) -> Shortage | None:
        for rung in self._plan:
            for _ in range(wanted[rung]):
                reached = self._place(rung)
                if reached:
                    held = sum(n for kind, n in self._left.items() if kind & reached)
                    return Shortage(tuple(sorted(reached)), held, sum(wanted[r] for r in reached))
        return None

    def spare(self, rung: int, question: Hashable) -> bool:
        """Take a question for a rung where all others can then still be filled; or say no.

        A rung that is not among those counted takes one too.
        """
        kind = self._kind_of.get(question)
        own = self._plan.get(rung)
        if kind is None:
            # A rung of which only some questions are known: one more of those is then free.
            if own:
                self._give_back(rung, self._some(own))
            return True
        given_back = None
        if own:
            given_back = kind if own[kind] else self._some(own)
            self._give_back(rung, given_back)
        self._left[kind] -= 1
        if self._used[kind] > self._left[kind] and not self._move_one(kind):
            self._left[kind] += 1
            if given_back is not None:
                self._give(rung, given_back)
            return False
        del self._kind_of[question]
        return True

    @staticmethod
    def _some(own: Counter[_Kind]) -> _Kind:
        return next(kind for kind, units in own.items() if units)

    def _give(self, rung: int, kind: _Kind) -> None:
        self._plan[rung][kind] += 1
        self._used[kind] += 1

    def _give_back(self, rung: int, kind: _Kind) -> None:
        self._plan[rung][kind] -= 1
        self._used[kind] -= 1
        if not self._plan[rung][kind]:
            del self._plan[rung][kind]

    def _move_one(self, kind: _Kind) -> bool:
        """Give one rung that has a question of a kind another instead, others moving along."""
        for rung in sorted(kind):
            if self._plan[rung][kind]:
                self._give_back(rung, kind)
                if not self._place(rung, kind):
                    return True
                self._give(rung, kind)
        return False

    def _place(self, rung: int, but: _Kind | None = None) -> frozenset[int]:
        """Give a rung one question more, others moving along; or the rungs that are then short.

        An augmenting path, sought breadth first; none leads through the kind ``but``.
        """
        came: dict[int, tuple[int, _Kind] | None] = {rung: None}
        waiting = [rung]
        for at in waiting:
            for kind in self._kinds[at]:
                if kind == but:
                    continue
                if self._used[kind] < self._left[kind]:
                    self._follow(at, kind, came)
                    return frozenset()
                for other in sorted(kind - came.keys()):
                    if self._plan[other][kind]:
                        came[other] = at, kind
                        waiting.append(other)
        return frozenset(came)

    def _follow(self, rung: int, kind: _Kind, came: Mapping[int, tuple[int, _Kind] | None]) -> None:
        self._give(rung, kind)
        before = came[rung]
        while before is not None:
            at, taken = before
            self._give_back(rung, taken)
            self._give(at, taken)
            rung, before = at, came[at]
