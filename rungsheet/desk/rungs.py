"""The rungs of a spec, counted: how many questions each holds, exactly, and one of them."""

import json
from collections.abc import Sequence

from generator.packs.ladder import RungView, ladder
from rungsheet.desk.problems import refusing
from specs import Spec

__all__ = ["RungView", "as_json", "as_table", "count"]


def count(spec: Spec) -> tuple[RungView, ...]:
    """A view of every rung of a spec that was read, in its order."""
    with refusing(spec.source, spec):
        return ladder(spec)


def as_table(views: Sequence[RungView]) -> str:
    """The views as lines of text in columns."""
    return RungView.table(tuple(views))


def as_json(views: Sequence[RungView]) -> str:
    """The views for programs."""
    return json.dumps([view.plain for view in views], indent=2)
