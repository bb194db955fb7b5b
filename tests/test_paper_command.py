"""The command `paper`, and reading a code back: what is private stays out, and every refusal says why."""

from __future__ import annotations

import builtins
from pathlib import Path
from typing import Any

import pytest
import segno
from PIL import Image

from generator.errors import SheetError
from generator.paper_reading import read_paper
from generator.render.paper_code import MOST_BYTES, paper_code
from tests.small_shop import Run, runner, small_shop

JOB = b"job: SW-1\nwork: []\n"


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    return small_shop(tmp_path, ("SW-113-bollard-spindle", "SW-110-windshaft"))


@pytest.fixture
def run(shop: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Run:
    return runner(shop, monkeypatch, capsys, "paper")


def code(path: Path, *texts: bytes) -> Path:
    """A picture of codes side by side."""
    codes = []
    for number, text in enumerate(texts):
        part = path.with_name(f"{number}.png")
        segno.make_qr(text, error="m", mode="byte").save(str(part), scale=4, border=4)
        codes.append(Image.open(part).convert("L"))
    whole = Image.new("L", (sum(one.width for one in codes), max(one.height for one in codes)), 255)
    left = 0
    for one in codes:
        whole.paste(one, (left, 0))
        left += one.width
    whole.save(path)
    return path


def test_what_is_private_to_the_customer_is_on_the_page_only_when_asked_for(run: Run, shop: Path) -> None:
    status, out, err = run("SW-110")
    page = (shop / "SW-110-paper.html").read_text(encoding="utf-8")
    assert (status, err) == (0, "")
    private = ("telephone 2026-04-20", "next size down")
    assert not any(words in page for words in private)
    assert "what was agreed with the customer (agreed)" in page
    assert "what was agreed with the customer (agreed)" in out
    assert run("SW-110", "--with", "customer")[0] == 0
    page = (shop / "SW-110-paper.html").read_text(encoding="utf-8")
    assert "Private to the customer" not in page
    assert ">Customer<" in page


def test_hostile_words_are_only_words(run: Run, shop: Path) -> None:
    (job,) = shop.glob("jobs/2026/SW-110-*/job.yml")
    text = job.read_text(encoding="utf-8").splitlines()
    text = ["title: '</style><script>alert(1)</script>'" if one.startswith("title:") else one for one in text]
    job.write_text("\n".join(text) + "\n", encoding="utf-8")
    assert run("SW-110")[0] == 0
    assert "<script" not in (shop / "SW-110-paper.html").read_text(encoding="utf-8")


def test_anothers_file_stays_and_an_earlier_page_is_replaced(run: Run, shop: Path) -> None:
    (shop / "mine.html").write_text("mine", encoding="utf-8")
    status, _, err = run("SW-113", "-o", "mine.html")
    assert (status, (shop / "mine.html").read_text(encoding="utf-8")) == (2, "mine")
    assert "was not written by this command" in err
    assert [run("SW-113")[0], run("SW-113")[0]] == [0, 0]


def test_a_job_with_errors_has_no_page(run: Run, shop: Path) -> None:
    (job,) = shop.glob("jobs/2026/SW-110-*/job.yml")
    job.write_text(job.read_text(encoding="utf-8") + "nonsense: 1\n", encoding="utf-8")
    status, out, err = run("SW-110")
    assert (status, out) == (1, "")
    assert ": nonsense: " in err
    assert not (shop / "SW-110-paper.html").exists()


@pytest.mark.parametrize(("size", "over"), [(2331, 0), (2332, 0), (MOST_BYTES, 0), (MOST_BYTES + 1, 1)])
def test_the_largest_file_that_fits_is_that_of_the_standard(size: int, over: int) -> None:
    """ISO/IEC 18004, version 40: 2331 bytes at level M, 2953 at level L."""
    assert paper_code(b"a" * size).over == over


def test_of_several_codes_the_one_that_is_a_job_is_read(tmp_path: Path) -> None:
    assert read_paper(code(tmp_path / "c.png", b"https://a.example/", JOB)) == JOB
    signs = "job: SW-1\nwork: []\ntitle: Ø 63 × 2, Čep\n".encode()
    assert read_paper(code(tmp_path / "d.png", signs)) == signs


def test_what_holds_no_job_is_refused_with_what_to_do(tmp_path: Path) -> None:
    def said(path: Path) -> str:
        with pytest.raises(SheetError) as caught:
            read_paper(path)
        return str(caught.value)

    assert "2 codes in it are job files" in said(code(tmp_path / "a.png", JOB, JOB.replace(b"1", b"2")))
    assert "is not a job file" in said(code(tmp_path / "b.png", b"job: x\n"))
    Image.new("L", (200, 200), 255).save(tmp_path / "white.png")
    assert "no code can be read in it; take it again" in said(tmp_path / "white.png")
    (tmp_path / "text.png").write_text("no picture", encoding="utf-8")
    assert "is not a JPEG, PNG, WebP or GIF picture" in said(tmp_path / "text.png")
    assert "cannot be read: no such file" in said(tmp_path / "none.png")
    Image.new("1", (9000, 9000)).save(tmp_path / "wide.png")
    assert "9000 × 9000 pixels: make it smaller" in said(tmp_path / "wide.png")
    assert "is not a file" in said(tmp_path)


def test_without_the_library_it_says_what_to_install(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    real = builtins.__import__

    def lacking(name: str, *rest: Any) -> Any:
        if name == "zxingcpp":
            raise ImportError(name)
        return real(name, *rest)

    monkeypatch.setattr(builtins, "__import__", lacking)
    with pytest.raises(SheetError, match=r"needs the library zxing-cpp: pip install"):
        read_paper(tmp_path / "any.png")
