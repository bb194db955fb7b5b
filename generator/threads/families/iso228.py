"""Parallel pipe threads G, that seal beside the thread (ISO 228-1); BSPP by their old name. Millimeters.

    G 3/8 A, G3/4A-LH, G 1 1/2 B        outside, class A or B
    G 3/8                               inside, one class
    3/8 BSPP, BSP parallel 3/8, PF 3/8  old names, taken as G
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, replace
from decimal import Decimal
from fractions import Fraction
from functools import cache

from generator.errors import BadDesignation
from generator.language.say import later, say
from generator.tables.rows import table
from generator.threads.designation import Designation, Side
from generator.threads.family import Family, StandardSize
from generator.threads.from_basic import Laid, Tolerances, limits_from_basic
from generator.threads.gauging import Gauging, LimitGauges
from generator.threads.heads import inch_size_alone
from generator.threads.profile import WHITWORTH, Profile
from generator.threads.sizes import ThreadLimits, remembered
from generator.threads.text import Written, mixed_number, take_hand, take_starts

ACCEPTED = later(
    "write G and the size, outside with A or B behind it, like G 3/8 A, G 3/8 B or G 3/8 (internal)"
)
SOURCE = later("ISO 228-1, table 1")
LARGEST_READ = Decimal("81.534")  # mm: 2 3/4; larger sizes from memory, see the head of the table
_NAMES = re.compile(
    r"\bISO\s*228(?:\s*-\s*1(?!\d|\s*/))?\b|(?<![A-Z])G(?![A-Z])"
    r"|\bB\.?\s?S\.?\s?P\.?\s?[PF]?\b\.?|(?<![A-Z])PF(?![A-Z])"
    r"|\bPARALLEL\b|\bPIPE\b|\bTHREADS?\b|[()]",
    re.ASCII,
)
_OWN = re.compile(
    r"^G\s*[\d.]|\bISO\s*228\b|\bB\.?\s?S\.?\s?P\.?\s?[PF]?\b(?!.*\bTAPER)|^PF\s*\d", re.ASCII
)
_PLAIN_BSP = re.compile(r"\bB\.?\s?S\.?\s?P\b\.?(?!\s?[PFT]\b)", re.ASCII)
_CLASS = re.compile(r"(?:\bCLASS\s*)?(?<![A-Z])([AB])$", re.ASCII)


@dataclass(frozen=True)
class _Size:
    text: str
    tpi: Fraction
    major: Decimal
    standard: bool
    row: dict[str, str]


@cache
def _sizes() -> dict[Fraction, _Size]:
    found = {}
    for row in table("iso228_sizes", __package__):
        size = mixed_number(row["size"])
        assert size is not None, row
        found[size] = _Size(
            row["size"], Fraction(row["tpi"]), Decimal(row["major"]), row["iso"] == "yes",
            next(
                one for one in table("iso228_tolerances", __package__)
                if one["tpi"] == row["tpi"] and size <= Fraction(one["largest"])
            ),
        )
    return found


class ParallelPipe(Family):
    """Parallel pipe threads G."""

    key = "G"
    name = later("Parallel pipe threads G (BSPP)")
    standard = "ISO 228-1"
    examples = ("G 3/8 A", "G 1 1/2 B", "G 3/4 A LH", "G 3/8", "3/8 BSPP")
    order = 45

    def claims(self, text: Written) -> bool:
        """G and a size, or BSP that does not say taper."""
        return _OWN.search(text.upper) is not None

    def read(self, text: Written) -> Designation:
        """Size, class, hand."""
        upper, hand = take_hand(text, text.upper)
        upper, starts = take_starts(text, upper)
        if _PLAIN_BSP.search(upper) and "PARALLEL" not in upper:
            raise BadDesignation(
                say(
                    '"{written}" does not say whether it is parallel or taper; write G 3/8 A (parallel, '
                    "external), G 3/8 (parallel, internal), R 3/8 (taper, external) or Rc 3/8 (taper, "
                    "internal)",
                    written=text.written,
                )
            )
        plain = _NAMES.sub(" ", upper).strip(" -")
        found = _CLASS.search(plain)
        class_ = found[1] if found else ""
        alone = inch_size_alone(_CLASS.sub("", plain))
        if alone is None:
            raise BadDesignation(
                say(
                    '"{written}" is not a parallel pipe thread; {accepted}',
                    written=text.written,
                    accepted=ACCEPTED,
                )
            )
        size = _sizes().get(alone[1])
        if size is None:
            raise BadDesignation(
                say(
                    '"{written}": no parallel pipe thread has the size {alone}; it is a name, not a '
                    "diameter, one of {text}",
                    written=text.written,
                    alone=alone[0],
                    text=", ".join(one.text for one in _sizes().values()),
                )
            )
        side: Side = "external" if class_ else text.side or "internal"
        pitch = Fraction(254, 10) / size.tpi
        return Designation(
            text=text.written, family=self.key, series="G", nominal=float(size.major), nominal_text=size.text,
            pitch=pitch, lead=(starts or 1) * pitch, starts=starts or 1,
            class_="A" if side == "external" and not class_ else class_,
            class_assumed=side == "external" and not class_, pitch_assumed=False, hand=hand, unit="mm",
            side=side, tpi=size.tpi, side_assumed=not class_ and text.side is None,
        )

    def write(self, d: Designation) -> str:
        """``G 3/4 A LH`` outside, ``G 3/4 LH`` inside."""
        class_ = f" {d.class_}" if d.class_ else ""
        starts = f" ({d.starts} starts)" if d.starts > 1 else ""
        return f"G {d.nominal_text}{class_}{' LH' if d.hand == 'left' else ''}{starts}"

    def profile(self, d: Designation) -> Profile:
        """55 degrees, crest and root round."""
        return replace(WHITWORTH, source=say("Whitworth form, ISO 228-1"))

    def limits(self, d: Designation, engagement: float | None = None) -> ThreadLimits:
        """Classes A and B outside, one class inside."""
        return pipe_limits(d)

    def mate(self, d: Designation) -> Designation:
        """The internal thread, which has one class; for it an external one of class A."""
        return replace(
            d, text="", class_="A" if d.internal else "", class_assumed=d.internal, side_assumed=False,
            side=d.other_side,
        )

    def gauging(self, d: Designation) -> Gauging:
        """By the second part of the thread's standard."""
        return LimitGauges("ISO 228-2", 2, remembered=("turns",))

    def sizes(self) -> Iterable[StandardSize]:
        """ISO 228-1, and two sizes of older lists."""
        for size in _sizes().values():
            yield StandardSize(
                f"G {size.text} A", float(size.major), 25.4 / float(size.tpi), "mm", common=size.standard
            )


