"""Slides that can be changed in a presentation program, drawn from the plans of the PDFs."""
