"""What could only be had from memory is marked: in the table's head, at each thread it touches, on the site.

A table whose head says memory stands here with a thread that it touches, its words, and one that it does
not; or it says only which sizes a series has, and no figure comes from it.
"""

from __future__ import annotations

import csv
import re
from importlib.resources import files
from pathlib import Path

import pytest

from generator.job.thread_print import from_memory, thread_tables
from generator.threads.registry import families, limits, parse_designation

MARKED = re.compile(r"\bmemory\b")
# table: a thread that it touches, words of the mark, a thread of the same family that it does not touch
TOUCHED = {
    "acme_allowances.csv": ("5-2-ACME-3G", "allowance of this size in class 3G", "1-5-ACME-3G"),
    "ba.csv": ("18 BA", "diameter and pitch", "2 BA"),
    "iso228_sizes.csv": ("G 4 A", "basic sizes over 2 3/4", None),
    "iso228_tolerances.csv": ("G 1/2 A", "tolerance of the pitch diameter", None),
    "iso7_sizes.csv": ("R 1/2", "wrenching allowance", "Rp 1/2"),
    "metric_crest.csv": ("M20x2.5-6e", "deviation of position e", "M20x2.5-6g"),
    "metric_pitch_diameter.csv": ("M80x1.5-6g", "tolerance of the pitch diameter", "M42x1.5-6g"),
    "national_tolerances.csv": ("1/2-13 NC-1", "class 1 for 13 threads", "1/4-20 NC-2"),
    "nptf_truncation.csv": ("1/2-14 NPTF", "truncations", None),
    "old_metric_series.csv": ("SI 30x3.5", "standard pitch of this diameter", "SI 20x2.5"),
    "pg.csv": ("Pg 16", "tolerance of the major diameter", None),
    "sawtooth_tolerances.csv": ("S48x8-7h", "tolerances and deviations", None),
    "tr_pitch_diameter.csv": ("Tr 20x8-7e", "tolerance of the pitch diameter", "Tr 16x3-7e"),
    "tr_pitches.csv": ("Tr 40x7-7e", "deviation of class 7e", "Tr 16x3-7e"),
    "unified_series.csv": ("1-12 UNF-2A", "the UNF series has this size", "3/4-16 UNF-2A"),
    "whitworth_series.csv": ("1/4-40 ME", "the ME series has this size", "1/4-26 BSB"),
}
# What stands in these decides no figure: which sizes a series has, where the pitch is always written.
ONLY_LISTS = {
    "buttress_diameters.csv", "buttress_series.csv", "metric_fine.csv", "old_inch_series.csv",
    "sawtooth_series.csv", "sharp_v.csv", "square.csv", "tr_series.csv", "unified_constant_pitch.csv",
}
# Figures in the modules that are from memory: a thread with the mark, its words, one without them.
IN_MODULES = [
    ("5-4 UN-2A", "4-UN series", "5-12 UN-2A"),
    ("1-3.5 UNS-2B", "under 4 threads per inch", "1-8 UNC-2B"),
    ("1-5 STUB ACME M1", "height of the modified form M1", "1-5 STUB ACME"),
    ("1-5 STUB ACME M2 internal", "height of the modified form M2", "1-5 STUB ACME internal"),
    ("1 5/16-5-ACME-2G", "diameter between the listed ones", "1-5-ACME-2G"),
    ("2.5-8 BUTT-1A", "tolerances of class 1", "2.5-8 BUTT-2A"),
    ("Rc 1/2", "place of the gauge plane", "Rp 1/2"),
    ("Tr 40x14(P7)-7e", "factor for several starts", "Tr 40x7-7e"),
    ("1/2 BSW", "formulas of the tolerances", None),
    ("M200x3-6g", "lengths of engagement", "M100x3-6g"),
]


def test_every_table_from_memory_is_known_here():
    marked = {one.file for one in thread_tables() if MARKED.search(one.head)}
    assert marked == TOUCHED.keys() | ONLY_LISTS


def test_a_column_of_memory_is_named_in_the_head():
    """And a table whose head does not speak of memory marks no row."""
    for path in Path(str(files("generator.threads.families"))).rglob("*.csv"):
        lines = path.read_text(encoding="utf-8").splitlines()
        head = " ".join(line for line in lines if line.startswith("#"))
        rows = list(csv.DictReader(line for line in lines if not line.startswith("#")))
        if any(row[name] for row in rows for name in row if name.startswith("memory")):
            assert MARKED.search(head), path


@pytest.mark.parametrize(
    ("touched", "words", "other"), [*TOUCHED.values(), *IN_MODULES], ids=lambda one: str(one)
)
def test_a_figure_from_memory_is_marked_where_it_is_used_and_nowhere_else(touched, words, other):
    assert words in limits(parse_designation(touched)).memory
    if other is not None:
        assert words not in limits(parse_designation(other)).memory


def test_the_site_names_every_family_that_has_a_mark():
    """Every family whose tables or modules speak of memory, but for those that only list sizes."""
    said = {one.family for one in from_memory()}
    names = {family.key: family.name for family in families()}
    for touched, _, _ in [*TOUCHED.values(), *IN_MODULES]:
        assert names[parse_designation(touched).family] in said


@pytest.mark.parametrize(
    "text", ["2-8 UN-2A", "1/2-13 UNC-2B", "M10x1.5-6g", "M24x3-6H", "1/2-14 NPT", "Rp 1/2", "1-5-ACME-2G"]
)
def test_what_was_read_in_print_has_no_mark(text):
    assert limits(parse_designation(text)).memory == ""
