"""How often Python looks among what was made for what can go: where much is made that stays, seldom.

    without_collecting    not at all, for a while
    collecting_seldom     from now on
    collecting_all_again  what was left out is looked at again, where a process builds more than once
"""

from __future__ import annotations

import gc
from collections.abc import Iterator
from contextlib import contextmanager


@contextmanager
def without_collecting() -> Iterator[None]:
    """Many small things are made faster while Python does not look among them for what is not needed.

    Nor does it look among them later: they stay until nothing needs them any more.
    """
    collecting = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if collecting:
            gc.freeze()
            gc.enable()


def collecting_seldom() -> None:
    """What is loaded stays: Python need not look there, and seldom elsewhere. For a process of our own."""
    gc.collect()
    gc.freeze()
    gc.set_threshold(20_000, 20, 50)


def collecting_all_again() -> None:
    """Look at everything again, as seldom as before: what an earlier build made may go."""
    gc.unfreeze()
