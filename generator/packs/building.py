"""From a spec and a seed to a pack: the sections of a lesson, filled and put in order."""

from collections import Counter
from collections.abc import Collection, Hashable, Iterator, Sequence
from dataclasses import dataclass, replace

from generator.allowance import DRAWING, LOOKED_AT_OF_A_PACK
from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Operation, Question
from generator.forms.asking import LOOKED_AT, CannotBeAskedError, cannot_be_asked, form_of
from generator.forms.form import Form, Turn
from generator.numbered.seeds import Dice, key
from generator.operations.mistakes import Mistake
from generator.operations.rungs import rung_set
from generator.packs.choosing import TRIED, Drawing, Sheet, Slot
from generator.packs.codes import pack_code
from generator.packs.finding_out import (
    LOOKS_OF_A_SECTION,
    LOOKS_TO_FIND_OUT,
    inquiry_of,
    made_by_another_method,
    never_shown,
)
from generator.packs.keeping import CannotBeKeptError, kept_question, of_a_run, own_question, wanted
from generator.packs.pacing import usual_minutes
from generator.packs.pack import Item, Pack, Section, kind_of
from generator.packs.runs import fill_run, in_a_run
from generator.packs.sharing import Shares, Shortage
from generator.packs.suited import Suited
from generator.packs.telling_apart import (
    CannotTellApartError,
    Wish,
    can_show,
    why_not,
    wishes_of,
)
from generator.packs.working_out import conventions
from specs.avoided import Avoided
from specs.digest import digest_of
from specs.languages.saying import Saying, joined, say, several
from specs.problems import listed
from specs.spec import PLAIN, Kept, RungSpec, SectionSpec, Spec


class TooFewQuestionsError(Exception):
    """A rung, or some together, hold fewer questions than a pack wants. The message says how
    many of each.
    """

    def __init__(self, rungs: Sequence[RungSpec], exist: int, too_few: Saying) -> None:
        self.rungs = tuple(rungs)
        if len(rungs) == 1:
            self.what = several(
                "{rung} has {count} question, and {too_few}",
                "{rung} has {count} questions, and {too_few}",
                exist,
                rung=rungs[0].name,
                too_few=too_few,
            )
            self.instead = say("ask for fewer, or loosen one of its conditions")
        else:
            self.what = several(
                "{rungs} have {count} question between them, and {too_few}",
                "{rungs} have {count} questions between them, and {too_few}",
                exist,
                rungs=listed([rung.name for rung in rungs], "and"),
                too_few=too_few,
            )
            self.instead = say("ask for fewer, or loosen a condition")
        super().__init__(f"{self.what}; {self.instead}")

    @property
    def line(self) -> int:
        """The line of the rung, of several the last."""
        return max(rung.line for rung in self.rungs)


def build_pack(spec: Spec, seed: int, versions: int = 1) -> Pack:
    """The pack of a spec and a seed, with so many versions of each practice sheet.

    Raises TooFewQuestionsError when a rung does not hold as many questions as are wanted, and
    CannotTellApartError when they cannot tell the mistakes apart that they should.
    """
    plans, _ = _filled(spec, seed, versions, frozenset(map(_identity, spec.avoid)))
    return Pack(
        spec.title,
        seed,
        pack_code(digest_of(spec), seed),
        versions,
        tuple(section for plan in plans for section in plan.sections(seed)),
        spec.presentation,
        spec_text=spec.text,
    )


def passed_over(spec: Spec, seed: int, avoided: Collection[Question]) -> tuple[Avoided, ...]:
    """Those of some questions that stand in the way of a pack which avoids them all.

    A pack that avoids these alone, beside those that its spec avoids, is the same pack: of
    the others none was ever looked at. In the order of ``avoided``, none twice; raises as
    ``build_pack`` does.
    """
    identities = frozenset(question.identity for question in avoided)
    listed_already = frozenset(map(_identity, spec.avoid))
    _, drawing = _filled(spec, seed, 1, identities | listed_already)
    met = drawing.passed_over - listed_already
    found = {question.identity: question for question in avoided if question.identity in met}
    return tuple(
        Avoided(str(question.operation), tuple(map(str, question.operands)), _places(question))
        for question in found.values()
    )


