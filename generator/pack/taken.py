"""A setup that came from another shop, as a new job of this one: pure, from files to files.

    Theirs        what came: the files, and how they read
    Taken         what it becomes here: the files of the new job's folder, and what is other in them
    taken         the one from the other
    as_it_came    what came, to be kept beside it
    folder_name   the name of its folder
    free_number   the sender's number, or the next to it where this shop has it already

What belongs to the sender's lathe or shop does not become this shop's own: their materials and tools stand in
`sender.yml` under names that say so, what their dials, levers and gears said goes into the notes of the log.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import count, product
from string import ascii_uppercase
from typing import Any, Final

from pydantic import BaseModel

from generator.job.beside import SENDER
from generator.job.lessons import FINISHED
from generator.job.names import UNKNOWN
from generator.job.reading import ReadJob, ReadLog, read_block
from generator.job.sender import THEIRS
from generator.job.shop import Shop
from generator.job.writing import entry_text, file_text
from generator.job.written import NOWHERE, Block, Given, Listing, Scalar
from generator.language.say import later, say, say_count
from generator.pack.contents import JOB, MATERIALS, SHEET, TOOLS, Manifest, picture_name
from generator.pack.zipped import zipped

RECEIVED: Final = "received.zip"  # in the job's folder: what came, as it came, without its page
DROPPED: Final = {  # keys of the job that speak of the other shop
    "issued": later("the day the sheet was issued there"),
    "superseded_by": later("the number of the sheet that takes its place there"),
    "people": later("who did what there"),
}
STANDS: Final = {  # of an entry: what the dials of that lathe read
    "turns": later("turns"), "dial": later("dial"), "cross_turns": later("cross turns"), "cross": later(
        "cross"
    ),
}
OF_LATHE: Final = {  # of a stop, or taken up
    **STANDS, "levers": later("levers"), "gears": later("gears"), "dial_line": later("dial line"),
    "tool": later("tool"), "flat": later("flat"), "lathe": later("lathe"),
}
_LONGEST: Final = 48  # signs of a title in a folder's name


@dataclass(frozen=True)
class Theirs:
    """What came: the files by their names in the zip, and how they read in the sender's own shop.

    There is no `shop` where a job file came alone, on paper.
    """

    manifest: Manifest
    files: Mapping[str, bytes]
    read: ReadJob
    log: ReadLog | None
    shop: Shop | None


@dataclass(frozen=True)
class Taken:
    """The new job: its number, its folder's name, its files, and sentences about what is other in them.

    `tree` is the job file as written; `decide` says what somebody has to decide before the job is run.
    """

    number: str
    folder: str
    tree: Block
    files: Mapping[str, bytes]
    changed: tuple[str, ...]
    decide: tuple[str, ...]


def taken(
    theirs: Theirs, shop: Shop, lathe: str, folders: Collection[str], day: str, let_go: Sequence[str] = (),
) -> Taken:
    """The setup as a new job of this shop.

    Parameters
    ----------
    shop, lathe : this shop, and the one of its lathes that the job is for
    folders : the names of the folders of all jobs of this shop
    day : today, as in a job file
    let_go : entries that this lathe cannot carry out, by their dotted names; they are left to the sheet
    """
    tree = read_block(theirs.read.path, theirs.files[JOB])
    written = str(tree["job"])
    number = free_number(written, folders)
    changed = (
        [say("job: {number} instead of {written}, which is taken here", number=number, written=written)]
        if number != written
        else []
    )
    changed.append(say("lathe: {lathe} instead of their {theirs}", lathe=lathe, theirs=tree["lathe"]))
    apart = _Apart(theirs, shop)
    for field, block in _named(tree):
        apart.take(field, block)
    tree["job"], tree["lathe"] = Scalar(number), Scalar(lathe)
    tree["notes"] = [*_notes(tree), _whose(theirs, written)]
    changed.append(say("notes: one more, whose setup it was"))
    if tree.get("status") in FINISHED:
        changed.append(
            say(
                "status: planned instead of {status}; their log is in {received}",
                status=tree["status"],
                received=RECEIVED,
            )
        )
        tree["status"] = Scalar("planned")
    for key, said in DROPPED.items():
        if tree.pop(key, None) is not None:
            changed.append(say("{key}: left out, {said}", key=key, said=said))
    for field in let_go:
        changed.append(_left_to_the_sheet(tree, field))
    sender = Block(NOWHERE)
    sender.update(
        shop=Scalar(theirs.manifest.shop), job=Scalar(written), lathe=Scalar(theirs.manifest.lathe),
        taken_in=Scalar(day), **apart.entries(),
    )
    files = {"job.yml": file_text(tree).encode(), SENDER: file_text(sender).encode()}
    if theirs.log is not None and theirs.log.tree and theirs.read.job.status not in FINISHED:
        files["log.yml"], moved = _log_here(theirs)
        if moved:
            changed.append(
                say_count(
                    "log: {count} entry with what stood on their lathe in the note",
                    "log: {count} entries with what stood on their lathe in the note",
                    moved,
                )
            )
    for name, data in theirs.files.items():
        if picture_name(name):
            files[picture_name(name)] = data
    return Taken(
        number, folder_name(number, str(tree["title"])), tree, files, tuple(changed + apart.renamed),
        tuple(apart.decide),
    )


def folder_name(number: str, title: str) -> str:
    """The name of a job's folder.

    >>> folder_name("SW-7", "Gate stud, new thread")
    'SW-7-gate-stud-new-thread'
    """
    return f"{_plain(number)}-{_plain(title.lower())[:_LONGEST].strip('-') or 'setup'}"


def free_number(number: str, folders: Collection[str]) -> str:
    """The number as it is, or with the first letter from B on that makes it one that no folder has.

    >>> free_number("SW-7", ["SW-8-pin"]), free_number("SW-7", ["SW-7-pin", "SW-7B-pin"])
    ('SW-7', 'SW-7C')
    """
    letters = ("".join(some) for long in count(1) for some in product(ascii_uppercase, repeat=long))
    next(letters)  # the one that has the number already is A
    here = {name[: end.start()].casefold() for name in folders for end in re.finditer(r"-|$", name)}
    tried = number
    while _plain(tried).casefold() in here:
        tried = number + next(letters)
    return tried


def _plain(text: str) -> str:
    """A text as a part of a folder's name on every system."""
    return re.sub(r"[^A-Za-z0-9]+", "-", text).strip("-") or "J"


