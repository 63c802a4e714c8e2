"""The desk's jobs, asked for without any terminal: values in, values or gathered problems out."""

import importlib
import inspect
import json
import pkgutil
import subprocess
import sys
import tomllib
from collections.abc import Callable, Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

import generator
import layouts
import rungsheet.desk
import specs as written
from generator.allowance import TooWideError
from generator.arithmetic.questions import Operation
from generator.forms.asking import CannotBeAskedError
from generator.forms.form import DisagreementError
from generator.packs.building import TooFewQuestionsError
from generator.packs.codes import CodeError
from generator.packs.keeping import CannotBeKeptError, NotOnItsRungError, wanted
from generator.packs.record import RecordError
from generator.packs.runs import RunError
from generator.packs.telling_apart import CannotTellApartError
from generator.results.follow_up import NothingToFollowError, TooManyAvoidedError
from layouts.editable.sheets import NoSheetsError
from layouts.editable.slides import NoSlidesError
from layouts.files.crew import CrewLostError
from layouts.files.editable import TooManySheetsError
from layouts.files.folder import FolderError
from layouts.files.turns import NoTurnError
from layouts.pdf.carried import NotASheetError
from layouts.pictures.png import NoPicturesError
from layouts.planning.errors import DoesNotFitError, LayoutError, UnprintableError
from rungsheet.desk import again, following, marks, packs, specs
from rungsheet.desk.problems import Problem, Refused, problems_of, refusing, table
from specs.avoided import Avoided
from specs.changing import CannotChangeError
from specs.marks import MarksError, MarksProblem
from specs.problems import SpecError
from specs.spec import Kept, Run, RungSpec

LESSON = """\
title: Weighing beans
ladder:
  beans: {operation: add, places: {ragged: [1, 2]}, whole: 1}
  crates: {operation: subtract, places: 1, exchanges: {count: 1}}
starter: {minutes: 5, questions: {crates: 2}}
tiers:
  core: {beans: 4, crates: 2}
"""

WITHOUT_A_TERMINAL = f"""\
import logging, os, sys
import reportlab.rl_config  # which asks, when it is loaded, where it is

os.rmdir(os.getcwd())  # there is no folder to read from or write to
written = []

def watch(event, arguments):
    if event == "open" and isinstance(arguments[1], str) and set(arguments[1]) & set("wax+"):
        written.append(arguments[0])

sys.addaudithook(watch)

from rungsheet.desk import again, following, keys, marks, packs, rungs, specs, words

environment, mask = dict(os.environ), os.umask(0o027)
os.umask(0o027)
levels = {{name: logging.getLogger(name).level for name in ("", "pypdf")}}
spec = specs.read({LESSON!r}, "beans.yaml")
assert [view.questions > 1_000 for view in rungs.count(spec)] == [True, True]
built = packs.build(spec, packs.Edition(seed=3, versions=2))
files = {{file.name: file for file in built.files()}}
pack = marks.read_pack(files["pack.json"].data, "pack.json")
names = [column.name for column in marks.columns(pack)]
sheet = ",".join(["pupil", *names]) + "\\n1" + ",y" * len(names) + "\\n2" + ",0.1" * len(names)
marked = marks.mark(pack, sheet, "marks.csv")
assert [file.name for file in marked.files()] == ["marks.pdf", "marks.json"]
followed = following.follow(pack, marked, "pack.json")
assert followed.built.files()[-1].name == "pack.json"
found = again.from_pdf(files["practice-core.pdf"].data, "practice-core.pdf")
assert len(list(keys.answers(found))) == 15 and keys.key(found).data.startswith(b"%PDF")
assert words.glossary("add") and words.schema()
assert not written, written
assert "typer" not in sys.modules and not any("click" in name for name in sys.modules)
assert dict(os.environ) == environment and os.umask(mask) == 0o027
assert levels == {{name: logging.getLogger(name).level for name in levels}}
print(*files)
"""


def test_every_job_is_done_without_terminal_folder_or_files(tmp_path: Path) -> None:
    nowhere = tmp_path / "nowhere"
    nowhere.mkdir()
    done = subprocess.run(
        [sys.executable, "-c", WITHOUT_A_TERMINAL], capture_output=True, text=True, cwd=nowhere
    )
    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout.split() == [
        *("starter.pdf", "practice-core.pdf", "lesson.pdf", "answers.pdf"),
        *("answers-on-paper.pdf", "plan.pdf", "key.pdf"),
        *("marks.csv", "marks-by-version.csv", "wrong-only.csv", "pack.json"),
    ]


