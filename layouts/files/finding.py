"""A page found again by the code at its foot."""

from collections.abc import Iterator

from generator.packs.codes import PageCode
from generator.packs.working_out import WorkedPack
from layouts.files.table import TEACHERS, files_of, key_to
from layouts.planning.plan import PagePlan


def has_page(pack: WorkedPack, code: PageCode) -> bool:
    """Whether one of the pack's pages bears the code. Plans pages until it is found.

    Raises LayoutError as planning does.
    """
    return any(str(code) in text.text for page in _where(pack, code) for text in page.texts)


def _where(pack: WorkedPack, code: PageCode) -> Iterator[PagePlan]:
    """The pages among which it must be: of one section and version, or of the teacher's own."""
    beyond = code.section - len(pack.names)
    if not beyond:
        yield from key_to(pack, pack.names).pages
    elif beyond > 0:
        for file in files_of(pack):
            if file.role == TEACHERS[beyond - 1]:
                yield from file.pages
    else:
        part = pack.named(pack.names[code.section]).of_version(code.version)
        for file in files_of(part):
            if file.kind.bears_codes:
                yield from file.pages
