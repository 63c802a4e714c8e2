"""The sections of a pack: how many questions from each rung."""

from collections.abc import Collection
from dataclasses import dataclass, field, replace
from typing import Any, Final

from specs import yaml_text
from specs.canonical import InOrder, Plain, flow
from specs.earlier import EARLIER, NO_OTHERS, SAYS, EarlierCounts, OtherLadders
from specs.entries import (
    COUNT,
    RUN,
    Entry,
    Rungs,
    entries_of,
    has_more_than_counts,
    is_rung,
    numbered,
    with_colons,
)
from specs.languages.saying import Saying, say
from specs.methods import METHODS
from specs.names import (
    OF_A_TIER,
    PATTERN,
    RESERVED_BY_WINDOWS,
    SECTION_NAMES,
    SECTION_WORDS,
    read_name,
    tidied,
    tidy,
)
from specs.problems import Reading, listed, quoted, write
from specs.shapes import (
    UNREAD,
    Defined,
    Either,
    Field,
    Fields,
    Made,
    Notation,
    OneOf,
    Shape,
    Text,
    Unread,
    WholeNumber,
)
from specs.shapes.phrases import SetOfPhrases
from specs.spec import (
    AT_ONCE,
    EVERY_HABIT,
    EXAMPLES,
    FINDS_OUT,
    IN_STEPS,
    PLAIN,
    TELLS_APART,
    Frames,
    FramesByRung,
    SectionSpec,
    Share,
)
from specs.spec import FRAMES as FRAME_WORDS
from specs.spellings import NOTHING_ELSE, folded, respelt
from specs.words import Vocabulary
from specs.yaml_text import Node, Scalar, Sequence

MOST_QUESTIONS: Final = 60
"""The most questions in a section; an example pair is two."""

MOST_TIERS: Final = 12

PAIRS: Final = WholeNumber(1, 6)
"""Example pairs from one rung."""

QUESTIONS: Final = "questions"
TIERS: Final = "tiers"

LONGEST_LINE: Final = 90
"""Of instructions, and of an objective: two lines on a sheet."""
LONGEST_SHOWN: Final = 40
SHOWN: Final = Field(
    Text(LONGEST_SHOWN),
    say('The name that pupils see, so that a sheet need not say what it is for: "Sheet A".'),
)


def name_schema(taken: tuple[str, ...]) -> dict[str, Any]:
    """A name that a teacher gives, as a fragment of JSON Schema."""
    return {"pattern": PATTERN, "not": {"enum": [*RESERVED_BY_WINDOWS, *taken]}}


@dataclass(frozen=True)
class Counts(Shape[tuple[Share, ...]]):
    """Rungs of a ladder with a count each: ``{level: 3, ragged: 2}``.

    ``rungs`` is the ladder, where it is known; ``each`` what one of the count comes to in
    questions. All together are no more than a section holds.
    """

    count: WholeNumber
    rungs: Collection[str] | None = None
    each: int = 1
    notations = frozenset({Notation.FIELDS})

    @property
    def says(self) -> Saying:
        """``rungs with a count each``."""
        return say("rungs with a count each, such as {{name-of-rung: 3}}")

    def read(self, node: Node, reading: Reading) -> tuple[Share, ...] | Unread:
        """So many questions from each rung, in the order written."""
        if not isinstance(node, yaml_text.Mapping) or not node.entries:
            what = say("{subject} has no questions", subject=reading.subject)
            reading.empty(node.line, what, write(self.says))
            return UNREAD
        apart = with_colons(node, self.rungs, reading)
        shares, good = [], len(apart.entries) == len(node.entries)
        for name, value in tidied(apart, reading).entries:
            known = is_rung(name, self.rungs, reading)
            read = self.count.read(value, reading.about(name.text, name.line))
            good = good and known and not isinstance(read, Unread)
            if not isinstance(read, Unread):
                shares.append(Share(name.text, read, name.line))
        return tuple(shares) if fits(shares, self.each, node, reading) and good else UNREAD

    def plain(self, value: tuple[Share, ...]) -> Plain:
        """``{level: 3}``."""
        return InOrder(tuple((share.rung, share.count) for share in value))

    def holds(self, value: object) -> bool:
        """Some shares."""
        return (
            isinstance(value, tuple)
            and bool(value)
            and all(isinstance(share, Share) for share in value)
            and not has_more_than_counts(value)
        )

    def schema(self) -> dict[str, Any]:
        """An object whose properties are names of rungs."""
        return {
            "description": "Rungs, and how many questions from each.",
            "type": "object",
            "minProperties": 1,
            "propertyNames": {"$ref": "#/$defs/rung-name"},
            "additionalProperties": self.count.schema(),
        }


