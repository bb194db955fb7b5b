"""Whether a thread that was stopped may be taken up on another lathe of the shop, and what changes there.

The tool follows the groove only where the other lathe cuts the same lead: one that is nearly right drifts
across the flanks. Common practice, no source.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from generator.language.say import later, say
from generator.sheet.compare import Compared, OnLathe
from generator.sheet.model import Sheet
from generator.sheet.other_lathes import Comparison

CHANGES = later(
    "There true it on the band and take a new zero: old readings and jaw mark do not hold. Watch the dry "
    "run to the end; no two leadscrews are worn alike."
)


@dataclass(frozen=True)
class Elsewhere:
    """One other lathe: whether the thread may be taken up there, and what to set, or why not."""

    lathe: str
    may: bool
    text: str


def elsewhere(sheet: Sheet, compared: Comparison) -> tuple[Elsewhere, ...]:
    """Every other lathe of the shop, for a thread that is stopped; empty for any other sheet."""
    card = sheet.take_up
    if card is None or not card.thread or card.finished:
        return ()
    return tuple(_there(one) for one in compared.others)


def _there(one: Compared) -> Elsewhere:
    name = one.there.lathe.name
    if stops := sorted(one.there.stops, key=lambda finding: finding.id != "gearbox"):
        return Elsewhere(name, False, _first_sentence(stops[0].text))
    if off := [on for on in (one.here, one.there) if _only_near(on)]:
        text = say("{lathe} cuts this lead only nearly: the tool would drift.", lathe=off[0].lathe.name)
        return Elsewhere(name, False, text)
    if "gearbox-unknown" in {finding.id for finding in one.there.sheet.findings}:
        return Elsewhere(name, False, say("Its record does not say whether it cuts this lead."))
    return Elsewhere(name, True, "; ".join(_settings(one.there.sheet)))


def _only_near(on: OnLathe) -> bool:
    """True where the lathe's gears give the lead only nearly, which its finding says."""
    return any(finding.id == "gearbox" for finding in on.sheet.findings)


def _first_sentence(text: str) -> str:
    """As much of a finding as says why; the whole stands with the other lathes.

    >>> _first_sentence("It cannot cut 2 mm exactly. The closest is 13 threads per inch.")
    'It cannot cut 2 mm exactly.'
    """
    return re.split(r"(?<=[a-zäöüß)])\. ", text, maxsplit=1)[0].rstrip(".") + "."


def _settings(sheet: Sheet) -> list[str]:
    """Levers, gears and lines of the thread dial there."""
    names = {"lathe.gearbox": say("gearbox"), "lathe.change_gears": say("gears")}
    figures = ((label, sheet.figures.get(name)) for name, label in names.items())
    said = [f"{label} {figure.value}" for label, figure in figures if figure is not None and figure.value]
    dial = sheet.figures.get("lathe.thread_dial")
    return [
        *said,
        say(
            "half nuts: {closing}",
            closing=dial.value if dial is not None and dial.value else say("closed to the end"),
        ),
    ]
