"""How the schools of several lands write, against what is published of them."""

import re
from collections.abc import Iterator
from dataclasses import replace
from decimal import Decimal

import pytest
from babel import Locale
from babel.numbers import format_currency, get_territory_currencies

from generator.operations.quotients.set_outs import BELOW_THE_DIVIDEND, SET_OUTS
from generator.packs.building import build_pack
from generator.packs.pack import Pack
from generator.packs.working_out import conventions, work
from generator.vocabulary import VOCABULARY
from specs import lands
from specs.lands import UNSOURCED, Land, land
from specs.reading import read_spec
from specs.spec import Presentation, Spec

EVERY = [land(name) for name in lands.names()]

LOCALES = {
    "Austria": "de_AT",
    "England": "en_GB",
    "Finland": "fi_FI",
    "France": "fr_FR",
    "Germany": "de_DE",
    "India": "en_IN",
    "Italy": "it_IT",
    "Netherlands": "nl_NL",
    "Poland": "pl_PL",
    "Sweden": "sv_SE",
    "Switzerland": "de_CH",
    "United States": "en_US",
}
"""Each land as CLDR, the Unicode common locale data, calls it (by babel)."""

SHORT = """ladder:
  shared:
    operation: divide
starter: {questions: {shared: 1}}
"""


def read(text: str) -> Spec:
    return read_spec(f"title: Division\n{text}".encode(), "spec.yaml", VOCABULARY)


@pytest.mark.parametrize("its", EVERY, ids=lambda its: its.name)
def test_the_decimal_sign_is_that_of_the_common_locale_data(its: Land) -> None:
    cldr = Locale.parse(LOCALES[its.name]).number_symbols["latn"]
    assert its.decimal == cldr["decimal"]


@pytest.mark.parametrize("its", EVERY, ids=lambda its: its.name)
def test_money_is_written_as_in_the_common_locale_data(its: Land) -> None:
    code = Locale.parse(LOCALES[its.name])
    (currency,) = get_territory_currencies(str(code.territory))
    for amount in ("3.40", "12"):
        written = format_currency(Decimal(amount), currency, locale=code)
        assert its.writes(f"¤{amount}").replace(f"{its.decimal}00", "") == written.replace(
            f"{its.decimal}00", ""
        )


@pytest.mark.parametrize("its", EVERY, ids=lambda its: its.name)
def test_gaps_that_are_of_the_common_locale_data_are_its_own(its: Land) -> None:
    locale = Locale.parse(LOCALES[its.name])
    if its.sources["gap"].startswith("CLDR"):
        assert its.gap == locale.number_symbols["latn"]["group"]
    if its.sources["groups"].startswith("CLDR"):
        first, *further = locale.decimal_formats[None].grouping
        assert its.groups == ((first,) if further == [first] else (first, *further))


@pytest.mark.parametrize("its", EVERY, ids=lambda its: its.name)
def test_other_gaps_are_small_spaces_as_the_standard_has_them(its: Land) -> None:
    """ISO 80000-1:2009, 7.3.1: groups of three with a small space, no comma, no point."""
    if its.gap and not its.sources["gap"].startswith("CLDR"):
        assert "ISO 80000-1" in its.sources["gap"]
        assert (its.gap, its.groups) == ("\N{NARROW NO-BREAK SPACE}", (3,))


@pytest.mark.parametrize("its", EVERY, ids=lambda its: its.name)
def test_a_land_has_words_that_there_are(its: Land) -> None:
    """Its methods and its carries as a spec may have them, its division as it can be set out."""
    assert its.set_out in SET_OUTS
    assert its.below_the_dividend in BELOW_THE_DIVIDEND
    assert its.gap != its.decimal
    said = f"pages: {{carries: {its.carries}, subtraction: {its.subtraction}}}"
    spec = read(f"{said}\nmethods: {{divide: {its.division}}}\n{SHORT}")
    assert spec.presentation.carries in (None, its.carries)


def test_the_lands_are_those_of_the_list() -> None:
    assert set(lands.names()) == set(LOCALES) - {"Sweden"}


@pytest.mark.parametrize(
    ("more", "carries", "division"),
    [
        ("pages: {land: France}", "above", "long"),
        ("pages: {land: France, carries: below}", "below", "long"),
        ("pages: {land: France}\nmethods: {divide: short}", "above", "short"),
        ("pages: {land: Germany}\nmethods: {divide: chunking}", "between", "chunking"),
    ],
)
def test_what_a_spec_says_goes_before_the_land(more: str, carries: str, division: str) -> None:
    agreed = conventions(read(f"{more}\n{SHORT}").presentation)
    assert (agreed.carries, agreed.division) == (carries, division)


@pytest.mark.parametrize("its", EVERY, ids=lambda its: its.name)
def test_its_long_division_is_set_out_as_its_file_says(its: Land) -> None:
    agreed = conventions(Presentation(land=its.name))
    assert (agreed.set_out, agreed.below_the_dividend) == (its.set_out, its.below_the_dividend)


