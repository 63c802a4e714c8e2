"""What the page asks of the desk, and how the answers go back: as plain data and bytes.

``answer`` is the one door. A job takes plain data and gives plain data; what the desk refuses
goes back as problems, each with its line, what is wrong and what to write instead. Nothing is
remembered between jobs but what is quicker not to work out again.
"""

import json
from collections.abc import Callable, Mapping
from dataclasses import asdict, dataclass, field
from functools import lru_cache
from time import monotonic
from typing import Any, Final

from rungsheet.desk import (
    again,
    archive,
    choices,
    editing,
    following,
    in_class,
    keys,
    marks,
    packs,
    pictures,
    ready,
    rungs,
    sentences,
    settings,
    specs,
    tongues,
    words,
)
from rungsheet.desk.problems import Problem, Refused
from rungsheet.desk.specs import RungSpec, Spec
from rungsheet.desk.tongues import Saying, say

MOST_VERSIONS: Final = 100
"""More than a class needs; the command line draws thousands, and has the memory for them."""

IN_LANGUAGES: Final = "in_languages"
"""What the page knows a text by that is sent in several languages, each by its code."""

A_LITTLE_WHILE: Final = 0.05
"""Seconds that counting goes on before whoever waits for something else has a turn."""

Plain = dict[str, Any]
Tell = Callable[[int, int], None]


@dataclass(frozen=True, slots=True)
class Asked:
    """A job's question: its plain data, the bytes that came with it, and whom to tell.

    ``tell`` is told how many of how many pages are drawn. ``given`` collects the files of the
    answer, which names each by its place among them.
    """

    plain: Plain
    data: bytes | None
    tell: Tell
    given: list[bytes] = field(default_factory=list)

    def file(self, file: packs.File) -> Plain:
        """A file of the answer, as plain data that says where its bytes are."""
        self.given.append(file.data)
        place = len(self.given) - 1
        return {"name": file.name, "role": file.role, "pages": file.pages, "file": place}

    def whole(self, name: str, usual: int, least: int, most: int) -> int:
        """A whole number that was sent, or the usual one. Refused outside its range."""
        value = self.plain.get(name)
        if value is None:
            return usual
        if type(value) is not int or not least <= value <= most:
            what = say("the number of {what} cannot be {given}", what=name, given=repr(value))
            raise Refused(Problem("", None, what, packs.whole_number(least, most)))
        return value

    def text(self, name: str) -> str | None:
        """A text that was sent, None where it was not."""
        value = self.plain.get(name)
        return value if isinstance(value, str) else None


def answer(
    job: str, plain: str, data: bytes | memoryview | None, tell: Tell
) -> tuple[str, list[bytes]]:
    """Do a job. Gives JSON with its ``result`` or its ``problems``, and the files of it."""
    asked = Asked(json.loads(plain), None if data is None else bytes(data), tell)
    try:
        found: Plain = {"result": JOBS[job](asked)}
    except Refused as refused:
        found = {"problems": told([asdict(problem) for problem in refused.problems])}
        asked.given.clear()
    return json.dumps(found, ensure_ascii=False, default=packs.in_json), asked.given


def told(value: Any, writes: Callable[[str], str] = str) -> Any:
    """Plain data for whoever uses the page: its sayings in each language that pages can be in.

    ``writes`` writes the numbers and signs of sayings about a lesson as its sheets have them.
    """
    match value:
        case Saying() if not value.is_said:
            return writes(value)
        case Saying():
            return {IN_LANGUAGES: tongues.in_each(value, writes)}
        case dict():
            return {name: told(inner, writes) for name, inner in value.items()}
        case list() | tuple():
            return [told(inner, writes) for inner in value]
    return value


# What can be asked. Of a spec: ``text`` or a file's bytes, and the file's ``name``; of a pack
# also its ``seed``, ``versions``, ``large`` and ``tint``, or a page's ``code``.


