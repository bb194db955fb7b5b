"""How far a long build is: a bar on a terminal, a plain line now and then otherwise; and what it came to."""

from __future__ import annotations

import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import Final

import click

from generator.language.say import say, say_count
from generator.site.entry import Archive

WORTH_SAYING: Final = 48  # jobs: fewer are made before anybody asks
EVERY: Final = 15.0       # seconds between two plain lines


@contextmanager
def progress() -> Iterator[Callable[[int, int], None]]:
    """Something to be told how many jobs were made, of how many."""
    shown = _Bar() if sys.stderr.isatty() else _Lines()
    try:
        yield shown
    finally:
        shown.close()


class _Bar:
    """A bar on standard error, with the time that is left."""

    def __init__(self) -> None:
        self._bar: click._termui_impl.ProgressBar[int] | None = None

    def __call__(self, made: int, of: int) -> None:
        if of < WORTH_SAYING:
            return
        if self._bar is None:
            self._bar = click.progressbar(
                length=of, label=say("Making sheets"), show_pos=True, file=sys.stderr
            )
            self._bar.__enter__()
        self._bar.update(made - self._bar.pos)
        if made == of:
            self.close()

    def close(self) -> None:
        """End the line of the bar."""
        if self._bar is not None:
            self._bar.__exit__(None, None, None)
            self._bar = None


class _Lines:
    """A line on standard error now and then."""

    def __init__(self) -> None:
        self._said = time.monotonic()

    def __call__(self, made: int, of: int) -> None:
        now = time.monotonic()
        if of >= WORTH_SAYING and (now - self._said >= EVERY or made == of):
            self._said = now
            print(say("{made:,} of {of:,} sheets made", made=made, of=of), file=sys.stderr, flush=True)

    def close(self) -> None:
        """Nothing to end."""


def summary(archive: Archive, seconds: float) -> str:
    """How many jobs there are, how many were made, how many need somebody's attention, and the time.

    Examples
    --------
    >>> summary(Archive(()), 0.42)
    '0 jobs in 0.4 s'
    """
    count = len(archive.entries)
    made = count - archive.reused
    said = [say_count("{count:,} job", "{count:,} jobs", count)]
    if count:
        said += [say("{made:,} made, {reused:,} as before", made=made, reused=archive.reused)]
    if archive.not_ready:
        said.append(say("{not_ready:,} not ready to run", not_ready=archive.not_ready))
    if archive.bad:
        said.append(say("{bad:,} without a sheet because of errors", bad=archive.bad))
    return say("{said} in {seconds:.1f} s", said=", ".join(said), seconds=seconds)
