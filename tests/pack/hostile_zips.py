"""Zips made to harm whoever opens them, each by its name and how it is made; invented for these tests.

The kinds are those of print: names that lead elsewhere (CWE-22, CWE-59), files that grow without end
(CWE-409) or lie one within another (Fifield, "A better zip bomb", USENIX WOOT 2019), two files of one name
(CWE-436).
"""

from __future__ import annotations

import hashlib
import io
import json
import stat
import struct
import warnings
import zipfile
from collections.abc import Callable, Iterator
from typing import Any, Final

NAMES: Final = (
    "../job.yml", "..\\job.yml", "job/../../x.yml", "/etc/passwd", "//server/share/x", "C:\\x.yml",
    "C:x.yml", "job/..", "job/.", ".", "..", "job/", "job//job.yml", "./job/job.yml", "job/./job.yml",
    "JOB/job.yml", "job/job.yml ", "job/job.yml.", "job/job.yml\n", "job/\u202egpj.yml", "job/job.ym\u0142",
    "job/a/b.jpg", "job/.hidden.jpg", "job/-rf.jpg", "job/con.jpg", "job/NUL.png", "job/aux .jpg",
    "job/COM1.x.jpg", "job/lpt\xb9.jpg", "job/x.svg", "job/x.html", "job/x.jpg.exe", "job/x.php",
    "job/x\\y.jpg", "job/x:y.jpg", "job/x?.jpg", "job/x*.jpg", "job/x\x00.jpg", "job/$(id).jpg",
    "job/`id`.jpg", "job/x|y.jpg", "job/x>y.jpg", "job/%2e%2e.jpg/a", "shop/lathes/../../x.yml",
    "shop/lathes/.yml", "shop/lathes/a/b.yml", "shop/lathes/\xe4.yml", "shop/lathes/A.yml",
    "shop/other.yml", "jobs/_shop/house.yml", ".git/hooks/post-checkout", ".ssh/authorized_keys",
    "__MACOSX/x", "job/" + "a" * 300 + ".jpg", "mkdocs.yml", "desktop.ini", "job/Thumbs.db", "sheet.htm",
    "manifest.json/x",
)  # fmt: skip
Hostile = Callable[[dict[str, bytes]], bytes]


def packed(
    own: dict[str, bytes], *more: tuple[str | zipfile.ZipInfo, bytes], manifest: Any = None, **head: Any
) -> bytes:
    """A zip of these files with a manifest that lists them all, and more that it may not hold."""
    every = [*own.items(), *more]
    listed = [
        {
            "name": getattr(name, "filename", name), "bytes": len(data),
            "sha256": hashlib.sha256(data).hexdigest(),
        }
        for name, data in every
    ]
    said = {
        "format": "lathe setup handed over", "version": 1, "job": "SW-1", "title": "Pin", "shop": "S",
        "lathe": "L", "left_out": [], "files": listed, **head,
    }  # fmt: skip
    text = json.dumps(said).encode() if manifest is None else manifest
    target = io.BytesIO()
    with zipfile.ZipFile(target, "w", zipfile.ZIP_DEFLATED) as whole, warnings.catch_warnings():
        warnings.simplefilter("ignore")  # of a name that is there twice
        for name, data in (*every, ("manifest.json", text)):
            whole.writestr(name, data)
    return target.getvalue()


def _mode(mode: int) -> Hostile:
    def made(files: dict[str, bytes]) -> bytes:
        one = zipfile.ZipInfo("job/link.jpg")
        one.external_attr = mode << 16
        return packed(files, (one, b"/etc/passwd"))

    return made


def _flagged(offset_local: int, offset_central: int, value: bytes) -> Hostile:
    """Bytes of the first file's two heads written over."""

    def made(files: dict[str, bytes]) -> bytes:
        data = bytearray(packed(files))
        central = data.index(b"PK\x01\x02")
        data[offset_local : offset_local + len(value)] = value
        data[central + offset_central : central + offset_central + len(value)] = value
        return bytes(data)

    return made


def _overlapping(files: dict[str, bytes]) -> bytes:
    """The second file's place in the list is that of the first."""
    data = bytearray(packed(files))
    first = data.index(b"PK\x01\x02")
    second = data.index(b"PK\x01\x02", first + 4)
    data[second + 42 : second + 46] = data[first + 42 : first + 46]
    return bytes(data)


def _manifest(**said: Any) -> Hostile:
    return lambda files: packed(files, **said)


def _raw(data: bytes) -> Hostile:
    return lambda files: packed(files, manifest=data)


