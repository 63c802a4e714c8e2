"""Whatever stands in a file that a teacher gives, it ends in words: never in a traceback."""

import json
import tracemalloc
from collections.abc import Callable, Iterator
from copy import deepcopy
from typing import Any

import pytest

from rungsheet.desk import following, marks, packs, specs
from rungsheet.desk.problems import Problem, Refused

LESSON = """\
title: Weighing beans
ladder:
  beans: {operation: add, places: {ragged: [1, 2]}, whole: 1}
  gap: {operation: subtract, places: 1, form: missing number}
  told: {operation: add, places: 2, addends: 2, context: mass}
  wrong: {operation: add, places: 2, carries: {count: 1}, form: spot the mistake}
  fact: {operation: multiply, digits: [1, 1], places: [1, 0], form: known fact}
  row: {operation: order, numbers: 3}
  near: {operation: round, to: tenths}
  trays: {operation: divide, dividend: {digits: 3}, remainders: some, ending: remainder}
starter: {beans: 2}
tiers:
  core: {beans: 1, gap: 1, told: 1, wrong: 1, fact: 1, row: 1, near: 1, trays: 1}
"""

HOSTILE: tuple[Any, ...] = (
    "\ud800",
    "x" * 100_000,
    "\x1b[2J",
    "\x00",
    "",
    10**400,
    -1,
    1.5,
    float("nan"),
    None,
    True,
    [],
    {},
    [[]],
)


@pytest.fixture(scope="module")
def record() -> dict[str, Any]:
    built = packs.build(specs.read(LESSON, "lesson.yaml"))
    plain: dict[str, Any] = json.loads(built.files()[-1].data)
    return plain


def places(value: Any, found: tuple[Any, ...] = ()) -> Iterator[tuple[Any, ...]]:
    """Where in plain data a value stands: the keys and numbers that lead there."""
    if found:
        yield found
    if isinstance(value, dict):
        for name, inner in value.items():
            yield from places(inner, (*found, name))
    elif isinstance(value, list):
        for at, inner in enumerate(value):
            yield from places(inner, (*found, at))


def changed(plain: dict[str, Any], place: tuple[Any, ...], value: Any) -> dict[str, Any]:
    copied: Any = deepcopy(plain)
    inner = copied
    for step in place[:-1]:
        inner = inner[step]
    inner[place[-1]] = value
    return copied  # type: ignore[no-any-return]


def followed(data: bytes) -> None:
    """All that is made of a pack's record: its marks, with every page, and what follows."""
    pack = marks.read_pack(data, "pack.json")
    names = ",".join(column.name for column in marks.columns(pack))
    sheet = f"pupil,{names}\n1{',0.1' * len(marks.columns(pack))}\n"
    marked = marks.mark(pack, sheet, "marks.csv")
    marked.files()
    following.follow(pack, marked, "pack.json")


def ends_in_words(job: Callable[[], None]) -> None:
    """A job is done, or refused in lines that can be read."""
    said: tuple[Problem, ...] = ()
    try:
        job()
    except Refused as refused:
        said = refused.problems
    for line in map(str, said):
        assert "; " in line
        assert len(line) < 1_000, line[:200]
        assert line.isprintable(), ascii(line)


def test_a_record_as_it_was_written_is_followed(record: dict[str, Any]) -> None:
    followed(json.dumps(record).encode())


@pytest.mark.parametrize("value", HOSTILE, ids=lambda value: ascii(value)[:12])
@pytest.mark.slow
def test_any_part_of_a_record_may_be_anything(record: dict[str, Any], value: Any) -> None:
    where = [place for place in places(record) if place[0] != "files"]
    assert len(where) > 100
    for place in where:
        data = json.dumps(changed(record, place, value)).encode()
        ends_in_words(lambda data=data: followed(data))  # type: ignore[misc]


def test_a_long_name_costs_no_memory(record: dict[str, Any]) -> None:
    place = ("sections", 0, "questions", 0, "rung")
    data = json.dumps(changed(record, place, "x" * 100_000)).encode()
    tracemalloc.start()
    with pytest.raises(Refused, match="a text is too long"):
        marks.read_pack(data, "pack.json")
    _, most = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    assert most < 20_000_000
