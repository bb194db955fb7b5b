"""Change gears against an exhaustive search written here, and against trains that are in print."""

from __future__ import annotations

import itertools
import math
import random
from fractions import Fraction

import pytest

from generator.calc.gear_trains import TO_BUY, ChangeGears, Train, change_gears, clears
from generator.calc.gearing import INCH
from generator.calc.lead_search import Geared, Setting, equivalent_diameter, search
from generator.calc.wanted_lead import (
    WantedLead,
    lead_of_diametral_pitch,
    lead_of_length,
    lead_of_module,
    lead_of_tpi,
)
from generator.errors import OutsideRange

FIVES = (20, 25, 30, 35, 40, 45, 50, 55, 60, 65, 70, 75, 80, 85, 90, 127)  # sixteen gears, invented set


# -- an exhaustive search of its own: every order of every choice, no table, no shortcut -------------------


def hangs(gears, clearance):
    """The studs one by one: centers of two shafts stand half the teeth of their pair apart."""
    centers = [Fraction(gears[i] + gears[i + 1], 2) for i in range(0, len(gears), 2)]
    for stud in range(len(centers) - 1):
        towards_spindle, towards_screw = centers[stud], centers[stud + 1]
        driven, driver = gears[2 * stud + 1], gears[2 * stud + 2]
        if towards_spindle <= Fraction(driver + clearance, 2):  # driver runs into the shaft before
            return False
        if towards_screw <= Fraction(driven + clearance, 2):    # driven runs into the shaft after
            return False
    ratios = [Fraction(gears[i], gears[i + 1]) for i in range(0, len(gears), 2)]
    return all(Fraction(1, 6) <= ratio <= 6 for ratio in ratios)


def all_trains(owned, most_pairs=3, clearance=15):
    found = set()
    for size in range(2, 2 * most_pairs + 1, 2):
        found |= {gears for gears in itertools.permutations(owned, size) if hangs(gears, clearance)}
    return found


def ratio(gears):
    value = Fraction(1)
    for place, teeth in enumerate(gears):
        value = value * teeth if place % 2 == 0 else value / teeth
    return value


def rank(gears):
    pairs = list(zip(gears[::2], gears[1::2], strict=True))
    return len(gears), -min(gears), max(Fraction(max(pair), min(pair)) for pair in pairs), gears


def best_of_each_choice(trains):
    """Of trains with the same drivers and the same driven gears the best; they have the same ratio."""
    best = {}
    for gears in sorted(trains, key=rank):
        best.setdefault((len(gears), *map(tuple, map(sorted, (gears[::2], gears[1::2])))), gears)
    return sorted(best.values(), key=rank)


SETS = [
    (20, 30, 40, 50, 60, 80),
    (20, 20, 40, 63, 80, 100),
    (16, 24, 24, 32, 90, 127),
    (20, 25, 30, 35, 40, 45, 127),
    (20, 120),
    (20, 121),
    (30, 30),
    (20, 40, 60),
    (18, 100, 110, 120),
]


@pytest.mark.parametrize("owned", SETS)
@pytest.mark.parametrize("clearance", [0, 15, 40])
def test_exact_trains_are_those_of_an_exhaustive_search_in_the_same_order(owned, clearance):
    trains = all_trains(owned, 3, clearance)
    by_ratio = {}
    for gears in trains:
        by_ratio.setdefault(ratio(gears), []).append(gears)
    ours = ChangeGears(owned, 3, clearance)
    for wanted in [*list(by_ratio)[::7], Fraction(1), Fraction(40, 127), Fraction(2, 3)]:
        expected = best_of_each_choice(by_ratio.get(wanted, []))
        assert [train.gears for _, train in ours.exact([wanted], 1000)] == expected, wanted


