"""What goes out of the page: nothing, but what a teacher saves, and a link that is passed on.

These tests come last (their file's name does): by then every place has been used, in the one
browser of all tests, and its proxy has written down whatever was asked for.
"""

import base64
import json
import re
import subprocess
import threading
import zlib
from collections.abc import Iterator
from contextlib import contextmanager
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import Any

import pytest

from tests.page.browser import Browser, missing
from tests.page.teacher import DEMO, PLACES, Teacher

OWN_ADDRESSES = {
    "chrome": r"(\w+\.)*(google|googleapis|gvt1)\.com(:\d+)?",
    "firefox": r"(\w+\.)*(mozilla\.(com|net|org)|firefox\.com)(:\d+)?",
}
"""Where a browser itself calls, with an empty page too (seen, no source)."""


def strangers(browser: Browser) -> list[str]:
    """What the proxy was asked for, but for what the browser asks on its own account."""
    own = re.compile(rf"\w+ (https?://)?{OWN_ADDRESSES[browser.name]}(/.*)?")
    return [one for one in browser.tell("asked") if not own.fullmatch(one)]


LEAKS = """
    const gone = (job) => Promise.resolve().then(job).then(() => "went", () => "refused");
    const image = new Image();
    image.src = "http://stall.invalid/image";
    document.body.append(image);
    const frame = document.createElement("iframe");
    frame.src = "http://stall.invalid/frame";
    document.body.append(frame);
    navigator.sendBeacon?.("http://stall.invalid/beacon", "x");
    const went = await gone(() => fetch("http://stall.invalid/fetch"));
    await new Promise((later) => setTimeout(later, 1000));
    image.remove();
    frame.remove();
    return went;
"""


def test_a_link_opens_a_lesson_and_a_damaged_one_says_so(page_as_opened: Teacher) -> None:
    page = page_as_opened
    text = DEMO.replace("Produce stall", "Autumn stall")
    plain: dict[str, Any] = {"text": text, "name": "autumn.yaml", "seed": 12, "versions": 2}
    page.browser.evaluate(f"location.hash = {json.dumps(link(plain))}")
    page.until("rungsheet.lesson.seed === 12")
    opened = "[rungsheet.lesson.text, rungsheet.lesson.name, rungsheet.lesson.versions]"
    assert page.sees(opened) == [text, "autumn.yaml", 2]
    page.browser.evaluate(f"location.hash = {json.dumps(link({**plain, 'seed': -1}))}")
    page.until("document.getElementById('state').textContent.includes('holds no lesson')")
    assert page.sees(opened) == [text, "autumn.yaml", 2]


def test_the_page_asks_the_network_for_nothing(page_as_opened: Teacher, tmp_path: Path) -> None:
    """While every place is used: by the browser's account of requests and by the proxy's.

    What the page itself would send, the policy stops: the same attempts go out from a page
    without it, so the proxy does see what goes out.
    """
    page, browser = page_as_opened, page_as_opened.browser
    for place in PLACES:
        page.goes(place)
        page.at_rest()
    page.goes("in-class")
    page.until("!document.getElementById('begin').disabled")
    page.presses_button("#begin")
    page.presses("PageDown", "b", "b", "t", "Escape")
    inside = ("file:", "blob:", "data:")
    assert [one for one in browser.tell("requests") if not one.startswith(inside)] == []
    assert strangers(browser) == []
    assert browser.read("window.violations") == []
    assert [one for one in browser.tell("said") if one.startswith(("error", "warn"))] == []

    browser.evaluate(LEAKS)
    assert strangers(browser) == []
    assert len(browser.read("window.violations")) >= 3
    bare = tmp_path / "bare.html"
    bare.write_text("<!doctype html><title>Bare</title>", "utf-8")
    browser.open(bare.as_uri())
    browser.evaluate(LEAKS)
    tried = " ".join(strangers(browser))
    assert "stall.invalid" in tried, tried


@contextmanager
def served(file: Path) -> Iterator[tuple[str, list[str]]]:
    """A web server that has the page: its address, and every line that it was sent."""
    told: list[str] = []

    class Serves(BaseHTTPRequestHandler):
        def do_GET(self) -> None:
            told.append(f"{self.requestline}\n{self.headers}")
            has = self.path == "/rungsheet.html"
            self.send_response(200 if has else 404)
            self.send_header("Content-Type", "text/html; charset=utf-8")
            self.end_headers()
            if has:
                self.wfile.write(file.read_bytes())

        def log_message(self, *_: object) -> None:
            """Say nothing."""

    server = ThreadingHTTPServer(("127.0.0.1", 0), Serves)
    threading.Thread(target=server.serve_forever, daemon=True).start()
    try:
        yield f"http://127.0.0.1:{server.server_port}/rungsheet.html", told
    finally:
        server.shutdown()
        server.server_close()


