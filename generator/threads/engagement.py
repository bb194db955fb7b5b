"""Groups of lengths of engagement: short, normal, long (ISO 965-1, ISO 2903)."""

from __future__ import annotations

import math

from generator.language.say import figure, say


def of_group(group: str, normal: tuple[float, float]) -> tuple[float, float]:
    """Lengths of engagement of a group, over .. up to and including.

    Parameters
    ----------
    group : S, N or L; empty as N
    normal : over .. up to and including of group N (mm)

    Returns
    -------
    (over, up to) (mm); group L has no end

    Notes
    -----
    No range given in the source.

    Examples
    --------
    M10 x 1.5 (Machinery's Handbook, 27th ed., p. 1792: group N over 5 up to 15 mm):

    >>> of_group("L", (5.0, 15.0))
    (15.0, inf)

    Source: ISO 965-1.
    """
    shortest, longest = normal
    return {"S": (0.0, shortest), "L": (longest, math.inf)}.get(group, normal)


def in_words(asked: tuple[float, float], unit: str) -> str:
    """Lengths of engagement in words, over .. up to and including; a length that is written twice is one.

    >>> in_words((15.0, math.inf), "mm"), in_words((0.0, 5.0), "mm"), in_words((1.5, 1.5), "in")
    ('over 15 mm', 'up to 5 mm', '1.5 in')
    """
    over, up_to = asked
    if over == up_to:
        return f"{figure(over, 'g')} {unit}"
    if up_to == math.inf:
        return say("over {over:g} {unit}", over=over, unit=unit)
    if over <= 0:
        return say("up to {up_to:g} {unit}", up_to=up_to, unit=unit)
    return say("over {over:g} up to {up_to:g} {unit}", over=over, up_to=up_to, unit=unit)
