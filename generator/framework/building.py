"""The commands `build` and `serve`, and what else asks the settings of mkdocs.

    build           the whole site
    serve           the same again whenever a file changes
    site_address    where the site of this folder stands on the web

mkdocs is imported inside the functions: the processes that make sheets begin to start before it is loaded.
"""

from __future__ import annotations

import logging
from argparse import Namespace
from collections.abc import Iterator
from contextlib import ExitStack, closing, contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

from generator.commands import CLEAN, ERRORS, UsageError
from generator.errors import SheetError
from generator.language.say import say
from generator.render.environment import templates_folder
from generator.site.hands import Hands

if TYPE_CHECKING:
    from mkdocs.config.defaults import MkDocsConfig

OWN_SETTINGS: Final = "mkdocs.yml"


def build(asked: Namespace) -> int:
    """Build the whole site and say where to open it."""
    with _hands(asked.machines) as hands:  # first of all: they get ready while the rest is loaded
        return _build(asked, hands)


def _build(asked: Namespace, hands: Hands) -> int:
    from mkdocs.commands.build import build as mkdocs_build

    from generator.framework.plugin import SetupSheetsPlugin
    from generator.site.swap import SiteFolder, SiteRefused

    with _mkdocs(asked) as config_file:
        SetupSheetsPlugin.ready = hands
        config = _config(config_file, site_dir=_site(asked.site, config_file), strict=asked.strict or None)
        plugin = config.plugins["setup_sheets"]
        assert isinstance(plugin, SetupSheetsPlugin)
        site = Path(config.site_dir)
        try:
            SiteFolder(site, plugin.jobs_folders(config)).check()
        except SiteRefused as error:
            raise UsageError(str(error)) from error
        mkdocs_build(config)
    index = (site / "index.html").resolve()
    print(say("Built {summary}.", summary=plugin.summary()))
    print(say("Open {index}", index=index))
    print(say("  or {as_uri}", as_uri=index.as_uri()))
    return ERRORS if plugin.archive.bad else CLEAN


def serve(asked: Namespace) -> int:
    """Show the site on this machine and build it again when a file changes, until Ctrl-C."""
    from mkdocs.commands.serve import serve as mkdocs_serve

    with _mkdocs(asked, logging.INFO) as config_file:
        _config(config_file)
        mkdocs_serve(config_file=config_file, dev_addr=asked.addr)
    return CLEAN


@contextmanager
def _mkdocs(asked: Namespace, level: int = logging.WARNING) -> Iterator[str]:
    """The settings file to use, while what mkdocs says goes to standard error in its plain words."""
    from mkdocs.exceptions import MkDocsException

    from generator.framework.plugin import SetupSheetsPlugin

    own = Path(OWN_SETTINGS).is_file()
    folders = tuple(Path(one) for one in asked.jobs or ("jobs",))
    for jobs in folders if asked.jobs or not own else ():
        if not jobs.is_dir():
            raise UsageError(
                say(
                    "{jobs}: there is no such jobs folder; go to the folder that has one, or give --jobs",
                    jobs=jobs,
                )
            )
    if len({one.resolve() for one in folders}) < len(folders):
        raise UsageError(say("--jobs: a jobs folder is given twice; give each once"))
    logger, handler = logging.getLogger("mkdocs"), logging.StreamHandler()
    handler.setFormatter(logging.Formatter("%(message)s"))
    handler.setLevel(level)
    logger.setLevel(level)
    logger.addHandler(handler)
    SetupSheetsPlugin.jobs_instead = folders if asked.jobs or not own else ()
    SetupSheetsPlugin.without_cache = asked.no_cache
    try:
        yield OWN_SETTINGS if own else str(templates_folder() / "mkdocs.yml")
    except MkDocsException as error:
        raise SheetError(str(error)) from error
    finally:
        SetupSheetsPlugin.jobs_instead = ()
        SetupSheetsPlugin.without_cache = False
        SetupSheetsPlugin.ready = None
        logger.removeHandler(handler)


@contextmanager
def _hands(address: str | None) -> Iterator[Hands]:
    """Who makes the sheets: the machines at an address, or processes of this one."""
    with ExitStack() as given:
        executor = None
        if address is not None:
            from generator.site.machines import machines

            executor = given.enter_context(machines(address))
        hands = given.enter_context(closing(Hands(executor)))
        hands.warm()
        yield hands


def _config(config_file: str, **settings: Any) -> MkDocsConfig:
    from mkdocs.config import load_config

    config = load_config(config_file, **settings)
    if "setup_sheets" not in config.plugins:
        raise UsageError(
            say(
                "{config_file}: does not list the plugin setup_sheets; add it under plugins",
                config_file=config_file,
            )
        )
    return config


def site_address() -> str:
    """Where the site of this folder stands on the web, by its mkdocs.yml; empty where it does not say so.

    Raises
    ------
    SheetError
        When the settings cannot be read.
    """
    if not Path(OWN_SETTINGS).is_file():
        return ""
    from mkdocs.config import load_config
    from mkdocs.exceptions import MkDocsException

    try:
        return load_config(OWN_SETTINGS).site_url or ""
    except MkDocsException as error:
        raise SheetError(f"{OWN_SETTINGS}: {error}") from error


def _site(asked: str | None, config_file: str) -> str | None:
    """The site's folder; None leaves it to the folder's own mkdocs.yml."""
    if asked is None and config_file == OWN_SETTINGS:
        return None
    return str(Path(asked or "site").absolute())
