"""The job folders of an archive as they stand: one that stands as it was seen before is not read again.

    JobsFolder     a folder with jobs: where it is, its shop, the top folder of its pages
    find_folders   its job folders
    Seen           one job's folder as it was seen
    seen           as it stands now

What a sheet can show of its folder is the job file, the log, what its sender brought along, and pictures.
The folder's list of names and the stat of each of these files say whether any of it changed; then all are
read and digested.
"""

from __future__ import annotations

import hashlib
import os
import time
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Final, NamedTuple

from generator.job.beside import PICTURES_NOT_TAKEN, PICTURES_TAKEN, SENDER
from generator.language.say import say

JOB: Final = "job.yml"
LOG: Final = "log.yml"
PICTURES: Final = frozenset((*PICTURES_TAKEN, *PICTURES_NOT_TAKEN))
TOO_FRESH: Final = 2_000_000_000  # ns: the coarsest step of a file's time; two writes within it look alike
UNREADABLE: Final = "unreadable"


@dataclass(frozen=True)
class JobsFolder:
    """A folder with jobs, `<year>/<job folder>/job.yml`; `top` is the top folder of their pages."""

    path: Path
    shop: Path
    top: str


class Seen(NamedTuple):
    """A job's folder as it was seen.

    `names` are its files and folders, `stats` the stat of those that count, `digest` one word for what they
    hold. `lasting` says that nothing can be written into them from now on that another stat would not show;
    `strays` are the files in it that look like jobs and are none.
    """

    names: str = ""
    stats: str = ""
    digest: str = ""
    lasting: bool = False
    strays: str = ""


def find_folders(jobs_dir: Path) -> tuple[list[str], list[str]]:
    """The job folders of an archive in order, and sentences about what else there is.

    Raises
    ------
    OSError
        When the jobs folder itself cannot be read.
    """
    folders: list[str] = []
    odd: list[str] = []
    top = jobs_dir.as_posix()
    years, files = _listed(top)
    odd += (_not_read(f"{top}/{name}") for name in files if _is_yaml(name))
    for year in years:
        try:
            inside, files = _listed(f"{top}/{year}")
        except OSError as error:
            odd.append(
                say("{name}: cannot be read: {why}", name=f"{top}/{year}", why=error.strerror or error)
            )
            continue
        odd += (_not_read(f"{top}/{year}/{name}") for name in files if _is_yaml(name))
        folders += (f"{top}/{year}/{name}" for name in inside)
    return folders, odd


def seen(folder: str, before: Seen) -> Seen:
    """The folder as it stands now; it has no digest where it has no job file.

    Raises
    ------
    OSError
        When the folder cannot be read.
    """
    found = sorted(os.listdir(folder))
    names = _text("/".join(found))
    now = time.time_ns()
    counted = [name for name in found if _counts(name)]
    stats, newest = _stats(folder, counted)
    if names == before.names and stats == before.stats and before.lasting:
        return before
    if JOB not in counted:
        return Seen(names, strays="\n".join(_strays(folder, found)))
    digest, readable = _digest(folder, counted)
    return Seen(
        names, stats, digest, readable and newest < now - TOO_FRESH, "\n".join(_strays(folder, found))
    )


def _listed(folder: str) -> tuple[list[str], list[str]]:
    """The folders in a folder that may hold jobs, and its files, each in order."""
    folders: list[str] = []
    files: list[str] = []
    with os.scandir(folder) as entries:
        for entry in entries:
            if not entry.name.startswith(("_", ".")):
                (folders if entry.is_dir() else files).append(entry.name)
    return sorted(folders), sorted(files)


def _text(names: str) -> str:
    """Names that are no text, with what is wrong in them written out."""
    return names if names.isascii() else names.encode("utf-8", "backslashreplace").decode("utf-8")


def _counts(name: str) -> bool:
    return name in (JOB, LOG, SENDER) or name.lower().rpartition(".")[2] in PICTURES


def _stats(folder: str, names: list[str]) -> tuple[str, int]:
    """A line for each file, in their order, and when the newest of them was written or changed (ns)."""
    lines, newest = [], 0
    for name in names:
        try:
            found = os.stat(f"{folder}/{name}")
        except OSError:
            lines.append(UNREADABLE)
            continue
        written, changed = found.st_mtime_ns, found.st_ctime_ns
        newest = max(newest, written, changed)
        lines.append(f"{found.st_size} {written} {changed} {found.st_ino}")
    return "\n".join(lines), newest


def _digest(folder: str, names: list[str]) -> tuple[str, bool]:
    """One word for the names of the files and what they hold, and whether all could be read."""
    whole, readable = hashlib.sha256(), True
    for name in names:
        try:
            with open(f"{folder}/{name}", "rb", opener=_without_waiting) as file:
                held = hashlib.file_digest(file, "sha256").hexdigest()
        except OSError:
            held, readable = UNREADABLE, False
        whole.update(f"{held} {name}\n".encode("utf-8", "surrogateescape"))
    return whole.hexdigest(), readable


def _without_waiting(path: str, flags: int) -> int:
    """Opens a pipe, too, without waiting for somebody to write into it."""
    return os.open(path, flags | getattr(os, "O_NONBLOCK", 0))


# -- what looks like a job and is none -------------------------------------------------------------------


def _strays(folder: str, names: list[str]) -> Iterator[str]:
    """Sentences about the files in a job's folder, and in folders in it, that look like jobs."""
    for name in names:
        path = f"{folder}/{name}"
        if name.startswith(("_", ".")):
            continue
        if name == "job.yaml":
            yield _not_read(path)
        elif "." not in name and os.path.isdir(path):
            for inner, folders, files in os.walk(path):
                folders[:] = sorted(one for one in folders if not one.startswith(("_", ".")))
                yield from (_not_read(f"{inner}/{one}") for one in sorted(files) if one in (JOB, "job.yaml"))


def _is_yaml(name: str) -> bool:
    return name.endswith((".yml", ".yaml"))


def _not_read(path: str) -> str:
    return say("{path}: is not read; a job is <year>/<job folder>/job.yml in the jobs folder", path=path)
