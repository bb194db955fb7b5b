"""Every job's page, kept from an earlier build or made now, in the site.

    Build.begin     what each job's files hold now; what is not kept is ordered
    Build.finish    what was ordered is kept, gets its frame, and stands in the site with what was kept before

A page depends on the job's own folder, the shop, the program and its options, all in one key, and on what
it shows of other jobs: their lessons where it is unfinished, and those that take its place.
"""

from __future__ import annotations

import json
import os
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import suppress
from dataclasses import dataclass, field, replace
from functools import cached_property
from itertools import chain
from pathlib import Path
from typing import Final

from pydantic import TypeAdapter

from generator.archive.figures import FigureName
from generator.archive.listed import Listed
from generator.collecting import without_collecting
from generator.job.learned import WORDS_OF_LESSONS, Lesson, Lessons, Likeness
from generator.language.say import say
from generator.language.spoken import spoken
from generator.site.entry import Archive, Entry, twins
from generator.site.frame import Frame
from generator.site.hands import Hands
from generator.site.job_files import JOB, LOG, JobsFolder, Seen, find_folders, seen
from generator.site.kept import Cache, Kept, Paged, seal
from generator.site.orders import Done, Making
from generator.site.program_key import folder_key, program_key, word
from generator.site.word_index import WordIndex

SAVE_AFTER: Final = 200  # jobs made: what a killed build loses at most

_ENTRY: Final = TypeAdapter(Entry)
_FIGURE: Final = TypeAdapter(FigureName)
_LIKENESS: Final = TypeAdapter(Likeness)
_LESSONS: Final = TypeAdapter(tuple[Lesson, ...])

Progress = Callable[[int, int], None]  # jobs made, and all that are to be made


@dataclass
class _Job:
    """A job as this build finds it.

    `kept` only where its page need not be made for its own sake, `entry` once the page stands in the site.
    """

    path: str
    folder: str
    seen: Seen
    key: str
    kept: Kept | None
    lessons: str = ""
    entry: Entry | None = None


@dataclass
class _Part:
    """The jobs of one jobs folder, in order."""

    jobs: list[_Job]
    making: Making
    of_superseded: dict[str, str] = field(default_factory=dict)  # by path, the number that takes its place

    @cached_property
    def by_path(self) -> dict[str, _Job]:
        return {job.path: job for job in self.jobs}

    @cached_property
    def by_number(self) -> dict[str, _Job]:
        """The first job whose folder is called so, or begins so before a dash."""
        found: dict[str, _Job] = {}
        for job in self.jobs:
            name = os.path.basename(job.folder)
            found.setdefault(name, job)
            end = name.find("-")
            while end >= 0:
                found.setdefault(name[:end], job)
                end = name.find("-", end + 1)
        return found

    def chain(self, path: str) -> str:
        """One word for the jobs that take the place of this one, each of the one before; "" for none."""
        number = self.of_superseded.get(path)
        if not number:
            return ""
        steps, met = [], {path}
        while number:
            later = self.by_number.get(number)
            steps.append(f"{number} {later.path} {later.seen.digest}" if later else number)
            if later is None or later.path in met:
                break
            met.add(later.path)
            number = self.of_superseded.get(later.path, "")
        return word(*steps)


