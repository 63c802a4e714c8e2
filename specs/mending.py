"""A text that is no YAML, mended where it is broken so that the rest of it can be read.

Of each fault a few ways of mending it are tried, the ones that lose least first, and the one after
which the text reads on furthest is taken. What is told of a fault is told once: of the lines that
were mended nothing more is said, nor that a word is missing which stood on a line left out.
"""

import re
from collections.abc import Callable, Collection, Iterator, Mapping
from dataclasses import dataclass, field
from typing import Final

import yaml

from specs.languages.saying import Saying, say
from specs.problems import quoted, write

MOST_READ: Final = 100_000
"""So many characters are gone through in mending a text, which takes about a second."""


@dataclass(frozen=True, slots=True)
class Fault:
    """Why a text cannot be read: on which line, what is wrong, and what would be right."""

    line: int
    what: Saying
    instead: Saying
    out_of_line: bool = False  # whether it may come of a line before that was mended
    lacks_colon: bool = False


@dataclass(frozen=True, slots=True)
class Mend:
    """A text with one fault mended: the lines that were touched, and those left out or moved."""

    text: str
    touched: frozenset[int]
    lost: frozenset[int] = frozenset()


@dataclass(slots=True)
class Mended:
    """What became of a text: its faults, the lines touched, the words of those left out."""

    text: str
    faults: list[Fault] = field(default_factory=list)
    touched: set[int] = field(default_factory=set)
    lost: dict[int, frozenset[str]] = field(default_factory=dict)


