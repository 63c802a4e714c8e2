"""Drawing questions: which question fills which place on which sheet.

Every choice has an address: seed, rung, section, slot and version. A slot's question is
drawn from its rung, uniformly over the rung's questions, and of a few of them the one most
unlike the others of its sheet is taken; its further versions are then taken one after another
from the questions with its signature, in an order shuffled by key, from there on. So what one
section holds does not hang on what another section holds, unless both want the same question
of a small set: then the later one passes it over.
"""

from collections.abc import Collection, Hashable, Iterator
from dataclasses import dataclass, field, replace
from functools import lru_cache
from itertools import chain, islice
from typing import Any, Final

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Question
from generator.numbered.permutation import Permutation
from generator.numbered.question_sets import QuestionSet, Signature
from generator.numbered.seeds import Dice, key
from generator.operations.mistakes import Mistake
from generator.packs.finding_out import Inquiry, Said
from generator.packs.sharing import Shares
from generator.packs.suited import Suited
from generator.packs.telling_apart import Wish
from specs.canonical import canonical
from specs.spec import Run, RungSpec, Share

_SECTIONS: Final = 8  # a shuffled set is divided among so many sections …
_SLOTS: Final = 64  # … and so many slots in each

LOOKS: Final = 32
"""How many questions that will do are looked at for one unlike the others of its sheet."""

LOOKS_FOR_A_MATCH: Final = 8
"""The same where the question is to match that of another version."""

LOOKS_TO_MATCH_AND_FIND_OUT: Final = 4
"""The same where the section is to find out who works how: those that match say much alike."""

TRIED: Final = 500
"""How many questions are tried for one place where some of them will not do; fewer where a pack
has very many places (see ``generator.allowance``)."""

Likeness = tuple[bool, int, int]
"""How much a question is like those of a sheet: less is better."""

UNLIKE: Final[Likeness] = (False, 0, 0)


@dataclass(frozen=True, slots=True)
class Drawn:
    """A question in its slot and version, and by which step of widening it matches the first."""

    question: Question
    signature: Signature
    step: int
    shares: Hashable = None  # what it shares with others of its run


@dataclass
class Slot:
    """A place on a sheet; each version of the sheet fills it with a matched question."""

    section: str
    section_index: int
    suited: Suited
    index: int  # among the section's slots
    number: int = 0  # of what is suited, among all of the pack
    step: int = 0
    offset: int | None = None  # how far along its order the next question is looked for
    filled: list[Drawn] = field(default_factory=list)
    shows: frozenset[Mistake] = frozenset()  # mistakes that every version must show
    place: int | None = None  # among the section's questions, where that is settled
    kept: Question | None = None  # what it is filled with, whatever is drawn
    drawn: Question | None = None  # what was drawn for it where nothing is kept
    drawn_shares: Hashable = None  # what that shares with others of its run
    own: Share | None = None  # what the spec asks for it
    inquiry: Inquiry | None = None  # what its questions are to find out
    looks: int = LOOKS  # of how many that will do the best is taken

    def accepts(self, question: Question) -> bool:
        """Whether a question will do, and shows the mistakes that it must."""
        if question not in self.suited:
            return False
        if not self.shows:
            return True
        return frozenset().union(*(self.suited.shown_by(question) or ())) >= self.shows

    @property
    def run(self) -> Run | None:
        """The run that it is one of."""
        return self.own.run if self.own else None

    @property
    def rung(self) -> RungSpec:
        """Its rung."""
        return self.suited.rung

    @property
    def wishes(self) -> tuple[Wish, ...]:
        """The wishes for mistakes that its questions must tell apart."""
        return self.suited.wishes

    @property
    def picks(self) -> bool:
        """Whether it may refuse questions of its rung."""
        return self.suited.picks

    @property
    def as_printed(self) -> bool:
        """Whether questions are looked at with their numbers in the order of printing."""
        return self.picks or self.inquiry is not None

    @property
    def looks_for_a_match(self) -> int:
        """The same as ``looks`` for further versions."""
        return LOOKS_FOR_A_MATCH if self.inquiry is None else LOOKS_TO_MATCH_AND_FIND_OUT

    @property
    def questions(self) -> QuestionSet[Any]:
        """The rung's questions."""
        return self.suited.questions

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
    said: Said = field(default_factory=Said)

    def missing(self, wish: Wish) -> tuple[Mistake, ...]:
        """The mistakes of a wish that no question which shares it shows here yet."""
        shown = self.shown.get(wish.rung, set())
        return tuple(mistake for mistake in wish.mistakes if mistake not in shown)

    def likeness(self, question: Question) -> Likeness:
        """How much a question is like those that stand here already; most unlike first.

        Whether its answer stands here, how many of its numbers stand twice with it, and whether
        it has one number twice, as 0.2 × 0.2 has. To an empty sheet no question is alike.
        """
        if not self.answers:
            return UNLIKE
        numbers = set(question.operands)
        again = len(question.operands) - len(numbers)
        return (
            question.answer.trimmed() in self.answers,
            again + len(numbers & self.operands),
            again,
        )

    def against(self, question: Question, inquiry: Inquiry | None) -> tuple[int, ...]:
        """What speaks against a question here, less first: likeness, then how little it says."""
        likeness = self.likeness(question)
        return likeness if inquiry is None else (*likeness, -self.said.adds(inquiry, question))

    def add(self, question: Question, inquiry: Inquiry | None = None) -> None:
        """Put a question on the sheet."""
        self.answers.add(question.answer.trimmed())
        self.operands.update(question.operands)
        if inquiry is not None:
            self.said.add(inquiry, question)


