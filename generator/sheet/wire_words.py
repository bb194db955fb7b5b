"""Measuring over wires in words: the formula for flanks of any angle, and which form was used and why."""

from __future__ import annotations

import math

from generator.calc.flanks import Flanks
from generator.calc.taper import half_angle
from generator.calc.wires import EXACT_FROM, Form
from generator.language.say import later, say
from generator.si import Angle, degree

_USED = {
    Form.SIMPLE: later(
        "left out of the sizes, for it is under 0.00015 in (0.004 mm): the simple form is used"
    ),
    Form.LEAD: later("taken into the sizes by the lead-angle form, which is used up to 5°"),
    Form.EXACT: later("taken into the sizes by the exact form"),
}


def wires_source(flanks: Flanks) -> str:
    """Where the formulas stand in print; that of flanks that differ was not to be had, and is from memory.

    >>> wires_source(Flanks(0.1, 0.5))
    'ASME B1.9 (from memory); NBS Handbook H28'
    """
    if flanks.symmetrical:
        return say("NBS Handbook H28; ASME B1.2")
    return say("ASME B1.9 (from memory); NBS Handbook H28")


def over_wires_formula(flanks: Flanks) -> str:
    """The simple form with its two numbers worked out; the names are d2, W and P.

    M = d2 + (1 + k) W - P/(tan A + tan B), k = cos((A-B)/2) / sin((A+B)/2)

    Examples
    --------
    60 degrees (NBS Handbook H28; Machinery's Handbook, 31st ed., p. 2127), 29 degrees:

    >>> import math
    >>> over_wires_formula(Flanks.alike(math.radians(30)))
    '{d2} + 3 × {W} − 0.866025 × {P}'
    >>> over_wires_formula(Flanks.alike(math.radians(14.5)))
    '{d2} + 4.99393 × {W} − 1.933357 × {P}'
    """
    return f"{{d2}} + {1 + flanks.seat:.6g} × {{W}} − {1 / flanks.tangents:.6f} × {{P}}"


def over_taper_formula(flanks: Flanks, taper: float) -> str:
    """Over three wires on a taper, with its numbers worked out; the names are E, taper, x, W and P.

    Examples
    --------
    60 degrees, 1 in 16 (Machinery's Handbook, 31st ed., p. 2138):

    >>> import math
    >>> over_taper_formula(Flanks.alike(math.radians(30)), 1 / 16)
    '({E} + {taper} × {x} − 0.866025 × {P}) ÷ 1.000488 + 2.99902 × {W}'
    """
    inclined = 1 / math.cos(half_angle(taper))
    return (
        f"({{E}} + {{taper}} × {{x}} − {1 / flanks.tangents:.6f} × {{P}}) ÷ {inclined:.6f} + "
        f"{1 + flanks.seat / inclined:.6g} × {{W}}"
    )


def best_wire_formula(best: float) -> str:
    """The best wire or ball, `best` being that of a pitch of 1.

    >>> best_wire_formula(0.5773502692)
    '0.577350 × {P}'
    """
    return f"{best:.6f} × {{P}}"


def between_flanks(flanks: Flanks) -> str:
    """What is best about a best wire or ball where the flanks differ; nothing to say where they are alike.

    >>> between_flanks(Flanks.alike(0.5))
    ''
    """
    if flanks.symmetrical:
        return ""
    return say("these flanks differ: it touches the steep one toward the crest, the other toward the root")


def form_words(form: Form, lead_angle: Angle, balls: bool = False) -> str:
    """Which form the sizes are worked out by, and why; `lead_angle` is at the pitch diameter.

    >>> form_words(Form.EXACT, 7.26 * degree)
    'taken into the sizes by the exact form: at 7.3°, above 5°, the lead-angle form reads high'
    """
    if form is Form.EXACT and not balls:
        return say(
            "{used}: at {at:.1f}°, above {exact_from:g}°, the lead-angle form reads high",
            used=_USED[form], at=lead_angle / degree, exact_from=EXACT_FROM / degree,
        )
    return _USED[form]
