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
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager, suppress
from functools import reduce
from operator import or_
from pathlib import Path
from typing import Any, Final, NamedTuple, Self

from filelock import FileLock, Timeout

from generator.collecting import without_collecting
from generator.language.say import say
from generator.site.job_files import Seen

log = logging.getLogger("mkdocs.plugins.setup_sheets")

DATABASE: Final = "pages.db"
FILES: Final = "files"
LAYOUT: Final = 3  # of the rows; another number begins the cache anew
_PAGE: Final = "PRAGMA page_size = 16384;"  # rows of 2 kB are read at half the cost, before any table is made
_TABLES: Final = """
    CREATE TABLE IF NOT EXISTS job (
        path TEXT PRIMARY KEY, names TEXT, stats TEXT, digest TEXT, lasting INT, strays TEXT,
        key TEXT, shows TEXT, follows TEXT, superseded_by TEXT, entry TEXT, likeness TEXT, lessons TEXT,
        lines TEXT,
        page TEXT, size INT, written INT, start INT, length INT, frame TEXT, pictures TEXT, seal BLOB
    );
    CREATE TABLE IF NOT EXISTS written (path TEXT PRIMARY KEY, text TEXT, seal BLOB);
    CREATE TABLE IF NOT EXISTS said (name TEXT PRIMARY KEY, key TEXT, said TEXT, seal BLOB) WITHOUT ROWID;
    CREATE TABLE IF NOT EXISTS line (number INTEGER PRIMARY KEY, said TEXT UNIQUE, seal BLOB);
    CREATE TABLE IF NOT EXISTS content (
        name TEXT PRIMARY KEY, key TEXT, file TEXT, size INT, written INT, seal BLOB
    ) WITHOUT ROWID;
"""


class Stored(NamedTuple):
    """A file of the cache: its name there, its size, when it was written (ns)."""

    name: str
    size: int
    written: int


class Kept(NamedTuple):
    """What is kept of one job.

    `seen` is its folder. `key` is all that the page depends on, but for what it `shows` of the lessons of
    other jobs and the jobs that it `follows`, one taking the place of the other, each as a word, "" for
    nothing; `superseded_by` is the number of the first of these. `entry` is what the archive knows of the
    job, without the text of its row (`Cache.written`), `likeness` what makes another job like it, where it
    learns from others, `lessons` what others learn from it, each as JSON or "". `lines`, in hex, has a bit
    for each line of the site's lists that this page brings. `page` is the page in its
    `frame`; the body are `length` bytes from `start` on. `pictures` stand beside the page, by their
    names in the site.
    """

    seen: Seen
    key: str
    shows: str
    follows: str
    superseded_by: str
    entry: str
    likeness: str
    lessons: str
    lines: str
    page: Stored
    start: int
    length: int
    frame: str
    pictures: str

    @property
    def stored_pictures(self) -> dict[str, Stored]:
        """The pictures as they were written."""
        if not self.pictures:
            return {}
        return {name: Stored(*file) for name, file in json.loads(self.pictures).items()}


class Paged(NamedTuple):
    """The path of a job's file, and what is kept of the job."""

    path: str
    kept: Kept


