"""What the rules for cautions look at: the job as it is set up on its lathe."""

from __future__ import annotations

from dataclasses import dataclass

from generator.calc.weight import weight
from generator.job.lathe import Lathe
from generator.job.model import Duty, Job
from generator.job.shop import House, Material
from generator.language.say import later
from generator.sheet.figure import System
from generator.sheet.holding.stock import stock_rounds
from generator.sheet.layout import Layout
from generator.sheet.plans import HoldingPlan, LathePlan, Route, ThreadPlan
from generator.si import Mass
from generator.tables.materials import MaterialRow

PRACTICE = later("common practice, no source")


@dataclass(frozen=True)
class Setup:
    """What the rules look at."""

    job: Job
    lathe: Lathe
    house: House
    material: MaterialRow | None
    shop_material: Material | None
    layout: Layout
    thread: ThreadPlan | None
    levers: LathePlan | None
    holding: HoldingPlan
    route: Route

    @property
    def system(self) -> System:
        """The system in which its sentences speak first."""
        return self.job.units or self.lathe.units

    @property
    def lifted_kg(self) -> Mass | None:
        """What the work weighs as it is lifted in, with its stock on it; None when nobody knows (kg)."""
        if self.holding.weight_kg is None or self.material is None:
            return None
        rounds = stock_rounds(self.layout, self.route.plans)
        return max(self.holding.weight_kg, weight(sum(one.volume for one in rounds), self.material.density))

    @property
    def duty(self) -> Duty | None:
        """The duty when the customer said one."""
        return self.job.duty if isinstance(self.job.duty, Duty) else None

    @property
    def galls(self) -> bool:
        """True when the material is known to gall."""
        if self.shop_material is not None and self.shop_material.galls is not None:
            return self.shop_material.galls
        return bool(self.material and self.material.galls)
