"""The README's two commands: where they install, what they run, what they say when something is missing."""

from __future__ import annotations

import ast
import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from generator import setup

Calls = list[list[str]]


@pytest.fixture
def checkout(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder that looks like a checkout; the commands believe it is theirs."""
    (tmp_path / "pyproject.toml").write_text("[project]\n", encoding="utf-8")
    monkeypatch.setattr(setup, "ROOT", tmp_path)
    return tmp_path


@pytest.fixture
def calls(monkeypatch: pytest.MonkeyPatch) -> Calls:
    """What would have been run."""
    seen: Calls = []

    def call(command: list[str], **_: object) -> int:
        seen.append([str(word) for word in command])
        return 0

    monkeypatch.setattr(setup.subprocess, "call", call)
    return seen


@pytest.fixture
def in_a_venv(checkout: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    folder = checkout / "mine"
    folder.mkdir()
    monkeypatch.setattr(setup.sys, "prefix", str(folder))
    monkeypatch.setattr(setup.sys, "base_prefix", "/usr")
    return folder


@pytest.fixture
def outside_a_venv(checkout: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setattr(setup.sys, "prefix", "/usr")
    monkeypatch.setattr(setup.sys, "base_prefix", "/usr")
    return checkout / ".venv"


def test_build_in_a_venv_installs_there_and_builds(in_a_venv: Path, calls: Calls, checkout: Path) -> None:
    assert setup.main(["build"]) == 0
    install, build = calls[1:]
    assert install[:4] == [sys.executable, "-m", "pip", "install"]
    assert install[-2:] == ["--editable", str(checkout)]
    assert build == [sys.executable, "-m", "generator", "build"]
    assert not (checkout / ".venv").exists()


def test_test_installs_what_the_tests_need_and_passes_words_on(
    in_a_venv: Path, calls: Calls, checkout: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(setup.shutil, "which", lambda name: f"/usr/bin/{name}")
    assert setup.main(["test", "-k", "thread"]) == 0
    assert calls[1][-1] == f"{checkout}[test]"
    assert calls[-1] == [sys.executable, "-m", "pytest", "-k", "thread"]


def test_without_a_venv_one_is_made_in_the_checkout(
    outside_a_venv: Path, calls: Calls, checkout: Path
) -> None:
    assert setup.main(["build"]) == 0
    python = outside_a_venv / ("Scripts/python.exe" if os.name == "nt" else "bin/python")
    assert python.exists()
    assert calls[-1] == [str(python), "-m", "generator", "build"]


def test_without_ensurepip_the_venv_has_no_pip_and_another_pip_installs_into_it(
    outside_a_venv: Path, calls: Calls, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(setup, "_has", lambda module: module == "pip")

    def call(command: list[str], **_: object) -> int:
        calls.append([str(word) for word in command])
        return 1 if command[-1] == "import pip" else 0

    monkeypatch.setattr(setup.subprocess, "call", call)
    assert setup.main(["build"]) == 0
    install = next(command for command in calls if "install" in command)
    assert install[:4] == [sys.executable, "-m", "pip", "--python"]
    assert Path(install[4]).is_relative_to(outside_a_venv)


def test_a_second_run_installs_nothing(in_a_venv: Path, calls: Calls, checkout: Path) -> None:
    setup.main(["build"])
    calls.clear()
    setup.main(["build"])
    assert not any("install" in command for command in calls)
    (checkout / "pyproject.toml").write_text("[project]\n# changed\n", encoding="utf-8")
    calls.clear()
    setup.main(["build"])
    assert any("install" in command for command in calls)


def test_no_pip_anywhere_is_a_sentence(
    in_a_venv: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(setup.subprocess, "call", lambda *_, **__: 1)
    monkeypatch.setattr(setup, "_has", lambda _: False)
    monkeypatch.setattr(setup.shutil, "which", lambda _: None)
    assert setup.main(["build"]) == 1
    assert "pip is missing" in capsys.readouterr().err


def test_a_failed_install_is_a_sentence_and_not_remembered(
    in_a_venv: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(setup.subprocess, "call", lambda command, **_: int("install" in command))
    assert setup.main(["build"]) == 1
    assert "could not install" in capsys.readouterr().err
    assert list(in_a_venv.iterdir()) == []


def test_the_status_of_what_was_run_is_passed_on(in_a_venv: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(setup.subprocess, "call", lambda command, **_: 3 if "generator" in command else 0)
    assert setup.main(["build"]) == 3


@pytest.mark.parametrize("words", [[], ["bild"], ["build", "more"]])
def test_wrong_usage_says_how(words: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    assert setup.main(words) == 2
    assert "example: python -m generator.setup build" in capsys.readouterr().err


def test_an_old_python_gets_a_sentence(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(setup.sys, "version_info", (3, 9, 2))
    assert setup.main(["build"]) == 2
    assert "needs Python 3.11 or newer" in capsys.readouterr().err


def test_an_old_python_can_read_the_file_far_enough_to_say_so() -> None:
    """Python 3.7 syntax in what `python -m generator.setup` reads: the package and the module."""
    for path in (Path(setup.__file__), Path(setup.__file__).with_name("__init__.py")):
        ast.parse(path.read_text(encoding="utf-8"), feature_version=(3, 7))


def test_it_runs_with_the_standard_library_alone(tmp_path: Path) -> None:
    here = Path(setup.__file__).resolve().parents[1]
    ended = subprocess.run(
        [sys.executable, "-S", "-m", "generator.setup", "--help"],
        cwd=here,
        capture_output=True,
        text=True,
        check=True,
    )
    assert "usage: python -m generator.setup build|test" in ended.stdout


def test_a_missing_chromium_is_fetched_and_its_absence_is_no_failure(
    in_a_venv: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    find: Callable[[str], None] = lambda _: None  # noqa: E731
    monkeypatch.setattr(setup.shutil, "which", find)
    seen: Calls = []

    def call(command: list[str], **_: object) -> int:
        seen.append([str(word) for word in command])
        return int("playwright" in command)

    monkeypatch.setattr(setup.subprocess, "call", call)
    assert setup.main(["test"]) == 0
    assert [sys.executable, "-m", "playwright", "install", "chromium"] in seen
    assert seen[-1] == [sys.executable, "-m", "pytest"]
    assert "install Chromium" in capsys.readouterr().err
