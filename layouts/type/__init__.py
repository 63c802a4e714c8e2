"""The typeface that every page is set in: Rungsheet Sans, two weights, and its licence.

It is a cut of Inter (SIL Open Font License 1.1, ``OFL.txt``), made by ``layouts.type.subset``,
which says what is taken and which forms its digits have.
"""