@pytest.mark.parametrize("owned", SETS)
@pytest.mark.parametrize("most_pairs", [1, 2, 3])
def test_the_closest_train_is_that_of_an_exhaustive_search(owned, most_pairs):
    chance = random.Random(3)
    trains = all_trains(owned, most_pairs)
    ours = ChangeGears(owned, most_pairs)
    for _ in range(40):
        wanted = [Fraction(chance.randint(1, 4000), chance.randint(1, 4000)) for _ in range(3)]
        for pairs in (1, 2, 3):
            of_size = [gears for gears in trains if len(gears) == 2 * pairs]
            found = ours.closest(wanted, pairs)
            if not of_size:
                assert found is None
                continue
            least = min(abs(ratio(gears) / one - 1) for gears in of_size for one in wanted)
            place, train = found
            assert train.gears in of_size
            assert abs(train.ratio / wanted[place] - 1) == least


@pytest.mark.parametrize("owned", [(20, 30, 40, 50, 80), (24, 24, 36, 48), (20, 120), (45, 60, 75)])
def test_the_gear_to_buy_is_the_smallest_that_an_exhaustive_search_finds(owned):
    chance = random.Random(5)
    reach = {}  # added gear: all ratios of trains with it
    for gear in TO_BUY:
        reach[gear] = {ratio(gears) for gears in all_trains((*owned, gear), 2)}
    ours = ChangeGears(owned, 2)
    asked = [Fraction(40, 127), Fraction(80, 127), Fraction(17, 23), Fraction(1, 113), Fraction(7, 12)]
    asked += [Fraction(chance.randint(1, 60), chance.randint(1, 60)) for _ in range(60)]
    for wanted in asked:
        if ours.exact([wanted]):
            continue
        expected = next((gear for gear in TO_BUY if wanted in reach[gear]), None)
        found = ours.lacking([wanted])
        assert (found[0] if found else None) == expected, wanted
        if found:
            assert found[2].ratio == wanted
            assert hangs(found[2].gears, 15)
            assert not set(found[2].gears) - {*owned, expected}


def test_random_sets_and_leads_agree_with_an_exhaustive_search():
    """Whole requests: a lead, a leadscrew, gears of chance."""
    chance = random.Random(11)
    for _ in range(25):
        owned = tuple(sorted(chance.choices(range(16, 101), k=6)))
        trains = all_trains(owned)
        screw = chance.choice([INCH / 8, INCH / 4, Fraction(6), Fraction(3)])
        made = screw * ratio(chance.choice(sorted(trains)))
        for lead in (made, Fraction(chance.randint(10, 900), 100)):
            found = search(lead_of_length(lead), [Setting(screw)], ChangeGears(owned))
            exact = [gears for gears in trains if screw * ratio(gears) == lead]
            assert bool(found.exact) == bool(exact)
            if exact:
                assert found.exact[0].train.gears == min(exact, key=rank)
            else:
                least = min(abs(screw * ratio(gears) / lead - 1) for gears in trains)
                assert abs(found.closest[0].lead / lead - 1) == least
                assert not found.closest[0].exact


def test_a_gear_is_used_as_often_as_it_is_owned():
    assert ChangeGears((20, 40, 50)).exact([Fraction(1)]) == []
    assert ChangeGears((20, 40, 40)).exact([Fraction(1)])[0] == (0, Train((40, 40)))
    quarter = [train.gears for _, train in ChangeGears((30, 30, 60, 60), 2).exact([Fraction(1, 4)])]
    assert quarter == [(30, 60, 30, 60)]


@pytest.mark.parametrize(
    ("gears", "permitted"),
    [
        ((40, 60, 30, 75), True),     # 100 > 45, 105 > 75
        ((40, 60, 30, 45), False),    # the 60 would meet the leadscrew: 75 is not above 75
        ((40, 60, 30, 46), True),     # 76 is
        ((20, 30, 100, 60), False),   # the 100 would meet the stud of the first driver: 50 is not above 115
        ((20, 120), True),            # 1:6
        ((20, 121), False),
        ((40, 60, 50, 55, 90, 45), False),  # second stud: 105 is not above 90 + 15
        ((40, 60, 50, 56, 90, 45), True),   # 106 is, and 135 > 56 + 15
    ],
)
def test_pairs_clear_the_next_stud(gears, permitted):
    """a + b > c + 15, c + d > b + 15 (Machinery's Handbook, from memory); 1:6 common practice."""
    assert clears(Train(gears)) is permitted
    assert hangs(gears, 15) is permitted


