"""Does what holds the work on the spindle take it: jaws outside or inside, collet, faceplate, centers."""

from __future__ import annotations

from collections.abc import Sequence

from generator.job.lathe import Lathe
from generator.job.lathe_parts import Head, LatheChuck, LatheCollet, LatheFaceplate
from generator.job.model import Chuck, Collet, Faceplate, Job
from generator.language.lists import and_words, or_words
from generator.language.say import say
from generator.sheet.desk import Desk
from generator.sheet.figure import System
from generator.sheet.head import fits, range_words
from generator.sheet.layout import Layout, Span
from generator.sheet.swing import SAME, lay_size
from generator.sheet.wording import length_words
from generator.si import Length

COLLET_FILLED = 0.5  # share of a collet's length that the work should fill; common practice, no source
FEWEST_CLAMPS = 2  # common practice, no source


def head_section(
    job: Job, lathe: Lathe, head: Head | None, layout: Layout, system: System, desk: Desk,
    unchecked: list[str],
) -> None:
    """Compare the work with what holds it; `head` is that in the lathe's record, None where it has none."""
    held = job.holding.held
    if isinstance(held, Chuck):
        _chuck(held, lathe, head, layout, system, desk, unchecked)
    elif isinstance(held, Collet):
        _collet(held, lathe, head, layout, system, desk, unchecked)
    elif isinstance(held, Faceplate):
        _faceplate(held, lathe, head, layout, system, desk)
    elif head is None:
        unchecked.append(say("the center and driving plate of the headstock (headstock_center)"))


def _gripped(layout: Layout) -> list[Span]:
    """The sections inside jaws or collet."""
    return [span for span in layout.spans if span.start < -SAME]


def _largest(spans: Sequence[Span]) -> Length:
    return max(max(span.od_start, span.od_end) for span in spans)


def _faceplate_words(lathe: Lathe, diameter: Length) -> str:
    """What the faceplate may do instead of a chuck that is too small."""
    plate = lathe.faceplate
    if plate is None or plate.diameter.si < diameter:
        return ""
    return say(
        " Its faceplate is {diameter}: clamped on it, balanced and turned slowly, the work may go.",
        diameter=plate.diameter.with_unit,
    )


# -- chuck ----------------------------------------------------------------------------------------------


def _chuck(
    asked: Chuck, lathe: Lathe, head: Head | None, layout: Layout, system: System, desk: Desk,
    unchecked: list[str],
) -> None:
    if not isinstance(head, LatheChuck):
        known = and_words(say("{jaws}-jaw", jaws=one.jaws) for one in lathe.chucks)
        desk.find(
            "chuck-missing",
            "stop",
            say(
                "{lathe} has no {jaws}-jaw chuck; its record lists {known}. Choose one of those or another "
                "lathe.",
                lathe=lathe.name, jaws=asked.jaws, known=known,
            ),
            asked.grip.where,
        )
        return
    if asked.inside:
        _inside(asked, lathe, head, layout, system, desk, unchecked)
    else:
        _outside(asked, lathe, head, layout, system, desk)
    if head.jaw_length is None:
        unchecked.append(say("whether the jaws are as long as the grip (chucks: jaw_length)"))
    elif asked.grip.si > head.jaw_length.si:
        desk.find(
            "grip-past-jaws",
            "check",
            say(
                "The grip is {grip}, but the jaws of this chuck are only {jaw_length} long. Measure both "
                "again: the stick-out counts from the jaw face.",
                grip=asked.grip.with_unit, jaw_length=head.jaw_length.with_unit,
            ),
            asked.grip.where,
        )


def _outside(
    asked: Chuck, lathe: Lathe, head: LatheChuck, layout: Layout, system: System, desk: Desk
) -> None:
    gripped = _gripped(layout)
    largest = _largest(gripped)
    takes = say(
        "the {jaws}-jaw chuck takes {grips}", jaws=head.jaws, grips=range_words(head.grips)
    )
    lay_size(desk, "chuck", say("Diameter in the jaws"), largest, takes)
    if not fits(head.grips, largest):
        desk.find(
            "chuck-range",
            "stop",
            say(
                "The work is {largest} in the jaws; the {jaws}-jaw chuck of {lathe} takes {grips}. Take "
                "another chuck or lathe.{faceplate}",
                largest=length_words(largest, system), jaws=head.jaws, lathe=lathe.name,
                grips=range_words(head.grips),
                faceplate=_faceplate_words(lathe, largest) if largest > head.grips.to.si else "",
            ),
            asked.grip.where,
        )
    if any(span.tapered for span in gripped):
        desk.find(
            "grip-taper",
            "check",
            say(
                "The jaws would grip on a taper and hold on one edge only. Grip another place, or use soft "
                "jaws bored to it."
            ),
            asked.grip.where,
        )


