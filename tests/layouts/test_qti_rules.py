"""Nothing can be changed in a package of QTI 3.0 but its words without its being noticed.

Each file of a small package is changed in every way of a kind, everywhere: as a slip in writing
it would. The rules that notice are in qti_rules.py.
"""

from collections.abc import Callable, Iterator
from copy import deepcopy
from functools import cache
from typing import Any

import pytest
from lxml import etree

from generator.packs.building import build_pack
from generator.packs.working_out import work
from generator.vocabulary import VOCABULARY
from layouts.exchange.qti import qti_files
from specs import read_spec
from tests.layouts.qti_rules import faults

# A number, a quotient with what is left over, and a sign: items of each kind of box.
SPEC = """
title: Beans
ladder:
  sum: {operation: add, places: 2, carries: some}
  shares: {operation: divide, dividend: {digits: 3}, divisor: 7, ending: remainder}
  order: {operation: compare, places: 2}
tiers: {core: {sum: 1, shares: 1, order: 1}}
"""

Change = Callable[[Any], bool]
"""Changes an element, in place; False where it cannot be changed so."""

WORDS = ("title", "p", "qti-value", "expected-length", "{http://www.w3.org/XML/1998/namespace}lang")
"""What may be otherwise and still right: other words, another right answer, room for more."""


@cache
def package() -> dict[str, bytes]:
    pack = work(build_pack(read_spec(SPEC.encode(), "a", VOCABULARY), 1))
    return {file.name: file.data for file in qti_files(pack)}


def another_name(element: Any) -> bool:
    element.tag = f"{element.tag}s"
    return True


def another_namespace(element: Any) -> bool:
    element.tag = f"{{http://www.w3.org/1999/xhtml}}{etree.QName(element).localname}"
    return True


def left_out(element: Any) -> bool:
    parent = element.getparent()
    if parent is None:
        return False
    parent.remove(element)
    return True


def written_twice(element: Any) -> bool:
    if element.getparent() is None:
        return False
    element.addnext(deepcopy(element))
    return True


def before_the_last(element: Any) -> bool:
    """In the place of the one before it, of another kind; the order of two alike says nothing."""
    before = element.getprevious()
    if before is None or before.tag == element.tag:
        return False
    before.addprevious(element)
    return True


def with_words(element: Any) -> bool:
    if etree.QName(element).localname in ("p", "qti-value", "schema", "qti-base-value"):
        return False
    element.text = f"seven {element.text or ''}"
    return True


def with_another_element(element: Any) -> bool:
    etree.SubElement(element, f"{{{etree.QName(element).namespace}}}more")
    return True


def with_another_attribute(element: Any) -> bool:
    element.set("more", "more")
    return True


def of_attribute(name: str, value: Callable[[str], str | None]) -> Change:
    def change(element: Any) -> bool:
        old = element.get(name)
        new = None if old is None else value(old)
        if old is None or new == old:
            return False
        if new is None:
            del element.attrib[name]
        else:
            element.set(name, new)
        return True

    return change


@cache
def attributes() -> tuple[str, ...]:
    roots = map(etree.fromstring, package().values())
    return tuple(sorted({name for root in roots for one in root.iter() for name in one.attrib}))


def of_values(value: Callable[[str], str]) -> Change:
    """What stands in an element whose text is no words of ours."""

    def change(element: Any) -> bool:
        if etree.QName(element).localname not in ("qti-base-value", "schema", "schemaversion"):
            return False
        element.text = value(element.text)
        return True

    return change


ELEMENTS: dict[str, Change] = {
    "another name": another_name,
    "another namespace": another_namespace,
    "left out": left_out,
    "written twice": written_twice,
    "before the one before it": before_the_last,
    "words in it": with_words,
    "another element in it": with_another_element,
    "another attribute": with_another_attribute,
}


def changed(change: Change) -> Iterator[tuple[str, dict[str, bytes]]]:
    """The package changed so at each place where it can be, and which place that is."""
    for name, data in package().items():
        count = sum(1 for _ in etree.fromstring(data).iter())
        for at in range(count):
            root = etree.fromstring(data)
            element = list(root.iter())[at]
            place = f"{name}: {etree.QName(element).localname}, number {at}"
            if change(element):
                yield place, {**package(), name: etree.tostring(root)}


def unnoticed(change: Change) -> list[str]:
    places = list(changed(change))
    assert places
    return [place for place, files in places if not faults(files)]


def test_the_package_that_is_changed_has_nothing_against_it() -> None:
    assert not faults(package())
    kinds = b"".join(package().values())
    for kind in (b"<qti-and>", b"<qti-string-match ", b"<qti-response-else-if>"):
        assert kind in kinds


@pytest.mark.slow
@pytest.mark.parametrize("what", ELEMENTS)
def test_no_element_can_be_changed(what: str) -> None:
    assert unnoticed(ELEMENTS[what]) == []


@pytest.mark.slow
@pytest.mark.parametrize("name", attributes())
def test_no_attribute_can_be_left_out_or_be_anything(name: str) -> None:
    assert unnoticed(of_attribute(name, lambda old: None)) == []
    if name != "title":
        assert unnoticed(of_attribute(name, lambda old: f"{old} !")) == []
        assert unnoticed(of_attribute(name, lambda old: "")) == []


@pytest.mark.slow
@pytest.mark.parametrize("name", [n for n in attributes() if n not in WORDS])
def test_no_attribute_can_be_another_of_its_kind(name: str) -> None:
    """A name that is a name, a kind that there is, a file that could be."""
    other = {
        "base-type": lambda old: "string" if old == "float" else "float",
        "adaptive": lambda old: "perhaps",
        "case-sensitive": lambda old: "perhaps",
        "time-dependent": lambda old: "perhaps",
        "visible": lambda old: "perhaps",
    }.get(name, lambda old: f"{old}x")
    found = unnoticed(of_attribute(name, other))
    if name == "identifier":  # names that nothing refers to
        kinds = [place.split()[1].rstrip(",") for place in found]
        assert kinds == ["resource", "qti-test-part", "qti-assessment-section"]
    else:
        assert found == []


@pytest.mark.slow
@pytest.mark.parametrize("value", ["", "no value", "RESPONSE"])
def test_no_value_can_be_another(value: str) -> None:
    """Of the answer that is a sign any other sign would do: that is not a matter of form."""
    found = unnoticed(of_values(lambda old: value))
    signs = sum(data.count(b'base-value base-type="string"') for data in package().values())
    assert len(found) <= signs


@pytest.mark.slow
def test_no_file_can_be_missing_or_be_more() -> None:
    for name in package():
        if name != "imsmanifest.xml" and name != "test.xml":
            assert faults({key: data for key, data in package().items() if key != name})
    more = next(data for name, data in package().items() if name.startswith("items/"))
    assert faults({**package(), "items/more.xml": more})
