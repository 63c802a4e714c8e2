"""YAML text as a frozen tree in which every word keeps its line and its spelling.

Only what a spec needs is let in: one document of mappings, lists and plain or quoted
words. Numbers stay text (``0.50`` is never a float), and aliases, anchors and tags are
refused, so a small file cannot grow large or make anything but text. The tree is built
from the parser's events without recursion.
"""

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import lru_cache
from typing import Final

import yaml

from specs.languages.saying import Saying, say
from specs.mending import Fault, fault_of, mended
from specs.problems import Reading, quoted

LARGEST: Final = 256 * 1024
"""The most bytes that a spec may have."""

DEEPEST: Final = 12
"""The most levels of lists and mappings, one inside another."""


@dataclass(frozen=True, slots=True)
class Scalar:
    """A word or number as written. ``quoted`` is true of quoted and block text."""

    text: str
    line: int
    quoted: bool = False


@dataclass(frozen=True, slots=True)
class Sequence:
    """A list."""

    items: tuple["Node", ...]
    line: int


@dataclass(frozen=True, slots=True)
class Mapping:
    """Words with a value each, in the order written; no word stands twice."""

    entries: tuple[tuple[Scalar, "Node"], ...]
    line: int


Node = Scalar | Sequence | Mapping


Span = tuple[int, int]
"""From which character of a text, and up to which."""


@dataclass(frozen=True, slots=True)
class Written:
    """A node of a text that can be read, and where in the text it stands.

    A mapping has ``entries``, a list ``items``, anything else its ``text``. ``flow`` is true
    of those in brackets or braces; the others end where the last in them does.
    """

    span: Span
    text: str = ""
    entries: "tuple[tuple[Written, Written], ...] | None" = None
    items: "tuple[Written, ...] | None" = None
    flow: bool = False


@lru_cache(maxsize=16)  # controls look in one text for each of their words
def written_tree(text: str) -> Written:
    """The nodes of a text where they stand. Raises ValueError for what is no YAML."""
    read = _with_title_in_quotes(text)
    place = _place_before_quotes(text)
    open_nodes: list[tuple[yaml.Event, list[Written]]] = []
    top: Written | None = None
    try:
        for event in _events(read):
            match event:
                case yaml.CollectionStartEvent():
                    open_nodes.append((event, []))
                    continue
                case yaml.ScalarEvent():
                    start, end = _ends(event)
                    end = start + len(read[start:end].rstrip())
                    node = Written((place(start), place(end)), event.value)
                case yaml.CollectionEndEvent():
                    begun, inside = open_nodes.pop()
                    node = _closed(begun, event, inside, place)
                case _:
                    continue
            if open_nodes:
                open_nodes[-1][1].append(node)
            else:
                top = node
    except yaml.YAMLError as error:
        raise ValueError(str(error)) from error
    return top or Written((0, 0))


def _closed(
    begun: yaml.Event, ended: yaml.Event, inside: list[Written], place: Callable[[int], int]
) -> Written:
    flow = bool(getattr(begun, "flow_style", False))
    start = place(_ends(begun)[0])
    end = place(_ends(ended)[1]) if flow or not inside else inside[-1].span[1]
    if isinstance(begun, yaml.SequenceStartEvent):
        return Written((start, end), items=tuple(inside), flow=flow)
    entries = tuple(zip(inside[::2], inside[1::2], strict=True))
    return Written((start, end), entries=entries, flow=flow)


def _ends(event: yaml.Event) -> Span:
    """Where an event of a text begins and ends: the parser marks them all."""
    assert event.start_mark is not None
    assert event.end_mark is not None
    return event.start_mark.index, event.end_mark.index


def _place_before_quotes(text: str) -> Callable[[int], int]:
    """From a place in the text with its title in quotes to that place in the text itself."""
    found = _TITLE_WITH_COLON.search(text)
    if found is None:
        return lambda at: at
    start = found.start(2)
    more = 2 + found[2].count("'")
    end = start + len(found[2]) + more
    return lambda at: at - more if at >= end else min(at, start)


