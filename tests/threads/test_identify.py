"""Which thread is this: every standard size comes back from its measurements, twins are told apart.

Sizes come from the standards by the families' own tables, which tests/published compares with print. The
known confusions are named with their source beside each; sources of plain shop knowledge say so.
"""

from __future__ import annotations

import math
import random
import subprocess
import sys
from dataclasses import replace

import pytest

from generator.errors import BadDesignation
from generator.si import inch, mm
from generator.threads.identify.candidate import judge
from generator.threads.identify.expected import Zone, expected
from generator.threads.identify.measured import Measured, disagreement, faults, reading
from generator.threads.identify.search import identify, same_thread
from generator.threads.identify.twins import telling
from generator.threads.registry import (
    families,
    family_of,
    mate_of,
    parse_designation,
    profile,
    write_designation,
)

FIRST_FEW, MANY = 4, 15
UNITS = {"angle": math.radians(1), "flanks": math.radians(1), "tpi": 1.0, "taper": 1.0}
SIZES = {family.key: [size.designation for size in family.sizes()] for family in families()}
every_family = pytest.mark.parametrize("key", [key for key, sizes in SIZES.items() if sizes])


def seen(**said):
    """Measurements in mm, degrees, threads per inch; the uncertainty is the usual one."""
    plain = ("inside", "worn", "hand", "starts")
    return Measured(**{
        name: value if name in plain else reading(name, value * UNITS.get(name, mm))
        for name, value in said.items()
    })


def texts(candidates):
    """Every name under which the candidates go."""
    return [name for one in candidates for name in (one.text, *one.also)]


def fitting(**said):
    return texts(identify(seen(**said)).fitting)


def inside_zone(zone, worn, rng, inside):
    """A size as made, or as use leaves it: under outside, over inside, never the other way."""
    made = rng.uniform(zone.low, zone.high)
    if worn:
        made += rng.uniform(0, 0.9) * (zone.over if inside else -zone.under)
    return made


def measurements(d, rng, worn, names):
    """What a shop would read on a thread: a size within its limits, wear, and the noise of each reading."""
    thread = expected(d, worn)
    crest = "minor" if d.internal else "major"
    right = {
        crest: inside_zone(thread.zone(crest), worn, rng, d.internal) if thread.zone(crest) else None,
        "pitch_over_ten": 10 * thread.pitch, "angle": thread.angle, "taper": thread.profile.taper,
        "tpi": inch / thread.pitch,
    }
    readings = {}
    for name in names:
        name = crest if name == "crest" else name
        if right[name] is None:
            continue
        usual = reading(name, right[name])
        readings[name] = replace(usual, value=usual.value + rng.uniform(-0.7, 0.7) * usual.within)
    return Measured(**readings, inside=d.internal, worn=worn, hand=d.hand)


def exact(d):
    """Crests in the middle of their limits; pitch, flank angle and taper as the standard has them."""
    thread, crest = expected(d, False), "minor" if d.internal else "major"
    right = {"pitch": thread.pitch, "angle": thread.angle, "taper": thread.profile.taper}
    if (zone := thread.zone(crest)) is not None:
        right[crest] = (zone.low + zone.high) / 2
    return Measured(
        **{name: reading(name, value) for name, value in right.items()}, inside=d.internal, hand=d.hand
    )


@every_family
@pytest.mark.parametrize("worn", [False, True], ids=["used", "worn"])
def test_every_size_comes_back_from_its_own_measurements(key, worn):
    """Crest diameter, ten pitches, flank angle and taper, with wear and noise; outside and inside."""
    rng = random.Random(f"{key} {worn}")
    sizes = SIZES[key]
    for text in sizes if len(sizes) < MANY else rng.sample(sizes, MANY):
        screw = parse_designation(text)
        for d in (screw, *family_of(screw).mates(screw)):
            what = measurements(d, rng, worn, ("crest", "pitch_over_ten", "angle", "taper"))
            found = identify(what).candidates
            first = [one for one in found[:FIRST_FEW] if same_thread(one.expected.designation, d)]
            assert first, (text, d.side, what, texts(found[:FIRST_FEW]))
            assert first[0].fits, (text, d.side, what, first[0].distances)


