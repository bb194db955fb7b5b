"""The lists of figures and sources that the sheets of an archive rest on."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from generator.render.environment import environment


@dataclass(frozen=True)
class FigureName:
    """A figure name as the documentation lists it; without a name, what else of a sheet rests on a source."""

    name: str
    label: str
    quantity: str
    source: str


def figures_table(figures: Sequence[FigureName]) -> str:
    """The table of figure names, as HTML."""
    return environment().get_template("archive/figures.html").render(figures=figures)


def sources_table(sources: Sequence[tuple[str, Sequence[str]]]) -> str:
    """The table of sources, each with the labels of the figures that rest on it, as HTML."""
    return environment().get_template("archive/sources.html").render(sources=sources)