def vocabulary(asked: Asked) -> Plain:
    """Every word that a rung may use, with what it means and the shape of its value.

    ``takes`` says the shape in plain words; ``schema`` has it as data for controls, and the
    rest of a spec's grammar too.
    """
    operations = words.VOCABULARY.operations
    return {
        "operations": list(operations),
        "words": [
            {
                "name": word.name,
                "operations": [name for name in operations if name in word.operations],
                "says": told(word.says),
                "takes": told(word.shape.says),
                "choices": list(word.shape.words),
                "schema": word.shape.schema(),
            }
            for word in words.VOCABULARY.words
        ],
        "schema": json.loads(words.schema()),
        "tints": list(packs.TINTS),
        "large": list(packs.LARGE),
    }


def lessons(asked: Asked) -> list[Plain]:
    """The lessons that ship: their names and their texts in each language, the demo first."""
    return [{"name": name, "text": {IN_LANGUAGES: ready.in_each(name)}} for name in ready.names()]


def read(asked: Asked) -> Plain:
    """A spec as plain data: its title, what its rungs are called, its parts and pages.

    ``short`` are the problems of a spec that can be read but asks for more questions than its
    rungs hold.
    """
    spec = _spec(asked)
    try:
        _pack_of(asked)
    except Refused as refused:
        short = refused.problems
    else:
        short = ()
    return {
        "name": spec.name,
        "title": spec.title,
        "rungs": [{"name": rung.name, "spelt": rungs.called(rung)} for rung in spec.ladder],
        "parts": editing.parts(spec),
        "runs": _runs(spec),
        "in_short": not editing.is_in_parts(spec),
        "pages": plain_value(spec.presentation),
        "short": told([asdict(problem) for problem in short]),
    }


def counted(asked: Asked) -> list[Plain]:
    """Each rung's exact number of questions, and one of them: as data, in words and on squares."""
    spec = _spec(asked)
    usage = specs.usage_of_pages(spec)
    writes = usage.land.writes
    return [
        {
            **view.plain,
            "says": told(sentences.sentence(view.rung), writes),
            "shown": usage.says(view.shown),
            "features": told(view.item.features, writes) if view.item else [],
            "picture": pictures.of_a_rung(view, spec),
        }
        for view in rungs.count(spec)
    ]


def rung_words(asked: Asked) -> Plain:
    """A rung (``rung``) to be changed: each word that it may have, what it says, its control."""
    rung = _rung(asked)
    words_of_it = [asdict(view) for view in choices.of_a_rung(rung)]
    return {"rung": rung.name, "words": told(words_of_it)}


def left(asked: Asked) -> list[Plain]:
    """What each of some ``values`` of a ``word`` would leave of a rung's (``rung``) questions.

    Stops when it has taken a little while: there may be fewer answers than values.
    """
    rung, word = _rung(asked), asked.text("word") or ""
    until = monotonic() + A_LITTLE_WHILE
    found = []
    for one in choices.left(_spec(asked), rung.name, word, iter(asked.plain["values"])):
        found.append(told(asdict(one)))
        if monotonic() > until:
            break
    return found


def set_out(asked: Asked) -> Plain:
    """How the lesson is worked and set out, or one of its sections (``section``): what can be
    chosen, and of each section what it says for itself.
    """
    spec, name = _spec(asked), asked.text("section") or ""
    try:
        built = _pack_of(asked)
    except Refused:
        built = None
    there = {part["name"]: part["heading"] for part in editing.parts(spec) if part["shares"]}
    name = name if name in there else ""
    found = settings.of_a_section(spec, name, built) if name else None
    return {
        "section": name,
        "sections": [
            {"name": one, "heading": heading, "says": told(settings.own(spec, one))}
            for one, heading in there.items()
        ],
        "settings": told([asdict(one) for one in found or settings.of_the_lesson(spec, built)]),
    }


def edit(asked: Asked) -> Plain:
    """The text with one thing changed: ``do`` says what, ``to`` has what that needs."""
    change = EDITS[asked.text("do") or ""]
    return {"text": change(asked.text("text") or "", *asked.plain.get("to", ()))}


EDITS: Final[Mapping[str, Callable[..., str]]] = {
    "title": editing.set_title,
    "word": editing.set_word,
    "operation": editing.set_operation,
    "add": editing.add_rung,
    "copy": editing.copy_rung,
    "move": editing.move_rung,
    "remove": editing.remove_rung,
    "rename": editing.rename_rung,
    "count": editing.set_count,
    "minutes": editing.set_minutes,
    "find out": editing.set_finding_out,
    "remove tier": editing.remove_tier,
    **settings.EDITS,
    "keep": editing.keep,
    "another": editing.another,
    "let change": editing.let_change,
}


