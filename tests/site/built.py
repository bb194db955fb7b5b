"""What a build left behind."""

from __future__ import annotations

from pathlib import Path


def site_of(home: Path) -> dict[str, bytes]:
    """Every file of the site with what it holds."""
    site = home / "site"
    return {
        path.relative_to(site).as_posix(): path.read_bytes()
        for path in sorted(site.rglob("*")) if path.is_file()
    }
