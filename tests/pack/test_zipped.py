"""The zip: it comes back as it went, the same bytes each time, and nothing made to harm gets through."""

from __future__ import annotations

import io
import shutil
import subprocess
import zipfile
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.pack.contents import PackRefused, kind_of, picture_name
from generator.pack.zipped import unzipped, zipped
from tests.pack.hostile_zips import Hostile, hostile_zips, packed

FILES = {"job/job.yml": b"job: SW-1\n", "shop/house.yml": b"shop: S\n", "job/a 1.jpg": bytes(range(256)) * 99}
SAID = {"job": "SW-1", "title": "Pin", "shop": "S", "lathe": "L", "left_out": ("the log",)}
HOSTILE = dict(hostile_zips())


def test_the_files_come_back_as_they_went() -> None:
    manifest, files = unzipped(zipped(FILES, **SAID))
    assert files == FILES
    assert (manifest.job, manifest.left_out) == ("SW-1", ("the log",))


def test_the_same_files_give_the_same_bytes() -> None:
    assert zipped(FILES, **SAID) == zipped(dict(reversed(FILES.items())), **SAID)


def test_another_program_unpacks_it(tmp_path: Path) -> None:
    unzip = shutil.which("unzip")
    if unzip is None:
        pytest.skip("no unzip on this machine")
    (tmp_path / "x.zip").write_bytes(zipped(FILES, **SAID))
    subprocess.run([unzip, "-q", "x.zip"], cwd=tmp_path, check=True)
    assert {name: (tmp_path / name).read_bytes() for name in FILES} == FILES


def test_what_the_hostile_ones_are_made_of_is_itself_taken() -> None:
    assert unzipped(packed(FILES))[1] == FILES


@pytest.mark.parametrize("how", HOSTILE)
def test_a_hostile_zip_is_refused_in_plain_words(how: str) -> None:
    made: Hostile = HOSTILE[how]
    with pytest.raises(PackRefused) as refused:
        unzipped(made(FILES))
    said = str(refused.value)
    assert said
    assert said.isprintable()
    assert len(said) < 300


@settings(max_examples=300, deadline=None)
@given(st.data())
def test_a_zip_with_bytes_written_over_is_the_same_or_refused(data: st.DataObject) -> None:
    whole = bytearray(zipped(FILES, **SAID))
    for _ in range(data.draw(st.integers(1, 6))):
        whole[data.draw(st.integers(0, len(whole) - 1))] = data.draw(st.integers(0, 255))
    try:
        _, files = unzipped(bytes(whole))
    except PackRefused:
        return
    assert files == FILES


@settings(max_examples=300, deadline=None)
@given(st.text(max_size=40), st.sampled_from(["", ".jpg", ".png", ".yml"]))
def test_a_name_that_has_a_kind_leads_nowhere_else(name: str, end: str) -> None:
    inside = f"job/{name}{end}"
    if kind_of(inside) is not None:
        assert Path("folder", inside).resolve().parent == Path("folder/job").resolve()
        assert not set(inside) & set('\\:*?"<>|\0')
        assert picture_name(inside) in ("", inside[4:])


def test_a_zip_by_another_program_with_the_same_files_is_taken() -> None:
    with zipfile.ZipFile(io.BytesIO(zipped(FILES, **SAID))) as ours:
        target = io.BytesIO()
        with zipfile.ZipFile(target, "w", zipfile.ZIP_STORED) as other:
            for name in reversed(ours.namelist()):
                other.writestr(name, ours.read(name))
    assert unzipped(target.getvalue())[1] == FILES
