"""The Python that runs in the page: our packages and the libraries that they need.

Libraries are taken from where this Python has them installed, so the page holds the very
versions that the command line runs with. Only pure Python goes in, and of each library only
what is used.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from importlib.metadata import PackageNotFoundError, distribution
from pathlib import Path, PurePosixPath
from typing import Final

import specs
from layouts.type.subset import FAMILY

ROOT: Final = Path(specs.__file__).parent.parent
"""Where our packages are."""

SHELL: Final = Path(__file__).parent / "shell"
"""Where the page's own modules and styles are."""


class CannotBeMadeError(Exception):
    """The page cannot be made. The message says what is missing and how to get it."""


@dataclass(frozen=True, slots=True)
class Library:
    """A library by the name that it is installed under, and the package that it brings.

    ``kept`` are the beginnings of the paths that the engine imports, where those are few, and
    ``left_out`` those that it never does.
    """

    name: str
    package: str
    kept: tuple[str, ...] = ("",)
    left_out: tuple[str, ...] = ()

    def wants(self, path: str) -> bool:
        """Whether a file of the library goes into the page."""
        inside = path.removeprefix(f"{self.package}/")
        return (
            inside != path
            and inside.endswith(".py")
            and inside.startswith(self.kept)
            and not inside.startswith(self.left_out)
        )


_OUTLINE_TABLES: Final = ("cmap", "glyf", "head", "hhea", "hmtx", "loca", "maxp", "post")
"""Tables of a font that outlines are read from; each is a module, ``_c_m_a_p`` and so on."""

LIBRARIES: Final = (
    Library("PyYAML", "yaml", left_out=("cyaml.py",)),
    Library(
        "fonttools",
        "fontTools",
        kept=(
            *("__init__.py", "agl.py", "config/", "encodings/", "misc/", "unicode.py"),
            *(f"pens/{pen}.py" for pen in ("__init__", "basePen", "filterPen", "pointPen")),
            *(f"pens/{pen}.py" for pen in ("recordingPen", "svgPathPen", "transformPen")),
            *(f"ttLib/{part}.py" for part in ("__init__", "sfnt", "standardGlyphOrder")),
            *(f"ttLib/{part}.py" for part in ("ttCollection", "ttFont", "ttGlyphSet")),
            *(f"ttLib/tables/{part}.py" for part in ("__init__", "DefaultTable", "ttProgram")),
            "ttLib/tables/D_S_I_G_.py",
            *(f"ttLib/tables/_{'_'.join(table)}.py" for table in _OUTLINE_TABLES),
        ),
        left_out=("misc/plistlib/", "misc/testTools.py", "misc/symfont.py"),
    ),
    Library("pypdf", "pypdf", left_out=("annotations/",)),
    Library(
        "reportlab",
        "reportlab",
        left_out=(
            *("graphics/", "platypus/", "pdfbase/acroform.py", "pdfbase/pdfform.py"),
            *("pdfbase/cidfonts.py", "pdfbase/_cidfontdata.py"),
            *("lib/PyFontify.py", "lib/codecharts.py", "lib/corp.py", "lib/normalDate.py"),
            *("lib/randomtext.py", "lib/rparsexml.py", "lib/styles.py", "lib/testutils.py"),
            "lib/textsplit.py",
        ),
    ),
    Library("segno", "segno"),
)

OURS: Final = {
    "specs": (".py", ".yaml", ".mo"),
    "generator": (".py",),
    "layouts": (".py", ".ttf", ".txt"),
    "rungsheet/desk": (".py",),
}
"""Our packages, and the endings of the files in them that go in."""

OURS_ALONE: Final = (
    "rungsheet/__init__.py",
    "rungsheet/page/__init__.py",
    "rungsheet/page/bridge.py",
)
"""Of packages that the page needs little of, the files that go in."""

STAND_INS: Final = {
    "PIL/__init__.py": '"""Stands in for a library of pictures."""\n\n__version__ = "0"\n',
    "PIL/Image.py": 'class Image:\n    """What ReportLab asks whether something is one of."""\n',
}
"""ReportLab imports Pillow at its head, and then never uses it for what we draw."""


def engine_files() -> dict[str, bytes]:
    """Every file, by its path below site-packages, in the order of their paths.

    Raises CannotBeMadeError when a library is not installed.
    """
    found = {path: text.encode() for path, text in STAND_INS.items()}
    for library in LIBRARIES:
        found.update(_library_files(library))
    for package, endings in OURS.items():
        for path in sorted((ROOT / package).rglob("*")):
            if path.suffix in endings and path.is_file():
                found[path.relative_to(ROOT).as_posix()] = path.read_bytes()
    for name in OURS_ALONE:
        if (ROOT / name).is_file():
            found[name] = (ROOT / name).read_bytes()
    return dict(sorted(found.items()))


def licences() -> Iterator[tuple[str, str]]:
    """The typeface, and each library's name and version, with the text of the licence."""
    yield FAMILY, (ROOT / "layouts" / "type" / "OFL.txt").read_text("utf-8").strip()
    for library in LIBRARIES:
        installed = distribution(library.name)
        texts = [
            Path(str(file.locate())).read_text("utf-8").strip()
            for file in sorted(installed.files or ())
            if file.name.upper().startswith(("LICENSE", "LICENCE", "COPYING"))
            and file.parts[0].endswith(".dist-info")
        ]
        yield f"{library.name} {installed.version}", "\n\n".join(texts)


def _library_files(library: Library) -> Iterator[tuple[str, bytes]]:
    try:
        installed = distribution(library.name)
    except PackageNotFoundError:
        raise CannotBeMadeError(
            f"the library {library.name} is not installed; install Rungsheet's own first "
            "(pip install .)"
        ) from None
    for file in installed.files or ():
        path = PurePosixPath(file).as_posix()
        if library.wants(path):
            yield path, Path(str(file.locate())).read_bytes()
