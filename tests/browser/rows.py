"""The rows of the table on the archive page, which shows some of them at first."""

from __future__ import annotations

from playwright.sync_api import Page, expect


def show_all(page: Page) -> None:
    """Press the button for more rows until there are none."""
    more, rows = page.get_by_role("button", name="Show more jobs"), page.locator("#jobs-table tbody tr")
    expect(rows.first).to_be_visible()
    while more.is_visible():
        before = rows.count()
        more.click()
        expect(rows.nth(before)).to_be_visible()
