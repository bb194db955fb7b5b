"""Friction at the jaws, against the print: a chuck maker's guide to clamping force, RN-1391, table 4."""

from __future__ import annotations

import pytest

from generator.tables.jaw_friction import FACES, SURFACES, UnknownJaw, jaw_friction
from generator.tables.materials import material_groups

PRINTED = {  # smooth, diamond, serrated
    "ground": (0.07, 0.12, 0.20),
    "turned": (0.10, 0.20, 0.35),
    "rough": (0.15, 0.30, 0.45),
}
CORRECTIONS = {"aluminium alloy": 0.95, "brass": 0.90, "grey cast iron": 0.80}  # Al alloys, Ms, GG


@pytest.mark.parametrize("surface", SURFACES)
def test_every_printed_figure(surface):
    assert tuple(jaw_friction(surface, face).value for face in FACES) == PRINTED[surface]


@pytest.mark.parametrize(("group", "factor"), CORRECTIONS.items())
def test_the_printed_corrections_for_other_metals(group, factor):
    found = jaw_friction("turned", "diamond-cut", group)
    assert found.factor == factor
    assert found.value == pytest.approx(0.20 * factor)


@pytest.mark.parametrize("group", material_groups())
def test_no_metal_grips_better_than_steel_and_what_is_not_printed_says_so(group):
    found = jaw_friction("turned", "smooth", group)
    assert 0.8 <= found.factor <= 1
    assert ("taken as" in found.source) == (group in ("bronze", "high-tensile bronze", "copper"))


def test_what_the_table_does_not_have_is_refused_by_name():
    with pytest.raises(UnknownJaw, match=r"polished.*ground, turned, rough"):
        jaw_friction("polished", "smooth")
    with pytest.raises(UnknownJaw, match=r"rubber.*serrated"):
        jaw_friction("turned", "rubber")