@dataclass(frozen=True)
class InTurn(Shape[tuple[Share, ...]]):
    """Rungs with a count each and runs, in turn: ``[{level: 3}, {run: [level, ragged], …}]``."""

    rungs: Collection[str] | None = None
    notations = frozenset({Notation.LIST})

    @property
    def says(self) -> Saying:
        """``a list …``."""
        return say(
            "a list such as [{{name-of-rung: 3}}, {{run: [one-rung, another], keep: first number}}]"
        )

    def read(self, node: Node, reading: Reading) -> tuple[Share, ...] | Unread:
        """So many questions from each rung, and one from each rung of a run, in order."""
        if not isinstance(node, Sequence) or not node.items:
            return self.refuse(node, reading)
        shares: list[Share] = []
        good = True
        for item in node.items:
            entries = item.entries if isinstance(item, yaml_text.Mapping) else ()
            run = any(key.text == RUN for key, _ in entries)
            shape = Entry(self.rungs, own=False) if run else Counts(COUNT, self.rungs)
            read = shape.read(item, reading)
            good = good and not isinstance(read, Unread)
            shares.extend(() if isinstance(read, Unread) else read)
        return numbered(shares) if fits(shares, 1, node, reading) and good else UNREAD

    def plain(self, value: tuple[Share, ...]) -> Plain:
        """``[{level: 3}, {run: [level, ragged], keep: first number}]``."""
        return tuple(
            Entry().plain(entry) if entry[0].run else Counts(COUNT).plain(entry)
            for entry in entries_of(value)
        )

    def holds(self, value: object) -> bool:
        """Some shares, of which some are a run's."""
        return has_more_than_counts(value)

    def schema(self) -> dict[str, Any]:
        """An array of objects."""
        entry = {"anyOf": [Counts(COUNT).schema(), Entry(own=False).schema()]}
        return {"type": "array", "items": entry, "minItems": 1}


class CountsOrRuns(Either[tuple[Share, ...]]):
    """Rungs with a count each, or a list of them and of runs."""

    @property
    def says(self) -> Saying:
        """As the counts say."""
        return self.shapes[0].says

    def read(self, node: Node, reading: Reading) -> tuple[Share, ...] | Unread:
        """A list in turn; all else as counts."""
        in_turn = isinstance(node, Sequence) and bool(node.items)
        read: tuple[Share, ...] | Unread = self.shapes[in_turn].read(node, reading)
        return read


@dataclass(frozen=True)
class ListOfPairs(Shape[tuple[Share, ...]]):
    """Rungs each shown as one matched pair: ``[level, {rung: ragged, question: 3.46 + 0.2}]``."""

    rungs: Collection[str] | None = None
    notations = frozenset({Notation.LIST})

    @property
    def says(self) -> Saying:
        """``a list of rungs``."""
        return say("a list of rungs, such as [name-of-rung]")

    def read(self, node: Node, reading: Reading) -> tuple[Share, ...] | Unread:
        """One of each rung, in the order written."""
        if not isinstance(node, Sequence) or not node.items:
            return self.refuse(node, reading)
        shares: list[Share] = []
        named: set[str] = set()
        good = True
        for written in node.items:
            known = False
            item = tidy(written) if isinstance(written, Scalar) else written
            if isinstance(item, yaml_text.Mapping):
                read = Entry(self.rungs).read(item, reading)
                known = not isinstance(read, Unread)
                shares.extend(() if isinstance(read, Unread) else read)
            elif not isinstance(item, Scalar):
                what = say(
                    "{subject} lists something that is not the name of a rung",
                    subject=reading.subject,
                )
                instead = say("write names, or {{name-of-rung: 2}} for two pairs")
                reading.problem(item.line, what, instead)
            elif item.text in named:
                what = say(
                    "{subject} names {word} twice", subject=reading.subject, word=quoted(item.text)
                )
                instead = say("name it once, or write {{{name}: 2}} for two pairs", name=item.text)
                reading.problem(item.line, what, instead)
            else:
                named.add(item.text)
                shares.append(Share(item.text, 1, item.line))
                known = is_rung(item, self.rungs, reading)
            good = good and known
        return numbered(shares) if fits(shares, 2, node, reading) and good else UNREAD

    def plain(self, value: tuple[Share, ...]) -> Plain:
        """``[level, ragged]``."""
        return tuple(Entry().plain(entry) for entry in entries_of(value))

    def write(self, value: tuple[Share, ...]) -> str:
        """The same as text, each question in quotes."""
        return f"[{', '.join(Entry().write(entry) for entry in entries_of(value))}]"

    def holds(self, value: object) -> bool:
        """Shares of one each."""
        return (
            isinstance(value, tuple)
            and bool(value)
            and all(isinstance(share, Share) and share.count == 1 for share in value)
        )

    def schema(self) -> dict[str, Any]:
        """An array of names of rungs."""
        return {
            "type": "array",
            "items": {"anyOf": [{"type": "string", "$ref": "#/$defs/rung-name"}, Entry().schema()]},
            "minItems": 1,
            "uniqueItems": True,
        }


