"""Pictures of pages: a vector picture as a browser shows it, a PDF page as PDFium does."""

import shutil
import subprocess
from pathlib import Path
from typing import Any

import cv2
import numpy as np
import pypdfium2
import pytest

CHROMIUM = shutil.which("chromium") or shutil.which("chromium-browser")

needs_chromium = pytest.mark.skipif(
    CHROMIUM is None, reason="no chromium on the PATH: apt-get install chromium"
)

PIXELS_PER_MM = 2 * 96 / 25.4
"""Two pixels of the picture to one of a CSS screen."""


def shown_by_chromium(pictures: list[str], scratch: Path) -> list[Any]:
    """Grey pictures of SVG files, shown one below the other as a page's images."""
    assert CHROMIUM is not None
    for at, text in enumerate(pictures):
        (scratch / f"{at}.svg").write_text(text, encoding="utf-8")
    images = "".join(f"<div><img src='{at}.svg'></div>" for at in range(len(pictures)))
    style = "<style>body{margin:0}div{height:1700px;overflow:hidden}img{display:block}</style>"
    (scratch / "all.html").write_text(f"<!doctype html>{style}{images}", encoding="utf-8")
    shot = scratch / "shot.png"
    subprocess.run(
        [
            CHROMIUM,
            "--headless",
            "--no-sandbox",
            "--disable-gpu",
            "--hide-scrollbars",
            "--force-device-scale-factor=2",
            f"--window-size=1600,{1700 * len(pictures)}",
            f"--user-data-dir={scratch / 'profile'}",
            f"--screenshot={shot}",
            (scratch / "all.html").as_uri(),
        ],
        check=True,
        capture_output=True,
        timeout=120,
    )
    whole = cv2.imread(str(shot), cv2.IMREAD_GRAYSCALE)
    assert whole is not None
    return [whole[3400 * at : 3400 * (at + 1)] for at in range(len(pictures))]


def shown_by_pdfium(data: bytes, page: int) -> Any:
    """A grey picture of a PDF's page."""
    with pypdfium2.PdfDocument(data) as file:
        bitmap = file[page].render(scale=PIXELS_PER_MM * 25.4 / 72, grayscale=True)
        return np.array(bitmap.to_numpy()).squeeze()


def distance(one: Any, other: Any) -> tuple[float, float]:
    """How far two grey pictures are apart, 0 to 255: on average, and where they are furthest.

    Both are blurred first, over less than a stroke of a digit: edges are smoothed otherwise by
    every program.
    """
    height = min(one.shape[0], other.shape[0])
    width = min(one.shape[1], other.shape[1])
    blurred = [cv2.blur(picture[:height, :width].astype(float), (7, 7)) for picture in (one, other)]
    apart = np.abs(blurred[0] - blurred[1])
    return float(apart.mean()), float(apart.max())
