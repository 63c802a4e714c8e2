"""The command line: parsing and printing, each command a few lines over the desk.

Layouts, and with them ReportLab, are imported only by the command that draws pages.
"""

import hashlib
import json
import os
import re
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import asdict, replace
from fractions import Fraction
from io import TextIOWrapper
from pathlib import Path
from typing import Annotated, Any, NoReturn

import typer

from generator.forms.asking import CannotBeAskedError, cannot_be_asked
from generator.operations.conditions import VOCABULARY
from generator.packs.building import TooFewQuestionsError, build_pack, too_few
from generator.packs.codes import CodeError
from generator.packs.conflicts import conflicts
from generator.packs.pack import Pack
from generator.packs.rebuilding import read_code
from generator.packs.record import PackRecord, RecordError, read_record, record
from generator.packs.telling_apart import CannotTellApartError
from generator.results.class_results import ClassResults, class_results
from generator.results.follow_up import FILE as FOLLOW_UP
from generator.results.follow_up import (
    SEEDS_TRIED,
    NothingToFollowError,
    TooManyAvoidedError,
    Weighting,
    follow_up,
)
from generator.results.mark_sheet import (
    BY_VERSION,
    mark_columns,
    mark_sheet,
    other_names,
    questions_by_version,
    sheet_by_version,
)
from specs import DEMO, Spec, SpecError, load_spec, read_spec, shipped, shipped_names
from specs.looks import LARGE, Look
from specs.marks import LARGEST as LARGEST_SHEET
from specs.marks import MarksError, read_marks
from specs.tints import TINTS

MOST_VERSIONS = 10_000
GREATEST_SEED = 999_999_999
MOST_JOBS = 64
LARGEST_RECORD = 256 * 1024 * 1024  # bytes of pack.json: more than the most versions make
CLASS_SET = 10  # so many versions are a class set, worth all cores and a progress bar

app = typer.Typer(
    add_completion=False,
    no_args_is_help=True,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
    context_settings={"help_option_names": ["-h", "--help"]},
)

SpecArgument = Annotated[
    str, typer.Argument(metavar="SPEC", help="A spec file, or the name of a shipped one.")
]


