"""What lies beside a job, as its sheet shows it: pictures, and the job that takes its place."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import Final

SENDER: Final = "sender.yml"  # of a job that came from another shop: `sender`
PICTURES_TAKEN: Final = ("jpg", "jpeg", "png", "webp", "gif")
PICTURES_NOT_TAKEN: Final = ("svg", "heic", "heif", "avif", "tif", "tiff", "bmp", "pdf")  # named, not shown


@dataclass(frozen=True)
class JobPicture:
    """A picture of the job: its file, its name in the site, what it shows, its size in pixels."""

    path: Path
    name: str
    caption: str
    width: int
    height: int


@dataclass(frozen=True)
class Successor:
    """The number of the job; year and name of its folder, empty when it is not in the archive."""

    number: str
    year: str = ""
    folder: str = ""
