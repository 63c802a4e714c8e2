"""What a PDF carries inside: the spec and the seed, from which its pages can be made again.

The spec travels as an attached file, ``spec.yaml``, and the rest as the file's keywords.
"""

import io
import logging
import re
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING, Final

from specs.languages.saying import Saying, say, several

if TYPE_CHECKING:
    from pypdf import PdfReader

ATTACHED: Final = "spec.yaml"
MAJOR: Final = 1
"""Rungsheet's major version: what it makes from a spec and a seed changes with no other."""

LARGEST: Final = 256 * 1024 * 1024
"""The most bytes that a sheet's file may have: sheets of 10,000 versions have 40 MB to 200 MB."""

TOO_LARGE: Final = (say("the file is far larger than any sheet"), say("check its name"))

_BYTES_OF_A_VERSION: Final = 200
"""No version of a sheet, nor its part of the answers or of the key, is printed in fewer bytes: one
short question has a thousand and more. So a small file cannot ask for a large pack.
"""

MOST_ON_A_PAGE: Final = 40
"""No page holds sheets or answers of so many versions."""

_USUALLY_ONE: Final = re.compile(r"(starter|examples|exit|homework)(-.+)?")
"""Names of sections that come in one version, unless their spec says otherwise."""

_KEYWORDS = re.compile(
    r"rungsheet (\d{1,4}); seed (\d{1,9}); versions (\d{1,5}); look (\d{1,3}); "
    r"sections ([a-z0-9, -]{1,4000})"
)


class NotASheetError(Exception):
    """A file that holds no sheet to be made again. The message says why, without its name."""

    def __init__(self, what: Saying, instead: Saying) -> None:
        self.what = what
        self.instead = instead
        super().__init__(f"{what}; {instead}")


@dataclass(frozen=True, slots=True)
class Carried:
    """All that is needed to make a file's pages again.

    ``sections`` are the names of those that the file holds, ``look`` is that of page codes.
    ``pages`` and ``size`` are of the file that it was read from, nought where it was not.
    """

    spec: str
    seed: int
    versions: int
    sections: tuple[str, ...]
    look: int = 0
    pages: int = field(default=0, compare=False)
    size: int = field(default=0, compare=False)

    @property
    def is_of_tiers(self) -> bool:
        """Whether the names alone say that the file holds sections that come in versions."""
        return not all(map(_USUALLY_ONE.fullmatch, self.sections))

    def refuse_too_many_versions(self) -> None:
        """Raise NotASheetError where so many versions cannot stand on so few pages or bytes."""
        if self.versions > MOST_ON_A_PAGE * self.pages:
            what = several(
                "it cannot hold {versions} versions on {count} page",
                "it cannot hold {versions} versions on {count} pages",
                self.pages,
                versions=self.versions,
            )
            raise NotASheetError(what, CHANGED)
        if self.versions > max(self.size // _BYTES_OF_A_VERSION, 1):
            what = say(
                "it cannot hold {versions} versions in {size} bytes",
                versions=self.versions,
                size=self.size,
            )
            raise NotASheetError(what, CHANGED)

    @property
    def keywords(self) -> str:
        """Everything but the spec, on one line."""
        return (
            f"rungsheet {MAJOR}; seed {self.seed}; versions {self.versions}; look {self.look}; "
            f"sections {', '.join(self.sections)}"
        )

    @staticmethod
    def parse(keywords: str, spec: str) -> "Carried":
        """What ``keywords`` says. Raises NotASheetError when it is not ours or not for us."""
        found = _KEYWORDS.fullmatch(keywords)
        if found is None:
            raise NotASheetError(*_NOT_OURS)
        major, seed, versions, look = map(int, found.groups()[:4])
        if major != MAJOR:
            raise NotASheetError(
                say(
                    "it was made by Rungsheet {theirs} and this is Rungsheet {ours}, which would "
                    "ask other questions",
                    theirs=major,
                    ours=MAJOR,
                ),
                say("use Rungsheet {theirs}", theirs=major),
            )
        return Carried(spec, seed, versions, tuple(found[5].split(", ")), look)


# What pypdf says of a damaged file goes to those who ask for its log, and not to the terminal: the
# one message is ours.
logging.getLogger("pypdf").addHandler(logging.NullHandler())

_NOT_OURS: Final = (
    say("it holds no spec and seed"),
    say(
        "give a PDF that Rungsheet made and did not seal, or the code at the foot of its page with "
        "its spec"
    ),
)


def carried_by(data: bytes) -> Carried:
    """What a PDF's bytes carry. Raises NotASheetError for anything else."""
    from pypdf import PdfReader

    if len(data) > LARGEST:
        raise NotASheetError(*TOO_LARGE)
    if not data.lstrip().startswith(b"%PDF-"):
        raise NotASheetError(say("it is not a PDF"), say("check its name"))
    try:
        reader = PdfReader(io.BytesIO(data))
        if reader.is_encrypted:
            what = say("it is locked with a password")
            raise NotASheetError(what, say("save it without one first"))
        if b"%%EOF" not in data[-1024:] or not len(reader.pages):
            raise NotASheetError(*_DAMAGED)
        carried = _read(reader, len(data))
    except NotASheetError:
        raise
    except Exception:  # whatever pypdf stumbles over in a damaged file, of any kind
        raise NotASheetError(*_DAMAGED) from None
    else:
        if carried.is_of_tiers:
            carried.refuse_too_many_versions()
        return carried


_DAMAGED: Final = (
    say("the PDF is cut short or damaged"),
    say("copy it again from where it came from"),
)
CHANGED: Final = say("copy it again from where it came from, as it has been changed")


def _read(reader: "PdfReader", size: int) -> Carried:
    keywords = str(reader.metadata.get("/Keywords", "")) if reader.metadata else ""
    attached = reader.attachments.get(ATTACHED, [])
    if not keywords or not attached:
        raise NotASheetError(*_NOT_OURS)
    carried = Carried.parse(keywords, attached[0].decode("utf-8"))
    return replace(carried, pages=len(reader.pages), size=size)