def fits(shares: Collection[Share], each: int, node: Node, reading: Reading) -> bool:
    """Whether a section holds so many questions."""
    questions = each * sum(share.count for share in shares)
    if questions > MOST_QUESTIONS:
        what = say("{subject} has {count} questions", subject=reading.subject, count=questions)
        instead = say("keep to {most} in a section", most=MOST_QUESTIONS)
        reading.problem(reading.line or node.line, what, instead)
    return questions <= MOST_QUESTIONS


_FRAME: Final = OneOf(*FRAME_WORDS)


@dataclass(frozen=True, slots=True)
class _Fading:
    first: str | None = None
    last: str | None = None


def _frames(asked: str | _Fading) -> tuple[str, str]:
    """The frames of the first and the last question; an end left out is the far one."""
    if isinstance(asked, str):
        return asked, asked
    return asked.first or FRAME_WORDS[0], asked.last or FRAME_WORDS[-1]


OF_ALL: Final = Made(
    Either(
        _FRAME,
        Fields(
            _Fading,
            {"from": Field(_FRAME, attribute="first"), "to": Field(_FRAME, attribute="last")},
        ),
    ),
    _frames,
    lambda frames: frames[0] if frames[0] == frames[1] else _Fading(*frames),
)
"""How much is set out for the pupil: the same for all questions, or fading over them."""


@dataclass(frozen=True)
class FramesOfRungs(Shape[FramesByRung]):
    """Frames for the questions of each rung: ``{through-noughts: {from: full, to: none}}``."""

    rungs: Collection[str] | None = None
    notations = frozenset({Notation.FIELDS})

    @property
    def says(self) -> Saying:
        """``for a rung, {name-of-rung: …}``."""
        return say("for the questions of a rung {{name-of-rung: full}}")

    def takes(self, node: Node) -> bool:
        """Braces in which neither end of a fading stands."""
        ends = (
            {folded(key.text) for key, _ in node.entries} & {"from", "to"}
            if isinstance(node, yaml_text.Mapping)
            else set()
        )
        return super().takes(node) and not ends

    def read(self, node: Node, reading: Reading) -> FramesByRung | Unread:
        """The frames of each rung named, in the order written."""
        if not isinstance(node, yaml_text.Mapping) or not node.entries:
            return self.refuse(node, reading)
        found = []
        for name, value in tidied(node, reading).entries:
            known = is_rung(name, self.rungs, reading)
            frames = OF_ALL.read(value, reading.about(name.text, name.line))
            if known and not isinstance(frames, Unread):
                found.append((name.text, frames))
        return FramesByRung(tuple(found)) if len(found) == len(node.entries) else UNREAD

    def plain(self, value: FramesByRung) -> Plain:
        """``{through-noughts: {from: full, to: none}}``."""
        return {rung: OF_ALL.plain(frames) for rung, frames in value.named}

    def holds(self, value: object) -> bool:
        """Some rungs with frames."""
        return isinstance(value, FramesByRung) and bool(value.named)

    def schema(self) -> dict[str, Any]:
        """An object whose properties are names of rungs."""
        return {
            "type": "object",
            "minProperties": 1,
            "propertyNames": {"$ref": "#/$defs/rung-name"},
            "additionalProperties": OF_ALL.schema(),
        }


