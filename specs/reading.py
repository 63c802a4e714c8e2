"""A whole spec from its file: every problem gathered, or one frozen value."""

import os
from pathlib import Path, PurePath
from typing import Final, TypeVar

from specs.avoided import AVOID
from specs.ladder import OPERATION, read_ladder
from specs.pages import PAGES, check_sheets, presentation
from specs.problems import Problem, Reading, SpecError, near_word, quoted
from specs.sections import read_examples, read_section, read_tiers
from specs.shapes import (
    Fieldset,
    OneOf,
    Shape,
    Text,
    Unread,
    refuse_key,
)
from specs.shipped import shipped_names
from specs.spec import EXAMPLES, STARTER, RungSpec, Spec
from specs.words import Vocabulary
from specs.yaml_text import LARGEST, Mapping, Node, Scalar, read_tree, with_one_line_end

T = TypeVar("T")

TIERS: Final = "tiers"
TOP_WORDS: Final = ("title", "ladder", STARTER, EXAMPLES, TIERS, "matching", "pages", "avoid")

TITLE: Final = Text(80)
MATCHING: Final = OneOf("signature", "rung")


def load_spec(path: str | os.PathLike[str], vocabulary: Vocabulary) -> Spec:
    """The spec in a file. Raises SpecError, with every problem, when it cannot be used."""
    source = os.fspath(path)
    try:
        with open(source, "rb") as file:
            data = file.read(LARGEST + 1)
    except FileNotFoundError:
        near = _near_file(Path(source))
        instead = f"did you mean {quoted(near)}?" if near else "check its name and folder"
        raise _unreadable(source, "there is no such file", instead) from None
    except (OSError, ValueError) as error:
        if Path(source).is_dir():
            raise _unreadable(source, "this is a folder", "name a file in it") from None
        reason = error.strerror if isinstance(error, OSError) else None
        what = f"the file cannot be opened ({(reason or 'bad name').lower()})"
        raise _unreadable(source, what, "check its name and who may read it") from None
    return read_spec(data, source, vocabulary)


def read_spec(data: bytes, source: str, vocabulary: Vocabulary) -> Spec:
    """The spec in a file's bytes; ``source`` is the file's name, for messages.

    Raises SpecError, with every problem in line order, when the spec cannot be used.
    """
    reading = Reading(source)
    tree = read_tree(data, reading)
    text = with_one_line_end(data.decode("utf-8-sig", errors="replace"))
    spec = _read_top(tree, source, text, vocabulary, reading) if tree is not None else None
    if spec is None or reading.problems:
        raise SpecError(reading.problems)
    return spec


def _near_file(path: Path) -> str | None:
    """A spec in the folder named, or one that ships, whose name is like that of no file."""
    try:
        beside = sorted(p for p in path.parent.iterdir() if p.suffix in (".yaml", ".yml"))
    except (OSError, ValueError):
        return None
    near = near_word(path.stem, [*shipped_names(), *(p.stem for p in beside)])
    return next((str(p) for p in beside if p.stem == near), near)


def _unreadable(source: str, what: str, instead: str) -> SpecError:
    return SpecError([Problem(source, 1, what, instead)])


def _read_top(
    tree: Mapping, source: str, text: str, vocabulary: Vocabulary, reading: Reading
) -> Spec | None:
    parts: dict[str, tuple[Scalar, Node]] = {}
    beside: list[str] = []
    for key, node in tree.entries:
        if key.text in TOP_WORDS:
            parts[key.text] = (key, node)
        elif isinstance(node, Mapping) and OPERATION in {word.text for word, _ in node.entries}:
            what = f"the rung {quoted(key.text)} stands beside the ladder, not in it"
            reading.problem(key.line, what, "indent it and what belongs to it below 'ladder:'")
            beside.append(key.text)
        else:
            refuse_key(key, TOP_WORDS, reading)
    for required in ("title", "ladder"):
        if required not in parts:
            what = f"the spec has no {quoted(required)}"
            reading.problem(tree.line, what, f"add a line that begins '{required}:'")
    if not parts.keys() & {STARTER, EXAMPLES, TIERS}:
        what = "the spec asks for no questions"
        reading.problem(tree.line, what, f"add '{STARTER}:', '{EXAMPLES}:' or '{TIERS}:'")

    rungs: dict[str, RungSpec | None] = dict.fromkeys(beside)
    if "ladder" in parts and not (beside and isinstance(parts["ladder"][1], Scalar)):
        rungs |= read_ladder(parts["ladder"][1], vocabulary, reading)
    starter = (
        read_section(*parts[STARTER], rungs, vocabulary, reading) if STARTER in parts else None
    )
    examples = read_examples(*parts[EXAMPLES], rungs, reading) if EXAMPLES in parts else ()
    tiers = read_tiers(*parts[TIERS], rungs, vocabulary, reading) if TIERS in parts else ()
    title = _read_part("title", TITLE, "", parts, reading)
    matching = _read_part("matching", MATCHING, "signature", parts, reading)
    pages = _read_part("pages", PAGES, Fieldset({}), parts, reading)
    avoid = _read_part("avoid", AVOID, (), parts, reading)
    if "pages" in parts:
        sheets = [section.name for section in (*([starter] if starter else []), *tiers)]
        check_sheets(parts["pages"][1], sheets, reading)
    if reading.problems:
        return None
    return Spec(
        name=PurePath(source).stem or "spec",
        title=title,
        ladder=tuple(rung for rung in rungs.values() if rung is not None),
        starter=starter,
        examples=examples,
        tiers=tiers,
        matching=matching,
        presentation=presentation(pages),
        avoid=avoid,
        source=source,
        text=text,
        title_line=parts["title"][0].line,
    )


def _read_part(
    name: str,
    shape: Shape[T],
    default: T,
    parts: dict[str, tuple[Scalar, Node]],
    reading: Reading,
) -> T:
    if name not in parts:
        return default
    value = shape.read(parts[name][1], reading.about(name))
    return default if isinstance(value, Unread) else value
