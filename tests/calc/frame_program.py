"""A beam of ours in PyNite, a general-purpose structural library: its deflections, reactions and frequencies.

Members are prismatic and without shear, as Euler and Bernoulli have it. A taper becomes short members, each
with the mean of 1 ÷ I and of A along it (Simpson). Only deflection across and slope in one plane are free.

Members must not be too short: rounding takes a share of 1e-16 of their stiffness 12 E I ÷ h³, and that is to
be small beside 3 E I ÷ L³ of the whole. One of 0.01 mm in a metre costs all digits (reactions no longer add
up to the load), so that nodes for fineness keep away from those that must be.

Masses: PyNite 2.4.1 takes no mass from a material by itself. `analyze_modal` makes masses of the loads of one
load combination, force over gravity; a self-weight load becomes a consistent mass of factor × ρ × A × L ÷
gravity. With the gravity left at 1 and the factor at 1, ρ in kg/m³ gives kilograms.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

import numpy as np
from Pynite import FEModel3D

from generator.calc.beam import Beam, Segment

APART = 0.0009  # m: nearer nodes are one
IN_A_TAPER = 150  # members of a taper in the length of the work, as far as that leaves them apart


class FrameProgram:
    """The model of one beam with nodes at `places`, and at least `members` members along it."""

    def __init__(self, beam: Beam, places: Sequence[float] = (), members: int = 1) -> None:
        self.beam, self.model = beam, FEModel3D()
        self.places = self._nodes(places, members)
        self.model.add_material("steel", beam.elastic_modulus, beam.elastic_modulus / 2.6, 0.3, beam.density)
        for number, x in enumerate(self.places):
            self.model.add_node(f"N{number}", x, 0, 0)
            self.model.def_support(f"N{number}", True, False, True, True, True, False)
        for number, (start, end) in enumerate(pairwise(self.places)):
            area, moment = section(start, end, beam.segments)
            self.model.add_section(f"S{number}", area, moment, moment, 2 * moment)
            self.model.add_member(f"M{number}", f"N{number}", f"N{number + 1}", "steel", f"S{number}")
        for support in beam.supports:
            node = self.node(support.at)
            across, clamped = math.isinf(support.stiffness), math.isinf(support.angular)
            self.model.def_support(node, True, across, True, True, True, clamped)
            if not across:
                self.model.def_support_spring(node, "DY", support.stiffness)
            if support.angular and not clamped:
                self.model.def_support_spring(node, "RZ", support.angular)

    def _nodes(self, places: Sequence[float], members: int) -> list[float]:
        beam = self.beam
        wanted = [beam.start, beam.end, *(support.at for support in beam.supports), *places]
        wanted += [one.end for one in beam.segments]
        for one in beam.segments:
            longest = max((beam.end - beam.start) / IN_A_TAPER, 1.2 * APART)
            steps = math.ceil((one.end - one.start) / longest) if one.od_end else 1
            wanted += list(np.linspace(one.start, one.end, steps + 1))
        wanted += list(np.linspace(beam.start, beam.end, members + 1))
        apart: list[float] = []
        for x in wanted:  # those that must be come first
            if all(abs(x - other) > APART for other in apart):
                apart.append(float(x))
        return sorted(apart)

    def node(self, x: float) -> str:
        """Name of the node at x."""
        return f"N{min(range(len(self.places)), key=lambda number: abs(self.places[number] - x))}"

    def under_loads(self, load: float, places: Sequence[float]) -> None:
        """Solve for the load at each of the places, a combination each, in one go."""
        for number, x in enumerate(places):
            self.model.add_node_load(self.node(x), "FY", load, case=f"L{number}")
            self.model.add_load_combo(f"at {number}", {f"L{number}": 1.0})
        self.model.analyze_linear(log=False)

    def under_weight(self, gravity: float) -> None:
        """Solve for the work's own weight in the direction of the loads; read it as number -1."""
        self.model.add_member_self_weight("FY", gravity, "weight")
        self.model.add_load_combo("at -1", {"weight": 1.0})
        self.model.analyze_linear(log=False)

    def read(self, number: int, where: Sequence[float]) -> tuple[list[float], list[float]]:
        """Deflections (m) and slopes (rad) under the load of that number."""
        nodes = [self.model.nodes[self.node(x)] for x in where]
        return [one.DY[f"at {number}"] for one in nodes], [one.RZ[f"at {number}"] for one in nodes]

    def reactions(self, number: int) -> list[float]:
        """Force (N) of each support against the load of that number."""
        case, found = f"at {number}", []
        for support in self.beam.supports:
            node = self.model.nodes[self.node(support.at)]
            rigid = math.isinf(support.stiffness)
            found.append(-node.RxnFY[case] if rigid else support.stiffness * node.DY[case])
        return found

    def frequencies(self, count: int) -> list[float]:
        """Lowest bending frequencies, Hz."""
        self.model.add_member_self_weight("FY", 1.0, "weight")
        self.model.add_load_combo("weight", {"weight": 1.0})
        self.model.analyze_modal(num_modes=count, mass_combo_name="weight", mass_direction="Y", gravity=1.0)
        return sorted(float(one) for one in self.model.frequencies)


def section(start: float, end: float, segments: Sequence[Segment]) -> tuple[float, float]:
    """Area (m²) and second moment of area (m⁴) of a member in one segment."""
    middle = (start + end) / 2
    here = next(one for one in segments if middle <= one.end)
    od_end = here.od if here.od_end is None else here.od_end
    share = (np.array([start, middle, end]) - here.start) / (here.end - here.start)
    od = here.od + (od_end - here.od) * share
    area, moment = math.pi / 4 * (od**2 - here.bore**2), math.pi / 64 * (od**4 - here.bore**4)
    simpson = np.array([1, 4, 1]) / 6
    return float(simpson @ area), float(1 / (simpson @ (1 / moment)))
