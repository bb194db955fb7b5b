"""Change gears on the sheet: exact where they can be, never called exact where they are not."""

from __future__ import annotations

from fractions import Fraction

import pytest

from generator.calc.gearing import INCH
from generator.calc.wanted_lead import lead_of_length, lead_of_module, lead_of_tpi
from generator.job.lathe_parts import ChangeGears, Gearbox, Leadscrew
from generator.sheet.figure import Kind
from generator.sheet.lathe_leads import find_lead, settings_of
from generator.si import inch, mm

METRIC = {
    "2 1/4-8 UN-2A": "M56x2-6g", "2 1/4-8 UN-2B": "M56x2-6H", "2 1/2, tool": "2 1/2 in, tool",
}
SHORT = {**METRIC, "on_bench: yes}": "on_bench: yes, engagement: 10 mm}"}
LEFT = {"2 1/4-8 UN-2A": "2 1/4-8 UN-2A-LH", "2 1/4-8 UN-2B": "2 1/4-8 UN-2B-LH"}
EIGHT = Leadscrew.model_validate({"tpi": "8"})
NO_REVERSE = {"leadscrew_reverse": False}
PLAIN = [20, 30, 40, 45, 50, 60, 63, 80, 100]


def gears(owned, **more):
    return ChangeGears.model_validate({"gears": owned, **more})


def ids(sheet):
    return {finding.id: finding for finding in sheet.findings}


@pytest.fixture
def with_gears(sheet_of):
    def make(owned, changes=METRIC, *, more=None, **lathe):
        return sheet_of(changes, lathe={"change_gears": gears(owned, **(more or {})), **lathe})

    return make


def test_a_127_gear_makes_2_mm_with_the_plate_on_8_threads_per_inch(with_gears):
    """8 threads per inch, 80 driving 127: 2.000 mm (Jones, Turning and Boring, 1914, metric pitches)."""
    sheet = with_gears([80, 127])
    figures = sheet.figures
    assert figures["lathe.change_gears"].value == "80 drives 127, plate on 8 threads per inch"
    assert figures["lathe.gearbox"].value == "8 threads per inch, with change gears"
    assert "1/8 in × 80 ÷ 127 = 2 mm" in figures["lathe.change_gears.rule"].value
    assert figures["lathe.change_gears.lead"].value == pytest.approx(2 * mm, rel=1e-15)
    assert "lathe.change_gears.error" not in figures
    assert "gearbox" not in ids(sheet)
    assert ids(sheet)["change-gears"].level == "note"
    assert sheet.ready


def test_levers_that_turn_an_inch_leadscrew_for_a_metric_thread_keep_the_half_nuts_closed(with_gears):
    for owned in ([80, 127], PLAIN):
        sheet = with_gears(owned, SHORT)
        assert sheet.figures["lathe.thread_dial"].value == "keep the half nuts closed"
        assert ids(sheet)["half-nuts-closed"].level == "note"


def test_other_gears_for_the_same_lead_stand_beside_the_first(with_gears):
    note = with_gears([40, 50, 80, 100, 127]).figures["lathe.change_gears"].note
    assert "40 drives 127, plate on 4 threads per inch" in note
    assert "idler" in note
    assert note.count("; or ") == 3


def test_the_plate_alone_needs_no_gears(with_gears):
    figures = with_gears([80, 127], {}).figures
    assert figures["lathe.gearbox"].value == "8 threads per inch"
    assert "lathe.change_gears" not in figures


def test_a_plate_that_is_right_with_other_standard_gears(with_gears):
    """Plate right with 1/2: with 1:1 every entry cuts double, so 80/127 on 16 threads per inch is 2 mm."""
    figures = with_gears([80, 127], more={"plate_ratio": "1/2"}).figures
    assert figures["lathe.change_gears"].value == "80 drives 127, plate on 16 threads per inch"
    assert "1/16 in ÷ 1/2 × 80 ÷ 127 = 2 mm" in figures["lathe.change_gears.rule"].value


@pytest.mark.parametrize(
    ("stud", "owned", "said", "reckoned"),
    [
        ("1", [80, 127], "80 drives 127", "1/8 in × 80 ÷ 127 = 2 mm"),
        ("1/2", [80, 50, 127, 100], "80 drives 50, beside it 100 drives 127",
         "1/8 in × 1/2 (stud) × (80 × 100) ÷ (50 × 127) = 2 mm"),
    ],
)
def test_a_lathe_with_change_gears_only_starts_from_its_leadscrew_and_stud(
    with_gears, stud, owned, said, reckoned
):
    """Lead = leadscrew × stud × drivers ÷ driven; 8 threads per inch."""
    figures = with_gears(owned, more={"stud_ratio": stud}, gearbox=None, leadscrew=EIGHT).figures
    assert figures["lathe.gearbox"].value == "none: change gears alone"
    assert figures["lathe.change_gears"].value == said
    assert reckoned in figures["lathe.change_gears.rule"].value
    assert figures["lathe.change_gears.lead"].value == pytest.approx(2 * mm)


