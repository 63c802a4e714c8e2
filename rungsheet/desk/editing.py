"""A spec's text changed as a teacher's controls ask: one thing changes, all else stays as it is.

Every job takes a text that can be read and gives another that can. What it would make
impossible is Refused, with the reason, and nothing is changed.
"""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from itertools import islice
from typing import Any, Final

from generator.packs.building import another as next_questions
from generator.packs.keeping import as_kept
from generator.packs.working_out import usage_of
from generator.vocabulary import VOCABULARY
from rungsheet.desk import specs
from rungsheet.desk.packs import Edition, choose
from rungsheet.desk.problems import Problem, Refused, refusing
from rungsheet.desk.specs import Spec
from specs import changing, yaml_text
from specs.avoided import Avoided
from specs.canonical import Plain, flow
from specs.changing import Path
from specs.entries import COUNT, RUN
from specs.ladder import FORM, OPERATION, SHOWN_AS, rung_words
from specs.languages.saying import Saying, say
from specs.methods import METHODS
from specs.names import LONGEST_NAME, SECTION_WORDS, is_spelt, name_for, name_in_words, tidy
from specs.pages import PAGES
from specs.problems import Reading, quoted
from specs.reading import LADDER, LESSON, grammar
from specs.sections import LONGEST_SHOWN, PAIRS, QUESTIONS, TIERS, example_words, section_words
from specs.shapes import Field, Fields, Shape, Text, Unread
from specs.spec import (
    EVERY_HABIT,
    EXAMPLES,
    FINDS_OUT,
    PLAIN,
    PRACTICE,
    STARTER,
    Place,
    RungSpec,
    SectionSpec,
    position_of,
)
from specs.spellings import meant
from specs.yaml_text import Node, Scalar

__all__ = [
    "add_rung",
    "another",
    "copy_rung",
    "keep",
    "let_change",
    "move_rung",
    "remove_rung",
    "remove_tier",
    "rename_rung",
    "set_count",
    "set_finding_out",
    "set_frames",
    "set_method",
    "set_minutes",
    "set_operation",
    "set_page",
    "set_section_word",
    "set_title",
    "set_word",
    "value_of",
    "with_operation",
]

_TOP: Final = tuple(grammar(VOCABULARY).fields)
_SECTION: Final = section_words(VOCABULARY).fields
_OF_EXAMPLES: Final = example_words().fields
_PAGES: Final = "pages"
_TITLE: Final = "title"
_MINUTES: Final = "minutes"
_FRAMES: Final = "frames"
_KEEP: Final = "keep"
METHODS_WORD: Final = "methods"
_LETTERS: Final = say(
    "write at most {most} letters, digits and hyphens, a letter first", most=LONGEST_NAME
)
_Change = Callable[[str, Path, str], str]
"""One of the changes of texts, with what is to stand at a place."""

_MOST_TRIED: Final = 5
"""How many questions are tried in a place where a pack may not be able to spare them."""


def set_title(text: str, title: str) -> str:
    """The text with another title."""
    shape = grammar(VOCABULARY).fields[_TITLE].shape
    value = value_of(shape, title, _TITLE, in_quotes=True)
    return _good(_put(_read(text), (_TITLE,), shape.write(value)))


def set_word(text: str, rung: str, word: str, plain: Any) -> str:
    """The text with another value, as plain data, for a word of a rung; None leaves it out."""
    spec = _read(text)
    words = rung_words(_rung(spec, rung).operation, VOCABULARY)
    if word not in words or word == OPERATION:
        raise Refused(Problem("", None, _no_word_of(word, rung)))
    path, shape = (LADDER, rung, word), words[word].shape
    if plain is None or (word == FORM and plain == PLAIN):
        return _good(_without(spec, path))
    value = value_of(shape, plain, word)
    now, then = said_by(_rung(spec, rung)).get(word), shape.plain(value)
    return _good(_turned(spec.text, path, now, then, shape.write(value), tuple(words)))


def set_operation(text: str, rung: str, operation: str) -> str:
    """The text with another operation for a rung, and of its words those that go with it."""
    return with_operation(_read(text), rung, operation).text


