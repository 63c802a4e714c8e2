"""Counting: how many questions there are, which is number i, and which number a question has."""
