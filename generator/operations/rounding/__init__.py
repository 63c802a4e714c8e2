"""Rounding to a column."""