@every_family
def test_every_size_measured_exactly_comes_back_first(key):
    """Nothing is off; what may stand before it fits as exactly, or fits and is met oftener."""
    for text in SIZES[key]:
        d = parse_designation(text)
        found = identify(exact(d)).candidates
        place = next(
            place for place, one in enumerate(found) if same_thread(one.expected.designation, d)
        )
        assert all(distance.off == 0 for distance in found[place].distances), (text, found[place])
        assert place < 2, (text, texts(found[: place + 1]))
        for one in found[:place]:
            as_exact = all(distance.off == 0 for distance in one.distances)
            assert one.fits, (text, one.text)
            assert as_exact or (one.common and not found[place].common), (text, one.text)


@every_family
def test_left_hand_and_more_starts_are_written_as_they_were_found(key):
    rng = random.Random(key)
    for text in rng.sample(SIZES[key], min(4, len(SIZES[key]))):
        d = parse_designation(text)
        try:
            wanted = replace(d, hand="left", starts=2, lead=2 * d.pitch)
            wanted = parse_designation(write_designation(wanted))
        except BadDesignation:
            wanted = parse_designation(write_designation(replace(d, hand="left")))
        what = measurements(wanted, rng, False, ("crest", "pitch_over_ten", "angle"))
        lead = reading("lead", float(wanted.lead) * wanted.unit_si)
        found = identify(replace(what, lead=lead)).candidates[:FIRST_FEW]
        assert any(same_thread(one.expected.designation, wanted) for one in found), (text, texts(found))
        for one in found:
            read = parse_designation(one.text, one.expected.designation.side)
            assert (read.hand, read.starts) == ("left", one.expected.designation.starts)


# -- known confusions -----------------------------------------------------------------------------------

# one, other, what was measured, what tells them apart, what each shows (mm, degrees)
CONFUSIONS = [
    # BS 84, ASME B1.1: BSW and Unified coarse share the threads per inch, but not at 1/2 in
    ("3/8-16 UNC-2A", "3/8 BSW", {"tpi": 16}, "angle", (60, 55)),
    ("1/4-20 UNC-2A", "1/4 BSW", {"tpi": 20}, "angle", (60, 55)),
    ("1-8 UNC-2A", "1 BSW", {"tpi": 8}, "angle", (60, 55)),
    ("1/2-13 UNC-2A", "1/2 BSW", {}, "pitch", (19.54, 21.17)),
    # BS 811, BS 84, and 26 threads of brass work: common practice
    ("1/4-26 BSC", "1/4 BSF", {"tpi": 26}, "angle", (60, 55)),
    # ISO 7-1, ISO 228-1, ASME B1.20.1: 1/2 and 3/4 have 14 threads per inch in all three
    ("G 1/2 A", "1/2-14 NPT", {"tpi": 14}, "taper", (0, 0.0625)),
    ("R 1/2", "1/2-14 NPT", {"tpi": 14, "taper": 1 / 16}, "angle", (55, 60)),
    ("G 3/4 A", "R 3/4", {"tpi": 14}, "taper", (0, 0.0625)),
    # the taper is alike, the threads per inch are not: 1/4 is 19 and 18
    ("R 1/4", "1/4-18 NPT", {"taper": 1 / 16}, "pitch", (13.37, 14.11)),
    # ISO 261, ASME B1.1, BS 811: three of nearly one size and pitch
    ("M8x1-6g", "5/16-24 UNF-2A", {}, "pitch", (10.00, 10.58)),
    ("M8x1-6g", "5/16-26 BSC", {}, "pitch", (18.00, 17.58)),
    # ISO 2902, ASME B1.5: a leaf does not tell 30 from 29 degrees
    ("Tr 10x2-7e", "3/8-12-ACME-2G", {"angle": 30}, "pitch", (20.00, 21.17)),
    # DIN 513, ISO 2902: one size and pitch, flanks that lean otherwise
    ("S40x7-7h", "Tr 40x7-7e", {}, "flanks", (3, 15)),
    # ASME B1.5 and B1.8: one size, pitch and angle; the stub thread is not as deep
    ("1/2-10-ACME-2G", "1/2-10 STUB ACME", {"angle": 29}, "pitch_diameter", (11.11, 11.65)),
]


