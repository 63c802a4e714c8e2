"""How the schools of several lands write, against what is published of them."""

import re
from decimal import Decimal

import pytest
from babel import Locale
from babel.numbers import format_currency, get_territory_currencies

from specs import lands
from specs.lands import UNSOURCED, Land, land

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
    ],
)
def test_numbers_signs_and_lists_are_written_as_in_the_land(
    name: str, text: str, written: str
) -> None:
    assert land(name).writes(text) == written
