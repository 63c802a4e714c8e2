"""The marks of a class on paper."""
