"""The short code at the foot of a page: letters and digits that cannot be misread."""

from typing import Final

LETTERS: Final = "ACDEFHJKMNPRTUVWXY34679"
"""Twenty-three signs, no two alike in a hand or a poor copy (no B and 8, O and 0, I and 1,
S and 5, Z and 2, G and 6). A prime number of them makes the check sign below exact."""

_DIGEST_SIGNS: Final = 4


def in_letters(number: int, signs: int = 1) -> str:
    """A number written with the code's signs, at least so many."""
    written = ""
    while number or len(written) < signs:
        number, sign = divmod(number, len(LETTERS))
        written = LETTERS[sign] + written
    return written


def check_sign(signs: str) -> str:
    """The sign that makes the weighted sum of a code nought.

    Weights count from the right, so one wrong sign or two neighbours exchanged always
    show (a weighted sum to a prime modulus; common practice, no source).
    """
    total = sum(weight * LETTERS.index(sign) for weight, sign in enumerate(reversed(signs), 2))
    return LETTERS[-total % len(LETTERS)]


def pack_code(spec_digest: str, seed: int) -> str:
    """The code of a pack: four signs of the spec, the seed, and a check sign.

    ``spec_digest`` is hexadecimal; the code reads like ``K7HM-D4-X``.
    """
    spec = in_letters(int(spec_digest, 16) % len(LETTERS) ** _DIGEST_SIGNS, _DIGEST_SIGNS)
    numbered = in_letters(seed, 2)
    return f"{spec}-{numbered}-{check_sign(spec + numbered)}"
