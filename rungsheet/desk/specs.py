"""A spec read, and every reason gathered why no pack could be made of it."""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from typing import Final

from generator.forms.asking import cannot_be_asked
from generator.packs.conflicts import conflicts
from generator.packs.working_out import usage_of
from generator.vocabulary import VOCABULARY
from rungsheet.desk.problems import Problem, Refused, problems_of, words_of
from specs import DEMO, Spec, SpecError, read_spec, shipped, shipped_names
from specs.languages.usage import Usage
from specs.spec import RungSpec

__all__ = [
    "DEMO",
    "RungSpec",
    "Spec",
    "checked",
    "read",
    "reading",
    "shipped_names",
    "shipped_text",
    "usage_of_pages",
]

USUAL_NAME: Final = "lesson.yaml"


def usage_of_pages(spec: Spec) -> Usage:
    """How a spec's pages speak and write: its language, the numbers and signs of its land."""
    return usage_of(spec.presentation)


def read(text: str | bytes, name: str = USUAL_NAME) -> Spec:
    """The spec of a text, or of a file's bytes; ``name`` is the file's, for messages.

    Refused with all that is wrong in it; also with every rung whose words can be read and that
    has no question, is too wide to be counted or cannot be asked as it wishes, and with a title
    that cannot be printed.
    """
    data = text.encode("utf-8", "surrogatepass") if isinstance(text, str) else text
    with reading(name):
        spec = read_spec(data, name, VOCABULARY)
    return checked(spec)


@contextmanager
def reading(name: str) -> Iterator[None]:
    """Within it, a spec that is refused is also refused for the rungs of it that could be read."""
    try:
        yield
    except SpecError as error:
        so_far = () if error.so_far is None else tuple(_of_rungs(_countable(error.so_far)))
        raise Refused(*(problems_of(error, name) or ()), *so_far) from error


def _countable(spec: Spec) -> Spec:
    """A spec without the rungs whose words do not go together: some are too wide to be counted."""
    return replace(
        spec,
        ladder=tuple(
            rung
            for rung in spec.ladder
            if not any(found for check in VOCABULARY.checks for found in check(rung))
        ),
    )


def checked(spec: Spec) -> Spec:
    """The same spec, when all it asks for can be asked and printed; Refused if not."""
    problems = (*_of_its_texts(spec), *_of_rungs(spec))
    if problems:
        raise Refused(*problems)
    return spec


def _of_its_texts(spec: Spec) -> Iterator[Problem]:
    """The texts of a spec that may have letters of all kinds: those that no page can show."""
    for line, text in dict.fromkeys(spec.texts):
        if text.isascii():
            continue  # without looking: all of ASCII is there
        from layouts.planning.errors import UnprintableError
        from layouts.planning.typeface import refuse_unprintable

        try:
            refuse_unprintable(text)
        except UnprintableError as error:
            yield Problem(spec.source, line, words_of(error))


def _of_rungs(spec: Spec) -> Iterator[Problem]:
    empty = set()
    for conflict in conflicts(spec):
        empty.add(conflict.rung)
        yield Problem(spec.source, conflict.line, conflict.what, conflict.instead)
    for error in cannot_be_asked(rung for rung in spec.ladder if rung not in empty):
        yield Problem(spec.source, error.line, error.what, error.instead)


def shipped_text(name: str = DEMO) -> str:
    """The text of a spec that ships. Raises KeyError when none has that name."""
    return shipped(name).read_text(encoding="utf-8")
