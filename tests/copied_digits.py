"""How often a digit is read as another after a bad copy: what the choice of the typeface rests on.

    python -m tests.copied_digits               # the typeface that ships
    python -m tests.copied_digits FONT.ttf …    # others beside it, equally high

A copy has 60 dots to the inch, each black or white, where light and dust change which; a digit
falls on the dots by chance. Each copy is read as the digit whose clean copies have the nearest
pattern of dots. Of so many copies this gives how many in a thousand are misread, and as what.
"""

import sys
from pathlib import Path

import numpy as np
from PIL import Image, ImageDraw, ImageFont

from layouts.planning import typeface

HEIGHTS = 6, 7, 9
"""Of a digit, in dots: 6 on squares of 5 mm, 9 on squares of 7 mm."""
CLEAN, COPIED = 60, 300
"""How many copies of each digit there are to compare with, and to read."""
DARKNESS = 0.3, 0.45, 0.6
"""How much ink makes a dot black, on a dark, a fair and a light copy."""
DUST = 0.16
"""The standard deviation of what a dot is wrong by, where all ink is 1."""
_FINE = 12
"""So many times finer a page is before it is copied."""


def _inked(font: Path, digit: str, height: int) -> np.ndarray:
    """A digit on the finer page, its 1 so many dots of the copy high."""
    large = ImageFont.truetype(str(font), 1000)
    em = 1000 * height * _FINE / -large.getbbox("1", anchor="ls")[1]
    side = 2 * height * _FINE
    image = Image.new("L", (side, side))
    place = 2 * _FINE, side - 2 * _FINE
    drawn = ImageFont.truetype(str(font), round(em))
    ImageDraw.Draw(image).text(place, digit, font=drawn, fill=255, anchor="ls")
    return np.asarray(image, float) / 255


def _copied(
    inked: np.ndarray, chance: np.random.Generator, black_from: float, dust: float
) -> np.ndarray:
    moved = np.roll(inked, chance.integers(0, _FINE, 2), (0, 1))
    side = len(inked) // _FINE
    dots = moved.reshape(side, _FINE, side, _FINE).mean((1, 3))
    return (dots + chance.normal(0, dust, dots.shape) > black_from).ravel()


def misread(font: Path, height: int) -> tuple[int, dict[str, int]]:
    """How many in a thousand are misread, and how many of each pair of digits."""
    chance = np.random.default_rng(1)
    digits = [_inked(font, digit, height) for digit in "0123456789"]
    known = np.array([[_copied(d, chance, 0.45, 0.0) for _ in range(CLEAN)] for d in digits])
    pairs: dict[str, int] = {}
    for true, inked in enumerate(digits):
        for _ in range(COPIED):
            copy = _copied(inked, chance, chance.choice(DARKNESS), DUST)
            read = int((known != copy).sum(2).min(1).argmin())
            if read != true:
                pair = "/".join(sorted((str(read), str(true))))
                pairs[pair] = pairs.get(pair, 0) + 1
    return round(1000 * sum(pairs.values()) / (COPIED * 10)), pairs


def main(fonts: list[Path]) -> None:
    """A line for each font and height."""
    for font in [typeface.font_path(bold=False), *fonts]:
        for height in HEIGHTS:
            share, pairs = misread(font, height)
            most = sorted(pairs, key=pairs.__getitem__, reverse=True)[:4]
            print(f"{font.name}, {height} dots: {share} in 1,000 misread ({', '.join(most)})")


if __name__ == "__main__":
    main(list(map(Path, sys.argv[1:])))