def with_operation(spec: Spec, rung: str, operation: str) -> Spec:
    """The spec with another operation for a rung, as ``set_operation`` makes it of the text."""
    known = rung_words(_rung(spec, rung).operation, VOCABULARY)
    path = (LADDER, rung)
    changed = _put(spec, (*path, OPERATION), value_of(_operations(), operation, OPERATION))
    new = rung_words(operation, VOCABULARY)
    kept = []
    for word, plain in said_by(_rung(spec, rung)).items():
        if word in new and _reads(new[word].shape, plain):
            kept.append((*path, word))
        elif word in known:
            changed = _tried(changing.drop, changed, (*path, word))
    try:
        return _read(changed)
    except Refused:
        for place in kept:
            changed = _tried(changing.drop, changed, place)
        return _read(changed)


def add_rung(text: str, name: str, operation: str) -> str:
    """The text with a further rung, last of the ladder, without a condition."""
    spec = _read(text)
    named = _new_name(spec, name)
    line = f"{OPERATION}: {value_of(_operations(), operation, OPERATION)}"
    added = _good(_tried(changing.appended, spec.text, (LADDER,), named, [line]))
    return _spelt(added, named, name)


def copy_rung(text: str, rung: str) -> str:
    """The text with a rung again, behind itself and under a name of its own."""
    spec = _read(text)
    taken = {one.name for one in spec.ladder}
    names = (f"{rung[: LONGEST_NAME - 3]}-{number}" for number in range(2, 100))
    name = next(name for name in names if name not in taken)
    return _good(_tried(changing.copied, spec.text, (LADDER, _rung(spec, rung).name), name))


def move_rung(text: str, rung: str, by: int) -> str:
    """The text with a rung moved before (−1) or behind (+1) its neighbour."""
    spec = _read(text)
    return _good(_tried(changing.moved, spec.text, (LADDER, _rung(spec, rung).name), by))


def remove_rung(text: str, rung: str) -> str:
    """The text without a rung and without the questions that sections take from it."""
    spec = _read(text)
    if len(spec.ladder) == 1 and _rung(spec, rung):
        what = say("a lesson has at least one rung")
        raise Refused(Problem("", None, what, say("change this one")))
    changed = spec.text
    for path in _framed_at(spec, rung):
        alone = len(changing.keys(changed, path[:-1]) or ()) == 1
        changed = _tried(changing.drop, changed, path[:-1] if alone else path)
    for section in reversed(list(_sections_with(spec, rung))):  # no part's number moves
        changed = _counted(_again(changed), section, rung, 0)
    return _good(_tried(changing.drop_whole, changed, (LADDER, rung)))


def rename_rung(text: str, rung: str, name: str) -> str:
    """The text with another name for a rung, wherever it stands.

    Where a name cannot hold how it is spelt, ``Übertrag``, pupils see it spelt so.
    """
    spec = _read(text)
    shown = _rung(spec, rung).shown_as
    has_another = shown and not is_spelt(rung, shown)  # which stays
    if name_for(name) == rung:
        return text if has_another else _spelt(text, rung, name)
    new = _new_name(spec, name)
    changed = spec.text
    for section in _sections_with(spec, rung):
        for change, path in _named_at(changed, _shares(spec, changed, section), rung):
            changed = _tried(change, changed, path, new)
    for path in _framed_at(spec, rung):
        changed = _tried(changing.renamed, changed, path, new)
    renamed = _good(_tried(changing.renamed, changed, (LADDER, rung), new))
    if has_another:
        return renamed
    return _spelt(set_word(renamed, new, SHOWN_AS, None) if shown else renamed, new, name)


def _spelt(text: str, rung: str, name: str) -> str:
    """The text in which pupils see the name of a rung as it is spelt, where the name alone, in
    words, does not say that.
    """
    shown, now = " ".join(name.split()), _rung(_read(text), rung)
    if shown.isascii() and not now.key and name_in_words(shown) == name_in_words(rung):
        return set_word(text, rung, SHOWN_AS, None) if now.shown_as else text
    if (shown.isascii() and not now.seen_as) or len(shown) > LONGEST_NAME:
        return text
    return set_word(text, rung, SHOWN_AS, shown)


