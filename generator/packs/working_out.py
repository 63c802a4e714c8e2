"""Work: what was chosen is worked, once, into values with all that pages and keys need.

Whatever lays a pack out takes these values, and calls no method, form or mistake itself.
Sections are worked one after another as they are asked for: a class set of thousands of
versions is never held at once.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import Final

from generator.arithmetic.questions import Ending, Operation
from generator.forms.form import Shown, Written, followed, led
from generator.forms.frames import Frame
from generator.forms.question_words import NO_BREAK, evenly_spaced
from generator.operations.estimating import Estimate, estimate
from generator.operations.mistake import Mistake
from generator.operations.working import Conventions, Working
from generator.packs.as_written import framed_as, shown_as, worked_as
from generator.packs.codes import PageCode, page_code
from generator.packs.key_words import key_words_of
from generator.packs.likely_answers import (
    MOST_LIKELY,
    LikelyAnswer,
    Power,
    likely_among,
    power_of,
    wrong_answers,
)
from generator.packs.pacing import usual_minutes
from generator.packs.pack import Item, Pack, Section
from specs.key_words import KeyWords, key_words
from specs.lands import land
from specs.languages.saying import say
from specs.languages.usage import PLAIN, Usage, usage
from specs.methods import IN_COLUMNS
from specs.replies import Reply
from specs.spec import IN_STEPS, Methods, Place, Presentation, SectionSpec

_SECTIONS_KEPT: Final = 100
"""Worked sections that are kept for the next file: the sheets of a class in three tiers."""


@dataclass(frozen=True, slots=True)
class WrongAnswer:
    """A wrong answer to expect, and in brief what it may come from, more common causes first."""

    text: str
    causes: tuple[str, ...]
    far: bool = False
    """Whether the estimate shows that it is wrong."""


@dataclass(frozen=True)
class WorkedItem:
    """A question of a sheet, with all that is printed, said and marked of it.

    Its words and workings are made from the item when they are first looked at, and stay:
    a slide of answers needs no working, and the sheet and the key share one. ``kind`` is the
    kind of frame that its place on the sheet has.
    """

    _item: Item
    _conventions: Conventions
    _kind: str | None
    _estimates: bool = False
    _usage: Usage = PLAIN

    @property
    def label(self) -> str:
        """Its letter."""
        return self._item.label

    @property
    def say(self) -> Usage:
        """The land and the language of the pages that it stands on."""
        return self._usage

    @property
    def rung(self) -> str:
        """The name of its rung."""
        return self._item.rung

    @property
    def shown_as(self) -> str:
        """The name of its rung for pupils: the teacher's own, or the rung's."""
        return self._item.shown_as

    @property
    def features(self) -> tuple[str, ...]:
        """What it has of its rung, in words, and how closely its versions match."""
        matched = [self._item.matched] if self._item.matched else []
        return tuple(map(self._usage.says, (*self._item.features, *matched)))

    # Words.

    @property
    def calculation(self) -> str:
        """The bare question: ``3.4 + 0.27``."""
        return self._usage.says(self._item.question.text)

    @cached_property
    def asked(self) -> str:
        """The question alone: ``3.4 + 0.27``, ``3.4 + ▭ = 3.67`` or a sentence."""
        return self._usage.says(self._item.form.asked(self._item.question))

    @cached_property
    def asked_on_a_line(self) -> str:
        """The question on a line of its own, to be answered: ``0.6 × 0.07 =``."""
        return self._usage.says(self._item.form.asked_on_a_line(self._item.question))

    @cached_property
    def answered(self) -> tuple[str, str, str]:
        """The question, its sign and its answer, as one line holds them."""
        asked, sign, answer = self._item.form.answered(self._item.question)
        says = self._usage.says
        return says(asked), says(sign), says(answer)

    @property
    def reply(self) -> str:
        """What a pupil is to write, with ordinary spaces: ``3.67 kg``."""
        return self._usage.says(self._item.form.reply(self._item.question)).replace(NO_BREAK, " ")

    @cached_property
    def with_answer_apart(self) -> tuple[str, str]:
        """The question with its answer; the answer second where it has a line of its own."""
        question, answer = self._item.form.with_answer(self._item.question)
        return self._usage.says(question), self._usage.says(answer)

    @property
    def with_answer(self) -> str:
        """The question with its answer: ``3.4 + 0.27 = 3.67``."""
        return " ".join(filter(None, self.with_answer_apart))

    @cached_property
    def said(self) -> str:
        """The question as a screen reader says it: ``question c: 3.4 plus 0.27``."""
        said = self._item.form.said(self._item.question)
        if self.label:
            said = say("question {letter}: {said}", letter=self.label, said=said)
        return evenly_spaced(self._usage.says(said))

    @property
    def what_was_wrong(self) -> str:
        """In words, what the mistake is that is to be found; "" where there is none."""
        return self._usage.says(self._item.form.what_was_wrong())

    @property
    def found_in_it(self) -> str:
        """What is to be found in what is shown, for the key; "" for nothing."""
        return self._usage.says(self._item.form.found_in_it())

    @property
    def wrong_answers_to_expect(self) -> tuple[WrongAnswer, ...]:
        """The likely wrong answers, or the one that is shown to be put right."""
        if self._item.form.shows:
            wrong, mistake = self._item.form.shows
            return (WrongAnswer(self._usage.says(wrong), (self._usage.says(mistake.in_brief),)),)
        return tuple(
            WrongAnswer(
                self._usage.says(likely.reply.text),
                tuple(dict.fromkeys(self._usage.says(m.in_brief) for m in likely.mistakes)),
                self.estimate is not None and self.estimate.shows_wrong(likely.reply.value),
            )
            for likely in self.likely
        )

    @cached_property
    def estimate(self) -> Estimate | None:
        """The estimate that is made first; None where none is asked for, or none is needed."""
        wanted = self._estimates and self.asks_for_the_answer
        return estimate(self._item.question) if wanted else None

    @property
    def shows_a_wrong_answer(self) -> bool:
        """Whether it is worked wrongly, to be put right."""
        return self._item.form.shows is not None

    @property
    def accepted_as(self) -> tuple[str, ...]:
        """Which of the words of ``specs/accepted.py`` are about its answer."""
        question, form = self._item.question, self._item.form
        found = {Operation.ORDER: "in order", Operation.COMPARE: "two compared"}
        kind = found.get(question.operation)
        if kind is None and form.name.startswith("missing"):
            kind = "missing"
        if kind is None and question.remainder is not None:
            kind = "left over"
        if kind is None and question.ending is Ending.ROUNDED:
            kind = "rounded"
        return (kind or "numbers", *(["units"] if form.name == "in words" else []))

    # Workings.

    @cached_property
    def _written(self) -> Written:
        return Written.by(self._item.question, self._conventions)

    @cached_property
    def working(self) -> Working:
        """The question worked, with what its form needs said first."""
        return worked_as(self._usage, self._estimated(self._item.form.working(self._written)))

    @cached_property
    def example(self) -> Shown:
        """The question worked as an example: a wrong working first where there is one."""
        example = self._item.form.example(self._written)
        return shown_as(self._usage, replace(example, right=self._estimated(example.right)))

    def _estimated(self, working: Working) -> Working:
        """A working with the estimate said before it, and looked at again after it."""
        if self.estimate is None:
            return working
        return followed(led(working, self.estimate.first), self.estimate.afterwards)

    @cached_property
    def frame(self) -> Frame:
        """What stands on the squares, and over them, before a pupil begins."""
        return framed_as(self._usage, self._item.form.set_out(self._written, self._kind))

    # Marks.

    @property
    def asks_for_the_answer(self) -> bool:
        """Whether a pupil works the question alone, so that a wrong answer shows how."""
        return self._item.form.asks_for_the_answer

    @cached_property
    def _wrong_answers(self) -> Mapping[Mistake, Reply | None]:
        return wrong_answers(self._item.question, self._conventions.ways)

    @cached_property
    def likely(self) -> tuple[LikelyAnswer, ...]:
        """The likely wrong answers; none where something else is asked for than the answer."""
        if not self.asks_for_the_answer:
            return ()
        return likely_among(self._wrong_answers, MOST_LIKELY)


@dataclass(frozen=True, slots=True)
class PackFacts:
    """What each page of a pack may say of the whole.

    ``versions`` is how many there are of each practice sheet. ``names`` are those of the
    sections, in order; ``spec_text`` is all that stands in the spec's file.
    """

    title: str
    seed: int
    code: str
    versions: int
    presentation: Presentation
    look: int
    spec_text: str
    names: tuple[str, ...]
    key_code: PageCode
    """The code of the first page of the teacher's key."""
    usage: Usage = PLAIN
    """The land and the language of its pages."""
    all_workings: bool = False
    """Whether the key works every version, and not the first alone."""


