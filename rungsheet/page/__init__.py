"""The page: the whole tool as one HTML file, which needs no installation and no network.

``python -m rungsheet.page`` makes it. Three steps, each a module: ``gather`` takes together the
Python that runs in it, ``press`` (in Node, by the page's own Python) makes that small and quick
to load, ``bind`` puts all into one file. In the page, ``bridge`` is what answers.
"""
