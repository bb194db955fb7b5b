"""Threads as they are scribbled: spaces, cases, signs, words, order.

The spellings are invented here (common practice, no source); what each must mean is plain from it.
"""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from generator.errors import BadDesignation
from generator.threads.registry import families, parse_designation, write_designation

LINES = (Path(__file__).parent / "scribbled.csv").read_text(encoding="utf-8").splitlines()
ROWS = [(row["scribbled"], row["thread"]) for row in csv.DictReader(LINES[1:])]


@pytest.mark.parametrize(("scribbled", "thread"), ROWS, ids=lambda one: one)
def test_a_scribbled_thread_is_read(scribbled, thread):
    assert write_designation(parse_designation(scribbled)) == thread


def test_there_are_spellings_of_every_family():
    read = {parse_designation(scribbled).family for scribbled, _ in ROWS}
    assert read == {family.key for family in families()}
    assert len(ROWS) > 250


def variants(scribbled):
    """The same with more and with fewer spaces, with other dashes and signs."""
    yield f"  {scribbled}\t"
    yield scribbled.replace(" ", "  ")
    yield scribbled.replace("-", "\u2013")
    yield scribbled.replace("-", " - ")
    yield scribbled.replace(" x ", "x").replace("x", "\u00d7")
    yield scribbled.replace('"', "\u201d")


@pytest.mark.parametrize(("scribbled", "thread"), ROWS, ids=lambda one: one)
def test_spaces_and_signs_do_not_matter(scribbled, thread):
    """Cases do: M10 6g is outside and 6G inside (ISO 965-1)."""
    for variant in variants(scribbled):
        assert write_designation(parse_designation(variant)) == thread, variant


@pytest.mark.parametrize(("scribbled", "words"), [
    ("10/32 UNF 2A", "5/16.*#10-32"),
    ("8/32 unc 2b", "1/4.*#8-32"),
    ("M30/3.5", "fit of two parts"),
    ("MF10", "fine thread without its pitch"),
    ("10x1.25", "neither the M of a metric thread nor a series"),
    ("TR40-7", "pitches 7, 3, 10"),
    ("1/2-13 USF", "nearest are.*1/2-13 UNC-2A"),
    ("3/8 BSP", "parallel or taper"),
    ("1/2 UNC 20 2A", "13 threads per inch|UNF"),
    ("UNC 1/2-13 2A 2B", "1/2-13 UNC-2A"),
    ("N10x1.5-6g", "M10x1.5-6g"),
    ("1 1/4 NTP", "1 1/4-11.5 NPT"),
    ("5/8 BWS", "5/8 BSW"),
    ("Ttr 40x7", "Tr 40x7-7e"),
])
def test_what_cannot_be_meant_for_sure_is_refused_with_what_is_near(scribbled, words):
    with pytest.raises(BadDesignation, match=words):
        parse_designation(scribbled)
