"""The address of a sheet as a QR code (ISO/IEC 18004), for a telephone held over the paper.

    address_code        address -> AddressCode, or None where there is no address worth printing
"""

from __future__ import annotations

import ipaddress
from dataclasses import dataclass
from typing import Final
from urllib.parse import urlsplit

import segno
from markupsafe import Markup

from generator.language.say import say

WIDEST: Final = 20.0  # mm: the room beside the title block, quiet zone included
# Error correction, and mm a module must have on paper with it: a shop's paper gets oil on it, so the stronger
# come first while the modules stay coarse; 0.33 mm is 4 dots at 300 dots an inch. Common practice, no source.
LEVELS: Final = (("q", 0.4), ("m", 0.4), ("l", 0.33))
QUIET: Final = 4  # modules of white all round (ISO/IEC 18004)


@dataclass(frozen=True)
class AddressCode:
    """The address in plain text and its code as an `<svg>`; no code where it would be too fine to read."""

    address: str
    svg: Markup


def address_code(address: str) -> AddressCode | None:
    """The code of a sheet's address.

    An address that only this machine knows (localhost, 127.0.0.1) is none.

    Examples
    --------
    >>> address_code("http://localhost:8000/sheets/2026/SW-1.html") is None
    True
    """
    if not address or _only_here(address):
        return None
    for level, least in LEVELS:
        try:
            code = segno.make(address, error=level, micro=False)
        except segno.DataOverflowError:
            continue
        if WIDEST / code.symbol_size(border=QUIET)[0] >= least:
            return AddressCode(address, _svg(code))
    return AddressCode(address, Markup())


def _only_here(address: str) -> bool:
    host = urlsplit(address).hostname or ""
    if not host or host == "localhost" or host.endswith(".localhost"):
        return True
    try:
        found = ipaddress.ip_address(host)
    except ValueError:
        return False
    return found.is_loopback or found.is_unspecified


def _svg(code: segno.QRCode) -> Markup:
    """Black on white in any colour scheme; one user unit is one module, its size is in sheet.css."""
    svg = code.svg_inline(
        border=QUIET, dark="#000", light="#fff", omitsize=True, svgclass=None, lineclass=None,
        title=say("QR code of this sheet's address"),
    )
    return Markup(svg)
