"""Waiting for what a page does: asked from outside, as its content security policy lets no string run."""

from __future__ import annotations

import time

from playwright.sync_api import Page

STEP = 50  # ms


def wait_until(page: Page, there: str, patience: float) -> None:
    """Wait until an expression is true on the page, at most `patience` ms."""
    end = time.monotonic() + patience / 1000
    while not page.evaluate(there):
        assert time.monotonic() < end, f"still not so: {there}"
        page.wait_for_timeout(STEP)
