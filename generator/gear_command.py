"""The verb `gears`: how a lathe of the shop comes to a lead, with plate and change gears, for free use.

    gears              the verb itself
    read_lead          a lead as a machinist writes it: 8 tpi, 1.5 mm, 1/8 in, module 1, 16 DP, 2 starts
    lead_record        the answer as plain data
"""

from __future__ import annotations

import json
import re
import sys
from argparse import Namespace
from collections.abc import Callable
from fractions import Fraction
from pathlib import Path
from typing import Any, Final

from generator import units
from generator.calc.gearing import INCH
from generator.calc.lead_search import Found, Geared
from generator.calc.wanted_lead import (
    WantedLead,
    lead_of_diametral_pitch,
    lead_of_length,
    lead_of_module,
    lead_of_tpi,
)
from generator.commands import CLEAN, ERRORS, UsageError
from generator.errors import BadQuantity, SheetError
from generator.job.lathe import Lathe
from generator.job.reading import read_shop
from generator.language.say import later, say
from generator.sheet.exact import leadscrew_lead
from generator.sheet.half_nuts import dial_gears_of
from generator.sheet.lathe_leads import find_lead, not_tried
from generator.si import Length, inch, mm

EXAMPLES: Final = later("8 tpi, 1.5 mm, 1/8 in, module 1 or 16 DP, and for several starts: 2 mm, 3 starts")
_STARTS = re.compile(r"(?P<pitch>.*?)(?:,\s*|\s+)(?P<starts>[0-9]+)\s*-?\s*starts?", re.IGNORECASE)
_FORMS: Final[tuple[tuple[re.Pattern[str], Callable[[Fraction, int], WantedLead]], ...]] = (
    (re.compile(r"(.+?)\s*(?:tpi|threads? (?:per|to the|an) inch)", re.IGNORECASE), lead_of_tpi),
    (re.compile(r"module\s+(.+)", re.IGNORECASE), lead_of_module),
    (re.compile(r"(.+?)\s+module", re.IGNORECASE), lead_of_module),
    (re.compile(r"(.+?)\s*(?:DP|diametral pitch)", re.IGNORECASE), lead_of_diametral_pitch),
    (re.compile(r"(?:DP|diametral pitch)\s+(.+)", re.IGNORECASE), lead_of_diametral_pitch),
)


def gears(asked: Namespace) -> int:
    """Print how each lathe comes to each lead, in the order given."""
    lathes = _lathes(Path(asked.jobs or "jobs") / "_shop", asked.lathe)
    over = _length(asked.over) if asked.over else None
    status = CLEAN
    for text in asked.lead:
        try:
            wanted = read_lead(text)
        except SheetError as error:
            print(error if isinstance(error, BadQuantity) else f"{text}: {error}", file=sys.stderr)
            status = ERRORS
            continue
        for lathe in lathes:
            try:
                found, length = find_lead(lathe, wanted), over or _usual_length(lathe)
                if asked.json:
                    said = json.dumps(lead_record(lathe, text, wanted, found, length), allow_nan=False)
                else:
                    said = _lines(lathe, wanted, found, length)
            except SheetError as error:  # a record that cannot be true costs only its own lathe
                print(f"{lathe.lathe}: {text}: {error}", file=sys.stderr)
                status = ERRORS
            else:
                print(said, flush=True)
    return status


def read_lead(text: str) -> WantedLead:
    """Read a lead, with its number of starts where there are several.

    Raises
    ------
    BadQuantity
        The message quotes what was written and says what would be accepted.
    OutsideRange
        When it is shorter or longer than any lathe cuts.

    Examples
    --------
    >>> [read_lead(text).words for text in ("8 tpi", "1.5 mm", "module 1", "16 DP", "1/8 in, 2 starts")]
    ['8 threads per inch', '1.5 mm', 'module 1', '16 diametral pitch', '1/8 in, 2 starts']
    """
    several = _STARTS.fullmatch(text.strip())
    pitch, starts = (several["pitch"], int(several["starts"])) if several else (text.strip(), 1)
    for form, made in _FORMS:
        if match := form.fullmatch(pitch):
            try:
                return made(units.read_number(match[1]), starts)
            except BadQuantity as error:
                raise BadQuantity(f"{units.quoted(text)}: {units.quoted(match[1])} {error}") from None
    try:
        amount = units.read_amount(pitch, "length")
    except BadQuantity as error:
        written = re.match(r"[-+0-9.]", pitch) and not error.no_unit
        raise BadQuantity(
            str(error)
            if written
            else say("{quoted} is not a lead: write {examples}", quoted=units.quoted(text), examples=EXAMPLES)
        ) from None
    in_mm = units.factor("length", amount.unit) * 1000
    return lead_of_length(amount.exact * (1 if in_mm == INCH else in_mm), starts, inch=in_mm == INCH)


def _usual_length(lathe: Lathe) -> Length:
    return 1 * inch if lathe.units == "inch" else 25 * mm


