"""What the page asks of the engine, and how the answers go back: as plain data and bytes.

``answer`` is the one door. A job takes plain data and gives plain data; where the command line
would end with a message, it gives problems, each with its line, what is wrong and what to write
instead. Nothing is remembered between jobs but what is quicker not to work out again.
"""

import hashlib
import json
import tempfile
from collections.abc import Callable, Iterator
from dataclasses import asdict, dataclass, field, replace
from fractions import Fraction
from functools import lru_cache
from pathlib import Path
from typing import Any, Final

from layouts.rebuilding import Rebuilt, rebuilt

from generator.forms.asking import CannotBeAskedError, cannot_be_asked
from generator.packs.building import TooFewQuestionsError, build_pack, too_few
from generator.packs.codes import CodeError
from generator.packs.conflicts import conflicts
from generator.packs.ladder import ladder
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
from generator.vocabulary import VOCABULARY
from layouts import LayoutError
from layouts.files.documents import draw_file, file_names, plan, render_key
from layouts.marks.marks_pages import marks_pdf
from layouts.pdf.carried import NotASheetError, carried_by
from specs import DEMO, Spec, SpecError, read_spec, shipped, shipped_names
from specs.looks import Look
from specs.marks import MarksError, read_marks
from specs.schema import schema
from specs.spec import Condition, RungSpec, SectionSpec

MOST_VERSIONS: Final = 100
"""More than a class needs; the command line draws thousands, and has the memory for them."""

GREATEST_SEED: Final = 999_999_999

Plain = dict[str, Any]


@dataclass(frozen=True, slots=True)
class Asked:
    """A job's question: its plain data, the bytes that came with it, and whom to tell.

    ``tell`` is told how many of how many pages are drawn. ``given`` collects files for the
    answer, which names each by its place among them.
    """

    plain: Plain
    data: bytes | None
    tell: Callable[[int, int], None]
    files: list[bytes] = field(default_factory=list)

    def file(self, name: str, role: str, data: bytes, pages: int = 0) -> Plain:
        """A file of the answer, as plain data that says where its bytes are."""
        self.files.append(data)
        return {"name": name, "role": role, "pages": pages, "file": len(self.files) - 1}


class ProblemsError(Exception):
    """A job that cannot be done, with its problems as plain data."""

    def __init__(self, *problems: Plain) -> None:
        self.problems = problems
        super().__init__("\n".join(str(problem["what"]) for problem in problems))


def answer(
    job: str, plain: str, data: bytes | memoryview | None, tell: Callable[[int, int], None]
) -> tuple[str, list[bytes]]:
    """Do a job. Gives JSON with its ``result`` or its ``problems``, and the files of it."""
    asked = Asked(json.loads(plain), None if data is None else bytes(data), tell)
    try:
        found: Plain = {"result": JOBS[job](asked)}
    except ProblemsError as error:
        found = {"problems": error.problems}
        asked.files.clear()
    return json.dumps(found, ensure_ascii=False), asked.files


def problem(what: str, instead: str = "", line: int | None = None) -> Plain:
    """One problem; ``line`` is that of the spec, None where it has none."""
    return {"line": line, "what": what, "instead": instead}


# What can be asked


def words(asked: Asked) -> Plain:
    """Every word that a rung may use, with what it means and the shape of its value.

    ``takes`` says the shape in plain words; the schema has it as data for controls, and the
    rest of a spec's grammar too.
    """
    return {
        "operations": list(VOCABULARY.operations),
        "words": [
            {
                "name": word.name,
                "operations": [name for name in VOCABULARY.operations if name in word.operations],
                "says": word.says,
                "takes": word.shape.says,
                "choices": list(word.shape.words),
                "schema": word.shape.schema(),
            }
            for word in VOCABULARY.words
        ],
        "schema": schema(VOCABULARY),
    }


def lessons(asked: Asked) -> list[Plain]:
    """The lessons that ship: their names and texts, the demo first."""
    names = sorted(shipped_names(), key=lambda name: (name != DEMO, name))
    return [{"name": name, "text": shipped(name).read_text("utf-8")} for name in names]


