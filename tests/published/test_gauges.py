"""Thread gauges against print: pitch diameters of rings and plugs, crests, turns of the no-go gauge.

Sources, named beside each value in data/gauges.csv: gauge makers' charts of pitch diameters (metric 6g and
6H, Unified 2A and 3A), a calibrator's worked example after ANSI/ASME B1.16M-1984. Turns: ASME B1.2-1983,
5.2.1, as calibrators quote it (three); ISO 1502 and JIS B 0251 as gauge makers' instructions print them
(two). Which threads BS 919-2:2007 is for, and its advice against no-go rings: its scope as printed; that
DIN 103-9 has the gauges of trapezoidal threads: foreword of DIN 405-3:1997. What a go and a no-go gauge reach
to: ASME B1.2-1983 as quoted. One row is from memory.
Left out: no-go rings of 9/16-24 UNEF, whose printed pitch limits are known to be 0.0001 off the formula's.
"""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from generator.threads.gauging import LimitGauges, TaperGauges, limit_gauge_lines
from generator.threads.registry import families, family_of, limits, mate_of, parse_designation, profile

with (Path(__file__).parent / "data" / "gauges.csv").open(encoding="utf-8", newline="") as file:
    ROWS = list(csv.DictReader(file))

EVERY = [
    pytest.param(d, id=f"{d.family} {d.side} {example}")
    for family in families()
    for example in family.examples
    for d in (parse_designation(example), mate_of(parse_designation(example)))
]


def gauging_of(d):
    return family_of(d).gauging(d)


def gauge_sizes(d):
    return {line.name: line.value for line in limit_gauge_lines(limits(d), gauging_of(d))}


def test_most_rows_are_read_in_print():
    assert len(ROWS) > 60
    assert sum("memory" in row["source"] for row in ROWS) <= 2


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row['designation']} {row['gauge']}")
def test_table_gauge_sizes(row):
    assert gauge_sizes(parse_designation(row["designation"]))[row["gauge"]] == float(row["value"])


@pytest.mark.parametrize(
    ("text", "turns"), [("1/2-13 UNC-2A", 3), ("8-12 UN-2B", 3), ("M10x1.5-6g", 2), ("M10x1.5-6H", 2)]
)
def test_table_turns_of_the_no_go_gauge(text, turns):
    """ASME B1.2-1983, 5.2.1: not more than three turns. ISO 1502, JIS B 0251: not more than two."""
    gauging = gauging_of(parse_designation(text))
    assert gauging.turns == turns
    assert "turns" not in gauging.remembered


@pytest.mark.parametrize("text", ["1/4-20 UNC-2A", "3/4-10 UNC-3A", "2-8 UN-2A", "M6x1-6g", "M24x3-6g"])
def test_a_go_ring_reaches_to_the_root_of_the_largest_screw(text):
    """Its bore is the reference minor diameter of the screw's tables (ASME B1.1; ISO 965-2: d1)."""
    d = parse_designation(text)
    step = 10 ** -limits(d).places
    assert gauge_sizes(d)["gauge.go.crest"] == pytest.approx(limits(d).minor.max, abs=1.01 * step)


@pytest.mark.parametrize("text", ["#10-32 UNF-2B", "1/2-13 UNC-2B", "8-12 UN-3B", "M5x0.8-6H", "M64x2-6H"])
def test_a_no_go_plug_is_larger_on_the_flanks_and_smaller_outside(text):
    """ASME B1.2 as quoted: the no-go plug's outside is always below the go plug's, with 60 degrees."""
    d = parse_designation(text)
    sizes = gauge_sizes(d)
    assert sizes["gauge.no_go"] > sizes["gauge.go"]
    assert sizes["gauge.no_go.crest"] < sizes["gauge.go.crest"] == limits(d).major.min


@pytest.mark.parametrize("d", EVERY)
def test_every_family_is_gauged(d):
    """Go at most material, no-go at least; a taper thread by how far a gauge goes; a square one not."""
    gauging, of = gauging_of(d), limits(d).pitch_diameter
    if profile(d).square:
        assert gauging is None
        return
    if isinstance(gauging, TaperGauges):
        what = "plug" if d.internal else "ring"
        assert what in gauging.gauges
        assert {"plug": "ring", "ring": "plug"}[what] not in gauging.gauges + gauging.plain
        return
    assert isinstance(gauging, LimitGauges)
    assert not profile(d).taper
    sizes = gauge_sizes(d)
    most, least = (of.min, of.max) if d.internal else (of.max, of.min)
    assert (sizes.get("gauge.go"), sizes.get("gauge.no_go")) == (most, least)
    assert most is not None


@pytest.mark.parametrize("text", ["5/8 BSW", "3/8 in - 20 BSF (free)", "2 BA (normal)", "3/8-26 BSC"])
def test_british_screws_are_gauged_by_their_own_standard(text):
    """BS 919-2:2007, scope: Whitworth, fine, BA and cycle threads; no-go rings are not recommended."""
    d = parse_designation(text)
    assert gauging_of(d).standard == "BS 919-2"
    assert "caliper" in gauging_of(d).remark
    assert not gauging_of(mate_of(d)).remark


def test_a_family_that_says_nothing_is_gauged_by_the_general_rule():
    d = parse_designation("S48x8-7h")
    assert gauging_of(d) == LimitGauges()
    assert gauge_sizes(d) == {"gauge.go": 42.0, "gauge.no_go": 41.6}


@pytest.mark.parametrize("text", ["Rp 1/8", "Rp 1/2", "Rp 2", "Rp 6"])
def test_a_parallel_pipe_thread_stands_off_a_taper_plug_by_its_tolerance(text):
    """ISO 7-1: the turns that the plug may stand off are the table's tolerance of the three diameters."""
    values = {line.name: line.value for line in limits(parse_designation(text)).lines}
    turns = values["gauge.turns_each_way"] * values["gauge.per_turn"]
    assert turns == pytest.approx(values["gauge.plus_minus"], abs=0.0011)
