"""The zip itself, written so that the same files give the same bytes, and read without trusting it.

    zipped      files -> bytes
    unzipped    bytes -> files, or PackRefused before anything of it was used

A zip that comes from elsewhere may be made to harm: names that lead out of the folder, links, devices, files
that grow without end, two files of one name, one file within another. Nothing is taken out of it to disk;
every name must be one of the format's own, and every file what the manifest says.
"""

from __future__ import annotations

import hashlib
import io
import stat
import zipfile
import zlib
from collections.abc import Iterator, Mapping
from typing import Final

from generator.language.say import say
from generator.pack.contents import (
    MANIFEST,
    MOST_BYTES,
    MOST_FILES,
    MOST_OF_KIND,
    MOST_ZIP,
    Manifest,
    PackedFile,
    PackRefused,
    kind_of,
    read_manifest,
)

MOST_RATIO: Final = 250  # a file may grow so much: the most that text of a sheet does is a tenth of it
_DAY: Final = (1980, 1, 1, 0, 0, 0)  # the first that a zip can say
_MODE: Final = (stat.S_IFREG | 0o644) << 16
_UNIX: Final = 3
_LOCAL: Final = 30  # bytes of a file's head before its name
_SMALL: Final = 10_000  # bytes; a file up to here may grow as it likes


def zipped(files: Mapping[str, bytes], **manifest: object) -> bytes:
    """The zip of these files with their manifest; the same files give the same bytes.

    Parameters
    ----------
    files : by their names in the zip
    manifest : what `Manifest` holds beside the list of files
    """
    listed = tuple(
        PackedFile(name=name, bytes=len(data), sha256=hashlib.sha256(data).hexdigest())
        for name, data in sorted(files.items())
    )
    head = Manifest.model_validate({**manifest, "files": listed}).model_dump_json(indent=2) + "\n"
    target = io.BytesIO()
    with zipfile.ZipFile(target, "w", zipfile.ZIP_DEFLATED, compresslevel=9) as whole:
        for name, data in sorted({**files, MANIFEST: head.encode()}.items()):
            one = zipfile.ZipInfo(name, _DAY)
            one.compress_type, one.external_attr, one.create_system = zipfile.ZIP_DEFLATED, _MODE, _UNIX
            whole.writestr(one, data)
    return target.getvalue()


def unzipped(data: bytes) -> tuple[Manifest, dict[str, bytes]]:
    """The manifest and the other files of a zip that may hold anything.

    Raises
    ------
    PackRefused
        When anything in it is not as the format has it.
    """
    if len(data) > MOST_ZIP:
        raise PackRefused(
            say(
                "it has {size} MB, and {most} are taken at most",
                size=len(data) // 1_000_000,
                most=MOST_ZIP // 1_000_000,
            )
        )
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as whole:
            members = _checked(whole, len(data))
            files = {one.filename: _held(whole, one) for one in members}
    except (zipfile.BadZipFile, zlib.error, EOFError, NotImplementedError, ValueError, OSError) as error:
        raise PackRefused(
            say("it is not a complete zip file: it is damaged, or it is something else")
        ) from error
    except RuntimeError as error:  # what zipfile says of a password
        raise PackRefused(say("a file in it cannot be opened without a password")) from error
    manifest = read_manifest(files.pop(MANIFEST))
    _as_listed(manifest, files)
    return manifest, files


def _checked(whole: zipfile.ZipFile, size: int) -> list[zipfile.ZipInfo]:
    """The files of the zip, each with a name, a kind, a size and a place that it may have."""
    members = whole.infolist()
    if len(members) > MOST_FILES:
        raise PackRefused(
            say(
                "it holds {members} files, and {most_files} are taken at most",
                members=len(members),
                most_files=MOST_FILES,
            )
        )
    names: set[str] = set()
    for one in members:
        _may_be_there(one)
        folded = one.filename.casefold()
        if folded in names:
            raise PackRefused(say("it holds {said} twice", said=_said(one.filename)))
        names.add(folded)
    if MANIFEST not in names:
        raise PackRefused(
            say("it holds no {manifest}, so it is not a setup that was shared", manifest=MANIFEST)
        )
    if sum(one.file_size for one in members) > MOST_BYTES:
        raise PackRefused(
            say("its files have more than {most_bytes} MB together", most_bytes=MOST_BYTES // 1_000_000)
        )
    end = 0
    for one in sorted(members, key=lambda member: member.header_offset):
        if one.header_offset < end or (end == 0 and one.header_offset != 0):
            raise PackRefused(say("its files lie one within another, or something stands in front of them"))
        end = one.header_offset + _LOCAL + len(one.orig_filename.encode()) + one.compress_size
    if end > size:
        raise PackRefused(say("it is cut short"))
    return members


def _may_be_there(one: zipfile.ZipInfo) -> None:
    name, kind = one.filename, kind_of(one.filename)
    if kind is None or one.orig_filename != name:
        raise PackRefused(
            say("it holds {said}, and no file of that name belongs there", said=_said(one.orig_filename))
        )
    mode = one.external_attr >> 16
    if one.is_dir() or (stat.S_IFMT(mode) not in (0, stat.S_IFREG)):
        raise PackRefused(
            say("{said} in it is not a plain file, but a link, a folder or a device", said=_said(name))
        )
    if one.flag_bits & 0x1:
        raise PackRefused(say("{said} in it cannot be opened without a password", said=_said(name)))
    if one.compress_type not in (zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED):
        raise PackRefused(
            say("{said} in it is compressed in a way not known here: use deflate", said=_said(name))
        )
    most = MOST_OF_KIND[kind]
    if one.file_size > most:
        raise PackRefused(
            say("{said} in it is larger than {most} MB", said=_said(name), most=most // 1_000_000)
        )
    if one.file_size > _SMALL and one.file_size > MOST_RATIO * max(one.compress_size, 1):
        raise PackRefused(
            say(
                "{said} in it would grow more than {most_ratio} times as it is unpacked",
                said=_said(name),
                most_ratio=MOST_RATIO,
            )
        )


def _held(whole: zipfile.ZipFile, one: zipfile.ZipInfo) -> bytes:
    """What a file holds, no more than it says."""
    with whole.open(one) as file:
        data = file.read(one.file_size + 1)
        if len(data) != one.file_size or file.read(1):
            raise PackRefused(say("{said} in it is not as large as it says", said=_said(one.filename)))
    return data


def _as_listed(manifest: Manifest, files: Mapping[str, bytes]) -> None:
    """Every file is as the manifest lists it, and none is missing or more."""
    listed = {one.name: one for one in manifest.files}
    if len(listed) < len(manifest.files):
        raise PackRefused(say("its manifest lists a file twice"))
    for said in _differences(listed, files):
        raise PackRefused(said)


def _differences(listed: Mapping[str, PackedFile], files: Mapping[str, bytes]) -> Iterator[str]:
    for name in sorted(listed.keys() - files.keys()):
        yield say("{said} is missing, which its manifest lists", said=_said(name))
    for name in sorted(files.keys() - listed.keys()):
        yield say("it holds {said}, which its manifest does not list", said=_said(name))
    for name, one in sorted(listed.items()):
        if len(files[name]) != one.bytes or hashlib.sha256(files[name]).hexdigest() != one.sha256:
            yield say("{said} in it is not as it was sent: its checksum is another", said=_said(name))


def _said(name: str) -> str:
    """A name for a sentence, whatever signs it has."""
    plain = "".join(sign if sign.isprintable() else f"\\x{ord(sign):02x}" for sign in name[:80])
    return f'"{plain}"'
