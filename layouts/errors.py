"""Why a pack cannot be laid out. The message of each says what to do instead."""


class LayoutError(ValueError):
    """The pack is sound, but cannot be printed as asked."""


class DoesNotFitError(LayoutError):
    """Something to be printed is larger than the page that it was asked for on."""


class UnprintableError(LayoutError):
    """A text holds characters that the typeface has no glyph for."""