# -- in print ----------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("gears", "screw", "lead"),
    [
        # Jones, Turning and Boring (1914), change gears for metric pitches: constant 6, 3 mm: 90 and 127
        ((90, 127), INCH / 6, Fraction(3)),
        # Rose, Modern Machine-Shop Practice (1887), fig. 1240: 36, 48, 66, 18 on a screw of 4 cut 11
        ((48, 36, 18, 66), INCH / 4, INCH / 11),
        # Machinery's Handbook, compound gearing (from memory): constant 6, 24 threads: 40 x 30 over 80 x 60
        ((40, 80, 30, 60), INCH / 6, INCH / 24),
        # Machinery's Handbook, fractional threads (from memory): constant 6, 11 1/4 threads: 48 and 90
        ((48, 90), INCH / 6, INCH / Fraction("11.25")),
        # 127-tooth gear on a screw of 8 threads per inch (trade, arithmetic)
        ((40, 127), INCH / 8, Fraction(1)),
        ((80, 127), INCH / 8, Fraction(2)),
        # 120 and 127 make a screw of 8 threads per inch into one of 3 mm, and 127 and 120 the reverse
        ((120, 127), INCH / 8, Fraction(3)),
        ((127, 120), Fraction(3), INCH / 8),
    ],
)
def test_trains_in_print_cut_the_lead_that_is_printed_beside_them(gears, screw, lead):
    geared = Geared(lead_of_length(lead), Setting(screw), Train(gears))
    assert geared.lead == lead
    assert geared.exact
    assert geared.error == 0


@pytest.mark.parametrize(
    ("owned", "screw", "wanted", "first"),
    [
        ((90, 127), INCH / 6, lead_of_length(Fraction(3)), (90, 127)),
        ((18, 36, 48, 66), INCH / 4, lead_of_tpi(Fraction(11)), (18, 66, 48, 36)),
        ((30, 40, 60, 80), INCH / 6, lead_of_tpi(Fraction(24)), None),
        ((48, 90), INCH / 6, lead_of_tpi(Fraction("11.25")), (48, 90)),
        (FIVES, INCH / 8, lead_of_length(Fraction(1)), (40, 127)),
        (FIVES, INCH / 8, lead_of_length(Fraction(2)), (80, 127)),
    ],
)
def test_the_search_finds_the_trains_in_print(owned, screw, wanted, first):
    """Sources as above. The order on the studs is free where two orders clear."""
    found = search(wanted, [Setting(screw)], change_gears(owned)).exact[0]
    assert found.lead == wanted.rational
    if first:
        assert sorted(found.train.gears[::2]) == sorted(first[::2])
        assert sorted(found.train.gears[1::2]) == sorted(first[1::2])


@pytest.mark.parametrize(
    ("driver", "driven", "ppm"),
    [(80, 63, -125.0), (47, 37, 212.8), (108, 85, 463.2), (33, 26, -605.7), (61, 48, 656.2), (75, 59, 934.2),
     (89, 70, 1124.9), (14, 11, 2147.5)],
)
def test_substitutes_for_127_over_100(driver, driven, ppm):
    """Well-known substitutes (common practice); the errors are arithmetic."""
    geared = Geared(lead_of_length(Fraction("1.27")), Setting(Fraction(1)), Train((driver, driven)))
    assert geared.error * 1e6 == pytest.approx(ppm, abs=0.05)
    assert not geared.exact
    assert geared.over(0.025) == pytest.approx(ppm * 25e-9, rel=1e-3)