def mended(
    text: str, fault_in: Callable[[str], Fault | None], indented: Collection[int] = ()
) -> Mended | None:
    """The text mended until it has no fault; the faults alone where that does not come about.

    ``fault_in`` says the first fault of a text. Lines of the text end alike; ``indented`` are those
    that were indented anew already, of which that has been told. None when it has no fault.
    """
    fault = fault_in(text)
    if fault is None:
        return None
    found = Mended(text)
    left = MOST_READ
    while fault is not None:
        known = found.touched.union(indented)
        follows = _line_before(found.text, known, fault.line) if fault.out_of_line else 0
        if fault.line not in known and not follows:
            found.faults.append(fault)
        best: tuple[Mend, Fault | None] | None = None
        for mend in _mends(found.text, fault, follows):
            left -= max(len(text), MOST_READ // 100)
            if left < 0:
                break
            after = fault_in(mend.text)
            if best is None or _further(after, best[1]):
                best = (mend, after)
            if after is None or after.line > _end_of_block(mend.text.split("\n"), fault.line):
                break
        if best is None or not _further(best[1], fault):
            found.text = ""
            return found
        mend, after = best
        lines = found.text.split("\n")
        for line in mend.lost:
            found.lost[line] = frozenset(_WORD.findall(lines[line - 1]))
        found.touched |= mend.touched | mend.lost | {fault.line}
        found.text, fault = mend.text, after
    return found


_WORD: Final = re.compile(r"[^\s:,\[\]{}'\"#]+")


def _further(fault: Fault | None, than: Fault | None) -> bool:
    if fault is None or than is None:
        return than is not None
    return fault.line > than.line


def _line_before(text: str, mended_lines: Collection[int], line: int) -> int:
    """The last line before that holds anything, or held it, if it was mended; otherwise 0."""
    lines = text.split("\n")
    before = min(line - 1, len(lines))
    while before and before not in mended_lines and not lines[before - 1].strip():
        before -= 1
    return before if before in mended_lines else 0


def _mends(text: str, fault: Fault, follows: int) -> Iterator[Mend]:
    """The text mended in one way after another, the ones that lose least first.

    ``follows`` is the line before, where that was mended and may stand in the wrong place; or 0.
    """
    lines = text.split("\n")
    at = min(fault.line, len(lines)) - 1
    whole = range(at, _end_of_block(lines, at + 1))

    def with_lines(*changes: tuple[int, str], lost: range | None = None) -> Mend:
        new = lines.copy()
        for number, line in changes:
            new[number] = line
        touched = frozenset(number + 1 for number, _ in changes)
        return Mend("\n".join(new), touched, frozenset(n + 1 for n in lost or ()))

    line = lines[at]
    if fault.lacks_colon:
        word, _, rest = line.strip().partition(" ")
        yield with_lines((at, f"{_before(line)}{word}: {rest}".rstrip()))
    if "\t" in line.strip():
        yield with_lines((at, _before(line) + line.strip().replace("\t", " ")))
    if "\\" in line:
        yield with_lines((at, line.replace("\\", "/")))
    closed = _closed(lines, whole)
    if closed is not None:
        yield with_lines(closed)
    if (start := _KEY.match(line)) and line[start.end() :].strip():
        yield with_lines((at, start[0] + _in_quotes(line[start.end() :])))
    if follows:
        yield with_lines((follows - 1, _before(line) + lines[follows - 1].strip()))
    if _before(line) or fault.out_of_line:
        for spaces in _spaces_before(lines, at):
            moved = spaces - len(_before(line))
            changes = [(n, _moved(lines[n], moved)) for n in whole]
            mend = with_lines(*changes)
            yield Mend(mend.text, frozenset({at + 1}), frozenset({at + 1}))
    if start:
        inside = [(number, "") for number in whole[1:]]
        yield with_lines((at, f"{start[0].rstrip()} ''"), *inside, lost=whole)
    yield with_lines(*((number, "") for number in whole), lost=whole)
    below = range(at, len(lines))
    yield with_lines(*((number, "") for number in below), lost=below)


_KEY: Final = re.compile(r"\s*(?:-\s+)?[^\s:#'\"\[\]{},&*!|>%@`][^:#]*:(?=\s|$)\s*")


def _before(line: str) -> str:
    return line[: len(line) - len(line.lstrip(" "))]


def _moved(line: str, spaces: int) -> str:
    return " " * max(len(_before(line)) + spaces, 0) + line.lstrip(" ") if line.strip() else line


def _end_of_block(lines: list[str], line: int) -> int:
    """The last line of those that belong to a line: all below it that stand further in.

    A line that only closes brackets belongs to those that it closes.
    """
    at = min(line, len(lines)) - 1
    own, last = len(_before(lines[at])), at
    for number in range(at + 1, len(lines)):
        below = lines[number]
        if not below.strip() or below.lstrip().startswith("#"):
            continue
        if len(_before(below)) <= own and below.strip().strip("]}, "):
            break
        last = number
    return last + 1


def _closed(lines: list[str], block: range) -> tuple[int, str] | None:
    """The last line of a block with its quotation mark and its brackets closed, if any are open."""
    ends, quote, last, end = "", "", block[0], 0
    for number in block:
        line = lines[number]
        if not line.strip():
            continue
        last, end = number, len(line.rstrip())
        for at, sign in enumerate(line):
            if quote:
                quote = "" if sign == quote else quote
            elif sign in "'\"" and (not at or line[at - 1] in " [{,"):
                quote = sign
            elif sign in "[{":
                ends = "]}"["[{".index(sign)] + ends
            elif sign in "]}":
                ends = ends[1:] if ends.startswith(sign) else ends
            elif sign == "#" and (not at or line[at - 1] == " "):
                end = len(line[:at].rstrip())
                break
    if not (quote or ends):
        return None
    return last, lines[last][:end] + quote + ends


def _in_quotes(value: str) -> str:
    kept = re.sub(r"\s+#.*", "", value).strip()
    return "'" + kept.replace("'", "''") + "'"


def _spaces_before(lines: list[str], at: int) -> list[int]:
    """How far in a line may have been meant to stand: as lines above do, likeliest first.

    Lines with others below them line up with such lines, and the nearer the likelier.
    """
    own = len(_before(lines[at]))
    heads = _end_of_block(lines, at + 1) > at + 1
    seen: dict[int, bool] = {}
    for number in range(at - 1, -1, -1):
        if not lines[number].strip():
            continue
        spaces = len(_before(lines[number]))
        if spaces not in seen and not any(spaces > other for other in seen if other < own):
            seen[spaces] = lines[number].rstrip().endswith(":")
        if not spaces:
            break
    seen.pop(own, None)
    return sorted(seen, key=lambda spaces: (seen[spaces] is not heads, abs(spaces - own)))


_IN_QUOTES: Final = say("put the text in quotes")
_UNCLOSED = re.compile(r"expected ',' or '([\]}])'")
_CANNOT_START = re.compile(r"found character '(.*)' that cannot start any token")


def fault_of(error: yaml.MarkedYAMLError, text: str) -> Fault:
    """A syntax error of a text in plain words."""
    return _without_colon(error, text) or _in_plain_words(error)


def _without_colon(error: yaml.MarkedYAMLError, text: str) -> Fault | None:
    """The fault, where a line before has no colon: YAML runs such a line on into the next."""
    mark = error.problem_mark
    if mark is None or "mapping values are not allowed" not in (error.problem or ""):
        return None
    lines = text.split("\n")[: mark.line]
    for number, line in reversed(list(enumerate(lines, start=1))):
        words = line.split("#")[0].split()
        if not words:
            continue
        if ":" in line or words[0] == "-" or line.strip()[-1] in ",[{":
            return None
        first, rest = words[0], " ".join(words[1:])
        written = f"{first}: {rest}" if rest else f"{first}:"
        what = say("{words} has no colon", words=quoted(line.strip()))
        return Fault(number, what, write(quoted(written)), lacks_colon=True)
    return None


def _in_plain_words(error: yaml.MarkedYAMLError) -> Fault:
    said = error.problem or error.context or ""
    mark = error.problem_mark or error.context_mark
    line = mark.line + 1 if mark else 1
    opened = error.context_mark.line + 1 if error.context_mark else line
    if unclosed := _UNCLOSED.search(said):
        return Fault(
            opened,
            say(
                "a comma or the closing '{bracket}' is missing from the brackets that begin here",
                bracket=unclosed[1],
            ),
            say("put commas between the values and close the brackets"),
        )
    if "quoted scalar" in (error.context or "") and "end of stream" in said:
        return Fault(opened, say("a quotation mark is opened but not closed"), say("close it"))
    if "mapping values are not allowed" in said:
        return Fault(
            line,
            say("a colon stands where none can"),
            say("put text that holds a colon in quotes, and line words up with those beside them"),
            out_of_line=True,
        )
    if "could not find expected ':'" in said:
        what, instead = (
            say("a word has no colon after it"),
            say("write the word, a colon and a space"),
        )
        return Fault(opened, what, instead, lacks_colon=True)
    if "expected <block end>" in said:
        return Fault(
            line,
            say("this line does not line up with those above"),
            say("begin it under the first letter of the line it belongs with"),
            out_of_line=True,
        )
    if cannot := _CANNOT_START.search(said):
        if cannot[1] == "\\t":
            return Fault(line, say("a tab stands between words"), say("write spaces"))
        what = say("'{sign}' cannot begin a word", sign=cannot[1])
        return Fault(line, what, _IN_QUOTES)
    if "expected alphabetic or numeric character" in said:
        return Fault(line, say("a word cannot begin with '*', '&' or '!'"), _IN_QUOTES)
    if "escape" in said:
        return Fault(
            line,
            say("a '\\' in double quotes begins a code that YAML does not know"),
            say("use single quotes, or write it twice"),
        )
    what = say("this is not YAML: {why}", why=_as_the_library_has_it(said))
    return Fault(line, what, say("check the spaces, colons, brackets and quotes"))


_FOUND = re.compile("(expected .*), but found '(.*)'")
_USUAL: Final[Mapping[str, str]] = {
    one: one
    for one in (
        say("expected the node content"),
        say("expected chomping or indentation indicators"),
        say("sequence entries are not allowed here"),
        say("something is out of place"),
    )
}
"""What PyYAML (6.0) says of stray commas and brackets, block texts and dashes."""


def _as_the_library_has_it(said: str) -> str:
    """What PyYAML says of a fault: a saying where it is a usual one."""
    found = _FOUND.fullmatch(said)
    if found is None:
        return _USUAL.get(said or "something is out of place", said)
    expected = _USUAL.get(found[1], found[1])
    return say("{expected}, but found '{sign}'", expected=expected, sign=found[2])
