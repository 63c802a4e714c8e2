"""The QR code in the foot, read by cameras' libraries from a poor scan of the printed page."""

import io

import cv2
import numpy as np
import pypdfium2
import pytest
import zxingcpp

from generator.packs.codes import PageCode, page_code
from generator.packs.working_out import work
from layouts import render
from layouts.planning.qr import QUIET, SIDE
from tests.layouts.lessons import pack
from tests.layouts.sheets import with_presentation

MM_PER_INCH = 25.4


def scanned(data: bytes, page: int, dpi: int, noise: float, seed: int = 7) -> np.ndarray:
    """A page in greyscale as a tired photocopier gives it: paler ink, a little blur, noise."""
    document = pypdfium2.PdfDocument(io.BytesIO(data))
    image = document[page].render(scale=dpi / 72, grayscale=True).to_numpy()
    grey = 40 + 0.75 * image.reshape(image.shape[:2]).astype(float)
    grey = cv2.GaussianBlur(grey, (3, 3), 0.6)
    grey += np.random.default_rng(seed).normal(0, noise, grey.shape)
    return np.clip(grey, 0, 255).astype(np.uint8)


LESSON = pack(*["12.5+7.25"] * 12, versions=2)
VARIANTS = {
    "A4": LESSON,
    "tinted": with_presentation(LESSON, tint="mint"),
    "large": with_presentation(LESSON, large=24, tint="lilac"),
    "A5": with_presentation(LESSON, paper="A5", square=5),
}


@pytest.mark.parametrize("name", VARIANTS)
@pytest.mark.slow
def test_a_noisy_greyscale_scan_at_150_dpi_is_decoded(name):
    """ISO/IEC 18004, read by ZXing."""
    lesson = VARIANTS[name]
    (practice,) = (d for d in render(work(lesson)) if d.name == "practice-core.pdf")
    codes = []
    for page in range(practice.pages):
        image = scanned(practice.data, page, 150, noise=12)
        codes += [found.text for found in zxingcpp.read_barcodes(image)]
    assert len(codes) == practice.pages
    read = [PageCode.parse(code) for code in codes]
    assert len(set(codes)) == len(codes)
    assert {code.version for code in read} == {1, 2}
    assert {(code.spec, code.seed) for code in read} == {("7F3A", 2024)}
    first = lesson.of_kind("practice")[0]
    assert codes[0] == str(page_code(lesson, first, 1))


@pytest.mark.parametrize("dpi", [150, 300])
def test_a_second_library_reads_the_cut_out_foot(dpi):
    (starter,) = (d for d in render(work(LESSON)) if d.name == "starter.pdf")
    image = scanned(starter.data, 0, dpi, noise=8)
    height, per_mm = image.shape[0], dpi / MM_PER_INCH
    foot = image[int(height - 22 * per_mm) :, : int(30 * per_mm)]
    foot = cv2.resize(foot, None, fx=3, fy=3, interpolation=cv2.INTER_CUBIC)
    text, _, _ = cv2.QRCodeDetector().detectAndDecode(foot)
    assert text == str(page_code(LESSON, LESSON.sections[0], 1))


def test_four_modules_stay_free_around_the_symbol():
    """ISO/IEC 18004, 6.3.8: the quiet zone. The version 1 symbol has 21 modules."""
    assert pytest.approx(4 * SIDE / 21) == QUIET
    (starter,) = (d for d in render(work(LESSON)) if d.name == "starter.pdf")
    image = pypdfium2.PdfDocument(io.BytesIO(starter.data))[0].render(scale=4, grayscale=True)
    pixels = image.to_numpy().reshape(image.height, image.width)
    per_mm = 4 * 72 / 25.4
    left, bottom = 10.5 * per_mm, image.height - 8 * per_mm  # the squares' left edge; the margin
    quiet, side = QUIET * per_mm, SIDE * per_mm
    for y0, y1, x0, x1 in (
        (bottom - side - quiet + 4, bottom - side - 2, left, left + side),
        (bottom + 2, image.height, left, left + side),
        (bottom - side, bottom, left - quiet, left - 2),
        (bottom - side, bottom, left + side + 2, left + side + quiet),
    ):
        assert pixels[int(y0) : int(y1), int(x0) : int(x1)].min() > 250
