"""A pack made again from what one of its PDFs carries, and the answers of that file."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from generator.forms.contexts import NO_BREAK
from generator.operations.conditions import VOCABULARY
from generator.packs.building import TooFewQuestionsError, build_pack
from generator.packs.conflicts import conflicts
from generator.packs.pack import Pack, Section
from generator.packs.telling_apart import CannotTellApartError
from layouts.pdf.carried import Carried, NotASheetError
from layouts.planning.wording import section_heading, version_words
from specs import SpecError, read_spec
from specs.looks import Look


@dataclass(frozen=True, slots=True)
class Rebuilt:
    """A pack, and which of its sections the file holds that it was made from."""

    pack: Pack
    names: tuple[str, ...]

    @property
    def sections(self) -> tuple[Section, ...]:
        """The file's sections, in every version, in the pack's order."""
        return tuple(section for section in self.pack.sections if section.name in self.names)

    @property
    def answers(self) -> Iterator[str]:
        """A line a question, ``a  1.65``; where the file holds several, each section's name first.

        Sections are parted by an empty line.
        """
        for at, section in enumerate(self.sections):
            if len(self.sections) > 1:
                if at:
                    yield ""
                version = version_words(section, self.pack)
                yield ", ".join(filter(None, (section_heading(section), version)))
            for item in section.items:
                reply = item.form.reply(item.question).replace(NO_BREAK, " ")
                yield f"{item.label}  {reply}"


def rebuilt(carried: Carried) -> Rebuilt:
    """The pack of what a PDF carries. Raises NotASheetError when it does not hold together."""
    try:
        spec = read_spec(carried.spec.encode(), "the spec inside", VOCABULARY)
        look = Look.numbered(carried.look)
        for conflict in conflicts(spec):
            raise NotASheetError(f"it cannot be made again: {conflict.what}; {conflict.instead}")
        # The starter and the examples of a class set are those of its first version.
        versions = carried.versions if carried.has_versions else 1
        pack = replace(build_pack(spec, carried.seed, versions), versions=carried.versions)
    except SpecError as error:
        said = f"the spec inside it cannot be used ({error.problems[0]})"
        raise NotASheetError(f"{said}; use the Rungsheet that made it") from None
    except (TooFewQuestionsError, CannotTellApartError, ValueError) as error:
        raise NotASheetError(f"it cannot be made again: {error}") from None
    found = Rebuilt(
        replace(pack, presentation=look.over(pack.presentation), look=look.number),
        carried.sections,
    )
    if {section.name for section in found.sections} != set(carried.sections):
        raise NotASheetError("it names sections that its spec does not have; it has been changed")
    return found