def main() -> None:
    """Run the command line; every problem is one message on stderr and exit code 2."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, TextIOWrapper):
            # What a terminal or a file cannot show of − and ▭ is written as \u2212.
            stream.reconfigure(errors="backslashreplace")
    try:
        app()
    except OSError as error:  # of its files each command speaks itself
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())  # for what is left in it
        sys.stderr.write(f"the output cannot be written ({error.strerror}); send it elsewhere\n")
        sys.exit(2)


def _show_version(wanted: bool) -> None:
    if wanted:
        from importlib.metadata import version  # here, as nothing else needs it

        typer.echo(f"rungsheet {version('rungsheet')}")
        raise typer.Exit


@app.callback()
def front_door(
    version: Annotated[
        bool,
        typer.Option("--version", callback=_show_version, is_eager=True, help="Show the version."),
    ] = False,
) -> None:
    """From a short spec and a seed to a pack of written-calculation questions, ready to print."""


def _whole(least: int, most: int, unit: str = "") -> dict[str, Any]:
    """What an option that takes a whole number is: how it is read, and how help shows it."""

    def read(given: str | int) -> int:
        text = str(given)  # a default is a number already
        if re.fullmatch(rf"[0-9]{{1,12}}{unit}?", text) and least <= int(text.rstrip(unit)) <= most:
            return int(text.rstrip(unit))
        raise typer.BadParameter(f"{text!r} is no whole number from {least} to {most}")

    return {"parser": read, "metavar": f"{least}-{most}"}


def _one_of(*choices: str) -> Callable[[str | None], str | None]:
    """A check that an option is one of a few words, where it is given."""

    def checked(value: str | None) -> str | None:
        if value is not None and value not in choices:
            raise typer.BadParameter(f"{value!r} is none of {', '.join(choices)}")
        return value

    return checked


@app.command(epilog="Example: rungsheet build my-lesson.yaml --seed 7 --versions 30")
def build(
    spec: SpecArgument = DEMO,
    seed: Annotated[
        int | None,
        typer.Option(
            **_whole(0, GREATEST_SEED),
            show_default="1",
            help="The same spec and seed give the same pack.",
        ),
    ] = None,
    out: Annotated[
        Path | None,
        typer.Option(metavar="DIR", help="The pack's folder [default: out/<spec name>-<seed>]."),
    ] = None,
    versions: Annotated[
        int | None,
        typer.Option(
            **_whole(1, MOST_VERSIONS),
            show_default="1",
            help="Versions of each practice sheet.",
        ),
    ] = None,
    code: Annotated[
        str | None,
        typer.Option(
            metavar="CODE", help="Build again the pack of the page with this code at its foot."
        ),
    ] = None,
    large: Annotated[
        str | None,
        typer.Option(
            metavar="|".join(map(str, LARGE)),
            callback=_one_of(*map(str, LARGE)),
            help="Every sheet in large print: digits of so many points.",
        ),
    ] = None,
    tint: Annotated[
        str | None,
        typer.Option(
            metavar="NAME",
            callback=_one_of(*TINTS),
            help=f"Every sheet on a tint: {', '.join(TINTS)}.",
        ),
    ] = None,
    sealed: Annotated[
        bool,
        typer.Option("--sealed", help="Keep the spec and seed out of the PDFs."),
    ] = False,
    jobs: Annotated[
        int | None,
        typer.Option(
            **_whole(1, MOST_JOBS),
            show_default="all cores for a class set",
            help="Processes that draw; the files are the same for any number.",
        ),
    ] = None,
) -> None:
    """Build a pack: starter, examples, practice, answers and key. No SPEC builds the demo."""
    from layouts import LayoutError
    from layouts.files.folder import FolderError, refuse_unless_pack
    from layouts.planning.errors import UnprintableError

    read = _read(spec)
    look = Look(int(large) if large else None, tint)
    if code is not None:
        seed, versions, look = _from_code(code, read, seed, versions, look)
    seed, versions = 1 if seed is None else seed, versions or 1
    folder = out or Path("out") / f"{read.name}-{seed}{look.ending}"
    try:
        refuse_unless_pack(folder)
        pack = _chosen(read, seed, versions)
        pack = replace(pack, presentation=look.over(pack.presentation), look=look.number)
        listed = _write_pack(folder, read, pack, sealed=sealed, jobs=jobs)
    except LayoutError as error:
        lines = [rung.line for rung in read.ladder if rung.name == error.rung]
        if isinstance(error, UnprintableError) and not lines:  # the title: all else is plain
            texts = enumerate(read.text.splitlines(), 1)
            lines = [line for line, text in texts if text.startswith("title")][:1]
        _refuse("".join(f"{read.source}:{line}: " for line in lines) + str(error))
    except FolderError as error:
        _refuse(str(error))
    typer.echo(f"{folder}: {_contents(listed)}")


@app.command(epilog="Example: rungsheet key practice-core.pdf --out answers-for-monday")
def key(
    sheet: Annotated[Path, typer.Argument(metavar="SHEET.pdf", help="A PDF that Rungsheet made.")],
    out: Annotated[
        Path | None,
        typer.Option(metavar="DIR", help="Write the key with its workings there, as key.pdf."),
    ] = None,
) -> None:
    """Print the answers of a sheet, from the spec and seed that its PDF carries."""
    from layouts import LayoutError
    from layouts.files.documents import render_key
    from layouts.files.folder import FolderError, write_file
    from layouts.pdf.carried import LARGEST, NotASheetError, carried_by
    from layouts.rebuilding import rebuilt

    try:
        found = rebuilt(carried_by(_bytes_of(sheet, LARGEST)))
        if out is not None:
            write_file(out / "key.pdf", render_key(found.pack, found.names).data)
    except OSError as error:
        _refuse(f"{sheet}: it cannot be read ({error.strerror or error}); check its name")
    except NotASheetError as error:
        _refuse(f"{sheet}: {error}")
    except (FolderError, LayoutError) as error:
        _refuse(str(error))
    for line in found.answers:
        typer.echo(line)
    if out is not None:
        typer.echo(f"{out}: key.pdf")


@app.command(epilog="Example: rungsheet check my-lesson.yaml")
def check(spec: SpecArgument) -> None:
    """Say what is wrong with a spec, line by line; say nothing when it is good."""
    _chosen(_read(spec), seed=1, versions=1)


@app.command(epilog="Example: rungsheet rungs my-lesson.yaml --json")
def rungs(
    spec: SpecArgument = DEMO,
    as_json: Annotated[bool, typer.Option("--json", help="For programs.")] = False,
) -> None:
    """Show each rung: how many questions are on it, exactly, and one of them."""
    from generator.packs.ladder import RungView, ladder

    views = ladder(_read(spec))
    if as_json:
        typer.echo(json.dumps([view.plain for view in views], indent=2))
    else:
        typer.echo(RungView.table(views))


PackArgument = Annotated[
    Path, typer.Argument(metavar="PACK", help="The folder of a pack that was built.")
]
MarksArgument = Annotated[
    Path, typer.Argument(metavar="MARKS.csv", help="Its mark sheet, filled in.")
]


@app.command(epilog="Example: rungsheet marks out/produce-stall-1 out/produce-stall-1/marks.csv")
def marks(
    pack: PackArgument,
    sheet: MarksArgument,
    out: Annotated[
        Path | None,
        typer.Option(metavar="DIR", help="Where to write [default: a folder beside the pack]."),
    ] = None,
) -> None:
    """Read a mark sheet: who is secure, who slips, who has which habit, and what to teach again.

    No names are needed: pupils are numbers, and what a number means stays with you. Nothing
    leaves this machine, and files are written only where you say. Keep mark sheets and what is
    made of them as you keep all marks.
    """
    from layouts import LayoutError
    from layouts.files.folder import FolderError, refuse_unless_pack, write_folder
    from layouts.marks.marks_pages import marks_pdf

    folder = out or _beside(pack, "-marks")
    try:
        refuse_unless_pack(folder, "marks.json")
        read = _read_pack(pack)
        results, unread = _results(read, sheet)
        drawn = marks_pdf(read.title, results, unread)
        files = [_listed("marks.pdf", "marks", drawn)]
        plain = {**results.plain, "unread": unread, "files": files}
        write_folder(folder, {"marks.pdf": drawn, "marks.json": _json(plain)}, "marks.json")
    except (FolderError, LayoutError) as error:
        _refuse(str(error))
    typer.echo(f"{folder}: marks.pdf, marks.json")


@app.command(epilog="Example: rungsheet follow out/produce-stall-1 out/produce-stall-1/marks.csv")
def follow(
    pack: PackArgument,
    sheet: MarksArgument,
    out: Annotated[
        Path | None,
        typer.Option(metavar="DIR", help="Where to write [default: a folder beside the pack]."),
    ] = None,
    seed: Annotated[
        int | None,
        typer.Option(
            **_whole(0, GREATEST_SEED), help="A seed [default: the first after the pack's]."
        ),
    ] = None,
    avoid: Annotated[
        list[Path] | None,
        typer.Option(metavar="PACK", help="A further pack whose questions are not to come again."),
    ] = None,
    questions: Annotated[int, typer.Option(**_whole(1, 40), help="Questions in the starter.")] = 6,
    review: Annotated[
        int,
        typer.Option(**_whole(0, 100, "%"), help="How many of a hundred go to older rungs."),
    ] = 33,
    habits: Annotated[
        int,
        typer.Option(
            **_whole(0, 10),
            help="What a habit weighs beside a wrong answer, when rungs are weighed.",
        ),
    ] = 1,
) -> None:
    """Write tomorrow's starter: a spec and a pack weighted to what the marks show.

    A rung weighs its share of wrong answers, plus the share of pupils whose habit showed on
    it. Rungs that weigh a fifth or more share the questions by weight, and the rest goes to
    older rungs. No question of the pack comes again.

    No names are needed: pupils are numbers, and what a number means stays with you. Nothing
    leaves this machine, and files are written only where you say. Keep mark sheets and what is
    made of them as you keep all marks.
    """
    from layouts import LayoutError
    from layouts.files.folder import FolderError, refuse_unless_pack

    folder = out or _beside(pack, "-follow")
    for source in (pack, *(avoid or ())):
        if (source if source.is_dir() else source.parent).resolve() == folder.resolve():
            _refuse(
                f"{folder}: the starter would take the place of a pack that it follows or "
                "avoids; name another folder with --out"
            )
    try:
        refuse_unless_pack(folder)
        read = _read_pack(pack)
        results, _ = _results(read, sheet)
        first = (read.seed + 1) % (GREATEST_SEED + 1) if seed is None else seed
        found = follow_up(
            _spec_of(pack, read),
            results,
            Weighting(questions, Fraction(review, 100), habits),
            range(first, first + (SEEDS_TRIED if seed is None else 1)),
            [q for one in (read, *map(_read_pack, avoid or ())) for q in one.questions],
        )
        spec = found.spec
        extra = {FOLLOW_UP: ("spec", spec.text.encode())}
        listed = _write_pack(folder, spec, found.pack, sealed=False, extra=extra)
    except (FolderError, LayoutError) as error:
        _refuse(str(error))
    except (
        TooFewQuestionsError,
        CannotTellApartError,
        NothingToFollowError,
        TooManyAvoidedError,
    ) as error:
        _refuse(f"{pack}: {error}")
    for choice in found.choices:
        typer.echo(f"{choice.rung}: {choice.count} ({choice.why})")
    if found.listed:
        one = found.listed == 1
        were = f"{found.listed} question{'' if one else 's'} asked before stood in the way"
        typer.echo(f"{were}; {FOLLOW_UP} names {'it' if one else 'them'} below 'avoid:'")
    typer.echo(f"{folder}: {', '.join(file['name'] for file in listed)}")


@app.command(epilog="Example: rungsheet words divide")
def words(
    operation: Annotated[
        str | None,
        typer.Argument(
            metavar="OPERATION",
            callback=_one_of(*VOCABULARY.operations),
            help=f"One of {', '.join(VOCABULARY.operations)}.",
        ),
    ] = None,
) -> None:
    """Say what each word of a spec means, and what holds where it is not given."""
    from specs.glossary import glossary

    typer.echo(glossary(VOCABULARY, operation))


@app.command(epilog="Example: rungsheet schema > rungsheet.schema.json")
def schema() -> None:
    """Print the JSON Schema of specs, with which an editor completes words and marks mistakes."""
    from specs.schema import schema as schema_of

    typer.echo(json.dumps(schema_of(VOCABULARY), indent=2))


def _read(spec: str) -> Spec:
    """The spec of a path or a shipped name; ends with its problems when it has any."""
    try:
        read = load_spec(shipped(spec) if spec in shipped_names() else Path(spec), VOCABULARY)
    except SpecError as error:
        _refuse(str(error))
    found = list(conflicts(read))
    empty = {conflict.rung for conflict in found}
    said = [(conflict.line, f"{conflict.what}; {conflict.instead}") for conflict in found]
    others = (rung for rung in read.ladder if rung not in empty)
    said += [(error.line, str(error)) for error in cannot_be_asked(others)]
    if said:
        _refuse("\n".join(f"{read.source}:{line}: {what}" for line, what in sorted(said)))
    return read


def _from_code(
    text: str, spec: Spec, seed: int | None, versions: int | None, look: Look
) -> tuple[int, int, Look]:
    """The seed, versions and look of a page's code; ends with a message when it is no good."""
    try:
        code = read_code(text, spec)
    except CodeError as error:
        _refuse(str(error))
    if code.versions > MOST_VERSIONS or code.seed > GREATEST_SEED:
        _refuse(f"{code} is not one that Rungsheet gives; read it again from the foot of the page")
    for name, given, coded in (
        ("--seed", seed, code.seed),
        ("--versions", versions, code.versions),
    ):
        if given is not None and given != coded:
            _refuse(f"{code} is of {name} {coded}, not {given}; leave {name} out")
    asked = Look.numbered(code.look)
    return (
        code.seed,
        code.versions,
        Look(look.large or asked.large, look.tint or asked.tint),
    )


