"""A folder of this program among the user's own caches; anything in it can be removed at any time."""

from __future__ import annotations

from pathlib import Path

import platformdirs


def user_cache(name: str) -> Path:
    """The folder for one kind of things; it need not be there yet."""
    return platformdirs.user_cache_path("lathe-setup-sheets", appauthor=False) / name
