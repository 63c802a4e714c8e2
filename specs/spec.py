"""What a teacher asked for, as frozen values: a ladder of rungs and the sections of a pack."""

from collections.abc import Collection, Mapping
from dataclasses import dataclass, field, replace
from typing import Final

from specs.avoided import Avoided
from specs.canonical import Plain, canonical
from specs.contexts import Template
from specs.lands import ENGLAND
from specs.languages.language import ENGLISH
from specs.missing import MISSING, Gap

PLAIN: Final = "plain"
"""How the questions of a rung are asked where it names no form."""

TELLS_APART: Final = "tells_apart"
"""The word by which a rung or a section asks for questions that tell mistakes apart."""

FINDS_OUT: Final = "finds_out"
"""The word by which a section asks for questions that find out who works how."""

EVERY_HABIT: Final = "every habit"
"""What ``finds_out`` says for all habits that the section's rungs can show."""

AT_ONCE: Final = "at once"
IN_STEPS: Final = "in steps"
"""How the matches of examples are worked on slides."""

STARTER: Final = "starter"
EXAMPLES: Final = "examples"
PRACTICE: Final = "practice"
EXIT: Final = "exit"
HOMEWORK: Final = "homework"

KINDS: Final = (STARTER, EXAMPLES, PRACTICE, EXIT, HOMEWORK)
"""What a part of a lesson may be."""

FRAMES: Final = ("full", "numbers", "part", "none")
"""How much of a question is set out on a pupil's sheet, most first.

Full: the numbers in their squares, placeholder noughts, the answer's point and an empty box
for each small digit; of a product the lines that make it whole and the rows of its products too.
Numbers: the numbers in their squares. Part: the question on a line and the squares with the
sign, the numbers' points and the rules. None: the question on a line and bare
squares.
"""


@dataclass(frozen=True, slots=True)
class FramesByRung:
    """Frames for the questions of some rungs each: of the first of them and of the last."""

    named: tuple[tuple[str, tuple[str, str]], ...]


Frames = tuple[str, str] | FramesByRung
"""How much is set out for the pupil: of a section's first question and its last, or by rung."""


@dataclass(frozen=True, slots=True)
class Condition:
    """One condition of a rung as written: its word, its value and where it stands.

    ``value`` is the frozen, hashable value that the word's shape read. ``text`` is the
    condition in one spelling (``carries: {across_point: true}``), the same for every way of
    writing the same condition, for messages. ``plain`` is the value as plain data, on which
    codes and seeds hang.
    """

    word: str
    value: object
    text: str = field(compare=False)
    plain: Plain = field(compare=False, repr=False)
    line: int = field(default=0, compare=False)


@dataclass(frozen=True, slots=True)
class RungSpec:
    """A rung of the ladder: a named operation with its conditions, in canonical word order.

    ``form`` names how its questions are asked, "plain" as they are.
    ``context`` names what they are about when put in words (money, mass, …), and
    ``templates`` are the sentences to choose from. ``missing`` is what is left out, where the
    teacher wants one thing. ``shown_as`` is the name that pupils see, "" for the rung's own. None
    of these changes the calculations. ``key`` is its own name in words where the text spells it
    with letters that the name lacks, ``Übertrag``, else "".
    """

    name: str
    operation: str
    conditions: tuple[Condition, ...]
    line: int = field(default=0, compare=False)
    form: str = PLAIN
    context: tuple[str, ...] = ()
    templates: tuple[Template, ...] = field(default=(), repr=False)
    missing: Gap | None = None
    shown_as: str = ""
    key: str = field(default="", compare=False)

    @property
    def seen_as(self) -> str:
        """The name that pupils see, "" where it is the rung's own in words."""
        return self.shown_as or self.key

    @property
    def text(self) -> str:
        """The rung without its name, in canonical form: what decides which questions are on it."""
        return canonical(self.plain_conditions)

    @property
    def plain_conditions(self) -> Mapping[str, Plain]:
        """The operation and the conditions as plain data."""
        return {
            "operation": self.operation,
            **{condition.word: condition.plain for condition in self.conditions},
        }

    @property
    def plain(self) -> Mapping[str, Plain]:
        """The rung without its name as plain data, with how its questions are asked."""
        form: Mapping[str, Plain] = {} if self.form == PLAIN else {"form": self.form}
        if self.missing is not None:
            form = {"missing": MISSING.plain(self.missing)}
        context = {"context": self.context} if self.context else {}
        shown = {"shown_as": self.shown_as} if self.shown_as else {}
        return {**self.plain_conditions, **form, **context, **shown}


KEEPS: Final = ("first number", "second number", "digits")
"""What the questions of a run may share."""


