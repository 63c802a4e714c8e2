"""Mark sheets, PDFs and codes to throw at the front door, made from good ones of a small pack."""

import io
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

import pypdf
from hypothesis import strategies as st

from specs.marks import LARGEST
from tests.hard.specs_thrown import BITS, hostile

Draw = Any

LESSON = """\
title: Thrown
ladder:
  a: {operation: add, places: 2}
  s: {operation: subtract, places: 2}
starter: {a: 2}
tiers:
  core: {a: 2, s: 2}
"""

CELLS = (
    *("", "y", "n", "✓", "✗", "3.67", "0.5", "-1", "86 r 2", "28 4/5", "1,234", "abs"),
    *("1/0", "0/0", "9" * 24, "9" * 4000, "1e999999", "nan", "inf", "²", "١٢", "½", "3..4"),
    *("1 2 3", "r", "r 2", "2 r", "1 r 2 r 3", "=cmd|'/c calc'!A0", "+1", "@x", "\0", "\u202e"),
    *('"', '""', "'", ";", "\t", "\r", "\n", "\x85", "\u2028", "🫘", "£2", "2 kg", "kg", "/", "1/"),
)

HEADS = ("pupil", "starter.a", "starter.b", "core.a", "core.b", "core.1.a", "core.d", "sum.a", "")


@st.composite
def mark_sheets(draw: Draw) -> "Sheet":
    between = draw(st.sampled_from((",", ",", ";", "\t", "|")))
    heads = draw(st.lists(st.sampled_from(HEADS), min_size=1, max_size=7))
    rows = draw(
        st.lists(st.lists(st.sampled_from(CELLS), max_size=len(heads) + 1), min_size=0, max_size=8)
    )
    numbered = [[str(at), *row] for at, row in enumerate(rows)]
    if draw(st.booleans()):
        heads = ["pupil", *heads]
    end = draw(st.sampled_from(("\r\n", "\n", "\r")))
    text = end.join(between.join(row) for row in (heads, *numbered)) + end
    many = draw(st.sampled_from((1, 1, 1, 1, 1, 10, 3000)))
    match draw(st.integers(0, 9)):
        case 0:
            text += (text[text.find(end) :] or "x") * many
        case 1:
            text = f"pupil,starter.a{end}" + end.join(f"{at},y" for at in range(many)) + end
        case 2:
            text = "pupil" + ",starter.a" * many + f"{end}1" + ",y" * many + end
        case 3:
            text = f'pupil,starter.a{end}1,"' + "x" * many * 60
        case 4:
            text = f"sep={between}{end}{text}"
    encoding = draw(st.sampled_from(("utf-8",) * 6 + ("utf-8-sig", "utf-16", "utf-32", "cp1252")))
    data = text.encode(encoding, errors="replace")
    if not draw(st.integers(0, 2)):
        data = draw(changed(data))
    times = 1 if draw(st.integers(0, 60)) else LARGEST // max(len(data), 1) + 2
    return Sheet(data, times)


@dataclass(frozen=True)
class Sheet:
    """A file that says the same so many times: whoever keeps it keeps no more than it says once."""

    data: bytes
    times: int = 1

    def __bytes__(self) -> bytes:
        return (self.data * self.times)[: LARGEST + 1]


@st.composite
def changed(draw: Draw, data: bytes, most: int = 4) -> bytes:
    """Bytes with some of them changed, moved, doubled or lost."""
    found = bytearray(data)
    for _ in range(draw(st.integers(1, most))):
        at = draw(st.integers(0, max(len(found) - 1, 0)))
        length = draw(st.sampled_from((1, 2, 8, 60, 4000)))
        match draw(st.integers(0, 4)):
            case 0:
                found[at : at + 1] = bytes([draw(st.integers(0, 255))])
            case 1:
                del found[at : at + length]
            case 2:
                found[at:at] = found[at : at + length]
            case 3:
                found[at:at] = draw(st.sampled_from(BITS))
            case _:
                found[at : at + 1] = str(draw(st.integers(-3, 10**9))).encode()
    return bytes(found)


@cache
def sheets(pack: Path) -> tuple[bytes, ...]:
    """The PDFs of the good pack."""
    return tuple(path.read_bytes() for path in sorted(pack.glob("*.pdf")))


MARKS_IN_PDF = (
    *(b"/Keywords", b"/EmbeddedFiles", b"/Names", b"/EF", b"/Length", b"/Type", b"/Filespec"),
    *(b" 0 obj", b"endobj", b"stream\n", b"endstream", b"xref", b"trailer", b"startxref"),
    *(b"/Root", b"/Size", b"/Pages", b"/Kids", b"/Count", b"/Parent", b"/Info", b"%%EOF"),
    *(b"seed ", b"versions ", b"sections ", b"rungsheet ", b"look ", b"operation", b"places"),
)


