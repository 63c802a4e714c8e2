"""Questions for other programs: a table, and items of QTI 3.0, read by a reader of our own.

QTI's XML schema is in no registry, nor a program that carries it. Held against instead, by the
rules in qti.rng and qti_rules.py: which element may stand in which, in what order and how often,
and which attributes it has, as in 1EdTech's own published examples
(github.com/1EdTech/qti-examples, commit 4981474, folders QTI3_BPIG_Examples,
QTI3_BeginnersGuide_Examples and qtiv3-examples), and for ``qti-string-match`` and ``qti-and``
the text of the standard (1EdTech, QTI 3.0 Assessment, Section and Item Information Model; from
memory). That these rules notice what a schema would: test_qti_rules.py.
"""

import csv
import io
import zipfile
from xml.etree import ElementTree
from xml.etree.ElementTree import Element

import pytest

from generator.packs.building import build_pack
from generator.packs.working_out import WorkedPack, work
from generator.vocabulary import VOCABULARY
from layouts.exchange.qti import ITEM, PACKAGE, qti_files
from layouts.exchange.questions_csv import questions_csv
from rungsheet.desk import exchange, packs
from rungsheet.desk import specs as desk
from specs import load_spec, shipped
from tests.front_door.test_commands import run
from tests.layouts.qti_rules import faults
from tests.lessons_that_ship import EACH


def lesson(name: str) -> WorkedPack:
    return work(build_pack(load_spec(shipped(name), VOCABULARY), 1))


def local(name: str) -> str:
    return name.rpartition("}")[2]


def package(pack: WorkedPack) -> dict[str, Element]:
    return {file.name: ElementTree.fromstring(file.data) for file in qti_files(pack)}


class Reader:
    """A learner's item as the standard says it works: what is written, what is told."""

    def __init__(self, item: Element) -> None:
        self.item = item
        self.declared = {
            found.attrib["identifier"]: found for found in item if "declaration" in found.tag
        }
        self.boxes = [
            found.attrib["response-identifier"]
            for found in item.iter(f"{{{ITEM}}}qti-text-entry-interaction")
        ]

    def told(self, *written: str) -> tuple[str, str]:
        """The score and the feedback for what is written in the boxes."""
        self.values = dict(zip(self.boxes, written, strict=True))
        self.values |= {
            name: "".join(found.itertext()).strip()
            for name, found in self.declared.items()
            if local(found.tag) == "qti-outcome-declaration"
        }
        (condition,) = self.item.iter(f"{{{ITEM}}}qti-response-condition")
        for branch in condition:
            tests = [one for one in branch if local(one.tag) != "qti-set-outcome-value"]
            if all(map(self.holds, tests)):
                for one in branch:
                    if one not in tests:
                        self.values[one.attrib["identifier"]] = self.value(one[0])[0]
                break
        shown = [
            "".join(found.itertext()).strip()
            for found in self.item.iter(f"{{{ITEM}}}qti-modal-feedback")
            if found.attrib["identifier"] == self.values["FEEDBACK"]
        ]
        assert len(shown) == 1
        return self.values["SCORE"], shown[0]

    def value(self, one: Element) -> tuple[str, str]:
        if local(one.tag) == "qti-base-value":
            return str(one.text), one.attrib["base-type"]
        found = self.declared[one.attrib["identifier"]]
        if local(one.tag) == "qti-correct":
            return "".join(found.itertext()).strip(), found.attrib["base-type"]
        return self.values[one.attrib["identifier"]], found.attrib["base-type"]

    def holds(self, test: Element) -> bool:
        if local(test.tag) == "qti-and":
            return all(map(self.holds, test))
        (one, kind), (other, same) = map(self.value, test)
        assert kind == same
        if local(test.tag) == "qti-equal":
            assert kind == "float"
            return float(one) == float(other)
        assert kind == "string"
        return one.casefold() == other.casefold()


def boxes_of(reply: str, reader: Reader) -> tuple[str, ...] | None:
    """What somebody who answers so writes in the boxes."""
    if reader.declared[reader.boxes[0]].attrib["base-type"] == "string":
        return (reply,)
    if " r " in reply and len(reader.boxes) == 1:
        return None  # there is no box for what is left over
    parts = reply.replace("£", "").replace(" r ", " ").split()
    numbers = tuple(part for part in parts if part[0].isdigit())
    return (*numbers, "0")[: len(reader.boxes)]


@pytest.mark.parametrize("name", EACH)
def test_every_file_is_made_as_the_standard_says(name: str) -> None:
    pack = lesson(name)
    assert not faults({file.name: file.data for file in qti_files(pack)})
    files = package(pack)
    assert files.pop("imsmanifest.xml").tag == f"{{{PACKAGE}}}manifest"
    assert {element.tag.partition("}")[0] for element in files.values()} == {f"{{{ITEM}"}