def test_files_as_bytes_are_those_that_a_folder_gets(tmp_path: Path) -> None:
    from rungsheet.desk import folders

    built = packs.build(specs.read(LESSON, "beans.yaml"), packs.Edition(seed=3, versions=2))
    folders.write_pack(tmp_path / "pack", built)
    on_disk = {path.name: path.read_bytes() for path in (tmp_path / "pack").iterdir()}
    pages: list[None] = []
    files = built.files(lambda: pages.append(None))
    assert {file.name: file.data for file in files} == on_disk
    assert len(pages) == sum(file.pages for file in files) == built.pages
    listed = json.loads(on_disk["pack.json"])["files"]
    assert listed == [file.listed for file in files[:-1]]


def test_a_pack_is_streamed_file_by_file() -> None:
    built = packs.build(specs.read(LESSON, "beans.yaml"))
    chunks: list[bytes] = []

    class Sink:
        def write(self, data: bytes, /) -> None:
            chunks.append(data)

    drawn = built.draw("practice-core.pdf", Sink())
    assert len(chunks) > 10
    assert b"".join(chunks) == built.drawn("practice-core.pdf").data
    assert drawn.pages == len(packs.plan(built)[1].pages)


# What cannot be done


def errors_of(package: Any) -> Iterator[type[Exception]]:
    """Every public exception that a package defines."""
    names = [package.__name__]
    names += [one.name for one in pkgutil.walk_packages(package.__path__, f"{package.__name__}.")]
    for name in names:
        for found in vars(importlib.import_module(name)).values():
            if not (inspect.isclass(found) and issubclass(found, Exception)):
                continue
            if found.__module__ == name and not found.__name__.startswith("_"):
                yield found


EVERY_ERROR = sorted(
    {error for package in (written, generator, layouts) for error in errors_of(package)},
    key=lambda error: error.__name__,
)


def test_the_walk_finds_errors_in_every_package() -> None:
    assert {error.__module__.split(".")[0] for error in EVERY_ERROR} == {
        *("specs", "generator", "layouts")
    }
    assert len(EVERY_ERROR) >= 15


@pytest.mark.parametrize("error", EVERY_ERROR)
def test_whatever_a_package_can_raise_can_be_refused_in_words(error: type[Exception]) -> None:
    """A new exception class is a new row in the desk's table, or a child of one that is there."""
    assert issubclass(error, tuple(table()))


RUNG = RungSpec("beans", str(Operation.ADD), (), line=3)
KEPT = Kept("core", "a", Avoided("add", ("1.2", "3.4")), 9)
RAISED: dict[type[Exception], Callable[[], Exception]] = {
    SpecError: lambda: SpecError([written.Problem("beans.yaml", 2, "no", "yes")]),
    MarksError: lambda: MarksError([MarksProblem("marks.csv", 2, "core.a", "no", "yes")]),
    TooFewQuestionsError: lambda: TooFewQuestionsError([RUNG], 3, "4 are wanted"),
    CannotBeAskedError: lambda: CannotBeAskedError(replace(RUNG, form="spot the mistake"), True),
    CannotTellApartError: lambda: CannotTellApartError(RUNG, 4, "no", "yes"),
    NotOnItsRungError: lambda: NotOnItsRungError(RUNG, KEPT.question, 9, "it carries"),
    RunError: lambda: RunError(Run("digits"), "no number serves", "give it other rungs"),
    CannotBeKeptError: lambda: CannotBeKeptError(KEPT, RUNG, wanted),
    TooWideError: TooWideError,
    DisagreementError: lambda: DisagreementError("1 + 1: worked 3, exactly 2"),
    RecordError: lambda: RecordError("it is not the record of a pack"),
    NothingToFollowError: lambda: NothingToFollowError("nothing has an answer yet"),
    TooManyAvoidedError: lambda: TooManyAvoidedError("2,000 stand in the way; name fewer"),
    CodeError: lambda: CodeError("no", "yes"),
    NotASheetError: lambda: NotASheetError("no", "yes"),
    CannotChangeError: lambda: CannotChangeError(("title",)),
    LayoutError: lambda: LayoutError("it does not fit; choose smaller squares"),
    DoesNotFitError: lambda: DoesNotFitError("it does not fit; choose smaller squares"),
    UnprintableError: lambda: UnprintableError("it cannot be printed; write it otherwise"),
    CrewLostError: lambda: CrewLostError("key.pdf"),
    NoPicturesError: NoPicturesError,
    NoSlidesError: NoSlidesError,
    NoSheetsError: NoSheetsError,
    TooManySheetsError: lambda: TooManySheetsError(50),
    FolderError: lambda: FolderError(Path("pack"), "no", "yes"),
    NoTurnError: NoTurnError,
}


