"""Questions put in words: the templates that ship, and the code that reads them."""

from specs.contexts.templates import KINDS, Quantity, Template, read_templates, templates

__all__ = ["KINDS", "Quantity", "Template", "read_templates", "templates"]
