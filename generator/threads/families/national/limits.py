"""Limits of size of American National threads, classes 1 to 3, and of the forms before them. Inches."""

from __future__ import annotations

from decimal import Decimal
from functools import cache

from generator.language.say import later, say
from generator.tables.rows import table
from generator.threads.designation import Designation
from generator.threads.families.national.series import named
from generator.threads.rounding import EIGHT, FOUR, decimal, rounded
from generator.threads.sizes import NO_MAX, Range, SizeLine, ThreadLimits, size_line, too_coarse

SOURCE = later("NBS Handbook H28 (1942)")
PITCH_FACTOR = Decimal("0.64951905")   # depth of the form over P: 3H/4
MINOR_FACTOR = Decimal("1.29903811")   # twice that
BORE_FACTOR = Decimal("1.08253175")    # least bore: crest flat of the nut P/4
TABLE = later("the table's value for these threads per inch, class {class}")


@cache
def _rows() -> dict[str, dict[str, str]]:
    return {row["tpi"]: row for row in table("national_tolerances", __package__)}


def national_limits(d: Designation, engagement: float | None = None) -> ThreadLimits:
    """Limits of size of an American National thread.

    screw: major D - es, pitch D - 0.649519 P - es, minor max D - 1.299038 P - es;  Td = 2 Td2
    nut: minor min D - 1.082532 P, pitch min D - 0.649519 P, major min D

    Parameters
    ----------
    d : an American National, US Standard or SAE thread
    engagement : not used; the tolerances go by the pitch alone

    Returns
    -------
    ThreadLimits (in), four places.

    Raises
    ------
    OutsideRange
        For a pitch so coarse that no core is left.

    Notes
    -----
    Range: 80 to 4 threads per inch have tolerances; others, and class 4, basic sizes only. The nut's minor
    diameter has no max here.

    Source: NBS Handbook H28 (1942), section III.
    """
    size = rounded(Decimal(str(d.nominal)), FOUR)
    pitch = rounded(decimal(d.pitch), EIGHT)
    row = _rows().get(f"{float(1 / d.pitch):g}")
    class_ = d.class_ or "2"
    value = None if row is None or class_ == "4" else Decimal(row[f"class_{class_}"])
    loose = row is not None and class_ == "1" and not d.internal
    allowance = Decimal(row["allowance_1"]) if loose and row is not None else Decimal(0)
    effective = rounded(size - PITCH_FACTOR * pitch, FOUR)
    root = rounded(size - MINOR_FACTOR * pitch, FOUR)
    if root - allowance - (value or 0) <= 0:
        raise too_coarse(d, root)
    if d.internal:
        major = Range(None, float(size))
        pitch_diameter = Range(None if value is None else float(effective + value), float(effective))
        minor = Range(None, float(rounded(size - BORE_FACTOR * pitch, FOUR)))
    else:
        crest, least = size - allowance, effective - allowance
        twice = None if value is None else 2 * value
        major = Range(float(crest), None if twice is None else float(crest - twice))
        pitch_diameter = Range(float(least), None if value is None else float(least - value))
        minor = Range(float(root - allowance), None)
    return ThreadLimits(
        designation=d, major=major, pitch_diameter=pitch_diameter, minor=minor, allowance=float(allowance),
        major_tolerance=None if d.internal or value is None else float(2 * value),
        pitch_tolerance=None if value is None else float(value), engagement=None, engagement_standard=True,
        tabulated=named(d) is not None, remarks=tuple(_remarks(d, value is None)), source=SOURCE,
        from_memory=_memory(row, class_, value is not None),
        lines=_lines(
            d, major, pitch_diameter, minor, float(allowance), None if value is None else float(value)
        ),
    )


def _memory(row: dict[str, str] | None, class_: str, given: bool) -> tuple[str, ...]:
    if row is None or not given or (row["memory"] == "class_1" and class_ != "1"):
        return ()
    return (
        say(
            "the tolerance and allowance of class 1 for {tpi} threads per inch",
            tpi=row["tpi"],
        ) if class_ == "1"
        else say("the tolerance of class {class_} for {tpi} threads per inch", class_=class_, tpi=row["tpi"]),
    )


def _lines(
    d: Designation, major: Range, effective: Range, minor: Range, allowance: float, value: float | None
) -> tuple[SizeLine, ...]:
    pitch, lines = float(d.pitch), []
    from_table = TABLE.replace("{class}", d.class_ or "2")
    if not d.internal:
        none = (
            say("none but for class 1")
            if allowance == 0
            else say("the table's value for these threads per inch")
        )
        lines.append(size_line("allowance", allowance, none))
    if value is not None:
        lines.append(size_line("pitch_diameter.tolerance", value, from_table))
        if not d.internal:
            lines.append(size_line("major.tolerance", 2 * value, "2 × {Td2}", value))
    if d.internal:
        lines += [
            size_line("major.min", major.min, "{D}", d.nominal, note=NO_MAX),
            size_line("pitch_diameter.min", effective.min, "{D} − 0.649519 × {P}", d.nominal, pitch),
        ]
        if value is not None:
            lines.append(
                size_line("pitch_diameter.max", effective.max, "{D2 min} + {TD2}", effective.min, value)
            )
        return (*lines, size_line("minor.min", minor.min, "{D} − 1.082532 × {P}", d.nominal, pitch))
    lines.append(size_line("major.max", major.max, "{d} − {es}", d.nominal, allowance))
    if value is not None:
        lines.append(size_line("major.min", major.min, "{d max} − 2 × {Td2}", major.max, value))
    lines.append(size_line(
        "pitch_diameter.max", effective.max, "{d} − 0.649519 × {P} − {es}", d.nominal, pitch, allowance
    ))
    if value is not None:
        lines.append(
            size_line("pitch_diameter.min", effective.min, "{d2 max} − {Td2}", effective.max, value)
        )
    lines.append(size_line(
        "minor.max", minor.max, "{d} − 1.299038 × {P} − {es}", d.nominal, pitch, allowance,
        label=say("Minor diameter, basic"),
    ))
    return tuple(lines)


def _remarks(d: Designation, bare: bool) -> list[str]:
    said = []
    if d.series in ("USS", "SAE"):
        said.append(
            say(
                "The {series} series had no limits of its own: the form is that of American National "
                "threads, and the limits are those of class 2 there, as a shop would take them.",
                series=d.series,
            )
            if not bare
            else say("The {series} series had no limits of its own: the sizes are basic.", series=d.series)
        )
    elif d.class_ == "4":
        said.append(
            say(
                "Class 4 (close fit) was for selected work, and no table of it was found: the sizes are "
                "basic. Fit it to its mate."
            )
        )
    elif bare:
        said.append(
            say("No tolerance stands for these threads per inch: the sizes are basic. Fit it to its mate.")
        )
    elif d.series in ("N", "NS"):
        said.append(
            say(
                "The tolerance goes by the threads per inch alone; for large diameters and long engagement "
                "H28 gives more."
            )
        )
    if d.internal:
        said.append(
            say(
                "No max of the bore is given: bore to about 75 percent of the full depth of thread, as for "
                "a tap."
            )
        )
    said.append(
        say(
            "The root of this form is P/8 flat, where the Unified thread that followed has it P/4 or round: "
            "both go together."
        )
    )
    if d.starts > 1:
        said.append(say("The limits are those of a single-start thread."))
    return said
