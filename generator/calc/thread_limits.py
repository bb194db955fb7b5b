"""Limits of size of external screw threads, in the thread's own unit, rounded as the standard prints them.

`limits` is the way in; `limits_unified` (ASME B1.1) and `limits_metric` (ISO 965-1) compute.
"""

from __future__ import annotations

import math

from generator.calc.limits_metric import metric_limits
from generator.calc.limits_unified import unified_limits
from generator.calc.thread_designation import Designation
from generator.calc.thread_sizes import Range, ThreadLimits
from generator.errors import OutsideRange

__all__ = ["Range", "ThreadLimits", "limits"]


def limits(d: Designation, engagement: float | None = None) -> ThreadLimits:
    """Limits of size of an external thread.

    Parameters
    ----------
    d : the thread
    engagement : length of engagement with the mate (the thread's own unit); None takes the standard's

    Returns
    -------
    ThreadLimits, in the thread's own unit.

    Raises
    ------
    OutsideRange
        Outside the range of the standard's tables and formulas, or for an engagement that is not a length.

    Notes
    -----
    Range: see `limits_unified` and `limits_metric`.

    Examples
    --------
    5 3/4-12 UN-2A (Machinery's Handbook, 27th ed., p. 1762) and M85 x 2 - 6g (p. 1802):

    >>> from generator.calc.designation import parse_designation
    >>> limits(parse_designation("5 3/4-12 UN-2A")).major
    Range(max=5.7479, min=5.7365)
    >>> limits(parse_designation("M85x2-6g")).pitch_diameter
    Range(max=83.663, min=83.483)

    Source: ASME B1.1; ISO 965-1, ISO 68-1, ISO 724.
    """
    if engagement is not None and not 0 < engagement < math.inf:
        raise OutsideRange("length of engagement", engagement, 0.0, None, "a length above zero", d.unit)
    return unified_limits(d, engagement) if d.family == "UN" else metric_limits(d, engagement)
