"""A whole pack drawn into a folder, by one process or several.

Each file is drawn by one process from the pack alone, so the bytes are the same for any
number of processes.
"""

import multiprocessing
import signal
import sys
from collections.abc import Callable
from dataclasses import replace
from functools import partial
from pathlib import Path
from typing import Any, Final

from generator.pack import Pack, Section
from layouts.documents import Drawn, draw_file, file_names, plan

_LONGEST_FIRST: Final = ("key.pdf", "answers.pdf", "examples.pdf")
_GLANCE: Final = 0.2
"""Seconds between two looks at how far the processes have come."""


def draw_pack(
    pack: Pack,
    folder: Path,
    *,
    sealed: bool = False,
    jobs: int = 1,
    pages_done: Callable[[int], None] = lambda pages: None,
) -> tuple[Drawn, ...]:
    """Draw all of the pack's files into a folder, in the pack's order.

    ``pages_done`` is told now and then how many further pages are drawn. Interrupted, it
    leaves no process behind. Raises LayoutError as ``plan`` does, and OSError.
    """
    names = file_names(pack)
    if jobs == 1 or len(names) == 1:
        page_done = partial(pages_done, 1)
        return tuple(
            draw_file(pack, name, folder, sealed=sealed, page_done=page_done) for name in names
        )
    waiting = sorted(names, key=lambda name: name not in _LONGEST_FIRST)
    context = multiprocessing.get_context("fork" if sys.platform == "linux" else "spawn")
    drawn_pages = context.Value("L", 0)
    arguments = (pack, folder, sealed, drawn_pages)
    with context.Pool(min(jobs, len(names)), _begin, arguments) as crew:
        at_work = [crew.apply_async(_draw, (name,)) for name in waiting]
        told = 0
        while not all(work.ready() for work in at_work):
            next(work for work in at_work if not work.ready()).wait(_GLANCE)
            seen = drawn_pages.value
            pages_done(seen - told)
            told = seen
        drawn = {found.name: found for found in (work.get() for work in at_work)}
        pages_done(drawn_pages.value - told)
    return tuple(drawn[name] for name in names)


def expected_pages(pack: Pack) -> int:
    """About how many pages the pack's files will have: every version as many as the first."""
    firsts = tuple(section for section in pack.sections if section.version == 1)
    each = tuple(section for section in firsts if section.kind == "practice")
    return _pages(pack, firsts) + (pack.versions - 1) * _pages(pack, each)


def _pages(pack: Pack, sections: tuple[Section, ...]) -> int:
    return sum(len(file.pages) for file in plan(replace(pack, sections=sections)))


_task: dict[str, Any] = {}
"""What a process of the crew was given to work on, once for all its files."""


def _begin(pack: Pack, folder: Path, sealed: bool, drawn_pages: Any) -> None:
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # the one that leads the crew ends it
    _task.update(pack=pack, folder=folder, sealed=sealed, drawn_pages=drawn_pages)


def _draw(name: str) -> Drawn:
    drawn_pages = _task["drawn_pages"]

    def page_done() -> None:
        with drawn_pages.get_lock():
            drawn_pages.value += 1

    return draw_file(
        _task["pack"], name, _task["folder"], sealed=_task["sealed"], page_done=page_done
    )
