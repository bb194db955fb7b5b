"""The index of the search, kept from one build to the next: only the blocks with a job that changed are new.

    WordIndex    `words.db` in the cache: the words of each job, what every file of the index has of a block

Nothing in it is believed, as in the cache itself: a damaged one is made anew from the pages.
"""

from __future__ import annotations

import sqlite3
from array import array
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager, suppress
from dataclasses import replace
from functools import partial
from hashlib import blake2b
from typing import Final

from generator.archive.blocks import Block
from generator.archive.columns import FOLDER
from generator.archive.listed import Content
from generator.archive.search_index import shard, shard_names, spread
from generator.archive.words import words_of
from generator.render.packed import unpacked
from generator.sheet.row import ArchiveRow
from generator.site.hands import Hands
from generator.site.kept import Cache, Paged, seal
from generator.site.program_key import word

DATABASE: Final = "words.db"
LAYOUT: Final = 1
_TABLES: Final = """
    CREATE TABLE IF NOT EXISTS words (path TEXT PRIMARY KEY, page TEXT, said TEXT, seal BLOB) WITHOUT ROWID;
    CREATE TABLE IF NOT EXISTS block (
        name TEXT PRIMARY KEY, key TEXT, digests BLOB, seal BLOB
    ) WITHOUT ROWID;
    CREATE TABLE IF NOT EXISTS segment (
        shard TEXT, block TEXT, said TEXT, seal BLOB, PRIMARY KEY (shard, block)
    ) WITHOUT ROWID;
    CREATE INDEX IF NOT EXISTS segments_of ON segment (block);
"""


class Damaged(Exception):
    """The database does not hold what was written."""


