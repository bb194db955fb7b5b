"""A job as the site has it, and all of them.

    Entry      one job: its page, its row in the archive, what is wrong with it
    Archive    every job of the site
    Made       what a job was made into
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Final
from urllib.parse import quote

from generator.archive.figures import FigureName
from generator.archive.listed import Listed
from generator.errors import Fault, Problem
from generator.job.beside import JobPicture
from generator.job.learned import Likeness
from generator.language.say import say
from generator.sheet.row import ArchiveRow
from generator.site.kept import Paged

SHEETS: Final = "sheets"  # the top folder of the pages; of a second jobs folder another one


@dataclass(frozen=True)
class Entry:
    """One job in the archive.

    `path` is its file, `page` its page relative to the site, `row` what the archive knows of it. With
    `problems` the page says what is wrong, and there is no sheet; with `faults` there is a sheet, without the
    comparison with other lathes. `superseded_by` is the number of the job that takes its place, "" for none.
    `learns` says that its page shows the lessons of other jobs.
    """

    path: str
    page: str
    row: ArchiveRow
    problems: tuple[Problem, ...] = ()
    faults: tuple[Problem, ...] = ()
    superseded_by: str = ""
    learns: bool = False

    @property
    def sure(self) -> bool:
        """False where another build may go better, with the same files."""
        return not any(isinstance(problem, Fault) for problem in (*self.problems, *self.faults))

    @property
    def link(self) -> str:
        """The page's address relative to the site, ready for an attribute."""
        return quote(self.page)

    @property
    def heading(self) -> str:
        """What the browser's tab shows."""
        return f"{self.row.number} {self.row.title}".strip()


@dataclass(frozen=True)
class Made:
    """A job's entry, its page without the frame, what it brings to the site's lists, and its pictures."""

    entry: Entry
    body: str
    figures: tuple[FigureName, ...] = ()
    pictures: tuple[JobPicture, ...] = ()
    likeness: Likeness = field(default_factory=lambda: Likeness((), ()))


@dataclass(frozen=True)
class Archive:
    """All jobs, newest year first, then by folder name; `oddities` are sentences about the jobs folders.

    `figures` are the figures of all sheets, and their other sources, as the site lists them; `reused` counts
    the jobs that were kept from an earlier build. `jobs` are the entries as the archive's pages see them,
    `pages` what is kept of each, in the same order.
    """

    entries: tuple[Entry, ...]
    oddities: tuple[str, ...] = ()
    figures: tuple[FigureName, ...] = ()
    reused: int = 0
    jobs: tuple[Listed, ...] = ()
    pages: tuple[Paged, ...] = ()

    @property
    def problems(self) -> tuple[Problem, ...]:
        """The problems and faults of all jobs, each once: a broken shop file spoils many jobs."""
        every = (problem for entry in self.entries for problem in (*entry.problems, *entry.faults))
        return tuple(dict.fromkeys(every))

    @property
    def not_ready(self) -> int:
        """How many sheets say that they are not ready to run."""
        return sum(not entry.problems and not entry.row.ready for entry in self.entries)

    @property
    def bad(self) -> int:
        """How many jobs could not be made into a sheet."""
        return sum(bool(entry.problems) for entry in self.entries)

    def sources(self) -> tuple[tuple[str, tuple[str, ...]], ...]:
        """Every source that some sheet names, with the labels of the figures that rest on it."""
        labels: dict[str, dict[str, None]] = {}
        for figure in self.figures:
            labels.setdefault(figure.source, {})[figure.label] = None
        return tuple((source, tuple(labels[source])) for source in sorted(labels, key=str.casefold) if source)


def page_of(path: Path, top: str = SHEETS) -> str:
    """Where a job's page stands in the site: sheets/<year>/<job folder>.html."""
    return f"{top}/{path.parent.parent.name}/{path.parent.name}.html"


def twins(entries: Iterable[Entry]) -> Iterator[str]:
    """The jobs whose number another one has, too."""
    first: dict[str, Entry] = {}
    for entry in entries:
        other = first.setdefault(entry.row.number, entry)
        if other is not entry:
            yield say(
                "{path}: job number {number} stands in {other} too",
                path=entry.path, number=entry.row.number, other=other.path,
            )
