"""What is asked of a pupil by a question as it stands on the page, and which answers are right.

What is accepted is said in ``specs.accepted``. Where something is missing from the question, what
goes there is right; where it is worked wrongly, the right answer.
"""

from generator.operations.table import topic_of
from generator.packs.pack import Item
from specs.languages.usage import PLAIN, Usage
from specs.replies import ORDER, Asked, Reply


def asked_of(item: Item, usage: Usage = PLAIN) -> Asked:
    """What a question asks for, with its units as pages have them, and what is right."""
    question = item.question
    kind = topic_of(question).answer_kind(question)
    numbers = tuple(number.value for number in question.operands) if kind == ORDER else ()
    unit, left_unit = item.form.units(usage)
    return Asked(kind, unit, left_unit, numbers, lambda given: is_right(item, given))


def is_right(item: Item, given: Reply) -> bool:
    """Whether a reply to a question as it is asked is right."""
    return not given.wrong_unit and item.form.is_right(item.question, [given])
