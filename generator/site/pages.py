"""Every job's page, kept from an earlier build or made now, and all pages in the site.

    make_archive    what each job's files hold now -> kept, or made by several processes -> Archive
    write_pages     every page gets the frame of the theme and its place in the site
"""

from __future__ import annotations

import html
import multiprocessing
import os
import signal
import threading
from collections.abc import Callable, Iterator, Mapping, Sequence
from concurrent.futures import ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from contextlib import suppress
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Final

from pydantic import TypeAdapter

from generator.errors import JobProblems, SheetError
from generator.job.beside import JobPicture
from generator.job.lessons import Lessons, read_lessons
from generator.job.reading import find_jobs
from generator.job.shop import Shop
from generator.pictures import BadPicture, shown_picture
from generator.site.archive import Archive, Entry, make_entry, oddities, try_shop
from generator.site.figure_names import FigureName
from generator.site.job_files import SeenFile, digest, seen_files
from generator.site.kept import Cache, Kept, Stored, store
from generator.site.program_key import folder_key, program_key, word

FEW: Final = 24  # jobs: fewer are made sooner than a second process has started
SAVE_AFTER: Final = 200  # jobs made: what a killed build loses at most

_ENTRY: Final = TypeAdapter(Entry)
_FIGURE: Final = TypeAdapter(FigureName)


class WorkersGone(SheetError):
    """A process that makes sheets was ended from outside."""


@dataclass(frozen=True)
class Order:
    """A job to be made: its file, what its page depends on, its files as they were seen."""

    path: Path
    key: str
    files: Mapping[str, SeenFile]


@dataclass(frozen=True)
class Done:
    """A job that was made, its body and pictures in the cache."""

    entry: Entry
    figures: tuple[FigureName, ...]
    page: Stored
    pictures: Mapping[str, Stored]


@dataclass(frozen=True)
class Making:
    """What every job of one build is made with."""

    shop: Shop | JobProblems
    address: str
    lessons: Lessons
    cache: Path

    def done(self, order: Order) -> Done:
        """Make one job's body and pictures, and put them into the cache."""
        made = make_entry(order.path, self.shop, self.address, self.lessons)
        named = word(order.key, self.lessons.word)
        name = f"{named[:2]}/{named}"
        page = store(self.cache, f"{name}.html", made.body.encode("utf-8"))
        return Done(made.entry, made.figures, page, dict(self._pictures(made.pictures, name)))

    def _pictures(self, pictures: Sequence[JobPicture], name: str) -> Iterator[tuple[str, Stored]]:
        for number, picture in enumerate(pictures):
            with suppress(BadPicture):  # taken away since it was read
                data = shown_picture(picture.path).data
                yield picture.name, store(self.cache, f"{name}.{number}", data)


def make_archive(jobs_dir: Path, cache: Cache, address: str = "") -> Archive:
    """Every job below `jobs_dir`, with its body in the cache.

    `address` is where the site will stand on the web, empty where it will not.

    Raises
    ------
    OSError
        When the cache cannot be written. What is wrong with a job is in its entry.
    WorkersGone
        When a process that makes sheets was ended from outside.
    """
    shop, shop_key = _read_shop(jobs_dir / "_shop")
    common = word(program_key(), shop_key, address)
    lessons = read_lessons(jobs_dir, shop)
    paths = find_jobs(jobs_dir)
    entries: dict[Path, Entry] = {}
    orders = []
    for path in paths:
        name = path.as_posix()
        files = seen_files(path.parent, cache.files_of(name))
        key = word(common, name, digest(files))
        kept = cache.of(name)
        entry = _ENTRY.validate_python(kept.entry) if kept and kept.key == key else None
        if kept and entry and not entry.superseded and kept.lessons in ("", lessons.word):
            entries[path] = entry
            if files != kept.files:
                cache.keep(name, replace(kept, files=files))
        else:
            orders.append(Order(path, key, files))
    reused = len(entries)
    making = Making(shop, address, lessons, cache.folder)
    for number, (order, done) in enumerate(_all_done(making, orders), 1):
        entries[order.path] = done.entry
        cache.keep(order.path.as_posix(), _to_keep(order, done, lessons, cache))
        if number % SAVE_AFTER == 0:
            cache.save()
    cache.tidy(path.as_posix() for path in paths)
    inorder = sorted((entries[path] for path in paths), key=lambda entry: entry.row.year, reverse=True)
    lines = cache.lines(cache.lines_of(path.as_posix()) for path in paths)
    return Archive(
        tuple(inorder),
        tuple(oddities(jobs_dir, inorder)),
        "" if isinstance(shop, JobProblems) else shop.house.shop,
        tuple(_FIGURE.validate_json(line) for line in lines),
        reused,
    )


