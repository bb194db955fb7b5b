"""Limits of size of screw threads, external and internal, in the thread's own unit.

Rounded as the standards print them. `limits` is the way in; `limits_unified` (ASME B1.1) and `limits_metric`
(ISO 965-1) compute external threads, `limits_unified_internal` and `limits_metric_internal` internal ones.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Final

from generator.calc.limits_metric import metric_limits
from generator.calc.limits_metric_internal import internal_metric_limits
from generator.calc.limits_unified import unified_limits
from generator.calc.limits_unified_internal import internal_unified_limits
from generator.calc.thread_designation import Designation
from generator.calc.thread_sizes import Range, ThreadLimits
from generator.errors import OutsideRange

__all__ = ["Range", "ThreadLimits", "limits"]

_BY: Final[dict[tuple[str, bool], Callable[[Designation, float | None], ThreadLimits]]] = {
    ("UN", False): unified_limits,
    ("UN", True): internal_unified_limits,
    ("M", False): metric_limits,
    ("M", True): internal_metric_limits,
}


def limits(d: Designation, engagement: float | None = None) -> ThreadLimits:
    """Limits of size of a thread, external or internal.

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
    Range: see the four modules.

    Examples
    --------
    5 3/4-12 UN-2A (Machinery's Handbook, 27th ed., p. 1762) and M85 x 2 - 6g (p. 1802):

    >>> from generator.calc.designation import parse_designation
    >>> limits(parse_designation("5 3/4-12 UN-2A")).major
    Range(max=5.7479, min=5.7365)
    >>> limits(parse_designation("M85x2-6g")).pitch_diameter
    Range(max=83.663, min=83.483)

    M10 x 1.5 - 6H (ISO 965-2):

    >>> limits(parse_designation("M10x1.5-6H")).minor
    Range(max=8.676, min=8.376)

    Source: ASME B1.1; ISO 965-1, ISO 68-1, ISO 724.
    """
    if engagement is not None and not 0 < engagement < math.inf:
        raise OutsideRange("length of engagement", engagement, 0.0, None, "a length above zero", d.unit)
    return _BY[d.family, d.internal](d, engagement)
