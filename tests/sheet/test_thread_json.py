"""The record of one thread: its keys are a contract, its numbers are the tables'."""

from __future__ import annotations

import json
import math

import pytest

from generator.errors import BadDesignation, BadQuantity, OutsideRange, SheetError
from generator.sheet.thread_json import thread_record
from generator.threads.registry import families, mate_of, parse_designation, write_designation

KEYS = [
    "designation", "family", "class", "hand", "starts", "unit", "pitch", "lead", "major", "pitch_diameter",
    "minor", "lead_angle_deg", "wires", "standard_form",
    "memory", "plane",
]


@pytest.mark.parametrize(
    "text",
    ["2 1/4-8 UN-2A", "M10x1.5-6g", "M16xPh3 P1.5-6g", "1/2-13 UNRC-3A-LH", "M1.2", "2-8 UN-2B", "M10-5H6H"],
)
def test_keys_are_exactly_the_contract(text):
    record = thread_record(text)
    assert list(record) == KEYS
    assert list(record["wires"]) == ["best", "size", "over_wires"]
    for pair in (record["major"], record["pitch_diameter"], record["minor"], record["wires"]["over_wires"]):
        assert sorted(pair) == ["max", "min"]
    assert json.loads(json.dumps(record, allow_nan=False)) == record


def test_a_published_inch_row():
    """2 1/2-8 UN-2A: Machinery's Handbook, 27th ed., p. 1755; lead angle by ASME B1.7."""
    record = thread_record("2 1/2-8 UN-2A-LH")
    assert record["major"] == {"max": 2.4976, "min": 2.4826}
    assert record["pitch_diameter"] == {"max": 2.4164, "min": 2.4082}
    assert record["minor"]["min"] is None
    assert (record["family"], record["class"], record["hand"], record["unit"]) == ("UN", "2A", "left", "in")
    assert (record["pitch"], record["lead"], record["starts"]) == (0.125, 0.125, 1)
    assert record["wires"]["size"] == 0.0722


def test_the_pin_over_its_wire():
    """M = E + 3 W - 0.866025 P at the limits, W 0.0722 (NBS Handbook H28)."""
    over = thread_record("2 1/4-8 UN-2A", wire=0.0722)["wires"]["over_wires"]
    assert over == {"max": 2.2747, "min": 2.2667}


def test_a_published_metric_row():
    """M10 x 1.5 - 6g: Machinery's Handbook, 27th ed., external metric thread limits."""
    record = thread_record("M10 - 6g")
    assert record["major"] == {"max": 9.968, "min": 9.732}
    assert record["pitch_diameter"] == {"max": 8.994, "min": 8.862}
    assert record["minor"] == {"max": 8.344, "min": 7.938}
    assert record["unit"] == "mm"
    assert record["wires"]["best"] == 0.866025


def test_an_internal_thread_has_no_major_max_and_no_size_over_wires():
    """1-8 UNC-2B: ASME B1.1 standard series, 0.865-0.890, 0.9188-0.9276."""
    record = thread_record("1-8 UNC-2B")
    assert record["major"] == {"max": None, "min": 1.0}
    assert record["minor"] == {"max": 0.890, "min": 0.865}
    assert record["pitch_diameter"] == {"max": 0.9276, "min": 0.9188}
    assert record["class"] == "2B"
    assert record["wires"] == {"best": 0.072169, "size": None, "over_wires": {"max": None, "min": None}}
    with pytest.raises(BadQuantity, match="wires do not go inside"):
        thread_record("1-8 UNC-2B", wire=0.0722)


EXAMPLES = [
    text for family in families() for example in family.examples
    for text in (example, write_designation(mate_of(parse_designation(example))))
]


@pytest.mark.parametrize("text", EXAMPLES)
@pytest.mark.parametrize("wire", [None, 0.0, -1.0, math.nan, math.inf, 1e9, 1e-9, 0.05, 0.9, 3.7])
def test_every_family_in_and_out_with_any_wire(text, wire):
    """A record that other programs can read, or a refusal in words; never anything else."""
    try:
        record = thread_record(text, wire)
    except SheetError:
        record = {}
    if not record:
        assert wire is not None
        return
    assert list(record) == KEYS
    assert json.loads(json.dumps(record, allow_nan=False)) == record
    used, over = record["wires"]["size"], record["wires"]["over_wires"]
    assert (used is None) == (over["max"] is None)
    if used is not None:
        assert over["max"] > record["major"]["max"] or record["plane"]
    again = parse_designation(record["standard_form"])
    assert write_designation(again) == record["standard_form"]


def test_buttress_threads_are_measured_over_wires():
    """M = E − 0.89064 P + 3.15689 W, best wire 0.54147 P (ASME B1.9, from memory)."""
    record = thread_record("2.5-8 BUTT-2A")
    assert record["wires"]["best"] == pytest.approx(0.54147 / 8, abs=2e-6)
    wire = record["wires"]["size"]
    for end in ("max", "min"):
        expected = record["pitch_diameter"][end] - 0.89064 / 8 + 3.15689 * wire
        assert record["wires"]["over_wires"][end] == pytest.approx(expected, abs=1e-4)


@pytest.mark.parametrize(
    ("text", "says"), [("1 1/4-4 SQUARE", "width of the groove"), ("1/2-14 NPT", "taper ring gauge decides")]
)
def test_what_measures_where_wires_do_not(text, says):
    with pytest.raises(BadQuantity, match=says):
        thread_record(text, wire=0.05)


def test_what_is_said_beside_the_sizes():
    """How the standard writes it, where the limits of a taper thread are, what is from memory only."""
    assert thread_record("1 1/4 - 7unc 2a lh")["standard_form"] == "1 1/4-7 UNC-2A-LH"
    assert thread_record("1/2-14 NPT")["plane"] == "the small end, where the thread starts"
    assert thread_record("M10x1.5-6g")["plane"] == ""
    assert thread_record("1-5 STUB ACME")["memory"]
    assert thread_record("1/2-14 NPT")["wires"]["over_wires"] == {"max": None, "min": None}


def test_lead_goes_with_the_starts():
    record = thread_record("M16xPh3 P1.5-6g")
    assert (record["pitch"], record["lead"], record["starts"]) == (1.5, 3.0, 2)
    assert record["lead_angle_deg"] == pytest.approx(3.64, abs=0.01)


@pytest.mark.parametrize("wire", [0.0, -0.07, 0.0631, 0.1263, float("nan"), float("inf")])
def test_a_wire_that_does_not_seat(wire):
    """60 degree thread of 8 per inch: 0.50518 P to 1.01036 P by geometry."""
    with pytest.raises(OutsideRange, match="wires that seat on the flanks"):
        thread_record("2-8 UN-2A", wire=wire)


@pytest.mark.parametrize(("text", "error"), [("2-8 UN-2X", BadDesignation), ("M400x6", OutsideRange)])
def test_what_has_no_record(text, error):
    assert issubclass(error, SheetError)
    with pytest.raises(error):
        thread_record(text)