def frames_of(rungs: Collection[str] | None = None) -> Shape[Frames]:
    """Frames for all of a section's questions, or for those of each rung."""
    return Either(FramesOfRungs(rungs), OF_ALL)


def told_apart(vocabulary: Vocabulary) -> SetOfPhrases:
    """The mistakes that a section may name: those that its rungs may, of any operation."""
    return SetOfPhrases(*_operations_of_mistakes(vocabulary))


def found_out(vocabulary: Vocabulary) -> Shape[tuple[str, ...]]:
    """The habits that a section may be to find out about; where all are, none is named beside."""
    return Made(
        SetOfPhrases(EVERY_HABIT, *_operations_of_mistakes(vocabulary), *vocabulary.of_methods),
        lambda named: (EVERY_HABIT,) if EVERY_HABIT in named else named,
        lambda named: named,
    )


_METHODS: Final = {
    "methods": Field(
        Defined.of("methods", METHODS),
        say(
            "The written method of operations here, in place of those of the whole lesson, such as "
            "{{multiply: grid}}."
        ),
    ),
}

_BEFORE_ALL: Final = {
    "minutes": Field(WholeNumber(1, 120), say("How long the section takes.")),
    "instructions": Field(
        Text(LONGEST_LINE), say("What pupils are told to do, in place of the words of Rungsheet.")
    ),
    "objective": Field(
        Text(LONGEST_LINE), say("What is to be learnt, for the first slide and the plan.")
    ),
}


def _framed(rungs: Collection[str] | None) -> dict[str, Field]:
    said = say(
        "How much is set out for the pupil: full (numbers, placeholder noughts, empty boxes for "
        "small digits), numbers, part (sign and points), none (bare squares); {{from: full, to: "
        "none}} fades over the section, {{name-of-rung: {{from: full, to: none}}}} over the "
        "questions of a rung."
    )
    return {"frames": Field(frames_of(rungs), said)}


def _finding_out(vocabulary: Vocabulary) -> Field:
    return Field(
        Defined.of("habits", found_out(vocabulary)),
        say(
            "Habits to be found out: 'every habit' that the rungs can show, or some that "
            "tells_apart may name or that the methods chosen bring with them. On each rung the "
            "questions are chosen whose answers show most clearly which habit a pupil has."
        ),
    )


_MATCHED: Final = {
    "your_turn": Field(
        OneOf(AT_ONCE, IN_STEPS),
        say(
            "How the class's question of each pair is worked on the slides of the lesson: at once "
            "or in steps (at once when not given)."
        ),
    ),
}


def section_words(
    vocabulary: Vocabulary, rungs: Rungs | None = None, earlier: OtherLadders = NO_OTHERS
) -> Fields[SectionSpec]:
    """The words of a section that says more than its counts, each with what it means."""
    return Fields(
        _section,
        {
            **_BEFORE_ALL,
            "shown_as": SHOWN,
            **_framed(rungs),
            **_METHODS,
            TELLS_APART: Field(
                told_apart(vocabulary),
                say(
                    "Mistakes that each chosen question tells from each other and from the right "
                    "method, those of them that apply to it; and the section every one of them."
                ),
            ),
            FINDS_OUT: _finding_out(vocabulary),
            QUESTIONS: Field(
                CountsOrRuns(Defined.of("counts", Counts(COUNT, rungs)), InTurn(rungs)),
                say(
                    "Rungs, and how many questions from each. Each question is drawn from its "
                    "rung so that, where it can be, no number and no answer stands twice in the "
                    "section. As a list, runs too: [{{level: 3}}, {{run: [level, ragged], keep: "
                    "first number}}]."
                ),
                attribute="shares",
            ),
            EARLIER: Field(EarlierCounts(earlier), SAYS),
        },
        required=(QUESTIONS,),
    )


def example_words(rungs: Rungs | None = None) -> Fields[SectionSpec]:
    """The words of examples that say more than their rungs."""
    return Fields(
        _section,
        {
            **_BEFORE_ALL,
            "shown_as": SHOWN,
            **_MATCHED,
            **_METHODS,
            QUESTIONS: Field(
                Pairs(rungs),
                say("Rungs shown as a worked question and its match; a number means more pairs."),
                attribute="shares",
            ),
        },
        required=(QUESTIONS,),
    )


