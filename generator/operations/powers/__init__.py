"""Multiplying and dividing by 10, 100 and 1000: the digits move."""
