"""``build --pictures``: every page beside its PDF, listed, and nothing of the teacher's lost."""

import builtins
import hashlib
import json
import shutil
import subprocess
from pathlib import Path
from xml.etree import ElementTree

import cv2
import pytest
from pypdf import PdfReader

from tests.front_door.test_commands import GOOD, refused, run, spec_file
from tests.layouts.browser import distance, shown_by_pdfium


@pytest.fixture(autouse=True)
def in_an_empty_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)


def built(kind: str) -> Path:
    result = run("build", spec_file(GOOD), "--out", "pack", "--pictures", kind)
    assert result.exit_code == 0, result.output
    assert "pictures of 8 pages" in result.output
    return Path("pack")


@pytest.mark.parametrize("kind", ["svg", "png"])
def test_every_page_has_its_picture_which_pack_json_lists(kind: str):
    pack = built(kind)
    record = json.loads((pack / "pack.json").read_text("utf-8"))
    pages = {
        f"pictures/{Path(file['name']).stem}-{number}.{kind}"
        for file in record["files"]
        if file["name"].endswith(".pdf")
        for number in range(1, file["pages"] + 1)
    }
    listed = {f["name"]: f["sha256"] for f in record["files"] if f["role"] == "picture"}
    assert set(listed) == pages == {f"pictures/{p.name}" for p in (pack / "pictures").iterdir()}
    for name, digest in listed.items():
        assert hashlib.sha256((pack / name).read_bytes()).hexdigest() == digest


def test_a_vector_picture_names_its_page_and_holds_its_questions():
    tree = ElementTree.parse(built("svg") / "pictures" / "practice-core-1.svg").getroot()
    labels = [element.attrib.get("aria-label", "") for element in tree.iter()]
    assert labels[0] == "Weighing beans: core practice, page 1"
    assert sum(label.startswith("question ") for label in labels) == 4


def test_a_picture_of_dots_is_the_pdf_s_page():
    pack = built("png")
    shown = cv2.imread(str(pack / "pictures" / "key-1.png"), cv2.IMREAD_GRAYSCALE)
    page = PdfReader(pack / "key.pdf").pages[0]
    size = [round(float(length) / 72 * 150) for length in page.mediabox[2:]]
    assert shown is not None
    assert [shown.shape[1], shown.shape[0]] == pytest.approx(size, abs=1)
    other = shown_by_pdfium((pack / "key.pdf").read_bytes(), 0)
    again = cv2.resize(other, shown.shape[::-1], interpolation=cv2.INTER_AREA)
    assert distance(shown, again)[0] < 1.0


@pytest.mark.slow
@pytest.mark.skipif(shutil.which("pngcheck") is None, reason="pngcheck is not installed")
def test_pictures_of_dots_are_sound_by_another_s_checker():
    """Every chunk, checksum and the compressed dots of each (ISO/IEC 15948)."""
    pictures = sorted((built("png") / "pictures").iterdir())
    done = subprocess.run(["pngcheck", "-v", *pictures], capture_output=True, text=True)
    assert done.returncode == 0, done.stdout
    assert f"No errors were detected in {len(pictures)} of" in done.stdout
    pictures[0].write_bytes(pictures[0].read_bytes().replace(b"IDAT", b"IDAU", 1))
    assert subprocess.run(["pngcheck", pictures[0]], capture_output=True).returncode != 0


def test_a_pack_with_pictures_gives_way_to_one_without_and_back():
    pack = built("svg")
    assert run("build", spec_file(GOOD), "--out", "pack", "--seed", "2").exit_code == 0
    assert not (pack / "pictures").exists()
    built("png")
    built("svg")
    assert {path.suffix for path in (pack / "pictures").iterdir()} == {".svg"}


@pytest.mark.parametrize(
    ("name", "says"),
    [
        ("pictures/mine.svg", "pictures/mine.svg is not part of it"),
        ("pictures/key-1.svg", "pictures/key-1.svg there would be lost, and it was changed"),
        ("pictures/more/mine.svg", "pictures/more is not part of it"),
    ],
)
def test_what_the_teacher_put_among_the_pictures_is_left_alone(name: str, says: str):
    pack = built("svg")
    (pack / name).parent.mkdir(exist_ok=True)
    (pack / name).write_text("mine", encoding="utf-8")
    assert says in refused("build", "--out", "pack")
    assert (pack / name).read_text("utf-8") == "mine"


def test_marks_of_a_pack_with_pictures_are_read():
    pack = built("svg")
    assert run("marks", "pack", str(pack / "marks.csv")).exit_code == 0


def test_where_the_library_is_missing_that_is_said_and_nothing_written(monkeypatch):
    real = builtins.__import__

    def without(name, *rest):
        if name.split(".")[0] == "pypdfium2":
            raise ImportError(name)
        return real(name, *rest)

    monkeypatch.setattr(builtins, "__import__", without)
    said = refused("build", spec_file(GOOD), "--out", "pack", "--pictures", "png")
    assert "pip install 'rungsheet[pictures]', or ask for --pictures svg" in said
    assert not Path("pack").exists()


def test_another_kind_is_refused_with_those_there_are():
    assert "none of svg, png" in refused("build", "--pictures", "gif")


@pytest.mark.parametrize(
    ("rung", "operation"),
    [("five-addends", "+"), ("through-zeros", "−"), ("price-by-number", "×")],
)
def test_one_question_is_a_picture_of_its_own(rung: str, operation: str):
    result = run("picture", "produce-stall", "--rung", rung, "--seed", "7", "--out", "pasted")
    assert result.exit_code == 0, result.output
    assert result.stdout.strip() == str(Path("pasted", f"{rung}-7.svg"))
    tree = ElementTree.parse(Path("pasted", f"{rung}-7.svg")).getroot()
    assert operation in tree.attrib["aria-label"]
    assert float(tree.attrib["width"].removesuffix("mm")) < 120


def test_a_seed_gives_the_same_question_and_others_give_others():
    seen = set()
    for seed in ("1", "2", "3"):
        for folder in ("a", "b"):
            run(
                "picture",
                "produce-stall",
                "--rung",
                "through-zeros",
                "--seed",
                seed,
                "--out",
                folder,
            )
        first, again = (Path(folder, f"through-zeros-{seed}.svg").read_bytes() for folder in "ab")
        assert first == again
        seen.add(first)
    assert len(seen) == 3


def test_its_working_is_drawn_on_request_and_dots_too():
    command = ("picture", "produce-stall", "--rung", "through-zeros", "--worked", "--as", "png")
    assert run(*command).exit_code == 0
    shown = cv2.imread("through-zeros-1-worked.png", cv2.IMREAD_GRAYSCALE)
    assert shown is not None
    assert shown.min() < 60
    assert shown[:2].max() > 200
    run("picture", "produce-stall", "--rung", "through-zeros", "--as", "png")
    asked = cv2.imread("through-zeros-1.png", cv2.IMREAD_GRAYSCALE)
    assert asked is not None
    assert (asked < 100).sum() < (shown < 100).sum(), "a working has more ink than its question"


def test_a_rung_that_is_not_there_is_named():
    assert "did you mean" in refused("picture", "produce-stall", "--rung", "through-zero")
