"""A crew of processes that draw a pack's files, each taking the next when it is done with one.

Nothing is shared that a process could hold when it dies: each has a pipe to the one that leads,
and counts its own pages. Whoever leads learns at once when one of them died, and they go when
there is no leader left. Ctrl-C is the leader's, who ends the crew.
"""

import multiprocessing
import signal
import sys
import traceback
from collections import deque
from collections.abc import Callable, Iterator, Sequence
from contextlib import ExitStack, contextmanager
from multiprocessing.connection import Connection, wait
from pathlib import Path
from typing import Any, Final

from generator.packs.working_out import WorkedPack
from layouts.files.documents import Drawn, draw_file
from layouts.planning.errors import LayoutError
from specs.languages.saying import say

_GLANCE: Final = 0.2
"""Seconds between two looks at how far the crew has come."""


class CrewLostError(LayoutError):
    """A process of the crew ended in the middle of its work."""

    def __init__(self, name: str) -> None:
        self.name = name
        super().__init__(
            say(
                "{file}: the process that drew it was ended, perhaps for want of memory; build "
                "with --jobs 1, or with fewer --versions",
                file=name,
            )
        )

    def __reduce__(self) -> tuple[type, tuple[str]]:
        return type(self), (self.name,)


def draw_files(
    pack: WorkedPack,
    names: Sequence[str],
    folder: Path,
    *,
    sealed: bool,
    jobs: int,
    pages_done: Callable[[int], None],
) -> dict[str, Drawn]:
    """Draw files of a pack into a folder by so many processes; the first named begin first.

    ``pages_done`` is told now and then how many further pages are drawn. Raises what drawing a
    file does, and CrewLostError. No process is left, however it ends.
    """
    waiting, drawn = deque(names), {}
    linux = sys.platform == "linux"
    context = multiprocessing.get_context("fork") if linux else multiprocessing.get_context("spawn")
    pages = context.RawArray("L", jobs)
    at_work: dict[Connection, str] = {}
    told = 0
    with ExitStack() as crew:
        for at in range(min(jobs, len(names))):
            with _interrupts_held_back():
                ours, theirs = context.Pipe()
                work = (theirs, pages, at, pack, folder, sealed)
                process = context.Process(target=_draw_in_turn, args=work, daemon=True)
                process.start()
                crew.callback(process.join)
                crew.callback(process.terminate)
            theirs.close()
            at_work[ours] = waiting.popleft()
            ours.send(at_work[ours])
        while at_work:
            for member in wait(at_work, _GLANCE):
                assert isinstance(member, Connection)
                name = at_work.pop(member)
                try:
                    found = member.recv()
                    if waiting:
                        at_work[member] = waiting.popleft()
                        member.send(at_work[member])
                except (EOFError, ConnectionError):
                    raise CrewLostError(name) from None
                if isinstance(found, Exception):
                    raise found
                drawn[name] = found
            done = sum(pages)
            pages_done(done - told)
            told = done
    return drawn


def _draw_in_turn(
    orders: Connection, pages: Any, at: int, pack: WorkedPack, folder: Path, sealed: bool
) -> None:
    """What a process of the crew does: draw the files named to it, until there is no leader."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    leader = multiprocessing.parent_process()
    assert leader is not None

    def page_done() -> None:
        pages[at] += 1
        if not leader.is_alive():
            sys.exit()

    while orders in wait([orders, leader.sentinel]):
        try:
            name = orders.recv()
        except EOFError:
            return
        try:
            orders.send(draw_file(pack, name, folder, sealed=sealed, page_done=page_done))
        except Exception as error:
            error.add_note(traceback.format_exc())
            orders.send(error)


@contextmanager
def _interrupts_held_back() -> Iterator[None]:
    """Ctrl-C waits for the end of this, and a process begun in it never has one."""
    if not hasattr(signal, "pthread_sigmask"):  # Windows
        yield
        return
    before = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)
