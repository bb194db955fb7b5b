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


# -- colours: the profile goes, and what it meant stays -----------------------------------------------------

WIDE = {  # red, green and blue as XYZ of D50, and the exponent of the curve; None: that of sRGB; from memory
    "Display P3": (
        ((0.51512, 0.24120, -0.00105), (0.29198, 0.69225, 0.04189), (0.15710, 0.06657, 0.78407)), None
    ),
    "Adobe RGB (1998)": (
        ((0.60974, 0.31111, 0.01947), (0.20528, 0.62567, 0.06087), (0.14919, 0.06322, 0.74457)), 563 / 256
    ),
}


def fixed(*numbers: float) -> bytes:
    return b"".join(struct.pack(">i", round(number * 65536)) for number in numbers)


def profile(space: bytes, connection: bytes, tags: dict[bytes, bytes]) -> bytes:
    """A profile as ICC.1:2001-04 lays it out: a head of 128 bytes, the list of tags, the tags."""
    at, listed, body = 132 + 12 * len(tags), struct.pack(">I", len(tags)), b""
    for name, data in tags.items():
        listed += name + struct.pack(">II", at + len(body), len(data))
        body += data + b"\0" * (-len(data) % 4)
    kind = b"prtr" if space == b"CMYK" else b"mntr"
    head = struct.pack(">I", at + len(body)) + b"\0" * 4 + bytes([2, 0x40, 0, 0]) + kind + space + connection
    head += struct.pack(">6H", 2026, 1, 1, 0, 0, 0) + b"acsp" + b"\0" * 28 + fixed(0.9642, 1, 0.8249)
    return head.ljust(128, b"\0") + listed + body


def wide(name: str) -> bytes:
    """The profile of a color space with three lights and a curve."""
    lights, exponent = WIDE[name]
    if exponent:
        curve = struct.pack(">IH", 1, round(exponent * 256))
    else:  # IEC 61966-2-1
        steps = [one / 1023 for one in range(1024)]
        light = [step / 12.92 if step <= 0.04045 else ((step + 0.055) / 1.055) ** 2.4 for step in steps]
        curve = struct.pack(">I1024H", 1024, *(round(65535 * one) for one in light))
    tags = {b"wtpt": b"XYZ \0\0\0\0" + fixed(0.9642, 1, 0.8249)}
    for letter, xyz in zip("rgb", lights, strict=True):
        tags[f"{letter}XYZ".encode()] = b"XYZ \0\0\0\0" + fixed(*xyz)
        tags[f"{letter}TRC".encode()] = b"curv\0\0\0\0" + curve
    return profile(b"RGB ", b"XYZ ", tags)


def inks(cyan: tuple[int, int, int]) -> bytes:
    """A press whose full cyan has this L*a*b* and whose other inks are black: a table of two steps an ink."""
    corners = [
        (255, 128, 128) if not any(on) else (round(cyan[0] * 2.55), cyan[1] + 128, cyan[2] + 128)
        if on == (1, 0, 0, 0) else (0, 128, 128)
        for on in ((c, m, y, k) for c in (0, 1) for m in (0, 1) for y in (0, 1) for k in (0, 1))
    ]
    straight = bytes(range(256))
    table = b"mft1\0\0\0\0" + bytes([4, 3, 2, 0]) + fixed(1, 0, 0, 0, 1, 0, 0, 0, 1) + straight * 4
    table += b"".join(bytes(corner) for corner in corners) + straight * 3
    return profile(b"CMYK", b"Lab ", {b"wtpt": b"XYZ \0\0\0\0" + fixed(0.9642, 1, 0.8249), b"A2B0": table})


def middle(data: bytes) -> tuple[int, ...]:
    with Image.open(io.BytesIO(data)) as picture:
        return picture.convert("RGB").getpixel((20, 20))  # type: ignore[return-value]


@pytest.mark.parametrize(
    ("name", "written", "meant"),
    [  # the same color in both; CSS Color 4, sec. 10, and the matrices of its sample code; from memory
        ("Display P3", (234, 51, 35), (255, 0, 0)),
        ("Adobe RGB (1998)", (144, 255, 60), (0, 255, 0)),
    ],
)
@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP", "palette", "transparent"])
def test_colors_of_another_space_look_the_same_without_their_profile(
    kind: str, name: str, written: tuple[int, int, int], meant: tuple[int, int, int]
) -> None:
    image = Image.new("RGB", (40, 40), written)
    if kind == "palette":
        image = image.quantize(4)
    elif kind == "transparent":
        image.putalpha(255)
    more = {"quality": 100} if kind in ("JPEG", "WEBP") else {}
    data = coded(image, kind if kind in ("JPEG", "WEBP") else "PNG", icc_profile=wide(name), **more)
    assert middle(data) == pytest.approx(written, abs=3)
    shown = redrawn(data).data
    assert middle(shown) == pytest.approx(meant, abs=8)  # eight bits, and JPEG
    assert not any(secret in shown for secret in SECRETS)


def test_inks_look_as_the_press_prints_them() -> None:
    """L*a*b* 60, -20, -20 in sRGB, by CIE 15 and IEC 61966-2-1; without the profile it is 0, 255, 255."""
    image = Image.new("CMYK", (40, 40), (255, 0, 0, 0))
    data = coded(image, "JPEG", icc_profile=inks((60, -20, -20)), quality=100)
    assert middle(redrawn(data).data) == pytest.approx(srgb_of_lab(60, -20, -20), abs=8)
    assert middle(redrawn(coded(image, "JPEG", quality=100)).data) == pytest.approx((0, 255, 255), abs=8)


def srgb_of_lab(light: float, a: float, b: float) -> tuple[float, ...]:
    """CIE 15 for L*a*b* of D50, the matrix of XYZ (D50) to linear sRGB, and the curve of IEC 61966-2-1."""
    y = (light + 16) / 116
    white = (0.9642, 1.0, 0.8249)
    x_y_z = [w * (t**3 if t > 6 / 29 else 3 * (6 / 29) ** 2 * (t - 4 / 29))
             for w, t in zip(white, (y + a / 500, y, y - b / 200), strict=True)]  # fmt: skip
    rows = ((3.1339, -1.6169, -0.4906), (-0.9788, 1.9161, 0.0335), (0.0719, -0.2290, 1.4052))
    linear = [sum(one * part for one, part in zip(row, x_y_z, strict=True)) for row in rows]
    assert min(linear) > 0.0031308
    return tuple(255 * (1.055 * one ** (1 / 2.4) - 0.055) for one in linear)


@pytest.mark.parametrize(
    "bad", [b"x", b"\0" * 200, wide("Display P3")[:300], inks((60, -20, -20)), b"\xff" * 5000]
)
def test_a_profile_that_is_none_or_fits_another_picture_changes_nothing(bad: bytes) -> None:
    data = coded(arrow(), "PNG", icc_profile=bad)
    assert redrawn(data).data == redrawn(coded(arrow(), "PNG")).data


def test_grey_stays_grey_with_a_profile_of_three_colors() -> None:
    data = coded(Image.new("L", (40, 40), 120), "PNG", icc_profile=wide("Display P3"))
    assert middle(redrawn(data).data) == pytest.approx((120, 120, 120), abs=1)


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
