"""Thread gauges and the thread micrometer on the sheet: sizes, what they prove, turns, where they do not go.

Turns: ASME B1.2-1983, 5.2.1 (three), ISO 1502 as gauge makers print it (two). Sizes are compared with print
in tests/published/test_gauges.py. That crest faces crest with an even number of starts is geometry.
"""

from __future__ import annotations

import pytest

from generator.si import inch, mm


def of(sheet):
    return {name: figure for name, figure in sheet.figures.items() if name.startswith("measure.")}


def cut(sheet_of, designation, fit="wires"):
    return sheet_of({"2 1/4-8 UN-2A, length: 2 1/2": f"{designation}, length: 2 1/2 in, fit: {fit}"})


def test_a_screw_has_rings_at_its_limits(sheet_of):
    """2 1/4-8 UN-2A, pitch limits of ASME B1.1's tables."""
    figures = of(cut(sheet_of, "2 1/4-8 UN-2A", "gauge"))
    assert figures["measure.gauge.go"].value == pytest.approx(2.1664 * inch)
    assert figures["measure.gauge.no_go"].value == pytest.approx(2.1584 * inch)
    assert figures["measure.gauge.go"].label.startswith("Go ring gauge")
    assert figures["measure.gauge.no_go.turns"].value == 3
    assert figures["measure.gauge.no_go.turns"].source == "ASME B1.2"


def test_the_crests_of_the_gauges_are_laid_where_a_gauge_decides(sheet_of):
    assert not {"measure.gauge.go.crest", "measure.gauge.no_go.turns"} & set(of(sheet_of()))
    figures = of(cut(sheet_of, "2 1/4-8 UN-2A", "gauge"))
    assert figures["measure.gauge.go.crest"].label == "Go ring gauge, bore"
    assert figures["measure.gauge.no_go.crest"].note == "from memory, check your copy"


def test_each_gauge_says_what_it_proves_and_what_not(sheet_of):
    figures = of(sheet_of())
    go, no_go = figures["measure.gauge.go"].note, figures["measure.gauge.no_go"].note
    assert all(word in go for word in ("whole length", "lead", "flanks", "Not the major diameter"))
    assert all(word in no_go for word in ("on 3 turns at most", "flanks alone", "Not lead, depth or taper"))
    without = figures["measure.gauge.without"]
    assert without.value == "wires, or the mate"
    assert all(word in without.note for word in ("one place", "plain ring gauge", "no size"))


def test_turns_that_no_print_gave_say_so(sheet_of):
    """The standard of Acme threads was not there to read; that of Unified gauges is quoted."""
    acme, unified = (
        of(cut(sheet_of, text))["measure.gauge.no_go"].note for text in ("2 1/4-3-ACME-2G", "2 1/4-8 UN-2A")
    )
    assert "on 3 turns at most (from memory)" in acme
    assert "from memory" not in unified


def test_a_few_figures_say_it(sheet_of):
    for fit, count in (("wires", 4), ("gauge", 7), ("mate", 4)):
        names = of(cut(sheet_of, "2 1/4-8 UN-2A", fit))
        assert sum(name.startswith(("measure.gauge", "measure.micrometer")) for name in names) == count


@pytest.mark.parametrize(
    ("designation", "anvils"),
    [
        ("2 1/4-8 UN-2A", "60° anvils for 8 threads per inch"),
        ("2 1/4 in - 4 BSW", "55° anvils for 4 threads per inch"),
        ("M56x5.5-6g", "60° anvils for 5.5 mm pitch"),
        ("2 1/4-3-ACME-2G", "29° anvils for 3 threads per inch"),
        ("Tr 56x9-7e", "30° anvils for 9 mm pitch"),
        ("2.25-0.25P-0.5L-ACME-2G", "not for this thread"),
        ("2.25-0.125P-0.375L-ACME-2G", "29° anvils for 8 threads per inch"),
        ("2.25-8 BUTT-2A", "not for this thread"),
    ],
)
def test_the_micrometer_has_the_anvils_of_the_flanks(sheet_of, designation, anvils):
    """An even number of starts sets crest against crest, unlike flanks seat in no V: it does not measure."""
    assert of(cut(sheet_of, designation))["measure.micrometer"].value == anvils


def test_a_steep_thread_is_compared_and_not_read(sheet_of):
    gentle, steep = (
        of(cut(sheet_of, text))["measure.micrometer"].note
        for text in ("2 1/4-8 UN-2A", "2.25-0.25P-0.75L-ACME-2G")
    )
    assert "set it on a thread standard" in gentle
    assert "6.4°" in steep
    assert "compare it" in steep


@pytest.mark.parametrize("designation", ["2 1/4-4 SQUARE", "2-11.5 NPT"])
def test_no_micrometer_for_square_and_taper_threads(sheet_of, designation):
    figures = of(cut(sheet_of, designation))
    assert "measure.micrometer" not in figures
    assert "measure.gauge.go" not in figures
    assert "the mate" in figures["measure.gauge.without"].value


def test_a_dryseal_thread_has_two_rings_and_one_for_the_crests(sheet_of):
    """ASME B1.20.5, as gauge makers print its use: L1 and L2 alike within half a turn; then the crests."""
    sheet = cut(sheet_of, "2-11.5 NPTF-1")
    figures = of(sheet)
    assert figures["measure.gauge.set"].value == "L1 and L2 ring gauges"
    assert figures["measure.gauge.apart"].value == 0.5
    assert [line.feature for line in sheet.inspection][1:4] == [
        "Taper gauge off flush, turns, by hand", "Second gauge off the first, turns",
        "Crests: at the step that goes with it",
    ]


def test_a_nut_has_plugs(sheet_of):
    """M64 x 2 - 6H: D2 62.701 to 62.937 (ISO 965-2); not-go outside 0.2 P over it (ANSI/ASME B1.16M)."""
    text = """\
job: T-5
title: Housing
units: mm
lathe: metric
material: 1045 steel
material_known_by: stamp
work:
  - {length: 60, od: 90, bore: 61.9}
holding:
  chuck: {jaws: 4, grip: 30}
mate: unknown
duty: {said: holds a lamp, by: customer}
operations:
  - thread: {designation: M64x2-6H, length: 20, fit: gauge}
"""
    figures = of(sheet_of(text=text))
    assert figures["measure.gauge.go"].value == pytest.approx(62.701 * mm)
    assert figures["measure.gauge.go.crest"].value == pytest.approx(64 * mm)
    assert figures["measure.gauge.no_go.crest"].value == pytest.approx(
        figures["measure.gauge.no_go"].value + 0.4 * mm
    )
    assert figures["measure.gauge.no_go.turns"].value == 2
    assert figures["measure.micrometer"].value == "60° points for 2 mm pitch"
    assert "Not the bore" in figures["measure.gauge.go"].note