@pytest.mark.slow
def test_a_link_gives_a_colleague_the_same_sheets_and_the_server_nothing(
    opened: Teacher, made: Path
) -> None:
    browser = opened.browser
    with served(made) as (address, told):
        browser.tell("allow", address.rpartition("/")[0])
        opened.opens(address)
        opened.reaches("#seed")
        opened.replaces("77")
        opened.goes("sheets")
        opened.until("document.querySelector('.pages .picture')")
        opened.at_rest()
        first = "document.querySelector('.pages .picture').shadowRoot.innerHTML"
        sheet = opened.sees(first)
        opened.goes("find")
        opened.presses_button("#copy-link")
        opened.until("document.querySelector('.passing-on input').value !== ''")
        copied = opened.sees("document.querySelector('.passing-on input').value")
        assert copied.startswith(f"{address}#lesson=")

        browser.open("about:blank")
        opened.opens(copied)
        shown = "[rungsheet.lesson.text, rungsheet.lesson.seed]"
        assert opened.sees(shown) == [DEMO, 77]
        opened.goes("sheets")
        opened.until("document.querySelector('.pages .picture')")
        opened.at_rest()
        assert opened.sees(first) == sheet
        held = copied.partition("#lesson=")[2]
        assert len(told) >= 2
        assert not any(held[:20] in one or "lesson=" in one for one in told)
        assert browser.read("window.violations") == []


def link(plain: object) -> str:
    """The part of a link after # that holds a lesson (RFC 1951, and RFC 4648, 5)."""
    packer = zlib.compressobj(9, zlib.DEFLATED, -15)
    packed = packer.compress(json.dumps(plain).encode()) + packer.flush()
    return f"#lesson={base64.urlsafe_b64encode(packed).decode().rstrip('=')}"


_NODE = """
import { readFileSync } from "node:fs";
import { fromLink, linked } from %s;
const told = [];
for (const hash of JSON.parse(readFileSync(0, 'utf8')))
  told.push(await fromLink(hash).catch((error) => error.why ?? String(error)));
const look = { large: 18, tint: "mint", key_words: "Polish" };
const lesson = { text: "title: Äpfel", name: "a.yaml", seed: 3, versions: 4, ...look };
told.push(await linked(lesson), await fromLink(await linked(lesson)));
console.log(JSON.stringify(told));
"""


@pytest.mark.skipif(missing() is not None, reason=str(missing()))
def test_links_are_checked_as_if_anyone_had_written_them() -> None:
    good = {"text": "title: a", "name": "a.yaml", "seed": 3}
    bomb = {**good, "text": "a" * 5_000_000}
    hostile = [
        *("", "#other", "#lesson=", "#lesson=%00", "#lesson=AAAA", f"#lesson={'A' * 200_000}"),
        link([]),
        link(None),
        link({**good, "seed": 1.5}),
        link({**good, "seed": 10**9}),
        link({**good, "versions": 10_000}),
        link({**good, "text": {"a": 1}}),
        link(bomb),
        link({**good, "name": "../<b>.yaml"}),
    ]
    links = Path(__file__).parents[2] / "rungsheet" / "page" / "shell" / "links.mjs"
    done = subprocess.run(
        ["node", "--input-type=module", "-e", _NODE % json.dumps(links.as_uri())],
        input=json.dumps(hostile),
        capture_output=True,
        text=True,
        check=True,
    )
    *told, made, again = json.loads(done.stdout)
    assert told[:6] == [None, None, "damaged", "damaged", "damaged", "too_long"]
    assert told[6:12] == ["damaged"] * 6
    assert told[12] == "too_long"
    assert (told[13]["name"], told[13]["text"]) == ("lesson.yaml", "title: a")
    look = {"large": 18, "tint": "mint", "key_words": "Polish"}
    assert again == {"text": "title: Äpfel", "name": "a.yaml", "seed": 3, "versions": 4, **look}
    packed = base64.urlsafe_b64decode(made.removeprefix("#lesson=") + "==")
    assert json.loads(zlib.decompress(packed, -15)) == again
