"""Which wire to measure over.

    best_wire       it touches at the pitch line
    usable_wires    between which sizes one can be
    choose_wire     of those that are there
    fitting         the best that is usable
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from generator.calc.flanks import Flanks
from generator.si import Length

ADDENDUM = 0.32475953            # 3H/8 over the pitch, of 60 degrees: ASME B1.1, ISO 68-1
KEEP_OFF = 0.1                   # of the usable range, from its ends: common practice, no source


def best_wire(pitch: Length, flanks: Flanks) -> Length:
    """Wire that touches the flanks at the pitch cylinder, or as near to it as one wire can on both.

    W = P / (2 cos A) where both lean alike; else
    W = P cos A (1 + cos² A1) / [(1 + cos A cos A1) (1 + cos(A + A1))]

    Parameters
    ----------
    pitch : P (m)
    flanks : A of the one that leans less, A1 of the other

    Returns
    -------
    W (m)

    Notes
    -----
    Range: flanks of which one leans at least. Where they differ, a wire that touches one at the pitch line
    touches the other above or below it; this one lies between the two. The second formula is ours: it gives
    the printed constant of the 7/45 degree buttress thread, of which the derivation was not to be had, and
    goes over into the first. The wire over which equal errors of both angles cancel is 0.0006 P smaller.

    Examples
    --------
    Acme, 8 threads per inch: 0.06456 in (Machinery's Handbook, 31st ed., p. 2135); buttress, 7 and 45
    degrees: 0.54147 P (ASME B1.9, from memory).

    >>> best_wire(1 / 8, Flanks.alike(math.radians(14.5)))
    0.06456
    >>> round(best_wire(1.0, Flanks(math.radians(7), math.radians(45))), 5)
    0.54147

    Source: NBS Handbook H28; ASME B1.2; Machinery's Handbook, 31st ed., p. 2135; ASME B1.9.
    """
    steep, flat = (math.cos(angle) for angle in sorted((flanks.load, flanks.clearance)))
    return pitch * steep * (1 + flat**2) / ((1 + steep * flat) * (1 + math.cos(flanks.included)))


def usable_wires(
    pitch: Length, flanks: Flanks, crest: float = ADDENDUM, root: float = math.inf, crest_radius: float = 0.0
) -> tuple[Length, Length]:
    """Smallest and largest wire that can be measured over; balls inside alike, with the bore's own crest.

    min: over the wires = over the crests, and clear of the root;  max: it touches a flank at the crest's edge

    W min = 2 (h + a) / (k + 1), not less than 2 (h − b) / (k − 1);
    W max = 2 (h + a − r (1 − sin A)) / (k − sin A), with the A of the flank that leans less,
    h = P / 2 (tan A + tan A1), k = cos((A − A1)/2) / sin((A + A1)/2)

    Parameters
    ----------
    pitch : P (m)
    flanks : A, A1
    crest : a, from the pitch line to the crest, over the pitch
    root : b, from the pitch line to the root, over the pitch; left out, there is room below the wire
    crest_radius : r, of a rounded crest, over the pitch

    Returns
    -------
    (W min, W max) (m); the first is not less than the other where no wire can be used.

    Notes
    -----
    Range: flanks of which one leans at least. A real crest is a little lower than the basic one, so both
    ends are to be kept away from.

    Examples
    --------
    Acme: 0.487263 P to 0.650013 P (Machinery's Handbook, 31st ed., p. 2135; addendum 0.25 P).

    >>> tuple(round(w, 4) for w in usable_wires(1.0, Flanks.alike(math.radians(14.5)), 0.25))
    (0.4873, 0.65)

    Source: geometry; Machinery's Handbook, 31st ed., p. 2135 for the check values.
    """
    sharp, seat, least = 0.5 / flanks.tangents, flanks.seat, math.sin(min(flanks.load, flanks.clearance))
    level = 2 * (sharp + crest) / (seat + 1)
    bottom = 2 * (sharp - root) / (seat - 1)
    edge = 2 * (sharp + crest - crest_radius * (1 - least)) / (seat - least)
    return max(level, bottom) * pitch, edge * pitch


def choose_wire(best: Length, available: Sequence[Length], usable: tuple[Length, Length]) -> Length | None:
    """The usable wire of a set that is nearest to the best wire (m), or None when none is usable.

    Source: common practice, no source.
    """
    fit = [wire for wire in available if usable[0] < wire < usable[1]]
    return min(fit, key=lambda wire: (abs(wire - best), wire), default=None)


def fitting(best: Length, usable: tuple[Length, Length]) -> Length:
    """The best wire where it is usable, else the usable one next to it, a tenth of the range inside (m).

    In a shallow groove, as of stub Acme threads, the best wire can lie on the root; in a deep one, as of
    sawtooth threads, below the crests.

    >>> round(fitting(0.5, (0.4, 0.7)), 3), round(fitting(0.5, (0.6, 0.8)), 3)
    (0.5, 0.62)

    Source: geometry; the tenth is common practice, no source.
    """
    smallest, largest = usable
    if smallest < best < largest:
        return best
    inside = KEEP_OFF * (largest - smallest)
    return smallest + inside if best <= smallest else largest - inside
