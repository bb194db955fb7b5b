"""Pages of the shop's own: what lies in `jobs/_pages` joins the site, Markdown files its menu, too.

    add_to_menu    the pages, behind those of the program
    add_files      pages and what they show, such as pictures
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Final

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.files import File, Files

from generator.language.say import say

FOLDER: Final = "_pages"
PAGE: Final = ".md"


def add_to_menu(config: MkDocsConfig, jobs: Sequence[Path]) -> None:
    """Each page once, by its name; without a menu in the settings mkdocs takes all pages by itself."""
    if config.nav is None:
        return
    named = list(dict.fromkeys(name for name, path in _own(jobs) if path.suffix == PAGE))
    config.nav = [*config.nav, *(name for name in named if name not in config.nav)]


def add_files(files: Files, config: MkDocsConfig, jobs: Sequence[Path]) -> Iterator[str]:
    """Add them to the site's files; a sentence for each whose name the site already has."""
    for name, path in _own(jobs):
        if files.get_file_from_path(name) is None:
            files.append(File.generated(config, name, abs_src_path=str(path)))
        else:
            yield say("{path}: the site has a page or file of this name; give it another", path=path)


def _own(jobs: Sequence[Path]) -> Iterator[tuple[str, Path]]:
    """Name in the site and file of each, in the order of the folders and of the names."""
    for folder in (path / FOLDER for path in jobs):
        for path in sorted(folder.rglob("*")):
            inside = path.relative_to(folder)
            if path.is_file() and not any(part.startswith(".") for part in inside.parts):
                yield inside.as_posix(), path
