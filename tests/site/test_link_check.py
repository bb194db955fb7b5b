"""The link check finds what is broken, and nothing else."""

from __future__ import annotations

from pathlib import Path

import pytest

from generator.site.links import broken_links


def site(folder: Path, link: str) -> Path:
    (folder / "sheets").mkdir()
    (folder / "sheets" / "one two.html").write_text('<p id="here">x</p><a name="old">y</a>')
    (folder / "picture.svg").write_text("<svg/>")
    (folder / "index.html").write_text(f'<h1 id="top">x</h1><a href="{link}">y</a>')
    return folder


@pytest.mark.parametrize(
    "link",
    [
        "#top",
        "",
        "sheets/one%20two.html",
        "sheets/one%20two.html#here",
        "sheets/one%20two.html#old",
        "picture.svg",
        "index.html?x=1",
        ".",
        "/picture.svg",
        "https://example.org/x",
        "mailto:shop@example.org",
        "data:,x",
    ],
)
def test_a_link_that_leads_somewhere_is_fine(tmp_path: Path, link: str) -> None:
    assert broken_links(site(tmp_path, link)) == []


@pytest.mark.parametrize(
    ("link", "why"),
    [
        ("#nowhere", "no such place"),
        ("sheets/one%20two.html#nowhere", "no such place"),
        ("sheets/three.html", "no such file"),
        ("sheets/", "a folder"),
        ("../outside.html", "no such file"),
        ("/missing.css", "no such file"),
    ],
)
def test_a_link_that_leads_nowhere_is_named_with_its_reason(tmp_path: Path, link: str, why: str) -> None:
    (broken,) = broken_links(site(tmp_path, link))
    assert broken.page == "index.html"
    assert broken.link == link
    assert why in broken.why


def test_a_file_outside_the_site_does_not_count(tmp_path: Path) -> None:
    (tmp_path / "outside.html").write_text("x")
    inside = tmp_path / "inside"
    inside.mkdir()
    (broken,) = broken_links(site(inside, "../outside.html"))
    assert "leads out" in broken.why
