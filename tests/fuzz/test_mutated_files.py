"""Whatever stands in a file of the archive, the readers say it in words, with the place, and soon.

The usual number of files is small; `MUTATED=2500 pytest tests/fuzz` reads more than 10,000.
"""

from __future__ import annotations

import os
import signal
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from generator.errors import Fault, JobProblems, Problem
from generator.job.lathe import Lathe
from generator.job.reading import read_checked, read_job, read_log, read_shop
from generator.job.sender import Sender
from generator.job.shop import House, Materials, Tools
from generator.pack.contents import PackRefused
from generator.pack.zipped import unzipped, zipped
from generator.site.archive import make_sheet
from tests.fuzz.mutations import ROOT, files, mutated

MANY = int(os.environ.get("MUTATED", "150"))
HANGS = 30  # s: nothing takes a thousandth of it
SENDER = b"shop: S\njob: J\nlathe: L\ntaken_in: 2026-01-02\nthreading:\n- {name: V (theirs), angle: 60 deg}\n"
SHOP = read_shop(ROOT / "jobs" / "_shop")
MODELS = {
    "lathe": (Lathe, files("_shop/lathes/*.yml")),
    "house": (House, files("_shop/house.yml")),
    "materials": (Materials, files("_shop/materials.yml")),
    "tools": (Tools, files("_shop/tools.yml")),
    "sender": (Sender, (SENDER,)),
}
usual = settings(
    max_examples=MANY, deadline=None,
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow],
)


@contextmanager
def soon() -> Iterator[None]:
    """Fails where nothing comes of it."""

    def _hangs(*_: object) -> None:
        raise AssertionError("hangs")

    before = signal.signal(signal.SIGALRM, _hangs)
    signal.alarm(HANGS)
    try:
        yield
    finally:
        signal.alarm(0)
        signal.signal(signal.SIGALRM, before)


def located(problems: tuple[Problem, ...], path: Path, data: bytes) -> None:
    """Every problem has its place in the file, and says something."""
    assert problems
    lines = len(data.replace(b"\r", b"\n").split(b"\n")) + data.count(b"\xe2\x80") + data.count(b"\xc2\x85")
    for one in problems:
        assert not isinstance(one, Fault), one
        assert one.location.path == path
        assert 1 <= one.location.line <= lines + 1
        assert one.location.column >= 1
        assert one.message.strip()
        assert "Error" not in one.message.split(":")[0]
        one.with_caret().encode("utf-8")


@usual
@given(data=mutated(files("2*/*/job.yml")), compute=st.integers(0, 9))
def test_a_job_file(data: bytes, compute: int, tmp_path: Path) -> None:
    path = tmp_path / "2026" / "J" / "job.yml"
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(data)
    with soon():
        try:
            read_job(path, SHOP)
            if compute == 0:
                make_sheet(path, SHOP)
        except JobProblems as error:
            located(error.problems, path, data)


@usual
@given(data=mutated(files("2*/*/log.yml")))
def test_a_log(data: bytes, tmp_path: Path) -> None:
    with soon():
        log = read_log(tmp_path / "log.yml", "inch", "mm", data)
    if log.problems:
        located(log.problems, tmp_path / "log.yml", data)


@pytest.mark.parametrize("kind", MODELS)
@usual
@given(data=st.data())
def test_a_file_of_the_shop(kind: str, data: st.DataObject, tmp_path: Path) -> None:
    model, bases = MODELS[kind]
    path, text = tmp_path / f"{kind}.yml", data.draw(mutated(bases))
    path.write_bytes(text)
    with soon():
        try:
            read_checked(path, model)
        except JobProblems as error:
            located(error.problems, path, text)


SAID = {"job": "J", "title": "T", "shop": "S", "lathe": "L", "left_out": ()}
PACKS = tuple(
    zipped({"job/job.yml": job, "shop/house.yml": b"shop: S\n"}, **SAID) for job in files("2*/*/job.yml")[:3]
)


@usual
@given(data=mutated(PACKS))
def test_a_zip(data: bytes) -> None:
    with soon():
        said = ""
        try:
            unzipped(data)
        except PackRefused as refused:
            said = str(refused)
    assert said.isprintable()