def _with_manifest_of(changed: dict[str, bytes]) -> Hostile:
    return lambda files: packed(files, manifest=packed_manifest({**files, **changed}, ""))


def _unlisted(files: dict[str, bytes]) -> bytes:
    return packed(files, manifest=packed_manifest(files, drop="job/job.yml"))


def packed_manifest(files: dict[str, bytes], drop: str) -> bytes:
    """A manifest that does not list one of the files."""
    with zipfile.ZipFile(io.BytesIO(packed({k: v for k, v in files.items() if k != drop}))) as whole:
        return whole.read("manifest.json")


def hostile_zips() -> Iterator[tuple[str, Hostile]]:
    """Each with a name for it."""
    for name in NAMES:
        yield f"a file {name!r}", lambda files, name=name: packed(files, (name, b"x"))
    for kind in ("S_IFLNK", "S_IFCHR", "S_IFBLK", "S_IFIFO", "S_IFSOCK", "S_IFDIR"):
        yield f"a file of the kind {kind}", _mode(getattr(stat, kind) | 0o777)
    yield "two of one name", lambda files: packed(files, ("job/job.yml", b"job: 2"))
    one, other = ("job/A.jpg", b"1"), ("job/a.jpg", b"2")
    yield "two names that one folder takes for one", lambda files: packed(files, one, other)
    yield "a file that grows a thousand times", lambda files: packed(files, ("job/x.jpg", bytes(20_000_000)))
    yield "a text that grows a thousand times", lambda files: packed({**files, "job/job.yml": b" " * 900_000})
    yield "a text too large", lambda files: packed({**files, "job/job.yml": bytes(range(256)) * 4_000})
    yield "too many files", lambda files: packed(files, *((f"job/{n}.jpg", b"x") for n in range(200)))
    yield "no manifest", lambda files: packed(files).replace(b"manifest.json", b"manifesto.jso")
    yield "nothing at all", lambda files: b""
    yield "words", lambda files: b"job: SW-1\n"
    yield "an empty zip", lambda files: b"PK\x05\x06" + bytes(18)
    yield "half a zip", lambda files: packed(files)[: len(packed(files)) // 2]
    yield "its end cut off", lambda files: packed(files)[:-30]
    yield "something in front", lambda files: b"#!/bin/sh\nid\n" + packed(files)
    yield "another kind of archive", lambda files: b"Rar!\x1a\x07\x01\x00" + packed(files)
    yield "files one within another", _overlapping
    yield "a password", _flagged(6, 8, b"\x01\x00")
    yield "an unknown way of packing", _flagged(8, 10, b"\x63\x00")
    yield "a size that is not its own", _flagged(22, 24, struct.pack("<I", 7))
    yield "another name in its head", lambda files: packed(files).replace(b"job/job.yml", b"job/yob.yml", 1)
    yield "a broken check of a file", _flagged(14, 16, b"\x00\x00\x00\x00")
    yield "a file that is not listed", _unlisted
    yield "a file that is missing", _with_manifest_of({"job/log.yml": b""})
    yield "a checksum of something else", _with_manifest_of({"job/job.yml": b"x"})
    yield "a newer version", _manifest(version=2)
    yield "a version that is none", _manifest(version="1; rm -rf /")
    yield "version true", _manifest(version=True)
    yield "another format", _manifest(format="a poem")
    yield "a title that steers the terminal", _manifest(title="\x1b]0;x\x07\x1b[2J")
    yield "words left out that steer the terminal", _manifest(left_out=["\x9b31m", "\r"])
    yield "a key more", _manifest(run="id")
    listed: dict[str, Any] = {"name": "job/job.yml", "bytes": 0, "sha256": "0" * 64}
    yield "a file listed twice", _manifest(files=[listed, listed])
    yield "sizes without end", _manifest(files=[listed | {"bytes": 10**30}])
    yield "a size below nothing", _manifest(files=[listed | {"bytes": -1}])
    yield "a list for a name", _manifest(job=["SW-1"])
    yield "nothing for a name", _manifest(job=None)
    yield "a title without end", _manifest(title="x" * 900_000)
    yield "a manifest of nothing", _raw(b"")
    yield "a manifest that is no text", _raw(b"\xff\xfe\x00")
    yield "a manifest nested without end", _raw(b"[" * 100_000)
    yield "a manifest of a number", _raw(b"1e999")
    yield "a manifest of NaN", _raw(b"NaN")
    yield "a manifest that is a list", _raw(b"[]")
    twice = b'{"format":"x","format":"lathe setup handed over","version":1}'
    yield "a manifest with a key twice", _raw(twice)
