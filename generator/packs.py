"""From a spec and a seed to a pack: which questions, in which order, in which version.

Every choice has an address: seed, rung, section, slot and version. A slot's signature is
drawn from its rung, uniformly over the rung's questions; the slot's versions are then
taken one after another from the questions with that signature, in an order shuffled by
key, from a starting place of the slot's own. So what one section holds does not hang on
what another section holds, unless both want the same question of a small set: then the
later one passes it over.
"""

from collections.abc import Iterator
from dataclasses import dataclass, field

from generator.codes import pack_code
from generator.counting.permutation import Permutation
from generator.matching import Closeness, Signature, matching_set, signature_of
from generator.methods import written_working
from generator.numbers import Number
from generator.pack import Item, Pack, Section
from generator.questions import Question
from generator.rungs import QuestionSet, rung_set
from generator.seeds import Words, key
from specs.spec import EXAMPLES, STARTER, RungSpec, Share, Spec

_SECTIONS = 8  # a shuffled set is divided among so many sections …
_SLOTS = 64  # … and so many slots in each
_PROBES = 200  # how far to look for a question that differs from its neighbours
_CANDIDATES = 40  # how many signatures to look at for the same reason


class TooFewQuestionsError(Exception):
    """A rung holds fewer questions than a pack wants. The message says how many of each."""

    def __init__(self, rung: RungSpec, exist: int, wanted: str) -> None:
        self.rung = rung
        self.what = f"{rung.name} has {exist} question{'' if exist == 1 else 's'}, and {wanted}"
        self.instead = "ask for fewer, or loosen one of its conditions"
        super().__init__(f"{self.what}; {self.instead}")


class DisagreementError(Exception):
    """A written method and exact arithmetic give different answers: never to be printed."""


@dataclass
class _Slot:
    """A place on a sheet that is filled in each version by a matched question."""

    section: str
    section_index: int
    rung: RungSpec
    index: int  # among the section's slots
    signature: Signature | None = None
    closeness: Closeness = Closeness.FULL
    offset: int = 0
    filled: list[tuple[Question, Closeness]] = field(default_factory=list)

    @property
    def chosen(self) -> Signature:
        """The signature, once the first version is filled."""
        assert self.signature is not None
        return self.signature


@dataclass
class _Sheet:
    """What is already on one version of a section, to keep its questions unlike each other."""

    answers: set[Number] = field(default_factory=set)
    operands: set[Number] = field(default_factory=set)

    def likes(self, question: Question) -> bool:
        """Whether a question has an answer and numbers that the sheet has not."""
        return question.answer.trimmed() not in self.answers and not self.operands.intersection(
            question.operands
        )

    def add(self, question: Question) -> None:
        """Put a question on the sheet."""
        self.answers.add(question.answer.trimmed())
        self.operands.update(question.operands)


