"""Work under a tool that walks along it, at every place of the tool, with a rest that may travel along.

    ToolWalk             what one newton and one newton metre at the tool do, the tool at each place
    tool_walk            of a beam
    ToolWalk.under       a force and a moment at the tool
    Moved                what they do
    feed_moment          the moment of a feed force at the surface
    diameter_error       what a deflection leaves on the diameter
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from generator.calc.beam import Beam
from generator.calc.guards import above_zero
from generator.language.say import say
from generator.si import Force, Length, Torque

Array = NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class Moved:
    """Under the tool at each of `n` places.

    Parameters
    ----------
    at_tool : (n,) deflection of the loaded place, m
    rest : (n,) force on the travelling rest, N; 0 where there is none or the work leaves it
    watched : (m, n) deflection of the watched places, m
    slopes : (m, n) slope there, rad
    """

    at_tool: Array
    rest: Array
    watched: Array
    slopes: Array


@dataclass(frozen=True, eq=False)
class ToolWalk:
    """What a unit force and a unit moment at the tool do, for `n` places of the tool.

    Parameters
    ----------
    places : (n,) of the tool, m
    push, tilt : (n,) deflection at the tool under 1 N and under 1 N m there, m/N and 1/N
    watched : (m, n) three: deflection of the watched places under 1 N and 1 N m at the tool, and slope under
        1 N m; `lean` (m, n) their slope under 1 N
    rest_push, rest_tilt : (n,) deflection at the rest under 1 N and 1 N m at the tool
    rest_share : (n,) force on the rest for a metre that its place would move without it, N/m; 0 where it does
        not bear
    rest_watched, rest_lean : (m, n) deflection and slope of the watched places under 1 N at the rest
    """

    places: Array
    push: Array
    tilt: Array
    watched: tuple[Array, ...]
    lean: Array
    rest_push: Array
    rest_tilt: Array
    rest_share: Array
    rest_watched: Array
    rest_lean: Array

    def under(self, force: Force, moment: Torque = 0.0) -> Moved:
        """Under `force` (N) across the work at the tool, and `moment` (N m) that raises the slope outwards.

        The rest stands on the side to which the force goes, and only pushes.
        """
        there = force * self.rest_push + moment * self.rest_tilt
        rest = self.rest_share * (np.maximum(there, 0.0) if force >= 0 else np.minimum(there, 0.0))
        push, tilt, turn = self.watched
        return Moved(
            force * self.push + moment * self.tilt - rest * self.rest_push,
            rest,
            force * push + moment * tilt - rest * self.rest_watched,
            force * self.lean + moment * turn - rest * self.rest_lean,
        )

    def with_rest(self) -> tuple[Array, Array]:
        """`push` and `tilt` while the rest bears, (n,) each, m/N and 1/N."""
        return (
            self.push - self.rest_share * self.rest_push**2,
            self.tilt - self.rest_share * self.rest_push * self.rest_tilt,
        )


def tool_walk(
    beam: Beam, places: Sequence[Length], watched: Sequence[Length] = (), *,
    rest_from_tool: Length | None = None, rest_stiffness: float = math.inf,
) -> ToolWalk:
    """What the work does while the tool stands at each of many places.

    Parameters
    ----------
    beam : the work on its supports
    places : n places of the tool, m
    watched : m places whose deflection and slope are wanted as well, m
    rest_from_tool : how far a travelling rest stands past the tool, + outwards, m; None without one
    rest_stiffness : of that rest, N/m

    Raises
    ------
    OutsideRange
        When a place is off the beam, the work cannot be worked out, or the rest's stiffness is not above 0.

    Notes
    -----
    As the beam. Where the travelling rest stands off the work it does not bear.

    Examples
    --------
    A cantilever of 50 mm steel, 150 mm long, with 500 N at its end (mm):

    >>> from generator.calc.beam import Segment, Support
    >>> bar = Beam((Segment(0.0, 0.150, 0.050),), (Support(0.0, math.inf, math.inf),), 205e9)
    >>> round(float(tool_walk(bar, [0.150]).under(500).at_tool[0]) * 1e3, 7)
    0.0089437

    Source
    ------
    The change of a compliance by one spring: Sherman and Morrison, Adjustment of an Inverse Matrix, 1950.
    """
    (push, tilt), to_watched, lean = beam.walked(places, watched)
    tools = np.asarray(places, dtype=float)
    none, not_one = np.zeros(len(tools)), np.zeros(lean.shape)
    if rest_from_tool is None:
        return ToolWalk(tools, push, tilt, to_watched, lean, none, none, none, not_one, not_one)
    above_zero(say("stiffness of the rest"), 1.0 if math.isinf(rest_stiffness) else rest_stiffness, "N/m")
    wanted = tools + rest_from_tool
    bears = (wanted >= beam.start) & (wanted <= beam.end)
    rests = [float(x) for x in np.where(bears, wanted, tools)]
    (at_rest, _), rest_to_watched, rest_lean = beam.walked(rests, watched)
    rest_push, rest_tilt = beam.moved_each(rests, places, ("push", "tilt"))
    gives = at_rest + (0.0 if math.isinf(rest_stiffness) else 1 / rest_stiffness)
    share = np.divide(1.0, gives, out=np.zeros_like(gives), where=bears & (gives > 0))
    return ToolWalk(
        tools, push, tilt, to_watched, lean, rest_push, rest_tilt, share, rest_to_watched[0], rest_lean
    )


def feed_moment(feed: Force, radius: Length, *, inside: bool = False) -> Torque:
    """Moment of a feed force at the surface, as it bends the work away from the tool: ``∓ F r``.

    Parameters
    ----------
    feed : F, along the work, + towards the chuck, N
    radius : r, where it acts, m
    inside : True for a tool in a bore

    Returns
    -------
    N m, + where it raises the slope of the deflection away from the tool, outwards.

    Notes
    -----
    A tool at the front pushes the work's front side towards the chuck: that side is shortened and the end
    comes round towards the operator. Outside the tool stands there, and the work comes towards it; in a bore
    the tool cuts the same side from within, and the work goes away from it. Moments about the axis, with x
    towards the tailstock and y to the rear, the contact at y = −r: (−r) ŷ × (−F) x̂ = −r F ẑ, and a slope
    dy/dx turns about +ẑ.

    Examples
    --------
    >>> feed_moment(200.0, 0.025), feed_moment(200.0, 0.025, inside=True)
    (-5.0, 5.0)

    Source
    ------
    Statics.
    """
    return (1.0 if inside else -1.0) * feed * radius


def diameter_error(away: Array, lift: Array, diameter: Length, *, inside: bool = False) -> Array:
    """What the work's movement leaves on its diameter: ``± 2 y + z² ÷ r``, bigger is +.

    Parameters
    ----------
    away : y, movement away from the tool, m
    lift : z, movement across that, m
    diameter : 2 r, that the tool is set to, m
    inside : True for a bore, which comes out smaller

    Returns
    -------
    As `away`, m.

    Raises
    ------
    OutsideRange
        When the diameter is not above zero.

    Notes
    -----
    The first terms of 2 √((r ± y)² + z²) − 2 r; for movements far below the radius.

    Examples
    --------
    0.01 mm away from the tool and 0.2 mm up, on 20 mm (mm):

    >>> import numpy as np
    >>> round(float(diameter_error(np.array([1e-5]), np.array([2e-4]), 0.020)[0]) * 1e3, 6)
    0.024

    Source
    ------
    Geometry.
    """
    above_zero(say("diameter"), diameter, "m")
    return np.asarray((-2.0 if inside else 2.0) * away + 2 * lift**2 / diameter)
