"""What travels with the tool and what stands in its way, as the lathe's record has it.

    standing      headstock, what holds the work, steady rest, tailstock, quill: at the bed, at center height
    travelling    carriage, tool and holder, compound, follow rest: parts, for one cut

What the record does not say is left out here, and `missing` names what a cut would have needed.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from generator.calc.reach import Level, Obstacle, Part, Side, swung
from generator.job.lathe import Lathe
from generator.job.lathe_parts import Head
from generator.job.model import HeldBy, Job
from generator.language.say import later, say
from generator.sheet.extents import Extent
from generator.sheet.figure import System
from generator.sheet.head import FACE_WORDS, LENGTH_KEYS, face_at, used_head
from generator.sheet.layout import Layout
from generator.si import Angle, Length, inch, mm

HEADSTOCK: str = later("headstock")
CHUCK: str = later("chuck")
STEADY: str = later("steady rest")
JAWS, COLLET, FACEPLATE, DOG = (FACE_WORDS[kind] for kind in ("chuck", "collet", "faceplate", "centers"))
TAILSTOCK: str = later("tailstock")
QUILL: str = later("quill")
CARRIAGE: str = later("carriage")
TOOL: str = later("tool holder")
COMPOUND: str = later("compound")
FOLLOW_REST: str = later("follow rest")
BED: Level = "bed"
CENTER: Level = "center height"
TURNS_AT_BED: Mapping[HeldBy, str] = {  # what may not turn clear of the carriage; a collet always does
    "chuck": CHUCK, "faceplate": FACEPLATE, "centers": DOG,
}
DIAMETER_KEYS: Mapping[HeldBy, str] = {  # a faceplate's is always written
    "chuck": later("whether the chuck turns clear of the carriage (chucks: diameter)"),
    "centers": later("whether dog and driving plate turn clear of the carriage (headstock_center: diameter)"),
}
LEAST_ROOM: dict[System, Length] = {"inch": 0.25 * inch, "mm": 6 * mm}  # common practice, no source


def standing(
    job: Job, lathe: Lathe, layout: Layout, steady_at: Length | None, quill_out: Length = 0.0
) -> list[Obstacle]:
    """What stands still, x from the jaw face. The center is in the end of the work, the quill so far out."""
    head, steady, kind, face = used_head(job, lathe), lathe.steady, job.holding.held.kind, face_at(job)
    found = [Obstacle(FACE_WORDS[kind], CENTER, end=face)]
    if kind in TURNS_AT_BED and not _passes_over(lathe, head):
        found.append(Obstacle(TURNS_AT_BED[kind], BED, end=face))
    if head is not None and head.length is not None:
        found.append(Obstacle(HEADSTOCK, BED, end=-head.length.si))
    if steady_at is not None:
        left, right = steady_base(lathe)
        found.append(Obstacle(STEADY, BED, steady_at - left, steady_at + right))
        half = steady.width.si / 2 if steady is not None and steady.width is not None else 0.0
        found.append(Obstacle(STEADY, CENTER, steady_at - half, steady_at + half))
    if job.holding.center and lathe.center_length is not None and lathe.tailstock is not None:
        nose = layout.stick_out + lathe.center_length.si
        found += [Obstacle(TAILSTOCK, BED, nose + quill_out), Obstacle(TAILSTOCK, CENTER, nose + quill_out)]
        if lathe.tailstock.quill_diameter is not None:
            found.append(Obstacle(QUILL, CENTER, nose))
    return found


def steady_base(lathe: Lathe) -> tuple[Length, Length]:
    """Bed that the steady takes each side of its middle (m): its base, or else half its fingers."""
    steady = lathe.steady
    if steady is None:
        return (0.0, 0.0)
    half = steady.width.si / 2 if steady.width is not None else 0.0
    left = steady.base_left.si if steady.base_left is not None else half
    right = steady.base_right.si if steady.base_right is not None else half
    return (left, right)


def base_known(lathe: Lathe, side: Side) -> bool:
    """True when the record says how much bed the steady's base takes on that side of its middle."""
    steady = lathe.steady
    return steady is not None and (steady.base_left if side == "left" else steady.base_right) is not None


