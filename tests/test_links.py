"""The built demo site has no broken link."""

from __future__ import annotations

from pathlib import Path

from generator.site.links import broken_links


def test_no_link_of_the_built_site_is_broken(demo_site: Path) -> None:
    assert [str(broken) for broken in broken_links(demo_site)] == []
