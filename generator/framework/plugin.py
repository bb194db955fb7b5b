"""The mkdocs plugin `setup_sheets`: `mkdocs build` and `mkdocs serve` make the sheets, too.

Sheets are not mkdocs pages. The theme renders one page, the frame; every sheet is the frame with the
sheet's body in it, written when mkdocs has written everything else:

    on_startup     a process that makes sheets begins to start
    on_config      the site folder is checked, mkdocs writes into the staging folder beside it; the shop's own
                   pages join the menu
    on_files       the jobs are looked through, those that changed are ordered; the frame joins the pages
    on_env         the theme's templates stay compiled
    on_page_context  the generated lists about the program get what they list
    on_post_page, on_post_template  the page, and so the frame, gets its content security policy
    on_post_build  sheets get the frame around them, what lists the jobs is filled in, the site is swapped in
"""

from __future__ import annotations

import json
import logging
import shutil
import tempfile
import time
from collections.abc import Callable, Iterator
from contextlib import ExitStack, closing, contextmanager
from itertools import chain
from pathlib import Path
from typing import Any, ClassVar, Final, Literal

import mkdocs
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

from generator.archive.calendar_pages import calendar_front
from generator.archive.figures import sources_table
from generator.archive.lists import lists_front
from generator.archive.times import times_page
from generator.collecting import collecting_all_again, without_collecting
from generator.errors import SheetError
from generator.framework.own_pages import add_files, add_to_menu
from generator.framework.reloading import letting_reload
from generator.framework.said import is_ours, say_settings
from generator.framework.theme_files import list_without_hidden
from generator.language.fragments import page_in_other_words
from generator.language.say import say
from generator.language.spoken import speak, spoken, written_for
from generator.render.environment import Saying, compiled, templates_folder
from generator.render.loaded import (
    ARCHIVE_SCRIPTS,
    ARCHIVE_STYLE,
    SET_SCRIPTS,
    SET_STYLE,
    SHEET_SCRIPTS,
    STYLES,
    loaded_files,
)
from generator.render.policy import with_policy
from generator.site import frame as frames
from generator.site.archive_pages import archive_contents
from generator.site.contents import write_contents
from generator.site.entry import Archive
from generator.site.explained import explained_contents, how_to_pages
from generator.site.folders import jobs_folders, shown
from generator.site.frame import Frame
from generator.site.hands import Hands
from generator.site.kept import Cache
from generator.site.links import broken_links
from generator.site.pages import Build
from generator.site.program_lists import ProgramLists
from generator.site.progress import progress, summary
from generator.site.swap import MARKER, SiteFolder, SiteRefused, files_below
from generator.site.watching import Watch
from generator.site.word_index import Damaged, WordIndex

log = logging.getLogger("mkdocs.plugins.setup_sheets")

SET: Final = "print-set"
SET_PAGE: Final = "---\ntitle: {}\ntemplate: set.html\nhide: [navigation, toc]\n---\n"
FRAME: Final = "sheets/_frame/frame"  # as deep as every sheet, so that relative links agree
LIST_FRAME: Final = "lists/_frame/frame"  # and as every list
FRAME_PAGE: Final = f"---\ntitle: {frames.TITLE}\ntemplate: {{}}.html\nhide: [navigation, toc]\n---\n"

UNUSED: Final = (  # of the theme: its search needs a web server, and its own picture
    "assets/javascripts/lunr/",
    "assets/javascripts/workers/",
    "assets/images/favicon.png",
)


class SetupSheetsConfig(Config):  # type: ignore[no-untyped-call]  # mkdocs' own class hook
    """Options of the plugin in mkdocs.yml."""

    jobs_dir = config_options.Type((str, list), default="jobs")
    cache = config_options.Type(bool, default=True)


