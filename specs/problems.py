"""What is wrong with a spec, said so that the teacher can put it right."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, order=True)
class Problem:
    """One problem: where it is, what is wrong, and what to write instead."""

    file: str
    line: int
    what: str
    instead: str

    def __str__(self) -> str:
        return f"{self.file}:{self.line}: {self.what}; {self.instead}"


class SpecError(Exception):
    """A spec that cannot be used, with every problem found in it, in line order."""

    def __init__(self, problems: list[Problem]) -> None:
        self.problems = tuple(sorted(problems))
        super().__init__("\n".join(map(str, self.problems)))
