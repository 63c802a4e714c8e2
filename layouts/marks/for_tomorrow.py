"""What to do tomorrow: what each group of pupils needs, and what everybody does."""

from collections.abc import Iterator

from generator.results.class_results import RETEACH_BELOW, ClassResults, Group
from generator.results.diagnosis import Kind
from layouts.marks.blocks import Block, stacked, words
from layouts.planning.type_scale import KEY_TEXT
from layouts.planning.wording import capital
from specs.languages.saying import Saying, joined, say, several
from specs.languages.usage import Usage


def for_tomorrow(results: ClassResults, usage: Usage) -> Iterator[Block]:
    """What each group of pupils needs, and what everybody does."""
    if results.reteach:
        rungs = "; ".join(map(results.called, results.reteach))
        why = several(
            "Of the answers on this rung, fewer than {part} in {whole} were right.",
            "Of the answers on each of these rungs, fewer than {part} in {whole} were right.",
            len(results.reteach),
            part=RETEACH_BELOW.numerator,
            whole=RETEACH_BELOW.denominator,
        )
        yield stacked(
            words(usage(say("To teach everyone again: {rungs}", rungs=rungs)), bold=True),
            words(usage(why), KEY_TEXT, 6.0),
        )
    for number, group in enumerate(results.groups, 1):
        yield _group(number, group, results, usage)
    if results.absent:
        yield stacked(
            words(usage(say("Absent: {pupils}", pupils=", ".join(results.absent))), bold=True),
            words(
                usage(say("Nothing is noted of them. Give them a sheet to catch up.")),
                KEY_TEXT,
                6.0,
            ),
        )
    if not results.groups:
        yield words(usage(say("No answer is on the mark sheet yet.")))


def _group(number: int, group: Group, results: ClassResults, usage: Usage) -> Block:
    name = capital(usage.says(group.name))
    pupils = ", ".join(group.pupils)
    heading = usage(
        say("Group {number}. {name}: {pupils}", number=number, name=name, pupils=pupils)
    )
    says = (words(usage.says(one), KEY_TEXT, 6.0) for one in said_of(group, results))
    return stacked(words(heading, bold=True), *says)


def said_of(group: Group, results: ClassResults) -> tuple[Saying, ...]:
    """What there is to say of a group, in sentences."""
    advice, called = group.advice, results.called
    if group.mistake:
        return group.mistake.sentence, say("Next: {advice}", advice=advice)
    following = called(group.next_rung) if group.next_rung else ""
    if group.finding is Kind.NOT_THERE and following:
        return say("First: {rung}.", rung=following), advice
    if not (group.reached or following):
        return (advice,)
    reached = joined(map(called, group.reached), between="; ") or say("none yet")
    after = say("Next: {rung}.", rung=following) if following else advice
    return say("Reached: {rungs}.", rungs=reached), after
