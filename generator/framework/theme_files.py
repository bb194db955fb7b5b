"""The theme's files without those that no site takes: its thousands of icons would be listed each time."""

from __future__ import annotations

import os
from pathlib import Path

from jinja2 import Environment, FileSystemLoader
from mkdocs.theme import Theme


class WithoutHidden(FileSystemLoader):
    """Templates of some folders; listed are those only that lie in no hidden folder. All can be loaded."""

    def list_templates(self) -> list[str]:
        """Names of the files, sorted."""
        found: set[str] = set()
        for top in self.searchpath:
            for folder, inside, files in os.walk(top, followlinks=self.followlinks):
                inside[:] = [name for name in inside if not name.startswith(".")]
                found.update(Path(folder, name).relative_to(top).as_posix() for name in files)
        return sorted(found)


def list_without_hidden(theme: Theme) -> None:
    """Let the theme's environment list no hidden folders: the framework leaves them out of the site."""
    made = theme.get_env

    def env() -> Environment:
        environment = made()
        environment.loader = WithoutHidden(theme.dirs)
        return environment

    theme.get_env = env  # type: ignore[method-assign]