def set_count(text: str, section: str, rung: str, count: int) -> str:
    """The text with so many questions of a rung in a section: the starter, the examples (of
    which each is a pair), a tier by its name, or any other section of a lesson. Of a section that
    has none left, nothing stays.
    """
    spec, named = _read(text), section
    if section not in (STARTER, EXAMPLES) and not is_in_parts(spec):
        section = _new_tier(spec, section)
    if count:
        pairs = _place(spec, section).kind == EXAMPLES
        count = value_of(PAIRS if pairs else COUNT, count, _rung(spec, rung).name)
    counted = _good(_counted(spec, section, rung, count))
    if named.isascii() or any(one.name == section for one in spec.sections) or not count:
        return counted
    sheet = heading(spec, replace(_place(spec, section), tier=" ".join(named.split())), None)
    return (
        counted
        if len(sheet) > LONGEST_SHOWN
        else set_section_word(counted, section, SHOWN_AS, sheet)
    )


def remove_tier(text: str, tier: str) -> str:
    """The text without a tier."""
    return _good(_without_tier(_read(text), tier))


def is_in_parts(spec: Spec) -> bool:
    """Whether a spec is written as a list of parts, though the short form may say as much."""
    return changing.value(spec.text, (LESSON,)) is not None


def parts(spec: Spec) -> list[dict[str, Any]]:
    """What a table of the lesson has a column for: its sections, and of the short form those that
    it may have. Each with what pupils call it, its counts, its minutes and whether it
    finds out habits.
    """
    there = {one.name: one for one in spec.sections}
    names = list(there) if is_in_parts(spec) else list(dict.fromkeys((STARTER, EXAMPLES, *there)))
    found = []
    for name in names:
        section, place = there.get(name), _place(spec, name)
        found.append(
            {
                "name": name,
                "heading": heading(spec, place, section),
                "pairs": place.kind == EXAMPLES,
                "tier": bool(place.tier),
                "minutes": section.minutes if section else None,
                "finds_out": bool(section and section.finds_out),
                "shares": [
                    {"rung": share.rung, "count": share.count}
                    for share in (section.shares if section else ())
                ],
            }
        )
    return found


def heading(spec: Spec, place: Place, section: SectionSpec | None) -> str:
    """What pupils call the section of a place, in the language of the pages; None has no questions
    yet.
    """
    from layouts.planning.wording import place_heading

    if section is None:
        return place_heading(place, usage_of(spec.presentation))
    several = section.questions > 1
    usual = place_heading(place, usage_of(spec.presentation), several=several)
    return section.shown_as or usual


def set_minutes(text: str, section: str, minutes: int | None) -> str:
    """The text with so many minutes for the starter or a tier; None says nothing of them."""
    return _with_section_word(text, section, _MINUTES, minutes)


def set_finding_out(text: str, section: str, every_habit: bool) -> str:
    """The text with the questions of the starter or a tier chosen to find out every habit that
    their rungs can show; or chosen as they come.

    Where a part says it for all its tiers and one is not to, the others say it themselves.
    """
    spec = _read(text)
    now = next((one for one in spec.sections if one.name == section), None)
    if now is not None and now.place and now.place.tier and is_in_parts(spec):
        part = spec.parts[spec.part_at(now.place)].asked
        if now.shares_finding and every_habit and part.finds_out == (EVERY_HABIT,):
            return spec.text
        if part.finds_out and not every_habit:
            text = _finding_out_in_others(spec, part, section, now.place)
            if now.shares_finding:
                return _good(text)
    return _with_section_word(text, section, FINDS_OUT, EVERY_HABIT if every_habit else None)


def set_frames(text: str, section: str, frames: Any) -> str:
    """The text with so much set out for the pupil in a section; None says nothing of it."""
    return _with_section_word(text, section, _FRAMES, frames)


def set_section_word(text: str, section: str, word: str, plain: Any) -> str:
    """The text with another value for a word of a section, such as what pupils are told in it;
    None leaves it out.
    """
    return _with_section_word(text, section, word, plain)


def words_of(spec: Spec, section: str) -> Mapping[str, Field]:
    """The words that a section may have beside its questions, as specs define them."""
    return _OF_EXAMPLES if _place(spec, section).kind == EXAMPLES else _SECTION


def section_path(spec: Spec, section: str) -> Path:
    """Where in the text of a spec a section stands."""
    return _section_path(spec, spec.text, section)