def test_a_63_in_place_of_the_127_gear_cuts_1_259921_mm():
    """(50 x 40) over (63 x 80) on 8 threads per inch: 1.259921 mm (arithmetic)."""
    geared = Geared(lead_of_length(Fraction("1.26")), Setting(INCH / 8), Train((50, 63, 40, 80)))
    assert float(geared.lead) == pytest.approx(1.259921, abs=5e-7)


def test_metric_on_an_inch_screw_asks_for_127_teeth_and_inch_on_a_metric_one_too():
    """Jones, Turning and Boring (1914): one gear of 127 teeth is always used between the two systems."""
    without = change_gears([teeth for teeth in FIVES if teeth != 127])
    for pitch in ("0.5", "0.75", "1", "1.25", "1.5", "1.75", "2", "2.5", "3", "3.5", "4"):
        found = search(lead_of_length(Fraction(pitch)), [Setting(INCH / 8)], without)
        assert found.exact == ()
        assert found.to_buy == 127
        assert found.with_it.exact
        assert 127 in found.with_it.train.gears
        assert all(not geared.exact and geared.error != 0 for geared in found.closest)
    for tpi in (4, 8, 10, 12, 16, 20):
        assert search(lead_of_tpi(Fraction(tpi)), [Setting(Fraction(6))], without).to_buy == 127


def test_when_no_single_gear_does_it_none_is_named():
    """A ratio with 17 above and 23 below needs two gears that the set lacks."""
    gears = change_gears([20, 30, 40, 50, 60])
    found = search(lead_of_length(Fraction(17, 23)), [Setting(Fraction(1))], gears)
    assert found.exact == ()
    assert found.to_buy is None
    assert found.with_it is None


# -- pi ----------------------------------------------------------------------------------------------------


def test_22_over_7_is_402_5_ppm_too_much_for_pi_and_355_over_113_is_0_085():
    """Both approximations are classical; 22/7 by Archimedes, 355/113 by Zu Chongzhi."""
    worm = lead_of_module(Fraction(1))
    assert worm.error(Fraction(22, 7)) * 1e6 == pytest.approx(402.5, abs=0.05)
    assert worm.error(Fraction(355, 113)) * 1e6 == pytest.approx(0.085, abs=5e-4)
    assert float(worm.length) == math.pi


def test_no_train_is_ever_called_exact_for_a_worm_and_no_gear_is_to_be_bought():
    for wanted in (lead_of_module(Fraction(1)), lead_of_module(Fraction("1.25"), 2),
                   lead_of_diametral_pitch(Fraction(16)), lead_of_diametral_pitch(Fraction(20), 3)):
        found = search(wanted, [Setting(INCH / 8), Setting(Fraction(2))], change_gears(FIVES))
        assert found.exact == ()
        assert found.to_buy is None
        assert found.closest
        for geared in found.closest:
            assert not geared.exact
            assert geared.error == pytest.approx(float(geared.lead) / float(wanted.length) - 1, abs=1e-15)
    assert not lead_of_module(Fraction(1)).is_exactly(lead_of_module(Fraction(1)).length)


def test_a_worm_of_16_diametral_pitch_on_8_threads_per_inch_by_22_over_7():
    """8 x 22 over 16 x 7 = 44 over 28 (pi as 22/7, arithmetic): 402.5 ppm."""
    found = search(lead_of_diametral_pitch(Fraction(16)), [Setting(INCH / 8)], change_gears([28, 44], 1))
    assert found.closest[0].train.gears == (44, 28)
    assert found.closest[0].error * 1e6 == pytest.approx(402.5, abs=0.05)


# -- gearbox and gears -------------------------------------------------------------------------------------

PLATE = [Setting(INCH / tpi, f"{tpi} threads per inch", INCH / tpi) for tpi in (4, 8, 10, 16)]


