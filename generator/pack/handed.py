"""A job as it is handed to another shop: its files, what it uses of the shop's, what was left out.

    Handed       the files by their names in the zip, and what its manifest says
    handed       the one from a job of this archive
    read_me      the words that go along, for somebody who has none of this

Pictures go along as the sheet shows them: pixels, without what a camera wrote about place and owner.
"""

from __future__ import annotations

import textwrap
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Final

from generator.job.reading import ReadJob, ReadLog, read_block
from generator.job.without import still_named, without
from generator.job.writing import file_text
from generator.job.written import Block, Listing, Scalar
from generator.language.say import later, say
from generator.pack.contents import JOB, LOG, picture_name
from generator.pack.used import PRICES, names_used, shop_texts
from generator.pictures import BadPicture, shown_picture

PARTS: Final = ("customer", "photos", "times", "log")  # what can be left out
REMARKS: Final = later("remarks in the shop's files (after #)")
_WIDTH: Final = 78


@dataclass(frozen=True)
class Handed:
    """What is handed over: files by their names in the zip, what was left out, what to look at before."""

    files: Mapping[str, bytes]
    left_out: tuple[str, ...]
    look_at: tuple[str, ...]


def handed(
    read: ReadJob, log: ReadLog | None, shop_folder: Path, tools: Iterable[str], leave: Collection[str],
) -> Handed:
    """The files of a job for another shop.

    Parameters
    ----------
    read, log : the job of this archive; no log where there is none
    shop_folder : the shop's files
    tools : the names of all tools that its sheet takes
    leave : words of `PARTS`: what stays here

    Raises
    ------
    SheetError
        Where a file cannot be read, or cannot be written without what stays here.
    """
    private: dict[str, Any] = {name: name in leave for name in ("customer", "photos", "times")}
    before = read.path.read_bytes()
    job, left_out = without(before, read.path, **private)
    named = still_named(before, job, read.path) if "customer" in leave else []
    look_at = [say("job.yml: {name} still names the customer", name=name) for name in named]
    files = {}
    if "photos" not in leave:
        job, pictures, missing = _pictures(read, job)
        files.update(pictures)
        left_out += missing
    files[JOB] = job
    if log is not None and "log" not in leave:
        files[LOG], said = without(log.path.read_bytes(), log.path, **private)
        left_out += [say("of the log: {one}", one=one) for one in said]
    elif log is not None:
        left_out.append(say("the log"))
    files.update(shop_texts(shop_folder, names_used(read, None if "log" in leave else log, tools)))
    left_out += [say("of the shop: {prices}", prices=", ".join(PRICES)), str(REMARKS)]
    return Handed(files, tuple(left_out), tuple(look_at))


def _pictures(read: ReadJob, job: bytes) -> tuple[bytes, dict[str, bytes], list[str]]:
    """The job with the names that its pictures have in the zip, these, and which cannot go along."""
    names: dict[str, str] = {}
    files: dict[str, bytes] = {}
    missing = []
    for number, picture in enumerate(read.job.pictures, 1):
        try:
            shown = shown_picture(read.path.parent / picture.file)
        except BadPicture as error:
            missing.append(say("the picture {file}, which {error}", file=picture.file, error=error))
            continue
        name = shown.name_beside(picture.file)
        if not picture_name(f"job/{name}") or f"job/{name}" in files:
            name = f"picture {number}{shown.suffix}"
        names[picture.file], files[f"job/{name}"] = name, shown.data
    if all(old == new for old, new in names.items()):
        return job, files, missing
    tree = read_block(read.path, job)
    photos = tree.get("photos", ())
    tree["photos"] = [_renamed(photo, names) for photo in (photos if isinstance(photos, Listing) else ())]
    return file_text(tree).encode(), files, missing


def _renamed(photo: object, names: Mapping[str, str]) -> object:
    if isinstance(photo, Block):
        copy = Block(photo.where)
        copy.update(photo, file=Scalar(names.get(str(photo["file"]), str(photo["file"]))))
        return copy
    return Scalar(names.get(str(photo), str(photo)))


def read_me(number: str, title: str, shop: str, lathe: str, left_out: Collection[str]) -> str:
    """What the other shop should know, in plain words.

    >>> read_me("SW-1", "Pin", "Saltmarsh Works", "L1", ["the log"]).splitlines()[0]
    'SETUP OF A LATHE JOB: SW-1, Pin'
    """
    said = [
        say("From {shop}, planned there for the lathe {lathe}.", shop=shop, lathe=lathe),
        say("To see it, open sheet.html in any web browser; it needs no other file and no network."),
        say(
            "The figures hold for that lathe, its chucks, dials and tools, as that shop described them, and "
            "for no other. Speeds, dial readings, lever positions, gears, reach and the place of the steady "
            "rest have to be worked out again for yours before anything turns. Check the material, the grip "
            "and the top speed of your chuck yourself. The rules of your country and your shop come first; "
            "where they ask for somebody who is licensed, ask them."
        ),
        say("Where this program is installed, the setup is taken in and computed anew by"),
        say("    python -m generator receive {number}.zip --lathe YOURS", number=number),
        say(
            "Everything else in here is plain text: job/ has the job and its log, shop/ what the job uses "
            "of the sender's lathe, material and tools. manifest.json lists every file with its SHA-256 "
            "checksum; the format is open, and its JSON Schema is printed by: python -m generator schema "
            "--out schemas"
        ),
        say("Left out: {things}.", things="; ".join(map(str, left_out))) if left_out
        else say("Left out: nothing."),
    ]
    paragraphs = [one if one.startswith(" ") else textwrap.fill(one, _WIDTH) for one in said]
    return (
        "\n\n".join([say("SETUP OF A LATHE JOB: {number}, {title}", number=number, title=title), *paragraphs])
        + "\n"
    )
