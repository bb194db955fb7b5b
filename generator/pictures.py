"""A picture beside a job file, made fit for the sheet; the only importer of Pillow.

    shown_picture       a file of the job folder -> ShownPicture, from the cache where it was made before
    redrawn             any bytes -> ShownPicture, or BadPicture with the reason
    grey_picture        a file with every pixel of it in grey, for a code to be read off it

What a camera wrote about place, time, owner and itself stays in the job folder: only the pixels go on. They
are turned upright, made small enough for screen and paper, and coded anew. A file may hold anything, so
nothing of it is believed: not its name, not its size, not that it is a picture.
"""

from __future__ import annotations

import base64
import hashlib
import io
import os
import tempfile
import time
import warnings
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from typing import Final

from PIL import Image, ImageChops, ImageCms, ImageOps, UnidentifiedImageError

from generator.errors import SheetError, why_not
from generator.language.say import say
from generator.user_cache import user_cache

FORMATS: Final = ("JPEG", "PNG", "WEBP", "GIF")  # a file that begins as any other is not opened at all
MOST_BYTES: Final = 64_000_000
MOST_PIXELS: Final = 64_000_000  # a telephone's largest; as red, green and blue 192 MB of memory
LONGEST_SIDE: Final = 1600  # pixels: 250 an inch at half a page's width, and a telephone's whole screen
JPEG_QUALITY: Final = 80
MOST_PROFILE: Final = 4_000_000  # bytes; those of presses have one or two millions
PAPER: Final = (255, 255, 255)  # what stands behind a transparent picture
WAY_OF_MAKING: Final = "2"  # another word here makes every cached picture anew
KEPT_UNUSED: Final = 200 * 86_400.0  # s: a cached picture that no build asked for so long is removed
_SUFFIXES: Final = {
    "JPEG": (".jpg", ".jpeg"), "PNG": (".png",), "WEBP": (".webp",), "GIF": (".gif",),
}


Picture = Image.Image


class BadPicture(SheetError):
    """A file that cannot be shown as a picture; the message is the rest of a sentence about it."""


@dataclass(frozen=True)
class ShownPicture:
    """A picture as the site has it: pixels and nothing else.

    `data` is a JPEG or PNG file, `width` and `height` are its pixels. `kind` is what the file beside the job
    turned out to be: "JPEG", "PNG", "WEBP" or "GIF".
    """

    data: bytes
    width: int
    height: int
    kind: str

    @property
    def suffix(self) -> str:
        """How the name of the shown file ends."""
        return ".png" if self.data.startswith(b"\x89PNG") else ".jpg"

    @property
    def address(self) -> str:
        """The picture itself as an address (RFC 2397), for a page with no file beside it."""
        kind = "png" if self.suffix == ".png" else "jpeg"
        return f"data:image/{kind};base64,{base64.b64encode(self.data).decode('ascii')}"

    def name_beside(self, name: str) -> str:
        """What a file called `name` in the job folder is called in the site.

        Examples
        --------
        >>> ShownPicture(b"", 1, 1, "JPEG").name_beside("intake 1.JPEG")
        'intake 1.JPEG'
        >>> ShownPicture(b"", 1, 1, "GIF").name_beside("sketch.gif")
        'sketch.gif.jpg'
        """
        coded = "PNG" if self.suffix == ".png" else "JPEG"
        return name if name.lower().endswith(_SUFFIXES[coded]) else name + self.suffix

    def is_called(self, name: str) -> bool:
        """True when the name ends as files of this kind do."""
        return name.lower().endswith(_SUFFIXES[self.kind])


def shown_picture(path: Path) -> ShownPicture:
    """A file of the job folder as the sheet shows it.

    Raises
    ------
    BadPicture
        When there is no such file, or it cannot be shown.
    """
    try:
        found = path.stat()
    except OSError as error:
        raise BadPicture(say("is not in the job's folder")) from error
    _check_file(path, found.st_size)
    return _shown(path, found.st_mtime_ns, found.st_size)


