"""The lessons that ship, in another language: the one text of each with what people read in it.

Title, comments, names of rungs, what pupils are told and the names that they see are sayings; all
else of the text stays as it is, and so do the questions of every seed. It is worked on line by
line, as ours are written: the ladder comes first, and every rung begins on a line of its own.
"""

import re
from collections.abc import Callable, Iterator, Mapping
from textwrap import wrap
from typing import Final

from rungsheet.desk import specs
from specs.lands import land
from specs.languages.language import ENGLISH, LANGUAGES, Language, language
from specs.languages.saying import Saying
from specs.names import name_for, name_in_words

__all__ = ["ABOUT", "in_each", "in_words", "named", "names", "text"]

ABOUT: Final = "lesson"
"""What tells these sayings from others that are alike."""

_LANDS: Final = {"German": "Germany"}
"""The land whose way of writing goes with a language."""

_WIDTH: Final = 96
_COMMENT: Final = re.compile(r"( *)# ?(.*)")
_BEHIND: Final = re.compile(r"(?P<code>.*\S) +# (?P<said>.*)")
_OWN_LINE: Final = re.compile(
    r"(?P<before> *(?:- )?(?:title|instructions|objective|shown_as): )\"?(?P<said>.*?)\"?"
)
_IN_BRACES: Final = re.compile(r"\b(?P<before>shown_as: )(?P<said>[^,}]+)")
_NO_NAMES: Final = "|".join(
    (
        r'"[^"]*"',
        r"\b(?:methods|frames): \{[^}]*\}",
        r"\btells_apart: \[[^\]]*\]",
        r"\b(?:keep|your_turn): [^,}\]]+",
    )
)
"""What is no name of a rung in the sections of a lesson, though it may have the same letters."""
_KEY: Final = re.compile(r"( *)(?:- )?([a-z0-9_-]+):(.*)")

Says = Callable[[Saying], str]


def names() -> tuple[str, ...]:
    """The names of the specs that ship, the demo first."""
    return tuple(sorted(specs.shipped_names(), key=lambda name: (name != specs.DEMO, name)))


def in_each(name: str) -> dict[str, str]:
    """The text of a spec that ships in every language, by the language's code (BCP 47)."""
    return {known.code: text(name, known) for known in map(language, LANGUAGES)}


def text(name: str, said_in: Language) -> str:
    """The text of a spec that ships, in a language. Raises KeyError when none has that name."""
    english = specs.shipped_text(name)
    if said_in.name == ENGLISH:
        return english
    said = in_words(english, said_in.says, land(_LANDS[said_in.name]).writes)
    pages = f"pages: {{land: {_LANDS[said_in.name]}, language: {said_in.name}}}"
    return re.sub(r"(?m)^(title: .*)$", rf"\1\n{pages}", said, count=1)


def in_words(english: str, says: Says, writes: Callable[[str], str] = str) -> str:
    """A text of ours with everything in it that people read as ``says`` says it.

    ``writes`` writes the calculations that are its examples.
    """
    return "".join(f"{line}\n" for line in _lines(english.splitlines(), says, writes))


def named(words: str) -> str:
    """The name, as names are kept, that words give: ``Übertrag`` gives ``uebertrag``."""
    return name_for(words) or ""


def _lines(lines: list[str], says: Says, writes: Callable[[str], str]) -> Iterator[str]:
    names: dict[str, str] = {}
    top = ""  # the word at the beginning of a line below which all stands
    tiers = -1  # how far in 'tiers:' stands, below which tiers are
    at = 0
    while at < len(lines):
        line = lines[at]
        comment = _COMMENT.fullmatch(line)
        if comment:
            end = at
            while end < len(lines) and _COMMENT.fullmatch(lines[end]):
                end += 1
            if any(map(_has_words, lines[at:end])):
                yield from _comment(lines[at:end], comment[1], says)
            else:
                yield from map(writes, lines[at:end])
            at = end
            continue
        at += 1
        key = _KEY.fullmatch(line)
        if key is None:
            yield _own(_renamed(line, names), says)
            continue
        indent, word, value = len(key[1]), key[2], key[3].strip()
        if not indent:
            top = word
        if indent <= tiers:
            tiers = -1
        inside = lines[at] if at < len(lines) else ""
        if top == "ladder" and indent == 2 and not value:
            shown = says(_saying(name_in_words(word)))
            names[word] = named(shown)
            yield f"  {names[word]}:"
            if not _has_name(lines[at:], indent):
                yield f'    shown_as: "{shown}"'
        elif tiers >= 0 and indent == tiers + 2 and "shown_as" not in line + inside:
            yield from _tier(key[1], word, _renamed(value, names), says)
        else:
            yield _own(line if top == "ladder" else _renamed(line, names), says)
        if word == "tiers":
            tiers = indent


def _renamed(line: str, names: Mapping[str, str]) -> str:
    """A line of a section with other names of rungs."""
    if not names:
        return line
    known = "|".join(map(re.escape, names))
    looked_for = rf"{_NO_NAMES}|(?<![\w-])(?P<name>{known})(?![\w-])"
    return re.sub(looked_for, lambda m: names[m["name"]] if m["name"] else m[0], line)


def _comment(lines: list[str], indent: str, says: Says) -> Iterator[str]:
    """A comment of several lines, wrapped anew."""
    said = " ".join(line.strip().removeprefix("#").strip() for line in lines)
    for line in wrap(says(_saying(said)), _WIDTH - len(indent) - 2, break_on_hyphens=False):
        yield f"{indent}# {line}"


def _own(line: str, says: Says) -> str:
    """A line of the spec with its own texts and the comment behind it."""
    behind = _BEHIND.fullmatch(line)
    if behind:
        at = line.index("#", behind.end("code"))
        return f"{_own(behind['code'], says):<{at - 1}} # {says(_saying(behind['said']))}"
    own = _OWN_LINE.fullmatch(line)
    if own:
        return f'{own["before"]}"{says(_saying(own["said"]))}"'
    return _IN_BRACES.sub(lambda m: f'{m["before"]}"{says(_saying(m["said"]))}"', line)


def _tier(indent: str, name: str, value: str, says: Says) -> Iterator[str]:
    """A tier with a name that pupils see."""
    shown = f'shown_as: "{says(_saying(f"{name_in_words(name)} practice"))}"'
    if not value:
        yield f"{indent}{name}:"
        yield f"{indent}  {shown}"
    elif "questions:" in value:
        yield f"{indent}{name}: {{{shown}, {value[1:]}"
    else:
        yield f"{indent}{name}: {{{shown}, questions: {value}}}"


def _has_name(below: list[str], indent: int) -> bool:
    """Whether a rung has a name that pupils see already."""
    for line in below:
        if line.strip() and len(line) - len(line.lstrip()) <= indent:
            return False
        if line.strip().startswith("shown_as:"):
            return True
    return False


def _saying(english: str) -> Saying:
    return Saying(english.replace("{", "{{").replace("}", "}}"), {}, about=ABOUT)


def _has_words(said: str) -> bool:
    return re.search(r"[A-Za-z]{2}", said) is not None
