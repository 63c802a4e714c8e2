"""What all pages of a run on paper have in common: what their feet say, their paper and type."""

from dataclasses import dataclass, replace

from generator.packs.codes import PageCode
from generator.packs.working_out import PackFacts, WorkedSection
from layouts.planning.paper import Paper, squares_between
from layouts.planning.sheet_type import SheetType
from layouts.planning.wording import section_heading, version_words
from specs.languages.usage import Usage


@dataclass(frozen=True, slots=True)
class Imprint:
    """What the foot of each page of a run says: what it is, in which version, from which seed.

    ``code`` is that of its first page; ``say`` is the land and the language of its pages.
    """

    what: str
    seed: int
    code: PageCode
    say: Usage

    @classmethod
    def of(cls, section: WorkedSection) -> "Imprint":
        """The foot of a section's pages."""
        what = ", ".join(filter(None, (section_heading(section), version_words(section))))
        return cls(what, section.pack.seed, section.code, section.say)

    @classmethod
    def of_key(cls, pack: PackFacts) -> "Imprint":
        """The foot of the teacher's key."""
        say = pack.usage
        return cls(say("Teacher's key"), pack.seed, pack.key_code, say)

    @classmethod
    def for_teacher(cls, pack: PackFacts, what: str, after: int) -> "Imprint":
        """The foot of another page for the teacher, counted on from the key in page codes.

        ``what`` it is stands there as the language of the pages says it.
        """
        code = replace(pack.key_code, section=pack.key_code.section + after)
        return cls(what, pack.seed, code, pack.usage)

    def code_of(self, page: int) -> str:
        """The code of a page, the first being page 1."""
        return str(replace(self.code, page=page))


@dataclass(frozen=True, slots=True)
class PaperPage:
    """A page on paper before anything stands on it: its foot's words, its paper and its type.

    ``left`` and ``right`` are the edges of what is printed, in millimetres from the paper's left.
    """

    imprint: Imprint
    paper: Paper
    sizes: SheetType
    left: float
    right: float

    @classmethod
    def squared(cls, section: WorkedSection, paper: Paper, sizes: SheetType) -> "PaperPage":
        """A page of a section whose print reaches as far as its squares do."""
        across = squares_between(paper, 0.0, paper.height, sizes.square, sizes.edge)
        return cls(Imprint.of(section), paper, sizes, across.x, across.x + across.width)

    @property
    def width(self) -> float:
        """Between the edges of what is printed."""
        return self.right - self.left

    @property
    def bottom(self) -> float:
        """How far down ink may go."""
        return self.paper.height - self.sizes.edge
