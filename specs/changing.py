"""A spec's text changed in one place: comments, order and spelling stay as they are elsewhere.

Places are paths of words and names, ``("ladder", "level", "places")``, as specs spell them or
not, and through lists of numbers from 0, ``("lesson", "2", "practice")``. What is put there is
YAML in flow style. Every change is read again before it is given: a text in which anything else
had become another would raise CannotChangeError instead.

Texts are those that ``read_tree`` takes, with lines that end alike.
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, Final

from specs.languages.saying import say
from specs.names import plain_name
from specs.problems import THIS
from specs.spellings import CONDITIONS, FIELDS, folded
from specs.yaml_text import Span, Written, written_tree

Path = tuple[str, ...]

INDENT: Final = "  "


class CannotChangeError(Exception):
    """A text that is written so that a change of it alone is not found. The message says where."""

    def __init__(self, path: Path) -> None:
        self.what = say(
            "'{word}' is written in a way that only you can change",
            word=path[-1] if path else THIS,
        )
        self.instead = say("change it in the text")
        super().__init__(f"{self.what}; {self.instead}")


def put(text: str, path: Path, value: str, order: Sequence[str] = ()) -> str:
    """The text with a value, in flow YAML, at a place, whatever stood there before.

    Where nothing did, it goes behind those words that come before it in ``order``, or last.
    """
    tree = written_tree(text)
    trail = _trail(tree, path)
    if len(trail) == len(path):
        _, node = trail[-1].entry
        changed = _replaced(text, trail[-1].entry[0], node, value)
    else:
        parent = trail[-1].entry[1] if trail else tree
        changed = _inserted(text, parent, path[len(trail) :], value, order, top=not trail)
    return _checked(changed, path, _with(_data(tree), tree, path, _data(written_tree(value))))


def drop(text: str, path: Path) -> str:
    """The text without what stands at a place; the text itself where nothing does."""
    tree = written_tree(text)
    trail = _trail(tree, path)
    if len(trail) < len(path):
        return text
    changed = _without(text, trail[-1].parent, trail[-1].at)
    return _checked(changed, path, _with(_data(tree), tree, path, None))


def drop_whole(text: str, path: Path) -> str:
    """As ``drop``, with the comments right above it and the empty lines before them."""
    tree = written_tree(text)
    trail = _whole_trail(tree, path)
    block = _block(text, trail[-1].parent, trail[-1].at)
    if block is None:
        return drop(text, path)
    start, end = block
    before = text[:start]
    while before.endswith("\n\n") or re.search(r"\n[ ]+\n\Z", before):
        before = before.rstrip("\n ") + "\n"
    changed = before + text[min(end + 1, len(text)) :]
    return _checked(changed, path, _with(_data(tree), tree, path, None))


def with_item(text: str, path: Path, item: str) -> str:
    """The text with a further item at the end of the list at a place."""
    node = _whole_trail(written_tree(text), path)[-1].entry[1]
    if not node.items:
        raise CannotChangeError(path)
    first, last = node.items[0], node.items[-1]
    if node.flow:
        return _read_again(_spliced(text, (last.span[1],) * 2, f", {item}"), path)
    start = _line_start(text, first.span[0])
    end = _line_end(text, last.span[1])
    return _read_again(_spliced(text, (end, end), f"\n{text[start : first.span[0]]}{item}"), path)


def without_item(text: str, path: Path, at: int) -> str:
    """The text without one of the items, of several, of the list at a place."""
    tree = written_tree(text)
    node = _whole_trail(tree, path)[-1].entry[1]
    listed = node.items or ()
    if len(listed) < 2:
        raise CannotChangeError(path)
    if not node.flow:
        span = _line_start(text, listed[at].span[0]), _line_end(text, listed[at].span[1]) + 1
    elif at:
        span = listed[at - 1].span[1], listed[at].span[1]
    else:
        span = listed[0].span[0], listed[1].span[0]
    changed = text[: span[0]] + text[span[1] :]
    item = (*path, str(at))
    return _checked(changed, item, _with(_data(tree), tree, item, None))


def renamed(text: str, path: Path, name: str) -> str:
    """The text with another name in the place of the last of a path."""
    tree = written_tree(text)
    trail = _trail(tree, path)
    if len(trail) < len(path):
        return text
    key, _ = trail[-1].entry
    return _read_again(_spliced(text, key.span, name), path)


def keys(text: str, path: Path) -> tuple[str, ...] | None:
    """The words of the mapping at a place, as they are written; None where there is none."""
    node = _node(text, path)
    return None if node is None or node.entries is None else tuple(k.text for k, _ in node.entries)


def items(text: str, path: Path) -> tuple[str, ...] | None:
    """What the list at a place lists, as written; None where there is no list."""
    node = _node(text, path)
    if node is None or node.items is None:
        return None
    return tuple(text[slice(*item.span)] for item in node.items)


def said(text: str, path: Path) -> Any:
    """What stands at a place as plain data, every single value as text; None where nothing does."""
    node = _node(text, path)
    return None if node is None else _data(node)


def value(text: str, path: Path) -> str | None:
    """What stands at a place, as it is written; None where nothing does."""
    node = _node(text, path)
    return None if node is None else text[slice(*node.span)]


def copied(text: str, path: Path, name: str) -> str:
    """The text with what stands at a place again behind it, under another name."""
    tree = written_tree(text)
    trail = _whole_trail(tree, path)
    parent, at = trail[-1].parent, trail[-1].at
    key, node = trail[-1].entry
    block = _block(text, parent, at)
    if block is None:
        copy = f"{name}: {text[slice(*node.span)]}"
        return _read_again(_spliced(text, (node.span[1],) * 2, f", {copy}"), path)
    _, end = block
    copy = text[_line_start(text, key.span[0]) : end]
    first = key.span[0] - _line_start(text, key.span[0])
    copy = copy[:first] + name + copy[first + key.span[1] - key.span[0] :]
    space = "\n\n" if _parted(text, parent) else "\n"
    return _read_again(_spliced(text, (end, end), space + _ended(copy)), path)


def moved(text: str, path: Path, by: int) -> str:
    """The text with what stands at a place moved before (−1) or behind (+1) its neighbour.

    The lines of comment right above it move with it. The text itself where there is none.
    """
    tree = written_tree(text)
    trail = _whole_trail(tree, path)
    parent, at = trail[-1].parent, trail[-1].at
    entries = parent.entries or ()
    first = min(at, at + by)
    if not 0 <= first < first + 1 < len(entries):
        return text
    spans = [_block(text, parent, one) for one in (first, first + 1)]
    one, other = spans
    if one is None or other is None:
        one, other = ((entries[n][0].span[0], entries[n][1].span[1]) for n in (first, first + 1))
    swapped = (
        text[: one[0]]
        + _ended(text[slice(*other)])
        + text[one[1] : other[0]]
        + _ended(text[slice(*one)])
        + text[other[1] :]
    )
    return _read_again(swapped, path)


def appended(text: str, path: Path, name: str, lines: Sequence[str]) -> str:
    """The text with a further name at the end of the mapping at a place, its words indented."""
    tree = written_tree(text)
    trail = _whole_trail(tree, path)
    node = trail[-1].entry[1]
    entries = node.entries or ()
    if node.flow or not entries:
        inside = f"{name}: {{{', '.join(lines)}}}"
        return _read_again(_spliced(text, (entries[-1][1].span[1],) * 2, f", {inside}"), path)
    indent = _indent(text, entries[0][0])
    deeper = _indent_inside(text, node) or indent + INDENT
    block = "".join([f"\n{indent}{name}:", *(f"\n{deeper}{line}" for line in lines)])
    end = _line_end(text, entries[-1][1].span[1])
    space = "\n" if _parted(text, node) else ""
    return _read_again(_spliced(text, (end, end), space + block), path)


def wrapped(text: str, path: Path, word: str, before: str) -> str:
    """The text with what stands at a place put below a word, behind a line before it.

    ``minutes: 8`` before ``questions`` makes ``{minutes: 8, questions: {level: 3}}`` of
    ``{level: 3}``.
    """
    tree = written_tree(text)
    _, node = _whole_trail(tree, path)[-1].entry
    first = node.entries[0][0] if node.entries else node.items[0] if node.items else None
    if node.flow or first is None:
        inside = text[slice(*node.span)]
        return _read_again(_spliced(text, node.span, f"{{{before}, {word}: {inside}}}"), path)
    indent = re.match(" *", _indent(text, first))[0]  # type: ignore[index]
    start, end = _line_start(text, first.span[0]), _line_end(text, node.span[1])
    lines = [f"{INDENT}{line}" if line.strip() else line for line in text[start:end].split("\n")]
    block = "\n".join([f"{indent}{before}", f"{indent}{word}:", *lines])
    return _read_again(_spliced(text, (start, end), block), path)


# Where things stand


@dataclass(frozen=True, slots=True)
class _Step:
    """An entry of a mapping, or an item of a list: which, and of which."""

    parent: Written
    at: int

    @property
    def entry(self) -> tuple[Written, Written]:
        if self.parent.items is not None:
            item = self.parent.items[self.at]
            return item, item
        assert self.parent.entries is not None
        return self.parent.entries[self.at]


def _trail(tree: Written, path: Path) -> list[_Step]:
    """As much of a path as there is."""
    trail: list[_Step] = []
    node = tree
    for word in path:
        at = _at(node, word)
        if at is None:
            break
        trail.append(_Step(node, at))
        node = trail[-1].entry[1]
    return trail


def _whole_trail(tree: Written, path: Path) -> list[_Step]:
    trail = _trail(tree, path)
    if len(trail) < len(path) or not path:
        raise CannotChangeError(path)
    return trail


def _node(text: str, path: Path) -> Written | None:
    tree = written_tree(text)
    trail = _trail(tree, path)
    if len(trail) < len(path):
        return None
    return trail[-1].entry[1] if trail else tree


def _at(node: Written, word: str) -> int | None:
    """Which entry of a mapping a word or name means: one spelt so before one that means it.

    Which item of a list a number means.
    """
    if node.items is not None:
        return int(word) if word.isdigit() and int(word) < len(node.items) else None
    written = [key.text for key, _ in node.entries or ()]
    for same in (lambda text: text == word, lambda text: _means(text, word)):
        for at, text in enumerate(written):
            if same(text):
                return at
    return None


def _means(text: str, word: str) -> bool:
    plain = folded(text)
    return (
        plain == folded(word)
        or word in (CONDITIONS.get(plain), FIELDS.get(plain))
        or plain_name(text) == word
    )


def _line_start(text: str, at: int) -> int:
    return text.rfind("\n", 0, at) + 1


def _line_end(text: str, at: int) -> int:
    end = text.find("\n", at)
    return len(text) if end < 0 else end


def _indent(text: str, key: Written) -> str:
    return text[_line_start(text, key.span[0]) : key.span[0]]


def _indent_inside(text: str, node: Written) -> str | None:
    """The indent of what stands within the entries of a block mapping, where one shows it."""
    for _, value_node in node.entries or ():
        if value_node.entries and not value_node.flow:
            return _indent(text, value_node.entries[0][0])
    return None


def _block(text: str, parent: Written, at: int) -> Span | None:
    """The lines of an entry with the comments right above it; None in a flow mapping."""
    if parent.flow or not parent.entries:
        return None
    key, node = parent.entries[at]
    start = _line_start(text, key.span[0])
    indent = text[start : key.span[0]]
    if indent.strip():
        return None
    while start > 0:
        before = _line_start(text, start - 1)
        if not re.fullmatch(rf"{indent}#.*", text[before : start - 1]):
            break
        start = before
    return start, _line_end(text, node.span[1])


def _parted(text: str, node: Written) -> bool:
    """Whether the entries of a block mapping have empty lines between them."""
    entries = node.entries or ()
    if len(entries) < 2:
        return True
    between = text[entries[-2][1].span[1] : entries[-1][0].span[0]]
    return re.search(r"\n[ ]*\n", between) is not None


# How they are changed


def _spliced(text: str, span: Span, new: str) -> str:
    return text[: span[0]] + new + text[span[1] :]


def _ended(lines: str) -> str:
    return lines.rstrip("\n")


def _replaced(text: str, key: Written, node: Written, value: str) -> str:
    between = text[key.span[1] : node.span[0]]
    if "\n" in between and not between.replace(":", "", 1).strip():
        return _spliced(text, (key.span[1], node.span[1]), f": {value}")
    return _spliced(text, node.span, value)


def _inserted(
    text: str, parent: Written, path: Path, value: str, order: Sequence[str], *, top: bool
) -> str:
    first, *rest = path
    entries = parent.entries
    if entries is None or not entries:
        raise CannotChangeError(path)
    inside = value
    for word in reversed(rest[1:] if top else rest):
        inside = f"{{{word}: {inside}}}"
    if top and rest and len(rest) > 1:
        inside = f"\n{INDENT}{rest[0]}: {inside}"
    elif top and rest:
        inside = f"{{{rest[0]}: {inside}}}"
    behind = _behind(entries, first, order)
    separator = "" if inside.startswith("\n") else " "
    written = f"{first}:{separator}{inside}"
    end = entries[behind][1].span[1]
    if parent.flow:
        return _spliced(text, (end, end), f", {written}")
    end = _line_end(text, end)
    return _spliced(text, (end, end), f"\n{_indent(text, entries[0][0])}{written}")


def _behind(entries: Sequence[tuple[Written, Written]], word: str, order: Sequence[str]) -> int:
    """Behind which entry a word goes."""
    if word not in order:
        return len(entries) - 1
    before = order[: order.index(word)]
    found = [
        at for at, (key, _) in enumerate(entries) if any(_means(key.text, one) for one in before)
    ]
    return max(found, default=len(entries) - 1)


def _without(text: str, parent: Written, at: int) -> str:
    entries = parent.entries or ()
    if not entries:
        raise CannotChangeError(())
    key, node = entries[at]
    block = _block(text, parent, at)
    if block is not None:
        start = _line_start(text, key.span[0])
        return _spliced(text, (start, min(block[1] + 1, len(text))), "")
    if at:
        return _spliced(text, (entries[at - 1][1].span[1], node.span[1]), "")
    end = entries[1][0].span[0] if len(entries) > 1 else node.span[1]
    return _spliced(text, (key.span[0], end), "")


# What it then says


def _data(node: Written) -> Any:
    """What a node says, without where and how."""
    if node.entries is not None:
        return {key.text: _data(value_node) for key, value_node in node.entries}
    if node.items is not None:
        return list(map(_data, node.items))
    return node.text


def _with(data: Any, tree: Written, path: Path, new: Any) -> Any:
    """The same data with another value at a place, or without it."""
    word, *rest = path
    at = _at(tree, word)
    if tree.items is not None:
        if at is None:
            raise CannotChangeError(path)
        if rest:
            new = _with(data[at], tree.items[at], tuple(rest), new)
        return [*data[:at], *([] if new is None else [new]), *data[at + 1 :]]
    entries = dict(data)
    known = word if at is None else (tree.entries or ())[at][0].text
    if not rest:
        if new is None:
            entries.pop(known)
        else:
            entries[known] = new
        return entries
    if at is None:
        inside = new
        for name in reversed(rest):
            inside = {name: inside}
        return entries | {known: inside}
    return entries | {known: _with(data[known], (tree.entries or ())[at][1], tuple(rest), new)}


def _checked(text: str, path: Path, wanted: Any) -> str:
    if _said_by(text, path) != wanted:
        raise CannotChangeError(path)
    return text


def _read_again(text: str, path: Path) -> str:
    _said_by(text, path)
    return text


def _said_by(text: str, path: Path) -> Any:
    try:
        return _data(written_tree(text))
    except ValueError:
        raise CannotChangeError(path) from None
