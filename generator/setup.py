"""The two commands of the README, for a fresh checkout and nothing but Python and pip.

    python -m generator.setup build     install, build the demo archive, say where to open it
    python -m generator.setup test      install what the tests need and run them all

In a virtual environment everything goes into that; otherwise into `.venv` in the checkout. Standard library
only, and old enough syntax that an old Python gets a sentence instead of a traceback.
"""

import hashlib
import importlib.util
import os
import shutil
import subprocess
import sys
import sysconfig
import venv
from pathlib import Path

OLDEST = (3, 11)
ROOT = Path(__file__).resolve().parent.parent
STAMP = "setup-sheets-installed"  # holds the digest of what was installed
BROWSERS = (  # the first opens no windows of its own, which take a third of a core beside each process
    "chromium-headless-shell",
    "chromium",
    "chromium-browser",
    "google-chrome",
    "google-chrome-stable",
    "chrome",
)
BROWSER_SECONDS = 600

USAGE = """usage: python -m generator.setup build|test

  build   install into a virtual environment, build the demo archive, say where to open it
  test    install what the tests need and run them all; more words go to pytest

example: python -m generator.setup build"""


class SetupFailed(Exception):
    """A step that did not work; the message says which, and what would help."""


def main(words: "list[str]") -> int:
    """Run one of the two commands; returns its exit status."""
    if sys.version_info < OLDEST:
        print(
            "This needs Python {}.{} or newer; this is {}.".format(*OLDEST, sys.version.split()[0]),
            file=sys.stderr,
        )
        return 2
    if words[:1] in (["-h"], ["--help"]):
        print(USAGE)
        return 0
    if words[:1] not in (["build"], ["test"]) or (words[0] == "build" and words[1:]):
        print(USAGE, file=sys.stderr)
        return 2
    try:
        if words[0] == "build":
            return _run(_installed(""), "-m", "generator", "build")
        python = _installed("[test]")
        _browser(python)
        return _run(python, "-m", "pytest", *words[1:])
    except SetupFailed as error:
        print(error, file=sys.stderr)
        return 1
    except KeyboardInterrupt:
        print("Stopped.", file=sys.stderr)
        return 130


def _installed(extra: str) -> str:
    """The Python of an environment that has this checkout and its libraries."""
    settings = ROOT / "pyproject.toml"
    if not settings.is_file():
        raise SetupFailed(
            f"{ROOT}: is not a checkout of the project; run `python -m generator build` instead"
        )
    folder, python, pip = _environment()
    wanted = hashlib.sha256(settings.read_bytes() + str(ROOT).encode() + extra.encode()).hexdigest()
    stamp = folder / f"{STAMP}{'-tests' if extra else ''}"
    if stamp.is_file() and stamp.read_text(encoding="ascii") == wanted:
        return python
    print(f"Installing into {folder} ...", flush=True)
    command = [*pip, "install", "--quiet", "--disable-pip-version-check", "--editable", f"{ROOT}{extra}"]
    if subprocess.call(command):
        raise SetupFailed("pip could not install the libraries; its message is above. Is there a network?")
    stamp.write_text(wanted, encoding="ascii")
    return python


def _environment() -> "tuple[Path, str, list[str]]":
    """Folder, Python and pip of the environment in use, or of `.venv`, made when it is missing."""
    if sys.prefix != sys.base_prefix:
        folder, python = Path(sys.prefix), sys.executable
    else:
        folder = ROOT / ".venv"
        python = str(_python_of(folder))
        if not Path(python).exists():
            print(f"Making {folder} ...", flush=True)
            venv.EnvBuilder(
                with_pip=_has("ensurepip"), clear=folder.exists(), symlinks=os.name != "nt"
            ).create(folder)
    if subprocess.call([python, "-c", "import pip"], stderr=subprocess.DEVNULL) == 0:
        return folder, python, [python, "-m", "pip"]
    if _has("pip"):
        return folder, python, [sys.executable, "-m", "pip", "--python", python]
    other = shutil.which("pip3") or shutil.which("pip")
    if other:
        return folder, python, [other, "--python", python]
    raise SetupFailed("pip is missing; install it (it comes with Python, or as python3-pip), then try again")


def _python_of(folder: Path) -> Path:
    """Where a virtual environment has its Python on this system."""
    scripts = sysconfig.get_path("scripts", "venv", {"base": str(folder)})
    return Path(scripts) / ("python.exe" if os.name == "nt" else "python")


def _has(module: str) -> bool:
    return importlib.util.find_spec(module) is not None


def _browser(python: str) -> None:
    """The browser tests need a Chromium; without one, and without a download, pytest says what it skips."""
    if any(map(shutil.which, BROWSERS)):
        return
    print("No Chromium found; fetching one for the browser tests ...", flush=True)
    try:
        failed = subprocess.call([python, "-m", "playwright", "install", "chromium"], timeout=BROWSER_SECONDS)
    except subprocess.TimeoutExpired:
        failed = 1
    if failed:
        print("That did not work; install Chromium to run the browser tests.", file=sys.stderr)


def _run(python: str, *words: str) -> int:
    return subprocess.call([python, *words], cwd=ROOT)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
