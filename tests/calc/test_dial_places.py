"""Places of the thread dial against a lathe that is really run: spindle, leadscrew, carriage, dial, tool.

The lathe of these tests knows nothing of divisibility. Its spindle turns, the gears turn the leadscrew, the
carriage stands where the hand left it; the half nuts close when a thread of the leadscrew comes by, and then
the tool is in a groove of the work or beside it. All in fractions.
"""

from __future__ import annotations

import random
from fractions import Fraction

import pytest

from generator.calc.dial_places import engagements, next_starts
from generator.calc.thread_dial import dial_gears, dial_rule
from generator.errors import OutsideRange

INCH = Fraction(127, 5)
INCH_SCREWS = [INCH / tpi for tpi in (4, 6, 8, 10)]
METRIC_SCREWS = [Fraction(pitch) for pitch in (3, 4, 6, 12)]
DIALS = [(16, 8), (16, 4), (32, 8), (24, 12), (24, 8), (14, 14), (20, 8), (28, 14), (21, 7), (30, 12)]
INCH_LEADS = [
    INCH / Fraction(tpi) for tpi in ("1", "2", "9/4", "23/8", "3", "4", "5", "6", "7", "8", "23/2", "27")
]
METRIC_LEADS = [
    Fraction(mm) for mm in ("0.5", "1", "1.25", "1.5", "1.75", "2", "2.5", "3", "3.5", "4", "6", "9")
]


class Run:
    """A lathe set up for one lead; the first pass began with everything at nothing, line 1 at the mark."""

    def __init__(self, screw, teeth, marks, lead, starts):
        self.screw, self.teeth, self.marks, self.lead, self.starts = screw, teeth, marks, lead, starts

    def moments(self, carriage, upto):
        """Turns of the spindle at which the half nuts can close with the carriage standing there."""
        screw_per_turn = self.lead / self.screw  # turns of the leadscrew in one turn of the spindle
        passing = (-carriage / self.screw) // 1  # threads that came by, from the bed's end of the carriage
        for thread in range(int(passing), int(passing) + upto):
            yield (thread + carriage / self.screw) / screw_per_turn

    def dial(self, carriage, turns):
        """Where the dial stands, in lines from line 1: the screw's threads that went past turn its gear."""
        threads_past = turns * self.lead / self.screw - carriage / self.screw
        return threads_past / self.teeth * self.marks % self.marks

    def start_met(self, carriage, turns):
        """The start under the tool, or None: every groove of the work is looked at."""
        grooves = [turns * self.lead - start * self.lead / self.starts for start in range(self.starts)]
        for start, groove in enumerate(grooves, 1):
            if ((carriage - groove) / self.lead).denominator == 1:
                return start
        return None

    def seen(self, chance, times=3):
        """Place of the dial -> every start that the tool met there; carriages anywhere on the bed."""
        met: dict[Fraction, set[int | None]] = {}
        rounds = (self.teeth * self.screw / self.lead).denominator  # of the dial, until all comes again
        for _ in range(times):
            carriage = Fraction(chance.randint(-500, 500), chance.randint(1, 40))
            for turns in self.moments(carriage, self.teeth * rounds):
                met.setdefault(self.dial(carriage, turns), set()).add(self.start_met(carriage, turns))
        return met


def setups(count, seed):
    """Random lathes and threads: inch and metric, the one on the other, one start and several."""
    chance = random.Random(seed)
    for _ in range(count):
        inch_screw = chance.random() < 0.5
        inch_thread = inch_screw if chance.random() < 0.8 else not inch_screw
        screw = chance.choice(INCH_SCREWS if inch_screw else METRIC_SCREWS)
        lead = chance.choice(INCH_LEADS if inch_thread else METRIC_LEADS)
        yield screw, *chance.choice(DIALS), lead, chance.choice([1, 1, 2, 2, 3, 4, 5, 6])


@pytest.mark.parametrize("seed", range(12))
def test_every_place_does_what_the_lathe_does(seed):
    chance = random.Random(seed)
    for screw, teeth, marks, lead, starts in setups(12, seed):
        met = Run(screw, teeth, marks, lead, starts).seen(chance, times=1)
        told = {one.place: one for one in engagements(screw, teeth, marks, lead, starts)}
        closing = {place for place, one in told.items() if one.outcome != "does not close"}
        assert closing == set(met)
        for place, starts_met in met.items():
            one = told[place]
            if starts_met == {1}:
                assert (one.outcome, one.start) == ("same start", 1)
            elif len(starts_met) == 1 and None not in starts_met:
                assert (one.outcome, one.start) == ("other start", *starts_met)
            elif starts_met == {None}:
                assert (one.outcome, one.start) == ("wrong", None)
            else:
                assert (one.outcome, one.start) == ("changes", None)