@dataclass(frozen=True, slots=True)
class Run:
    """Questions in a row that share something, one of ``KEEPS``, each from a rung of its own.

    ``number`` says which of its section's runs it is, from 1.
    """

    keep: str
    line: int = field(default=0, compare=False)
    number: int = 1


@dataclass(frozen=True, slots=True)
class Share:
    """So many questions from one rung.

    ``question`` is the teacher's own, where an example shows that one; ``run`` is what it is one
    of.
    """

    rung: str
    count: int
    line: int = field(default=0, compare=False)
    question: Avoided | None = None
    run: Run | None = None


@dataclass(frozen=True, slots=True)
class Place:
    """Where in its lesson a section stands: in which part of its kind, and which tier of it.

    ``number`` counts the parts of the kind from 1, ``at`` the tiers of the part from 0;
    ``tier`` is "" in a part without tiers.
    """

    kind: str
    number: int = 1
    tier: str = ""
    at: int = 0

    @property
    def part(self) -> str:
        """The name of the part: ``practice``, and the next of its kind ``practice-2``."""
        return f"{self.kind}-{self.number}" if self.number > 1 else self.kind

    @property
    def name(self) -> str:
        """The name of the section: that of its part, ``homework``, with its tier where it has one.

        Tiers of the first practice have their own name alone: ``support``, and in the next
        ``practice-2-support``.
        """
        if not self.tier:
            return self.part
        return self.tier if self.part == PRACTICE else f"{self.part}-{self.tier}"

    @property
    def stem(self) -> str:
        """What its file is called: ``practice-support``, otherwise as the section."""
        return f"{self.part}-{self.tier}" if self.tier else self.part

    @property
    def index(self) -> int:
        """A number that hangs on nothing else of the lesson, so that no other part moves it."""
        first = (0, 1, 2, 5, 6)[KINDS.index(self.kind)]
        return first + self.at + 3 * (self.number - 1)

    @staticmethod
    def named(kind: str, part: str, name: str) -> "Place":
        """The place of a section whose part and name are known."""
        number = part.removeprefix(f"{kind}-")
        tier = "" if name == part else name
        if part != PRACTICE:
            tier = tier.removeprefix(f"{part}-")
        return Place(kind, int(number) if number.isdecimal() else 1, tier)


@dataclass(frozen=True, slots=True)
class Methods:
    """The written method of each operation, as a school teaches it; None leaves it to the spec,
    to ``pages:`` and to the land.

    ``add`` says whether empty decimal places are filled ("with noughts" or "without noughts").
    ``subtract`` is "exchange", "equal addition" or "counting up". ``multiply`` is "columns"
    (short or long multiplication), "grid" or "expanded"; ``divide`` is "short", "long" or
    "chunking".
    """

    add: str | None = None
    subtract: str | None = None
    multiply: str | None = None
    divide: str | None = None

    def over(self, others: "Methods") -> "Methods":
        """These, and for the other operations those of others."""
        return Methods(
            self.add or others.add,
            self.subtract or others.subtract,
            self.multiply or others.multiply,
            self.divide or others.divide,
        )


@dataclass(frozen=True, slots=True)
class SectionSpec:
    """A section of the pack: a part of the lesson or a tier of it, rungs in the order written.

    ``minutes`` and ``frames`` are None where the teacher states none. ``frames`` says how
    much of a question is set out for the pupil, over the section or by rung.
    ``tells_apart`` names the mistakes that its questions must tell apart, in canonical order;
    ``tells_apart_line`` is where that stands. ``finds_out`` names the mistakes that they are
    chosen to find out about, or EVERY_HABIT alone; () for nothing; ``shares_finding`` says that
    this is what its part says for its tiers together.
    ``instructions``, ``objective`` and ``shown_as``, the name that pupils see, are the teacher's
    own, "" for none. ``your_turn`` is how the matches of examples are worked, ``methods`` are the
    written methods of this section, over the spec's. A part has ``tiers`` or questions of its own.
    ``place`` is known once the section stands in a lesson.
    """

    name: str
    shares: tuple[Share, ...]
    minutes: int | None = None
    frames: Frames | None = None
    line: int = field(default=0, compare=False)
    tells_apart: tuple[str, ...] = ()
    tells_apart_line: int = field(default=0, compare=False)
    finds_out: tuple[str, ...] = ()
    finds_out_line: int = field(default=0, compare=False)
    shares_finding: bool = field(default=False, compare=False)
    instructions: str = ""
    objective: str = ""
    shown_as: str = ""
    your_turn: str = AT_ONCE
    methods: Methods = Methods()
    tiers: tuple["SectionSpec", ...] = ()
    place: Place | None = field(default=None, compare=False)

    @property
    def texts(self) -> tuple[str, ...]:
        """The teacher's own words in it."""
        return self.instructions, self.objective, self.shown_as

    @property
    def earlier(self) -> tuple[Share, ...]:
        """What it still has to take from earlier specs: nothing, that is among its shares."""
        return ()

    @property
    def questions(self) -> int:
        """How many questions it takes from its rungs; of examples how many pairs."""
        return sum(share.count for share in self.shares)

    def of_tier(self, tier: "SectionSpec") -> "SectionSpec":
        """One of its tiers, with what the part says for all of them."""
        shares_finding = bool(self.finds_out) and not tier.finds_out
        return replace(
            tier,
            finds_out=self.finds_out if shares_finding else tier.finds_out,
            finds_out_line=self.finds_out_line if shares_finding else tier.finds_out_line,
            shares_finding=shares_finding,
            minutes=self.minutes if tier.minutes is None else tier.minutes,
            frames=self.frames if tier.frames is None else tier.frames,
            instructions=tier.instructions or self.instructions,
            objective=tier.objective or self.objective,
            your_turn=self.your_turn if tier.your_turn == AT_ONCE else tier.your_turn,
            methods=tier.methods.over(self.methods),
        )


