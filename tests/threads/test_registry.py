"""Families are found where they lie: one more module is one more family, and nothing else changes."""

from __future__ import annotations

import sys

import pytest

import generator.threads.families as package
from generator.errors import BadDesignation
from generator.threads import registry

TOY = '''
"""A family that nobody has: T, diameter, x, pitch, 60 degrees."""

from dataclasses import replace
from fractions import Fraction
import re

from generator.threads.designation import Designation
from generator.threads.family import Family, StandardSize
from generator.threads.profile import SIXTY, Profile
from generator.threads.sizes import Range, ThreadLimits, size_line


class Toy(Family):
    key, name, standard, examples = "TOY", "Toy threads", "invented", ("TOY 20x2",)

    def claims(self, text):
        return text.upper.startswith("TOY")

    def read(self, text):
        size, pitch = re.findall(r"[0-9.]+", text.plain)
        pitch = Fraction(pitch)
        return Designation(
            text.written, "TOY", "TOY", float(size), size, pitch, pitch, 1, "", False, False, "right", "mm",
            text.side or "external",
        )

    def write(self, d):
        return f"TOY {d.nominal_text}x{float(d.pitch):g}" + (" internal" if d.internal else "")

    def profile(self, d):
        return Profile(SIXTY, 0.6, 0.1, 0.1, "invented")

    def limits(self, d, engagement=None):
        top = d.nominal - 1
        return ThreadLimits(
            d, Range(d.nominal, d.nominal - 0.2), Range(top, top - 0.2), Range(top - 1, None), 0.0, 0.2, 0.2,
            None, True, False, (), "invented", lines=(size_line("major.max", d.nominal, "{d}", d.nominal),),
        )

    def mate(self, d):
        return replace(d, text="", side="external" if d.internal else "internal")

    def sizes(self):
        return [StandardSize("TOY 20x2", 20.0, 2.0, "mm")]


FAMILY = Toy()
'''


@pytest.fixture
def toy(tmp_path, monkeypatch):
    """The package of families with one module more."""
    (tmp_path / "toy.py").write_text(TOY, encoding="utf-8")
    monkeypatch.setattr(package, "__path__", [*package.__path__, str(tmp_path)])
    for cached in (registry.families, registry._by_key):
        cached.cache_clear()
    yield
    sys.modules.pop("generator.threads.families.toy", None)
    for cached in (registry.families, registry._by_key):
        cached.cache_clear()


def test_a_module_in_the_folder_is_a_family(toy):
    """Reading, writing, form, limits, mate and the nearest forms of an error know it at once."""
    d = registry.parse_designation("toy  20 × 2")
    assert registry.write_designation(d) == "TOY 20x2"
    assert registry.limits(d).pitch_diameter == registry.Range(19.0, 18.8)
    assert registry.profile(d).source == "invented"
    assert registry.mate_of(d).internal
    assert "TOY 20x2" in registry.nearest("TOYS 20x2")


def test_without_the_module_there_is_no_such_family():
    with pytest.raises(BadDesignation, match="not a thread designation"):
        registry.parse_designation("TOY 20x2")


def test_no_key_and_no_example_is_in_two_families():
    """Each example is claimed first by its own family, and reads as it."""
    families = registry.families()
    assert len({family.key for family in families}) == len(families)
    for family in families:
        for example in family.examples:
            assert registry.parse_designation(example).family == family.key, example


def test_what_cannot_be_read_names_the_nearest_forms():
    with pytest.raises(BadDesignation, match=r"M10x1\.5-6g"):
        registry.parse_designation("N10x1.5-6g")
