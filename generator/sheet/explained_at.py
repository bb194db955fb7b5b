"""The name of a figure as of any operation, section or cut, and the page and place where it is explained.

    any_name        `operation.3.feed` -> `operation.n.feed`
    figure_place    where a figure is explained, from the top of the site
    finding_place   where a finding is

`js/working.js` does the same with the names that stand on a sheet.
"""

from __future__ import annotations

import re
from typing import Final

from generator.sheet.harm import HARM, Harm

FIGURES: Final = "help/figures"
FINDINGS: Final = "help/findings"

_NUMBER: Final = re.compile(r"(?<=[._])\d+(?=\.|$)")
_CUT: Final = re.compile(r"^reach\.\w+\.(?=left$|right$|quill$)")
_REMARK: Final = re.compile(r"-\d+$")


def any_name(name: str) -> str:
    """The name with n for every number, and `cut` for the cut whose room is meant.

    >>> [any_name(one) for one in ("operation.3.feed", "work.cross_hole_1.diameter", "reach.turn_1.left")]
    ['operation.n.feed', 'work.cross_hole_n.diameter', 'reach.cut.left']
    """
    return _CUT.sub("reach.cut.", _NUMBER.sub("n", name))


def figure_page(name: str) -> str:
    """The page of a figure: one for all that begin alike.

    >>> figure_page("thread.blank")
    'help/figures/thread.html'
    """
    return f"{FIGURES}/{name.partition('.')[0]}.html"


def figure_place(name: str) -> str:
    """Page and place of a figure.

    >>> figure_place("give.2.error")
    'help/figures/give.html#give.n.error'
    """
    return f"{figure_page(name)}#{any_name(name)}"


def any_id(id: str) -> str:
    """The id of a finding without the number behind a remark."""
    return _REMARK.sub("", id)


def finding_page(harm: Harm) -> str:
    """The page of all findings of one class of harm."""
    return f"{FINDINGS}/{harm.name.lower()}.html"


def finding_place(id: str) -> str:
    """Page and place of a finding.

    >>> finding_place("limits-remark-2")
    'help/findings/time.html#limits-remark'
    """
    known = any_id(id)
    return f"{finding_page(HARM.get(known, Harm.PEOPLE))}#{known}"
