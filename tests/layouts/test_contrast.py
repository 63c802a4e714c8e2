"""Ink on paper and on every tint, by the formula of WCAG 2.2."""

import io
import itertools

import pdfplumber
import pytest

from generator.packs.working_out import work
from layouts import render
from layouts.planning import type_scale
from layouts.planning.type_scale import BLACK, DARK, SOFT
from specs.tints import TINTS, rgb
from tests.layouts.lessons import AWKWARD, pack
from tests.layouts.sheets import with_presentation

WHITE = (1.0, 1.0, 1.0)
TEXT = 4.5  # WCAG 2.2, 1.4.3 (AA): text
LARGE_TEXT = 3.0  # the same for text of 18 points, or 14 bold, and more


def luminance(colour):
    """Relative luminance: WCAG 2.2, "relative luminance", with its threshold 0.04045."""
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in colour]
    return sum(share * c for share, c in zip((0.2126, 0.7152, 0.0722), linear, strict=True))


def contrast(one, other):
    """WCAG 2.2, "contrast ratio"."""
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def test_the_formula_gives_the_published_extremes():
    """WCAG 2.2: ratios go from 1 to 21. #767676 on white is 4.54 (W3C, from memory)."""
    assert contrast(WHITE, BLACK) == pytest.approx(21)
    assert contrast(WHITE, WHITE) == 1
    assert contrast((0x76 / 255,) * 3, WHITE) == pytest.approx(4.54, abs=0.01)


@pytest.mark.parametrize("tint", TINTS)
@pytest.mark.parametrize("ink", [BLACK, DARK, SOFT], ids=["black", "dark", "soft"])
def test_every_ink_for_text_stands_out_on_every_tint(tint, ink):
    assert contrast(rgb(tint), ink) >= TEXT


def test_inks_stand_out_on_white_and_on_the_slides_tint():
    for ink, paper in itertools.product((BLACK, DARK, SOFT), (WHITE, type_scale.TINT)):
        assert contrast(ink, paper) >= TEXT


def test_tints_are_pastel_and_unlike_one_another():
    assert all(luminance(rgb(tint)) > 0.8 for tint in TINTS)
    for one, other in itertools.combinations(map(rgb, TINTS), 2):
        assert max(abs(a - b) for a, b in zip(one, other, strict=True)) > 0.02


@pytest.mark.parametrize("tint", [None, *TINTS])
@pytest.mark.slow
def test_no_text_in_any_file_is_paler_than_that(tint):
    lesson = with_presentation(pack(*AWKWARD[:4]), tint=tint)
    for document in render(work(lesson)):
        on_paper = document.name.startswith(("starter", "practice", "examples-on-paper"))
        paper = rgb(tint) if tint and on_paper else WHITE
        for page in pdfplumber.open(io.BytesIO(document.data)).pages[:3]:
            for char in page.chars:
                colour = char["non_stroking_color"]
                least = LARGE_TEXT if char["size"] >= 18 else TEXT
                assert contrast(colour, paper) >= least, (document.name, char["text"], colour)


def test_colour_is_never_the_only_sign():
    """Everything but a tint is black or grey: what a greyscale copy shows is all there is."""
    for document in render(work(with_presentation(pack(*AWKWARD[:4]), tint="mint"))):
        for page in pdfplumber.open(io.BytesIO(document.data)).pages:
            inks = [char["non_stroking_color"] for char in page.chars]
            inks += [line["stroking_color"] for line in page.lines]
            assert all(max(ink) - min(ink) < 0.001 for ink in inks)
