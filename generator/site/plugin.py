"""The mkdocs plugin `setup_sheets`: `mkdocs build` and `mkdocs serve` make the sheets, too.

Sheets are not mkdocs pages. The theme renders one page, the frame; every sheet is the frame with the
sheet's body in it, written when mkdocs has written everything else:

    on_config      the site folder is checked, mkdocs writes into the staging folder beside it
    on_files       all jobs are kept from an earlier build or computed; the frame joins the pages
    on_page_context  the archive page and the generated lists get what they list
    on_post_build  bodies get the frame around them, the table of jobs is written, the site is swapped in
"""

from __future__ import annotations

import logging
import tempfile
from collections.abc import Callable
from contextlib import ExitStack
from pathlib import Path
from typing import Any, ClassVar, Final, Literal, TypeVar

from mkdocs.config import config_options
from mkdocs.config.base import Config
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import PluginError
from mkdocs.livereload import LiveReloadServer
from mkdocs.plugins import BasePlugin, event_priority
from mkdocs.structure.files import File, Files, InclusionLevel
from mkdocs.structure.nav import Navigation
from mkdocs.structure.pages import Page
from mkdocs.utils import CountHandler
from mkdocs.utils.templates import TemplateContext
from pydantic import TypeAdapter

import generator
from generator.job.keys import file_keys
from generator.job.thread_families import ListedFamily, listed_families
from generator.job.thread_print import FromMemory, differences, from_memory, thread_tables
from generator.render.print_set import SET_STYLE, set_tools
from generator.site.archive import COLUMNS, FILTERS, Archive, index_script
from generator.site.kept import Cache
from generator.site.links import broken_links
from generator.site.pages import WorkersGone, make_archive, write_pages
from generator.site.program_key import program_key
from generator.site.swap import MARKER, SiteFolder, SiteRefused

log = logging.getLogger("mkdocs.plugins.setup_sheets")

TEMPLATES: Final = Path(generator.__file__).resolve().parent.parent / "site_templates"
STYLES: Final = (  # a later one wins: paper over screen
    "site.css", "drawing.css", "sheet.css", "at_machine.css", "take_up.css", "lessons.css",
    "log_rows.css", "print.css",
)
SHEET_SCRIPTS: Final = (  # in the order in which they need each other
    "left_to_cut.js", "log_text.js", "sheet_data.js", "cards.js", "kept.js", "fields.js", "log_piece.js",
    "large_view.js", "measured.js", "working.js", "unpack.js", "sheet.js",
    "give_sheet.js",
)
ARCHIVE_SCRIPTS: Final = ("ticks.js", "archive.js")
SET_SCRIPTS: Final = ("join_sheets.js", "sheet.js", "gather_sheets.js")
SCRIPTS: Final = tuple(dict.fromkeys((*ARCHIVE_SCRIPTS, *SHEET_SCRIPTS, *SET_SCRIPTS)))
SET: Final = "print-set"
SET_PAGE: Final = "---\ntitle: Print a set of sheets\ntemplate: set.html\nhide: [navigation, toc]\n---\n"
INDEX_SCRIPT: Final = "archive-index.js"
FRAME: Final = "sheets/_frame/frame"  # same depth as every sheet, so that relative links agree
FRAME_TITLE: Final = "The title of the sheet stands here"
FRAME_BODY: Final = "<!-- the sheet stands here -->"  # also in theme/sheet.html
FRAME_PAGE: Final = f"---\ntitle: {FRAME_TITLE}\ntemplate: sheet.html\nhide: [navigation, toc]\n---\n"

UNUSED: Final = (  # of the theme: its search needs a web server, and its own picture
    "assets/javascripts/lunr/",
    "assets/javascripts/workers/",
    "assets/images/favicon.png",
)

_FAMILIES: Final = TypeAdapter(tuple[ListedFamily, ...])
_FROM_MEMORY: Final = TypeAdapter(tuple[FromMemory, ...])
_T = TypeVar("_T")


class SetupSheetsConfig(Config):  # type: ignore[no-untyped-call]  # mkdocs' own class hook
    """Options of the plugin in mkdocs.yml."""

    jobs_dir = config_options.Type(str, default="jobs")
    cache = config_options.Type(bool, default=True)