def set_method(text: str, section: str, operation: str, method: str | None) -> str:
    """The text with another written method of an operation: of the whole lesson (``section`` ""),
    or of a section. None says nothing of it.
    """
    if not section:
        return _with_word_below(text, METHODS_WORD, METHODS, operation, method)
    spec = _read(text)
    path = (*_section_path(spec, spec.text, section), METHODS_WORD)
    methods = {**plain_said(spec.text, path, METHODS, METHODS_WORD), operation: method}
    in_order = {word: methods[word] for word in METHODS.fields if methods.get(word)}
    return _with_section_word(text, section, METHODS_WORD, in_order or None)


def plain_said(text: str, path: Path, words: Fields[Any], name: str) -> dict[str, Any]:
    """What stands below a word of the text, as plain data; nothing where the word is not there."""
    found = said_at(text, path, words, name)
    return dict(found) if isinstance(found, Mapping) else {}


def said_at(
    text: str, path: Path, shape: Shape[Any], name: str, *, in_quotes: bool = False
) -> Plain | None:
    """What stands at a place of the text, as plain data; None where nothing does."""
    said = changing.said(text, path)
    if said is None:
        return None
    return shape.plain(value_of(shape, said, name, in_quotes=in_quotes))


def _with_section_word(text: str, section: str, word: str, plain: Any) -> str:
    """The text with a value for a word of a section; None leaves the word out."""
    spec = _read(text)
    path = _section_path(spec, spec.text, section)
    in_full = _in_full(spec.text, path)
    if plain is None:
        return _good(_without(spec, (*path, word)) if in_full else spec.text)
    words = words_of(spec, section)
    if word not in words:
        raise Refused(Problem("", None, _no_word_of(word, section)))
    shape = words[word].shape
    value = value_of(shape, plain, word, in_quotes=isinstance(shape, Text))
    then = shape.plain(value)
    said = plain if isinstance(plain, str) else flow(then)
    said = shape.write(value) if isinstance(shape, Text) else said
    if not in_full:
        return _good(_tried(changing.wrapped, spec.text, path, QUESTIONS, f"{word}: {said}"))
    now = said_at(spec.text, (*path, word), shape, word)
    order = tuple(words)[: tuple(words).index(word) + 1]
    return _good(_turned(spec.text, (*path, word), now, then, said, order))


def set_page(text: str, word: str, plain: Any) -> str:
    """The text with another value for a word of ``pages``; None leaves the word out."""
    return _with_word_below(text, _PAGES, PAGES, word, plain)


def _with_word_below(text: str, top: str, words: Fields[Any], word: str, plain: Any) -> str:
    """The text with another value for a word below one of the whole spec; None leaves it out."""
    spec = _read(text)
    path = (top, word)
    if plain is None:
        alone = changing.keys(spec.text, (top,)) or ()
        return _good(_without(spec, path if len(alone) != 1 else (top,)))
    shape = words.fields[word].shape
    then = value_of(shape, plain, word)
    if changing.keys(spec.text, (top,)):
        now = said_at(spec.text, path, shape, word)
        order, written = tuple(words.fields), shape.write(then)
        return _good(_turned(spec.text, path, now, shape.plain(then), written, order))
    return _good(_put(spec, path, shape.write(then)))


def keep(text: str, seed: int, versions: int, section: str, label: str) -> str:
    """The text in which a question of the pack of that seed stays in its place."""
    spec = _read(text)
    for one in choose(spec, Edition(seed, versions)).sections:
        for item in one.items:
            if (one.name, one.version, item.label) == (section, 1, label):
                return _good(_keeping(spec, section, label, as_kept(item.question)))
    what = say("{section} has no question {label}", section=section, label=label)
    raise Refused(Problem("", None, what))


def another(text: str, seed: int, versions: int, section: str, label: str) -> str:
    """The text in which the next question of its rung stays in a question's place.

    Refused when there is none that the pack of that seed could use.
    """
    spec = _read(text)
    with refusing("", spec):
        further = next_questions(spec, seed, versions, section, position_of(label))
        for question in islice(further, _MOST_TRIED):
            changed = _good(_keeping(spec, section, label, as_kept(question)))
            try:
                choose(specs.read(changed), Edition(seed, versions))
            except Refused:
                continue
            return changed
    what = say("its rung has no other question that is not used already")
    raise Refused(Problem("", None, what, say("loosen one of its conditions")))


