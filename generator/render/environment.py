"""The template environment: every page and drawing goes through it, so escaping is decided once."""

from __future__ import annotations

from pathlib import Path

from jinja2 import Environment, FileSystemLoader, StrictUndefined

import generator


def templates_folder() -> Path:
    """Folder of all markup; it lies beside the package, in the work tree and in a wheel alike."""
    return Path(generator.__file__).resolve().parent.parent / "site_templates"


def environment() -> Environment:
    """A jinja2 environment on `site_templates`: always escaping, and a missing name is an error.

    Escaping does not depend on a template's file name. Blocks leave no blank lines behind.
    """
    env = Environment(
        loader=FileSystemLoader(templates_folder(), encoding="utf-8"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=False,
    )
    env.policies["json.dumps_kwargs"] = {"separators": (",", ":")}
    return env
