"""Settings for every test: in CI the same examples each time, so that a pass stays a pass."""

import os

from hypothesis import settings

settings.register_profile("steady", derandomize=True, deadline=None)
settings.register_profile("searching", deadline=None)
settings.load_profile("steady" if os.environ.get("CI") else "searching")
