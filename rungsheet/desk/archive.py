"""A pack's files as one: a ZIP archive with the same bytes on every machine."""

import zipfile
from collections.abc import Iterable
from io import BytesIO
from typing import Final

from rungsheet.desk.packs import File

__all__ = ["zipped"]

_EPOCH: Final = (1980, 1, 1, 0, 0, 0)
"""The earliest time that an archive can name: ours name none."""

_UNIX: Final = 3
_READABLE: Final = 0o644 << 16


def zipped(files: Iterable[File], folder: str = "") -> bytes:
    """The files, in a folder where one is named. None is compressed: PDFs are already."""
    buffer = BytesIO()
    with zipfile.ZipFile(buffer, "w", zipfile.ZIP_STORED) as archive:
        for file in files:
            entry = zipfile.ZipInfo(f"{folder}/{file.name}".lstrip("/"), _EPOCH)
            entry.create_system, entry.external_attr = _UNIX, _READABLE
            archive.writestr(entry, file.data)
    return buffer.getvalue()
