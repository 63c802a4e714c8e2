"""Exact questions, written methods and packs: pure functions over frozen values.

Nothing here opens a file, reads a clock, draws a page or rounds a number.
"""
