"""The ladder: each rung's operation and conditions."""

from dataclasses import dataclass, replace
from typing import Any, Final

from specs.canonical import InOrder, Plain
from specs.contexts import KINDS, templates
from specs.entries import MOST_RUNGS
from specs.languages.saying import Saying, joined, say
from specs.missing import DIGIT_FORM, MISSING, MISSING_SAYS, Gap
from specs.names import OF_A_RUNG, SECTION_WORDS, read_name, tidied, tidy, with_umlauts
from specs.problems import Reading, choose_from, listed, near_word, quoted, write
from specs.sections import SHOWN
from specs.shapes import UNREAD, Either, Field, Notation, OneOf, SetOf, Shape, Unread
from specs.spec import PLAIN, Condition, RungSpec
from specs.spellings import CONDITIONS, NOTHING_ELSE, OPERATIONS, meant, respelt
from specs.words import Vocabulary, Word
from specs.yaml_text import Mapping, Node, Scalar

OPERATION: Final = "operation"
FORM: Final = "form"
CONTEXT: Final = "context"
GAP: Final = "missing"
SHOWN_AS: Final = "shown_as"
BESIDE: Final = (FORM, CONTEXT, GAP, SHOWN_AS)
"""Words that go with every operation, or with many, and are no conditions."""


def rung_words(operation: str, vocabulary: Vocabulary) -> dict[str, Field]:
    """What a rung of an operation may say, each word with what it may be and what it means."""
    does = say("What the questions of the rung do.")
    left_out = vocabulary.leaves_out.get(operation)
    if left_out:
        does = joined((does, say("Never asked: {these}.", these=left_out)))
    words = {OPERATION: Field(OneOf(operation), does)}
    forms = vocabulary.forms_of(operation)
    if len(forms) > 1:
        names = OneOf(*(form.name for form in forms))
        said = say(
            "How the questions are asked: {forms}.", forms=listed(form.listed for form in forms)
        )
        words[FORM] = Field(names, said)
    if DIGIT_FORM in {form.name for form in forms}:
        words[GAP] = Field(MISSING, MISSING_SAYS)
    kinds = _kinds_of(operation)
    if kinds:
        said = say(
            "Puts the questions in words, about {kinds} or any of them; own takes the sentences "
            "below 'contexts' alone, the others those too.",
            kinds=listed(kinds),
        )
        words[CONTEXT] = Field(Either(OneOf("any"), SetOf(*kinds, "own")), said)
    words[SHOWN_AS] = SHOWN
    return words | {word.name: Field(word.shape, word.says) for word in vocabulary.of(operation)}


def _kinds_of(operation: str) -> tuple[str, ...]:
    """What the questions of an operation may be about when they are put in words."""
    found = {template.kind for template in templates() if template.operation == operation}
    return tuple(kind for kind in KINDS if kind in found)


Rungs = dict[str, RungSpec | None]


@dataclass(frozen=True)
class Ladder(Shape[tuple[RungSpec, ...]]):
    """Rungs by the names that the teacher gives them."""

    vocabulary: Vocabulary
    notations = frozenset({Notation.FIELDS})

    @property
    def says(self) -> Saying:
        """``a name, a colon and …``."""
        return say("a name, a colon and, indented below it, 'operation: add'")

    def read(self, node: Node, reading: Reading) -> tuple[RungSpec, ...] | Unread:
        """The rungs in the order written."""
        rungs = tuple(self.read_each(node, reading).values())
        known = tuple(rung for rung in rungs if rung is not None)
        return known if known and len(known) == len(rungs) else UNREAD

    def read_each(self, node: Node, reading: Reading) -> Rungs:
        """The rungs by name, in the order written; None for a rung that could not be read."""
        if not isinstance(node, Mapping) or not node.entries:
            reading.empty(node.line, say("the ladder has no rungs"), write(self.says))
            return {}
        if len(node.entries) > MOST_RUNGS:
            extra = node.entries[MOST_RUNGS][0]
            what = say("the ladder has {count} rungs", count=len(node.entries))
            reading.problem(extra.line, what, say("keep to {most}", most=MOST_RUNGS))
        rungs: Rungs = {}
        spellings = {tidy(key).text: with_umlauts(key.text) for key, _ in node.entries}
        node = tidied(node, reading)
        beside = _beside_their_rung(node, self.vocabulary, reading)
        for key, value in node.entries:
            if key in beside:
                rungs[key.text] = None
                continue
            well_named = read_name(key, OF_A_RUNG, SECTION_WORDS, reading)
            rung = _read_rung(key, value, self.vocabulary, reading)
            if rung is not None:
                rung = replace(rung, key=spellings[key.text])
            rungs[key.text] = rung if well_named else None
        return rungs

    def plain(self, value: tuple[RungSpec, ...]) -> Plain:
        """``{level: {operation: add, places: 2}}``."""
        return InOrder(tuple((rung.name, rung.plain) for rung in value))

    def holds(self, value: object) -> bool:
        """Some rungs."""
        return (
            isinstance(value, tuple)
            and bool(value)
            and all(isinstance(rung, RungSpec) for rung in value)
        )

    def schema(self) -> dict[str, Any]:
        """An object whose properties are named by the teacher, a rung each."""
        operations = self.vocabulary.operations
        return {
            "type": "object",
            "minProperties": 1,
            "maxProperties": MOST_RUNGS,
            "propertyNames": {"$ref": "#/$defs/rung-name"},
            "additionalProperties": {
                "type": "object",
                "properties": {OPERATION: OneOf(*operations).schema()},
                "required": [OPERATION],
                "allOf": [
                    {
                        "if": {"properties": {OPERATION: {"const": operation}}},
                        "then": {"$ref": f"#/$defs/rung-{operation}"},
                    }
                    for operation in operations
                ],
            },
        }


