"""Pages that a shop puts into `jobs/_pages` join its site, and nobody else's."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from mkdocs.exceptions import Abort

Build = Callable[..., None]
pytestmark = pytest.mark.usefixtures("few_families")


def page(archive: Path, name: str, text: str) -> None:
    path = archive / "jobs" / "_pages" / name
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, encoding="utf-8")


def test_a_page_stands_in_the_menu_with_its_pictures_and_its_links_to_sheets(
    archive: Path, build_site: Build
) -> None:
    sheet = "sheets/2026/SW-116-coupling-hook.html"
    page(archive, "our-rules.md", f"# Our rules\n\n[The hook]({sheet}) ![](rules/chuck.svg)\n")
    page(archive, "rules/chuck.svg", "<svg xmlns='http://www.w3.org/2000/svg'/>")
    page(archive, ".hidden.md", "# No page\n")
    build_site(strict=True)
    for name in ("index.html", sheet):
        assert "our-rules.html" in (archive / "site" / name).read_text(encoding="utf-8")
    text = (archive / "site" / "our-rules.html").read_text(encoding="utf-8")
    assert f'href="{sheet}"' in text
    assert (archive / "site" / "rules" / "chuck.svg").is_file()
    assert not (archive / "site" / ".hidden.html").exists()


def test_a_link_of_it_that_leads_nowhere_stops_a_strict_build(
    archive: Path, build_site: Build, caplog: pytest.LogCaptureFixture
) -> None:
    page(archive, "our-rules.md", "# Our rules\n\n[The hook](sheets/2026/SW-999-hook.html)\n")
    with pytest.raises(Abort):
        build_site(strict=True)
    assert "our-rules.html: link to 'sheets/2026/SW-999-hook.html'" in caplog.text


def test_a_page_never_takes_the_place_of_one_of_the_program(
    archive: Path, build_site: Build, caplog: pytest.LogCaptureFixture
) -> None:
    page(archive, "safety.md", "# Ours\n")
    build_site()
    assert "safety.md: the site has a page or file of this name; give it another" in caplog.text
    assert "<h1>Ours" not in (archive / "site" / "safety.html").read_text(encoding="utf-8")
