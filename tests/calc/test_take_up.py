"""How a point ground anew rests in the old groove, against the geometry printed in ISO 68-1 and ASME B1.9."""

from __future__ import annotations

import math

import pytest

from generator.calc.flanks import Flanks
from generator.calc.take_up import rests_higher, runout_cleaned_up
from generator.errors import OutsideRange

H = math.sqrt(3) / 2  # ISO 68-1: the height of the sharp triangle over the pitch, printed as 0.866025404


@pytest.mark.parametrize(
    ("flat", "truncation"),
    [(1 / 8, H / 8), (1 / 4, H / 4), (1 / 24, H / 24), (0.0, 0.0)],  # ISO 68-1, figure 1: P/8 and H/8, …
)
def test_a_flat_lies_as_high_as_the_standard_truncates_for_it(flat: float, truncation: float) -> None:
    assert rests_higher(flat, Flanks.alike(math.radians(30))) == pytest.approx(truncation, rel=1e-12)


def test_a_trapezoidal_flat_lies_as_high_as_its_sharp_triangle_says() -> None:
    """ISO 2904: Tr threads have H = 1.866 P, and a flat of 0.366 P at the crest."""
    height = rests_higher(1.0, Flanks.alike(math.radians(15)))
    assert height == pytest.approx(1.866, abs=5e-4)
    assert rests_higher(0.366, Flanks.alike(math.radians(15))) == pytest.approx(0.366 * 1.866, abs=5e-4)


def test_a_buttress_flat_lies_as_high_as_its_sharp_triangle_says() -> None:
    """ASME B1.9: H = 0.89064 P with flanks of 7 and 45 degrees."""
    assert rests_higher(1.0, Flanks(math.radians(7), math.radians(45))) == pytest.approx(0.89064, abs=5e-6)


def test_a_round_nose_touches_where_the_standard_has_it_touch() -> None:
    """ISO 68-1: a root radius of H/6 in the sharp V has its bottom H/6 over the sharp root."""
    flanks = Flanks.alike(math.radians(30))
    assert rests_higher(0.0, flanks, larger_radius=H / 6) == pytest.approx(H / 6, rel=1e-12)


def test_narrower_goes_deeper_by_as_much() -> None:
    flanks = Flanks.alike(math.radians(30))
    assert rests_higher(-0.01, flanks) == -rests_higher(0.01, flanks)


def test_a_square_groove_stops_no_point() -> None:
    with pytest.raises(OutsideRange, match="does not go in"):
        rests_higher(0.001, Flanks(0.0, 0.0))


def test_what_is_left_cleans_up_twice_as_much_on_the_indicator() -> None:
    """Two circles, one off the other's center by e: the least cut is t − e, and the indicator reads 2 e."""
    t = 0.25
    most = runout_cleaned_up(t)
    assert t - most / 2 == pytest.approx(0.0)
    with pytest.raises(OutsideRange):
        runout_cleaned_up(-0.01)
