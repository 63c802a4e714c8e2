"""A pack's pages as pictures, for a screen: the very pages that would be printed."""

from dataclasses import dataclass

from generator.packs.ladder import RungView, view
from generator.packs.working_out import work_alone
from rungsheet.desk import packs
from rungsheet.desk.packs import Built, File, planned
from rungsheet.desk.problems import Problem, Refused, refusing
from specs import Spec
from specs.languages import saying
from specs.problems import choose_from

__all__ = ["KINDS", "Pictured", "of_a_rung", "one", "pictured"]

KINDS = packs.PICTURES
"""Kinds of pictures: sharp at any size, or of dots."""


@dataclass(frozen=True, slots=True)
class Pictured:
    """One of a pack's files: its name, its role, its title, and each page as SVG.

    ``of`` is how many pages it has, where not all of them were drawn; ``sections`` are those
    whose questions it holds.
    """

    name: str
    role: str
    title: str
    pages: tuple[str, ...]
    of: int
    sections: tuple[str, ...]


def pictured(built: Built, name: str, most: int | None = None) -> Pictured:
    """One of the files to be drawn, each page a picture with words for those who hear it.

    No more than ``most`` pages are drawn, where that is given.
    """
    from layouts.pictures.svg import svg
    from layouts.planning.wording import page_named

    file = planned(built, name)
    of = len(file.pages)
    say = built.worked.facts.usage
    pages = tuple(
        svg(page, page_named(file.title, at, say, of), say.language)
        for at, page in enumerate(file.pages[:most], 1)
    )
    return Pictured(file.name, file.role, file.title, pages, of, file.sections)


def of_a_rung(view: RungView, spec: Spec) -> str | None:
    """The question that a view shows, on squares as a pupil's sheet has it; None without one."""
    from layouts.pictures.svg import svg
    from layouts.sheets.one_question import one_question

    if view.item is None:
        return None
    with refusing(spec.source, spec):
        item = work_alone(view.item, spec.presentation)
        return svg(one_question(item, spec.presentation), language=item.say.language)


def one(spec: Spec, name: str, seed: int, kind: str = "svg", *, worked: bool = False) -> File:
    """One question of a rung alone, chosen by a seed, to be pasted where it is wanted.

    Cropped to the squares that it needs; ``worked``, its finished working in its place. Refused
    where the spec has no such rung, where none of its questions can be asked, and where pictures
    of dots cannot be drawn.
    """
    from layouts.files.pictures import refuse_kind
    from layouts.pdf.ink import pdf
    from layouts.pictures.png import png_pages
    from layouts.pictures.svg import svg
    from layouts.planning.wording import worked_named
    from layouts.sheets.one_question import one_question, one_working

    rung = next((rung for rung in spec.ladder if rung.name == name), None)
    if rung is None:
        instead = choose_from(name, tuple(rung.name for rung in spec.ladder))
        what = saying.say("there is no rung {rung}", rung=repr(name))
        raise Refused(Problem(spec.source, None, what, instead))
    with refusing(spec.source, spec):
        refuse_kind(kind)
        item = view(rung, seed).item
        if item is None:
            what = saying.say("no question of {rung} can be asked", rung=repr(name))
            see = saying.say("see rungsheet check")
            raise Refused(Problem(spec.source, rung.line, what, see))
        alone = work_alone(item, spec.presentation)
        plan = (one_working if worked else one_question)(alone, spec.presentation)
        say = alone.say
        title = say.says(item.form.text(item.question))
        if worked:
            title = worked_named(title, say)
        if kind == "svg":
            data = svg(plan, title, say.language).encode()
        else:
            (data,) = png_pages(pdf((plan,), title, spec.title, usage=say))
    return File(f"{name}-{seed}{'-worked' if worked else ''}.{kind}", "picture", data, 1)
