"""The sections of a pack: how many questions from each rung."""

from collections.abc import Collection
from dataclasses import replace
from typing import Final

from specs.ladder import MOST_RUNGS
from specs.names import SECTION_NAMES, SECTION_WORDS, read_name
from specs.problems import Reading, choose_from, listed, quoted
from specs.shapes import Either, Fields, Fieldset, OneOf, Unread, WholeNumber, refuse_key
from specs.shapes.phrases import SetOfPhrases
from specs.spec import FRAMES as FRAME_WORDS
from specs.spec import PLAIN, TELLS_APART, RungSpec, SectionSpec, Share
from specs.words import Vocabulary
from specs.yaml_text import Mapping, Node, Scalar, Sequence

MOST_QUESTIONS: Final = 60
"""The most questions in a section; an example pair is two."""

COUNT: Final = WholeNumber(1, 40)
"""Questions from one rung."""

MOST_TIERS: Final = 12

PAIRS: Final = WholeNumber(1, 6)
"""Example pairs from one rung."""

MINUTES: Final = WholeNumber(1, 120)

_FRAME: Final = OneOf(*FRAME_WORDS)
FRAMES: Final = Either(_FRAME, Fields({"from": _FRAME, "to": _FRAME}))
"""How much is set out for the pupil: the same for all questions, or fading over the section."""

Rungs = dict[str, RungSpec | None]
"""The ladder as far as it could be read: None for a rung that could not be."""

_COUNTS_INSTEAD: Final = "write rungs with a count each, such as {name-of-rung: 3}"


def read_section(
    key: Scalar, node: Node, rungs: Rungs, vocabulary: Vocabulary, reading: Reading
) -> SectionSpec:
    """The starter or a tier: rungs with counts, or ``questions`` beside the section's own words."""
    minutes, frames, apart, counts = None, None, None, node
    words = {word.text for word, _ in node.entries} if isinstance(node, Mapping) else set()
    if isinstance(node, Mapping) and words & set(SECTION_WORDS):
        inside = reading.about(key.text)
        for word, value in node.entries:
            if word.text == "minutes":
                read = MINUTES.read(value, inside.about("minutes"))
                minutes = None if isinstance(read, Unread) else read
            elif word.text == "frames":
                frames = _frames(value, inside.about("frames"))
            elif word.text == TELLS_APART:
                named = told_apart(vocabulary).read(value, inside.about(TELLS_APART))
                apart = None if isinstance(named, Unread) else (word, value, named)
            elif word.text == "questions":
                counts = value
            elif word.text in rungs:
                own = listed(map(quoted, SECTION_WORDS))
                what = f"the rung {quoted(word.text)} stands beside {own}"
                inside.problem(word.line, what, "indent it below 'questions:'")
            else:
                refuse_key(word, SECTION_WORDS, inside)
        if "questions" not in words:
            what = f"{quoted(key.text)} has no 'questions'"
            reading.problem(key.line, what, f"below 'questions:' {_COUNTS_INSTEAD}")
            return SectionSpec(key.text, (), minutes, frames, key.line)
    shares = _read_counts(key, counts, COUNT, rungs, reading)
    _check_size(key, sum(share.count for share in shares), reading)
    section = SectionSpec(key.text, shares, minutes, frames, key.line)
    if apart is None:
        return section
    at, listing, mistakes = apart
    _check_mistakes(key, listing, mistakes, [rungs[s.rung] for s in shares], vocabulary, reading)
    return replace(section, tells_apart=mistakes, tells_apart_line=at.line)


def told_apart(vocabulary: Vocabulary) -> SetOfPhrases:
    """The mistakes that a section may name: those that its rungs may, of any operation."""
    return SetOfPhrases(*_operations_of_mistakes(vocabulary))


def _operations_of_mistakes(vocabulary: Vocabulary) -> dict[str, frozenset[str]]:
    """The mistakes that rungs may name, in canonical order, each with its operations."""
    found: dict[str, frozenset[str]] = {}
    for word in vocabulary.rows(TELLS_APART):
        for mistake in word.shape.words:
            found[mistake] = found.get(mistake, frozenset()) | word.operations
    return found


