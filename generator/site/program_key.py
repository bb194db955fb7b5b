"""One word for all that goes into every sheet besides its job: program, templates, libraries, the shop."""

from __future__ import annotations

import hashlib
import platform
import re
from importlib.metadata import PackageNotFoundError, requires, version
from pathlib import Path
from typing import Final

import generator

PACKAGE: Final = Path(generator.__file__).resolve().parent
SHEETS: Final = PACKAGE.parent / "site_templates" / "sheet"
DISTRIBUTION: Final = "lathe-setup-sheets"


def program_key() -> str:
    """The program's own files, the templates of the sheets, and the versions of Python and the libraries."""
    return word(folder_key(PACKAGE), folder_key(SHEETS), platform.python_version(), *_libraries())


def folder_key(folder: Path) -> str:
    """Every file below a folder by its name and what it holds; what cannot be read counts as that."""
    found = []
    for path in sorted(folder.rglob("*")):
        if "__pycache__" in path.parts or not path.is_file():
            continue
        try:
            held = hashlib.sha256(path.read_bytes()).hexdigest()
        except OSError as error:
            held = f"unreadable: {error.strerror}"
        found.append(f"{path.relative_to(folder).as_posix()} {held}")
    return word(*found)


def _libraries() -> list[str]:
    """The libraries that the program names as its own, each with the version that is installed."""
    try:
        named = [one for one in requires(DISTRIBUTION) or () if "extra ==" not in one]
    except PackageNotFoundError:  # run from its folder, not installed
        return []
    names = sorted(re.split(r"[^\w.-]", one, maxsplit=1)[0] for one in named)
    return [f"{name} {version(name)}" for name in names]


def word(*parts: str) -> str:
    """One word (SHA-256, in hex) for these words in this order."""
    return hashlib.sha256("\n".join(parts).encode("utf-8", "surrogateescape")).hexdigest()
