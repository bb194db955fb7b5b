"""The sources that the sheets of an archive rest on, and what rests on each."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from generator.render.environment import environment


@dataclass(frozen=True)
class FigureName:
    """A figure of a sheet with its source; without a name, what else of a sheet rests on one."""

    name: str
    label: str
    quantity: str
    source: str


def sources_table(sources: Sequence[tuple[str, Sequence[str]]]) -> str:
    """The table of sources, each with the labels of the figures that rest on it, as HTML."""
    return environment().get_template("archive/sources.html").render(sources=sources)
