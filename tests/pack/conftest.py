"""Two shops of the demo archive's kind: one that shares its jobs, and one that takes them in."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from tests.small_shop import ROOT, Run, runner


@pytest.fixture
def theirs(tmp_path: Path) -> Path:
    """The jobs folder of the shop that shares: the demo archive."""
    shutil.copytree(ROOT / "jobs", tmp_path / "theirs")
    return tmp_path / "theirs"


@pytest.fixture
def mine(tmp_path: Path) -> Path:
    """The jobs folder of the shop that takes in: without the long lathe, 1045 steel, and with another V2."""
    shop = tmp_path / "mine" / "_shop"
    shutil.copytree(ROOT / "jobs" / "_shop", shop)
    (shop / "lathes" / "long-bed.yml").unlink()
    for name, old, new in (
        ("house.yml", "Saltmarsh Works", "Millrace Repair"),
        ("tools.yml", "nose_flat: 0.025", "nose_flat: 0.020"),
        ("materials.yml", "name: 1045 steel", "name: 1044 steel"),
    ):
        text = (shop / name).read_text(encoding="utf-8")
        assert old in text
        (shop / name).write_text(text.replace(old, new), encoding="utf-8")
    return tmp_path / "mine"


@pytest.fixture
def run(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Run:
    return runner(tmp_path, monkeypatch, capsys)
