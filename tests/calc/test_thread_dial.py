"""The thread dial: the rule by divisibility against carriages that are really moved about."""

from __future__ import annotations

import itertools
from fractions import Fraction

import pytest

from generator.calc.thread_dial import dial_rule
from generator.errors import OutsideRange

LEADSCREWS = [Fraction(1, 4), Fraction(1, 8), Fraction(1, 6), Fraction(1, 5), Fraction(30, 127)]
DIALS = [(16, 8), (16, 4), (32, 8), (24, 12), (30, 10), (14, 14)]
LEADS = [
    1 / Fraction(tpi)
    for tpi in (
        "2",
        "9/4",
        "5/2",
        "11/4",
        "3",
        "7/2",
        "4",
        "9/2",
        "5",
        "6",
        "7",
        "8",
        "9",
        "10",
        "11",
        "23/2",
        "12",
        "13",
        "14",
        "16",
        "27",
        "28",
    )
] + [Fraction(5 * mm, 127) for mm in (1, 2, 3)]


def lines_that_work(leadscrew, teeth, marks, lead, turns=4):
    """Move the carriage one leadscrew thread at a time and look where the dial stands and where the tool is.

    The thread was started at line 0. Wherever the half nuts can close with a line at the mark, the tool is in
    its groove or not; a line works when it is in the groove every time that line comes round.
    """
    seen: dict[int, set[bool]] = {}
    groove_each_time = True
    for threads_moved in range(turns * teeth):
        moved = threads_moved * leadscrew
        in_groove = (moved / lead).denominator == 1
        groove_each_time &= in_groove
        line = Fraction(threads_moved, teeth) * marks
        if line.denominator == 1:
            seen.setdefault(int(line) % marks, set()).add(in_groove)
    return groove_each_time, {line for line, found in seen.items() if found == {True}}


@pytest.mark.parametrize("leadscrew", LEADSCREWS)
@pytest.mark.parametrize(("teeth", "marks"), DIALS)
def test_rule_agrees_with_moving_the_carriage(leadscrew, teeth, marks):
    for lead in LEADS:
        rule = dial_rule(leadscrew, teeth, marks, lead)
        anywhere, working = lines_that_work(leadscrew, teeth, marks, lead)
        assert rule.anywhere == anywhere, lead
        expected = set(range(0, marks, rule.step)) if rule.step else set()
        assert working == expected, lead


def test_sets_of_numbers_are_the_lines_that_work_together():
    """Every set, started from its own first line: all of it works, and nothing of another set."""
    for (teeth, marks), lead in itertools.product(DIALS, LEADS):
        rule = dial_rule(Fraction(1, 8), teeth, marks, lead)
        _, working = lines_that_work(Fraction(1, 8), teeth, marks, lead)
        for numbers in rule.lines:
            start = numbers[0] - 1
            assert {number - 1 for number in numbers} == {(start + line) % marks for line in working}


@pytest.mark.parametrize(
    ("lead", "step"),
    [("7/2", 7), ("5/4", None)],
    ids=["lead 3.5 mm", "lead 1.25 mm"],
)
def test_metric_leadscrew_with_a_gear_for_sevens(lead, step):
    """6 mm leadscrew, gear of 28 teeth, 14 lines: one turn is 168 mm, 48 leads of 3.5 mm (arithmetic)."""
    rule = dial_rule(Fraction(6), 28, 14, Fraction(lead))
    assert rule.step == step
    assert rule.keep_half_nuts_closed == (step is None)


@pytest.mark.parametrize("metric", ["1", "1.5", "2", "3", "4.5"])
def test_metric_threads_on_an_inch_leadscrew_keep_the_half_nuts_closed(metric):
    """The 127 in 25.4 never goes away on a dial: common practice, and arithmetic."""
    lead = Fraction(metric) * 5 / 127
    for tpi in (4, 6, 8):
        assert dial_rule(Fraction(1, tpi), 16, 8, lead, 2).describe() == "keep the half nuts closed"


def test_several_starts_count_by_lead():
    """Three starts of 12 threads per inch have the lead of 4 threads per inch."""
    one_start, three_starts = (dial_rule(Fraction(1, 8), 16, 8, Fraction(starts, 12), 2) for starts in (1, 3))
    assert three_starts.step == 1
    assert not three_starts.anywhere
    assert three_starts == dial_rule(Fraction(1, 8), 16, 8, Fraction(1, 4), 2)
    assert one_start.step == 1


def test_two_starts_of_half_an_inch_lead():
    assert dial_rule(Fraction(1, 4), 16, 8, Fraction(1, 2), 2).describe() == "any line"
    assert dial_rule(Fraction(1, 8), 16, 8, Fraction(1, 2), 2).describe() == "numbered lines: 1, 2, 3, 4"


@pytest.mark.parametrize(
    ("marks", "numbered_every", "lead", "said"),
    [
        (4, 1, "1/10", "any line"),
        (8, 1, "1/10", "lines of one set only: 1, 3, 5 and 7; or 2, 4, 6 and 8"),
        (8, 1, "1/7", "one opposite pair: 1 and 5, or 2 and 6, or 3 and 7, or 4 and 8"),
        (8, 4, "1/10", "every second line, counted from the first one used"),
        (8, 2, "1/8", "any place"),
        (8, 2, "2/23", "the same line only"),
    ],
)
def test_words(marks, numbered_every, lead, said):
    """8 threads per inch, 16 teeth."""
    assert dial_rule(Fraction(1, 8), 16, marks, Fraction(lead), numbered_every).describe() == said


@pytest.mark.parametrize(
    "wrong",
    [
        (0, 16, 8, 1, 1),
        (1, 0, 8, 1, 1),
        (1, 16, 0, 1, 1),
        (1, 16, 8, 0, 1),
        (1, 16, 8, 1, 0),
        (1, 16, 8, 1, 3),
    ],
)
def test_impossible_dials_are_refused(wrong):
    leadscrew, teeth, marks, lead, every = wrong
    with pytest.raises(OutsideRange):
        dial_rule(Fraction(leadscrew), teeth, marks, Fraction(lead), every)
