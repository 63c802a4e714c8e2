"""A pack's questions as data for other programs: a table, and items of an open standard."""