def test_inch_on_a_metric_leadscrew(with_gears):
    """3 mm leadscrew, 127 driving 120: 8 threads per inch (transposing gears, arithmetic)."""
    screw = Leadscrew.model_validate({"pitch": "3 mm"})
    sheet = with_gears([120, 127], {}, gearbox=None, leadscrew=screw)
    assert sheet.figures["lathe.change_gears"].value == "127 drives 120"
    assert sheet.figures["lathe.change_gears.lead"].value == pytest.approx(inch / 8)
    assert sheet.figures["lathe.thread_dial"].value == "keep the half nuts closed"


def test_a_short_engagement_bears_a_close_lead_and_asks(with_gears):
    """80/63 for 127/100 is 125 ppm (arithmetic): 0.00125 mm in 10 mm, 0.0022 mm on the pitch diameter."""
    sheet = with_gears([50, 63, 80, 40], SHORT, gearbox=None, leadscrew=EIGHT)
    figures, found = sheet.figures, ids(sheet)["gearbox"]
    lead = figures["lathe.change_gears.lead"].value
    error = figures["lathe.change_gears.error"].value
    assert error == pytest.approx(lead / (2 * mm) - 1, rel=1e-6)
    assert figures["lathe.change_gears.error_over_engagement"].value == pytest.approx(abs(error) * 10 * mm)
    assert figures["lathe.change_gears.error_on_pitch_diameter"].value == pytest.approx(
        abs(error) * 10 * mm * 3**0.5
    )
    assert found.level == "check"
    assert found.asks
    assert abs(error) * 1e6 == pytest.approx(125.0, abs=0.1)
    for words in ("125 ppm", "0.0125 %", "10.00 mm", "of engagement", "127 teeth", "is exact"):
        assert words in found.text, words
    assert "exact" not in figures["lathe.change_gears"].value
    assert figures["lathe.change_gears.rule"].value.count("2 mm is wanted") == 1
    assert sheet.ready


@pytest.mark.parametrize(("engagement", "level"), [("50 mm", "check"), ("420 mm", "stop")])
def test_the_limit_is_half_the_tolerance_of_the_pitch_diameter(with_gears, engagement, level):
    """125 ppm x 1.732 over L against half of the tolerance (common practice). The whole thread bounds L."""
    long = {
        "2 1/4-8 UN-2A": "M56x2-6g", "2 1/4-8 UN-2B": "M56x2-6H",
        "length: 2 1/2, tool": "length: 500 mm, tool",
        "length: 2 7/8, od": "length: 22, od", "length: 2 7/8}": "length: 22}", "length: 11 5/8": "length: 8",
        "on_bench: yes}": f"on_bench: yes, engagement: {engagement}}}",
    }
    sheet = with_gears([50, 63, 80, 40], long, gearbox=None, leadscrew=EIGHT)
    figures = sheet.figures
    tolerance = figures["thread.pitch_diameter.max"].value - figures["thread.pitch_diameter.min"].value
    effect = 125e-6 * float(engagement.split()[0]) * mm * 3**0.5
    assert ("stop" if effect > tolerance / 2 else "check") == level
    assert ids(sheet)["gearbox"].level == level
    assert ("lathe.change_gears" in figures) == (level == "check")


def test_the_thread_itself_counts_where_no_engagement_is_given(with_gears):
    text = ids(with_gears(PLAIN))["gearbox"].text
    assert "63.50 mm" in text
    assert "of thread" in text


def test_what_cannot_be_cut_names_the_gear_to_buy(with_gears):
    """One gear of 127 teeth is always used between the systems (Jones, Turning and Boring, 1914)."""
    sheet = with_gears([20, 40, 80])
    stop = ids(sheet)["gearbox"]
    assert stop.level == "stop"
    assert sheet.figures["lathe.gearbox"].value == "cannot be cut here"
    assert "buy or borrow a gear of 127 teeth" in stop.text
    assert "threads per inch" in stop.text
    assert not sheet.ready


def test_gears_of_which_no_two_run_together_stop_the_sheet(with_gears):
    """1:10 is too steep for one pair; the limit of 1:6 is common practice."""
    sheet = with_gears([20, 200], gearbox=None)
    assert sheet.figures["lathe.gearbox"].value == "cannot be cut here"
    assert "no two change gears" in ids(sheet)["gearbox"].text


def test_with_very_many_gears_the_trains_that_were_not_tried_are_named(with_gears):
    many = [*range(20, 42)]
    text = ids(with_gears(many, more={"most_pairs": "3"}))["gearbox"].text
    assert "trains of six gears were not tried" in text
    assert "not tried" not in ids(with_gears(many))["gearbox"].text


def test_a_record_without_change_gears_is_asked_for_them(sheet_of):
    text = ids(sheet_of(METRIC, lathe={"change_gears": None}))["gearbox"].text
    assert "change_gears" in text
    assert "13 threads per inch and 12 threads per inch" in text