def read(asked: Asked) -> Plain:
    """A spec's text as plain data: its title, rungs with their words, and sections."""
    spec = _spec(asked)
    sections = [section for section in (spec.starter, *spec.tiers) if section]
    return {
        "name": spec.name,
        "title": spec.title,
        "rungs": [_rung(rung) for rung in spec.ladder],
        "sections": [_section(section) for section in sections],
        "examples": [asdict(share) for share in spec.examples],
        "matching": spec.matching,
        "pages": asdict(spec.presentation),
        "avoid": [avoided.text for avoided in spec.avoid],
    }


def rungs(asked: Asked) -> list[Plain]:
    """Each rung's exact number of questions, and one of them: as data and in words."""
    return [
        {**view.plain, "shown": view.shown, "features": view.item.features if view.item else ()}
        for view in ladder(_spec(asked))
    ]


def build(asked: Asked) -> Plain:
    """A pack's files, as the command line would write them."""
    spec = _spec(asked)
    pack = _pack(asked, spec)
    return _built(asked, spec, pack)


def pages(asked: Asked) -> Plain:
    """The pages of one of a pack's files as pictures (SVG); ``file`` names it."""
    pack = _pack(asked, _spec(asked))
    wanted = asked.plain.get("file")
    for file in _layout(plan, pack):
        if wanted in (None, file.name):
            shown = [picture(page) for page in file.pages]
            return {"name": file.name, "role": file.role, "pages": shown}
    raise ProblemsError(problem(f"there is no file {wanted}", f"one of {_names(pack)}"))


def key(asked: Asked) -> Plain:
    """The answers of a sheet: of a PDF's bytes, or of a page's ``code`` and its spec."""
    if asked.data is not None:
        try:
            found = rebuilt(carried_by(asked.data))
        except NotASheetError as error:
            raise ProblemsError(problem(str(error))) from None
        text = found.pack.spec_text
    else:
        spec = _spec(asked)
        code, look = _code(asked, spec)
        pack = _dressed(_built_pack(spec, code[0], code[1]), look)
        found = Rebuilt(pack, tuple(dict.fromkeys(section.name for section in pack.sections)))
        text = spec.text
    document = _layout(render_key, found.pack, found.names)
    look = Look.numbered(found.pack.look)
    return {
        "title": found.pack.title,
        "seed": found.pack.seed,
        "versions": found.pack.versions,
        "code": found.pack.code,
        "large": look.large,
        "tint": look.tint,
        "sections": list(found.names),
        "answers": list(found.answers),
        "text": text,
        "files": [asked.file(document.name, "key", document.data, document.pages)],
    }


def marks(asked: Asked) -> Plain:
    """What a mark sheet (``sheet``, or the bytes) says of a pack: the findings, and marks.pdf."""
    pack = _pack_record(asked)
    results, unread = _results(asked, pack)
    drawn = _layout(marks_pdf, pack.title, results, unread)
    return {
        **results.plain,
        "unread": unread,
        "files": [asked.file("marks.pdf", "marks", drawn)],
    }


def columns(asked: Asked) -> list[Plain]:
    """The columns of a pack's mark sheet: what is typed when it is filled in on the page."""
    return [
        {
            "name": column.name,
            "section": column.section.name,
            "version": column.section.version,
            "label": column.item.label,
            "rung": column.item.rung,
            "asked": column.item.form.asked(column.item.question),
            "reply": column.item.form.reply(column.item.question),
        }
        for column in mark_columns(_pack_record(asked).sections)
    ]


def follow(asked: Asked) -> Plain:
    """Tomorrow's starter from a mark sheet: its spec, why each rung is in it, and its files."""
    pack = _pack_record(asked)
    results, _ = _results(asked, pack)
    first = (pack.seed + 1) % (GREATEST_SEED + 1)
    try:
        found = follow_up(
            _read(pack.spec_text.encode(), "the pack's spec"),
            results,
            Weighting(
                _whole(asked, "questions", 6, 1, 40),
                Fraction(_whole(asked, "review", 33, 0, 100), 100),
                _whole(asked, "habits", 1, 0, 10),
            ),
            range(first, first + SEEDS_TRIED),
            list(pack.questions),
        )
    except (
        TooFewQuestionsError,
        CannotTellApartError,
        NothingToFollowError,
        TooManyAvoidedError,
    ) as error:
        raise ProblemsError(problem(str(error))) from None
    extra = {FOLLOW_UP: ("spec", found.spec.text.encode())}
    return {
        "text": found.spec.text,
        "choices": [asdict(choice) for choice in found.choices],
        "avoided": found.listed,
        **_built(asked, found.spec, found.pack, extra),
    }


