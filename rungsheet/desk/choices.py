"""What a rung's words may be, as choices to be made by a control, and what each would leave.

Controls follow from the shapes of the one vocabulary: a control knows nothing of a word but its
shape. What a choice stands for is the whole value of the word as plain data, ready to be put
into the spec; None leaves the word out.
"""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from functools import lru_cache, singledispatch
from types import MappingProxyType
from typing import Any, Final

from generator.allowance import TooWideError
from generator.arithmetic.questions import Operation
from generator.forms.asking import cannot_be_asked
from generator.operations.rungs import fresh_set
from generator.vocabulary import VOCABULARY
from rungsheet.desk import editing
from rungsheet.desk.editing import said_by, value_of
from rungsheet.desk.labels import choice_label, plainly, word_label
from rungsheet.desk.problems import TOO_WIDE, Refused
from specs import Spec
from specs.canonical import InOrder, Plain, decimal_text
from specs.ladder import CONTEXT, FORM, GAP, OPERATION, SHOWN_AS, rung_words
from specs.languages.saying import NOTHING, Saying, joined, say, say_of
from specs.sections import OF_ALL, FramesOfRungs
from specs.shapes import (
    DecimalNumber,
    DecimalRange,
    Either,
    Fields,
    ListOf,
    Made,
    OneField,
    OneNumberOf,
    OneOf,
    SetOf,
    Shape,
    Text,
    WholeNumber,
    WrittenNumber,
    YesNo,
)
from specs.shapes.numbers import Range
from specs.spec import PLAIN, Condition, RungSpec

__all__ = ["Choice", "Control", "Left", "WordView", "left", "of_a_rung"]

MOST_COUNTED: Final = 100_000
"""How much counting goes into one choice: what takes more is said to be too wide."""


@dataclass(frozen=True, slots=True)
class Choice:
    """One that can be chosen: what it is called, the word's value then, and whether it is now."""

    says: Saying
    value: Any
    chosen: bool = False


@dataclass(frozen=True, slots=True)
class Control:
    """A control: ``kind`` is "one" (of its choices), "some" (each chosen or not), "typed" (a
    number: ``value`` is the word's value with "#" where the number goes), "written" (a line of
    words, put there in the same way) or "parts" (others).
    """

    kind: str
    label: Saying
    choices: tuple[Choice, ...] = ()
    parts: "tuple[Control, ...]" = ()
    value: Any = None
    typed: str = ""
    says: Saying = NOTHING


@dataclass(frozen=True, slots=True)
class WordView:
    """A word that a rung may have: what it is called and what it means, what it says now ("" for
    nothing), its control.

    ``line`` is where it stands. What its choices would leave may take long to find out
    (``takes_long``), where questions are looked at one by one and not counted.
    """

    word: str
    label: Saying
    says: Saying
    said: str
    line: int | None
    control: Control
    takes_long: bool = False


@dataclass(frozen=True, slots=True)
class Left:
    """How many questions a choice would leave (None: not to be counted), and why there are none."""

    count: int | None
    why: Saying = field(default=NOTHING)


NOT_SAID: Final = say("not said")
YES: Final = say("yes")
NO: Final = say("no")


@dataclass(frozen=True, slots=True)
class _Named:
    """What a control is called, and the word of the spec whose value it is, or a part of that.

    ``rungs`` has what rungs are called, where the word is about some of them.
    """

    word: str
    label: Saying
    rungs: Mapping[str, str] = field(default_factory=dict)

    def choice(self, choice: str) -> Saying:
        """What a choice is called."""
        return choice_label(choice, self.word)

    def of(self, label: Saying) -> "_Named":
        """The name of a part."""
        return replace(self, label=label)

    def inner(self, word: str) -> Saying:
        """What a word below it is called."""
        return word_label(word, self.word)


_Whole = Callable[[Any], Any]
"""The whole value of the word for the value of a part of it; None leaves the part out."""