# -- what is theirs ----------------------------------------------------------------------------------------


# Another one of the name is here; none is; what is to be decided.
_RENAMED: Final = {
    "materials": (
        later("material {name}: is another one here, so the job says {name}{theirs}, as {sender} has it"),
        later("material {name}: is not in your files, so the job says {name}{theirs}, as {sender} has it"),
        later(
            "The job uses their material {name}: write one of yours into the job if it is the same, or go on "
            "with their figures."
        ),
    ),
    "tools": (
        later("tool {name}: is another one here, so the job says {name}{theirs}, as {sender} has it"),
        later("tool {name}: is not in your files, so the job says {name}{theirs}, as {sender} has it"),
        later(
            "The job uses their tool {name}: write one of yours into the job if it is the same, or go on "
            "with their figures."
        ),
    ),
}


class _Apart:
    """Materials and tools of the sender that the job uses and this shop does not have as they are."""

    def __init__(self, theirs: Theirs, shop: Shop) -> None:
        self._shop, self._theirs = shop, theirs.shop
        self._trees = {
            name: read_block(theirs.read.path.parent / name, theirs.files[name])
            for name in (MATERIALS, TOOLS) if name in theirs.files
        }
        self._taken: dict[tuple[str, str], Block] = {}
        self.renamed: list[str] = []
        self.decide: list[str] = []

    def take(self, field: str, block: Block) -> None:
        """Let what stands in the field name an entry of this shop, or the sender's by a name that says so."""
        key = field.rpartition(".")[2]
        name = " ".join(str(block[key]).split())
        if name == UNKNOWN:
            return
        kind, own, theirs = self._both(field, name)
        if self._theirs is None and own is None:
            self._not_there(field, name, block)
            return
        if theirs is None or (own is not None and _figures(own) == _figures(theirs)):
            return
        block[key] = Scalar(name + THEIRS)
        entry = self._written(kind, name)
        if (kind, name) in self._taken or entry is None:
            return
        self._taken[kind, name] = entry
        another, not_there, decide = _RENAMED["materials" if kind == "materials" else "tools"]
        renamed = another if own is not None else not_there
        self.renamed.append(say(renamed, name=name, theirs=THEIRS, sender=SENDER))
        self.decide.append(say(decide, name=name))

    def _not_there(self, field: str, name: str, block: Block) -> None:
        """A name of a job that came alone, and that nobody here knows."""
        key = field.rpartition(".")[2]
        if key == "material":
            block[key] = Scalar(UNKNOWN)
            self.renamed.append(
                say(
                    "{field}: {unknown} instead of {name}, which is not in your files",
                    field=field,
                    unknown=UNKNOWN,
                    name=name,
                )
            )
            self.decide.append(
                say("Their material {name} is not in your files: find out what it is like.", name=name)
            )
        else:
            del block[key]
            self.renamed.append(
                say("{field}: {name} is not in your files, and left to the sheet", field=field, name=name)
            )

    def entries(self) -> dict[str, list[Block]]:
        """The entries for `sender.yml`, by its keys."""
        found: dict[str, list[Block]] = {}
        for (kind, _), entry in self._taken.items():
            found.setdefault(kind, []).append(entry)
        return found

    def _both(self, field: str, name: str) -> tuple[str, BaseModel | None, BaseModel | None]:
        """The key of the list it belongs to, and the entries of both shops."""
        shops = (self._shop, self._theirs)
        if field.endswith("material"):
            own, theirs = (shop.materials.get(name) if shop else None for shop in shops)
            return "materials", own, theirs
        kind = "threading" if ".thread." in field else "cutting"
        own, theirs = (
            next((tool for tool in getattr(shop.tools, kind) if tool.name == name), None) if shop else None
            for shop in shops
        )
        return kind, own, theirs

    def _written(self, kind: str, name: str) -> Block | None:
        tree = self._trees.get(MATERIALS if kind == "materials" else TOOLS, Block(NOWHERE))
        for entry in tree.get(kind, ()):
            if " ".join(str(entry.get("name", "")).split()) == name:
                copy = Block(entry.where)
                copy.update(entry, name=Scalar(name + THEIRS))
                if "units" in tree:
                    copy.setdefault("units", tree["units"])
                return copy
        return None