@st.composite
def pdfs(draw: Draw, pack: Path) -> bytes:
    data = draw(st.sampled_from(sheets(pack)))
    match draw(st.integers(0, 7)):
        case 0:
            return data[: draw(st.integers(0, len(data)))]
        case 1:
            return draw(changed(data))
        case 2 | 3:
            return draw(changed_at_a_mark(data))
        case 4 | 5:
            return draw(carrying(data))
        case 6:
            return draw(locked(data))
        case _:
            return draw(
                st.sampled_from(
                    (
                        b"",
                        b"%PDF-",
                        b"%PDF-1.7\n%%EOF",
                        b"%PDF-1.7\nstartxref\n0\n%%EOF",
                        b"%PDF-1.4\ntrailer<</Root 1 0 R>>\n%%EOF",
                        b"GIF89a",
                        b"%PDF-1.7\n" + b"[" * 100_000 + b"\n%%EOF",
                        b"%PDF-1.7\n" + b"<<" * 100_000 + b"\n%%EOF",
                        b"%PDF-1.7\n1 0 obj\n<</Length 1 0 R>>\nstream\n\nendstream\n%%EOF",
                        b"%PDF-1.7\n" + b"1 0 obj\n" * 50_000 + b"startxref\n9\n%%EOF",
                        blank(),
                    )
                )
            )


@cache
def blank() -> bytes:
    """A PDF that is somebody else's."""
    writer = pypdf.PdfWriter()
    writer.add_blank_page(200, 200)
    return written(writer)


def written(writer: pypdf.PdfWriter) -> bytes:
    out = io.BytesIO()
    writer.write(out)
    return out.getvalue()


@st.composite
def changed_at_a_mark(draw: Draw, data: bytes) -> bytes:
    """A PDF changed right where its structure or what it carries is written."""
    for _ in range(draw(st.integers(1, 3))):
        mark = draw(st.sampled_from(MARKS_IN_PDF))
        places = [at for at in range(len(data)) if data.startswith(mark, at)][:40]
        if not places:
            continue
        at = draw(st.sampled_from(places)) + draw(st.sampled_from((0, len(mark), len(mark) + 1)))
        length = draw(st.sampled_from((0, 1, 3, 40)))
        put = draw(
            st.sampled_from((b"", b"9", b"99999999", b"-1", b" 1 0 R", b"/", b"<<", b"(", b"\0"))
        )
        data = data[:at] + put + data[at + length :]
    return data


KEYWORDS = (
    "rungsheet 1; seed 1; versions 1; look 0; sections core",
    "rungsheet 1; seed 999999999; versions 3; look 1; sections core, starter",
    "rungsheet 1; seed 1; versions 0; look 0; sections core",
    "rungsheet 1; seed 1; versions 99999; look 0; sections core",
    "rungsheet 1; seed 1; versions 1; look 999; sections core",
    "rungsheet 1; seed 1; versions 1; look 0; sections more",
    "rungsheet 9; seed 1; versions 1; look 0; sections core",
    "rungsheet 1; seed -1; versions 1; look 0; sections core",
    "rungsheet 1; seed ١; versions 1; look 0; sections core",
    "beans",
    "",
)


@st.composite
def carrying(draw: Draw, data: bytes) -> bytes:
    """A sound PDF that carries something else."""
    writer = pypdf.PdfWriter()
    writer.add_page(pypdf.PdfReader(io.BytesIO(data)).pages[0])
    writer.add_metadata({"/Keywords": draw(st.sampled_from(KEYWORDS))})
    for _ in range(draw(st.sampled_from((0, 1, 1, 1, 2)))):
        spec = draw(hostile()) if draw(st.booleans()) else LESSON.encode()
        writer.add_attachment(draw(st.sampled_from(("spec.yaml", "spec.yaml", "../x"))), spec)
    if draw(st.booleans()):
        for page in writer.pages:
            page.compress_content_streams()
    return written(writer)


@st.composite
def locked(draw: Draw, data: bytes) -> bytes:
    writer = pypdf.PdfWriter(clone_from=io.BytesIO(data))
    kind = draw(st.sampled_from(("RC4-40", "RC4-128", "AES-128", "AES-256")))
    writer.encrypt(draw(st.sampled_from(("", "beans"))), algorithm=kind)
    return written(writer)


CODES = st.one_of(
    st.text(max_size=60),
    st.text(alphabet="ACDEFHJKMNPRTUVWXY34679-", max_size=60),
    st.lists(
        st.text(alphabet="ACDEFHJKMNPRTUVWXY34679", min_size=1, max_size=9), min_size=5, max_size=5
    ).map("-".join),
    st.builds(
        lambda code, at, sign: code[:at] + sign + code[at + 1 :],
        st.sampled_from(("K7HM-D4-A-CF-M", "A" * 4 + "-" + "Y" * 20 + "-A-A-A")),
        st.integers(0, 15),
        st.sampled_from("ACY79-bıſß１٣ \t\n\x1b"),
    ),
)
