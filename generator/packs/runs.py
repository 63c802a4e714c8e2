"""Runs: questions in a row that share their first number, their second, or all their digits.

Each question of a run is on a rung of its own, and differs from the one before it in what the
rungs differ in: the pupil sees what that changes, as all else stays (Watson and Mason, *Seeing an
exercise as a single mathematical object*, 2006; Marton's theory of variation; both from memory).

What may be shared is counted before anything is drawn: the numbers that serve every rung of the
run, and of the matched questions those that serve every signature.
"""

from collections.abc import Hashable, Iterator, Sequence
from functools import lru_cache
from itertools import combinations
from typing import Any, Final, Protocol

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Operation, Question
from generator.numbered.permutation import Permutation
from generator.numbered.question_sets import QuestionSet, Signature
from generator.operations.columns.questions import ColumnQuestions
from generator.operations.columns.shared_numbers import SharedNumbers
from generator.operations.fixed_numbers import NAMES
from generator.operations.products.questions import ProductQuestions
from generator.operations.quotients.questions import QuotientQuestions
from generator.operations.rungs import question_set, rung_set
from generator.packs.choosing import LOOKS, TRIED, Drawing, Sheet, Slot
from generator.vocabulary import VOCABULARY
from specs.canonical import canonical
from specs.languages.saying import Saying, counted, grouped, say, several
from specs.problems import listed
from specs.spec import KEEPS, Run, RungSpec, Spec

MOST_LISTED: Final = 60_000
"""Of the questions of a rung that is gone through one by one."""

_FIRST, _SECOND, _DIGITS = KEEPS
_AT: Final = {_FIRST: 0, _SECOND: 1}

Shared = Number | tuple[int, ...]
"""What a run shares: a number, or the significant digits of each number, the greater first."""


class Keys(Protocol):
    """What can be shared, numbered."""

    @property
    def count(self) -> int:
        """How many there are."""

    def unrank(self, number: int, /) -> Any:
        """Number i of them."""


class _Few:
    """Some that can be shared, listed in order."""

    def __init__(self, found: Sequence[Any]) -> None:
        self.found = found
        self.count = len(found)

    def unrank(self, number: int, /) -> Any:
        """Number i of them."""
        return self.found[number]


class RunError(Exception):
    """A run that cannot be had. The message says why."""

    def __init__(self, run: Run, what: Saying, instead: Saying) -> None:
        self.line = run.line
        self.what = what
        self.instead = instead
        super().__init__(f"{what}; {instead}")


class _Unsuited(Exception):  # noqa: N818  it becomes a RunError where the run is known
    """A rung whose questions cannot share that, and why."""


# What can be shared


def serving(keep: str, rungs: tuple[RungSpec, ...]) -> Keys:
    """What the questions of a run can share, each of them on its rung: exactly all of it."""
    return _serving(keep, tuple(map(_Rung, rungs)))


class _Rung:
    """A rung by what is on it alone, so that what is counted once is known again."""

    def __init__(self, rung: RungSpec) -> None:
        self.spec = rung
        self.questions: QuestionSet[Any] = rung_set(rung)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Rung) and self.spec.text == other.spec.text

    def __hash__(self) -> int:
        return hash(self.spec.text)

    def with_number(self, at: int, number: Number) -> QuestionSet[Any]:
        """Its questions with a number settled."""
        word = VOCABULARY.word(self.spec.operation, NAMES[at])
        assert word is not None
        others = tuple(c for c in self.spec.conditions if c.word != word.name)
        operation = Operation(self.spec.operation)
        return question_set(operation, (*others, word.condition(str(number))))


@lru_cache(maxsize=64)
def _serving(keep: str, rungs: tuple[_Rung, ...]) -> Keys:
    _check(keep, rungs)
    sets = [rung.questions for rung in rungs]
    if keep == _DIGITS:
        return _Few(sorted(set.intersection(*(set(_by_digits(rung)) for rung in rungs))))
    at = _AT[keep]
    columns = [questions.outline for questions in sets if isinstance(questions, ColumnQuestions)]
    shared = SharedNumbers(columns, at) if columns else None
    others = [_numbers_at(rung, at) for rung in rungs if not _in_columns(rung)]
    if not others:
        assert shared is not None
        return shared
    found = frozenset[Number].intersection(*others)
    return _in_order(n for n in found if shared is None or n in shared)


