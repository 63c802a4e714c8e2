"""A pack made again: from the code at the foot of a page, or from what a PDF carries."""

from dataclasses import dataclass, replace

from generator.packs.codes import LOOK_AGAIN, PageCode
from generator.packs.pack import Pack, Section
from generator.packs.rebuilding import read_code
from rungsheet.desk import specs
from rungsheet.desk.packs import AS_IN_THE_SPEC, GREATEST_SEED, MOST_VERSIONS, Edition, Look, choose
from rungsheet.desk.problems import Problem, Refused, refusing, words_of
from specs import Spec
from specs.languages.saying import Saying, say

__all__ = ["Rebuilt", "edition", "from_code", "from_pdf"]


@dataclass(frozen=True, slots=True)
class Rebuilt:
    """A pack, and the names of those of its sections that are wanted: those of one file.

    ``page`` is the code of the page that was asked about, where one was.
    """

    spec: Spec
    pack: Pack
    names: tuple[str, ...]
    page: PageCode | None = None

    @property
    def sections(self) -> tuple[Section, ...]:
        """The wanted sections, in every version, in the pack's order."""
        return tuple(section for section in self.pack.sections if section.name in self.names)

    @property
    def of_the_page(self) -> tuple[str, int] | None:
        """The section that the page is of, and its version; None for none alone (a key's page)."""
        names = tuple(dict.fromkeys(section.name for section in self.pack.sections))
        if self.page is None or self.page.section >= len(names):
            return None
        return names[self.page.section], self.page.version


def edition(
    spec: Spec,
    code: str | None = None,
    seed: int | None = None,
    versions: int | None = None,
    look: Look = AS_IN_THE_SPEC,
) -> Edition:
    """Which pack of a spec is meant: by a page's code, by seed and versions, or the usual one.

    ``look`` goes before that of the code; a seed or versions that contradict it are Refused.
    """
    if code is None:
        return Edition(1 if seed is None else seed, 1 if versions is None else versions, look)
    with refusing(""):
        found = read_code(code, spec)
    if found.versions > MOST_VERSIONS or found.seed > GREATEST_SEED:
        what = say("{code} is not one that Rungsheet gives", code=str(found))
        raise Refused(Problem("", None, what, LOOK_AGAIN))
    if seed not in (None, found.seed):
        what = say(
            "the seed of {code} is {coded}, not {given}",
            code=str(found),
            coded=found.seed,
            given=seed,
        )
        raise Refused(Problem("", None, what, say("give no seed beside the code")))
    if versions not in (None, found.versions):
        what = say(
            "the number of versions of {code} is {coded}, not {given}",
            code=str(found),
            coded=found.versions,
            given=versions,
        )
        raise Refused(Problem("", None, what, say("give no number of versions beside the code")))
    coded_look = Look.numbered(found.look)
    both = look.before(coded_look)
    return Edition(found.seed, found.versions, both, found)


def from_code(code: str, spec: Spec) -> Rebuilt:
    """The whole pack that a page with this code belongs to."""
    meant = edition(spec, code)
    pack = choose(spec, meant)
    names = tuple(dict.fromkeys(section.name for section in pack.sections))
    return Rebuilt(spec, pack, names, meant.page)


def from_pdf(data: bytes, name: str) -> Rebuilt:
    """The pack that a PDF was drawn from, and its sections; ``name`` is the file's, for messages.

    What stands inside is checked as any other spec is: it may have been written by anyone.
    """
    from layouts.pdf.carried import CHANGED, carried_by

    with refusing(name):
        carried = carried_by(data)
    try:
        spec = specs.read(carried.spec, say("the spec inside"))
    except Refused as refused:
        first = refused.problems[0].said
        what = say("the spec inside it cannot be used ({problem})", problem=first)
        raise Refused(Problem(name, None, what, say("use the Rungsheet that made it"))) from None
    # What comes in one version is, of a class set, as of its first version.
    in_versions = any(
        section.name in carried.sections and spec.versions_of(section, 2) > 1
        for section in spec.sections
    )
    versions = carried.versions if in_versions else 1
    if in_versions:
        with refusing(name):
            carried.refuse_too_many_versions()
    try:
        meant = Edition(carried.seed, versions, Look.numbered(carried.look))
        pack = replace(choose(spec, meant), versions=carried.versions)
    except ValueError as error:
        raise Refused(_cannot_be_made(name, words_of(error), CHANGED)) from None
    except Refused as refused:
        (problem, *_) = refused.problems
        raise Refused(_cannot_be_made(name, problem.what, problem.instead)) from None
    found = Rebuilt(spec, pack, carried.sections)
    if {section.name for section in found.sections} != set(carried.sections):
        what = say("it names sections that its spec does not have")
        raise Refused(Problem(name, None, what, CHANGED))
    return found


def _cannot_be_made(name: str, what: Saying, instead: Saying) -> Problem:
    return Problem(name, None, say("it cannot be made again: {what}", what=what), instead)
