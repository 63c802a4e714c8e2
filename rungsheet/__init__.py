"""The front of the house: what a teacher asks for, and the ways to ask for it."""