def rung_schema(operation: str, vocabulary: Vocabulary) -> dict[str, Any]:
    """A rung of an operation, each word with what it means."""
    properties = {
        word: of.shape.schema() | {"description": of.says}
        for word, of in rung_words(operation, vocabulary).items()
    }
    properties[OPERATION] = {
        "const": operation,
        "description": properties[OPERATION]["description"],
    }
    if FORM in properties:
        properties[FORM] |= {"default": PLAIN}
    return {"type": "object", "properties": properties, "additionalProperties": False}


def _beside_their_rung(
    node: Mapping, vocabulary: Vocabulary, reading: Reading
) -> frozenset[Scalar]:
    """Rungs left empty, and the words that were meant to be in them and are not indented."""
    words = {OPERATION, *BESIDE, *(word.name for word in vocabulary.words)}
    found: set[Scalar] = set()
    empty: Scalar | None = None
    for key, value in node.entries:
        if isinstance(value, Scalar) and not value.text:
            empty = key
        elif key.text not in words:
            empty = None
        elif empty is not None:
            if empty not in found:
                what = say(
                    "{word} stands beside the rung {rung}, not in it",
                    word=quoted(key.text),
                    rung=quoted(empty.text),
                )
                instead = say(
                    "indent it below '{word}:', and the lines that go with it", word=empty.text
                )
                reading.problem(key.line, what, instead)
            found |= {empty, key}
    return frozenset(found)


def _read_rung(
    key: Scalar, node: Node, vocabulary: Vocabulary, reading: Reading
) -> RungSpec | None:
    if not isinstance(node, Mapping) or not node.entries:
        reading.empty(
            key.line,
            say("the rung {rung} has nothing in it", rung=quoted(key.text)),
            say("indented below it, write {words}", words=_for(vocabulary.operations[0])),
        )
        return None
    before = len(reading.problems)
    node = respelt(node, (OPERATION,), NOTHING_ELSE, reading)
    operation = _read_operation(key, node, vocabulary, reading)
    known = rung_words(operation, vocabulary) if operation else {}
    node = respelt(node, known, CONDITIONS, reading)
    found: dict[Word[Any], Condition] = {}
    form, context, gap, shown_as = PLAIN, None, None, ""
    for word_key, value_node in node.entries:
        about = reading.about(word_key.text, word_key.line)
        if word_key.text == OPERATION:
            continue
        if word_key.text == SHOWN_AS:
            shown = SHOWN.shape.read(value_node, about)
            shown_as = "" if isinstance(shown, Unread) else shown
            continue
        if word_key.text in BESIDE:
            if operation is None or _goes_elsewhere(
                word_key, value_node, operation, vocabulary, reading
            ):
                continue
            asked = known.get(word_key.text)
            if asked is None:  # plain, which goes with all
                continue
            read = asked.shape.read(value_node, about)
            if isinstance(read, Unread):
                continue
            if word_key.text == FORM:
                form = read
            elif word_key.text == GAP:
                gap = (word_key, read)
            else:
                context = (word_key, read)
            continue
        word = _word_for(word_key, operation, vocabulary, reading)
        if word is None:
            continue
        value = word.shape.read(value_node, about)
        if not isinstance(value, Unread):
            found[word] = word.condition(value, word_key.line)
    if operation is None or len(reading.problems) > before:
        return None
    conditions = tuple(found[word] for word in vocabulary.of(operation) if word in found)
    rung = RungSpec(key.text, operation, conditions, key.line, form, shown_as=shown_as)
    if gap is not None:
        rung = _with_a_gap(rung, *gap, reading)
    if context is not None:
        rung = _put_in_words(rung, *context, reading)
    for check in vocabulary.checks:
        for line, what, instead in check(rung):
            reading.problem(line, what, instead)
    return rung


def _for(operation: str) -> str:
    """How a rung says its operation: ``'operation: add'``."""
    return _stated(OPERATION, operation)


def _stated(word: str, value: str) -> str:
    """How the file has a word with its value: ``'form: missing number'``."""
    return f"'{word}: {value}'"


