"""One entry for every figure of any sheet: what it is, how it is found, where that holds, and who says so.

    FigureEntry      one figure, everything in words
    figure_entries   all, by name
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from generator.explain.docstrings import Calculation, calculation
from generator.explain.laid import Laid, laid
from generator.explain.written import FigureText, figure_texts
from generator.language.say import later, say
from generator.language.spoken import once_a_language
from generator.render.formats import UNITS
from generator.sheet.figure import Kind

MOST: Final = 3  # formulas and sources that are shown of a figure; the others stand on the sheets
ARITHMETIC: Final = later("Arithmetic of what is put in; no range.")
FROM_FILES: Final = later("what the job file, the log or the shop's files say, with the line on the sheet")
KINDS: Final = {
    Kind.MEASURED.value: later("measured"),
    Kind.GIVEN.value: later("given"),
    Kind.STANDARD.value: later("from a standard"),
    Kind.COMPUTED.value: later("computed"),
    Kind.SHOP.value: later("shop's choice"),
    Kind.ASSUMED.value: later("assumed"),
    Kind.UNKNOWN.value: later("unknown"),
}
WITHOUT: Final = {  # what a quantity without a unit is
    "ratio": later("a plain number"),
    "count": later("a whole number"),
    "text": later("words"),
    "money": later("money"),
}
ROUNDS: Final = {
    "nearest": "",
    "up": later("Shown rounded up, the safe way for this figure."),
    "down": later("Shown rounded down, the safe way for this figure."),
}


@dataclass(frozen=True)
class FigureEntry:
    """A figure, in the language that is spoken.

    `label` is what a sheet calls it, `others` what it is called besides; `unit` is that in inch and mm.
    """

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


@once_a_language
def figure_entries() -> Mapping[str, FigureEntry]:
    """Every figure, in the order of its name."""
    known = laid()
    return {name: _entry(name, text, known.get(name)) for name, text in sorted(figure_texts().items())}


def _entry(name: str, text: FigureText, one: Laid | None) -> FigureEntry:
    found = calculation(text.by) if text.by else None
    one = one or Laid((say(text.label),), text.quantity, (), (), (), "nearest")
    computed = bool(found or one.formulas)
    label, *others = sorted(one.labels, key=len)  # the plainest first
    return FigureEntry(
        name, label, tuple(others), say(text.says), _unit(one.quantity),
        ", ".join(str(KINDS[kind]) for kind in one.kinds),
        one.formulas[:MOST], len(one.formulas) > MOST,
        say(text.range) or (found.range if found else "") or (str(ARITHMETIC) if computed else ""),
        str(ROUNDS[_rounds(one)]), _sources(one, found), len(one.sources) > MOST, found,
    )


def _sources(one: Laid, found: Calculation | None) -> tuple[str, ...]:
    named = one.sources[:MOST] or ((found.source,) if found else ())
    return named or (str(FROM_FILES),)


def _rounds(one: Laid) -> str:
    """The figure's own direction, else that of all of its kind."""
    return UNITS[one.quantity].rounds if one.rounds == "nearest" else one.rounds  # type: ignore[index]


def _unit(quantity: str) -> str:
    """The unit on a sheet in inches, and on one in millimetres where that is another.

    >>> _unit("length"), _unit("ratio"), _unit("text")
    ('in, mm', 'a plain number', 'words')
    """
    if quantity in WITHOUT:
        return str(WITHOUT[quantity])
    row = UNITS[quantity]  # type: ignore[index]
    units = (row.unit("inch").name, row.unit("mm").name)
    return ", ".join(dict.fromkeys(one for one in units if one))
