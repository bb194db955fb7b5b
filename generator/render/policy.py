"""The content security policy of a page: what a browser may load and run on it, whatever the text on it says.

policy             the page's own inline scripts -> the policy
policy_element     the same as the element that stands first in the page's head
with_policy        a page of the theme -> the same with its policy
with_reloading     a page as it is served -> its policy lets the server's own script through
inline_scripts     the scripts that stand in a page

Nothing is loaded but what lies beside the page, nothing runs but files of ours and the inline scripts whose
hashes are named. They are taken from a page before any job's text is in it, so that what a job says could not
run even if it became a script. Content Security Policy Level 3 (W3C), https://www.w3.org/TR/CSP3/.
"""

from __future__ import annotations

import re
from base64 import b64encode
from collections.abc import Iterable
from hashlib import sha256
from typing import Final

from markupsafe import Markup

from generator.language.say import say

# From disk no page has an origin of its own, and a browser need not take the files beside it for its own. To
# a page from a server `file:` gives nothing: browsers load no file from the disk into it.
OWN: Final = ("'self'", "file:")
NOTHING: Final = "'none'"
# Every sheet names its own kind of printed page and its margins (a style element, and an attribute that asks
# for it). What a style might load is refused like everything else.
OWN_STYLES: Final = "'unsafe-inline'"
_ELEMENT: Final = '<meta http-equiv="Content-Security-Policy" content="'
_HEAD: Final = re.compile(r"<head(?:\s[^>]*)?>\s*")
_SCRIPT: Final = re.compile(r"<script(\s[^>]*)?>(.*?)</script>", re.DOTALL | re.IGNORECASE)
_NOT_RUN: Final = re.compile(r"""\s(src=|type=["']?+(?!module|text/javascript|application/javascript))""")
_SERVED: Final = re.compile(r"<script>([^<]*)</script></body>")  # put there by the server of mkdocs


def policy(scripts: Iterable[str], *, beside: bool = True, frames: bool = False) -> str:
    """The policy of a page with these inline scripts, each exactly as it stands between its tags.

    Parameters
    ----------
    scripts : the inline scripts that may run
    beside : files that lie beside the page may be loaded; False for a page that holds all it needs
    frames : pages that lie beside it may be shown in frames
    """
    own = OWN if beside else ()
    hashes = dict.fromkeys(script_hash(script) for script in scripts)
    sources: dict[str, tuple[str, ...]] = {
        "default-src": (),  # nothing else: no connection, object, worker, font, medium
        "script-src": (*own, *hashes),
        "style-src": (*own, OWN_STYLES),
        "img-src": (*own, "data:"),
        "frame-src": OWN if frames else (),
        "base-uri": (),
        "form-action": (),
    }
    return "; ".join(f"{name} {' '.join(allowed) or NOTHING}" for name, allowed in sources.items())


def script_hash(script: str) -> str:
    """The source that lets one inline script run.

    The hash of the example in Content Security Policy Level 2 (W3C), section 7.17.2.

    >>> script_hash("alert('Hello, world.');")
    "'sha256-qznLcsROx4GACP2dm0UCKCzCG+HiZ1guq6ZZDob/Tng='"
    """
    return f"'sha256-{b64encode(sha256(script.encode()).digest()).decode()}'"


def policy_element(text: str) -> Markup:
    """The policy as an element; it is valid from there on, so that it stands before all that could load."""
    return Markup(f'{_ELEMENT}{text}">')


def with_policy(page: str, *, frames: bool = False) -> str:
    """The page with the policy that lets its own inline scripts run, first in its head.

    Raises
    ------
    ValueError
        When the page has no head.
    """
    head = _HEAD.search(page)
    if head is None:
        raise ValueError(say("the template of a page must have a <head>, for its content security policy"))
    own = policy_element(policy(inline_scripts(page), frames=frames))
    return f"{page[:head.end()]}{own}\n    {page[head.end():]}"


def with_reloading(page: str) -> str:
    """The page as the server of mkdocs sends it; its policy lets the script run that asks for changes."""
    script = _SERVED.search(page, page.rfind("<script>"))
    if script is None:
        return page
    before, found, after = page.partition(f"{_ELEMENT}default-src 'none'; script-src ")
    more = f"{_ELEMENT}default-src 'none'; connect-src 'self'; script-src {script_hash(script[1])} "
    return before + more + after if found else page


def inline_scripts(page: str) -> list[str]:
    """What stands between the tags of the page's scripts, but for those that load a file or hold data.

    >>> inline_scripts('<script>one()</script><script src="two.js"></script><script type="x/data">3</script>')
    ['one()']
    """
    return [text for attributes, text in _SCRIPT.findall(page) if not _NOT_RUN.search(attributes)]