def _serving_matches(
    keep: str, rungs: tuple[_Rung, ...], signatures: Sequence[Signature], steps: Sequence[int]
) -> Keys:
    """The same where each question matches a signature, at its step of widening."""
    classes = [
        rung.questions.matching(signature, step)
        for rung, signature, step in zip(rungs, signatures, steps, strict=True)
    ]
    if keep == _DIGITS:
        found: set[Shared] | None = None
        for rung, signature, questions in zip(rungs, signatures, classes, strict=True):
            matched: set[Shared] = {
                _digits(question)
                for question in map(questions.unrank, range(questions.count))
                if rung.questions.matches(question, signature, 0)
            }
            found = matched if found is None else found & matched
        return _Few(sorted(found or ()))
    at = _AT[keep]
    columns = [questions.outline for questions in classes if isinstance(questions, ColumnQuestions)]
    shared = SharedNumbers(columns, at) if columns else None
    of_rungs = _serving(keep, rungs)
    if not isinstance(of_rungs, _Few):
        assert shared is not None
        return shared
    others = [
        (rung, signature, step)
        for rung, signature, step in zip(rungs, signatures, steps, strict=True)
        if not _in_columns(rung)
    ]
    return _in_order(
        number
        for number in of_rungs.found
        if (shared is None or number in shared)
        and all(_matched(rung, at, number, sig, step).count for rung, sig, step in others)
    )


def _matched(
    rung: _Rung, at: int, number: Number, signature: Signature, step: int
) -> QuestionSet[Any]:
    return rung.with_number(at, number).matching(signature, step)


def _in_order(numbers: Iterator[Number]) -> _Few:
    return _Few(sorted(numbers, key=lambda number: (number.places, number.units)))


def _in_columns(rung: _Rung) -> bool:
    return isinstance(rung.questions, ColumnQuestions)


def _check(keep: str, rungs: tuple[_Rung, ...]) -> None:
    """Raises _Unsuited for a rung whose questions cannot be gone through."""
    for rung in rungs:
        questions, name = rung.questions, rung.spec.name
        if not isinstance(questions, ColumnQuestions | ProductQuestions | QuotientQuestions):
            what = say(
                "{rung} asks to {operation} in a way that no run goes through",
                rung=name,
                operation=rung.spec.operation,
            )
            raise _Unsuited(what, say("take a rung that adds, subtracts, multiplies or divides"))
        if questions.count > MOST_LISTED and (keep == _DIGITS or not _in_columns(rung)):
            what = say(
                "{rung} has {count} questions, too many to look in each for the {keep} of a run",
                rung=name,
                count=grouped(questions.count),
                keep=keep,
            )
            instead = say(
                "narrow it to {most} questions or fewer, such as by fewer digits",
                most=grouped(MOST_LISTED),
            )
            if _in_columns(rung):  # its numbers are counted, however many
                instead = say(
                    "{this}, or keep the first number, for which it may have any number",
                    this=instead,
                )
            raise _Unsuited(what, instead)


@lru_cache(maxsize=64)
def _numbers_at(rung: _Rung, at: int) -> frozenset[Number]:
    """The numbers that stand in a place of the questions of a rung."""
    questions = rung.questions
    every = map(questions.unrank, range(questions.count))
    if isinstance(questions, ProductQuestions) and len(set(questions.outline.kinds)) == 1:
        # Any factor may stand there; which of two is multiplied may hang on it.
        some = {number for question in every for number in question.operands}
        return frozenset(n for n in some if rung.with_number(at, n).count)
    return frozenset(question.operands[at] for question in every)


@lru_cache(maxsize=64)
def _by_digits(rung: _Rung) -> dict[Shared, tuple[int, ...]]:
    """The numbers of a rung's questions, by the digits of what they ask."""
    found: dict[Shared, list[int]] = {}
    for number in range(rung.questions.count):
        found.setdefault(_digits(rung.questions.unrank(number)), []).append(number)
    return {digits: tuple(numbers) for digits, numbers in found.items()}


def _digits(question: Question) -> tuple[int, ...]:
    """The significant digits of each number; of those whose order is free the greater first."""
    found = [int(str(number.units).strip("0")) for number in question.operands]
    return tuple(sorted(found, reverse=True) if question.operation.order_is_free else found)


# Why there is none


