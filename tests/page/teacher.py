"""What someone who uses the page does with it: keys, clicks and files, and what is to be seen."""

import base64
import json
from pathlib import Path
from typing import Any

from rungsheet.desk import specs
from tests.page.browser import Browser

DEMO = specs.shipped_text()
LAPTOP = (1366, 768)

PLACES = ("lesson", "sheets", "in-class", "marks", "find")
"""The places, in the order of their keys."""

_SAVED = """
    window.saved = [];
    HTMLAnchorElement.prototype.click = () => {};  // no window of a browser takes the keys away
    const made = URL.createObjectURL;
    URL.createObjectURL = (blob) => {
        if (blob.type !== "text/javascript") window.saved.push(blob);  // the worker's program
        return made.call(URL, blob);
    };
    window.print = () => { window.printed = true; };
"""


class Teacher:
    """Someone at the page, with what can be done there and what can be seen."""

    def __init__(self, browser: Browser, address: str) -> None:
        self.browser = browser
        self.address = address
        self.seen_at_once: float = 0.0
        """How wide the first sheet was, in pixels, before the engine was there."""

    # The page itself

    def opens(self, address: str | None = None) -> None:
        """Open the page, and wait until its engine can be asked."""
        self.browser.tell("size", *LAPTOP)
        self.browser.open(address or self.address)
        self.seen_at_once = self.browser.read(
            "Math.min(...['width', 'height'].map((side) => document.querySelector("
            "'#first-sheet svg, .preview .picture').getBoundingClientRect()[side]))"
        )
        self.browser.evaluate(_SAVED)
        self.browser.ready()
        self.until("rungsheet.lesson.title !== ''")

    def is_there(self) -> None:
        """Open the page again, where another has taken its place."""
        if self.browser.read("location.href").partition("#")[0] != self.address:
            self.opens()

    def begins_again(self) -> None:
        """The demo and seed 1, at the lesson, nothing waiting to be done."""
        self.browser.evaluate(
            f"""
            rungsheet.places.go("lesson");
            const look = {{ large: 0, tint: "", key_words: "" }};
            rungsheet.lesson.open({json.dumps(DEMO)}, "produce-stall.yaml", 1, look);
            """
        )
        self.at_rest()

    def at_rest(self) -> None:
        """Wait until the page has nothing more to ask of the engine about what is shown."""
        self.browser.evaluate(
            """
            await new Promise((later) => setTimeout(later, 160));  // typing pauses for 150
            for (let still = 0; still < 5; ) {
                const isReady = document.body.dataset.engine === "ready" && rungsheet.lesson.spec;
                still = isReady ? still + 1 : 0;
                await new Promise((later) => setTimeout(later, 15));
            }
            """
        )

    def until(self, expression: str, seconds: float = 60) -> None:
        """Wait until something is to be seen."""
        self.browser.until(expression, seconds)

    def sees(self, expression: str) -> Any:
        """What an expression says in the page."""
        return self.browser.read(expression)

    def sees_it_drawn(self) -> None:
        """Wait until what was last changed has been laid out and painted."""
        twice = "(done) => requestAnimationFrame(() => requestAnimationFrame(done))"
        self.browser.evaluate(f"await new Promise({twice});")

    # Keys, clicks and files

    def goes(self, place: str) -> None:
        """Go to a place by its key."""
        self.browser.press(f"Alt+{PLACES.index(place) + 1}")
        assert self.sees("document.body.dataset.place") == place

    def presses(self, *keys: str) -> None:
        """Press keys, one after another."""
        self.browser.press(*keys)

    def types(self, text: str) -> None:
        """Type where the focus is."""
        self.browser.keys(text)

    def reaches(self, selector: str, key: str = "Tab") -> None:
        """Press a key until something has the focus."""
        self.browser.reach(selector, key)

    def presses_button(self, selector: str, key: str = "Tab") -> None:
        """Go to a button by keys alone, as soon as it can be pressed, and press it."""
        found = f"document.querySelector({json.dumps(selector)})"
        self.until(f"{found} && !{found}.disabled")
        self.reaches(selector, key)
        self.presses("Enter")

    def clicks(self, selector: str) -> None:
        """Click on something."""
        self.browser.click(selector)

    def chooses(self, selector: str, wanted: str) -> None:
        """Choose in a list that has the focus, with the arrows."""
        at, to = self.browser.evaluate(
            f"""
            const list = document.querySelector({json.dumps(selector)});
            const said = [...list.options].map((one) => one.textContent.split("  (")[0]);
            return [list.selectedIndex, said.indexOf({json.dumps(wanted)})];
            """
        )
        assert to >= 0, wanted
        self.presses(*["ArrowDown" if to > at else "ArrowUp"] * abs(to - at))

    def replaces(self, text: str) -> None:
        """Type something in the place of all that stands in a field, and leave it."""
        self.presses("Control+a")
        self.types(text)
        self.presses("Tab")

    def opens_file(self, selector: str, file: Path) -> None:
        """Choose a file in the window of an opener."""
        self.browser.tell("upload", selector, str(file))

    # What is to be seen

    def text_of(self, selector: str) -> str:
        """The words of an element, with single spaces."""
        words = self.sees(f"document.querySelector({json.dumps(selector)}).textContent")
        return " ".join(words.split())

    @property
    def spec(self) -> str:
        """The text of the lesson, which the field of the text shows too."""
        text, shown = self.sees(
            "[rungsheet.lesson.text, document.getElementById('spec-text').value]"
        )
        assert text == shown
        return str(text)

    def saved(self) -> bytes:
        """What was saved last."""
        self.until("window.saved.length > 0")
        sent = self.browser.evaluate(
            """
            const bytes = new Uint8Array(await window.saved.at(-1).arrayBuffer());
            window.saved.length = 0;
            let signs = "";
            for (let at = 0; at < bytes.length; at += 32768)
                signs += String.fromCharCode(...bytes.subarray(at, at + 32768));
            return btoa(signs);
            """
        )
        return base64.b64decode(sent)