@pytest.mark.parametrize("seed", range(12, 18))
def test_the_rule_says_what_the_lathe_does(seed):
    """Sets of lines of the rule against the lines at which every closing met the first groove."""
    chance = random.Random(seed)
    for screw, teeth, marks, lead, _ in setups(15, seed):
        met = Run(screw, teeth, marks, lead, 1).seen(chance, times=1)
        rule = dial_rule(screw, teeth, marks, lead)
        keeps = {int(place) for place, starts in met.items() if place.denominator == 1 and starts == {1}}
        assert keeps == (set(range(0, marks, rule.step)) if rule.step else set())
        assert rule.anywhere == all(starts == {1} for starts in met.values())


def test_it_does_not_matter_where_the_hand_left_the_carriage():
    run = Run(INCH / 4, 16, 8, INCH / 2, 2)
    first = run.seen(random.Random(1))
    for seed in range(2, 6):
        assert run.seen(random.Random(seed)) == first


def test_two_starts_of_half_an_inch_lead_on_four_threads_per_inch():
    """Arithmetic: a line is 1/2 in, one lead; a leadscrew thread is 1/4 in, one pitch."""
    for one in engagements(Fraction(1, 4), 16, 8, Fraction(1, 2), 2):
        assert one.start == (1 if one.on_line else 2)
    (way,) = next_starts(engagements(Fraction(1, 4), 16, 8, Fraction(1, 2), 2), 2)
    assert (way.lines, way.threads) == ((), 1)


def test_two_starts_of_half_an_inch_lead_on_eight_threads_per_inch():
    """Arithmetic: a line is 1/4 in, one pitch, so lines take turns; one thread is half a pitch, and wrong."""
    found = engagements(Fraction(1, 8), 16, 8, Fraction(1, 2), 2)
    assert {int(one.place): one.start for one in found if one.on_line} == dict(enumerate([1, 2] * 4))
    assert {one.outcome for one in found if not one.on_line} == {"wrong"}


def test_three_starts_are_one_thread_past_and_one_before():
    """Arithmetic: lead 3/4 in on 4 threads per inch and a gear of 24 teeth; one thread is one pitch."""
    ways = next_starts(engagements(Fraction(1, 4), 24, 8, Fraction(3, 4), 3), 3)
    assert [(way.start, way.threads) for way in ways] == [(2, 1), (3, -1)]
    assert all(way.lines == () for way in ways)


def test_a_dial_that_comes_round_a_pitch_off_leads_to_no_start():
    """Arithmetic: 16 × 1/8 in is one and a half leads of 4/3 in: the start changes with every turn."""
    found = engagements(Fraction(1, 8), 16, 8, Fraction(4, 3), 2)
    assert found[0].outcome == "changes"
    assert {one.outcome for one in found} == {"changes", "wrong"}
    assert [(way.lines, way.threads) for way in next_starts(found, 2)] == [((), None)]


def test_a_leadscrew_of_the_lead_itself_never_leaves_the_start():
    found = engagements(Fraction(1, 4), 16, 8, Fraction(1, 4), 2)
    assert {one.outcome for one in found} == {"same start"}
    assert next_starts(found, 2)[0].threads is None


def test_metric_leads_on_an_inch_leadscrew_meet_no_groove_that_lasts():
    """The 127 in 25.4 never goes away on a dial: common practice, and arithmetic."""
    for lead in METRIC_LEADS:
        for starts in (1, 2, 3):
            found = engagements(INCH / 8, 16, 8, lead, starts)
            assert {one.outcome for one in found} <= {"changes", "wrong"}, lead


@pytest.mark.parametrize("seed", range(20, 24))
def test_lines_that_belong_together_stay_together(seed):
    """A line and the line one step on do the same; the starts take equal shares; all places are told once."""
    for screw, teeth, marks, lead, starts in setups(40, seed):
        found = engagements(screw, teeth, marks, lead, starts)
        places = [one.place for one in found]
        assert places == sorted(set(places))
        assert {Fraction(half, 2) for half in range(2 * marks)} <= set(places)
        assert sum(one.threads.denominator == 1 for one in found) == teeth
        rule = dial_rule(screw, teeth, marks, lead)
        if rule.step is None:
            assert all(one.start is None for one in found)
            continue
        by_place = {one.place: one for one in found}
        for one in found:
            on = by_place[(one.place + rule.step) % marks]
            assert (on.outcome, on.start) == (one.outcome, one.start)
        shares = [sum(one.start == start for one in found) for start in range(1, starts + 1)]
        assert {share for share in shares if share} == {shares[0]}


