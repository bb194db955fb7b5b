"""The way in: which family a designation is of, its form, its limits of size, its standard form.

Families are found by looking into `generator.threads.families`: a module or folder there with a `FAMILY`.

    families            all of them, in the order in which they are asked
    parse_designation   the thread that a designation names
    write_designation   the same in the standard's own form
    limits, profile     its limits of size and its form
    mate_of             the usual other half
"""

from __future__ import annotations

import difflib
import importlib
import math
import pkgutil
import re
from functools import cache, lru_cache

from generator.errors import BadDesignation, OutsideRange
from generator.language.say import later, say
from generator.language.spoken import once_a_language
from generator.threads import families as _families
from generator.threads.designation import Designation, Side
from generator.threads.family import Family
from generator.threads.order import in_order
from generator.threads.profile import Profile
from generator.threads.sizes import Range, SizeLine, ThreadLimits
from generator.threads.text import EXAMPLES, Written, tidy

__all__ = [
    "Designation", "Range", "SizeLine", "ThreadLimits", "families", "limits", "mate_of", "parse_designation",
    "profile", "write_designation",
]

NEAREST = 3
READ_AT_ONCE = 1024  # designations that are kept read

# Families that are known and not computed: how they are recognised, and their name in a sentence.
_NOT_COMPUTED = (
    (r"UNJ|^\s*MJ", later("controlled-radius threads (UNJ, MJ; ASME B1.15, ISO 5855)")),
    (r"UNM", later("Unified miniature threads (UNM; ASME B1.10)")),
    (r"NPS|NPSM|ANPT", later("American straight and aeronautical pipe threads (NPS, ANPT; ASME B1.20.1)")),
    (r"^RD|KNUCKLE", later("knuckle threads (Rd; DIN 405)")),
)


@cache
def families() -> tuple[Family, ...]:
    """All families, those that are asked first in front."""
    found = [
        importlib.import_module(f"{_families.__name__}.{module.name}").FAMILY
        for module in pkgutil.iter_modules(_families.__path__)
    ]
    return tuple(sorted(found, key=lambda family: (family.order, family.key)))


def family_of(d: Designation) -> Family:
    """The family of a thread."""
    return _by_key()[d.family]


@cache
def _by_key() -> dict[str, Family]:
    return {family.key: family for family in families()}


def parse_designation(text: str, side: Side | None = None) -> Designation:
    """The thread that a designation names.

    Accepts any case, spaces, × or x, and any dash. `side` is what stands beside the designation, where it
    does not say by itself whether the thread is inside or outside.

    Raises
    ------
    BadDesignation
        With what was written and what would be accepted.

    Examples
    --------
    >>> parse_designation("2 1/4-8 UN-2A").nominal
    2.25
    >>> parse_designation("m20 × 1.5 – 5g6g – LH").hand
    'left'

    Source: the standard of each family.
    """
    return _parsed(str(text), side)


@lru_cache(maxsize=READ_AT_ONCE)
def _parsed(text: str, side: Side | None) -> Designation:
    """A sheet reads the threads of its job many times over."""
    return _read(tidy(text, side))


def _read(text: Written) -> Designation:
    for pattern, name in _NOT_COMPUTED:
        if re.search(pattern, text.upper, re.ASCII):
            raise BadDesignation(
                say('"{written}": {name} are not computed here', written=text.written, name=name)
            )
    for family in families():
        if family.claims(text):
            d = family.read(text)
            if text.side not in (None, d.side):
                raise BadDesignation(
                    say(
                        '"{written}" is an internal thread by its class, and it is said to be external',
                        written=text.written,
                    )
                    if d.internal
                    else say(
                        '"{written}" is an external thread by its class, and it is said to be internal',
                        written=text.written,
                    )
                )
            return d
    near = nearest(text.plain)
    raise BadDesignation(
        say(
            '"{written}" is not a thread designation known here; the nearest are {near}',
            written=text.written, near=", ".join(near),
        )
        if near
        else say(
            '"{written}" is not a thread designation known here; {examples}',
            written=text.written, examples=EXAMPLES,
        )
    )


def nearest(plain: str) -> list[str]:
    """Standard designations that look most like a text that could not be read, common ones first.

    >>> nearest("N10x1.5-6g")[0]
    'M10x1.5-6g'
    """
    common, seldom = _known(families())
    known = common | seldom
    wanted = _plain(plain)
    near = [one for some in (common, seldom) for one in difflib.get_close_matches(wanted, some, NEAREST, 0.6)]
    return [known[one] for one in near[:NEAREST]]


@cache
def _known(asked: tuple[Family, ...]) -> tuple[dict[str, str], dict[str, str]]:
    """Common and seldom standard sizes of the families asked, by their text in capitals."""
    known: tuple[dict[str, str], dict[str, str]] = (
        {_plain(example): example for family in asked for example in family.examples}, {},
    )
    for family in asked:
        for size in family.sizes():
            known[0 if size.common else 1].setdefault(_plain(size.designation), size.designation)
    return known


def _plain(text: str) -> str:
    return re.sub(r"[\s-]+", " ", text.upper())


def write_designation(d: Designation) -> str:
    """The designation in the standard's own form; reading it again gives the same thread.

    >>> write_designation(parse_designation("1 1/4 - 7unc 2a lh"))
    '1 1/4-7 UNC-2A-LH'
    """
    return family_of(d).write(d)


def profile(d: Designation) -> Profile:
    """The form of a thread's groove.

    >>> round(math.degrees(profile(parse_designation("M10")).flanks.included))
    60
    """
    return family_of(d).profile(d)


def mate_of(d: Designation) -> Designation:
    """The usual other half of a thread: the same thread, the other side, the class that goes with it.

    >>> mate_of(parse_designation("1/2-13 UNC-2A")).class_
    '2B'
    """
    return family_of(d).mate(d)


@once_a_language  # a job asks again for its mate, its print and every other lathe
def limits(d: Designation, engagement: float | None = None) -> ThreadLimits:
    """Limits of size of a thread, external or internal.

    Parameters
    ----------
    d : the thread
    engagement : length of engagement with the mate (the thread's own unit); None takes the standard's

    Returns
    -------
    ThreadLimits, in the thread's own unit.

    Raises
    ------
    OutsideRange
        Outside the range of the standard's tables and formulas, where its formulas make no thread, or for an
        engagement that is not a length.

    Notes
    -----
    Range: see the family's module.

    Examples
    --------
    5 3/4-12 UN-2A (Machinery's Handbook, 27th ed., p. 1762) and M85 x 2 - 6g (p. 1802):

    >>> limits(parse_designation("5 3/4-12 UN-2A")).major
    Range(max=5.7479, min=5.7365)
    >>> limits(parse_designation("M85x2-6g")).pitch_diameter
    Range(max=83.663, min=83.483)

    M10 x 1.5 - 6H (ISO 965-2):

    >>> limits(parse_designation("M10x1.5-6H")).minor
    Range(max=8.676, min=8.376)

    Source: the standard of each family.
    """
    if engagement is not None and not 0 < engagement < math.inf:
        raise OutsideRange(
            say("length of engagement"), engagement, 0.0, None, say("a length above zero"), d.unit
        )
    return in_order(family_of(d).limits(d, engagement))
