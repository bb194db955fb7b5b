"""How a whole site grows with its archive, and what one changed job costs in it.

    python tests/benchmarks/archive_of_many.py [N ...]        the usual: 100 1000 5000 20000

For every N one archive of varied jobs is made and built from nothing; then, in that archive, built again
with nothing changed, with one job changed, with one entry in a log, and while it is served. It prints
ratios, since seconds alone say little on a busy machine: time for a job beside that at 1,000 jobs, a change
beside the full build; further the most memory, the heaviest page and list, and, up to 1,000 jobs, whether
the bytes are those of a build without a cache. Not a test: nothing here passes or fails. 20,000 jobs take a
quarter of an hour.
"""

from __future__ import annotations

import os
import resource
import signal
import socket
import subprocess
import sys
import tempfile
import time
import urllib.request
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Final, NamedTuple

from many_jobs import many_jobs

ROOT: Final = Path(__file__).resolve().parents[2]
USUAL: Final = (100, 1000, 5000, 20000)
COMPARED: Final = 1000  # jobs: up to here the bytes are compared with those of a build without a cache
MOST_WAIT: Final = 1200.0  # seconds for what is served


class Built(NamedTuple):
    """What a build took: seconds on the clock, of processors, and the most memory of one process, MB."""

    clock: float
    processor: float
    memory: float
    said: str


def build(home: Path, *options: str) -> Built:
    """Build the site in a process of its own."""
    before, begun = resource.getrusage(resource.RUSAGE_CHILDREN), time.monotonic()
    command = [sys.executable, "-m", "generator", "build", *options]
    run = subprocess.run(command, cwd=home, env=_environment(), capture_output=True, text=True, check=False)
    clock, after = time.monotonic() - begun, resource.getrusage(resource.RUSAGE_CHILDREN)
    if not run.stdout.startswith("Built"):
        raise RuntimeError(run.stderr[-2000:])
    used = after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime
    return Built(clock, used, after.ru_maxrss / 1024, run.stdout.splitlines()[0])


def _environment() -> dict[str, str]:
    return {**os.environ, "PYTHONPATH": str(ROOT), "NO_MKDOCS_2_WARNING": "1"}


def change_a_job(home: Path, word: str) -> Path:
    """Write another title into a job in the middle of the archive; returns its file."""
    files = sorted((home / "jobs").glob("[12]*/*/job.yml"))
    file = files[len(files) // 2]
    lines = file.read_text(encoding="utf-8").splitlines()
    lines[1] = f"title: Changed part, {word}"
    file.write_text("\n".join(lines) + "\n", encoding="utf-8")
    return file


def log_something(home: Path) -> None:
    """Append to the log of another job."""
    file = sorted((home / "jobs").glob("[12]*/*/log.yml"))[7]
    text = file.read_text(encoding="utf-8")
    file.write_text(f"{text}- {{at: 2026-11-02, note: Oiled the ways.}}\n", encoding="utf-8")


@contextmanager
def served(home: Path) -> Iterator[str]:
    """The site as it is served, at this address, once it answers."""
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    command = [sys.executable, "-m", "generator", "serve", "--addr", f"127.0.0.1:{port}"]
    running = subprocess.Popen(
        command, cwd=home, env=_environment(), stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
        preexec_fn=lambda: signal.signal(signal.SIGINT, signal.SIG_DFL),  # it may be ignored here
    )
    try:
        yield f"http://127.0.0.1:{port}/"
    finally:
        running.send_signal(signal.SIGINT)
        running.wait(60)


def wait_for(address: str, text: str) -> float:
    """Seconds until the page has the text."""
    begun = time.monotonic()
    while time.monotonic() - begun < MOST_WAIT:
        try:
            with urllib.request.urlopen(address, timeout=5) as answer:
                if text in answer.read().decode("utf-8"):
                    return time.monotonic() - begun
        except OSError:
            pass
        time.sleep(0.05)
    raise RuntimeError(f"{address}: {text!r} was not served")


def page_of(file: Path) -> str:
    """Where the sheet of a job stands in the site."""
    return f"sheets/{file.parent.parent.name}/{file.parent.name}.html"


def tree(site: Path) -> dict[str, bytes]:
    """Every file of the site with what it holds."""
    return {
        path.relative_to(site).as_posix(): path.read_bytes() for path in site.rglob("*") if path.is_file()
    }


def heaviest(site: Path) -> str:
    """The heaviest page of a job, list, and script that lists jobs, kB."""
    sizes: dict[str, tuple[int, str]] = {}
    for path in site.rglob("*"):
        name = path.relative_to(site).as_posix()
        kind = (
            "page" if name.startswith("sheets") else "data" if path.suffix == ".js" and "/" in name
            else "list" if path.suffix == ".html" else ""
        )
        if kind and path.is_file():
            sizes[kind] = max(sizes.get(kind, (0, "")), (path.stat().st_size, name))
    return ", ".join(f"{kind} {size / 1000:.0f} kB ({name})" for kind, (size, name) in sorted(sizes.items()))


def measure(count: int, home: Path, for_a_job: float | None) -> float:
    """Build and change one archive, and print what it took; returns the seconds for a job."""
    many_jobs(count, home / "jobs")
    full = build(home)
    each = full.clock / count
    beside = f", {each / for_a_job:.2f} times that of the size before" if for_a_job else ""
    print(f"{count:,} jobs: {full.clock:.1f} s, {each * 1000:.1f} ms a job{beside}; {full.said}")
    print(f"  most memory of one process {full.memory:.0f} MB; {heaviest(home / 'site')}")
    if count <= COMPARED:
        first = tree(home / "site")
        change_a_job(home, "compared")
        build(home)
        kept = tree(home / "site")
        build(home, "--no-cache")
        same = kept == tree(home / "site")
        print(f"  after a change byte-identical to a build without a cache: {'yes' if same else 'NO'}")
        print(f"  files that a change touched: {sum(first.get(name) != kept[name] for name in kept)}")
    build(home)
    nothing = build(home)
    change_a_job(home, "one")
    one = build(home)
    log_something(home)
    logged = build(home)
    for what, took in (("nothing", nothing), ("one job", one), ("one log", logged)):
        share = took.clock / full.clock
        print(f"  {what} changed: {took.clock:.2f} s, {share:.2%} of the full build; {took.said}")
    with served(home) as address:
        file = sorted((home / "jobs").glob("[12]*/*/job.yml"))[count // 2]
        wait_for(address + page_of(file), "Changed part, one")
        change_a_job(home, "served")
        took = wait_for(address + page_of(file), "Changed part, served")
    print(f"  one job changed while served: shown after {took:.2f} s", flush=True)
    return each


def main(counts: tuple[int, ...]) -> None:
    """Measure archives of these sizes."""
    before = None
    for count in counts:
        with tempfile.TemporaryDirectory(dir=os.environ.get("BENCHMARK_FOLDER")) as folder:
            before = measure(count, Path(folder), before)


if __name__ == "__main__":
    main(tuple(int(one) for one in sys.argv[1:]) or USUAL)