class SetupSheetsPlugin(BasePlugin[SetupSheetsConfig]):  # type: ignore[no-untyped-call]
    """Makes the sheets of all jobs and swaps the finished site in."""

    jobs_instead: ClassVar[tuple[Path, ...]] = ()  # the command line's --jobs; mkdocs makes the plugin itself
    without_cache: ClassVar[bool] = False  # the command line's --no-cache
    ready: ClassVar[Hands | None] = None  # whom the command line lets make the sheets

    archive: Archive
    build: Build
    cache: Cache
    words: WordIndex
    folder: SiteFolder
    lists: ProgramLists
    jobs: tuple[Path, ...]

    def __init__(self) -> None:
        self.open = ExitStack()
        self.serving = False
        self.served = ExitStack()
        self.hands = self.ready or Hands()

    def jobs_folders(self, config: MkDocsConfig) -> tuple[Path, ...]:
        """The jobs folders: the command line's, else `jobs_dir` beside mkdocs.yml."""
        here = Path(config.config_file_path).resolve().parent if config.config_file_path else Path.cwd()
        named = self.config.jobs_dir
        own = [here / one for one in ([named] if isinstance(named, str) else named)]
        return tuple(shown(one) for one in self.jobs_instead or own)

    def on_startup(self, *, command: Literal["build", "gh-deploy", "serve"], dirty: bool) -> None:
        """Begin to start a process; with this event mkdocs keeps one plugin from build to build."""
        self.serving = command == "serve"
        if self.ready is None:
            self.hands.warm()

    def on_shutdown(self) -> None:
        """End the processes of our own."""
        self.hands.close()
        self.served.close()

    @event_priority(100)
    def on_config(self, config: MkDocsConfig) -> MkDocsConfig:
        """Take the staging folder for the site, and what makes a site that opens from disk."""
        self.begun = time.monotonic()
        self.jobs = self.jobs_folders(config)
        speak(written_for(self.jobs[0]))
        say_settings(config)
        for jobs in self.jobs:
            if not jobs.is_dir():
                raise PluginError(
                    say("{jobs}: there is no such jobs folder; set jobs_dir, or give --jobs", jobs=jobs)
                )
        if self.serving and self._keeps():
            config.site_dir = str(self._home(config) / "site.cache" / "served")
        self.folder = SiteFolder(Path(config.site_dir), self.jobs)
        try:
            config.site_dir = str(self.folder.begin())
        except SiteRefused as error:
            raise PluginError(str(error)) from error
        if self.serving:
            collecting_all_again()
            config.site_url = _own_address(config)  # that of the server would make every sheet anew
        config.use_directory_urls = False
        list_without_hidden(config.theme)
        if not config.site_url:
            config.theme.static_templates.discard("sitemap.xml")  # it needs addresses, and a date
        config.extra_css[:0] = [f"css/{name}" for name in STYLES]
        add_to_menu(config, self.jobs)
        return config

    def on_files(self, files: Files, *, config: MkDocsConfig) -> Files:
        """Look through all jobs; add style sheets, scripts and the frames to the site's files."""
        self.open = ExitStack()
        with _faults_said():
            self.cache = self.open.enter_context(Cache(self._cache_folder(config)))
            self.lists = ProgramLists(self.cache)
            self.words = self.open.enter_context(closing(WordIndex(self.cache, self.hands)))
            self.build = Build(
                jobs_folders(self.jobs), self.cache, self.words, self.hands, config.site_url or "",
                self.open.enter_context(progress()),
            )
            self.build.begin()
        for name, text in loaded_files():
            if files.get_file_from_path(name) is None:
                files.append(File.generated(config, name, content=text.encode()))
        for clash in add_files(files, config, self.jobs):
            log.warning(clash)
        for file in [file for file in files if file.src_uri.startswith(UNUSED)]:
            files.remove(file)
        generated = {
            FRAME: FRAME_PAGE.format("sheet"),
            LIST_FRAME: FRAME_PAGE.format("list"),
            SET: SET_PAGE.format(json.dumps(say("Print a set of sheets"))),  # JSON's string is YAML's too
        }
        for name, content in generated.items():
            page = File.generated(config, f"{name}.md", content=content, inclusion=InclusionLevel.NOT_IN_NAV)
            files.append(page)
        return files

    def on_env(self, env: Any, *, config: MkDocsConfig, files: Files) -> Any:
        """Let the templates of the theme stay compiled from one build to the next."""
        env.bytecode_cache = compiled(f"theme-{mkdocs.__version__}-{spoken().code}")
        env.loader = Saying(env.loader)
        return env

    def on_page_markdown(self, markdown: str, *, page: Page, config: MkDocsConfig, files: Files) -> str:
        """Say the plain pages of the program; the shop's own stay as they are."""
        if not is_ours(page.file):
            return markdown
        if "title" in page.meta:
            page.meta["title"] = say(str(page.meta["title"]))
        return page_in_other_words(markdown, say)

    def on_page_context(
        self, context: TemplateContext, *, page: Page, config: MkDocsConfig, nav: Navigation
    ) -> TemplateContext:
        """Give the templates the lists about the program, and what they load."""
        added: dict[str, Any] = {
            "archive_scripts": [f"js/{name}" for name in ARCHIVE_SCRIPTS],
            "archive_style": ARCHIVE_STYLE,
            "set_page": f"{SET}.html",
            "set_scripts": [f"js/{name}" for name in SET_SCRIPTS],
            "set_style": SET_STYLE,
            "sheet_scripts": [f"js/{name}" for name in SHEET_SCRIPTS],
            "program_list": self.lists,
            "how_to_pages": how_to_pages,
        }
        context.update(added)  # type: ignore[typeddict-item]
        return context

    @event_priority(-100)
    def on_post_page(self, output: str, *, page: Page, config: MkDocsConfig) -> str:
        """Say on the page what may run on it, before any job's text comes to it."""
        return _guarded(output, frames=page.file.src_uri == f"{SET}.md")

    @event_priority(-100)
    def on_post_template(self, output_content: str, *, template_name: str, config: MkDocsConfig) -> str:
        """The same on the page that stands in for a missing one."""
        return _guarded(output_content) if template_name.endswith(".html") else output_content

    @event_priority(-100)
    def on_post_build(self, *, config: MkDocsConfig) -> None:
        """Make what was ordered, put the frames around it, fill in the lists, and swap the site in."""
        staging = Path(config.site_dir)
        with self.open, _faults_said():
            sheets, lists = (self._frame(staging / f"{name}.html") for name in (FRAME, LIST_FRAME))
            names = set(files_below(staging))
            if self._keeps():
                staging = self.folder.take(self._spare())
                config.site_dir = str(staging)
            self.archive = self.build.finish(sheets, staging)
            with without_collecting():
                names |= self._write_archive(lists, staging) | self.build.names
        for problem in self.archive.problems:
            log.warning(str(problem))
        for oddity in self.archive.oddities:
            log.warning(oddity)
        if config.strict:
            for broken in broken_links(staging):
                log.warning(str(broken))
            if _warnings():
                self.folder.discard()
                config.site_dir = str(self.folder.site)
                return  # mkdocs now says how many warnings there were, and fails
        try:
            self.folder.commit(names, again=self.cache.linked)
        except SiteRefused as error:
            raise PluginError(str(error)) from error
        config.site_dir = str(self.folder.site)
        log.info("%s", self.summary())

    def on_build_error(self, *, error: Exception) -> None:
        """Remove what a failed build wrote; the earlier site stays."""
        self.open.close()
        if hasattr(self, "folder"):
            self.folder.discard()

    def on_serve(
        self, server: LiveReloadServer, *, config: MkDocsConfig, builder: Callable[..., None]
    ) -> LiveReloadServer:
        """Serve the site that was built, and build again when a job, a shop file or a template changes."""
        server.root = str(self.folder.site)
        server.set_app(letting_reload(server.serve_request))
        told = self.folder.site.with_name(f"{self.folder.site.name}.changed")
        told.touch()
        watch = Watch(self.jobs, told, lambda: self.build.changed())
        for left in () if self.cache.linked else (server.root, self._spare()):  # else the next begins with it
            self.served.callback(shutil.rmtree, left, ignore_errors=True)
        self.served.callback(told.unlink, missing_ok=True)
        self.served.callback(watch.stop)
        watch.start()
        server.watch(str(told))
        server.watch(str(templates_folder()))
        return server

    def _cache_folder(self, config: MkDocsConfig) -> Path:
        """Beside the site; while serving, where a build has it; without a cache, one that goes again."""
        site = self.folder.site
        if not self._keeps():
            folder = tempfile.TemporaryDirectory(prefix=f"{site.name}.building-", dir=site.parent)
            here = Path(self.open.enter_context(folder))
            (here / MARKER).touch()
            return here
        if self.serving:
            return self._home(config) / "site.cache"
        return site.with_name(f"{site.name}.cache")

    def _spare(self) -> Path:
        """Where the earlier site is kept for the next build."""
        return self.cache.folder / f"before-{self.folder.site.name}"

    def _keeps(self) -> bool:
        return self.config.cache and not self.without_cache

    def _home(self, config: MkDocsConfig) -> Path:
        """The folder in which a build makes the site, where it is not told another one."""
        return Path.cwd() if self.jobs_instead else Path(config.config_file_path).resolve().parent

    def _frame(self, page: Path) -> Frame:
        """What the theme has put around nothing; the page itself does not stay."""
        try:
            frame = Frame.of(page.read_text(encoding="utf-8"))
        except ValueError as error:
            raise PluginError(str(error)) from error
        page.unlink()
        page.parent.rmdir()
        return frame

    def _write_archive(self, frame: Frame, staging: Path) -> set[str]:
        """What lists the jobs; the names of the files that were written."""
        try:
            files = self._contents(frame, staging)
        except Damaged:
            self.words.begin_anew()
            files = self._contents(frame, staging)
        self.cache.tidy((page.path for page in self.archive.pages), files.values())
        self._fill(staging / "calendar.html", "calendar", calendar_front(self.archive.jobs))
        self._fill(staging / "times.html", "times", times_page(self.archive.jobs))
        self._fill(staging / "lists.html", "lists", lists_front(self.archive.jobs))
        self._fill(staging / "sources.html", "sources", sources_table(self.archive.sources()))
        return set(files)

    def _contents(self, frame: Frame, staging: Path) -> dict[str, str]:
        contents = archive_contents(self.archive.jobs, self.archive.pages, self.words)
        pages = chain(contents, explained_contents(self.lists))
        return write_contents(pages, self.cache, frame, staging)

    def _fill(self, page: Path, name: str, text: str) -> None:
        """Put the text in its place on a page of mkdocs."""
        if page.is_file():  # a site of one's own need not have it
            before, found, after = page.read_text(encoding="utf-8").partition(f"<!-- {name} -->")
            page.write_text(before + (text if found else "") + after, encoding="utf-8")

    def summary(self) -> str:
        """How many jobs there are, how many need somebody's attention, and what the build took."""
        return summary(self.archive, time.monotonic() - self.begun)


def _own_address(config: MkDocsConfig) -> str | None:
    """Where the settings say that the site stands on the web; while it is served mkdocs says its own."""
    return next((one["site_url"] for one in reversed(config.user_configs) if one.get("site_url")), None)


def _guarded(page: str, *, frames: bool = False) -> str:
    """The page with its policy, or its fault as mkdocs says one."""
    try:
        return with_policy(page, frames=frames)
    except ValueError as error:
        raise PluginError(str(error)) from error


@contextmanager
def _faults_said() -> Iterator[None]:
    """A fault of a file, or of whoever makes the sheets, as mkdocs says one."""
    try:
        yield
    except (OSError, SheetError) as error:
        raise PluginError(_said(error)) from error


def _said(error: Exception) -> str:
    """A fault of a file as one sentence, with the file."""
    if isinstance(error, OSError):
        return f"{error.filename or say('input or output')}: {error.strerror or error}"
    return str(error)


def _warnings() -> bool:
    """True when mkdocs counted a warning in this strict build."""
    return any(
        handler.get_counts()
        for handler in logging.getLogger("mkdocs").handlers
        if isinstance(handler, CountHandler)
    )
