"""Contexts of the teacher's own: sentences below ``contexts:``, or in a file beside the spec.

A file is taken into the spec's text when that is read, so that what is printed can be built again
from itself; where something in it is wrong, it is said with the file's own name and line.
"""

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from pathlib import Path
from typing import Any, Final

from specs import yaml_text
from specs.canonical import flow
from specs.contexts import KINDS, Quantity, Template, templates
from specs.languages.saying import Saying, say
from specs.names import ANOTHER_NAME, PATTERN, tidied
from specs.problems import Problem, Reading, cannot_be_opened, listed, quoted
from specs.shapes import (
    UNREAD,
    DecimalNumber,
    Field,
    Fields,
    ListOf,
    Made,
    Named,
    OneOf,
    Shape,
    Text,
    Unread,
    WholeNumber,
)
from specs.spec import RungSpec
from specs.yaml_text import Node, with_one_line_end

CONTEXTS: Final = "contexts"
OWN: Final = "own"
"""The context of a rung that takes the teacher's own sentences alone."""

MOST: Final = 200
"""Sentences in a spec."""
LARGEST: Final = 64 * 1024
"""Bytes in a file of sentences."""

_OPERATIONS: Final = ("add", "subtract", "multiply", "divide")
_GREATEST: Final = 10**9
_SIZE: Final = DecimalNumber(0, _GREATEST, 6)


def _quantity(
    unit: str = "",
    least: Fraction = Fraction(0),
    greatest: Fraction = Fraction(_GREATEST),
    places: tuple[int, ...] = Quantity("").places,
    one: str = "",
    among: tuple[Fraction, ...] = (),
) -> Quantity:
    return Quantity(unit, least, greatest, places, one, among)


_QUANTITY: Final = Fields(
    _quantity,
    {
        "unit": Field(Text(20), say("The unit: £, kg, bags; none for a bare count.")),
        "one": Field(Text(20), say("The unit of a single one, where it is another word: bag.")),
        "from": Field(_SIZE, say("The least sensible size."), attribute="least"),
        "to": Field(_SIZE, say("The greatest sensible size."), attribute="greatest"),
        "places": Field(
            ListOf(WholeNumber(0, 6), 1, 7),
            say("The decimal places it may be written with: [0, 2]."),
        ),
        "among": Field(
            ListOf(_SIZE, 1, 20), say("The only sizes that it may have: [5, 10, 20] for notes.")
        ),
    },
)


@dataclass(frozen=True, slots=True)
class _Entry:
    """A sentence as it is written, before it is known to hold together."""

    kind: str = ""
    operation: str = ""
    says: str = ""
    each: Quantity | None = None
    numbers: tuple[Quantity, ...] = ()
    answer: Quantity | None = None
    left_over: Quantity | None = None


_WORDS: Final = Fields(
    _Entry,
    {
        "kind": Field(OneOf(*KINDS), say("What it is about: money, mass, length or capacity.")),
        "operation": Field(OneOf(*_OPERATIONS), say("What it asks for.")),
        "says": Field(
            Text(300),
            say(
                "The sentence, with a gap for each number: {{first}}, {{second}}; or {{all}} for "
                "a list."
            ),
        ),
        "each": Field(
            _QUANTITY, say("What each number of a list may be, where the sentence has {{all}}.")
        ),
        "numbers": Field(ListOf(_QUANTITY, 2, 6), say("What each number may be, in order.")),
        "answer": Field(_QUANTITY, say("What the answer may be.")),
        "left_over": Field(
            _QUANTITY, say("What a division may leave over, where the sentence asks it.")
        ),
    },
    required=("kind", "operation", "says", "answer"),
)


