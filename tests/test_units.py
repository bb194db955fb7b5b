"""The number grammar and the units of each kind, against exact fractions and published conversion factors.

Factors: NIST SP 811 (2008), appendix B.8: 1 in = 25.4 mm, 1 ft = 0.3048 m, 1 lb = 0.45359237 kg,
1 lbf = 4.448222 N, 1 kgf = 9.80665 N, 1 psi = 6.894757 kPa, 1 bar = 100 kPa, 1 hp (550 ft lbf/s) =
745.6999 W, 1 lb/in^3 = 27679.90 kg/m^3, 1 lbf in = 0.1129848 N m, 1 lbf ft = 1.355818 N m,
1 lbf/in = 175.1268 N/m; all but the first four exact ones to seven digits as printed.
"""

from __future__ import annotations

import math
import random
from fractions import Fraction

import pint
import pytest

from generator.errors import BadQuantity
from generator.quantities import QUANTITIES
from generator.units import factor, pattern, read_amount, read_number


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("12", "12"),
        ("12.5", "12.5"),
        (".5", "1/2"),
        ("0.5", "1/2"),
        ("1/2", "1/2"),
        ("3 1/2", "7/2"),
        ("3-1/2", "7/2"),
        ("2.250", "9/4"),
        ("11/4", "11/4"),
        ("0", "0"),
        ("10", "10"),
        ("3   1/2", "7/2"),
        ("1/64", "1/64"),
        ("0.0625", "1/16"),
    ],
)
def test_numbers_a_machinist_writes_are_exact(text: str, value: str) -> None:
    assert read_number(text) == Fraction(value)


def test_every_sixty_fourth_reads_alike_in_all_ways_of_writing() -> None:
    for whole in (1, 2, 17):
        for part in range(1, 64):
            exact = whole + Fraction(part, 64)
            proper = exact - whole
            tail = f"{proper.numerator}/{proper.denominator}"
            for text in (
                f"{whole} {tail}",
                f"{whole}-{tail}",
                f"{float(exact):.6f}",
                f"{exact.numerator}/{exact.denominator}",
            ):
                assert read_number(text) == exact, text


@pytest.mark.parametrize(
    "text",
    [
        "",
        " ",
        "1,5",
        "1,000",
        "1.000,5",
        "+1",
        "-1",
        "−1",
        "nan",
        "inf",
        "1e3",
        "010",
        "00",
        "00.5",
        "1:30",
        "1/0",
        "0/1",
        "1 3/2",
        "1 2/2",
        "0 1/2",
        "1.5 1/2",
        "1/2/3",
        "1_000",
        "1 000",
        "12.",
        ".",
        "/",
        "-",
        "1.2.3",
        "½",
        "3½",
        "１２",
        "٣",
        "1 - 1/2",
        "1- 1/2",
        "1 1/2 1/4",
        "0x10",
        "1/2.5",
        "1\n2",
        "9" * 41,
        "1/-2",
        "--1",
        "1--1/2",
    ],
)
def test_anything_else_is_refused_with_a_reason(text: str) -> None:
    with pytest.raises(BadQuantity) as caught:
        read_number(text)
    assert len(str(caught.value)) > 15


@pytest.mark.parametrize(
    ("text", "quantity", "si"),
    [
        ("3-1/2 in", "length", 0.0889),
        ('1/16"', "length", 0.0015875),
        ("20 thou", "length", 0.000508),
        ("12.7 mm", "length", 0.0127),
        ("1 in", "length", 0.0254),
        ("2 ft", "length", 0.6096),
        ("0.5 m", "length", 0.5),
        ("1.5 cm", "length", 0.015),
        ("2.250in", "length", 0.05715),
        ("3 1/2in", "length", 0.0889),
        ("5 um", "length", 5e-6),
        ("5 µm", "length", 5e-6),
        ("5 μm", "length", 5e-6),
        ("6'", "length", 1.8288),
        ("100 ft/min", "speed", 0.508),
        ("100 fpm", "speed", 0.508),
        ("100 sfm", "speed", 0.508),
        ("30 m/min", "speed", 0.5),
        ("60 rpm", "spindle_speed", 1.0),
        ("60", "spindle_speed", 1.0),
        ("60 rev/min", "spindle_speed", 1.0),
        ("60 1/min", "spindle_speed", 1.0),
        ("60 r/min", "spindle_speed", 1.0),
        ("2 rev/s", "spindle_speed", 2.0),
        ("0.005 in/rev", "feed", 0.000127),
        ("0.12 mm/rev", "feed", 0.00012),
        ("1000 N", "force", 1000.0),
        ("2.5 kN", "force", 2500.0),
        ("1 lbf", "force", 4.448222),
        ("1 kgf", "force", 9.80665),
        ("1 psi", "pressure", 6894.757),
        ("1 ksi", "pressure", 6894757.0),
        ("10 bar", "pressure", 1e6),
        ("1 MPa", "pressure", 1e6),
        ("205 GPa", "pressure", 205e9),
        ("1 N/mm^2", "pressure", 1e6),
        ("1 lb", "mass", 0.45359237),
        ("2 kg", "mass", 2.0),
        ("500 g", "mass", 0.5),
        ("1 t", "mass", 1000.0),
        ("16 oz", "mass", 0.45359237),
        ("90", "angle", math.pi / 2),
        ("29.5 deg", "angle", math.radians(29.5)),
        ("29.5°", "angle", math.radians(29.5)),
        ("29 1/2", "angle", math.radians(29.5)),
        ("29°30'", "angle", math.radians(29.5)),
        ("0", "angle", 0.0),
        ("1.5 s", "time", 1.5),
        ("2 min", "time", 120.0),
        ("1 1/2 h", "time", 5400.0),
        ("1 hp", "power", 745.6999),
        ("5.5 kW", "power", 5500.0),
        ("1 lbf ft", "torque", 1.355818),
        ("1 lbf in", "torque", 0.1129848),
        ("40 N m", "torque", 40.0),
        ("7850 kg/m^3", "density", 7850.0),
        ("1 lb/in^3", "density", 27679.90),
        ("7.85 g/cm^3", "density", 7850.0),
        ("1 lbf/in", "stiffness", 175.1268),
        ("50 N/um", "stiffness", 5e7),
        ("3 N/mm", "stiffness", 3000.0),
        ("2 N m/rad", "angular_stiffness", 2.0),
        ("2000 N mm/rad", "angular_stiffness", 2.0),
        ("1 kN  m/rad", "angular_stiffness", 1000.0),
        ("11 1/2", "ratio", 11.5),
    ],
)
def test_units_convert_as_published(text: str, quantity: str, si: float) -> None:
    """NIST SP 811, appendix B.8, to the seven digits printed there."""
    assert read_amount(text, quantity).si == pytest.approx(si, rel=5e-7)