def _chosen(spec: Spec, seed: int, versions: int) -> Pack:
    """The pack; ends with a message for each rung that does not hold the questions for it."""
    short = [f"{spec.source}:{error.line}: {error}" for error in too_few(spec, versions)]
    if short:
        _refuse("\n".join(short))
    try:
        return build_pack(spec, seed, versions)
    except (TooFewQuestionsError, CannotTellApartError, CannotBeAskedError) as error:
        _refuse(f"{spec.source}:{error.line}: {error}")


def _read_pack(pack: Path) -> PackRecord:
    """The record of a pack's folder; ends with a message when there is none."""
    file = pack / "pack.json" if pack.is_dir() else pack
    try:
        data = _bytes_of(file, LARGEST_RECORD)
        if len(data) > LARGEST_RECORD:
            _refuse(f"{file}: it is far larger than any pack's record; name the folder of a pack")
        return read_record(json.loads(data))
    except FileNotFoundError:
        _refuse(f"{file}: there is no such file; name the folder of a pack that was built")
    except OSError as error:
        _refuse(f"{file}: it cannot be opened ({error.strerror}); check who may read it")
    except (ValueError, RecursionError):
        _refuse(f"{file}: it is not JSON; build the pack again")
    except RecordError as error:
        _refuse(f"{file}: {error}; build the pack again")


