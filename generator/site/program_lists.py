"""The lists of the site that depend on the program alone: found once, kept until the program is another.

    program_list    one of them, as JSON has it

What finds them is imported only when it is needed: that takes longer than all the rest of a small build.
"""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import asdict
from typing import Any, Final

from generator.site.kept import Cache
from generator.site.program_key import program_key


def program_list(name: str, cache: Cache) -> Any:
    """The list of this name: a row is a mapping by the names of its fields."""
    return json.loads(cache.said(name, program_key(), lambda: json.dumps(_LISTS[name]())))


def _keys() -> list[dict[str, Any]]:
    from generator.job import keys

    return [asdict(one) for one in keys.file_keys()]


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


def _set_tools() -> str:
    from generator.render import print_set

    return str(print_set.set_tools())


_LISTS: Final[dict[str, Callable[[], Any]]] = {
    "file_keys": _keys,
    "thread_families": _families,
    "threads_from_memory": _from_memory,
    "thread_differences": _differences,
    "thread_tables": _tables,
    "set_tools": _set_tools,
}
PROGRAM_LISTS: Final = tuple(_LISTS)