@dataclass(frozen=True)
class WorkedSection:
    """One section in one version, worked.

    ``kind`` is as a ``Section`` has it; example sections hold pairs in order. ``code`` is that
    of its first page, ``versions`` in how many it comes.
    """

    pack: PackFacts
    name: str
    kind: str
    version: int
    minutes: int | None
    code: PageCode
    items: tuple[WorkedItem, ...]
    place: Place
    versions: int = 1
    asked: SectionSpec | None = None

    @property
    def instructions(self) -> str:
        """What pupils are told to do in the teacher's own words, "" for none."""
        return self.asked.instructions if self.asked else ""

    @property
    def objective(self) -> str:
        """What is to be learnt in the teacher's own words, "" for none."""
        return self.asked.objective if self.asked else ""

    @property
    def shown_as(self) -> str:
        """The name that the teacher has pupils see, "" for none."""
        return self.asked.shown_as if self.asked else ""

    @property
    def match_in_steps(self) -> bool:
        """Whether the class's questions of its examples are worked a step at a time."""
        return self.asked is not None and self.asked.your_turn == IN_STEPS

    @property
    def presentation(self) -> Presentation:
        """How its pages look."""
        return self.pack.presentation

    @property
    def say(self) -> Usage:
        """The land and the language of its pages: ``say("Version {number}", number=3)``."""
        return self.pack.usage

    @property
    def key_words(self) -> tuple[tuple[str, str], ...]:
        """Its key words, each as the pages say it and in the language asked for beside; or none."""
        theirs = self._spoken_at_home
        if theirs is None:
            return ()
        questions = [item._item.question for item in self.items]
        needed = key_words_of(questions, estimated=self.is_estimated)
        return tuple((self.say.says(word), theirs.words[word]) for word in needed)

    @property
    def key_words_code(self) -> str:
        """The code of the language of its further key words, "" where there are none."""
        theirs = self._spoken_at_home
        return "" if theirs is None else theirs.code

    @property
    def _spoken_at_home(self) -> KeyWords | None:
        asked = self.presentation.key_words.of(self.name)
        return key_words(str(asked)) if asked and asked != self.say.language.name else None

    @property
    def has_versions(self) -> bool:
        """Whether it comes in several versions."""
        return self.versions > 1

    @property
    def about_minutes(self) -> int:
        """How long it takes: what its teacher says, or what such questions usually take."""
        return self.minutes or usual_minutes(item._item for item in self.items)

    @property
    def is_estimated(self) -> bool:
        """Whether some of its questions are to be estimated first."""
        return any(item.estimate is not None for item in self.items)

    @cached_property
    def power(self) -> Power | None:
        """What mistakes its questions can show, those whose own answer is asked for.

        None for examples, which are not marked, and where there is no such question.
        """
        asked = [item for item in self.items if item.asks_for_the_answer]
        if self.kind == "example" or not asked:
            return None
        return power_of([(item._item.question, item._wrong_answers) for item in asked])


