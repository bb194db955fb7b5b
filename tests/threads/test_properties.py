"""What holds for the threads of every family: fits, order, writing and reading, any text at all.

The families are asked for, never named; what a standard arranges otherwise is named beside the test that
leaves it out. Whether the sizes themselves are right is a matter of print: tests/published.
"""

from __future__ import annotations

import itertools
from dataclasses import replace
from fractions import Fraction
from functools import cache

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from generator.errors import BadDesignation, OutsideRange
from generator.job.thread_print import CLASSES
from generator.threads.registry import (
    families,
    limits,
    mate_of,
    parse_designation,
    profile,
    write_designation,
)
from generator.threads.text import number_text, tidy

SIZES = [(family, size) for family in families() for size in family.sizes()]
TEXTS_OF = {
    family.key: [*(size.designation for size in family.sizes()), *family.examples] for family in families()
}
TEXTS = [text for texts in TEXTS_OF.values() for text in texts]
EXAMPLES = [one for family in families() for one in family.examples]
# Printed at three places where all others stand at four: the minor diameter of Unified nuts (ASME B1.1).
PRINTED_SHORTER = 5.1e-4
every_family = pytest.mark.parametrize("texts", TEXTS_OF.values(), ids=TEXTS_OF.keys())
quick = settings(
    max_examples=600, deadline=None, derandomize=True, database=None,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much],
)


def pair(text):
    """A thread outside and one inside that go together, with their limits."""
    d = parse_designation(text)
    screw, nut = (mate_of(d), d) if d.internal else (d, mate_of(d))
    return limits(screw), limits(nut)


def meaning(d):
    """All that a designation says, but for how it was written."""
    return replace(d, text="", nominal_text="", class_assumed=False, pitch_assumed=False, side_assumed=False)


@every_family
def test_no_screw_is_larger_than_its_nut(texts):
    """At pitch, major and minor diameter; not taper threads: they wedge (ASME B1.20.1, ISO 7-1)."""
    for text in texts:
        screw, nut = pair(text)
        assert screw.designation.internal is False
        assert nut.designation.internal is True
        if profile(screw.designation).taper or profile(nut.designation).taper:
            continue
        for name in ("major", "pitch_diameter", "minor"):
            outer, inner = getattr(screw, name).max, getattr(nut, name).min
            if outer is not None and inner is not None:
                allowed = PRINTED_SHORTER if name == "minor" else 1e-9
                assert outer <= inner + allowed, (text, name, outer, inner)


def check_order(of):
    """Each max over its min, the major diameter over the pitch diameter, that over the minor."""
    ranges = (of.major, of.pitch_diameter, of.minor)
    for one in ranges:
        assert one.max is None or one.min is None or one.max >= one.min, one
        assert all(end is None or end > 0 for end in (one.max, one.min)), one
    for larger, smaller in itertools.pairwise(ranges):
        for end in ("max", "min"):
            outer, inner = getattr(larger, end), getattr(smaller, end)
            assert outer is None or inner is None or outer > inner, (end, outer, inner)
    for tolerance in (of.major_tolerance, of.pitch_tolerance, of.minor_tolerance):
        assert tolerance is None or tolerance >= 0


@every_family
def test_limits_are_in_order(texts):
    for text in texts:
        for of in pair(text):
            check_order(of)
            assert of.source
            assert {"major.max", "major.min", "minor.max", "minor.min"} & {line.name for line in of.lines}


DIAMETERS = (
    0.04, 0.05, 0.073, 0.1, 0.19, 0.25, 0.5, 0.9, 1, 1.6, 2.3, 5, 10, 24, 57, 99, 180, 300, 355, 500, 999,
)
PITCHES = (
    0.0125, 0.025, 0.05, 0.1, 0.125, 0.2, 0.25, 0.4, 0.5, 0.75, 1, 1.5, 2, 3.5, 4, 8, 24, 44, 100, 500,
)


@st.composite
def absurd(draw):
    """A thread of any family whose size, pitch, class and starts have nothing to do with each other."""
    d = parse_designation(draw(st.sampled_from(EXAMPLES)))
    d = mate_of(d) if draw(st.booleans()) else d
    size, starts = draw(st.sampled_from(DIAMETERS)), draw(st.sampled_from((1, 1, 1, 2, 5)))
    pitch = Fraction(str(draw(st.sampled_from(PITCHES))))
    class_ = draw(st.sampled_from([d.class_, *CLASSES, "close", "medium", "free", "normal"]))
    return replace(
        d, text="", nominal=float(size), nominal_text=number_text(size), pitch=pitch, lead=starts * pitch,
        starts=starts, tpi=1 / pitch if d.tpi else None, class_=class_ if d.class_ else "",
    )


@settings(quick, max_examples=1500)
@given(absurd(), st.sampled_from([None, 1e-6, 0.1, 1.0, 50.0, 1e4]))
def test_absurd_sizes_are_refused_or_have_limits_in_order(d, engagement):
    """In all families, outside and inside, in every class: no limits at all, or limits that make a thread."""
    d = refusal(write_designation(d))
    if isinstance(d, str):
        return
    try:
        of = limits(d, engagement)
    except OutsideRange:
        return
    check_order(of)
    form = profile(d)
    assert form.depth > 0
    assert min(form.crest_flat, form.tool_flat, form.widest_flat) >= 0