def read_tree(data: bytes, reading: Reading) -> Mapping | None:
    """The tree of a file's bytes, or None when its problems leave nothing to read on with.

    A text that is no YAML is mended where it is broken, and what could be read of it is given.
    """
    text = _decoded(data, reading)
    if text is None:
        return None
    text = _without_controls(with_one_line_end(text), reading)
    text, indented = _indented_with_spaces(text, reading)
    text = _with_title_in_quotes(text)
    scanner = _Scanner()
    found = mended(text, scanner.fault_in, indented)
    if found is not None:
        for fault in found.faults:
            if fault.line not in reading.mended:
                reading.problem(fault.line, fault.what, fault.instead)
        if not found.text:
            return None
        reading.mended.update(found.touched)
        reading.lost.update(found.lost)
        text = found.text
    told, composing = frozenset(reading.mended), reading.trial()
    top = _Composer(composing).compose(scanner.events(text))
    reading.problems.extend(problem for problem in composing.problems if problem.line not in told)
    if isinstance(top, Mapping) or top is None:
        return top
    if isinstance(top, Scalar) and not top.text:
        if found is None:
            reading.problem(1, say("the file is empty"), _START)
    else:
        reading.problem(top.line, say("a spec is made of words with a colon"), _START)
    return None


_START: Final = say("start with 'title:' and 'ladder:'")


class _Scanner:
    """The parser's events of texts, kept of the last: what has no fault is not scanned again."""

    def __init__(self) -> None:
        self._text: str | None = None
        self._events: list[yaml.Event] = []

    def events(self, text: str) -> Iterator[yaml.Event]:
        """The events of a text, as far as somebody wants them; whoever asks again gets so many."""
        return iter(self._events) if text == self._text else self._scanned(text)

    def _scanned(self, text: str) -> Iterator[yaml.Event]:
        self._text, self._events = None, []
        for event in _events(text):
            self._events.append(event)
            yield event

    def fault_in(self, text: str) -> Fault | None:
        """Why a text is no tree of words, or None where it is one."""
        composer = _Composer(Reading(""))
        try:
            composer.compose(self.events(text))
        except yaml.MarkedYAMLError as error:
            return fault_of(error, text)
        except (yaml.YAMLError, ValueError, OverflowError):
            # The scanner's own int() and chr() on wild escapes and directives.
            lines = enumerate(text.split("\n"), start=1)
            line = next((at for at, line in lines if line.startswith("%") or "\\" in line), 1)
            instead = say("take out any '%' lines and '\\' escapes")
            return Fault(line, say("the file is not YAML"), instead)
        self._text = text
        return composer.too_deep