def of_a_rung(rung: RungSpec) -> tuple[WordView, ...]:
    """Every word that a rung may have, the operation first, each with its control."""
    said = said_by(rung)
    conditions = {condition.word: condition for condition in rung.conditions}
    views = []
    for word, known in rung_words(rung.operation, VOCABULARY).items():
        if word == OPERATION:
            control = _operations(rung)
            label = control.label
            views.append(WordView(word, label, known.says, rung.operation, rung.line, control))
            continue
        plain = as_json(said[word]) if word in said else None
        shape = known.shape
        name = _Named(word, word_label(word))
        if word == FORM:
            control = Control("one", name.label, tuple(_words(shape, name, rung.form, _itself)))
        elif word == CONTEXT:
            control = _contexts(shape, name, rung.context)
        else:
            control = _control(shape, name, plain, _itself, optional=True)
        condition = conditions.get(word)
        text = "" if plain is None else shape.write(value_of(shape, plain, word))
        line = condition.line if condition else None
        slow = word in (FORM, CONTEXT)
        views.append(WordView(word, name.label, known.says, text, line, control, slow))
    return tuple(views)


def left(spec: Spec, name: str, word: str, values: Iterator[Any]) -> Iterator[Left]:
    """What each of some values of a word would leave of a rung's questions."""
    rung = spec.rung(name)
    known = rung_words(rung.operation, VOCABULARY)
    for value in values:
        try:
            if word == CONTEXT and value is not None:
                editing.set_word(spec.text, name, word, value)  # which says why, where it cannot be
            if word == OPERATION:
                changed = editing.with_operation(spec, name, value)
                yield _left_of(changed.rung(name), of_its_form=True)
                continue
            if value is not None:
                value = value_of(known[word].shape, value, word)
            yield _left(rung, word, value)
        except Refused as refused:
            each = [joined((one.what, one.instead), between="; ") for one in refused.problems]
            yield Left(0, joined(each, between="\n"))


def as_json(plain: Plain) -> Any:
    """Plain data as JSON has it, exact decimals as text."""
    match plain:
        case bool() | int() | str():
            return plain
        case tuple():
            return list(map(as_json, plain))
        case InOrder():
            return {name: as_json(of) for name, of in plain.pairs}
        case Mapping():
            return {name: as_json(of) for name, of in plain.items()}
    return decimal_text(plain)


# What a choice leaves


def _left(rung: RungSpec, word: str, value: Any) -> Left:
    conditions = rung.conditions
    form, context, missing = rung.form, rung.context, rung.missing
    if word == SHOWN_AS:
        pass  # no question hangs on it
    elif word == FORM:
        form, missing = value or PLAIN, None
    elif word == GAP:
        form, missing = value.form if value else PLAIN, value
    elif word == CONTEXT:
        context = value or ()
    else:
        row = VOCABULARY.word(rung.operation, word)
        assert row is not None
        values = {c.word: c for c in conditions if c.word != word}
        if value is not None:
            values[word] = row.condition(value)
        in_order = VOCABULARY.of(rung.operation)
        conditions = tuple(values[one.name] for one in in_order if one.name in values)
    changed = replace(rung, conditions=conditions, form=form, context=context, missing=missing)
    return _left_of(changed, of_its_form=word != CONTEXT)


def _left_of(changed: RungSpec, *, of_its_form: bool) -> Left:
    for check in VOCABULARY.checks:
        for _, what, instead in check(changed):
            return Left(0, joined((what, instead), between="; "))
    count = _counted(Operation(changed.operation), changed.conditions)
    if count is None:
        return Left(None, joined(TOO_WIDE, between="; "))
    if not count:
        return Left(0)
    if changed.form != PLAIN and of_its_form:
        for error in cannot_be_asked([changed]):
            return Left(0, joined((error.what, error.instead), between="; "))
    return Left(count)


@lru_cache(maxsize=20_000)
def _counted(operation: Operation, conditions: tuple[Condition, ...]) -> int | None:
    try:
        return fresh_set(operation, conditions).count_within(MOST_COUNTED)
    except TooWideError:
        return None


# Controls, a function for each shape


def control_of(
    shape: Shape[Any], word: str, plain: Any, rungs: Mapping[str, str] = MappingProxyType({})
) -> Control:
    """The control of a word's value that may be left out; ``plain`` is the value now.

    ``rungs`` has what the rungs are called that it may be about.
    """
    return _control(shape, _Named(word, word_label(word), rungs), plain, _itself, optional=True)


def _itself(value: Any) -> Any:
    return value


def _operations(rung: RungSpec) -> Control:
    chosen = rung.operation
    choices = tuple(
        Choice(choice_label(one, OPERATION), one, one == chosen) for one in VOCABULARY.operations
    )
    return Control("one", word_label(OPERATION), choices)


