"""The page's engine in real browsers, from a file: address, the network cut off."""

import hashlib
import json
from pathlib import Path
from typing import Any

import pytest

from rungsheet.desk import Problem, packs, pictures, rungs, specs
from rungsheet.page.bind import page
from specs import shipped
from tests.page.browser import Browser
from tests.page.thrown import built_natively, files_in, page_codes, said_natively, thrown

RANDOM = 20
REFUSED = 40


def page_files(browser: Browser, spec: bytes, **args: Any) -> dict[str, bytes] | list[str]:
    """What the page makes of a spec: its files, or the lines of what it says instead."""
    found = browser.ask("build", {"name": "lesson.yaml", **args}, data=spec)
    if "problems" in found:
        return [str(Problem(**one)) for one in found["problems"]]
    assert "why" not in found, (found, browser.tell("said"), spec)
    return named(found)


def named(found: dict[str, Any]) -> dict[str, bytes]:
    """The files of an answer by their names."""
    return {file["name"]: found["files"][file["file"]] for file in found["result"]["files"]}


def digests(files: dict[str, bytes] | list[str]) -> dict[str, str] | list[str]:
    """Files by their digests: short enough to be shown when two differ."""
    if isinstance(files, list):
        return files
    return {name: hashlib.sha256(data).hexdigest() for name, data in sorted(files.items())}


def test_the_demo_has_the_command_lines_bytes(browser: Browser, tmp_path: Path) -> None:
    spec = shipped().read_bytes()
    native = built_natively(spec, tmp_path / "native")
    assert digests(page_files(browser, spec)) == digests(native)


@pytest.mark.slow
def test_versions_seed_and_look_have_the_command_lines_bytes(
    browser: Browser, tmp_path: Path
) -> None:
    spec = shipped().read_bytes()
    look = ("--large", 18, "--tint", "mint", "--key-words", "Polish")
    options = ("--seed", 7, "--versions", 3, *look)
    native = built_natively(spec, tmp_path / "native", *options)
    args: dict[str, Any] = {"seed": 7, "versions": 3, "large": 18, "tint": "mint"}
    args["key_words"] = "Polish"
    assert digests(page_files(browser, spec, **args)) == digests(native)


@pytest.mark.slow
def test_random_specs_have_the_command_lines_bytes_or_messages(
    browser: Browser, tmp_path: Path
) -> None:
    good, bad = thrown(RANDOM, REFUSED)
    assert (len(good), len(bad)) == (RANDOM, REFUSED)
    for at, spec in enumerate([*good, *bad]):
        native = built_natively(spec, tmp_path / str(at))
        assert digests(page_files(browser, spec)) == digests(native), spec.decode()


@pytest.mark.slow
def test_a_sheet_that_is_given_back_has_the_command_lines_answers(
    browser: Browser, tmp_path: Path
) -> None:
    """From the bytes of a PDF, and from the code at the foot of one of its pages."""
    files = built_natively(shipped().read_bytes(), tmp_path / "native", "--seed", 5)
    assert isinstance(files, dict)
    pdf = tmp_path / "native" / "pack" / "practice-core.pdf"
    *answers, written = said_natively("key", pdf, "--out", tmp_path / "key")
    assert written.endswith("key.pdf")
    found = browser.ask("key", {"name": pdf.name}, data=pdf.read_bytes())
    assert found["result"]["answers"] == answers
    assert found["files"] == [files_in(tmp_path / "key")["key.pdf"]]
    assert found["result"]["text"] == shipped().read_text("utf-8")
    assert found["result"]["sections"] == ["core"]

    code = page_codes(pdf)[0]
    text = found["result"]["text"]
    again = browser.ask("key", {"text": text, "name": "produce-stall.yaml", "code": code})
    assert again["result"]["seed"] == 5
    assert set(answers) <= set(again["result"]["answers"])
    assert browser.ask("key", {"text": text, "code": "XXXX-XX-X"})["problems"]


@pytest.mark.slow
def test_marks_and_what_follows_have_the_command_lines_bytes(
    browser: Browser, tmp_path: Path
) -> None:
    spec = shipped().read_bytes()
    files = built_natively(spec, tmp_path / "native")
    assert isinstance(files, dict)
    pack = tmp_path / "native" / "pack"
    grid = browser.ask("grid", {"text": spec.decode()})["result"]
    names = [column["name"] for column in grid["columns"]]
    head = files["marks.csv"].decode().splitlines()[0]
    assert head.split(",")[1:] == names
    rows = [
        [str(pupil), *(["y", "n", "12", ""][(pupil * 5 + at * 3) % 4] for at in range(len(names)))]
        for pupil in range(1, 9)
    ]
    sheet = "".join(f"{','.join(row)}\r\n" for row in [[head], *rows])
    (tmp_path / "marks.csv").write_text(sheet, newline="")
    said_natively("marks", pack, tmp_path / "marks.csv", "--out", tmp_path / "marks")
    said_natively("follow", pack, tmp_path / "marks.csv", "--out", tmp_path / "follow")

    for record in ({"text": spec.decode()}, {"record": files["pack.json"].decode()}):
        marked = browser.ask("marks", {**record, "sheet": sheet})
        assert digests(named(marked)) == digests(files_in(tmp_path / "marks"))
        assert marked["result"]["pupils"]
        followed = browser.ask("follow", {**record, "sheet": sheet, "files": True})
        assert digests(named(followed)) == digests(files_in(tmp_path / "follow"))
        assert followed["result"]["text"].encode() in followed["files"]


