"""What the site says about threads and print: printed sizes that differ, and figures from memory, by family.

    differences     the list of generator/threads/differences.csv, by family
    from_memory     what the limits of each family could only be had of memory, in words
    thread_tables   every table of the families with its head, which names its source
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from importlib.resources import files

from generator.errors import BadDesignation, OutsideRange, SheetError
from generator.language.say import figure, say
from generator.language.spoken import once_a_language
from generator.tables.rows import source, table
from generator.threads.family import Family
from generator.threads.registry import (
    Designation,
    families,
    family_of,
    limits,
    mate_of,
    parse_designation,
    write_designation,
)

TOLERANCES = {  # the names that they have among the limits, and as lines of the working
    "major_tolerance": "major.tolerance", "pitch_tolerance": "pitch_diameter.tolerance",
    "minor_tolerance": "minor.tolerance",
}
# Classes of all kinds of threads: each family reads those that it has.
CLASSES = (
    "1A", "2A", "3A", "1B", "2B", "3B", "2G", "3G", "4G", "5G", "1", "2", "3", "4", "5", "A", "B",
    "3g", "4h", "5g6g", "6e", "6f", "6g", "8g", "9g", "4H", "5H", "6H", "6G", "7H", "8H", "9H",
    "6c", "7c", "8c", "9c", "7e", "8e", "7h", "8h", "9h",
)
COLUMNS = ("designation", "quantity", "printed", "computed", "source", "reason")
NUMBER = r"(?:(?<=\bfor )|(?<=\bfür ))\d+(?:[.,]\d+)?(?= )"
# Between two phrases, in each language; the next one begins with an article, or with "that".
BETWEEN = r", | and (?=the |that )| und (?=der |die |das |dass )"


FAMILIES = "generator.threads.families"


@dataclass(frozen=True)
class Difference:
    """One printed size that is not the computed one, and why."""

    family: str
    designation: str
    quantity: str
    printed: str
    computed: str
    source: str
    reason: str


@dataclass(frozen=True)
class FromMemory:
    """What of a family's limits and gauges could only be had from memory of a standard."""

    family: str
    standard: str
    figures: tuple[str, ...]


@once_a_language
def differences() -> tuple[Difference, ...]:
    """Every printed size that differs, in the order of families, then as listed."""
    found = (_difference(row) for row in table("differences", "generator.threads"))
    return tuple(sorted(found, key=lambda one: one.family))


def _difference(row: Mapping[str, str | None]) -> Difference:
    """One row; what of it cannot be read stands on the page as it is in the list, and stops no site."""
    cells = {name: row.get(name) or "" for name in COLUMNS}
    cells |= {name: say(cells[name]) for name in ("source", "reason")}
    name = TOLERANCES.get(cells["quantity"], cells["quantity"])
    try:
        d = parse_designation(cells["designation"])
        labels = {line.name: line.label for line in limits(d).lines}
    except SheetError:
        return Difference("", **cells)
    return Difference(family_of(d).name, **{**cells, "quantity": labels.get(name, name)})


@dataclass(frozen=True)
class ThreadTable:
    """One table of figures of the families: its file, and its head, which says where they come from."""

    file: str
    head: str


@once_a_language
def thread_tables() -> tuple[ThreadTable, ...]:
    """All tables of all families, by the name of their files."""
    root = files(FAMILIES)
    folders = [root, *(one for one in root.iterdir() if one.is_dir())]
    names = sorted(
        (folder.name if folder != root else "", one.name.removesuffix(".csv"))
        for folder in folders for one in folder.iterdir() if one.name.endswith(".csv")
    )
    return tuple(
        ThreadTable(f"{name}.csv", say(source(name, f"{FAMILIES}.{folder}" if folder else FAMILIES)))
        for folder, name in names
    )



@once_a_language
def from_memory() -> tuple[FromMemory, ...]:
    """The families that have figures from memory, and which."""
    found = []
    for family in sorted(families(), key=lambda one: one.name):
        figures: dict[str, None] = {}
        for d in _threads(family):
            try:
                said = [*limits(d).from_memory]
            except OutsideRange:
                continue
            gauging = family.gauging(d)
            said += gauging.from_memory if gauging is not None else ()
            figures |= dict.fromkeys(said)
        if figures:
            found.append(FromMemory(family.name, family.standard, _gathered(figures)))
    return tuple(found)


def _gathered(figures: Iterable[str]) -> tuple[str, ...]:
    """Phrases that differ in one number only (``for 16 threads per inch``) as one, with all the numbers."""
    numbers: dict[str, list[float]] = {}
    for phrase in figures:
        said = re.search(NUMBER, phrase)
        numbers.setdefault(re.sub(NUMBER, "{}", phrase), []).extend(
            [float(said[0].replace(",", "."))] if said else []
        )
    return tuple(
        phrase.replace("{}", ", ".join(figure(one, "g") for one in sorted(found)))
        for phrase, found in numbers.items()
    )


def _threads(family: Family) -> Iterator[Designation]:
    """Every standard size and its mate; examples, and one size of each pitch, in every class there is."""
    sizes = list(family.sizes())
    for size in sizes:
        d = parse_designation(size.designation)
        yield d
        yield mate_of(d)
    for text in [*family.examples, *{size.pitch: size.designation for size in sizes}.values()]:
        d = parse_designation(text)
        for side in (d, mate_of(d)):
            yield side
            for class_ in CLASSES if side.class_ else ():
                try:
                    yield parse_designation(write_designation(replace(side, class_=class_)))
                except BadDesignation:
                    continue