@pytest.mark.parametrize("name", EACH)
def test_right_scores_one_and_a_likely_wrong_answer_is_told_its_mistake(name: str) -> None:
    pack = lesson(name)
    files = package(pack)
    seen = 0
    for section in pack:
        for item in section.items if section.kind != "example" else ():
            reader = Reader(files[f"items/q-{section.name}-{section.version}-{item.label}.xml"])
            right = boxes_of(item.reply, reader)
            assert right
            assert reader.told(*right) == ("1", "Right.")
            for wrong in item.wrong_answers_to_expect:
                given = boxes_of(wrong.text, reader)
                if given and given != right and " and " not in wrong.text:
                    score, told = reader.told(*given)
                    assert score == "0"
                    assert wrong.causes[0] in told, (item.asked, wrong)
                    seen += 1
            nonsense = ["123456789"] * len(reader.boxes)
            assert reader.told(*nonsense) == ("0", "Not right: look at your working.")
    assert seen or name in ("puzzles",)


def test_a_number_is_compared_as_a_number_and_what_is_left_over_has_a_box() -> None:
    pack = lesson("sharing")
    files = package(pack)
    by_boxes: dict[int, Reader] = {}
    for section in pack.of_kinds("practice"):
        for item in section.items:
            reader = Reader(files[f"items/q-{section.name}-{section.version}-{item.label}.xml"])
            by_boxes.setdefault(len(reader.boxes), reader)
    assert set(by_boxes) == {1, 2}
    one = by_boxes[1]
    right = "".join(one.declared["RESPONSE"].itertext()).strip()
    assert one.told(f"{float(right):.6f}")[0] == "1"
    two = by_boxes[2]
    quotient, left = ("".join(two.declared[box].itertext()).strip() for box in two.boxes)
    assert two.told(quotient, left)[0] == "1"
    assert two.told(left, quotient)[0] == "0"


def test_the_manifest_lists_every_file_and_the_test_every_item_in_order() -> None:
    files = package(lesson("produce-stall"))
    resources = list(files["imsmanifest.xml"].iter(f"{{{PACKAGE}}}resource"))
    assert [one.attrib["href"] for one in resources] == [
        name for name in files if name != "imsmanifest.xml"
    ]
    held = [one.attrib for one in files["test.xml"].iter(f"{{{ITEM}}}qti-assessment-item-ref")]
    assert [one["href"] for one in held] == [name for name in files if name.startswith("items/")]
    for one in held:
        assert files[one["href"]].attrib["identifier"] == one["identifier"]


def test_the_table_has_a_row_a_question_with_its_answer_and_wrong_ones() -> None:
    pack = lesson("produce-stall")
    text = questions_csv(pack).decode("utf-8-sig")
    rows = list(csv.DictReader(io.StringIO(text)))
    items = [item for section in pack for item in section.items]
    assert [(row["question"], row["answer"]) for row in rows] == [
        (item.asked, item.reply) for item in items
    ]
    for row, item in zip(rows, items, strict=True):
        for number, wrong in enumerate(item.wrong_answers_to_expect, start=1):
            assert row[f"wrong answer {number}"] == wrong.text
            assert wrong.causes[0] in row[f"mistake {number}"]


def test_no_cell_of_the_table_is_a_formula() -> None:
    spec = load_spec(shipped("ordering"), VOCABULARY)
    rows = csv.reader(io.StringIO(questions_csv(work(build_pack(spec, 1))).decode("utf-8-sig")))
    assert not [cell for row in rows for cell in row if cell[:1] in ("=", "+", "-", "@")]


@pytest.mark.parametrize("kind", ["csv", "qti"])
def test_build_puts_them_beside_the_sheets(kind: str, tmp_path) -> None:
    name = {"csv": "questions.csv", "qti": "questions-qti.zip"}[kind]
    for folder in ("one", "two"):
        result = run("build", "ordering", "--data", kind, "--out", str(tmp_path / folder))
        assert result.exit_code == 0, result.output
    one, two = ((tmp_path / folder / name).read_bytes() for folder in ("one", "two"))
    assert one == two
    assert name in (tmp_path / "one" / "pack.json").read_text("utf-8")
    if kind == "qti":
        with zipfile.ZipFile(io.BytesIO(one)) as archive:
            assert archive.namelist()[0] == "imsmanifest.xml"
            assert archive.testzip() is None


def test_programs_get_the_same_numbers_whatever_language_the_pages_have() -> None:
    text = "title: x\nladder: {level: {operation: add, places: 2}}\ntiers: {core: {level: 3}}\n"
    own = "pages: {land: Germany, language: German, carries: below, subtraction: exchange}\n"
    plain, german = (
        packs.build(desk.read(text + pages, "x.yaml"), packs.Edition(3)) for pages in ("", own)
    )
    assert german.worked.facts.usage.language.name == "German"
    table = exchange.of_questions(german, "csv").data
    assert table == exchange.of_questions(plain, "csv").data