def build(asked: Asked) -> Plain:
    """A pack's files, as the command line would write them."""
    return _built(asked, _pack_of(asked))


def draw(asked: Asked) -> Plain:
    """One of a pack's files (``file``), as the command line would write it."""
    built = _pack_of(asked)
    name = asked.text("file") or ""
    if name not in built.names:
        what = say("there is no {file}", file=name)
        instead = say("of {files}", files=", ".join(built.names))
        raise Refused(Problem("", None, what, instead))
    return asked.file(built.drawn(name, _page_done(asked, 0)))


def packed(asked: Asked) -> Plain:
    """All of a pack's files in one ZIP archive, in a folder named after the spec.

    The archive of a class set says so in its name, as it may lie beside that of the pack alone.
    """
    built = _pack_of(asked)
    look = packs.Look.numbered(built.pack.look)
    name = f"{built.spec.name}-{built.pack.seed}{look.ending}"
    data = archive.zipped(built.files(_page_done(asked, built.pages)), name)
    versions = _edition(asked, built.spec).versions
    of = f"-{versions}-versions" if versions > 1 else ""
    return asked.file(packs.File(f"{name}{of}.zip", "archive", data))


def show(asked: Asked) -> Plain:
    """The names of a pack's files, and one of them (``file``) as it will print: as pictures.

    ``headings`` has what pupils see over those that are named otherwise than their files.

    The first of them where no other is named, and no more than ``most`` of its pages; ``of`` is
    how many it has. ``questions`` are those of its first version that can be kept or changed.
    """
    built = _pack_of(asked)
    wanted = asked.text("file")
    name = wanted if wanted in built.names else built.names[0]
    most = asked.whole("most", 1_000, 1, 1_000)
    file = pictures.pictured(built, name, most)
    kept = {(one.section, one.label) for one in built.spec.keep}
    say = built.worked.facts.usage
    questions = [
        {
            "section": section.name,
            "label": item.label,
            "text": say.says(item.question.text),
            "kept": (section.name, item.label) in kept,
        }
        for section in built.pack.sections
        if section.version == 1 and section.name in file.sections
        for item in section.items[:: 2 if section.kind == "example" else 1]
    ]
    names = {"names": list(built.names), "headings": built.headings}
    return {**names, **asdict(file), "questions": questions}


def pages(asked: Asked) -> list[Plain]:
    """The pack's files as they will print, each page a picture (SVG); only ``file`` if named."""
    built = _pack_of(asked)
    wanted = asked.text("file")
    return [
        asdict(pictures.pictured(built, name)) for name in built.names if wanted in (None, name)
    ]


def lesson(asked: Asked) -> Plain:
    """The lesson as it is shown to a class: words, minutes, answers, and workings as pictures."""
    found: Plain = plain_value(in_class.shown(_pack_of(asked)))
    return found


def key(asked: Asked) -> Plain:
    """The answers and the lesson of a sheet: of a PDF's bytes, or of a page's ``code``."""
    code = asked.text("code")
    if code is None:
        found = again.from_pdf(asked.data or b"", asked.text("name") or say("the file"))
    else:
        found = again.from_code(code, _spec(asked))
    look = packs.Look.numbered(found.pack.look)
    return {
        "title": found.pack.title,
        "seed": found.pack.seed,
        "versions": found.pack.versions,
        "code": found.pack.code,
        "large": look.large,
        "tint": look.tint,
        "key_words": look.key_words,
        "sections": list(found.names),
        "answers": list(keys.answers(found)),
        "listed": plain_value(tuple(keys.sections(found))),
        "page": plain_value(found.of_the_page),
        "text": found.spec.text,
        "files": [asked.file(keys.key(found))],
    }


