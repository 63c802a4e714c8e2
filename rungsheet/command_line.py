"""The command line: parsing and printing, each command a few lines over the desk.

What it prints is in the language of the machine's user; the help of commands and what the library
says of wrong options are in English.
"""

import os
import re
import sys
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import replace
from io import TextIOWrapper
from pathlib import Path
from typing import Annotated, Any, Final

import typer
from typer.core import TyperGroup

from rungsheet.desk import (
    again,
    exchange,
    folders,
    following,
    foreseeing,
    keys,
    packs,
    rungs,
    tongues,
    words,
)
from rungsheet.desk import pictures as pictures_of_one
from rungsheet.desk.marks import Marked
from rungsheet.desk.problems import Problem, Refused, printable, reason
from rungsheet.desk.specs import DEMO
from rungsheet.desk.tongues import Saying, joined, say, several

MOST_JOBS: Final = 64
PAGE: Final = Path("out/rungsheet.html")
"""Where ``python -m rungsheet.page`` puts the page."""

CLASS_SET: Final = 10
"""So many versions are a class set, worth all cores and a progress bar."""


class _FrontDoor(TyperGroup):
    """The commands; whatever the desk refuses is told on stderr, and ends with exit code 2."""

    def invoke(self, ctx: Any) -> Any:
        try:
            return super().invoke(ctx)
        except Refused as refused:
            typer.echo(refused.told(_speaks()), err=True)
            raise typer.Exit(2) from None


app = typer.Typer(
    cls=_FrontDoor,
    add_completion=False,
    no_args_is_help=True,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
    context_settings={"help_option_names": ["-h", "--help"]},
)


def _speaks() -> Callable[[str], str]:
    """How what the desk tells is said: in the language that this machine's user reads."""
    found = tongues.wanted_by(os.environ)
    return str if found.name == tongues.ENGLISH else found.says  # sayings are English already