@pytest.mark.parametrize(("one", "other", "same", "kind", "shows"), CONFUSIONS)
def test_known_confusions_are_told_apart(one, other, same, kind, shows):
    first, second = (expected(parse_designation(text), False) for text in (one, other))
    found = telling(first, second, seen(**same))
    assert found.kind == kind
    scale = UNITS.get(kind, mm)
    for (low, high), wanted in zip(found.shows, shows, strict=True):
        assert low / scale - 0.006 <= wanted <= high / scale + 0.006


# what was measured (mm), which reading alone rules the other out, and what each reads (mm, degrees)
NEAR_MISSES = [
    # ASME B1.1, BS 84: 13 and 12 threads per inch
    ({"major": 12.6, "pitch_over_ten": 19.5}, "1/2-13 UNC-2A", "1/2 in - 12 BSW (medium)",
     "pitch_over_ten", (19.54, 21.17)),
    # ASME B1.1, BS 84: one size and pitch, 60 and 55 degrees
    ({"major": 9.5, "tpi": 16, "angle": 55}, "3/8 in - 16 BSW (medium)", "3/8-16 UNC-2A", "angle", (55, 60)),
    # ISO 228-1 and ASME B1.20.1: 11 and 11 1/2 threads per inch
    ({"major": 33.2, "tpi": 11}, "G 1 A", "1-11.5 NPT", "tpi", (11, 11.5)),
    # ISO 261, ASME B1.1: 1 mm and 24 threads per inch
    ({"major": 7.9, "pitch": 1.0}, "M8x1-6g", "5/16-24 UNF-2A", "pitch", (1.0, 1.058)),
    # ISO 7-1 and ASME B1.20.1: one taper, 14 threads per inch, 55 and 60 degrees
    ({"major": 21.3, "tpi": 14, "taper": 1 / 16, "angle": 60}, "1/2-14 NPT", "R 1/2", "angle", (60, 55)),
    # ISO 261, ISO 7-1: M10x1 is a little larger than the 1/8 pipe thread of 28 threads per inch
    ({"major": 9.9, "pitch": 1.0}, "M10x1-6g", "R 1/8", "pitch", (1.0, 0.907)),
]


@pytest.mark.parametrize(("said", "first", "second", "against", "shows"), NEAR_MISSES)
def test_a_thread_that_one_reading_alone_rules_out_is_named(said, first, second, against, shows):
    found = identify(seen(**said))
    assert found.candidates[0].text == first
    miss = next(miss for miss in found.near_misses if miss.second.text == second)
    assert (miss.against.name, miss.if_worn) == (against, False)
    (of_first,) = (one for one in found.candidates[0].distances if one.name == against)
    scale = UNITS.get(against, mm)
    assert (of_first.low / scale, miss.against.low / scale) == pytest.approx(shows, abs=0.006)


def test_a_thread_that_wear_would_explain_is_named():
    """4.70 mm and 0.8 mm: #10-32 UNF (ASME B1.1), or a worn M5, 4.826 to 4.976 mm (ISO 965-2)."""
    what = seen(major=4.7, pitch=0.8)
    found = identify(what)
    assert found.candidates[0].text == "#10-32 UNF-2A"
    (worn,) = (miss for miss in found.near_misses if miss.if_worn)
    assert worn.second.text == "M5x0.8-6g"
    assert (worn.against.low / mm, worn.against.high / mm) == pytest.approx((4.826, 4.976), abs=1e-6)
    assert "M5x0.8-6g" in texts(identify(replace(what, worn=True)).fitting)
    assert not any(miss.if_worn for miss in identify(replace(what, worn=True)).near_misses)