class _Drawing:
    """The drawing of one pack: what is taken, and by what order sets are gone through."""

    def __init__(self, seed: int, loosest: Closeness, first_match: Closeness) -> None:
        self._seed = seed
        self._taken: set[object] = set()
        self._loosest = loosest
        self._first_match = first_match
        self._orders: dict[tuple[object, ...], Permutation] = {}

    def first(self, slot: _Slot, sheet: _Sheet) -> bool:
        """Fill a slot's first version; False when the rung has no untaken question left."""
        fallback: tuple[Signature, int] | None = None
        for signature in self._candidates(slot):
            place = self._find(slot, signature, Closeness.FULL, 0, sheet)
            if place is None:
                continue
            offset, liked = place
            if liked:
                self._take(slot, signature, offset, sheet)
                return True
            fallback = fallback or (signature, offset)
        if fallback is None:
            return False
        self._take(slot, *fallback, sheet)
        return True

    def next(self, slot: _Slot, sheet: _Sheet) -> bool:
        """Fill a slot's next version, widening its match where need be; False at the end."""
        slot.closeness = max(slot.closeness, self._first_match)
        while True:
            found = self._find(slot, slot.chosen, slot.closeness, slot.offset, sheet)
            if found is not None:
                self._take(slot, slot.chosen, found[0], sheet)
                return True
            if slot.closeness is self._loosest:
                return False
            slot.closeness, slot.offset = Closeness(slot.closeness + 1), 0

    def _candidates(self, slot: _Slot) -> Iterator[Signature]:
        """Signatures in the order in which a slot considers them."""
        questions = rung_set(slot.rung)
        order = self._order(questions, slot.rung.text, "rung", slot.section)
        for attempt in range(min(_CANDIDATES, questions.count)):
            place = (slot.index + attempt * _SLOTS) % questions.count
            yield signature_of(self._printed(questions, order[place], slot))
        for place in range(questions.count):
            question = self._printed(questions, order[place], slot)
            if question.identity not in self._taken:
                yield signature_of(question)
                return

    def _order(self, questions: QuestionSet, *address: str | int) -> Permutation:
        if address not in self._orders:
            self._orders[address] = Permutation(questions.count, key(self._seed, *address))
        return self._orders[address]

    def _class(
        self, slot: _Slot, signature: Signature, closeness: Closeness
    ) -> tuple[QuestionSet, Permutation]:
        questions = matching_set(rung_set(slot.rung).outline, signature, closeness)
        address = (slot.rung.text, "class", str(signature), int(closeness))
        return questions, self._order(questions, *address)

    def _find(
        self, slot: _Slot, signature: Signature, closeness: Closeness, offset: int, sheet: _Sheet
    ) -> tuple[int, bool] | None:
        """The offset of an untaken question of a signature, and whether the sheet likes it.

        Looks from ``offset`` on; goes round once before it says that there is none.
        """
        questions, order = self._class(slot, signature, closeness)
        fallback = None
        probes = 0
        for ahead in range(questions.count):
            question = self._at(slot, questions, order, offset + ahead)
            if question.identity in self._taken:
                continue
            if sheet.likes(question):
                return offset + ahead, True
            fallback = offset + ahead if fallback is None else fallback
            probes += 1
            if probes == _PROBES:
                break
        return None if fallback is None else (fallback, False)

    def _at(self, slot: _Slot, questions: QuestionSet, order: Permutation, offset: int) -> Question:
        start = (slot.section_index % _SECTIONS * _SLOTS + slot.index) * questions.count
        place = (start // (_SECTIONS * _SLOTS) + offset) % questions.count
        return self._printed(questions, order[place], slot)

    def _printed(self, questions: QuestionSet, number: int, slot: _Slot) -> Question:
        """Question ``number`` with numbers of equal lengths in an order drawn for it."""
        question = questions.unrank(number)
        kinds = questions.outline.kinds
        if question.operation != "add" or len(set(kinds)) == len(kinds):
            return question
        words = Words(key(self._seed, "order", slot.section, slot.index, str(question.identity)))
        waiting = {
            kind: words.shuffled(
                [n for n, k in zip(question.operands, kinds, strict=True) if k == kind]
            )
            for kind in kinds
        }
        return Question(question.operation, tuple(waiting[kind].pop() for kind in kinds))

    def _take(self, slot: _Slot, signature: Signature, offset: int, sheet: _Sheet) -> None:
        questions, order = self._class(slot, signature, slot.closeness)
        question = self._at(slot, questions, order, offset)
        worked = written_working(question).answer
        if worked != question.answer:
            raise DisagreementError(f"{question.text}: worked {worked}, exactly {question.answer}")
        slot.signature, slot.offset = signature, offset + 1
        slot.filled.append((question, slot.closeness))
        self._taken.add(question.identity)
        sheet.add(question)


def build_pack(spec: Spec, seed: int, versions: int = 1) -> Pack:
    """The pack of a spec and a seed, with so many versions of each practice sheet.

    Raises TooFewQuestionsError when a rung does not hold as many questions as are wanted.
    """
    if seed < 0 or versions < 1:
        raise ValueError("seeds count from 0 and versions from 1")
    _check_enough(spec, versions)
    drawing = _Drawing(
        seed,
        loosest=Closeness.RUNG_ONLY,
        first_match=Closeness.RUNG_ONLY if spec.matching == "rung" else Closeness.FULL,
    )
    plans = list(_plans(spec, versions))
    for version in range(1, max((plan.versions for plan in plans), default=1) + 1):
        for plan in plans:
            if version <= plan.versions:
                _fill(drawing, plan, version, spec)
    sections = []
    for plan in plans:
        slots = sorted(
            plan.slots, key=lambda slot: (plan.rung_order[slot.rung.name], slot.chosen.difficulty)
        )
        sections += plan.sections(slots)
    return Pack(
        spec.title,
        seed,
        pack_code(spec.digest, seed),
        versions,
        tuple(sections),
        spec.presentation,
    )


@dataclass
class _Plan:
    """A section to be filled: its slots, and how many versions of each."""

    name: str
    kind: str
    minutes: int | None
    versions: int
    slots: list[_Slot]

    @property
    def rung_order(self) -> dict[str, int]:
        """Where each rung stands in the section."""
        return {name: at for at, name in enumerate(dict.fromkeys(s.rung.name for s in self.slots))}

    def sections(self, slots: list[_Slot]) -> list[Section]:
        """The finished sections, one a version; a section of pairs is one."""
        if self.kind == "example":
            filled = [(slot, at) for slot in slots for at in range(2)]
            return [Section(self.name, self.kind, 1, self.minutes, _items(filled))]
        return [
            Section(
                self.name, self.kind, at + 1, self.minutes, _items([(slot, at) for slot in slots])
            )
            for at in range(self.versions)
        ]


def _items(filled: list[tuple[_Slot, int]]) -> tuple[Item, ...]:
    items = []
    for position, (slot, version_at) in enumerate(filled):
        question, closeness = slot.filled[version_at]
        signature = signature_of(question)
        items.append(
            Item(
                label(position),
                slot.rung.name,
                question,
                str(signature),
                signature.features,
                closeness.says,
            )
        )
    return tuple(items)


def label(position: int) -> str:
    """The letter of a question: a to z, then aa, ab and so on."""
    letters = "abcdefghijklmnopqrstuvwxyz"
    rounds, letter = divmod(position, len(letters))
    return (letters[rounds - 1] if rounds else "") + letters[letter]


def _plans(spec: Spec, versions: int) -> Iterator[_Plan]:
    if spec.starter:
        yield _plan(spec, STARTER, "starter", spec.starter.minutes, 1, 0, spec.starter.shares)
    if spec.examples:
        yield _plan(spec, EXAMPLES, "example", None, 2, 1, spec.examples)
    for index, tier in enumerate(spec.tiers, 2):
        yield _plan(spec, tier.name, "practice", tier.minutes, versions, index, tier.shares)


def _plan(
    spec: Spec,
    name: str,
    kind: str,
    minutes: int | None,
    versions: int,
    index: int,
    shares: tuple[Share, ...],
) -> _Plan:
    rungs = [spec.rung(share.rung) for share in shares for _ in range(share.count)]
    slots = [_Slot(name, index, rung, at) for at, rung in enumerate(rungs)]
    return _Plan(name, kind, minutes, versions, slots)


def _fill(drawing: _Drawing, plan: _Plan, version: int, spec: Spec) -> None:
    sheet = _Sheet()
    for slot in plan.slots:
        filled = drawing.first(slot, sheet) if version == 1 else drawing.next(slot, sheet)
        if not filled:
            exist = rung_set(slot.rung).count
            raise TooFewQuestionsError(
                slot.rung, exist, "other rungs of the pack have used them up"
            )


def _check_enough(spec: Spec, versions: int) -> None:
    """Refuse a pack that wants more questions of a rung than there are."""
    for rung in spec.ladder:
        wanted, parts = 0, []
        for plan in _plans(spec, versions):
            count = sum(slot.rung == rung for slot in plan.slots)
            if count:
                wanted += count * plan.versions
                times = f" in {plan.versions} versions" if plan.versions > 1 else ""
                parts.append(f"{plan.name} {count}{times}")
        exist = rung_set(rung).count
        if wanted > exist:
            raise TooFewQuestionsError(rung, exist, f"{wanted} are wanted ({', '.join(parts)})")
