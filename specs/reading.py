"""A whole spec from its file: every problem gathered, or one frozen value."""

import os
from dataclasses import replace
from pathlib import Path, PurePath
from typing import Any, Final

from specs.avoided import AVOID
from specs.kept import KEPT, check_kept
from specs.ladder import OPERATION, Ladder, Rungs
from specs.methods import METHODS, check_one_method
from specs.names import tidy
from specs.own_contexts import CONTEXTS, SENTENCES, joined, with_own
from specs.pages import PAGES, check_sheets
from specs.problems import Problem, Reading, SpecError, near_word, quoted
from specs.sections import Examples, Section, Tiers
from specs.shapes import Defined, Field, Fields, OneOf, Text
from specs.shipped import shipped_names
from specs.spec import EXAMPLES, STARTER, Methods, Presentation, Spec
from specs.spellings import NOTHING_ELSE, respelt
from specs.words import Vocabulary
from specs.yaml_text import LARGEST, Mapping, Node, Scalar, read_tree, with_one_line_end

LADDER: Final = "ladder"
TIERS: Final = "tiers"
SECTIONS: Final = (STARTER, EXAMPLES, TIERS)


def grammar(vocabulary: Vocabulary, rungs: Rungs | None = None) -> Fields[Spec]:
    """Every word of a spec, what it may be and what it means.

    ``rungs`` is the ladder, as far as it could be read, where names must be on it.
    """
    section = Defined.of("section", Section(vocabulary, rungs))
    return Fields(
        _spec,
        {
            "title": Field(Text(80), "The heading of every sheet."),
            LADDER: Field(
                Ladder(vocabulary),
                "The rungs, easiest first: a name, then its operation and conditions.",
            ),
            STARTER: Field(section, "The questions that open the lesson."),
            EXAMPLES: Field(
                Examples(rungs),
                "Rungs shown as a worked question and its match; a number means more pairs.",
            ),
            TIERS: Field(Tiers(section), "Sheets of practice, each under the name of its tier."),
            "matching": Field(
                OneOf("signature", "rung"), "How closely the versions of a question match."
            ),
            "pages": Field(PAGES, "How the pages look."),
            "methods": Field(METHODS, "The written method of each operation."),
            CONTEXTS: Field(
                SENTENCES,
                "Sentences of your own, each under its name, or the name of a .yaml file beside "
                "the spec that has them.",
            ),
            "avoid": Field(
                AVOID,
                "Questions that the pack must not ask, such as those of an earlier "
                "one: 3.4 + 0.27; compare 0.5, 0.50; order 0.4, 0.35; round 3.47 to 1.",
            ),
            "keep": Field(
                KEPT,
                "Questions that stay where they are whatever the seed, by section and letter, "
                "such as {core: {c: '3.4 + 0.27'}}; of examples the first of a pair.",
            ),
        },
        required=("title", LADDER),
    )


def _spec(pages: Presentation | None = None, methods: Methods | None = None, **words: Any) -> Spec:
    shown = replace(pages or Presentation(), methods=methods or Methods())
    return Spec(**{"name": "spec", "title": "", "ladder": ()} | words, presentation=shown)


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
        if os.path.isdir(source):
            raise _unreadable(source, "this is a folder", "name a file in it") from None
        reason = error.strerror if isinstance(error, OSError) else None
        what = f"the file cannot be opened ({(reason or 'bad name').lower()})"
        raise _unreadable(source, what, "check its name and who may read it") from None
    whole = joined(data, Path(source))
    if isinstance(whole, Problem):
        raise SpecError([whole])
    try:
        return read_spec(whole.data, source, vocabulary)
    except SpecError as error:
        raise SpecError(list(map(whole.placed, error.problems)), error.so_far) from None


def read_spec(data: bytes, source: str, vocabulary: Vocabulary) -> Spec:
    """The spec in a file's bytes; ``source`` is the file's name, for messages.

    Raises SpecError, with every problem in line order, when the spec cannot be used.
    """
    reading = Reading(source)
    tree = read_tree(data, reading)
    text = with_one_line_end(data.decode("utf-8-sig", errors="replace"))
    if tree is None:
        raise SpecError(reading.problems)
    broken = reading.problems.copy()
    spec = _read_top(tree, source, text, vocabulary, reading)
    if reading.mended:
        more = reading.problems[len(broken) :]
        told = [problem for problem in more if problem.line not in reading.mended]
        raise SpecError(broken + told, _without_mended_rungs(spec, reading))
    if reading.problems:
        raise SpecError(reading.problems, spec)
    return spec


