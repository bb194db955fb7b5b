"""The template environment: every page and drawing goes through it, so escaping is decided once."""

from __future__ import annotations

import os
from collections.abc import Callable
from pathlib import Path

from jinja2 import (
    BaseLoader,
    BytecodeCache,
    Environment,
    FileSystemBytecodeCache,
    FileSystemLoader,
    StrictUndefined,
)

import generator
from generator.language.fragments import in_other_words
from generator.language.say import say
from generator.language.spoken import once_a_language, spoken
from generator.sheet.lines import SIGNAL_WORDS
from generator.user_cache import user_cache


def templates_folder() -> Path:
    """Folder of all markup; it lies beside the package, in the work tree and in a wheel alike."""
    return Path(generator.__file__).resolve().parent.parent / "site_templates"


@once_a_language
def environment() -> Environment:
    """The jinja2 environment on `site_templates`: always escaping, and a missing name is an error.

    Escaping does not depend on a template's file name. Blocks leave no blank lines behind. There is one in a
    process, so that a template is compiled once; what it was compiled to is kept for the next start, in the
    user's own cache.
    """
    env = Environment(
        bytecode_cache=compiled(f"templates-{spoken().code}"),
        loader=Saying(FileSystemLoader(templates_folder(), encoding="utf-8")),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=False,
    )
    env.globals["signal_words"] = SIGNAL_WORDS
    env.policies["json.dumps_kwargs"] = {"separators": (",", ":")}
    return env


class Saying(BaseLoader):
    """Templates of another loader; ours among them say their texts in the language that is spoken then."""

    def __init__(self, loader: BaseLoader) -> None:
        self.loader = loader

    def get_source(
        self, environment: Environment, template: str
    ) -> tuple[str, str | None, Callable[[], bool] | None]:
        """The template, said where it is ours; other than that, what the loader gives."""
        source, name, is_fresh = self.loader.get_source(environment, template)
        if spoken().code != "en" and name and Path(name).resolve().is_relative_to(templates_folder()):
            source = in_other_words(source, say)
        return source, name, is_fresh


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
