"""Limits of size laid off from the basic sizes by an allowance and tolerances, as British standards do it."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from generator.threads.designation import Designation
from generator.threads.sizes import NO_MAX, PutQuantity, Range, SizeLine, ThreadLimits, size_line, too_coarse

Putting = float | tuple[float, PutQuantity]


@dataclass(frozen=True)
class Laid:
    """A size or tolerance in the thread's own unit, rounded as the standard does, with its formula.

    `formula` has ``{names}`` for what is in `put`, in their order; ``{D}`` of a basic size is the nominal
    diameter, outside or inside.
    """

    value: Decimal
    formula: str
    put: tuple[Putting, ...] = ()


@dataclass(frozen=True)
class Tolerances:
    """Tolerances of the three diameters; None where the standard gives none."""

    major: Laid | None = None
    pitch: Laid | None = None
    minor: Laid | None = None


_NAMES = ("major", "pitch_diameter", "minor")
_SYMBOLS = {
    "major": ("d", "Td", "D"), "pitch_diameter": ("d2", "Td2", "D2"), "minor": ("d1", "Td1", "D1"),
}


def limits_from_basic(
    d: Designation, *, major: Decimal, pitch_diameter: Laid, minor: Laid, allowance: Laid,
    tolerances: Tolerances, source: str, places: int, remarks: tuple[str, ...] = (),
    memory: tuple[str, ...] = (),
    tabulated: bool = True, engagement: Decimal | None = None, engagement_standard: bool = True,
) -> ThreadLimits:
    """Limits of size of a thread whose screw is laid off below the basic sizes and whose nut above them.

    screw: max = basic - allowance, min = max - tolerance;  nut: min = basic, max = basic + tolerance

    Parameters
    ----------
    d : the thread
    major, pitch_diameter, minor : basic sizes (own unit), rounded
    allowance : of the screw, the same at all three diameters; 0 for none and for nuts
    tolerances : of the side of `d`; the major diameter of a nut has no max
    source, places, remarks, memory, tabulated, engagement, engagement_standard : as in `ThreadLimits`

    Returns
    -------
    ThreadLimits (own unit)

    Raises
    ------
    OutsideRange
        For a pitch so coarse that no core is left.

    Notes
    -----
    No range given in the source.

    Source: the standard of the family.
    """
    basic = (Laid(major, "{D}", (d.nominal,)), pitch_diameter, minor)
    given = (tolerances.major, tolerances.pitch, tolerances.minor)
    lowest = minor.value if d.internal else minor.value - allowance.value - _value(tolerances.minor)
    if lowest <= 0:
        raise too_coarse(d, lowest)
    tight = [size.value if d.internal else size.value - allowance.value for size in basic]
    ranges = [_range(d, size, tolerance) for size, tolerance in zip(tight, given, strict=True)]
    lines = [size_line("allowance", float(allowance.value), allowance.formula, *allowance.put)]
    lines += [
        size_line(f"{name}.tolerance", float(one.value), one.formula, *one.put)
        for name, one in zip(_NAMES, given, strict=True) if one is not None
    ]
    for name, size, tolerance, of in zip(_NAMES, basic, given, ranges, strict=True):
        lines += _lines(d, name, size, allowance, tolerance, of)
    return ThreadLimits(
        designation=d, major=ranges[0], pitch_diameter=ranges[1], minor=ranges[2],
        allowance=float(allowance.value),
        major_tolerance=None if d.internal else _float(tolerances.major),
        pitch_tolerance=_float(tolerances.pitch),
        minor_tolerance=_float(tolerances.minor) if d.internal else None,
        engagement=None if engagement is None else float(engagement), engagement_standard=engagement_standard,
        tabulated=tabulated, remarks=remarks, source=source, from_memory=memory, places=places,
        lines=tuple(lines),
    )


def _value(tolerance: Laid | None) -> Decimal:
    return Decimal(0) if tolerance is None else tolerance.value


def _float(tolerance: Laid | None) -> float | None:
    return None if tolerance is None else float(tolerance.value)


def _range(d: Designation, tight: Decimal, tolerance: Laid | None) -> Range:
    if d.internal:
        return Range(None if tolerance is None else float(tight + tolerance.value), float(tight))
    return Range(float(tight), None if tolerance is None else float(tight - tolerance.value))


def _lines(
    d: Designation, name: str, basic: Laid, allowance: Laid, tolerance: Laid | None, of: Range
) -> list[SizeLine]:
    """The tight limit of one diameter, from its basic size, and the loose one from that."""
    outside, tol, inside = _SYMBOLS[name]
    if d.internal:
        first = size_line(
            f"{name}.min", of.min, basic.formula, *basic.put, note=NO_MAX if name == "major" else ""
        )
        if tolerance is None:
            return [first]
        formula = f"{{{inside} min}} + {{{tol.replace('d', 'D')}}}"
        return [first, size_line(f"{name}.max", of.max, formula, of.min, float(tolerance.value))]
    formula, put = basic.formula.replace("{D}", "{d}"), basic.put
    if allowance.value:
        formula, put = f"{formula} − {{es}}", (*put, float(allowance.value))
    first = size_line(f"{name}.max", of.max, formula, *put)
    if tolerance is None:
        return [first]
    return [
        first,
        size_line(
            f"{name}.min", of.min, f"{{{outside} max}} − {{{tol}}}", of.max, float(tolerance.value)
        ),
    ]
