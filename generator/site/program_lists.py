"""The lists of the site that depend on the program alone: found once, kept until the program is another.

    ProgramLists    all of them, each as JSON has it

What finds them is imported only when it is needed: that takes longer than all the rest of a small build.
"""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import asdict
from typing import Any, Final

from generator.language.say import all_said
from generator.language.spoken import spoken
from generator.site.kept import Cache
from generator.site.program_key import program_key, word


class ProgramLists:
    """The lists by their names, in the language spoken; a row is a mapping by the names of its fields.

    One is made for each build: that the program is the same is looked up once.
    """

    def __init__(self, cache: Cache) -> None:
        self._cache, self._program = cache, word(program_key(), spoken().code)

    def __call__(self, name: str) -> Any:
        """The list of this name."""
        return json.loads(self._cache.said(name, self._program, lambda: json.dumps(all_said(_LISTS[name]()))))


def _fields() -> list[dict[str, Any]]:
    from generator.explain import fields

    return [asdict(one) for one in fields.field_lists()]


def _families() -> list[dict[str, Any]]:
    from generator.job import thread_families

    return [asdict(one) for one in thread_families.listed_families()]


def _from_memory() -> list[dict[str, Any]]:
    from generator.job import thread_print

    return [asdict(one) for one in thread_print.from_memory()]


def _differences() -> list[dict[str, Any]]:
    from generator.job import thread_print

    return [asdict(one) for one in thread_print.differences()]


def _tables() -> list[dict[str, Any]]:
    from generator.job import thread_print

    return [asdict(one) for one in thread_print.thread_tables()]


def _figures() -> list[dict[str, str]]:
    from generator.explain import pages

    return pages.figure_list()


def _findings() -> list[dict[str, str]]:
    from generator.explain import pages

    return pages.finding_list()


def _cautions() -> list[dict[str, str]]:
    from generator.explain import cautions

    return [asdict(one) for one in cautions.caution_entries()]


def _explained() -> list[dict[str, str]]:
    from generator.explain import pages

    return [asdict(one) for one in pages.explained_pages()]


def _set_tools() -> str:
    from generator.render import print_set

    return str(print_set.set_tools())


_LISTS: Final[dict[str, Callable[[], Any]]] = {
    "fields": _fields,
    "thread_families": _families,
    "threads_from_memory": _from_memory,
    "thread_differences": _differences,
    "thread_tables": _tables,
    "figures": _figures,
    "findings": _findings,
    "cautions": _cautions,
    "explained_pages": _explained,
    "set_tools": _set_tools,
}
PROGRAM_LISTS: Final = tuple(_LISTS)
