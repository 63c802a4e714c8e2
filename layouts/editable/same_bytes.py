"""An Office file with the same bytes on every machine: its parts, and no time of day."""

import re
import zipfile
from io import BytesIO
from typing import Final

_EPOCH: Final = (1980, 1, 1, 0, 0, 0)
"""The earliest time that an archive can name: ours name none."""
_UNIX: Final = 3
_TIMES: Final = re.compile(rb"(<dcterms:(created|modified)[^>]*>)[^<]*(</dcterms:)")


def same_bytes(data: bytes) -> bytes:
    """The file again, its parts in their order, compressed the same everywhere: not at all."""
    buffer = BytesIO()
    with (
        zipfile.ZipFile(BytesIO(data)) as archive,
        zipfile.ZipFile(buffer, "w", zipfile.ZIP_STORED) as again,
    ):
        for entry in archive.infolist():
            part = archive.read(entry)
            if entry.filename == "docProps/core.xml":
                part = _TIMES.sub(rb"\g<1>1980-01-01T00:00:00Z\g<3>", part)
            named = zipfile.ZipInfo(entry.filename, _EPOCH)
            named.create_system = _UNIX
            again.writestr(named, part)
    return buffer.getvalue()
