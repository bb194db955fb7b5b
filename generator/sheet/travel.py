"""Do the slides and the quill travel far enough: compound, cross slide, tailstock quill."""

from __future__ import annotations

from collections.abc import Sequence

from generator.job.lathe import Lathe
from generator.job.written import Given
from generator.language.say import later, say
from generator.sheet.desk import Desk
from generator.sheet.extents import Extent
from generator.sheet.figure import System
from generator.sheet.wording import length_words
from generator.si import Angle, Length, inch, mm

PRACTICE = later("common practice, no source")
RETRACT: dict[System, Length] = {"inch": 0.125 * inch, "mm": 3 * mm}  # common practice, no source


def slides_section(
    lathe: Lathe,
    extents: Sequence[Extent],
    infeed_angle: Angle,
    system: System,
    desk: Desk,
    unchecked: list[str],
) -> None:
    """Travel that compound and cross slide need; `passes.travel` is laid already where a thread is cut."""
    infeed = desk.figures.get("passes.travel")
    travel = infeed.value if infeed is not None and isinstance(infeed.value, float) else None
    across = _deepest(extents)
    if travel is None and across is None:
        return
    retract = desk.chosen(
        "reach.retract", say("Drawn back clear of the work"), None, RETRACT[system], "length", PRACTICE,
        system=system,
    )
    if travel is not None and infeed_angle != 0:
        _compare(
            "compound", say("compound"), travel, retract, lathe.compound_travel,
            next((cut for cut in extents if cut.name == "thread"), None),
            say("Start with the compound drawn back, or feed straight in."), lathe, desk, unchecked,
        )
    if across is not None:
        cut, depth = across
        _compare(
            "cross", say("cross slide"), depth, retract, lathe.cross_travel, cut,
            say("Set the tool further out in its holder part of the way."), lathe, desk, unchecked,
        )


def _deepest(extents: Sequence[Extent]) -> tuple[Extent, Length] | None:
    """The cut that the cross slide has to go furthest for, and how far (m)."""
    depths = [
        (abs(cut.from_diameter - cut.to_diameter) / 2, cut)
        for cut in extents
        if cut.from_diameter is not None and cut.to_diameter is not None and not cut.by_quill
    ]
    if not depths:
        return None
    depth, cut = max(depths, key=lambda pair: pair[0])
    return cut, depth


def _compare(
    name: str,
    slide: str,
    way: Length,
    retract: Length,
    record: Given | None,
    cut: Extent | None,
    remedy: str,
    lathe: Lathe,
    desk: Desk,
    unchecked: list[str],
) -> None:
    """One slide's travel against what it needs."""
    system: System = desk.figures["reach.retract"].system or "inch"
    note = (
        say("{lathe} has {record}", lathe=lathe.name, record=record.with_unit)
        if record is not None
        else ""
    )
    need = desk.computed(
        f"reach.{name}_travel", say("Travel of the {slide} needed", slide=slide), way + retract, "length",
        "{furthest cut} + {drawn back}", {"furthest cut": (way, "length"), "drawn back": (retract, "length")},
        say("geometry"), note=note, rounds="up",
    )
    if record is None:
        unchecked.append(say("the travel of the {slide} ({name}_travel)", slide=slide, name=name))
    elif need > record.si:
        desk.find(
            f"{name}-travel", "stop",
            say(
                "The {slide} has to travel {need}{cut}; that of {lathe} has {record}. {remedy}",
                slide=slide, need=length_words(need, system), cut=f' ({cut.label})' if cut else '',
                lathe=lathe.name, record=record.with_unit, remedy=remedy,
            ),
            cut.where if cut else None,
        )


def quill_section(
    lathe: Lathe, extents: Sequence[Extent], system: System, desk: Desk, unchecked: list[str]
) -> None:
    """Depth drilled from the tailstock against the quill's travel."""
    drilled = [cut for cut in extents if cut.by_quill and cut.high > cut.low]
    if not drilled:
        return
    travel = lathe.tailstock.quill_travel if lathe.tailstock else None
    if travel is None:
        words = say("how far the quill comes out (tailstock: quill_travel)")
        if words not in unchecked:
            unchecked.append(words)
    for cut in drilled:
        depth = desk.computed(
            f"reach.{cut.name}.quill",
            say("{label}: depth from the quill", label=cut.label),
            cut.high - cut.low,
            "length",
            "{start} − {end}",
            {"start": (cut.high, "length"), "end": (cut.low, "length")},
            say("geometry"),
            note=say("the quill comes out {travel}", travel=travel.with_unit) if travel else "",
            rounds="up",
        )
        if travel is not None and depth > travel.si:
            desk.find(
                "quill-travel", "check",
                say(
                    "{cut} goes {depth} deep; the quill of {lathe} comes out {travel}. Draw the drill out, "
                    "move the tailstock up and go on; see that the drill is long enough.",
                    cut=cut.label, depth=length_words(depth, system), lathe=lathe.name,
                    travel=travel.with_unit,
                ),
                cut.where,
            )
