"""What is installed: locked with hashes for CI, and within what pyproject.toml says."""

import re
import tomllib
from pathlib import Path

import pytest
from packaging.markers import Marker
from packaging.requirements import Requirement
from packaging.specifiers import SpecifierSet
from packaging.utils import canonicalize_name

ROOT = Path(__file__).parents[2]
PYPROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
PROJECT = PYPROJECT["project"]
LOCK = (ROOT / ".ci" / "lock.txt").read_text(encoding="utf-8")
LOCKED = dict(re.findall(r"(?m)^([A-Za-z0-9._-]+)==(\S+)(?: ; .*)? \\$", LOCK))
PYTHONS = ("3.11", "3.12", "3.13")


def required() -> list[Requirement]:
    """What the package needs to run, to be worked on and to be built."""
    extras = PROJECT["optional-dependencies"].values()
    texts = sum(extras, start=PROJECT["dependencies"] + PYPROJECT["build-system"]["requires"])
    return [Requirement(text) for text in texts]


def test_every_dependency_is_locked_at_a_version_that_is_allowed() -> None:
    for asked in required():
        version = LOCKED[canonicalize_name(asked.name)]
        assert asked.specifier.contains(version), f"{asked} and {version} in .ci/lock.txt"


def test_every_locked_package_has_its_hashes() -> None:
    entries = re.split(r"(?m)^(?=[A-Za-z0-9._-]+==)", LOCK)[1:]
    assert len(entries) == len(LOCKED)
    assert all(re.search(r"--hash=sha256:[0-9a-f]{64}", entry) for entry in entries)


@pytest.mark.parametrize("python", PYTHONS)
def test_one_lock_serves_every_python(python: str) -> None:
    """A package that is only for some systems says so; what we name ourselves is for all."""
    assert SpecifierSet(PROJECT["requires-python"]).contains(python)
    here = {"python_version": python, "python_full_version": f"{python}.0"}
    entries = dict(re.findall(r"(?m)^([\w.-]+)==\S+ ; (.*) \\$", LOCK))
    left_out = {name for name, marker in entries.items() if not Marker(marker).evaluate(here)}
    assert not left_out & {canonicalize_name(asked.name) for asked in required()}


def test_every_dependency_has_a_lower_bound() -> None:
    """``.ci/lowest`` installs just these, so each bound is a version that there is."""
    for asked in required():
        (bound,) = asked.specifier
        assert bound.operator in {">=", "=="}, str(asked)


def test_ci_installs_from_the_lock_and_tries_the_lowest_versions() -> None:
    run = (ROOT / ".ci" / "run").read_text(encoding="utf-8")
    from_lock = run.index("pip install -q --require-hashes -r .ci/lock.txt")
    assert from_lock < run.index('bash -c "$build"')
    assert ".ci/lowest" in run