@pytest.mark.parametrize("seed", range(30, 33))
def test_the_way_to_a_start_leads_there(seed):
    """So many threads past any line of the first start, or on one of the lines, the tool is in that start."""
    for screw, teeth, marks, lead, starts in setups(40, seed):
        run = Run(screw, teeth, marks, lead, starts)
        ways = next_starts(engagements(screw, teeth, marks, lead, starts), starts)
        assert [way.start for way in ways] == list(range(2, starts + 1))
        for way in ways:
            if way.threads is not None:
                assert run.start_met(-way.threads * screw, Fraction(0)) == way.start
                shorter = range(1 - abs(way.threads), abs(way.threads))
                assert all(run.start_met(-count * screw, Fraction(0)) != way.start for count in shorter)
            for line in way.lines:
                assert run.start_met(-Fraction(line * teeth, marks) * screw, Fraction(0)) == way.start


GEARS = (14, 15, 16, 20, 21, 28)


def lines_by_trial(screw, teeth, marks, lead, rounds=4):
    """Lines at which, all round the dial and several times over, every closing is in the groove."""
    good = set()
    for line in range(marks):
        past = [Fraction(teeth * (line + turn * marks), marks) for turn in range(rounds)]
        if all(p.denominator == 1 and (p * screw / lead).denominator == 1 for p in past):
            good.add(line)
    return good


@pytest.mark.parametrize("lead", [*METRIC_LEADS, *(Fraction(mm) for mm in ("0.7", "0.8", "4.5", "5.5"))])
@pytest.mark.parametrize("screw", METRIC_SCREWS)
@pytest.mark.parametrize("marks", [4, 7, 8, 14])
def test_the_best_gear_has_the_most_lines(lead, screw, marks):
    found = dial_gears(screw, 16, GEARS, marks, lead)
    assert sorted(gear.teeth for gear in found) == sorted(GEARS)
    assert [gear.teeth for gear in found if gear.fitted] == [16]
    counts = {teeth: len(lines_by_trial(screw, teeth, marks, lead)) for teeth in GEARS}
    assert {gear.teeth: gear.usable_lines for gear in found} == counts
    if (screw / lead).denominator == 1:
        assert found[0].fitted
        assert found[0].rule.anywhere
    else:
        assert counts[found[0].teeth] == max(counts.values())
        assert [gear.usable_lines for gear in found] == sorted(counts.values(), reverse=True)
        if counts[16] == max(counts.values()):
            assert found[0].fitted


@pytest.mark.parametrize(
    ("lead", "serve"),
    [
        ("1.25", {15, 20}),
        ("2.5", {15, 20}),
        ("1.75", {14, 21, 28}),
        ("3.5", {14, 21, 28}),
        ("0.8", {14, 16, 20, 28}),
        ("4.5", {15, 21}),
        ("5.5", set()),
    ],
)
def test_which_gears_serve_a_metric_leadscrew(lead, serve):
    """Arithmetic by hand: 6 mm over the lead in lowest terms, its denominator has to divide the teeth."""
    found = dial_gears(Fraction(6), 16, GEARS, 8, Fraction(lead))
    assert {gear.teeth for gear in found if gear.usable_lines} == serve
    assert found[0].rule.keep_half_nuts_closed == (not serve)


def test_of_equal_gears_the_fitted_one_stays_and_else_the_shorter_way():
    """14 and 28 teeth on a dial of 7 lines both use all lines; 28 has the carriage go twice as far."""
    assert dial_gears(Fraction(6), 28, [14], 7, Fraction("3.5"))[0].teeth == 28
    assert [gear.teeth for gear in dial_gears(Fraction(6), 16, [28, 14], 7, Fraction("3.5"))] == [14, 28, 16]


@pytest.mark.parametrize(
    "wrong", [(0, 16, 8, 1, 1), (1, 0, 8, 1, 1), (1, 16, 0, 1, 1), (1, 16, 8, 0, 1), (1, 16, 8, 1, 0)]
)
def test_what_cannot_be_is_refused(wrong):
    screw, teeth, marks, lead, starts = wrong
    with pytest.raises(OutsideRange):
        engagements(Fraction(screw), teeth, marks, Fraction(lead), starts)