@dataclass(frozen=True, slots=True)
class _Look:
    """A question that will do: what speaks against it, less first, and whether nothing does.

    ``among`` are those that it was found among, the rung's where nothing is said; ``offset`` is
    where the next version's is looked for.
    """

    against: tuple[int, ...]
    perfect: bool
    question: Question
    among: QuestionSet[Any] | None = None
    offset: int | None = None


class Drawing:
    """The drawing of one pack: what is taken, and by what order sets are gone through.

    ``match_rung_only`` lets later versions match their slot's first in nothing but the rung.
    ``avoided`` are identities of questions that it must not use, ``shares`` sees to it that no
    rung goes short. ``tried`` is how many questions are tried for a place where some will not do.
    """

    def __init__(
        self,
        seed: int,
        *,
        match_rung_only: bool,
        shares: Shares,
        avoided: Collection[Hashable] = (),
        tried: int = TRIED,
    ) -> None:
        self._seed = seed
        self._tried = tried
        self.match_rung_only = match_rung_only
        self._shares = shares
        self.avoided = frozenset(avoided)
        self.passed_over: set[Hashable] = set()  # those avoided that stood in the way
        self._taken: set[Hashable] = set()
        self._orders: dict[tuple[str | int, ...], Permutation] = {}
        self._classes: dict[tuple[str, Signature, int], QuestionSet[Any]] = {}

    def first(self, slot: Slot, sheet: Sheet, urgent: Collection[Mistake] = frozenset()) -> bool:
        """Fill a slot's first version; False when the rung has no untaken question left.

        Of the first LOOKS questions that will do, the one that shows most of the mistakes which
        the sheet does not show yet, urgent ones before others, and of those the one most unlike
        the sheet's. The first that nothing speaks against is taken at once; where the section is
        to find out who works how, of more that are equally unlike the one that says most, and of
        equals the first. ``urgent`` are
        mistakes that no later slot of the section can show.

        A slot that keeps a question has that, and one for which a question was drawn already has
        it still, where no other slot keeps it.
        """
        if slot.kept is not None:
            self._put(slot, slot.kept, sheet)
            return True
        drawn = slot.drawn
        if (
            drawn is not None
            and not self._is_taken(drawn)
            and self._shares.spare(slot.number, drawn.identity)
        ):
            self._put(slot, drawn, sheet)
            return True
        chosen = self._best(slot, self._firsts(slot, sheet, urgent), slot.looks)
        if chosen is None:
            return False
        if slot.wishes:
            slot.shows = frozenset().union(*(slot.suited.shown_by(chosen.question) or []))
        self._take(slot, chosen, sheet)
        return True

    def hold(self, slot: Slot) -> bool:
        """Take the question that a slot keeps, before any is drawn; False where none can."""
        assert slot.kept is not None
        identity = slot.kept.identity
        if self._is_taken(slot.kept) or not self._shares.spare(slot.number, identity):
            return False
        self._taken.add(identity)
        return True

    def key(self, *address: str | int) -> bytes:
        """The key of a choice of this pack."""
        return key(self._seed, *address)

    def is_free(self, slot: Slot, question: Question) -> bool:
        """Whether a question will do for a slot, and the pack can spare it."""
        return (
            not self._is_taken(question)
            and slot.accepts(question)
            and self._shares.spare(slot.number, question.identity)
        )

    def printed(self, slot: Slot, among: QuestionSet[Any], question: Question) -> Question:
        """A question of a set with its numbers in the order in which they are printed."""
        return self._printed(slot, among, question)

    def put(self, slot: Slot, question: Question, sheet: Sheet, shares: Hashable) -> None:
        """Fill a slot's next version with a question that shares something with others."""
        self._fill(slot, question, sheet)
        slot.filled[-1] = replace(slot.filled[-1], shares=shares)

    def following(self, slot: Slot, sheet: Sheet) -> Iterator[Question]:
        """Further questions for a filled slot, in turn: those with its signature, of every few
        the one most unlike the sheet's first; then others of its rung.
        """
        slot.step, slot.offset = 0, None
        for looks, most in (
            (self._nexts(slot, sheet), slot.looks_for_a_match),
            (self._others(slot, sheet), slot.looks),
        ):
            while some := list(islice(looks, most)):
                for look in sorted(some, key=lambda look: look.against):
                    if slot.as_printed:
                        yield look.question
                    else:
                        among = look.among or slot.questions
                        yield self._printed(slot, among, look.question)

    def _others(self, slot: Slot, sheet: Sheet) -> "Iterator[_Look]":
        """Untaken questions of a filled slot's rung, from the one that it has on."""
        questions, suited = slot.questions, slot.suited
        order = self._order(questions, slot.rung.text, "rung", slot.section)
        place = order.place_of(questions.rank(slot.filled[0].question))
        found = (
            self._looked_at(slot, questions, order[(place + ahead) % questions.count])
            for ahead in range(1, min(questions.count, self._tried))
        )
        for question in chain(found, self._known(slot) if suited.picks else ()):
            if not self._is_taken(question) and slot.accepts(question):
                yield _Look(sheet.against(question, slot.inquiry), False, question)

    def _firsts(
        self, slot: Slot, sheet: Sheet, urgent: Collection[Mistake]
    ) -> "Iterator[_Look | None]":
        missing = [set(sheet.missing(wish)) for wish in slot.wishes]
        within_reach = sum(
            len(wish.possible & left) for wish, left in zip(slot.wishes, missing, strict=True)
        )
        for question in self._in_turn(slot):
            if question is None:
                yield None
            elif not self._is_taken(question) and slot.accepts(question):
                shown = slot.suited.shown_by(question) or []
                new = [now & left for now, left in zip(shown, missing, strict=True)]
                pressing = len(frozenset().union(*new) & frozenset(urgent))
                told = sum(map(len, new))
                against = sheet.against(question, slot.inquiry)
                perfect = told == within_reach and not any(against) and slot.inquiry is None
                yield _Look((-pressing, -told, *against), perfect, question)

    def _in_turn(self, slot: Slot) -> Iterator[Question | None]:
        """The rung's questions from the slot's own place on, in the order of its section.

        Where some will not do and it is not known which, a few of them; then, after None, those
        that are known to do.
        """
        questions, suited = slot.questions, slot.suited
        if not (suited.picks and suited.all_known):
            order = self._order(questions, slot.rung.text, "rung", slot.section)
            most = min(questions.count, self._tried) if suited.picks else questions.count
            start = slot.index * questions.count // _SLOTS
            for ahead in range(most):
                yield self._looked_at(slot, questions, order[(start + ahead) % questions.count])
        yield None
        if suited.picks:
            yield from self._known(slot)

    def _known(self, slot: Slot) -> Iterator[Question]:
        """The questions that are known to suit a slot, from its own place on."""
        found = slot.suited.found
        if not found:
            return
        place = (self._seed, slot.rung.text, "suited", slot.section)
        order = Permutation(len(found), key(*place))
        start = slot.index * len(found) // _SLOTS
        for ahead in range(len(found)):
            question = found[order[(start + ahead) % len(found)]]
            yield self._printed(slot, slot.questions, question)

    def _best(self, slot: Slot, looks: "Iterator[_Look | None]", most: int) -> "_Look | None":
        """The best of so many looks that the pack can spare, or of the next; None for none.

        One that is perfect is best at once. None among the looks is a place to stop at when
        there is one to be had.
        """
        seen: list[_Look] = []
        for look in looks:
            if look is not None and look.perfect:
                if self._shares.spare(slot.number, look.question.identity):
                    return look
                continue
            if look is not None:
                seen.append(look)
            if look is None or len(seen) == most:
                best = self._first_to_spare(slot, seen)
                if best is not None:
                    return best
                seen = []
        return self._first_to_spare(slot, seen)

    def _first_to_spare(self, slot: Slot, seen: "list[_Look]") -> "_Look | None":
        for look in sorted(seen, key=lambda look: look.against):
            if self._shares.spare(slot.number, look.question.identity):
                return look
        return None

    def next(self, slot: Slot, sheet: Sheet) -> bool:
        """Fill a slot's next version, widening its match where need be; False at the end."""
        last = len(slot.questions.widenings) - 1
        if self.match_rung_only and slot.step < last:
            slot.step, slot.offset = last, 0
        while True:
            found = self._best(slot, self._nexts(slot, sheet), slot.looks_for_a_match)
            if found is not None:
                slot.offset = found.offset
                self._take(slot, found, sheet)
                return True
            if slot.step == last:
                break
            slot.step, slot.offset = slot.step + 1, 0
        if not slot.picks:
            return False
        known = (
            _Look(sheet.against(question, slot.inquiry), False, question)
            for question in self._known(slot)
            if not self._is_taken(question) and slot.accepts(question)
        )
        found = self._best(slot, known, slot.looks_for_a_match)
        if found is not None:
            self._take(slot, found, sheet)
        return found is not None

    def _nexts(self, slot: Slot, sheet: Sheet) -> "Iterator[_Look]":
        """Questions that match the slot's first, from where it is to look on.

        Goes round once, but looks at no more than so many where some of the questions will not do.
        """
        questions, order = self._class(slot, slot.signature, slot.step)
        offset = slot.offset
        if offset is None:  # the first of the matched ones stands after the slot's first
            place = order.place_of(questions.rank(slot.filled[0].question))
            offset = (place - self._start(slot, questions)) % questions.count + 1
        picks = slot.picks
        for ahead in range(questions.count):
            if picks and ahead >= self._tried:
                break
            question = self._at(slot, questions, order, offset + ahead)
            if self._is_taken(question) or not slot.accepts(question):
                continue
            if not slot.questions.matches(question, slot.signature, slot.step):
                picks = True
                continue
            against = sheet.against(question, slot.inquiry)
            perfect = slot.inquiry is None and not any(against)
            yield _Look(against, perfect, question, questions, offset + ahead + 1)

    def _order(self, questions: QuestionSet[Any], *address: str | int) -> Permutation:
        if address not in self._orders:
            self._orders[address] = Permutation(questions.count, key(self._seed, *address))
        return self._orders[address]

    def _class(
        self, slot: Slot, signature: Signature, step: int
    ) -> tuple[QuestionSet[Any], Permutation]:
        """The questions of the slot's rung that match a signature, and their order."""
        known = (slot.rung.text, signature, step)
        if known not in self._classes:
            self._classes[known] = _matching(slot.questions, signature, step)
        questions = self._classes[known]
        return questions, self._order(
            questions, slot.rung.text, "class", canonical(signature.plain), step
        )

    def _is_taken(self, question: Question) -> bool:
        """Whether a question is in the pack already, or is to be avoided."""
        identity = question.identity
        if identity in self.avoided:
            self.passed_over.add(identity)
            return True
        return identity in self._taken

    def _at(
        self, slot: Slot, questions: QuestionSet[Any], order: Permutation, offset: int
    ) -> Question:
        """The question at an offset from the slot's own starting place in an order."""
        place = (self._start(slot, questions) + offset) % questions.count
        return self._looked_at(slot, questions, order[place])

    @staticmethod
    def _start(slot: Slot, questions: QuestionSet[Any]) -> int:
        """The slot's own starting place in an order of a set."""
        start = (slot.section_index % _SECTIONS * _SLOTS + slot.index) * questions.count
        return start // (_SECTIONS * _SLOTS)

    def _looked_at(self, slot: Slot, questions: QuestionSet[Any], number: int) -> Question:
        """Question ``number`` as it would be printed, where the slot may refuse it for that."""
        question = questions.unrank(number)
        return self._printed(slot, questions, question) if slot.as_printed else question

    def _printed(self, slot: Slot, questions: QuestionSet[Any], question: Question) -> Question:
        """A question of a set with its numbers in the order in which they are printed."""
        address = ("order", slot.section, slot.index, canonical(question.identity))
        return questions.arranged(question, Dice(key(self._seed, *address)))

    def _take(self, slot: Slot, look: _Look, sheet: Sheet) -> None:
        question = look.question
        if not slot.as_printed:
            question = self._printed(slot, look.among or slot.questions, question)
        self._fill(slot, question, sheet)

    def _put(self, slot: Slot, question: Question, sheet: Sheet) -> None:
        """Fill a slot's first version with a question that is known, as it is printed."""
        if slot.wishes:
            slot.shows = frozenset().union(*(slot.suited.shown_by(question) or []))
        self._fill(slot, question, sheet)

    def _fill(self, slot: Slot, question: Question, sheet: Sheet) -> None:
        slot.filled.append(Drawn(question, slot.questions.signature(question), slot.step))
        self._taken.add(question.identity)
        sheet.add(question, slot.inquiry)
        for wish in slot.wishes:
            sheet.shown.setdefault(wish.rung, set()).update(wish.met_by(question) or ())


@lru_cache(maxsize=256)  # a lesson that is changed a little asks for the same classes again
def _matching(questions: QuestionSet[Any], signature: Signature, step: int) -> QuestionSet[Any]:
    """The questions of a set that match a signature, counted once in a run."""
    return questions.matching(signature, step)
