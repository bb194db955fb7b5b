"""What lies in a job's folder, as far as its sheet depends on it: each file's stat and its digest.

    seen_files     the files of one folder; one that stands as it was seen before is not read again
    digest         all of them in one word
"""

from __future__ import annotations

import hashlib
import os
import time
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from generator.job.fields import PICTURES_NOT_TAKEN, PICTURES_TAKEN

WRITTEN: Final = ("job.yml", "log.yml")
TOO_FRESH: Final = 2_000_000_000  # ns: the coarsest step of a file's time; two writes within it look alike
UNREADABLE: Final = "unreadable"


@dataclass(frozen=True)
class SeenFile:
    """A file as it was seen at a time (ns since 1970, this machine's clock)."""

    size: int
    written: int
    changed: int
    number: int
    seen: int
    digest: str

    def stands(self, found: os.stat_result) -> bool:
        """True when nothing can have been written into it since it was seen."""
        return (
            (self.size, self.written, self.changed, self.number)
            == (found.st_size, found.st_mtime_ns, found.st_ctime_ns, found.st_ino)
            and max(self.written, self.changed) < self.seen - TOO_FRESH
            and self.digest != UNREADABLE
        )


def seen_files(folder: Path, before: Mapping[str, SeenFile]) -> dict[str, SeenFile]:
    """The files of a job's folder that its sheet can show, by name; an unreadable one has its own digest."""
    seen: dict[str, SeenFile] = {}
    try:
        with os.scandir(folder) as entries:
            names = sorted(entry.name for entry in entries if _counts(entry.name))
    except OSError:
        return seen
    for name in names:
        path = os.path.join(folder, name)
        earlier = before.get(name)
        now = time.time_ns()
        try:
            found = os.stat(path)
            if earlier is not None and earlier.stands(found):
                seen[name] = earlier
                continue
            with open(path, "rb", opener=_without_waiting) as file:
                read = hashlib.file_digest(file, "sha256").hexdigest()
        except OSError:
            seen[name] = SeenFile(0, 0, 0, 0, now, UNREADABLE)
            continue
        seen[name] = SeenFile(
            found.st_size, found.st_mtime_ns, found.st_ctime_ns, found.st_ino, now, read
        )
    return seen


def digest(files: Mapping[str, SeenFile]) -> str:
    """One word for the names of the files and what they hold."""
    said = "\n".join(f"{files[name].digest} {name}" for name in sorted(files))
    return hashlib.sha256(said.encode("utf-8", "surrogateescape")).hexdigest()


def _counts(name: str) -> bool:
    return name in WRITTEN or name.lower().rpartition(".")[2] in (*PICTURES_TAKEN, *PICTURES_NOT_TAKEN)


def _without_waiting(path: str, flags: int) -> int:
    """Opens a pipe, too, without waiting for somebody to write into it."""
    return os.open(path, flags | getattr(os, "O_NONBLOCK", 0))
