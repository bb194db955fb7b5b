"""How much a sheet costs in the site, beside an ordinary page of mkdocs-material with the same content.

    python tests/benchmarks/sheets_beside_pages.py [N]

One run makes an archive of N varied jobs and builds it from nothing: every job read, checked, computed,
drawn, written, listed and made searchable. Then the same N finished sheets are built as pages of mkdocs with
its theme, as one has them who sets nothing: Markdown with the sheets' HTML in it, out of the menu, with the
theme's search; and once more without search. It prints the ratio of the processor time of all processes, with
the start of each; seconds alone say little on a busy machine. Not a test: nothing here passes or fails.
"""

from __future__ import annotations

import os
import re
import resource
import subprocess
import sys
import tempfile
from pathlib import Path
from typing import Final

from many_jobs import many_jobs

ROOT: Final = Path(__file__).resolve().parents[2]
SHEET: Final = re.compile(r"<article class=\"sheet.*?</article>", re.DOTALL)
PLAIN: Final = (
    "site_name: Plain\nsite_dir: plain\nnot_in_nav: '*.md'\nnav: [index.md]\n"
    "theme: {name: material, font: false}\n"
)


def seconds(home: Path, *words: str) -> float:
    """Processor time of a module run in `home`, with all processes that it starts."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    here = {**os.environ, "PYTHONPATH": str(ROOT), "NO_MKDOCS_2_WARNING": "1"}
    subprocess.run(
        [sys.executable, "-m", *words], check=True, env=here, cwd=home, stdout=subprocess.DEVNULL
    )
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def main(count: int) -> None:
    """Build both sites and print what each took."""
    with tempfile.TemporaryDirectory() as folder:
        home = Path(folder)
        many_jobs(count, home / "jobs")
        sheets = seconds(home, "generator", "build")

        docs = home / "docs"
        docs.mkdir()
        (docs / "index.md").write_text("# Pages\n", encoding="utf-8")
        pages = sorted((home / "site" / "sheets").rglob("*.html"))
        bodies = [found[0] for page in pages if (found := SHEET.search(page.read_text(encoding="utf-8")))]
        assert len(bodies) >= count, "every job has its sheet"
        for number, body in enumerate(bodies):
            (docs / f"{number:05}.md").write_text(f"# Page {number}\n\n{body}\n", encoding="utf-8")
        (home / "plain.yml").write_text(PLAIN, encoding="utf-8")
        plain = seconds(home, "mkdocs", "build", "--quiet", "--config-file", "plain.yml")
        (home / "plain.yml").write_text(f"{PLAIN}plugins: []\n", encoding="utf-8")
        without_search = seconds(home, "mkdocs", "build", "--quiet", "--config-file", "plain.yml")

    print(f"{count} sheets, read, computed, drawn, written, listed and made searchable: {sheets:.1f} s")
    print(f"{len(bodies)} pages of the same content through mkdocs-material, with its search: {plain:.1f} s")
    print(f"the same without the search: {without_search:.1f} s")
    print(f"a sheet costs {sheets / plain:.2f} of a page, {sheets / without_search:.2f} of one without it")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 300)