def pipe_limits(d: Designation) -> ThreadLimits:
    """Limits of size of a parallel pipe thread.

    d2 = d - h, d1 = d - 2 h, h of the table;  outside: max = basic, min = basic - T (B: twice the T of A at
    the pitch diameter);  inside: min = basic, max = basic + T

    Parameters
    ----------
    d : a parallel pipe thread

    Returns
    -------
    ThreadLimits (mm), three places.

    Notes
    -----
    Range: sizes 1/16 to 6 of ISO 228-1; 1 3/8 and 1 5/8 are laid out like their neighbors, and a remark says
    so.

    Examples
    --------
    Minor diameter of G 3/8: 14.950 to 15.395 mm (a tool maker's wall chart of tap drills).

    >>> from generator.threads.registry import parse_designation
    >>> pipe_limits(parse_designation("G 3/8")).minor
    Range(max=15.395, min=14.95)

    Source: ISO 228-1:2000, table 1.
    """
    size = next(one for one in _sizes().values() if one.text == d.nominal_text)
    depth = Decimal(size.row["depth"])
    put = (d.nominal, float(depth))
    pitch = Decimal(size.row["pitch_diameter"])
    by_pitch = say("the table's value for these threads per inch")
    one = Laid(pitch, by_pitch)
    if d.class_ == "B":
        one = Laid(2 * pitch, say("2 × {T}, T of class A"), (float(pitch),))
    tolerances = (
        Tolerances(pitch=one, minor=Laid(Decimal(size.row["bore"]), by_pitch)) if d.internal
        else Tolerances(major=Laid(Decimal(size.row["crest"]), by_pitch), pitch=one)
    )
    return limits_from_basic(
        d, major=size.major, pitch_diameter=Laid(size.major - depth, "{D} − {h}", put),
        minor=Laid(size.major - 2 * depth, "{D} − 2 × {h}", put),
        allowance=Laid(Decimal(0), say("none for G threads")), tolerances=tolerances, source=SOURCE, places=3,
        tabulated=size.standard, remarks=tuple(_remarks(d, size)), memory=_memory(size),
    )


def _memory(size: _Size) -> tuple[str, ...]:
    basic = say("the basic sizes over 2 3/4") if size.major > LARGEST_READ else ""
    return remembered(say("the tolerance of the pitch diameter"), basic)


def _remarks(d: Designation, size: _Size) -> list[str]:
    said = [say("G threads do not seal on the thread: the joint seals on a face or a ring beside it.")]
    if d.text and not re.match(r"\s*(?:ISO|G)", d.text.upper()):
        said.append(
            say(
                '"{text}" is taken as G {nominal_text} of ISO 228-1, which has the same form and sizes.',
                text=d.text,
                nominal_text=d.nominal_text,
            )
        )
    if not size.standard:
        said.append(
            say(
                "G {text} is not in ISO 228-1; it stood in older lists, and its tolerances are taken from "
                "the neighboring sizes. Check it with its mate.",
                text=size.text,
            )
        )
    if d.starts > 1:
        said.append(say("The limits are those of a single-start thread."))
    return said


FAMILY = ParallelPipe()
