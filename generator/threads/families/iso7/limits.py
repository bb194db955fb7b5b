"""Limits of size of the pipe threads R, Rc and Rp (ISO 7-1). Millimeters.

A taper thread is gauged along its axis: the gauge plane may lie so many turns further in or out, and all
three diameters at the end move by a sixteenth of that.
"""

from __future__ import annotations

from decimal import Decimal

from generator.language.say import later
from generator.threads.designation import Designation
from generator.threads.families.iso7.sizes import TAPER, PipeSize, named
from generator.threads.families.iso7.working import size_lines
from generator.threads.rounding import THREE, rounded
from generator.threads.sizes import Range, ThreadLimits

SOURCE = "ISO 7-1"
PLACES = 3
PLANES = {
    "R": later("the small end, where the thread starts"),
    "Rc": later("the gauge plane at the face, where the thread starts"),
    "Rp": "",
}
MEMORY: dict[str, tuple[str, ...]] = {
    "R": (later("the wrenching allowance"),),
    "Rc": (later("the place of the gauge plane behind the face"),),
    "Rp": (),
}
FACE = later(
    "ISO 7-1 takes the gauge plane of an internal thread half a pitch behind the face, where the usual "
    "chamfer ends, JIS B 0203 takes the face: it is half a turn of the plug gauge."
)


def iso7_limits(d: Designation) -> ThreadLimits:
    """Limits of size of a pipe thread, at its end.

    d2 = d − h, d1 = d − 2 h at the gauge plane
    R, at the small end: each less a/16, ± T1/16;  Rc, at the gauge plane: ± T2/16;
    Rp: ± the table's tolerance

    Parameters
    ----------
    d : an R, Rc or Rp thread

    Returns
    -------
    ThreadLimits (mm), three places.

    Notes
    -----
    Range: sizes 1/16 to 6. a is the gauge length, T1 and T2 the tolerances of the gauge planes outside and
    inside, each way.

    Source: ISO 7-1.
    """
    size = named(d.nominal_text)
    offset, each_way = at_the_end(d.series, size)
    middle = [size.major - times * size.height - offset for times in (0, 1, 2)]
    major, effective, minor = (
        Range(float(rounded(of + each_way, THREE)), float(rounded(of - each_way, THREE))) for of in middle
    )
    tolerance = float(rounded(2 * each_way, THREE))
    return ThreadLimits(
        designation=d, major=major, pitch_diameter=effective, minor=minor, allowance=0.0,
        major_tolerance=None if d.internal else tolerance, pitch_tolerance=tolerance, engagement=None,
        engagement_standard=True, tabulated=d.starts == 1, remarks=(FACE,) if d.series == "Rc" else (),
        source=SOURCE, minor_tolerance=tolerance if d.internal else None,
        from_memory=MEMORY[d.series], places=PLACES, plane=PLANES[d.series],
        lines=size_lines(d, size, (major, effective, minor), float(offset), float(each_way)),
    )


def at_the_end(series: str, size: PipeSize) -> tuple[Decimal, Decimal]:
    """How much smaller the diameters are at the end than at the gauge plane; what they vary each way (mm)."""
    if series == "R":
        return TAPER * size.gauge, TAPER * size.gauge_tolerance
    return Decimal(0), TAPER * size.internal_tolerance if series == "Rc" else size.parallel
