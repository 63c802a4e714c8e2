"""Why a file cannot be read or written, as the machine has it."""

from collections.abc import Mapping
from typing import Final

from specs.languages.saying import Saying, joined, say

_REASONS: Final[Mapping[str, Saying]] = {
    one: one
    for one in (
        say("No such file or directory"),
        say("Permission denied"),
        say("Is a directory"),
        say("Not a directory"),
        say("File name too long"),
        say("No space left on device"),
        say("Read-only file system"),
        say("File exists"),
        say("Broken pipe"),
        say("Input/output error"),
        say("no such file or directory"),
        say("permission denied"),
        say("is a directory"),
        say("not a directory"),
        say("file name too long"),
        say("bad name"),
    )
}
"""What systems say of their error numbers, each by itself; any other reason stays as it comes."""


def reason(error: Exception, *, in_lower_case: bool = False) -> Saying:
    """The reason that an error of the system gives; of any other, that the name is no name."""
    text = (error.strerror if isinstance(error, OSError) else None) or "bad name"
    if in_lower_case:
        text = text.lower()
    return _REASONS.get(text) or joined((text,))
