"""From a spec and a seed to a pack: the sections of a lesson, filled and put in order."""

from collections.abc import Collection, Hashable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace

from generator.arithmetic.numbers import Number
from generator.arithmetic.questions import Operation, Question
from generator.forms.asking import CannotBeAskedError, check_can_be_asked, form_of
from generator.forms.form import Form, Turn
from generator.numbered.seeds import Dice, key
from generator.operations.mistakes import Mistake
from generator.operations.rungs import rung_set
from generator.packs.choosing import Drawing, Sheet, Slot
from generator.packs.codes import pack_code
from generator.packs.keeping import kept_question
from generator.packs.pacing import usual_minutes
from generator.packs.pack import Item, Pack, Section
from generator.packs.telling_apart import CannotTellApartError, Wish, can_show, why_not, wishes_of
from specs.avoided import Avoided
from specs.digest import digest_of
from specs.problems import listed
from specs.spec import EXAMPLES, RungSpec, SectionSpec, Spec


class TooFewQuestionsError(Exception):
    """A rung holds fewer questions than a pack wants. The message says how many of each."""

    def __init__(self, rung: RungSpec, exist: int, wanted: str) -> None:
        self.rung = rung
        self.what = f"{rung.name} has {exist} question{'' if exist == 1 else 's'}, and {wanted}"
        self.instead = "ask for fewer, or loosen one of its conditions"
        super().__init__(f"{self.what}; {self.instead}")

    @property
    def line(self) -> int:
        """The line of the rung."""
        return self.rung.line


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


def _filled(
    spec: Spec, seed: int, versions: int, avoided: Collection[Hashable]
) -> tuple[list["_Plan"], Drawing]:
    """The sections of a pack, filled, and the drawing that filled them."""
    if seed < 0 or versions < 1:
        raise ValueError("seeds count from 0 and versions from 1")
    plans = list(_plans(spec, versions))
    for error in too_few(spec, versions):
        raise error
    for rung in spec.ladder:
        check_can_be_asked(rung, rung_set(rung))
    drawing = Drawing(seed, match_rung_only=spec.matching == "rung", avoided=avoided)
    for plan in plans:
        drawing.hold(plan.kept.values())
    for version in range(1, max((plan.versions for plan in plans), default=1) + 1):
        for plan in plans:
            if version <= plan.versions:
                _fill(drawing, plan, version)
    return plans, drawing


