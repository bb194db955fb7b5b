"""Each caution appears when its reason is there, and not otherwise."""

from __future__ import annotations

import pytest

ALWAYS = {"chuck-key", "chips", "emery-file"}
DUTY = "duty: {said: holds a gate, by: customer}"


def cautions(sheet):
    return {caution.id: caution for caution in sheet.cautions}


def test_the_usual_cautions_stand_on_every_threading_sheet(sheet_of):
    assert cautions(sheet_of()).keys() >= ALWAYS


@pytest.mark.parametrize(
    ("id", "changes"),
    [
        ("steady-rest", {"  center: live": "  steady: {at: 7}\n  hold_back: yes"}),
        ("no-hold-back", {"  center: live": "  steady: {at: 7}"}),
        ("people", {DUTY: "duty: {said: people stand on it, by: customer, people: yes}"}),
        ("brakes", {DUTY: "duty: {said: pulls brakes, by: customer, brakes: yes}"}),
        ("lifting-part", {DUTY: "duty: {said: hook, by: customer, lifting: yes}"}),
        ("pressure", {DUTY: "duty: {said: nipple, by: customer, pressure: 6 bar}"}),
        ("cross-hole", {"mate:": "cross_holes:\n  - {diameter: 3/8, from_end: 3/4}\nmate:"}),
        ("unknown-material", {"material: 1045 steel\nmaterial_known_by: stamp": "material: unknown"}),
        ("galling", {"material: 1045 steel": "material: 316 stainless"}),
        ("bar-behind-spindle", {"  center: live": "  center: live\n  behind_spindle: 40"}),
        ("left-hand", {"2 1/4-8 UN-2A": "2 1/4-8 UN-2A-LH", "2 1/4-8 UN-2B": "2 1/4-8 UN-2B-LH"}),
        ("thin-wall", {"{length: 11 5/8, od: 2.75}": "{length: 11 5/8, od: 2.75, bore: 2 1/4}"}),
        ("lift", {"od: 2.75": "od: 5 1/2"}),
        ("dead-center", {"center: live": "center: dead"}),
        (
            "work-in-a-bore",
            {
                "{length: 2 7/8, od: 2 1/4}": "{length: 2 7/8, od: 2.75, bore: 1.880}",
                "2 1/4-8 UN-2A": "2-8 UN-2B",
                "2 1/4-8 UN-2B": "2-8 UN-2A", "  - turn: {diameter: 2 1/4, length: 2 7/8}\n": "",
            },
        ),
    ],
)
def test_a_caution_follows_from_the_setup(sheet_of, id, changes):
    assert id not in cautions(sheet_of())
    assert id in cautions(sheet_of(changes))


def test_every_caution_names_a_source_and_a_reason(sheet_of):
    for caution in cautions(
        sheet_of({DUTY: "duty: {said: hook, by: customer, lifting: yes, people: yes}"})
    ).values():
        assert caution.source
        assert caution.because
        assert caution.text.endswith(".")


def test_the_worst_signal_word_stands_first(sheet_of):
    sheet = sheet_of({"  center: live": "  center: live\n  behind_spindle: 40"})
    order = ["DANGER", "WARNING", "CAUTION", "NOTICE"]
    signals = [order.index(caution.signal) for caution in sheet.cautions]
    assert signals == sorted(signals)
    assert signals[0] == 0