def _inside(
    asked: Chuck, lathe: Lathe, head: LatheChuck, layout: Layout, system: System, desk: Desk,
    unchecked: list[str],
) -> None:
    """The jaws open in the bore: the bore counts, not the outside."""
    bore = min(span.bore for span in _gripped(layout))
    if bore <= 0:
        return  # no bore over the whole grip: the checks of the job file say so
    if head.grips_inside is None:
        unchecked.append(say("whether the jaws open in this bore (chucks: grips_inside)"))
        limit = say(
            "the record of {name} does not say what its {jaws}-jaw chuck grips from inside",
            name=lathe.name,
            jaws=head.jaws,
        )
    else:
        limit = say(
            "the {jaws}-jaw chuck takes {grips_inside} from inside",
            jaws=head.jaws,
            grips_inside=range_words(head.grips_inside),
        )
    lay_size(desk, "chuck", say("Bore over the jaws"), bore, limit)
    if head.grips_inside is not None and not fits(head.grips_inside, bore):
        desk.find(
            "chuck-range",
            "stop",
            say(
                "The bore is {bore} over the jaws; the {jaws}-jaw chuck of {lathe} takes {grips_inside} "
                "from inside. Hold the work from outside, or take another chuck or lathe.",
                bore=length_words(bore, system), jaws=head.jaws, lathe=lathe.name,
                grips_inside=range_words(head.grips_inside),
            ),
            asked.grip.where,
        )


# -- collet, faceplate ----------------------------------------------------------------------------------


def _collet(
    asked: Collet, lathe: Lathe, head: Head | None, layout: Layout, system: System, desk: Desk,
    unchecked: list[str],
) -> None:
    if not isinstance(head, LatheCollet):
        desk.find(
            "collet-missing",
            "stop",
            say(
                "{lathe} has no collets in its record. If it has some, write them there; if not, take a "
                "chuck, or a lathe that has collets.",
                lathe=lathe.name,
            ),
            asked.grip.where,
        )
        return
    gripped = _gripped(layout)
    largest = _largest(gripped)
    sets = or_words(range_words(one.grips) for one in lathe.collets)
    lay_size(
        desk, "collet", say("Diameter in the collet"), largest, say("the collets take {sets}", sets=sets)
    )
    if not fits(head.grips, largest):
        desk.find(
            "collet-range",
            "stop",
            say(
                "The work is {largest} in the collet; those of {lathe} take {sets}. Take a chuck, or "
                "another lathe.",
                largest=length_words(largest, system), lathe=lathe.name, sets=sets,
            ),
            asked.grip.where,
        )
    if any(span.tapered for span in gripped):
        desk.find(
            "grip-taper",
            "stop",
            say(
                "The collet would close on a taper and hold on one edge only: the work slips and spoils the "
                "collet. Take a chuck with soft jaws bored to the taper, or hold the work at a straight "
                "place."
            ),
            asked.grip.where,
        )
    if head.grip_length is None:
        unchecked.append(say("whether the collet is as long as the grip (collets: grip_length)"))
    elif asked.grip.si > head.grip_length.si + SAME:
        desk.find(
            "grip-past-jaws",
            "check",
            say(
                "The grip is {grip}, but the collet holds only {grip_length} of the work. Measure both "
                "again: the stick-out counts from the face of the collet.",
                grip=asked.grip.with_unit, grip_length=head.grip_length.with_unit,
            ),
            asked.grip.where,
        )
    elif asked.grip.si < COLLET_FILLED * head.grip_length.si - SAME:
        desk.find(
            "collet-part-filled",
            "check",
            say(
                "The work fills {grip} of the {grip_length} that the collet closes on. Less than half of "
                "it, and the collet tips and holds at one end only. Push the work further in, or put a plug "
                "of the same diameter behind it.",
                grip=asked.grip.with_unit, grip_length=head.grip_length.with_unit,
            ),
            asked.grip.where,
        )


def _faceplate(
    asked: Faceplate, lathe: Lathe, head: Head | None, layout: Layout, system: System, desk: Desk
) -> None:
    where = asked.clamp_circle.where
    if asked.clamps < FEWEST_CLAMPS:
        desk.find(
            "few-clamps",
            "check",
            say(
                "One clamp holds the work at one place, and the cut turns it around that clamp. Use at "
                "least {fewest}, better three, spread around the plate, and a stop against the turning.",
                fewest=FEWEST_CLAMPS,
            ),
            where,
        )
    if not isinstance(head, LatheFaceplate):
        desk.find(
            "faceplate-missing",
            "stop",
            say(
                "{lathe} has no faceplate in its record. If it has one, write it there; if not, take a "
                "chuck, or a lathe that has one.",
                lathe=lathe.name,
            ),
            where,
        )
        return
    plate = head.diameter
    limit = say("the faceplate is {plate} across", plate=plate.with_unit)
    lay_size(desk, "faceplate", say("Circle of the clamps"), asked.clamp_circle.si, limit)
    if asked.clamp_circle.si >= plate.si - SAME:
        desk.find(
            "faceplate-range",
            "stop",
            say(
                "The clamps press on a circle of {clamp_circle}; the faceplate of {lathe} is {plate} "
                "across, and the clamps need its slots outside the work. Take a larger faceplate, or clamp "
                "nearer the middle.",
                clamp_circle=asked.clamp_circle.with_unit, lathe=lathe.name, plate=plate.with_unit,
            ),
            where,
        )
    foot = layout.spans[0]
    if foot.od_start > plate.si + SAME:
        desk.find(
            "faceplate-overhung",
            "check",
            say(
                "The work is {foot} across at the faceplate, which is only {plate}. What stands out "
                "past the plate turns unsupported: check that it clears bed and carriage by hand, and guard "
                "it.",
                foot=length_words(foot.od_start, system), plate=plate.with_unit,
            ),
            where,
        )
