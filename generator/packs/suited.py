"""The questions of a rung that will do in a section, found in an order of the rung's own.

What is found does not hang on a seed: so a pack that can be made with one seed can be made with
all.
"""

from collections.abc import Hashable, Sequence
from functools import cached_property
from typing import Any, Final

from generator.allowance import LOOKED_AT_OF_A_PACK
from generator.arithmetic.questions import Question
from generator.forms.asking import can_be_asked
from generator.numbered.permutation import Permutation
from generator.numbered.question_sets import QuestionSet
from generator.numbered.seeds import key
from generator.operations.mistakes import Mistake
from generator.operations.rungs import rung_set
from generator.packs.telling_apart import Wish
from specs.spec import PLAIN, RungSpec

_FOR_EACH_FOUND: Final = 40
"""As long as one question in so many will do, they are looked for as far as need be."""


class Suited:
    """The questions of a rung that can be asked in its form and tell apart what they must.

    ``most`` is how many of a rung are looked at where hardly any will do.
    """

    def __init__(
        self, rung: RungSpec, wishes: tuple[Wish, ...] = (), most: int = LOOKED_AT_OF_A_PACK
    ) -> None:
        self.rung = rung
        self.wishes = wishes
        self.most = most
        self.questions: QuestionSet[Any] = rung_set(rung)
        self.picks = bool(wishes or rung.templates) or rung.form != PLAIN
        """Whether some questions of the rung may not do."""
        self.found: list[Question] = []
        self.looked = 0

    def __contains__(self, question: Question) -> bool:
        """Whether a question of the rung will do."""
        if not self.picks:
            return True
        if not can_be_asked(self.rung, question):
            return False
        return not self.wishes or self.shown_by(question) is not None

    def shown_by(self, question: Question) -> list[frozenset[Mistake]] | None:
        """For each wish the mistakes that show on a question; None where it does not meet one."""
        found = []
        for wish in self.wishes:
            shown = wish.met_by(question)
            if shown is None:
                return None
            found.append(shown)
        return found

    @property
    def all_known(self) -> bool:
        """Whether all of the rung has been looked at."""
        return self.looked == self.questions.count

    def look(self, enough: int, but: frozenset[Hashable] = frozenset()) -> Sequence[Question]:
        """So many questions that will do, beside those in ``but``, or as many as are found."""
        left = enough - sum(question.identity not in but for question in self.found)
        while left > 0 and not self.all_known and self._may_go_on:
            question = self.questions.unrank(self._order[self.looked])
            self.looked += 1
            if question in self:
                self.found.append(question)
                left -= question.identity not in but
        return self.found

    @property
    def _may_go_on(self) -> bool:
        return not self.picks or self.looked < self.most + _FOR_EACH_FOUND * len(self.found)

    @cached_property
    def _order(self) -> Permutation:
        return Permutation(self.questions.count, key("suited", self.rung.text))