def _check_file(path: Path, size: int) -> None:
    if not path.is_file():  # a folder; or a pipe, which would be waited for
        raise BadPicture(say("is not a file"))
    if size > MOST_BYTES:
        raise BadPicture(
            say(
                "has {size} MB: make it smaller, {most} are taken at most",
                size=size // 1_000_000,
                most=MOST_BYTES // 1_000_000,
            )
        )


@lru_cache(maxsize=32)  # one build asks for it with every lathe that the job is compared on
def _shown(path: Path, written: int, size: int) -> ShownPicture:
    try:
        data = path.read_bytes()
    except OSError as error:
        raise BadPicture(say("cannot be read: {reason}", reason=why_not(error))) from error
    cached = cache_folder() / f"{hashlib.sha256(WAY_OF_MAKING.encode() + data).hexdigest()}.picture"
    return _from_cache(cached) or _to_cache(cached, redrawn(data))


def redrawn(data: bytes) -> ShownPicture:
    """The pixels of a picture, upright, on white, no longer than the sheet needs, coded anew.

    An animation gives its first frame. Colours are brought to sRGB, which a page without a profile means, by
    the profile of the picture; then it is left out with all the rest. What came without loss (PNG, GIF) goes
    out as PNG or JPEG, whichever is smaller: a sketch stays sharp, a photo small.

    Raises
    ------
    BadPicture
        When it is no picture of a kind that is taken, is too large, or ends too soon.
    """
    with _opened(data) as picture:
        kind = "JPEG" if picture.format == "MPO" else str(picture.format)
        pixels = _pixels(picture)
        return ShownPicture(_coded(pixels, lossless=kind in ("PNG", "GIF")), *pixels.size, kind)


def grey_picture(path: Path) -> Picture:
    """A picture file, all its pixels in grey, as it lies.

    Raises
    ------
    BadPicture
        As `redrawn`, and when there is no such file.
    """
    try:
        _check_file(path, path.stat().st_size)
        data = path.read_bytes()
    except OSError as error:
        raise BadPicture(say("cannot be read: {reason}", reason=why_not(error))) from error
    with _opened(data) as picture:
        picture.load()
        plain = _without_depth(picture)
        white = Image.new("RGBA", plain.size, (*PAPER, 255))
        return (Image.alpha_composite(white, plain) if plain.mode == "RGBA" else plain).convert("L")


@contextmanager
def _opened(data: bytes) -> Iterator[Image.Image]:
    """The picture in these bytes; whatever goes wrong with it meanwhile is a BadPicture."""
    if not data:
        raise BadPicture(say("is empty"))
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # what Pillow says about damaged notes of a camera
            with Image.open(io.BytesIO(data), formats=FORMATS) as picture:
                if picture.width * picture.height > MOST_PIXELS:
                    raise BadPicture(_too_large(picture))
                yield picture
    except BadPicture:
        raise
    except UnidentifiedImageError:
        raise BadPicture(say("is not a JPEG, PNG, WebP or GIF picture, whatever its name says")) from None
    except Image.DecompressionBombError:
        raise BadPicture(
            say(
                "has far too many pixels: make it smaller, {most} million are taken at most",
                most=MOST_PIXELS // 1_000_000,
            )
        ) from None
    except Exception as error:  # a damaged or hostile file can fail anywhere in a decoder
        raise BadPicture(say("is damaged or cut short: copy it again from the camera")) from error


def _too_large(picture: Image.Image) -> str:
    return say(
        "has {width} × {height} pixels: make it smaller, {most_pixels} million are taken at most",
        width=picture.width,
        height=picture.height,
        most_pixels=MOST_PIXELS // 1_000_000,
    )


def _pixels(picture: Image.Image) -> Image.Image:
    """A new picture with the pixels, and nothing else, of the one that was opened."""
    picture.draft("RGB", (LONGEST_SIDE, LONGEST_SIDE))  # a JPEG is decoded no larger than is needed
    picture.load()
    plain = _without_depth(_in_srgb(picture))
    plain.thumbnail((LONGEST_SIDE, LONGEST_SIDE), Image.Resampling.LANCZOS)
    upright = _upright(plain, picture)
    grey = upright.mode == "L"
    clean = Image.new("L" if grey else "RGB", upright.size, PAPER[0] if grey else PAPER)
    clean.paste(upright, mask=upright.getchannel("A") if upright.mode == "RGBA" else None)
    return clean


