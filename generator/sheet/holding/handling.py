"""Weight, balance point, lifting and slinging."""

from __future__ import annotations

from generator.calc.weight import volume, weight
from generator.sheet.holding.case import Case
from generator.sheet.model import Quantity
from generator.sheet.operation_task import Bench
from generator.sheet.wording import mass_words

WEIGHT: tuple[str, str, Quantity] = ("holding.weight", "Weight of the work", "mass")
LIFT_ALONE = 25.0  # kg, HSE INDG143 guideline filter, close to the body; not a legal limit


def handling_section(case: Case) -> None:
    """Lay its figures and findings."""


def lay_weight(bench: Bench) -> float | None:
    """Lay down what the finished work weighs and whether one person may lift it (kg; None not known)."""
    job, lathe, house, desk = bench.job, bench.lathe, bench.house, bench.desk
    material, layout = bench.material, bench.layout
    if material is None:
        desk.unknown(*WEIGHT, "the material is unknown")
        return None
    size = sum(volume(span.end - span.start, span.od_start, span.od_end, span.bore) for span in layout.spans)
    kilograms = desk.computed(
        *WEIGHT[:2],
        weight(size, material.density),
        WEIGHT[2],
        "{ρ} × sum over sections of π ÷ 12 × (D² + D d + d²) × length − π ÷ 4 × bore² × length",
        {"ρ": (material.density, "density")},
        material.source,
        rounds="up",
    )
    limit = desk.chosen(
        "holding.lift_alone",
        "Lifted by one person at most",
        house.lift_alone,
        LIFT_ALONE,
        "mass",
        "HSE INDG143 guideline filter, close to the body; not a legal limit",
    )
    system = job.units or lathe.units
    weighs = f"The work weighs about {mass_words(kilograms, system)}"
    if lathe.hoist is not None and kilograms > lathe.hoist.si:
        desk.find(
            "hoist",
            "stop",
            f"{weighs}; the hoist of {lathe.name} lifts {lathe.hoist.with_unit}. It needs a stronger hoist.",
            job.work[0].length.where,
        )
    elif kilograms > limit:
        tackle = f"is marked {lathe.hoist.with_unit}" if lathe.hoist else "is not in the lathe's record"
        desk.find(
            "lift",
            "check",
            f"{weighs}, more than the {mass_words(limit, system)} one person lifts: use a hoist. "
            f"The hoist here {tackle}.",
            job.work[0].length.where,
        )
    return kilograms