def _contexts(shape: Shape[Any], name: _Named, now: tuple[str, ...]) -> Control:
    """Kinds of measure, each chosen or not, and any of them: that takes the place of the others."""
    any_of_them, kinds = shape.shapes  # type: ignore[attr-defined]
    (every,) = any_of_them.words
    plain = every if set(now) >= set(kinds.words[:-1]) else list(now)
    in_turn = _set(kinds, name, [] if plain == every else plain, _itself, optional=True)
    first = Choice(name.choice(every), None if plain == every else every, plain == every)
    return Control("some", name.label, (first, *in_turn.choices))


def _words(shape: Shape[Any], name: _Named, plain: Any, whole: _Whole) -> Iterator[Choice]:
    for word in shape.words:
        yield Choice(name.choice(word), whole(word), word == plain)


def _unsaid(plain: Any, whole: _Whole, optional: bool) -> list[Choice]:
    return [Choice(NOT_SAID, whole(None), plain is None)] if optional else []


def _reads(shape: Shape[Any], plain: Any) -> bool:
    try:
        value_of(shape, plain, "this")
    except Refused:
        return False
    return True


@singledispatch
def _control(
    shape: Shape[Any], name: _Named, plain: Any, whole: _Whole, *, optional: bool
) -> Control:
    """The control of a value of some shape; ``plain`` is the value now, None for none."""
    raise TypeError(f"no control is known for {type(shape).__name__}")


@_control.register(Made)
def _made(
    shape: Made[Any, Any], name: _Named, plain: Any, whole: _Whole, *, optional: bool
) -> Control:
    return _control(shape.shape, name, plain, whole, optional=optional)


@_control.register
def _yes_no(shape: YesNo, name: _Named, plain: Any, whole: _Whole, *, optional: bool) -> Control:
    choices = [Choice(said, whole(value), plain is value) for said, value in _YES_NO]
    return Control("one", name.label, (*_unsaid(plain, whole, optional), *choices))


_YES_NO: Final = ((YES, True), (NO, False))


@_control.register
def _one_of(shape: OneOf, name: _Named, plain: Any, whole: _Whole, *, optional: bool) -> Control:
    choices = _words(shape, name, plain, whole)
    return Control("one", name.label, (*_unsaid(plain, whole, optional), *choices))


@_control.register(OneNumberOf)
@_control.register(WholeNumber)
def _number(
    shape: OneNumberOf | WholeNumber, name: _Named, plain: Any, whole: _Whole, *, optional: bool
) -> Control:
    numbers = (Choice(plainly(n), whole(n), n == plain) for n in _numbers(shape))
    return Control("one", name.label, (*_unsaid(plain, whole, optional), *numbers))


def _numbers(shape: OneNumberOf | WholeNumber) -> tuple[int, ...]:
    if isinstance(shape, OneNumberOf):
        return shape.choices
    return tuple(range(shape.low, shape.high + 1))


@_control.register
def _range(shape: Range, name: _Named, plain: Any, whole: _Whole, *, optional: bool) -> Control:
    assert isinstance(shape.end, WholeNumber)
    numbers = _numbers(shape.end)
    if plain is None:
        start = (Choice(plainly(n), whole(n)) for n in numbers)
        return Control("one", name.label, (*_unsaid(plain, whole, optional), *start))
    low, high = plain if isinstance(plain, list) else (plain, plain)
    least = (Choice(plainly(n), whole(_pair(n, max(n, high))), n == low) for n in numbers)
    most = (Choice(plainly(n), whole(_pair(min(n, low), n)), n == high) for n in numbers)
    lowest = Control("one", _FROM, (*_unsaid(plain, whole, optional), *least))
    return Control("parts", name.label, parts=(lowest, Control("one", _TO, tuple(most))))


_FROM: Final = say_of("span", "from")
_TO: Final = say_of("span", "to")


def _pair(low: int, high: int) -> Any:
    return low if low == high else [low, high]


@_control.register
def _line(shape: Text, name: _Named, plain: Any, whole: _Whole, *, optional: bool) -> Control:
    out = _taken_out(whole, optional)
    return Control("written", name.label, out, (), whole("#"), plain or "", shape.says)


@_control.register(DecimalNumber)
@_control.register(WrittenNumber)
def _decimal(
    shape: DecimalNumber | WrittenNumber, name: _Named, plain: Any, whole: _Whole, *, optional: bool
) -> Control:
    typed, out = "" if plain is None else str(plain), _taken_out(whole, optional)
    return Control("typed", name.label, out, (), whole("#"), typed, shape.says)