def _named(tree: Block) -> Iterator[tuple[str, Block]]:
    """What names a material or tool: the dotted field, and the block in which its last key stands."""
    if "material" in tree:
        yield "material", tree
    mate = tree.get("mate")
    if isinstance(mate, Block) and "material" in mate:
        yield "mate.material", mate
    operations = tree.get("operations")
    for operation in operations if isinstance(operations, Listing) else ():
        for name, given in operation.items() if isinstance(operation, Block) else ():
            if isinstance(given, Block) and "tool" in given:
                yield f"operations.{name}.tool", given


def _figures(entry: object) -> object:
    """What an entry says, however it is written."""
    if isinstance(entry, Given):
        return entry.si, entry.quantity
    if isinstance(entry, BaseModel):
        return {name: _figures(value) for name, value in entry if name not in ("source", "units")}
    if isinstance(entry, list | tuple):
        return [_figures(one) for one in entry]
    return entry


def _notes(tree: Block) -> list[Any]:
    notes = tree.get("notes", Listing(NOWHERE))
    return notes if isinstance(notes, Listing) else [notes]


def _whose(theirs: Theirs, number: str) -> Scalar:
    """Whose setup it was, for everybody who reads the sheet."""
    said = theirs.manifest
    return Scalar(
        say(
            "Taken in from {shop}, {number} there, planned for their {lathe}; "
            "as it came it is in {received}.",
            shop=said.shop,
            number=number,
            lathe=said.lathe,
            received=RECEIVED,
        ),
        quoted=True,
    )


def _left_to_the_sheet(tree: Block, field: str) -> str:
    """Take an entry out of the tree; a sentence about it."""
    *way, key = field.split(".")
    node: Any = tree
    for step in way:
        node = node[int(step)] if isinstance(node, list) else node[step]
    said = node[key]
    if field == "holding.steady.at":
        node[key] = Scalar("auto")
    else:
        del node[key]
    return say(
        "{field}: {said} is left to the sheet, for it was chosen for their lathe", field=field, said=said
    )


# -- the log -----------------------------------------------------------------------------------------------


def _log_here(theirs: Theirs) -> tuple[bytes, int]:
    """Their log without what only their dials and levers mean, which goes into the notes; and how often."""
    assert theirs.log is not None
    assert theirs.log.tree is not None
    assert theirs.shop is not None  # a log does not come alone
    dials = theirs.shop.lathes[theirs.read.job.lathe].units
    entries, moved = [], 0
    for entry in theirs.log.tree:
        new, stood = _entry_here(entry)
        if stood:
            moved += 1
            said = say("On their lathe, dials in {dials}: {stood}.", dials=dials, stood="; ".join(stood))
            new["note"] = Scalar(f"{new['note']} {said}" if "note" in new else said)
        entries.append(new)
    return "".join(map(entry_text, entries)).encode(), moved


def _entry_here(entry: Block) -> tuple[Block, list[str]]:
    """An entry without what stood on their lathe, and what that was."""
    new, stood = Block(entry.where), []
    for key, value in entry.items():
        if key in STANDS:
            stood.append(f"{STANDS[key]} {value}")
        elif key in ("stop", "taken_up") and isinstance(value, Block):
            left, here = Block(value.where), list[str]()
            for inner, said in value.items():
                if inner in OF_LATHE:
                    here.append(f"{OF_LATHE[inner]} {said}")
                else:
                    left[inner] = said
            new[key] = left or Scalar("yes")
            if here and key == "stop":
                stood.append(say("stop with {values}", values=", ".join(here)))
            elif here:
                stood.append(say("taken up with {values}", values=", ".join(here)))
        else:
            new[key] = value
    return new, stood


def as_it_came(theirs: Theirs) -> bytes:
    """What came, for `RECEIVED`, packed anew: their page is no file to trust, and is made anew here."""
    files = {name: data for name, data in theirs.files.items() if name != SHEET}
    said = theirs.manifest.model_dump(exclude={"files"})
    return zipped(files, **{**said, "left_out": (*theirs.manifest.left_out, say("the sheet as a page"))})
