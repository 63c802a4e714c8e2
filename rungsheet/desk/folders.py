"""The same jobs on disk: specs, sheets and packs read from files, and folders written whole.

Only this part of the desk knows of files. What it reads it reads up to a limit, and what it
writes is there whole or not at all.
"""

import json
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from generator.results.mark_sheet import BY_VERSION, WRONG_ONLY
from generator.results.mark_sheet import FILE as MARK_SHEET
from generator.vocabulary import VOCABULARY
from rungsheet.desk import again, following, marks, specs
from rungsheet.desk.packs import Built, File, Look
from rungsheet.desk.problems import Problem, Refused, reason, refusing
from specs import Spec, load_spec, shipped, shipped_names
from specs.languages.saying import joined, say
from specs.problems import quoted

__all__ = [
    "WithSheets",
    "arranged",
    "beside",
    "followed",
    "marked_in",
    "of_one_class",
    "pack_in",
    "rebuilt_from",
    "refuse_unless_pack",
    "replacing",
    "replacing_marks",
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
        what = say("it cannot be read ({reason})", reason=reason(error))
        raise Refused(Problem(str(sheet), None, what, say("check its name"))) from None
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
        what = say("there is no such file")
        raise Refused(Problem(str(file), None, what, _A_BUILT_PACK)) from None
    except (OSError, ValueError) as error:
        what = say("it cannot be opened ({reason})", reason=reason(error))
        raise Refused(Problem(str(file), None, what, say("check who may read it"))) from None
    return marks.read_pack(data, str(file))


@dataclass(frozen=True, slots=True)
class WithSheets:
    """A pack's folder, or its pack.json, and the mark sheets that were filled in for it."""

    pack: Path
    sheets: tuple[Path, ...]


_SHEETS: Final = frozenset({".csv", ".tsv", ".txt"})
_PACK_FIRST: Final = say("name the folder of a pack, then its mark sheets")
_A_BUILT_PACK: Final = say("name the folder of a pack that was built")
_ELSEWHERE: Final = say("name another folder with --out")


def arranged(given: Sequence[Path]) -> tuple[WithSheets, ...]:
    """Packs and mark sheets as they were named: each pack with the sheets that follow it.

    Where each sheet stands before its pack, as when the two were swapped, that is taken as meant.
    Refused where a pack has no sheet, or none is named.
    """
    kinds = [_is_sheet(path) for path in given]
    if all(kinds) and len(kinds) > 1:  # whatever is named first is taken for the pack
        kinds[0] = False
    if kinds.count(False) == 1:
        at = kinds.index(False)
        found = [WithSheets(given[at], (*given[:at], *given[at + 1 :]))]
    elif kinds == [True, False] * (len(kinds) // 2):
        found = [WithSheets(given[at + 1], (given[at],)) for at in range(0, len(given), 2)]
    else:
        found = []
        for path, sheet in zip(given, kinds, strict=True):
            if not sheet:
                found.append(WithSheets(path, ()))
            elif found:
                found[-1] = WithSheets(found[-1].pack, (*found[-1].sheets, path))
            else:
                what = say("no pack is named before it")
                raise Refused(Problem(str(path), None, what, _PACK_FIRST))
    for one in found:
        if not one.sheets:
            _folder_of(one.pack)
            pack_in(one.pack)  # what is no pack at all is said first
            what = say("its mark sheet is not named")
            raise Refused(Problem(str(one.pack), None, what, _PACK_FIRST))
    return tuple(found)


def _is_sheet(path: Path) -> bool:
    from layouts.files.given import is_folder

    if is_folder(path) or path.suffix == ".json":
        return False
    try:
        return path.suffix.lower() in _SHEETS or path.exists()
    except (OSError, ValueError):
        return False


def of_one_class(given: Sequence[WithSheets]) -> None:
    """Refuse several mark sheets of a pack where one class is meant."""
    for one in given:
        if len(one.sheets) > 1:
            what = say("{count} mark sheets are named after it", count=len(one.sheets))
            raise Refused(Problem(str(one.pack), None, what, say("name those of one class")))


def marked_in(given: Sequence[WithSheets]) -> marks.Marked | marks.Compared:
    """What mark sheets say: of a pack's classes, or of a class and what it had before.

    The pack named first is today's; of further packs the newest comes first.
    """
    first, *earlier = given
    if earlier:
        of_one_class(given)
    today = [_filled_in(sheet, pack_in(first.pack)) for sheet in first.sheets]
    if len(today) > 1:
        return marks.compare(today[0].pack, today, _classes(first.sheets))
    before = [_filled_in(one.sheets[0], pack_in(one.pack), whole=True) for one in earlier]
    return marks.mark(today[0].pack, today[0].sheet, today[0].name, before)


def followed(
    given: Sequence[WithSheets], without_marks: Sequence[Path]
) -> tuple[marks.PackRecord, tuple[following.Before, ...]]:
    """The pack that is followed, and those before it: with their marks, then without."""
    first, *earlier = [(one.pack, pack_in(one.pack), one.sheets[0]) for one in given]
    before = [
        following.Before(pack, str(folder), _marked(_filled_in(sheet, pack, whole=True)))
        for folder, pack, sheet in earlier
    ]
    before += [following.Before(pack_in(folder), str(folder)) for folder in without_marks]
    return first[1], tuple(before)


def _marked(one: marks.FilledIn) -> marks.Marked:
    return marks.mark(one.pack, one.sheet, one.name)


def _classes(sheets: Sequence[Path]) -> tuple[str, ...]:
    """What classes are called: as their sheets, or as the folders of these, or by numbers."""
    from layouts.files.given import whole

    for names in (
        [sheet.stem for sheet in sheets],
        [whole(sheet).parent.name for sheet in sheets],
    ):
        if len(set(names)) == len(names) and all(names):
            return tuple(names)
    return tuple(say("class {number}", number=number) for number in range(1, len(sheets) + 1))


def _filled_in(sheet: Path, pack: marks.PackRecord, *, whole: bool = False) -> marks.FilledIn:
    """A pack's mark sheet; with the ``whole`` of its path for a name, where others are alike."""
    from layouts.files.given import bytes_of

    try:
        data = bytes_of(sheet, marks.LARGEST_SHEET)
    except (OSError, ValueError) as error:
        what = say("it cannot be opened ({reason})", reason=reason(error, in_lower_case=True))
        instead = say("check its name and folder")
        raise Refused(Problem(str(sheet), None, what, instead)) from None
    return marks.FilledIn(pack, data, str(sheet) if whole else sheet.name)


def beside(given: WithSheets, ending: str) -> Path:
    """A folder beside a pack's, named after it and after its mark sheets.

    The sheet that came with the pack, where it stands there, adds nothing; that of another class
    has a name of its own, or that of the folder in which it stands.
    """
    from layouts.files.given import whole

    folder = _folder_of(given.pack)
    own = ""
    for sheet in given.sheets:
        within = whole(sheet).parent
        if sheet.name not in (MARK_SHEET, BY_VERSION, WRONG_ONLY):
            own += f"-{sheet.stem}"
        elif within != folder and within.name:
            own += f"-{within.name}"
    return folder.with_name(folder.name + ending + own)


def _folder_of(pack: Path) -> Path:
    """The folder of a pack, whole; refused where that has no name."""
    from layouts.files.given import is_folder, whole

    folder = whole(pack if is_folder(pack) else pack.parent)
    if not folder.name:
        raise Refused(Problem(str(pack), None, say("no pack is there"), _A_BUILT_PACK))
    return folder


def replacing(folder: Path, built: Built) -> tuple[Problem, ...]:
    """What other pack is in a folder, or the same in another look, that this one is to replace."""
    from layouts.files.given import bytes_of

    try:
        there = marks.read_pack(bytes_of(folder / "pack.json", marks.LARGEST_RECORD), "")
        look = Look.numbered(there.look)
    except (OSError, ValueError, Refused):
        return ()  # none, or what ``refuse_unless_pack`` speaks of
    versions = max((section.version for section in there.sections), default=1)
    same = (there.code, versions) == (built.pack.code, built.pack.versions)
    if same and there.look == built.pack.look:
        return ()
    how = [say("in {versions} versions", versions=versions) if versions > 1 else ""]
    how.append(look.said or (say("in another look") if same else ""))
    what = say(
        "the pack there, {code}, {title}, is to be replaced",
        code=joined((there.code, *how)),
        title=quoted(there.title),
    )
    return (Problem(str(folder), None, what, say("built again, that is as it was")),)


def replacing_marks(folder: Path, marked: marks.Marked | marks.Compared) -> tuple[Problem, ...]:
    """What other marks are in a folder, where these are to take their place."""
    from layouts.files.given import bytes_of

    try:
        there = json.loads(bytes_of(folder / "marks.json", marks.LARGEST_RECORD))
        said = marked.replacing(there)
    except (OSError, ValueError, LookupError, TypeError, AttributeError, RecursionError):
        return ()  # none, or what ``refuse_unless_pack`` speaks of
    instead = say("name another folder with --out where they are another class's")
    return (Problem(str(folder), None, said, instead),) if said else ()


def refuse_unless_pack(folder: Path, record: str = "pack.json") -> None:
    """Refuse to replace anything but a pack, or what else ``record`` lists."""
    from layouts.files import folder as on_disk

    with refusing(str(folder)):
        on_disk.refuse_unless_pack(folder, record)


def refuse_among(folder: Path, sources: Sequence[Path]) -> None:
    """Refuse to write where a pack is that is read."""
    from layouts.files.given import is_folder, whole

    for source in sources:
        if whole(source if is_folder(source) else source.parent) == whole(folder):
            what = say("the starter would take the place of a pack that it follows or avoids")
            raise Refused(Problem(str(folder), None, what, _ELSEWHERE))


def write_pack(
    folder: Path,
    built: Built,
    jobs: int = 1,
    pages_done: Callable[[int], None] = lambda pages: None,
    pictures: str | None = None,
    slides: str | None = None,
    sheets: str | None = None,
) -> tuple[File, ...]:
    """Draw a pack into its folder with so many processes.

    ``pages_done`` is told now and then how many further pages are drawn. ``pictures`` is the
    kind of those that every page has beside its PDF, ``slides`` and ``sheets`` the kinds of those
    that can be changed, None for none. Gives what its pack.json lists, without the bytes that
    were drawn.
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
        if sheets:
            drawn += editable.draw_sheets(built.worked, scratch)
        listed.extend(File(one.name, one.role, b"", one.pages) for one in drawn)
        listed.extend(built.beside)
        small = (*built.beside, built.record(drawn))
        return {file.name: file.data for file in small}

    with refusing(built.spec.source, built.spec):
        if pictures:
            refuse_kind(pictures)
        for kind in filter(None, (slides, sheets)):
            editable.refuse_kind(kind, built.worked)
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