class Build:
    """One build of all pages.

    Parameters
    ----------
    folders : the jobs folders, the first one's pages on top
    address : where the site will stand on the web, "" where it will not
    progress : is told how many jobs were made, of how many
    """

    def __init__(
        self, folders: Sequence[JobsFolder], cache: Cache, words: WordIndex, hands: Hands, address: str = "",
        progress: Progress = lambda made, of: None,
    ) -> None:
        self._folders, self._cache, self._hands = folders, cache, hands
        self._address, self._progress = address, progress
        self._words = words
        self._parts: list[_Part] = []
        self._oddities: list[str] = []
        self._there: set[str] = set()
        self.names: set[str] = set()  # of the files that stand in the site
        self._made = 0

    def begin(self) -> None:
        """Look what each job's files hold now, and order what can be ordered.

        Raises
        ------
        OSError
            When a jobs folder cannot be read.
        """
        waiting = []
        for folder in self._folders:
            with without_collecting():
                part, changed = self._look(folder)
            self._parts.append(part)
            waiting.append((part, changed, self._hands.taught([(part.making, job.path) for job in changed])))
        self._taught = waiting
        self._ordered = None if any(changed for _, changed, _ in waiting) else self._order()

    def finish(self, frame: Frame, site: Path) -> Archive:
        """Keep what was ordered, and let every page with its pictures stand in the site, in its frame.

        Raises
        ------
        OSError
            When the cache or the site cannot be written. What is wrong with a job is in its entry.
        SheetError
            When whoever makes the sheets is gone, or the shop changed meanwhile.
        """
        self._put_kept(frame, site, learning=False)  # while others say what the changed ones teach
        orders, done = self._ordered or self._order()
        self._put_kept(frame, site, learning=True)
        self._keep_all(orders, done, frame, site)
        first = {job.path for _, job in orders}
        again = list(self._to_follow(first))
        self._keep_all(again, self._hands.made([(part.making, job.path) for part, job in again]), frame, site)
        self._cache.save()
        with without_collecting():
            return self._archive()

    def changed(self) -> bool:
        """True when a job's folder, or a shop's, is not as this build found it.

        Raises
        ------
        OSError
            When a jobs folder cannot be read.
        """
        for folder, part in zip(self._folders, self._parts, strict=True):
            names, _ = find_folders(folder.path)
            if folder_key(folder.shop) != part.making.shop_key or len(names) < len(part.jobs):
                return True
            for name in names:
                job = part.by_path.get(f"{name}/{JOB}")
                now = seen(name, job.seen if job else Seen())
                if now.digest != (job.seen.digest if job else ""):
                    return True
        return False

    def _archive(self) -> Archive:
        jobs = [job for part in self._parts for job in part.jobs]
        both = [(job.entry, Paged(job.path, self._kept(job))) for job in jobs if job.entry is not None]
        both.sort(key=lambda pair: pair[0].row.year, reverse=True)
        entries = [entry for entry, _ in both]
        lines = self._cache.lines(page.kept.lines for _, page in both)
        return Archive(
            tuple(entries), (*self._oddities, *twins(entries)),
            tuple(_FIGURE.validate_json(line) for line in lines), len(both) - self._made,
            tuple(Listed(entry.link, entry.row, seal(page.kept.entry).hex()) for entry, page in both),
            tuple(page for _, page in both),
        )

    # -- what is there -----------------------------------------------------------------------------------

    def _look(self, folder: JobsFolder) -> tuple[_Part, list[_Job]]:
        """The jobs of a folder, and those that may teach others something new."""
        shop_key = folder_key(folder.shop)
        common = word(program_key(), shop_key, self._address, folder.top, spoken().code)
        names, odd = find_folders(folder.path)
        self._oddities += odd
        jobs, changed = [], []
        for name in names:
            path = f"{name}/{JOB}"
            before = self._cache.seen_of(path)
            try:
                now = seen(name, before)
            except FileNotFoundError:
                continue  # taken away since the list was made
            except OSError as error:
                self._oddities.append(
                    say("{name}: cannot be read: {why}", name=name, why=error.strerror or error)
                )
                now = Seen(digest="unreadable")
            if now.strays:
                self._oddities += now.strays.splitlines()
            if not now.digest:
                continue
            key = f"{common} {now.digest}"  # of this path: its row has it
            kept = self._cache.of(path)
            job = _Job(path, name, now, key, kept if kept and kept.key == key else None)
            jobs.append(job)
            if job.kept is not None:
                job.lessons = job.kept.lessons
            elif _may_teach(f"{name}/{LOG}"):
                changed.append(job)
        making = Making(folder.shop, shop_key, self._address, folder.top, Lessons(()), spoken().code)
        return _Part(jobs, making), changed

    def _order(self) -> tuple[list[tuple[_Part, _Job]], Iterator[Done]]:
        """Order every job whose page is not kept, or shows other lessons than it would now."""
        orders: list[tuple[_Part, _Job]] = []
        for part, changed, taught in self._taught:
            for job, lessons in zip(changed, taught, strict=True):
                job.lessons = _LESSONS.dump_json(lessons).decode("utf-8") if lessons else ""
            every = chain.from_iterable(
                _LESSONS.validate_json(job.lessons) for job in part.jobs if job.lessons
            )
            part.making = replace(part.making, lessons=Lessons(every))
            for job in part.jobs:
                if job.kept and job.kept.likeness:
                    likeness = _LIKENESS.validate_json(job.kept.likeness)
                    if job.kept.shows != self._lessons_shown(part, job, likeness):
                        job.kept = None
                if job.kept is None:
                    orders.append((part, job))
        return orders, self._hands.made([(part.making, job.path) for part, job in orders])

    def _lessons_shown(self, part: _Part, job: _Job, likeness: Likeness) -> str:
        """One word for what a page shows of the lessons of other jobs."""
        return word(repr(part.making.lessons.found(likeness, Path(job.folder))))

    def _to_follow(self, made: set[str]) -> Iterator[tuple[_Part, _Job]]:
        """The superseded jobs that are to be made because of what became of those that take their place."""
        for part in self._parts:
            part.of_superseded = {
                job.path: kept.superseded_by for job in part.jobs if (kept := self._kept(job)).superseded_by
            }
        for part in self._parts:
            for path in part.of_superseded:
                job = part.by_path[path]
                kept, now = self._kept(job), part.chain(path)
                if kept.follows == now:
                    continue
                if path in made:
                    self._cache.keep(path, kept._replace(follows=now))
                else:
                    yield part, job

    def _kept(self, job: _Job) -> Kept:
        kept = job.kept or self._cache.of(job.path)
        if kept is None:
            said = say("its page was taken away while the site was built; build it again")
            raise OSError(None, said, job.path)
        return kept

    # -- what is made ------------------------------------------------------------------------------------

    def _keep_all(
        self, orders: Sequence[tuple[_Part, _Job]], done: Iterable[Done], frame: Frame, site: Path
    ) -> None:
        for number, ((part, job), one) in enumerate(zip(orders, done, strict=True), 1):
            kept = self._to_keep(part, job, one, frame)
            self._cache.keep(job.path, kept)
            self._cache.keep_written(job.path, one.entry.row.text)
            self._words.keep(job.path, kept.page.name, one.words)
            self._put(part, job, frame, site)
            job.kept = None
            self._made += 1
            self._progress(number, len(orders))
            if number % SAVE_AFTER == 0:
                self._cache.save()

    def _to_keep(self, part: _Part, job: _Job, done: Done, frame: Frame) -> Kept:
        """What is kept of a job that was made; under no key where another build may make another page."""
        shows = self._lessons_shown(part, job, done.likeness) if done.entry.learns else ""
        named = word(job.path, job.key, shows, done.body)
        name = f"{named[:2]}/{named}"
        body = done.body.encode("utf-8")
        whole, start = frame.around(done.entry.heading, body)
        entry = replace(done.entry, row=replace(done.entry.row, text=""))
        pictures = {
            picture: self._cache.store(f"{name}.{number}", data)
            for number, (picture, data) in enumerate(done.pictures.items())
        }
        return Kept(
            seen=job.seen,
            key=job.key if done.entry.sure and _stands(job) else "",
            shows=shows,
            follows=part.chain(job.path),
            superseded_by=done.entry.superseded_by,
            entry=_ENTRY.dump_json(entry).decode("utf-8"),
            likeness=_LIKENESS.dump_json(done.likeness).decode("utf-8") if done.entry.learns else "",
            lessons=job.lessons,
            lines=self._cache.lines_as_bits(
                _FIGURE.dump_json(figure).decode("utf-8") for figure in done.figures
            ),
            page=self._cache.store(f"{name}.html", whole),
            start=start,
            length=len(body),
            frame=frame.word,
            pictures=json.dumps(pictures) if pictures else "",
        )

    # -- the site ----------------------------------------------------------------------------------------

    def _put_kept(self, frame: Frame, site: Path, *, learning: bool) -> None:
        """Put the pages that need not be made: those that show lessons of others, or those that do not."""
        with without_collecting():
            for part in self._parts:
                for job in part.jobs:
                    if job.kept and bool(job.kept.likeness) == learning:
                        self._put(part, job, frame, site)

    def _put(self, part: _Part, job: _Job, frame: Frame, site: Path) -> None:
        """Let a page that is kept stand in the site, with the frame of today, and know what it says."""
        kept = self._kept(job)
        if kept.frame != frame.word:
            kept = self._framed_anew(kept, frame)
        if kept.seen != job.seen or kept.frame != self._kept(job).frame:
            kept = kept._replace(seen=job.seen)
            self._cache.keep(job.path, kept)
            job.kept = job.kept and kept
        year, name = job.folder.rsplit("/", 2)[1:]
        folder = f"{site}/{part.making.top}/{year}"
        if folder not in self._there:
            os.makedirs(folder, exist_ok=True)
            self._there.add(folder)
        target = f"{folder}/{name}"
        self._cache.link(kept.page, f"{target}.html")
        self.names.add(f"{part.making.top}/{year}/{name}.html")
        for picture, stored in kept.stored_pictures.items():
            os.makedirs(target, exist_ok=True)
            self._cache.link(stored, f"{target}/{picture}")
            self.names.add(f"{part.making.top}/{year}/{name}/{picture}")
        job.entry = _ENTRY.validate_json(kept.entry)

    def _framed_anew(self, kept: Kept, frame: Frame) -> Kept:
        heading = _ENTRY.validate_json(kept.entry).heading
        whole, start = frame.around(heading, self._cache.body(kept))
        return kept._replace(page=self._cache.store(kept.page.name, whole), start=start, frame=frame.word)


def _may_teach(log: str) -> bool:
    """False where the log, if there is one, has no lesson for others."""
    with suppress(OSError), open(log, "rb") as file:
        text = file.read()
        return any(key in text for key in WORDS_OF_LESSONS)
    return False


def _stands(job: _Job) -> bool:
    """True where the folder still holds what it held when the build began."""
    with suppress(OSError):
        now = seen(job.folder, job.seen)
        return now.digest == job.seen.digest
    return False
