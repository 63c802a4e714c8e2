"""Before printing: what the answers to a pack will tell, of each habit and of a class."""

import json
from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from fractions import Fraction
from textwrap import wrap
from typing import TYPE_CHECKING, Final

from rungsheet.desk.packs import Edition, choose, in_json
from rungsheet.desk.problems import Problem, Refused, refusing
from specs import Spec
from specs.languages.saying import grouped, joined, say, say_of
from specs.spec import PLAIN

if TYPE_CHECKING:
    from generator.operations.mistake import Mistake
    from generator.results.foresight import Foresight, HabitForeseen

__all__ = ["as_json", "as_lines", "foresee"]

_MOST_RIVALS: Final = 2

_WIDTH: Final = 96


def foresee(spec: Spec, seed: int = 1) -> "Foresight":
    """What the answers to a spec's pack will tell. Simulates pupils, with numpy."""
    from generator.results.foresight import foresee as foreseen  # here: it alone loads numpy

    with refusing(spec.source, spec):
        found = foreseen(choose(spec, Edition(seed)))
    if not found.stages:
        what = say("no question that pupils answer asks for the answer alone")
        instead = say(
            "take some from a rung with 'form: {form}', in the starter or in a tier", form=PLAIN
        )
        raise Refused(Problem(spec.source, None, what, instead))
    return found


def as_json(spec: Spec, seed: int, found: "Foresight") -> str:
    """What was foreseen, for programs."""
    plain = {"title": spec.title, "seed": seed, **found.plain}
    return json.dumps(plain, indent=2, default=in_json)


def as_lines(
    spec: Spec, seed: int, found: "Foresight", says: Callable[[str], str] = str
) -> Iterator[str]:
    """What was foreseen, as lines of text in columns; its sayings as ``says`` says them."""
    stages = [stage.name for stage in found.stages]
    called = _names(found)
    yield says(say("{title}, seed {seed}: what the answers will tell", title=spec.title, seed=seed))
    yield says(
        say(
            "Out of 100 pupils who have a habit: for how many it is found, {sure}% sure or more,\n"
            "after each part and all before it; of tiers side by side a pupil works one.\n"
            "'-': no question shows it yet. {pupils} pupils were simulated.",
            sure=_of_100(found.sure),
            pupils=grouped(found.pupils),
        )
    )
    yield ""
    rows: list[list[str]] = [[say("habit"), *stages, say("may be taken for")]]
    for habit in found.habits:
        shares = zip(habit.named, habit.shows, strict=True)
        counts = [_of_100(share) if shows else "-" for share, shows in shares]
        others = joined(_taken_for(habit, called), between="; ")
        rows.append([called[habit.mistake], *counts, others])
    rows.append(
        [say("(pupils with no habit, wrongly said to have one)"), *map(_of_100, found.called), ""]
    )
    yield from columns([[says(cell) for cell in row] for row in rows], len(stages))
    yield ""
    habits = _about(found.of_class[-1].habits)
    yield says(
        say(
            "In a class of {pupils}, expect about {habits} of these habits:",
            pupils=found.in_a_class,
            habits=habits,
        )
    )
    for name, expected in zip(stages, found.of_class, strict=True):
        line = say(
            "after {part}: {named} found, and {wrongly} reported for a pupil who does not have it",
            part=name,
            named=_about(expected.named),
            wrongly=_about(expected.wrongly),
        )
        yield f"  {says(line)}"
    if found.unseen:
        yield ""
        unseen = joined((mistake.in_brief for mistake in found.unseen), between="; ")
        line = say("No question shows: {unseen}.", unseen=unseen)
        yield from wrap(says(line), _WIDTH, break_on_hyphens=False)


def _names(found: "Foresight") -> dict["Mistake", str]:
    """The habits in brief; in full where two are called alike in brief."""
    mistakes = [habit.mistake for habit in found.habits]
    briefly = Counter(mistake.in_brief for mistake in mistakes)
    return {m: m.in_brief if briefly[m.in_brief] == 1 else m.title for m in mistakes}


def _taken_for(habit: "HabitForeseen", called: dict["Mistake", str]) -> Iterator[str]:
    for other in habit.alike:
        yield say("{habit} (always the same answers)", habit=called[other])
    for rival in habit.rivals[:_MOST_RIVALS]:
        name = called[rival.mistake] if rival.mistake else say("slips")
        yield joined((name, f"({_of_100(rival.chance)})"))


def _of_100(share: Fraction | float) -> str:
    return str(round(100 * Fraction(share)))


def _about(count: Fraction) -> str:
    if count >= Fraction(19, 2):
        return str(round(count))
    whole, tenths = divmod(round(10 * count), 10)
    return say_of("number", "{whole}.{tenths}", whole=whole, tenths=tenths)


def columns(rows: Sequence[Sequence[str]], numbers: int) -> Iterator[str]:
    """Rows in columns, so many of them of numbers, after the first."""
    widths = [max(len(row[at]) for row in rows) for at in range(len(rows[0]))]
    for row in rows:
        cells = [row[0].ljust(widths[0])]
        cells += [row[at].rjust(widths[at]) for at in range(1, numbers + 1)]
        yield "  ".join([*cells, row[-1]]).rstrip()
