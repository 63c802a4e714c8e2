"""Drawing questions: which question fills which place on which sheet.

Every choice has an address: seed, rung, section, slot and version. A slot's signature is
drawn from its rung, uniformly over the rung's questions; the slot's versions are then
taken one after another from the questions with that signature, in an order shuffled by
key, from a starting place of the slot's own. So what one section holds does not hang on
what another section holds, unless both want the same question of a small set: then the
later one passes it over.
"""

from collections.abc import Collection, Hashable, Iterator
from dataclasses import dataclass, field
from functools import lru_cache
from typing import Final

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Operation, Question
from generator.forms.asking import LOOKED_AT, can_be_asked
from generator.numbered.permutation import Permutation
from generator.numbered.question_sets import QuestionSet, Signature
from generator.numbered.seeds import Dice, key
from generator.operations.methods import written_working
from generator.operations.mistakes import Mistake
from generator.operations.rungs import question_set, rung_set
from generator.packs.telling_apart import Wish
from specs.canonical import canonical
from specs.spec import PLAIN, Condition, RungSpec

_SECTIONS: Final = 8  # a shuffled set is divided among so many sections …
_SLOTS: Final = 64  # … and so many slots in each
_PROBES: Final = 200  # how far to look for a question unlike the others on its sheet
_CANDIDATES: Final = 40  # how many signatures to look at for the same reason


class DisagreementError(Exception):
    """A written method and exact arithmetic give different answers: never to be printed."""


@dataclass(frozen=True, slots=True)
class Drawn:
    """A question in its slot and version, and by which step of widening it matches the first."""

    question: Question
    signature: Signature
    step: int


@dataclass
class Slot:
    """A place on a sheet; each version of the sheet fills it with a matched question."""

    section: str
    section_index: int
    rung: RungSpec
    index: int  # among the section's slots
    step: int = 0
    offset: int = 0  # how far along its order the next question is looked for
    filled: list[Drawn] = field(default_factory=list)
    wishes: tuple[Wish, ...] = ()  # mistakes that its questions must tell apart
    shows: frozenset[Mistake] = frozenset()  # mistakes that every version must show
    place: int | None = None  # among the section's questions, where that is settled

    def accepts(self, question: Question) -> bool:
        """Whether a question can be asked in the rung's form, tells the mistakes apart that it
        must, and shows those it must.
        """
        if not can_be_asked(self.rung, question):
            return False
        if not self.wishes:
            return True
        shown = self.shown_by(question)
        return shown is not None and frozenset().union(*shown) >= self.shows

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
    def picks(self) -> bool:
        """Whether it may refuse questions of its rung."""
        return bool(self.wishes or self.rung.templates) or self.rung.form != PLAIN

    @property
    def questions(self) -> QuestionSet:
        """The rung's questions."""
        return rung_set(self.rung)

    @property
    def signature(self) -> Signature:
        """The signature of the first version."""
        return self.filled[0].signature


@dataclass
class Sheet:
    """What is already on one version of a section, to keep its questions unlike each other."""

    answers: set[Number] = field(default_factory=set)
    operands: set[Number] = field(default_factory=set)
    shown: dict[RungSpec | None, set[Mistake]] = field(default_factory=dict)

    def missing(self, wish: Wish) -> tuple[Mistake, ...]:
        """The mistakes of a wish that no question which shares it shows here yet."""
        shown = self.shown.get(wish.rung, set())
        return tuple(mistake for mistake in wish.mistakes if mistake not in shown)

    def likes(self, question: Question) -> bool:
        """Whether a question has an answer and numbers that the sheet has not."""
        return (
            self.operands.isdisjoint(question.operands)
            and question.answer.trimmed() not in self.answers
        )

    def add(self, question: Question) -> None:
        """Put a question on the sheet."""
        self.answers.add(question.answer.trimmed())
        self.operands.update(question.operands)

    def put(self, slot: Slot) -> None:
        """Put the question of a filled slot's first version on the sheet, with what it shows."""
        question = slot.filled[0].question
        self.add(question)
        for wish in slot.wishes:
            self.shown.setdefault(wish.rung, set()).update(wish.met_by(question) or ())


@lru_cache(maxsize=2048)
def _alike(
    operation: Operation, conditions: tuple[Condition, ...], signature: Signature, step: int
) -> QuestionSet:
    """The questions of a rung that match a signature; counted once in a run, as rungs are."""
    return question_set(operation, conditions).matching(signature, step)


