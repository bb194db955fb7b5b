"""Standard tapers: the columns agree with each other, names are not guessed."""

from __future__ import annotations

import pytest

from generator.calc.taper import taper_ratio
from generator.si import inch
from generator.tables.tapers import UnknownTaper, standard_taper, taper_names


@pytest.mark.parametrize("name", taper_names())
def test_the_sizes_of_a_taper_make_its_taper_per_foot(name):
    """Printed sizes are rounded to 0.00001 in at best; over their length the ratio is off by that much."""
    taper = standard_taper(name)
    assert taper.source
    assert taper.ratio > 0
    if taper.large is None or taper.small is None or taper.length is None:
        assert taper.large is taper.small is taper.length is None
        return
    rounding = 2e-5 * inch / taper.length
    assert taper_ratio(taper.large, taper.small, taper.length) == pytest.approx(taper.ratio, abs=rounding)


def test_a_taper_that_is_not_there_is_refused_with_the_nearest():
    with pytest.raises(UnknownTaper, match="did you mean Morse 4"):
        standard_taper("Mores 4")
    with pytest.raises(UnknownTaper, match="the list has Morse 0"):
        standard_taper("")


def test_a_name_is_read_with_or_without_capitals():
    assert standard_taper("morse  4") is standard_taper("Morse 4")
    assert standard_taper("npt").name == "NPT"
