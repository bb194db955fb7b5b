"""Parallel pipe, British Association, steel conduit and British Standard Cycle threads."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from generator.errors import BadDesignation
from generator.threads.registry import (
    families,
    limits,
    mate_of,
    parse_designation,
    profile,
    write_designation,
)

KEYS = ("G", "BA", "PG", "BSC")
SIZES = [size for family in families() if family.key in KEYS for size in family.sizes()]
READ = {
    "G 3/8 A": ("G", "external", "A", "right", 16.662),
    "G 3/8 B": ("G", "external", "B", "right", 16.662),
    "G 3/8": ("G", "internal", "", "right", 16.662),
    "G3/4A-LH": ("G", "external", "A", "left", 26.441),
    "g 1.1/2 b": ("G", "external", "B", "right", 47.803),
    "G1": ("G", "internal", "", "right", 33.249),
    'G 1/2" male': ("G", "external", "A", "right", 20.955),
    "ISO 228-1 - G 1 1/2 B": ("G", "external", "B", "right", 47.803),
    "ISO 228 - G 1/2 LH": ("G", "internal", "", "left", 20.955),
    "3/8 BSPP": ("G", "internal", "", "right", 16.662),
    "BSP parallel 3/8 male": ("G", "external", "A", "right", 16.662),
    "PF 1/2": ("G", "internal", "", "right", 20.955),
    "2 BA": ("BA", "external", "normal", "right", 4.7),
    "BA2": ("BA", "external", "normal", "right", 4.7),
    "No. 2 B.A. close fit": ("BA", "external", "close", "right", 4.7),
    "#4 BA LH nut": ("BA", "internal", "", "left", 3.6),
    "0 BA": ("BA", "external", "normal", "right", 6.0),
    "20 BA": ("BA", "external", "", "right", 0.48),
    "Pg 13.5": ("PG", "external", "", "right", 20.4),
    "PG16": ("PG", "external", "", "right", 22.5),
    "pg-9 internal": ("PG", "internal", "", "right", 15.2),
    "DIN 40430 - Pg 21": ("PG", "external", "", "right", 28.3),
    "3/8-26 BSC": ("BSC", "external", "", "right", 0.375),
    "5/16 CEI": ("BSC", "external", "", "right", 0.3125),
    "1/2 x 20 cycle thread nut": ("BSC", "internal", "", "right", 0.5),
    "1.370-24 B.S.C. left hand": ("BSC", "external", "", "left", 1.37),
}


def meaning(d):
    return replace(d, text="", nominal_text="", class_assumed=False, pitch_assumed=False, side_assumed=False)


@pytest.mark.parametrize(("text", "says"), READ.items())
def test_read_as_written_at_the_bench(text, says):
    family, side, class_, hand, nominal = says
    d = parse_designation(text)
    assert (d.family, d.side, d.class_, d.hand, d.nominal) == (family, side, class_, hand, nominal)
    assert meaning(parse_designation(write_designation(d))) == meaning(d)
    assert mate_of(d).side != side
    assert meaning(parse_designation(write_designation(mate_of(d)))) == meaning(mate_of(d))


REFUSED = {
    "3/8 BSP": "parallel or taper.*Rc 3/8",
    "G 3/7": "name, not a diameter",
    "G 3/8 C": "not a parallel pipe thread",
    "G 3/8 A nut": "external thread by its class",
    "30 BA": "no 30 BA",
    "BA": "write the number and BA",
    "4 BA close nut": "nuts have no class",
    "20 BA close": "no class",
    "Pg 13": "one of 7, 9, 11, 13.5",
    "0.6 BSC": "not a size of the cycle series",
    "3/8-26 BSC 2A": "not understood",
}


@pytest.mark.parametrize(("text", "why"), REFUSED.items())
def test_refused_with_what_would_do(text, why):
    with pytest.raises(BadDesignation, match=why):
        parse_designation(text)


@pytest.mark.parametrize("size", SIZES, ids=lambda size: size.designation)
def test_external_never_interferes_with_internal(size):
    d = parse_designation(size.designation)
    screw, nut = limits(d), limits(mate_of(d))
    for name in ("major", "pitch_diameter", "minor"):
        assert getattr(screw, name).max <= getattr(nut, name).min + 1e-9


def test_pipe_sizes_are_laid_from_the_basic_size():
    """G 3/4: 26.441, h 1.162, T 0.142 (ISO 228-1, from memory): A one T, B two; inside one T upwards."""
    a, b, inside = (limits(parse_designation(f"G 3/4{one}")) for one in (" A", " B", ""))
    assert (a.pitch_diameter.max, a.pitch_diameter.min) == (25.279, 25.137)
    assert b.pitch_diameter.min == 24.995
    assert (inside.pitch_diameter.min, inside.pitch_diameter.max) == (25.279, 25.421)
    assert a.allowance == 0
    assert a.minor.min is None
    assert inside.major.max is None


def test_pipe_size_over_two_has_the_larger_tolerance():
    two, over = (limits(parse_designation(f"G {size} A")).pitch_tolerance for size in ("2", "2 1/4"))
    assert (two, over) == (0.180, 0.217)


def test_old_name_says_how_it_is_taken():
    said = " ".join(limits(parse_designation("3/8 BSPP")).remarks)
    assert '"3/8 BSPP" is taken as G 3/8' in said
    assert "taken as" not in " ".join(limits(parse_designation("G 3/8")).remarks)
    assert not limits(parse_designation("G 1 3/8 A")).tabulated


def test_two_ba_by_hand():
    """2 BA, P 0.81: the formulas of Machinery's Handbook, 31st ed., p. 2115, worked by hand.

    normal: 0.20 P = 0.162, 0.10 P + 0.025 = 0.106, 0.20 P + 0.05 = 0.212, all 0.025 under the basic sizes;
    close: 0.15 P = 0.1215, 0.08 P + 0.02 = 0.0848, 0.16 P + 0.04 = 0.1696; nut: 0.12 P + 0.03 = 0.1272,
    0.375 P = 0.30375
    """
    normal, close, nut = (limits(parse_designation(t)) for t in ("2 BA", "2 BA close", "2 BA nut"))
    assert (normal.major.max, normal.major.min) == (4.675, 4.513)
    assert (normal.pitch_diameter.max, normal.pitch_diameter.min) == (4.190, 4.084)
    assert (normal.minor.max, normal.minor.min) == (3.705, 3.493)
    assert (close.major.max, close.allowance) == (4.7, 0)
    assert close.pitch_diameter.min == pytest.approx(4.215 - 0.0848, abs=5.1e-4)
    assert close.minor.min == pytest.approx(3.73 - 0.1696, abs=5.1e-4)
    assert nut.pitch_diameter.max == pytest.approx(4.215 + 0.1272, abs=5.1e-4)
    assert nut.minor.max == pytest.approx(3.73 + 0.30375, abs=5.1e-4)
    assert nut.major.max is None


def test_ba_crest_and_allowance_change_at_eleven_and_limits_end_at_sixteen():
    ten, eleven, seventeen = (limits(parse_designation(f"{n} BA")) for n in (10, 11, 17))
    assert (ten.allowance, eleven.allowance) == (0.025, 0)
    assert ten.major_tolerance == pytest.approx(0.2 * 0.35)
    assert eleven.major_tolerance == pytest.approx(0.25 * 0.31, abs=5.1e-4)
    assert seventeen.pitch_tolerance is None
    assert not seventeen.tabulated
    assert seventeen.memory


def test_ba_pitches_fall_by_a_tenth_each():
    """P = 0.9^N to two significant figures, D = 6 P^1.2 to two: the rule of the series (encyclopedia)."""
    for size in next(family for family in families() if family.key == "BA").sizes():
        d = parse_designation(size.designation)
        number, pitch = int(d.nominal_text), 0.9 ** int(d.nominal_text)
        places = 2 if number <= 21 else 3
        assert float(d.pitch) == pytest.approx(pitch, abs=0.51 * 10**-places)
        assert d.nominal == pytest.approx(6 * pitch**1.2, abs=0.051 if d.nominal >= 1 else 0.0051)


def test_conduit_pitch_diameter_stands_without_a_tolerance_and_says_so():
    of = limits(parse_designation("Pg 7"))
    assert (of.pitch_diameter.max, of.pitch_diameter.min) == (11.89, None)
    assert any("No tolerance of the pitch diameter" in remark for remark in of.remarks)
    assert of.memory == "the tolerance of the major diameter"


def test_cycle_quarter_inch_is_not_bsf():
    """Both have 26 threads; the angle tells them apart."""
    cycle, bsf = parse_designation("1/4-26 BSC"), parse_designation("1/4-26 BSF")
    assert math.degrees(profile(cycle).flanks.included) == pytest.approx(60)
    assert math.degrees(profile(bsf).flanks.included) == pytest.approx(55)
    assert any("BSF" in remark for remark in limits(cycle).remarks)
    assert not any("BSF" in remark for remark in limits(parse_designation("3/8-26 BSC")).remarks)