@dataclass(frozen=True)
class _Sentence(Shape[Template]):
    """One sentence, which has a gap for each of its numbers and no other braces."""

    notations = _WORDS.notations

    @property
    def says(self) -> Saying:
        """As its words say."""
        return say("{{kind: money, operation: add, says: …}} with each or numbers, and answer")

    def read(self, node: Node, reading: Reading) -> Template | Unread:
        """The sentence; its name is that under which it stands."""
        entry = _WORDS.read(node, reading)
        if isinstance(entry, Unread):
            return UNREAD
        made = _template(entry)
        if bool(entry.each) is bool(entry.numbers):
            what = say("{subject} has neither 'each' nor 'numbers'", subject=reading.subject)
            if entry.each:
                what = say("{subject} has both 'each' and 'numbers'", subject=reading.subject)
            instead = say("write 'each' for a list {{all}}, otherwise 'numbers'")
            reading.problem(node.line, what, instead)
        elif not made.holds_together:
            what = say(
                "the sentence of {subject} has other gaps than its numbers",
                subject=reading.subject,
            )
            gaps = listed(made.gaps, "and")
            instead = say("write {gaps}, each once, and no other brace", gaps=gaps)
            reading.problem(node.line, what, instead)
        elif made.any_number and entry.operation != "add":
            what = say(
                "{subject} has a list of numbers, and is no addition", subject=reading.subject
            )
            reading.problem(node.line, what, say("write 'numbers' with {{first}} and {{second}}"))
        elif entry.left_over and entry.operation != "divide":
            what = say(
                "{subject} leaves something over, and is no division", subject=reading.subject
            )
            reading.problem(node.line, what, say("leave 'left_over' out"))
        else:
            return made
        return UNREAD

    def plain(self, value: Template) -> Any:
        """As it is written."""
        return _WORDS.plain(_entry(value))

    def write(self, value: Template) -> str:
        """As text, whatever its words hold."""
        return _flow(self.plain(value))

    def holds(self, value: object) -> bool:
        """A sentence."""
        return isinstance(value, Template)

    def schema(self) -> dict[str, Any]:
        """As its words'."""
        return _WORDS.schema()


def _flow(plain: Any) -> str:
    """Plain data as YAML in brackets, all text in quotes."""
    if isinstance(plain, Mapping):
        return f"{{{', '.join(f'{word}: {_flow(of)}' for word, of in plain.items())}}}"
    if isinstance(plain, tuple):
        return f"[{', '.join(map(_flow, plain))}]"
    return Text(1).write(plain) if isinstance(plain, str) else flow(plain)


def _template(entry: _Entry) -> Template:
    numbers = (entry.each,) if entry.each else entry.numbers
    answer = entry.answer or Quantity("")
    kind, operation = entry.kind, entry.operation
    return Template("", kind, operation, entry.says, numbers, answer, entry.left_over)


def _entry(made: Template) -> _Entry:
    each = made.quantities[0] if made.any_number else None
    numbers = () if each else made.quantities
    return _Entry(made.kind, made.operation, made.says, each, numbers, made.answer, made.left_over)


def _named(pairs: tuple[tuple[str, Template], ...]) -> tuple[Template, ...]:
    return tuple(replace(template, name=name) for name, template in pairs)


@dataclass(frozen=True)
class _Sentences(Made[Any, tuple[Template, ...]]):
    """Sentences by name; a file's name is followed before the spec is read, where it can be."""

    def read(self, node: Node, reading: Reading) -> tuple[Template, ...] | Unread:
        """The sentences, in alphabetical order of their names."""
        if isinstance(node, yaml_text.Scalar):
            what = say(
                "{subject} names {file}, which is no file that can be read",
                subject=reading.subject,
                file=quoted(node.text),
            )
            instead = say(
                "name a .yaml file beside the spec, or write the sentences below '{word}:'",
                word=CONTEXTS,
            )
            reading.problem(node.line, what, instead)
            return UNREAD
        if isinstance(node, yaml_text.Mapping):
            taken = {template.name for template in templates()}
            for key, _ in node.entries[MOST:]:
                what = say("{subject} has over {most}", subject=reading.subject, most=MOST)
                reading.problem(key.line, what, say("leave some out"))
                return UNREAD
            for key, _ in node.entries:
                if key.text in taken:
                    what = say(
                        "a sentence that ships has the name {name} already", name=quoted(key.text)
                    )
                    reading.problem(key.line, what, ANOTHER_NAME)
                    return UNREAD
                if not re.fullmatch(PATTERN, key.text):
                    what = say("{name} cannot be the name of a sentence", name=quoted(key.text))
                    instead = say("write lower-case letters and hyphens")
                    reading.problem(key.line, what, instead)
                    return UNREAD
        return super().read(node, reading)

    def write(self, value: tuple[Template, ...]) -> str:
        """All in braces, each under its name."""
        return _flow(self.plain(value))


