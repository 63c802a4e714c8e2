"""What is installed: locked with hashes for CI, and within what pyproject.toml says."""

import re
import tomllib
from pathlib import Path

from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

ROOT = Path(__file__).parents[2]
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
LOCK = (ROOT / ".ci" / "lock.txt").read_text(encoding="utf-8")
LOCKED = dict(re.findall(r"(?m)^([A-Za-z0-9._-]+)==(\S+) \\$", LOCK))


def required() -> list[Requirement]:
    extras = PROJECT["optional-dependencies"].values()
    return [Requirement(text) for text in sum(extras, start=list(PROJECT["dependencies"]))]


def test_every_dependency_is_locked_at_a_version_that_is_allowed() -> None:
    for asked in required():
        version = LOCKED[canonicalize_name(asked.name)]
        assert asked.specifier.contains(version), f"{asked} and {version} in .ci/lock.txt"


def test_every_locked_package_has_its_hashes() -> None:
    entries = re.split(r"(?m)^(?=[A-Za-z0-9._-]+==)", LOCK)[1:]
    assert len(entries) == len(LOCKED)
    assert all(re.search(r"--hash=sha256:[0-9a-f]{64}", entry) for entry in entries)


def test_every_dependency_has_a_lower_bound() -> None:
    unbound = {"types-PyYAML"}  # stubs: only the type checker reads them
    for asked in required():
        bounds = {specifier.operator for specifier in asked.specifier}
        assert asked.name in unbound or bounds & {">=", "=="}, str(asked)
