"""A pack's parts worked alone, for tests of pages."""

from dataclasses import replace

from generator.forms.frames import Frame
from generator.packs.pack import Item, Pack, Section
from generator.packs.working_out import WorkedItem, WorkedSection, conventions, work
from specs.spec import Presentation

USUAL = Pack("Produce stall", 2024, "7F3A-19", 1, (), Presentation())


def worked(pack: Pack, section: Section) -> WorkedSection:
    """A section of a pack, worked."""
    if section not in pack.sections:
        pack = replace(pack, sections=(section,))
    at = pack.sections.index(section)
    return list(work(pack))[at]


def worked_item(item: Item, pack: Pack = USUAL, kind: str | None = None) -> WorkedItem:
    """A question by a pack's conventions, in a kind of frame."""
    return WorkedItem(item, conventions(pack.presentation), kind)


def frame_of(pack: Pack, item: Item, kind: str | None) -> Frame:
    """What a pupil is given of a question, by the kind of frame (None: the usual one)."""
    return worked_item(item, pack, kind).frame
