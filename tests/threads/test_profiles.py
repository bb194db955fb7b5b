"""What every form of thread asks of the setting, from its flanks and its crest."""

from __future__ import annotations

import math

import pytest

from generator.threads.registry import families, parse_designation, profile


@pytest.mark.parametrize(("text", "angle"), [
    ("1/2-13 UNC-2A", 29.5),    # Jones 1914 and common practice: 29 1/2 for 60 degrees
    ("1/2 BSW", 27.0),
    ("1-5 ACME", 14.0),         # common practice: 14 1/2 at most
    ("Tr 40x7", 14.5),
    ("2.5-8 BUTT-2A", 44.5),    # along the clearance flank of 45 degrees
    ("S48x8", 29.5),            # along the clearance flank of 30 degrees
    ("special 40x6 7/45deg", 44.5),
    ("1-5 SQUARE", 0.0),
])
def test_the_compound_is_set_a_little_under_the_flank_that_is_shaved(text, angle):
    assert math.degrees(profile(parse_designation(text)).infeed) == pytest.approx(angle)


@pytest.mark.parametrize("text", [family.examples[0] for family in families()])
def test_a_crest_is_flat_or_round_and_never_both(text):
    form = profile(parse_designation(text))
    assert not (form.crest_flat and form.crest_radius)
