"""What a setup that came from another shop brought along: `sender.yml` beside its job file.

    Sender         whose setup it was, and its materials and tools that the job uses
    read_sender    of a job's folder
    with_sender    the shop with what the sender's job needs, apart from the shop's own

The sender's entries bear names that say so (``V4 (theirs)``): neither shop's is taken for the other's.
"""

from __future__ import annotations

from pathlib import Path
from typing import Final

from pydantic import Field

from generator.job.beside import SENDER
from generator.job.fields import Date, Line, Strict
from generator.job.reading import read_checked
from generator.job.shop import CuttingTool, Material, Shop, ThreadTool

THEIRS: Final = " (theirs)"  # after the name of an entry that is not the shop's own


class Sender(Strict):
    """A setup that was taken in: whose it was, and what of the sender's the job uses."""

    shop: Line
    """Name of the shop that sent it."""
    job: Line
    """Number that the job has there."""
    lathe: Line
    """Lathe it was planned for there."""
    taken_in: Date
    """Day it was taken in."""
    materials: list[Material] = Field(default_factory=list)
    """Their materials that the job uses, where the shop has none of the name with the same figures."""
    threading: list[ThreadTool] = Field(default_factory=list)
    """Their threading tools that the job uses; write a tool of your own into the job instead."""
    cutting: list[CuttingTool] = Field(default_factory=list)
    """Their other tools that the job uses; write a tool of your own into the job instead."""


def read_sender(folder: Path) -> Sender | None:
    """What came along with the job in this folder; None for a job of the shop's own.

    Raises
    ------
    JobProblems
        Everything that is wrong with the file.
    """
    path = folder / SENDER
    return read_checked(path, Sender) if path.exists() or path.is_symlink() else None


def with_sender(shop: Shop, sender: Sender) -> Shop:
    """The shop with the sender's entries; an entry of the shop itself stays where both have one."""
    own = {tool.name for tool in shop.tools.threading} | {tool.name for tool in shop.tools.cutting}
    tools = shop.tools.model_copy(
        update={
            "threading": [*shop.tools.threading, *(one for one in sender.threading if one.name not in own)],
            "cutting": [*shop.tools.cutting, *(one for one in sender.cutting if one.name not in own)],
        }
    )
    materials = {material.name: material for material in sender.materials} | shop.materials
    return shop.model_copy(update={"materials": materials, "tools": tools})
