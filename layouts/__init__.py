"""Packs become pages: first a plan in millimetres, then ink."""

from layouts.files.documents import Document, Drawn, Planned, draw_file, file_names, plan, render
from layouts.planning.errors import LayoutError

__all__ = [
    "Document",
    "Drawn",
    "LayoutError",
    "Planned",
    "draw_file",
    "file_names",
    "plan",
    "render",
]
