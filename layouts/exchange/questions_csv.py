"""The questions of a pack as a table (CSV): a row a question, with its answer and wrong ones.

RFC 4180: commas, quotation marks where they are needed, lines that end in CR LF. In UTF-8 with
the mark by which spreadsheets know it.
"""

import csv
from io import StringIO
from typing import Final

from generator.packs.working_out import WorkedItem, WorkedPack, WorkedSection

_HEAD: Final = ("section", "version", "label", "rung", "question", "answer", "features")
_FORMULA: Final = ("=", "+", "-", "@", "\t", "\r")
"""A spreadsheet takes what begins so for a formula (OWASP, CSV injection; from memory)."""


def questions_csv(pack: WorkedPack) -> bytes:
    """All questions in the pack's order, examples too; likely wrong answers in pairs of columns.

    Of each the answer is what a pupil is to write, and a wrong answer stands beside the mistakes
    that give it.
    """
    rows = [_row(section, item) for section in pack for item in section.items]
    widest = max(map(len, rows), default=len(_HEAD))
    pairs = (widest - len(_HEAD)) // 2
    head = [*_HEAD]
    for number in range(1, pairs + 1):
        head += [f"wrong answer {number}", f"mistake {number}"]
    text = StringIO()
    table = csv.writer(text)
    for row in (head, *rows):
        table.writerow([*map(_plain, row), *[""] * (len(head) - len(row))])
    return text.getvalue().encode("utf-8-sig")


def _row(section: WorkedSection, item: WorkedItem) -> list[str]:
    row = [section.name, str(section.version), item.label, item.rung, item.asked, item.reply]
    row.append("; ".join(item.features))
    for wrong in item.wrong_answers_to_expect:
        row += [wrong.text, "; or ".join(wrong.causes)]
    return row


def _plain(cell: str) -> str:
    """A cell that no spreadsheet reckons with."""
    return f"'{cell}" if cell.startswith(_FORMULA) else cell
