"""Pictures beside a job file are shown on its sheet and redrawn into the site; no other file is."""

from __future__ import annotations

import io
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest
from PIL import Image

from generator import pictures
from generator.errors import JobProblems
from generator.job.reading import read_job
from generator.site.entry import Archive

Built = Callable[[], tuple[Archive, str, Path]]
JOBS = Path(__file__).parents[2] / "jobs"
FOLDER = "SW-109-brake-pull-rod"  # a job without pictures of its own
GPS = 34853


def photo(size: tuple[int, int] = (60, 40), kind: str = "JPEG") -> bytes:
    """A picture that says where it was taken."""
    notes = Image.Exif()
    notes.get_ifd(GPS)[27] = b"SECRETPLACE"
    out = io.BytesIO()
    Image.new("RGB", size, "white").save(out, kind, exif=notes)
    return out.getvalue()


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The folder of one job, in an archive of its own."""
    monkeypatch.setattr(pictures, "cache_folder", lambda: tmp_path / "cache")
    pictures._shown.cache_clear()
    shutil.copytree(JOBS / "_shop", tmp_path / "jobs" / "_shop")
    folder = tmp_path / "jobs" / "2026" / FOLDER
    shutil.copytree(JOBS / "2026" / FOLDER, folder)
    return folder


def with_photos(folder: Path, photos: str) -> int:
    """Write the key into the job file; returns the line it stands on."""
    path = folder / "job.yml"
    text = path.read_text(encoding="utf-8") + f"photos: {photos}\n"
    path.write_text(text, encoding="utf-8")
    return text.count("\n")


@pytest.fixture
def built(folder: Path, make_pages: Callable[[Path], Archive]) -> Callable[[], tuple[Archive, str, Path]]:
    """Gives the archive, the sheet's text, and the folder of its pictures in the site."""

    def made() -> tuple[Archive, str, Path]:
        archive = make_pages(folder.parents[1])
        page = folder.parents[2] / "site" / archive.entries[0].page
        return archive, page.read_text(encoding="utf-8"), page.with_suffix("")

    return made


def test_a_picture_stands_on_the_sheet_with_its_caption_and_without_its_notes(
    folder: Path, built: Built
) -> None:
    (folder / "intake 1.jpg").write_bytes(photo())
    (folder / "notes.txt").write_text("private", encoding="utf-8")
    (folder / "unnamed.jpg").write_bytes(photo())
    with_photos(folder, '[intake 1.jpg, {file: intake 1.jpg, caption: "As it <came> in"}]')
    _, text, shown = built()
    assert f'src="{FOLDER}/intake%201.jpg" alt="intake 1.jpg" width="60" height="40"' in text
    assert 'alt="As it &lt;came&gt; in"' in text
    assert "<figcaption>As it &lt;came&gt; in</figcaption>" in text
    assert [path.name for path in shown.iterdir()] == ["intake 1.jpg"]
    data = (shown / "intake 1.jpg").read_bytes()
    assert b"SECRETPLACE" in (folder / "intake 1.jpg").read_bytes()
    assert b"SECRETPLACE" not in data
    assert b"Exif" not in data
    assert not Image.open(io.BytesIO(data)).getexif()


@pytest.mark.parametrize(
    ("name", "data", "said"),
    [
        ("lost.png", None, "The picture lost.png is not in the job&#39;s folder"),
        ("words.jpg", b"just words", "is not a JPEG, PNG, WebP or GIF picture"),
        ("half.jpg", photo((900, 900))[:-200], "is damaged or cut short"),
        ("drawing.svg", b"<svg/>", "The picture drawing.svg is left out: SVG is not taken"),
        ("phone.HEIC", b"x", "HEIC is not taken; save it as JPEG"),
    ],
)
def test_a_picture_that_cannot_be_shown_is_a_note_and_the_sheet_is_made(
    folder: Path, built: Built, name: str, data: bytes | None, said: str
) -> None:
    if data is not None:
        (folder / name).write_bytes(data)
    line = with_photos(folder, f"[{name}]")
    archive, text, shown = built()
    assert not archive.problems
    assert said in text
    assert f"job.yml:{line} " in text
    assert "<img" not in text
    assert not shown.exists()


def test_the_place_of_a_note_has_line_and_column(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    from generator.__main__ import main

    line = with_photos(folder, "[{file: lost.png, caption: x}]")
    assert main(["check", str(folder / "job.yml")]) == 0
    said = [words for words in capsys.readouterr().out.splitlines() if "picture-missing" in words]
    assert len(said) == 1
    assert f"job.yml:{line}:17: note: " in said[0]


def test_a_picture_with_the_name_of_another_kind_is_shown_by_what_it_is(folder: Path, built: Built) -> None:
    (folder / "really-a-photo.png").write_bytes(photo())
    with_photos(folder, "[really-a-photo.png]")
    _, text, shown = built()
    assert "is shown, but it is a JPEG picture: its name should end so." in text
    assert [path.name for path in shown.iterdir()] == ["really-a-photo.png.jpg"]


@pytest.mark.parametrize("name", ["../../secret.jpg", "/etc/passwd", "notes.txt", "a\\b.png", ".hidden.png"])
@pytest.mark.parametrize("form", ["['{}']", "[{{file: '{}', caption: x}}]"])
def test_a_name_that_is_no_picture_beside_the_job_is_refused(folder: Path, name: str, form: str) -> None:
    line = with_photos(folder, form.format(name))
    with pytest.raises(JobProblems, match="is not a picture beside the job file") as caught:
        read_job(folder / "job.yml")
    assert [problem.location.line for problem in caught.value.problems] == [line]


def test_the_demo_jobs_have_their_sketches() -> None:
    for name in ("SW-101-ramp-hinge-pin", "SW-107-lens-ring", "SW-113-bollard-spindle"):
        read = read_job(JOBS / "2026" / name / "job.yml")
        assert read.job.pictures
        for picture in read.job.pictures:
            assert picture.caption
            with Image.open(read.path.parent / picture.file) as image:
                assert not image.getexif()
