"""The jobs folders of a site: each with its shop and the top folder of its pages.

    shown           a path as messages show it
    jobs_folders    several folders in one site
"""

from __future__ import annotations

import itertools
import re
from collections.abc import Sequence
from pathlib import Path

from generator.site.entry import SHEETS
from generator.site.job_files import JobsFolder


def shown(path: Path) -> Path:
    """A path as messages show it: from the current folder where it lies below it."""
    path = Path(path).resolve()
    return path.relative_to(Path.cwd()) if path.is_relative_to(Path.cwd()) else path


def jobs_folders(paths: Sequence[Path]) -> list[JobsFolder]:
    """Each with its shop; one without the files of a shop takes those of the first."""
    found: list[JobsFolder] = []
    for path in paths:
        own = path / "_shop"
        shop = own if own.is_dir() or not found else found[0].shop
        found.append(JobsFolder(path, shop, SHEETS if not found else _top(path, found)))
    return found


def _top(path: Path, others: Sequence[JobsFolder]) -> str:
    """The top folder of the pages of a second jobs folder, after its name."""
    plain = re.sub(r"[^a-z0-9]+", "-", path.resolve().name.lower()).strip("-") or "jobs"
    taken = {one.top for one in others}
    first = f"{SHEETS}-{plain}"
    further = (f"{first}-{number}" for number in itertools.count(2))
    return next(name for name in itertools.chain([first], further) if name not in taken)