def _check_mistakes(
    key: Scalar,
    node: Node,
    mistakes: tuple[str, ...],
    rungs: list[RungSpec | None],
    vocabulary: Vocabulary,
    reading: Reading,
) -> None:
    """Each mistake goes with some rung of the section on which it would show in an answer."""
    known = [rung for rung in rungs if rung is not None]
    if len(known) < len(rungs) or not known:
        return  # reported already
    operations = _operations_of_mistakes(vocabulary)
    plain = SetOfPhrases(*mistakes)
    for item in node.items if isinstance(node, Sequence) else (node,):
        read = plain.read(item, reading)
        assert not isinstance(read, Unread)  # it was read as one of them before
        (mistake,) = read
        concerned = [rung for rung in known if rung.operation in operations[mistake]]
        if any(rung.form == PLAIN for rung in concerned):
            continue
        what = f"{quoted(mistake)} in {quoted(TELLS_APART)} goes with no rung of {quoted(key.text)}"
        belongs = listed([name for name in vocabulary.operations if name in operations[mistake]])
        if concerned:
            asked = listed(dict.fromkeys(rung.form for rung in concerned))
            what += f": with 'form: {asked}' no answer shows it"
            instead = f"leave it out, or take questions from a plain rung of {belongs}"
        else:
            instead = f"it goes with {belongs}; leave it out or take questions from such a rung"
        reading.problem(item.line, what, instead)


def _frames(node: Node, reading: Reading) -> tuple[str, str] | None:
    """The frames of the first and the last question; an end left out is the far one."""
    value = FRAMES.read(node, reading)
    if isinstance(value, Unread):
        return None
    if isinstance(value, Fieldset):
        return value.get("from", FRAME_WORDS[0]), value.get("to", FRAME_WORDS[-1])
    return value, value


def read_tiers(
    key: Scalar, node: Node, rungs: Rungs, vocabulary: Vocabulary, reading: Reading
) -> tuple[SectionSpec, ...]:
    """The tiers of practice, in the order written."""
    if not isinstance(node, Mapping) or not node.entries:
        what = f"{quoted(key.text)} has no tier in it"
        reading.problem(node.line, what, "write tiers such as 'support: {name-of-rung: 3}'")
        return ()
    if len(node.entries) > MOST_TIERS:
        extra = node.entries[MOST_TIERS][0]
        what = f"{quoted(key.text)} has {len(node.entries)} tiers"
        reading.problem(extra.line, what, f"keep to {MOST_TIERS}")
    tiers = []
    for name, value in node.entries[:MOST_TIERS]:
        read_name(name, "a tier", SECTION_NAMES, reading)
        tiers.append(read_section(name, value, rungs, vocabulary, reading))
    return tuple(tiers)


def read_examples(
    key: Scalar, node: Node, rungs: Collection[str], reading: Reading
) -> tuple[Share, ...]:
    """The rungs that are shown as matched pairs, and how many pairs of each."""
    if isinstance(node, Sequence) and node.items:
        shares = _read_pairs(key, node, rungs, reading)
    elif isinstance(node, Mapping):
        shares = _read_counts(key, node, PAIRS, rungs, reading)
    else:
        what = f"{quoted(key.text)} names no rung"
        reading.problem(node.line, what, "write a list of rungs, such as [name-of-rung]")
        return ()
    _check_size(key, 2 * sum(share.count for share in shares), reading)
    return shares


def _read_pairs(
    key: Scalar, node: Sequence, rungs: Collection[str], reading: Reading
) -> tuple[Share, ...]:
    shares: dict[str, Share] = {}
    for item in node.items:
        if not isinstance(item, Scalar):
            what = f"{quoted(key.text)} lists something that is not the name of a rung"
            reading.problem(item.line, what, "write names, or {name-of-rung: 2} for two pairs")
        elif item.text in shares:
            what = f"{quoted(key.text)} names {quoted(item.text)} twice"
            instead = f"name it once, or write {{{item.text}: 2}} for two pairs"
            reading.problem(item.line, what, instead)
        elif _is_rung(item, rungs, reading):
            shares[item.text] = Share(item.text, 1, item.line)
    return tuple(shares.values())


def _read_counts(
    key: Scalar, node: Node, count: WholeNumber, rungs: Collection[str], reading: Reading
) -> tuple[Share, ...]:
    if not isinstance(node, Mapping) or not node.entries:
        reading.problem(node.line, f"{quoted(key.text)} has no questions", _COUNTS_INSTEAD)
        return ()
    shares = []
    for name, value in node.entries:
        known = _is_rung(name, rungs, reading)
        read = count.read(value, reading.about(key.text).about(name.text))
        if known and not isinstance(read, Unread):
            shares.append(Share(name.text, read, name.line))
    return tuple(shares)


def _is_rung(name: Scalar, rungs: Collection[str], reading: Reading) -> bool:
    if name.text in rungs:
        return True
    if rungs:  # An empty ladder has been reported already.
        instead = choose_from(name.text, tuple(rungs)[:MOST_RUNGS])
        reading.problem(name.line, f"the ladder has no rung {quoted(name.text)}", instead)
    return False


def _check_size(key: Scalar, questions: int, reading: Reading) -> None:
    if questions > MOST_QUESTIONS:
        what = f"{quoted(key.text)} has {questions} questions"
        reading.problem(key.line, what, f"keep to {MOST_QUESTIONS} in a section")
