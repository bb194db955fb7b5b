"""The code of a sheet's address is read back by another library, as a telephone reads it off the paper.

Written by segno, read by zxing-cpp: two implementations of ISO/IEC 18004 that share nothing.
"""

from __future__ import annotations

import re
from xml.etree import ElementTree

import numpy as np
import pytest
import zxingcpp
from PIL import Image, ImageFilter

from generator.render.address_code import QUIET, WIDEST, address_code

ADDRESSES = [
    "https://a.example/",
    "https://sheets.saltmarsh.example/sheets/2026/SW-101-ramp-hinge-pin.html",
    "https://sheets.saltmarsh.example/shop%20floor/sheets/2026/SW-101-a%20long%20name%20of%20a%20job%20for%20once.html",
    "http://192.168.1.20:8000/sheets/2026/SW-101.html",
]
DOTS = 300 / 25.4  # dots a mm of a shop's printer


def modules(svg: str) -> np.ndarray:
    """The modules of the drawing, dark ones True: `M x y h run m dx dy …` in lines half a module down."""
    root = ElementTree.fromstring(svg)
    side = int(root.attrib["viewBox"].split()[2])
    grid = np.zeros((side, side), dtype=bool)
    (path,) = [one for one in root if one.attrib.get("stroke") == "#000"]
    x = y = 0.0
    for command, numbers in re.findall(r"([Mmh])([-\d. ]+)", path.attrib["d"]):
        values = [float(number) for number in re.findall(r"-?\d*\.?\d+", numbers)]
        if command == "M":
            x, y = values
        elif command == "m":
            x, y = x + values[0], y + values[1]
        else:
            grid[int(y), int(x) : int(x + values[0])] = True
            x += values[0]
    return grid


def on_paper(grid: np.ndarray, width: float = WIDEST) -> Image.Image:
    """As printed `width` mm wide, dot by dot."""
    side = round(width * DOTS)
    image = Image.fromarray(np.where(grid, 0, 255).astype(np.uint8))
    return image.resize((side, side), Image.Resampling.BILINEAR)


def read(image: Image.Image) -> list[str]:
    return [found.text for found in zxingcpp.read_barcodes(np.asarray(image.convert("L")))]


@pytest.mark.parametrize("address", ADDRESSES)
@pytest.mark.parametrize("width", [15.0, WIDEST])
def test_it_is_read_from_paper_in_black_and_white(address: str, width: float) -> None:
    code = address_code(address)
    assert code is not None
    printed = on_paper(modules(code.svg), width).point(lambda level: 255 if level > 127 else 0)  # no greys
    assert read(printed) == [address]


@pytest.mark.parametrize("address", ADDRESSES[:2])
def test_it_is_read_blurred_grey_and_with_a_thumb_mark_on_it(address: str) -> None:
    code = address_code(address)
    assert code is not None
    image = on_paper(modules(code.svg)).filter(ImageFilter.GaussianBlur(1.5))
    image = image.point(lambda level: 60 + level // 2)
    side = image.width
    image.paste(60, (side * 52 // 100, side * 52 // 100, side * 62 // 100, side * 62 // 100))
    assert read(image) == [address]


def test_white_stands_all_round_it() -> None:
    code = address_code(ADDRESSES[1])
    assert code is not None
    grid = modules(code.svg)
    for edge in (grid[:QUIET], grid[-QUIET:], grid[:, :QUIET], grid[:, -QUIET:]):
        assert not edge.any()


@pytest.mark.parametrize(
    "address", ["", "http://localhost:8000/x.html", "http://127.0.0.1:8000/x.html", "http://[::1]/", "/a"]
)
def test_an_address_that_only_this_machine_knows_has_none(address: str) -> None:
    assert address_code(address) is None


@pytest.mark.parametrize("length", [400, 5000])
def test_an_address_too_long_for_the_room_stands_in_letters_only(length: int) -> None:
    code = address_code("https://a.example/" + "x" * length)
    assert code is not None
    assert code.svg == ""
