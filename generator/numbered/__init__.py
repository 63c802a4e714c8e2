"""Numbered sets: how many, which is number i, which number one has, and what a seed picks."""