def main() -> None:
    """Run the command line; every problem is one message on stderr and exit code 2."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, TextIOWrapper):
            # What a terminal or a file cannot show of − and ▭ is written as \u2212.
            stream.reconfigure(errors="backslashreplace")
    try:
        app()
    except OSError as error:  # of its files the desk speaks itself
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())  # for what is left in it
        what = say("the output cannot be written ({reason})", reason=reason(error))
        told = Problem("", None, what, say("send it elsewhere")).told(_speaks())
        sys.stderr.write(f"{told}\n")
        sys.exit(2)


def _whole(least: int, most: int, unit: str = "") -> dict[str, Any]:
    """What an option that takes a whole number is: how it is read, and how help shows it.

    The library's own ranges do not say in their messages what would be right.
    """

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


def _show_version(wanted: bool) -> None:
    if wanted:
        from importlib.metadata import version  # here, as nothing else needs it

        typer.echo(f"rungsheet {version('rungsheet')}")
        raise typer.Exit


Spec = Annotated[
    str, typer.Argument(metavar="SPEC", help="A spec file, or the name of a shipped one.")
]
MarkSheets = Annotated[
    list[Path],
    typer.Argument(
        metavar="PACK MARKS.csv",
        help="The folder of a pack that was built, and its mark sheet, filled in; after them "
        "packs that the class had before, each with its own, the newest first.",
    ),
]
Beside = Annotated[
    Path | None,
    typer.Option(
        "--out", metavar="DIR", help="Where to write [default: a folder beside the pack]."
    ),
]
Seed = Annotated[
    int | None,
    typer.Option(
        **_whole(0, packs.GREATEST_SEED),
        show_default="1",
        help="The same spec and seed give the same pack.",
    ),
]
NextSeed = Annotated[
    int | None,
    typer.Option(
        "--seed",
        **_whole(0, packs.GREATEST_SEED),
        help="A seed [default: the first after the pack's].",
    ),
]
Versions = Annotated[
    int | None,
    typer.Option(
        **_whole(1, packs.MOST_VERSIONS), show_default="1", help="Versions of each practice sheet."
    ),
]
Large = Annotated[
    str | None,
    typer.Option(
        metavar="|".join(map(str, packs.LARGE)),
        callback=_one_of(*map(str, packs.LARGE)),
        help="Every sheet in large print: digits of so many points.",
    ),
]
Tint = Annotated[
    str | None,
    typer.Option(
        metavar="NAME",
        callback=_one_of(*packs.TINTS),
        help=f"Every sheet on a tint: {', '.join(packs.TINTS)}.",
    ),
]
KeyWords = Annotated[
    str | None,
    typer.Option(
        "--key-words",
        metavar="LANGUAGE",
        callback=_one_of(*packs.KEY_WORDS),
        help=f"Every sheet with its key words in a language too: {', '.join(packs.KEY_WORDS)}.",
    ),
]
Jobs = Annotated[
    int | None,
    typer.Option(
        **_whole(1, MOST_JOBS),
        show_default="all cores for a class set",
        help="Processes that draw; the files are the same for any number.",
    ),
]
Workings = Annotated[
    str | None,
    typer.Option(
        metavar="first|all",
        callback=_one_of("first", "all"),
        show_default="first",
        help="Whose workings the key has: of the first version, or of all.",
    ),
]
Pictures = Annotated[
    str | None,
    typer.Option(
        metavar="|".join(packs.PICTURES),
        callback=_one_of(*packs.PICTURES),
        help="Every page as a picture too, for pasting: sharp at any size, or of dots.",
    ),
]
Slides = Annotated[
    str | None,
    typer.Option(
        metavar="|".join(packs.SLIDES),
        callback=_one_of(*packs.SLIDES),
        help="The slides as files that a presentation program can change, too.",
    ),
]
Sheets = Annotated[
    str | None,
    typer.Option(
        metavar="|".join(packs.SHEETS),
        callback=_one_of(*packs.SHEETS),
        help="The pupils' sheets as files that a word processor can change, too.",
    ),
]
Data = Annotated[
    str | None,
    typer.Option(
        metavar="|".join(exchange.KINDS),
        callback=_one_of(*exchange.KINDS),
        help="The questions for other programs too: a table, or items of QTI 3.0.",
    ),
]
Operation = Annotated[
    str | None,
    typer.Argument(
        metavar="OPERATION",
        callback=_one_of(*words.OPERATIONS),
        help=f"One of {', '.join(words.OPERATIONS)}.",
    ),
]


@app.callback()
def front_door(
    version: Annotated[
        bool,
        typer.Option("--version", callback=_show_version, is_eager=True, help="Show the version."),
    ] = False,
) -> None:
    """From a short spec and a seed to a pack of written-calculation questions, ready to print."""


@app.command(epilog="Example: rungsheet build my-lesson.yaml --seed 7 --versions 30")
def build(
    spec: Spec = DEMO,
    seed: Seed = None,
    out: Annotated[
        Path | None,
        typer.Option(metavar="DIR", help="The pack's folder [default: out/<spec name>-<seed>]."),
    ] = None,
    versions: Versions = None,
    code: Annotated[
        str | None,
        typer.Option(
            metavar="CODE", help="Build again the pack of the page with this code at its foot."
        ),
    ] = None,
    large: Large = None,
    tint: Tint = None,
    key_words: KeyWords = None,
    sealed: Annotated[
        bool, typer.Option("--sealed", help="Keep the spec and seed out of the PDFs.")
    ] = False,
    workings: Workings = None,
    pictures: Pictures = None,
    slides: Slides = None,
    sheets: Sheets = None,
    data: Data = None,
    jobs: Jobs = None,
) -> None:
    """Build a pack: starter, examples, practice, answers and key. No SPEC builds the demo."""
    read = folders.spec_in(spec)
    look = packs.Look(int(large) if large else None, tint, key_words)
    edition = again.edition(read, code, seed, versions, look)
    edition = replace(edition, all_workings=workings == "all")
    folder = out or Path("out") / f"{read.name}-{edition.seed}{edition.look.ending}"
    folders.refuse_unless_pack(folder)
    built = packs.build(read, edition, sealed=sealed)
    if data:
        built = replace(built, beside=(*built.beside, exchange.of_questions(built, data)))
    _tell(folder, _written(folder, built, jobs, pictures, slides, sheets))


@app.command(epilog="Example: rungsheet key practice-core.pdf --out answers-for-monday")
def key(
    sheet: Annotated[Path, typer.Argument(metavar="SHEET.pdf", help="A PDF that Rungsheet made.")],
    out: Annotated[
        Path | None,
        typer.Option(metavar="DIR", help="Write the key with its workings there, as key.pdf."),
    ] = None,
    workings: Workings = None,
) -> None:
    """Print the answers of a sheet, from the spec and seed that its PDF carries."""
    found = folders.rebuilt_from(sheet)
    if out is not None:
        folders.write_file(out, keys.key(found, all_workings=workings == "all"))
    for line in keys.answers(found):
        typer.echo(line)
    if out is not None:
        typer.echo(f"{printable(str(out))}: key.pdf")


@app.command(epilog="Example: rungsheet check my-lesson.yaml")
def check(spec: Spec) -> None:
    """Say what is wrong with a spec, line by line; say nothing when it is good."""
    packs.check(folders.spec_in(spec))


@app.command(name="rungs", epilog="Example: rungsheet rungs my-lesson.yaml --json")
def show_rungs(
    spec: Spec = DEMO,
    as_json: Annotated[bool, typer.Option("--json", help="For programs.")] = False,
) -> None:
    """Show each rung: how many questions are on it, exactly, and one of them.

    Of a run, how many numbers serve all its rungs.
    """
    read = folders.spec_in(spec)
    views, of_runs = rungs.count(read), rungs.runs(read)
    if as_json:
        typer.echo(rungs.as_json(views, of_runs))
    else:
        typer.echo(rungs.as_table(views, of_runs, _speaks()))


@app.command(epilog="Example: rungsheet picture my-lesson.yaml --rung over-the-point --seed 7")
def picture(
    spec: Spec,
    rung: Annotated[str, typer.Option(metavar="NAME", help="The rung whose question it is.")],
    seed: Seed = None,
    worked: Annotated[bool, typer.Option("--worked", help="Its finished working.")] = False,
    kind: Annotated[
        str,
        typer.Option(
            "--as",
            metavar="|".join(pictures_of_one.KINDS),
            callback=_one_of(*pictures_of_one.KINDS),
            help="Sharp at any size, or of dots.",
        ),
    ] = "svg",
    out: Annotated[Path, typer.Option(metavar="DIR", help="Where to write it.")] = Path(),
) -> None:
    """Draw one question alone, cropped to its squares, for pasting."""
    read = folders.spec_in(spec)
    file = pictures_of_one.one(read, rung, 1 if seed is None else seed, kind, worked=worked)
    folders.write_file(out, file)
    typer.echo(out / file.name)


@app.command(epilog="Example: rungsheet foresee my-lesson.yaml --seed 7")
def foresee(
    spec: Spec = DEMO,
    seed: Seed = None,
    as_json: Annotated[bool, typer.Option("--json", help="For programs.")] = False,
) -> None:
    """Before printing, say what the answers will tell: which habits, how surely, and of how many.

    Pupils are simulated, none is real: each has one habit and slips now and then. With
    'finds_out: every habit' in a section its questions are chosen to tell most.
    """
    read = folders.spec_in(spec)
    chosen = 1 if seed is None else seed
    found = foreseeing.foresee(read, chosen)
    if as_json:
        typer.echo(foreseeing.as_json(read, chosen, found))
        return
    for line in foreseeing.as_lines(read, chosen, found, _speaks()):
        typer.echo(line)


@app.command(epilog="Example: rungsheet marks out/produce-stall-1 out/produce-stall-1/marks.csv")
def marks(given: MarkSheets, out: Beside = None) -> None:
    """Read a mark sheet: who is secure, who slips, who has which habit, and what to teach again.

    marks.csv has a row a pupil: what was written, or y, n, nothing, absent. wrong-only.csv has a
    row a wrong answer, and all else is right: 7,core.c,4.1. In it "1 to 28" alone or "7,core" says
    who was there and with which sheet, "7,absent" who was not.

    Several mark sheets of one pack (PACK 9a.csv 9b.csv) are several classes, shown side by side.

    With packs of earlier weeks (PACK MARKS.csv PACK-BEFORE MARKS-BEFORE.csv) evidence adds up: what
    a pupil answered there counts for the finding too, half as much with every pack that came after
    it. Pupils are the same where what stands in the pupils' column is.

    No names are needed: pupils are numbers, and what a number means stays with you. Nothing
    leaves this machine, and files are written only where you say. Keep mark sheets and what is
    made of them as you keep all marks.
    """
    found = folders.arranged(given)
    folder = out or folders.beside(found[0], "-marks")
    folders.refuse_unless_pack(folder, "marks.json")
    marked = folders.marked_in(found)
    _warn(marked.unread)
    _warn(marked.not_printed)
    _warn(folders.replacing_marks(folder, marked))
    folders.write_files(folder, marked.files())
    typer.echo(f"{printable(str(folder))}: marks.pdf, marks.json")


@app.command(epilog="Example: rungsheet follow out/produce-stall-1 out/produce-stall-1/marks.csv")
def follow(
    given: MarkSheets,
    out: Beside = None,
    seed: NextSeed = None,
    avoid: Annotated[
        list[Path] | None,
        typer.Option(metavar="PACK", help="A further pack whose questions are not to come again."),
    ] = None,
    earlier: Annotated[
        list[Path] | None,
        typer.Option(
            metavar="PACK", help="A pack that the class had before, without marks; newest first."
        ),
    ] = None,
    groups: Annotated[
        bool,
        typer.Option("--groups", help="A sheet for each group too, and what mends its habit."),
    ] = False,
    catch_up: Annotated[
        bool, typer.Option("--catch-up", help="A sheet for pupils who were absent too.")
    ] = False,
    questions: Annotated[
        int,
        typer.Option(**_whole(1, 40), help="Questions in the starter, and on each group's sheet."),
    ] = 6,
    review: Annotated[
        int,
        typer.Option(**_whole(0, 100, "%"), help="How many of a hundred go to earlier packs."),
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
    it. Rungs that weigh a fifth or more share the questions by weight. With earlier packs a third
    goes to rungs of these, at intervals that double: of the pack before, of that two packs
    before, four, eight. No question of any of these packs comes again. Where it is not settled
    how some pupils work, the questions are chosen to find that out, and it is said of whom.

    With --groups each group of marks.pdf has a sheet of its own (practice-group-1.pdf), and
    examples.pdf shows what its habit does, put right. With --catch-up there is one for absent
    pupils. All is one pack, with one key.

    No names are needed: pupils are numbers, and what a number means stays with you. Nothing
    leaves this machine, and files are written only where you say. Keep mark sheets and what is
    made of them as you keep all marks.
    """
    sheets = folders.arranged(given)
    folders.of_one_class(sheets)
    folder = out or folders.beside(sheets[0], "-follow")
    folders.refuse_among(folder, (*(s.pack for s in sheets), *(earlier or ()), *(avoid or ())))
    folders.refuse_unless_pack(folder)
    marked = folders.marked_in(sheets)
    assert isinstance(marked, Marked)  # of one class
    _warn(marked.unread)
    pack, before = folders.followed(sheets, earlier or ())
    others = tuple(map(folders.pack_in, avoid or ()))
    weights = following.Weights(questions, review, habits, groups, catch_up)
    found = following.follow(pack, marked, str(sheets[0].pack), weights, seed, others, before)
    files = _written(folder, found.built)
    says = _speaks()
    for line in found.said:
        typer.echo(says(line))
    typer.echo(f"{printable(str(folder))}: {', '.join(file.name for file in files)}")


