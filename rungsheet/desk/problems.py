"""What is wrong with what was asked: problems for people, gathered in one exception.

Whatever specs, generator and layouts refuse is turned into problems here, by one table. An
error that is not in it is a fault of the program, and is not hidden.
"""

from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from functools import cache
from typing import Any, Final

from specs.languages.saying import NOTHING, Saying, joined, say
from specs.problems import printable as printable
from specs.spec import Spec
from specs.unreadable import reason as reason


@dataclass(frozen=True, slots=True)
class Problem:
    """One problem: in which file, at which line, what is wrong, what to write or do instead.

    ``file`` is a label for people, "" for none; ``line`` is None where the whole file is meant,
    and ``instead`` is nothing where ``what`` says it already. ``told`` is the problem in a
    language. What cannot be printed stands in it as its code.
    """

    file: str
    line: int | None
    what: Saying
    instead: Saying = NOTHING

    def __post_init__(self) -> None:
        for name in ("file", "what", "instead"):
            object.__setattr__(self, name, printable(getattr(self, name)))

    def __str__(self) -> str:
        return self.told(str)

    @property
    def said(self) -> Saying:
        """The problem as one line."""
        where = self.file if self.line is None else joined((self.file, f":{self.line}"), between="")
        return joined((where, joined((self.what, self.instead), between="; ")), between=": ")

    def told(self, says: Callable[[str], str]) -> str:
        """The problem as one line, its sayings as ``says`` says them."""
        return says(self.said)


class Refused(Exception):  # noqa: N818  a word for people, as in "the spec was refused"
    """What was asked for cannot be done; ``problems`` has every reason, in line order."""

    def __init__(self, *problems: Problem) -> None:
        self.problems = tuple(sorted(problems, key=lambda one: (one.line or 0, one.what)))
        super().__init__("\n".join(map(str, self.problems)))

    def told(self, says: Callable[[str], str]) -> str:
        """Every problem on a line of its own, its sayings as ``says`` says them."""
        return "\n".join(problem.told(says) for problem in self.problems)


@contextmanager
def refusing(file: str, spec: Spec | None = None) -> Iterator[None]:
    """Within it, whatever specs, generator and layouts refuse is Refused, about a file.

    With ``spec``, whose file it then is, a problem with a rung or a title has its line.
    """
    try:
        yield
    except Exception as error:
        problems = problems_of(error, file, spec)
        if problems is None:
            raise
        raise Refused(*problems) from error


def problems_of(
    error: Exception, file: str, spec: Spec | None = None
) -> tuple[Problem, ...] | None:
    """The problems that an error stands for; None where it is a fault of the program."""
    for kind, said in table().items():
        if isinstance(error, kind):
            return tuple(said(error, file, spec))
    return None


_Said = Callable[[Any, str, Spec | None], Iterable[Problem]]

TOO_WIDE: Final = (
    say("a rung mixes too many lengths and conditions to be counted exactly"),
    say("ask for fewer addends, a narrower range of places or whole, or fewer conditions"),
)


def words_of(error: Exception) -> Saying:
    """What an error was given to say; a saying in no language but its own where that is none."""
    said = error.args[0] if error.args else ""
    return said if isinstance(said, Saying) else joined((str(error),))


@cache
def table() -> dict[type[Exception], _Said]:
    """How to say each error that input can lead to."""
    # Here, so that asking for help loads none of it.
    from generator.allowance import TooWideError
    from generator.forms.asking import CannotBeAskedError
    from generator.forms.form import DisagreementError
    from generator.packs.building import TooFewQuestionsError
    from generator.packs.codes import CodeError
    from generator.packs.keeping import CannotBeKeptError, NotOnItsRungError
    from generator.packs.record import RecordError
    from generator.packs.runs import RunError
    from generator.packs.telling_apart import CannotTellApartError
    from generator.results.follow_up import NothingToFollowError, TooManyAvoidedError
    from layouts.files.folder import FolderError
    from layouts.files.turns import NoTurnError
    from layouts.pdf.carried import NotASheetError
    from layouts.planning.errors import LayoutError
    from specs.changing import CannotChangeError
    from specs.marks import MarksError
    from specs.problems import SpecError

    return {
        SpecError: _own_problems,
        MarksError: _of_a_mark_sheet,
        TooFewQuestionsError: _at_its_line,
        CannotBeAskedError: _at_its_line,
        CannotTellApartError: _at_its_line,
        CannotBeKeptError: _at_its_line,
        NotOnItsRungError: _at_its_line,
        RunError: _at_its_line,
        TooWideError: _in_words(*TOO_WIDE),
        DisagreementError: _fault,
        LayoutError: _on_a_page,
        RecordError: _with_help(say("build the pack again")),
        NothingToFollowError: _with_help(say("fill in its mark sheet first")),
        TooManyAvoidedError: _with_help(NOTHING),
        CodeError: _what_and_instead,
        NotASheetError: _what_and_instead,
        CannotChangeError: _what_and_instead,
        FolderError: _of_a_folder,
        NoTurnError: _in_words(say("another build is writing there"), say("wait for it to end")),
    }


def _own_problems(error: Any, file: str, spec: Spec | None) -> Iterator[Problem]:
    for found in error.problems:
        yield Problem(found.file, found.line, found.what, found.instead)


def _of_a_mark_sheet(error: Any, file: str, spec: Spec | None) -> Iterator[Problem]:
    for found in error.problems:
        yield of_a_cell(found)


def of_a_cell(found: Any) -> Problem:
    """A problem of a mark sheet, which has rows and columns rather than lines."""
    row, column, what = found.row, found.column, found.what
    if column:
        said = say("row {row}, column {column}: {what}", row=row, column=column, what=what)
    else:
        said = say("row {row}: {what}", row=row, what=what)
    return Problem(found.file, None, said, found.instead)


def _at_its_line(error: Any, file: str, spec: Spec | None) -> Iterator[Problem]:
    yield Problem(file, error.line if spec else None, error.what, error.instead)


def _what_and_instead(error: Any, file: str, spec: Spec | None) -> Iterator[Problem]:
    yield Problem(file, None, error.what, error.instead)


def _of_a_folder(error: Any, file: str, spec: Spec | None) -> Iterator[Problem]:
    yield Problem(str(error.folder), None, error.what, error.instead)


def _on_a_page(error: Any, file: str, spec: Spec | None) -> Iterator[Problem]:
    """What does not fit or cannot be printed: at the line of its rung, where it has one."""
    line = _line_of(error, spec) if spec else None
    yield Problem(file if line is not None else "", line, words_of(error))


def _line_of(error: Any, spec: Spec) -> int | None:
    from layouts.planning.errors import UnprintableError

    lines = [rung.line for rung in spec.ladder if rung.name == error.rung]
    if isinstance(error, UnprintableError) and not lines:  # the title: all else is plain
        lines = [spec.title_line]
    return lines[0] if lines else None


def _fault(error: Any, file: str, spec: Spec | None) -> Iterator[Problem]:
    what = say(
        "two ways of working one answer disagree, so nothing is printed ({error})", error=str(error)
    )
    yield Problem(file, None, what, say("this is a fault of Rungsheet: report it with the spec"))


def _in_words(what: Saying, instead: Saying) -> _Said:
    return lambda error, file, spec: [Problem(file, None, what, instead)]


def _with_help(instead: Saying) -> _Said:
    return lambda error, file, spec: [Problem(file, None, words_of(error), instead)]
