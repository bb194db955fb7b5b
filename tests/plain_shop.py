"""A shop of one stiff lathe, written out as files: jobs in it are simple enough to work by hand.

Nothing of it is a real lathe. `sheet` writes shop and job as text, reads both and computes the sheet.
"""

from __future__ import annotations

import math
import tempfile
from itertools import pairwise
from pathlib import Path

import numpy as np

from generator.job.reading import read_job, read_shop
from generator.sheet.compute import compute_sheet

RIGID = 10**14  # N m/rad: a chuck that gives nothing that counts
STIFF = 900_000  # N/µm, of the steady rest, the most that a record may say

LATHE = """\
lathe: plain
name: P plain
units: mm
swing: {{over_bed: 900}}
between_centers: 4000
spindle: {{bore: 200, nose: camlock, speeds: [25, 50, 100, 200, 600, 1600, 6000]}}
chucks:
{chucks}
collets:
  - {{grips: {{from: 1, to: 200}}, stiffness: {chuck} N m/rad, top_speed: 6000 rpm}}
headstock_center: {{length: 60, diameter: 200, top_speed: 6000 rpm}}
faceplate: {{diameter: 500, length: 60, top_speed: 6000 rpm, stiffness: {chuck} N m/rad}}
steady: {{from: 1, to: 600, stiffness: {steady} N/um}}
follow_rest: {{from: 1, to: 600, width: 20}}
feeds: {{along: [0.1 mm/rev, 0.2 mm/rev, 0.4 mm/rev], across: [0.05 mm/rev, 0.1 mm/rev]}}
cross_dial: {{division: 0.02, turn: 4, reads: diameter}}
compound_dial: {{division: 0.02, turn: 2, reads: radius}}
leadscrew: {{pitch: 6}}
gearbox: {{pitches: [1, 1.5, 2, 2.5, 3, 4], tpi: [8, 10, 16]}}
power: 50 kW
"""
CHUCK = (
    "  - {{jaws: {jaws}, grips: {{from: 1, to: 600}}, grips_inside: {{from: 1, to: 600}}, diameter: 250, "
    "length: 100, top_speed: 6000 rpm, stiffness: {chuck} N m/rad{more}}}"
)
HOUSE = "shop: Plain\nunits: mm\nturning_thrust_share: {radial}\nfeed_force_share: {feed}\n{house}\n"
MATERIALS = """\
materials:
  - {{name: steel, group: medium-carbon steel, specific_force: {specific} MPa, force_exponent: 0.24,
     yield_strength: 400 MPa}}
  - {{name: aluminum, group: aluminium alloy}}
"""
TOOLS = """\
units: mm
threading:
  - {name: V1, angle: 60, nose_flat: 0.2, width: 3}
cutting:
  - {name: T1, for: [turn, face], steel: carbide, nose_radius: 0.4, entering_angle: 90 deg}
  - {name: B1, for: [bore], steel: carbide, nose_radius: 0.4, entering_angle: 90 deg, bar: 20, reach: 200}
  - {name: D1, for: [drill], diameter: 20, reach: 200}
  - {name: P1, for: [part off, groove, relief], width: 3, reach: 40}
"""
JOB = "job: P-1\ntitle: Plain\nunits: mm\nlathe: plain\nmaterial: steel\nmaterial_known_by: stamp\n"


def sheet(
    job, *, chuck=RIGID, steady=STIFF, radial="0.5", feed="0", house="", specific=1675, more="", chucks=None,
    material="steel",
):
    """Sheet of a job, written without its head; `more` goes into every chuck's record, `chucks` is all."""
    chucks = chucks or "\n".join(CHUCK.format(jaws=jaws, chuck=chuck, more=more) for jaws in (3, 4, 6))
    with tempfile.TemporaryDirectory() as folder:
        root = Path(folder)
        files = {
            "_shop/lathes/plain.yml": LATHE.format(chucks=chucks, chuck=chuck, steady=steady),
            "_shop/house.yml": HOUSE.format(radial=radial, feed=feed, house=house),
            "_shop/materials.yml": MATERIALS.format(specific=specific),
            "_shop/tools.yml": TOOLS,
            "2026/P-1-plain/job.yml": JOB.replace("steel", material) + job,
        }
        for name, text in files.items():
            (root / name).parent.mkdir(parents=True, exist_ok=True)
            (root / name).write_text(text, encoding="utf-8")
        return compute_sheet(read_job(root / "2026/P-1-plain/job.yml"), read_shop(root / "_shop"))


