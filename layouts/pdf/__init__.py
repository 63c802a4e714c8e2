"""Page plans become PDF bytes."""

from layouts.pdf import same_everywhere  # before anything else loads ReportLab

__all__ = ["same_everywhere"]