class Cache:
    """The kept pages of one site, for one build at a time; another build waits.

    Raises
    ------
    OSError
        From every method that writes, when it cannot.
    """

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.linked = True  # until the disk could not
        self._files = os.path.join(folder, FILES)
        self._lock = FileLock(folder / "lock")
        self._kept: dict[str, Kept] = {}
        self._lines: dict[str, int] = {}

    def __enter__(self) -> Self:
        (self.folder / FILES).mkdir(parents=True, exist_ok=True)
        try:
            self._lock.acquire(timeout=0)
        except Timeout:
            log.warning(say("Another build of this site is running; this one begins when it is done."))
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

    # -- jobs --------------------------------------------------------------------------------------------

    def of(self, path: str) -> Kept | None:
        """What is kept of a job, with its page and pictures as they were written; None: make it anew."""
        kept = self._kept.get(path)
        if kept is None or not self.stands(kept.page):
            return None
        if kept.pictures and not all(map(self.stands, kept.stored_pictures.values())):
            return None
        return kept

    def seen_of(self, path: str) -> Seen:
        """The folder of a job as it was seen last."""
        kept = self._kept.get(path)
        return kept.seen if kept else Seen()

    def written(self, path: str) -> str:
        """What somebody wrote in the files of the job, as it was kept with its page.

        Raises
        ------
        OSError
            When it does not stand as it was kept; the next build makes every job anew.
        """
        with self.writing() as database:
            asked = database.execute("SELECT text, seal FROM written WHERE path = ?", (path,))
            found = asked.fetchone()
            if found and found[1] == seal(path, found[0]):
                return str(found[0])
            database.execute("DELETE FROM job")
            database.commit()
        raise OSError(None, say("is damaged; build again, and every sheet is made anew"), str(self.folder))

    def keep_written(self, path: str, text: str) -> None:
        """Keep what somebody wrote in the files of the job; only the index of the search asks for it."""
        with self.writing() as database, suppress(UnicodeEncodeError):  # a name that is no text
            row = (path, text, seal(path, text))
            database.execute("INSERT OR REPLACE INTO written VALUES (?, ?, ?)", row)

    def keep(self, path: str, kept: Kept) -> None:
        """Put this in the place of what was kept of the job; `save` makes it last."""
        self._kept[path] = kept
        names, stats, held, lasting, strays = kept.seen  # a truth comes back from SQLite as a number
        row = (path, names, stats, held, int(lasting), strays, *kept[1:9], *kept.page, *kept[10:])
        marks = ", ".join("?" * (len(row) + 1))
        with self.writing() as database, suppress(UnicodeEncodeError):  # a name that is no text
            database.execute(f"INSERT OR REPLACE INTO job VALUES ({marks})", (*row, seal(*row)))

    def tidy(self, paths: Iterable[str], contents: Iterable[str]) -> None:
        """Keep nothing but these jobs and these contents, and no file that none of them needs."""
        with self.writing() as database:
            for path in self._kept.keys() - set(paths):
                del self._kept[path]
                with suppress(UnicodeEncodeError):
                    database.execute("DELETE FROM job WHERE path = ?", (path,))
                    database.execute("DELETE FROM written WHERE path = ?", (path,))
        self.save()
        needed = {kept.page.name for kept in self._kept.values()}.union(contents)
        for kept in self._kept.values():
            needed.update(one.name for one in kept.stored_pictures.values())
        for folder in os.listdir(self._files):
            for name in os.listdir(os.path.join(self._files, folder)):
                if f"{folder}/{name}" not in needed:
                    with suppress(OSError):
                        os.unlink(os.path.join(self._files, folder, name))

    # -- texts -------------------------------------------------------------------------------------------

    def said(self, name: str, key: str, say: Callable[[], str]) -> str:
        """A text that depends on nothing but `key`; it is said anew where another key was kept, or none."""
        with self.writing() as database:
            asked = database.execute("SELECT key, said, seal FROM said WHERE name = ?", (name,))
            kept = asked.fetchone()
            if kept and kept[0] == key and kept[2] == seal(name, key, kept[1]):
                return str(kept[1])
            text = say()
            row = (name, key, text, seal(name, key, text))
            database.execute("INSERT OR REPLACE INTO said VALUES (?, ?, ?, ?)", row)
            return text

    def save(self) -> None:
        """Make what was kept last beyond this build."""
        with self.writing() as database:
            database.commit()

    @contextmanager
    def writing(self) -> Iterator[sqlite3.Connection]:
        """The database; what SQLite says of a full or locked disk is said as of every other file."""
        with _as_os_error(self.folder):
            yield self._database

    # -- files -------------------------------------------------------------------------------------------

    def store(self, name: str, data: bytes) -> Stored:
        """Write a file of the cache as one step."""
        target = os.path.join(self._files, name)
        os.makedirs(os.path.dirname(target), exist_ok=True)
        with tempfile.NamedTemporaryFile(dir=os.path.dirname(target), suffix=".new", delete=False) as file:
            file.write(data)
        os.chmod(file.name, 0o644)
        os.replace(file.name, target)
        return Stored(name, len(data), os.stat(target).st_mtime_ns)

    def link(self, stored: Stored, target: str) -> None:
        """Let the file stand in the site too: the same file where the disk can, else a copy.

        What stands there is left where it is as it was written: a copy has a later time.
        """
        source = f"{self._files}/{stored.name}"
        if _is(stored, target):
            return
        with suppress(FileNotFoundError):
            os.unlink(target)
        try:
            os.link(source, target)
        except OSError:
            self.linked = False
            shutil.copyfile(source, target)

    def body(self, kept: Kept) -> bytes:
        """The body of a page, without its frame."""
        with open(os.path.join(self._files, kept.page.name), "rb") as file:
            file.seek(kept.start)
            return file.read(kept.length)

    def stands(self, stored: Stored) -> bool:
        """True where the file is as it was written."""
        return _is(stored, f"{self._files}/{stored.name}")

    # -- lines of the site's lists -----------------------------------------------------------------------

    def lines_as_bits(self, lines: Iterable[str]) -> str:
        """A bit for each line, in hex; a line that no page brought before gets the next bit."""
        bits = 0
        for line in lines:
            if line not in self._lines:
                number = self._lines[line] = len(self._lines)
                with self.writing() as database:
                    row = (number, line, seal(number, line))
                    database.execute("INSERT INTO line VALUES (?, ?, ?)", row)
            bits |= 1 << self._lines[line]
        return f"{bits:x}"

    def lines(self, bits: Iterable[str]) -> list[str]:
        """Every line that has its bit in one of these, in the order of the alphabet."""
        every = reduce(or_, (int(one, 16) for one in set(bits)), 0)
        return sorted(line for line, number in self._lines.items() if every >> number & 1)

    # -- the database ------------------------------------------------------------------------------------

    def _read(self) -> None:
        self._database = sqlite3.connect(self.folder / DATABASE)
        self._database.execute(_PAGE)
        (layout,) = self._database.execute("PRAGMA user_version").fetchone()
        (whole,) = self._database.execute("PRAGMA quick_check(1)").fetchone()
        (tables,) = self._database.execute("SELECT count(*) FROM sqlite_master").fetchone()
        if whole != "ok" or layout != (LAYOUT if tables else 0):
            raise ValueError("damaged, or not ours")
        self._database.executescript(f"{_TABLES}PRAGMA user_version = {LAYOUT};")
        lines = self._database.execute("SELECT number, said, seal FROM line ORDER BY number")
        for number, line, sealed in lines:
            if number != len(self._lines) or sealed != seal(number, line):
                raise ValueError("damaged")  # every page may bring this line
            self._lines[line] = number
        with without_collecting():
            for *row, sealed in self._database.execute("SELECT * FROM job"):
                if sealed == seal(*row):
                    self._kept[row[0]] = _kept(row)

    def _begin_anew(self) -> None:
        log.info(say("{folder}: cannot be used, so every sheet is made anew", folder=self.folder))
        with suppress(AttributeError, sqlite3.Error):
            self._database.close()
        self._kept.clear()
        self._lines.clear()
        for left in self.folder.glob(f"{DATABASE}*"):
            left.unlink()
        with _as_os_error(self.folder):
            self._read()


def _kept(row: list[Any]) -> Kept:
    seen = Seen(row[1], row[2], row[3], bool(row[4]), row[5])
    return Kept._make((seen, *row[6:14], Stored(*row[14:17]), *row[17:]))


def _is(stored: Stored, path: str) -> bool:
    try:
        found = os.stat(path)
    except OSError:
        return False
    return found.st_size == stored.size and found.st_mtime_ns == stored.written


def seal(*said: object) -> bytes:
    """A digest of a row, against what disks and other programs do to it."""
    whole = "\x1f".join(map(str, said)).encode("utf-8", "surrogateescape")
    return hashlib.blake2b(whole, digest_size=12).digest()


@contextmanager
def _as_os_error(folder: Path) -> Iterator[None]:
    try:
        yield
    except sqlite3.Error as error:
        raise OSError(None, str(error), str(folder / DATABASE)) from error
