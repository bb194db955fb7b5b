"""While the site is served: a file is touched when a job or the shop changed since the last build.

Where the system tells of changes, it is heard at once. It does not tell of what another machine writes into a
shared folder, and may refuse to watch as many folders as an archive has; so all are looked through as well,
as often as takes a twentieth of the time.
"""

from __future__ import annotations

import threading
import time
from collections.abc import Callable, Sequence
from contextlib import suppress
from pathlib import Path
from typing import Final

from watchdog.events import (
    DirDeletedEvent,
    DirMovedEvent,
    FileCreatedEvent,
    FileDeletedEvent,
    FileModifiedEvent,
    FileMovedEvent,
    FileSystemEvent,
    FileSystemEventHandler,
)
from watchdog.observers import Observer

SHARE: Final = 20      # of the time goes into one look
LEAST: Final = 2.0     # seconds between two looks
HEARD: Final[list[type[FileSystemEvent]]] = [  # and not that a file or folder is read: a build reads them all
    FileCreatedEvent, FileDeletedEvent, FileModifiedEvent, FileMovedEvent, DirDeletedEvent, DirMovedEvent,
]


class Watch(FileSystemEventHandler):
    """Watches the folders from `start` to `stop`, and touches `told` when something changed.

    `changed` looks whether anything is other than in the last build.
    """

    def __init__(self, folders: Sequence[Path], told: Path, changed: Callable[[], bool]) -> None:
        self._folders, self._told, self._changed = folders, told, changed
        self._ended = threading.Event()
        self._observer = Observer()

    def start(self) -> None:
        """Begin to watch."""
        with suppress(OSError):  # too many folders for the system: then by looking alone
            for folder in self._folders:
                self._observer.schedule(self, str(folder), recursive=True, event_filter=HEARD)
            self._observer.start()
        threading.Thread(target=self._look, daemon=True).start()

    def stop(self) -> None:
        """Watch no more."""
        self._ended.set()
        if self._observer.is_alive():
            self._observer.stop()

    def on_any_event(self, event: FileSystemEvent) -> None:
        """What the system tells."""
        self._tell()

    def _look(self) -> None:
        took = 0.0
        while not self._ended.wait(max(LEAST, SHARE * took)):
            begun = time.monotonic()
            with suppress(OSError):  # a folder that is away for a moment
                if self._changed():
                    self._tell()
            took = time.monotonic() - begun

    def _tell(self) -> None:
        with suppress(OSError):
            self._told.write_text(str(time.time_ns()), encoding="utf-8")