class SetupSheetsPlugin(BasePlugin[SetupSheetsConfig]):  # type: ignore[no-untyped-call]
    """Makes the sheets of all jobs and swaps the finished site in."""

    jobs_instead: ClassVar[Path | None] = None  # the command line's --jobs; mkdocs makes the plugin by itself

    without_cache: ClassVar[bool] = False  # the command line's --no-cache

    archive: Archive
    cache: Cache
    folder: SiteFolder
    jobs: Path

    def __init__(self) -> None:
        self.open = ExitStack()
        self.serving = False

    def jobs_folder(self, config: MkDocsConfig) -> Path:
        """The jobs folder: the command line's, else `jobs_dir` beside mkdocs.yml."""
        here = Path(config.config_file_path).resolve().parent if config.config_file_path else Path.cwd()
        return shown(self.jobs_instead or here / self.config.jobs_dir)

    def on_startup(self, *, command: Literal["build", "gh-deploy", "serve"], dirty: bool) -> None:
        """Note what mkdocs is asked for; with this event it keeps one plugin from build to build."""
        self.serving = command == "serve"

    @event_priority(100)
    def on_config(self, config: MkDocsConfig) -> MkDocsConfig:
        """Take the staging folder for the site, and what makes a site that opens from disk."""
        self.jobs = self.jobs_folder(config)
        if not self.jobs.is_dir():
            raise PluginError(f"{self.jobs}: there is no such jobs folder; set jobs_dir, or give --jobs")
        self.folder = SiteFolder(Path(config.site_dir), self.jobs)
        try:
            config.site_dir = str(self.folder.begin())
        except SiteRefused as error:
            raise PluginError(str(error)) from error
        config.use_directory_urls = False
        if not config.site_url:
            config.theme.static_templates.discard("sitemap.xml")  # it needs addresses, and a date
        config.extra_css[:0] = [f"css/{name}" for name in STYLES]
        return config

    def on_files(self, files: Files, *, config: MkDocsConfig) -> Files:
        """Read and compute all jobs; add style sheets, scripts and the frame to the site's files."""
        self.open = ExitStack()
        try:
            self.cache = self.open.enter_context(Cache(self._cache_folder(config)))
            self.archive = make_archive(self.jobs, self.cache, config.site_url or "")
        except (OSError, WorkersGone) as error:
            raise PluginError(_said(error)) from error
        for problem in self.archive.problems:
            log.warning(str(problem))
        for oddity in self.archive.oddities:
            log.warning(oddity)
        for name, path in _assets():
            if files.get_file_from_path(name) is None:
                files.append(File.generated(config, name, abs_src_path=str(path)))
        for file in [file for file in files if file.src_uri.startswith(UNUSED)]:
            files.remove(file)
        script = index_script(self.archive.entries)
        files.append(File.generated(config, INDEX_SCRIPT, content=script))
        for name, content in ((FRAME, FRAME_PAGE), (SET, SET_PAGE)):
            page = File.generated(config, f"{name}.md", content=content, inclusion=InclusionLevel.NOT_IN_NAV)
            files.append(page)
        return files

    def on_page_context(
        self, context: TemplateContext, *, page: Page, config: MkDocsConfig, nav: Navigation
    ) -> TemplateContext:
        """Give the templates the archive, and the names of the columns with their headings."""
        added: dict[str, Any] = {
            "archive": self.archive,
            "archive_columns": [(name, name.capitalize()) for name in COLUMNS],
            "archive_filters": [(name, name.capitalize()) for name in FILTERS],
            "archive_scripts": [INDEX_SCRIPT, *(f"js/{name}" for name in ARCHIVE_SCRIPTS)],
            "set_page": f"{SET}.html",
            "set_scripts": [INDEX_SCRIPT, *(f"js/{name}" for name in SET_SCRIPTS)],
            "set_style": SET_STYLE,
            "set_tools": set_tools,
            "sheet_scripts": [f"js/{name}" for name in SHEET_SCRIPTS],
            "file_keys": file_keys,
            "thread_families": lambda: self._kept("families", listed_families, _FAMILIES),
            "thread_differences": differences,
            "threads_from_memory": lambda: self._kept("from memory", from_memory, _FROM_MEMORY),
            "thread_tables": thread_tables,
        }
        context.update(added)  # type: ignore[typeddict-item]
        return context

    @event_priority(-100)
    def on_post_build(self, *, config: MkDocsConfig) -> None:
        """Put the frame around every sheet and swap the finished site in."""
        staging = Path(config.site_dir)
        self._frame_sheets(staging)
        if config.strict:
            for broken in broken_links(staging):
                log.warning(str(broken))
            if _warnings():
                self.folder.discard()
                config.site_dir = str(self.folder.site)
                return  # mkdocs now says how many warnings there were, and fails
        try:
            self.folder.commit()
        except SiteRefused as error:
            raise PluginError(str(error)) from error
        config.site_dir = str(self.folder.site)
        log.info("%s", summary(self.archive))

    def on_build_error(self, *, error: Exception) -> None:
        """Remove what a failed build wrote; the earlier site stays."""
        self.open.close()
        if hasattr(self, "folder"):
            self.folder.discard()

    def on_serve(
        self, server: LiveReloadServer, *, config: MkDocsConfig, builder: Callable[..., None]
    ) -> LiveReloadServer:
        """Build again when a job, a shop file or a template changes."""
        server.watch(str(self.jobs))
        server.watch(str(TEMPLATES))
        return server

    def _cache_folder(self, config: MkDocsConfig) -> Path:
        """Beside the site; while serving, where a build has it; without a cache, one that goes again."""
        site = self.folder.site
        if not self.config.cache or self.without_cache:
            folder = tempfile.TemporaryDirectory(prefix=f"{site.name}.building-", dir=site.parent)
            here = Path(self.open.enter_context(folder))
            (here / MARKER).touch()
            return here
        if self.serving:
            here = Path.cwd() if self.jobs_instead else Path(config.config_file_path).resolve().parent
            return here / "site.cache"
        return site.with_name(f"{site.name}.cache")

    def _kept(self, name: str, find: Callable[[], _T], kind: TypeAdapter[_T]) -> _T:
        """What depends on the program alone, and takes seconds to find."""
        said = self.cache.said(name, program_key(), lambda: kind.dump_json(find()).decode("utf-8"))
        return kind.validate_json(said)

    def _frame_sheets(self, staging: Path) -> None:
        frame = staging / f"{FRAME}.html"
        before, found, after = frame.read_text(encoding="utf-8").partition(FRAME_BODY)
        if not found:
            raise PluginError(f"theme/sheet.html must hold {FRAME_BODY!r} once")
        frame.unlink()
        frame.parent.rmdir()
        try:
            write_pages(self.archive, self.cache, before, after, FRAME_TITLE, staging)
        except OSError as error:
            raise PluginError(_said(error)) from error
        finally:
            self.open.close()


