"""What the rules for cautions look at: the job as it is set up on its lathe."""

from __future__ import annotations

from dataclasses import dataclass

from generator.job.lathe import Lathe
from generator.job.model import Duty, Job
from generator.job.shop import House, Material
from generator.sheet.layout import Layout
from generator.sheet.plans import HoldingPlan, LathePlan, Route, ThreadPlan
from generator.tables.materials import MaterialRow

PRACTICE = "common practice, no source"


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
    def duty(self) -> Duty | None:
        """The duty when the customer said one."""
        return self.job.duty if isinstance(self.job.duty, Duty) else None

    @property
    def galls(self) -> bool:
        """True when the material is known to gall."""
        if self.shop_material is not None and self.shop_material.galls is not None:
            return self.shop_material.galls
        return bool(self.material and self.material.galls)