# -- beams, without anything of the project ---------------------------------------------------------------


def matrices(pieces, modulus, density=7850.0, poisson=None, *, marks=(), cells=10):
    """Places, stiffness and mass of (start, end, od, bore) pieces in m; with shear where `poisson` is given.

    Cook et al., Concepts and Applications of Finite Element Analysis: element of Timoshenko's beam; its shear
    coefficient from Cowper, Journal of Applied Mechanics 33 (1966), hollow round, from memory.
    """
    ends = {round(float(x), 9) for one in pieces for x in np.linspace(one[0], one[1], cells + 1)}
    places = np.array(sorted(ends | {round(x, 9) for x in marks}))
    stiff, mass = np.zeros((2 * len(places), 2 * len(places))), np.zeros((2 * len(places), 2 * len(places)))
    for number, (start, end) in enumerate(pairwise(places)):
        od, bore = next(one[2:] for one in pieces if one[0] - 1e-9 <= (start + end) / 2 <= one[1] + 1e-9)
        area, second, length = math.pi / 4 * (od**2 - bore**2), math.pi / 64 * (od**4 - bore**4), end - start
        shear = 0.0
        if poisson is not None:
            m = bore / od
            both = (1 + m**2) ** 2
            kappa = 6 * (1 + poisson) * both / ((7 + 6 * poisson) * both + (20 + 12 * poisson) * m**2)
            shear = 24 * (1 + poisson) * second / (kappa * area * length**2)
        here = slice(2 * number, 2 * number + 4)
        stiff[here, here] += modulus * second / length**3 / (1 + shear) * np.array([
            [12, 6 * length, -12, 6 * length],
            [6 * length, (4 + shear) * length**2, -6 * length, (2 - shear) * length**2],
            [-12, -6 * length, 12, -6 * length],
            [6 * length, (2 - shear) * length**2, -6 * length, (4 + shear) * length**2],
        ])
        mass[here, here] += density * area * length / 420 * np.array([
            [156, 22 * length, 54, -13 * length],
            [22 * length, 4 * length**2, 13 * length, -3 * length**2],
            [54, 13 * length, 156, -22 * length],
            [-13 * length, -3 * length**2, -22 * length, 4 * length**2],
        ])
    return places, stiff, mass


def held(places, stiff, supports):
    """Stiffness matrix with (at, N/m, N m/rad) supports in it, and which freedoms they leave."""
    stiff, fixed = stiff.copy(), set()
    for at, across, tilting in supports:
        node = int(np.argmin(np.abs(places - at)))
        for freedom, spring in ((2 * node, across), (2 * node + 1, tilting)):
            if math.isinf(spring):
                fixed.add(freedom)
            else:
                stiff[freedom, freedom] += spring
    return stiff, [one for one in range(len(stiff)) if one not in fixed]


def bent(pieces, modulus, supports, force, at, poisson=None, moment=0.0):
    """Deflection under a force and a moment at a place (m), and the force of the first two supports (N)."""
    marks = [at, *(one[0] for one in supports)]
    places, stiff, _ = matrices(pieces, modulus, poisson=poisson, marks=marks)
    whole, free = held(places, stiff, supports)
    load = np.zeros(len(whole))
    node = int(np.argmin(np.abs(places - at)))
    load[2 * node], load[2 * node + 1] = force, moment
    moved = np.zeros(len(whole))
    moved[free] = np.linalg.solve(whole[np.ix_(free, free)], load[free])
    left = load - stiff @ moved
    forces = [float(left[2 * int(np.argmin(np.abs(places - one[0])))]) for one in supports]
    return float(moved[2 * node]), forces


def first_frequency(pieces, modulus, supports, density=7850.0):
    """Lowest bending frequency (Hz)."""
    from scipy.linalg import eigh

    places, stiff, mass = matrices(pieces, modulus, density, marks=[one[0] for one in supports], cells=40)
    whole, free = held(places, stiff, supports)
    block = np.ix_(free, free)
    lowest = eigh(whole[block], mass[block], eigvals_only=True, subset_by_index=[0, 0])[0]
    return math.sqrt(lowest) / (2 * math.pi)