@dataclass(frozen=True, slots=True)
class WorkedPack:
    """A pack, or some sections of it, worked one after another as they are asked for.

    The last are kept, so that sheet, slides and key share one working.
    """

    facts: PackFacts
    _chosen: tuple[Section, ...]
    _kept: dict[tuple[str, int], WorkedSection] = field(
        default_factory=dict, compare=False, repr=False
    )

    def __iter__(self) -> Iterator[WorkedSection]:
        """The sections in order, each worked when its turn comes."""
        return map(self._worked, self._chosen)

    @property
    def questions(self) -> int:
        """How many questions there are."""
        return sum(len(section.items) for section in self._chosen)

    @property
    def names(self) -> tuple[str, ...]:
        """The names of the sections, in order."""
        return tuple(dict.fromkeys(section.name for section in self._chosen))

    @property
    def versions(self) -> tuple[int, ...]:
        """The versions in which there are questions, the first first."""
        return tuple(sorted({section.version for section in self._chosen if section.items}))

    @property
    def places(self) -> tuple[Place, ...]:
        """Where in the lesson the sections stand, each place once."""
        return tuple(dict.fromkeys(section.place for section in self._chosen))

    @property
    def parts(self) -> "tuple[WorkedPack, ...]":
        """The sections of each part of the lesson, in its order."""
        return tuple(
            self._only(section for section in self._chosen if section.place.part == part)
            for part in dict.fromkeys(section.place.part for section in self._chosen)
        )

    def spoken(self, usage: Usage) -> "WorkedPack":
        """The same pack as another land writes it and another language says it."""
        return replace(self, facts=replace(self.facts, usage=usage), _kept={})

    def of_kinds(self, *kinds: str) -> "WorkedPack":
        """The sections of these kinds alone, in the lesson's order."""
        return self._only(section for section in self._chosen if section.kind in kinds)

    def named(self, *names: str) -> "WorkedPack":
        """The sections of these names alone."""
        return self._only(section for section in self._chosen if section.name in names)

    def of_version(self, version: int) -> "WorkedPack":
        """One version alone; what comes in a single version is of the first."""
        return self._only(section for section in self._chosen if section.version == version)

    def _versions_of(self, section: Section) -> int:
        """In how many versions a section comes; tiers in as many as the pack, where none says."""
        if section.asked is not None:
            return section.versions
        return self.facts.versions if section.kind == "practice" else 1

    def _only(self, sections: Iterable[Section]) -> "WorkedPack":
        return replace(self, _chosen=tuple(sections))

    def _worked(self, section: Section) -> WorkedSection:
        at = section.name, section.version
        worked = self._kept.pop(at, None) or self._work(section)
        self._kept[at] = worked
        if len(self._kept) > _SECTIONS_KEPT:
            del self._kept[next(iter(self._kept))]
        return worked

    def _work(self, section: Section) -> WorkedSection:
        facts = self.facts
        agreed = conventions(facts.presentation, section.asked.methods if section.asked else None)
        at = facts.names.index(section.name)
        estimates = is_estimated(facts.presentation, section.name, section.kind)
        return WorkedSection(
            facts,
            section.name,
            section.kind,
            section.version,
            section.minutes,
            replace(facts.key_code, version=section.version, section=at),
            tuple(
                WorkedItem(item, agreed, kind, estimates, facts.usage)
                for item, kind in section.framed
            ),
            section.place,
            self._versions_of(section),
            section.asked,
        )


