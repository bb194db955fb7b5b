"""Held work in PyNite, a general-purpose structural library: the check that knows nothing of lathes.

x runs along the work, y to the rear, z up. The cut acts at the end of a stiff arm from the axis to the
operator's side, so that what a feed force bends is the library's own doing, signs and all.
"""

from __future__ import annotations

import math
from itertools import pairwise
from typing import NamedTuple

DIGITS = 9  # of a place in m: nearer ones are one


class Moved(NamedTuple):
    """Deflection of the axis at the tool (m), and at each support force (N) and moment (N m), rear and up."""

    rear: float
    up: float
    forces: tuple[tuple[float, float], ...]
    moments: tuple[tuple[float, float], ...]


def moved(pieces, modulus, supports, tool, radius, *, rear, up, towards_chuck):
    """Under a cut at `tool` (m), `radius` in front of the axis; forces on the work in N.

    `pieces` are (start, end, od, bore) in m, `supports` (at, N/m across, N m/rad against tilting).
    """
    from Pynite import FEModel3D  # here, since it is slow to import

    tool = round(tool, DIGITS)
    pieces = [(round(start, DIGITS), round(end, DIGITS), *sizes) for start, end, *sizes in pieces]
    supports = [(round(at, DIGITS), *stiff) for at, *stiff in supports]
    model = FEModel3D()
    model.add_material("steel", modulus, modulus / 2.6, 0.3, 7850.0)
    places = sorted({tool, *(x for piece in pieces for x in piece[:2]), *(one[0] for one in supports)})
    name = {x: f"N{number}" for number, x in enumerate(places)}
    for x in places:
        model.add_node(name[x], x, 0, 0)
    for number, (start, end) in enumerate(pairwise(places)):
        od, bore = next(piece[2:] for piece in pieces if piece[0] <= (start + end) / 2 <= piece[1])
        second, area = math.pi / 64 * (od**4 - bore**4), math.pi / 4 * (od**2 - bore**2)
        model.add_section(f"S{number}", area, second, second, 2 * second)
        model.add_member(f"M{number}", name[start], name[end], "steel", f"S{number}")
    model.add_section("arm", 1.0, 1.0, 1.0, 2.0)
    model.add_node("tool", tool, -radius, 0)
    model.add_member("arm", name[tool], "tool", "steel", "arm")
    for number, (at, across, angular) in enumerate(supports):
        node, rigid, clamped, head = name[at], math.isinf(across), math.isinf(angular), number == 0
        model.def_support(node, head, rigid, rigid, head, clamped, clamped)
        springs = [] if rigid else [("DY", across), ("DZ", across)]
        springs += [("RY", angular), ("RZ", angular)] if angular and not clamped else []
        for direction, stiffness in springs:
            model.def_support_spring(node, direction, stiffness)
    for direction, force in (("FX", -towards_chuck), ("FY", rear), ("FZ", up)):
        model.add_node_load("tool", direction, force)
    model.analyze_linear(log=False)

    def first(values):
        return float(next(iter(values.values())))

    forces, moments = [], []
    for at, across, angular in supports:
        node = model.nodes[name[at]]
        rigid = math.isinf(across)
        forces.append(tuple(
            -first(reaction) if rigid else across * first(shift)
            for reaction, shift in ((node.RxnFY, node.DY), (node.RxnFZ, node.DZ))
        ))
        stiff = angular if math.isfinite(angular) else 0.0
        moments.append((stiff * first(node.RZ), -stiff * first(node.RY)))
    axis = model.nodes[name[tool]]
    return Moved(first(axis.DY), first(axis.DZ), tuple(forces), tuple(moments))
