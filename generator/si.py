"""Multipliers to SI, and names for the kinds of quantity that travel inside the package.

Inside, every figure is a plain float in SI: m, s, N, Pa, W, kg, rad, and rev/s for a spindle (never rad/s).
A value times a multiplier is SI: ``2.25 * inch``. SI over a multiplier is the other unit: ``x / inch``.

>>> round(100 * ft_per_min / (3.141592653589793 * 2 * inch) / rev_per_min, 2)   # 100 ft/min on 2 in
190.99
"""

from __future__ import annotations

from typing import Annotated, Final

mm: Final = 1e-3
inch: Final = 25.4e-3
thou: Final = 25.4e-6
um: Final = 1e-6
ft: Final = 0.3048
minute: Final = 60.0
m_per_min: Final = 1 / minute
ft_per_min: Final = ft / minute
rev_per_min: Final = 1 / minute
lbf: Final = 4.4482216152605
kN: Final = 1e3
MPa: Final = 1e6
GPa: Final = 1e9
psi: Final = lbf / inch**2
bar: Final = 1e5
lb: Final = 0.45359237
hp: Final = 550 * ft * lbf
kW: Final = 1e3
degree: Final = 3.141592653589793 / 180
g_n: Final = 9.80665

Length = Annotated[float, "m"]
Area = Annotated[float, "m^2"]
Speed = Annotated[float, "m/s"]
SpindleSpeed = Annotated[float, "rev/s"]
FeedPerRev = Annotated[float, "m/rev"]
Force = Annotated[float, "N"]
Torque = Annotated[float, "N m"]
Pressure = Annotated[float, "Pa"]
Mass = Annotated[float, "kg"]
Angle = Annotated[float, "rad"]
Frequency = Annotated[float, "Hz"]
Time = Annotated[float, "s"]
Power = Annotated[float, "W"]