class Drawing:
    """The drawing of one pack: what is taken, and by what order sets are gone through.

    ``match_rung_only`` lets later versions match their slot's first in nothing but the rung.
    ``avoided`` are identities of questions that it must not use.
    """

    def __init__(
        self, seed: int, *, match_rung_only: bool, avoided: Collection[Hashable] = ()
    ) -> None:
        self._seed = seed
        self._match_rung_only = match_rung_only
        self.avoided = frozenset(avoided)
        self.passed_over: set[Hashable] = set()  # those avoided that stood in the way
        self._taken: set[Hashable] = set()
        self._orders: dict[tuple[str | int, ...], Permutation] = {}

    def first(self, slot: Slot, sheet: Sheet, urgent: Collection[Mistake] = frozenset()) -> bool:
        """Fill a slot's first version; False when the rung has no untaken question left.

        ``urgent`` are mistakes that no later slot of the section can show.
        """
        if any(wish.each_shows for wish in slot.wishes):
            return self._first_telling_apart(slot, sheet, urgent)
        fallback: tuple[Signature, int] | None = None
        for signature in self._candidates(slot):
            found = self._find(slot, signature, 0, 0, sheet)
            if found is None:
                continue
            offset, liked = found
            if liked:
                self._take(slot, signature, offset, sheet)
                return True
            fallback = fallback or (signature, offset)
        if fallback is None:
            return False
        self._take(slot, *fallback, sheet)
        return True

    def _first_telling_apart(self, slot: Slot, sheet: Sheet, urgent: Collection[Mistake]) -> bool:
        """Fill a slot's first version with a question that tells the wished mistakes apart.

        Of those looked at, the first that shows most of the mistakes which the sheet does not
        show yet, urgent ones before others, and that the sheet likes. The whole rung is looked
        at when it is small.
        """
        questions = slot.questions
        missing = [set(sheet.missing(wish)) for wish in slot.wishes]
        within_reach = [
            wish.possible & left for wish, left in zip(slot.wishes, missing, strict=True)
        ]
        order = self._order(questions, slot.rung.text, "rung", slot.section)
        best: tuple[int, int, bool] = (-1, -1, False)
        chosen: Question | None = None
        for ahead in range(min(questions.count, LOOKED_AT)):
            place = (slot.index * questions.count // _SLOTS + ahead) % questions.count
            question = self._printed(questions, order[place], slot)
            shown = slot.shown_by(question)
            if shown is None or self._is_taken(question):
                continue
            if not can_be_asked(slot.rung, question):
                continue
            new = [now & left for now, left in zip(shown, missing, strict=True)]
            pressing = len(frozenset().union(*new) & frozenset(urgent))
            worth = pressing, sum(map(len, new)), sheet.likes(question)
            if worth > best:
                best, chosen, slot.shows = worth, question, frozenset().union(*shown)
                if sheet.likes(question) and new == within_reach:
                    break
        if chosen is None:
            return False
        signature = questions.signature(chosen)
        alike, alike_order = self._class(slot, signature, 0)
        offset = alike_order.place_of(alike.rank(chosen)) - self._start(slot, alike)
        self._take(slot, signature, offset % alike.count, sheet)
        return True

    def next(self, slot: Slot, sheet: Sheet) -> bool:
        """Fill a slot's next version, widening its match where need be; False at the end."""
        last = len(slot.questions.widenings) - 1
        if self._match_rung_only and slot.step < last:
            slot.step, slot.offset = last, 0
        while True:
            found = self._find(slot, slot.signature, slot.step, slot.offset, sheet)
            if found is not None:
                self._take(slot, slot.signature, found[0], sheet)
                return True
            if slot.step == last:
                return False
            slot.step, slot.offset = slot.step + 1, 0

    def hold(self, questions: Collection[Question]) -> None:
        """Take questions, so that no slot draws them."""
        self._taken.update(question.identity for question in questions)

    def let_go(self, questions: Collection[Question]) -> None:
        """Undo that."""
        self._taken.difference_update(question.identity for question in questions)

    def keep(self, slot: Slot, question: Question) -> None:
        """Put a question into a slot in the place of the one that was drawn for it.

        The slot's later versions match it.
        """
        questions = slot.questions
        signature = questions.signature(question)
        alike, order = self._class(slot, signature, 0)
        place = order.place_of(alike.rank(question))
        slot.offset = (place - self._start(slot, alike)) % alike.count + 1
        slot.step = 0
        _refuse_unless_it_agrees(question)
        slot.filled[0] = Drawn(question, signature, 0)
        self._taken.add(question.identity)

    def draw_again(self, slot: Slot, sheet: Sheet) -> bool:
        """Another question in the place of the one that was drawn first; as alike as can be.

        False when the rung has no untaken question left.
        """
        signature = slot.filled.pop().signature
        found = self._find(slot, signature, 0, slot.offset, sheet)
        if found is None:
            return self.first(slot, sheet)
        self._take(slot, signature, found[0], sheet)
        return True

    def following(self, slot: Slot, sheet: Sheet) -> Question | None:
        """The next question for a filled slot: one with its signature, else one of its rung.

        None when there is no other.
        """
        now = slot.filled[0]
        found = self._find(slot, now.signature, 0, slot.offset, sheet)
        if found is not None:
            questions, order = self._class(slot, now.signature, 0)
            return self._at(slot, questions, order, found[0])
        questions = slot.questions
        order = self._order(questions, slot.rung.text, "rung", slot.section)
        place = order.place_of(questions.rank(now.question))
        fallback = None
        for ahead in range(1, min(questions.count, LOOKED_AT)):
            number = order[(place + ahead) % questions.count]
            question = self._printed(questions, number, slot)
            if self._is_taken(question) or not slot.accepts(question):
                continue
            if sheet.likes(question):
                return question
            fallback = fallback or question
        return fallback

    def _candidates(self, slot: Slot) -> Iterator[Signature]:
        """Signatures in the order in which a slot considers them."""
        questions = slot.questions
        order = self._order(questions, slot.rung.text, "rung", slot.section)
        candidates = 0
        for attempt in range(min(LOOKED_AT, questions.count)):
            place = (slot.index + attempt * _SLOTS) % questions.count
            question = self._printed(questions, order[place], slot)
            if slot.accepts(question):
                yield questions.signature(question)
                candidates += 1
                if candidates == _CANDIDATES:
                    break
        most = min(questions.count, LOOKED_AT) if slot.picks else questions.count
        for place in range(most):
            question = self._printed(questions, order[place], slot)
            if not self._is_taken(question) and slot.accepts(question):
                yield questions.signature(question)
                return

    def _order(self, questions: QuestionSet, *address: str | int) -> Permutation:
        if address not in self._orders:
            self._orders[address] = Permutation(questions.count, key(self._seed, *address))
        return self._orders[address]

    def _class(
        self, slot: Slot, signature: Signature, step: int
    ) -> tuple[QuestionSet, Permutation]:
        """The questions of the slot's rung that match a signature, and their order."""
        questions = _alike(Operation(slot.rung.operation), slot.rung.conditions, signature, step)
        return questions, self._order(
            questions, slot.rung.text, "class", canonical(signature.plain), step
        )

    def _find(
        self, slot: Slot, signature: Signature, step: int, offset: int, sheet: Sheet
    ) -> tuple[int, bool] | None:
        """The offset of an untaken question of a signature, and whether the sheet likes it.

        Looks from ``offset`` on; goes round once before it says that there is none, but looks
        at no more than ``LOOKED_AT`` where some of the questions will not do.
        """
        questions, order = self._class(slot, signature, step)
        fallback, probes = None, 0
        most = questions.count
        picks = slot.picks
        for ahead in range(most):
            if picks and ahead >= LOOKED_AT:
                break
            question = self._at(slot, questions, order, offset + ahead)
            if self._is_taken(question) or not slot.accepts(question):
                continue
            if slot.filled and not slot.questions.matches(question, signature, step):
                picks = True
                continue
            if sheet.likes(question):
                return offset + ahead, True
            fallback = offset + ahead if fallback is None else fallback
            probes += 1
            if probes == _PROBES:
                break
        return None if fallback is None else (fallback, False)

    def _is_taken(self, question: Question) -> bool:
        """Whether a question is in the pack already, or is to be avoided."""
        identity = question.identity
        if identity in self.avoided:
            self.passed_over.add(identity)
            return True
        return identity in self._taken

    def _at(self, slot: Slot, questions: QuestionSet, order: Permutation, offset: int) -> Question:
        """The question at an offset from the slot's own starting place in an order."""
        place = (self._start(slot, questions) + offset) % questions.count
        return self._printed(questions, order[place], slot)

    @staticmethod
    def _start(slot: Slot, questions: QuestionSet) -> int:
        """The slot's own starting place in an order of a set."""
        start = (slot.section_index % _SECTIONS * _SLOTS + slot.index) * questions.count
        return start // (_SECTIONS * _SLOTS)

    def _printed(self, questions: QuestionSet, number: int, slot: Slot) -> Question:
        """Question ``number`` with its numbers in the order in which they are printed."""
        question = questions.unrank(number)
        address = ("order", slot.section, slot.index, canonical(question.identity))
        return questions.arranged(question, Dice(key(self._seed, *address)))

    def _take(self, slot: Slot, signature: Signature, offset: int, sheet: Sheet) -> None:
        questions, order = self._class(slot, signature, slot.step)
        question = self._at(slot, questions, order, offset)
        _refuse_unless_it_agrees(question)
        slot.offset = offset + 1
        slot.filled.append(Drawn(question, questions.signature(question), slot.step))
        self._taken.add(question.identity)
        sheet.add(question)
        for wish in slot.wishes:
            sheet.shown.setdefault(wish.rung, set()).update(wish.met_by(question) or ())


def _refuse_unless_it_agrees(question: Question) -> None:
    working = written_working(question)
    if not working.agrees_with(question):
        raise DisagreementError(
            f"{question.text}: worked {working.answer}, exactly {question.answer_text}"
        )
