"""The page, made once, and a browser of each kind in which it is open."""

import os
import time
from collections.abc import Iterator
from pathlib import Path

import pytest

from rungsheet.page.bind import page
from rungsheet.page.gather import CannotBeMadeError
from tests.page.browser import EXECUTABLES, Browser, browsing, missing


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Where something is missing, say what; in CI nothing may be."""
    if os.environ.get("CI"):
        return
    for item in items:
        if "made" not in getattr(item, "fixturenames", ()):
            continue
        wanted = getattr(item, "callspec", None)
        name = wanted.params.get("browser_name") if wanted else None
        needs = missing(name)
        if needs:
            item.add_marker(pytest.mark.skip(reason=f"the page is not tried: {needs}"))


@pytest.fixture(scope="session")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The page's file, made once however many processes run the tests."""
    base = tmp_path_factory.getbasetemp()
    shared = base.parent if os.environ.get("PYTEST_XDIST_WORKER") else base
    file, failed = shared / "rungsheet.html", shared / "rungsheet.failed"
    try:
        (shared / "page-is-made").mkdir()
    except FileExistsError:  # by another process
        until = time.monotonic() + 300
        while not file.exists():
            assert not failed.exists(), failed.read_text("utf-8")
            assert time.monotonic() < until, "the page was not made in five minutes"
            time.sleep(0.1)
        return file
    try:
        data = page()
    except CannotBeMadeError as error:
        failed.write_text(str(error), "utf-8")
        raise
    scratch = file.with_suffix(".part")
    scratch.write_bytes(data)
    scratch.rename(file)
    return file


@pytest.fixture(scope="session", params=sorted(EXECUTABLES))
def browser_name(request: pytest.FixtureRequest) -> str:
    """Each of the browsers in turn."""
    return str(request.param)


@pytest.fixture(scope="session")
def browser(
    browser_name: str, made: Path, tmp_path_factory: pytest.TempPathFactory
) -> Iterator[Browser]:
    """A browser in which the page is open, from a file: address, and its engine ready."""
    needs = missing(browser_name)
    assert needs is None, needs
    with browsing(browser_name, tmp_path_factory.mktemp(browser_name)) as found:
        found.open(made.as_uri())
        found.ready()
        yield found