def _spec_of(pack: Path, read: PackRecord) -> Spec:
    """The spec that a pack was built from; ends with a message when its record lacks it."""
    if not read.spec_text:
        _refuse(f"{pack}: its pack.json holds no spec; build the pack again")
    try:
        return read_spec(read.spec_text.encode(), f"{pack}: its spec", VOCABULARY)
    except SpecError as error:
        _refuse(str(error))


def _results(pack: PackRecord, sheet: Path) -> tuple[ClassResults, list[str]]:
    """What a mark sheet says, and what in it could not be read, which is told at once."""
    columns = mark_columns(pack.sections)
    kinds = {column.name: column.answer_kind for column in columns}
    try:
        data = _bytes_of(sheet, LARGEST_SHEET)
        others, by_version = other_names(columns), questions_by_version(columns)
        found = read_marks(data, sheet.name, list(kinds), others, kinds, by_version)
    except OSError as error:
        reason = (error.strerror or "bad name").lower()
        _refuse(f"{sheet}: it cannot be opened ({reason}); check its name and folder")
    except MarksError as error:
        _refuse(str(error))
    results = class_results(columns, found)
    unread = [str(problem) for problem in found.problems]
    if results.doubt:
        unread.append(f"{sheet.name}: {results.doubt}")
    for problem in unread:
        typer.echo(problem, err=True)
    return results, unread