def test_pages_are_pictures_of_what_is_printed(browser: Browser) -> None:
    text = shipped().read_text("utf-8")
    built = packs.build(specs.read(text))
    shown = browser.ask("pages", {"text": text, "name": "produce-stall.yaml"})["result"]
    assert [file["name"] for file in shown] == list(built.names)
    for file in shown:
        assert tuple(file["pages"]) == pictures.pictured(built, file["name"]).pages


def test_every_rung_is_counted_and_drawn(browser: Browser) -> None:
    text = shipped().read_text("utf-8")
    found = browser.ask("rungs", {"text": text})["result"]
    views = rungs.count(specs.read(text))
    kept = ("name", "operation", "questions", "sample")
    assert [{name: rung[name] for name in kept} for rung in found] == [one.plain for one in views]
    assert all(rung["picture"].startswith("<svg") for rung in found)


@pytest.mark.slow
def test_a_job_out_of_time_is_ended_and_the_page_stays(browser: Browser) -> None:
    """Whatever a spec asks, it has so long and no longer; what is typed is still there."""
    browser.press("Alt+5")
    browser.click("#code")
    browser.press("Control+a")
    browser.keys("typed before")
    text = shipped().read_text("utf-8")
    found = browser.ask("build", {"text": text, "versions": 30}, seconds=0.5)
    assert found == {"why": "out of time"}
    browser.ready()
    assert browser.read("document.activeElement.value") == "typed before"
    assert "result" in browser.ask("read", {"text": text})


@pytest.mark.slow
def test_a_build_tells_how_far_it_is_and_can_be_stopped(browser: Browser) -> None:
    told = browser.evaluate(
        f"""
        const text = {json.dumps(shipped().read_text("utf-8"))};
        const told = [];
        const progress = (now) => {{
            told.push(now);
            if (told.length === 3) rungsheet.engine.stop();
        }};
        const why = await rungsheet.engine
            .ask("build", {{ text, versions: 30 }}, {{ progress }})
            .catch((error) => error.why);
        return [why, ...told];
        """
    )
    assert told[0] == "stopped"
    assert [one["done"] for one in told[1:]] == [1, 2, 3]
    assert told[1]["of"] > 30
    browser.ready()


@pytest.mark.slow
def test_a_job_is_stopped_by_its_own_signal_and_no_other_with_it(browser: Browser) -> None:
    """One that waits is withdrawn; one that is being done is ended; one that is done stays so."""
    done = browser.evaluate(
        f"""
        const text = {json.dumps(shipped().read_text("utf-8"))};
        const stopping = [0, 1, 2, 3].map(() => new AbortController());
        const asked = stopping.map(({{ signal }}, at) => rungsheet.engine
            .ask(at === 3 ? "build" : "read", {{ text }}, {{ signal }})
            .then(() => "done", (error) => error.why));
        stopping[1].abort();
        await asked[0];
        stopping[0].abort();
        await asked[2];
        stopping[3].abort();
        const late = rungsheet.engine.ask("read", {{ text }}, {{ signal: stopping[3].signal }});
        return Promise.all([...asked, late.catch((error) => error.why)]);
        """
    )
    assert done == ["done", "stopped", "done", "stopped", "stopped"]
    browser.ready()


def test_of_waiting_jobs_with_one_name_the_last_is_done(browser: Browser) -> None:
    """As while someone types: what was asked for a text that is no longer there is left out."""
    done = browser.evaluate(
        f"""
        const text = {json.dumps(shipped().read_text("utf-8"))};
        const asked = [1, 2, 3, 4].map((seed) => rungsheet.engine
            .ask("build", {{ text, seed }}, {{ instead: "while typing" }})
            .then(({{ result }}) => result.seed, (error) => error.why));
        return Promise.all(asked);
        """
    )
    assert done == [1, "withdrawn", "withdrawn", 4]


HOSTILE = {
    "brackets": b"[" * 120_000,
    "laughs": b"".join(b"l%d: &l%d [%s]\n" % (n, n, b"*l%d, " % n * 9) for n in range(12)),
    "objects": b"!!python/object/apply:os.system ['touch leaked']\n",
    "not text": bytes(range(256)) * 400,
    "far too long": b"# x\n" * 1_000_000,
    "too wide": b"title: x\nladder:\n"
    + b"".join(
        b"  r%d: {operation: add, addends: 6, places: {ragged: [0, 4]}, whole: {between: [0, 5]}}\n"
        % at
        for at in range(12)
    )
    + b"tiers: {core: {r0: 3}}\n",
}


@pytest.mark.parametrize("kind", sorted(HOSTILE))
@pytest.mark.slow
def test_a_hostile_spec_is_refused_in_words(browser: Browser, kind: str) -> None:
    found = browser.ask("build", {}, data=HOSTILE[kind], seconds=60)
    assert found["problems"], found
    assert all(one["what"] for one in found["problems"])


@pytest.mark.parametrize("data", [b"", b"%PDF-1.7\n", b"%PDF-1.7\n" + bytes(100_000) + b"%%EOF"])
def test_what_is_no_sheet_is_refused_in_words(browser: Browser, data: bytes) -> None:
    found = browser.ask("key", {}, data=data)
    assert found["problems"], found


@pytest.mark.slow
def test_the_same_inputs_make_the_same_page(made: Path) -> None:
    assert hashlib.sha256(page()).digest() == hashlib.sha256(made.read_bytes()).digest()
