"""A plot on the page: the drawing, what it says, and the table beside it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from jinja2 import Environment
from markupsafe import Markup

from generator.render.plot_curves import finite
from generator.render.plot_table import PlotTable, plot_table
from generator.render.plot_view import plot_view
from generator.render.svg import svg
from generator.sheet.drawn import PlotScene


@dataclass(frozen=True)
class PlotBlock:
    """The drawing with its name (`title`) on the page, the sentence it stands for, caption and table."""

    id: str
    heading: str
    title: str
    svg: Markup
    says: str
    caption: str
    table: PlotTable


def plot_blocks(scenes: Sequence[PlotScene], env: Environment) -> tuple[PlotBlock, ...]:
    """Plots as finished strings, in their order; those on which no point is known are left out."""
    return tuple(_block(scene, env) for scene in scenes if _known(scene))


def _known(scene: PlotScene) -> bool:
    return any(True for curve in scene.curves for _ in finite(curve))


def _block(scene: PlotScene, env: Environment) -> PlotBlock:
    drawing = plot_view(scene)
    return PlotBlock(
        f"plot-{scene.id}", scene.title, drawing.title, svg(drawing, env), scene.says, scene.caption,
        plot_table(scene),
    )