def work(pack: Pack, *, all_workings: bool = False) -> WorkedPack:
    """The pack, to be worked section by section; its key may work all versions."""
    facts = PackFacts(
        pack.title,
        pack.seed,
        pack.code,
        pack.versions,
        pack.presentation,
        pack.look,
        pack.spec_text,
        tuple(dict.fromkeys(section.name for section in pack.sections)),
        page_code(pack, None, 1),
        usage_of(pack.presentation),
        all_workings,
    )
    return WorkedPack(facts, pack.sections)


def work_alone(item: Item, presentation: Presentation) -> WorkedItem:
    """A question of no pack, worked as a pack with this presentation works it."""
    estimates = bool(presentation.estimate.usual)
    says = usage_of(presentation)
    return WorkedItem(item, conventions(presentation), None, estimates, says)


def is_estimated(presentation: Presentation, name: str, kind: str) -> bool:
    """Whether a section asks for estimates: examples do where any sheet does."""
    wish = presentation.estimate
    if kind == "example":
        return bool(wish.usual) or any(value for _, value in wish.named)
    return bool(wish.of(name))


def usage_of(presentation: Presentation) -> Usage:
    """The land and the language of a pack's pages."""
    return usage(presentation.land, presentation.language)


def conventions(presentation: Presentation, own: Methods | None = None) -> Conventions:
    """How a pack sets its written methods out, or a section of it that has some of its own."""
    methods, its = presentation.methods, land(presentation.land)
    if own is not None:
        methods = own.over(methods)
    noughts = None if methods.add is None else methods.add == "with noughts"
    return Conventions(
        presentation.carries or its.carries,
        presentation.placeholders,
        methods.subtract or presentation.subtraction or its.subtraction,
        presentation.point,
        methods.multiply or IN_COLUMNS,
        methods.divide or its.division,
        noughts,
        set_out=its.set_out,
        below_the_dividend=its.below_the_dividend,
        short_division=its.short_division,
        factors=its.factors,
        first_row=its.first_row,
        product_carries=its.product_carries,
    )
