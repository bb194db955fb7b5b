"""What the framework shows of the program, in the language of the shop: menu, theme, plain pages.

    say_settings    the menu's titles, the site's name, the names of the theme's switches
    is_ours         true for a page of the program
"""

from __future__ import annotations

from pathlib import Path
from typing import Any, Final

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.files import File

from generator.language.say import later, say
from generator.language.spoken import spoken
from generator.render.environment import templates_folder

OWN: Final = frozenset({  # words of site_templates/mkdocs.yml; what a shop wrote instead is none
    later("Setup sheets"), later("Lathe setup sheets of the shop, one page a job"),
    later("Archive"), later("Lists"), later("Calendar"), later("Times"), later("Help"), later("Overview"),
    later("Files"), later("Figures"), later("Findings"), later("Words"), later("Threads"),
    later("Threads and print"), later("Sources"), later("Safety"),
    later("Switch to dark"), later("Switch to light"),
})  # fmt: skip


def say_settings(config: MkDocsConfig) -> None:
    """Say what is the program's own in the settings; what a shop wrote there stays as it is."""
    config.theme["language"] = spoken().code.partition("-")[0]
    config.site_name = _said(config.site_name)
    if config.site_description is not None:
        config.site_description = _said(config.site_description)
    if config.nav is not None:
        config.nav = [_entry(entry) for entry in config.nav]
    palette = config.theme.get("palette")
    if isinstance(palette, list):
        config.theme["palette"] = [_scheme(one) for one in palette]


def _said(text: str) -> str:
    return say(text) if text in OWN else text


def _entry(entry: Any) -> Any:
    """A title of the menu with what it leads to."""
    if not isinstance(entry, dict):
        return entry
    return {
        _said(title): [_entry(one) for one in below] if isinstance(below, list) else below
        for title, below in entry.items()
    }


def _scheme(scheme: Any) -> Any:
    """A set of colors with the switch that leads to the other."""
    toggle = scheme.get("toggle") if isinstance(scheme, dict) else None
    if not isinstance(toggle, dict) or "name" not in toggle:
        return scheme
    return {**scheme, "toggle": {**toggle, "name": _said(toggle["name"])}}


def is_ours(file: File) -> bool:
    """True for a page that lies in the folder of the program's own pages."""
    path = file.abs_src_path
    return path is not None and Path(path).resolve().is_relative_to(templates_folder())
