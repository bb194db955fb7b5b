"""Thread dials against print.

Principle: Franklin D. Jones, Turning and Boring (1914), on catching the thread: with a leadscrew of six
threads per inch, any number of threads that is a multiple of six may be caught at any time; with a dial gear
of twenty-four teeth on it, odd threads on one of the four lines an inch apart, even ones on any of eight.
"Duplex", The Dial Thread Indicator, The Model Engineer, 22 September 1949, for a leadscrew of eight.
Charts: printed in lathe makers' operator manuals, compared entry by entry.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from generator.calc.dial_places import engagements
from generator.calc.thread_dial import dial_rule

# One chart in full: leadscrew 8 threads per inch, dial gear of 16 teeth, 8 lines; as printed for each thread.
ANYWHERE, ANY, FOUR, PAIR, SAME = 0, 1, 2, 4, 8  # lines from one allowed line to the next
CHART_8_TPI = {
    "8": ANYWHERE,
    "16": ANYWHERE,
    "24": ANYWHERE,
    "32": ANYWHERE,
    "40": ANYWHERE,
    "48": ANYWHERE,
    "56": ANYWHERE,
    "12": ANY,
    "20": ANY,
    "28": ANY,
    "36": ANY,
    "44": ANY,
    "52": ANY,
    "10": FOUR,
    "14": FOUR,
    "18": FOUR,
    "22": FOUR,
    "26": FOUR,
    "30": FOUR,
    "38": FOUR,
    "5": PAIR,
    "7": PAIR,
    "9": PAIR,
    "11": PAIR,
    "13": PAIR,
    "15": PAIR,
    "9/2": SAME,
    "11/2": SAME,
    "13/2": SAME,
    "15/2": SAME,
    "19/2": SAME,
}
STRICTER_THAN_NEEDED = {"6": PAIR, "19": SAME}  # printed so; 6 may use four lines, 19 a pair
PRINTED_WRONG = "4"  # printed as anywhere; half of the closings would fall half a pitch off

# The pattern printed for a dial numbered 1 to 4 with plain lines between: whole, half, quarter threads.
CHART_4_TPI = {
    "4": "any place",
    "8": "any place",
    "12": "any place",
    "20": "any place",
    "56": "any place",
    "7": "numbered lines: 1, 2, 3, 4",
    "11": "numbered lines: 1, 2, 3, 4",
    "13": "numbered lines: 1, 2, 3, 4",
    "23/2": "one opposite pair: 1 and 3, or 2 and 4",
    "9/2": "one opposite pair: 1 and 3, or 2 and 4",
    "11/4": "the same line only",
    "9/4": "the same line only",
    "13/4": "the same line only",
}


def rule(leadscrew: int, threads: str, numbered_every: int = 2):
    return dial_rule(Fraction(1, leadscrew), 16, 8, 1 / Fraction(threads), numbered_every)


@pytest.mark.parametrize("threads", [6, 12, 18])
def test_multiples_of_the_leadscrew_are_caught_at_any_time(threads):
    """Jones (1914): leadscrew of six threads per inch, 6, 12, 18 or any other multiple of six."""
    assert dial_rule(Fraction(1, 6), 18, 6, Fraction(1, threads)).anywhere


@pytest.mark.parametrize("threads", [4, 8, 9, 10, 11, 13, 14, 15])
def test_other_threads_are_not(threads):
    """Jones (1914): not so when the number of threads is no multiple of that of the leadscrew."""
    assert not dial_rule(Fraction(1, 6), 18, 6, Fraction(1, threads)).anywhere


@pytest.mark.parametrize(("threads", "printed"), CHART_8_TPI.items())
def test_chart_of_an_8_tpi_leadscrew(threads, printed):
    found = rule(8, threads)
    assert found.anywhere == (printed == ANYWHERE)
    if printed:
        assert found.step == printed


@pytest.mark.parametrize(("threads", "printed"), STRICTER_THAN_NEEDED.items())
def test_chart_is_never_broader_than_the_rule(threads, printed):
    found = rule(8, threads)
    assert found.step is not None
    assert printed % found.step == 0
    assert printed > found.step


def test_a_chart_that_is_wrong_is_not_followed():
    found = rule(8, PRINTED_WRONG)
    assert not found.anywhere
    assert found.describe() == "any line"


@pytest.mark.parametrize(("threads", "printed"), CHART_4_TPI.items())
def test_chart_of_a_dial_numbered_one_to_four(threads, printed):
    assert rule(4, threads).describe() == printed


@pytest.mark.parametrize("threads", ["2", "6", "10", "14", "22", "26"])
def test_even_threads_on_4_tpi_may_use_every_line(threads):
    """The same chart prints the plain lines only, which is allowed but stricter than needed."""
    assert rule(4, threads).describe() == "any line"


@pytest.mark.parametrize(
    ("threads", "said"),
    [
        ("12", "any line"),
        ("20", "any line"),
        ("10", "numbered lines: 1, 2, 3, 4"),
        ("7", "one opposite pair: 1 and 3, or 2 and 4"),
        ("11", "one opposite pair: 1 and 3, or 2 and 4"),
        ("23/2", "the same line only"),
        ("9/2", "the same line only"),
    ],
)
def test_the_rule_for_odd_threads_changes_with_the_leadscrew(threads, said):
    """Chart of another maker, 8 lines, four of them numbered: odd threads one pair, even numbered lines."""
    assert rule(8, threads).describe() == said


@pytest.mark.parametrize(("threads", "lines"), [(10, 8), (9, 4), (6, 8), (8, 8), (11, 4), (13, 4)])
def test_twenty_four_teeth_on_six_threads_per_inch(threads, lines):
    """Jones (1914), on the thread indicator: 10 and even threads on any of eight lines, odd ones on four."""
    found = dial_rule(Fraction(1, 6), 24, 8, Fraction(1, threads), 2)
    assert found.step is not None
    assert 8 // found.step == lines


def test_ten_threads_are_met_after_three_of_six():
    """Jones (1914): one or two leadscrew threads on the tool is out of line, after three it is in the cut."""
    found = {one.threads: one.outcome for one in engagements(Fraction(1, 6), 24, 8, Fraction(1, 10))}
    assert [found[Fraction(count)] for count in range(4)] == ["same start", "wrong", "wrong", "same start"]


def test_eleven_threads_need_a_full_inch():
    """The Model Engineer (1949): 11 has 5 1/2 threads in half an inch, so a full inch on a leadscrew of 8."""
    found = dial_rule(Fraction(1, 8), 16, 8, Fraction(1, 11), 2)
    assert found.step is not None
    assert found.step * Fraction(16, 8) / 8 == 1


@pytest.mark.parametrize("threads", [16, 24, 32])
def test_multiples_of_eight_need_no_indicator(threads):
    """The Model Engineer (1949): the nut may be closed on any thread of the leadscrew of 8."""
    assert rule(8, threads).anywhere


# Charts of two makers for a dial numbered 1 to 4 with plain lines between; halves, quarters and an eighth.
HALVES = ["3/2", "5/2", "7/2", "9/2", "11/2", "13/2", "15/2", "19/2", "21/2", "23/2", "27/2"]
QUARTERS = ["5/4", "7/4", "9/4", "11/4", "13/4", "19/4", "21/4", "23/4", "27/4"]


@pytest.mark.parametrize("threads", HALVES)
def test_halves_are_one_opposite_pair(threads):
    assert rule(4, threads).describe() == "one opposite pair: 1 and 3, or 2 and 4"


@pytest.mark.parametrize("threads", QUARTERS)
def test_quarters_are_the_same_line_only(threads):
    assert rule(4, threads).describe() == "the same line only"


def test_an_eighth_keeps_the_half_nuts_closed():
    """Printed for 2 7/8: the same as metric threads, which are cut with the half nuts closed to the end."""
    assert rule(4, "23/8").describe() == "keep the half nuts closed"


@pytest.mark.parametrize("threads", [1, 3, 5, 7, 9, 11, 13, 15, 19, 21, 23, 27])
def test_odd_threads_are_the_numbered_lines(threads):
    assert rule(4, threads).describe() == "numbered lines: 1, 2, 3, 4"


@pytest.mark.parametrize("threads", [2, 6, 10, 14, 18, 22, 26, 30, 42, 46, 54])
def test_plain_lines_for_even_threads_are_within_the_rule(threads):
    """Printed for the plain lines only: whatever line was first, every second one is right."""
    found = rule(4, threads).step
    assert found is not None
    assert 2 % found == 0


def test_the_dial_spaces_the_grooves_of_several_starts():
    """US Army Air Corps TM 1-420, Lathes (1940), p. 81: eight pitch, 1/4 in lead, spaced by the dial.

    On 8 threads per inch one leadscrew thread is one pitch, and every line keeps the start it was in.
    """
    found = engagements(Fraction(1, 8), 16, 8, Fraction(1, 4), 2)
    assert {one.start for one in found if one.on_line} == {1}
    assert {one.start for one in found if not one.on_line} == {2}