def test_100_feet_a_minute_on_2_inches_is_191_turns_a_minute() -> None:
    """12 × 100 ÷ (π × 2) = 190.99 rpm; a unit library that takes a turn for 2π radians gives 30.4."""
    speed, diameter = read_amount("100 ft/min", "speed").si, read_amount("2 in", "length").si
    turns = speed / (math.pi * diameter)
    assert turns / read_amount("1 rpm", "spindle_speed").si == pytest.approx(190.99, abs=0.005)


def test_factors_agree_with_the_unit_library() -> None:
    """Every factor that is not written out by hand, asked again in floats."""
    ask = pint.UnitRegistry()
    for name, quantity in QUANTITIES.items():
        target = quantity.si.replace(" ", "*").replace("^", "**").replace("rad", "radian")
        for spelling, given in quantity.units.items():
            if isinstance(given, str):
                expected = ask.Quantity(1.0, given).to("m" if name == "feed" else target).magnitude
                assert float(factor(name, spelling)) == pytest.approx(expected, rel=1e-12), spelling


def test_bare_numbers_take_the_unit_that_is_said() -> None:
    assert read_amount("2 1/4", "length", "in").si == 0.05715
    assert read_amount("57.15", "length", "mm").si == pytest.approx(0.05715, rel=1e-15)
    assert read_amount("2 1/4 in", "length", "mm").si == 0.05715
    with pytest.raises(BadQuantity) as caught:
        read_amount("2 1/4", "length")
    assert caught.value.no_unit


def test_a_unit_of_another_kind_is_named_as_what_it_is() -> None:
    for text, quantity, says in [
        ("2 kg", "length", '"2 kg" is a mass, a length is wanted: write 2.5 in or 64 mm'),
        ("2 in", "force", '"2 in" is a length, a force is wanted: write 500 lbf or 2.2 kN'),
        ("2 lb", "force", '"2 lb": lb is a mass: write lbf for the force'),
        (
            "2 N/m",
            "angular_stiffness",
            '"2 N/m" is a stiffness, an angular stiffness is wanted: write 200000 N m/rad',
        ),
    ]:
        with pytest.raises(BadQuantity) as caught:
            read_amount(text, quantity)
        assert str(caught.value) == says


def test_signs_are_refused_before_units() -> None:
    for text in ("-2 in", "+2 in", "−2 in"):
        with pytest.raises(BadQuantity, match="has a sign"):
            read_amount(text, "length")


def test_bounds_refuse_what_no_shop_means() -> None:
    for text, quantity in [
        ("100 m", "length"),
        ("20000 rpm", "spindle_speed"),
        ("0 in", "length"),
        ("0 lbf", "force"),
        ("180 deg", "angle"),
        ("3001 m/min", "speed"),
    ]:
        with pytest.raises(BadQuantity):
            read_amount(text, quantity)
    assert read_amount("0 in", "length", zero=True).si == 0


def test_the_schema_pattern_takes_what_the_reader_takes() -> None:
    """Each unit of each kind, glued and spaced, fits the pattern; a unit of another kind does not."""
    import re

    for name, quantity in QUANTITIES.items():
        for unit in quantity.units:
            for text in (f"1/2 {unit}", f"0.25{unit}", f".5 {unit}"):
                if unit != "1/min" or " " in text:
                    assert read_amount(text, name).unit == unit
                    assert re.search(pattern(name), text), text
    for text, name in [
        ("2 kg", "length"),
        ("1,5 mm", "length"),
        ("-1", "ratio"),
        ("010", "ratio"),
        ("3 in", "force"),
    ]:
        assert not re.search(pattern(name), text)


def test_random_text_is_read_or_refused() -> None:
    """Nothing but BadQuantity ever comes out, and what is read is a finite number above zero."""
    random_ = random.Random(29)
    signs = "0123456789./-,_+ :eE'\"°″½nmikgfNrpdtu²³*\t\n\x00٣"
    for _ in range(20000):
        text = "".join(random_.choice(signs) for _ in range(random_.randint(0, 9)))
        for name in ("length", "angle", "spindle_speed", "ratio"):
            try:
                amount = read_amount(text, name, "in" if name == "length" else None)
            except BadQuantity:
                continue
            assert math.isfinite(amount.si)
            assert amount.si >= 0
