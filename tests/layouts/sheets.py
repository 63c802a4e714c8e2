"""Packs of the tests in other presentations."""

from dataclasses import replace
from typing import Any

from generator.packs.pack import Pack
from specs.spec import BySheet


def with_presentation(pack: Pack, **words: Any) -> Pack:
    """The pack with some words of its presentation changed; large print and tint for all."""
    for name in ("large", "tint"):
        if name in words and not isinstance(words[name], BySheet):
            words[name] = BySheet(words[name])
    return replace(pack, presentation=replace(pack.presentation, **words))
