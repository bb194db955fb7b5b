"""How the sheets of the demo archive lay each figure down: label, quantity, formula, source, rounding.

    Laid       what of a figure is the same on every sheet, or the different ones of it
    laid       all, by name, as laid.json has them
    laid_of    the same from sheets: a test compares the two, and writes laid.json anew when it is asked to

The demo archive does not travel with the program, so what is read off its sheets is kept beside this module.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Mapping
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any, Final

from generator.sheet.explained_at import any_name
from generator.sheet.figure import Figure, Kind
from generator.sheet.model import Sheet

FILE: Final = Path(__file__).with_name("laid.json")
_OWN: Final = (  # of one job alone, in a label or a source
    (re.compile(r"^(\d+ .+?: |[A-Z][a-z ]+ \(operation \d+\): |Relief: |Thread: )"), ""),
    (re.compile(r"\b(section|hole|pass) \d+(, (?!diameter|from).*)?"), r"\1 n"),
    (re.compile(r" at \d+\.\d diameters"), " at n diameters"),
    (re.compile(r" of tool \w+$"), " of the tool"),
    (re.compile(r", (at least, )?dollars$"), ""),
    (re.compile(r"jobs/_shop/lathes/[\w-]+\.yml"), "jobs/_shop/lathes/NAME.yml"),
)
_SAID: Final = {Kind.GIVEN, Kind.MEASURED, Kind.SHOP, Kind.UNKNOWN}  # their source is a file or a person


@dataclass(frozen=True)
class Laid:
    """A figure as it stands on sheets: each different label, kind, formula and source once.

    `rounds` is the safe direction in which the value is shown.
    """

    labels: tuple[str, ...]
    quantity: str
    kinds: tuple[str, ...]
    formulas: tuple[str, ...]
    sources: tuple[str, ...]
    rounds: str


def laid() -> dict[str, Laid]:
    """Every figure of the demo archive by its name as of any operation."""
    held = json.loads(FILE.read_text(encoding="utf-8"))
    return {name: _read(entry) for name, entry in held.items()}


def _read(entry: Mapping[str, Any]) -> Laid:
    fields: dict[str, Any] = {key: tuple(one) if isinstance(one, list) else one for key, one in entry.items()}
    return Laid(**fields)


def as_text(found: Mapping[str, Laid]) -> str:
    """The text of laid.json."""
    entries = {name: json.dumps(asdict(one), ensure_ascii=False) for name, one in found.items()}
    lines = (f"{json.dumps(name)}: {entry}" for name, entry in entries.items())
    return "{\n" + ",\n".join(sorted(lines)) + "\n}\n"


def laid_of(sheets: Iterable[Sheet]) -> dict[str, Laid]:
    """What these sheets lay down."""
    figures: dict[str, list[Figure]] = {}
    for sheet in sheets:
        for figure in sheet.figures.values():
            figures.setdefault(any_name(figure.name), []).append(figure)
    return {name: _laid(ones) for name, ones in sorted(figures.items())}


def _laid(ones: list[Figure]) -> Laid:
    return Laid(
        _each(_any_job(one.label) for one in ones),
        ones[0].quantity,
        _each(one.kind.value for one in ones),
        _each(re.sub(r"[{}]", "", one.working.formula) for one in ones if one.working is not None),
        _each(_any_job(one.source) for one in ones if one.kind not in _SAID),
        next((one.rounds for one in ones if one.rounds != "nearest"), "nearest"),
    )


def _any_job(words: str) -> str:
    """A label or source without what belongs to one job.

    >>> [_any_job(one) for one in ("2 Turn to 2 in: feed", "Bore of section 1, pipe", "Nose flat of tool V1")]
    ['Feed', 'Bore of section n', 'Nose flat of the tool']
    """
    for pattern, instead in _OWN:
        words = pattern.sub(instead, words)
    return words[:1].upper() + words[1:]


def _each(words: Iterable[str]) -> tuple[str, ...]:
    return tuple(sorted(set(words)))
