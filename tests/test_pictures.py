"""A picture beside a job: upright, small, pixels only; a file that is none is a sentence, not a traceback.

Pillow itself writes what a camera would, and reads back what is left (EXIF tags of CIPA DC-008:
orientation 274, GPS 34853; from memory).
"""

from __future__ import annotations

import io
import os
import struct
import zlib
from contextlib import suppress
from pathlib import Path

import pytest
from PIL import Image, PngImagePlugin

from generator import pictures
from generator.pictures import BadPicture, ShownPicture, redrawn, shown_picture

GPS, ORIENTATION, MAKER, MODEL, NOTE = 34853, 274, 37500, 272, 37510
SECRETS = (b"SECRETPLACE", b"SECRETMAKER", b"SECRETMODEL", b"SECRETNOTE", b"SECRETXMP", b"SECRETIPTC",
           b"Exif\x00", b"http://ns.adobe.com", b"eXIf", b"tEXt", b"iTXt", b"zTXt", b"ICC_PROFILE",
           b"iCCP")  # fmt: skip


@pytest.fixture(autouse=True)
def cache(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A cache of this test's own."""
    folder = tmp_path / "cache"
    monkeypatch.setattr(pictures, "cache_folder", lambda: folder)
    pictures._shown.cache_clear()
    return folder


def exif(orientation: int = 1) -> Image.Exif:
    """Notes of a camera: where it stood, what it is, what its maker and its owner wrote."""
    notes = Image.Exif()
    notes[ORIENTATION], notes[MODEL] = orientation, "SECRETMODEL"
    place = notes.get_ifd(GPS)
    place[1], place[2], place[3], place[4] = "N", (59.0, 12.0, 34.5), "E", (10.0, 20.0, 30.5)
    place[27] = b"SECRETPLACE"
    inner = notes.get_ifd(34665)
    inner[MAKER], inner[NOTE] = b"SECRETMAKER", b"SECRETNOTE"
    return notes


def arrow(width: int = 60, height: int = 40) -> Image.Image:
    """White with a red corner at the top left."""
    image = Image.new("RGB", (width, height), "white")
    image.paste("red", (0, 0, width // 3, height // 3))
    return image


def coded(image: Image.Image, kind: str, **more: object) -> bytes:
    out = io.BytesIO()
    image.save(out, kind, **more)
    return out.getvalue()


def opened(shown: ShownPicture) -> Image.Image:
    image = Image.open(io.BytesIO(shown.data))
    image.load()
    return image


def telling(kind: str) -> bytes:
    """A picture of a kind with all that is told in its notes."""
    image, xmp = arrow(), b'<x:xmpmeta xmlns:x="http://ns.adobe.com/">SECRETXMP</x:xmpmeta>'
    if kind == "PNG":
        words = PngImagePlugin.PngInfo()
        words.add_text("Comment", "SECRETNOTE")
        words.add_text("Author", "SECRETMAKER", zip=True)
        words.add_itxt("XML:com.adobe.xmp", xmp.decode())
        return coded(image, "PNG", exif=exif(), pnginfo=words)
    if kind == "GIF":
        return coded(image, "GIF", comment=b"SECRETNOTE")
    if kind == "WEBP":
        return coded(image, "WEBP", exif=exif(), xmp=xmp)
    jpeg = coded(image, "JPEG", exif=exif(), comment=b"SECRETNOTE", xmp=xmp)
    iptc = b"Photoshop 3.0\x008BIM\x04\x04\x00\x00\x00\x00\x00\x0aSECRETIPTC"
    return jpeg[:2] + b"\xff\xed" + struct.pack(">H", len(iptc) + 2) + iptc + jpeg[2:] + b"SECRETPLACE"


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP", "GIF"])
def test_nothing_but_pixels_is_left(kind: str) -> None:
    told = telling(kind)
    assert any(secret in told for secret in SECRETS), "the picture that goes in has something to tell"
    if kind != "GIF":
        before = Image.open(io.BytesIO(told))
        before.load()
        assert before.getexif().get_ifd(GPS), "and says where it was taken"
    shown = redrawn(told)
    image = opened(shown)
    assert not image.getexif()
    assert not image.getexif().get_ifd(GPS)
    assert {name for name in image.info if not name.startswith(("jfif", "progress"))} == set()
    for secret in SECRETS:
        assert secret not in shown.data
    assert (shown.kind, image.size) == (kind, (60, 40))


@pytest.mark.parametrize("orientation", range(1, 9))
@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP"])
def test_a_picture_stands_as_the_camera_meant_it(kind: str, orientation: int) -> None:
    """The eight ways of the tag, each undone by the turn that its name says."""
    turns = {
        2: Image.Transpose.FLIP_LEFT_RIGHT, 3: Image.Transpose.ROTATE_180, 4: Image.Transpose.FLIP_TOP_BOTTOM,
        5: Image.Transpose.TRANSPOSE, 6: Image.Transpose.ROTATE_90, 7: Image.Transpose.TRANSVERSE,
        8: Image.Transpose.ROTATE_270,
    }  # what the camera saw, as it lies in the file
    lying = arrow().transpose(turns[orientation]) if orientation in turns else arrow()
    image = opened(redrawn(coded(lying, kind, exif=exif(orientation)))).convert("RGB")
    assert image.size == (60, 40)
    red, _, blue = image.getpixel((5, 5))  # type: ignore[misc]
    assert red > 200
    assert blue < 90
    assert min(image.getpixel((55, 35))) > 200  # type: ignore[type-var]


def test_a_large_photo_comes_down_to_the_size_of_screen_and_paper() -> None:
    noise = Image.effect_noise((4000, 3000), 60).convert("RGB")
    shown = redrawn(coded(noise, "JPEG", quality=90))
    assert (shown.width, shown.height) == (1600, 1200)
    assert len(shown.data) < 1_500_000  # noise: a photo of a part is a quarter of it


def test_a_small_picture_is_not_made_larger() -> None:
    assert opened(redrawn(coded(arrow(), "PNG"))).size == (60, 40)


def test_transparent_parts_are_white_and_deep_grey_is_kept() -> None:
    clear = opened(redrawn(coded(Image.new("RGBA", (9, 9), (255, 0, 0, 0)), "PNG")))
    assert clear.convert("L").getpixel((4, 4)) == 255
    assert opened(redrawn(coded(Image.new("I;16", (9, 9), 0x8000), "PNG"))).getpixel((4, 4)) == 0x80


def test_an_animation_gives_its_first_frame() -> None:
    frames = coded(arrow(), "GIF", save_all=True, append_images=[Image.new("RGB", (60, 40), "blue")])
    assert opened(redrawn(frames)).convert("RGB").getpixel((55, 35)) == (255, 255, 255)


# -- hostile files ---------------------------------------------------------------------------------


def png_header(width: int, height: int) -> bytes:
    """A PNG that says a size, and holds almost nothing (ISO/IEC 15948: signature, IHDR, IDAT, IEND)."""

    def chunk(name: bytes, data: bytes) -> bytes:
        return struct.pack(">I", len(data)) + name + data + struct.pack(">I", zlib.crc32(name + data))

    header = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    packed = zlib.compress(b"\0" * 1000)
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", header) + chunk(b"IDAT", packed) + chunk(b"IEND", b"")


HOSTILE = {
    "empty": (b"", "is empty"),
    "words": (b"not a picture at all", "is not a JPEG, PNG, WebP or GIF picture"),
    "svg": (b"<svg xmlns='http://www.w3.org/2000/svg'><script>1</script></svg>", "is not a JPEG"),
    "bitmap": (coded(arrow(), "BMP"), "is not a JPEG"),
    "script": (b"%!PS-Adobe-3.0 EPSF-3.0\n%%BoundingBox: 0 0 9 9\n", "is not a JPEG"),
    "cut short": (coded(arrow(600, 400), "JPEG")[:-900], "is damaged or cut short"),
    "cut short png": (coded(Image.effect_noise((300, 300), 9), "PNG")[:-9000], "is damaged or cut short"),
    "head only": (b"\xff\xd8\xff\xe0", "picture"),
    "bomb": (png_header(60_000, 60_000), "far too many pixels"),
    "large": (png_header(9000, 9000), "has 9000 × 9000 pixels: make it smaller"),
    "no height": (png_header(5, 0), ""),
    "says more than it has": (png_header(2000, 2000), "is damaged or cut short"),
}


@pytest.mark.parametrize("name", HOSTILE)
def test_a_hostile_file_is_a_sentence(name: str) -> None:
    data, said = HOSTILE[name]
    with pytest.raises(BadPicture) as caught:
        redrawn(data)
    assert said in str(caught.value)


def test_any_byte_changed_gives_a_picture_or_a_sentence() -> None:
    for kind in ("JPEG", "PNG", "WEBP", "GIF"):
        whole = telling(kind)
        for place in range(0, len(whole), max(1, len(whole) // 120)):
            changed = bytearray(whole)
            changed[place] ^= 0xFF
            with suppress(BadPicture):  # and nothing else
                redrawn(bytes(changed))


def test_a_pipe_a_folder_and_a_file_too_large_are_sentences(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe.jpg")
    (tmp_path / "folder.jpg").mkdir()
    with (tmp_path / "large.jpg").open("wb") as file:
        file.truncate(pictures.MOST_BYTES + 1)
    expected = {
        "pipe": "is not a file", "folder": "is not a file", "large": "64 are taken at most",
        "none": "is not in the job's folder",
    }
    for name, said in expected.items():
        with pytest.raises(BadPicture, match=said):
            shown_picture(tmp_path / f"{name}.jpg")


# -- the cache -------------------------------------------------------------------------------------


def test_an_unchanged_picture_is_made_once(
    tmp_path: Path, cache: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path, made = tmp_path / "a.jpg", []
    path.write_bytes(telling("JPEG"))
    real = pictures.redrawn
    monkeypatch.setattr(pictures, "redrawn", lambda data: made.append(1) or real(data))
    first = shown_picture(path)
    pictures._shown.cache_clear()  # another build
    assert shown_picture(path) == first
    assert len(made) == 1
    path.write_bytes(coded(arrow(30, 20), "JPEG"))
    assert shown_picture(path).width == 30
    assert len(made) == 2
    assert len(list(cache.iterdir())) == 2


def test_a_cache_that_is_damaged_or_cannot_be_written_costs_nothing(
    tmp_path: Path, cache: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "a.jpg"
    path.write_bytes(telling("JPEG"))
    first = shown_picture(path)
    for kept in cache.iterdir():
        kept.write_bytes(b"JPEG\nrubbish")
    pictures._shown.cache_clear()
    assert shown_picture(path) == first
    (tmp_path / "file").write_text("x")
    monkeypatch.setattr(pictures, "cache_folder", lambda: tmp_path / "file" / "cache")
    pictures._shown.cache_clear()
    assert shown_picture(path) == first


def test_what_no_build_asked_for_in_half_a_year_is_forgotten(tmp_path: Path, cache: Path) -> None:
    cache.mkdir()
    old = cache / "old.picture"
    old.write_bytes(b"x")
    os.utime(old, (0, 0))
    (tmp_path / "a.jpg").write_bytes(telling("JPEG"))
    shown_picture(tmp_path / "a.jpg")
    assert not old.exists()
