"""Files made by what they reach in the readers: coverage-guided, for as long as it is let run.

    python tests/fuzz/coverage_guided.py KIND SECONDS [FOLDER]     KIND: job, log, lathe, tools, zip

Needs atheris (`pip install atheris`), which is no part of the tests. What is found is kept in the folder, and
read again the next time. It ends with a traceback and the file where a reader does what it should not.

What it found: nothing, in 45 s of each kind on 2026-11-26 (28,478 job files, 46,169 logs, 21,255 lathes,
22,918 files of tools, millions of zips); what was wrong had been found before, by the tests and by hand.
"""

from __future__ import annotations

import sys
import tempfile
from collections.abc import Callable
from pathlib import Path

import atheris

with atheris.instrument_imports(include=["generator"]):
    from generator.errors import Fault, JobProblems
    from generator.job.lathe import Lathe
    from generator.job.log import LogFile  # noqa: F401  # instrumented here
    from generator.job.reading import read_checked, read_job, read_log, read_shop
    from generator.job.shop import Tools
    from generator.pack.contents import PackRefused
    from generator.pack.zipped import unzipped, zipped

ROOT = Path(__file__).resolve().parents[2]
HERE = Path(tempfile.mkdtemp(prefix="fuzz-"))
SHOP = read_shop(ROOT / "jobs" / "_shop")
LONGEST = 20_000  # bytes


def _read(name: str, read: Callable[[Path], object]) -> Callable[[bytes], None]:
    path = HERE / name

    def one(data: bytes) -> None:
        path.write_bytes(data)
        try:
            read(path)
        except JobProblems as error:
            _located(error, path)

    return one


def _located(error: JobProblems, path: Path) -> None:
    if not error.problems:
        raise AssertionError("refused without a word") from error
    for one in error.problems:
        if isinstance(one, Fault) or one.location.path != path or not one.message.strip():
            raise AssertionError(f"{one!r} tells neither place nor reason") from error


def _log(data: bytes) -> None:
    log = read_log(HERE / "log.yml", "inch", "mm", data)
    if log.problems:
        _located(JobProblems(log.problems), HERE / "log.yml")


def _zip(data: bytes) -> None:
    try:
        unzipped(data)
    except PackRefused as refused:
        if not str(refused).isprintable():
            raise AssertionError(str(refused)) from refused


KINDS: dict[str, tuple[Callable[[bytes], None], str]] = {
    "job": (_read("job.yml", lambda path: read_job(path, SHOP)), "2*/*/job.yml"),
    "log": (_log, "2*/*/log.yml"),
    "lathe": (_read("lathe.yml", lambda path: read_checked(path, Lathe)), "_shop/lathes/*.yml"),
    "tools": (_read("tools.yml", lambda path: read_checked(path, Tools)), "_shop/tools.yml"),
    "zip": (_zip, ""),
}


def main(kind: str, seconds: str, folder: str = "") -> None:
    """Run until the time is over, or something is found."""
    one, pattern = KINDS[kind]
    corpus = Path(folder or HERE / "corpus")
    corpus.mkdir(parents=True, exist_ok=True)
    for number, path in enumerate(sorted((ROOT / "jobs").glob(pattern)) if pattern else ()):
        (corpus / f"demo-{number}").write_bytes(path.read_bytes())
    if kind == "zip":
        said = {"job": "J", "title": "T", "shop": "S", "lathe": "L", "left_out": ()}
        (corpus / "whole").write_bytes(zipped({"job/job.yml": b"job: J\n"}, **said))
    atheris.Setup(
        [sys.argv[0], str(corpus), f"-max_total_time={seconds}", f"-max_len={LONGEST}", "-timeout=20"], one
    )
    atheris.Fuzz()


if __name__ == "__main__":
    main(*sys.argv[1:])
