"""The page of cautions has every caution of the sheets, as the rules give it."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from generator.explain.cautions import CautionEntry, caution_entries
from generator.job.reading import read_job, read_shop
from generator.sheet import cautions, cautions_for_use
from generator.sheet.compute import compute_sheet
from generator.sheet.lines import Caution

HOME = Path(__file__).parents[2]
JOBS = ("SW-101", "SW-113", "SW-112")


@pytest.fixture(scope="module")
def given() -> list[Caution]:
    """The cautions of some demo sheets."""
    shop = read_shop(HOME / "jobs/_shop")
    paths = [path for number in JOBS for path in (HOME / "jobs").glob(f"*/{number}-*/job.yml")]
    sheets = [compute_sheet(read_job(path, shop), shop) for path in paths]
    return [caution for sheet in sheets for caution in (*sheet.cautions, *sheet.for_use)]


def same(entry: CautionEntry, caution: Caution) -> bool:
    """True where the entry, with its open places filled in, is the caution."""
    patterns = [re.escape(one).replace(re.escape("…"), ".+") for one in entry.text.split(" Or: ")]
    there = caution.text in entry.text or any(re.fullmatch(one, caution.text) for one in patterns)
    return there and caution.signal in entry.signals


def test_every_rule_has_its_cautions() -> None:
    entries = caution_entries()
    assert len(entries) >= len(cautions.RULES) + len(cautions_for_use.RULES)
    worst = [entry.signals[0] for entry in entries]
    assert worst == sorted(worst, key=cautions.ORDER.__getitem__)
    for entry in entries:
        assert entry.when.endswith("."), entry.id
        assert entry.source.strip(" …"), entry.id


def test_what_the_sheets_say_stands_on_the_page(given: list[Caution]) -> None:
    entries = caution_entries()
    assert len(given) > 10
    missing = [caution.id for caution in given if not any(same(entry, caution) for entry in entries)]
    assert missing == []