def test_without_leadscrew_or_plate_nothing_is_claimed(with_gears):
    sheet = with_gears([80, 127], gearbox=None, leadscrew=None)
    assert sheet.figures["lathe.gearbox"].kind is Kind.UNKNOWN
    assert "leadscrew" in ids(sheet)["gearbox-unknown"].text


def test_entries_that_have_gears_of_their_own_are_taken_with_those_only(shop):
    """The 127/100 gears of a plate's metric entries are not on the banjo for any other train."""
    lathe = shop.lathes["thirteen-inch"].model_copy(update={"change_gears": gears([40, 80])})
    settings = settings_of(lathe)
    bare = [setting.lead is None for setting in settings]
    assert bare == sorted(bare)
    metric = [setting for setting in settings if "mm" in setting.words]
    assert metric
    assert all(setting.lead is None and setting.standard for setting in metric)
    assert find_lead(lathe, lead_of_tpi(Fraction(8))).exact[0].describe() == "8 threads per inch"
    assert not find_lead(lathe, lead_of_module(Fraction(1))).exact


def test_an_entry_without_change_wheels_comes_first(shop):
    box = Gearbox.model_validate(
        {"tpi": ["12.7"], "pitches": ["2 mm"], "tpi_with_gears": "spare wheels"}
    )
    lathe = shop.lathes["long-bed"].model_copy(update={"gearbox": box, "change_gears": None})
    found = find_lead(lathe, lead_of_tpi(Fraction("12.7")))
    assert [geared.describe() for geared in found.exact] == [
        "2 mm", "12 7/10 threads per inch, with spare wheels",
    ]


@pytest.mark.parametrize(
    ("lead", "entry"),
    [
        (INCH / 8, "8 threads per inch"),
        (INCH / 8 * 2, "4 threads per inch"),  # two starts of 8: the lead counts
        (2 * INCH / 23, "11 1/2 threads per inch"),
        (Fraction("3.175"), "8 threads per inch"),  # exactly 1/8 in
        (Fraction(3), "3 mm, with 127/100 transposing gears"),
        (Fraction("3.18"), None),
        (INCH / 15, None),
    ],
)
def test_a_lead_stands_on_the_plate_exactly_or_not_at_all(shop, lead, entry):
    lathe = shop.lathes["thirteen-inch"].model_copy(update={"change_gears": None})
    found = find_lead(lathe, lead_of_length(lead)).exact
    assert (found[0].describe() if found else None) == entry


def test_left_hand_needs_a_leadscrew_that_reverses(sheet_of):
    """One more intermediate wheel reverses the leadscrew (Rose, Modern Machine-Shop Practice, 1887)."""
    assert "leadscrew-reverse" not in ids(sheet_of(LEFT, lathe={"leadscrew_reverse": True}))
    assert ids(sheet_of(LEFT, lathe={"leadscrew_reverse": None}))["leadscrew-reverse-unknown"].level == "note"
    without = {**NO_REVERSE, "change_gears": None}
    assert ids(sheet_of(LEFT, lathe=without))["leadscrew-reverse"].level == "stop"
    found = ids(sheet_of(LEFT, lathe={**NO_REVERSE, "change_gears": gears([40, 80])}))["leadscrew-reverse"]
    assert found.level == "check"
    assert "idler" in found.text
    right = ids(sheet_of(lathe=NO_REVERSE))
    assert not {"leadscrew-reverse", "leadscrew-reverse-unknown"} & set(right)


# a thread without a standard: a worm of module 1, lead of pi mm
WORM = {
    "2 1/4-8 UN-2A": "special 57.15x3.1416 40deg depth 2.2", ", thread: 2 1/4-8 UN-2B": "",
    "2 1/2, tool": "2 1/2 in, tool",
}


@pytest.mark.parametrize(
    ("owned", "level"),
    [([28, 30, 32, 36, 40, 44, 48, 50, 52, 56, 60, 100, 127], "check"), ([80, 127], "stop")],
)
def test_a_worm_is_asked_about_where_no_micrometer_shows_that_its_lead_is_off(with_gears, owned, level):
    changes = {**WORM, "on_bench: yes}": "on_bench: yes, engagement: 10 mm}"}
    sheet = with_gears(owned, changes, more={"most_pairs": 2})
    finding = ids(sheet)["gearbox"]
    assert finding.level == level
    assert "No standard limits the pitch diameter of this thread" in finding.text
    assert "lathe.change_gears.error_on_pitch_diameter" not in sheet.figures
    assert ("lathe.change_gears.error_over_engagement" in sheet.figures) is (level == "check")


def test_what_no_standard_limits_is_no_reason_to_support_the_work(with_gears):
    sheet = with_gears([80, 127], {**WORM, "  center: live\n": ""})
    assert sheet.figures["holding.diameter_error.max"].value > 0.01 * mm
    assert "deflection" not in ids(sheet)