LARGE = """\
ladder:
  large-sum: {operation: add, addends: 3, whole: 5, places: 2}
  gap: {operation: add, addends: 2, whole: 4, places: 1, form: missing digit}
  in-order: {operation: order, numbers: 4}
  shared: {operation: divide, dividend: {digits: 5}, divisor: 7, ending: remainder}
  times: {operation: multiply, digits: [4, 2], places: [1, 1]}
starter: {questions: {large-sum: 2, gap: 2, in-order: 1, shared: 2, times: 2}}
methods: {divide: long}
pages: {estimate: true}
"""


@pytest.fixture(scope="module")
def pack() -> Pack:
    return build_pack(read(LARGE), seed=3)


def texts(pack: Pack, its: Land) -> Iterator[str]:
    """What a sheet and its key write of each question, but for the steps."""
    presentation = replace(pack.presentation, land=its.name)
    for section in work(replace(pack, presentation=presentation)):
        for item in section.items:
            yield from (item.asked, item.asked_on_a_line, item.reply, item.with_answer, item.said)
            yield from (wrong.text for wrong in item.wrong_answers_to_expect)


def as_england_writes(its: Land, text: str) -> str:
    """A text of a land's with its numbers, lists and signs turned back."""
    if its.decimal == ",":
        text = re.sub(r"(?<=[0-9□]);(?=\s)", ",", text)
    if its.gap:
        text = re.sub(rf"(?<=[0-9]){re.escape(its.gap)}(?=[0-9])", "", text)
    text = re.sub(rf"(?<=[0-9□]){re.escape(its.decimal)}(?=[0-9□])", ".", text)
    return re.sub(r"\s+", " ", text.replace(f" {its.times} ", " × ").replace(" : ", " ÷ "))


@pytest.mark.parametrize("its", EVERY, ids=lambda its: its.name)
def test_every_number_of_a_sheet_and_its_key_is_written_once_as_in_the_land(
    its: Land, pack: Pack
) -> None:
    """Turned back it is what England has: a point of thousands is never taken for a decimal."""
    found = [as_england_writes(its, text) for text in texts(pack, its)]
    assert found == [re.sub(r"\s+", " ", text) for text in texts(pack, lands.ENGLAND)]


@pytest.mark.parametrize("its", EVERY, ids=lambda its: its.name)
def test_each_fact_names_a_published_source_or_says_that_there_is_none(its: Land) -> None:
    for fact, source in its.sources.items():
        assert source == UNSOURCED or re.search(r"CLDR|ISO|DFE|[0-9]{4}", source), (fact, source)


@pytest.mark.parametrize(
    ("name", "text", "written"),
    [
        ("England", "12345.6 ÷ 3 = 4115.2", "12345.6 ÷ 3 = 4115.2"),
        ("Germany", "12345.6 ÷ 3 = 4115.2", "12\N{NARROW NO-BREAK SPACE}345,6 : 3 = 4115,2"),
        ("Germany", "0.6 × 0.07", "0,6 · 0,07"),
        ("Germany", "Put in order: 0.4, 0.35, 12", "Put in order: 0,4; 0,35; 12"),
        ("Germany", "The answer is 3.4. Write 3, carry 1.", "The answer is 3,4. Write 3, carry 1."),
        ("Germany", "=360÷15", "=360:15"),
        ("Germany", "3.□ + 0.27 = 3.67", "3,□ + 0,27 = 3,67"),
        ("Germany", "0.4,  0.35", "0,4;  0,35"),
        ("Germany", "3.4 + ▭ = 3.67, ▭ = 0.27", "3,4 + ▭ = 3,67; ▭ = 0,27"),
        ("Germany", "3.4 + ▭ = 3.67,", "3,4 + ▭ = 3,67;"),
        ("Germany", "It took ¤12.50 and ¤3.", "It took 12,50\xa0€ and 3\xa0€."),
        ("England", "It took ¤12.50 and ¤3.", "It took £12.50 and £3."),
        ("Germany", "7□.4 + 3.□5 = □.□", "7□,4 + 3,□5 = □,□"),
        # As CLDR's pattern for India has it, #,##,##0.###: lakhs and crores in twos.
        ("India", "1234567.5 × 2 = 2469135", "12,34,567.5 × 2 = 24,69,135"),
        ("India", "100000000", "10,00,00,000"),
        ("India", "999", "999"),
        ("United States", "12345.6 ÷ 3 = 4115.2", "12,345.6 ÷ 3 = 4,115.2"),
        ("United States", "8334, 4646", "8,334, 4,646"),
        ("Switzerland", "12345.6 ÷ 3", "12'345.6 : 3"),
        ("Netherlands", "12345.6 ÷ 3 = 4115.2", "12.345,6 : 3 = 4115,2"),
        ("France", "1234.5 × 2", "1\N{NARROW NO-BREAK SPACE}234,5 × 2"),
        ("France", "Put in order: 0.4,  0.35", "Put in order: 0,4;  0,35"),
    ],
)
def test_numbers_signs_and_lists_are_written_as_in_the_land(
    name: str, text: str, written: str
) -> None:
    assert land(name).writes(text) == written