def let_change(text: str, section: str, label: str) -> str:
    """The text in which a question is drawn with the others again."""
    spec = _read(text)
    rest = [one for one in spec.keep if (one.section, one.label) != (section, label)]
    path: Path = (_KEEP, section, label)
    if not any(one.section == section for one in rest):
        path = (_KEEP, section) if rest else (_KEEP,)
    return _good(_without(spec, path))


def value_of(shape: Shape[Any], plain: Any, name: str, *, in_quotes: bool = False) -> Any:
    """What a shape reads in plain data, such as JSON has. Refused for what it does not take."""
    reading = Reading("").about(name)
    node = Scalar(str(plain), 0, quoted=True) if in_quotes else _node(plain)
    found = shape.read(node, reading)
    if isinstance(found, Unread):
        raise Refused(*(Problem("", None, one.what, one.instead) for one in reading.problems))
    return found


def said_by(rung: RungSpec) -> dict[str, Plain]:
    """What a rung says with each of its words, but for the operation."""
    said = dict(rung.plain)
    del said[OPERATION]
    return said


# How it is done


def _read(text: str) -> Spec:
    return specs.read(text)


def _again(text: str) -> Spec:
    return specs.read(text)


def _good(text: str) -> str:
    """The text, when a lesson can be made of it; Refused if not."""
    specs.read(text)
    return text


def _rung(spec: Spec, name: str) -> RungSpec:
    for rung in spec.ladder:
        if rung.name == name:
            return rung
    raise Refused(Problem("", None, say("the ladder has no rung {rung}", rung=quoted(name))))


def _no_word_of(word: str, of: str) -> Saying:
    return say("{word} is no word of {of}", word=quoted(word), of=quoted(of))


def _tried(change: Any, text: str, path: Path, *given: Any) -> str:
    """What a change makes of a text. Refused where it is written so that none is found."""
    with refusing(""):
        changed: str = change(text, path, *given)
    return changed


def _put(spec: Spec, path: Path, written: str) -> str:
    return _tried(changing.put, spec.text, path, written, _TOP)


def _without(spec: Spec, path: Path) -> str:
    return _tried(changing.drop, spec.text, path)


def _turned(
    text: str, path: Path, now: Plain | None, then: Plain, written: str, order: tuple[str, ...]
) -> str:
    """The text with another value: of one in braces only those words that are others."""
    if not (isinstance(now, Mapping) and isinstance(then, Mapping) and changing.keys(text, path)):
        return _tried(changing.put, text, path, written, order)
    for word, plain in then.items():
        if word not in now or flow(now[word]) != flow(plain):
            inner = (*path, word)
            text = _turned(text, inner, now.get(word), plain, flow(plain), tuple(then))
    for word in now:
        if word not in then:
            text = _tried(changing.drop, text, (*path, word))
    return text


def _node(plain: Any) -> Node:
    match plain:
        case bool():
            return Scalar("true" if plain else "false", 0)
        case dict():
            entries = tuple((Scalar(str(word), 0), _node(of)) for word, of in plain.items())
            return yaml_text.Mapping(entries, 0)
        case list() | tuple():
            return yaml_text.Sequence(tuple(map(_node, plain)), 0)
    return Scalar(str(plain), 0)


def _reads(shape: Shape[Any], plain: Plain) -> bool:
    reading = Reading("")
    return not isinstance(shape.read(_node(plain), reading), Unread)


def _operations() -> Shape[str]:
    from specs.shapes import OneOf

    return OneOf(*VOCABULARY.operations)


def _new_name(spec: Spec, name: str) -> str:
    """A name for a rung, as it is kept. Refused where it is no name, or another rung's."""
    plain = name_for(name)
    if plain is None:
        what = say("{name} cannot be the name of a rung", name=quoted(name))
        raise Refused(Problem("", None, what, _LETTERS))
    if plain in {rung.name for rung in spec.ladder}:
        what = say("{name} is the name of another rung", name=quoted(plain))
        raise Refused(Problem("", None, what, say("choose another name")))
    return plain


