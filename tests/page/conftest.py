"""The page, made once, and a browser of each kind in which it stays open for all its tests."""

import os
import time
from collections.abc import Iterator
from pathlib import Path

import pytest

from rungsheet.page.bind import made_of, page
from rungsheet.page.gather import CannotBeMadeError
from tests.page.browser import EXECUTABLES, Browser, browsing, missing
from tests.page.teacher import Teacher

OUT = Path(__file__).parents[2] / "out" / "rungsheet.html"


@pytest.hookimpl(tryfirst=True)
def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Firefox repeats as slow tests what Chromium shows each day.

    Where something is missing, tests of the page are skipped and say what; in CI nothing may be.
    """
    for item in items:
        wanted = getattr(item, "callspec", None)
        name = wanted.params.get("browser_name") if wanted else None
        if name == "firefox":
            item.add_marker(pytest.mark.slow)
        if "made" in getattr(item, "fixturenames", ()) and not os.environ.get("CI"):
            needs = missing(name)
            if needs:
                item.add_marker(pytest.mark.skip(reason=f"the page is not tried: {needs}"))


@pytest.fixture(scope="session")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The page's file, made once however many processes run the tests.

    One that was made of the very same files is taken as it is.
    """
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
        there = OUT.read_bytes() if OUT.exists() else b""
        data = there if f'"{made_of()}"'.encode() in there[:4000] else page()
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
def opened(
    browser_name: str, made: Path, tmp_path_factory: pytest.TempPathFactory
) -> Iterator[Teacher]:
    """A teacher who has double-clicked the file: a small laptop's screen, the engine ready."""
    needs = missing(browser_name)
    assert needs is None, needs
    with browsing(browser_name, tmp_path_factory.mktemp(browser_name)) as found:
        teacher = Teacher(found, made.as_uri())
        teacher.opens()
        yield teacher


@pytest.fixture
def browser(opened: Teacher) -> Browser:
    """The browser in which the page is open, its engine ready."""
    opened.is_there()
    return opened.browser


@pytest.fixture
def page_as_opened(request: pytest.FixtureRequest, opened: Teacher) -> Iterator[Teacher]:
    """The page as it was opened: the demo, seed 1, at the lesson; nothing forbidden was tried.

    After a test that failed it is opened anew, so that what that one left takes no other along.
    """
    opened.is_there()
    opened.begins_again()
    failed = request.session.testsfailed
    yield opened
    if request.session.testsfailed > failed:
        opened.opens()
    assert opened.browser.read("window.violations") == []
