"""A pack's files on disk: which there are, drawn by one process or several, whole or not at all."""