@app.command(name="words", epilog="Example: rungsheet words divide")
def show_words(operation: Operation = None) -> None:
    """Say what each word of a spec means, and what holds where it is not given."""
    typer.echo(words.glossary(operation, _speaks()))


@app.command(epilog="Example: rungsheet schema > rungsheet.schema.json")
def schema() -> None:
    """Print the JSON Schema of specs, with which an editor completes words and marks mistakes."""
    typer.echo(words.schema())


@app.command(epilog="Example: rungsheet page")
def page(
    file: Annotated[Path, typer.Argument(metavar="PAGE.html", help="Where the page is.")] = PAGE,
) -> None:
    """Open the page: the whole tool in one file, for a browser, without a network."""
    if not file.is_file():
        what = say("the page is not there")
        instead = say(
            "in a checkout, make it: npm ci --ignore-scripts --prefix rungsheet/page, then "
            "python -m rungsheet.page"
        )
        raise Refused(Problem(str(file), None, what, instead))
    import webbrowser  # here, as nothing else needs it

    address = Path(os.path.realpath(file)).as_uri()
    if not webbrowser.open(address):
        what = say("no browser could be opened")
        instead = say("open it in one yourself: {address}", address=address)
        raise Refused(Problem(str(file), None, what, instead))
    typer.echo(address)


