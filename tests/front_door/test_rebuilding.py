"""A sheet found in a drawer: its answers from the PDF, its pack again from the code."""

import io
import json
import re
from dataclasses import replace
from pathlib import Path
from typing import Any

import pypdf
import pypdfium2
import pytest
import zxingcpp

from generator.packs.codes import PageCode, spec_signs
from generator.vocabulary import VOCABULARY
from layouts.files import given
from layouts.pdf.carried import ATTACHED, MAJOR, Carried, NotASheetError, carried_by
from rungsheet.desk.again import edition
from specs import read_spec
from specs.digest import digest_of
from specs.looks import Look
from tests.front_door.test_commands import GOOD, refused, run, spec_file


@pytest.fixture(autouse=True)
def in_an_empty_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)


def built(*arguments: str, out: str = "pack") -> dict[str, bytes]:
    result = run("build", *arguments, "--out", out)
    assert result.exit_code == 0, result.output
    return {path.name: path.read_bytes() for path in Path(out).iterdir()}


def answers(folder: str, name: str, version: int = 1) -> list[str]:
    record = json.loads(Path(folder, "pack.json").read_text(encoding="utf-8"))
    (section,) = (s for s in record["sections"] if (s["name"], s["version"]) == (name, version))
    return [f"{asked['label']}  {reply(asked)}" for asked in section["questions"]]


def reply(asked: dict[str, Any]) -> str:
    """What a pupil writes, from the record of a question."""
    if asked.get("ending") == "remainder" and asked["remainder"] != "0":
        return f"{asked['answer']} r {asked['remainder']}"
    hidden = asked.get("hidden", {"is": asked["answer"]})
    return str(asked.get("reply", hidden["is"]))


FORMS = """\
title: Weighing beans
ladder:
  bare: {operation: add, places: 2}
  missing: {operation: subtract, places: 2, form: missing number}
  told: {operation: add, places: 2, addends: 2, context: mass}
  trays: {operation: divide, dividend: {digits: 3}, remainders: some, ending: remainder}
tiers:
  core: {bare: 2, missing: 2, told: 2, trays: 3}
"""


def printed_code(data: bytes, page: int = 0) -> str:
    """The code at the foot of a page, as a camera reads it."""
    image = pypdfium2.PdfDocument(io.BytesIO(data))[page].render(scale=3).to_pil()
    (found,) = zxingcpp.read_barcodes(image)
    return found.text


def test_key_prints_a_line_a_question() -> None:
    built(spec_file(GOOD), "--seed", "12")
    result = run("key", "pack/practice-core.pdf")
    assert result.exit_code == 0, result.output
    assert result.stdout.splitlines() == answers("pack", "core")
    assert not result.stderr


def test_key_answers_what_was_asked() -> None:
    built(spec_file(FORMS), "--seed", "3")
    lines = run("key", "pack/practice-core.pdf").stdout.splitlines()
    assert lines == answers("pack", "core")
    assert "kg" in lines[4] or " g" in lines[4]


def test_key_needs_nothing_but_the_pdf() -> None:
    data = built(spec_file(GOOD), "--seed", "12")["practice-core.pdf"]
    expected = answers("pack", "core")
    for path in (*Path("pack").iterdir(), Path("lesson.yaml")):
        path.unlink()
    Path("found.pdf").write_bytes(data)
    assert run("key", "found.pdf").stdout.splitlines() == expected


def test_key_names_each_version_that_the_file_holds() -> None:
    built(spec_file(GOOD), "--versions", "3")
    lines = run("key", "pack/practice-core.pdf").stdout.splitlines()
    expected: list[str] = []
    for version in (1, 2, 3):
        expected += ["", f"Core practice, version {version}", *answers("pack", "core", version)]
    assert lines == expected[1:]


@pytest.mark.parametrize(
    ("file", "name"),
    [
        ("starter.pdf", "starter"),
        ("examples.pdf", "examples"),
        ("examples-on-paper.pdf", "examples"),
        ("practice-support.pdf", "support"),
    ],
)
@pytest.mark.slow
def test_key_of_every_kind_of_sheet(file: str, name: str) -> None:
    built("--seed", "4")
    assert run("key", f"pack/{file}").stdout.splitlines() == answers("pack", name)


def test_key_writes_the_key_with_its_workings() -> None:
    built(spec_file(GOOD))
    assert run("key", "pack/practice-core.pdf", "--out", "answers/monday").exit_code == 0
    (written,) = Path("answers/monday").iterdir()
    assert written.name == "key.pdf"
    text = pypdf.PdfReader(written).pages[0].extract_text()
    for line in answers("pack", "core"):
        label, answer = line.split("  ")
        assert f"{label})" in text
        assert f"= {answer}" in text
    again = run("key", "pack/practice-core.pdf", "--out", "answers/monday")
    assert again.exit_code == 0, "the same key may be written again"