def test_what_is_far_off_deceives_nobody():
    found = identify(seen(major=12.6, pitch_over_ten=19.5))
    names = [miss.second.text for miss in found.near_misses]
    assert "1/2-20 UNF-2A" not in names  # the same size, but a pitch that nobody takes for it
    assert identify(seen(major=12.6)).near_misses == ()  # one reading that is off is all there is
    assert identify(seen(major=99.7, pitch=0.3)).near_misses == ()  # nothing fits


def test_twins_of_the_nearest_are_told_apart_too():
    """G, R and NPT 1/2: the taper leaves R and NPT, the flanks tell those (ISO 228-1, ISO 7-1, B1.20.1)."""
    found = identify(seen(major=20.9, tpi=14)).twins
    told = {(twin.first.text, twin.second.text): twin.telling for twin in found}
    assert told["G 1/2 A", "R 1/2"].kind == "taper"
    assert told["G 1/2 A", "1/2-14 NPT"].kind == "taper"
    last = told["R 1/2", "1/2-14 NPT"]
    assert [round(math.degrees(low)) for low, _ in last.shows] == [55, 60]


def test_of_two_as_near_what_is_met_oftener_stands_first():
    """6 mm by 1 mm is M6, not 0 BA or Loewenherz; 24x5 is trapezoidal, not saw-tooth: common practice."""
    for said, first, then in (
        ({"major": 6.0, "pitch": 1.0}, "M6x1-6g", "0 BA (normal)"),
        ({"major": 23.8, "pitch": 5.0}, "Tr 24x5-7e", "S24x5-7h"),
        ({"major": 9.5, "tpi": 16}, "3/8-16 UNC-2A", "3/8 in - 16 BSW (medium)"),
    ):
        found = fitting(**said)
        assert found[0] == first
        assert then in found


def test_the_example_of_the_half_inch():
    """1/2-13 UNC from a caliper and ten pitches; 1/2-12 BSW and M12 are far off (B1.1, BS 84, ISO 261)."""
    found = identify(seen(major=12.6, pitch_over_ten=19.5))
    assert found.candidates[0].text == "1/2-13 UNC-2A"
    assert "1/2-13 NC-2" in found.candidates[0].also
    assert len(found.fitting) == 1
    whitworth = judge(parse_designation("1/2 BSW"), found.measured)
    assert not whitworth.fits
    assert whitworth.distances[1].off == pytest.approx(19.5 * mm - 10 * inch / 12)


def test_worn_crests_hide_the_size_and_the_pitch_shows_it():
    """12.1 mm, worn: 1/2 in of 12 or 13 threads, or M12; ten pitches tell (21.17, 19.54, 17.50 mm)."""
    worn = fitting(major=12.1, worn=True)
    for text in ("1/2 in - 12 BSW (medium)", "1/2-13 UNC-2A"):
        assert text in worn
        assert text not in fitting(major=12.1)
    assert "M12x1.75-6g" in fitting(major=12.0, worn=True)
    assert fitting(major=12.1, worn=True, pitch_over_ten=21.2)[0] == "1/2 in - 12 BSW (medium)"
    assert fitting(major=12.1, worn=True, pitch_over_ten=19.5)[0] == "1/2-13 UNC-2A"
    assert fitting(major=11.8, worn=True, pitch_over_ten=17.5)[0] == "M12x1.75-6g"


def test_a_worn_screw_reads_under_and_never_over():
    """A worn thread outside cannot be larger than its standard, one inside not smaller."""
    limits_of = expected(parse_designation("M20-6g"), True).major
    over, under = 20.2, limits_of.low / mm - 0.5
    assert "M20x2.5-6g" not in fitting(major=over, worn=True, pitch=2.5)
    assert "M20x2.5-6g" in fitting(major=under, worn=True, pitch=2.5)
    bore = expected(parse_designation("M20-6H"), True).minor
    assert "M20x2.5-6H" in fitting(minor=bore.high / mm + 0.5, worn=True, pitch=2.5, inside=True)
    assert "M20x2.5-6H" not in fitting(minor=bore.low / mm - 0.2, worn=True, pitch=2.5, inside=True)