class WordIndex:
    """The words of all jobs, beside the pages of `cache`.

    Raises
    ------
    OSError
        From every method, when the database cannot be written.
    """

    def __init__(self, cache: Cache, hands: Hands) -> None:
        self._cache, self._hands = cache, hands
        self._path = cache.folder / DATABASE
        try:
            self._open()
        except Damaged:
            self.begin_anew()

    def close(self) -> None:
        """Leave the database."""
        with suppress(sqlite3.Error):
            self._database.close()

    def begin_anew(self) -> None:
        """Forget everything; it is made again from the pages."""
        self.close()
        for left in self._path.parent.glob(f"{DATABASE}*"):
            left.unlink()
        self._open()

    def keep(self, path: str, page: str, words: str) -> None:
        """Keep the words of a job, a line each, as its page of this name brings them."""
        try:
            with self._asked() as database, suppress(UnicodeEncodeError):  # a name that is no text
                row = (path, page, words)
                database.execute("INSERT OR REPLACE INTO words VALUES (?, ?, ?, ?)", (*row, seal(*row)))
        except Damaged:
            self.begin_anew()

    def begin(self, blocks: Sequence[tuple[Block, Sequence[Paged]]]) -> None:
        """Begin to make what has to be made anew; `blocks` are the whole archive, jobs in the same order.

        Raises
        ------
        Damaged
            As `contents`.
        """
        with self._asked() as database:
            self._blocks, self._names = blocks, shard_names(spread(len(blocks)))
            rows = database.execute("SELECT name, key, digests, seal FROM block")
            kept = {row[0]: row for row in rows}
            self._gone = kept.keys() - {block.name for block, _ in blocks}
            self._keys = [
                word(str(len(self._names)), *(job.kept.page.name for job in jobs)) for _, jobs in blocks
            ]
            self._digests = [
                self._digests_of(kept.get(block.name), key)
                for (block, _), key in zip(blocks, self._keys, strict=True)
            ]
            self._segments = self._hands.segments(
                (self._words_of(block, jobs), len(self._names))
                for (block, jobs), digests in zip(blocks, self._digests, strict=True) if digests is None
            )

    def contents(self) -> list[Content]:
        """The files of the index.

        Raises
        ------
        Damaged
            From the contents, too, as they are made; `begin_anew` mends it.
        """
        with self._asked() as database:
            for gone in self._gone:
                database.execute("DELETE FROM segment WHERE block = ?", (gone,))
                database.execute("DELETE FROM block WHERE name = ?", (gone,))
            digests = [
                array("Q", kept or self._renewed(block, key, next(self._segments), database))
                for (block, _), key, kept in zip(self._blocks, self._keys, self._digests, strict=True)
            ]
            database.commit()
        order = [block.name for block, _ in self._blocks]
        head = "\n".join(order).encode()
        columns = zip(*digests, strict=True) if digests else ((),) * len(self._names)
        return [
            Content(
                f"{FOLDER}/words/{name}.js", blake2b(head + array("Q", column).tobytes()).hexdigest()[:32],
                partial(self._shard, name, order),
            )
            for name, column in zip(self._names, columns, strict=True)
        ]

    # -- segments ----------------------------------------------------------------------------------------

    def _digests_of(self, row: tuple[str, str, bytes, bytes] | None, key: str) -> bytes | None:
        """What is kept of a block; None where it has to be made anew."""
        if row is None or row[1] != key or row[3] != seal(*row[:3]) or len(row[2]) != 8 * len(self._names):
            return None
        return row[2]

    def _renewed(
        self, block: Block, key: str, found: Mapping[str, str], database: sqlite3.Connection
    ) -> bytes:
        """Keep what every file has of a block; eight bytes for each file, another for any other text."""
        database.execute("DELETE FROM segment WHERE block = ?", (block.name,))
        database.executemany(
            "INSERT INTO segment VALUES (?, ?, ?, ?)",
            [(name, block.name, said, seal(name, block.name, said)) for name, said in found.items()],
        )
        digests = b"".join(
            blake2b(found[name].encode(), digest_size=8).digest() if name in found else bytes(8)
            for name in self._names
        )
        row = (block.name, key, digests)
        database.execute("INSERT OR REPLACE INTO block VALUES (?, ?, ?, ?)", (*row, seal(*row)))
        return digests

    def _words_of(self, block: Block, jobs: Sequence[Paged]) -> list[str]:
        return [self._words(job, one.row) for job, one in zip(jobs, block.jobs, strict=True)]

    def _words(self, job: Paged, row: ArchiveRow) -> str:
        """The words that are kept, or those of the page that is kept, a line each."""
        with suppress(UnicodeEncodeError):
            asked = self._database.execute("SELECT * FROM words WHERE path = ?", (job.path,))
            found = asked.fetchone()
            if found and found[1] == job.kept.page.name and found[3] == seal(*found[:3]):
                return str(found[2])
        row = replace(row, text=self._cache.written(job.path))
        words = "\n".join(words_of(unpacked(self._cache.body(job.kept).decode("utf-8")), row))
        self.keep(job.path, job.kept.page.name, words)
        return words

    def _shard(self, name: str, order: Sequence[str]) -> str:
        with self._asked() as database:
            asked = database.execute("SELECT block, said, seal FROM segment WHERE shard = ?", (name,))
            found = {}
            for block, said, sealed in asked:
                if sealed != seal(name, block, said):
                    raise Damaged(name)
                found[block] = said
        return shard(name, [(block, found[block]) for block in order if block in found])

    # -- the database ------------------------------------------------------------------------------------

    def _open(self) -> None:
        self._database = sqlite3.connect(self._path)
        with self._asked() as database:
            (layout,) = database.execute("PRAGMA user_version").fetchone()
            (tables,) = database.execute("SELECT count(*) FROM sqlite_master").fetchone()
            if layout != (LAYOUT if tables else 0):
                raise Damaged("not ours")
            database.executescript(f"{_TABLES}PRAGMA user_version = {LAYOUT};")

    @contextmanager
    def _asked(self) -> Iterator[sqlite3.Connection]:
        """The database; a full or locked disk is said as of every other file."""
        try:
            yield self._database
        except sqlite3.OperationalError as error:
            raise OSError(None, str(error), str(self._path)) from error
        except sqlite3.DatabaseError as error:
            raise Damaged(str(error)) from error
