"""The axes of a plot: unit, round ticks, and where a value lies on paper.

shown_unit       the unit in which a plot and its table show a quantity
Axis             one axis, from SI to mm of paper
level_axis       the axis along, as long as its values
upright_axis     the axis up, from zero out to whole ticks
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from math import ceil, floor, isfinite, log10
from typing import Final

from generator.render.formats import UNITS, Unit, digits
from generator.sheet.drawn import PlotScene
from generator.sheet.figure import Quantity, System
from generator.si import mm, thou, um

MOST_TICKS: Final = 7  # steps between ticks along an axis, at most: common practice, no source
FROM_ZERO: Final = 0.15  # an axis along that begins so near zero, as a share of its end, begins there
_ROUND: Final = (1, 2, 5, 10)
_DUST: Final = 1e-9  # of a step: a value this near to a tick lies on it
_LEAST: Final = {"thou": 0.1, "µm": 2.0}  # an axis up is no shorter: less cannot be measured in the shop
_FINE: Final[dict[System, tuple[Unit, float]]] = {  # a fine length up to so many m: its unit
    "inch": (Unit("thou", thou, places=2), 200 * thou),
    "mm": (Unit("µm", um, places=1), 0.5 * mm),
}


def shown_unit(scene: PlotScene, quantity: Quantity) -> Unit:
    """The unit in which a plot and its table show a quantity: fine lengths in thou or µm."""
    row = UNITS[quantity].unit(scene.system)
    if quantity != "fine_length":
        return row
    fine, most = _FINE[scene.system]
    return fine if all(abs(value) <= most for value in _values(scene, quantity)) else row


def _values(scene: PlotScene, quantity: Quantity) -> Iterable[float]:
    """Every finite value of a quantity on the plot and in its table (SI)."""
    found: list[float | str | None] = []
    for way, axis in enumerate((scene.x_quantity, scene.y_quantity)):
        if axis == quantity:
            found += [point[way] for curve in scene.curves for point in curve.points]
    for column, of in enumerate(scene.columns):
        if of == quantity:
            found += [values[column] for _, values in scene.rows]
    return [value for value in found if isinstance(value, int | float) and isfinite(value)]


@dataclass(frozen=True)
class Axis:
    """One axis: `low` to `high` in its unit, from `start` to `end` in mm of paper, ticks in its unit."""

    unit: Unit
    low: float
    high: float
    step: float
    start: float
    end: float

    def at(self, value: float) -> float:
        """Paper position of a SI value (mm)."""
        share = (value / self.unit.si - self.low) / (self.high - self.low)
        return self.start + share * (self.end - self.start)

    @property
    def ticks(self) -> tuple[float, ...]:
        """The round values on the axis, in its unit."""
        first, last = ceil(self.low / self.step - _DUST), floor(self.high / self.step + _DUST)
        return tuple(number * self.step + 0.0 for number in range(first, last + 1))

    @property
    def labels(self) -> tuple[str, ...]:
        """What stands at the ticks, with as many decimals as the step has."""
        places = max(0, -floor(log10(self.step) + _DUST))
        return tuple(digits(tick, places) for tick in self.ticks)


def level_axis(unit: Unit, values: Iterable[float], start: float, end: float) -> Axis:
    """An axis from the least to the largest of some SI values; from zero where they begin near it."""
    numbers = [value / unit.si for value in values if isfinite(value)] or [0.0]
    low, high = min(numbers), max(numbers)
    if 0 < low <= FROM_ZERO * high:
        low = 0.0
    if high - low <= _DUST * max(abs(low), abs(high), 1e-300):  # a single place: zero and beyond it
        low, high = min(0.0, 2 * low), max(0.0, 2 * high)
    if low == high:
        high = low + 1.0
    return Axis(unit, low, high, round_step(high - low), start, end)


def upright_axis(unit: Unit, values: Iterable[float], start: float, end: float) -> Axis:
    """An axis with zero on it that holds some SI values, ends on ticks; never shorter than can be read."""
    numbers = [value / unit.si for value in values if isfinite(value)]
    low, high = min([0.0, *numbers]), max([0.0, *numbers])
    least = _LEAST.get(unit.name, 0.0 if low < high else 1.0)
    if high - low < least:
        high = low + least
    step = round_step(high - low)
    low, high = (step * floor(low / step + _DUST), step * ceil(high / step - _DUST))
    return Axis(unit, low, high, step, start, end)


def round_step(span: float) -> float:
    """The least of 1, 2, 5, 10, 20, 50 … with which a span has at most `MOST_TICKS` steps.

    >>> round_step(11.5), round_step(0.62), round_step(7)
    (2.0, 0.1, 1.0)
    """
    power = floor(log10(span / MOST_TICKS))
    for more in (0, 1):
        for number in _ROUND:
            step = float(f"{number}e{power + more}")
            if span <= MOST_TICKS * step * (1 + _DUST):
                return step
    raise AssertionError("ten times the power of ten below a seventh is more than a seventh")