def test_pipe_threads_are_named_by_a_size_that_nothing_measures():
    """G 1/2 is 20.955 mm over the crests (ISO 228-1); M20x1.5 and 13/16-16 UN are near, no twins."""
    found = fitting(major=20.85, tpi=14)
    assert {"G 1/2 A", "R 1/2", "1/2-14 NPT"} <= set(found)
    assert not {"M20x1.5-6g", "13/16-16 UN-2A"} & set(found)
    assert fitting(major=20.85, tpi=14, taper=0.0625, angle=55)[0] == "R 1/2"
    inside = fitting(minor=18.7, tpi=14, inside=True)
    assert {"G 1/2", "Rp 1/2", "Rc 1/2"} <= set(inside)


def test_a_lead_of_several_pitches_is_several_starts():
    """Tr 40x14(P7) is written with its lead first (ISO 2902)."""
    assert fitting(major=39.9, pitch=7, lead=14, angle=30)[0] == "Tr 40x14(P7)-7e"
    assert fitting(major=39.9, pitch=7, starts=2, angle=30)[0] == "Tr 40x14(P7)-7e"
    assert fitting(major=39.9, pitch=7, lead=7, angle=30)[0] == "Tr 40x7-7e"
    alone = fitting(major=39.9, lead=14, angle=30)
    assert alone[0] == "Tr 40x14(P7)-7e"
    one, two = (expected(parse_designation(text), False) for text in ("Tr 40x14(P7)-7e", "Tr 44x14-7e"))
    assert telling(one, two, Measured()).kind == "starts"


def test_one_thread_under_several_names_stands_once():
    """American National and Unified threads have one form and size (ASME B1.1, appendix; NBS H28)."""
    found = identify(seen(major=19.0, tpi=10, angle=60)).candidates
    assert sum("3/4-10 UNC-2A" in (one.text, *one.also) for one in found) == 1
    assert "3/4-10 NC-2" in next(one for one in found if "3/4-10 UNC-2A" in (one.text, *one.also)).also


# -- the thread as measured -----------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("said", "unit", "text"),
    [
        ({"major": 23.4, "pitch": 1.8, "angle": 60}, "mm", "special 23.4x1.8 60deg"),
        ({"major": 23.4, "tpi": 14.5, "angle": 55}, "in", "special 0.9213-14.5 55deg"),
        ({"major": 30, "pitch": 3, "angle": 60, "taper": 1 / 16, "hand": "left"}, "mm",
         "special 30x3 60deg taper 1:16 LH"),
        ({"major": 23.4, "minor": 21.4, "pitch": 1.8, "angle": 60}, "mm", "special 23.4x1.8 60deg depth 1"),
        ({"major": 30, "pitch": 3, "lead": 6, "angle": 30}, "mm", "special 30x6(P3) 30deg"),
    ],
)
def test_the_measured_form_can_always_be_kept(said, unit, text):
    kept = identify(seen(**said), unit).special.designation
    assert kept.text == text
    assert parse_designation(text) == replace(kept, text=text)


def test_the_special_bore_has_its_major_diameter_worked_out():
    """Half the groove is the depth that the special form takes: 0.649519 P for 60 degrees."""
    kept = identify(seen(minor=20, pitch=2, angle=60, inside=True)).special.designation
    assert kept.internal
    assert kept.nominal == pytest.approx(20 + 2 * profile(kept).depth * 2, abs=1e-3)


def test_what_cannot_be_kept_says_what_is_missing_or_wrong():
    assert identify(seen(major=20)).special.wanted == ("pitch_over_ten", "angle")
    assert identify(seen(minor=20, inside=True, pitch=2)).special.wanted == ("angle",)
    cannot = identify(seen(major=20, minor=16, pitch=1, angle=60)).special
    assert cannot.designation is None
    assert "meet below the crest" in cannot.cannot


# -- readings -------------------------------------------------------------------------------------------


