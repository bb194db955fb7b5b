"""The page of the thread families: all of them, as the registry has them, written as they can be typed."""

from __future__ import annotations

import html
from pathlib import Path

import pytest

from generator.job.thread_families import listed_families
from generator.threads.registry import families, family_of, parse_designation

LISTED = listed_families()


def test_every_family_is_listed_once() -> None:
    assert sorted(one.name.casefold() for one in LISTED) == sorted(one.name.casefold() for one in families())
    assert len(LISTED) == len(families())


@pytest.mark.parametrize("one", LISTED, ids=[one.name for one in LISTED])
def test_what_is_listed_can_be_typed(one) -> None:
    first = parse_designation(one.written[0])
    for text in one.written:
        assert family_of(parse_designation(text)).name.casefold() == one.name.casefold()
    assert parse_designation(one.inside, "internal").internal != first.internal
    assert parse_designation(one.left).hand == "left"


@pytest.mark.parametrize(
    ("name", "form"),
    [
        ("Unified inch threads", "60 degrees"),                                        # ASME B1.1
        ("Acme threads", "29 degrees"),                                                # ASME B1.5
        ("ISO trapezoidal threads", "30 degrees"),                                     # ISO 2901
        ("British Association threads (BA)", "47.5 degrees"),                          # BS 93
        ("American taper pipe threads", "60 degrees, taper 1 in 16"),                  # ASME B1.20.1
        ("Pipe threads that seal on the thread", "55 degrees or 55 degrees, taper 1 in 16"),  # ISO 7-1
        ("Inch buttress threads", "52 degrees, flanks 7 and 45"),                      # ASME B1.9
        ("Metric saw-tooth (buttress) threads", "33 degrees, flanks 3 and 30"),        # DIN 513
        ("Steel conduit threads Pg", "80 degrees"),                                    # DIN 40430
        ("Square threads", "square"),
    ],
)
def test_the_form_is_the_standards(name, form) -> None:
    (found,) = (one.form for one in LISTED if one.name == name)
    assert set(found.split(" or ")) == set(form.split(" or "))


def test_the_page_has_them_all_and_says_how_to_identify(demo_site: Path) -> None:
    page = (demo_site / "families.html").read_text(encoding="utf-8")
    for one in LISTED:
        assert html.escape(one.name) in page
        for text in (*one.written, one.inside, one.left):
            assert f"<code>{html.escape(text)}</code>" in page
    assert "python -m generator identify --major" in page
    assert 'href="families.html"' in (demo_site / "index.html").read_text(encoding="utf-8")