def why_none(run: Run, rungs: Sequence[RungSpec]) -> RunError:
    """Why no run can be had: which rungs of it share nothing."""
    for size in range(2, len(rungs) + 1):
        for some in combinations(dict.fromkeys(rungs), size):
            if not serving(run.keep, some).count:
                names = listed([rung.name for rung in some], "and")
                instead = say("loosen one of them, or leave it out of the run")
                what = several(*_NONE_SERVES[run.keep], size - 1, rungs=names)
                return RunError(run, what, instead)
    raise ValueError("the run can be had")


_NONE_SERVES: Final = {
    _FIRST: counted(
        "no first number serves {rungs} both", "no first number serves {rungs} together"
    ),
    _SECOND: counted(
        "no second number serves {rungs} both", "no second number serves {rungs} together"
    ),
    _DIGITS: counted("no digits serve {rungs} both", "no digits serve {rungs} together"),
}
"""Said of a rung and one other, and of a rung and several."""

_SERVE: Final = {
    _FIRST: counted(
        "{shown} first number serves the whole run", "{shown} first numbers serve the whole run"
    ),
    _SECOND: counted(
        "{shown} second number serves the whole run", "{shown} second numbers serve the whole run"
    ),
    _DIGITS: counted(
        "{shown} set of digits serves the whole run", "{shown} sets of digits serve the whole run"
    ),
}


def keys_for(run: Run, rungs: Sequence[RungSpec]) -> Keys:
    """What serves a run. Raises RunError where nothing does, or it cannot be counted."""
    try:
        found = serving(run.keep, tuple(rungs))
    except _Unsuited as unsuited:
        raise RunError(run, *unsuited.args) from None
    if not found.count:
        raise why_none(run, rungs)
    return found


def that_serve(run: Run, found: Keys) -> Saying:
    """How many serve a run, in words: ``81 first numbers serve the whole run``."""
    return several(*_SERVE[run.keep], found.count, shown=grouped(found.count))


def runs_of(spec: Spec) -> "Iterator[tuple[str, Run, tuple[RungSpec, ...]]]":
    """Each run of a spec: its section, what it keeps, its rungs."""
    for section in spec.sections:
        for run in dict.fromkeys(share.run for share in section.shares):
            if run is not None:
                asked = (share.rung for share in section.shares if share.run == run)
                yield section.name, run, tuple(map(spec.rung, asked))


def in_a_run(slot: Slot, at: int) -> tuple[str, ...]:
    """What a question shares with its run, for the teacher's key."""
    shares = slot.filled[at].shares
    if slot.run is None or shares is None:
        return ()
    if slot.run.keep == _DIGITS:
        return (say("the run keeps its digits"),)
    if slot.run.keep == _FIRST:
        return (say("the run keeps {number} as its first number", number=shares),)
    return (say("the run keeps {number} as its second number", number=shares),)


# Drawing


def fill_run(drawing: Drawing, slots: Sequence[Slot], sheet: Sheet, version: int) -> None:
    """Fill one version of the places of a run. Raises RunError."""
    run = slots[0].run
    assert run is not None
    found = keys_for(run, [slot.rung for slot in slots])
    if version == 1 and _as_drawn(drawing, slots, sheet):
        return
    rungs = tuple(_Rung(slot.rung) for slot in slots)
    used = {slot.filled[at].shares for slot in slots for at in range(version - 1)}
    for keys, steps in _each_widening(drawing, run, rungs, slots, found):
        chosen = _chosen(drawing, run, rungs, slots, keys, steps, used, sheet)
        if chosen is not None:
            for slot, question, step in zip(slots, chosen[1], steps, strict=True):
                slot.step = step
                drawing.put(slot, question, sheet, chosen[0])
            return
    what = say(
        "{these_serve}, and none is left for version {version} of it",
        these_serve=that_serve(run, found),
        version=version,
    )
    raise RunError(run, what, say("loosen a rung of the run, or ask for fewer versions"))


def _as_drawn(drawing: Drawing, slots: Sequence[Slot], sheet: Sheet) -> bool:
    """Whether all slots have what was drawn for them where nothing was kept elsewhere."""
    drawn = [slot.drawn for slot in slots]
    if any(
        question is None or not drawing.is_free(slot, question)
        for slot, question in zip(slots, drawn, strict=True)
    ):
        return False
    for slot in slots:
        assert slot.drawn is not None
        drawing.put(slot, slot.drawn, sheet, slot.drawn_shares)
    return True


