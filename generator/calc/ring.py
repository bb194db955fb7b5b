"""A thin ring pressed at points all round: what three, four or six jaws, or three fingers, do to a tube.

    load_share            deflection at a load, over W R³ ÷ (E I)
    midway_share          deflection midway between two loads, likewise
    out_of_round_share    both together: largest less smallest radius
    deflection            any of them times W R³ ÷ (E I)
    half_spacing          half the angle between two loads

The ring is thin and bends without stretching; `ring_forces` has what its wall bears, `curved_beam` the thick
ring, `lobes` pressure over arcs and tubes. All loads push inwards; from inside the bore everything has the
other sign.
"""

from __future__ import annotations

import math

from generator.calc.guards import above_zero
from generator.errors import OutsideRange
from generator.language.say import say
from generator.si import Force, Length, Pressure


def load_share(n: int) -> float:
    """Inward deflection at a load, over W R³ ÷ (E I): ``½ [α ÷ (2 sin² α) + cos α ÷ (2 sin α) − 1 ÷ α]``.

    Parameters
    ----------
    n : loads, equal and equally spaced; ``α = π ÷ n``

    Returns
    -------
    A number.

    Raises
    ------
    OutsideRange
        With fewer than two loads.

    Notes
    -----
    Wall over mean radius up to about 0.1.

    Examples
    --------
    >>> [round(load_share(n), 6) for n in (2, 3, 4, 6)]
    [0.074389, 0.015939, 0.006079, 0.001682]

    Source
    ------
    Roark's Formulas for Stress and Strain, 7th ed., table 9.2, case 7; Timoshenko, Strength of Materials II.
    """
    a = half_spacing(n)
    return 0.5 * (a / (2 * math.sin(a) ** 2) + 1 / (2 * math.tan(a)) - 1 / a)


def midway_share(n: int) -> float:
    """Outward deflection midway, over W R³ ÷ (E I): ``½ [1 ÷ α − 1 ÷ (2 sin α) − α cos α ÷ (2 sin² α)]``.

    Parameters
    ----------
    n : loads, equal and equally spaced; ``α = π ÷ n``

    Returns
    -------
    A number.

    Raises
    ------
    OutsideRange
        With fewer than two loads.

    Notes
    -----
    Wall over mean radius up to about 0.1.

    Examples
    --------
    >>> [round(midway_share(n), 6) for n in (2, 3, 4, 6)]
    [0.068310, 0.014257, 0.005386, 0.001480]

    Source
    ------
    Roark's Formulas for Stress and Strain, 7th ed., table 9.2, case 7; Timoshenko, Strength of Materials II.
    """
    a = half_spacing(n)
    return 0.5 * (1 / a - 1 / (2 * math.sin(a)) - a * math.cos(a) / (2 * math.sin(a) ** 2))


def out_of_round_share(n: int) -> float:
    """Largest less smallest radius, over W R³ ÷ (E I): what both deflections make together.

    Parameters
    ----------
    n : loads, equal and equally spaced

    Returns
    -------
    A number.

    Raises
    ------
    OutsideRange
        With fewer than two loads.

    Notes
    -----
    Wall over mean radius up to about 0.1.

    Examples
    --------
    >>> [round(out_of_round_share(n), 6) for n in (2, 3, 4, 6)]
    [0.142699, 0.030195, 0.011466, 0.003162]

    At the same force of all jaws three distort 3.51 times as much as four, 19.1 times as much as six:

    >>> three, four, six = (out_of_round_share(n) / n for n in (3, 4, 6))
    >>> round(three / four, 2), round(three / six, 1)
    (3.51, 19.1)

    Source
    ------
    The sum of `load_share` and `midway_share`.
    """
    return load_share(n) + midway_share(n)


def deflection(
    share: float, force: Force, radius: Length, wall: Length, length: Length, modulus: Pressure
) -> Length:
    """Deflection of a ring of rectangular section: ``share × W R³ ÷ (E b t³ ÷ 12)``.

    Parameters
    ----------
    share : one of the three above
    force : W, one load, N
    radius : R, mean radius of the wall, m
    wall : t, m
    length : b, along the axis, m
    modulus : E, Pa

    Returns
    -------
    m.

    Raises
    ------
    OutsideRange
        When radius, wall, length or modulus is not above zero.

    Notes
    -----
    Wall over mean radius up to about 0.1; nothing else stiffens the ring.

    Examples
    --------
    2000 N from each of three jaws on steel of mean radius 40, wall 5, 25 long; mm:

    >>> ring = (2000.0, 0.040, 0.005, 0.025, 205e9)
    >>> [round(1e3 * deflection(s(3), *ring), 7) for s in (load_share, midway_share, out_of_round_share)]
    [0.0382153, 0.0341829, 0.0723982]

    Source
    ------
    Roark's Formulas for Stress and Strain, 7th ed., table 9.2.
    """
    for name, value in ((say("radius"), radius), (say("wall"), wall), (say("length"), length)):
        above_zero(name, value, "m")
    above_zero(say("elastic modulus"), modulus, "Pa")
    return share * force * radius**3 / (modulus * length * wall**3 / 12)


def half_spacing(n: int) -> float:
    """Half the angle between two of n equally spaced loads: ``α = π ÷ n`` (rad).

    Raises
    ------
    OutsideRange
        With fewer than two loads.

    Examples
    --------
    >>> round(half_spacing(3), 4)
    1.0472
    """
    if n < 2:
        raise OutsideRange(say("number of loads"), n, 2, None, say("one load is not balanced"))
    return math.pi / n
