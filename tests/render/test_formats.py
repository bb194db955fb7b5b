"""Digits, units and the direction of rounding.

Conversion factors are those of NIST Special Publication 811 (2008), Appendix B.8; limits of size are those of
ASME B1.1 for 2 1/4-8 UN-2A. Which quantity rounds which way is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from math import radians
from typing import Any, get_args

import pytest

from generator.errors import Location
from generator.render.formats import (
    UNITS,
    digits,
    in_unit,
    limits_written,
    places_needed,
    written,
)
from generator.render.working import working_line
from generator.sheet.figure import Figure, Kind, Quantity, Working
from generator.sheet.model import Sheet
from generator.si import ft_per_min, inch, lbf, mm, rev_per_min, um

FigureMaker = Callable[..., Figure]


def test_every_quantity_has_a_row() -> None:
    assert set(UNITS) == set(get_args(Quantity))


@pytest.mark.parametrize(
    ("quantity", "si_per_inch_unit", "si_per_metric_unit"),
    [
        ("length", 0.0254, 0.001),  # NIST SP 811: inch
        ("fine_length", 0.0254, 0.001),
        ("area", 6.4516e-4, 1e-6),  # square inch
        ("speed", 0.00508, 1 / 60),  # foot per minute
        ("carriage_speed", 0.0254, 0.001),  # inch per second
        ("force", 4.448222, 1.0),  # pound-force
        ("mass", 0.4535924, 1.0),  # pound
        ("pressure", 6894.757, 1e6),  # psi
        ("stiffness", 175.1268, 1e3),  # pound-force per inch
        ("angular_stiffness", 0.1129848, 1.0),  # pound-force inch
        ("second_moment", 4.162314e-7, 1e-12),  # inch to the fourth power
        ("density", 27679.90, 1.0),  # pound per cubic inch
        ("mass_per_length", 1.488164, 1.0),  # pound per foot
        ("power", 745.6999, 1e3),  # horsepower (550 ft·lbf/s)
        ("torque", 1.355818, 1.0),  # pound-force foot
        ("feed", 0.0254, 0.001),
        ("roughness", 2.54e-8, 1e-6),  # microinch
    ],
)
def test_factors_are_those_of_nist_sp_811(
    quantity: Quantity, si_per_inch_unit: float, si_per_metric_unit: float
) -> None:
    row = UNITS[quantity]
    assert row.inch.si == pytest.approx(si_per_inch_unit, rel=5e-7)
    assert row.mm.si == pytest.approx(si_per_metric_unit, rel=5e-7)
    assert row.dual


def test_angles_speeds_of_the_spindle_and_times_have_one_unit_only() -> None:
    single: tuple[Quantity, ...] = (
        "angle", "spindle_speed", "time", "duration", "money", "frequency", "ratio", "count",
    )  # fmt: skip
    assert not any(UNITS[quantity].dual for quantity in single)


@pytest.mark.parametrize(
    ("quantity", "direction"),
    [
        ("speed", "down"), ("spindle_speed", "down"), ("time", "down"), ("frequency", "down"),
        ("carriage_speed", "up"), ("force", "up"), ("mass", "up"), ("length", "nearest"),
        ("power", "up"), ("torque", "up"), ("roughness", "up"), ("duration", "up"), ("money", "up"),
    ],
)  # fmt: skip
def test_what_may_be_relied_on_rounds_down_and_what_must_be_borne_rounds_up(
    quantity: Quantity, direction: str
) -> None:
    assert UNITS[quantity].rounds == direction


@pytest.mark.parametrize(
    ("value", "quantity", "inch_text", "mm_text"),
    [
        (2.2476 * inch, "length", "2.2476 in", "57.089 mm"),
        (47.99 * rev_per_min, "spindle_speed", "47 rpm", "47 rpm"),
        (28.9 * ft_per_min, "speed", "28 ft/min", "8.8 m/min"),
        (32 * rev_per_min * inch / 8, "carriage_speed", "0.067 in/s", "1.70 mm/s"),
        (5.68, "time", "5.6 s", "5.6 s"),
        (3661.0, "time", "1 h 2 min", "1 h 2 min"),
        (324.0, "duration", "5.4 min", "5.4 min"),
        (594.1, "duration", "10.0 min", "10.0 min"),
        (1441.0, "duration", "25 min", "25 min"),
        (4320.0, "duration", "1 h 12 min", "1 h 12 min"),
        (1234.561, "money", "1234.57", "1234.57"),
        (0.005 * inch, "feed", "0.0050 in/rev", "0.127 mm/rev"),
        (1.6 * um, "roughness", "63 µin", "1.6 µm"),
        (161.1 * lbf, "force", "162 lbf", "717 N"),
        (radians(29.5), "angle", "29.5°", "29.5°"),
        (-0.00001 * mm, "length", "0.0000 in", "0.000 mm"),
        (11.5, "tpi", "11.5 per inch", "11.5 per inch"),
        (2.05e11, "pressure", "29\u202f700\u202f000 psi", "205\u202f000 MPa"),
    ],
)
def test_a_value_in_both_units(value: float, quantity: Quantity, inch_text: str, mm_text: str) -> None:
    assert in_unit(value, quantity, "inch") == inch_text
    assert in_unit(value, quantity, "mm") == mm_text


def test_a_limit_keeps_its_printed_digits_though_floats_fall_short_of_it() -> None:
    # 2.2476 in through SI and back is 2.2475999999999998
    assert digits(2.2476 * inch / inch, 4, "down") == "2.2476"
    assert digits(2.2326000000000001, 4, "up") == "2.2326"


def test_limits_in_the_other_unit_round_into_the_tolerance_zone(figure: FigureMaker) -> None:
    # 2.2747 in = 57.77738 mm, 2.2667 in = 57.57418 mm
    high = written(figure(2.2747 * inch, rounds="down"), "inch")
    low = written(figure(2.2667 * inch, rounds="up"), "inch")
    assert (high.text, low.text) == ("2.2747 in (57.777 mm)", "2.2667 in (57.575 mm)")


@pytest.mark.parametrize("thousandth", range(0, 1000, 7))
def test_the_zone_never_grows_by_conversion(figure: FigureMaker, thousandth: int) -> None:
    value = (50 + thousandth / 1000) * mm
    for system in ("inch", "mm"):
        high = written(figure(value, system=system, rounds="down"), "inch")
        low = written(figure(value, system=system, rounds="up"), "inch")
        for text, unit in ((high.first, 1), (high.second, 1), (low.first, -1), (low.second, -1)):
            number, name = text.split()
            shown = float(number) * (inch if name == "in" else mm)
            assert unit * (shown - value) <= 1e-15


def test_two_limits_on_one_line(figure: FigureMaker) -> None:
    low, high = figure(2.2667 * inch, rounds="up"), figure(2.2747 * inch, rounds="down")
    assert limits_written(low, high, "inch").text == "2.2667 – 2.2747 in (57.575 – 57.777 mm)"
    assert limits_written(replace(low, value=None), high, "inch").first == "unknown – 2.2747 in"


@pytest.mark.parametrize(
    ("text", "value", "first", "second"),
    [
        ("1 3/4", 1.75 * inch, "1 3/4 in", "44.45 mm"),
        ("3-1/2 in", 3.5 * inch, "3-1/2 in", "88.9 mm"),
        ("2.250", 2.25 * inch, "2.250 in", "57.15 mm"),
        ("12.7 mm", 12.7 * mm, "12.7 mm", "0.5 in"),
        ("52", 52 * mm, "52 mm", "2.0472 in"),  # written bare in a metric lathe's file
        ("20 thou", 0.020 * inch, "0.0200 in", "0.508 mm"),
    ],
)
def test_a_given_dimension_keeps_its_own_words(
    figure: FigureMaker, text: str, value: float, first: str, second: str
) -> None:
    shown = written(figure(value, kind=Kind.GIVEN, text=text), "inch")
    assert (shown.first, shown.second) == (first, second)


def test_the_conversion_of_a_given_number_is_not_rounded_its_own_way(figure: FigureMaker) -> None:
    # NIST SP 811: 25 kg = 55.1156 lb, 9000 lbf = 40 034 N
    most = figure(25.0, "mass", kind=Kind.SHOP, text="25 kg")
    assert written(most, "inch").text == "25 kg (55.1 lb)"
    assert written(replace(most, rounds="up"), "inch").text == "25 kg (55.2 lb)"
    assert written(figure(9000 * lbf, "force", text="9000 lbf"), "inch").second == "40\u202f000 N"


def test_words_that_name_no_number_of_that_unit_still_stand_on_the_sheet(figure: FigureMaker) -> None:
    assert written(figure(0.020 * inch, text="20 thou"), "inch").as_written == "20 thou"


def test_whole_sizes_have_no_trailing_zeros_but_limits_keep_theirs(figure: FigureMaker) -> None:
    assert written(figure(17 * inch), "inch").text == "17 in (431.8 mm)"
    assert written(figure(2.25 * inch, rounds="down"), "inch").text == "2.2500 in (57.150 mm)"
    assert written(figure(1.25 * mm, system="mm"), "inch").text == "1.25 mm (0.0492 in)"


def test_unknown_stays_unknown(figure: FigureMaker) -> None:
    assert written(figure(None, kind=Kind.UNKNOWN), "inch").text == "unknown"


@pytest.mark.parametrize("value", [float("nan"), float("inf")])
def test_what_is_no_number_is_refused(value: float) -> None:
    with pytest.raises(ValueError, match="cannot be shown"):
        in_unit(value, "length", "inch")


def test_a_dial_column_has_the_fewest_decimals_that_are_true() -> None:
    assert places_needed([0.027, 0.1], 3, 4) == 3
    assert places_needed([0.0275, 0.1], 3, 4) == 4
    assert places_needed([0.02755], 3, 4) == 4


# Workings


def test_the_working_names_its_inputs_then_puts_the_numbers_in(sheet: Sheet) -> None:
    # ASME B1.1: pitch diameter of an external thread, maximum
    assert working_line(sheet.figures["thread.pitch_diameter.max"], "inch") == (
        "Pitch diameter, max = d max − 0.64951905 × P = 2.2476 − 0.64951905 × 0.125 = 2.1664 in"
    )


def test_mixed_units_stand_beside_their_numbers(sheet: Sheet) -> None:
    assert working_line(sheet.figures["relief.time"], "inch") == (
        "Time in the relief = width ÷ carriage speed = 0.375 in ÷ 0.0666667 in/s = 5.6 s"
    )


def test_a_metric_figure_is_worked_in_its_own_unit(figure: FigureMaker) -> None:
    # ISO 68-1: d2 = d − 0.64951905 P; M10 × 1.5 basic pitch diameter 9.026 (ISO 724)
    d2 = figure(
        (10 - 0.64951905 * 1.5) * mm, label="d2", system="mm",
        working=Working("{d} − 0.64951905 × {P}", {"d": (10 * mm, "length"), "P": (1.5 * mm, "length")}),
    )  # fmt: skip
    assert working_line(d2, "inch") == "d2 = d − 0.64951905 × P = 10 − 0.64951905 × 1.5 = 9.026 mm"


def test_a_formula_with_an_input_that_was_not_put_in_is_a_defect(figure: FigureMaker) -> None:
    broken = figure(1.0, working=Working("{a} + {b}", {"a": (1.0, "length")}))
    with pytest.raises(KeyError, match="'b', which was not put in"):
        working_line(broken, "inch")


def test_what_is_squared_stands_in_brackets_with_its_unit(figure: FigureMaker) -> None:
    put: dict[str, tuple[float, Quantity]] = {"F": (200.0, "force"), "D": (10 * mm, "length")}
    stress = figure(2e6, "pressure", label="Stress", working=Working("{F} ÷ {D}²", put))
    assert working_line(stress, "mm") == "Stress = F ÷ D² = 200 N ÷ (10 mm)² = 2.00 MPa"


def test_an_angle_carries_its_sign_and_threads_in_an_inch_are_a_number(figure: FigureMaker) -> None:
    put: dict[str, tuple[float, Quantity]] = {
        "depth": (0.0766 * inch, "length"), "angle": (radians(29.5), "angle"),
    }  # fmt: skip
    travel = figure(0.088 * inch, label="Travel", working=Working("{depth} ÷ cos {angle}", put))
    assert working_line(travel, "inch") == "Travel = depth ÷ cos angle = 0.0766 ÷ cos 29.5° = 0.0880 in"
    pitch = figure(0.125 * inch, "fine_length", label="Pitch",
                   working=Working("1 ÷ {n} inch", {"n": (8, "tpi")}))  # fmt: skip
    assert working_line(pitch, "inch") == "Pitch = 1 ÷ n inch = 1 ÷ 8 inch = 0.125 in"


def test_a_rule_in_one_unit_says_so_once(figure: FigureMaker) -> None:
    rule = figure(0.0080 * inch, label="Tolerance", rounds="down",
                  working=Working("{k} × 0.015 ∛{P}², all in inches",
                                  {"k": (1.0, "ratio"), "P": (0.125 * inch, "fine_length")}))  # fmt: skip
    assert working_line(rule, "inch") == (
        "Tolerance = k × 0.015 ∛P² (all in inches) = 1 × 0.015 ∛0.125² = 0.0080 in"
    )


def test_a_number_nobody_computed_says_who_and_where(figure: FigureMaker, tmp_path: Any) -> None:
    given = figure(1.75 * inch, label="Thread length", kind=Kind.GIVEN, text="1 3/4",
                   where=Location(tmp_path / "job.yml", 21, 4))  # fmt: skip
    assert working_line(given, "inch") == "Thread length: given, written “1 3/4”, job.yml line 21"


def test_a_number_of_any_size_is_written_out() -> None:
    """An absurd job must not stop the page: what it says is wrong stands among the findings."""
    assert digits(1e30, 3) == digits(1e30, 0) + ".000"
    assert digits(1e300, 4).endswith(".0000")