@dataclass(frozen=True, slots=True)
class Part:
    """A part of a lesson: which of ``KINDS`` it is, and what is asked in it."""

    kind: str
    asked: SectionSpec


def sections_of(parts: Collection[Part]) -> tuple[SectionSpec, ...]:
    """The sections of a lesson in its order, each with its name and place; tiers one by one."""
    found: list[SectionSpec] = []
    for at, part in enumerate(parts):
        number = 1 + sum(other.kind == part.kind for other in list(parts)[:at])
        tiers = part.asked.tiers or (replace(part.asked, name=""),)
        for which, tier in enumerate(tiers):
            place = Place(part.kind, number, tier.name, which)
            whole = part.asked.of_tier(tier) if part.asked.tiers else tier
            found.append(replace(whole, name=place.name, place=place))
    return tuple(found)


def position_of(label: str) -> int:
    """Which question of its section bears a letter, from 0: a is 0, z is 25, aa is 26."""
    position = 0
    for letter in label:
        position = position * 26 + ord(letter) - ord("a") + 1
    return position - 1


@dataclass(frozen=True, slots=True)
class Kept:
    """A question in its place: the section, the letter that stands before it, what it asks.

    ``question`` has its operation and numbers, written as those of ``avoid``.
    """

    section: str
    label: str
    question: Avoided
    line: int = field(default=0, compare=False)

    @property
    def position(self) -> int:
        """Which question of its section it is, from 0."""
        return position_of(self.label)


@dataclass(frozen=True, slots=True)
class BySheet:
    """A wish for every pupil's sheet, or for the sheets of some sections by name."""

    usual: int | str | None = None
    named: tuple[tuple[str, int | str], ...] = ()

    @staticmethod
    def asked(value: int | str | tuple[tuple[str, int | str], ...]) -> "BySheet":
        """The wish that a spec states: for all sheets, or for each by name."""
        return BySheet(None, value) if isinstance(value, tuple) else BySheet(value)

    @property
    def stated(self) -> int | str | tuple[tuple[str, int | str], ...] | None:
        """As a spec states it; None for no wish."""
        return self.named or None if self.usual is None else self.usual

    def among(self, sheets: Collection[str]) -> "BySheet":
        """The wish for those sheets alone."""
        return replace(self, named=tuple(pair for pair in self.named if pair[0] in sheets))

    def of(self, section: str) -> int | str | None:
        """What is wished for the sheets of a section; None for nothing in particular."""
        return dict(self.named).get(section, self.usual)


@dataclass(frozen=True, slots=True)
class Presentation:
    """How the pages look; nothing here changes which questions are chosen.

    ``paper`` is a paper size by name, ``square`` the side of a square in millimetres,
    ``carries`` where carried digits stand ("below" or "above"), ``placeholders`` whether
    empty decimal places are filled with noughts. ``orientation`` is "portrait" or
    "landscape" and that of each page; ``to_a_sheet`` (1, 2 or 4) pages are printed on one
    sheet of the paper; with ``duplex`` every version begins on the front of a sheet.
    ``grid`` is "plain", "faint" or "none", ``spacing`` "usual" or "wide". ``large`` gives
    the least height of digits in points and ``tint`` the name of the paper's colour.
    ``subtraction`` is the method of column subtraction ("exchange" or "equal addition").
    ``point`` is where decimal points stand: on the "line" after the ones or in a "column"
    of their own. ``methods`` are those of the spec's own ``methods:``.
    ``estimate`` is where an estimate is asked for and shown. ``land`` is whose numbers, signs and
    ways of setting out the pages have: where it says a thing that stands here, that is None.
    ``language`` is the one in which they speak; ``key_words`` names another in which sheets have
    theirs too.
    """

    paper: str = "A4"
    square: int = 7
    carries: str | None = None
    placeholders: bool = True
    orientation: str = "portrait"
    to_a_sheet: int = 1
    duplex: bool = False
    grid: str = "plain"
    spacing: str = "usual"
    large: BySheet = BySheet()
    tint: BySheet = BySheet()
    subtraction: str | None = None
    point: str = "line"
    methods: Methods = Methods()
    estimate: BySheet = BySheet()
    key_words: BySheet = BySheet()
    land: str = ENGLAND.name
    language: str = ENGLISH