def _goes_elsewhere(
    key: Scalar, node: Node, operation: str, vocabulary: Vocabulary, reading: Reading
) -> bool:
    """Whether a form, or a context, is one of other operations only; reports that."""
    if key.text == CONTEXT:
        said, having = f"'{CONTEXT}'", [o for o in vocabulary.operations if _kinds_of(o)]
    elif key.text == GAP:
        said, having = f"'{GAP}'", list(vocabulary.operations_with(DIGIT_FORM))
    else:
        names = [known.name for known in vocabulary.forms]
        form = meant(node.text, names) if isinstance(node, Scalar) else None
        if form is None:
            having = [o for o in vocabulary.operations if len(vocabulary.forms_of(o)) > 1]
            said = f"'{FORM}'"
        else:
            having, said = list(vocabulary.operations_with(form)), f"'{FORM}: {form}'"
    if operation in having:
        return False
    what = say("{word} is not for {operation}", word=said, operation=_for(operation))
    belongs = listed(having, "and")
    instead = say("it goes with {operations}; leave it out", operations=belongs)
    reading.problem(key.line, what, instead)
    return True


def _with_a_gap(rung: RungSpec, key: Scalar, gap: Gap, reading: Reading) -> RungSpec:
    """The rung whose questions lack that, asked as goes with it."""
    if rung.form not in (PLAIN, gap.form):
        what = say(
            "{word} does not go with {other}",
            word=_stated(FORM, rung.form),
            other=_stated(GAP, MISSING.write(gap)),
        )
        reading.problem(key.line, what, say("leave {word} out: it follows", word=quoted(FORM)))
    return replace(rung, form=gap.form, missing=gap)


def _put_in_words(rung: RungSpec, key: Scalar, kinds: object, reading: Reading) -> RungSpec:
    """The rung with the templates of its kinds of context."""
    chosen = kinds if isinstance(kinds, tuple) else KINDS
    if rung.form != PLAIN:
        what = say(
            "a rung cannot have both {word} and {other}",
            word=quoted(CONTEXT),
            other=_stated(FORM, rung.form),
        )
        reading.problem(key.line, what, say("keep one of them, or make two rungs of it"))
    found = tuple(
        template
        for template in templates()
        if template.operation == rung.operation and template.kind in chosen
    )
    return replace(rung, context=chosen, templates=found)


def _read_operation(
    key: Scalar, node: Mapping, vocabulary: Vocabulary, reading: Reading
) -> str | None:
    choices = vocabulary.operations
    for word, value in node.entries:
        if word.text != OPERATION:
            continue
        said = meant(value.text, choices, OPERATIONS) if isinstance(value, Scalar) else None
        if said is not None:
            return said
        written = value.text if isinstance(value, Scalar) else ""
        what = say("'operation' cannot be left open")
        if written:
            what = say(
                "{subject} cannot be {value}", subject=quoted(OPERATION), value=quoted(written)
            )
        reading.problem(value.line, what, choose_from(written, choices))
        return None
    nearest = near_word(OPERATION, [word.text for word, _ in node.entries])
    if nearest is None or vocabulary.rows(nearest):
        what = say("the rung {rung} has no operation", rung=quoted(key.text))
        instead = say("add 'operation: {operations}'", operations=listed(choices))
        reading.missed(OPERATION, key.line, what, instead)
    return None


def _word_for(
    key: Scalar, operation: str | None, vocabulary: Vocabulary, reading: Reading
) -> Word[Any] | None:
    """The word as the operation knows it; without an operation, the word if it has one meaning."""
    rows = vocabulary.rows(key.text)
    if operation is None:
        if rows:
            return rows[0] if len(rows) == 1 else None
        known = (OPERATION, *dict.fromkeys(w.name for w in vocabulary.words), *BESIDE)
    else:
        word = vocabulary.word(operation, key.text)
        if word is not None:
            return word
        if rows:
            belongs = listed(vocabulary.operations_of(key.text), "and")
            reading.problem(
                key.line,
                say(
                    "{word} is not a word of {operation}",
                    word=quoted(key.text),
                    operation=_for(operation),
                ),
                say(
                    "it goes with {operations}; leave it out or change the operation",
                    operations=belongs,
                ),
            )
            return None
        beside = (word for word in BESIDE if word in rung_words(operation, vocabulary))
        known = (OPERATION, *(word.name for word in vocabulary.of(operation)), *beside)
        if near_word(key.text, known) is None:
            names = [word.name for word in vocabulary.words]
            elsewhere = meant(key.text, names, CONDITIONS) or near_word(key.text, names)
            if elsewhere:
                belongs = listed(vocabulary.operations_of(elsewhere), "and")
                instead = say(
                    "{word} goes with {operations}", word=quoted(elsewhere), operations=belongs
                )
                reading.problem(key.line, _unknown(key), instead)
                return None
    reading.problem(key.line, _unknown(key), choose_from(key.text, known))
    return None


def _unknown(key: Scalar) -> Saying:
    return say("{word} is not a word that a rung knows", word=quoted(key.text))