def tiered_words(
    tier: Shape[SectionSpec],
    vocabulary: Vocabulary,
    kind: str = "",
    rungs: Rungs | None = None,
) -> Fields[SectionSpec]:
    """The words of a part of a lesson that has tiers: what they all share, and the tiers."""
    own = _MATCHED
    if kind != EXAMPLES:
        own = {**_framed(rungs), FINDS_OUT: _finding_out(vocabulary)}
    tiers = Field(
        Tiers(tier), say("Sheets for some of the class each, under the name of its tier.")
    )
    return Fields(_section, {**_BEFORE_ALL, **own, **_METHODS, TIERS: tiers}, required=(TIERS,))


def _section(
    shares: tuple[Share, ...] = (), earlier: tuple[Share, ...] = (), **words: Any
) -> SectionSpec:
    return SectionSpec("", (*shares, *earlier), **words)


@dataclass(frozen=True)
class Section(Shape[SectionSpec]):
    """A section such as the starter: counts, or ``questions`` beside the section's own words.

    ``pairs`` makes it one of examples. What it reads has no name yet.
    """

    vocabulary: Vocabulary
    rungs: Rungs | None = None
    pairs: bool = False
    earlier: OtherLadders = field(default_factory=dict, hash=False)

    @property
    def notations(self) -> frozenset[Notation]:  # type: ignore[override]
        """Braces; of examples a list too."""
        return self._counts.notations | {Notation.FIELDS}

    @property
    def _words(self) -> Fields[SectionSpec]:
        return example_words(self.rungs) if self.pairs else self._of_questions

    @property
    def _of_questions(self) -> Fields[SectionSpec]:
        return section_words(self.vocabulary, self.rungs, self.earlier)

    @property
    def _counts(self) -> Shape[tuple[Share, ...]]:
        return self._words.shapes[QUESTIONS]

    @property
    def says(self) -> Saying:
        """As its counts say."""
        return self._counts.says

    def read(self, node: Node, reading: Reading) -> SectionSpec | Unread:
        """The section, without its name."""
        if isinstance(node, yaml_text.Mapping):
            node = respelt(node, SECTION_WORDS, NOTHING_ELSE, reading)
        entries = node.entries if isinstance(node, yaml_text.Mapping) else ()
        if not isinstance(node, yaml_text.Mapping) or not any(
            key.text in SECTION_WORDS for key, _ in entries
        ):
            shares = self._counts.read(node, reading)
            return UNREAD if isinstance(shares, Unread) else _section(shares)
        beside = [key for key, _ in entries if tidy(key).text in (self.rungs or ())]
        for key in beside:
            words = [word.text for word, _ in entries if word.text in SECTION_WORDS]
            what = say(
                "the rung {rung} stands beside {words}",
                rung=quoted(key.text),
                words=listed(map(quoted, words), "and"),
            )
            reading.problem(key.line, what, say("indent it below '{word}:'", word=QUESTIONS))
        rest = tuple(entry for entry in entries if entry[0] not in beside)
        line = node.line
        alone = not self.pairs and not any(word.text == QUESTIONS for word, _ in rest)
        alone = alone and any(word.text == EARLIER for word, _ in rest)
        given = self._words.read_each(yaml_text.Mapping(rest, line), reading, required=not alone)
        good = not beside and len(given) == len(rest)
        if EARLIER in given:
            given[QUESTIONS] = (*given.get(QUESTIONS, ()), *given.pop(EARLIER))
            good = fits(given[QUESTIONS], 1, node, reading) and good
        good = good and QUESTIONS in given
        lines = {TELLS_APART: 0, FINDS_OUT: 0}
        for word, node in rest:
            if word.text in lines and given.keys() >= {word.text, QUESTIONS}:
                shares = given[QUESTIONS]
                good = self.mistakes_show(word, node, given[word.text], shares, reading) and good
                lines[word.text] = word.line
        if not good:
            return UNREAD
        return replace(
            self._words.made(given),
            tells_apart_line=lines[TELLS_APART],
            finds_out_line=lines[FINDS_OUT],
        )

    def mistakes_show(
        self,
        word: Scalar,
        node: Node,
        mistakes: tuple[str, ...],
        shares: Collection[Share],
        reading: Reading,
    ) -> bool:
        """Whether each mistake goes with some rung on which it would show in an answer; what is
        wrong is reported.
        """
        others = (rung for ladder in self.earlier.values() for rung in ladder.values())
        ladder = {**(self.rungs or {}), **{rung.name: rung for rung in others}}
        rungs = [ladder.get(share.rung) for share in shares]
        known = [rung for rung in rungs if rung is not None]
        if len(known) < len(rungs):
            return True  # what is wrong with the others is reported
        if mistakes == (EVERY_HABIT,):
            if any(rung.form == PLAIN for rung in known):
                return True
            what = say(
                "{habits} in {word} goes with no rung of {subject}: with 'form: {forms}' no answer "
                "shows one",
                habits=quoted(EVERY_HABIT),
                word=quoted(word.text),
                subject=reading.subject,
                forms=listed(dict.fromkeys(rung.form for rung in known)),
            )
            instead = say("leave it out, or take questions from a plain rung")
            reading.problem(node.line, what, instead)
            return False
        good = True
        operations = {**_operations_of_mistakes(self.vocabulary), **self.vocabulary.of_methods}
        for item in node.items if isinstance(node, Sequence) else (node,):
            read = SetOfPhrases(*mistakes).read(item, reading.trial())
            if isinstance(read, Unread):
                continue  # never: it was read as one of them before
            (mistake,) = read
            concerned = [rung for rung in known if rung.operation in operations[mistake]]
            if any(rung.form == PLAIN for rung in concerned):
                continue
            good = False
            what = say(
                "{mistake} in {word} goes with no rung of {subject}",
                mistake=quoted(mistake),
                word=quoted(word.text),
                subject=reading.subject,
            )
            belongs = listed(o for o in self.vocabulary.operations if o in operations[mistake])
            if concerned:
                what = say(
                    "{this}: with 'form: {forms}' no answer shows it",
                    this=what,
                    forms=listed(dict.fromkeys(rung.form for rung in concerned)),
                )
                instead = say(
                    "leave it out, or take questions from a plain rung of {operations}",
                    operations=belongs,
                )
            else:
                instead = say(
                    "it goes with {operations}; leave it out or take questions from such a rung",
                    operations=belongs,
                )
            reading.problem(item.line, what, instead)
        return good

    def plain(self, value: SectionSpec) -> Plain:
        """``{level: 3}``, or ``{minutes: 10, questions: {level: 3}}``."""
        given = self._words.given(value)
        if given.keys() == {QUESTIONS}:
            return self._counts.plain(value.shares)
        return self._words.plain(value)

    def write(self, value: SectionSpec) -> str:
        """The same as text."""
        alone = self._words.given(value).keys() == {QUESTIONS}
        return flow(self.plain(value)) if alone else self._words.write(value)

    def holds(self, value: object) -> bool:
        """A section with questions."""
        return isinstance(value, SectionSpec) and bool(value.shares)

    def schema(self) -> dict[str, Any]:
        """Counts, or the words of a section."""
        words = self._words.schema()
        if not self.pairs:
            del words["required"]
            words["anyOf"] = [{"required": [word]} for word in (QUESTIONS, EARLIER)]
        return {"anyOf": [self._counts.schema(), words]}


