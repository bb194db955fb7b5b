"""A file that a command writes for whoever called it: all of it or none, and never in another one's place.

    free_place     where it may go
    write_whole    the file, in one step
"""

from __future__ import annotations

from pathlib import Path

from generator.commands import UsageError
from generator.in_one_step import replace_file
from generator.language.say import say


def free_place(out: Path, jobs: Path, option: str, own_mark: str = "", *, replace: bool = False) -> Path:
    """Where the file goes; a link is followed, so that the link itself stays.

    Parameters
    ----------
    out : where it was asked to go
    jobs : the jobs folder, in which nothing is written
    option : the option that says so, for the messages
    own_mark : what the command's own files begin with, by which an earlier one is known and replaced
    replace : whatever stands there is replaced

    Raises
    ------
    UsageError
        When something else stands there, or it lies where nothing is written.
    """
    path = out.resolve()
    if path.is_dir():
        raise UsageError(say("{out}: is a folder; give a file for {option}", out=out, option=option))
    if not path.parent.is_dir():
        raise UsageError(
            say(
                "{out}: there is no folder {parent}; make it first, or give another {option}",
                out=out,
                parent=path.parent,
                option=option,
            )
        )
    if path.is_relative_to(jobs.resolve()):
        raise UsageError(
            say(
                "{out}: lies in the jobs folder, where only you write; give another {option}",
                out=out,
                option=option,
            )
        )
    if not path.exists() or replace:
        return path
    if not own_mark:
        raise UsageError(
            say(
                "{out}: is there already, so it stays as it is; give another {option}, or --force",
                out=out,
                option=option,
            )
        )
    with path.open("rb") as file:
        if own_mark.encode() not in file.read(len(own_mark) + 200):
            raise UsageError(
                say(
                    "{out}: was not written by this command, so it stays as it is; give another {option}",
                    out=out,
                    option=option,
                )
            )
    return path


def write_whole(out: Path, text: str | bytes) -> None:
    """Put the text in the place of the file in one step: it is all there, or as it was.

    Raises
    ------
    OSError
        When it cannot be written; nothing is left behind.
    """
    data = text.encode() if isinstance(text, str) else text
    replace_file(out, data, like=out, prefix=f".{out.name}.", suffix=".new")
