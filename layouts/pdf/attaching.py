"""A pack's spec inside a PDF file: the attached file and the keywords that say the rest."""

from reportlab.pdfgen.canvas import Canvas

from layouts.pdf.carried import ATTACHED, Carried
from layouts.pdf.reportlab_inside import (
    Inside,
    PDFArray,
    PDFDictionary,
    PDFName,
    PDFStream,
    PDFString,
)
from specs.languages.saying import say
from specs.languages.usage import Usage


def attach(canvas: Canvas, carried: Carried, usage: Usage) -> None:
    """Put the spec and the rest into the file that is being drawn."""
    described_as = usage(say("The spec that these pages are made from"))
    inside = Inside(canvas)
    data = carried.spec.encode()
    stream = PDFStream(
        PDFDictionary(
            {
                "Type": PDFName("EmbeddedFile"),
                "Subtype": "/application#2Fyaml",
                "Params": PDFDictionary({"Size": len(data)}),
            }
        ),
        data,
    )
    stored = inside.reference(stream)
    described = PDFDictionary(
        {
            "Type": PDFName("Filespec"),
            "F": PDFString(ATTACHED),
            "UF": PDFString(ATTACHED),
            "Desc": PDFString(described_as),
            "AFRelationship": PDFName("Source"),
            "EF": PDFDictionary({"F": stored, "UF": stored}),
        }
    )
    names = PDFArray([PDFString(ATTACHED), inside.reference(described)])
    inside.catalog.Names = PDFDictionary({"EmbeddedFiles": PDFDictionary({"Names": names})})
    canvas.setKeywords(carried.keywords)