@_control.register
def _decimals(
    shape: DecimalRange, name: _Named, plain: Any, whole: _Whole, *, optional: bool
) -> Control:
    end = shape.end.says
    if plain is None:
        return Control("typed", name.label, (), (), whole("#"), "", end)
    low, high = plain if isinstance(plain, list) else (plain, plain)
    out = _taken_out(whole, optional)
    least = Control("typed", _FROM, out, (), whole(["#", high]), str(low), end)
    most = Control("typed", _TO, (), (), whole([low, "#"]), str(high), end)
    return Control("parts", name.label, parts=(least, most))


def _taken_out(whole: _Whole, optional: bool) -> tuple[Choice, ...]:
    """What an empty field stands for."""
    return (Choice(NOT_SAID, whole(None)),) if optional else ()


@_control.register
def _set(shape: SetOf, name: _Named, plain: Any, whole: _Whole, *, optional: bool) -> Control:
    chosen = [] if plain is None else [plain] if isinstance(plain, str) else list(plain)
    choices = []
    for word in shape.words:
        others = [one for one in shape.words if (one in chosen) != (one == word)]
        if others or optional:
            choices.append(Choice(name.choice(word), whole(others or None), word in chosen))
        else:  # the last of those that there must be
            choices.append(Choice(name.choice(word), whole([word]), True))
    return Control("some", name.label, tuple(choices))


@_control.register(ListOf)
def _list(
    shape: ListOf[Any], name: _Named, plain: Any, whole: _Whole, *, optional: bool
) -> Control:
    listed_now = [] if plain is None else list(plain)
    lengths = []
    for length in range(shape.fewest, shape.most + 1):
        more = listed_now + [(listed_now or [usual(shape.item)])[-1]] * length
        lengths.append(Choice(plainly(length), whole(more[:length]), length == len(listed_now)))
    size = Control("one", say("how many"), (*_unsaid(plain, whole, optional), *lengths))
    items = (
        _control(
            shape.item,
            name.of(_TURNS[at] if at < len(_TURNS) else plainly(at + 1)),
            item,
            _at(listed_now, at, whole),
            optional=False,
        )
        for at, item in enumerate(listed_now)
    )
    return Control("parts", name.label, parts=(size, *items))


_TURNS: Final = (
    say_of("one by one", "first"),
    say_of("one by one", "second"),
    say_of("one by one", "third"),
    say_of("one by one", "fourth"),
    say_of("one by one", "fifth"),
    say_of("one by one", "sixth"),
)


def _at(items: list[Any], at: int, whole: _Whole) -> _Whole:
    return lambda value: whole([*items[:at], value, *items[at + 1 :]])


@_control.register(Fields)
def _fields(
    shape: Fields[Any], name: _Named, plain: Any, whole: _Whole, *, optional: bool
) -> Control:
    given = dict(plain or {})

    def part(word: str) -> _Whole:
        def changed(value: Any) -> Any:
            rest = {one: of for one, of in given.items() if one != word}
            merged = rest if value is None else {**given, word: value}
            in_order = {one: merged[one] for one in shape.fields if one in merged}
            return whole(in_order or None)

        return changed

    parts = (
        _control(
            known.shape,
            name.of(name.inner(word)),
            given.get(word),
            part(word),
            optional=word not in shape.required
            and (optional or word not in given or len(given) > 1),
        )
        for word, known in shape.fields.items()
    )
    return Control("parts", name.label, parts=tuple(parts))


@_control.register
def _by_rung(
    shape: FramesOfRungs, name: _Named, plain: Any, whole: _Whole, *, optional: bool
) -> Control:
    given = dict(plain or {})

    def part(rung: str) -> _Whole:
        def changed(value: Any) -> Any:
            merged = {**given, rung: value}
            rungs = (*(shape.rungs or ()), *given)
            return whole({one: merged[one] for one in rungs if merged.get(one)} or None)

        return changed

    parts = (
        _control(
            OF_ALL, name.of(plainly(name.rungs[rung])), given.get(rung), part(rung), optional=True
        )
        for rung in shape.rungs or ()
    )
    return Control("parts", name.label, parts=tuple(parts))


@_control.register(OneField)
def _one_field(
    shape: OneField[Any],
    name: _Named,
    plain: Any,
    whole: _Whole,
    *,
    optional: bool,
) -> Control:
    return _of_manners(tuple(_manners(shape, name)), name, plain, whole, optional=optional)


