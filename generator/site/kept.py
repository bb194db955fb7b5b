"""Pages kept from one build to the next: a job whose files and program are as before is not computed again.

    Cache          a folder: `pages.db` says what is kept of each job, the files beside it are the pages
    Kept           what is kept of one job
    Stored         a file of the cache as it was written

Nothing in it is believed: a row carries a digest of itself, a file must stand as it was written, and what
does not fit is made anew. The folder can be removed at any time.
"""

from __future__ import annotations

import hashlib
import json
import logging
import os
import shutil
import sqlite3
import tempfile
from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import contextmanager, suppress
from dataclasses import asdict, dataclass, field
from functools import reduce
from operator import or_
from pathlib import Path
from typing import Any, Final, Self

from filelock import FileLock, Timeout

from generator.site.job_files import SeenFile

log = logging.getLogger("mkdocs.plugins.setup_sheets")

DATABASE: Final = "pages.db"
FILES: Final = "files"
LAYOUT: Final = 1  # of the rows; another number begins the cache anew
_TABLES: Final = """
    CREATE TABLE IF NOT EXISTS job (path TEXT PRIMARY KEY, kept TEXT, seal TEXT) WITHOUT ROWID;
    CREATE TABLE IF NOT EXISTS said (name TEXT PRIMARY KEY, key TEXT, text TEXT, seal TEXT) WITHOUT ROWID;
    CREATE TABLE IF NOT EXISTS line (number INTEGER PRIMARY KEY, said TEXT UNIQUE, seal TEXT);
"""


@dataclass(frozen=True)
class Stored:
    """A file of the cache: its name there, its size, when it was written (ns)."""

    name: str
    size: int
    written: int


@dataclass(frozen=True)
class Kept:
    """What is kept of one job.

    `key` is all that the page depends on, but for the `lessons` of other jobs, "" where it shows none.
    `files` are the job's own. `page` is the page in its `frame`, or
    the body alone where that is empty; the body are `length` bytes from `start` on. `pictures` stand beside
    the page, by their names in the site. `entry` is what the archive knows of the job; `lines`, in hex, has
    a bit for each line of the site's lists that this page brings.
    """

    key: str
    files: Mapping[str, SeenFile]
    entry: Mapping[str, Any]
    lines: str
    page: Stored
    length: int
    start: int = 0
    frame: str = ""
    pictures: Mapping[str, Stored] = field(default_factory=dict)
    lessons: str = ""


