"""ReportLab as it comes, whatever the machine: nothing around the program reaches a page.

ReportLab takes settings from variables (``RL_*``, ``SOURCE_DATE_EPOCH``) and from files in the
folder that is worked in or at home, and with some it does not even start. Importing this module
loads it without them; a canvas is made within ``nothing_around``.
"""

import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from types import ModuleType
from typing import Final

_SETTINGS_FILES: Final = ("reportlab.local_rl_settings", "reportlab_settings")
"""Modules that ReportLab runs when it is loaded; where the second is found, the file
``~/.reportlab_settings`` is not looked for."""

_MADE_OF_THEIR_NAMES: Final = frozenset(
    {"T1SearchPath", "TTFSearchPath", "CMapSearchPath", "defaultPageSize", "unShapedFontGlob"}
)
"""Settings that ReportLab makes values of; no page here hangs on them."""


@contextmanager
def nothing_around() -> Iterator[None]:
    """Within it, ReportLab finds no settings: neither variables nor files.

    Where there are none, as usual, nothing is touched; otherwise they are put back at the end.
    """
    names = [name for name in os.environ if name.startswith("RL_") or name == "SOURCE_DATE_EPOCH"]
    variables = {name: os.environ.pop(name) for name in names}
    try:
        yield
    finally:
        os.environ.update(variables)


def _load() -> None:
    loaded_before = "reportlab.rl_config" in sys.modules
    stubs = {name: ModuleType(name) for name in _SETTINGS_FILES if name not in sys.modules}
    sys.modules.update(stubs)
    try:
        with nothing_around():
            from reportlab import rl_config, rl_settings

            if loaded_before:  # by another, perhaps with settings
                usual = {name: getattr(rl_settings, name) for name in rl_config.currentSettings()}
                plain = {n: value for n, value in usual.items() if n not in _MADE_OF_THEIR_NAMES}
                rl_config.applySettings(plain)
    finally:
        for name in stubs:
            del sys.modules[name]


_load()
