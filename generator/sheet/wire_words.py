"""The formula of the size over wires in words, for flanks of any angle."""

from __future__ import annotations

from generator.calc.flanks import Flanks


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
