"""The form of an Acme groove: flanks of 14 1/2 degrees, crest and root flats (ASME B1.5, ASME/ANSI B1.8)."""

from __future__ import annotations

import math

from generator.calc.flanks import Flanks
from generator.threads.designation import Designation
from generator.threads.families.acme.limits import Form, basis
from generator.threads.profile import Profile

FLANKS = Flanks.alike(math.radians(14.5))


def acme_profile(d: Designation, form: Form, standard: str) -> Profile:
    """The groove of one Acme thread, its root flat for the clearance and allowance of its class.

    crest flat = P/2 - h tan 14.5;  root flat = P/2 - (h + c - es) tan 14.5, inside es = 0

    Notes
    -----
    Range: no range given in the source. The widest nose is the one that leaves the screw's root at its max
    with the pitch diameter in the middle of its limits.

    Examples
    --------
    The general purpose crest flat is 0.3707 P, the stub one 0.4224 P:

    >>> from generator.threads.families.acme.limits import GENERAL
    >>> from generator.threads.registry import parse_designation
    >>> profile = acme_profile(parse_designation("1-5-ACME-2G"), GENERAL, "ASME B1.5")
    >>> round(profile.crest_flat, 4), round(profile.tool_flat * 0.2, 4)
    (0.3707, 0.071)

    Source: ASME B1.5; ASME/ANSI B1.8.
    """
    of, pitch, tangent = basis(d, form), float(d.pitch), math.tan(FLANKS.load)
    height, clearance = float(form.height), float(of.clearance)
    slack = 0.0 if d.internal else float(of.allowance)
    crest = 0.5 - height * tangent
    root = crest - tangent * (clearance - slack) / pitch
    middle = 0.0 if d.internal else tangent * float(of.tolerance) / 2 / pitch
    return Profile(
        flanks=FLANKS, depth=height, crest_flat=crest, tool_flat=root, widest_flat=root + middle,
        source=standard,
    )
