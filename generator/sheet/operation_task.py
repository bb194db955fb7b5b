"""One operation on its way to settings: what it needs to know, and the figures it lays.

    Bench     what all operations of a job share
    Task      one operation: its number, place and tool; it names its own figures
    Done      what it hands on
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from generator.errors import Location
from generator.job.lathe import Lathe
from generator.job.model import Job
from generator.job.shop import House, Material, Tools
from generator.job.written import Given
from generator.language.say import first_large, first_small, later, say
from generator.sheet.desk import Desk
from generator.sheet.figure import Figure, Kind, Quantity, System
from generator.sheet.layout import Layout
from generator.sheet.lines import Level
from generator.sheet.operation_places import Place
from generator.sheet.operation_tool import Tool
from generator.sheet.plans import LathePlan, OperationPlan, PassPlan, ThreadPlan
from generator.sheet.route_entries import Entry
from generator.sheet.work_so_far import WorkSoFar
from generator.si import FeedPerRev, Force, Length, Power, SpindleSpeed, Time
from generator.tables.materials import MaterialRow

PRACTICE = later("common practice, no source")
COLUMNS = ("tool", "step", "feed", "passes", "depth", "dial", "force", "power", "roughness", "time")

Put = Mapping[str, tuple[float, Quantity]]


@dataclass(frozen=True)
class Bench:
    """What all operations of a job share; plans are None where their section has none."""

    job: Job
    lathe: Lathe
    house: House
    tools: Tools
    material: MaterialRow | None
    shop_material: Material | None
    layout: Layout
    thread: ThreadPlan | None
    levers: LathePlan | None
    cuts: PassPlan | None
    desk: Desk
    mate_material: MaterialRow | None = None
    mate_shop_material: Material | None = None

    @property
    def system(self) -> System:
        """The unit that stands first on this job's sheet."""
        return self.job.units or self.lathe.units


@dataclass(frozen=True)
class Task:
    """One operation of the route.

    `work` is the work before it. `columns` fills with the figure of each column of the route's table,
    `remarks` with the sentences that stand below its title.
    """

    number: int
    entry: Entry
    title: str
    place: Place
    tool: Tool
    work: WorkSoFar
    bench: Bench
    columns: dict[str, str] = field(default_factory=dict)
    remarks: list[str] = field(default_factory=list)

    @property
    def desk(self) -> Desk:
        """Where its figures are laid."""
        return self.bench.desk

    @property
    def where(self) -> Location | None:
        """Its place in the job file."""
        return self.entry.where

    @property
    def what(self) -> str:
        """How a sentence names it."""
        return say("operation {number} ({title})", number=self.number, title=first_small(self.title))

    @property
    def opening(self) -> str:
        """The same at the beginning of a sentence."""
        return first_large(self.what)

    def name(self, key: str) -> str:
        """Name of one of its figures: "operation.3.step"."""
        return f"operation.{self.number}.{key}"

    def label(self, words: str) -> str:
        """Label of one of its figures: "3 Turn to 2 in: spindle step"."""
        return f"{self.number} {self.title}: {words}"

    def column(self, key: str, figure: str | None = None) -> None:
        """Show a figure in a column of the route's table."""
        self.columns[key] = figure if figure and "." in figure else self.name(figure or key)

    def computed(
        self, key: str, words: str, value: float, quantity: Quantity, formula: str, put: Put, source: str,
        *, kind: Kind = Kind.COMPUTED, note: str = "", rounds: str = "nearest",
    ) -> float:
        """Lay one of its figures with its working; shown in the column of the same name, if there is one."""
        self._shown(key)
        return self.desk.computed(
            self.name(key), self.label(words), value, quantity, formula, put, source, kind=kind, note=note,
            rounds=rounds,
        )

    def given(self, key: str, words: str, given: Given, quantity: Quantity, *, note: str = "") -> float:
        """Lay one of its figures as it was written."""
        self._shown(key)
        return self.desk.given(self.name(key), self.label(words), given, quantity, note=note)

    def chosen(
        self, key: str, words: str, value: float | str, quantity: Quantity, kind: Kind, source: str,
        *, note: str = "", text: str = "", rounds: str = "nearest",
    ) -> None:
        """Lay one of its figures that is taken from a table, a file or common practice."""
        self._shown(key)
        self.desk.lay(Figure(
            self.name(key), self.label(words), value, quantity, kind, source, note=note, text=text,
            rounds=rounds,  # type: ignore[arg-type]
        ))

    def unknown(self, key: str, words: str, quantity: Quantity, why: str) -> None:
        """Lay one of its figures that cannot be had, with the reason."""
        self._shown(key)
        self.desk.unknown(self.name(key), self.label(words), quantity, why)

    def find(self, id: str, level: Level, text: str, where: Location | None = None, asks: str = "") -> None:
        """Lay a finding that points to this operation."""
        self.desk.find(id, level, text, where or self.where, asks)

    def _shown(self, key: str) -> None:
        if key in COLUMNS:
            self.column(key)



@dataclass(frozen=True)
class Done:
    """What an operation hands on: its plan, and the work after it."""

    plan: OperationPlan
    work: WorkSoFar


def done(
    task: Task, before: Length | None, after: Length | None, work: WorkSoFar, *,
    place: Place | None = None, step: SpindleSpeed | None = None, feed: FeedPerRev | None = None,
    depths: tuple[Length, ...] = (), force: Force | None = None, power: Power | None = None,
    time: Time | None = None, other_time: Time | None = None, finish_feed: FeedPerRev | None = None,
) -> Done:
    """Put a plan together; a diameter that is not known stands in for by the other one, or by the work's."""
    lies = place or task.place
    there = before if before is not None else after
    if there is None:
        there = task.work.largest(lies.low, lies.high) or 0.0
    return Done(
        OperationPlan(
            number=task.number, name=task.entry.name, start=lies.start, end=lies.end, from_diameter=there,
            to_diameter=after if after is not None else there, spindle_speed=step, feed=feed,
            finish_feed=finish_feed, depths=depths,
            force=force, power=power, cut_time=time, other_time=other_time, inside=lies.inside,
            tool_reach=task.tool.reach.si if task.tool.reach else None,
            band=getattr(task.entry.given, "band", False), where=task.where,
        ),
        work,
    )
