"""The questions of a pack as QTI 3.0 items, with feedback for each likely wrong answer.

1EdTech, Question and Test Interoperability 3.0: assessment items with text entry interactions,
a test that holds them in the order of the sheets, and a manifest (content packaging). A number
is compared as a number, so that 3.670 is right where 3.67 is; a quotient and what is left over
have a box each; anything else is compared as it is written.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final
from xml.etree import ElementTree
from xml.etree.ElementTree import Element, SubElement

from generator.packs.working_out import WorkedItem, WorkedPack, WorkedSection
from layouts.planning.wording import section_heading

ITEM: Final = "http://www.imsglobal.org/xsd/imsqtiasi_v3p0"
ITEM_SCHEMA: Final = "https://purl.imsglobal.org/spec/qti/v3p0/schema/xsd/imsqti_asiv3p0_v1p0.xsd"
PACKAGE: Final = "http://www.imsglobal.org/xsd/qti/qtiv3p0/imscp_v1p1"
PACKAGE_SCHEMA: Final = (
    "https://purl.imsglobal.org/spec/qti/v3p0/schema/xsd/imsqtiv3p0_imscpv1p2_v1p0.xsd"
)
_SCHEMAS: Final = "{http://www.w3.org/2001/XMLSchema-instance}schemaLocation"
_LANGUAGE: Final = "{http://www.w3.org/XML/1998/namespace}lang"

RIGHT: Final = "right"
OTHERWISE: Final = "otherwise"

_NUMBER: Final = r"[0-9]+(?:\.[0-9]+)?"
_ONE_NUMBER: Final = re.compile(rf"(£?){_NUMBER}((?: [^\W\d]+)?)")
_LEFT_OVER: Final = re.compile(rf"{_NUMBER} r {_NUMBER}")


@dataclass(frozen=True, slots=True)
class _Box:
    """Somewhere to write: a variable, how it is compared, and what stands around it."""

    name: str
    base_type: str
    before: str = ""
    after: str = ""


@dataclass(frozen=True, slots=True)
class QtiFile:
    """A file of the package, by its place in it."""

    name: str
    data: bytes


def qti_files(pack: WorkedPack) -> Iterator[QtiFile]:
    """The files of a package: a manifest, a test, and an item for each question of a sheet."""
    sections = [section for section in pack if section.kind != "example" and section.items]
    names = [[_name(section, item) for item in section.items] for section in sections]
    test = _test(pack, sections, names)
    yield QtiFile("imsmanifest.xml", _written(_manifest(pack, names), PACKAGE))
    yield QtiFile("test.xml", _written(test, ITEM))
    for section, of_section in zip(sections, names, strict=True):
        for item, name in zip(section.items, of_section, strict=True):
            yield QtiFile(f"items/{name}.xml", _written(_item(section, item, name), ITEM))


def _name(section: WorkedSection, item: WorkedItem) -> str:
    """A name that the standard takes as an identifier: a letter first, then a few signs."""
    safe = re.sub(r"[^A-Za-z0-9_-]", lambda found: f"u{ord(found[0]):x}", section.name)
    return f"q-{safe}-{section.version}-{item.label}"


def _manifest(pack: WorkedPack, names: Sequence[Sequence[str]]) -> Element:
    manifest = Element(
        "manifest",
        {
            "identifier": f"rungsheet-{pack.facts.code}",
            _SCHEMAS: f"{PACKAGE} {PACKAGE_SCHEMA}",
        },
    )
    metadata = SubElement(manifest, "metadata")
    SubElement(metadata, "schema").text = "QTI Package"
    SubElement(metadata, "schemaversion").text = "3.0.0"
    SubElement(manifest, "organizations")
    resources = SubElement(manifest, "resources")
    listed = [("test", "test.xml", "imsqti_test_xmlv3p0")]
    listed += [
        (name, f"items/{name}.xml", "imsqti_item_xmlv3p0") for of_one in names for name in of_one
    ]
    for identifier, place, kind in listed:
        about = {"identifier": identifier, "type": kind, "href": place}
        resource = SubElement(resources, "resource", about)
        SubElement(resource, "file", {"href": place})
        if identifier == "test":
            for of_one in names:
                for name in of_one:
                    SubElement(resource, "dependency", {"identifierref": name})
    return manifest


def _test(
    pack: WorkedPack, sections: Sequence[WorkedSection], names: Sequence[Sequence[str]]
) -> Element:
    about = {"identifier": f"rungsheet-{pack.facts.code}", "title": pack.facts.title}
    test = Element("qti-assessment-test", {**about, _SCHEMAS: f"{ITEM} {ITEM_SCHEMA}"})
    how = {"identifier": "sheets", "navigation-mode": "nonlinear", "submission-mode": "individual"}
    part = SubElement(test, "qti-test-part", how)
    for at, (section, of_section) in enumerate(zip(sections, names, strict=True), start=1):
        title = section_heading(section)
        if section.has_versions:
            title = f"{title}, version {section.version}"
        about = {"identifier": f"section-{at}", "title": title, "visible": "true"}
        held = SubElement(part, "qti-assessment-section", about)
        for name in of_section:
            place = {"identifier": name, "href": f"items/{name}.xml"}
            SubElement(held, "qti-assessment-item-ref", place)
    return test


def _boxes(reply: str) -> tuple[_Box, ...]:
    """Where an answer that is written so is to be put."""
    number = _ONE_NUMBER.fullmatch(reply)
    if number:
        return (_Box("RESPONSE", "float", number[1], number[2]),)
    if _LEFT_OVER.fullmatch(reply):
        return (_Box("RESPONSE", "float"), _Box("LEFT", "float", " remainder "))
    return (_Box("RESPONSE", "string"),)


def _values(reply: str, boxes: Sequence[_Box]) -> tuple[str, ...] | None:
    """What stands in the boxes where that is written; None where it has no place in them."""
    if boxes[0].base_type == "string":
        return (reply,)
    found = tuple(re.findall(_NUMBER, reply))
    if len(found) == len(boxes):
        return found
    return (*found, "0") if len(found) == 1 and len(boxes) == 2 else None


def _item(section: WorkedSection, item: WorkedItem, name: str) -> Element:
    root = Element(
        "qti-assessment-item",
        {
            "identifier": name,
            "title": f"{section_heading(section)}: {item.label}",
            "adaptive": "false",
            "time-dependent": "false",
            _LANGUAGE: "en-GB",
            _SCHEMAS: f"{ITEM} {ITEM_SCHEMA}",
        },
    )
    boxes = _boxes(item.reply)
    right = _values(item.reply, boxes) or ()
    for box, value in zip(boxes, right, strict=True):
        _declared(root, "response", box.name, box.base_type, ("correct-response", value))
    _declared(root, "outcome", "SCORE", "float", ("default-value", "0"))
    _declared(root, "outcome", "MAXSCORE", "float", ("default-value", "1"))
    _declared(root, "outcome", "FEEDBACK", "identifier")
    body = SubElement(SubElement(root, "qti-item-body"), "p")
    body.text = f"{item.asked} " if item.asked.endswith("=") else f"{item.asked}: "
    for box in boxes:
        _put(body, box.before)
        length = str(max(6, *(len(value) + 2 for value in right)))
        about = {"response-identifier": box.name, "expected-length": length}
        SubElement(body, "qti-text-entry-interaction", about)
        _put(body, box.after)
    told = [(RIGHT, right, "Right.")]
    for number, wrong in enumerate(item.wrong_answers_to_expect, start=1):
        values = _values(wrong.text, boxes)
        if values and values not in [known for _, known, _ in told]:
            why = f"This comes of a mistake: {'; or '.join(wrong.causes)}."
            told.append((f"wrong-{number}", values, why))
    _processing(root, boxes, told)
    for identifier, _, words in (*told, (OTHERWISE, (), "Not right: look at your working.")):
        about = {"outcome-identifier": "FEEDBACK", "show-hide": "show", "identifier": identifier}
        feedback = SubElement(root, "qti-modal-feedback", about)
        SubElement(SubElement(feedback, "qti-content-body"), "p").text = words
    return root


def _put(body: Element, words: str) -> None:
    """Words after what stands in the body so far."""
    if not len(body):
        body.text = (body.text or "") + words
    else:
        body[-1].tail = (body[-1].tail or "") + words


def _declared(
    root: Element, what: str, name: str, base_type: str, value: tuple[str, str] | None = None
) -> None:
    about = {"identifier": name, "cardinality": "single", "base-type": base_type}
    declared = SubElement(root, f"qti-{what}-declaration", about)
    if value:
        held = SubElement(declared, f"qti-{value[0]}")
        SubElement(held, "qti-value").text = value[1]


def _processing(
    root: Element, boxes: Sequence[_Box], told: Sequence[tuple[str, tuple[str, ...], str]]
) -> None:
    """What is answered is compared with what is right, then with each wrong answer in turn."""
    condition = SubElement(SubElement(root, "qti-response-processing"), "qti-response-condition")
    for identifier, values, _ in told:
        of_right = identifier == RIGHT
        branch = SubElement(condition, f"qti-response-{'if' if of_right else 'else-if'}")
        compared = branch if len(boxes) == 1 else SubElement(branch, "qti-and")
        for box, value in zip(boxes, values, strict=True):
            _compared(compared, box, None if of_right else value)
        if of_right:
            score = SubElement(branch, "qti-set-outcome-value", {"identifier": "SCORE"})
            SubElement(score, "qti-variable", {"identifier": "MAXSCORE"})
        _feedback(branch, identifier)
    _feedback(SubElement(condition, "qti-response-else"), OTHERWISE)


def _compared(inside: Element, box: _Box, value: str | None) -> None:
    """Whether a box holds a value, None for what is right there."""
    if box.base_type == "string":
        test = SubElement(inside, "qti-string-match", {"case-sensitive": "false"})
    else:
        test = SubElement(inside, "qti-equal", {"tolerance-mode": "exact"})
    SubElement(test, "qti-variable", {"identifier": box.name})
    if value is None:
        SubElement(test, "qti-correct", {"identifier": box.name})
    else:
        SubElement(test, "qti-base-value", {"base-type": box.base_type}).text = value


def _feedback(branch: Element, identifier: str) -> None:
    shown = SubElement(branch, "qti-set-outcome-value", {"identifier": "FEEDBACK"})
    SubElement(shown, "qti-base-value", {"base-type": "identifier"}).text = identifier


def _written(root: Element, namespace: str) -> bytes:
    """The bytes of a file: the namespace is the one that stands for all that has no other."""
    root.set("xmlns", namespace)
    ElementTree.indent(root)
    text = ElementTree.tostring(root, encoding="unicode")
    return f'<?xml version="1.0" encoding="UTF-8"?>\n{text}\n'.encode()