@dataclass(frozen=True)
class _Plan:
    """A section to be filled: its slots, and how many versions of each."""

    name: str
    kind: str
    minutes: int | None
    versions: int
    slots: tuple[Slot, ...]
    frames: tuple[str, str] | None = None
    kept: Mapping[int, Question] = field(default_factory=dict)

    @property
    def ordered(self) -> list[Slot]:
        """The filled slots: rungs as the spec has them, easier questions first within each.

        Where questions are kept, places are settled before they are put there.
        """
        if self.kept and all(slot.place is not None for slot in self.slots):
            return sorted(self.slots, key=lambda slot: slot.place or 0)
        rungs = list(dict.fromkeys(slot.rung.name for slot in self.slots))
        return sorted(
            self.slots, key=lambda slot: (rungs.index(slot.rung.name), slot.signature.difficulty)
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
        minutes = self.minutes
        if minutes is None and self.kind != "example":
            minutes = usual_minutes(filled[0])  # the same for all versions
        return [
            Section(self.name, self.kind, version, minutes, items, self.frames)
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
                drawn.signature.features,
                slot.questions.widenings[drawn.step],
                _form(slot, drawn.question, seed, used),
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
    def plan(section: SectionSpec, kind: str, of_each: int, at: int) -> _Plan:
        rungs = [spec.rung(share.rung) for share in section.shares for _ in range(share.count)]
        wishes = {rung: wishes_of(rung, section) for rung in rungs}
        slots = tuple(
            Slot(section.name, at, rung, index, wishes=wishes[rung])
            for index, rung in enumerate(rungs)
        )
        each = 2 if kind == "example" else 1  # questions of a slot that stand side by side
        kept = {
            one.position // each: kept_question(one, slots[one.position // each])
            for one in spec.keep
            if one.section == section.name
        }
        return _Plan(section.name, kind, section.minutes, of_each, slots, section.frames, kept)

    if spec.starter:
        yield plan(spec.starter, "starter", 1, 0)
    if spec.examples:
        yield plan(SectionSpec(EXAMPLES, spec.examples), "example", 2, 1)
    for at, tier in enumerate(spec.tiers, 2):
        yield plan(tier, "practice", versions, at)


def _fill(drawing: Drawing, plan: _Plan, version: int) -> None:
    """Fill one version of a section."""
    sheet = Sheet()
    if version == 1 and plan.kept:
        drawing.let_go(plan.kept.values())
    if plan.kind == "example":
        # A match with the answer of the question that was shown could be copied.
        for slot in plan.slots:
            for drawn in slot.filled:
                sheet.add(drawn.question)
    for at, slot in enumerate(plan.slots):
        if version == 1:
            filled = drawing.first(slot, sheet, _urgent(plan.slots[at:], sheet))
        else:
            filled = drawing.next(slot, sheet)
        if not filled:
            if slot.wishes:
                raise _why_none(slot, plan)
            exist = rung_set(slot.rung).count
            raise TooFewQuestionsError(slot.rung, exist, _why_no_more(slot.rung, drawing))
    if version == 1 and plan.kept:
        sheet = _put_kept(drawing, plan, sheet)
    for slot in plan.slots:
        for wish in slot.wishes:
            # An example is shown, not marked: one pair need not show every mistake.
            if plan.kind != "example" and sheet.missing(wish):
                sharing = [other.rung for other in plan.slots if _has(other, wish)]
                rungs = tuple(dict.fromkeys(sharing))
                raise why_not(wish, rungs, sheet.missing(wish), len(sharing), plan.name)


def _put_kept(drawing: Drawing, plan: _Plan, sheet: Sheet) -> Sheet:
    """Put what a section keeps into its places; gives the sheet as it is then.

    All others stay what they were and where they were, but for one that had drawn a kept
    question itself: it draws another as much like it as can be.
    """
    slots = plan.ordered
    drawing.hold(plan.kept.values())
    kept = {question.identity for question in plan.kept.values()}
    for place, slot in enumerate(slots):
        slot.place = place
        if place in plan.kept:
            drawing.keep(slot, plan.kept[place])
        elif slot.filled[0].question.identity in kept and not drawing.draw_again(slot, sheet):
            raise TooFewQuestionsError(
                slot.rung, rung_set(slot.rung).count, _why_no_more(slot.rung, drawing)
            )
    final = Sheet()
    for slot in slots:
        final.put(slot)
    return final


def another(spec: Spec, seed: int, section: str, position: int) -> Question | None:
    """The next question for a place of a pack: on the same rung, and as hard where there is such.

    ``position`` counts a section's questions from 0. None when the rung has no other that the
    pack does not use. Raises as ``build_pack`` does, and KeyError for a place that it lacks.
    """
    plans, drawing = _filled(spec, seed, 1, frozenset(map(_identity, spec.avoid)))
    for plan in plans:
        if plan.name == section:
            slot = plan.ordered[position // (2 if plan.kind == "example" else 1)]
            sheet = Sheet()
            for other in plan.slots:
                if other is not slot:
                    sheet.put(other)
            return drawing.following(slot, sheet)
    raise KeyError(section)


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


def _why_no_more(rung: RungSpec, drawing: Drawing) -> str:
    if drawing.avoided:
        return "those left are among the questions to be avoided"
    if rung.context:
        return f"no more were found that can be put in words about {listed(rung.context)}"
    return "other rungs have used them up"


def too_few(spec: Spec, versions: int = 1) -> Iterator[TooFewQuestionsError]:
    """What is wrong with each rung that holds fewer questions than a pack wants of it."""
    plans = list(_plans(spec, versions))
    for rung in spec.ladder:
        wanted, parts = 0, []
        for plan in plans:
            count = sum(slot.rung == rung for slot in plan.slots)
            if count:
                wanted += count * plan.versions
                times = f" in {plan.versions} versions" if plan.versions > 1 else ""
                parts.append(f"{plan.name} {count}{times}")
        exist = rung_set(rung).count
        if wanted > exist:
            yield TooFewQuestionsError(rung, exist, f"{wanted} are wanted ({', '.join(parts)})")
