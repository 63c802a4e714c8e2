"""A whole spec from its file: every problem gathered, or one frozen value."""

from collections.abc import Iterator
from dataclasses import replace
from pathlib import PurePath
from typing import Any, Final

from specs.avoided import AVOID
from specs.earlier import EARLIER, NO_OTHERS, OtherLadders
from specs.entries import MOST_RUNGS
from specs.kept import KEPT, check_kept
from specs.ladder import OPERATION, Ladder, Rungs
from specs.lands import land
from specs.languages.saying import say
from specs.lesson import Lesson, check_own_names
from specs.methods import IN_COLUMNS, METHODS, check_one_method
from specs.other_ladders import Beside, other_ladders
from specs.own_contexts import CONTEXTS, SENTENCES, with_own
from specs.pages import PAGES, VERSIONS, check_names, check_sheets
from specs.problems import Reading, SpecError, listed, quoted
from specs.sections import TIERS, Section, Tiers
from specs.shapes import Defined, Field, Fields, OneOf, Text
from specs.spec import (
    EXAMPLES,
    PRACTICE,
    STARTER,
    Methods,
    Part,
    Presentation,
    RungSpec,
    SectionSpec,
    Spec,
)
from specs.spellings import NOTHING_ELSE, respelt
from specs.words import Vocabulary
from specs.yaml_text import Mapping, Node, Scalar, read_tree, with_one_line_end

LADDER: Final = "ladder"
LESSON: Final = "lesson"
SHORT: Final = (STARTER, EXAMPLES, TIERS)
SECTIONS: Final = (*SHORT, LESSON)


def grammar(
    vocabulary: Vocabulary, rungs: Rungs | None = None, earlier: OtherLadders = NO_OTHERS
) -> Fields[Spec]:
    """Every word of a spec, what it may be and what it means.

    ``rungs`` is the ladder, as far as it could be read, where names must be on it; ``earlier``
    are those of earlier specs.
    """
    section = Defined.of("section", Section(vocabulary, rungs, earlier=earlier))
    return Fields(
        _spec,
        {
            "title": Field(Text(80), say("The heading of every sheet.")),
            LADDER: Field(
                Ladder(vocabulary),
                say("The rungs, easiest first: a name, then its operation and conditions."),
            ),
            STARTER: Field(section, say("The questions that open the lesson.")),
            EXAMPLES: Field(
                Defined.of("examples", Section(vocabulary, rungs, pairs=True)),
                say("Rungs shown as a worked question and its match; a number means more pairs."),
            ),
            TIERS: Field(
                Tiers(section), say("Sheets of practice, each under the name of its tier.")
            ),
            LESSON: Field(
                Lesson(vocabulary, rungs, earlier),
                say(
                    "The parts of the lesson in order, as often as wanted: starter, examples, "
                    "practice, exit and homework; starter, examples and tiers are its short form."
                ),
            ),
            "versions": Field(
                VERSIONS,
                say(
                    "In how many versions, none sharing a question, practice sheets come; or by "
                    "sheet, such as {{support: 8, core: 14}}. It goes before the number asked for "
                    "when the pack is built."
                ),
            ),
            "matching": Field(
                OneOf("signature", "rung"), say("How closely the versions of a question match.")
            ),
            "pages": Field(PAGES, say("How the pages look.")),
            "methods": Field(
                Defined.of("methods", METHODS), say("The written method of each operation.")
            ),
            CONTEXTS: Field(
                SENTENCES,
                say(
                    "Sentences of your own, each under its name, or the name of a .yaml file "
                    "beside the spec that has them."
                ),
            ),
            "avoid": Field(
                AVOID,
                say(
                    "Questions that the pack must not ask, such as those of an earlier "
                    "one: 3.4 + 0.27; compare 0.5, 0.50; order 0.4, 0.35; round 3.47 to 1."
                ),
            ),
            "keep": Field(
                KEPT,
                say(
                    "Questions that stay where they are whatever the seed, by section and letter, "
                    "such as {{core: {{c: '3.4 + 0.27'}}}}; of examples the first of a pair."
                ),
            ),
        },
        required=("title", LADDER),
    )


def _spec(
    starter: SectionSpec | None = None,
    examples: SectionSpec | None = None,
    tiers: tuple[SectionSpec, ...] = (),
    lesson: tuple[Part, ...] = (),
    pages: Presentation | None = None,
    methods: Methods | None = None,
    **words: Any,
) -> Spec:
    """The spec, its lesson one list of parts however it is written."""
    short = (
        (STARTER, starter),
        (EXAMPLES, examples),
        (PRACTICE, SectionSpec(PRACTICE, (), tiers=tiers) if tiers else None),
    )
    parts = [Part(kind, replace(asked, name=kind)) for kind, asked in short if asked]
    usual = {"name": "spec", "title": "", "ladder": ()}
    shown = _as_the_land_has_it(pages or Presentation(), methods or Methods())
    return Spec(**usual | words, parts=(*parts, *lesson), presentation=shown)


def _as_the_land_has_it(pages: Presentation, methods: Methods) -> Presentation:
    """How pages look, with None for whatever is stated just as the land has it anyway."""
    its = land(pages.land)
    return replace(
        pages,
        carries=_unless(its.carries, pages.carries),
        subtraction=_unless(its.subtraction, pages.subtraction),
        methods=replace(
            methods,
            multiply=_unless(IN_COLUMNS, methods.multiply),
            divide=_unless(its.division, methods.divide),
        ),
    )