def test_key_leaves_another_file_alone() -> None:
    built(spec_file(GOOD))
    Path("mine").mkdir()
    Path("mine/key.pdf").write_bytes(b"mine")
    assert "name another folder" in refused("key", "pack/practice-core.pdf", "--out", "mine")
    assert Path("mine/key.pdf").read_bytes() == b"mine"


def test_a_pdf_carries_its_spec_word_for_word() -> None:
    files = built(spec_file(GOOD), "--seed", "12", "--versions", "2")
    for name in files:
        if name.endswith(".pdf"):
            reader = pypdf.PdfReader(io.BytesIO(files[name]))
            assert reader.attachments[ATTACHED] == [GOOD.encode()]
            assert reader.metadata is not None
            carried = Carried.parse(reader.metadata["/Keywords"], GOOD)
            assert (carried.seed, carried.versions, carried.sections) == (12, 2, ("core",))


def test_a_sealed_pack_carries_nothing() -> None:
    files = built(spec_file(GOOD), "--sealed")
    data = files["practice-core.pdf"]
    assert b"Weighing beans\nladder" not in data
    assert b"carries: none" not in data
    assert not pypdf.PdfReader(io.BytesIO(data)).attachments
    message = refused("key", "pack/practice-core.pdf")
    assert "holds no spec and seed" in message
    assert "the code at the foot of its page" in message


def test_the_major_version_is_the_one_installed() -> None:
    assert run("--version").stdout.startswith(f"rungsheet {MAJOR}.")