def shown(path: Path) -> Path:
    """A path as messages show it: from the current folder where it lies below it."""
    path = Path(path).resolve()
    return path.relative_to(Path.cwd()) if path.is_relative_to(Path.cwd()) else path


def summary(archive: Archive) -> str:
    """How many jobs there are, and how many need somebody's attention."""
    count = len(archive.entries)
    said = [f"{count} job{'' if count == 1 else 's'}"]
    if archive.not_ready:
        said.append(f"{archive.not_ready} not ready to run")
    if archive.bad:
        said.append(f"{archive.bad} without a sheet because of errors")
    return ", ".join(said)


def _said(error: Exception) -> str:
    """A fault of a file as one sentence, with the file."""
    if isinstance(error, OSError):
        return f"{error.filename or 'input or output'}: {error.strerror or error}"
    return str(error)


def _assets() -> list[tuple[str, Path]]:
    """Our style sheets and scripts: name in the site, and file."""
    names = [f"css/{name}" for name in STYLES] + [f"js/{name}" for name in SCRIPTS] + [SET_STYLE]
    return [(name, TEMPLATES / name) for name in names]


def _warnings() -> bool:
    """True when mkdocs counted a warning in this strict build."""
    return any(
        handler.get_counts()
        for handler in logging.getLogger("mkdocs").handlers
        if isinstance(handler, CountHandler)
    )