def lead_record(
    lathe: Lathe, text: str, wanted: WantedLead, found: Found | None, over: Length
) -> dict[str, Any]:
    """The answer for one lead on one lathe; `over` is the engaged length.

    `ways` are exact ones, or where `exact` is false the closest of each size, the closest first. It is empty
    and `exact` is null when the lathe's record does not say enough.

    Raises
    ------
    OutsideRange
        When the record of the thread dial cannot be true.
    """
    ways = (found.exact or found.closest) if found else ()
    return {
        "lead": text,
        "lathe": lathe.lathe,
        "wanted": wanted.words,
        "lead_mm": float(wanted.length),
        "exact": bool(found.exact) if found else None,
        "ways": [_way(geared, over) for geared in ways],
        "gear_to_buy": _to_buy(found) if found else None,
        "half_nuts": _half_nuts(lathe, ways[0].lead) if ways else None,
    }


def _way(geared: Geared, length: Length) -> dict[str, Any]:
    return {
        "text": geared.describe(),
        "plate": geared.setting.words or None,
        "gears": list(geared.train.gears) if geared.train else [],
        "lead_mm": float(geared.lead),
        "exact": geared.exact,
        "error_percent": geared.error * 100,
        "error_ppm": geared.error * 1e6,
        "error_over": {"length_mm": length / mm, "error_mm": geared.over(length) / mm},
    }


def _to_buy(found: Found) -> dict[str, Any] | None:
    if found.with_it is None or found.with_it.train is None:
        return None
    return {
        "teeth": found.to_buy,
        "gears": list(found.with_it.train.gears),
        "plate": found.with_it.setting.words or None,
        "text": found.with_it.describe(),
    }


def _half_nuts(lathe: Lathe, lead: Fraction) -> str | None:
    """Where the half nuts may close for the lead that is cut; None where the record does not tell."""
    screw = leadscrew_lead(lathe)
    known = lathe.dial or lathe.has_no_dial
    if screw is None or not (known or (screw / lead).denominator == 1):
        return None
    return dial_gears_of(lathe, screw, lead)[0].rule.describe()


def _lines(lathe: Lathe, wanted: WantedLead, found: Found | None, over: Length) -> str:
    """The answer for people."""
    head = f"{lathe.lathe}: {wanted.words}"
    if found is None:
        return say(
            "{head}: not computed, the lathe's record lacks a plate, or change gears and leadscrew", head=head
        )
    if found.exact:
        lines = [say("{head}: exact", head=head)]
    elif wanted.times_pi:
        lines = [say("{head}: never exact, it has pi in it; the closest", head=head)]
    else:
        lines = [say("{head}: not exact; the closest", head=head)]
    lines += [f"    {geared.describe()}" for geared in found.exact]
    for geared in found.closest:
        run_off = abs(geared.over(over))
        lines.append(
            say(
                "    {describe}: {off}, {in_mm:.4f} mm ({in_inches:.5f} in) over {over:g} mm",
                describe=geared.describe(),
                off=geared.off(),
                in_mm=run_off / mm,
                in_inches=run_off / inch,
                over=over / mm,
            )
        )
    if found.with_it is not None:
        lines.append(
            say(
                "    with a gear of {to_buy} teeth besides: {describe}, exact",
                to_buy=found.to_buy,
                describe=found.with_it.describe(),
            )
        )
    elif lathe.change_gears is None and not found.exact:
        lines.append(say("    the lathe's record has no change gears"))
    if not found.exact and not_tried(lathe):
        lines.append(f"    {not_tried(lathe)}")
    ways = found.exact or found.closest
    if not ways:
        return say("{head}: no two of its change gears run together (1:6 to 6:1)", head=head)
    half_nuts = _half_nuts(lathe, ways[0].lead)
    if half_nuts is None:
        lines.append(say("    half nuts: not computed, the record has no thread dial"))
    else:
        lines.append(say("    half nuts: {where}", where=half_nuts))
    return "\n".join(lines)


def _length(text: str) -> Length:
    try:
        return units.read_amount(text, "length").si
    except BadQuantity as error:
        raise UsageError(say("--over: {error}", error=error)) from None


def _lathes(shop: Path, name: str | None) -> list[Lathe]:
    if not shop.is_dir():
        raise UsageError(
            say(
                "{shop}: there is no such shop folder; go to the folder that has one, or give --jobs",
                shop=shop,
            )
        )
    lathes = read_shop(shop).lathes
    if name is None:
        return list(lathes.values())
    if name in lathes:
        return [lathes[name]]
    near = units.nearest(name, list(lathes))
    hint = (
        say("did you mean {near}?", near=near)
        if near
        else say("the shop has {lathes}", lathes=", ".join(lathes))
    )
    raise UsageError(say("{name}: there is no such lathe in {shop}: {hint}", name=name, shop=shop, hint=hint))
