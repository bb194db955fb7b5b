"""Limits of size of Acme threads, general purpose and stub (ASME B1.5, ASME/ANSI B1.8). Inches.

The table of allowances goes by ranges of diameter; the tolerance of a diameter between two listed ones is
that of the larger. Every diameter and tolerance is brought to four places before it is used for the next.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from functools import cache

from generator.errors import OutsideRange
from generator.language.say import later, say
from generator.tables.rows import table
from generator.threads.designation import Designation
from generator.threads.rounding import FOUR, decimal, rounded
from generator.threads.sizes import Range, ThreadLimits, remembered, too_coarse

CLASSES = ("2G", "3G", "4G")
ALLOWANCE = {"2G": Decimal("0.008"), "3G": Decimal("0.006"), "4G": Decimal("0.004")}  # times √D
OF_DIAMETER = {"2G": Decimal("0.006"), "3G": Decimal("0.0028"), "4G": Decimal("0.0020")}  # times √D
OF_PITCH = {"2G": Decimal("0.030"), "3G": Decimal("0.014"), "4G": Decimal("0.010")}  # times √P
CREST_TOLERANCE, LEAST_CREST_TOLERANCE = Decimal("0.05"), Decimal("0.005")  # times the pitch; inch
WIDE_CLEARANCE, NARROW_CLEARANCE = Decimal("0.020"), Decimal("0.010")  # inch, at crest and root
WIDE_UP_TO = 10  # threads per inch
LONGEST_ENGAGEMENT = 2  # diameters
ONE = Decimal(1)


@dataclass(frozen=True)
class Form:
    """What tells one kind of Acme thread from another.

    `height` is the basic height of thread over the pitch. `minor_share` is the tolerance of the screw's minor
    diameter over that of its pitch diameter. `root_tolerance` says where the tolerance of the nut's major
    diameter comes from: the ``clearance`` once more, or the ``pitch diameter``.
    """

    name: str
    height: Decimal
    minor_share: Decimal
    root_tolerance: str
    source: str
    memory: tuple[str, ...] = ()


GENERAL = Form(
    later("Acme"), Decimal("0.5"), Decimal("1.5"), "clearance",
    later("ASME B1.5-1997; Machinery's Handbook, 27th ed., p. 1827 and p. 1841, table 10"),
)


@dataclass(frozen=True)
class Basis:
    """What the limits of an Acme thread start from (in): basic sizes, clearance, allowance and tolerances."""

    pitch_diameter: Decimal
    minor: Decimal
    clearance: Decimal
    allowance: Decimal
    tolerance: Decimal
    exact_tolerance: Decimal
    crest_tolerance: Decimal
    listed_diameter: Decimal
    tabulated: bool


def acme_limits(d: Designation, form: Form, engagement: float | None = None) -> ThreadLimits:
    """Limits of size of an Acme thread, external or internal.

    d max = D;  d min = D - k;  d2 max = D - h - es;  d2 min = d2 max - T;  d1 max = D - 2h - c;
    d1 min = d1 max - 1.5 T (stub: T);  D min = D + c;  D max = D + 2c (stub: D + c + T);  D2 min = D - h;
    D2 max = D2 min + T;  D1 min = D - 2h;  D1 max = D1 min + k;  h the height of thread

    Parameters
    ----------
    d : an Acme thread
    form : general purpose or stub
    engagement : in; beyond two diameters a remark says that the tolerances are not meant for it

    Returns
    -------
    ThreadLimits (in), four places.

    Raises
    ------
    OutsideRange
        For a pitch so coarse that no core is left, or so fine that no flank is.

    Notes
    -----
    Range: standard series 1/4 to 5 in; the formulas name no end.

    Source: ASME B1.5; ASME/ANSI B1.8.
    """
    of = basis(d, form)
    if of.clearance >= Decimal(d.pitch.numerator) / d.pitch.denominator:
        raise OutsideRange(
            say("pitch of {part}", part=d.text or form.name), float(d.pitch), float(of.clearance), None,
            say("the clearance of the standard would be as wide as the pitch"), "in",
        )
    nominal = _inches(d.nominal)
    external = not d.internal
    pitch_max = of.pitch_diameter - of.allowance if external else of.pitch_diameter + of.tolerance
    pitch_min = pitch_max - of.tolerance
    if external:
        major = Range(float(nominal), float(nominal - of.crest_tolerance))
        deepest = of.minor - of.clearance
        shared = of.exact_tolerance if form.minor_share != ONE else of.tolerance
        least = rounded(deepest - form.minor_share * shared, FOUR)
        minor = Range(float(deepest), float(least))
    else:
        least = of.minor
        more = of.clearance if form.root_tolerance == "clearance" else of.tolerance
        major = Range(float(nominal + of.clearance + more), float(nominal + of.clearance))
        minor = Range(float(of.minor + of.crest_tolerance), float(of.minor))
    if least <= 0:
        raise too_coarse(d, least, say("minor diameter"), form.name)
    longest = LONGEST_ENGAGEMENT * d.nominal
    return ThreadLimits(
        designation=d,
        major=major,
        pitch_diameter=Range(float(pitch_max), float(pitch_min)),
        minor=minor,
        allowance=float(of.allowance) if external else 0.0,
        major_tolerance=float(of.crest_tolerance) if external else None,
        minor_tolerance=None if external else float(of.crest_tolerance),
        pitch_tolerance=float(of.tolerance),
        engagement=longest if engagement is None else engagement,
        engagement_standard=engagement is None or engagement <= longest,
        tabulated=of.tabulated,
        remarks=_remarks(d, of, engagement),
        source=form.source,
        from_memory=_memory(d, form, of),
        places=4,
    )


def basis(d: Designation, form: Form) -> Basis:
    """Basic sizes, clearance, allowance and tolerances of an Acme thread (in)."""
    nominal, pitch = _inches(d.nominal), decimal(d.pitch)
    listed = listed_diameter(nominal)
    tolerance = OF_DIAMETER[d.class_] * listed.sqrt() + OF_PITCH[d.class_] * pitch.sqrt()
    return Basis(
        pitch_diameter=rounded(nominal - form.height * pitch, FOUR),
        minor=rounded(nominal - 2 * form.height * pitch, FOUR),
        clearance=WIDE_CLEARANCE if WIDE_UP_TO * pitch >= 1 else NARROW_CLEARANCE,
        allowance=allowance_of(nominal, d.class_),
        tolerance=rounded(tolerance, FOUR),
        exact_tolerance=tolerance,
        crest_tolerance=max(rounded(CREST_TOLERANCE * pitch, FOUR), LEAST_CREST_TOLERANCE),
        listed_diameter=listed,
        tabulated=(nominal, 1 / d.pitch) in {(size, tpi) for _, size, tpi in series()},
    )


def allowance_of(nominal: Decimal, class_: str) -> Decimal:
    """Allowance at the pitch diameter (in): that of the range of diameters, beyond the table by its formula.

    Examples
    --------
    1 3/4 in (Machinery's Handbook, 27th ed., p. 1841, table 10):

    >>> allowance_of(Decimal("1.75"), "2G")
    Decimal('0.0105')

    Source: ASME/ANSI B1.5-1988.
    """
    row = _allowance_row(nominal)
    if row is not None:
        return Decimal(row[class_])
    return rounded(ALLOWANCE[class_] * nominal.sqrt(), FOUR)


def listed_diameter(nominal: Decimal) -> Decimal:
    """The diameter (in) whose tolerance a thread takes: its own, or the next larger one of the list.

    Outside the list, 1/4 to 5 in, its own.

    >>> listed_diameter(Decimal("0.9375")), listed_diameter(Decimal("6"))
    (Decimal('1'), Decimal('6'))

    Source: ASME B1.5, from memory of its table of tolerances.
    """
    listed = [size for _, size, _ in series()]
    if nominal < listed[0]:
        return nominal
    return next((size for size in listed if size >= nominal), nominal)


@cache
def series() -> tuple[tuple[str, Decimal, Fraction], ...]:
    """Size as the trade writes it, diameter (in) and threads per inch of the standard series."""
    return tuple(
        (row["size"], Decimal(row["diameter"]), Fraction(row["tpi"]))
        for row in table("acme_series", __package__)
    )


def _allowance_row(nominal: Decimal) -> dict[str, str] | None:
    for row in table("acme_allowances", __package__):
        if Decimal(row["above"]) < nominal <= Decimal(row["up_to"]):
            return row
    return None


def _inches(length: float) -> Decimal:
    return Decimal(str(length))


def _remarks(d: Designation, of: Basis, engagement: float | None) -> tuple[str, ...]:
    """What is special about the limits of this thread."""
    said: list[str] = []
    if float(of.listed_diameter) != d.nominal:
        said.append(
            say(
                "{nominal:g} in lies between the diameters that ASME B1.5 lists: the tolerance of its pitch "
                "diameter is that of the next larger one, {listed_diameter:g} in.",
                nominal=d.nominal, listed_diameter=float(of.listed_diameter),
            )
        )
    elif _allowance_row(_inches(d.nominal)) is None:
        said.append(
            say(
                "{nominal:g} in is beyond the table of allowances of ASME B1.5; its formula stands in.",
                nominal=d.nominal,
            )
        )
    if d.starts > 1:
        said.append(
            say(
                "The limits are those of a single-start thread: ASME B1.5 lets them be used for several "
                "starts where that is thought suitable."
            )
        )
    longest = LONGEST_ENGAGEMENT * d.nominal
    if engagement is not None and engagement > longest:
        said.append(
            say(
                "The tolerances are meant for an engagement up to two diameters, {longest:g} in; over "
                "{engagement:g} in the errors of lead add up, and the pair may bind inside these limits.",
                longest=longest, engagement=engagement,
            )
        )
    return tuple(said)


def _memory(d: Designation, form: Form, of: Basis) -> tuple[str, ...]:
    """Which figures could only be had from memory, in words."""
    row = _allowance_row(_inches(d.nominal))
    remembered_row = not d.internal and row is not None and d.class_ in row["memory"]
    return remembered(
        *form.memory,
        say("the allowance of this size in class {class_}", class_=d.class_) if remembered_row else "",
        say("the limits of the nut's major diameter") if d.internal and not form.memory else "",
        say("the rule for a diameter between the listed ones")
        if float(of.listed_diameter) != d.nominal
        else "",
    )
