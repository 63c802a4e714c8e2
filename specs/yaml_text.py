"""YAML text as a frozen tree in which every word keeps its line and its spelling.

Only what a spec needs is let in: one document of mappings, lists and plain or quoted
words. Numbers stay text (``0.50`` is never a float), and aliases, anchors and tags are
refused, so a small file cannot grow large or make anything but text. The tree is built
from the parser's events without recursion.
"""

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Final

import yaml

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
    """The tree of a file's bytes, or None when its problems leave nothing to read on with."""
    text = _decoded(data, reading)
    if text is None or not _indented_with_spaces(text, reading):
        return None
    try:
        top = _Composer(reading).compose(_events(_with_title_in_quotes(text)))
    except yaml.reader.ReaderError as error:
        line = text.count("\n", 0, error.position) + 1
        shown = f"U+{int(error.character):04X}"
        if shown == "U+0000":
            reading.problem(line, "the file is not UTF-8 text", "save it as UTF-8 in your editor")
        else:
            reading.problem(line, f"the file holds the control character {shown}", "take it out")
        return None
    except yaml.MarkedYAMLError as error:
        reading.problem(*(_without_colon(error, text) or _in_plain_words(error)))
        return None
    except (yaml.YAMLError, ValueError, OverflowError):
        # The scanner's own int() and chr() on wild escapes and directives.
        reading.problem(1, "the file is not YAML", "take out any '%' lines and '\\' escapes")
        return None
    if isinstance(top, Mapping) or top is None:
        return top
    if isinstance(top, Scalar) and not top.text:
        reading.problem(1, "the file is empty", "start with 'title:' and 'ladder:'")
    else:
        reading.problem(
            top.line, "a spec is made of words with a colon", "start with 'title:' and 'ladder:'"
        )
    return None


def _decoded(data: bytes, reading: Reading) -> str | None:
    if len(data) > LARGEST:
        reading.problem(
            1, f"the file is larger than {LARGEST // 1024} KiB", "split it into several specs"
        )
        return None
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        reading.problem(line, "the file is not UTF-8 text", "save it as UTF-8 in your editor")
        return None


_LINE_END = re.compile(r"\r\n|\r|\n")


def with_one_line_end(text: str) -> str:
    """The text as any editor means it: lines that end alike, whatever system it was saved on."""
    return _LINE_END.sub("\n", text)


def _indented_with_spaces(text: str, reading: Reading) -> bool:
    good = True
    for number, line in enumerate(_LINE_END.split(text), start=1):
        before = line[: len(line) - len(line.lstrip())] if line.strip() else ""
        strange = before.replace("\t", "").strip(" ")
        if "\t" in before:
            reading.problem(number, "the line begins with a tab", "indent with spaces")
        elif strange:
            what = f"the line begins with a space that YAML does not know (U+{ord(strange[0]):04X})"
            reading.problem(number, what, "indent with ordinary spaces")
        good = good and not strange and "\t" not in before
    return good


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
                reading.problem(key.line, "a list or mapping stands before a colon", "write a word")
            elif key.text in entries:
                first = entries[key.text][0].line
                reading.problem(
                    key.line,
                    f"{quoted(key.text)} is already on line {first}",
                    "keep one of them",
                )
            else:
                entries[key.text] = (key, value)
        return Mapping(tuple(entries.values()), self.line)


