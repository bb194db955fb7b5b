"""Whether a gearbox gives a lead exactly: leads as fractions, because 25.4 is one.

    INCH               one inch in millimetres, exactly
    mixed              11 1/2, as it stands on a plate
    Plate              what the levers give
    plate_entry        the entry for a lead, or None
    nearest_leads      the entries on both sides of a lead that is not there
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

INCH = Fraction(127, 5)  # mm; the international inch of 1959


def mixed(value: Fraction) -> str:
    """A fraction as a machinist writes it.

    Parameters
    ----------
    value : not negative

    Returns
    -------
    Text such as "8", "11 1/2", "3/4".

    Examples
    --------
    >>> mixed(Fraction(23, 2)), mixed(Fraction(8)), mixed(Fraction(3, 4))
    ('11 1/2', '8', '3/4')
    """
    whole, rest = divmod(value.numerator, value.denominator)
    if not rest:
        return str(whole)
    return (f"{whole} " if whole else "") + f"{rest}/{value.denominator}"


@dataclass(frozen=True)
class Plate:
    """The threads on a gearbox plate: threads per inch, leads in mm, and the wheels they need first."""

    tpi: Sequence[Fraction] = ()
    pitches: Sequence[Fraction] = ()
    tpi_with_gears: str = ""
    pitches_with_gears: str = ""

    def leads(self) -> list[tuple[Fraction, str]]:
        """Every (lead in mm, entry as it reads), in the order of the plate."""
        inch_threads = [
            (INCH / tpi, _entry(f"{mixed(tpi)} threads per inch", self.tpi_with_gears)) for tpi in self.tpi
        ]
        return inch_threads + [
            (pitch, _entry(f"{decimal(pitch)} mm", self.pitches_with_gears)) for pitch in self.pitches
        ]


def decimal(value: Fraction) -> str:
    """A lead in millimetres as it stands on a plate: a decimal where it ends, else a fraction.

    Examples
    --------
    >>> decimal(Fraction(5, 4)), decimal(Fraction(3)), decimal(Fraction(25, 7))
    ('1.25', '3', '3 4/7')
    """
    text = f"{float(value):.6f}".rstrip("0").rstrip(".")
    return text if Fraction(text) == value else mixed(value)


def _entry(text: str, gears: str) -> str:
    return f"{text}, with {gears}" if gears else text


def plate_entry(lead: Fraction, plate: Plate) -> str | None:
    """The plate's entry that gives this lead exactly.

    Parameters
    ----------
    lead : lead of the thread (starts × pitch), mm, exact
    plate : what the gearbox gives

    Returns
    -------
    The entry as it reads, an entry without change wheels first; None when no entry is exact.

    Notes
    -----
    An inch lead and a metric lead are the same only when they are the same fraction of a millimetre:
    8 threads per inch is 3.175 mm, and never 3.2.

    Examples
    --------
    >>> plate_entry(INCH / 8, Plate(tpi=[Fraction(8), Fraction(23, 2)]))
    '8 threads per inch'
    >>> plate_entry(Fraction(3), Plate(tpi=[Fraction(8)])) is None
    True

    Source
    ------
    Arithmetic; the international inch of 25.4 mm (1959).
    """
    found = [entry for value, entry in plate.leads() if value == lead]
    return min(found, key=lambda entry: "with" in entry) if found else None


def nearest_leads(lead: Fraction, plate: Plate) -> tuple[str, ...]:
    """The entries next finer and next coarser than a lead that is not on the plate.

    Parameters
    ----------
    lead : lead of the thread, mm, exact
    plate : what the gearbox gives

    Returns
    -------
    None, one or two entries as they read, the finer first.

    Examples
    --------
    >>> nearest_leads(INCH / 27, Plate(tpi=[Fraction(24), Fraction(28)]))
    ('28 threads per inch', '24 threads per inch')
    """
    leads = plate.leads()
    finer = max((pair for pair in leads if pair[0] < lead), default=None, key=lambda pair: pair[0])
    coarser = min((pair for pair in leads if pair[0] > lead), default=None, key=lambda pair: pair[0])
    return tuple(pair[1] for pair in (finer, coarser) if pair)
