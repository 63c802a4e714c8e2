"""Settings for every test: in CI the same examples each time, so that a pass stays a pass."""

import os
from typing import Any

import pytest
from hypothesis import settings

from rungsheet.desk import tongues

for variable in (tongues.LIST, *tongues.ASKED_IN_ORDER):
    os.environ.pop(variable, None)  # tests read English, whatever whoever runs them reads

settings.register_profile("steady", derandomize=True, deadline=None)
settings.register_profile("searching", deadline=None)
settings.load_profile("steady" if os.environ.get("CI") else "searching")


@pytest.hookimpl(optionalhook=True)
def pytest_xdist_auto_num_workers(config: pytest.Config) -> int:
    """One process more than there are processors: that of the browsers waits most of its time."""
    may_use = getattr(os, "sched_getaffinity", lambda _: range(os.cpu_count() or 1))
    return len(may_use(0)) + 1


@pytest.hookimpl(optionalhook=True)
def pytest_xdist_make_scheduler(config: pytest.Config, log: Any) -> Any:
    """Several processes share the tests out one by one, but a browser has one process to itself.

    Two browsers that start an engine each at the same time keep each other waiting.
    """
    from xdist.scheduler import LoadScopeScheduling  # here: without xdist none of it is asked

    class OneBrowserAtATime(LoadScopeScheduling):
        def _split_scope(self, nodeid: str) -> str:
            in_a_browser = nodeid.startswith("tests/page/") and (
                "[chrome" in nodeid or "[firefox" in nodeid
            )
            return "tests/page" if in_a_browser else nodeid

    return OneBrowserAtATime(config, log)