@_control.register(Either)
def _either(
    shape: Either[Any], name: _Named, plain: Any, whole: _Whole, *, optional: bool
) -> Control:
    return _of_manners(tuple(_manners(shape, name)), name, plain, whole, optional=optional)


@dataclass(frozen=True, slots=True)
class _Manner:
    """One of several ways of saying a value: its name, what it begins with, what else it asks.

    ``inside`` gives the part of a value that its control is for, ``around`` the value again.
    """

    says: Saying
    begins: Any
    holds: Callable[[Any], bool]
    shape: Shape[Any] | None = None
    inside: Callable[[Any], Any] = _itself
    around: Callable[[Any], Any] = _itself


def _manners(shape: Shape[Any], name: _Named) -> Iterator[_Manner]:
    match shape:
        case Either():
            for one in shape.shapes:
                yield from _manners(one, name)
        case Made():
            yield from _manners(shape.shape, name)
        case OneOf():
            yield from (_Manner(name.choice(word), word, _is(word)) for word in shape.words)
        case WholeNumber() | OneNumberOf():
            yield from (_Manner(plainly(n), n, _is(n)) for n in _numbers(shape))
        case OneField():
            for word, inner in shape.shapes.items():
                begins = {word: usual(inner)}
                says = name.inner(word)
                yield _Manner(says, begins, _has(word), inner, _of(word), _below(word))
        case ListOf():
            yield _Manner(say("one by one"), usual(shape), lambda v: isinstance(v, list), shape)
        case SetOf():
            taken = lambda v: isinstance(v, list) or v in shape.words  # noqa: E731
            yield _Manner(say("some of them"), usual(shape), taken, shape)
        case Fields():
            words = list(shape.fields)
            says = say("from … to") if words == ["from", "to"] else _IN_DETAIL
            within = lambda v: isinstance(v, dict) and v.keys() <= set(words)  # noqa: E731
            yield _Manner(says, usual(shape), within, shape)
        case FramesOfRungs():
            says = say("rung by rung")
            yield _Manner(says, usual(shape), lambda v: isinstance(v, dict), shape)
        case _:
            yield _Manner(_IN_DETAIL, usual(shape), lambda v: isinstance(v, dict), shape)


_IN_DETAIL: Final = say("in detail")


def _is(value: Any) -> Callable[[Any], bool]:
    return lambda plain: plain == value and type(plain) is type(value)


def _has(word: str) -> Callable[[Any], bool]:
    return lambda plain: isinstance(plain, dict) and list(plain) == [word]


def _of(word: str) -> Callable[[Any], Any]:
    return lambda plain: plain[word]


def _below(word: str) -> Callable[[Any], Any]:
    return lambda inner: None if inner is None else {word: inner}


def _of_manners(
    manners: tuple[_Manner, ...], name: _Named, plain: Any, whole: _Whole, *, optional: bool
) -> Control:
    now = next((m for m in manners if plain is not None and m.holds(plain)), None)
    choices = (Choice(m.says, whole(plain if m is now else m.begins), m is now) for m in manners)
    first = Control("one", name.label, (*_unsaid(plain, whole, optional), *choices))
    if now is None or now.shape is None:
        return first
    around = now.around
    inner = _control(
        now.shape, name, now.inside(plain), lambda value: whole(around(value)), optional=False
    )
    return Control("parts", name.label, parts=(first, inner))


def usual(shape: Shape[Any]) -> Any:
    """A value to begin with."""
    match shape:
        case Made():
            return usual(shape.shape)
        case WholeNumber():
            return min(max(1, shape.low), shape.high)
        case OneNumberOf():
            return shape.choices[0]
        case Range():
            return usual(shape.end)
        case DecimalNumber() | WrittenNumber():
            return 1
        case DecimalRange():
            return [1, 2]
        case YesNo():
            return True
        case SetOf():
            return [shape.words[-1]]
        case OneOf():
            return shape.words[0]
        case ListOf():
            return [usual(shape.item)] * shape.fewest
        case FramesOfRungs():
            return {rung: usual(OF_ALL) for rung in shape.rungs or ()}
        case Fields():
            words = shape.required or (next(iter(shape.fields)),)
            return {word: usual(shape.fields[word].shape) for word in words}
        case OneField():
            word, inner = next(iter(shape.shapes.items()))
            return {word: usual(inner)}
        case Either():
            return usual(shape.shapes[0])
    raise TypeError(f"nothing is usual for {type(shape).__name__}")
