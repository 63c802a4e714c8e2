"""How fast class sets are made, beside a bare loop that draws the same ink digit by digit.

``python -m tests.bench.pages`` builds class sets of different sheets with their answers and
keys: chosen, planned, drawn, tagged and written to disk. Beside each stands a bare ReportLab
loop, which is given all that is to be drawn with its place worked out (no counting, no planning,
no tags) and draws it call by call into the same number of files. It comes in two kinds: one
draws every character by a call of its own, as in squares; the other so draws digits, and words
whole.

Both are measured in one process, in seconds of one core, and the fastest of several such runs
is taken for each: a busy neighbour can only make things slower.
"""

import json
import re
import resource
import subprocess
import sys
import tempfile
from collections.abc import Callable, Iterable, Iterator, Sequence
from io import BytesIO
from operator import methodcaller
from pathlib import Path
from time import process_time
from typing import Any, Final, TypeAlias

from generator.packs.building import build_pack
from generator.packs.pack import Pack
from generator.packs.working_out import work
from generator.vocabulary import VOCABULARY
from layouts import plan
from layouts.files.press import draw_pack
from layouts.planning import typeface
from layouts.planning.plan import Box, Grid, Item, Line, PagePlan, Symbol, Text
from layouts.planning.type_scale import MM_PER_POINT
from specs import read_spec

RUNS: Final = {30: 5, 300: 3, 3000: 2}
"""The class sets, by their sheets, and how often each is made."""
QUICK: Final = {30: 2, 300: 1}
BARE_SHEETS: Final = 100
"""So many sheets' pages are enough to time the bare loop: its cost a page does not change."""
BARE_RUNS: Final = 3

KINDS: Final = {"characters": re.compile("."), "words": re.compile(r"\d|[^\d]+")}
"""The bare loops: what each draws of a text by one call."""

CLASS_SET: Final = """\
title: A class set
ladder:
  ragged: {operation: add, addends: 3, places: {ragged: [1, 3]}, carries: {count: [1, 3]}}
  over: {operation: add, places: 2, whole: 2, carries: {across_point: true}}
  noughts: {operation: subtract, places: 3, whole: 2, exchanges: {through_zeros: 2}}
tiers:
  core: {ragged: 3, over: 3, noughts: 3}
"""


def class_set(versions: int) -> Pack:
    """A pack of so many matched sheets."""
    return build_pack(read_spec(CLASS_SET.encode(), "set.yaml", VOCABULARY), 1, versions)


# The bare loop. What it is given is worked out beforehand: each call with its lengths in points.

Call: TypeAlias = Callable[[Any], None]
BarePage: TypeAlias = tuple[tuple[float, float], list[Call]]


def bare_pages(pages: Iterable[PagePlan], kind: str) -> list[BarePage]:
    """Finished plans as calls to a ReportLab canvas."""
    return [
        (
            (page.width / MM_PER_POINT, page.height / MM_PER_POINT),
            [call for item in page.items for call in _calls(item, page.height, KINDS[kind])],
        )
        for page in pages
    ]


def drawn_bare(pages: Sequence[BarePage]) -> bytes:
    """A file of pages drawn call by call."""
    from reportlab.pdfbase import pdfmetrics
    from reportlab.pdfbase.ttfonts import TTFont
    from reportlab.pdfgen.canvas import Canvas

    for bold, name in ((False, "bare"), (True, "bare-bold")):
        pdfmetrics.registerFont(TTFont(name, str(typeface.font_path(bold=bold))))
    buffer = BytesIO()
    canvas = Canvas(buffer, pageCompression=0)
    for size, calls in pages:
        canvas.setPageSize(size)
        for call in calls:
            call(canvas)
        canvas.showPage()
    canvas.save()
    return buffer.getvalue()


def bare(files: Sequence[Sequence[BarePage]]) -> float:
    """Seconds to draw the pages of some files call by call, and save them."""
    started = process_time()
    for pages in files:
        drawn_bare(pages)
    return process_time() - started