@dataclass(frozen=True, slots=True)
class Spec:
    """A whole spec. ``name`` is the file's stem; ``matching`` is "signature" or "rung".

    ``parts`` are the lesson in its order, however it is written: one that is a starter,
    examples and practice in tiers at most can be said in the short form, with those words alone.
    ``versions`` says in how many versions sheets come, where the spec states that.
    ``avoid`` has questions that the pack must not ask, ``keep`` those that it asks in their
    places whatever the seed. ``contexts`` are the teacher's own sentences.
    ``source`` is the file's name and ``text`` all that stands in it; ``title_line`` is where
    the title stands.
    """

    name: str
    title: str
    ladder: tuple[RungSpec, ...]
    parts: tuple[Part, ...] = ()
    versions: BySheet = BySheet()
    matching: str = "signature"
    presentation: Presentation = Presentation()
    avoid: tuple[Avoided, ...] = ()
    keep: tuple[Kept, ...] = ()
    contexts: tuple[Template, ...] = ()
    source: str = field(default="", compare=False)
    text: str = field(default="", compare=False, repr=False)
    title_line: int = field(default=0, compare=False)

    @property
    def sections(self) -> tuple[SectionSpec, ...]:
        """Every section of the lesson in order, with its name and place."""
        return sections_of(self.parts)

    def versions_of(self, section: SectionSpec, usual: int) -> int:
        """In how many versions a section comes, where ``usual`` is for practice sheets."""
        kind = section.place.kind if section.place else PRACTICE
        named = dict(self.versions.named).get(section.name)
        if kind == EXAMPLES:
            return 1
        if isinstance(named, int):
            return named
        of_practice = self.versions.usual
        return (of_practice if isinstance(of_practice, int) else usual) if kind == PRACTICE else 1

    @property
    def texts(self) -> tuple[tuple[int, str], ...]:
        """What people wrote for people, each with its line: title, instructions, names …"""
        return (
            (self.title_line, self.title),
            *((rung.line, rung.shown_as) for rung in self.ladder),
            *((one.line, text) for one in self.sections for text in one.texts),
        )

    def part_at(self, place: Place) -> int:
        """Which part, from 0, a place is in."""
        of_kind = [at for at, part in enumerate(self.parts) if part.kind == place.kind]
        return of_kind[place.number - 1]

    def first(self, kind: str) -> SectionSpec | None:
        """The first section of a kind, None where there is none."""
        return next((one for one in self.sections if one.place and one.place.kind == kind), None)

    # The short form: what it says of a lesson, nothing where it cannot say the whole of it.

    @property
    def _in_short(self) -> bool:
        kinds = [part.kind for part in self.parts]
        in_order = kinds == [kind for kind in (STARTER, EXAMPLES, PRACTICE) if kind in kinds]
        bare = SectionSpec(PRACTICE, ())
        return in_order and all(
            bool(part.asked.tiers) == (part.kind == PRACTICE)
            and (part.kind != PRACTICE or replace(part.asked, tiers=()) == bare)
            for part in self.parts
        )

    def _short(self, kind: str) -> SectionSpec | None:
        parts = self.parts if self._in_short else ()
        return next((part.asked for part in parts if part.kind == kind), None)

    @property
    def starter(self) -> SectionSpec | None:
        """The starter in the short form."""
        return self._short(STARTER)

    @property
    def examples(self) -> SectionSpec | None:
        """The examples in the short form."""
        return self._short(EXAMPLES)

    @property
    def tiers(self) -> tuple[SectionSpec, ...]:
        """The tiers of practice in the short form."""
        practice = self._short(PRACTICE)
        return practice.tiers if practice else ()

    @property
    def lesson(self) -> tuple[Part, ...]:
        """The parts of a lesson that the short form cannot say."""
        return () if self._in_short else self.parts

    @property
    def methods(self) -> Methods:
        """The written methods, as ``methods:`` has them."""
        return self.presentation.methods

    @property
    def pages(self) -> Presentation:
        """How the pages look, as ``pages:`` has it: without what ``methods:`` says."""
        return replace(self.presentation, methods=Methods())

    def rung(self, name: str) -> RungSpec:
        """The rung of that name. Raises KeyError when there is none."""
        for rung in self.ladder:
            if rung.name == name:
                return rung
        raise KeyError(name)