def _in_srgb(picture: Image.Image) -> Image.Image:
    """The picture in the colours that a page means; as it is without a profile that fits it."""
    profile = picture.info.get("icc_profile")
    if not profile or len(profile) > MOST_PROFILE or picture.mode.startswith(("I", "F")):
        return picture
    flat, alpha = picture, None
    if picture.mode in ("P", "PA", "LA", "RGBA") or "transparency" in picture.info:
        whole = picture.convert("RGBA")
        flat, alpha = whole.convert("RGB"), whole.getchannel("A")
    with suppress(ImageCms.PyCMSError, OSError, ValueError):
        given, meant = ImageCms.ImageCmsProfile(io.BytesIO(profile)), ImageCms.createProfile("sRGB")
        turned = ImageCms.profileToProfile(flat, given, meant, outputMode="RGB")
        if turned is not None:
            if alpha is not None:
                turned.putalpha(alpha)
            turned.info.pop("transparency", None)
            return turned
    return picture


def _without_depth(picture: Image.Image) -> Image.Image:
    """The picture in grey, in colours, or in colours with transparency, eight bits each."""
    if picture.mode.startswith("I"):  # 16 bits of grey, which Pillow would cut at white
        return picture.convert("I").point(lambda level: level / 256).convert("L")
    if picture.mode in ("1", "L"):
        return picture.convert("L" if "transparency" not in picture.info else "RGBA")
    if picture.has_transparency_data:
        return picture.convert("RGBA")
    grey, colours = picture.convert("L"), picture.convert("RGB")
    return colours if ImageChops.difference(colours, grey.convert("RGB")).getbbox() else grey


def _upright(plain: Image.Image, opened: Image.Image) -> Image.Image:
    """Turned as the camera meant it (EXIF tag 274, orientation); damaged notes turn nothing."""
    turned = plain
    with suppress(Exception):
        plain.getexif()[274] = opened.getexif().get(274, 1)
        turned = ImageOps.exif_transpose(plain)
    return turned


def _coded(pixels: Image.Image, *, lossless: bool) -> bytes:
    jpeg = io.BytesIO()
    pixels.save(jpeg, "JPEG", quality=JPEG_QUALITY, optimize=True, progressive=True)
    if not lossless:
        return jpeg.getvalue()
    png = io.BytesIO()
    pixels.save(png, "PNG", optimize=True)
    return min(png.getvalue(), jpeg.getvalue(), key=len)


# -- the cache: a picture that has not changed is not made again -------------------------------------------


def cache_folder() -> Path:
    """Where pictures made before are kept: a folder of this program among the user's own caches."""
    return user_cache("pictures")


def _from_cache(path: Path) -> ShownPicture | None:
    """What is kept there; None where there is nothing, or not what was put there."""
    try:
        kind, _, data = path.read_bytes().partition(b"\n")
        os.utime(path)
        with Image.open(io.BytesIO(data), formats=("JPEG", "PNG")) as picture:
            return ShownPicture(data, *picture.size, kind.decode("ascii"))
    except Exception:  # a cache never stands in the way
        return None


def _to_cache(path: Path, shown: ShownPicture) -> ShownPicture:
    """Keep it, in one step, so that another build at the same time never reads half a file."""
    with suppress(OSError):
        path.parent.mkdir(parents=True, exist_ok=True)
        _forget_unused(path.parent)
        with tempfile.NamedTemporaryFile(dir=path.parent, suffix=".new", delete=False) as file:
            file.write(shown.kind.encode("ascii") + b"\n" + shown.data)
        os.replace(file.name, path)
    return shown


def _forget_unused(folder: Path) -> None:
    for kept in folder.iterdir():
        with suppress(OSError):
            if time.time() - kept.stat().st_mtime > KEPT_UNUSED:
                kept.unlink()
