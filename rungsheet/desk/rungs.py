"""The rungs of a spec, counted: how many questions each holds, exactly, and one of them."""

import json
from collections.abc import Sequence

from generator.packs import ladder
from generator.packs.ladder import RungView, RunView
from rungsheet.desk.problems import refusing
from specs import Spec

__all__ = ["RunView", "RungView", "as_json", "as_table", "count", "runs"]


def count(spec: Spec) -> tuple[RungView, ...]:
    """A view of every rung of a spec that was read, in its order."""
    with refusing(spec.source, spec):
        return ladder.ladder(spec)


def runs(spec: Spec) -> tuple[RunView, ...]:
    """A view of every run of a spec that was read: how many numbers serve all its rungs."""
    with refusing(spec.source, spec):
        return ladder.runs(spec)


def as_table(views: Sequence[RungView], of_runs: Sequence[RunView] = ()) -> str:
    """The views as lines of text in columns, and each run in a line of its own."""
    lines = [view.line for view in of_runs]
    return "\n".join((RungView.table(tuple(views)), *(["", *lines] if lines else ())))


def as_json(views: Sequence[RungView], of_runs: Sequence[RunView] = ()) -> str:
    """The views for programs, those of runs last."""
    plain = [*(view.plain for view in views), *(view.plain for view in of_runs)]
    return json.dumps(plain, indent=2)