def _each_widening(
    drawing: Drawing, run: Run, rungs: tuple[_Rung, ...], slots: Sequence[Slot], found: Keys
) -> Iterator[tuple[Keys, list[int]]]:
    """What can be shared, as matches widen; of a first version at once what serves the rungs."""
    if not slots[0].filled:
        yield found, [0 for _ in slots]
        return
    last = [len(slot.questions.widenings) - 1 for slot in slots]
    signatures = [slot.signature for slot in slots]
    for step in range(max(last) if drawing.match_rung_only else 0, max(last)):
        steps = [min(step, most) for most in last]
        yield _serving_matches(run.keep, rungs, signatures, steps), steps
    yield found, last


def _chosen(
    drawing: Drawing,
    run: Run,
    rungs: tuple[_Rung, ...],
    slots: Sequence[Slot],
    keys: Keys,
    steps: list[int],
    used: set[Hashable],
    sheet: Sheet,
) -> tuple[Any, list[Question]] | None:
    """What is shared, and a question for each slot; None where none can be had.

    Everything among ``keys`` serves every slot, but for what is in the pack already, or to be
    avoided, or will not do: so of so many only a few are looked at.
    """
    if not keys.count:
        return None
    first = slots[0]
    texts = [rung.spec.text for rung in rungs]
    address: tuple[str | int, ...] = (
        "run",
        first.section,
        run.number,
        run.keep,
        *texts,
        len(first.filled),
        *steps,
    )
    order = Permutation(keys.count, drawing.key(*address))
    for at in range(min(keys.count, TRIED)):
        shared = keys.unrank(order[at])
        if shared in used:
            continue
        questions: list[Question] = []
        for slot, rung, step in zip(slots, rungs, steps, strict=True):
            among = _with(run, rung, shared, slot.signature if slot.filled else None, step)
            question = _one_of(drawing, slot, among, questions, sheet)
            if question is None:
                break
            questions.append(question)
        if len(questions) == len(slots):
            return shared, questions
    return None


def _with(
    run: Run, rung: _Rung, shared: Any, signature: Signature | None, step: int
) -> "QuestionSet[Any] | list[Question]":
    """The questions of a rung that share that, and match a signature where there is one."""
    if run.keep != _DIGITS:
        questions = rung.with_number(_AT[run.keep], shared)
        return questions if signature is None else questions.matching(signature, step)
    own = [rung.questions.unrank(number) for number in _by_digits(rung)[shared]]
    if signature is None:
        return [_in_line(question, rung) for question in own]
    matched = rung.questions.matching(signature, step)
    return [_in_line(question, rung) for question in own if question in matched]


def _in_line(question: Question, rung: _Rung) -> Question:
    """The question with its numbers in the order of their digits, where their order is free."""
    questions = rung.questions
    if isinstance(questions, QuotientQuestions) or len(set(questions.outline.kinds)) > 1:  # type: ignore[attr-defined]
        return question
    if not question.operation.order_is_free or len(question.operands) > 2:
        return question
    digits = [str(number.units).strip("0") for number in question.operands]
    if question.operation is Operation.MULTIPLY and len(digits[0]) == len(digits[1]):
        return question  # which of two is multiplied hangs on it
    if int(digits[0]) >= int(digits[1]):
        return question
    return Question(question.operation, question.operands[::-1], question.ending, question.places)


def _one_of(
    drawing: Drawing,
    slot: Slot,
    among: "QuestionSet[Any] | list[Question]",
    before: Sequence[Question],
    sheet: Sheet,
) -> Question | None:
    """One question for a slot of a run, of a few the one most unlike the others of its sheet."""
    count = len(among) if isinstance(among, list) else among.count
    if not count:
        return None
    taken = {question.identity for question in before}
    answers = {question.answer.trimmed() for question in before}
    address = ("run", slot.section, slot.index, slot.rung.text, len(slot.filled))
    signature = canonical(slot.signature.plain) if slot.filled else ""
    order = Permutation(count, drawing.key(*address, signature, slot.step))
    best: tuple[tuple[Any, ...], Question] | None = None
    looked = 0
    for at in range(min(count, TRIED)):
        if isinstance(among, list):
            question = among[order[at]]
        else:
            question = drawing.printed(slot, among, among.unrank(order[at]))
        if question.identity in taken or not drawing.is_free(slot, question):
            continue
        likeness = (question.answer.trimmed() in answers, *sheet.likeness(question))
        if best is None or likeness < best[0]:
            best = likeness, question
        looked += 1
        if looked == LOOKS or not any(likeness[:2]):
            break
    return None if best is None else best[1]
