"""A real browser that tests drive: Chromium or Firefox, without a window or a network."""

import base64
import json
import shutil
import subprocess
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

HERE = Path(__file__).parent
MODULES = HERE.parent.parent / "rungsheet" / "page" / "node_modules"

EXECUTABLES = {
    "chrome": ("chromium", "chromium-browser", "google-chrome"),
    "firefox": ("firefox-esr", "firefox"),
}

_SET_UP = """
    window.violations = [];
    document.addEventListener("securitypolicyviolation", (event) =>
        window.violations.push(`${event.violatedDirective} ${event.blockedURI}`));
"""


def missing(browser: str | None = None) -> str | None:
    """What is missing to make the page and drive a browser, and how to get it."""
    if shutil.which("node") is None:
        return "Node.js is missing: install it (18 or later)"
    if not (MODULES / "puppeteer-core").is_dir():
        return "what drives browsers is missing: npm ci --ignore-scripts --prefix rungsheet/page"
    if browser is not None and executable(browser) is None:
        return f"{EXECUTABLES[browser][0]} is missing: install it"
    return None


def executable(browser: str) -> str | None:
    """Where a browser is installed."""
    return next(filter(None, map(shutil.which, EXECUTABLES[browser])), None)


class BrowserError(Exception):
    """What was asked of a browser could not be done."""


class Browser:
    """A running browser with one page."""

    def __init__(self, name: str, process: "subprocess.Popen[str]") -> None:
        self.name = name
        self._process = process

    def tell(self, command: str, *given: Any) -> Any:
        """Have a command of browser.mjs done. Raises BrowserError."""
        assert self._process.stdin
        self._process.stdin.write(json.dumps([command, *given]) + "\n")
        self._process.stdin.flush()
        return self.heard()

    def heard(self) -> Any:
        """The next answer."""
        assert self._process.stdout
        line = self._process.stdout.readline()
        if not line:
            raise BrowserError(f"{self.name} has ended")
        said = json.loads(line)
        if "error" in said:
            raise BrowserError(said["error"])
        return said["value"]

    def open(self, address: str) -> None:
        """Go to a page."""
        self.tell("open", address)
        self.evaluate(_SET_UP)

    def press(self, *keys: str) -> None:
        """Press keys, one after another; several held together are "Alt+2"."""
        for key in keys:
            self.tell("press", key)

    def keys(self, text: str) -> None:
        """Type a text where the focus is."""
        self.tell("keys", text)

    def reach(self, selector: str, key: str = "Tab", most: int = 200) -> None:
        """Press a key until what has the focus matches a selector."""
        self.tell("reach", selector, key, most)

    def click(self, selector: str) -> None:
        """Click on an element."""
        self.tell("click", selector)

    def read(self, expression: str) -> Any:
        """The value of an expression in the page."""
        return self.evaluate(f"return {expression}")

    def evaluate(self, script: str) -> Any:
        """What a script, the body of an asynchronous function, returns in the page."""
        return self.tell("evaluate", script)

    def until(self, script: str, seconds: float = 60) -> None:
        """Wait until an expression is true in the page."""
        self.tell("wait", script, seconds)

    def ready(self, seconds: float = 60) -> None:
        """Wait until the engine can be asked."""
        self.until("['ready', 'broken'].includes(document.body.dataset.engine)", seconds)
        state = self.evaluate("return document.body.dataset.engine")
        if state != "ready":
            raise BrowserError(f"the engine is {state}: {self.tell('said')}")

    def ask(
        self, job: str, args: dict[str, Any], *, data: bytes | None = None, seconds: float = 120
    ) -> Any:
        """The engine's answer: {"result", "files"} with their bytes, {"problems"} or {"why"}.

        Sayings are in English.
        """
        sent = None if data is None else base64.b64encode(data).decode()
        found = self.evaluate(
            f"""
            const [job, args, seconds, sent] = {json.dumps([job, args, seconds, sent])};
            const bytes = sent === null ? undefined
                : Uint8Array.from(atob(sent), (sign) => sign.charCodeAt(0));
            const text = (bytes) => {{
                let signs = "";
                for (let at = 0; at < bytes.length; at += 32768)
                    signs += String.fromCharCode(...bytes.subarray(at, at + 32768));
                return btoa(signs);
            }};
            const plain = (_, one) => one?.in instanceof Function ? one.in("en-GB") : one;
            const said = (found) => JSON.parse(JSON.stringify(found, plain));
            try {{
                const found = await rungsheet.engine.ask(job, args, {{ seconds, bytes }});
                return {{ result: said(found.result), files: found.files.map(text) }};
            }} catch (error) {{
                if (error.problems) return {{ problems: said(error.problems) }};
                return {{ why: error.why ?? String(error) }};
            }}
            """
        )
        if "files" in found:
            found["files"] = [base64.b64decode(text) for text in found["files"]]
        return found


@contextmanager
def browsing(name: str, profile: Path) -> Iterator[Browser]:
    """A browser, running while it is needed."""
    found = executable(name)
    assert found is not None
    with subprocess.Popen(
        ["node", str(HERE / "browser.mjs"), name, found, str(profile)],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
    ) as process:
        browser = Browser(name, process)
        try:
            browser.heard()
            yield browser
        finally:
            assert process.stdin
            process.stdin.close()
            process.wait(30)