def _passes_over(lathe: Lathe, head: Head | None) -> bool:
    """True when the record shows that chuck or plate turns clear of the cross slide, and where the tool is.

    Otherwise the carriage may have to stay on its tailstock side.
    """
    return (
        lathe.tool_left is not None
        and lathe.swing.over_cross_slide is not None
        and head is not None
        and head.diameter is not None
        and head.diameter.si <= lathe.swing.over_cross_slide.si
    )


def travelling(job: Job, lathe: Lathe, extent: Extent, infeed_angle: Angle) -> list[Part]:
    """What travels with the tool in one cut; a negative angle: the compound is set over to the headstock."""
    if extent.by_quill or (extent.inside and extent.stands_out is None):
        return []
    out = extent.stands_out or 0.0

    def reach(given: Length | None, further: Length) -> Length | None:
        return None if given is None else given + further

    compound = None if lathe.compound_right is None else swung(lathe.compound_right.si, infeed_angle)
    to_left = infeed_angle < 0
    parts = [
        Part(
            CARRIAGE,
            BED,
            reach(lathe.carriage_left.si if lathe.carriage_left else None, -out),
            reach(lathe.carriage_right.si if lathe.carriage_right else None, out),
        ),
        Part(TOOL, CENTER, reach(lathe.tool_left.si if lathe.tool_left else None, -out)),
        Part(
            COMPOUND,
            CENTER,
            reach(compound, -out) if to_left else None,
            None if to_left else reach(compound, out),
        ),
    ]
    rest = lathe.follow_rest
    if job.holding.follow_rest and not extent.inside and rest is not None and rest.width is not None:
        towards_chuck = extent.start >= extent.end
        width = rest.width.si
        parts.append(
            Part(FOLLOW_REST, CENTER, None if towards_chuck else width, width if towards_chuck else None)
        )
    return parts


def missing(
    job: Job, lathe: Lathe, extents: list[Extent], steady_at: Length | None, infeed_angle: Angle
) -> Iterator[str]:
    """What the record does not say and these cuts would have needed, each with its key."""
    cuts = [extent for extent in extents if not extent.by_quill]
    if not cuts:
        return
    holding, head, steady = job.holding, used_head(job, lathe), lathe.steady
    at_steady = [] if steady_at is None else [cut for cut in cuts if not cut.before_steady]
    after = [cut for cut in at_steady if steady_at is not None and steady_at <= cut.low]
    before = [cut for cut in at_steady if steady_at is not None and cut.high <= steady_at]
    to_chuck, to_right = len(cuts) > len(after), bool(before) or bool(holding.center)
    if lathe.carriage_left is None:
        yield say("how far the carriage reaches from the tool towards the chuck (carriage_left)")
    if lathe.carriage_right is None and to_right:
        yield say("how far the carriage reaches from the tool towards the tailstock (carriage_right)")
    if lathe.tool_left is None:
        yield say("how far tool and holder reach towards the chuck at center height (tool_left)")
    if lathe.compound_right is None and (to_right or infeed_angle < 0):
        yield say("how far the compound reaches from the tool at center height (compound_right)")
    kind = holding.held.kind
    if to_chuck and head is not None and head.length is None:
        yield LENGTH_KEYS[kind]
    size_missing = head is not None and head.diameter is None and kind in DIAMETER_KEYS
    if to_chuck and size_missing and lathe.tool_left is not None:
        yield DIAMETER_KEYS[kind]
    if at_steady and steady is not None:
        if steady.width is None:
            yield say("the width of the steady rest's fingers (steady: width)")
        if after and steady.base_right is None:
            yield say("the bed that the steady rest's base takes towards the tailstock (steady: base_right)")
        if before and steady.base_left is None:
            yield say("the bed that the steady rest's base takes towards the chuck (steady: base_left)")
    if holding.center:
        if lathe.center_length is None:
            yield say("the length of the center (center_length)")
        if lathe.tailstock is None:
            yield say("where the tailstock stands (tailstock: quill_travel, quill_diameter)")
        elif lathe.compound_right is not None and lathe.tailstock.quill_diameter is None:
            yield say("whether the compound turns clear of the quill (tailstock: quill_diameter)")
    if holding.follow_rest and lathe.follow_rest is not None and lathe.follow_rest.width is None:
        yield say("the width of the follow rest's jaws (follow_rest: width)")
    if any(cut.inside and cut.stands_out is None for cut in cuts):
        yield say("how far the boring bar stands out (tools file: reach)")