def test_measurements_that_no_thread_can_have_are_said():
    assert faults(seen(angle=60))[0][0] == ""
    assert faults(seen(major=12, minor=12))[0][0] == "minor"
    assert faults(seen(major=12, pitch=12))[0][0] == "pitch"
    assert faults(seen(major=12, pitch=4, lead=3))[0][0] == "lead"
    assert not faults(seen(major=12, pitch=2, lead=2))
    blind = Measured(major=reading("major", 12 * mm, 12 * mm))
    assert faults(blind) == (("major", "is known no better than its own size: measure it closer"),)
    assert faults(seen(major=12, taper=0.5))[0][0] == "taper"


def test_pitches_that_contradict_each_other_are_said():
    assert disagreement(seen(tpi=12, pitch_over_ten=19.5)) == ("tpi", "pitch_over_ten")
    assert disagreement(seen(tpi=13, pitch_over_ten=19.5, pitch=1.95)) is None


def test_a_zone_knows_both_sides():
    zone = Zone(9.0, 10.0, under=0.5)
    assert [zone.off(value) for value in (8.5, 9.5, 10.25)] == [-0.5, 0.0, 0.25]


def test_a_sharper_reading_leaves_fewer_candidates():
    rough = replace(seen(major=20), pitch=reading("pitch", 2.0 * mm, 0.6 * mm))
    sharp = replace(seen(major=20), pitch=reading("pitch", 2.0 * mm, 0.01 * mm))
    assert set(texts(identify(sharp).fitting)) < set(texts(identify(rough).fitting))


def test_whatever_is_measured_gets_an_answer():
    rng = random.Random(20)
    for _ in range(60):
        chosen = {
            "major": rng.uniform(0.2, 500), "minor": rng.uniform(0.2, 500),
            "pitch_diameter": rng.uniform(0.2, 500), "pitch": rng.uniform(0.05, 40),
            "pitch_over_ten": rng.uniform(0.5, 400), "tpi": rng.uniform(0.5, 100),
            "lead": rng.uniform(0.05, 100), "angle": rng.uniform(0, 179), "taper": rng.uniform(0, 0.9),
        }
        names = rng.sample(sorted(chosen), rng.randint(1, 5))
        what = seen(
            **{name: chosen[name] for name in names}, inside=rng.random() < 0.5, worn=rng.random() < 0.5,
            hand=rng.choice(["right", "left"]), starts=rng.choice([None, 1, 2, 3]),
        )
        if faults(what):
            continue
        answer = identify(what, rng.choice(["in", "mm"]))
        assert answer.candidates
        kept = answer.special
        assert kept.designation or kept.wanted or kept.cannot


def test_the_nearest_of_all_sizes_are_compared():
    """The plain numbers that choose which sizes are looked at never leave out one that fits."""
    rng = random.Random(7)
    everything = [parse_designation(text) for sizes in SIZES.values() for text in sizes]
    for _ in range(6):
        d = rng.choice(everything)
        if rng.random() < 0.5:
            d = mate_of(d)
        what = measurements(d, rng, True, ("crest", "pitch_over_ten"))
        found = {one.expected.kind for one in identify(what).fitting}
        for other in everything:
            for half in family_of(other).mates(other) if d.internal else (other,):
                other_judged = judge(half, what)
                assert not other_judged.fits or other_judged.expected.kind in found, (d.text, half)


def test_a_process_pays_little_for_its_first_identification():
    """All families included; against reading a thousand designations in the same process (a ratio)."""
    code = """
import time
from generator.threads.identify.measured import Measured, reading
from generator.threads.identify.search import identify
from generator.threads.registry import families, limits, parse_designation
start = time.process_time()
identify(Measured(major=reading("major", 0.0126), pitch_over_ten=reading("pitch_over_ten", 0.0195)))
first = time.process_time() - start
start = time.process_time()
for family in families():
    for size in family.sizes():
        limits(parse_designation(size.designation))
print(first / (time.process_time() - start))
"""
    said = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert float(said.stdout) < 1  # limits of all sizes would take longer than the whole identification
