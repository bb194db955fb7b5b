"""What was written by hand about figures and findings: one line for each in texts/*.toml.

    FigureText, figure_texts      what a figure is, and the calculation that finds it
    FindingText, finding_texts    why a finding is one, and what to do
"""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Final

from generator.language.say import later

FOLDER: Final = Path(__file__).with_name("texts")


@dataclass(frozen=True)
class FigureText:
    """What a figure is. `by` names the calculation; `label` and `quantity` that of one no demo job shows."""

    says: str
    by: str = ""
    range: str = ""
    label: str = ""
    quantity: str = ""


@dataclass(frozen=True)
class FindingText:
    """Why a finding is one, and what to do.

    `source` is that of its limit; `levels` are given where the program does not have them as words.
    """

    why: str
    do: str
    source: str = later("common practice, no source")
    levels: Sequence[str] = ()


def figure_texts() -> dict[str, FigureText]:
    """Of every figure, by its name as of any operation.

    Raises
    ------
    ValueError
        When two lines are about one figure.
    """
    return {name: FigureText(**line) for name, line in _lines("figures")}


def finding_texts() -> dict[str, FindingText]:
    """Of every finding, by its id.

    Raises
    ------
    ValueError
        When two lines are about one finding.
    """
    return {id: FindingText(**line) for id, line in _lines("findings")}


def _lines(kind: str) -> Iterator[tuple[str, dict[str, Any]]]:
    seen: set[str] = set()
    for path in sorted(FOLDER.glob(f"{kind}_*.toml")):
        held = tomllib.loads(path.read_text(encoding="utf-8"))
        if twice := seen & held.keys():
            raise ValueError(f"{path.name}: {', '.join(sorted(twice))} is explained twice")
        seen |= held.keys()
        yield from held.items()
