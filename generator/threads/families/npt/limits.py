"""Limits of size of American taper pipe threads, at the end face where the thread starts. Inches.

The gauge may stand one turn either way (ASME B1.20.1, 3.2): on the diameter the taper makes of it P/16.
Crest and root are limited by their truncation below the sharp V.
"""

from __future__ import annotations

from fractions import Fraction

from generator.language.say import later
from generator.threads.designation import Designation
from generator.threads.families.npt.planes import SHARP_V, TAPER, Truncation, planes, rounded
from generator.threads.families.npt.reading import size_of
from generator.threads.families.npt.working import size_lines
from generator.threads.sizes import Range, ThreadLimits

PLACES = 5
OUTSIDE = later("the small end, where the thread starts")
INSIDE = later("the face, where the thread starts")


def pipe_limits(
    d: Designation, truncated: Truncation, source: str, memory: tuple[str, ...] = ()
) -> ThreadLimits:
    """Limits of size of a taper pipe thread at its end face.

    outside, at the small end: E0 ± P/16;  inside, at the face: E1 ± P/16
    crest and root: E ± (H − 2 f), f between the least and the most truncation

    Parameters
    ----------
    d : an NPT or NPTF thread
    truncated : truncations of crest and root for its pitch
    source, memory : as in `ThreadLimits`

    Returns
    -------
    ThreadLimits (in), five places.

    Notes
    -----
    Range: the standard's sizes; several starts are not in it.

    Source: ASME B1.20.1, table 1 and section 3; ASME B1.20.3 for NPTF.
    """
    of = planes(size_of(d), truncated.vanish)
    pitch = d.pitch
    middle = of.e1 if d.internal else of.e0
    turn = TAPER * pitch
    crest = _heights(pitch, truncated.crest_max, truncated.crest_min)
    root = _heights(pitch, truncated.root_max, truncated.root_min)
    outer, inner = (root, crest) if d.internal else (crest, root)
    major = Range(_size(middle + turn + outer[1]), _size(middle - turn + outer[0]))
    effective = Range(_size(middle + turn), _size(middle - turn))
    minor = Range(_size(middle + turn - inner[0]), _size(middle - turn - inner[1]))
    return ThreadLimits(
        designation=d, major=major, pitch_diameter=effective, minor=minor, allowance=0.0,
        major_tolerance=None if d.internal else _size(2 * turn + crest[1] - crest[0]),
        pitch_tolerance=_size(2 * turn),
        engagement=None, engagement_standard=True, tabulated=d.starts == 1, remarks=(), source=source,
        minor_tolerance=_size(2 * turn + crest[1] - crest[0]) if d.internal else None, from_memory=memory,
        places=PLACES,
        plane=INSIDE if d.internal else OUTSIDE,
        lines=size_lines(d, of, truncated, (major, effective, minor)),
    )



def _heights(pitch: Fraction, most: Fraction, least: Fraction) -> tuple[Fraction, Fraction]:
    """Twice the height of crest or root from the pitch line: lowest and highest."""
    return (SHARP_V - 2 * most) * pitch, (SHARP_V - 2 * least) * pitch


def _size(value: Fraction) -> float:
    return rounded(value, PLACES)
