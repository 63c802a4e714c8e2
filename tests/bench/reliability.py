"""Whether what is said with nine in ten is right nine times of ten: by bin, and as a picture."""

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

EDGES: Final = (0.05, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 0.95, 1.0)
_SIZE: Final = 360
_LEFT, _TOP, _ROOM = 50, 20, 290


@dataclass(frozen=True, slots=True)
class Bin:
    """Statements made with about the same chance, and how many of them were right."""

    least: float
    most: float
    said: int
    right: int
    mean: float

    @property
    def share(self) -> float:
        """The share that was right."""
        return self.right / self.said


def bins(statements: Iterable[tuple[float, bool]]) -> list[Bin]:
    """Statements, each with its chance and whether it was right, by bin; empty ones left out."""
    said = [*statements]
    found = []
    for least, most in pairwise(EDGES):
        inside = [(c, right) for c, right in said if least <= c < most or c == most == 1.0]
        if inside:
            mean = sum(chance for chance, _ in inside) / len(inside)
            found.append(Bin(least, most, len(inside), sum(right for _, right in inside), mean))
    return found


def table(found: Iterable[Bin]) -> str:
    """The bins as a table in Markdown."""
    lines = [
        "| a habit said to have a chance of | on average | how often said | right |",
        "| --- | ---: | ---: | ---: |",
    ]
    for one in found:
        lines.append(
            f"| {one.least:.0%} to {one.most:.0%} | {one.mean:.0%} | {one.said:,} "
            f"| {one.share:.0%} |"
        )
    return "\n".join(lines)


def drawn(found: Iterable[Bin]) -> str:
    """The bins as an SVG: the chance said to the right, the share that was right upwards."""
    dots = [*found]

    def across(share: float) -> float:
        return round(_LEFT + _ROOM * share, 1)

    def down(share: float) -> float:
        return round(_TOP + _ROOM * (1 - share), 1)

    marks = []
    for tenth in range(0, 11, 2):
        share = tenth / 10
        marks += [
            f'<line x1="{across(share)}" y1="{down(0)}" x2="{across(share)}" y2="{down(1)}" '
            'stroke="#ddd"/>',
            f'<line x1="{across(0)}" y1="{down(share)}" x2="{across(1)}" y2="{down(share)}" '
            'stroke="#ddd"/>',
            f'<text x="{across(share)}" y="{down(0) + 16}" text-anchor="middle">{share:.0%}</text>',
            f'<text x="{across(0) - 6}" y="{down(share) + 4}" text-anchor="end">{share:.0%}</text>',
        ]
    path = " ".join(f"{across(one.mean)},{down(one.share)}" for one in dots)
    points = [
        f'<circle cx="{across(one.mean)}" cy="{down(one.share)}" r="4"><title>'
        f"{one.mean:.0%} said {one.said:,} times, right {one.share:.0%}</title></circle>"
        for one in dots
    ]
    return "\n".join(
        [
            f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {_SIZE} {_SIZE}" '
            f'width="{_SIZE}" height="{_SIZE}" font-family="sans-serif" font-size="11">',
            f'<rect width="{_SIZE}" height="{_SIZE}" fill="#fff"/>',
            *marks,
            f'<line x1="{across(0)}" y1="{down(0)}" x2="{across(1)}" y2="{down(1)}" '
            'stroke="#888" stroke-dasharray="5 4"/>',
            f'<polyline points="{path}" fill="none" stroke="#000" stroke-width="1.5"/>',
            *points,
            f'<text x="{across(0.5)}" y="{down(0) + 36}" text-anchor="middle">'
            "chance that was said</text>",
            f'<text transform="translate(14 {down(0.5)}) rotate(-90)" text-anchor="middle">'
            "share that was right</text>",
            "</svg>",
            "",
        ]
    )