SENTENCES: Final = _Sentences(
    Named(_Sentence(), say("name of a sentence"), PATTERN, tidied),
    _named,
    lambda made: tuple((template.name, template) for template in made),
)
"""``contexts:``, each sentence under its name."""


def with_own(
    rungs: Iterable[RungSpec], own: Sequence[Template] | None, reading: Reading
) -> Iterator[RungSpec]:
    """The rungs, with those of the teacher's own sentences that go with each.

    A rung that asks for them alone and finds none is reported, where they could be read at all
    (None: they could not); nothing further is then said of its words.
    """
    for rung in rungs:
        fitting = tuple(
            template
            for template in own or ()
            if template.operation == rung.operation
            and (template.kind in rung.context or OWN in rung.context)
        )
        if OWN in rung.context and not fitting and own is not None:
            what = say(
                "the rung {rung} wants sentences of your own, and none goes with "
                "'operation: {operation}'",
                rung=quoted(rung.name),
                operation=rung.operation,
            )
            reading.problem(rung.line, what, say("write one below '{word}:'", word=CONTEXTS))
        if OWN in rung.context and not fitting:
            yield replace(rung, context=(), templates=())
        else:
            yield replace(rung, templates=(*rung.templates, *fitting)) if fitting else rung


# A file beside the spec

_NAMES_A_FILE: Final = re.compile(
    rf"^{CONTEXTS}[ ]*:[ \t]*([\"']?)(?P<name>[^\"'#:\n/\\{{\[]+\.ya?ml)\1[ \t]*(?:#.*)?$",
    re.MULTILINE,
)


@dataclass(frozen=True, slots=True)
class Joined:
    """A spec's text with the sentences of its file at its end, and where those begin.

    ``first`` is the line of the file's first line; ``file`` is its name, "" where there is none.
    """

    data: bytes
    file: str = ""
    first: int = 0

    def placed(self, problem: Problem) -> Problem:
        """A problem where it really stands: in the spec, or in the file."""
        if not self.file or problem.line < self.first:
            return problem
        return replace(problem, file=self.file, line=problem.line - self.first + 1)


def joined(data: bytes, source: Path) -> Joined | Problem:
    """A spec's text with the sentences of the file that it names; or why they cannot be read.

    The line that names the file stays as a remark, so that no other line moves.
    """
    text = with_one_line_end(data.decode("utf-8-sig", errors="surrogateescape"))
    found = _NAMES_A_FILE.search(text)
    if found is None:
        return Joined(data)
    line = text.count("\n", 0, found.start()) + 1
    path = source.parent / found["name"].strip()
    try:
        with open(path, "rb") as file:
            own = file.read(LARGEST + 1)
    except (OSError, ValueError):
        return Problem(str(source), line, *cannot_be_opened(CONTEXTS, path.name))
    if len(own) > LARGEST:
        what = say("the file is larger than {size} KiB", size=LARGEST // 1024)
        return Problem(str(path), 1, what, say("leave some sentences out"))
    try:
        sentences = with_one_line_end(own.decode("utf-8-sig"))
    except UnicodeDecodeError:
        return Problem(str(path), 1, say("the file is not UTF-8 text"), say("save it as UTF-8"))
    if not sentences.strip():
        instead = say("write a name, a colon and a sentence")
        return Problem(str(path), 1, say("the file is empty"), instead)
    remark = f"# {found[0]}"
    text = text[: found.start()] + remark + text[found.end() :]
    text = text if text.endswith("\n") else f"{text}\n"
    first = text.count("\n") + 2
    below = "".join(f"  {one}\n" if one.strip() else "\n" for one in sentences.splitlines())
    whole = f"{text}{CONTEXTS}:\n{below}"
    return Joined(whole.encode("utf-8", errors="surrogateescape"), str(path), first)
