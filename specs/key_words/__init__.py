"""The key words of written calculation in the languages that pupils speak at home, as data."""

from specs.key_words.key_words import NUMBERED, KeyWords, key_words, names

__all__ = ["NUMBERED", "KeyWords", "key_words", "names"]
