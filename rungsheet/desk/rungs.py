"""The rungs of a spec, counted: how many questions each holds, exactly, and one of them."""

import json
from collections.abc import Callable, Iterator, Sequence

from generator.packs import ladder
from generator.packs.ladder import RungView, RunView
from rungsheet.desk.problems import refusing
from specs import Spec
from specs.languages.saying import grouped, joined, say
from specs.names import spelt
from specs.spec import RungSpec

__all__ = ["RunView", "RungView", "as_json", "as_table", "called", "count", "runs"]


def called(rung: RungSpec) -> str:
    """What a rung is called on pages for the teacher."""
    return rung.key or spelt(rung.name, rung.shown_as)


def count(spec: Spec) -> tuple[RungView, ...]:
    """A view of every rung of a spec that was read, in its order."""
    with refusing(spec.source, spec):
        return ladder.ladder(spec)


def runs(spec: Spec) -> tuple[RunView, ...]:
    """A view of every run of a spec that was read: how many numbers serve all its rungs."""
    with refusing(spec.source, spec):
        return ladder.runs(spec)


def as_table(
    views: Sequence[RungView],
    of_runs: Sequence[RunView] = (),
    says: Callable[[str], str] = str,
) -> str:
    """The views as lines of text in columns, and each run in a line of its own.

    ``says`` says what are sayings.
    """
    lines = [says(view.line) for view in of_runs]
    return "\n".join((*_table(views, says), *(["", *lines] if lines else ())))


def _table(views: Sequence[RungView], says: Callable[[str], str]) -> Iterator[str]:
    heads = (say("rung"), say("operation"), say("questions"), say("one of them"))
    rows: list[tuple[str, ...]] = [(*heads, say("its features"))]
    for view in views:
        features = joined(view.item.features, between="; ") if view.item else ""
        count = grouped(view.questions)
        rows.append((view.rung.name, view.rung.operation, count, view.shown, features))
    said = [tuple(map(says, row)) for row in rows]
    widths = [max(len(row[column]) for row in said) for column in range(4)]
    for name, operation, count, text, features in said:
        yield (
            f"{name:<{widths[0]}}  {operation:<{widths[1]}}  {count:>{widths[2]}}  "
            f"{text:<{widths[3]}}  {features}".rstrip()
        )


def as_json(views: Sequence[RungView], of_runs: Sequence[RunView] = ()) -> str:
    """The views for programs, those of runs last."""
    plain = [*(view.plain for view in views), *(view.plain for view in of_runs)]
    return json.dumps(plain, indent=2)
