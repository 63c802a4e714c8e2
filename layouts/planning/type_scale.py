"""The sizes of type and the weights of ink: one system for sheets, slides and the key.

Sizes are in points, as printers give them; lengths elsewhere are millimetres. Everything is
black or grey, so that a photocopy loses nothing. The one tint is on slides and never the
only sign of what it means.
"""

from typing import Final

MM_PER_POINT: Final = 25.4 / 72

# Ink, as red, green and blue from 0 to 1.
BLACK: Final = (0.0, 0.0, 0.0)
WHITE: Final = (1.0, 1.0, 1.0)
"""The paper, where words stand and no squares."""
DARK: Final = (0.33, 0.33, 0.33)
"""Feet of pages and features: quieter than the questions, 7.6:1 on white."""
SOFT: Final = (0.42, 0.42, 0.42)
"""Placeholder noughts: plainly not given digits, yet 5.3:1 on white (WCAG 2.2 asks 4.5:1)."""
GRID: Final = (0.78, 0.78, 0.78)
"""The squares: a photocopier still sees it, and digits stand well in front of it."""
GRID_FAINT: Final = (0.88, 0.88, 0.88)
"""Fainter squares, for those whom lines behind digits disturb; a photocopy may lose them."""
CUT_LINE: Final = (0.6, 0.6, 0.6)
"""Where a sheet is cut apart: darker than the squares, so that nobody cuts along those."""
TINT: Final = (1.0, 0.93, 0.74)
"""Behind the column in play, which bars mark as well; in greyscale it is the lightest of greys."""

GRID_LINE: Final = 0.25 * MM_PER_POINT
FINE_LINE: Final = 0.5 * MM_PER_POINT

# Sheets and the key, read at arm's length.
SHEET_TITLES: Final = (15.0, 14.0, 13.0, 12.0, 11.5)
"""Sizes that a sheet's title may have: the first that keeps it on one line, or the last."""
SHEET_LABEL: Final = 0.56
"""A question's letter to its square: plainly smaller than the digits, which are 0.76."""
KEY_TITLE: Final = 14.0
KEY_TITLES: Final = (KEY_TITLE, 13.0, 12.0, 11.5)
"""Sizes that the key's title may have, chosen as a sheet's."""
SHEET_HEADING: Final = 12.0
SHEET_TEXT: Final = 10.0
SHEET_FOOT: Final = 7.5
STEP_TEXTS: Final = (12.0, 11.0, 10.0)
"""Sizes that the steps of a printed worked example may have, best first."""
KEY_TEXT: Final = 9.5
KEY_SMALL: Final = 7.5
KEY_ANSWER: Final = 13.0
"""An answer in the key: found at a glance beside a pupil's book."""
KEY_QUESTION: Final = 11.0
KEY_WRONG: Final = 9.0
"""Wrong answers and where they come from: the smallest print in the key, and black."""

ANSWERS_ON_PAPER: Final = (13.0, 12.0, 11.0, 10.0, 9.0)
"""Sizes that bare answers may have, best first: the first that keeps them on a page."""
LESSON_PLAN: Final = (10.5, 10.0, 9.5, 9.0, 8.5, 8.0)
"""Sizes that the plan of a lesson may have: the first with which it is one page."""

# Slides, read from the back of a room. A slide is 540 points high (190.5 mm).
SLIDE_TITLE: Final = 28.0
SLIDE_SMALL: Final = 15.0
SLIDE_TOLD: Final = 22.0
"""What is to be done with the questions of a slide, under its title."""
SLIDE_WORDS: Final = (44.0, 38.0, 34.0, 30.0, 26.0, 23.0)
"""Sizes that a slide of words may have, best first: objectives, which sheet is whose."""
SLIDE_QUESTIONS: Final = (30.0, 27.0, 24.0)
"""Sizes that the question over a worked example may have: the first that keeps it on one line."""
SLIDE_DIGITS: Final = 45.0
"""Digits for the back of a room: 1/12 of a slide's height, wherever what is shown allows it."""
SLIDE_SENTENCES: Final = (34.0, 32.0, 30.0, 28.0, 26.0, 24.0, 23.0)
"""Sizes that a step's sentence may have, best first; none under 1/24 of the slide (22.5 points)."""
SLIDE_ALONE: Final = (72.0, 64.0, 56.0, 48.0, 40.0, 34.0)
"""Sizes that a question alone on a slide may have, best first."""
SLIDE_ANSWERS: Final = (60.0, 54.0, 48.0, SLIDE_DIGITS, 40.0, 36.0, 33.0, 30.0)
"""Sizes that answers on a slide may have, best first; none under 1/20 of the slide (27 points)."""

LARGE_FOOT: Final = 2 / 3
"""A large-print sheet's foot to its digits: 12 points at least, clear print, yet out of the way."""

LEADING: Final = 1.32
"""The distance between baselines, in ems."""
