"""How fast class sets are made, beside a bare loop that draws the same ink digit by digit.

``python -m tests.bench.pages`` builds class sets of different sheets with their keys, in a
process of their own each: seconds, pages a second, peak memory and bytes a page. Beside each
stands a bare ReportLab loop, which is given the finished plans (no counting, no planning, no
tags) and draws every character, line and square by its own call. Both run on one core, and
the ratio is taken within the run.
"""

import json
import resource
import subprocess
import sys
import tempfile
from io import BytesIO
from pathlib import Path
from time import perf_counter, process_time
from typing import Final

from generator.conditions import VOCABULARY
from generator.pack import Pack
from generator.packs import build_pack
from layouts import plan, typeface
from layouts.empty_boxes import has_boxes
from layouts.plan import Box, Grid, Item, Line, PagePlan, Symbol, Text
from layouts.press import draw_pack
from layouts.type_scale import MM_PER_POINT
from specs import read_spec

SETS: Final = (30, 300, 3000)
BARE_PAGES: Final = 300  # enough to time; its cost a page does not change with their number

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


def bare(pages: list[PagePlan]) -> float:
    """Seconds to draw finished plans call by call, and save the file."""
    from reportlab.pdfbase import pdfmetrics
    from reportlab.pdfbase.ttfonts import TTFont
    from reportlab.pdfgen.canvas import Canvas

    for bold, name in ((False, "bare"), (True, "bare-bold")):
        pdfmetrics.registerFont(TTFont(name, str(typeface.font_path(bold=bold))))
    started = process_time()
    canvas = Canvas(BytesIO(), pageCompression=0)
    for page in pages:
        canvas.setPageSize((page.width / MM_PER_POINT, page.height / MM_PER_POINT))
        for item in page.items:
            _draw(canvas, item, page.height)
        canvas.showPage()
    canvas.save()
    return process_time() - started


def _draw(canvas, item: Item, height: float) -> None:  # type: ignore[no-untyped-def]
    def up(y: float) -> float:
        return (height - y) / MM_PER_POINT

    match item:
        case Text() if not has_boxes(item):
            canvas.setFillColorRGB(*item.colour)
            canvas.setFont("bare-bold" if item.bold else "bare", item.size)
            x = item.left
            for character in item.text:
                canvas.drawString(x / MM_PER_POINT, up(item.baseline), character)
                x += typeface.width(character, item.size, bold=item.bold)
        case Line():
            canvas.setStrokeColorRGB(*item.colour)
            canvas.setLineWidth(item.weight / MM_PER_POINT)
            canvas.line(item.x1 / MM_PER_POINT, up(item.y1), item.x2 / MM_PER_POINT, up(item.y2))
        case Grid():
            canvas.setStrokeColorRGB(*item.colour)
            canvas.setLineWidth(item.weight / MM_PER_POINT)
            left, right = item.x / MM_PER_POINT, (item.x + item.width) / MM_PER_POINT
            for row in range(item.rows + 1):
                y = up(item.y + row * item.square)
                canvas.line(left, y, right, y)
            for column in range(item.columns + 1):
                x = (item.x + column * item.square) / MM_PER_POINT
                canvas.line(x, up(item.y), x, up(item.y + item.height))
        case Symbol():
            module = item.side / len(item.rows)
            for down, row in enumerate(item.rows):
                for across, dark in enumerate(row):
                    if dark:
                        corner = (item.x + across * module) / MM_PER_POINT
                        bottom = up(item.y + (down + 1) * module)
                        side = module / MM_PER_POINT
                        canvas.rect(corner, bottom, side, side, stroke=0, fill=1)
        case Box():
            corner = item.x / MM_PER_POINT, up(item.y + item.height)
            size = item.width / MM_PER_POINT, item.height / MM_PER_POINT
            fill = int(item.fill is not None)
            canvas.setFillColorRGB(*(item.fill or item.stroke or (0, 0, 0)))
            canvas.rect(*corner, *size, stroke=int(item.stroke is not None), fill=fill)


def measure(versions: int) -> dict[str, float]:
    """One class set, made whole on one core of this process."""
    started, wall = process_time(), perf_counter()
    pack = class_set(versions)
    chosen = process_time() - started
    with tempfile.TemporaryDirectory() as folder:
        drawn = draw_pack(pack, Path(folder))
        size = sum((Path(folder) / file.name).stat().st_size for file in drawn)
    seconds = process_time() - started
    pages = sum(file.pages for file in drawn)
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    return {
        "versions": versions,
        "pages": pages,
        "chosen": chosen,
        "seconds": seconds,
        "wall": perf_counter() - wall,
        "peak": peak,
        "bytes": size / pages,
    }


def table() -> str:
    """All class sets as a Markdown table, each measured in a process of its own."""
    # The class sets first, while this process is small: a child's peak is at least its parent's.
    sets = []
    for versions in SETS:
        command = [sys.executable, "-m", "tests.bench.pages", str(versions)]
        done = subprocess.run(command, capture_output=True, text=True, check=True)
        sets.append(json.loads(done.stdout))
    planned = [page for file in plan(class_set(BARE_PAGES // 3)) for page in file.pages]
    bare_rate = len(planned) / bare(planned)
    lines = [
        "| sheets | pages | seconds | pages a second | beside the bare loop | peak memory "
        "| bytes a page |",
        "| ---: | ---: | ---: | ---: | ---: | ---: | ---: |",
    ]
    for found in sets:
        rate = found["pages"] / found["seconds"]
        lines.append(
            f"| {found['versions']:,} | {found['pages']:,} | {found['seconds']:.1f} | {rate:.0f} "
            f"| {rate / bare_rate:.1f} × | {found['peak']:.0f} MB | {found['bytes']:,.0f} |"
        )
    lines.append(f"\nThe bare loop draws {bare_rate:.0f} pages a second.")
    return "\n".join(lines)


if __name__ == "__main__":
    if len(sys.argv) > 1:
        print(json.dumps(measure(int(sys.argv[1]))))
    else:
        print(table())
