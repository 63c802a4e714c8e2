"""What to do tomorrow: what each group of pupils needs, and what everybody does."""

from collections.abc import Iterator

from generator.results.class_results import RETEACH_BELOW, ClassResults, Group
from generator.results.diagnosis import Kind
from layouts.marks.blocks import Block, stacked, words
from layouts.planning.type_scale import KEY_TEXT
from layouts.planning.wording import name_in_words


def for_tomorrow(results: ClassResults) -> Iterator[Block]:
    """What each group of pupils needs, and what everybody does."""
    if results.reteach:
        rungs = "; ".join(map(name_in_words, results.reteach))
        one = len(results.reteach) == 1
        share = f"{RETEACH_BELOW.numerator} in {RETEACH_BELOW.denominator}"
        yield stacked(
            words(f"To teach everyone again: {rungs}", bold=True),
            words(
                f"Of the answers on {'this rung' if one else 'each of these rungs'}, "
                f"fewer than {share} were right.",
                KEY_TEXT,
                6.0,
            ),
        )
    for number, group in enumerate(results.groups, 1):
        yield _group(number, group)
    if results.absent:
        yield stacked(
            words(f"Absent: {', '.join(results.absent)}", bold=True),
            words("Nothing is noted of them. Give them a sheet to catch up.", KEY_TEXT, 6.0),
        )
    if not results.groups:
        yield words("No answer is on the mark sheet yet.")


def _group(number: int, group: Group) -> Block:
    pupils = ", ".join(group.pupils)
    heading = f"Group {number}. {group.name[:1].upper()}{group.name[1:]}: {pupils}"
    says = [group.advice]
    if group.finding is Kind.NOT_THERE and group.next_rung:
        says = [f"First: {name_in_words(group.next_rung)}.", group.advice]
    elif group.reached or group.next_rung:
        reached = "; ".join(map(name_in_words, group.reached)) or "none yet"
        following = f"Next: {name_in_words(group.next_rung)}." if group.next_rung else group.advice
        says = [f"Reached: {reached}.", following]
    if group.mistake:
        says = [group.mistake.sentence, f"Next: {group.advice}"]
    return stacked(
        words(heading, bold=True), *(words(sentence, KEY_TEXT, 6.0) for sentence in says)
    )
