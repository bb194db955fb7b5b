"""The page at the machine: its cards, and the figures that its scripts keep, count and write down with.

AtMachine                 what the template gets; `data` goes into the page as JSON
at_machine                a sheet and the finished parts of its page -> AtMachine
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Final

from generator.language.say import all_said, later, say
from generator.render.cards import Card, card_data, cards, planned
from generator.render.figure_line import FigureLine
from generator.render.folded import Row, Run, folded
from generator.render.formats import UNITS, decimals
from generator.render.inspection_rows import InspectionRow
from generator.render.pass_table import PassTable, size_system
from generator.render.route_table import RouteTable
from generator.render.step_rows import StepRow
from generator.sheet.lines import FitRow, SizeReading, ToSize
from generator.sheet.model import Sheet
from generator.si import Length

FINE: Final = 9  # decimals of a length in the page: far below what any instrument shows
GOES: Final = FitRow(
    later("Goes on by hand over its whole length, without shake"), (),
    later("Then it fits. Write down the last reading, and cut nothing more."), "free",
)


@dataclass(frozen=True)
class AtMachine:
    """`cards` in order; `readings` are the ways to measure, as (key, label); `fits` what may be felt.

    `unit` is what the thread is measured in, `passes` the numbers that a reading can belong to.
    """

    cards: tuple[Card, ...]
    readings: tuple[tuple[str, str], ...]
    fits: tuple[FitRow, ...]
    passes: tuple[str, ...]
    unit: str
    data: Mapping[str, Any]


def at_machine(
    sheet: Sheet, lines: Mapping[str, FigureLine], steps: Sequence[StepRow], route: RouteTable | None,
    passes: PassTable | None, record: Sequence[InspectionRow],
) -> AtMachine:
    """All that the page needs at the machine, from its finished parts."""
    unit = UNITS["length"].unit(size_system(sheet))
    to_size = sheet.to_size
    numbers = {line.name: str(line.number) for line in sheet.operations if line.name in ("thread", "relief")}
    thread = numbers.get("thread", "")
    fits = (*sheet.trial_fit, GOES) if sheet.trial_fit else ()
    entries = dict([
        *_steps(steps), *_route(route), *_passes(passes, thread), *_record(sheet, record, numbers),
    ])
    found = cards(steps, route, passes, lines)
    return AtMachine(
        cards=found,
        readings=tuple((one.key, one.label) for one in to_size.readings) if to_size else (),
        fits=fits,
        passes=tuple(row.number for part in passes.parts for row in part.rows) if passes else (),
        unit=unit.name,
        data=all_said({
            "job": sheet.job, "owner": sheet.shop, "folder": f"{sheet.year}/{sheet.slug}",
            "revision": sheet.revision, "thread": thread,
            "entries": _entry_data(entries), "cards": card_data(found),
            "size": _to_size(to_size, sheet) if to_size else None,
            "lead": _lead(sheet), "unit": unit.name,
            "fits": [{"feels": fit.feels, "where": fit.at} for fit in fits],
        }),
    )


def _steps(steps: Sequence[StepRow]) -> Iterator[tuple[str, dict[str, Any]]]:
    for step in steps:
        if not step.operation:
            yield step.entry, {"takes": "tick", "label": step.text}
        if step.reading:
            yield step.reading, {"takes": "text", "label": say("{text}, written down", text=step.text)}


def _route(route: RouteTable | None) -> Iterator[tuple[str, dict[str, Any]]]:
    for row in route.rows if route else ():
        about = {"operation": row.number}
        label = say("Operation {number}, {title}: done", number=row.number, title=row.title)
        yield row.done, {"takes": "done", "label": label, **about}
        label = say("Operation {number}, {title}: time it took, minutes", number=row.number, title=row.title)
        yield row.took_entry, {"takes": "time", "label": label, **about}


def _passes(passes: PassTable | None, thread: str) -> Iterator[tuple[str, dict[str, Any]]]:
    if passes is None:
        return
    for row in (row for part in passes.parts for row in part.rows):
        yield (
            row.entry,
            {
                "takes": "dial",
                "label": say("Pass {number}, as cut: dial, {unit}", number=row.number, unit=passes.dial_unit),
                "operation": thread,
                "pass": int(row.number),
                "turns": int(row.turns),
                "planned": planned(row),
                "unit": passes.dial_unit,
                "stood": say(
                    "{turns} turns {dial} {unit}, cut {cut} {unit}",
                    turns=row.turns, dial=row.dial, unit=passes.dial_unit, cut=row.cut,
                ),
            },
        )


def _record(
    sheet: Sheet, record: Sequence[InspectionRow], numbers: Mapping[str, str]
) -> Iterator[tuple[str, dict[str, Any]]]:
    for line, row in zip(sheet.inspection, record, strict=True):
        name = line.low or line.high
        figure = sheet.figures.get(name)
        system = (figure.system if figure else None) or sheet.system
        about = {
            "takes": "inspected", "feature": line.key, "kind": line.takes, "with": line.instrument,
            "operation": numbers.get(name.partition(".")[0]) or numbers.get("thread", ""),
            "unit": UNITS["length"].unit(system).name,
        }
        if row.takes_size:
            yield (
                row.found_field,
                {**about, "label": say("{feature}, as it came in", feature=row.feature), "side": "found"},
            )
        yield row.left_field, {**about, "label": row.feature, "side": "left"}
        yield (
            row.accepted_field,
            {
                **about,
                "label": say("{feature}: accepted by mate, gauge, wires, balls or size", feature=row.feature),
                "side": "accepted",
                "kind": "words",
            },
        )
        yield (
            row.by_field,
            {"takes": "by", "label": say("{feature}: by, date", feature=row.feature), "of": row.left_field},
        )


def _entry_data(entries: Mapping[str, Row]) -> list[Run]:
    """The fields with their names, those of one kind together; js/sheet_data.js unfolds them."""

    def kind(row: Row) -> tuple[str, str]:
        return row["takes"], row.get("feature", "")

    return folded(sorted(({"id": id, **entry} for id, entry in entries.items()), key=kind), kind)


def _lead(sheet: Sheet) -> float:
    """How far one turn goes, in the unit of the readings; 0 without a thread."""
    lead = sheet.figures.get("thread.lead")
    if lead is None or not isinstance(lead.value, float):
        return 0.0
    return round(lead.value / UNITS["length"].unit(size_system(sheet)).si, FINE)


def _to_size(to_size: ToSize, sheet: Sheet) -> dict[str, Any]:
    """The sums of the page, in the unit of the readings; dials as they read, in their own.

    The size aimed at is the one that the pass table shows, to its last place.
    """
    size, dial = UNITS["length"].unit(size_system(sheet)), UNITS["length"].unit(to_size.dials)

    def fine(length: Length | None, places: int = FINE) -> float | None:
        return None if length is None else round(length / size.si, places)

    def reading(one: SizeReading) -> dict[str, Any]:
        read = one.read
        return {
            "key": one.key, "label": one.label, "with": one.instrument, "inside": read.inside,
            "aim": fine(read.aim, decimals(1.0, size)), "least": fine(read.least), "most": fine(read.most),
            "per": read.per, "bottom": fine(read.bottom), "top": fine(read.top),
        }

    feed = to_size.feed
    return {
        "readings": [reading(one) for one in to_size.readings],
        "feed": {
            "along": feed.along, "half": fine(feed.half), "crossHalf": fine(feed.cross_half),
            "depth": fine(feed.depth), "first": fine(feed.first), "small": feed.small,
        },
        "slide": to_size.slide, "unit": size.name, "places": decimals(1.0, size),
        "dialUnit": dial.name, "dialPlaces": decimals(1.0, dial),
        "feedDivision": round(to_size.feed_dial / dial.si, FINE),
        "crossDivision": round(to_size.cross_dial / dial.si, FINE),
    }
