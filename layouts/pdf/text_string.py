"""Text strings of a PDF file (ISO 32000-1, 7.9.2.2): titles, words to be read aloud."""

import re
from codecs import BOM_UTF16_BE

from layouts.pdf.reportlab_inside import PDF_DOC_ENCODING


def text_string(text: str) -> bytes:
    """A text as it stands in a file: in PDFDocEncoding where that has all of it."""
    try:
        encoded = text.encode(PDF_DOC_ENCODING)
    except UnicodeEncodeError:
        encoded = BOM_UTF16_BE + text.encode("utf-16-be")
    return b"(%b)" % re.sub(rb"[()\\\r]", lambda sign: b"\\%03o" % ord(sign[0]), encoded)
