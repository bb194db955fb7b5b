"""Two shops of the demo archive's kind: one that shares its jobs, and one that takes them in."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

from generator.__main__ import main

ROOT = Path(__file__).resolve().parent.parent.parent
Run = Callable[..., tuple[int, str, str]]


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
    monkeypatch.chdir(tmp_path)

    def called(*words: str) -> tuple[int, str, str]:
        try:
            status = main(words)
        except SystemExit as stopped:
            status = int(stopped.code or 0)
        said = capsys.readouterr()
        assert "Traceback" not in said.err
        return status, said.out, said.err

    return called
