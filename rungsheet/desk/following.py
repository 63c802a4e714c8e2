"""Tomorrow's starter: a spec and a pack weighted to what the marks of today show."""

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from generator.results.follow_up import FILE as SPEC_FILE
from generator.results.follow_up import SEEDS_TRIED, Choice, Weighting, follow_up
from rungsheet.desk import specs
from rungsheet.desk.marks import Marked, PackRecord
from rungsheet.desk.packs import GREATEST_SEED, Built, File, of_pack
from rungsheet.desk.problems import Problem, Refused, refusing

__all__ = ["SPEC_FILE", "Choice", "Followed", "Weights", "follow"]


@dataclass(frozen=True, slots=True)
class Weights:
    """How the starter's questions are shared out.

    ``review`` is how many of a hundred ``questions`` go to older rungs, ``habits`` what a
    habit weighs beside a wrong answer.
    """

    questions: int = 6
    review: int = 33
    habits: int = 1


@dataclass(frozen=True, slots=True)
class Followed:
    """The starter with its files, why each rung is in it, and how many questions asked before
    stood in its way: those its spec names, to be avoided.
    """

    built: Built
    choices: tuple[Choice, ...]
    avoided: int

    @property
    def said(self) -> tuple[str, ...]:
        """The choices in words, a line each."""
        lines = [f"{choice.rung}: {choice.count} ({choice.why})" for choice in self.choices]
        if self.avoided:
            one = self.avoided == 1
            were = f"{self.avoided} question{'' if one else 's'} asked before stood in the way"
            lines.append(f"{were}; {SPEC_FILE} names {'it' if one else 'them'} below 'avoid:'")
        return tuple(lines)


def follow(
    pack: PackRecord,
    marked: Marked,
    name: str,
    weights: Weights = Weights(),
    seed: int | None = None,
    avoid: Iterable[PackRecord] = (),
) -> Followed:
    """Tomorrow's starter for a class whose marks were read; ``name`` is the pack's.

    No question of the pack, or of those to ``avoid``, comes again. Without a ``seed`` those
    after the pack's are tried.
    """
    if not pack.spec_text:
        raise Refused(Problem(name, None, "its pack.json holds no spec", "build the pack again"))
    spec = specs.read(pack.spec_text, f"{name}: its spec")
    after = (pack.seed + further for further in range(1, SEEDS_TRIED + 1))
    seeds = [seed] if seed is not None else [one % (GREATEST_SEED + 1) for one in after]
    asked_before = [question for one in (pack, *avoid) for question in one.questions]
    weighting = Weighting(weights.questions, Fraction(weights.review, 100), weights.habits)
    with refusing(name):
        found = follow_up(spec, marked.results, weighting, seeds, asked_before)
    extra = File(SPEC_FILE, "spec", found.spec.text.encode())
    return Followed(of_pack(found.spec, found.pack, (extra,)), found.choices, found.listed)