def _unless(usual: str, stated: str | None) -> str | None:
    return None if stated == usual else stated


def read_spec(
    data: bytes, source: str, vocabulary: Vocabulary, beside: Beside | None = None
) -> Spec:
    """The spec in a file's bytes; ``source`` is the file's name, for messages.

    ``beside`` gives the files that lie beside it, None where there are none to be read. What is
    taken from them is in the spec, and not in its text.

    Raises SpecError, with every problem in line order, when the spec cannot be used.
    """
    reading = Reading(source)
    tree = read_tree(data, reading)
    text = with_one_line_end(data.decode("utf-8-sig", errors="replace"))
    if tree is None:
        raise SpecError(reading.problems)
    broken = reading.problems.copy()
    spec = _read_top(tree, source, text, vocabulary, reading, beside)
    if reading.mended:
        more = reading.problems[len(broken) :]
        told = [p for p in more if p.file != source or p.line not in reading.mended]
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


def _read_top(
    tree: Mapping,
    source: str,
    text: str,
    vocabulary: Vocabulary,
    reading: Reading,
    beside_it: Beside | None,
) -> Spec:
    """The spec, without what could not be read of it."""
    words = grammar(vocabulary)
    tree = respelt(tree, words.fields, NOTHING_ELSE, reading)
    beside = [entry for entry in tree.entries if _is_rung(entry, words)]
    for key, _ in beside:
        what = say("the rung {rung} stands beside the ladder, not in it", rung=quoted(key.text))
        instead = say("indent it and what belongs to it below 'ladder:'")
        reading.problem(key.line, what, instead)
    rest = tuple(entry for entry in tree.entries if entry not in beside)
    written = {key.text: node for key, node in rest}
    for required in words.required:
        if required not in written:
            what = say("the spec has no {word}", word=quoted(required))
            instead = say("add a line that begins '{word}:'", word=required)
            reading.missed(required, tree.line, what, instead)
    if not written.keys() & set(SECTIONS) and not reading.lost:
        what = say("the spec asks for no questions")
        instead = say("add {words}", words=listed([quoted(f"{word}:") for word in SECTIONS]))
        reading.problem(tree.line, what, instead)
    if LESSON in written:
        for key, _ in rest:
            if key.text in SHORT:
                what = say(
                    "{word} stands beside 'lesson', which has every part in order",
                    word=quoted(key.text),
                )
                kind = PRACTICE if key.text == TIERS else key.text
                reading.problem(key.line, what, say("make it a part of it, '- {kind}:'", kind=kind))

    rungs: Rungs = {key.text: None for key, _ in beside}
    ladder = written.get(LADDER)
    if ladder is not None and not (beside and isinstance(ladder, Scalar)):
        rungs |= Ladder(vocabulary).read_each(ladder, reading)
    others = Mapping(tuple(entry for entry in rest if entry[0].text != LADDER), tree.line)
    earlier = other_ladders(others, rungs, beside_it, vocabulary, reading)
    words = grammar(vocabulary, rungs, earlier)
    given = words.read_each(others, reading, required=False)
    lines = {key.text: key.line for key, _ in rest}
    for word in (STARTER, EXAMPLES):
        if word in given:
            given[word] = replace(given[word], line=lines[word])
    found = (rung for rung in rungs.values() if rung is not None)
    own = given.get(CONTEXTS, None if CONTEXTS in written else ())
    sections = words.made(given | {LADDER: ()}).sections
    whole = (*_taken(sections, earlier), *found)
    if len(whole) > MOST_RUNGS >= len(rungs):
        what = say(
            "the ladder has {count} rungs with those of {word}",
            count=len(whole),
            word=quoted(EARLIER),
        )
        reading.problem(whole[0].line, what, say("keep to {most}", most=MOST_RUNGS))
    given[LADDER] = tuple(with_own(whole, own, reading))
    check_own_names(sections, reading)
    if all(word in given for word in SECTIONS if word in written):
        sheets = [one.name for one in sections if one.place and one.place.kind != EXAMPLES]
        if "pages" in written:
            check_sheets(written["pages"], sheets, reading)
        if "versions" in written:
            check_names(quoted("versions"), written["versions"], sheets, reading)
    if "methods" in given and "pages" in given:
        line = next(key.line for key, _ in rest if key.text == "methods")
        check_one_method(given["methods"], given["pages"], line, reading)
    if "keep" in given and not reading.problems:
        check_kept(given["keep"], sections, reading)
    title_line = next((key.line for key, _ in rest if key.text == "title"), tree.line)
    return replace(
        words.made(given),
        name=PurePath(source).stem or "spec",
        source=source,
        text=text,
        title_line=title_line,
    )


def _taken(sections: tuple[SectionSpec, ...], earlier: OtherLadders) -> Iterator[RungSpec]:
    """The rungs of earlier specs that sections ask, each on the line where it is asked."""
    lines = {share.rung: share.line for one in reversed(sections) for share in one.shares}
    for ladder in earlier.values():
        yield from (replace(r, line=lines[r.name]) for r in ladder.values() if r.name in lines)


def _is_rung(entry: tuple[Scalar, Node], words: Fields[Spec]) -> bool:
    """Whether an entry of the whole is a rung that stands beside the ladder."""
    key, node = entry
    if key.text in words.fields or not isinstance(node, Mapping):
        return False
    return OPERATION in {word.text for word, _ in node.entries}
