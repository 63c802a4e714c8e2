"""The same jobs on disk: specs, sheets and packs read from files, and folders written whole.

Only this part of the desk knows of files. What it reads it reads up to a limit, and what it
writes is there whole or not at all.
"""

from collections.abc import Callable, Sequence
from pathlib import Path

from generator.results.mark_sheet import BY_VERSION
from generator.results.mark_sheet import FILE as MARK_SHEET
from generator.vocabulary import VOCABULARY
from rungsheet.desk import again, marks, specs
from rungsheet.desk.packs import Built, File
from rungsheet.desk.problems import Problem, Refused, refusing
from specs import Spec, load_spec, shipped, shipped_names
from specs.problems import quoted

__all__ = [
    "beside",
    "pack_in",
    "rebuilt_from",
    "refuse_unless_pack",
    "replacing",
    "sheet_in",
    "spec_in",
    "write_file",
    "write_files",
    "write_pack",
]


def spec_in(named: str) -> Spec:
    """The spec of a path, or of the name of one that ships."""
    path = shipped(named) if named in shipped_names() else Path(named)
    with specs.reading(str(path)):
        spec = load_spec(path, VOCABULARY)
    return specs.checked(spec)


def rebuilt_from(sheet: Path) -> again.Rebuilt:
    """The pack that a PDF was drawn from."""
    from layouts.files.given import bytes_of, is_larger
    from layouts.pdf.carried import LARGEST, TOO_LARGE

    if is_larger(sheet, LARGEST):
        raise Refused(Problem(str(sheet), None, *TOO_LARGE))
    try:
        data = bytes_of(sheet, LARGEST)
    except (OSError, ValueError) as error:
        what = f"it cannot be read ({_reason(error)})"
        raise Refused(Problem(str(sheet), None, what, "check its name")) from None
    return again.from_pdf(data, str(sheet))


def pack_in(folder: Path) -> marks.PackRecord:
    """The pack in a folder, or of its pack.json."""
    from layouts.files.given import bytes_of, is_folder, is_larger

    file = folder / "pack.json" if is_folder(folder) else folder
    if is_larger(file, marks.LARGEST_RECORD):
        raise Refused(Problem(str(file), None, *marks.TOO_LARGE))
    try:
        data = bytes_of(file, marks.LARGEST_RECORD)
    except FileNotFoundError:
        instead = "name the folder of a pack that was built"
        raise Refused(Problem(str(file), None, "there is no such file", instead)) from None
    except (OSError, ValueError) as error:
        what = f"it cannot be opened ({_reason(error)})"
        raise Refused(Problem(str(file), None, what, "check who may read it")) from None
    return marks.read_pack(data, str(file))


def sheet_in(sheet: Path, pack: marks.PackRecord) -> marks.Marked:
    """What a pack's mark sheet says."""
    from layouts.files.given import bytes_of

    try:
        data = bytes_of(sheet, marks.LARGEST_SHEET)
    except (OSError, ValueError) as error:
        what = f"it cannot be opened ({_reason(error).lower()})"
        raise Refused(Problem(str(sheet), None, what, "check its name and folder")) from None
    return marks.mark(pack, data, sheet.name)


def beside(pack: Path, ending: str, sheet: Path) -> Path:
    """A folder beside a pack's, named after it and after its mark sheet.

    The sheet that came with the pack adds nothing; that of another class has a name of its own.
    """
    from layouts.files.given import is_folder

    folder = (pack if is_folder(pack) else pack.parent).resolve()
    if not folder.name:
        instead = "name the folder of a pack that was built"
        raise Refused(Problem(str(pack), None, "no pack is there", instead))
    own = "" if sheet.name in (MARK_SHEET, BY_VERSION) else f"-{sheet.stem}"
    return folder.with_name(folder.name + ending + own)


def replacing(folder: Path, built: Built) -> tuple[Problem, ...]:
    """What other pack is in a folder, where this one is to take its place."""
    from layouts.files.given import bytes_of

    try:
        there = marks.read_pack(bytes_of(folder / "pack.json", marks.LARGEST_RECORD), "")
    except (OSError, ValueError, Refused):
        return ()  # none, or what ``refuse_unless_pack`` speaks of
    versions = max((section.version for section in there.sections), default=1)
    if (there.code, versions) == (built.pack.code, built.pack.versions):
        return ()
    of = f" in {versions} versions" if versions > 1 else ""
    what = f"it took the place of the pack {there.code}{of}, {quoted(there.title)}"
    return (Problem(str(folder), None, what, "built again, that is as it was"),)


def refuse_unless_pack(folder: Path, record: str = "pack.json") -> None:
    """Refuse to replace anything but a pack, or what else ``record`` lists."""
    from layouts.files import folder as on_disk

    with refusing(str(folder)):
        on_disk.refuse_unless_pack(folder, record)


def refuse_among(folder: Path, sources: Sequence[Path]) -> None:
    """Refuse to write where a pack is that is read."""
    from layouts.files.given import is_folder

    for source in sources:
        if (source if is_folder(source) else source.parent).resolve() == folder.resolve():
            what = "the starter would take the place of a pack that it follows or avoids"
            raise Refused(Problem(str(folder), None, what, "name another folder with --out"))


def write_pack(
    folder: Path,
    built: Built,
    jobs: int = 1,
    pages_done: Callable[[int], None] = lambda pages: None,
    pictures: str | None = None,
    slides: str | None = None,
) -> tuple[File, ...]:
    """Draw a pack into its folder with so many processes.

    ``pages_done`` is told now and then how many further pages are drawn. ``pictures`` is the
    kind of those that every page has beside its PDF, ``slides`` the kind of those that can be
    changed, None for none. Gives what its pack.json lists, without the bytes that were drawn.
    """
    from layouts.files import editable
    from layouts.files.folder import write_folder
    from layouts.files.pictures import draw_pictures, refuse_kind
    from layouts.files.press import draw_pack

    listed: list[File] = []

    def fill(scratch: Path) -> dict[str, bytes]:
        drawn = draw_pack(
            built.worked, scratch, sealed=built.sealed, jobs=jobs, pages_done=pages_done
        )
        if pictures:
            drawn += draw_pictures(built.worked, pictures, scratch)
        if slides:
            drawn += editable.draw_slides(built.worked, scratch)
        listed.extend(File(one.name, one.role, b"", one.pages) for one in drawn)
        listed.extend(built.beside)
        small = (*built.beside, built.record(drawn))
        return {file.name: file.data for file in small}

    with refusing(built.spec.source, built.spec):
        if pictures:
            refuse_kind(pictures)
        if slides:
            editable.refuse_kind(slides)
        write_folder(folder, fill)
    return tuple(listed)


def write_files(folder: Path, files: Sequence[File]) -> None:
    """Write a folder of finished files; the last of them lists the others."""
    from layouts.files.folder import write_folder

    with refusing(str(folder)):
        write_folder(folder, {file.name: file.data for file in files}, files[-1].name)


def write_file(folder: Path, file: File) -> None:
    """Write one file into a folder, where no other of its name may be."""
    from layouts.files import folder as on_disk

    with refusing(str(folder)):
        on_disk.write_file(folder / file.name, file.data)


def _reason(error: Exception) -> str:
    return (error.strerror if isinstance(error, OSError) else None) or "bad name"
