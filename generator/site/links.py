"""Links of the built site that lead nowhere: a missing file, or a missing place in a file."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from html.parser import HTMLParser
from pathlib import Path
from urllib.parse import unquote, urlsplit

from generator.language.say import say
from generator.render.packed import unpacked

LINKING = {"href", "src", "poster", "data"}


@dataclass(frozen=True, order=True)
class BrokenLink:
    """A link in `page` (relative to the site) whose target is not there."""

    page: str
    link: str
    why: str

    def __str__(self) -> str:
        return say("{page}: link to {link!r}: {why}", page=self.page, link=self.link, why=self.why)


class _Page(HTMLParser):
    """Collects the links of a page and the names that a link can end in."""

    def __init__(self) -> None:
        super().__init__()
        self.links: list[str] = []
        self.names: set[str] = set()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        for name, value in attrs:
            if value is None:
                continue
            if name in LINKING or name == "xlink:href":
                self.links.append(value)
            elif name == "id" or (tag == "a" and name == "name"):
                self.names.add(value)


def broken_links(site: Path) -> list[BrokenLink]:
    """Every link inside the site that leads nowhere; links to other hosts are not followed."""
    pages = {path: _read(path) for path in sorted(site.rglob("*.html"))}
    return sorted({broken for path in pages for broken in _check(site, path, pages)})


def _read(path: Path) -> _Page:
    page = _Page()
    page.feed(unpacked(path.read_text(encoding="utf-8")))
    page.close()
    return page


def _check(site: Path, path: Path, pages: dict[Path, _Page]) -> Iterator[BrokenLink]:
    where = path.relative_to(site).as_posix()
    for link in pages[path].links:
        parts = urlsplit(link)
        if parts.scheme or parts.netloc:
            continue
        start = site if parts.path.startswith("/") else path.parent
        target = (start / unquote(parts.path).lstrip("/")).resolve() if parts.path else path
        if target.is_dir():
            if parts.path.startswith("/") or link in {".", "./"}:
                target = target / "index.html"  # a page for a web server, as the one for "not found"
            else:
                yield BrokenLink(where, link, say("leads to a folder, which does not open from disk"))
                continue
        if not target.is_file():
            yield BrokenLink(where, link, say("there is no such file"))
        elif not target.is_relative_to(site.resolve()):
            yield BrokenLink(where, link, say("leads out of the site"))
        elif parts.fragment:
            page = pages.get(target) or pages.get(site / target.relative_to(site.resolve()))
            if page is not None and unquote(parts.fragment) not in page.names:
                yield BrokenLink(where, link, say("the page has no such place"))
