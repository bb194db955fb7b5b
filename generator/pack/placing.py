"""A new job folder put into the archive in one step: it is there whole, or not at all.

    place_folder      files -> the folder
    lay_out           a handed-over setup as an archive of its own, elsewhere
    AlreadyThere      another job has the folder's name

The files are written into a folder beside it, whose name begins with a dot and which no build looks into,
brought to the disk, and that folder gets its name. What an interruption leaves of it is removed next time.
"""

from __future__ import annotations

import os
import shutil
import tempfile
from collections.abc import Mapping
from pathlib import Path
from typing import Final

from generator.errors import SheetError
from generator.in_one_step import folder_to_disk, left_behind, write_new
from generator.language.say import say

_BEGINS: Final = ".taking-in-"


class AlreadyThere(SheetError):
    """A folder of that name is in the archive, and stays as it is."""


def place_folder(target: Path, files: Mapping[str, bytes]) -> None:
    """Put a new folder with these files, by their names, in its place.

    Raises
    ------
    AlreadyThere
        When there is a folder, or anything else, of that name.
    OSError
        When it cannot be written; then nothing is left of it.
    """
    year = target.parent
    year.mkdir(parents=True, exist_ok=True)
    for left in left_behind(year, f"{_BEGINS}*"):
        shutil.rmtree(left, ignore_errors=True)
    staging = Path(tempfile.mkdtemp(prefix=_BEGINS, dir=year))
    try:
        for name, data in files.items():
            write_new(staging / name, data)
        os.chmod(staging, 0o755)
        folder_to_disk(staging)
        if os.path.lexists(target):
            raise AlreadyThere(say("{target}: is there already, and stays as it is", target=target))
        os.rename(staging, target)  # onto a folder that is not empty it fails
    except BaseException:
        shutil.rmtree(staging, ignore_errors=True)
        raise
    folder_to_disk(year)


def lay_out(files: Mapping[str, bytes], jobs: Path, year: str, name: str) -> Path:
    """The job and the shop of a handed-over setup as an archive of one job; returns the job's file.

    Parameters
    ----------
    files : by their names in the zip, each one that the format has
    jobs, year, name : the archive's folder, and that of the job in it
    """
    for inside, data in files.items():
        top, _, rest = inside.partition("/")
        if rest:
            target = jobs / "_shop" / rest if top == "shop" else jobs / year / name / rest
            target.parent.mkdir(parents=True, exist_ok=True)
            target.write_bytes(data)
    return jobs / year / name / "job.yml"
