"""The demo archive in every language: all that is shown is said, nothing is mixed, figures are the same."""

from __future__ import annotations

import re
import shutil
import subprocess
import sys
from collections import Counter
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from generator.language.uk import WORDS, in_uk_words
from tests.language.shown import outside_of_marks, texts_of, without_marks

ROOT = Path(__file__).resolve().parents[2]
NUMBER = re.compile(r"(?<=\d)[.,](?=\d)")
WORD = re.compile(r"[^\W\d_]{2,}")
LANGUAGE = re.compile(r"\b(?:en-XA|en-GB|en)\b")
THEME = {"Table of contents"}  # the theme's own words, which it has in its own languages
SHEETS = "sheets/*/*.html"
UNITS = {  # signs, names and numbers of standards, files: the same in every language
    "in", "mm", "ft", "min", "max", "rpm", "lbf", "kN", "lb", "kg", "hp", "kW", "psi", "MPa", "rad", "rev",
    "deg", "Hz", "thou", "µin", "µm", "mm²", "in²", "in³", "mm³", "in⁴", "mm⁴", "cos", "sin", "tan", "arctan",
    "arc", "yml", "jobs", "house", "tools", "lathes",
}


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> Callable[[str], Path]:
    """The demo archive's site in a language: `built("de")`; each once, in a process of its own."""
    sites: dict[str, Path] = {}

    def site(code: str) -> Path:
        if code not in sites:
            home = tmp_path_factory.mktemp(code)
            shutil.copytree(ROOT / "jobs", home / "jobs")
            house = home / "jobs" / "_shop" / "house.yml"
            text = house.read_text(encoding="utf-8")
            house.write_text(re.sub("(?m)^language: en$", f"language: {code}", text), encoding="utf-8")
            subprocess.run(
                [sys.executable, "-m", "generator", "build", "--no-cache"], check=True, cwd=home,
                capture_output=True, env={"PYTHONPATH": str(ROOT), "NO_MKDOCS_2_WARNING": "1"},
            )  # fmt: skip
            sites[code] = home / "site"
        return sites[code]

    return site


@pytest.fixture(scope="module")
def own() -> set[str]:
    """Every word that the shop's own files have."""
    files = [path for path in (ROOT / "jobs").rglob("*") if path.suffix in {".yml", ".md"}]
    return {word for path in files for word in WORD.findall(path.read_text(encoding="utf-8"))}


def pages(site: Path, which: str = "**/*.html", drawings: bool = True) -> Iterator[tuple[str, list[str]]]:
    """Each page by its name, with its texts."""
    for path in sorted(site.glob(which)):
        yield path.relative_to(site).as_posix(), texts_of(path.read_text(encoding="utf-8"), drawings)


def alike(texts: list[str]) -> Counter[str]:
    """The words of a page, each as often as it stands there, but for the decimal signs."""
    whole = NUMBER.sub(".", " ".join(without_marks(text).replace("..", ".") for text in texts))
    return Counter(LANGUAGE.sub("xx", whole).split())


def test_a_sheet_without_its_marks_is_the_english_one(
    demo_site: Path, built: Callable[[str], Path]
) -> None:
    """So nothing is chosen, compared, ordered or cut by a text that is said.

    Drawings are left out, as longer lettering goes to other places; and heavy pages, whose longest parts are
    packed.
    """
    marked = dict(pages(built("en-XA"), SHEETS, drawings=False))
    compared = 0
    for name, english in pages(demo_site, SHEETS, drawings=False):
        if not any("packed into it" in text for text in (*english, *marked[name])):
            more, less = alike(marked[name]) - alike(english), alike(english) - alike(marked[name])
            assert set(more) <= {"29.5°", "written", "“29", "degrees”"}, name  # the usual angle, in words
            assert set(less) <= {"29", "degrees"}, name
            compared += 1
    assert compared > 20


def test_all_that_a_sheet_shows_is_said(built: Callable[[str], Path], own: set[str]) -> None:
    """What stands outside of the marks is what the shop's files say, and signs that every language has."""
    unsaid = {
        piece: name
        for name, texts in pages(built("en-XA"), SHEETS)
        for piece in outside_of_marks(texts) if piece not in THEME
        if {word for word in WORD.findall(piece) if word.islower()} - UNITS - own
    }
    assert unsaid == {}


def test_german_sheets_have_decimal_commas(built: Callable[[str], Path]) -> None:
    """Points stay in designations, in the files' own words, in formulas and in names of standards."""
    with_unit = re.compile(r"\d\.\d+ (?:in|mm|lbf|N|kN|mm/rev|in/rev|psi|MPa|hp|kW)\b")
    commas = re.compile(r"\d,\d+ (?:in|mm|lbf|N|kN|mm/rev|in/rev|psi|MPa|hp|kW)\b")
    files = " ".join(path.read_text(encoding="utf-8") for path in (ROOT / "jobs").rglob("*.yml"))
    pointed: list[tuple[str, str]] = []
    for name, texts in pages(built("de"), SHEETS):
        whole = " ".join(texts)
        assert len(commas.findall(whole)) > 20, name
        pointed += [
            (name, found) for found in with_unit.findall(whole) if found.partition(" ")[0] not in files
        ]
    assert pointed == []


# -- American and British words ----------------------------------------------------------------------------


AMERICAN = re.compile(rf"\b(?:{'|'.join(WORDS)})\b", re.IGNORECASE)
BOTH = {"gauge", "gauges", "towards", "carrier", "carriers", "bush", "grey", "aluminium"}  # or keys of files
BRITISH = re.compile(rf"\b(?:{'|'.join({*WORDS.values(), 'top slide'} - BOTH)})\b", re.IGNORECASE)
ELSEWHERE = {  # pages that list both words, the keys of files, what a shop wrote
    "words.html", "files.html", "what-each-job-shows.html",
}
AROUND = 12  # signs on one side, by which a word of the shop's own is told


def foreign(texts: list[str], words: re.Pattern[str], own: str) -> Iterator[str]:
    """Places with such words that do not stand so in a file of the shop, and are no key or part of a name."""
    for text in texts:
        for found in words.finditer(text):
            first, end = found.span()
            theirs = text[max(0, first - AROUND):end] in own or text[first:end + AROUND] in own
            if not (theirs or text[first - 1:first] in {*".-_"} or text[end:end + 1] in {*".-_:"}):
                yield text[max(0, first - 40):end + 40]


@pytest.mark.parametrize(("code", "words"), [("en", BRITISH), ("en-GB", AMERICAN)], ids=["en", "en-GB"])
def test_no_page_mixes_american_and_british_words(
    demo_site: Path, built: Callable[[str], Path], code: str, words: re.Pattern[str]
) -> None:
    files = [path for path in (ROOT / "jobs").rglob("*") if path.suffix in {".yml", ".md"}]
    own = " ".join(" ".join(path.read_text(encoding="utf-8").split()) for path in files)
    mixed = {
        place: name
        for name, texts in pages(demo_site if code == "en" else built(code))
        if name not in ELSEWHERE
        for place in foreign(texts, words, own)
    }
    assert mixed == {}


def test_a_british_sheet_is_the_american_one_with_other_words(
    demo_site: Path, built: Callable[[str], Path]
) -> None:
    """Figures, order and drawings are the same; a job's own words too."""
    british = dict(pages(built("en-GB"), SHEETS, drawings=False))
    for name, american in pages(demo_site, SHEETS, drawings=False):
        one, other = (in_uk_words(" ".join(texts)) for texts in (british[name], american))
        assert alike([one]) == alike([other]), name