class _Composer:
    """Builds the tree, gathering what a spec may not use."""

    def __init__(self, reading: Reading) -> None:
        self.reading = reading
        self.open: list[_Open] = []
        self.documents = 0
        self.whole = True
        self.top: Node = Scalar("", 1)

    def compose(self, events: Iterator[yaml.Event]) -> Node | None:
        for event in events:
            line = event.start_mark.line + 1 if event.start_mark else 1
            match event:
                case yaml.DocumentStartEvent():
                    self.documents += 1
                    if self.documents > 1:
                        self._refuse(line, "a second document begins", "keep one spec in a file")
                        return None
                case yaml.AliasEvent():
                    self._refuse(
                        line, f"{quoted(f'*{event.anchor}')} repeats another part", "write it out"
                    )
                    self._add(Scalar("", line))
                case yaml.ScalarEvent():
                    self._plain(event, line)
                    self._add(Scalar(event.value, line, bool(event.style)))
                case yaml.CollectionStartEvent():
                    self._plain(event, line)
                    if len(self.open) == DEEPEST:
                        self._refuse(
                            line,
                            f"lists and mappings stand more than {DEEPEST} deep",
                            "a spec needs only a few levels; check the brackets",
                        )
                        return None
                    is_mapping = isinstance(event, yaml.MappingStartEvent)
                    self.open.append(_Open(line, is_mapping, []))
                case yaml.CollectionEndEvent():
                    self._add(self.open.pop().closed(self.reading))
        return self.top if self.whole else None

    def _add(self, node: Node) -> None:
        if self.open:
            self.open[-1].nodes.append(node)
        else:
            self.top = node

    def _plain(self, event: yaml.ScalarEvent | yaml.CollectionStartEvent, line: int) -> None:
        if event.anchor is not None:
            self._refuse(
                line, f"{quoted(f'&{event.anchor}')} marks a part for repeating", "write it out"
            )
        if event.tag is not None:
            tag = event.tag.replace("tag:yaml.org,2002:", "!!")
            self._refuse(line, f"the tag {quoted(tag)} has no use in a spec", "take it out")

    def _refuse(self, line: int, what: str, instead: str) -> None:
        self.whole = False
        self.reading.problem(line, what, instead)


_UNCLOSED = re.compile(r"expected ',' or '([\]}])'")
_CANNOT_START = re.compile(r"found character '(.*)' that cannot start any token")


def _without_colon(error: yaml.MarkedYAMLError, text: str) -> tuple[int, str, str] | None:
    """The problem, where a line before has no colon: YAML runs such a line on into the next."""
    mark = error.problem_mark
    if mark is None or "mapping values are not allowed" not in (error.problem or ""):
        return None
    lines = _LINE_END.split(text)[: mark.line]
    for number, line in reversed(list(enumerate(lines, start=1))):
        words = line.split("#")[0].split()
        if not words:
            continue
        if ":" in line or words[0] == "-" or line.strip()[-1] in ",[{":
            return None
        first, rest = words[0], " ".join(words[1:])
        written = f"{first}: {rest}" if rest else f"{first}:"
        return number, f"{quoted(line.strip())} has no colon", f"write {quoted(written)}"
    return None


def _in_plain_words(error: yaml.MarkedYAMLError) -> tuple[int, str, str]:
    """A syntax error as (line, what is wrong, what to write instead)."""
    said = error.problem or error.context or "something is out of place"
    mark = error.problem_mark or error.context_mark
    line = mark.line + 1 if mark else 1
    opened = error.context_mark.line + 1 if error.context_mark else line
    if unclosed := _UNCLOSED.search(said):
        return (
            opened,
            f"a comma or the closing '{unclosed[1]}' is missing from the brackets that begin here",
            "put commas between the values and close the brackets",
        )
    if "quoted scalar" in (error.context or "") and "end of stream" in said:
        return opened, "a quotation mark is opened but not closed", "close it"
    if "mapping values are not allowed" in said:
        return (
            line,
            "a colon stands where none can",
            "put text that holds a colon in quotes, and line words up with those beside them",
        )
    if "could not find expected ':'" in said:
        return opened, "a word has no colon after it", "write the word, a colon and a space"
    if "expected <block end>" in said:
        return (
            line,
            "this line does not line up with those above",
            "begin it under the first letter of the line it belongs with",
        )
    if cannot := _CANNOT_START.search(said):
        if cannot[1] == "\\t":
            return line, "a tab stands between words", "write spaces"
        return line, f"'{cannot[1]}' cannot begin a word", "put the text in quotes"
    if "expected alphabetic or numeric character" in said:
        return line, "a word cannot begin with '*', '&' or '!'", "put the text in quotes"
    if "escape" in said:
        return (
            line,
            "a '\\' in double quotes begins a code that YAML does not know",
            "use single quotes, or write it twice",
        )
    return line, f"this is not YAML: {said}", "check the spaces, colons, brackets and quotes"
