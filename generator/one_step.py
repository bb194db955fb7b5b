"""A file put in its place in one step: it is all there, or as it was."""

from __future__ import annotations

import contextlib
import os
import tempfile
from pathlib import Path


def replace_file(target: Path, data: bytes) -> None:
    """Put the data in the place of the file; a link is followed.

    Raises
    ------
    OSError
        When it cannot be written; nothing is left behind.
    """
    out = target.resolve()
    handle, name = tempfile.mkstemp(prefix=f".{out.name}.", suffix=".new", dir=out.parent)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        os.chmod(name, out.stat().st_mode & 0o777 if out.exists() else _usual_mode())
        os.replace(name, out)
    except BaseException:
        with contextlib.suppress(OSError):
            os.unlink(name)
        raise


def _usual_mode() -> int:
    """What a new file may be done with, as this user has set it."""
    mask = os.umask(0)
    os.umask(mask)
    return 0o666 & ~mask
