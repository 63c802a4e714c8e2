"""The short codes of packs and pages: letters and digits that cannot be misread.

A pack's code, ``K7HM-D4-T``, is four signs of its spec, its seed and a check sign. The code
at the foot of a page, ``K7HM-D4-A-CF-M``, begins alike and goes on with the page's version
among its pack's and with where in the pack it is.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from math import isqrt
from typing import Final

from generator.packs.pack import Pack, Section
from specs.languages.saying import Saying, say

LETTERS: Final = "ACDEFHJKMNPRTUVWXY34679"
"""Twenty-three signs, no two alike in a hand or a poor copy (no B and 8, O and 0, I and 1,
S and 5, Z and 2, G and 6). A prime number of them makes the check sign below exact."""

TEACHERS_OTHERS: Final = 2
"""Pages for the teacher that are counted on from the key: the plan, and the answers on paper."""

_DIGEST_SIGNS: Final = 4
_SEED_SIGNS: Final = 2
_PAGE_GROUPS: Final = 5
_LONGEST: Final = 40
"""No code is so long; more than this is not read at all."""


class CodeError(ValueError):
    """A code that no page bears. The message says which, and what to look at."""

    def __init__(self, what: Saying, instead: Saying) -> None:
        self.what = what
        self.instead = instead
        super().__init__(f"{what}; {instead}")


def in_letters(number: int, signs: int = 1) -> str:
    """A number written with the code's signs, at least so many."""
    written = ""
    while number or len(written) < signs:
        number, sign = divmod(number, len(LETTERS))
        written = LETTERS[sign] + written
    return written


def from_letters(written: str) -> int:
    """The number that ``in_letters`` wrote so."""
    number = 0
    for sign in written:
        number = number * len(LETTERS) + LETTERS.index(sign)
    return number


def check_sign(code: str) -> str:
    """The sign that makes the weighted sum of a code nought; a hyphen counts as nought.

    Weights count from the right, 2 to 22 and then from 1 again, none a multiple of 23: one
    wrong sign or two neighbours exchanged, a hyphen among them, always show (a weighted sum
    to a prime modulus; common practice, no source).
    """
    total = 0
    for place, sign in enumerate(reversed(code)):
        weight = (place + 1) % (len(LETTERS) - 1) + 1
        total += weight * (0 if sign == "-" else LETTERS.index(sign))
    return LETTERS[-total % len(LETTERS)]


def _checked(groups: str) -> str:
    return f"{groups}-{check_sign(f'{groups}-')}"


def spec_signs(spec_digest: str) -> str:
    """The four signs that stand for a spec; ``spec_digest`` is hexadecimal."""
    return in_letters(int(spec_digest, 16) % len(LETTERS) ** _DIGEST_SIGNS, _DIGEST_SIGNS)


def pack_code(spec_digest: str, seed: int) -> str:
    """The code of a pack: four signs of the spec, the seed, and a check sign."""
    return _checked(f"{spec_signs(spec_digest)}-{in_letters(seed, _SEED_SIGNS)}")