def _calls(item: Item, height: float, runs: re.Pattern[str]) -> Iterator[Call]:
    """What a canvas is asked to draw an item, line by line and square by square."""

    def up(y: float) -> float:
        return (height - y) / MM_PER_POINT

    match item:
        case Text():
            yield methodcaller("setFillColorRGB", *item.colour)
            yield methodcaller("setFont", "bare-bold" if item.bold else "bare", item.size)
            x = item.left
            for run in runs.findall(item.text):
                yield methodcaller("drawString", x / MM_PER_POINT, up(item.baseline), run)
                x += typeface.width(run, item.size, bold=item.bold)
        case Line():
            yield methodcaller("setStrokeColorRGB", *item.colour)
            yield methodcaller("setLineWidth", item.weight / MM_PER_POINT)
            start = item.x1 / MM_PER_POINT, up(item.y1)
            yield methodcaller("line", *start, item.x2 / MM_PER_POINT, up(item.y2))
        case Grid():
            yield methodcaller("setStrokeColorRGB", *item.colour)
            yield methodcaller("setLineWidth", item.weight / MM_PER_POINT)
            left, right = item.x / MM_PER_POINT, (item.x + item.width) / MM_PER_POINT
            for row in range(item.rows + 1):
                y = up(item.y + row * item.square)
                yield methodcaller("line", left, y, right, y)
            for column in range(item.columns + 1):
                x = (item.x + column * item.square) / MM_PER_POINT
                yield methodcaller("line", x, up(item.y), x, up(item.y + item.height))
        case Symbol():
            yield methodcaller("setFillColorRGB", 0, 0, 0)
            module = item.side / len(item.rows)
            side = module / MM_PER_POINT
            for down, row in enumerate(item.rows):
                bottom = up(item.y + (down + 1) * module)
                for across, dark in enumerate(row):
                    if dark:
                        left = (item.x + across * module) / MM_PER_POINT
                        yield methodcaller("rect", left, bottom, side, side, stroke=0, fill=1)
        case Box():
            raise NotImplementedError("class sets have no boxes")


def measure(versions: int) -> dict[str, float]:
    """One class set made whole, then its pages drawn by the bare loops, in this process."""
    import layouts.pdf.ink  # noqa: F401  # both sides find ReportLab loaded

    started = process_time()
    pack = class_set(versions)
    with tempfile.TemporaryDirectory() as folder:
        drawn = draw_pack(work(pack), Path(folder))
        seconds = process_time() - started
        size = sum((Path(folder) / file.name).stat().st_size for file in drawn)
    pages = sum(file.pages for file in drawn)
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    found = {"pages": pages, "rate": pages / seconds, "peak": peak, "bytes": size / pages}
    planned = plan(work(class_set(min(versions, BARE_SHEETS))))
    for kind in KINDS:
        files = [bare_pages(file.pages, kind) for file in planned]
        fastest = min(bare(files) for _ in range(BARE_RUNS))
        found[kind] = sum(map(len, files)) / fastest
    return found


def measured(versions: int, runs: int) -> dict[str, float]:
    """The best of several runs, each in a process of its own."""
    command = [sys.executable, "-m", "tests.bench.pages", str(versions)]
    found: list[dict[str, float]] = [
        json.loads(subprocess.run(command, capture_output=True, text=True, check=True).stdout)
        for _ in range(runs)
    ]
    return found[0] | {name: max(run[name] for run in found) for name in ("rate", "peak", *KINDS)}


def table(runs: dict[int, int] = RUNS) -> str:
    """All class sets as a Markdown table."""
    lines = [
        "| sheets | pages | pages a second | bare loop, every character alone | ratio "
        "| bare loop, digits alone, words whole | ratio | peak memory | bytes a page |",
        "| ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: |",
    ]
    for versions, of_each in runs.items():
        found = measured(versions, of_each)
        beside = " | ".join(
            f"{found[kind]:.0f} | {found['rate'] / found[kind]:.1f} ×" for kind in KINDS
        )
        lines.append(
            f"| {versions:,} | {found['pages']:,} | {found['rate']:.0f} | {beside} "
            f"| {found['peak']:.0f} MB | {found['bytes']:,.0f} |"
        )
    return "\n".join(lines)


if __name__ == "__main__":
    if len(sys.argv) > 1 and sys.argv[1].isdigit():
        print(json.dumps(measure(int(sys.argv[1]))))
    else:
        print(table(QUICK if "--quick" in sys.argv else RUNS))
