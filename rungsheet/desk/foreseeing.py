"""Before printing: what the answers to a pack will tell, of each habit and of a class."""

import json
from collections import Counter
from collections.abc import Iterator, Sequence
from textwrap import wrap
from typing import TYPE_CHECKING, Final

from rungsheet.desk.packs import Edition, choose
from rungsheet.desk.problems import Problem, Refused, refusing
from specs import Spec
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
        what = "no question that pupils answer asks for the answer alone"
        instead = f"take some from a rung with 'form: {PLAIN}', in the starter or in a tier"
        raise Refused(Problem(spec.source, None, what, instead))
    return found


def as_json(spec: Spec, seed: int, found: "Foresight") -> str:
    """What was foreseen, for programs."""
    return json.dumps({"title": spec.title, "seed": seed, **found.plain}, indent=2)


def as_lines(spec: Spec, seed: int, found: "Foresight") -> Iterator[str]:
    """What was foreseen, as lines of text in columns."""
    stages = [stage.name for stage in found.stages]
    called = _names(found)
    yield f"{spec.title}, seed {seed}: what the answers will tell"
    yield f"Of 100 pupils with a habit, so many are said to have it, {found.sure:.0%} sure or more,"
    yield "after each part and those before it; of tiers side by side a pupil works one."
    yield f"'-': no question shows it yet. {found.pupils:,} pupils were simulated."
    yield ""
    rows = [["habit", *stages, "may be taken for"]]
    for habit in found.habits:
        shares = zip(habit.named, habit.shows, strict=True)
        counts = [_of_100(share) if shows else "-" for share, shows in shares]
        others = "; ".join(_taken_for(habit, called))
        rows.append([called[habit.mistake], *counts, others])
    rows.append(["(careful pupils said to have one)", *map(_of_100, found.called), ""])
    yield from _columns(rows, len(stages))
    yield ""
    habits = _about(found.of_class[-1].habits)
    yield f"In a class of {found.in_a_class} some {habits} of these habits are to be expected:"
    for name, expected in zip(stages, found.of_class, strict=True):
        wrongly = f"{_about(expected.wrongly)} said of somebody who does not have it"
        yield f"  after {name} {_about(expected.named)} are named, and {wrongly}"
    if found.unseen:
        yield ""
        unseen = "; ".join(mistake.in_brief for mistake in found.unseen)
        yield from wrap(f"No question shows: {unseen}.", _WIDTH, break_on_hyphens=False)


def _names(found: "Foresight") -> dict["Mistake", str]:
    """The habits in brief; in full where two are called alike in brief."""
    mistakes = [habit.mistake for habit in found.habits]
    briefly = Counter(mistake.in_brief for mistake in mistakes)
    return {m: m.in_brief if briefly[m.in_brief] == 1 else m.title for m in mistakes}


def _taken_for(habit: "HabitForeseen", called: dict["Mistake", str]) -> Iterator[str]:
    for other in habit.alike:
        yield f"{called[other]} (always the same answers)"
    for rival in habit.rivals[:_MOST_RIVALS]:
        name = called[rival.mistake] if rival.mistake else "slips"
        yield f"{name} ({_of_100(rival.chance)})"


def _of_100(share: float) -> str:
    return f"{100 * share:.0f}"


def _about(count: float) -> str:
    return f"{count:.0f}" if count >= 9.5 else f"{count:.1f}"


def _columns(rows: Sequence[Sequence[str]], numbers: int) -> Iterator[str]:
    """Rows in columns, so many of them of numbers, after the first."""
    widths = [max(len(row[at]) for row in rows) for at in range(len(rows[0]))]
    for row in rows:
        cells = [row[0].ljust(widths[0])]
        cells += [row[at].rjust(widths[at]) for at in range(1, numbers + 1)]
        yield "  ".join([*cells, row[-1]]).rstrip()
