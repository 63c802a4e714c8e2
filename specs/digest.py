"""The digest of a spec: what its pages' codes are made of."""

import hashlib
from typing import Final

from specs.canonical import canonical
from specs.reading import grammar
from specs.spec import Spec
from specs.words import Vocabulary

_NO_WORDS: Final = Vocabulary((), ())
"""Conditions are plain data already, so nothing needs to be known of their words."""


def digest_of(spec: Spec) -> str:
    """A hexadecimal digest of everything in a spec that decides what is printed.

    It hangs on the words of the spec and their values and on nothing else: not on how they are
    written, nor on the names and the order of anything in this program.
    """
    plain = grammar(_NO_WORDS).plain(spec)
    return hashlib.sha256(canonical(plain).encode()).hexdigest()
