"""Steps that some work needs and other work does not. Order of steps: common practice, no source."""

from __future__ import annotations

import pytest


def texts(sheet):
    return [step.text for step in sheet.steps]


def test_heavy_work_is_lifted_in_before_it_is_chucked(sheet_of):
    steps = texts(sheet_of({"{length: 11 5/8, od: 2.75}": "{length: 34, od: 2.75}"}))
    assert steps.index("Lift the work in") == steps.index("Chuck the work") - 1
    assert "Lift the work in" not in texts(sheet_of())


@pytest.mark.parametrize("jaws", ["soft_jaws", "pie_jaws"])
def test_soft_jaws_are_bored_before_heavy_work_is_lifted_in(sheet_of, jaws):
    heavy = {
        "{length: 11 5/8, od: 2.75}": "{length: 34, od: 2.75}",
        "chuck: {jaws: 4, grip: 3}": f"chuck: {{jaws: 4, grip: 3, {jaws}: yes}}",
    }
    steps = texts(sheet_of(heavy))
    bored = next(place for place, text in enumerate(steps) if "jaws to the work" in text)
    assert bored < steps.index("Lift the work in") < steps.index("Chuck the work")


def test_thin_work_is_measured_gripped_and_let_go(sheet_of):
    thin = {"{length: 11 5/8, od: 2.75}": "{length: 11 5/8, od: 2.75, bore: 2.6}"}
    steps = texts(sheet_of(thin))
    assert "Before letting go, look how round it is" in steps
    assert "Before letting go, look how round it is" not in texts(sheet_of())


def test_the_steady_rest_is_set_after_its_band_is_turned_though_the_band_has_a_diameter(sheet_of):
    steadied = {
        "  center: live\n": "  steady: {at: 8}\n  hold_back: yes\n",
        "operations:\n": "operations:\n  - turn: {band: yes, diameter: 2.7, length: 2, from_end: 5 1/2}\n",
    }
    steps = texts(sheet_of(steadied))
    band = next(place for place, text in enumerate(steps) if "turn the band" in text)
    assert band < steps.index("Set the steady rest")