def _without_mended_rungs(spec: Spec, reading: Reading) -> Spec:
    """The spec without the rungs of which a line was broken: they may have said something else."""
    lines = [rung.line for rung in spec.ladder]
    whole = [
        rung
        for rung, end in zip(spec.ladder, [*lines[1:], len(spec.text) + 1], strict=False)
        if not any(rung.line <= line < end for line in reading.mended)
    ]
    return replace(spec, ladder=tuple(whole))


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
) -> Spec:
    """The spec, without what could not be read of it."""
    words = grammar(vocabulary)
    tree = respelt(tree, words.fields, NOTHING_ELSE, reading)
    beside = [entry for entry in tree.entries if _is_rung(entry, words)]
    for key, _ in beside:
        what = f"the rung {quoted(key.text)} stands beside the ladder, not in it"
        reading.problem(key.line, what, "indent it and what belongs to it below 'ladder:'")
    rest = tuple(entry for entry in tree.entries if entry not in beside)
    written = {key.text: node for key, node in rest}
    for required in words.required:
        if required not in written:
            what = f"the spec has no {quoted(required)}"
            instead = f"add a line that begins '{required}:'"
            reading.missed(required, tree.line, what, instead)
    if not written.keys() & set(SECTIONS) and not reading.lost:
        what = "the spec asks for no questions"
        reading.problem(tree.line, what, f"add '{STARTER}:', '{EXAMPLES}:' or '{TIERS}:'")

    rungs: Rungs = {key.text: None for key, _ in beside}
    ladder = written.get(LADDER)
    if ladder is not None and not (beside and isinstance(ladder, Scalar)):
        rungs |= Ladder(vocabulary).read_each(ladder, reading)
    others = Mapping(tuple(entry for entry in rest if entry[0].text != LADDER), tree.line)
    words = grammar(vocabulary, rungs)
    given = words.read_each(others, reading, required=False)
    if "pages" in written:
        check_sheets(written["pages"], _sheets(written), reading)
    if "methods" in given and "pages" in given:
        line = next(key.line for key, _ in rest if key.text == "methods")
        check_one_method(given["methods"], given["pages"], line, reading)
    if "keep" in given and not reading.problems:
        check_kept(given["keep"], _sizes(given), EXAMPLES, reading)
    if STARTER in given:
        (at,) = (key.line for key, _ in rest if key.text == STARTER)
        given[STARTER] = replace(given[STARTER], name=STARTER, line=at)
    found = (rung for rung in rungs.values() if rung is not None)
    own = given.get(CONTEXTS, None if CONTEXTS in written else ())
    given[LADDER] = tuple(with_own(found, own, reading))
    title_line = next((key.line for key, _ in rest if key.text == "title"), tree.line)
    return replace(
        words.made(given),
        name=PurePath(source).stem or "spec",
        source=source,
        text=text,
        title_line=title_line,
    )


def _sizes(given: dict[str, Any]) -> dict[str, int]:
    """How many questions each section has, as far as they could be read."""
    sections = {tier.name: tier.shares for tier in given.get(TIERS, ())}
    if STARTER in given:
        sections[STARTER] = given[STARTER].shares
    sizes = {name: sum(share.count for share in shares) for name, shares in sections.items()}
    if EXAMPLES in given:
        sizes[EXAMPLES] = 2 * sum(share.count for share in given[EXAMPLES])
    return sizes


def _is_rung(entry: tuple[Scalar, Node], words: Fields[Spec]) -> bool:
    """Whether an entry of the whole is a rung that stands beside the ladder."""
    key, node = entry
    if key.text in words.fields or not isinstance(node, Mapping):
        return False
    return OPERATION in {word.text for word, _ in node.entries}


def _sheets(written: dict[str, Node]) -> list[str]:
    """The sections that have a sheet, as far as their names go."""
    tiers = written.get(TIERS)
    named = [tidy(key).text for key, _ in tiers.entries] if isinstance(tiers, Mapping) else []
    return [STARTER, *named] if STARTER in written else named
