"""The front door: the command line, and the only module that knows specs, generator and layouts.

Layouts, and with them ReportLab, are imported only by the command that draws pages.
"""

import hashlib
import json
from importlib.metadata import version
from pathlib import Path
from typing import Annotated, Any, NoReturn

import typer

from generator.conditions import VOCABULARY
from generator.conflicts import conflicts
from generator.mark_sheet import mark_columns, mark_sheet
from generator.pack import Pack
from generator.packs import TooFewQuestionsError, build_pack
from generator.record import record
from generator.telling_apart import CannotTellApartError
from specs import DEMO, Spec, SpecError, load_spec, shipped, shipped_names

MOST_VERSIONS = 10_000
GREATEST_SEED = 999_999_999

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
    app()


def _show_version(wanted: bool) -> None:
    if wanted:
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


@app.command(epilog="Example: rungsheet build my-lesson.yaml --seed 7 --versions 30")
def build(
    spec: SpecArgument = DEMO,
    seed: Annotated[
        int,
        typer.Option(min=0, max=GREATEST_SEED, help="The same spec and seed give the same pack."),
    ] = 1,
    out: Annotated[
        Path | None,
        typer.Option(metavar="DIR", help="The pack's folder [default: out/<spec name>-<seed>]."),
    ] = None,
    versions: Annotated[
        int,
        typer.Option(min=1, max=MOST_VERSIONS, help="Versions of each practice sheet."),
    ] = 1,
) -> None:
    """Build a pack: starter, examples, practice, answers and key. No SPEC builds the demo."""
    from layouts import LayoutError, render
    from layouts.folder import FolderError, refuse_unless_pack, write_folder

    read = _read(spec)
    folder = out or Path("out") / f"{read.name}-{seed}"
    try:
        refuse_unless_pack(folder)
        pack = _chosen(read, seed, versions)
        documents = (*render(pack), *_mark_sheet(pack))
        files = {document.name: document.data for document in documents}
        write_folder(folder, {**files, "pack.json": _pack_json(read, pack, documents)})
    except (FolderError, LayoutError) as error:
        _refuse(str(error))
    pages = ", ".join(f"{d.name} ({_pages(d.pages)})" if d.pages else d.name for d in documents)
    typer.echo(f"{folder}: {pages}")


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
    from generator.ladder import RungView, ladder

    views = ladder(_read(spec))
    if as_json:
        typer.echo(json.dumps([view.plain for view in views], indent=2, ensure_ascii=False))
    else:
        typer.echo(RungView.table(views))


@app.command(epilog="Example: rungsheet schema > rungsheet.schema.json")
def schema() -> None:
    """Print the JSON Schema of specs, with which an editor completes words and marks mistakes."""
    from specs.schema import schema as schema_of

    typer.echo(json.dumps(schema_of(VOCABULARY), indent=2, ensure_ascii=False))


def _read(spec: str) -> Spec:
    """The spec of a path or a shipped name; ends with its problems when it has any."""
    try:
        read = load_spec(shipped(spec) if spec in shipped_names() else Path(spec), VOCABULARY)
    except SpecError as error:
        _refuse(str(error))
    empty = [
        f"{read.source}:{found.line}: {found.what}; {found.instead}" for found in conflicts(read)
    ]
    if empty:
        _refuse("\n".join(empty))
    return read


def _chosen(spec: Spec, seed: int, versions: int) -> Pack:
    """The pack; ends with a message when a rung does not hold the questions for it."""
    try:
        return build_pack(spec, seed, versions)
    except (TooFewQuestionsError, CannotTellApartError) as error:
        _refuse(f"{spec.source}:{error.line}: {error}")


def _mark_sheet(pack: Pack) -> tuple[Any, ...]:
    """The pack's empty mark sheet; none where nothing is marked."""
    from layouts.documents import Document

    if not mark_columns(pack.sections):
        return ()
    return (Document("marks.csv", "marks", 0, mark_sheet(pack.sections).encode()),)


def _pack_json(spec: Spec, pack: Pack, documents: tuple[Any, ...]) -> bytes:
    files = [
        {
            "name": document.name,
            "role": document.role,
            "pages": document.pages,
            "sha256": hashlib.sha256(document.data).hexdigest(),
        }
        for document in documents
    ]
    return (
        json.dumps(
            {**record(pack), "spec": spec.text, "files": files}, indent=1, ensure_ascii=False
        )
        + "\n"
    ).encode()


def _pages(count: int) -> str:
    return f"{count} page{'' if count == 1 else 's'}"


def _refuse(message: str) -> NoReturn:
    typer.echo(message, err=True)
    raise typer.Exit(2)


if __name__ == "__main__":
    main()
