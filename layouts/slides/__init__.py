"""Slides for the class, 16:9: worked examples a step at a time, and answers."""
