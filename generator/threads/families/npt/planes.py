"""Basic planes and lengths of American taper pipe threads (ASME B1.20.1). Inches, exact.

    pipe_sizes   the standard's sizes
    Planes       diameters at the planes of one size, and where these lie
    Truncation   what is missing of the sharp V at crest and root
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from functools import cache

from generator.tables.rows import table
from generator.threads import rounding

TAPER = Fraction(1, 16)                 # on the diameter
SHARP_V = Fraction(86602540, 10**8)     # H over the pitch: ASME B1.20.1, 2.3
HEIGHT = Fraction(8, 10)                # h over the pitch, largest


@dataclass(frozen=True)
class PipeSize:
    """One size: its name, the pipe's outside diameter (in), threads per inch, L1 (in), threads of L3."""

    name: str
    diameter: Fraction
    tpi: Fraction
    hand_tight: Fraction
    wrench_threads: Fraction

    @property
    def pitch(self) -> Fraction:
        """Pitch, in."""
        return 1 / self.tpi

    @property
    def major(self) -> float:
        """Basic major diameter at the hand-tight plane, E1 + 0.8 P (in); no name for it in the standard."""
        return float(planes(self, Fraction(0)).e1 + HEIGHT * self.pitch)


@dataclass(frozen=True)
class Truncation:
    """Least and most that crest and root lie below the sharp V, over the pitch, and the vanish thread, in."""

    crest_min: Fraction
    crest_max: Fraction
    root_min: Fraction
    root_max: Fraction
    vanish: Fraction


@dataclass(frozen=True)
class Planes:
    """Pitch diameters `e…` at the planes, lengths `l…` to them, minor diameters `k…` (in), exact.

        E0 = D - (0.05 D + 1.1) P      at the small end of the external thread
        E1 = E0 + L1/16                hand-tight plane: the face of the internal thread
        L2 = (0.80 D + 6.8) P          effective thread;  E2 = E0 + L2/16
        L3 = 3 P (2 P from 2 1/2 on)   make-up by wrench; E3 = E0 - L3/16
        L4 = L2 + V                    to the end of the vanish thread
        L5 = L2 - 2 P                  threads with full crest and root; E5 = E0 + L5/16
        K0 = E0 - 0.8 P, K3 = E3 - 0.8 P

    Source: ASME B1.20.1, formulas at table 2.
    """

    e0: Fraction
    e1: Fraction
    e2: Fraction
    e3: Fraction
    e5: Fraction
    l1: Fraction
    l2: Fraction
    l3: Fraction
    l4: Fraction
    l5: Fraction
    v: Fraction
    h: Fraction
    k0: Fraction
    k3: Fraction


@cache
def pipe_sizes() -> dict[Fraction, PipeSize]:
    """The standard's sizes by the number that is their name."""
    rows = table("npt_sizes", __package__)
    return {
        sum((Fraction(part) for part in row["size"].split()), Fraction(0)): PipeSize(
            row["size"], Fraction(row["diameter"]), Fraction(row["tpi"]), Fraction(row["hand_tight"]),
            Fraction(row["wrench_threads"]),
        )
        for row in rows
    }


@cache
def truncation(tpi: Fraction, name: str, package: str) -> Truncation:
    """Truncations for this number of threads per inch, from the table `name` of the family's `package`."""
    row = next(row for row in table(name, package) if Fraction(row["tpi"]) == tpi)
    ends = [Fraction(row[key]) for key in ("crest_min", "crest_max", "root_min", "root_max", "vanish")]
    return Truncation(*ends)


def planes(size: PipeSize, vanish: Fraction) -> Planes:
    """Planes and lengths of one size.

    Parameters
    ----------
    size : of the standard
    vanish : V (in), as the standard tabulates it

    Returns
    -------
    Planes (in), exact

    Notes
    -----
    Range: the standard's sizes, 1/16 to 24.

    Examples
    --------
    3/8-18 NPT (Machinery's Handbook, 27th ed., pp. 1861-1862):

    >>> of = planes(pipe_sizes()[Fraction(3, 8)], Fraction("0.1928"))
    >>> rounded(of.e0, 5), rounded(of.e1, 5), rounded(of.l4, 4)
    (0.61201, 0.62701, 0.6006)

    Source: ASME B1.20.1.
    """
    pitch, diameter = size.pitch, size.diameter
    e0 = diameter - (Fraction("0.05") * diameter + Fraction("1.1")) * pitch
    l2 = (Fraction("0.8") * diameter + Fraction("6.8")) * pitch
    l3 = size.wrench_threads * pitch
    l5 = l2 - 2 * pitch
    e3 = e0 - TAPER * l3
    height = HEIGHT * pitch
    return Planes(
        e0=e0, e1=e0 + TAPER * size.hand_tight, e2=e0 + TAPER * l2, e3=e3, e5=e0 + TAPER * l5,
        l1=size.hand_tight, l2=l2, l3=l3, l4=l2 + vanish, l5=l5, v=vanish, h=height, k0=e0 - height,
        k3=e3 - height,
    )


def rounded(value: Fraction, places: int) -> float:
    """An exact size at so many places, half to even as the standard's tables.

    >>> rounded(Fraction("3.340625"), 5)
    3.34062
    """
    return float(rounding.rounded(rounding.decimal(value), Decimal(1).scaleb(-places)))