def _bytes_of(path: Path, most: int) -> bytes:
    """A file's bytes; of one with more than ``most``, so many that this shows."""
    with path.open("rb") as file:
        size = os.fstat(file.fileno()).st_size or most  # a pipe or a device tells no size
        return file.read(min(size, most) + 1)


def _beside(pack: Path, ending: str) -> Path:
    """A folder beside a pack's, named after it."""
    folder = (pack if pack.is_dir() else pack.parent).resolve()
    return folder.with_name(folder.name + ending)


def _write_pack(
    folder: Path,
    spec: Spec,
    pack: Pack,
    *,
    sealed: bool,
    jobs: int | None = None,
    extra: dict[str, tuple[str, bytes]] | None = None,
) -> list[dict[str, Any]]:
    """Write a pack's folder: its pages, its mark sheet, what is extra, and pack.json.

    ``extra`` are further files with their roles. Gives what pack.json lists.
    """
    from layouts.files.folder import write_folder
    from layouts.files.press import draw_pack

    small = dict(extra or {})
    if mark_columns(pack.sections):
        small["marks.csv"] = ("marks", mark_sheet(pack.sections).encode())
        narrow = sheet_by_version(pack.sections)
        if narrow is not None:
            small[BY_VERSION] = ("marks by version", narrow.encode())
    listed: list[dict[str, Any]] = []

    def fill(scratch: Path) -> dict[str, bytes]:
        many = _jobs(jobs, pack)
        with _progress(pack) as pages_done:
            drawn = draw_pack(pack, scratch, sealed=sealed, jobs=many, pages_done=pages_done)
        listed.extend(asdict(file) for file in drawn)
        listed.extend(_listed(name, role, data) for name, (role, data) in small.items())
        plain = {**record(pack), "spec": spec.text, "files": listed}
        return {**{name: data for name, (_, data) in small.items()}, "pack.json": _json(plain)}

    write_folder(folder, fill)
    return listed


def _contents(listed: list[dict[str, Any]]) -> str:
    return ", ".join(
        f"{file['name']} ({_pages(file['pages'])})" if file["pages"] else file["name"]
        for file in listed
    )


def _jobs(asked: int | None, pack: Pack) -> int:
    """How many processes draw: all cores for a class set, else one, unless asked."""
    if asked is not None:
        return asked
    return min(os.cpu_count() or 1, MOST_JOBS) if pack.versions >= CLASS_SET else 1


@contextmanager
def _progress(pack: Pack) -> Iterator[Callable[[int], None]]:
    """What is told of drawn pages: shows a bar for a class set when a person is watching."""
    if pack.versions < CLASS_SET or not sys.stderr.isatty():
        yield lambda pages: None
        return
    from layouts.files.press import expected_pages

    with typer.progressbar(
        length=expected_pages(pack), label="pages", file=sys.stderr, show_pos=True
    ) as bar:
        yield bar.update


def _listed(name: str, role: str, data: bytes, pages: int = 0) -> dict[str, Any]:
    digest = hashlib.sha256(data).hexdigest()
    return {"name": name, "role": role, "pages": pages, "sha256": digest}


def _json(plain: dict[str, Any]) -> bytes:
    return (json.dumps(plain, indent=1, ensure_ascii=False) + "\n").encode()


def _pages(count: int) -> str:
    return f"{count} page{'' if count == 1 else 's'}"


def _refuse(message: str) -> NoReturn:
    typer.echo(message, err=True)
    raise typer.Exit(2)


if __name__ == "__main__":
    main()
