"""Packs become pages: first a plan in millimetres, then ink."""