def _decoded(data: bytes, reading: Reading) -> str | None:
    if len(data) > LARGEST:
        what = say("the file is larger than {size} KiB", size=LARGEST // 1024)
        reading.problem(1, what, say("split it into several specs"))
        return None
    try:
        text = data.decode("utf-8-sig")
        bad = text.find("\0")
        if bad < 0:
            return text
        line = text.count("\n", 0, bad) + 1
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        text = data.decode("utf-8-sig", errors="replace")
    instead = say("save it as UTF-8 in your editor")
    reading.problem(line, say("the file is not UTF-8 text"), instead)
    if "\0" in text:
        return None  # it is no text at all, or one in another writing throughout
    lines = enumerate(_LINE_END.split(text), start=1)
    reading.mended.update(number for number, line in lines if "\ufffd" in line)
    return text


def _without_controls(text: str, reading: Reading) -> str:
    """The text without characters that YAML does not let in; the first on each line is told."""
    lines = text.split("\n")
    for number, line in enumerate(lines, start=1):
        found = yaml.reader.Reader.NON_PRINTABLE.search(line)
        if found:
            what = say("the file holds the control character U+{code:04X}", code=ord(found[0]))
            reading.problem(number, what, _TAKE_OUT)
            reading.mended.add(number)
            lines[number - 1] = yaml.reader.Reader.NON_PRINTABLE.sub("", line)
    return "\n".join(lines)


_TAKE_OUT: Final = say("take it out")
_LINE_END = re.compile(r"\r\n|\r|\n")


def with_one_line_end(text: str) -> str:
    """The text as any editor means it: lines that end alike, whatever system it was saved on."""
    return _LINE_END.sub("\n", text)


def _indented_with_spaces(text: str, reading: Reading) -> tuple[str, set[int]]:
    """The text with ordinary spaces before its lines; each line that had others is told, and given.

    A tab comes to as many spaces as the first line that is indented by spaces has.
    """
    lines = text.split("\n")
    indented = set()
    tab = next((line[: len(line) - len(line.lstrip(" "))] for line in lines if line[:1] == " "), "")
    for number, line in enumerate(lines, start=1):
        before = line[: len(line) - len(line.lstrip())] if line.strip() else ""
        strange = before.replace("\t", "").strip(" ")
        if "\t" in before:
            what = say("the line begins with a tab")
            reading.problem(number, what, say("indent with spaces"))
        elif strange:
            what = say(
                "the line begins with a space that YAML does not know (U+{code:04X})",
                code=ord(strange[0]),
            )
            reading.problem(number, what, say("indent with ordinary spaces"))
        else:
            continue
        indented.add(number)
        spaces = before.replace("\t", tab or "  ")
        lines[number - 1] = " " * len(spaces) + line[len(before) :]
    return "\n".join(lines), indented


_TITLE_WITH_COLON = re.compile(
    r"""^(title[ ]*:[ ]+)
    (?![\"'\[{|>&*!%@`#])([^\r\n]*?:(?:[ ][^\r\n]*?)?)
    ([ ]+\#[^\r\n]*|[ ]*)$""",
    re.MULTILINE | re.IGNORECASE | re.VERBOSE,
)


def _with_title_in_quotes(text: str) -> str:
    """The text with its title in quotes where that holds a colon: what is meant is clear."""
    return _TITLE_WITH_COLON.sub(
        lambda found: found[1] + "'" + found[2].replace("'", "''") + "'" + found[3], text, count=1
    )


def _events(text: str) -> Iterator[yaml.Event]:
    # The parser written in Python, so that messages are the same on every machine.
    return iter(yaml.parse(text, Loader=yaml.SafeLoader))


@dataclass(slots=True)
class _Open:
    """A list or mapping whose end has not come yet."""

    line: int
    is_mapping: bool
    nodes: list[Node]

    def closed(self, reading: Reading) -> Node:
        if not self.is_mapping:
            return Sequence(tuple(self.nodes), self.line)
        entries: dict[str, tuple[Scalar, Node]] = {}
        for key, value in zip(self.nodes[::2], self.nodes[1::2], strict=True):
            if not isinstance(key, Scalar):
                what = say("a list or mapping stands before a colon")
                reading.problem(key.line, what, say("write a word"))
            elif key.text in entries:
                first = entries[key.text][0].line
                what = say("{word} is already on line {line}", word=quoted(key.text), line=first)
                reading.problem(key.line, what, say("keep one of them"))
            else:
                entries[key.text] = (key, value)
        return Mapping(tuple(entries.values()), self.line)


class _Composer:
    """Builds the tree, gathering what a spec may not use."""

    def __init__(self, reading: Reading) -> None:
        self.reading = reading
        self.open: list[_Open] = []
        self.documents = 0
        self.too_deep: Fault | None = None
        self.top: Node = Scalar("", 1)

    def compose(self, events: Iterator[yaml.Event]) -> Node | None:
        for event in events:
            line = event.start_mark.line + 1 if event.start_mark else 1
            match event:
                case yaml.DocumentStartEvent():
                    self.documents += 1
                    if self.documents > 1:
                        what = say("a second document begins")
                        self._refuse(line, what, say("keep one spec in a file"))
                        return self.top
                case yaml.AliasEvent():
                    what = say("{word} repeats another part", word=quoted(f"*{event.anchor}"))
                    self._refuse(line, what, say("write it out"))
                    self._add(Scalar("", line))
                case yaml.ScalarEvent():
                    self._plain(event, line)
                    self._add(Scalar(event.value, line, bool(event.style)))
                case yaml.CollectionStartEvent():
                    self._plain(event, line)
                    if len(self.open) == DEEPEST:
                        self.too_deep = Fault(
                            line,
                            say("lists and mappings stand more than {most} deep", most=DEEPEST),
                            say("a spec needs only a few levels; check the brackets"),
                        )
                        return None
                    is_mapping = isinstance(event, yaml.MappingStartEvent)
                    self.open.append(_Open(line, is_mapping, []))
                case yaml.CollectionEndEvent():
                    self._add(self.open.pop().closed(self.reading))
        return self.top

    def _add(self, node: Node) -> None:
        if self.open:
            self.open[-1].nodes.append(node)
        else:
            self.top = node

    def _plain(self, event: yaml.ScalarEvent | yaml.CollectionStartEvent, line: int) -> None:
        if event.anchor is not None:
            what = say("{word} marks a part for repeating", word=quoted(f"&{event.anchor}"))
            self._refuse(line, what, say("write it out"))
        if event.tag is not None:
            tag = event.tag.replace("tag:yaml.org,2002:", "!!")
            what = say("the tag {tag} has no use in a spec", tag=quoted(tag))
            self._refuse(line, what, _TAKE_OUT)

    def _refuse(self, line: int, what: Saying, instead: Saying) -> None:
        self.reading.problem(line, what, instead)
        self.reading.mended.add(line)