@pytest.mark.parametrize("error", EVERY_ERROR)
def test_every_refusal_says_what_is_wrong_and_what_to_do(error: type[Exception]) -> None:
    with pytest.raises(Refused) as caught, refusing("beans.yaml"):
        raise RAISED[error]()
    (problem,) = caught.value.problems
    assert "; " in str(problem)
    assert str(problem).count(str(problem.file)) == 1 or not problem.file
    assert str(caught.value) == str(problem)


def test_a_fault_of_the_program_is_not_hidden() -> None:
    assert problems_of(ZeroDivisionError(), "beans.yaml") is None
    with pytest.raises(ZeroDivisionError), refusing("beans.yaml"):
        raise ZeroDivisionError


def test_problems_come_in_line_order_and_say_where() -> None:
    second, first = Problem("a.yaml", 7, "what", "that"), Problem("a.yaml", 3, "this")
    assert str(Refused(second, first)) == "a.yaml:3: this\na.yaml:7: what; that"
    assert str(Problem("a.pdf", None, "it is no PDF", "check its name")) == (
        "a.pdf: it is no PDF; check its name"
    )
    assert str(Problem("", None, "no")) == "no"


LADDER = "title: Beans\nladder:\n  beans: {rung}\ntiers: {{core: {{beans: 4}}}}\n"
REFUSED = {
    "a word that is none": ("{operation: add, plaices: 2}", "'plaices'"),
    "conditions that clash": (
        "{operation: add, whole: 0, places: 1, carries: {in: [tens]}}",
        "no question of beans meets",
    ),
    "a rung too wide": (
        "{operation: add, addends: 6, places: {ragged: [0, 4]}, whole: {between: [0, 5]}, "
        "carries: {count: [2, 5], across_point: true}, zeros: {inside: require}, "
        "answer: {between: [10, 100000]}}",
        "mixes too many lengths",
    ),
    "a form that none can have": ("{operation: add, form: known fact}", "leave it out"),
    "too few questions": ("{operation: divide, divisor: 9, dividend: {digits: 1}}", "are wanted"),
    "mistakes that look alike": (
        "{operation: add, carries: none, places: 2, tells_apart: [carry dropped]}",
        "gives the right answer",
    ),
}


@pytest.fixture(scope="module")
def lesson() -> packs.Built:
    return packs.build(specs.read(LESSON, "beans.yaml"))


@pytest.mark.parametrize("case", REFUSED)
@pytest.mark.slow
def test_a_spec_is_refused_alike_wherever_it_comes_from(case: str, lesson: packs.Built) -> None:
    """From a file, from inside a PDF, from a pack.json: what was written by hand can be wrong."""
    rung, says = REFUSED[case]
    text = LADDER.format(rung=rung)
    with pytest.raises(Refused, match=says) as caught:
        packs.build(specs.read(text, "beans.yaml"))
    assert {(one.file, one.line) for one in caught.value.problems} == {("beans.yaml", 3)}

    crafted = packs.of_pack(lesson.spec, replace(lesson.pack, spec_text=text))
    with pytest.raises(Refused, match=says) as caught:
        again.from_pdf(crafted.drawn("key.pdf").data, "key.pdf")
    (problem,) = caught.value.problems
    assert (problem.file, problem.line) == ("key.pdf", None)

    changed = json.loads(lesson.files()[-1].data) | {"spec": text}
    pack = marks.read_pack(json.dumps(changed).encode(), "pack.json")
    marked = marks.mark(pack, "pupil,core.a,core.b\n1,0.1,y\n", "marks.csv")
    with pytest.raises(Refused) as caught:
        following.follow(pack, marked, "pack.json")
    assert str(caught.value).startswith("pack.json: ")


