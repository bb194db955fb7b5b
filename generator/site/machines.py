"""Other machines that make sheets: an executor of theirs, for `Hands`.

They are workers of a Dask scheduler, an optional library. Each has this program installed, the same version
of it and of its libraries, and sees the jobs folders under the same names as this machine.
"""

from __future__ import annotations

from collections.abc import Iterator
from concurrent.futures import Executor
from contextlib import contextmanager
from typing import Any, Final

from generator.errors import SheetError
from generator.language.say import say
from generator.site.program_key import program_key

SECONDS: Final = 10  # to find the scheduler
INSTALL: Final = "python -m pip install 'lathe-setup-sheets[machines]'"


@contextmanager
def machines(address: str) -> Iterator[Executor]:
    """The machines that work for the scheduler at this address, `tcp://shop-pc:8786`.

    Raises
    ------
    SheetError
        When Dask is not installed, nobody answers, or a machine has another program.
    """
    try:
        from distributed import Client  # here: most shops have one machine and do not install it
    except ImportError as error:
        raise SheetError(
            say("--machines needs Dask, which is not installed: {install}", install=INSTALL)
        ) from error
    try:
        client: Any = Client(address, timeout=SECONDS, set_as_default=False)  # type: ignore[no-untyped-call]
    except (OSError, ValueError) as error:
        raise SheetError(
            say(
                "{address}: no scheduler answers; start one with: dask scheduler, and on each machine: "
                "dask worker ADDRESS",
                address=address,
            )
        ) from error
    with client:
        _check(address, client.run(program_key))
        yield client.get_executor(pure=False)


def _check(address: str, programs: dict[str, str]) -> None:
    """All have this very program; a sheet must not depend on who made it."""
    if not programs:
        raise SheetError(
            say(
                "{address}: no machine works for this scheduler; start: dask worker {address}",
                address=address,
            )
        )
    other = sorted(machine for machine, program in programs.items() if program != program_key())
    if other:
        raise SheetError(
            say(
                "{other}: not the same program as on this machine, or other versions of Python and "
                "the libraries; install the same everywhere",
                other=", ".join(other),
            )
        )
