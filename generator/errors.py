"""What can go wrong, and where.

    SheetError                      everything this package raises on purpose
    ├── JobProblems                 one file could not be read: all its problems at once
    ├── BadDesignation              a thread designation that no standard here knows
    ├── BadQuantity                 a number or its unit that cannot be read
    └── OutsideRange                a figure outside the range of its formula or table

    why_not                         what the system says of a file that it does not open or write

Only the command line and the mkdocs plugin turn these into text or exit codes.
"""

from __future__ import annotations

import errno
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from generator.language.say import figure, later, say


@dataclass(frozen=True, order=True)
class Location:
    """A place in a file. `line` and `column` count from 1; `path` is shown as it was opened."""

    path: Path
    line: int = 1
    column: int = 1

    def __str__(self) -> str:
        return f"{self.path.as_posix()}:{self.line}:{self.column}"


@dataclass(frozen=True)
class Problem:
    """One thing wrong in one place of a file.

    `field` is the dotted name in the file's own words ("operations.2.thread.length"), `message` says
    what was written and what would be accepted, `source_line` is the line itself, for the caret.
    """

    location: Location
    field: str
    message: str
    source_line: str = ""

    def __str__(self) -> str:
        field = f"{self.field}: " if self.field else ""
        return f"{self.location}: {field}{self.message}"

    def with_caret(self) -> str:
        """The problem, then the source line with a caret under the column."""
        if not self.source_line:
            return str(self)
        return f"{self}\n    {self.source_line}\n    {' ' * (self.location.column - 1)}^"


@dataclass(frozen=True)
class Missing(Problem):
    """What is wrong is that an entry is not there."""


@dataclass(frozen=True)
class Fault(Problem):
    """What went wrong is not in the file: the disk, or this program; another time it may go well."""


class SheetError(Exception):
    """Everything this package raises on purpose."""


class JobProblems(SheetError):
    """A file that could not be read; `problems` holds all that is wrong with it, in file order."""

    def __init__(self, problems: Sequence[Problem]) -> None:
        self.problems: tuple[Problem, ...] = tuple(sorted(problems, key=lambda problem: problem.location))
        super().__init__("\n".join(str(problem) for problem in self.problems))


class BadDesignation(SheetError, ValueError):
    """A thread designation that cannot be read; the message says what would be accepted."""


class BadQuantity(SheetError, ValueError):
    """A number, or its unit, that cannot be read; `no_unit` is set when only the unit is missing."""

    def __init__(self, message: str, *, no_unit: bool = False) -> None:
        self.no_unit = no_unit
        super().__init__(message)


class OutsideRange(SheetError, ValueError):
    """A value outside the range in which a formula or table holds.

    `quantity` names it in trade words; `value`, `low` and `high` are SI (or the unit that `unit` names).
    """

    def __init__(
        self, quantity: str, value: float, low: float | None, high: float | None, source: str, unit: str = ""
    ) -> None:
        self.quantity, self.value, self.low, self.high, self.source, self.unit = (
            quantity, value, low, high, source, unit,
        )
        super().__init__(
            say(
                "{quantity} {value} is out of range: {bounds} ({source})",
                quantity=quantity,
                value=self._amount(value),
                bounds=self._bounds(),
                source=source,
            )
        )

    def _amount(self, value: float) -> str:
        return f"{figure(value, 'g')} {self.unit}".rstrip()

    def _bounds(self) -> str:
        if self.low is None or self.high is None:
            if self.low is not None:
                return say("at least {low}", low=self._amount(self.low))
            return say("at most {high}", high=self._amount(self.high)) if self.high is not None else ""
        return say(
            "at least {low} and at most {high}", low=self._amount(self.low), high=self._amount(self.high)
        )


_WHY_NOT: Final[Mapping[int, str]] = {
    errno.ENOENT: later("no such file or directory"),
    errno.EACCES: later("permission denied"),
    errno.EPERM: later("operation not permitted"),
    errno.ENOTDIR: later("not a directory"),
    errno.EISDIR: later("is a directory"),
    errno.EEXIST: later("file exists"),
    errno.ENOSPC: later("no space left on device"),
    errno.EROFS: later("read-only file system"),
    errno.ENAMETOOLONG: later("file name too long"),
    errno.EADDRINUSE: later("address already in use"),
}


def why_not(error: OSError) -> str:
    """What the system says of a file that it does not open or write; a rare reason in its own words.

    >>> why_not(FileNotFoundError(errno.ENOENT, "No such file or directory"))
    'no such file or directory'
    """
    known = _WHY_NOT.get(error.errno or 0)
    return str(known) if known is not None else (error.strerror or str(error)).lower()
