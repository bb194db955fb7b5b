"""The tool of an operation: the one it names, else the first of the shop's that is for it."""

from __future__ import annotations

from dataclasses import dataclass

from generator.job.fields import Given
from generator.job.operations import Drill
from generator.job.shop import CuttingTool, ThreadTool, Tools
from generator.sheet.model import Figure, Kind
from generator.sheet.route_entries import Entry
from generator.tables.cutting_speeds import HIGH_SPEED_STEEL

TOOLS_FILE = "jobs/_shop/tools.yml"
SAME = 1e-6  # m: a drill of this size


@dataclass(frozen=True)
class Tool:
    """What the settings need of a tool; sizes that its record does not have are None."""

    name: str
    steel: str = HIGH_SPEED_STEEL
    nose_radius: Given | None = None
    entering_angle: Given | None = None
    width: Given | None = None
    diameter: Given | None = None
    bar: Given | None = None
    reach: Given | None = None


def tool_of(entry: Entry, tools: Tools) -> Tool:
    """The tool; without a name when nothing is named and the tools file has none for it."""
    wanted, use = entry.given.tool, entry.name.replace("_", " ")
    if entry.name == "thread":
        threading = next((tool for tool in tools.threading if tool.name == wanted), None)
        return _of_thread(threading) if threading else Tool("")
    if wanted is not None:
        return next((_of(tool) for tool in tools.cutting if tool.name == wanted), Tool(""))
    fitting = [tool for tool in tools.cutting if use in tool.for_ and _size_fits(tool, entry.given)]
    if not fitting and use == "relief":
        fitting = [tool for tool in tools.cutting if "groove" in tool.for_]
    return _of(fitting[0]) if fitting else Tool("")


def tool_figure(name: str, label: str, tool: Tool, entry: Entry) -> Figure:
    """The figure that names the tool."""
    if not tool.name:
        return Figure(
            name, label, f"any, of {tool.steel}", "text", Kind.ASSUMED, "common practice, no source",
            note=f"no tool is named, and {TOOLS_FILE} has none for it",
        )
    kind = Kind.GIVEN if entry.given.tool else Kind.SHOP
    words = f"{tool.name}, {tool.steel}"
    note = "" if entry.given.tool else "the first one in the tools file that is for it"
    return Figure(name, label, words, "text", kind, TOOLS_FILE, note=note)


def _size_fits(tool: CuttingTool, given: object) -> bool:
    """A drill has the size of its hole."""
    if not isinstance(given, Drill) or tool.diameter is None or given.diameter is None:
        return True
    return abs(tool.diameter.si - given.diameter.si) <= SAME


def _of(tool: CuttingTool) -> Tool:
    return Tool(
        tool.name, tool.steel, tool.nose_radius, tool.entering_angle, tool.width, tool.diameter, tool.bar,
        tool.reach,
    )


def _of_thread(tool: ThreadTool) -> Tool:
    return Tool(tool.name, tool.steel, tool.nose_radius, width=tool.width)


