"""Adding to a log: what stands in the file stays as it is, byte by byte, and two at once both get in.

    append_entries    more entries at the end of a log
    with_entries      the log as it would then be
    LogNotWritten     why it did not get there; the file is then as it was

The new file is written beside the old one, brought to the disk, and put in its place in one step, so that an
interruption leaves the old one or the new one, whole. Whoever writes holds a lock meanwhile.
"""

from __future__ import annotations

import contextlib
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Final

from filelock import FileLock, Timeout

from generator.errors import Problem, SheetError, why_not
from generator.in_one_step import replace_file
from generator.job.editor_line import editor_line, has_schemas
from generator.job.log_names import LogNames
from generator.job.reading import ReadLog, read_log
from generator.job.writing import entry_text
from generator.job.written import Block, Scalar, System
from generator.language.say import say

PATIENCE: Final = 10.0  # s to wait for another who writes to the same log
_BEGINS, _ENDS = ".log.yml.", ".tmp"  # of the name of a file that is not yet the log


class LogNotWritten(SheetError):
    """The entry is not in the log, and the log is as it was; the message says why, and what to do."""

    def __init__(self, message: str, problems: tuple[Problem, ...] = ()) -> None:
        self.problems = problems
        super().__init__(message)


def append_entries(
    path: Path, entries: Sequence[Block], units: System | None, dials: System, now: Callable[[], str],
    patience: float = PATIENCE, names: LogNames | None = None,
) -> ReadLog:
    """Add entries at the end of a log, all of them or none, and hand back the log as it then is.

    Parameters
    ----------
    path : the log; it is made where there is none
    entries : what is written; one without `at` gets the time at which it is written
    units, dials : as for `read_log`
    now : the time, as it is written
    patience : how long to wait for another who writes, s
    names : what entries may name, as for `read_log`

    Raises
    ------
    LogNotWritten
        When they are not in the log; then the log is as it was.
    """
    target = path.resolve()  # a link stays a link
    lock = FileLock(target.with_name(f"{_BEGINS}lock"), timeout=patience)
    try:
        with lock:
            _sweep(target.parent)
            data, after = _composed(path, entries, units, dials, now, names)
            like = target if target.exists() else target.with_name("job.yml")
            replace_file(target, data, like=like, prefix=_BEGINS, suffix=_ENDS)
    except Timeout:
        raise LogNotWritten(
            say(
                "{name} is being written by somebody else, for {patience:g} s now: try again",
                name=path.name,
                patience=patience,
            )
        ) from None
    except OSError as error:
        raise LogNotWritten(
            say("{path}: cannot be written: {reason}", path=path, reason=why_not(error))
        ) from error
    return after


def with_entries(
    path: Path, entries: Sequence[Block], units: System | None, dials: System, now: Callable[[], str],
    names: LogNames | None = None,
) -> ReadLog:
    """The log as it would be with more entries; nothing is written.

    Raises
    ------
    LogNotWritten
        When it cannot take them.
    OSError
        When the log cannot be read.
    """
    return _composed(path, entries, units, dials, now, names)[1]


def _composed(
    path: Path, entries: Sequence[Block], units: System | None, dials: System, now: Callable[[], str],
    names: LogNames | None = None,
) -> tuple[bytes, ReadLog]:
    """The bytes of the log with more entries, and how they read."""
    old = path.read_bytes() if path.exists() else _first_line(path)
    before = read_log(path, units, dials, old, names)
    data = old + _added(path, old, before, [_dated(entry, now) for entry in entries])
    return data, _checked(path, data, before, len(entries), units, dials, names)


def _first_line(path: Path) -> bytes:
    """What a new log begins with: which schema it follows, where the archive has the schemas."""
    return editor_line("log").encode() if has_schemas(path.parent.parent.parent) else b""


def _dated(entry: Block, now: Callable[[], str]) -> Block:
    """The entry with its time in front."""
    dated = Block(entry.where)
    dated["at"] = entry["at"] if "at" in entry else Scalar(now())
    dated.update(entry)
    return dated


def _added(path: Path, old: bytes, before: ReadLog, entries: Sequence[Block]) -> bytes:
    """The bytes to add: in the column and with the line ends of the entries that are there."""
    if before.tree is None:
        raise LogNotWritten(
            say("{name} cannot be read, so nothing was added to it: put it right first", name=path.name),
            before.problems,
        )
    break_ = _line_end(old)
    indent = " " * (before.tree.where.column - 1) if before.tree else ""
    lines = "".join(map(entry_text, entries)).split("\n")[:-1]
    text = "".join(f"{indent}{line}\n" if line else "\n" for line in lines)
    first = break_ if old and not old.endswith((b"\n", b"\r")) and old != b"\xef\xbb\xbf" else b""
    return first + text.encode().replace(b"\n", break_)


def _line_end(old: bytes) -> bytes:
    """The line end that most lines of a file have."""
    both = old.count(b"\r\n")
    counts = {b"\n": old.count(b"\n") - both, b"\r\n": both, b"\r": old.count(b"\r") - both}
    return max(counts, key=lambda end: counts[end])


def _checked(
    path: Path, data: bytes, before: ReadLog, count: int, units: System | None, dials: System,
    names: LogNames | None,
) -> ReadLog:
    """The log as it will be: so many entries more, and all others as they were."""
    assert before.tree is not None  # _added
    earlier: list[object] = list(before.tree)
    after = read_log(path, units, dials, data, names)
    whole = after.tree is not None and len(after.tree) == len(earlier) + count
    if after.tree is None or not whole or not _alike(list(after.tree)[: len(earlier)], earlier):
        raise LogNotWritten(
            say(
                "{name} does not take an entry at its end: write each entry there with a dash, without "
                "square brackets around them, and nothing after the last",
                name=path.name,
            ),
            after.problems,
        )
    first = after.tree[len(earlier)]
    wrong = tuple(one for one in after.problems if one.location >= first.where)
    if wrong:
        raise LogNotWritten(say("The entry cannot be read"), wrong)
    return after


def _alike(one: object, other: object) -> bool:
    """Two trees with the same text; a line end that was missing at the end of a file makes no difference."""
    if isinstance(one, dict) and isinstance(other, dict):
        return list(one) == list(other) and all(_alike(one[key], other[key]) for key in one)
    if isinstance(one, list) and isinstance(other, list):
        return len(one) == len(other) and all(map(_alike, one, other))
    if isinstance(one, str) and isinstance(other, str):
        return one.rstrip() == other.rstrip()
    return type(one) is type(other)


def _sweep(folder: Path) -> None:
    """Remove what a killed run left; whoever holds the lock is the only one who writes."""
    for left in folder.glob(f"{_BEGINS}*{_ENDS}"):
        with contextlib.suppress(OSError):
            left.unlink()
