"""What was answered of a job that is not written yet, kept in `jobs/_drafts`, where no reader of jobs looks.

    Draft        one draft: its file and what was answered
    draft_files  the files of those that are there; read_draft, one of them
    Keeper       keeps a draft as the answers come, and takes it away when the job stands

A draft is whole or not there: it comes to the disk in one step, whatever interrupts it.
"""

from __future__ import annotations

import contextlib
import re
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from generator.errors import JobProblems, Problem
from generator.in_one_step import folder_to_disk, left_behind, replace_file
from generator.job.reading import read_block
from generator.job.writing import file_text, remark
from generator.job.written import Block, Scalar
from generator.language.say import later, say

FOLDER: Final = "_drafts"
_BEGINS, _ENDS = ".draft-", ".new"
_SAYS: Final = later("Answers of a job that is not written yet. Go on with: python -m generator new")


@dataclass(frozen=True)
class Draft:
    """One draft, by its file."""

    path: Path
    answers: dict[str, str]


def draft_files(jobs: Path) -> list[Path]:
    """The drafts of a jobs folder, the last one first."""
    return sorted((jobs / FOLDER).glob("*.yml"), key=_written_last)


def read_draft(path: Path) -> Draft:
    """One draft.

    Raises
    ------
    JobProblems
        When it cannot be read; it stays where it is.
    """
    tree = read_block(path)
    wrong = [key for key, value in tree.items() if not isinstance(value, Scalar)]
    if wrong:
        raise JobProblems(
            [Problem(tree.keys_where[wrong[0]], wrong[0], say("is no answer: remove the draft"))]
        )
    return Draft(path, {key: str(value) for key, value in tree.items()})


def _written_last(path: Path) -> float:
    with contextlib.suppress(OSError):  # somebody has just gone on with it
        return -path.stat().st_mtime
    return 0.0


class Keeper:
    """Keeps one draft; it has no file until there is an answer."""

    def __init__(self, jobs: Path, draft: Draft | None = None) -> None:
        self._folder = jobs / FOLDER
        self.path = draft.path if draft else None

    def keep(self, answers: Mapping[str, str]) -> None:
        """Write the answers so far.

        Raises
        ------
        OSError
            When it cannot be written; the draft then is as it was.
        """
        if not any(answers.values()):
            return
        self._folder.mkdir(exist_ok=True)
        if self.path is None:
            for left in left_behind(self._folder, f"{_BEGINS}*{_ENDS}"):
                with contextlib.suppress(OSError):
                    left.unlink()
            self.path = self._free(answers.get("title", ""))
        tree = Block(Scalar("").where)
        tree.update({key: Scalar(said, quoted=True) for key, said in answers.items()})
        data = (remark(_SAYS) + file_text(tree)).encode()
        replace_file(self.path, data, like=self.path, prefix=_BEGINS, suffix=_ENDS)

    def remove(self) -> None:
        """Take the draft away, and its folder when it was the last."""
        if self.path is not None:
            self.path.unlink(missing_ok=True)
            with contextlib.suppress(OSError):  # others are in it
                self._folder.rmdir()
                folder_to_disk(self._folder.parent)

    def _free(self, title: str) -> Path:
        name = re.sub(r"[^a-z0-9]+", "-", title.lower()).strip("-")[:48] or "job"
        number, path = 1, self._folder / f"{name}.yml"
        while path.exists():
            number += 1
            path = self._folder / f"{name}-{number}.yml"
        return path
