"""The site is replaced as one step, and nobody's files are ever deleted.

A build writes into a staging folder beside the site; when it is complete, the two change places:

    site.building-…   being written       -> renamed to `site` at the end
    site              the earlier site    -> renamed to `site.before`, then removed, or kept for a next build

Most files of a large site are the same again, so the next build begins with the site before last, where it
was kept, and changes what is other: in a quarter of the time.

A marker file in a site lists the files that we wrote. A folder without it, or with files that are not in
it, is somebody's own and is refused.
"""

from __future__ import annotations

import atexit
import os
import shutil
import tempfile
import time
from collections.abc import Collection, Iterable, Iterator
from contextlib import suppress
from pathlib import Path

from generator.errors import SheetError
from generator.language.say import say

MARKER = ".setup-sheets-site"
LEFT_OVER_AFTER = 3600.0  # seconds: an older staging folder belongs to a build that was killed


class SiteRefused(SheetError):
    """The folder asked for cannot be the site; the message says why and what would do."""


class SiteFolder:
    """The site's folder and the staging folder of one build.

    Parameters
    ----------
    site
        Where the site shall stand; a link is followed, so that the link itself stays.
    jobs
        The jobs folders, which the site may not touch.
    """

    def __init__(self, site: Path, jobs: Iterable[Path]) -> None:
        self.site = site.resolve()
        self.staging: Path | None = None
        self._spare: Path | None = None
        self._before = self.site.with_name(self.site.name + ".before")
        self._jobs = [one.resolve() for one in jobs]

    def check(self) -> None:
        """Refuse what is not ours.

        Raises
        ------
        SiteRefused
            When the folder is, holds or lies in the jobs folder, or holds files that we did not write.
        """
        site = self.site
        for jobs in self._jobs:
            if site == jobs or jobs in site.parents or site in jobs.parents:
                raise SiteRefused(
                    say(
                        "{site}: the site cannot be, hold or lie inside the jobs folder {jobs}; "
                        "give another --site",
                        site=site, jobs=jobs,
                    )
                )
        self._refuse_strange_files()

    def begin(self) -> Path:
        """Check, put right what a killed build left, and make the staging folder.

        Raises
        ------
        SiteRefused
            As `check`, and when nothing can be written beside the site.
        """
        self.check()
        try:
            self._put_right()
            self.site.parent.mkdir(parents=True, exist_ok=True)
            staging = Path(tempfile.mkdtemp(prefix=self.site.name + ".building-", dir=self.site.parent))
            staging.chmod(0o755)
        except OSError as error:
            raise SiteRefused(
                say("{site}: cannot write beside it: {why}", site=self.site, why=error.strerror or error)
            ) from error
        (staging / MARKER).touch()
        self.staging = staging
        atexit.register(self.discard)  # Ctrl-C ends a mkdocs build without telling its plugins
        return staging

    def take(self, spare: Path) -> Path:
        """Begin with the site before last, if it was kept in `spare`; returns the staging folder from now on.

        What was written into the staging folder so far is in it. The earlier site will be kept there, too.

        Raises
        ------
        OSError
            When what was written cannot be moved.
        """
        written, self._spare = self.staging, spare
        if written is None:
            raise SiteRefused(say("{site}: nothing was built", site=self.site))
        tree = written.with_name(f"{written.name}-again")
        if not (spare / MARKER).is_file():
            return written
        try:
            os.rename(spare, tree)
            (tree / MARKER).touch()  # it is as young as this build
        except OSError:
            return written
        self.staging = tree
        try:
            for name in list(files_below(written)):
                (tree / name).parent.mkdir(parents=True, exist_ok=True)
                os.replace(written / name, tree / name)
        finally:
            shutil.rmtree(written, ignore_errors=True)
        return tree

    def commit(self, names: Collection[str] | None = None, *, again: bool = False) -> None:
        """Put the finished staging folder in the place of the site, without files other than `names`.

        With `again` the earlier site is kept for the next build.

        Raises
        ------
        SiteRefused
            When the folder cannot be renamed; the earlier site is then back in its place.
        """
        staging = self.staging
        if staging is None:
            raise SiteRefused(say("{site}: nothing was built", site=self.site))
        found = set(files_below(staging))
        gone = set() if names is None else found.difference(names)
        for name in gone:
            _remove(staging, name)
        self._carry_hidden_files(staging)
        (staging / MARKER).write_text(
            "".join(f"{name}\n" for name in sorted(found - gone) if name != MARKER), encoding="utf-8"
        )
        try:
            if self.site.exists():
                os.rename(self.site, self._before)
            os.rename(staging, self.site)
        except OSError as error:
            if self._before.exists() and not self.site.exists():
                os.rename(self._before, self.site)
            raise SiteRefused(
                say(
                    "{site}: cannot be replaced ({why}); is it open in another program?",
                    site=self.site, why=error.strerror or error,
                )
            ) from error
        self.staging = None
        atexit.unregister(self.discard)
        self._keep_before(again)

    def _keep_before(self, again: bool) -> None:
        """Keep the earlier site for the next build, without what others put there; or remove it."""
        if again and self._spare is not None:
            with suppress(OSError):
                for hidden in self._before.glob(".*"):
                    if hidden.is_dir() and not hidden.is_symlink():
                        shutil.rmtree(hidden)
                    elif hidden.name != MARKER:
                        hidden.unlink()
                os.rename(self._before, self._spare)
        shutil.rmtree(self._before, ignore_errors=True)

    def discard(self) -> None:
        """Remove the staging folder; the earlier site stays as it is."""
        if self.staging is not None:
            shutil.rmtree(self.staging, ignore_errors=True)
            self.staging = None
        atexit.unregister(self.discard)

    def _put_right(self) -> None:
        """After a build that was killed: the earlier site comes back, its staging folder goes."""
        if (self._before / MARKER).is_file():
            if self.site.exists():
                shutil.rmtree(self._before, ignore_errors=True)
            else:
                os.rename(self._before, self.site)
        for left in self.site.parent.glob(f"{self.site.name}.building-*"):
            marker = left / MARKER
            if marker.is_file() and time.time() - marker.stat().st_mtime > LEFT_OVER_AFTER:
                shutil.rmtree(left, ignore_errors=True)

    def _refuse_strange_files(self) -> None:
        if not self.site.exists():
            return
        if not self.site.is_dir():
            raise SiteRefused(say("{site}: is a file; give a folder for --site", site=self.site))
        if not any(self.site.iterdir()):
            return
        marker = self.site / MARKER
        if not marker.is_file():
            raise SiteRefused(
                say(
                    "{site}: is not empty and was not built by this program, so nothing in it is touched; "
                    "give a new or empty folder for --site",
                    site=self.site,
                )
            )
        ours = set(marker.read_text(encoding="utf-8").splitlines())
        strange = sorted(
            name for name in files_below(self.site) if not name.startswith(".") and name not in ours
        )
        if strange:
            more = say(" and {count} more", count=len(strange) - 1) if len(strange) > 1 else ""
            raise SiteRefused(
                say(
                    "{file}{more}: not written by this program; the site folder is replaced "
                    "as a whole, so move it elsewhere first",
                    file=self.site / strange[0], more=more,
                )
            )

    def _carry_hidden_files(self, staging: Path) -> None:
        """Hidden files at the top of a site (version control, web server) stay, as mkdocs does it."""
        if not self.site.is_dir():
            return
        for entry in self.site.iterdir():
            target = staging / entry.name
            if not entry.name.startswith(".") or target.exists():
                continue
            if entry.is_dir() and not entry.is_symlink():
                shutil.copytree(entry, target, symlinks=True)
            else:
                shutil.copy2(entry, target, follow_symlinks=False)


def _remove(folder: Path, name: str) -> None:
    """Remove a file, and the folders that are empty without it."""
    path = folder / name
    path.unlink()
    with suppress(OSError):
        for parent in path.relative_to(folder).parents[:-1]:
            (folder / parent).rmdir()


def files_below(folder: Path) -> Iterator[str]:
    """All files below the folder, as posix paths relative to it."""
    top = len(str(folder)) + 1
    for parent, _, names in os.walk(folder):
        inside = parent[top:].replace(os.sep, "/")
        yield from (f"{inside}/{name}" for name in names) if inside else names
