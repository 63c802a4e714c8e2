"""A whole pack drawn into a folder, by one process or several.

Each file is drawn by one process from the pack alone, so the bytes are the same for any
number of processes.
"""

from collections.abc import Callable
from functools import partial
from pathlib import Path

from generator.packs.working_out import WorkedPack
from layouts.files.crew import draw_files
from layouts.files.documents import Drawn, draw_file
from layouts.files.table import files_of


def draw_pack(
    pack: WorkedPack,
    folder: Path,
    *,
    sealed: bool = False,
    jobs: int = 1,
    pages_done: Callable[[int], None] = lambda pages: None,
) -> tuple[Drawn, ...]:
    """Draw all of the pack's files into a folder, in the pack's order.

    ``pages_done`` is told now and then how many further pages are drawn. Interrupted, it
    leaves no process behind. Raises LayoutError as ``plan`` does, and OSError; with several
    processes, CrewLostError too.
    """
    files = files_of(pack)
    if jobs == 1 or len(files) == 1:
        page_done = partial(pages_done, 1)
        return tuple(
            draw_file(pack, file.name, folder, sealed=sealed, page_done=page_done) for file in files
        )
    heaviest_first = sorted(files, key=lambda file: -file.weight)
    in_turn = [file.name for file in heaviest_first]
    drawn = draw_files(pack, in_turn, folder, sealed=sealed, jobs=jobs, pages_done=pages_done)
    return tuple(drawn[file.name] for file in files)