def _keeping(spec: Spec, section: str, label: str, question: Avoided) -> str:
    written = f'"{question.text}"'
    path = (_KEEP, section, label)
    return _put(spec, path, written)


# Sections


def _new_tier(spec: Spec, name: str) -> str:
    plain = name_for(name)
    if plain is None:
        what = say("{name} cannot be the name of a tier", name=quoted(name))
        raise Refused(Problem("", None, what, _LETTERS))
    return plain


def _place(spec: Spec, section: str) -> Place:
    """Where in its lesson a section stands; in the short form one may have no questions yet."""
    for one in spec.sections:
        if one.name == section and one.place:
            return one.place
    if is_in_parts(spec):
        what = say("the lesson has no sheet {sheet}", sheet=quoted(section))
        raise Refused(Problem("", None, what, say("write it in the text")))
    return Place(section) if section in (STARTER, EXAMPLES) else Place(PRACTICE, tier=section)


def _section_path(spec: Spec, text: str, section: str) -> Path:
    if not is_in_parts(spec):
        return (section,) if section in (STARTER, EXAMPLES) else (TIERS, section)
    place = _place(spec, section)
    part = (LESSON, str(spec.part_at(place)))
    (kind, *_) = changing.keys(text, part) or (place.kind,)  # as it is spelt
    return (*part, kind, *((TIERS, place.tier) if place.tier else ()))


def _in_full(text: str, path: Path) -> bool:
    """Whether a section has words of its own, and its questions below one of them."""
    return any(meant(key, SECTION_WORDS) for key in changing.keys(text, path) or ())


def _shares(spec: Spec, text: str, section: str) -> Path:
    """Where a section has its questions."""
    path = _section_path(spec, text, section)
    return (*path, QUESTIONS) if _in_full(text, path) else path


def _named_at(text: str, path: Path, rung: str) -> tuple[tuple[_Change, Path], ...]:
    """Where the questions at a place name a rung, each with the change that names another there:
    before a count, in a list, in a run, or beside a question of the teacher's own.
    """
    found = tuple(_names_in(changing.said(text, path), path, rung))
    if not found:
        with refusing(""):
            raise changing.CannotChangeError((*path, rung))
    return found


def _names_in(said: Any, path: Path, rung: str) -> Iterator[tuple[_Change, Path]]:
    match said:
        case str() if _is_name_of(said, rung):
            yield changing.put, path
        case list():
            for at, item in enumerate(said):
                yield from _names_in(item, (*path, str(at)), rung)
        case {"run": list(in_turn)}:
            yield from _names_in(in_turn, (*path, RUN), rung)
        case {"rung": str(named), **beside} if beside and not named.isdigit():
            yield from _names_in(named, (*path, "rung"), rung)
        case dict():
            keys = (key for key in said if _is_name_of(key, rung))
            yield from ((changing.renamed, (*path, key)) for key in keys)


def _is_name_of(written: str, rung: str) -> bool:
    return tidy(Scalar(written, 0)).text == rung


def _sections_with(spec: Spec, rung: str) -> Iterator[str]:
    """The sections that take questions from a rung."""
    for section in spec.sections:
        if any(share.rung == rung for share in section.shares):
            yield section.name


def _framed_at(spec: Spec, rung: str) -> tuple[Path, ...]:
    """Where frames are asked for by the name of a rung."""
    found: dict[Path, None] = {}
    for section in spec.sections:
        path = _section_path(spec, spec.text, section.name)
        for at in (path, path[:-2]):  # a tier's own, and those of its part
            frames = (*at, _FRAMES)
            named = changing.keys(spec.text, frames) or ()
            if rung in {tidy(Scalar(key, 0)).text for key in named}:
                found[(*frames, rung)] = None
    return tuple(found)


def _taken(spec: Spec, section: str) -> dict[str, int]:
    """How many questions a section takes from each rung."""
    taken: dict[str, int] = {}
    for one in spec.sections:
        for share in one.shares if one.name == section else ():
            taken[share.rung] = taken.get(share.rung, 0) + share.count
    return taken


