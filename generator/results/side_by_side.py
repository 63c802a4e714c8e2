"""Several classes that had one pack, side by side, for whoever answers for them all."""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import Any, Final

from generator.operations.mistakes import EVERY_MISTAKE, Mistake
from generator.results.class_results import ClassResults, RungResult
from generator.results.diagnosis import Kind
from specs.languages.saying import say

MOST_CLASSES: Final = 12
"""As many as stand beside one another on a page."""


@dataclass(frozen=True, slots=True)
class SideBySide:
    """The results of classes by their names, in the order in which they were given."""

    names: tuple[str, ...]
    classes: tuple[ClassResults, ...]

    @property
    def rungs(self) -> tuple[str, ...]:
        """The rungs that anyone tried, in the pack's order."""
        return tuple(
            dict.fromkeys(
                rung.rung for one in self.classes for rung in one.rungs if self.tried(rung.rung)
            )
        )

    def tried(self, rung: str) -> int:
        """How many answers on a rung there are in all classes."""
        return sum(self.on(one, rung).attempted for one in self.classes)

    @staticmethod
    def on(results: ClassResults, rung: str) -> RungResult:
        """How a class did on a rung."""
        return next((r for r in results.rungs if r.rung == rung), RungResult(rung, 0, 0))

    def called(self, rung: str) -> str:
        """What a rung is called on pages for the teacher: the pack is the same for all."""
        return self.classes[0].called(rung)

    def spread(self, rung: str) -> Fraction:
        """How far apart the classes are on a rung: the greatest share right less the smallest."""
        shares = [share for one in self.classes if (share := self.on(one, rung).share) is not None]
        return max(shares) - min(shares) if shares else Fraction(0)

    @property
    def habits(self) -> tuple[tuple[Mistake, tuple[int, ...]], ...]:
        """The habits that were found, those of most pupils first, and how many of each class."""
        counted = [
            Counter(mistake for pupil in one.marked for mistake in pupil.habits)
            for one in self.classes
        ]
        found = [(m, tuple(of_class[m] for of_class in counted)) for m in EVERY_MISTAKE]
        return tuple(sorted((f for f in found if any(f[1])), key=lambda pair: -sum(pair[1])))

    @property
    def findings(self) -> Iterator[tuple[str, tuple[int, ...]]]:
        """How many pupils of each class there are, were absent, and have each finding."""
        yield say("pupils with answers"), tuple(len(one.marked) for one in self.classes)
        yield say("absent"), tuple(len(one.absent) for one in self.classes)
        for kind in Kind:
            found = tuple(
                sum(pupil.finding.kind is kind for pupil in one.marked) for one in self.classes
            )
            yield kind.said, found

    @property
    def plain(self) -> dict[str, Any]:
        """The whole as plain data: each class as it is alone, and what compares them."""
        return {
            "classes": [
                {"class": name, **one.plain}
                for name, one in zip(self.names, self.classes, strict=True)
            ],
            "rungs": [
                {
                    "rung": rung,
                    "classes": [
                        {
                            "class": name,
                            "attempted": self.on(one, rung).attempted,
                            "right": self.on(one, rung).right,
                        }
                        for name, one in zip(self.names, self.classes, strict=True)
                    ],
                }
                for rung in self.rungs
            ],
            "habits": [
                {
                    "mistake": mistake.name,
                    "classes": [
                        {"class": name, "pupils": count}
                        for name, count in zip(self.names, counts, strict=True)
                    ],
                }
                for mistake, counts in self.habits
            ],
        }