@dataclass(frozen=True, slots=True)
class PageCode:
    """What the code at the foot of a page says.

    ``spec`` is the spec's four signs; ``version`` counts from 1, and ``versions`` is how many of
    each practice sheet the pack was built with: fewer than ``version`` only where the spec
    says how many of a sheet there are. ``section`` counts the pack's sections from 0 (the key
    comes after the last, and then the teacher's other pages), ``page`` the pages of that section
    and version from 1. ``look`` numbers the way of printing that the command line asked for, 0
    for the spec's own.
    """

    spec: str
    seed: int
    versions: int
    version: int
    section: int
    page: int
    look: int = 0

    def __str__(self) -> str:
        later = self.versions - self.version
        beyond = later < 0
        copies = _paired(self.versions - 1 if beyond else later, self.version - 1)
        look = _look_written(self.look, beyond=beyond)
        place = _paired(_paired(self.section, self.page - 1), look)
        return _checked(
            f"{self.spec}-{in_letters(self.seed, _SEED_SIGNS)}-{in_letters(copies)}"
            f"-{in_letters(place)}"
        )

    @staticmethod
    def parse(text: str) -> "PageCode":
        """The code that reads so; small letters do as well as capitals, and spaces or a dash of
        any length between its groups. Two dashes are one sign that was taken for a dash.

        Raises CodeError for anything that no page bears. A code that is nearly right is
        refused like any other: it might be nearly another page's too.
        """
        code = _BETWEEN_GROUPS.sub("-", text.strip()).upper()
        for what, instead in _problems(code):
            raise CodeError(_no_code(text.strip()[:_LONGEST], what), instead)
        spec, seed, copies, place, _ = code.split("-")
        later, earlier = _unpaired(from_letters(copies))
        at, written = _unpaired(from_letters(place))
        section, page = _unpaired(at)
        look, beyond = _look_read(written)
        versions = later + 1 if beyond else later + earlier + 1
        found = PageCode(spec, from_letters(seed), versions, earlier + 1, section, page + 1, look)
        if str(found) != code:  # noughts in front, which no code has
            raise CodeError(_no_code(text.strip(), _WRONG), LOOK_AGAIN)
        return found


def page_code(pack: Pack, section: Section | None, page: int) -> PageCode:
    """The code of a page of one section and version, or of the teacher's key for None."""
    names = list(dict.fromkeys(known.name for known in pack.sections))
    return PageCode(
        spec=pack.code.split("-")[0],
        seed=pack.seed,
        versions=pack.versions,
        version=section.version if section else 1,
        section=names.index(section.name) if section else len(names),
        page=page,
        look=pack.look,
    )


_BEYOND: Final = 100
"""Added to a look below it where a version is beyond those that the pack was built with."""


def _look_written(look: int, *, beyond: bool) -> int:
    """A look and whether the version is beyond those built, as one number."""
    if look < _BEYOND:
        return look + _BEYOND * beyond
    return 2 * look + beyond


def _look_read(written: int) -> tuple[int, bool]:
    """The look, and whether the version is beyond those built, of what was written so."""
    if written < 2 * _BEYOND:
        return written % _BEYOND, written >= _BEYOND
    return written // 2, bool(written % 2)


_BETWEEN_GROUPS: Final = re.compile(r"\s*[\u2010-\u2015\u2212-]\s*|\s+")
"""What stands between groups where a hyphen should: spaces, or a dash of a word processor."""

_WRONG: Final = say("a sign in it is wrong or out of place")
_READ_AGAIN: Final = say("read it again")
LOOK_AGAIN: Final = say("read it again from the foot of the page")


def _no_code(text: str, why: Saying) -> Saying:
    return say("{code} is no page's code: {why}", code=repr(text), why=why)


def _problems(code: str) -> Iterator[tuple[Saying, Saying]]:
    """What is wrong with a code, and what to do about it."""
    unknown = next((sign for sign in code if sign not in LETTERS and sign != "-"), None)
    groups = code.split("-")
    if unknown is not None and len(code) <= _LONGEST:
        what = say(
            "{sign} is in no code (the signs are {signs})", sign=repr(unknown), signs=LETTERS
        )
        yield what, _READ_AGAIN
    if len(groups) == 3 and len(code) <= _LONGEST and all(groups):
        yield (
            say("it looks like a whole pack's"),
            say("give the code at the foot of a page, or the seed alone"),
        )
    if len(groups) != _PAGE_GROUPS or len(groups[0]) != _DIGEST_SIGNS or not all(groups):
        yield say("a page's code has five groups, like K7HM-D4-A-CF-M"), _READ_AGAIN
    if len(code) > _LONGEST or _checked(code[: code.rindex("-")]) != code:
        yield _WRONG, LOOK_AGAIN


def _paired(first: int, second: int) -> int:
    """Two numbers as one, small for small numbers (Cantor's pairing)."""
    total = first + second
    return total * (total + 1) // 2 + second


def _unpaired(number: int) -> tuple[int, int]:
    total = (isqrt(8 * number + 1) - 1) // 2
    second = number - total * (total + 1) // 2
    return total - second, second