def _without_tier(spec: Spec, tier: str) -> str:
    if is_in_parts(spec):
        return _without_section(spec, tier)
    alone = [one.name for one in spec.tiers] == [tier]
    return _tried(changing.drop_whole, spec.text, (TIERS,) if alone else (TIERS, tier))


def _without_section(spec: Spec, section: str) -> str:
    """The text without a section of a lesson: one of several tiers, or the whole part."""
    place = _place(spec, section)
    at = spec.part_at(place)
    if len(spec.parts[at].asked.tiers) > 1:
        return _tried(changing.drop_whole, spec.text, _section_path(spec, spec.text, section))
    return _tried(changing.without_item, spec.text, (LESSON,), at)


def _finding_out_in_others(spec: Spec, part: SectionSpec, tier: str, place: Place) -> str:
    """The text in which a part's other tiers say themselves what they find out, and it does not."""
    said = flow(part.finds_out[0] if len(part.finds_out) == 1 else part.finds_out)
    text = spec.text
    for one in spec.sections:
        if one.shares_finding and one.name != tier and one.place and one.place.part == place.part:
            path = _section_path(spec, text, one.name)
            text = _with_word(text, path, FINDS_OUT, said)
    *above, _, _ = _section_path(spec, text, tier)
    return _tried(changing.drop, text, (*above, FINDS_OUT))


def _with_word(text: str, path: Path, word: str, said: str) -> str:
    """The text with a word of the section at a place; nobody has looked at it yet."""
    if _in_full(text, path):
        order = tuple(_SECTION)[: tuple(_SECTION).index(word) + 1]
        return _tried(changing.put, text, (*path, word), said, order)
    return _tried(changing.wrapped, text, path, QUESTIONS, f"{word}: {said}")


def _counted(spec: Spec, section: str, rung: str, count: int) -> str:
    """The text with so many questions of a rung in a section; nobody has looked at it yet."""
    text, now = spec.text, _taken(spec, section)
    shares = (share for one in spec.sections if one.name == section for share in one.shares)
    if any(share.question or share.run for share in shares):
        what = say("{section} has a run, or a question of your own", section=section)
        raise Refused(Problem("", None, what, say("change them in the text of the lesson")))
    if now.get(rung, 0) == count:
        return text
    if not count and len(now) == 1:
        if section in (STARTER, EXAMPLES) and not is_in_parts(spec):
            return _tried(changing.drop_whole, text, (section,))
        return _without_tier(spec, section)
    path = _shares(spec, text, section)
    if now and changing.items(text, path) is not None:
        pairs = _place(spec, section).kind == EXAMPLES
        return (_pairs if pairs else _in_turn)(text, path, now, rung, count)
    if not count:
        return _tried(changing.drop, text, (*path, rung))
    names = tuple(one.name for one in spec.ladder)
    if now:
        return _tried(changing.put, text, (*path, rung), str(count), names)
    if section == EXAMPLES:
        return _put(spec, path, f"[{rung}]" if count == 1 else f"{{{rung}: {count}}}")
    return _put(spec, (*path, rung), str(count))


def _pairs(text: str, path: Path, now: dict[str, int], rung: str, count: int) -> str:
    """The text with so many pairs of a rung, where the examples are a list of rungs."""
    if count == 0:
        ((_, (*_, at)),) = _named_at(text, path, rung)
        return _tried(changing.without_item, text, path, int(at))
    if count == 1:
        return _tried(changing.with_item, text, path, rung)
    pairs = now | {rung: count}
    return _tried(changing.put, text, path, flow(pairs))


def _in_turn(text: str, path: Path, now: dict[str, int], rung: str, count: int) -> str:
    """The text with so many questions of a rung, where they are a list of rungs with counts."""
    if rung not in now:
        return _tried(changing.with_item, text, path, f"{{{rung}: {count}}}")
    found = [place for _, place in _named_at(text, path, rung)]
    if count:
        *others, last = found
        if others:  # which of them is to change is not said
            with refusing(""):
                raise changing.CannotChangeError(last)
        return _tried(changing.put, text, last, str(count))
    for *item, key in reversed(found):  # no item's number moves
        alone = len(changing.keys(text, tuple(item)) or ()) == 1
        if alone:
            text = _tried(changing.without_item, text, path, int(item[-1]))
        else:
            text = _tried(changing.drop, text, (*item, key))
    return text