@pytest.mark.parametrize(("text", "reason"), [
    ("500-2 STUB ACME", "so fine"), ("300-20-ACME-2G internal", "so fine"), ("99-80 BUTT-2A", "so fine"),
    ("24 in - 80 Whit (free)", "so fine"), ("24-80 UNS-2A", "so fine"), ("S 300x0.05-9h", "so fine"),
    ("SQ 0.1x0.05", "tolerances are larger"), ("1-1 UNS-2B", "too coarse"), ("Tr 8x8-7e", "too coarse"),
    ("M5x5-6g", "too coarse"), ("M5x5-6H", "too coarse"), ("0.05-4-ACME-2G", "too coarse"),
    ("1-1 BSC", "too coarse"), ("1/8-2 N-2", "too coarse"), ("1/4-1 SQ", "too coarse"),
])
def test_what_no_formula_can_make_a_thread_of_is_refused(text, reason):
    """Too fine or too coarse a pitch for the diameter, and the reason is said."""
    with pytest.raises(OutsideRange, match=reason):
        limits(parse_designation(text))


@cache
def classes_of(family, side):
    """The classes that a family has on one side; one that is empty where it has none."""
    found = {}
    for text in TEXTS_OF[family][-6:]:
        d = parse_designation(text)
        d = d if d.side == side else mate_of(d)
        for class_ in (*CLASSES, "close", "medium", "free", "normal") if d.class_ else ():
            again = refusal(write_designation(replace(d, class_=class_)))
            if not isinstance(again, str) and (again.class_, again.side) == (class_, side):
                found[class_] = None
    return tuple(found) or ("",)


def in_every_class(texts):
    """One thread of each pitch, outside and inside, in every class that its family has."""
    of_pitch = {(d.pitch, d.unit, d.series, d.form): d for d in map(parse_designation, texts)}
    for d in of_pitch.values():
        for side in (d, mate_of(d)):
            for class_ in classes_of(side.family, side.side):
                one = replace(side, text="", class_=class_, class_assumed=False)
                again = refusal(write_designation(one))
                if not isinstance(again, str) and again.class_ == class_:  # some of its sizes have none
                    yield one


def limits_or_none(d):
    """Its limits; None where the standard has no such class at that pitch."""
    try:
        return limits(d)
    except OutsideRange:
        return None


@every_family
def test_no_screw_of_any_class_is_larger_than_a_nut_of_any_class(texts):
    """Pitch and major diameter of the largest screw against the smallest nut, one and two starts.

    Not taper threads: they wedge.
    """
    pairs = {}
    for d in in_every_class(texts):
        if profile(d).taper or profile(mate_of(d)).taper:
            continue
        for starts in (1, 2):
            of = limits_or_none(replace(d, starts=starts, lead=starts * d.pitch))
            if of is not None:
                same = (d.nominal, d.pitch, d.form, profile(d).flanks, starts)
                pairs.setdefault(same, ([], []))[d.internal].append(of)
    for screws, nuts in pairs.values():
        for screw, nut in itertools.product(screws, nuts):
            for name in ("major", "pitch_diameter"):
                outer, inner = getattr(screw, name).max, getattr(nut, name).min
                assert outer is None or inner is None or outer <= inner + 1e-9, (screw, nut, name)


@every_family
def test_limits_of_every_class_are_in_order_and_its_designation_comes_back(texts):
    """Left hand and several starts too."""
    for d in in_every_class(texts):
        for one in (d, replace(d, hand="left"), replace(d, starts=3, lead=3 * d.pitch)):
            of = limits_or_none(one)
            if of is not None:
                check_order(of)
            written = write_designation(one)
            assert meaning(parse_designation(written)) == meaning(one), written


def groups(*names):
    """The standard sizes of each family, grouped by what the names say of their designations.

    Not taper threads: their tolerance is a turn, the same for all sizes of a pitch (ASME B1.20.1, ISO 7-1).
    """
    found = {}
    for family, size in SIZES:
        d = parse_designation(size.designation)
        if profile(d).taper:
            continue
        found.setdefault((family.key, *(getattr(d, name) for name in names)), []).append(d)
    return found.items()


@pytest.mark.parametrize(("same", "grows"), [("pitch", "nominal"), ("nominal", "pitch")])
def test_tolerances_grow_with_diameter_and_pitch(same, grows):
    """No larger diameter at the same pitch, no coarser pitch at the same diameter has a closer tolerance.

    In the same series, number of starts, and each class, outside and inside.
    """
    seen = 0
    for key, group in groups("series", same, "starts"):
        ordered = sorted(group, key=lambda d: getattr(d, grows))
        for side, class_ in itertools.chain.from_iterable(
            ((side, class_) for class_ in classes_of(key[0], side)) for side in ("external", "internal")
        ):
            found = [
                of.pitch_tolerance
                for d in ordered
                if (of := limits_or_none(replace(d, side=side, class_=class_))) and of.pitch_tolerance
            ]
            assert found == sorted(found), (key, side, class_)
            seen += max(len(found) - 1, 0)
    assert seen > 2000


