"""The tool of an operation: the one it names, else the one of the shop's that is for it and fits best."""

from __future__ import annotations

from dataclasses import dataclass

from generator.job.operations import Chamfer, Cut, Drill, Relief, Thread
from generator.job.shop import CuttingTool, ThreadTool, Tools
from generator.job.written import Given
from generator.language.say import say
from generator.sheet.figure import Figure, Kind
from generator.sheet.operation_places import Place
from generator.sheet.route_entries import Entry
from generator.sheet.work_so_far import WorkSoFar
from generator.si import Length, degree
from generator.tables.cutting_speeds import HIGH_SPEED_STEEL, TOOL_WORDS

TOOLS_FILE = "jobs/_shop/tools.yml"
SAME = 1e-6                   # m: two sizes closer than this are one
BOTH_SIDES = ("chamfer", "groove", "relief")  # operations done outside or in a bore, each with its own tools
USUAL_CHAMFER = 45 * degree   # common practice, no source


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


def tool_of(entry: Entry, tools: Tools, place: Place, work: WorkSoFar, mouth: Length) -> Tool:
    """The tool; without a name when nothing is named and the tools file has none for it.

    Parameters
    ----------
    mouth : where a tool for bores enters the work, m from the chuck face
    """
    wanted, use = entry.given.tool, entry.name.replace("_", " ")
    if entry.name == "thread":
        threading = next((tool for tool in tools.threading if tool.name == wanted), None)
        return _of_thread(threading) if threading else Tool("")
    if wanted is not None:
        return next((_of(tool) for tool in tools.cutting if tool.name == wanted), Tool(""))
    fitting = [tool for tool in tools.cutting if use in tool.for_]
    if not fitting and use == "relief":
        fitting = [tool for tool in tools.cutting if "groove" in tool.for_]
    if entry.name in BOTH_SIDES:
        fitting = [tool for tool in fitting if place.inside == (tool.inside or tool.bar is not None)]
    if entry.name == "drill":
        fitting = [tool for tool in fitting if _drills(tool, entry.given)]
    best = min(fitting, key=lambda tool: _misfit(tool, entry, place, work, mouth), default=None)
    return _of(best) if best is not None else Tool("")


def _misfit(
    tool: CuttingTool, entry: Entry, place: Place, work: WorkSoFar, mouth: Length
) -> tuple[float, ...]:
    """How badly a tool fits; of those that fit alike the first in the file is taken."""
    given = entry.given
    deep = place.length if isinstance(given, Chamfer) else mouth - place.low
    off = _cannot_enter(tool, work.bore(place.low, place.high), deep) if place.inside else 0.0
    if entry.name in ("groove", "relief") and tool.width is not None and not isinstance(given, Thread):
        wide = given.width.si if isinstance(given, Relief | Cut) and given.width else 0.0
        return (off, float(tool.width.si > wide + SAME), -tool.width.si)
    if isinstance(given, Chamfer):
        own, wanted = tool.entering_angle, given.angle.si if given.angle else USUAL_CHAMFER
        return (off, abs(own.si - wanted) if own is not None else 1.0)
    return (off,)


def _cannot_enter(tool: CuttingTool, hole: Length, deep: Length) -> float:
    """How much keeps the tool out of the hole: its bar is too thick for it, or not long enough."""
    enters = tool.bar is None or hole == 0 or tool.bar.si < hole
    reaches = tool.reach is None or tool.reach.si >= deep - SAME
    return float(not enters) + float(not reaches)


def tool_figure(name: str, label: str, tool: Tool, entry: Entry) -> Figure:
    """The figure that names the tool."""
    if not tool.name:
        return Figure(
            name,
            label,
            say("any, of {steel}", steel=TOOL_WORDS[tool.steel]),
            "text",
            Kind.ASSUMED,
            say("common practice, no source"),
            note=say("no tool is named, and {tools_file} has none for it", tools_file=TOOLS_FILE),
        )
    kind = Kind.GIVEN if entry.given.tool else Kind.SHOP
    words = f"{tool.name}, {TOOL_WORDS[tool.steel]}"
    note = "" if entry.given.tool else say("the one in the tools file that is for it and fits best")
    return Figure(name, label, words, "text", kind, TOOLS_FILE, note=note)


def _drills(tool: CuttingTool, given: object) -> bool:
    """A drill has the size of its hole; before a reamer it is smaller, and none is chosen here."""
    if not isinstance(given, Drill) or given.ream:
        return False
    if tool.diameter is None or given.diameter is None:
        return True
    return abs(tool.diameter.si - given.diameter.si) <= SAME


def _of(tool: CuttingTool) -> Tool:
    return Tool(
        tool.name, tool.steel, tool.nose_radius, tool.entering_angle, tool.width, tool.diameter, tool.bar,
        tool.reach,
    )


def _of_thread(tool: ThreadTool) -> Tool:
    return Tool(tool.name, tool.steel, tool.nose_radius, width=tool.width)


