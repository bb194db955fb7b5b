"""What of a shop's files a job uses: those entries are handed over with it, and no others.

    names_used     the names in a job and its log that point into the shop's files
    shop_texts     the shop's files with nothing but these entries
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Final

from generator.job.reading import ReadJob, ReadLog, read_block
from generator.job.writing import file_text
from generator.job.written import Block, Scalar
from generator.pack.contents import HOUSE, LATHES, MATERIALS, TOOLS

PRICES: Final = ("rate", "currency")  # of house.yml: nobody else's business
_TOOL_LISTS: Final = ("threading", "cutting")


@dataclass(frozen=True)
class Used:
    """The names that a job and its log use, of lathes, materials and tools."""

    lathes: frozenset[str]
    materials: frozenset[str]
    tools: frozenset[str]


def names_used(read: ReadJob, log: ReadLog | None, shown: Iterable[str] = ()) -> Used:
    """The names in a job and its log that point into the shop's files, and of tools that its sheet takes.

    `shown` are the tools that the sheet itself chose where the job names none.
    """
    job = read.job
    lathes, tools = {job.lathe}, {*_tools(read), *shown}
    materials = {str(job.material), str(getattr(job.mate, "material", None))}
    for line in log.entries if log else ():
        back = line.entry.taken_up
        lathes.update([back.lathe] if back and back.lathe else [])
        tools.update([back.tool] if back and back.tool else [])
    return Used(frozenset(lathes), frozenset(materials), frozenset(tools))


def _tools(read: ReadJob) -> Iterator[str]:
    for operation in read.job.operations:
        tool = getattr(operation.given, "tool", None)
        if tool:
            yield str(tool)


def shop_texts(folder: Path, used: Used) -> dict[str, bytes]:
    """The files of the shop in this folder by their names in the zip, with what the job uses.

    All measuring wires and balls are in it: which of them the sheet takes depends on all.

    Raises
    ------
    JobProblems
        Where one cannot be read.
    """
    house = read_block(folder / "house.yml")
    for key in PRICES:
        house.pop(key, None)
    texts = {HOUSE: file_text(house)}
    for name in sorted(used.lathes):
        path = folder / "lathes" / f"{name}.yml"
        if path.is_file():
            texts[f"{LATHES}{name}.yml"] = file_text(read_block(path))
    if (folder / "materials.yml").exists():
        tree = read_block(folder / "materials.yml")
        tree["materials"] = _named(tree, "materials", used.materials)
        texts[MATERIALS] = file_text(tree)
    if (folder / "tools.yml").exists():
        tree = read_block(folder / "tools.yml")
        tree.update({key: _named(tree, key, used.tools) for key in _TOOL_LISTS if key in tree})
        texts[TOOLS] = file_text(tree)
    return {name: text.encode() for name, text in texts.items()}


def _named(tree: Mapping[str, Any], key: str, names: frozenset[str]) -> list[Block]:
    entries = tree.get(key)
    return [
        one for one in (entries if isinstance(entries, list) else [])
        if isinstance(one, Block) and str(one.get("name", Scalar(""))) in names
    ]
