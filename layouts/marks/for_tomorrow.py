"""What to do tomorrow: what each group of pupils needs, and what everybody does."""

from collections.abc import Iterator

from generator.results.class_results import RETEACH_BELOW, ClassResults, Group
from generator.results.diagnosis import Kind
from layouts.marks.blocks import Block, stacked, words
from layouts.planning.type_scale import KEY_TEXT
from layouts.planning.wording import capital, name_in_words
from specs.languages.saying import several
from specs.languages.usage import Usage


def for_tomorrow(results: ClassResults, say: Usage) -> Iterator[Block]:
    """What each group of pupils needs, and what everybody does."""
    if results.reteach:
        rungs = "; ".join(map(name_in_words, results.reteach))
        why = several(
            "Of the answers on this rung, fewer than {part} in {whole} were right.",
            "Of the answers on each of these rungs, fewer than {part} in {whole} were right.",
            len(results.reteach),
            part=RETEACH_BELOW.numerator,
            whole=RETEACH_BELOW.denominator,
        )
        yield stacked(
            words(say("To teach everyone again: {rungs}", rungs=rungs), bold=True),
            words(say(why), KEY_TEXT, 6.0),
        )
    for number, group in enumerate(results.groups, 1):
        yield _group(number, group, say)
    if results.absent:
        yield stacked(
            words(say("Absent: {pupils}", pupils=", ".join(results.absent)), bold=True),
            words(say("Nothing is noted of them. Give them a sheet to catch up."), KEY_TEXT, 6.0),
        )
    if not results.groups:
        yield words(say("No answer is on the mark sheet yet."))


def _group(number: int, group: Group, say: Usage) -> Block:
    name, advice = capital(say.says(group.name)), say.says(group.advice)
    pupils = ", ".join(group.pupils)
    heading = say("Group {number}. {name}: {pupils}", number=number, name=name, pupils=pupils)
    says = [advice]
    following = name_in_words(group.next_rung)
    if group.finding is Kind.NOT_THERE and group.next_rung:
        says = [say("First: {rung}.", rung=following), advice]
    elif group.reached or group.next_rung:
        reached = "; ".join(map(name_in_words, group.reached)) or say("none yet")
        after = say("Next: {rung}.", rung=following) if group.next_rung else advice
        says = [say("Reached: {rungs}.", rungs=reached), after]
    if group.mistake:
        says = [say.says(group.mistake.sentence), say("Next: {advice}", advice=advice)]
    return stacked(
        words(heading, bold=True), *(words(sentence, KEY_TEXT, 6.0) for sentence in says)
    )
