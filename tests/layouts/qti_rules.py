"""A package of QTI 3.0 held against written rules: what its XML schema would say, and more.

1EdTech's schemas are in no registry, and no package of one carries them. Instead each file is
held against ``qti.rng`` beside this module, by the RELAX NG validator of libxml2, and then what
its parts say of each other: what is declared, what is compared with what, what is listed.
"""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from functools import cache
from pathlib import Path
from typing import Any

from lxml import etree

KIND_OF = {
    "qti-assessment-test": "imsqti_test_xmlv3p0",
    "qti-assessment-item": "imsqti_item_xmlv3p0",
}
MANIFEST = "imsmanifest.xml"


@cache
def grammar() -> Any:
    return etree.RelaxNG(etree.parse(Path(__file__).with_name("qti.rng")))


def faults(files: Mapping[str, bytes]) -> list[str]:
    """All that is wrong with the files of a package, by their names."""
    found, roots = [], {}
    for name, data in files.items():
        root = roots[name] = etree.fromstring(data)
        if not grammar().validate(root):
            found += [f"{name}:{error.line}: {error.message}" for error in grammar().error_log]
        elif etree.QName(root).localname == "qti-assessment-item":
            found += [f"{name}: {told}" for told in _of_item(root)]
    return found or list(_of_package(roots))


def _of_item(item: Any) -> Iterator[str]:
    """What an item's parts say of each other."""
    declared = _named(item, "qti-response-declaration")
    outcomes = _named(item, "qti-outcome-declaration")
    feedback = _named(item, "qti-modal-feedback")
    boxes = [box.get("response-identifier") for box in item.iter("{*}qti-text-entry-interaction")]
    yield from _twice("declared", [*declared, *outcomes])
    yield from _twice("told", feedback)
    yield from _unlike("boxes", boxes, "declarations", declared)
    (condition,) = item.iter("{*}qti-response-condition")
    shown, compared = [], []
    for branch in condition:
        (last,) = branch[-1]
        shown.append(last.text)
        tests = list(branch.iter("{*}qti-equal", "{*}qti-string-match"))
        if tests:
            names = [test[0].get("identifier") for test in tests]
            yield from _unlike("what is compared", names, "boxes", boxes)
            compared.append(" and ".join(_canonical(test) for test in tests))
        for test in tests:
            is_number = etree.QName(test).localname == "qti-equal"
            variable, value = test[0].get("identifier"), test[1].get("identifier")
            if value is not None and value != variable:
                yield f"{variable} is compared with what is right for {value}"
            for response in item.iter("{*}qti-response-declaration"):
                is_float = response.get("base-type") == "float"
                if response.get("identifier") == variable and is_float != is_number:
                    yield f"{variable} is compared as another kind than it is"
    yield from _twice("compared", compared)
    yield from _unlike("what is shown", shown, "what can be", feedback)


def _canonical(element: Any) -> str:
    return etree.tostring(element, method="c14n", with_tail=False).decode().replace("\n", "")


def _of_package(roots: Mapping[str, Any]) -> Iterator[str]:
    """What the files of a package say of each other."""
    manifest = roots[MANIFEST]
    listed = {one.get("href"): one for one in manifest.iter("{*}resource")}
    yield from _twice("listed", _named(manifest, "resource"))
    yield from _unlike(
        "resources",
        [one.get("href") for one in manifest.iter("{*}resource")],
        "files",
        [name for name in roots if name != MANIFEST],
    )
    for name, root in roots.items():
        if name in listed:
            kind = KIND_OF.get(etree.QName(root).localname)
            if listed[name].get("type") != kind:
                yield f"{name} is listed as {listed[name].get('type')}"
            if [file.get("href") for file in listed[name].iter("{*}file")] != [name]:
                yield f"{name} is listed with other files"
    items = {
        name: root.get("identifier")
        for name, root in roots.items()
        if etree.QName(root).localname == "qti-assessment-item"
    }
    (test,) = (root for root in roots.values() if "test" in etree.QName(root).localname)
    held = {one.get("href"): one.get("identifier") for one in _references(test)}
    if held != items:
        yield "the test holds other items than there are"
    yield from _twice("held", [one.get("identifier") for one in _references(test)])
    yield from _twice("section", _named(test, "qti-assessment-section"))
    for name, identifier in items.items():
        if name in listed and listed[name].get("identifier") != identifier:
            yield f"{name} is listed by another name"
    needed = [one.get("identifierref") for one in manifest.iter("{*}dependency")]
    yield from _unlike("dependencies", needed, "items", items.values())
    if test.get("identifier") != manifest.get("identifier"):
        yield "the test has another name than the package"


def _references(test: Any) -> list[Any]:
    return list(test.iter("{*}qti-assessment-item-ref"))


def _named(root: Any, kind: str) -> list[str]:
    return [one.get("identifier") for one in root.iter(f"{{*}}{kind}")]


def _twice(what: str, names: Iterable[str]) -> Iterator[str]:
    yield from (f"{name} is {what} twice" for name, count in Counter(names).items() if count > 1)


def _unlike(what: str, some: Iterable[str], other: str, others: Iterable[str]) -> Iterator[str]:
    """Where these are not exactly those, each once."""
    ones, twos = Counter(some), Counter(others)
    if ones != twos:
        yield f"{what} are {dict(ones)} and {other} {dict(twos)}"