class Cache:
    """The kept pages of one site, for one build at a time; another build waits.

    Raises
    ------
    OSError
        From every method that writes, when it cannot.
    """

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self._lock = FileLock(folder / "lock")
        self._kept: dict[str, Kept] = {}
        self._lines: dict[str, int] = {}

    def __enter__(self) -> Self:
        (self.folder / FILES).mkdir(parents=True, exist_ok=True)
        try:
            self._lock.acquire(timeout=0)
        except Timeout:
            log.warning("Another build of this site is running; this one begins when it is done.")
            self._lock.acquire()
        try:
            self._read()
        except (sqlite3.Error, ValueError, TypeError, KeyError):  # damaged, or not ours
            self._begin_anew()
        return self

    def __exit__(self, *_: object) -> None:
        with suppress(sqlite3.Error):
            self._database.close()
        self._lock.release()

    def of(self, path: str) -> Kept | None:
        """What is kept of a job, with its page and pictures as they were written; None: make it anew."""
        kept = self._kept.get(path)
        if kept is None or not all(map(self._stands, (kept.page, *kept.pictures.values()))):
            return None
        return kept

    def files_of(self, path: str) -> Mapping[str, SeenFile]:
        """The files of a job as they were last seen."""
        kept = self._kept.get(path)
        return kept.files if kept else {}

    def lines_of(self, path: str) -> str:
        """The bits of the lines that a job's page brings."""
        kept = self._kept.get(path)
        return kept.lines if kept else "0"

    def keep(self, path: str, kept: Kept) -> None:
        """Put this in the place of what was kept of the job; `save` makes it last."""
        self._kept[path] = kept
        said = json.dumps(asdict(kept), ensure_ascii=False, separators=(",", ":"))
        with _as_os_error(self.folder):
            row = (path, said, _seal(path, said))
            self._database.execute("INSERT OR REPLACE INTO job VALUES (?, ?, ?)", row)

    def said(self, name: str, key: str, say: Callable[[], str]) -> str:
        """A text that depends on nothing but `key`; it is said anew where another key was kept, or none."""
        with _as_os_error(self.folder):
            asked = self._database.execute("SELECT key, text, seal FROM said WHERE name = ?", (name,))
            kept = asked.fetchone()
            if kept and kept[0] == key and kept[2] == _seal(f"{name} {key}", kept[1]):
                return str(kept[1])
            text = say()
            row = (name, key, text, _seal(f"{name} {key}", text))
            self._database.execute("INSERT OR REPLACE INTO said VALUES (?, ?, ?, ?)", row)
            return text

    def save(self) -> None:
        """Make what was kept last beyond this build."""
        with _as_os_error(self.folder):
            self._database.commit()

    def tidy(self, paths: Iterable[str]) -> None:
        """Keep nothing but these jobs, and no file that none of them needs."""
        with _as_os_error(self.folder):
            for path in self._kept.keys() - set(paths):
                del self._kept[path]
                self._database.execute("DELETE FROM job WHERE path = ?", (path,))
        self.save()
        needed = {
            stored.name for kept in self._kept.values() for stored in (kept.page, *kept.pictures.values())
        }
        for folder in (self.folder / FILES).iterdir():
            for file in folder.iterdir():
                if f"{folder.name}/{file.name}" not in needed:
                    with suppress(OSError):
                        file.unlink()

    # -- files -------------------------------------------------------------------------------------------

    def link(self, stored: Stored, target: Path) -> None:
        """Let the file stand in the site too: the same file where the disk can, else a copy."""
        source = self.folder / FILES / stored.name
        try:
            os.link(source, target)
        except OSError:
            shutil.copyfile(source, target)

    def body(self, kept: Kept) -> bytes:
        """The body of a page, without its frame."""
        with (self.folder / FILES / kept.page.name).open("rb") as file:
            file.seek(kept.start)
            return file.read(kept.length)

    def _stands(self, stored: Stored) -> bool:
        try:
            found = os.stat(os.path.join(self.folder, FILES, stored.name))
        except OSError:
            return False
        return (found.st_size, found.st_mtime_ns) == (stored.size, stored.written)

    # -- lines of the site's lists -----------------------------------------------------------------------

    def lines_as_bits(self, lines: Iterable[str]) -> str:
        """A bit for each line, in hex; a line that no page brought before gets the next bit."""
        bits = 0
        for line in lines:
            if line not in self._lines:
                number = self._lines[line] = len(self._lines)
                with _as_os_error(self.folder):
                    row = (number, line, _seal(str(number), line))
                    self._database.execute("INSERT INTO line VALUES (?, ?, ?)", row)
            bits |= 1 << self._lines[line]
        return f"{bits:x}"

    def lines(self, bits: Iterable[str]) -> list[str]:
        """Every line that has its bit in one of these, in the order of the alphabet."""
        every = reduce(or_, (int(one, 16) for one in bits), 0)
        return sorted(line for line, number in self._lines.items() if every >> number & 1)

    # -- the database ------------------------------------------------------------------------------------

    def _read(self) -> None:
        self._database = sqlite3.connect(self.folder / DATABASE)
        (layout,) = self._database.execute("PRAGMA user_version").fetchone()
        (whole,) = self._database.execute("PRAGMA quick_check(1)").fetchone()
        (tables,) = self._database.execute("SELECT count(*) FROM sqlite_master").fetchone()
        if whole != "ok" or layout != (LAYOUT if tables else 0):
            raise ValueError("damaged, or not ours")
        self._database.executescript(f"{_TABLES}PRAGMA user_version = {LAYOUT};")
        lines = self._database.execute("SELECT number, said, seal FROM line ORDER BY number")
        for number, line, seal in lines:
            if number != len(self._lines) or seal != _seal(str(number), line):
                raise ValueError("damaged")  # every page may bring this line
            self._lines[line] = number
        for path, said, seal in self._database.execute("SELECT path, kept, seal FROM job"):
            if seal == _seal(path, said):
                self._kept[path] = _read_kept(said)

    def _begin_anew(self) -> None:
        log.info("%s: cannot be used, so every sheet is made anew", self.folder)
        with suppress(AttributeError, sqlite3.Error):
            self._database.close()
        self._kept.clear()
        self._lines.clear()
        for left in self.folder.glob(f"{DATABASE}*"):
            left.unlink()
        with _as_os_error(self.folder):
            self._read()


def store(folder: Path, name: str, data: bytes) -> Stored:
    """Write a file of the cache as one step."""
    target = folder / FILES / name
    target.parent.mkdir(exist_ok=True)
    with tempfile.NamedTemporaryFile(dir=target.parent, suffix=".new", delete=False) as file:
        file.write(data)
    os.chmod(file.name, 0o644)
    os.replace(file.name, target)
    return Stored(name, len(data), target.stat().st_mtime_ns)


def _read_kept(said: str) -> Kept:
    read = json.loads(said)
    read["files"] = {name: SeenFile(**file) for name, file in read["files"].items()}
    read["page"] = Stored(**read["page"])
    read["pictures"] = {name: Stored(**file) for name, file in read["pictures"].items()}
    return Kept(**read)


def _seal(name: str, said: str) -> str:
    return hashlib.sha256(f"{name}\n{said}".encode("utf-8", "surrogateescape")).hexdigest()[:32]


@contextmanager
def _as_os_error(folder: Path) -> Iterator[None]:
    """What SQLite says of a full or locked disk, as every other fault of a file is said."""
    try:
        yield
    except sqlite3.Error as error:
        raise OSError(None, str(error), str(folder / DATABASE)) from error
