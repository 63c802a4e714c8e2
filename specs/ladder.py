"""The ladder: each rung's operation and conditions."""

from dataclasses import replace
from typing import Final

from specs.contexts import KINDS, templates
from specs.names import SECTION_WORDS, read_name
from specs.problems import Reading, choose_from, listed, near_word, quoted
from specs.shapes import Either, OneOf, SetOf, Unread
from specs.spec import PLAIN, Condition, RungSpec
from specs.words import Vocabulary, Word
from specs.yaml_text import Mapping, Node, Scalar

OPERATION: Final = "operation"
FORM: Final = "form"
CONTEXT: Final = "context"
CONTEXT_SHAPE: Final = Either(OneOf("any"), SetOf(*KINDS))
"""What any rung may say beside its conditions: what its questions are about."""
MOST_RUNGS: Final = 60


def read_ladder(node: Node, vocabulary: Vocabulary, reading: Reading) -> dict[str, RungSpec | None]:
    """The rungs by name, in the order written; None for a rung that could not be read."""
    if not isinstance(node, Mapping) or not node.entries:
        reading.problem(
            node.line,
            "the ladder has no rungs",
            "write a name, a colon and, indented below it, 'operation: add'",
        )
        return {}
    if len(node.entries) > MOST_RUNGS:
        extra = node.entries[MOST_RUNGS][0]
        what = f"the ladder has {len(node.entries)} rungs"
        reading.problem(extra.line, what, f"keep to {MOST_RUNGS}")
    rungs: dict[str, RungSpec | None] = {}
    beside = _beside_their_rung(node, vocabulary, reading)
    for key, value in node.entries:
        if key in beside:
            rungs[key.text] = None
            continue
        well_named = read_name(key, "a rung", SECTION_WORDS, reading)
        rung = _read_rung(key, value, vocabulary, reading)
        rungs[key.text] = rung if well_named else None
    return rungs


def _beside_their_rung(
    node: Mapping, vocabulary: Vocabulary, reading: Reading
) -> frozenset[Scalar]:
    """Rungs left empty, and the words that were meant to be in them and are not indented."""
    words = {OPERATION, FORM, CONTEXT, *(word.name for word in vocabulary.words)}
    found: set[Scalar] = set()
    empty: Scalar | None = None
    for key, value in node.entries:
        if isinstance(value, Scalar) and not value.text:
            empty = key
        elif key.text not in words:
            empty = None
        elif empty is not None:
            if empty not in found:
                what = f"{quoted(key.text)} stands beside the rung {quoted(empty.text)}, not in it"
                instead = f"indent it below '{empty.text}:', and the lines that go with it"
                reading.problem(key.line, what, instead)
            found |= {empty, key}
    return frozenset(found)


def _read_rung(
    key: Scalar, node: Node, vocabulary: Vocabulary, reading: Reading
) -> RungSpec | None:
    if not isinstance(node, Mapping) or not node.entries:
        reading.problem(
            key.line,
            f"the rung {quoted(key.text)} has nothing in it",
            f"indented below it, write 'operation: {vocabulary.operations[0]}'",
        )
        return None
    before = len(reading.problems)
    operation = _read_operation(key, node, vocabulary, reading)
    found: dict[Word, Condition] = {}
    form, context = PLAIN, None
    for word_key, value_node in node.entries:
        if word_key.text == OPERATION:
            continue
        if word_key.text == FORM:
            read = vocabulary.form_shape.read(value_node, reading.about(FORM))
            form = PLAIN if isinstance(read, Unread) else read
            continue
        if word_key.text == CONTEXT:
            kinds = CONTEXT_SHAPE.read(value_node, reading.about(CONTEXT))
            context = None if isinstance(kinds, Unread) else (word_key, kinds)
            continue
        word = _word_for(word_key, operation, vocabulary, reading)
        if word is None:
            continue
        value = word.shape.read(value_node, reading.about(word.name))
        if not isinstance(value, Unread):
            text = f"{word.name}: {word.shape.write(value)}"
            found[word] = Condition(word.name, value, text, word_key.line)
    if operation is None or len(reading.problems) > before:
        return None
    conditions = tuple(found[word] for word in vocabulary.of(operation) if word in found)
    rung = RungSpec(key.text, operation, conditions, key.line, form)
    if context is not None:
        rung = _put_in_words(rung, *context, reading)
    for check in vocabulary.checks:
        for line, what, instead in check(rung):
            reading.problem(line, what, instead)
    return rung


def _put_in_words(rung: RungSpec, key: Scalar, kinds: object, reading: Reading) -> RungSpec:
    """The rung with the templates of its kinds of context, of which there must be some."""
    chosen = kinds if isinstance(kinds, tuple) else KINDS
    if rung.form != PLAIN:
        what = f"a rung cannot have both 'context' and '{FORM}: {rung.form}'"
        reading.problem(key.line, what, "keep one of them, or make two rungs of it")
    found = tuple(
        template
        for template in templates()
        if template.operation == rung.operation and template.kind in chosen
    )
    if not found:
        having = sorted({template.operation for template in templates()})
        what = f"no context has words for '{OPERATION}: {rung.operation}'"
        reading.problem(
            key.line, what, f"leave 'context' out; it goes with {listed(having, 'and')}"
        )
    return replace(rung, context=chosen, templates=found)


def _read_operation(
    key: Scalar, node: Mapping, vocabulary: Vocabulary, reading: Reading
) -> str | None:
    choices = vocabulary.operations
    for word, value in node.entries:
        if word.text != OPERATION:
            continue
        if isinstance(value, Scalar) and value.text in choices:
            return value.text
        written = value.text if isinstance(value, Scalar) else ""
        shown = quoted(written) if written else "left open"
        reading.problem(value.line, f"'operation' cannot be {shown}", choose_from(written, choices))
        return None
    nearest = near_word(OPERATION, [word.text for word, _ in node.entries])
    what = f"the rung {quoted(key.text)} has no operation"
    if nearest is None or vocabulary.rows(nearest):
        reading.problem(key.line, what, f"add 'operation: {listed(choices)}'")
    return None


def _word_for(
    key: Scalar, operation: str | None, vocabulary: Vocabulary, reading: Reading
) -> Word | None:
    """The word as the operation knows it; without an operation, the word if it has one meaning."""
    rows = vocabulary.rows(key.text)
    if operation is None:
        if rows:
            return rows[0] if len(rows) == 1 else None
        known = (OPERATION, *dict.fromkeys(w.name for w in vocabulary.words), FORM, CONTEXT)
    else:
        word = vocabulary.word(operation, key.text)
        if word is not None:
            return word
        if rows:
            belongs = listed(vocabulary.operations_of(key.text), "and")
            reading.problem(
                key.line,
                f"{quoted(key.text)} is not a word of '{OPERATION}: {operation}'",
                f"it goes with {belongs}; leave it out or change the operation",
            )
            return None
        known = (OPERATION, *(word.name for word in vocabulary.of(operation)), FORM, CONTEXT)
        if near_word(key.text, known) is None:
            elsewhere = near_word(key.text, [word.name for word in vocabulary.words])
            if elsewhere:
                belongs = listed(vocabulary.operations_of(elsewhere), "and")
                reading.problem(
                    key.line,
                    f"{quoted(key.text)} is not a word that a rung knows",
                    f"{quoted(elsewhere)} goes with {belongs}",
                )
                return None
    reading.problem(
        key.line,
        f"{quoted(key.text)} is not a word that a rung knows",
        choose_from(key.text, known),
    )
    return None
