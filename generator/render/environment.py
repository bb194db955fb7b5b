"""The template environment: every page and drawing goes through it, so escaping is decided once."""

from __future__ import annotations

import os
from functools import cache
from pathlib import Path

from jinja2 import BytecodeCache, Environment, FileSystemBytecodeCache, FileSystemLoader, StrictUndefined

import generator
from generator.user_cache import user_cache


def templates_folder() -> Path:
    """Folder of all markup; it lies beside the package, in the work tree and in a wheel alike."""
    return Path(generator.__file__).resolve().parent.parent / "site_templates"


@cache
def environment() -> Environment:
    """The jinja2 environment on `site_templates`: always escaping, and a missing name is an error.

    Escaping does not depend on a template's file name. Blocks leave no blank lines behind. There is one in a
    process, so that a template is compiled once; what it was compiled to is kept for the next start, in the
    user's own cache.
    """
    env = Environment(
        bytecode_cache=compiled("templates"),
        loader=FileSystemLoader(templates_folder(), encoding="utf-8"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=False,
    )
    env.policies["json.dumps_kwargs"] = {"separators": (",", ":")}
    return env


def compiled(name: str) -> BytecodeCache | None:
    """Where compiled templates are kept; nowhere where that folder cannot be made, or is not this user's.

    `name` is one for each environment: what a template is compiled to depends on the environment's options.
    """
    folder = user_cache(name)
    try:
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
        own = not hasattr(os, "getuid") or folder.stat().st_uid == os.getuid()
    except OSError:
        return None
    return FileSystemBytecodeCache(str(folder)) if own else None