def damaged(data: bytes) -> dict[str, bytes]:
    writer = pypdf.PdfWriter(clone_from=io.BytesIO(data))
    writer.encrypt("beans")
    locked = io.BytesIO()
    writer.write(locked)
    blank = io.BytesIO()
    other = pypdf.PdfWriter()
    other.add_blank_page(100, 100)
    other.write(blank)
    keywords = f"rungsheet {MAJOR}; seed 1; versions 1".encode()
    return {
        "locked": locked.getvalue(),
        "another's": blank.getvalue(),
        "empty": b"",
        "text": b"title: beans\n",
        "half": data[: len(data) // 2],
        "no trailer": data[:-200],
        "no head": data[500:],
        "noise": b"%PDF-1.7\n" + bytes(range(256)) * 40 + b"%%EOF",
        "newer": data.replace(b"(rungsheet 1;", b"(rungsheet 7;"),
        "number past all": re.sub(rb"startxref\s+[0-9]+", b"startxref\n" + b"9" * 30, data),
        "changed seed": data.replace(keywords, keywords.replace(b"seed 1", b"seed x")),
        "changed sections": data.replace(b"sections core", b"sections bore"),
        "no versions": data.replace(b"versions 1;", b"versions 0;"),
        "changed spec": data.replace(b"carries: none", b"carries: nome"),
    }


def test_files_that_are_no_sheets_end_with_one_message() -> None:
    data = built(spec_file(GOOD))["practice-core.pdf"]
    says = {
        "locked": "password",
        "another's": "holds no spec and seed",
        "newer": "Rungsheet 7",
        "text": "not a PDF",
        "changed spec": "cannot be used",
        "changed sections": "sections that its spec does not have",
    }
    for name, bytes_ in damaged(data).items():
        Path("found.pdf").write_bytes(bytes_)
        message = refused("key", "found.pdf", "--out", "answers")
        assert message.count("\n") == 1, (name, message)
        assert message.startswith("found.pdf: "), (name, message)
        assert says.get(name, "") in message, (name, message)
        assert not Path("answers").exists()


def test_any_cut_of_a_file_ends_with_a_message() -> None:
    data = built(spec_file(GOOD))["practice-core.pdf"]
    for part in range(1, 40):
        Path("found.pdf").write_bytes(data[: len(data) * part // 40])
        assert refused("key", "found.pdf").startswith("found.pdf: ")


@pytest.mark.parametrize("path", ["missing.pdf", "."])
def test_what_cannot_be_opened_is_said(path: str) -> None:
    assert refused("key", path).startswith(f"{path}: it cannot be read")


@pytest.mark.parametrize(
    "arguments", [[], ["--versions", "3"], ["--large", "18", "--tint", "sky"], ["--large", "24"]]
)
@pytest.mark.slow
def test_the_code_on_any_page_builds_the_same_pack_again(arguments: list[str]) -> None:
    first = built("produce-stall", "--seed", "77", *arguments)
    for name in ("starter.pdf", "practice-core.pdf", "key.pdf"):
        pages = len(pypdf.PdfReader(io.BytesIO(first[name])).pages)
        code = printed_code(first[name], pages - 1)
        assert built("--code", code.lower(), "produce-stall", out="again") == first


@pytest.mark.slow
def test_every_page_has_a_code_of_its_own() -> None:
    files = built(spec_file(GOOD.replace("beans: 4", "beans: 40")), "--versions", "3")
    codes = [
        printed_code(files[name], page)
        for name in ("practice-core.pdf", "key.pdf")
        for page in range(len(pypdf.PdfReader(io.BytesIO(files[name])).pages))
    ]
    assert len(codes) == len(set(codes)) > 6
    assert {PageCode.parse(code).version for code in codes} == {1, 2, 3}


def test_a_code_of_another_spec_is_refused_in_words() -> None:
    code = printed_code(built(spec_file(GOOD))["practice-core.pdf"])
    other = spec_file(GOOD.replace("beans: 4", "beans: 5"), "other.yaml")
    message = refused("build", other, "--code", code, "--out", "again")
    assert code in message
    assert "is not of this spec" in message
    assert "name the spec that the sheet was made from" in message
    assert not Path("again").exists()


def test_a_mistyped_code_is_refused_by_name() -> None:
    code = printed_code(built(spec_file(GOOD))["practice-core.pdf"])
    wrong = code[:2] + ("A" if code[2] != "A" else "C") + code[3:]
    message = refused("build", "lesson.yaml", "--code", wrong)
    assert wrong in message
    assert "read it again" in message


@pytest.mark.parametrize(
    "changes",
    [
        {"section": 9},  # the lesson has one, and the key comes after it
        {"section": 4},  # nor after the teacher's other pages
        {"section": 2, "page": 2},
        {"page": 77},
        {"page": 3},
        {"section": 1, "page": 40},
        {"version": 2, "versions": 2, "section": 0, "page": 9},
    ],
)
def test_a_code_of_a_page_that_the_pack_has_not_is_refused(changes: dict[str, int]) -> None:
    code = PageCode.parse(printed_code(built(spec_file(GOOD))["practice-core.pdf"]))
    message = refused("build", "lesson.yaml", "--code", str(replace(code, **changes)))
    assert "that this" in message
    assert "does not have; read it again from the foot of the page" in message
    assert message.count("\n") == 1


def test_a_sign_that_was_copied_as_a_hyphen_is_noticed() -> None:
    """Also where the code without it would be right by chance: one in twenty-three is."""
    code = printed_code(built(spec_file(GOOD), "--seed", "4096")["practice-core.pdf"])
    for at, sign in enumerate(code):
        if sign != "-":
            wrong = f"{code[:at]}-{code[at + 1 :]}"
            assert "is no page's code" in refused("build", "lesson.yaml", "--code", wrong)


@pytest.mark.parametrize(
    ("option", "value", "says"),
    [("--seed", "3", "the seed of {} is 1"), ("--versions", "9", "the number of versions of {}")],
)
def test_a_code_is_not_contradicted(option: str, value: str, says: str) -> None:
    code = printed_code(built(spec_file(GOOD))["practice-core.pdf"])
    told = refused("build", "lesson.yaml", "--code", code, option, value, "--out", "again")
    assert says.format(code) in told
    assert f"not {value}; give no" in told


def test_large_and_tinted_copies_ask_the_same_and_keep_the_usual_pack() -> None:
    assert run("build", spec_file(GOOD)).exit_code == 0
    assert run("build", "lesson.yaml", "--large", "24", "--tint", "rose").exit_code == 0
    assert {path.name for path in Path("out").iterdir()} == {"lesson-1", "lesson-1-large-24-rose"}
    sections = [
        json.loads(path.read_text(encoding="utf-8"))["sections"]
        for path in sorted(Path("out").glob("*/pack.json"))
    ]
    assert sections[0] == sections[1]


@pytest.mark.parametrize(("option", "value"), [("--large", "20"), ("--tint", "green")])
def test_an_unknown_look_is_refused_with_the_known_ones(option: str, value: str) -> None:
    assert value in refused("build", spec_file(GOOD), option, value)


def test_a_starter_drawn_around_earlier_questions_is_built_again_from_its_spec_and_code() -> None:
    few = "title: Beans\nladder:\n  beans: {operation: add, places: 1, whole: 0, carries: none}\n"
    Path("few.yaml").write_text(few + "tiers: {core: {beans: 12}}\n", encoding="utf-8")
    built("few.yaml", out="monday")  # twelve of the twenty questions that there are
    header = Path("monday/marks.csv").read_text(encoding="utf-8").splitlines()[0]
    Path("marks.csv").write_text(f"{header}\n1,0.3,0.4,0.5,0.6\n", encoding="utf-8")
    result = run("follow", "monday", "marks.csv", "--out", "tuesday", "--questions", "7")
    assert result.exit_code == 0, result.output
    assert (
        "asked before stood in the way; follow-up.yaml names them below 'avoid:'" in result.stdout
    )
    starter = Path("tuesday/starter.pdf").read_bytes()
    again = built("tuesday/follow-up.yaml", "--code", printed_code(starter), out="again")
    for name in ("starter.pdf", "answers.pdf", "key.pdf", "marks.csv"):
        assert again[name] == Path("tuesday", name).read_bytes()
    said = run("key", "tuesday/starter.pdf")
    assert said.exit_code == 0
    assert said.stdout.splitlines() == answers("tuesday", "starter")
    old, new = (
        {tuple(q["operands"]) for s in record["sections"] for q in s["questions"]}
        for record in (
            json.loads(Path(folder, "pack.json").read_bytes()) for folder in ("monday", "tuesday")
        )
    )
    assert len(old | new) == 19


def test_a_small_file_cannot_claim_a_large_pack() -> None:
    """A page costs a few bytes to claim, and its versions would be drawn one and all."""
    for filling, holds in ((0, False), (1000 * 200, True)):
        writer = pypdf.PdfWriter()
        for _ in range(25):
            writer.add_blank_page(100, 100)
        keywords = f"rungsheet {MAJOR}; seed 1; versions 1000; look 0; sections core"
        writer.add_metadata({"/Keywords": keywords})
        writer.add_attachment("spec.yaml", GOOD.encode())
        writer.add_attachment("filling", bytes(filling))
        file = io.BytesIO()
        writer.write(file)
        if holds:
            assert carried_by(file.getvalue()).versions == 1000
        else:
            with pytest.raises(NotASheetError, match="cannot hold 1000 versions in"):
                carried_by(file.getvalue())


def test_a_file_far_larger_than_any_sheet_is_refused_unread(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    huge = tmp_path / "huge.pdf"
    with huge.open("wb") as file:
        file.truncate(600_000_000)  # no room is taken on the disk
    monkeypatch.setattr(given, "bytes_of", lambda *_: pytest.fail("it was read"))
    assert "huge.pdf: the file is far larger than any sheet" in run("key", str(huge)).stderr
    assert "far larger than any pack's record" in run("marks", str(huge), str(huge)).stderr


def test_a_page_holds_forty_versions_at_most() -> None:
    for pages, versions, holds in ((1, 40, True), (1, 41, False), (2, 80, True), (2, 81, False)):
        writer = pypdf.PdfWriter()
        for _ in range(pages):
            writer.add_blank_page(100, 100)
        keywords = f"rungsheet {MAJOR}; seed 1; versions {versions}; look 0; sections core"
        writer.add_metadata({"/Keywords": keywords})
        writer.add_attachment("spec.yaml", GOOD.encode())
        writer.add_attachment("filling", bytes(20_000))
        file = io.BytesIO()
        writer.write(file)
        if holds:
            assert carried_by(file.getvalue()).versions == versions
        else:
            with pytest.raises(NotASheetError, match=f"cannot hold {versions} versions on"):
                carried_by(file.getvalue())


@pytest.mark.parametrize(
    ("asked", "coded", "becomes"),
    [
        (Look(None, "rose"), Look(None, "mint"), Look(None, "rose")),
        (Look(24, None), Look(18, "mint"), Look(24, "mint")),
        (Look(), Look(18, "mint"), Look(18, "mint")),
        (Look(24, "rose"), Look(), Look(24, "rose")),
    ],
)
def test_what_is_asked_for_goes_before_the_look_of_a_code(
    asked: Look, coded: Look, becomes: Look
) -> None:
    spec = read_spec(GOOD.encode(), "lesson.yaml", VOCABULARY)
    page = PageCode(spec_signs(digest_of(spec)), 1, 1, 1, 0, 1, coded.number)
    assert edition(spec, str(page), look=asked).look == becomes


def test_a_key_may_work_all_versions_and_every_page_code_still_finds_its_pack() -> None:
    Path("beans.yaml").write_text(GOOD, "utf-8")

    def key_of(folder: str, *more: str) -> tuple[int, dict[str, str]]:
        done = run("build", "beans.yaml", "--versions", "4", "--out", folder, *more)
        assert done.exit_code == 0, done.output
        files = json.loads((Path(folder) / "pack.json").read_text("utf-8"))["files"]
        return (
            next(file["pages"] for file in files if file["name"] == "key.pdf"),
            {f["name"]: f["sha256"] for f in files if f["name"] != "key.pdf"},
        )

    usual, others = key_of("usual")
    worked, same_others = key_of("worked", "--workings", "all")
    assert worked > usual
    assert same_others == others
    last = pypdf.PdfReader("worked/key.pdf").pages[-1].extract_text()
    (code,) = re.findall(r"code ([0-9A-Z-]+)", last)
    again, others_again = key_of("again", "--code", code)
    assert (again, others_again) == (usual, others)
    assert run("build", "beans.yaml", "--workings", "some").exit_code == 2