def _places(question: Question) -> int:
    """How far a number is rounded; of no account for other questions."""
    return question.places if question.operation is Operation.ROUND else 0


def _identity(avoided: Avoided) -> Hashable:
    """What makes a question the one to be avoided."""
    numbers = tuple(map(Number.parse, avoided.numbers))
    return Question(Operation(avoided.operation), numbers, places=avoided.places).identity


def another(
    spec: Spec, seed: int, versions: int, section: str, position: int
) -> Iterator[Question]:
    """Further questions for a place of a pack, in turn: on the same rung, and those that are as
    hard as the one that is there before others. None is in the pack.

    ``position`` counts a section's questions from 0. Raises as ``build_pack`` does, and KeyError
    for a place that the pack lacks.
    """
    avoided = frozenset(map(_identity, spec.avoid))
    plans, drawing = _filled(spec, seed, versions, avoided, last=2)
    for plan in plans:
        if plan.name == section and position < plan.pairs * len(plan.slots):
            slot = plan.ordered[position // plan.pairs]
            sheet = Sheet()
            for other in plan.slots:
                if other is not slot:
                    sheet.add(other.filled[0].question, other.inquiry)
            return drawing.following(slot, sheet)
    raise KeyError(section)


def _filled(
    spec: Spec,
    seed: int,
    versions: int,
    avoided: Collection[Hashable],
    last: int | None = None,
) -> tuple[list["_Plan"], Drawing]:
    """The sections of a pack, filled up to the ``last`` of their versions, and the drawing that
    filled them.
    """
    if seed < 0 or versions < 1:
        raise ValueError(say("seeds count from 0 and versions from 1"))
    plans = list(_plans(spec, versions))
    for error in too_few(spec, versions):
        raise error
    for cannot in cannot_be_asked(spec.ladder):
        raise cannot
    for hidden in _never_shown(spec):
        raise hidden
    shares, known = _shares(plans, frozenset(avoided))
    drawing = Drawing(
        seed,
        match_rung_only=spec.matching == "rung",
        shares=shares,
        avoided=avoided,
        tried=min(TRIED, DRAWING // max(sum(len(plan.slots) for plan in plans), 1)),
    )
    drawing.passed_over.update(known)
    if spec.keep:
        drawn, _ = _filled(replace(spec, keep=()), seed, versions, avoided, last=1)
        _settle(plans, drawn)
        _keep(spec.keep, plans, drawing)
    _show_own(plans, drawing)
    most = max((plan.versions for plan in plans), default=1)
    for version in range(1, min(most, last or most) + 1):
        for plan in plans:
            if version <= plan.versions:
                _fill(drawing, plan, version)
    return plans, drawing


def _never_shown(spec: Spec) -> Iterator[CannotTellApartError]:
    """What is wrong with each section that is to find out habits which its rungs cannot show."""
    asked: dict[str, SectionSpec] = {}  # of tiers that share what they find out all in one
    ways: dict[str, frozenset[str]] = {}
    for section in spec.sections:
        assert section.place is not None
        name = section.place.part if section.shares_finding else section.name
        if section.finds_out:
            before = asked.get(name, replace(section, name=name, shares=()))
            asked[name] = replace(before, shares=(*before.shares, *section.shares))
            of_section = conventions(spec.presentation, section.methods).ways
            ways[name] = of_section | ways.get(name, frozenset())
    for name, section in asked.items():
        other = made_by_another_method(section, ways[name])
        if other is not None:
            yield other
            continue
        most = LOOKED_AT_OF_A_PACK // (len(asked) * len(section.shares))
        rungs = [spec.rung(share.rung) for share in section.shares]
        found = never_shown(section, rungs, most)
        if found is not None:
            yield found


def _settle(plans: Sequence["_Plan"], drawn: Sequence["_Plan"]) -> None:
    """Give all slots the places, and the questions, that they have where nothing is kept.

    So the letter of a question means the same place, and no other question changes but one
    that is kept elsewhere; and where examples change, their matches may.
    """
    for plan, before in zip(plans, drawn, strict=True):
        for place, slot in enumerate(before.ordered):
            plan.slots[slot.index].place = place
            plan.slots[slot.index].drawn = slot.filled[0].question
            plan.slots[slot.index].drawn_shares = slot.filled[0].shares


def _keep(kept: Sequence[Kept], plans: Sequence["_Plan"], drawing: Drawing) -> None:
    """Put what is kept into its places. Raises CannotBeKeptError."""
    for one in kept:
        for plan in plans:
            if plan.name == one.section:
                (slot,) = (s for s in plan.slots if s.place == one.position // plan.pairs)
                if slot.run is not None:
                    raise CannotBeKeptError(one, slot.rung, of_a_run)
                slot.kept = kept_question(one, slot)
                if not drawing.hold(slot):
                    raise CannotBeKeptError(one, slot.rung, wanted)


def _show_own(plans: Sequence["_Plan"], drawing: Drawing) -> None:
    """Put the teacher's own examples into their places. Raises NotOnItsRungError, and
    CannotBeKeptError where one is to be avoided or shown twice.
    """
    for plan in plans:
        for slot in plan.slots:
            own = slot.own
            if own is None or own.question is None or slot.kept is not None:
                continue
            slot.kept = own_question(own.question, own.line, slot)
            if not drawing.hold(slot):
                kept = Kept(plan.name, label(slot.index * plan.pairs), own.question, own.line)
                raise CannotBeKeptError(kept, slot.rung, wanted)


def _shares(plans: Sequence["_Plan"], avoided: frozenset[Hashable]) -> tuple[Shares, set[Hashable]]:
    """What each rung is to have of the questions that others want too, decided for every seed.

    Also those avoided questions on which it hangs. A rung that holds as many questions as all
    places for its operation want never goes short, and is left out.
    """
    suited = {slot.number: slot.suited for plan in plans for slot in plan.slots}
    wanted = Counter[int]()
    for plan in plans:
        for slot in plan.slots:
            wanted[slot.number] += plan.versions
    in_all, others = Counter[str](), Counter[str]()
    for number, one in suited.items():
        in_all[one.rung.operation] += wanted[number]
        others[one.rung.operation] += 1
    held, known = {}, set[Hashable]()
    for number, one in suited.items():
        enough = in_all[one.rung.operation]
        if one.picks:
            one.look(enough, avoided)
        elif others[one.rung.operation] > 1 and one.questions.count < enough + len(avoided):
            one.look(one.questions.count)
        else:
            continue
        identities = {question.identity for question in one.found}
        known |= identities & avoided
        if len(identities - avoided) < enough:
            held[number] = identities - avoided
    shares = Shares(wanted, held)
    if shares.shortage is not None:
        raise _too_few_together(shares.shortage, plans, avoided)
    return shares, known


def _too_few_together(
    short: Shortage, plans: Sequence["_Plan"], avoided: Collection[Hashable]
) -> TooFewQuestionsError | CannotTellApartError:
    """Why no pack can be made, whatever its seed."""
    concerned = [
        (plan, [slot for slot in plan.slots if slot.number in short.rungs]) for plan in plans
    ]
    slots = [slot for _, some in concerned for slot in some]
    rungs = list(dict.fromkeys(slot.rung for slot in slots))
    for plan, some in concerned:
        if some and some[0].wishes and len(rungs) == 1:
            return _why_none(some[0], plan)
    if len(rungs) == 1:
        return TooFewQuestionsError(
            rungs, rung_set(rungs[0]).count, _why_no_more(rungs[0], avoided)
        )
    where = joined((_so_many_of(plan, len(some)) for plan, some in concerned if some), ", ")
    if avoided:
        are_wanted = say(
            "{count} are wanted, apart from those to be avoided, ({where})",
            count=short.wanted,
            where=where,
        )
    else:
        are_wanted = say("{count} are wanted ({where})", count=short.wanted, where=where)
    return TooFewQuestionsError(rungs, short.exist, are_wanted)


@dataclass(frozen=True)
class _Plan:
    """A section to be filled: its slots, and how many versions of each."""

    asked: SectionSpec
    kind: str
    versions: int
    slots: tuple[Slot, ...]

    @property
    def name(self) -> str:
        """The section's name."""
        return self.asked.name

    @property
    def pairs(self) -> int:
        """How many questions of a slot stand side by side."""
        return 2 if self.kind == "example" else 1

    @property
    def ordered(self) -> list[Slot]:
        """The filled slots: rungs as the spec has them, easier questions first within each, runs
        as they are; or in the places that are settled.
        """
        if all(slot.place is not None for slot in self.slots):
            return sorted(self.slots, key=lambda slot: slot.place or 0)
        together = [slot.run or slot.rung.name for slot in self.slots]
        groups = list(dict.fromkeys(together))
        return sorted(
            self.slots,
            key=lambda slot: (
                groups.index(together[slot.index]),
                (slot.index,) if slot.run else slot.signature.difficulty,
            ),
        )

    def sections(self, seed: int) -> list[Section]:
        """The finished sections, one a version; a section of pairs is one."""
        slots = self.ordered
        if self.kind == "example":
            sheets = [[(slot, at) for slot in slots for at in range(2)]]
        else:
            sheets = [[(slot, at) for slot in slots] for at in range(self.versions)]
        filled = [_items(sheet, seed) for sheet in sheets]
        if self.kind == "example":
            filled = [_alike(items) for items in filled]
        minutes = self.asked.minutes
        if minutes is None and self.kind != "example":
            minutes = usual_minutes(filled[0])  # the same for all versions
        return [
            Section(
                self.name,
                self.kind,
                version,
                minutes,
                items,
                self.asked.frames,
                self.asked,
                len(filled),
            )
            for version, items in enumerate(filled, 1)
        ]


def _items(sheet: list[tuple[Slot, int]], seed: int) -> tuple[Item, ...]:
    items = []
    used: dict[str, Slot] = {}
    for position, (slot, version_at) in enumerate(sheet):
        drawn = slot.filled[version_at]
        items.append(
            Item(
                label(position),
                slot.rung.name,
                drawn.question,
                str(drawn.signature),
                (*drawn.signature.features, *in_a_run(slot, version_at)),
                slot.questions.widenings[drawn.step],
                _form(slot, drawn.question, seed, used),
                slot.rung.seen_as,
            )
        )
    return tuple(items)


def _alike(items: tuple[Item, ...]) -> tuple[Item, ...]:
    """Pairs whose match is asked as goes with its example."""
    alike = list(items)
    for at in range(1, len(items), 2):
        shown, match = items[at - 1], items[at]
        form = shown.form.of_the_match(match.form, match.question)
        alike[at] = replace(match, form=form)
    return tuple(alike)


def _form(slot: Slot, question: Question, seed: int, used: dict[str, Slot]) -> Form:
    """How a slot's question is asked: every version alike, and no two slots in the same words
    where that can be helped.
    """
    dice = Dice(key(seed, "form", slot.section))
    taken = [name for name, other in used.items() if other is not slot]
    form = form_of(slot.rung, question, Turn(dice, slot.index, taken))
    if form is None:
        raise CannotBeAskedError(slot.rung, tried_all=False)
    if form.sentence_used:
        used.setdefault(form.sentence_used, slot)
    return form


def label(position: int) -> str:
    """The letter of a question: a to z, then aa, ab and so on."""
    letters = "abcdefghijklmnopqrstuvwxyz"
    rounds, letter = divmod(position, len(letters))
    return (letters[rounds - 1] if rounds else "") + letters[letter]


def _plans(spec: Spec, versions: int) -> Iterator[_Plan]:
    numbers: dict[tuple[str, tuple[str, ...]], tuple[int, Suited]] = {}
    told_apart = len({section.tells_apart for section in spec.sections} | {()})
    most = LOOKED_AT_OF_A_PACK // (len(spec.ladder) * told_apart)

    def suited(rung: RungSpec, section: SectionSpec) -> tuple[int, Suited]:
        known = rung.name, section.tells_apart if rung.form == PLAIN else ()
        if known not in numbers:
            wishes = wishes_of(rung, section, min(most, LOOKED_AT))
            numbers[known] = len(numbers), Suited(rung, wishes, most)
        return numbers[known]

    for section in spec.sections:
        assert section.place is not None
        each = [share for share in section.shares for _ in range(share.count)]
        rungs = [spec.rung(share.rung) for share in section.shares]
        inquiry = inquiry_of(section, rungs, conventions(spec.presentation, section.methods).ways)
        looks = min(LOOKS_TO_FIND_OUT, LOOKS_OF_A_SECTION // len(each))
        slots = []
        for index, share in enumerate(each):
            rung = spec.rung(share.rung)
            number, found = suited(rung, section)
            slot = Slot(section.name, section.place.index, found, index, number, own=share)
            if inquiry and rung.form == PLAIN:
                slot.inquiry, slot.looks = inquiry, looks
            slots.append(slot)
        kind = kind_of(section.place.kind)
        of_each = 2 if kind == "example" else spec.versions_of(section, versions)
        yield _Plan(section, kind, of_each, tuple(slots))


def _fill(drawing: Drawing, plan: _Plan, version: int) -> None:
    """Fill one version of a section."""
    sheet = Sheet()
    if plan.kind == "example":
        # A match with the answer of the question that was shown could be copied.
        for slot in plan.slots:
            for drawn in slot.filled:
                sheet.add(drawn.question)
    for at, slot in enumerate(plan.slots):
        if slot.run is not None:
            if len(slot.filled) < version:
                alike = [other for other in plan.slots if other.run == slot.run]
                fill_run(drawing, alike, sheet, version)
            continue
        if version == 1:
            filled = drawing.first(slot, sheet, _urgent(plan.slots[at:], sheet))
        else:
            filled = drawing.next(slot, sheet)
        if not filled:
            if slot.wishes:
                raise _why_none(slot, plan)
            exist = rung_set(slot.rung).count
            why = _why_no_more(slot.rung, drawing.avoided)
            raise TooFewQuestionsError([slot.rung], exist, why)
    for slot in plan.slots:
        for wish in slot.wishes:
            # An example is shown, not marked: one pair need not show every mistake.
            if plan.kind != "example" and sheet.missing(wish):
                sharing = [other.rung for other in plan.slots if _has(other, wish)]
                rungs = tuple(dict.fromkeys(sharing))
                raise why_not(wish, rungs, sheet.missing(wish), len(sharing), plan.name)


def _urgent(slots: Sequence[Slot], sheet: Sheet) -> frozenset[Mistake]:
    """The section's mistakes that the first of some slots must show, or none of them will."""
    first, *later = ([wish for wish in slot.wishes if wish.rung is None] for slot in slots)
    missing = frozenset(mistake for wish in first for mistake in sheet.missing(wish))
    return missing.difference(*(wish.possible for wishes in later for wish in wishes))


def _has(slot: Slot, wish: Wish) -> bool:
    """Whether a slot shares a wish: its rung's or its section's."""
    return any(own.rung == wish.rung for own in slot.wishes)


def _why_none(slot: Slot, plan: _Plan) -> CannotTellApartError:
    """Why no question was found for a slot that is to tell mistakes apart."""
    slots = sum(other.rung == slot.rung for other in plan.slots)
    hopeless = [wish for wish in slot.wishes if not can_show(slot.rung, wish.mistakes)]
    wish, *_ = hopeless or slot.wishes
    return why_not(wish, (slot.rung,), (), slots, plan.name)


def _why_no_more(rung: RungSpec, avoided: Collection[Hashable]) -> Saying:
    if avoided:
        return say("those left are among the questions to be avoided")
    if rung.context:
        return say(
            "no more were found that can be put in words about {things}",
            things=listed(rung.context),
        )
    return say("other rungs have used them up")


def _so_many_of(plan: _Plan, count: int) -> Saying:
    """``starter 3``, ``core 3 in 2 versions``."""
    if plan.versions == 1:
        return joined((plan.name, str(count)))
    return say(
        "{section} {count} in {versions} versions",
        section=plan.name,
        count=count,
        versions=plan.versions,
    )


def too_few(spec: Spec, versions: int = 1) -> Iterator[TooFewQuestionsError]:
    """What is wrong with each rung that holds fewer questions than a pack wants of it."""
    plans = list(_plans(spec, versions))
    for rung in spec.ladder:
        asked, parts = 0, []
        for plan in plans:
            count = sum(slot.rung == rung for slot in plan.slots)
            if count:
                asked += count * plan.versions
                parts.append(_so_many_of(plan, count))
        exist = rung_set(rung).count
        if asked > exist:
            are_wanted = say("{count} are wanted ({where})", count=asked, where=joined(parts, ", "))
            yield TooFewQuestionsError([rung], exist, are_wanted)
