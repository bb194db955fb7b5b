"""How much a sheet costs in the site, beside an ordinary page of mkdocs with the same content.

    python tests/benchmarks/sheets_beside_pages.py [N]

One run builds N sheets and then the same N finished pages as pages of mkdocs, each in a process of its own,
and prints the ratio of the processor time of all their processes; seconds alone say little on a busy machine.
Not a test: nothing here passes or fails.
"""

from __future__ import annotations

import os
import resource
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

from generator.render.environment import templates_folder
from generator.site.archive import make_entry, try_shop

ROOT = Path(__file__).resolve().parents[2]
SAMPLE = "SW-101-ramp-hinge-pin"


def seconds(settings: Path) -> float:
    """Processor time of a build, with all processes that it starts."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    here = {**os.environ, "PYTHONPATH": str(ROOT), "NO_MKDOCS_2_WARNING": "1"}
    command = [sys.executable, "-m", "mkdocs", "build", "--quiet", "--config-file", str(settings)]
    subprocess.run(command, check=True, env=here, cwd=settings.parent)
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def main(count: int) -> None:
    """Build both sites and print what each took."""
    with tempfile.TemporaryDirectory() as folder:
        home = Path(folder)
        jobs = home / "jobs"
        shutil.copytree(ROOT / "jobs" / "_shop", jobs / "_shop")
        text = (ROOT / "jobs" / "2026" / SAMPLE / "job.yml").read_text(encoding="utf-8")
        for number in range(count):
            job = jobs / "2026" / f"B-{number:05}-pin" / "job.yml"
            job.parent.mkdir(parents=True)
            job.write_text(text.replace("SW-101", f"B-{number:05}"), encoding="utf-8")
        settings = home / "mkdocs.yml"
        settings.write_text(
            f"INHERIT: {(templates_folder() / 'mkdocs.yml').as_posix()}\n"
            f"docs_dir: {(templates_folder() / 'pages').as_posix()}\n"
            f"theme: {{custom_dir: {(templates_folder() / 'theme').as_posix()}}}\n",
            encoding="utf-8",
        )
        sheets = seconds(settings)

        body = make_entry(jobs / "2026" / "B-00000-pin" / "job.yml", try_shop(jobs / "_shop")).body
        docs = home / "docs"
        docs.mkdir()
        (docs / "index.md").write_text("# Pages\n", encoding="utf-8")
        for number in range(count):
            (docs / f"{number:05}.md").write_text(f"# Page {number}\n\n{body}\n", encoding="utf-8")
        plain = home / "plain.yml"
        plain.write_text(
            "site_name: Plain\nsite_dir: plain\nnot_in_nav: '*.md'\nnav: [index.md]\nplugins: []\n"
            "theme: {name: material, font: false}\n",
            encoding="utf-8",
        )
        pages = seconds(plain)

    print(f"{count} sheets, read, computed, written and made searchable: {sheets:.2f} s")
    print(f"{count} pages of the same content through mkdocs: {pages:.2f} s")
    print(f"a sheet costs {sheets / pages:.2f} of a page")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 100)
