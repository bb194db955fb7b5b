"""What all parts of the holding share once the route is known."""

from __future__ import annotations

from dataclasses import dataclass

from generator.sheet.desk import Desk
from generator.sheet.holding.held_work import HeldWork
from generator.sheet.operation_task import Bench
from generator.sheet.plans import CutLoad, HoldingPlan, Route


@dataclass(frozen=True)
class Case:
    """The job on its bench, the finished work on its supports, and every cut of the route as a load."""

    bench: Bench
    held: HeldWork
    plan: HoldingPlan
    route: Route
    loads: tuple[CutLoad, ...]

    @property
    def desk(self) -> Desk:
        """Where figures and findings are laid."""
        return self.bench.desk

    def load_of(self, name: str) -> CutLoad | None:
        """The first cut of this name in the route."""
        return next((load for load in self.loads if load.name == name), None)
