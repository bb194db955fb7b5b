"""How the sheets of the demo archive lay each figure down: label, quantity, formula, source, rounding.

    Laid       what of a figure is the same on every sheet, or the different ones of it
    laid       all, by name, in the language that is spoken
    laid_of    the same from sheets: a test compares the two, and writes the file anew when it is asked to
    file_of    where those of a language are kept: laid.en.json, and one for each language of a catalog

The demo archive does not travel with the program, so what is read off its sheets is kept beside this module.
A language without a file of its own says the English one, text by text.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Mapping
from dataclasses import asdict, dataclass, replace
from pathlib import Path
from typing import Any, Final

from generator.language.say import first_large, say
from generator.language.spoken import spoken
from generator.sheet.explained_at import any_name
from generator.sheet.figure import Figure, Kind
from generator.sheet.model import Sheet

_IN_ENGLISH: Final = (  # of one job alone, in a label or a source
    (re.compile(r"^(\d+ .+?: |[A-Z][a-z ]+ \(operation \d+\): |Relief: |Thread: )"), ""),
    (re.compile(r"\b(section|hole|pass) \d+(, (?!diameter|from).*)?"), r"\1 n"),
    (re.compile(r" at \d+\.\d diameters"), " at n diameters"),
    (re.compile(r" of tool \w+$"), " of the tool"),
    (re.compile(r", (at least, )?dollars$"), ""),
    (re.compile(r"jobs/_shop/lathes/[\w-]+\.yml"), "jobs/_shop/lathes/NAME.yml"),
)
_IN_GERMAN: Final = (
    (re.compile(r"^(\d+ .+?: |[A-ZÄÖÜ][\w -]+ \(Arbeitsgang \d+\): |Freistich: |Gewinde: )"), ""),
    (re.compile(r"\b(Abschnitt|\w*[Bb]ohrung|Schnitt) \d+(, (?!Durchmesser|ab|vom|von).*)?"), r"\1 n"),
    (re.compile(r" bei \d+,\d Durchmessern"), " bei n Durchmessern"),
    (re.compile(r" von Werkzeug \w+"), " des Werkzeugs"),
    (re.compile(r", (mindestens, )?Dollar$"), ""),
    (re.compile(r"jobs/_shop/lathes/[\w-]+\.yml"), "jobs/_shop/lathes/NAME.yml"),
)
_OWN: Final = {"en": _IN_ENGLISH, "de": _IN_GERMAN}
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


def file_of(code: str) -> Path:
    """The file of a language."""
    return Path(__file__).with_name(f"laid.{code}.json")


def laid() -> dict[str, Laid]:
    """Every figure of the demo archive by its name as of any operation."""
    own = file_of(spoken().code)
    if own.is_file():
        return _kept(own)
    return {name: _said(one) for name, one in _kept(file_of("en")).items()}


def _kept(file: Path) -> dict[str, Laid]:
    held = json.loads(file.read_text(encoding="utf-8"))
    return {name: _read(entry) for name, entry in held.items()}


def _said(one: Laid) -> Laid:
    labels, formulas, sources = (
        tuple(say(text) for text in texts) for texts in (one.labels, one.formulas, one.sources)
    )
    return replace(one, labels=labels, formulas=formulas, sources=sources)


def _read(entry: Mapping[str, Any]) -> Laid:
    fields: dict[str, Any] = {key: tuple(one) if isinstance(one, list) else one for key, one in entry.items()}
    return Laid(**fields)


def as_text(found: Mapping[str, Laid]) -> str:
    """The text of a file."""
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
        _each(_named(one.working.formula) for one in ones if one.working is not None),
        _each(_any_job(one.source) for one in ones if one.kind not in _SAID),
        next((one.rounds for one in ones if one.rounds != "nearest"), "nearest"),
    )


def _named(formula: str) -> str:
    """A formula with the names of what goes in, as a sheet shows it first."""
    return re.sub(r"\{([^{}]+)\}", lambda found: say(found[1]), str(formula))


def _any_job(words: str) -> str:
    """A label or source without what belongs to one job.

    >>> [_any_job(one) for one in ("2 Turn to 2 in: feed", "Bore of section 1, pipe", "Nose flat of tool V1")]
    ['Feed', 'Bore of section n', 'Nose flat of the tool']
    """
    words = str(words)  # one of a table is said now
    for pattern, instead in _OWN.get(spoken().code, _IN_ENGLISH):
        words = pattern.sub(instead, words)
    return first_large(words)


def _each(words: Iterable[str]) -> tuple[str, ...]:
    return tuple(sorted(set(words)))