def _operations_of_mistakes(vocabulary: Vocabulary) -> dict[str, frozenset[str]]:
    """The mistakes that rungs may name, in canonical order, each with its operations."""
    found: dict[str, frozenset[str]] = {}
    for word in vocabulary.rows(TELLS_APART):
        for mistake in word.shape.words:
            found[mistake] = found.get(mistake, frozenset()) | word.operations
    return found


@dataclass(frozen=True)
class Tiers(Shape[tuple[SectionSpec, ...]]):
    """Sections of practice by the names of their tiers."""

    section: Shape[SectionSpec]
    notations = frozenset({Notation.FIELDS})

    @property
    def says(self) -> Saying:
        """``tiers such as 'support: …'``."""
        return say("tiers such as 'support: {{name-of-rung: 3}}'")

    def read(self, node: Node, reading: Reading) -> tuple[SectionSpec, ...] | Unread:
        """The tiers in the order written."""
        if not isinstance(node, yaml_text.Mapping) or not node.entries:
            what = say("{subject} has no tier in it", subject=reading.subject)
            reading.empty(node.line, what, write(self.says))
            return UNREAD
        if len(node.entries) > MOST_TIERS:
            extra = node.entries[MOST_TIERS][0]
            what = say(
                "{subject} has {count} tiers", subject=reading.subject, count=len(node.entries)
            )
            reading.problem(extra.line, what, say("keep to {most}", most=MOST_TIERS))
        tiers = []
        for key, value in tidied(node, reading).entries[:MOST_TIERS]:
            named = read_name(key, OF_A_TIER, SECTION_NAMES, reading)
            tier = self.section.read(value, reading.alone().about(key.text, key.line))
            if named and not isinstance(tier, Unread):
                tiers.append(replace(tier, name=key.text, line=key.line))
        return tuple(tiers) if len(tiers) == len(node.entries) else UNREAD

    def plain(self, value: tuple[SectionSpec, ...]) -> Plain:
        """``{support: {level: 3}}``."""
        return InOrder(tuple((tier.name, self.section.plain(tier)) for tier in value))

    def write(self, value: tuple[SectionSpec, ...]) -> str:
        """The same as text."""
        tiers = (f"{tier.name}: {self.section.write(tier)}" for tier in value)
        return f"{{{', '.join(tiers)}}}"

    def holds(self, value: object) -> bool:
        """Some sections."""
        return isinstance(value, tuple) and bool(value) and all(map(self.section.holds, value))

    def schema(self) -> dict[str, Any]:
        """An object whose properties are named by the teacher."""
        return {
            "type": "object",
            "minProperties": 1,
            "maxProperties": MOST_TIERS,
            "propertyNames": {"$ref": "#/$defs/tier-name"},
            "additionalProperties": self.section.schema(),
        }


