"""Files brought to the disk, and put in their place in one step: all is there, or all is as it was.

    replace_file      new bytes in the place of a file
    write_new         a new file
    folder_to_disk    the names in a folder
    left_behind       what interrupted runs have left there
"""

from __future__ import annotations

import contextlib
import os
import stat
import tempfile
import time
from collections.abc import Iterator
from pathlib import Path
from typing import BinaryIO, Final

_OLD: Final = 3600.0  # s: what is older was left by one that was interrupted


def replace_file(path: Path, data: bytes, *, like: Path, prefix: str, suffix: str) -> None:
    """Put new bytes in the place of a file; what may be done with it is as with `like`, or as is usual.

    Parameters
    ----------
    like : a file; it need not be there
    prefix, suffix : how the name of the file begins and ends that is not yet in its place

    Raises
    ------
    OSError
        When it cannot be written; nothing is left behind.
    """
    handle, name = tempfile.mkstemp(prefix=prefix, suffix=suffix, dir=path.parent)
    try:
        with os.fdopen(handle, "wb") as file:
            _write(file, data)
        os.chmod(name, stat.S_IMODE(like.stat().st_mode) if like.exists() else _usual_mode())
        os.replace(name, path)
    except BaseException:
        with contextlib.suppress(OSError):
            os.unlink(name)
        raise
    folder_to_disk(path.parent)


def write_new(path: Path, data: bytes) -> None:
    """Write a file that is not there yet, and bring it to the disk.

    Raises
    ------
    OSError
        When it is there, or cannot be written.
    """
    with path.open("xb") as file:
        _write(file, data)


def folder_to_disk(folder: Path) -> None:
    """Bring the names in a folder to the disk, where the system can: what has its name keeps it."""
    if os.name == "posix":
        with contextlib.suppress(OSError):  # some file systems cannot do this
            opened = os.open(folder, os.O_RDONLY)
            try:
                os.fsync(opened)
            finally:
                os.close(opened)


def left_behind(folder: Path, pattern: str) -> Iterator[Path]:
    """What an interrupted run has left in a folder; what is younger than an hour may still be in work."""
    for left in folder.glob(pattern):
        with contextlib.suppress(OSError):  # another run has just removed it
            if time.time() - left.stat().st_mtime > _OLD:
                yield left


def _write(file: BinaryIO, data: bytes) -> None:
    file.write(data)
    file.flush()
    os.fsync(file.fileno())


def _usual_mode() -> int:
    """What a new file may be done with, as this user has set it."""
    mask = os.umask(0)
    os.umask(mask)
    return 0o666 & ~mask
