"""Empty boxes in a printed question, for what a pupil writes in.

They are characters of our own: a page draws each as a box (``layouts``).
"""

from typing import Final

DIGIT_BOX: Final = "\N{WHITE SQUARE}"
"""Stands for a missing digit."""
SIGN_BOX: Final = DIGIT_BOX
"""Stands for a sign to be written."""
NUMBER_BOX: Final = "\N{WHITE RECTANGLE}"
"""Stands for a missing number."""