def grid(asked: Asked) -> Plain:
    """What a mark sheet is typed into: the pack's code, and its columns by their sheets.

    ``shown_as`` is the name of a column's sheet that pupils see, where the teacher has given one,
    and ``called`` that in few words.
    """
    pack = _pack(asked)
    shown_as, called = marks.sections_shown_as(pack), marks.sections_called(pack)
    found = marks.columns(pack)
    to_all = marks.to_all(found)
    say = marks.usage_of_record(pack)
    return {
        "title": pack.title,
        "seed": pack.seed,
        "code": pack.code,
        "columns": [
            {
                "name": column.name,
                "sheet": column.sheet,
                "shown_as": shown_as.get(column.section.name, ""),
                "called": called.get(column.section.name, ""),
                "to_all": column.sheet in to_all,
                "heading": shown_as.get(column.section.name) or marks.heading(column, say),
                "label": column.item.label,
                "rung": column.item.rung,
                "asked": say.says(column.item.form.asked_on_a_line(column.item.question)),
                "reply": say.says(column.item.form.reply(column.item.question)),
            }
            for column in found
        ],
    }


def typed(asked: Asked) -> Plain:
    """What stands in the bytes of a mark sheet (or ``sheet``), to be typed further in a grid."""
    found = marks.typed(_pack(asked), _sheet(asked), asked.text("name_of_sheet") or "marks.csv")
    return {
        "rows": [
            {"pupil": pupil, "cells": cells, "absent": pupil in found.absent}
            for pupil, cells in found.rows
        ],
        "unread": told([asdict(problem) for problem in found.unread]),
    }


def findings(asked: Asked) -> Plain:
    """What a mark sheet says of a pack, and what is wrong with which of its cells.

    ``called`` is what a group is called, ``says`` what else there is to say of it; ``spelt`` has
    what rungs are called.
    """
    pack = _pack(asked)
    found = _marked(asked, pack)
    results = found.results
    writes = marks.usage_of_record(pack).land.writes
    plain: Plain = told(
        {
            **results.plain,
            "doubt": results.doubt,
            "cells": [asdict(cell) for cell in found.cells],
        }
    )
    plain["spelt"] = {rung.rung: results.called(rung.rung) for rung in results.rungs}
    for one, group in zip(plain["groups"], results.groups, strict=True):
        one["says"] = told(marks.said_of(group, results), writes)
        one["called"] = told(group.name, writes)
    return plain


def marked(asked: Asked) -> Plain:
    """What a mark sheet (``sheet``, or a file's bytes) says of a pack, and marks.pdf."""
    found = _marked(asked, _pack(asked))
    unread = [asdict(problem) for problem in found.unread]
    files = [asked.file(file) for file in found.files()]
    return {**told({**found.results.plain, "unread": unread}), "files": files}


def follow(asked: Asked) -> Plain:
    """Tomorrow's starter from a mark sheet: its spec, its seed, and why each rung is in it.

    Its files are drawn where they are asked for (``files``): the page opens the spec instead.
    """
    pack = _pack(asked)
    weights = following.Weights(
        asked.whole("questions", 6, 1, 40),
        asked.whole("review", 33, 0, 100),
        asked.whole("habits", 1, 0, 10),
    )
    found = following.follow(pack, _marked(asked, pack), say("the lesson"), weights)
    return {
        "text": found.built.spec.text,
        "said": told(found.said, specs.usage_of_pages(found.built.spec).land.writes),
        "choices": told([asdict(choice) for choice in found.choices]),
        **(_built(asked, found.built) if asked.plain.get("files") else _which(found.built)),
    }


JOBS: Final[Mapping[str, Callable[[Asked], Any]]] = {
    # By programs that drive the page: it has no use for these itself.
    "words": vocabulary,
    "build": build,
    "pages": pages,
    # By the page.
    "lessons": lessons,
    "read": read,
    "rungs": counted,
    "rung": rung_words,
    "left": left,
    "settings": set_out,
    "edit": edit,
    "draw": draw,
    "show": show,
    "zip": packed,
    "in class": lesson,
    "key": key,
    "grid": grid,
    "typed": typed,
    "findings": findings,
    "marks": marked,
    "follow": follow,
}


# How it is found out


def _spec(asked: Asked) -> Spec:
    return _read(asked.text("text") or asked.data or b"", asked.text("name") or specs.USUAL_NAME)