JOBS: Final[dict[str, Callable[[Asked], Any]]] = {
    "words": words,
    "lessons": lessons,
    "read": read,
    "rungs": rungs,
    "build": build,
    "pages": pages,
    "key": key,
    "marks": marks,
    "columns": columns,
    "follow": follow,
}


# How it is found out


def _spec(asked: Asked) -> Spec:
    """The spec of the text that was sent, or of the bytes of a file."""
    text = asked.plain.get("text")
    data = text.encode("utf-8", "replace") if isinstance(text, str) else asked.data or b""
    return _checked(data, str(asked.plain.get("name", "lesson.yaml")))


def _read(data: bytes, source: str) -> Spec:
    try:
        return read_spec(data, source, VOCABULARY)
    except SpecError as error:
        raise ProblemsError(*(problem(p.what, p.instead, p.line) for p in error.problems)) from None


@lru_cache(maxsize=8)
def _checked(data: bytes, source: str) -> Spec:
    """A spec whose rungs all hold questions that can be asked."""
    spec = _read(data, source)
    found = [problem(one.what, one.instead, one.line) for one in conflicts(spec)]
    empty = {conflict.rung for conflict in conflicts(spec)} if found else set()
    others = (rung for rung in spec.ladder if rung not in empty)
    found += [problem(str(error), "", error.line) for error in cannot_be_asked(others)]
    if found:
        raise ProblemsError(*sorted(found, key=lambda one: int(one["line"])))
    return spec


def _pack(asked: Asked, spec: Spec) -> Pack:
    seed = _whole(asked, "seed", 1, 0, GREATEST_SEED)
    versions = _whole(asked, "versions", 1, 1, MOST_VERSIONS)
    return _dressed(_built_pack(spec, seed, versions), _look(asked))


def _built_pack(spec: Spec, seed: int, versions: int) -> Pack:
    # Equal specs may have been written differently, and a pack holds its spec as it was written.
    return _kept_pack(spec, spec.text, seed, versions)


@lru_cache(maxsize=8)
def _kept_pack(spec: Spec, text: str, seed: int, versions: int) -> Pack:
    short = [problem(error.what, error.instead, error.line) for error in too_few(spec, versions)]
    if short:
        raise ProblemsError(*short)
    try:
        return build_pack(spec, seed, versions)
    except (TooFewQuestionsError, CannotTellApartError, CannotBeAskedError) as error:
        raise ProblemsError(problem(str(error), "", error.line)) from None


def _look(asked: Asked) -> Look:
    return Look(asked.plain.get("large") or None, asked.plain.get("tint") or None)


def _dressed(pack: Pack, look: Look) -> Pack:
    return replace(pack, presentation=look.over(pack.presentation), look=look.number)


def _built(
    asked: Asked, spec: Spec, pack: Pack, extra: dict[str, tuple[str, bytes]] | None = None
) -> Plain:
    """All files of a pack: its pages, its mark sheet, what is extra, and pack.json."""
    sealed = bool(asked.plain.get("sealed"))
    total = sum(len(file.pages) for file in _layout(plan, pack))
    done = 0

    def page_done() -> None:
        nonlocal done
        done += 1
        asked.tell(done, total)

    files: list[Plain] = []
    listed: list[Plain] = []
    with tempfile.TemporaryDirectory() as scratch:
        for name in file_names(pack):
            drawn = _layout(
                draw_file, pack, name, Path(scratch), sealed=sealed, page_done=page_done
            )
            data = (Path(scratch) / name).read_bytes()
            (Path(scratch) / name).unlink()
            files.append(asked.file(name, drawn.role, data, drawn.pages))
            listed.append(asdict(drawn))
    small = dict(extra or {})
    if mark_columns(pack.sections):
        small["marks.csv"] = ("marks", mark_sheet(pack.sections).encode())
        narrow = sheet_by_version(pack.sections)
        if narrow is not None:
            small[BY_VERSION] = ("marks by version", narrow.encode())
    for name, (role, data) in small.items():
        files.append(asked.file(name, role, data))
        digest = hashlib.sha256(data).hexdigest()
        listed.append({"name": name, "role": role, "pages": 0, "sha256": digest})
    plain = {**record(pack), "spec": spec.text, "files": listed}
    data = (json.dumps(plain, indent=1, ensure_ascii=False) + "\n").encode()
    files.append(asked.file("pack.json", "record", data))
    return {"title": pack.title, "seed": pack.seed, "code": pack.code, "files": files}