def write_pages(archive: Archive, cache: Cache, before: str, after: str, title: str, site: Path) -> None:
    """Put the frame around every page where it is new, and every page with its pictures into the site.

    Parameters
    ----------
    before, after : what the frame has before the sheet and after it
    title : what stands in both for the title of the sheet
    site : the folder of the site

    Raises
    ------
    OSError
        When a page cannot be written.
    """
    frame = word(before, after)
    for entry in archive.entries:
        name = entry.path.as_posix()
        kept = cache.of(name)
        if kept is None:
            raise OSError(None, "its page was taken away while the site was built; build it again", name)
        if kept.frame != frame:
            heading, body = html.escape(entry.heading), cache.body(kept)
            head, tail = (part.replace(title, heading).encode("utf-8") for part in (before, after))
            page = store(cache.folder, kept.page.name, head + body + tail)
            kept = replace(kept, page=page, start=len(head), length=len(body), frame=frame)
            cache.keep(name, kept)
        target = site / entry.page
        target.parent.mkdir(parents=True, exist_ok=True)
        cache.link(kept.page, target)
        for picture, stored in kept.pictures.items():
            target.with_suffix("").mkdir(exist_ok=True)
            cache.link(stored, target.with_suffix("") / picture)
    cache.save()


def _read_shop(folder: Path) -> tuple[Shop | JobProblems, str]:
    """The shop and the word for its files, which did not change while they were read."""
    while True:
        before = folder_key(folder)
        shop = try_shop(folder)
        if folder_key(folder) == before:
            return shop, before


def _to_keep(order: Order, done: Done, lessons: Lessons, cache: Cache) -> Kept:
    """What is kept of a job that was made; under no key where another build may make another page."""
    unchanged = digest(seen_files(order.path.parent, order.files)) == digest(order.files)
    return Kept(
        key=order.key if unchanged and done.entry.sure else "",
        files=order.files,
        entry=_ENTRY.dump_python(done.entry, mode="json"),
        lines=cache.lines_as_bits(_FIGURE.dump_json(figure).decode("utf-8") for figure in done.figures),
        page=done.page,
        length=done.page.size,
        pictures=done.pictures,
        lessons=lessons.word if done.entry.learns else "",
    )


# -- several processes at once ----------------------------------------------------------------------------

_making: Making  # of a worker


def _all_done(making: Making, orders: Sequence[Order]) -> Iterator[tuple[Order, Done]]:
    """Make all, in their order: on every core where there are many."""
    workers = min(_cores(), len(orders) // FEW)
    if workers < 2:
        for order in orders:
            yield order, making.done(order)
        return
    pool = ProcessPoolExecutor(
        workers, multiprocessing.get_context("spawn"), initializer=_begin, initargs=(making,)
    )
    try:
        yield from zip(orders, pool.map(_done, orders, chunksize=4), strict=True)
    except BrokenProcessPool as error:
        raise WorkersGone(
            "a process that makes sheets was ended from outside (out of memory?); "
            "build again, most of what was made is kept"
        ) from error
    finally:
        pool.shutdown(wait=True, cancel_futures=True)


def _begin(making: Making) -> None:
    global _making
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # Ctrl-C is for the build as a whole
    threading.Thread(target=_end_with_the_build, daemon=True).start()
    _making = making


def _end_with_the_build() -> None:
    """A build that is killed takes its processes along: they would wait for more for ever."""
    build = multiprocessing.parent_process()
    if build is not None:
        build.join()
        os._exit(1)


def _done(order: Order) -> Done:
    return _making.done(order)


def _cores() -> int:
    usable: Callable[[int], set[int]] | None = getattr(os, "sched_getaffinity", None)
    return len(usable(0)) if usable else os.cpu_count() or 1
