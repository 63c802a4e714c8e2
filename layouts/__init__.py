"""Packs become pages: first a plan in millimetres, then ink."""

from layouts.documents import Document, Planned, plan, render
from layouts.errors import LayoutError

__all__ = ["Document", "LayoutError", "Planned", "plan", "render"]
