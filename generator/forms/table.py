"""The one list of forms. A further form is one more module and one more row."""

from typing import Final

from generator.forms.form import Form
from generator.forms.in_words import InWords
from generator.forms.known_fact import KnownFact
from generator.forms.missing_digit import MissingDigit
from generator.forms.missing_number import MissingNumber
from generator.forms.plain import Plain
from generator.forms.spot_the_mistake import SpotTheMistake
from specs.spec import RungSpec
from specs.words import FormWord

FORMS: Final[tuple[type[Form], ...]] = (
    Plain,
    MissingNumber,
    MissingDigit,
    KnownFact,
    SpotTheMistake,
)
"""What a spec may write behind ``form:``, in the order in which it is listed there."""

WITH_A_CONTEXT: Final[type[Form]] = InWords
"""The form of a rung that names what its questions are about."""


def form_named(name: str) -> type[Form]:
    """The form of that name. Raises KeyError when there is none."""
    for form in (*FORMS, WITH_A_CONTEXT):
        if form.name == name:
            return form
    raise KeyError(name)


def form_of_rung(rung: RungSpec) -> type[Form]:
    """The form in which the questions of a rung are asked."""
    return WITH_A_CONTEXT if rung.context else form_named(rung.form)


def form_words() -> tuple[FormWord, ...]:
    """The forms as a spec's vocabulary has them."""
    return tuple(FormWord(form.name, form.says, frozenset(form.goes_with)) for form in FORMS)
