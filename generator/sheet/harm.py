"""Findings in order of harm: what the worst is that may come of one that nobody heeds.

    Harm         the classes of harm, the worst first
    HARM         the class of every finding, by its id
    harm_rank    the class of harm of one finding
    in_order_of_harm    findings as the sheet shows them

People come before the lathe, the lathe before the customer's part, the part before time: common practice, no
source.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from enum import IntEnum
from types import MappingProxyType
from typing import Final

from generator.sheet.lines import Finding, Level


class Harm(IntEnum):
    """Who or what is hurt, the worst first."""

    PEOPLE = 0
    """Work thrown or whipping, a chuck that lets go, what turns unguarded, lifting, what nobody knows."""
    LATHE = 1
    """The lathe and its tools: something meets something, stalls, burns or breaks."""
    WORK = 2
    """The customer's part."""
    TIME = 3
    """Time, or only something to know."""


LEVELS: Final[Mapping[Level, int]] = MappingProxyType({"stop": 0, "check": 1, "note": 2})

_OF: Final[Mapping[Harm, tuple[str, ...]]] = {
    Harm.PEOPLE: (
        # held: job.work_checks, sheet.capacity, sheet.holding
        "chuck-range", "collet-range", "collet-part-filled", "faceplate-range", "faceplate-overhung",
        "few-clamps", "inside-no-bore", "inside-bore-short", "plug-inside", "plug-no-bore", "jaws-contradict",
        "collet-rough", "dog-too-long", "dog-past-shoulder", "center-hollow", "behind-spindle-held",
        "unbalance-outside", "grip-past-jaws", "grip-taper", "grip-past-shoulder", "grip-short",
        "steady-missing", "steady-range", "steady-place", "no-hold-back", "knurl-springs", "stick-out",
        "open-end",
        "grip-low", "grip-speed", "grip-tipping", "grip-creep", "grip-over-key", "grip-past-body",
        "grip-loss-unknown", "thin-crush",
        "grip-unknown", "dog-tail",
        # turning: sheet.spindle_step, sheet.holding.speeds, sheet.operation_speed
        "chuck-speed", "chuck-speed-unknown", "screwed-nose", "critical-speed", "critical-speed-hinged",
        "critical-speed-unknown", "tail-whip", "tail-support", "unbalance", "center-push-low", "center-load",
        "center-buckling", "operation-whip",
        "part-off-center", "part-off-far", "order-part-off", "order-center", "order-band",
        # carried and depended on: sheet.holding.handling, sheet.knowledge
        "hoist", "lift", "material-unknown", "duty-unknown", "lift-reach", "sling", "droop", "chuck-lift",
        # what the part must carry, and heat that spoils a center: sheet.holding.strength, sheet.holding.heat
        "strength-yield", "strength-mate-yield", "strength-engagement", "ease-center", "mate-not-engaged",
        "engaged-short",
        # lifted out of the steady rest: sheet.holding.fingers
        "finger-lifts",
        # a joint under pressure: sheet.taper_thread
        "taper-thread-pressure",
        # worked from an old sheet: job.successor
        "superseded", "superseded-itself", "superseded-ring",
        # a lathe that nobody has looked at: sheet.lathe_assumed
        "lathe-assumed",
    ),
    Harm.LATHE: (
        # bent by the cut, carried by a finger: sheet.holding.climb, sheet.holding.fingers
        "climbs", "finger-load",
        # what meets what: sheet.reach, sheet.reach_findings, sheet.swing
        "cut-in-jaws", "operation-in-jaws", "cut-passes-steady", "quill-out",
        "carriage-meets-headstock", "carriage-meets-chuck", "carriage-meets-steady",
        "carriage-meets-tailstock", "compound-meets-jaws", "compound-meets-steady",
        "carriage-meets-faceplate", "carriage-meets-dog", "compound-meets-collet", "compound-meets-faceplate",
        "compound-meets-dog", "tool-meets-collet", "tool-meets-faceplate", "tool-meets-dog",
        "follow-rest-meets-collet", "follow-rest-meets-faceplate", "follow-rest-meets-dog",
        "compound-meets-quill", "compound-meets-tailstock", "tool-meets-jaws", "tool-meets-steady",
        "tool-meets-quill", "tool-meets-tailstock", "follow-rest-meets-jaws", "follow-rest-meets-steady",
        "follow-rest-meets-quill", "follow-rest-meets-tailstock",
        "swing-bed", "swing-slide", "swing-gap", "follow-rest-range",
        "lathe-size-assumed",
        # the hand at the half nuts: sheet.lathe_settings
        "relief-time", "no-relief", "left-hand-start", "run-out-time", "run-out-shoulder", "run-out",
        # speed, power and tools
        "spindle-too-fast", "spindle-fast", "operation-too-fast", "operation-fast", "speed-fast",
        "operation-speed", "operation-tips", "operation-feed", "operation-power", "operation-torque", "power",
        "tool-short", "groove-deep", "blade-slender", "bar-short", "bar-thick", "bar-tight", "mouth-narrow",
        "center-in-bore",
    ),
    Harm.WORK: (
    # what the file says against itself: job.work_checks, job.thread_checks, job.mate_checks, bore_checks
        "sections-sum", "grip-too-long", "bore-too-large", "cross-hole-outside", "cross-hole-too-large",
        "cross-hole-breaks-out", "hand-differs", "pitch-differs", "tpi-differs", "class-differs",
        "starts-differs", "units-differs", "engagement-differs", "thread-twice", "relief-twice",
        "thread-too-short", "thread-outside", "thread-on-taper", "thread-too-long", "relief-too-wide",
        "relief-not-below", "relief-not-above", "relief-into-bore", "relief-through-wall",
        "found-pitch", "found-differs", "found-twin", "found-none",
        "mate-unread", "mate-differs", "mate-same-side", "blank-over", "blank-under", "section-under-blank",
        "turn-first", "bore-over", "bore-under", "bore-missing",
        # how true it comes: sheet.holding
        "grip-marks", "support-wanted",
        "deflection", "slender", "steady-band", "steady-better", "steady-on-ground", "follow-rest-missing",
        "follow-rest-idle", "centers-in-the-way", "centers-face", "heat-measure",
        # thin walls in jaws and under fingers: sheet.holding.thin_findings, sheet.holding.thin_fingers
        "thin-grip", "thin-out-of-round", "thin-size", "thin-gauge", "thin-plug", "thin-steady",
        # walls and reliefs: sheet.relief, sheet.holding.section, sheet.route
        "no-wall", "too-thin", "operation-no-wall", "wall-limit", "thread-wall", "relief-wall", "relief-root",
        "relief-standard", "relief-narrow", "relief-short", "relief-radius", "relief-sharp",
        "relief-radius-wide", "relief-radius-small", "run-out-short", "run-out-relief", "hole-shallow",
        # lead and start: sheet.gears, sheet.half_nuts, sheet.index_travel
        "gearbox", "change-gears", "leadscrew-reverse", "leadscrew-reverse-unknown", "half-nuts-closed",
        "thread-dial-unknown", "dial-gear", "dial-starts", "index-travel", "starts-check",
        # the thread's own tool and cuts: sheet.threading_tool, sheet.threading_inside, sheet.infeed
        "outside-range", "infeed-angle", "infeed-contradiction", "cuts-contradict", "dial-coarse", "one-cut",
        "tool-assumed", "tool-inside", "tool-outside", "tool-angle", "nose-wide", "nose-radius",
        "nose-blunt", "nose-sharp", "load-flank", "side-clearance", "tool-tilt",
        "bar-slender", "bar-springs", "mate-tight", "mate-crests-meet", "mate-worn", "mate-undersize",
        "fit-outside-limits", "fit-impossible", "fit-unmeasured", "mate-unknown", "material-hearsay",
        "crest-sharp",
        # a taper thread: sheet.taper_thread, sheet.taper_thread_method
        "taper-thread-no-way", "taper-thread-blank", "taper-thread-crests", "taper-thread-square",
        "taper-thread-root", "taper-thread-gauge", "taper-thread-short", "taper-thread-attachment",
        "taper-thread-set-over",
        # operations
        "operation-off-work", "operation-range", "operation-feed-coarse", "tool-wide", "tool-nose",
        "knurl-pitch", "lead-in-steep", "lead-in-angle", "lead-in-ring", "taper-unknown", "taper-differs",
        "taper-shape", "taper-name", "taper-no-way", "taper-compound", "taper-attachment", "taper-set-over",
        "taper-between-centers", "order-relief", "order-chamfer", "order-seal-bore", "order-blank",
        "order-knurl", "order-polish", "order-drill", "order-bore", "order-groove", "order-edge",
        "order-face",
        # what the log says of the thread, and of taking it up: sheet.log_checks
        "log-size", "log-stop", "log-zero", "log-tool", "log-starts", "log-taken-up", "log-dial",
        "log-unread",
        # what the inspection record says: sheet.inspection_record
        "log-outside", "log-by-wires", "log-feature", "log-coarse", "log-unmeasured", "log-concession",
    ),
    Harm.TIME: (
        "hold-back-center", "chuck-missing", "collet-missing", "faceplate-missing", "too-long",
        "spindle-bore", "spindle-step",
        "operation-step", "gearbox-unknown",
        "cross-travel", "compound-travel", "quill-travel", "end-in-chuck", "bore-no-hole", "nothing-to-cut",
        "part-off-place", "many-passes", "class-assumed", "limits-remark", "limits-from-memory",
        "not-tabulated", "wire-missing",
        "wire-unusable", "wire-inside", "fit-wires-inside", "fit-unsaid", "route-proposed", "order-proposed",
        "speed-unknown-material", "not-checked",
        # pictures beside the job: job.pictures
        "picture-missing", "picture-unread", "picture-kind", "picture-name",
        "log-operation", "log-pass", "log-measured", "log-stopped", "log-order", "log-received", "log-status",
    ),
}

HARM: Final[Mapping[str, Harm]] = MappingProxyType({id: harm for harm, ids in _OF.items() for id in ids})


def harm_rank(finding: Finding) -> Harm:
    """The class of harm of a finding; one without a class stands with the worst.

    Examples
    --------
    >>> harm_rank(Finding("stick-out", "check", "")) < harm_rank(Finding("deflection", "check", ""))
    True
    >>> harm_rank(Finding("limits-remark-2", "note", "")).name
    'TIME'
    """
    return HARM.get(re.sub(r"-\d+$", "", finding.id), Harm.PEOPLE)


def in_order_of_harm(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """What stops the job first; of one level the worst harm first; then in the order of the files."""
    return tuple(sorted(findings, key=_place))


def _place(finding: Finding) -> tuple[object, ...]:
    nowhere = finding.where is None
    return LEVELS[finding.level], harm_rank(finding), nowhere, () if nowhere else finding.where
