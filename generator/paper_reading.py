"""A job handed over on paper, read back from a photo or scan of the page; the only importer of zxing-cpp.

    read_paper    a picture -> the bytes of the job file in its code
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any, Final

from generator.errors import JobProblems, SheetError
from generator.job.reading import read_tree
from generator.job.written import Block
from generator.language.say import later, say
from generator.pictures import BadPicture, Picture, grey_picture

INSTALL: Final = later("reading a code needs the library zxing-cpp: pip install 'lathe-setup-sheets[paper]'")
SMALL: Final = 3000  # pixels of the longer side, under which it is also tried at twice its size
AGAIN: Final = later("take it again, straight from above, in good light, with the code filling the picture")


def read_paper(image: Path) -> bytes:
    """The job file in the code on a page, as it was put there, byte by byte.

    Parameters
    ----------
    image : a photo or scan as JPEG, PNG, WebP or GIF, of no more bytes and pixels than `pictures` takes

    Raises
    ------
    SheetError
        When it is no picture, has no code that can be read, none or several of a job file, or the library is
        not installed.
    """
    try:
        import zxingcpp
    except ImportError as error:
        raise SheetError(f"{image}: {INSTALL}") from error
    try:
        picture = grey_picture(image)
    except BadPicture as error:
        raise SheetError(f"{image}: {error}") from error
    found: list[bytes] = []
    for one in _tries(picture):
        found = list(dict.fromkeys(_codes(zxingcpp, one)))
        jobs = [data for data in found if _is_job(data, image)]
        if len(jobs) == 1:
            return jobs[0]
        if jobs:
            raise SheetError(
                say(
                    "{image}: {jobs} codes in it are job files; take a picture of one page",
                    image=image,
                    jobs=len(jobs),
                )
            )
    if found:
        raise SheetError(
            say("{image}: the code in it is not a job file; show the page with the job's code", image=image)
        )
    raise SheetError(say("{image}: no code can be read in it; {again}", image=image, again=AGAIN))


def _tries(picture: Picture) -> Iterator[Picture]:
    """The picture as it is, then twice as large where it is small."""
    yield picture
    if max(picture.size) < SMALL:
        yield picture.resize((picture.width * 2, picture.height * 2))


def _codes(library: Any, picture: Picture) -> list[bytes]:
    found = library.read_barcodes(picture, formats=library.BarcodeFormat.QRCode)
    return [bytes(one.bytes) for one in found if one.valid]


def _is_job(data: bytes, image: Path) -> bool:
    """True for a list of keys and values with a job's number in it."""
    try:
        tree = read_tree(image, data)
    except JobProblems:
        return False
    return isinstance(tree, Block) and {"job", "work"} <= set(tree)