def _layout(job: Callable[..., Any], *given: Any, **named: Any) -> Any:
    """A job of the layouts; what does not fit its page is a problem."""
    try:
        return job(*given, **named)
    except LayoutError as error:
        raise ProblemsError(problem(str(error))) from None


def _names(pack: Pack) -> str:
    return ", ".join(file_names(pack))


def _code(asked: Asked, spec: Spec) -> tuple[tuple[int, int], Look]:
    """The seed and versions of a page's code, and its look."""
    try:
        code = read_code(str(asked.plain.get("code", "")), spec)
    except CodeError as error:
        raise ProblemsError(problem(str(error))) from None
    if code.versions > MOST_VERSIONS or code.seed > GREATEST_SEED:
        raise ProblemsError(
            problem(f"{code} is of more versions than are made here", "use the command line")
        )
    return (code.seed, code.versions), Look.numbered(code.look)


def _pack_record(asked: Asked) -> PackRecord:
    """The pack whose marks are read: of its pack.json, or of a spec, seed and versions."""
    text = asked.plain.get("record")
    if text is None:
        spec = _spec(asked)
        text = json.dumps({**record(_pack(asked, spec)), "spec": spec.text})
    try:
        return read_record(json.loads(text))
    except (ValueError, RecursionError):
        raise ProblemsError(problem("it is not JSON", "give the pack.json of a pack")) from None
    except RecordError as error:
        raise ProblemsError(problem(str(error), "build the pack again")) from None


def _results(asked: Asked, pack: PackRecord) -> tuple[ClassResults, list[str]]:
    """What a mark sheet says, and what in it could not be read."""
    found = mark_columns(pack.sections)
    kinds = {column.name: column.answer_kind for column in found}
    sheet = asked.plain.get("sheet")
    data = sheet.encode() if isinstance(sheet, str) else asked.data or b""
    try:
        read_sheet = read_marks(
            data,
            "marks.csv",
            list(kinds),
            other_names(found),
            kinds,
            questions_by_version(found),
        )
    except MarksError as error:
        raise ProblemsError(problem(str(error))) from None
    results = class_results(found, read_sheet)
    unread = [str(one) for one in read_sheet.problems]
    return results, unread + ([results.doubt] if results.doubt else [])


def _whole(asked: Asked, name: str, usual: int, least: int, most: int) -> int:
    value = asked.plain.get(name)
    if value is None:
        return usual
    if type(value) is not int or not least <= value <= most:
        raise ProblemsError(problem(f"{name} cannot be {value!r}", f"from {least} to {most}"))
    return value


def _rung(rung: RungSpec) -> Plain:
    return {
        "name": rung.name,
        "line": rung.line,
        "operation": rung.operation,
        "form": rung.form,
        "context": list(rung.context),
        "words": [_condition(condition) for condition in rung.conditions],
    }


def _condition(condition: Condition) -> Plain:
    """A condition as data; ``text`` is its value as a spec has it."""
    _, _, text = condition.text.partition(": ")
    value = plain_value(condition.value)
    return {"word": condition.word, "line": condition.line, "value": value, "text": text}


def plain_value(value: object) -> Any:
    """A value that a shape read, as JSON has it."""
    match value:
        case None | bool() | int() | float() | str():
            return value
        case dict():
            return {str(name): plain_value(inner) for name, inner in value.items()}
        case tuple() | list() | frozenset():
            return [plain_value(inner) for inner in value]
    items: Callable[[], Iterator[tuple[str, object]]] | None = getattr(value, "items", None)
    if items is not None:
        return {name: plain_value(inner) for name, inner in items()}
    return str(value)


def _section(section: SectionSpec) -> Plain:
    return {
        "name": section.name,
        "line": section.line,
        "minutes": section.minutes,
        "frames": section.frames,
        "tells_apart": list(section.tells_apart),
        "shares": [asdict(share) for share in section.shares],
    }


def picture(page: Any) -> str:
    """A page plan as a picture."""
    raise ProblemsError(problem("pages cannot be shown yet"))