@pytest.mark.parametrize(
    ("edition", "says"),
    [
        (packs.Edition(seed=-1), "the seed cannot be -1; give a whole number from 0"),
        (packs.Edition(seed=10**9), "the seed cannot be 1000000000"),
        (packs.Edition(versions=0), "the number of versions cannot be 0"),
        (packs.Edition(versions=10_001), "the number of versions cannot be 10001"),
    ],
)
def test_an_edition_that_there_is_not_is_refused(edition: packs.Edition, says: str) -> None:
    with pytest.raises(Refused, match=says):
        packs.build(specs.read(LESSON), edition)


def test_a_code_gives_the_pack_again(lesson: packs.Built) -> None:
    from generator.packs.codes import page_code

    code = str(page_code(lesson.pack, lesson.pack.sections[0], 1))
    found = again.from_code(code.lower(), lesson.spec)
    assert found.pack == lesson.pack
    assert found.names == ("starter", "core")


@pytest.mark.parametrize(("seed", "tried"), [(999_999_998, (999_999_999, 0)), (999_999_999, (0,))])
def test_every_seed_that_a_follow_up_tries_can_be_asked_for(
    seed: int, tried: tuple[int, ...], monkeypatch: pytest.MonkeyPatch
) -> None:
    found: list[int] = []

    def watched(spec: Any, results: Any, weighting: Any, seeds: Any, *rest: Any) -> Any:
        found.extend(seeds)
        raise NothingToFollowError("that was all")

    monkeypatch.setattr(following, "follow_up", watched)
    built = packs.build(specs.read(LESSON, "beans.yaml"), packs.Edition(seed=seed))
    pack = marks.read_pack(built.files()[-1].data, "pack.json")
    marked = marks.mark(pack, "pupil,core.a\n1,y\n", "marks.csv")
    with pytest.raises(Refused):
        following.follow(pack, marked, "pack.json")
    assert tuple(found[: len(tried)]) == tried
    assert all(0 <= one <= packs.GREATEST_SEED for one in found)


def test_a_rung_whose_words_do_not_go_together_is_not_counted(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Its reader refused it because counting it could take minutes."""
    counted: list[str] = []
    conflicts = specs.conflicts  # type: ignore[attr-defined]

    def watched(spec: specs.Spec) -> Any:
        counted.extend(rung.name for rung in spec.ladder)
        return conflicts(spec)

    monkeypatch.setattr(specs, "conflicts", watched)
    wide = "  wide: {operation: multiply, digits: 5, carries: {count: 4}}\n"
    with pytest.raises(Refused, match="could have 5 digits"):
        specs.read(LESSON.replace("starter:", f"{wide}starter:"))
    assert counted == ["beans", "crates"]


def test_a_ladder_that_is_too_long_is_refused_for_that_alone() -> None:
    """Not for rungs too wide to be counted, as if each had a share of what may be counted."""
    rungs = "".join(f"  r{at}: {{operation: add}}\n" for at in range(8_000))
    with pytest.raises(Refused) as caught:
        specs.read(f"title: x\nladder:\n{rungs}tiers: {{core: {{r1: 1}}}}\n", "x.yaml")
    assert [(one.line, one.instead) for one in caught.value.problems] == [(63, "keep to 60")]


def test_every_module_of_the_desk_but_its_folders_is_kept_from_files() -> None:
    """The contract names its modules one by one; one that it does not name could do anything."""
    file = Path(__file__).parents[2] / "pyproject.toml"
    settings = tomllib.loads(file.read_text(encoding="utf-8"))
    (contract,) = (
        one
        for one in settings["tool"]["importlinter"]["contracts"]
        if one["name"] == "Of the desk only its folders know files"
    )
    modules = {
        f"rungsheet.desk.{one.name}" for one in pkgutil.iter_modules(rungsheet.desk.__path__)
    }
    assert modules - set(contract["source_modules"]) == {"rungsheet.desk.folders"}


def test_links_are_followed_by_what_takes_those_that_lead_to_themselves() -> None:
    """``Path.resolve`` raises RuntimeError of them, before Python 3.13."""
    for package in (written, generator, layouts, rungsheet):
        for file in Path(*package.__path__).rglob("*.py"):
            if "node_modules" in file.parts:
                continue
            assert ".resolve()" not in file.read_text(encoding="utf-8"), file
