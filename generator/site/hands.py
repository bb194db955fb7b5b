"""Who makes the sheets: this process, processes of this machine, or an executor that was given.

    Hands     takes orders and hands back what was made, in the order of the orders

Starting a process takes longer than making a few sheets, so `warm` starts one before it is known whether
there is anything to make, while this process has other things to do.
"""

from __future__ import annotations

import multiprocessing
import os
import pickle
import signal
import sys
import threading
from collections import deque
from collections.abc import Callable, Iterable, Iterator, Sequence
from concurrent.futures import Executor, Future, ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from functools import lru_cache, partial
from importlib import import_module
from itertools import chain, groupby, islice
from pathlib import Path
from typing import Final, TypeVar, cast

from generator.archive.search_index import segment
from generator.collecting import collecting_seldom, without_collecting
from generator.errors import SheetError
from generator.job.learned import Lesson
from generator.language.say import say
from generator.site.orders import Done, Making

MAKING: Final = "generator.site.making"  # a second to load; the process that orders need not wait for it
FEW: Final = 48  # jobs: fewer are made sooner in this process than others have started
MOST_AT_ONCE: Final = 16  # jobs of one task
_T = TypeVar("_T")
_Work = Callable[[Making, Sequence[str]], list[_T]]


class WorkersGone(SheetError):
    """A process that makes sheets was ended from outside."""


class Hands:
    """Makes sheets; `executor` is another's, which is not closed here. To be used by one build at a time."""

    def __init__(self, executor: Executor | None = None) -> None:
        self._given = executor
        self._one: ProcessPoolExecutor | None = None  # a process that was started before it was asked for
        self._many: ProcessPoolExecutor | None = None

    def warm(self) -> None:
        """Begin to start a process of our own, where this one is not ready to make sheets itself."""
        if self._given is None and MAKING not in sys.modules:
            self._one = _pool(1)
            self._one.submit(_ready)

    def close(self) -> None:
        """End the processes of our own."""
        for pool in (self._one, self._many):
            if pool is not None:
                pool.shutdown(wait=True, cancel_futures=True)
        self._one = self._many = None

    def made(self, orders: Sequence[tuple[Making, str]]) -> Iterator[Done]:
        """Make the jobs with these files; they are begun at once where others make them.

        Raises
        ------
        WorkersGone
            When a process ended before it was done.
        """
        return self._all(_make, orders)

    def taught(self, orders: Sequence[tuple[Making, str]]) -> Iterator[tuple[Lesson, ...]]:
        """What others learn from the jobs with these files; raises as `made`."""
        return self._all(_teach, orders)

    def segments(self, blocks: Iterable[tuple[Sequence[str], int]]) -> Iterator[dict[str, str]]:
        """What each file of the index of words has of each block, in their order; raises as `made`.

        A block is the words of its jobs, a line each, and how many files there are. The first ones are begun
        at once where other processes of ours make them, the others as these are done.
        """
        pool = self._many or self._one
        if pool is None:
            return (_segment(*block) for block in blocks)
        rest = iter(blocks)
        waiting = deque(pool.submit(_segment, *block) for block in islice(rest, 2 * cores()))
        return self._handed_back(_in_turn(pool, waiting, rest))

    def _all(self, work: _Work[_T], orders: Sequence[tuple[Making, str]]) -> Iterator[_T]:
        executor = self._given or self._one
        if self._given is None and len(orders) >= FEW and cores() > 1:
            executor = self._many = self._many or _pool(cores())
        if executor is None:
            return chain.from_iterable(work(making, (path,)) for making, path in orders)
        at_once = min(MOST_AT_ONCE, 1 + len(orders) // (4 * cores()))
        tasks = list(_tasks(orders, at_once))
        try:
            results = executor.map(partial(_far, work), *zip(*tasks, strict=True)) if tasks else iter(())
        except BrokenProcessPool as error:  # before it was asked for anything
            raise self._gone() from error
        return self._handed_back(chain.from_iterable(results))

    def _handed_back(self, results: Iterator[_T]) -> Iterator[_T]:
        try:
            yield from results
        except BrokenProcessPool as error:
            raise self._gone() from error

    def _gone(self) -> WorkersGone:
        self._one = self._many = None
        return WorkersGone(
            say(
                "a process that makes sheets was ended from outside (out of memory?); "
                "build again, most of what was made is kept"
            )
        )


def _pool(processes: int) -> ProcessPoolExecutor:
    return ProcessPoolExecutor(processes, multiprocessing.get_context("spawn"), initializer=_begin)


def cores() -> int:
    """How many processes can work at once on this machine."""
    usable: Callable[[int], set[int]] | None = getattr(os, "sched_getaffinity", None)
    return len(usable(0)) if usable else os.cpu_count() or 1


def _in_turn(
    pool: Executor, waiting: deque[Future[dict[str, str]]], rest: Iterator[tuple[Sequence[str], int]]
) -> Iterator[dict[str, str]]:
    """The results in order; for each that is taken another block is begun."""
    while waiting:
        found = waiting.popleft().result()
        waiting.extend(pool.submit(_segment, *block) for block in islice(rest, 1))
        yield found


def _segment(words: Sequence[str], files: int) -> dict[str, str]:
    """What each file has of one block."""
    return segment([said.split("\n") for said in words], files)


def _tasks(orders: Sequence[tuple[Making, str]], at_once: int) -> Iterator[tuple[bytes, tuple[str, ...]]]:
    """The orders in their order, those of one jobs folder several at once."""
    for _, same in groupby(orders, key=lambda order: id(order[0])):
        some = list(same)
        making = pickle.dumps(some[0][0])
        for start in range(0, len(some), at_once):
            yield making, tuple(path for _, path in some[start:start + at_once])


# -- on the other side ------------------------------------------------------------------------------------


def _begin() -> None:
    """Get ready."""
    with without_collecting():
        import_module(MAKING)
    collecting_seldom()
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # Ctrl-C is for the build as a whole
    threading.Thread(target=_end_with_the_build, daemon=True).start()


def _end_with_the_build() -> None:
    """A build that is killed takes its processes along: they would wait for more for ever."""
    build = multiprocessing.parent_process()
    if build is not None:
        build.join()
        os._exit(1)


def _ready() -> None:
    pass  # here: it takes a second, and the process that orders need not wait for it


def _far(work: _Work[_T], making: bytes, paths: tuple[str, ...]) -> list[_T]:
    return work(_unpickled(making), paths)


@lru_cache(maxsize=4)
def _unpickled(making: bytes) -> Making:
    return cast(Making, pickle.loads(making))


def _make(making: Making, paths: Sequence[str]) -> list[Done]:
    from generator.site.making import made  # here: it takes a second where it is not loaded yet

    return [made(making, Path(path)) for path in paths]


def _teach(making: Making, paths: Sequence[str]) -> list[tuple[Lesson, ...]]:
    from generator.site.making import taught_at  # here, as above

    return [taught_at(making, Path(path)) for path in paths]