def test_where_the_plate_has_the_lead_no_gear_is_changed():
    found = search(lead_of_tpi(Fraction(8)), PLATE, change_gears([20, 40, 40, 80]))
    assert [geared.describe() for geared in found.exact] == ["8 threads per inch"]
    assert found.exact[0].train is None
    assert found.exact[0].lead == INCH / 8


def test_another_train_multiplies_every_lead_of_the_plate():
    """2 mm by 80 and 127 with the plate on 8 threads per inch, or by 40 and 127 on 4; the gentler first."""
    found = search(lead_of_length(Fraction(2)), PLATE, change_gears([40, 80, 127], 1))
    assert {(geared.train.gears, geared.setting.words) for geared in found.exact} == {
        ((80, 127), "8 threads per inch"), ((40, 127), "4 threads per inch"),
    }
    assert found.exact[0].describe() == "80 drives 127, plate on 8 threads per inch"


def test_closest_ways_lose_gears_as_they_lose_closeness():
    found = search(lead_of_length(Fraction(2)), PLATE, change_gears([20, 30, 40, 45, 50, 63, 80, 100]))
    errors = [abs(geared.error) for geared in found.closest]
    sizes = [len(geared.train.gears) if geared.train else 0 for geared in found.closest]
    assert errors == sorted(errors)
    assert sizes == sorted(set(sizes), reverse=True)
    assert sizes[-1] == 0


def test_a_lathe_without_change_gears_has_its_plate_only():
    assert search(lead_of_tpi(Fraction(10)), PLATE, None).exact[0].describe() == "10 threads per inch"
    found = search(lead_of_length(Fraction(2)), PLATE, None)
    assert [geared.describe() for geared in found.closest] == ["16 threads per inch"]
    assert search(lead_of_length(Fraction(2)), [], None).closest == ()


# -- what an error of lead does ----------------------------------------------------------------------------


@pytest.mark.parametrize(("angle", "factor"), [(60, 1.732), (55, 1.921), (29, 3.867), (30, 3.732)])
def test_equivalent_diameter(angle, factor):
    """1.732 at 60, 1.921 at 55 degrees (NPL, Notes on Screw Gauges, from memory); the others trigonometry."""
    assert equivalent_diameter(-1e-5, math.radians(angle / 2)) == pytest.approx(factor * 1e-5, rel=3e-4)


# -- bad input ---------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "gears", [[], [40], [40, 0], [40, -20], [40, 7], [40, 301]]
)
def test_gears_that_are_none(gears):
    with pytest.raises(OutsideRange):
        change_gears(gears)


def test_other_bad_input():
    for pairs, clearance in ((0, 15), (4, 15), (2, -1)):
        with pytest.raises(OutsideRange):
            change_gears([20, 40], pairs, clearance)
    for made in (
        lambda: lead_of_length(Fraction(0)), lambda: lead_of_length(Fraction(-1)),
        lambda: lead_of_length(Fraction(1), 0), lambda: lead_of_length(Fraction(20000)),
        lambda: lead_of_tpi(Fraction(0)), lambda: lead_of_tpi(Fraction(-8)),
        lambda: lead_of_tpi(Fraction(8), -1),
        lambda: lead_of_module(Fraction(0)), lambda: lead_of_diametral_pitch(Fraction(0)),
        lambda: WantedLead(Fraction(-3), "minus three"),
    ):
        with pytest.raises(OutsideRange):
            made()


def test_with_very_many_gears_three_pairs_are_not_tried_and_it_says_so():
    many = change_gears(range(20, 50))
    assert many.pairs_tried == 2
    assert change_gears(range(20, 40)).pairs_tried == 3
    assert change_gears(range(20, 41)).pairs_tried == 2
    found = search(lead_of_tpi(Fraction(9)), [Setting(INCH / 8)], many)
    assert found.exact[0].train.ratio == Fraction(8, 9)


def test_trains_in_words():
    assert Train((40, 127)).describe() == "40 drives 127"
    assert Train((40, 80, 30, 60)).describe() == "40 drives 80, beside it 30 drives 60"
