"""What axe, an open library of the WCAG rules, finds on a page that shuts somebody out.

Contrast takes axe most of its time. Nothing else depends on light and dark, and how often a thing stands on a
page makes no odds to it: a page is looked at whole in one scheme for all else, and shortened in both for it.
"""

from __future__ import annotations

from typing import Any, Final

from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page

CONTRAST: Final = "color-contrast"
ALL: Final = {"resultTypes": ["violations"]}
ONLY_CONTRAST: Final = {**ALL, "runOnly": [CONTRAST]}
ALL_BUT_CONTRAST: Final = {**ALL, "rules": {CONTRAST: {"enabled": False}}}
TWO_OF_EACH: Final = """() => { // of things beside each other that are made of the same kinds of elements
    const kept = ['class', 'style', 'open', 'hidden', 'type'];
    const kind = e => [e.tagName, ...kept.map(name => e.getAttribute(name))].join('.');
    const made = one => kind(one) + [...new Set([...one.querySelectorAll('*')].map(kind))].sort();
    for (const parent of document.querySelectorAll('.md-content, .md-content *')) {
        if (!parent.isConnected || parent.closest('svg') || parent.children.length < 3) continue;
        const seen = {};
        for (const one of [...parent.children]) {
            const what = made(one);
            seen[what] = (seen[what] || 0) + 1;
            if (seen[what] > 2 && !one.matches('option, col, th, td, p')) one.remove();
        }
    } }"""


def barriers(page: Page, within: str | None = None, options: dict[str, Any] = ALL) -> list[Any]:
    """What is serious or critical on a page, or inside what a selector finds: the rule, and where."""
    return [
        (one["id"], [(node["target"], node.get("failureSummary")) for node in one["nodes"]][:5])
        for one in Axe().run(page, context=within, options=options).response["violations"]
        if one["impact"] in {"serious", "critical"}
    ]


def shorten(page: Page) -> None:
    """Leaves two of what is made alike on a page."""
    page.evaluate(TWO_OF_EACH)