def _runs(spec: Spec) -> list[Plain]:
    """The runs of a spec; none where one cannot be had, which building the pack says."""
    try:
        return [told(asdict(view)) for view in rungs.runs(spec)]
    except Refused:
        return []


def _rung(asked: Asked) -> RungSpec:
    name = asked.text("rung")
    for rung in _spec(asked).ladder:
        if rung.name == name:
            return rung
    raise Refused(Problem("", None, say("the ladder has no rung {rung}", rung=name)))


@lru_cache(maxsize=8)
def _read(text: str | bytes, name: str) -> Spec:
    return specs.read(text, name)


def _edition(asked: Asked, spec: Spec) -> packs.Edition:
    large = asked.whole("large", 0, 0, max(packs.LARGE)) or None
    tint = asked.text("tint") or None
    words = asked.text("key_words") or None
    if (
        large not in (None, *packs.LARGE)
        or tint not in (None, *packs.TINTS)
        or words not in (None, *packs.KEY_WORDS)
    ):
        what = say("there is no such print")
        raise Refused(Problem("", None, what, say("choose a size and a tint")))
    seed = asked.whole("seed", -1, 0, packs.GREATEST_SEED)
    versions = asked.whole("versions", 0, 1, MOST_VERSIONS)
    edition = again.edition(
        spec,
        asked.text("code"),
        None if seed < 0 else seed,
        versions or None,
        packs.Look(large, tint, words),
    )
    if edition.versions > MOST_VERSIONS:
        what = say("the page draws {most} versions at most", most=MOST_VERSIONS)
        raise Refused(Problem("", None, what, say("make the rest with another seed")))
    return edition


def _pack_of(asked: Asked) -> packs.Built:
    """The pack that is meant, its questions chosen."""
    spec = _spec(asked)
    sealed = bool(asked.plain.get("sealed"))
    # Equal specs may have been written differently, and a pack holds its spec as it was written.
    return _chosen(spec, spec.text, _edition(asked, spec), sealed)


@lru_cache(maxsize=4)
def _chosen(spec: Spec, text: str, edition: packs.Edition, sealed: bool) -> packs.Built:
    return packs.build(spec, edition, sealed=sealed)


def _built(asked: Asked, built: packs.Built) -> Plain:
    files = [asked.file(file) for file in built.files(_page_done(asked, built.pages))]
    return {**_which(built), "files": files}


def _which(built: packs.Built) -> Plain:
    """Which pack it is."""
    pack = built.pack
    return {"title": pack.title, "seed": pack.seed, "code": pack.code}


def _page_done(asked: Asked, of: int) -> Callable[[], None]:
    """What is to be called after each page of so many."""
    done = 0

    def page_done() -> None:
        nonlocal done
        done += 1
        asked.tell(done, max(of, done))

    return page_done


def _pack(asked: Asked) -> marks.PackRecord:
    """The pack whose marks are read: of its pack.json (``record``), or of a spec and seed."""
    record = asked.text("record")
    if record is not None:
        return marks.read_pack(record.encode("utf-8", "surrogatepass"), packs.RECORD)
    spec = _spec(asked)
    return _recorded(spec, spec.text, _edition(asked, spec))


@lru_cache(maxsize=2)
def _recorded(spec: Spec, text: str, edition: packs.Edition) -> marks.PackRecord:
    record = _chosen(spec, text, edition, False).record(())
    return marks.read_pack(record.data, record.name)


def _marked(asked: Asked, pack: marks.PackRecord) -> marks.Marked:
    return marks.mark(pack, _sheet(asked), "marks.csv")


def _sheet(asked: Asked) -> str | bytes:
    sheet = asked.text("sheet")
    return asked.data or b"" if sheet is None else sheet


def plain_value(value: object) -> Any:
    """A frozen value as JSON has it."""
    fields = getattr(value, "__dataclass_fields__", None)
    match value:
        case None | bool() | int() | float() | str():
            return value
        case Mapping():
            return {str(name): plain_value(inner) for name, inner in value.items()}
        case tuple() | list() | frozenset():
            return [plain_value(inner) for inner in value]
        case _ if fields is not None:
            return {name: plain_value(getattr(value, name)) for name in fields}
    return str(value)
