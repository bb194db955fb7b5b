"""Tubes under jaws: shell elements, a beam on elastic foundation, and pressure summed point by point.

The shell elements are those of an independent general-purpose library. Lobes and what a gauge reads of them
are counted out by brute force.
"""

from __future__ import annotations

import math
from itertools import pairwise, product

import numpy as np
import pytest
from scipy.integrate import solve_bvp
from scipy.special import expit

from generator.calc import ring
from generator.calc.curved_beam import lobe_compliance, thick_load_share, thick_midway_share
from generator.calc.lobes import Grip, Ring, Tube, arc_share, moment_share, out_of_round, plain_tube, reach
from generator.errors import OutsideRange

ALUMINUM = 70e9
RADIUS = 0.045


def influence(angle, radius=1.0):
    """Inward movement of a thin ring at `angle` from one of two opposite unit loads, E I = 1.

    From w″ + w = M R² ÷ (E I) outwards, M = R ÷ 2 (2 ÷ π − sin θ), with no slope at a load and midway.
    """
    theta = abs((angle + math.pi / 2) % math.pi - math.pi / 2)
    bent = (math.pi / 2 - theta) * math.cos(theta) / 4 + math.sin(theta) / 4 - 1 / math.pi
    return bent * radius**3


@pytest.mark.parametrize(("n", "degrees"), [(2, 20.0), (2, 70.0), (4, 15.0), (4, 40.0), (6, 10.0)])
def test_arcs_are_points_side_by_side(n, degrees):
    """Even jaws, as pairs across; each arc as 400 small loads of the textbook ring under two."""
    half_arc = math.radians(degrees)
    spread = half_arc * (2 * (np.arange(400) + 0.5) / 400 - 1)

    def inward(angle):
        pairs = [2 * math.pi * k / n for k in range(n // 2)]
        return sum(np.mean([influence(angle - at - one) for one in spread]) for at in pairs)

    def points(angle):
        return sum(influence(angle - 2 * math.pi * k / n) for k in range(n // 2))

    middle = math.pi / n
    expected = (inward(0.0) - inward(middle)) / (points(0.0) - points(middle))
    assert points(0.0) - points(middle) == pytest.approx(ring.out_of_round_share(n), rel=1e-9)
    assert arc_share(n, half_arc) == pytest.approx(expected, rel=2e-3, abs=1e-4)


@pytest.mark.parametrize(("n", "degrees"), [(2, 30.0), (3, 10.0), (3, 30.0), (3, 55.0), (4, 40.0), (6, 29.0)])
def test_moment_under_arcs_is_the_sum_of_points(n, degrees):
    """The textbook moment W R ÷ 2 (1 ÷ α − cos(α − θ) ÷ sin α) of 2000 small loads, all round the ring."""
    alpha, half_arc = math.pi / n, math.radians(degrees)
    spread = half_arc * (2 * (np.arange(2000) + 0.5) / 2000 - 1)

    def moment(angle):
        from_load = np.abs((angle - spread + alpha) % (2 * alpha) - alpha)
        return np.mean(1 / alpha - np.cos(alpha - from_load) / math.sin(alpha))

    largest = max(abs(moment(angle)) for angle in np.linspace(0, alpha, 91))
    under_jaw_or_midway = moment_share(n, half_arc) * (1 / alpha - 1 / math.tan(alpha))
    assert under_jaw_or_midway == pytest.approx(max(moment(0.0), -moment(alpha)), rel=1e-4)
    assert largest <= 1.0001 * max(moment(0.0), -moment(alpha))


@pytest.mark.parametrize("n", [2, 3, 4, 6])
def test_all_round_nothing_is_out_of_round(n):
    assert arc_share(n, math.pi / n) == pytest.approx(0.0, abs=1e-9)
    tube, grip = plain_tube(0.045, 0.003, 0.04, ALUMINUM), Grip(n, 0.0, 0.01, math.pi / n)
    assert np.allclose(out_of_round(tube, grip, 1e4, [0.0, 0.04]), 0.0, atol=1e-12)


@pytest.mark.parametrize("wall", [0.001, 0.005, 0.010])
@pytest.mark.parametrize("n", [2, 3, 4, 6])
def test_a_ring_gripped_over_its_length_is_the_curved_beam(n, wall):
    tube = plain_tube(0.040, wall, 0.025, ALUMINUM)
    share = thick_load_share(n, 0.040, wall) + thick_midway_share(n, 0.040, wall)
    expected = ring.deflection(share, 1000.0, 0.040, wall, 0.025, ALUMINUM)
    found = out_of_round(tube, Grip(n, 0.0, 0.025), 1000.0, [0.0, 0.012, 0.025])
    assert found == pytest.approx([expected] * 3, rel=1e-3 + 0.05 * wall / 0.040)


@pytest.mark.parametrize("length", [0.03, 0.08, 0.3])
def test_the_lobes_along_a_tube_solve_their_equation(length):
    """C w⁗ − T w″ + K w = p with free ends, by scipy's collocation; first wave of three jaws alone."""
    radius, wall, grip, n = 0.045, 0.002, 0.012, 3
    lengthwise = ALUMINUM * wall * radius**2 / n**4
    twist = ALUMINUM / 2.6 * wall**3 / 3 * ((n * n - 1) / (n * radius)) ** 2
    foundation = 1 / lobe_compliance(n, radius, wall, ALUMINUM)

    def slope(x, y):
        pressure = expit((grip - x) / (grip / 400))
        return np.vstack((y[1], y[2], y[3], (pressure + twist * y[2] - foundation * y[0]) / lengthwise))

    def free(left, right):
        return np.array([
            left[2], right[2],
            lengthwise * left[3] - twist * left[1], lengthwise * right[3] - twist * right[1],
        ])

    mesh = np.unique(np.concatenate((np.linspace(0, length, 60), np.linspace(0, 2 * grip, 200))))
    solved = solve_bvp(slope, free, mesh, np.zeros((4, mesh.size)), tol=1e-8, max_nodes=50_000)
    assert solved.success
    places = np.array([0.0, grip, length])
    waves = [n * k for k in range(3, 16, 2)]
    ours = out_of_round(plain_tube(radius, wall, length, ALUMINUM), Grip(n, 0.0, grip), 1.0, places)
    first = 2 * n / (math.pi * radius * grip) * solved.sol(places)[0]
    rest = sum(2 * n / (math.pi * radius * grip) * lobe_compliance(m, radius, wall, ALUMINUM) for m in waves)
    assert np.all(np.abs(ours - first) < rest)  # the other waves add, near the jaws only
    assert ours[2] == pytest.approx(first[2], rel=0.01, abs=0.01 * first[0])


@pytest.mark.filterwarnings("ignore")
@pytest.mark.parametrize(("poisson", "most"), [(0.0, 1.10), (0.3, 1.20)])
@pytest.mark.parametrize(
    ("n", "wall", "length", "grip"),
    [
        (2, 0.003, 0.042, 0.012), (3, 0.0028, 0.042, 0.012), (3, 0.0028, 0.120, 0.020),
        (4, 0.002, 0.060, 0.015),
    ],
)
def test_shell_elements_say_the_same(n, wall, length, grip, poisson, most):
    """At the jaws within 6 %; further along, where a quarter is left, up to a fifth more."""
    tube = plain_tube(RADIUS, wall, length, ALUMINUM, poisson)
    places, shells = by_shells(tube, n, grip)
    ours = out_of_round(tube, Grip(n, 0.0, grip), 1000.0, places)
    ratios = (ours / shells)[np.abs(shells) > 0.25 * shells[0]]
    assert ratios.size > 5
    assert ratios[0] == pytest.approx(1.0, abs=0.06)
    assert 0.94 < ratios.min() <= ratios.max() < most


@pytest.mark.filterwarnings("ignore")
@pytest.mark.parametrize("beyond", [0.0015, 0.002, 0.0025])
def test_shell_elements_say_the_same_of_a_tube_that_gets_thinner(beyond):
    """From 3 mm of wall; the middle of the wall straight through, no ν."""
    tube = stepped(0.003, beyond)
    places, shells = by_shells(tube, 3, 0.012)
    ours = out_of_round(tube, Grip(3, 0.0, 0.012), 1000.0, places)
    assert ours[0] == pytest.approx(shells[0], rel=0.06)
    assert ours[-1] == pytest.approx(shells[-1], abs=0.05 * shells[0])


@pytest.mark.filterwarnings("ignore")
@pytest.mark.parametrize("beyond", [0.003, 0.004, 0.012])
def test_a_thicker_end_taken_as_thin_as_the_jaws_is_on_the_safe_side(beyond):
    places, shells = by_shells(stepped(0.002, beyond), 3, 0.012)
    ours = out_of_round(stepped(0.002, 0.002), Grip(3, 0.0, 0.012), 1000.0, places)
    assert np.all(ours > np.abs(shells))


def stepped(wall, beyond):
    """A sleeve with another wall from 24 mm on."""
    rings = (Ring(0.0, 0.024, RADIUS, wall), Ring(0.024, 0.042, RADIUS, beyond))
    return Tube(rings, ALUMINUM, 0.0)


def by_shells(tube, n, grip):
    """Radius midway between jaws less that at a jaw, row by row along the tube, for 1000 N at each jaw.

    Half a turn of the tube, from a jaw on, between planes of symmetry.
    """
    from Pynite import FEModel3D  # here, since it is slow to import and only this check needs it

    around, along = 8 * n, round(length_steps(tube.length, grip))
    model = FEModel3D()
    model.add_material("metal", tube.modulus, tube.modulus / (2 * (1 + tube.poisson)), tube.poisson, 2700.0)
    angles, rows = np.linspace(0, math.pi, around + 1), np.linspace(0, tube.length, along + 1)
    gripped = round(grip / tube.length * along)
    for i, angle in enumerate(angles):
        for j, x in enumerate(rows):
            model.add_node(f"{i} {j}", RADIUS * math.cos(angle), RADIUS * math.sin(angle), x)
            if i in (0, around):
                held = i == 0 and j in (0, along)  # against moving and turning as a whole
                model.def_support(f"{i} {j}", held, True, i == 0 and j == 0, True, False, True)
            if i * n % (2 * around) == 0 and j <= gripped:
                load = 1000.0 / gripped * (0.5 if j in (0, gripped) else 1.0)
                load *= 0.5 if i in (0, around) else 1.0
                model.add_node_load(f"{i} {j}", "FX", -load * math.cos(angle))
                model.add_node_load(f"{i} {j}", "FY", -load * math.sin(angle))
    columns, bands = pairwise(range(around + 1)), list(pairwise(range(along + 1)))
    for (i, one), (j, two) in product(columns, bands):
        corners = (f"{i} {j}", f"{one} {j}", f"{one} {two}", f"{i} {two}")
        middle = (rows[j] + rows[two]) / 2
        wall = next(ring.wall for ring in tube.rings if middle < ring.end)
        model.add_quad(f"Q{i} {j}", *corners, wall, "metal")
    model.analyze_linear(log=False)

    def radial(i, j):
        node = model.nodes[f"{i} {j}"]
        across, up = (next(iter(moved.values())) for moved in (node.DX, node.DY))
        return across * math.cos(angles[i]) + up * math.sin(angles[i])

    # lobes alone: a fit of 1, cos θ and the n waves takes out how the half tube was pinned
    shape = np.column_stack((np.ones_like(angles), np.cos(angles)))
    movement = np.array([[radial(i, j) for i in range(around + 1)] for j in range(along + 1)])
    multiples = [np.cos(n * k * angles) for k in range(1, 6)]
    fit = np.linalg.lstsq(np.column_stack((shape, *multiples)), movement.T, rcond=None)[0]
    middle = math.pi / n
    apart = np.array([math.cos(n * k * middle) - 1 for k in range(1, 6)])
    return rows, apart @ fit[2:]


def length_steps(length, grip):
    """Rows of elements so that the grip ends on one of them, none longer than 3 mm."""
    fewest = math.ceil(length / 0.003)
    return next(steps for steps in range(fewest, 20 * fewest) if abs(grip / length * steps % 1 - 0.5) > 0.499)


def test_lobes_reach_much_further_than_an_even_squeeze():
    tube = plain_tube(0.045, 0.0015, 1.0, ALUMINUM)
    assert reach(tube, 0.0, 3) > 5 * math.sqrt(0.045 * 0.0015)
    near, far = out_of_round(tube, Grip(3, 0.0, 0.02), 1.0, [0.0, 8 * reach(tube, 0.0, 3)])
    assert abs(far) < 1e-3 * near


def readings(lobes, anvils):
    """How much a gauge with this many anvils, evenly spaced, reads differently as it is turned; 1 is all."""
    turned = np.linspace(0, 2 * math.pi, 721)
    places = turned[:, None] + 2 * math.pi * np.arange(anvils) / anvils
    sizes = np.cos(lobes * places).mean(axis=1)
    return (max(sizes) - min(sizes)) / 2


@pytest.mark.parametrize(
    ("lobes", "anvils", "seen"), [(3, 2, 0), (4, 2, 1), (6, 2, 1), (3, 3, 1), (4, 3, 0), (6, 3, 1)]
)
def test_what_a_gauge_sees_of_lobes(lobes, anvils, seen):
    """Two points do not see three lobes, three points do not see four (as ISO 4292 warns; from memory)."""
    assert readings(lobes, anvils) == pytest.approx(seen, abs=1e-3)


@pytest.mark.parametrize(
    "grip",
    [
        Grip(3, 0.0, 0.0), Grip(3, -0.01, 0.01), Grip(3, 0.0, 0.2), Grip(1, 0.0, 0.01),
        Grip(3, 0.0, 0.01, 1.1),
    ],
)
def test_grips_that_are_none_are_refused(grip):
    with pytest.raises(OutsideRange):
        out_of_round(plain_tube(0.045, 0.003, 0.1, ALUMINUM), grip, 1.0, [0.0])