@every_family
def test_writing_and_reading_again_is_the_identity(texts):
    """Outside and inside, right and left hand, one start and three; the standard's form stays as it is."""
    for text in texts:
        d = parse_designation(text)
        for side in (d, mate_of(d)):
            for hand in ("right", "left"):
                for starts in sorted({side.starts, 1, 3}):
                    one = replace(side, hand=hand, starts=starts, lead=starts * side.pitch)
                    written = write_designation(one)
                    again = parse_designation(written)
                    assert meaning(again) == meaning(one), written
                    assert write_designation(again) == written


@every_family
def test_limits_do_not_depend_on_hand_and_starts_have_limits(texts):
    """The sizes of a left-hand thread are those of a right-hand one; several starts are computed, too."""
    for text in texts:
        d = parse_designation(text)
        right, left = limits(d), limits(replace(d, hand="left"))
        for name in ("major", "pitch_diameter", "minor"):
            assert getattr(left, name) == getattr(right, name), text
        check_order(limits(replace(d, starts=2, lead=2 * d.pitch)))


@pytest.mark.parametrize("text", EXAMPLES)
def test_spaces_dashes_and_signs_do_not_matter(text):
    d = parse_designation(text)
    for variant in (
        f"  {text} ", text.replace(" ", "   "), text.replace("-", " - "), text.replace("-", "–"),
        text.replace("-", "− "), text.replace("x", "×"), text.replace("x", " x "),
        text.replace(" ", "\u00a0"), text.replace("(", " ( ").replace(")", " ) "),
    ):
        assert meaning(parse_designation(variant)) == meaning(d), variant


@pytest.mark.parametrize("text", EXAMPLES)
def test_cases_do_not_matter(text):
    """But for the letters of ISO classes, which say by their case which side is meant (6g, 6H)."""
    d = parse_designation(text)
    for variant in (text.lower(), text.upper(), text.swapcase()):
        if d.class_ and d.class_ in text and d.unit == "mm":
            variant = variant.replace(d.class_.lower(), d.class_).replace(d.class_.upper(), d.class_)
            variant = variant.replace(d.class_.swapcase(), d.class_)
        assert meaning(parse_designation(variant)) == meaning(d), variant


@every_family
def test_no_text_is_claimed_by_two_families_wrongly(texts):
    """Its own family is asked before any other that would claim it."""
    for text in texts:
        d = parse_designation(text)
        asked = [family for family in families() if family.claims(tidy(text))]
        assert asked[0].key == d.family
        assert all(other.order > asked[0].order for other in asked[1:]), [one.key for one in asked]


def test_every_standard_size_is_said_to_be_what_it_is():
    """Major diameter, pitch and unit of a size are those of its designation."""
    for family, size in SIZES:
        d = parse_designation(size.designation)
        assert d.family == family.key, size
        assert (d.nominal, float(d.pitch), d.unit) == pytest.approx((size.major, size.pitch, size.unit)), size
        assert not d.internal, size


PIECES = sorted({piece for text in TEXTS for piece in text.replace("-", " - ").replace("(", " ( ").split()})
ODD = st.text(
    alphabet="0123456789 -–×x./#\"MUNCFESRPhLgGHeAaBbTrW()½٣²\u00a0\n\t,+%°éß漢'", max_size=6
)
WORDS = st.sampled_from([
    *PIECES, " ", "-", "LH", "left hand", "internal", "nut", "(2 starts)", "P", "x", "7H", "1/2", "0", ",",
    "SE 1.5",
])


@st.composite
def any_text(draw):
    """Designations cut, mixed and filled with noise; and noise alone."""
    text = draw(st.sampled_from(TEXTS))
    for _ in range(draw(st.integers(0, 3))):
        at, end = sorted((draw(st.integers(0, len(text))), draw(st.integers(0, len(text)))))
        middle = draw(st.one_of(ODD, WORDS, st.sampled_from(TEXTS), st.text(max_size=4)))
        text = text[:at] + middle + text[end:]
    return text


def refusal(text):
    """The thread that a text is, or the words of its refusal."""
    try:
        return parse_designation(text)
    except BadDesignation as error:
        return str(error)


@settings(quick, max_examples=1500)
@given(any_text())
def test_any_text_is_read_or_refused_in_words(text):
    """No text breaks a reader: it is a thread, written and read again the same, or words say why not."""
    d = refusal(text)
    if isinstance(d, str):
        assert 20 < len(d) < 500
        return
    assert 0 < d.nominal < 1e6
    assert d.pitch > 0
    assert d.lead == d.starts * d.pitch
    written = write_designation(d)
    assert meaning(parse_designation(written)) == meaning(d), written
    try:
        of = limits(d)
    except OutsideRange:
        return
    check_order(of)


@quick
@given(st.text(max_size=100))
def test_noise_is_refused_in_words(text):
    assert refusal(text)