@dataclass(frozen=True)
class Pairs(Shape[tuple[Share, ...]]):
    """The rungs that are shown as matched pairs, and how many pairs of each."""

    rungs: Collection[str] | None = None
    notations = frozenset({Notation.LIST, Notation.FIELDS})

    @property
    def _shape(self) -> Either[tuple[Share, ...]]:
        return Either(ListOfPairs(self.rungs), Counts(PAIRS, self.rungs, each=2))

    @property
    def says(self) -> Saying:
        """``a list of rungs``."""
        return ListOfPairs().says

    def read(self, node: Node, reading: Reading) -> tuple[Share, ...] | Unread:
        """The pairs in the order written."""
        if not self.takes(node) or (isinstance(node, Sequence) and not node.items):
            if bare := self._without_brackets(node):
                what = say("{subject} has no brackets", subject=reading.subject)
                reading.problem(node.line, what, write(f"[{', '.join(bare)}]"))
                return UNREAD
            what = say("{subject} names no rung", subject=reading.subject)
            reading.problem(node.line, what, write(self.says))
            return UNREAD
        return self._shape.read(node, reading)

    def _without_brackets(self, node: Node) -> tuple[str, ...]:
        """The names of rungs that a line has, with commas between them and nothing about them."""
        if not isinstance(node, Scalar):
            return ()
        names = tuple(tidy(replace(node, text=name.strip())).text for name in node.text.split(","))
        return names if self.rungs and all(name in self.rungs for name in names) else ()

    def plain(self, value: tuple[Share, ...]) -> Plain:
        """``{level: 1}``, however it was written, where that says all."""
        return self._plainly(value).plain(value)

    def write(self, value: tuple[Share, ...]) -> str:
        """The same as text."""
        return self._plainly(value).write(value)

    @staticmethod
    def _plainly(value: tuple[Share, ...]) -> Shape[tuple[Share, ...]]:
        """The way of saying pairs that says all there is to these."""
        return ListOfPairs() if has_more_than_counts(value) else Counts(PAIRS)

    def holds(self, value: object) -> bool:
        """Some shares."""
        return self._shape.holds(value)

    def schema(self) -> dict[str, Any]:
        """A list of rungs or counts of pairs."""
        pairs = Counts(PAIRS).schema() | {"description": "Rungs, and how many pairs of each."}
        return {"anyOf": [ListOfPairs().schema(), pairs]}
