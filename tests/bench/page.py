"""How long the page takes, beside the same Python run natively.

``python -m tests.bench.page`` makes the page and opens it in each browser that is installed, a
new one each round: until the first sheet is to be seen (as a picture), until the engine can be
asked, and for jobs asked of it one after another. Natively the same jobs are asked of the same
bridge, from the moment that a Python has started. The shortest of several rounds is taken for
each: a busy neighbour can only make things slower. With ``--quick``, fewer rounds.
"""

import json
import re
import subprocess
import sys
import tempfile
from pathlib import Path
from typing import Any, Final

from rungsheet.page.bind import page
from specs import shipped
from tests.bench.pages import CLASS_SET
from tests.page.browser import EXECUTABLES, browsing, missing

ROUNDS: Final = 5
QUICK: Final = 2

SHEET_OF_NINE: Final = "practice-core.pdf"

Job = tuple[str, dict[str, Any]]


def jobs() -> dict[str, Job]:
    """What is asked, in this order; the changed text is one that was not asked before."""
    demo = shipped().read_text("utf-8")
    return {
        "the sheets of a new lesson": ("pages", {"text": CLASS_SET, "file": SHEET_OF_NINE}),
        "a changed sheet of nine": (
            "pages",
            {"text": CLASS_SET.replace("count: [1, 3]", "count: [1, 2]"), "file": SHEET_OF_NINE},
        ),
        "the demo, all its files": ("build", {"text": demo}),
        "the same with another seed": ("build", {"text": demo, "seed": 2}),
        "a class set of 30, with keys": ("build", {"text": CLASS_SET, "versions": 30}),
    }


def asked() -> dict[str, Job]:
    """The same and, as a job alone, what a key in the page leads to."""
    titled = re.sub("(?m)^title: .*$", "title: Beans", CLASS_SET)
    return {**jobs(), KEY: ("show", {"text": titled, "file": SHEET_OF_NINE, "most": 3})}


NATIVE: Final = """
import json, sys
from time import perf_counter
started = perf_counter()
from rungsheet.page.bridge import answer
spent = [perf_counter() - started]
answer("show", json.dumps({"text": DEMO}), None, lambda *_: None)  # as the page does at once
for job, plain in json.load(sys.stdin):
    started = perf_counter()
    found, _ = answer(job, json.dumps(plain), None, lambda *_: None)
    spent.append(perf_counter() - started)
    assert "result" in found, found
print(json.dumps(spent))
"""

IN_THE_PAGE: Final = """
    const spent = [];
    for (const [job, plain] of %s) {
        const started = performance.now();
        await rungsheet.engine.ask(job, plain, { seconds: 600 });
        spent.push((performance.now() - started) / 1000);
    }
    return spent;
"""

KEYSTROKE: Final = """
    const text = %s;
    const { lesson } = rungsheet;
    const next = () => new Promise(requestAnimationFrame);
    const field = document.getElementById("spec-text");
    const pages = document.querySelector(".preview-pages");
    const drawn = async (act) => {
        const [before, begun] = [pages.dataset.drawn, performance.now()];
        act();
        while (pages.dataset.drawn === before) await next();
        return Number(pages.dataset.drawn) - begun;
    };
    rungsheet.places.go("lesson");
    await drawn(() => lesson.open(text, "class.yaml"));
    const files = document.querySelector(".preview select");
    files.value = "practice-core.pdf";
    await drawn(() => files.dispatchEvent(new Event("change")));
    const spent = [];
    for (const title of ["Beans", "Beets", "Leeks", "Peas", "Plums", "Herbs"]) {
        await new Promise((later) => setTimeout(later, 1200));
        field.value = text.replace(/^title: .*$/m, `title: ${title}`);
        spent.push(await drawn(() => field.dispatchEvent(new Event("input", { bubbles: true }))));
    }
    return Math.min(...spent.slice(1)) / 1000;
"""
"""From a key in the text of the lesson to the sheet of nine beside it, drawn anew."""

SEEN: Final = "return performance.getEntriesByName('first-contentful-paint')[0]?.startTime ?? null"


def natively() -> dict[str, float]:
    """Seconds for the start and each job, in a process of its own."""
    done = subprocess.run(
        [sys.executable, "-c", f"DEMO = {shipped().read_text('utf-8')!r}\n{NATIVE}"],
        input=json.dumps(list(asked().values())),
        capture_output=True,
        text=True,
        check=True,
        cwd=Path(__file__).parents[2],
    )
    start, *spent = json.loads(done.stdout)
    named = dict(zip(asked(), spent, strict=True))
    return {START: start, **named}


SHEET: Final = "the first sheet is to be seen"
START: Final = "the engine is ready"
KEY: Final = "a key in its text, and the sheet of nine changed"


def in_a_browser(name: str, file: Path) -> dict[str, float]:
    """Seconds in a browser that has just started; a paint that it does not tell is left out."""
    with tempfile.TemporaryDirectory() as profile, browsing(name, Path(profile)) as browser:
        browser.open(file.as_uri())
        browser.ready(600)
        start = browser.evaluate("return rungsheet.start / 1000")
        seen = browser.evaluate(SEEN)
        spent = browser.evaluate(IN_THE_PAGE % json.dumps(list(jobs().values())))
        key = browser.evaluate(KEYSTROKE % json.dumps(CLASS_SET))
    found = {START: start, **dict(zip(jobs(), spent, strict=True)), KEY: key}
    return found if seen is None else {SHEET: seen / 1000, **found}


def least(rounds: list[dict[str, float]]) -> dict[str, float]:
    """The shortest of each."""
    return {name: min(found[name] for found in rounds) for name in rounds[0]}


def table(rounds: int = ROUNDS) -> str:
    """All of it as a Markdown table."""
    there = [name for name in EXECUTABLES if missing(name) is None]
    if not there:
        return f"not measured: {missing(next(iter(EXECUTABLES)))}"
    runs: dict[str, list[dict[str, float]]] = {name: [] for name in ("native", *there)}
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder, "rungsheet.html")
        file.write_bytes(page())
        for _ in range(rounds):
            runs["native"].append(natively())
            for name in there:
                runs[name].append(in_a_browser(name, file))
    best = {name: least(found) for name, found in runs.items()}
    head = "| seconds until | Python | " + " | ".join(f"{n} | beside Python" for n in there)
    lines = [f"{head} |", f"| --- |{' ---: |' * (1 + 2 * len(there))}"]
    for step in (SHEET, START, *asked()):
        native = best["native"].get(step)
        cells = [step, "" if native is None else f"{native:.2f}"]
        for name in there:
            spent = best[name].get(step)
            cells.append("" if spent is None else f"{spent:.2f}")
            cells.append("" if spent is None or native is None else f"{spent / native:.1f} ×")
        lines.append(f"| {' | '.join(cells)} |")
    return "\n".join(lines)


if __name__ == "__main__":
    print(table(QUICK if "--quick" in sys.argv else ROUNDS))