def _written(
    folder: Path,
    built: packs.Built,
    jobs: int | None = None,
    pictures: str | None = None,
    slides: str | None = None,
    sheets: str | None = None,
) -> tuple[packs.File, ...]:
    """Write a pack: with all cores for a class set, else in this process, unless asked."""
    usual = min(os.cpu_count() or 1, MOST_JOBS) if built.pack.versions >= CLASS_SET else 1
    _warn(folders.replacing(folder, built))
    with _progress(built) as pages_done:
        processes = usual if jobs is None else jobs
        return folders.write_pack(folder, built, processes, pages_done, pictures, slides, sheets)


@contextmanager
def _progress(built: packs.Built) -> Iterator[Callable[[int], None]]:
    """What is told of drawn pages: shows a bar for a class set when a person is watching."""
    if built.pack.versions < CLASS_SET or not sys.stderr.isatty():
        yield lambda pages: None
        return
    label = _speaks()(say("pages"))
    bar = typer.progressbar(length=built.pages, label=label, file=sys.stderr, show_pos=True)
    with bar as shown:
        yield shown.update


def _warn(problems: Sequence[Problem]) -> None:
    for problem in problems:
        typer.echo(problem.told(_speaks()), err=True)


def _tell(folder: Path, files: tuple[packs.File, ...]) -> None:
    """What was written, as ``DIR: key.pdf (2 pages), marks.csv, pictures of 9 pages``."""
    pictures = sum(file.role == "picture" for file in files)
    named = (file for file in files if file.role != "picture")
    said = [joined((f.name, _in_pages(f.pages))) if f.pages else f.name for f in named]
    if pictures:
        said.append(several("pictures of {count} page", "pictures of {count} pages", pictures))
    typer.echo(f"{printable(str(folder))}: {_speaks()(joined(said, between=', '))}")


def _in_pages(count: int) -> Saying:
    return several("({count} page)", "({count} pages)", count)


if __name__ == "__main__":
    main()
