"""One entry for every figure of any sheet: what it is, how it is found, where that holds, and who says so.

    FigureEntry      one figure, everything in words
    figure_entries   all, by name
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import Final

from generator.explain.docstrings import Calculation, calculation
from generator.explain.laid import Laid, laid
from generator.explain.written import FigureText, figure_texts
from generator.render.formats import UNITS

MOST: Final = 3  # formulas and sources that are shown of a figure; the others stand on the sheets
ARITHMETIC: Final = "Arithmetic of what is put in; no range."
FROM_FILES: Final = "what the job file, the log or the shop's files say, with the line on the sheet"
ROUNDS: Final = {
    "nearest": "",
    "up": "Shown rounded up, the safe way for this figure.",
    "down": "Shown rounded down, the safe way for this figure.",
}


@dataclass(frozen=True)
class FigureEntry:
    """A figure: `label` as a sheet calls it, `others` what it is called besides, `unit` in inch and mm."""

    name: str
    label: str
    others: tuple[str, ...]
    says: str
    unit: str
    kinds: str
    formulas: tuple[str, ...]
    more_formulas: bool
    range: str
    rounds: str
    sources: tuple[str, ...]
    more_sources: bool
    calculation: Calculation | None


@cache
def figure_entries() -> Mapping[str, FigureEntry]:
    """Every figure, in the order of its name."""
    known = laid()
    return {name: _entry(name, text, known.get(name)) for name, text in sorted(figure_texts().items())}


def _entry(name: str, text: FigureText, one: Laid | None) -> FigureEntry:
    found = calculation(text.by) if text.by else None
    one = one or Laid((text.label,), text.quantity, (), (), (), "nearest")
    computed = bool(found or one.formulas)
    label, *others = sorted(one.labels, key=len)  # the plainest first
    return FigureEntry(
        name, label, tuple(others), text.says, _unit(one.quantity), ", ".join(one.kinds),
        one.formulas[:MOST], len(one.formulas) > MOST,
        text.range or (found.range if found else "") or (ARITHMETIC if computed else ""),
        ROUNDS[_rounds(one)], _sources(one, found), len(one.sources) > MOST, found,
    )


def _sources(one: Laid, found: Calculation | None) -> tuple[str, ...]:
    named = one.sources[:MOST] or ((found.source,) if found else ())
    return named or (FROM_FILES,)


def _rounds(one: Laid) -> str:
    """The figure's own direction, else that of all of its kind."""
    return UNITS[one.quantity].rounds if one.rounds == "nearest" else one.rounds  # type: ignore[index]


def _unit(quantity: str) -> str:
    """The unit on a sheet in inches, and on one in millimetres where that is another.

    >>> _unit("length"), _unit("ratio"), _unit("text")
    ('in, mm', 'a plain number', 'words')
    """
    if quantity in ("ratio", "count", "text"):
        return {"ratio": "a plain number", "count": "a whole number", "text": "words"}[quantity]
    row = UNITS[quantity]  # type: ignore[index]
    units = (row.unit("inch").name, row.unit("mm").name)
    return ", ".join(dict.fromkeys(one for one in units if one)) or quantity.replace("_", " ")
